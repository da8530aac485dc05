// SPDX-License-Identifier: MIT
/// @file
/// Reducer and barb: contracts, published coefficients in each direction, their bounds.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include <libflow/network/network.hpp>
#include <libflow/parts/barb.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/reducer.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace reducer_test {

using namespace units;

/// All of a passage's contract but sameness in both directions; the way back is held to it by turning the part round.
void expect_lawful_both_ways(const Reducer& reducer, const LiquidState& liquid) {
  for (const Reducer& part : {reducer, Reducer{reducer.to_bore, reducer.from_bore, reducer.cone}}) {
    for (const std::string& fault : unlawful(part, liquid)) {
      EXPECT_NE(fault.find("not the same in both directions"), std::string::npos) << fault;
    }
  }
}

TEST(Reducer, IsLawfulBothWays) {
  static_assert(!Reducer::symmetric);
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double cone : {5.0, 45.0, 180.0}) {
      expect_lawful_both_ways({.from_bore = 20.0 * mm, .to_bore = 10.0 * mm, .cone = cone * deg}, liquid);
      expect_lawful_both_ways({.from_bore = 1.0 * mm, .to_bore = 1.0 * m, .cone = cone * deg}, liquid);
      expect_lawful_both_ways({.from_bore = 10.0 * mm, .to_bore = 10.11 * mm, .cone = cone * deg}, liquid);
    }
  }
}

// Turned round, its law is the other reducer's.
TEST(Reducer, ReversedIsTheOtherReducer) {
  const Reducer narrows{.from_bore = 20.0 * mm, .to_bore = 12.0 * mm, .cone = 30.0 * deg};
  const Reducer widens{.from_bore = 12.0 * mm, .to_bore = 20.0 * mm, .cone = 30.0 * deg};
  const Law a = narrows.law(test::water()).reversed(), b = widens.law(test::water());
  for (const double q : {-1e-3, -1e-6, 0.0, 1e-6, 1e-3}) {
    EXPECT_DOUBLE_EQ(a(q).dp, b(q).dp);
    EXPECT_DOUBLE_EQ(a(q).slope, b(q).slope);
  }
}

// Borda-Carnot (1 - b2)^2 and 0.5 (1 - b2) on the smaller bore's velocity, b2 the ratio of the areas (Crane Technical
// Paper 410; I. E. Idelchik): the quadratic part of the drop. Areas 1 to 4: 0.5625 and 0.375.
TEST(Reducer, SuddenChange) {
  const auto liquid = test::water();
  const Reducer part{.from_bore = 10.0 * mm, .to_bore = 20.0 * mm};
  const Law law = part.law(liquid);
  const double q = 5e-4, head = physics::velocity_head(q, 0.01, liquid.density);
  EXPECT_NEAR((law(q).dp - law.linear * q) / head, 0.5625, 1e-13);
  EXPECT_NEAR((-law(-q).dp - law.linear * q) / head, 0.375, 1e-13);
  EXPECT_EQ(part.inside_bore(), 10.0 * mm);
}

// K. Subramanya, 1000 Solved Problems in Fluid Mechanics, example 11.1, p. 238 (seen in a public collection of textbook
// solutions): 450 L/min of water from 60 mm into 90 mm: the static pressure rises from 20 to 21.73 kPa.
TEST(Reducer, BordaCarnotWorked) {
  const auto liquid = test::liquid_of("water of 9.79 kN/m3", 9790.0 / 9.81, 1e-3);
  const Reducer part{.from_bore = 60.0 * mm, .to_bore = 90.0 * mm};
  const double q = 0.45 / 60.0;
  const double after = 20e3 + physics::velocity_head(q, 0.06, liquid.density) -
                       physics::velocity_head(q, 0.09, liquid.density) - part.law(liquid)(q).dp;
  EXPECT_NEAR(after / 1e3, 21.73, 0.005);
}

