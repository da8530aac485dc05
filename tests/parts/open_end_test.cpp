// SPDX-License-Identifier: MIT
/// @file
/// Open end: the jet's velocity head, and the creeping end loss.
#include <gtest/gtest.h>

#include <limits>
#include <numbers>

#include <libflow/parts/open_end.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace open_end_test {

using namespace units;

TEST(OpenEnd, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double bore : {1e-4, 0.006, 0.5}) test::expect_lawful(OpenEnd{.bore = bore * m}, liquid);
  }
}

// Exit coefficient 1 (Borda-Carnot; any fluid mechanics text): the drop is rho V^2/2 at high Reynolds number.
TEST(OpenEnd, LosesTheVelocityHead) {
  const auto liquid = test::water();
  const double area = std::numbers::pi * 0.006 * 0.006 / 4.0, v = 20.0;
  EXPECT_NEAR(OpenEnd{.bore = 6.0 * mm}.law(liquid)(area * v).dp / (0.5 * liquid.density * v * v), 1.0, 1e-3);
}

// R. A. Sampson 1891, exact for a thin hole: 24 mu q/d^3 for its two sides, so 12 mu q/d^3 for one.
TEST(OpenEnd, CreepingEndIsHalfAThinHole) {
  for (const auto& liquid : {test::water(), test::thick()}) {
    const double slope = OpenEnd{.bore = 6.0 * mm}.law(liquid)(0.0).slope;
    EXPECT_NEAR(slope * 0.006 * 0.006 * 0.006 / (12.0 * liquid.viscosity), 1.0, 1e-14);
  }
}

TEST(OpenEnd, RefusesBadInput) {
  for (const double bad :
       {0.0, -0.01, 0.51, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    test::expect_refused([&] { OpenEnd{.bore = bad * m}.check("open end 'row 3'"); }, "open end 'row 3', bore");
  }
  test::expect_refused([] { Part(OpenEnd{}, "open end 'empty'"); }, "open end 'empty', bore");
}

}  // namespace open_end_test
}  // namespace libflow
