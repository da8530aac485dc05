// SPDX-License-Identifier: MIT
// What parts say to a person, whole: the numbers in a message are computed here by hand, none is looked for in pieces.
#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <numbers>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/fluid/water.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/flow_meter.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/orifice_pair.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/reducer.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/parts/strainer.hpp>
#include <libflow/parts/table_part.hpp>
#include <libflow/parts/tank.hpp>
#include <libflow/parts/vented_tube.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace parts_messages_test {

using namespace units;

/// The whole message of what `act` is refused with.
template <class Act>
static std::string message(const Act& act) {
  try {
    act();
  } catch (const InputError& e) {
    return e.what();
  }
  return "nothing refused";
}

/// The only caution of a part; one without a code where there is not exactly one.
static Caution only(const Cautions& found) {
  EXPECT_EQ(found.size(), 1u);
  return found.size() == 1 ? found.front() : Caution{};
}

/// Flows [m3/s] and drops [Pa].
static TablePart table(std::initializer_list<std::pair<double, double>> points) {
  TablePart part;
  for (const auto& [q, dp] : points) part.points.push_back({from_si<Flow>(q), dp * Pa});
  return part;
}
/// Flows [m3/s] and gains [Pa].
static PumpCurve curve(std::initializer_list<std::pair<double, double>> points) {
  PumpCurve pump;
  for (const auto& [q, gain] : points) pump.points.push_back({.flow = from_si<Flow>(q), .gain = gain * Pa});
  return pump;
}

TEST(PartsMessages, ATableQuotesThePointAndTheOneBefore) {
  const auto said = [](const TablePart& part) { return message([&] { part.check("part 'x'"); }); };
  EXPECT_EQ(said(table({{0.001, 2e3}})),
            "part 'x', points: 1 given; allowed: 2 to 1000 points of flow and drop, without zero flow");
  EXPECT_EQ(said(table({{0.001, 2e3}, {0.002, 7e3}, {0.0015, 8e3}})),
            "part 'x', point 3, flow: 0.0015 m3/s; allowed: more than the point before, 0.002 m3/s");
  EXPECT_EQ(said(table({{0.001, 2e3}, {0.002, 7e3}, {0.003, 6e3}})),
            "part 'x', point 3, drop: 6000 Pa; allowed: more than the point before, 7000 Pa: a drop must rise with the "
            "flow");
}

TEST(PartsMessages, APumpCurveQuotesThePointAndTheOneBefore) {
  const auto said = [](const PumpCurve& pump) { return message([&] { pump.check("pump 'p1'"); }); };
  EXPECT_EQ(said(curve({{0.0, 3e5}, {0.001, 2e5}, {0.002, 1e5}})),
            "pump 'p1', points: 3 points; allowed: 4 points or more, the first at no flow");
  EXPECT_EQ(said(curve({{0.001, 3e5}, {0.002, 2e5}, {0.003, 1e5}, {0.004, 0.0}})),
            "pump 'p1', point 1, flow: 0.001 m3/s in the first point; allowed: 0: the curve starts with the gain at no "
            "flow (shutoff)");
  EXPECT_EQ(
      said(curve({{0.0, 3e5}, {0.002, 2e5}, {0.0015, 1e5}, {0.004, 0.0}})),
      "pump 'p1', point 3, flow: 0.0015 m3/s after 0.002 m3/s; allowed: flows that rise from point to point by 1e-9 "
      "m3/s or more");
  EXPECT_EQ(said(curve({{0.0, 3.1e5}, {0.001, 3e5}, {0.002, 3.2e5}, {0.004, 0.0}})),
            "pump 'p1', point 3, gain: 320000 Pa after 300000 Pa: the curve rises before it falls, so one gain has two "
            "flows and the pump may hunt between them; allowed: gains that never rise from point to point; choose a "
            "pump with a falling curve, or give the falling part with the highest gain held down to no flow");
  PumpCurve uneven = curve({{0.0, 3e5}, {0.001, 2e5}, {0.002, 1e5}, {0.003, 0.0}});
  uneven.points[1].efficiency = 0.5;
  EXPECT_EQ(
      said(uneven),
      "pump 'p1', point 2: has other columns than point 1; allowed: efficiency, suction head and shaft power each "
      "in every point or in none");
}

