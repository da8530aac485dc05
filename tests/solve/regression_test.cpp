// SPDX-License-Identifier: MIT
/// @file
/// Networks on which an earlier solver failed, each reduced to what made it fail.

#include <gtest/gtest.h>

#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/solve.hpp>
#include <tests/support/random_network.hpp>

namespace libflow {
namespace regression_test {

using namespace units;

Hose hose(double length, double bore) { return {.length = length * m, .bore = bore * mm}; }

// Potentials near 1e5 Pa, differences of 1e-5 Pa: lost in the digits of the level unless taken from a datum.
TEST(Regression, TinyDifferencesBetweenHighSupplies) {
  Network n;
  n.add_supply("a", 100000.00002382664 * Pa);
  n.add_supply("b", 100000.00005993617 * Pa);
  n.add_place("c");
  n.add_place("d");
  n.add_part("ab", "a", "b", hose(3.0, 10.0));
  n.add_part("bc", "b", "c", hose(20.0, 3.0));
  n.add_part("bd", "b", "d", hose(20.0, 3.0));
  n.add_part("ca", "c", "a", hose(1.2, 3.0));
  n.add_part("da", "d", "a", hose(1.2, 3.0));
  n.add_part("bridge", "c", "d", hose(0.05, 4.0));
  const Solution s = solve(n, {});
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_LT(s.parts[n.find_part("ab")].flow, 0.0);
  EXPECT_NEAR(s.parts[n.find_part("bridge")].flow, 0.0, 1e-12 * std::abs(s.parts[n.find_part("bc")].flow));
}

// The gain of two pumps in series cancels all but 1e-5 Pa of it: the law's own rounding is larger than the net drop.
TEST(Regression, PumpGainThatCancels) {
  Network n;
  n.add_supply("a", 100000.00009016880 * Pa);
  n.add_supply("b", 100000.00000164454 * Pa);
  n.add_place("c");
  n.add_part("first", "b", "c", CentrifugalPump{.shutoff = 24642.0 * Pa, .free_flow = from_si<Flow>(2e-4)});
  n.add_part("second", "c", "a", CentrifugalPump{.shutoff = 37991.0 * Pa, .free_flow = from_si<Flow>(1e-5)});
  const Solution s = solve(n, {});
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_GT(s.parts[0].flow, 0.0);
}

// A place whose only open neighbour feeds it through a valve exactly at its threshold: no flow, not a flow of noise.
TEST(Regression, CutOffPlaceAtTheThreshold) {
  Network n;
  n.add_supply("supply", 0.3 * bar);
  n.add_place("hub");
  n.add_place("x");
  n.add_place("y");
  n.add_place("z");
  n.add_part("to hub", "supply", "hub", CheckValve{.crack = 0.2 * bar, .passage_bore = 3.0 * mm});
  n.add_part("hub x", "hub", "x", hose(2.0, 5.0));
  n.add_part("x y", "x", "y", hose(2.0, 5.0));
  n.add_part("y hub", "y", "hub", CheckValve{.crack = 0.0 * bar, .passage_bore = 3.0 * mm});
  n.add_part("y z", "y", "z", ReliefValve{.set = 1.0 * bar, .passage_bore = 3.0 * mm});
  n.add_part("z x", "z", "x", CheckValve{.crack = 0.0 * bar, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, {});
  ASSERT_TRUE(s.usable()) << s.message;
  for (const PartResult& p : s.parts) EXPECT_LT(std::abs(p.flow), 1e-20);
  const PlaceResult& hub = s.places[n.find_place("hub")];
  EXPECT_FALSE(hub.determined);
  EXPECT_NEAR(hub.lower, 1e4, 1e-6);  // less than 0.1 bar would open the valve to it
}

// A low-loss valve beside long thin lines: open, its drop is far below the rounding that a shut edge must exceed to
// open. Without hysteresis it flips for ever, or stays shut with liquid wanting to pass.
TEST(Regression, ValveOfNoLossBesideThinLines) {
  Network n;
  n.add_supply("supply", 8.0 * bar);
  n.add_place("a");
  n.add_place("b");
  n.add_air("air");
  n.add_part("wide", "supply", "a", hose(0.01, 60.0));
  n.add_part("valve", "a", "b", CheckValve{.crack = 0.0 * bar, .passage_bore = 50.0 * mm});
  n.add_part("thin", "b", "air", hose(100.0, 0.5));
  n.add_part("main", "a", "air", Orifice{.bore = 8.0 * mm});
  LiquidState thick;
  thick.viscosity = 2.0;
  const Solution s = solve(n, thick);
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[n.find_part("valve")].valve, ValveState::open);
  EXPECT_GT(s.parts[n.find_part("thin")].flow, 0.0);
}

// Liquid pushed into a place whose ways out are all shut at first: the place is lifted until the first one opens.
TEST(Regression, PushedInBeforeShutValves) {
  Network n;
  n.add_fed("pump", 0.1 * gpm);
  n.add_place("bar");
  n.add_part("feed", "pump", "bar", hose(1.0, 10.0));
  for (int row = 1; row <= 3; ++row) {
    const std::string name = fmt::format("row {}", row);
    n.add_air(name);
    n.add_part("valve " + name, "bar", name, CheckValve{.crack = (10.0 * row) * psi, .passage_bore = 2.0 * mm});
  }
  const Solution s = solve(n, {});
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[n.find_part("valve row 1")].valve, ValveState::open);
  EXPECT_EQ(s.parts[n.find_part("valve row 2")].valve, ValveState::closed);
  EXPECT_NEAR(s.parts[n.find_part("valve row 1")].flow, si(0.1 * gpm), 1e-18);
}

// Nothing moves anywhere: residuals are held against the smallest drop and flow that mean anything, not against noise.
TEST(Regression, EverythingStill) {
  Network n;
  n.add_supply("supply", 3355.66 * Pa);
  n.add_place("a");
  n.add_place("b");
  n.add_place("c");
  n.add_part("1", "supply", "a", CheckValve{.crack = 0.0 * bar, .passage_bore = 3.0 * mm});
  n.add_part("2", "a", "b", hose(5.0, 2.0));
  n.add_part("3", "b", "c", hose(5.0, 2.0));
  n.add_part("4", "c", "a", hose(5.0, 2.0));
  n.add_part("5", "c", "supply", CheckValve{.crack = 0.0 * bar, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, {});
  ASSERT_TRUE(s.usable()) << s.message;
}

// A random network on which the bends of the line search cancelled to a bend that was not there, among others.
TEST(Regression, RandomNetworksOfTheFirstThousandSeeds) {
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    testing::RandomNetwork r = testing::RandomNetworkMaker(seed).make();
    const Solution s = solve(r.network, r.liquid);
    ASSERT_TRUE(s.usable()) << "seed " << seed << ": " << s.message;
  }
}

}  // namespace regression_test
}  // namespace libflow
