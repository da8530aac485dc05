// SPDX-License-Identifier: MIT
/// @file
/// A tube with a vent at its head never pulls, never siphons, and passes without a jump from partly to quite full.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include <libflow/network/network.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/vented_tube.hpp>
#include <libflow/solve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace vented_tube_test {

using namespace units;

TEST(VentedTube, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double bore : {1e-4, 0.003, 0.0127, 0.5}) {
      test::expect_lawful(VentedTube{.bore = bore * m}, liquid);
      test::expect_lawful(VentedTube{.bore = bore * m, .count = 2, .fall = 0.6 * m}, liquid);
      test::expect_lawful(VentedTube{.bore = bore * m, .fall = 5.0 * m}, liquid);
    }
  }
}

// Hydrostatics: half a metre of water is 998.21 x 9.80665 x 0.5 Pa, all of it lost while air stands in the tube.
TEST(VentedTube, LosesItsFallUntilItsFrictionDoes) {
  const auto water = test::water();
  const VentedTube tube{.bore = 3.0 * mm, .fall = 0.5 * m};
  const double pull = 998.21 * 9.80665 * 0.5;
  EXPECT_NEAR(tube.law(water).threshold, pull, 1e-9);
  EXPECT_EQ(tube.law(water).passes, Passes::forward);
  const Law open = OpenEnd{.bore = 3.0 * mm}.law(water), full = tube.unvented().law(water);
  // Laminar friction by Hagen and Poiseuille, far below the pull: the head sees the air and the open end's loss.
  const double slow = 1e-6;
  EXPECT_LT(128.0 * water.viscosity * 0.5 * slow / (std::numbers::pi * std::pow(0.003, 4)), 0.1 * pull);
  EXPECT_NEAR(tube.law(water)(slow).dp, pull + open(slow).dp, 1e-12 * pull);
  // Friction far above the pull: the vent takes nothing in, the tube is the full one.
  const double fast = 1e-4;
  EXPECT_GT(full(fast).dp, 2.0 * pull);
  EXPECT_NEAR(tube.law(water)(fast).dp, full(fast).dp, 1e-12 * full(fast).dp);
  // Two tubes at twice the flow.
  const VentedTube two{.bore = 3.0 * mm, .count = 2, .fall = 0.5 * m};
  for (const double flow : {slow, 1e-5, fast}) {
    EXPECT_NEAR(two.law(water)(2.0 * flow).dp, tube.law(water)(flow).dp, 1e-9 * pull);
  }
}

/// A supply, a hose of 4 mm, a tube that hangs 1 m down from the height `head`.
template <class Tube>
Network hanging_line(Pressure supply, Length height, Length head, const Tube& tube) {
  Network n;
  n.add_supply("tank", supply, height);
  n.add_place("head", head);
  n.add_air("foot", head - 1.0 * m);
  n.add_part("hose", "tank", "head", Hose{.length = 2.0 * m, .bore = 4.0 * mm});
  n.add_part("tube", "head", "foot", tube);
  return n;
}

// The tank's level is 0.3 m below the top of the line: without a vent the line siphons; with one nothing flows, and
// the caution says where the air comes in (0.3 m of water, by hydrostatics).
TEST(VentedTube, NeverSiphons) {
  const auto water = test::water();
  const RowOutlet plain{.bore = 4.0 * mm, .fall = 1.0 * m};
  const Solution siphon = solve(hanging_line(0.0 * Pa, 0.7 * m, 1.0 * m, plain), water);
  EXPECT_GT(siphon.parts.at(1).flow, 1e-6);
  EXPECT_LT(siphon.places.at(1).total_pressure, -1e3);
  const Solution vented = solve(hanging_line(0.0 * Pa, 0.7 * m, 1.0 * m, VentedTube::of(plain)), water);
  ASSERT_TRUE(vented.usable()) << vented.message;
  EXPECT_EQ(vented.parts.at(1).flow, 0.0);
  EXPECT_EQ(vented.parts.at(1).valve, ValveState::closed);
  ASSERT_EQ(vented.cautions.size(), 1u);
  EXPECT_EQ(vented.cautions[0].code, "vent-takes-air");
  EXPECT_EQ(vented.cautions[0].subject, "vented tube 'tube'");
  EXPECT_NEAR(vented.cautions[0].value, -998.21 * 9.80665 * 0.3, 1e-6);
}