// (p + 101,325 Pa - 2000 Pa)/(1000 kg/m3 x 9.80665 m/s2) is 3 m at p = 3 x 9806.65 - 99,325 Pa; 1 ft is 0.3048 m.
TEST(PartsMessages, AStarvedPumpIsToldBothHeads) {
  PumpCurve pump = curve({{0.0, 3e5}, {0.001, 2e5}, {0.002, 1e5}, {0.003, 0.0}});
  for (PumpPoint& point : pump.points) point.suction_head = 5.0 * m;
  LiquidState liquid = test::liquid_of("liquid", 1000.0, 1e-3);
  liquid.vapour_pressure = 2000.0;
  const Caution c = only(pump.cautions({.flow = 0.001, .from = 3.0 * 9806.65 - 99325.0}, liquid));
  EXPECT_EQ(c.code, "suction-starved");
  EXPECT_EQ(
      c.text,
      "the net positive suction head available, 9.84 ft (3 m), is below what the pump requires, 16.4 ft (5 m): it "
      "would cavitate; raise the tank, widen or shorten the suction line, or slow the pump");
  EXPECT_NEAR(c.value, 3.0, 1e-12);
  EXPECT_NEAR(c.limit, 5.0, 1e-12);
}

TEST(PartsMessages, AThickLiquidIsHeldAgainstItsKinematicViscosity) {
  const PumpCurve pump = curve({{0.0, 3e5}, {0.001, 2e5}, {0.002, 1e5}, {0.003, 0.0}});
  const Caution c = only(pump.cautions({.flow = 0.001}, test::liquid_of("thick", 1400.0, 0.15)));
  EXPECT_EQ(c.code, "pump-curve-for-water");
  EXPECT_DOUBLE_EQ(c.value, 0.15 / 1400.0);
  EXPECT_EQ(c.limit, 1e-5);
  const Caution beyond = only(pump.cautions({.flow = 0.0031}, test::water()));
  EXPECT_EQ(beyond.code, "outside-pump-curve");
  EXPECT_EQ(beyond.value, 0.0031);
  EXPECT_EQ(beyond.limit, 0.003);
}

// 30 psi are 206.8 kPa, 25 psi 172.4 kPa, 23.1 psi 159.3 kPa, 55 psi 379.2 kPa (1 psi = 6.894757 kPa).
TEST(PartsMessages, ARegulatorNamesItsPressures) {
  const PressureRegulator regulator{.set = 30.0 * psi, .passage_bore = 6.0 * mm};
  const auto said = [&](double before, double behind) {
    return only(regulator.cautions({.flow = 1e-4, .from = si(before * psi), .to = si(behind * psi)}, test::water()));
  };
  EXPECT_EQ(said(25.0, 23.1).text,
            "it is set to 30 psi (207 kPa) but cannot hold that: wide open, with 25 psi (172 kPa) before it, only 23.1 "
            "psi (159 kPa) is left behind it; raise the pressure before it, or take a larger or a lower-set regulator");
  EXPECT_EQ(said(60.0, 55.0).text,
            "solved as wide open: the pressure behind it is 55 psi (379 kPa), above its set pressure 30 psi (207 kPa); "
            "solve with its correction");
}

// 0.1005 of a twentieth of a second are 5.025 ms; the 5 ms to open leave 0.1005 - 0.005 x 20 of the time.
TEST(PartsMessages, APulseTooShortIsToldWhatItOpens) {
  const PulsedValve valve{
      .passage_bore = 2.0 * mm, .duty = 0.1005, .frequency = 20.0, .opening_lag = from_si<Time>(0.005)};
  EXPECT_EQ(message([&] { valve.check("valve 'v1'"); }),
            "valve 'v1', duty: a pulse of 0.005025 s with an opening lag of 0.005 s opens the valve for 0.0005 of the "
            "time; allowed: pulses that open it for 0.001 of the time or more: more duty, or fewer pulses a second");
  // A pause of 2 % of a tenth of a second is 2 ms, and it takes 3 ms to shut.
  const PulsedValve stays{
      .passage_bore = 2.0 * mm, .duty = 0.98, .frequency = 10.0, .closing_lag = from_si<Time>(0.003)};
  const Caution c = only(stays.cautions(1e-5, 2e5, test::water()));
  EXPECT_EQ(c.code, "valve-never-shuts");
  EXPECT_NEAR(c.value, 0.002, 1e-15);
  EXPECT_EQ(c.limit, 0.003);
}

TEST(PartsMessages, AReducerQuotesBothBores) {
  const Reducer reducer{.from_bore = 10.0 * mm, .to_bore = 10.09 * mm};
  EXPECT_EQ(message([&] { reducer.check("reducer 'r1'"); }),
            "reducer 'r1', to bore: 0.01009 m is nearly the from bore, 0.01 m; allowed: a bore at least 1 % wider or "
            "narrower; equal bores need no reducer");
}

TEST(PartsMessages, WhatNoOrificePassesIsQuoted) {
  EXPECT_EQ(message([] { (void)Orifice::rated(1.0 * m3_per_s, 10.0 * Pa, "row 3"); }),
            "row 3, rated flow: 1 m3/s of water at 10 Pa is no orifice; allowed: a flow that a bore of 5e-05 to 0.05 m "
            "passes");
}

