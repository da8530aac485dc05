// SPDX-License-Identifier: MIT
/// @file
/// After a stop: which check valve the standing liquid opens and how much runs out, by hydrostatics.

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include <libflow/toolbar.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace stop_test {

using namespace units;

constexpr double stop_weight = 998.21 * 9.80665;  // of water [Pa/m]

/// Four rows on level ground, the bar 1.5 m above their outlets, 2 m of 10 mm hose each, check valves at the outlets.
Toolbar stopped_bar(Pressure crack) {
  Toolbar t = test::plain_bar(4);
  t.manifolds[0].height = 1.5 * m;
  t.check_valve = CheckValveChoice{.crack = crack, .rated_flow = 0.5 * gpm, .rated_loss = 2.0 * psi};
  return t;
}

TEST(Stop, ValvesThatCrackAboveTheColumnHoldIt) {
  // 1.5 m of water is 14.7 kPa.
  const StopDribble d = stop_dribble(stopped_bar(15.0 * kPa), test::water(), 200.0 * kPa);
  EXPECT_NEAR(d.standing, 1.5 * stop_weight, 1e-6);
  EXPECT_EQ(d.column, 0.0);
  EXPECT_TRUE(stop_cautions(stopped_bar(15.0 * kPa), test::water(), 200.0 * kPa).empty());
}

TEST(Stop, WhatStandsAboveTheCrackPressureRunsOut) {
  const Toolbar t = stopped_bar(10.0 * kPa);
  const StopDribble d = stop_dribble(t, test::water(), 200.0 * kPa);
  // The bar (1 in, 3 ports 5 cm apart) and the upper part of four hoses that run evenly 1.5 m down.
  const double drains = 1.5 - 10e3 / stop_weight;
  const double bar = std::numbers::pi / 4.0 * 0.0254 * 0.0254 * 0.15;
  const double hose = std::numbers::pi / 4.0 * 0.01 * 0.01 * 2.0;
  EXPECT_NEAR(d.column, bar + 4.0 * hose * drains / 1.5, 1e-12);
  EXPECT_NEAR(d.trapped, bar + 4.0 * hose, 1e-12);
  EXPECT_EQ(d.relaxed, 0.0);
  const Cautions found = stop_cautions(t, test::water(), 200.0 * kPa);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "dribbles-after-stop");
  EXPECT_EQ(found[0].value, d.standing);
  EXPECT_EQ(found[0].limit, 1e4);
  EXPECT_NE(found[0].text.find("2.13 psi (14.7 kPa) against 1.45 psi (10 kPa)"), std::string::npos) << found[0].text;
}

TEST(Stop, TheEarliestValveOfTheBoxCounts) {
  Toolbar t = stopped_bar(15.0 * kPa);
  t.check_valve->crack_spread = 2.0 * kPa;
  EXPECT_EQ(stop_cautions(t, test::water(), 200.0 * kPa).size(), 1u);
  EXPECT_EQ(stop_dribble(t, test::water(), 200.0 * kPa).crack, 13e3);
  // One row with a weaker spring is where it runs out.
  t = stopped_bar(15.0 * kPa);
  t.row_changes = {{.row = 3, .crack = 5.0 * kPa}};
  EXPECT_EQ(stop_dribble(t, test::water(), 200.0 * kPa).row, 3);
}

// On a side slope of 30 % in the sine the upper row's hose end stands 3 x 0.762 x 0.3 m above the lower one's.
TEST(Stop, OnAHillTheLowestRowDrips) {
  Toolbar t = stopped_bar(5.0 * kPa);
  t.manifolds[0].height = 0.0 * m;
  EXPECT_TRUE(stop_cautions(t, test::water(), 200.0 * kPa).empty());
  t.side_slope = from_si<Angle>(std::asin(0.3));
  const StopDribble d = stop_dribble(t, test::water(), 200.0 * kPa);
  EXPECT_EQ(d.row, 1);
  EXPECT_NEAR(d.standing, 3.0 * 0.762 * 0.3 * stop_weight, 1e-6);
  EXPECT_GT(d.column, 0.0);
}

