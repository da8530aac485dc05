// SPDX-License-Identifier: MIT
/// @file
/// What a pressure regulator's correction asks for, on solutions made up by hand, and a regulator that others hold
/// shut.
#include <vector>

#include <gtest/gtest.h>

#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve/corrected.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace regulation_test {

using namespace units;

Network regulated(Pressure set) {
  Network n;
  n.add_air("row");
  n.add_supply("supply", 60.0 * psi);
  n.add_place("bar");
  n.add_part("orifice", "bar", "row", Orifice{.bore = 1.2 * mm});
  n.add_part("regulator", "supply", "bar", PressureRegulator::rated(set, 5.0 * gpm, 2.0 * psi));
  return n;
}

// Open, it throttles by what is too much behind it, and by no less than nothing; shut, it stays as it is unless the
// pressure behind it is known and has fallen below what it is set to.
TEST(Regulation, AsksForWhatIsTooMuchBehindIt) {
  const Network n = regulated(from_si<Pressure>(200e3));
  const Correction c = regulation(n, n.find_part("regulator"));
  EXPECT_EQ(c.part, 1U);
  struct Row {
    ValveState valve;
    bool known;
    double behind, present, wanted;
  };
  for (const Row& r : {
           Row{ValveState::open, true, 250e3, 10e3, 60e3},
           Row{ValveState::open, true, 195e3, 10e3, 5e3},
           Row{ValveState::open, true, 180e3, 10e3, 0.0},
           Row{ValveState::open, false, 250e3, 10e3, 60e3},
           Row{ValveState::closed, true, 250e3, 10e3, 10e3},
           Row{ValveState::closed, true, 200e3, 10e3, 10e3},
           Row{ValveState::closed, true, 195e3, 10e3, 5e3},
           Row{ValveState::closed, true, 180e3, 10e3, 0.0},
           Row{ValveState::closed, false, 195e3, 10e3, 10e3},
           Row{ValveState::closed, false, 250e3, 10e3, 10e3},
       }) {
    Solution s;
    s.parts.resize(2);
    s.places.resize(3);
    s.parts[1].valve = r.valve;
    s.places[2].total_pressure = r.behind;
    s.places[2].determined = r.known;
    EXPECT_NEAR(c.drop(s, r.present), r.wanted, 1e-9) << r.behind << (r.known ? " known" : " not known");
  }
}

TEST(Regulation, EveryRegulatorOfANetworkAndNothingElse) {
  Network n = regulated(30.0 * psi);
  n.add_place("second");
  n.add_part("hose", "bar", "second", Hose{.length = 1.0 * m, .bore = 6.0 * mm});
  n.add_air("end");
  n.add_part("other", "second", "end", PressureRegulator::rated(10.0 * psi, 5.0 * gpm, 2.0 * psi));
  const std::vector<Correction> all = regulations(n);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].part, n.find_part("regulator"));
  EXPECT_EQ(all[1].part, n.find_part("other"));
}

// A second supply keeps the bar above what the regulator is set to: it shuts, and the rest is as without it.
TEST(Regulation, ShutByAHigherPressureBehindIt) {
  const LiquidState water = test::water();
  Network n = regulated(30.0 * psi);
  n.add_supply("mains", 50.0 * psi);
  n.add_part("mains hose", "mains", "bar", Hose{.length = 1.0 * m, .bore = 8.0 * mm});
  const CorrectedSolution s = solve_corrected(n, water, regulations(n));
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_EQ(s.solution.parts[n.find_part("regulator")].flow, 0.0);
  EXPECT_EQ(s.solution.parts[n.find_part("regulator")].valve, ValveState::closed);
  Network without;
  without.add_air("row");
  without.add_supply("mains", 50.0 * psi);
  without.add_place("bar");
  without.add_part("orifice", "bar", "row", Orifice{.bore = 1.2 * mm});
  without.add_part("mains hose", "mains", "bar", Hose{.length = 1.0 * m, .bore = 8.0 * mm});
  const Solution rest = solve(without, water);
  ASSERT_GT(rest.places[2].total_pressure, si(30.0 * psi));
  EXPECT_NEAR(s.solution.parts[0].flow / rest.parts[0].flow, 1.0, 1e-9);
  EXPECT_NEAR(s.solution.places[2].total_pressure / rest.places[2].total_pressure, 1.0, 1e-9);
}

}  // namespace regulation_test
}  // namespace libflow