// Velocity heads: the loss over rho v^2/2; of them K1/Re is laminar. Water at 20 C.
TEST(PartsMessages, ARatingIsToldInVelocityHeads) {
  const double rho = water_density<double>(293.15), mu = water_viscosity<double>(293.15);
  const double d = 0.025, v = 1e-6 / (std::numbers::pi * d * d / 4.0);
  const double heads = 1.0 / (0.5 * rho * v * v), laminar = 1e5 * mu / (rho * v * d);
  ASSERT_LT(heads, laminar);
  EXPECT_EQ(message([] { (void)Fitting::rated(25.0 * mm, from_si<Flow>(1e-6), 1.0 * Pa, 1e5, "meter"); }),
            fmt::format("meter, rated loss: 1 Pa are {:.6g} velocity heads in the bore; allowed: {:.6g} to {:.6g} "
                        "velocity heads; is the bore right?",
                        heads, laminar, laminar + 1e5));
}

TEST(PartsMessages, AStrainerSaysWhatItsScreenLosesAndHolds) {
  Strainer part{.bore = 25.0 * mm,
                .rated_flow = 20.0 * gpm,
                .rated_loss = 14000.0 * Pa,
                .opening = 0.3 * mm,
                .open_area = from_si<Area>(7e-8)};
  const auto said = [&] { return message([&] { part.check("strainer 's1'"); }); };
  // pi/4 x (0.3 mm)^2 = 0.0706858 mm2.
  EXPECT_EQ(
      said(),
      "strainer 's1', open area: 7e-08 m2 is less than one opening of 0.0003 m; allowed: at least 7.06858e-08 m2");
  // As many sharp holes of 0.3 mm side by side as have 2 cm2, each with its share of the flow.
  part.open_area = from_si<Area>(2e-4);
  const double holes = 2e-4 / (std::numbers::pi * 0.3e-3 * 0.3e-3 / 4.0);
  const auto water = test::liquid_of("water", water_density<double>(293.15), water_viscosity<double>(293.15));
  const double loss = Orifice{.bore = 0.3 * mm}.law(water)(si(20.0 * gpm) / holes).dp;
  EXPECT_EQ(said(), fmt::format("strainer 's1', rated loss: 14000 Pa, but the clean screen alone loses {0:.6g} Pa at "
                                "the rated flow; allowed: more than {0:.6g} Pa, or a larger open area",
                                loss));
  EXPECT_EQ(
      message([] { (void)Strainer::mesh_opening(150, "strainer 's1'"); }),
      "strainer 's1', mesh: 150 is not in the table; allowed: 16, 20, 30, 40, 50, 60, 80, 100, 200, or the opening "
      "itself; did you mean '100'?");
  // Half of 60 cm2 is free; at a square inch for each gal/min 9.2 gal/min want 9.2 in2.
  part.open_area = from_si<Area>(60e-4);
  part.blocked = 0.5;
  const Caution small = only(part.cautions(si(9.2 * gpm), 0.0, test::water()));
  EXPECT_NEAR(small.value, 30e-4, 1e-15);
  EXPECT_NEAR(small.limit, 9.2 * 0.0254 * 0.0254, 1e-12);
}

TEST(PartsMessages, ATankQuotesTheRowThatDoesNotRise) {
  const auto said = [](std::initializer_list<std::pair<double, double>> rows) {
    TankTable t;
    for (const auto& [level, volume] : rows) t.rows.push_back({level * m, volume * m3});
    return message([&] { (Tank{.shape = t}.check("tank 't1'")); });
  };
  EXPECT_EQ(said({{0.0, 0.0}, {0.3, 0.2}, {0.6, 0.4}}),
            "tank 't1', table: 3 rows; allowed: 4 rows or more, the first of level 0 and volume 0");
  EXPECT_EQ(said({{0.1, 0.0}, {0.3, 0.2}, {0.6, 0.4}, {0.9, 0.8}}),
            "tank 't1', table row 1: level 0.1 m, volume 0 m3; allowed: level 0 and volume 0 in the first row");
  EXPECT_EQ(said({{0.0, 0.0}, {0.3, 0.2}, {0.25, 0.4}, {0.9, 0.8}}),
            "tank 't1', table row 3: level 0.25 m, volume 0.4 m3; allowed: level and volume above those of the row "
            "before");
  EXPECT_EQ(said({{0.0, 0.0}, {0.3, 0.2}, {0.6, 0.2}, {0.9, 0.8}}),
            "tank 't1', table row 3: level 0.6 m, volume 0.2 m3; allowed: level and volume above those of the row "
            "before");
}

