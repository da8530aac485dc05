// SPDX-License-Identifier: MIT
/// @file
/// The cubic bridge between two friction laws.
#include <gtest/gtest.h>

#include <libflow/physics/join.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace join_test {

using test::Many;

// With the limits of a straight tube it is the transition band that friction_test.cpp holds against published values.
TEST(FrictionJoin, IsTheStraightTubesBand) {
  for (const double rel : {0.0, 1e-4, 0.01, 0.05}) {
    const auto lower = friction_laminar(laminar_limit_re);
    const auto upper = friction_colebrook(turbulent_limit_re, rel);
    for (double re = 2000.0; re <= 4000.0; re += 125.0) {
      const auto band = friction_transition(re, upper);
      const auto join = friction_join(re, laminar_limit_re, lower, turbulent_limit_re, upper);
      EXPECT_NEAR(join.f / band.f, 1.0, 1e-14);
      EXPECT_NEAR(join.slope, band.slope, 1e-14 * band.f);
    }
  }
}

TEST(FrictionJoin, MeetsBothEndsAndHasItsOwnSlope) {
  const FrictionFactor<Many> lower{Many(3), Many(-2)}, upper{Many(7), Many(5)};
  const auto at = [&](const Many& re) { return friction_join<Many>(re, Many(10), lower, Many(14), upper); };
  EXPECT_EQ(at(Many(10)).f, lower.f);
  EXPECT_EQ(at(Many(10)).slope, lower.slope);
  EXPECT_EQ(at(Many(14)).f, upper.f);
  EXPECT_EQ(at(Many(14)).slope, upper.slope);
  for (const double re : {10.5, 11.0, 12.9, 13.7}) {
    const Many slope = test::difference_slope([&](const Many& r) { return at(r).f; }, Many(re));
    EXPECT_LT(abs(at(Many(re)).slope - slope), Many(1e-28));
  }
}

}  // namespace join_test
}  // namespace libflow::physics
