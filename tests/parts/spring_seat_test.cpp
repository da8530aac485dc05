// SPDX-License-Identifier: MIT
/// @file
/// Check valve with a spring: its lift, the spread of crack pressures, and what drips after a stop.
#include <gtest/gtest.h>

#include <limits>
#include <numbers>
#include <string>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/solve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace spring_seat_test {

using namespace units;

CheckValve spring(Pressure crack, Pressure full_open, Length bore = 3.0 * mm) {
  return {.crack = crack, .passage_bore = bore, .full_open = full_open};
}

TEST(SpringSeat, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(spring(4.0 * psi, 6.0 * psi), liquid);
    test::expect_lawful(spring(1.0 * Pa, 1.0 * psi), liquid);
    test::expect_lawful(spring(1.0 * psi, from_si<Pressure>(4e6), 0.05 * mm), liquid);
    test::expect_lawful(spring(10.0 * psi, 10.1 * psi, 50.0 * mm), liquid);
    test::expect_lawful(CheckValve::sprung(4.0 * psi, 8.0 * psi, 0.5 * gpm), liquid);
    test::expect_lawful(spring(4.0 * psi, 6.0 * psi).law(liquid).reversed(), Contract::one_way);
  }
}

// At part lift the valve passes that part of what the open hole would pass at the same pressure; the lift follows the
// pressure above the crack pressure in a straight line (1/0.9 of the rise over the span) until near the stop.
TEST(SpringSeat, LiftsWithPressure) {
  const auto liquid = test::water();
  const Law law = spring(4.0 * psi, 8.0 * psi).law(liquid);
  const Orifice open{.bore = 3.0 * mm};
  for (const double rise : {0.001, 0.1, 0.3, 0.5, 0.79}) {
    const Pressure across = (4.0 + 4.0 * rise) * psi;
    EXPECT_NEAR(law(rise / 0.9 * si(open.flow_at(across, liquid))).dp / si(across), 1.0, 1e-12) << rise;
  }
  // Fully open at 8 psi, and the open hole alone from there on; before, the valve loses more than its hole.
  for (const double p : {8.0, 9.0, 30.0}) {
    EXPECT_NEAR(law(si(open.flow_at(p * psi, liquid))).dp / si(p * psi), 1.0, 1e-12) << p;
  }
  const double part = 0.95 * si(open.flow_at(8.0 * psi, liquid));
  EXPECT_GT(law(part).dp, 1.01 * open.law(liquid)(part).dp);
}

TEST(SpringSeat, SprungIsFullyOpenWhereItSays) {
  const auto water = test::liquid_of("water", water_density(293.15), water_viscosity(293.15));
  const Law law = CheckValve::sprung(4.0 * psi, 7.0 * psi, 0.5 * gpm).law(water);
  EXPECT_NEAR(law(si(0.5 * gpm)).dp / si(7.0 * psi), 1.0, 1e-12);
  EXPECT_EQ(law.threshold, si(4.0 * psi));
  EXPECT_EQ(law.passes, Passes::forward);
  EXPECT_NEAR(law(1e-14).dp / si(4.0 * psi), 1.0, 1e-8);
}

TEST(SpringSeat, AShortSpanIsACrackPressureAlone) {
  const Law law = spring(10.0 * psi, 10.1 * psi, 5.0 * mm).law(test::water());
  for (const double flow : {1e-9, 1e-7, 1e-5}) EXPECT_NEAR(law(flow).dp / si(10.0 * psi), 1.0, 0.01);
}

// In a network: shut below its crack pressure; above, the flow is the one whose drop is the pressure across it.
TEST(SpringSeat, Solves) {
  for (const double supply : {3.9, 4.001, 4.5, 6.0, 7.9, 8.5, 30.0}) {
    Network n;
    n.add_supply("bar", supply * psi);
    n.add_air("row");
    const CheckValve valve = spring(4.0 * psi, 8.0 * psi);
    n.add_part("valve", "bar", "row", valve);
    const double flow = solve(n, test::water()).parts.at(0).flow;
    if (supply < 4.0) {
      EXPECT_EQ(flow, 0.0);
    } else {
      EXPECT_NEAR(valve.law(test::water())(flow).dp / si(supply * psi), 1.0, 1e-9) << supply;
    }
  }
}

TEST(SpringSeat, SpreadMovesTheCrackPressure) {
  CheckValve valve = spring(4.0 * psi, 6.0 * psi);
  valve.crack_spread = 0.5 * psi;
  EXPECT_NO_THROW(valve.check("valve"));
  EXPECT_NEAR(si(valve.earliest().crack), si(3.5 * psi), 1e-9);
  EXPECT_NEAR(si(valve.latest().crack), si(4.5 * psi), 1e-9);
  EXPECT_NEAR(si(*valve.latest().full_open), si(6.5 * psi), 1e-9);
  EXPECT_EQ(valve.earliest().law(test::water()).threshold, si(valve.earliest().crack));
  EXPECT_EQ(valve.law(test::water()).threshold, si(4.0 * psi));  // the nominal valve is what is solved
}