// 998.21 x 9.80665 x 0.6 Pa are 5.873 kPa, 0.8519 psi.
TEST(PartsMessages, AHangingTubeSaysWhatPullMayBeMissing) {
  const RowOutlet outlet{.bore = 12.7 * mm, .fall = 0.6 * m};
  const auto said = [&](double flow) { return only(outlet.cautions(flow / 6e4, 1e3, test::water())).text; };
  const std::string rest =
      ": air may climb in at its foot, and then up to 0.852 psi (5.87 kPa) of pull that is counted on is missing";
  EXPECT_EQ(said(0.3), "the hanging tube runs partly full" + rest);
  EXPECT_EQ(said(2.0), "the hanging tube may run full or partly full" + rest);
}

// 2 kPa are 0.2901 psi.
TEST(PartsMessages, AVentSaysHowFarTheLineSucks) {
  const auto water = test::water();
  const VentedTube tube{.bore = 4.0 * mm, .fall = 1.0 * m};
  const Caution c = only(tube.cautions({.flow = 0.0, .drop = 998.21 * 9.80665 - 2000.0}, water));
  EXPECT_EQ(c.text,
            "nothing flows: the line before this vented tube is 0.29 psi (2 kPa) below the air's pressure and takes in "
            "air there");
  EXPECT_NEAR(c.value, -2000.0, 1e-9);
  EXPECT_EQ(c.limit, 0.0);
}

TEST(PartsMessages, AMeterSaysOnWhichSideOfItsRange) {
  const FlowMeter meter{
      .bore = 15.0 * mm, .rated_flow = 10.0 * gpm, .rated_loss = 3.0 * psi, .least = 0.6 * gpm, .most = 13.0 * gpm};
  const Caution low = only(meter.cautions(-si(0.3 * gpm), 0.0, test::water()));
  EXPECT_EQ(low.text, "the flow is below the meter's working range: it may read low or nothing");
  EXPECT_EQ(low.value, si(0.3 * gpm));
  const Caution high = only(meter.cautions(si(14.0 * gpm), 0.0, test::water()));
  EXPECT_EQ(high.text, "the flow is above the meter's working range: it may read wrong or wear out");
  EXPECT_EQ(high.value, si(14.0 * gpm));
}

// Found and limit are pressures across the valve: what is lost in it, or, where that is more, what is before it.
TEST(PartsMessages, AValveNearItsCrackPressureIsToldTheSpread) {
  const CheckValve valve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm, .crack_spread = 3.0 * kPa};
  const Caution c = only(valve.cautions({.flow = 1e-7, .from = 22e3}, test::water()));
  EXPECT_EQ(c.code, "near-crack");
  EXPECT_EQ(c.value, 22e3);
  EXPECT_DOUBLE_EQ(c.limit, 23e3);
}

// 60 mL nine times a second sweep 540 mL/s: half of it is 270 mL/s.
TEST(PartsMessages, APumpThatSlipsIsHeldAgainstHalfItsSweep) {
  const PositivePump pump{
      .displacement = 60.0 * mL, .rpm = 540.0, .slip = {.flow = 2.0 * L_per_min, .gain = 300.0 * kPa}};
  const Caution c = only(pump.cautions(2.69e-4, 3e5, test::water()));
  EXPECT_EQ(c.code, "pump-slips");
  EXPECT_EQ(c.value, 2.69e-4);
  EXPECT_NEAR(c.limit, 2.7e-4, 1e-15);
  EXPECT_TRUE(pump.cautions(2.71e-4, 3e5, test::water()).empty());
}

// Ten times the kinematic viscosity: the rigid part's table ends at ten times the flow.
TEST(PartsMessages, ATableSaysWhereItEndsInThisLiquid) {
  const TablePart part = table({{1e-5, 2e3}, {2e-5, 7e3}, {1e-4, 1.55e5}});
  const Caution c = only(part.cautions(-1.1e-3, 0.0, test::liquid_of("thicker", 998.2, 1.0016e-2)));
  EXPECT_EQ(c.text,
            "the flow is beyond the last point of the part's table: its drop is carried on as a power of the flow");
  EXPECT_EQ(c.value, 1.1e-3);
  EXPECT_NEAR(c.limit, 1e-3, 1e-15);
}

// Six bores of the first hole are 7.2 mm.
TEST(PartsMessages, ANearPairIsHeldAgainstSixBores) {
  const OrificePair pair{.first = {.bore = 1.2 * mm}, .second = {.bore = 2.0 * mm}, .gap = 7.0 * mm};
  const Caution c = only(pair.cautions(1e-5, 1e5, test::water()));
  EXPECT_DOUBLE_EQ(c.value, 0.007);
  EXPECT_DOUBLE_EQ(c.limit, 0.0072);
}

}  // namespace parts_messages_test
}  // namespace libflow