// Only a line that is known to suck takes in air: not one whose liquid flows, nor one at the air's pressure, nor one
// whose pressure shut parts leave open.
TEST(VentedTube, TakesAirOnlyWhereTheLineSucks) {
  const auto water = test::water();
  const VentedTube tube{.bore = 4.0 * mm, .fall = 1.0 * m};
  const double sucks = tube.pull(water) - 2000.0;
  const auto cautions = [&](const Working& working) { return Part(tube).cautions(working, water).size(); };
  EXPECT_EQ(cautions({.flow = 0.0, .drop = sucks, .from_known = true}), 1u);
  EXPECT_EQ(cautions({.flow = 0.0, .drop = sucks, .from_known = false}), 0u);
  EXPECT_EQ(cautions({.flow = 0.0, .drop = tube.pull(water), .from_known = true}), 0u);
  EXPECT_EQ(cautions({.flow = 1e-6, .drop = sucks, .from_known = true}), 0u);
}

// Of the drop, the height that friction leaves over is no loss in the line: all of it at rest, rho g fall less Hagen
// and Poiseuille's friction at a trickle, none once the tube is full. What is left is friction and the open end.
TEST(VentedTube, TellsItsUnusedFallFromItsLoss) {
  const auto water = test::water();
  const VentedTube tube{.bore = 3.0 * mm, .fall = 0.5 * m};
  const double pull = 998.21 * 9.80665 * 0.5;
  EXPECT_NEAR(tube.unused_fall(0.0, water), pull, 1e-9);
  const double slow = 1e-6, friction = 128.0 * water.viscosity * 0.5 * slow / (std::numbers::pi * std::pow(0.003, 4));
  EXPECT_NEAR(tube.unused_fall(slow, water), pull - friction, 1e-9 * pull);
  EXPECT_EQ(tube.unused_fall(1e-4, water), 0.0);
  const Law open = OpenEnd{.bore = 3.0 * mm}.law(water);
  EXPECT_NEAR(tube.law(water)(slow).dp - tube.unused_fall(slow, water), friction + open(slow).dp, 1e-9 * pull);
  EXPECT_EQ(Part(tube).unused_fall(slow, water), tube.unused_fall(slow, water));
  EXPECT_EQ(VentedTube{.bore = 3.0 * mm}.unused_fall(slow, water), 0.0);
  EXPECT_EQ(Part(tube.unvented()).unused_fall(slow, water), 0.0);
}

// From a trickle to a jet: the head is never below the air's pressure, flow and head pressure rise without a jump, the
// slow end is a tube that pours into air at its head, the fast end the full tube.
TEST(VentedTube, IsContinuousThroughTheSwitch) {
  const auto water = test::water();
  const VentedTube tube{.bore = 4.0 * mm, .fall = 1.0 * m};
  double flow_before = 0.0, head_before = 0.0;
  bool partly = false, full = false;
  for (int i = 0; i <= 300; ++i) {
    const double supply = 50.0 * std::pow(10.0, 4.0 * i / 300.0);  // 50 Pa to 500 kPa
    const Solution s = solve(hanging_line(supply * Pa, 1.0 * m, 1.0 * m, tube), water);
    ASSERT_TRUE(s.usable()) << s.message;
    const double flow = s.parts.at(1).flow, head = s.places.at(1).total_pressure;
    EXPECT_GE(head, 0.0);
    EXPECT_GT(flow, flow_before);
    EXPECT_GT(head, head_before);
    const double same = solve(hanging_line(supply * Pa, 1.0 * m, 1.0 * m, tube.unvented()), water).parts.at(1).flow;
    EXPECT_LE(flow, same * (1.0 + 1e-9));  // it never gives more than the tube that pulls
    // A step of 3.1 % in the pressure moves the flow by 3.1 % at most.
    if (i > 0) {
      EXPECT_LT(flow / flow_before, std::pow(10.0, 4.0 / 300.0) * (1.0 + 1e-9));
    }
    if (std::abs(flow / same - 1.0) < 1e-9) full = true;
    const double poured = OpenEnd{.bore = 4.0 * mm}.law(water)(flow).dp;
    if (head - poured < 1e-6) partly = true;
    flow_before = flow;
    head_before = head;
  }
  EXPECT_TRUE(partly);
  EXPECT_TRUE(full);
}

TEST(VentedTube, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -0.01, 0.51, nan}) {
    test::expect_refused([&] { VentedTube{.bore = bad * m}.check("tube 'r1'"); }, "tube 'r1', bore");
  }
  for (const double bad : {-0.1, 5.1, nan}) {
    test::expect_refused([&] { VentedTube{.bore = 6.0 * mm, .fall = bad * m}.check("tube 'r1'"); }, "tube 'r1', fall");
  }
  test::expect_refused([] { VentedTube{.bore = 6.0 * mm, .count = 3}.check("tube 'r1'"); }, "tube 'r1', count");
}

}  // namespace vented_tube_test
}  // namespace libflow