// In a network that drives liquid backwards through it, it loses what the other reducer loses forwards.
TEST(Reducer, TheSolverTakesItEitherWay) {
  const auto flow = [](const Reducer& part, const char* from, const char* to) {
    Network n;
    n.add_supply("tank", 5.0 * kPa);
    n.add_place("joint");
    n.add_air("row");
    n.add_part("hose", "tank", "joint", Hose{.length = 0.1 * m, .bore = 10.0 * mm});
    n.add_part("reducer", from, to, part);
    const Solution s = solve(n, test::water());
    EXPECT_TRUE(s.usable()) << s.message;
    return s.parts[0].flow;
  };
  const Reducer widens{.from_bore = 10.0 * mm, .to_bore = 40.0 * mm};
  const Reducer narrows{.from_bore = 40.0 * mm, .to_bore = 10.0 * mm};
  const double forward = flow(widens, "joint", "row"), backward = flow(narrows, "row", "joint");
  EXPECT_NEAR(forward / backward, 1.0, 1e-12);
  EXPECT_GT(flow(narrows, "joint", "row"), 1.1 * forward);  // 0.47 heads instead of 0.88
}

TEST(Reducer, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto check = [](double from, double to, double cone) {
    Part(Reducer{.from_bore = from * m, .to_bore = to * m, .cone = cone * deg}, "reducer 'r1'");
  };
  for (const double bad : {0.0, -0.01, 1.1, nan}) {
    test::expect_refused([&] { check(bad, 0.01, 180); }, "reducer 'r1', from bore");
    test::expect_refused([&] { check(0.01, bad, 180); }, "reducer 'r1', to bore");
  }
  test::expect_refused([&] { check(0.01, 0.01, 180); }, "reducer 'r1', to bore");
  test::expect_refused([&] { check(0.01, 0.01009, 180); }, "reducer 'r1', to bore");
  for (const double bad : {0.0, 4.9, 181.0, nan}) {
    test::expect_refused([&] { check(0.01, 0.02, bad); }, "reducer 'r1', cone");
  }
  EXPECT_NO_THROW(check(0.01, 0.01011, 5.0));
}

TEST(Barb, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(Barb{.bore = 7.0 * mm, .hose_bore = 9.5 * mm, .length = 20.0 * mm}, liquid);
    test::expect_lawful(Barb{.bore = 9.5 * mm, .hose_bore = 9.5 * mm, .length = 20.0 * mm}, liquid);
  }
}

// In, along and out: 0.5 (1 - b2) + (1 - b2)^2 (as above) over a tube of its bore. Areas 1 to 2: 0.25 + 0.25.
TEST(Barb, IsItsPieces) {
  const auto liquid = test::water();
  const Length bore = 6.0 * mm, hose_bore = std::sqrt(2.0) * bore, length = 25.0 * mm;
  const Law law = Barb{.bore = bore, .hose_bore = hose_bore, .length = length}.law(liquid);
  const double q = 1e-4, head = physics::velocity_head(q, si(bore), liquid.density);
  EXPECT_NEAR(law.quadratic * q * q / head, 0.5, 1e-12);
  const auto wall = physics::wall_friction<double>(si(length), si(bore), 1.5e-6, liquid.density, liquid.viscosity);
  const double rest = law(q).dp - law.linear * q - law.quadratic * q * q;
  EXPECT_NEAR(rest / physics::drop_wall_friction(q, wall).dp, 1.0, 1e-12);
  // Two changes of bore in creeping flow, each 6 pi (1 - b2) mu V/(2 d).
  const double v_per_q = 4.0 / (std::numbers::pi * si(bore) * si(bore));
  EXPECT_NEAR(law.linear / (6.0 * std::numbers::pi * liquid.viscosity * v_per_q / (2.0 * si(bore))), 1.0, 1e-12);
}

TEST(Barb, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto check = [](double bore, double hose, double length, double roughness) {
    Part(Barb{.bore = bore * mm, .hose_bore = hose * mm, .length = length * mm, .roughness = roughness * mm},
         "barb 'b1'");
  };
  for (const double bad : {0.0, -1.0, 501.0, nan}) {
    test::expect_refused([&] { check(bad, 600, 20, 0); }, "barb 'b1', bore");
    test::expect_refused([&] { check(7, 9.5, bad, 0); }, "barb 'b1', length");
  }
  for (const double bad : {6.9, 1001.0, nan}) {
    test::expect_refused([&] { check(7, bad, 20, 0); }, "barb 'b1', hose bore");
  }
  for (const double bad : {-0.1, 1.0, nan}) {
    test::expect_refused([&] { check(7, 9.5, 20, bad); }, "barb 'b1', roughness");
  }
  EXPECT_NO_THROW(check(7, 9.5, 20, 0));
}

}  // namespace reducer_test
}  // namespace libflow