TEST(SpringSeat, CautionsNearTheCrackPressure) {
  const auto codes = [](const CheckValve& valve, double flow, Pressure before = 0.0 * Pa) {
    std::vector<std::string> found;
    for (const Caution& c : Part(valve).cautions({.flow = flow, .from = si(before)}, test::water())) {
      EXPECT_FALSE(c.text.empty());
      EXPECT_FALSE(c.source.empty());
      EXPECT_LT(c.value, c.limit);
      found.push_back(c.code);
    }
    return found;
  };
  using Codes = std::vector<std::string>;
  const CheckValve plain{.crack = 4.0 * psi, .passage_bore = 3.0 * mm, .crack_spread = 0.5 * psi};
  const double at_spread = si(Orifice{.bore = 3.0 * mm}.flow_at(0.5 * psi, test::water()));
  EXPECT_EQ(codes(plain, 0.9 * at_spread), Codes{"near-crack"});
  EXPECT_EQ(codes(plain, 1.1 * at_spread), Codes{});
  // Little is lost in the valve, but there is pressure enough before it to open any valve of the box.
  EXPECT_EQ(codes(plain, 0.9 * at_spread, 4.4 * psi), Codes{"near-crack"});
  EXPECT_EQ(codes(plain, 0.9 * at_spread, 4.6 * psi), Codes{});
  EXPECT_EQ(codes(plain, 0.0), Codes{});
  EXPECT_EQ(codes(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}, 1e-9), Codes{});
  const CheckValve sprung = CheckValve::sprung(4.0 * psi, 7.0 * psi, 0.5 * gpm);
  EXPECT_EQ(codes(sprung, si(0.4 * gpm)), Codes{"part-open"});
  EXPECT_EQ(codes(sprung, si(0.6 * gpm)), Codes{});
}

TEST(SpringSeat, RefusesBadInput) {
  const auto check = [](double crack, double full, double spread = 0.0) {
    CheckValve valve = spring(crack * Pa, full * Pa);
    valve.crack_spread = spread * Pa;
    valve.check("check valve 'r1'");
  };
  for (const double bad : {0.0, 2e4, 3e4, 4.1e6, std::numeric_limits<double>::quiet_NaN()}) {
    test::expect_refused([&] { check(3e4, bad); }, "check valve 'r1', fully-open pressure");
  }
  for (const double bad : {-1.0, 3.1e4}) {
    test::expect_refused([&] { check(3e4, 5e4, bad); }, "check valve 'r1', crack spread");
  }
  test::expect_refused([&] { check(0.0, 5e4); }, "check valve 'r1', crack");  // without preload: no slope at zero flow
  EXPECT_NO_THROW(check(3e4, 5e4, 3e4));
}

// Hydrostatics; a psi is 2.31 ft of water (any table of heads, 60 F; 3 digits), so 4 psi hold 9.24 ft.
TEST(Dribble, AColumnBelowTheCrackPressureIsHeld) {
  const CheckValve valve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm};
  const StoppedRow low{.column = 9.0 * ft, .column_area = from_si<Area>(1e-4)};
  EXPECT_TRUE(dribble(valve, low, test::water()).holds);
  EXPECT_EQ(si(dribble(valve, low, test::water()).total()), 0.0);
  const StoppedRow high{.column = 10.0 * ft, .column_area = from_si<Area>(1e-4)};
  const Dribble d = dribble(valve, high, test::water());
  EXPECT_FALSE(d.holds);
  EXPECT_NEAR(si(d.drains), si((10.0 - 4.0 * 2.31) * ft), 4.0 * 0.005 * 0.3048);
  EXPECT_NEAR(si(d.column), 1e-4 * si(d.drains), 1e-15);
  EXPECT_NEAR(si(d.standing), 998.21 * 9.80665 * 3.048, 1e-6);
  // No spring to speak of: the whole column goes.
  EXPECT_NEAR(si(dribble({.passage_bore = 3.0 * mm}, high, test::water()).drains), 3.048, 1e-12);
}

TEST(Dribble, TrappedVolumeAndTail) {
  const CheckValve valve{.crack = 10.0 * kPa, .passage_bore = 3.0 * mm};
  StoppedRow row{.trapped = 1.0 * L, .storage = 2e-8, .before = 210.0 * kPa, .tail_bore = 8.0 * mm, .tail = 0.5 * m};
  const Dribble wide = dribble(valve, row, test::water());
  EXPECT_NEAR(si(wide.relaxed), 1e-3 * 2e-8 * 2e5, 1e-15);
  EXPECT_NEAR(si(wide.below), std::numbers::pi / 4.0 * 0.008 * 0.008 * 0.5, 1e-15);
  EXPECT_FALSE(wide.below_hangs);
  EXPECT_NEAR(si(wide.total()), si(wide.relaxed) + si(wide.below), 1e-15);
  // F. P. Bretherton 1961 (see physics/discharge.hpp): a 4 mm tube of water lets no air climb, so it keeps its liquid.
  row.tail_bore = 4.0 * mm;
  const Dribble narrow = dribble(valve, row, test::water());
  EXPECT_TRUE(narrow.below_hangs);
  EXPECT_NEAR(si(narrow.total()), si(narrow.relaxed), 1e-15);
  // A line that stopped below the crack pressure gives nothing back.
  row.before = 9.0 * kPa;
  EXPECT_EQ(si(dribble(valve, row, test::water()).relaxed), 0.0);
  row.storage = -1.0;
  test::expect_refused([&] { (void)dribble(valve, row, test::water()); }, "dribble, storage");
}

}  // namespace spring_seat_test
}  // namespace libflow
