// SPDX-License-Identifier: MIT
/// @file
/// Shut valves in a network: the rest is solved as if the valve and what it cuts off were not there.
#include <gtest/gtest.h>

#include <libflow/network/network.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace shut_valve_test {

using namespace units;

const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};
Valve valve(double open) { return {.kv = from_si<Flow>(2.0 / 3600.0), .bore = 15.0 * mm, .open = open}; }

/// tank - main - tee; from there row 1 directly, rows 2 and 3 behind a section valve.
Network bar_with_section(double open, bool section = true) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_part("main", "tank", "tee", hose);
  n.add_part("hose 1", "tee", "row 1", hose);
  if (!section) return n;
  n.add_place("section");
  n.add_air("row 2");
  n.add_air("row 3");
  n.add_part("valve", "tee", "section", valve(open));
  n.add_part("hose 2", "section", "row 2", hose);
  n.add_part("hose 3", "section", "row 3", hose);
  return n;
}

TEST(ShutValve, TheRestIsAsWithoutIt) {
  const Solution s = solve(bar_with_section(0.0), test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  for (const std::size_t cut_off : {2u, 3u, 4u}) EXPECT_EQ(s.parts[cut_off].flow, 0.0);
  EXPECT_EQ(s.parts[2].valve, ValveState::closed);
  const Solution without = solve(bar_with_section(0.0, false), test::water());
  EXPECT_NEAR(s.parts[1].flow / without.parts[1].flow, 1.0, 1e-12);
  // It holds the pressure of the tee against the open rows behind it.
  EXPECT_NEAR(s.parts[2].drop, s.places[1].total_pressure, 1e-6);
  EXPECT_TRUE(s.places[3].determined);
}

TEST(ShutValve, ClosingTakesFromItsRowsAndGivesToTheOthers) {
  double before_1 = 0.0, before_2 = 1.0;
  for (const double open : {1.0, 0.6, 0.3, 0.1, 0.0}) {
    const Solution s = solve(bar_with_section(open), test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_GT(s.parts[1].flow, before_1);
    EXPECT_LT(s.parts[3].flow, before_2);
    EXPECT_NEAR(s.parts[3].flow, s.parts[4].flow, 1e-15);
    before_1 = s.parts[1].flow;
    before_2 = s.parts[3].flow;
  }
}

TEST(ShutValve, EverythingShutStandsStill) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("section");
  n.add_air("row");
  n.add_part("valve", "tank", "section", valve(0.0));
  n.add_part("hose", "section", "row", hose);
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[0].flow, 0.0);
  EXPECT_EQ(s.parts[1].flow, 0.0);
  EXPECT_NEAR(s.parts[0].drop, 1e5, 1e-6);
}

TEST(ShutValve, AGivenFlowTakesTheOpenSection) {
  const auto network = [](double left, double right) {
    Network n;
    n.add_fed("pump", 1.0 * gpm);
    n.add_place("tee");
    n.add_place("left");
    n.add_place("right");
    n.add_air("row 1");
    n.add_air("row 2");
    n.add_part("main", "pump", "tee", hose);
    n.add_part("left valve", "tee", "left", valve(left));
    n.add_part("right valve", "tee", "right", valve(right));
    n.add_part("hose 1", "left", "row 1", hose);
    n.add_part("hose 2", "right", "row 2", hose);
    return n;
  };
  const Solution s = solve(network(0.0, 1.0), test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[3].flow, 0.0);
  EXPECT_NEAR(s.parts[4].flow / si(1.0 * gpm), 1.0, 1e-12);
  // With both shut the pump's flow has no way out, and that is said.
  EXPECT_THROW(static_cast<void>(solve(network(0.0, 0.0), test::water())), IllPosedError);
}

}  // namespace shut_valve_test
}  // namespace libflow