// Korteweg 1878: a hose of 10 mm and 2 mm wall of 30 MPa takes up 10/(30e6 x 2) more than the water's own squeeze.
TEST(Stop, StretchedHosesGiveBack) {
  Toolbar t = stopped_bar(10.0 * kPa);
  t.hose_wall = 2.0 * mm;
  t.hose_modulus = 30e6 * Pa;
  const StopDribble d = stop_dribble(t, test::water(), 200.0 * kPa);
  EXPECT_NEAR(d.relaxed, d.trapped * (1.0 / 2.2e9 + 0.010 / (30e6 * 0.002)) * (200e3 - 1.5 * stop_weight), 1e-15);
  EXPECT_NE(stop_cautions(t, test::water(), 200.0 * kPa).at(0).text.find("stretched hoses"), std::string::npos);
}

// How far a wall stretches is told by its thickness and its modulus together: one of them alone tells nothing.
TEST(Stop, AWallOfUnknownStiffnessGivesNothingBack) {
  for (const bool wall : {false, true}) {
    Toolbar t = stopped_bar(10.0 * kPa);
    if (wall) {
      t.hose_wall = 2.0 * mm;
    } else {
      t.hose_modulus = 30e6 * Pa;
    }
    const StopDribble d = stop_dribble(t, test::water(), 200.0 * kPa);
    EXPECT_EQ(d.relaxed, 0.0);
    EXPECT_EQ(d.column, stop_dribble(stopped_bar(10.0 * kPa), test::water(), 200.0 * kPa).column);
  }
}

// What hangs behind the valve: the hose where the metering sits at the bar, a wide tube behind an outlet; a narrow one
// keeps its liquid (F. P. Bretherton 1961, see physics/discharge.hpp).
TEST(Stop, BehindTheValveNothingHolds) {
  Toolbar t = stopped_bar(15.0 * kPa);
  t.outlet_bore = 12.7 * mm;
  t.outlet_fall = 0.6 * m;
  EXPECT_NEAR(stop_dribble(t, test::water(), 2e5 * Pa).below, 4.0 * std::numbers::pi / 4.0 * 0.0127 * 0.0127 * 0.6,
              1e-12);
  t.outlet_bore = 4.0 * mm;
  EXPECT_EQ(stop_dribble(t, test::water(), 2e5 * Pa).below, 0.0);
  t = stopped_bar(15.0 * kPa);
  t.metering = MeteringPlace::manifold;
  EXPECT_NEAR(stop_dribble(t, test::water(), 2e5 * Pa).below, 4.0 * std::numbers::pi / 4.0 * 1e-4 * 2.0, 1e-12);
  EXPECT_EQ(stop_dribble(t, test::water(), 2e5 * Pa).standing, 0.0);
}

TEST(Stop, WithoutCheckValvesNothingIsHeldAndNothingIsSaid) {
  EXPECT_EQ(stop_dribble(test::plain_bar(4), test::water(), 2e5 * Pa).row, 0);
  EXPECT_TRUE(stop_cautions(test::plain_bar(4), test::water(), 2e5 * Pa).empty());
}

// The toolbar's valves may open against a spring; another crack pressure of one row is another spring in the same body.
TEST(Stop, SpringValvesOfAToolbar) {
  Toolbar t = stopped_bar(10.0 * kPa);
  t.check_valve->full_open = 30.0 * kPa;
  t.row_changes = {{.row = 2, .crack = 14.0 * kPa}};
  const Plumbing p = build_network(t, test::plain_job());
  const auto valve = [&](std::size_t row) {
    return *p.network.part(p.rows[row].check_valves[0]).part.as<CheckValve>();
  };
  EXPECT_NEAR(si(*valve(0).full_open), 30e3, 1e-9);
  EXPECT_NEAR(si(valve(0).passage_bore), si(Orifice::rated(0.5 * gpm, 30.0 * kPa).bore), 1e-15);
  EXPECT_NEAR(si(valve(1).crack), 14e3, 1e-9);
  EXPECT_NEAR(si(*valve(1).full_open), 34e3, 1e-9);
  EXPECT_EQ(si(valve(1).passage_bore), si(valve(0).passage_bore));
  t.check_valve->crack_spread = 11.0 * kPa;
  test::expect_refused([&] { (void)build_network(t, test::plain_job()); }, "row 1 check valve, crack spread");
}

}  // namespace stop_test
}  // namespace libflow
