// SPDX-License-Identifier: MIT
/// @file
/// Tees whose branch carries the combined flow: Idelchik's values, and where they join the tees of the other kind.
#include <gtest/gtest.h>

#include <cmath>

#include <libflow/physics/tee_symmetric.hpp>

namespace libflow::physics {
namespace tee_symmetric_test {

// I. E. Idelchik, Handbook of Hydraulic Resistance, 3rd edition, diagram 7-29, equal areas, as another reprint
// states it: one velocity head of the branch and 3 + (1/q)(1/q - 3) heads of the stream itself.
TEST(TeeSymmetric, MeetingMeetsAnotherReprint) {
  for (double q = 0.05; q < 1.0; q += 0.05) {
    EXPECT_NEAR(tee_meeting_shape<double>(q, 1.0), 1.0 + q * q * (3.0 + (1.0 / q - 3.0) / q), 1e-12) << q;
  }
  EXPECT_NEAR(tee_meeting_shape<double>(0.5, 1.0), 1.25, 1e-15);
  EXPECT_NEAR(tee_meeting_shape<double>(0.5, 0.25), 1.015625, 1e-15);
}

// The same diagram: 1 + k (w/wc)^2, half of the flow each way: velocities in the ratio of a/2.
TEST(TeeSymmetric, PartingInHalves) {
  EXPECT_NEAR(tee_parting<double>(0.5, 1.0, tee_parting_threaded), 1.375, 1e-15);
  EXPECT_NEAR(tee_parting<double>(0.5, 1.0, tee_parting_welded), 1.075, 1e-15);
  EXPECT_NEAR(tee_parting<double>(0.5, 0.25, tee_parting_threaded), 1.0 + 1.5 / 64.0, 1e-15);
}

// Idelchik and Crane agree without any scale where the branch's bore is at most 2/3 of the run's; equal bores: 0.845.
TEST(TeeSymmetric, OneStreamAloneIsCranesElbow) {
  for (const double bores : {0.1, 0.3, 0.5, 0.66}) {
    const double a = bores * bores;
    EXPECT_NEAR(tee_meeting<double>(1.0, a), tee_meeting_shape<double>(1.0, a), 1e-12) << bores;
  }
  for (const double a : {0.05, 0.3, 0.5, 0.8, 1.0}) {
    const double run_heads = tee_dividing<double>(1.0, {.area_ratio = a}).branch;
    for (const double q : {0.0, 1.0}) EXPECT_NEAR(tee_meeting<double>(q, a), run_heads * a * a, 1e-12) << a;
    EXPECT_NEAR(tee_meeting<double>(0.3, a), tee_meeting<double>(0.7, a), 1e-12);
    EXPECT_LT(tee_meeting<double>(0.5, a), tee_meeting<double>(0.4, a));
  }
  EXPECT_NEAR(tee_meeting<double>(1.0, 1.0) / tee_meeting_shape<double>(1.0, 1.0), 0.845, 1e-12);
}

}  // namespace tee_symmetric_test
}  // namespace libflow::physics
