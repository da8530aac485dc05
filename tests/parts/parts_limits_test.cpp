// SPDX-License-Identifier: MIT
// Where a part begins to refuse or to caution, from both sides, and what a member is that nobody gave. The limits are
// the ones that the headers document.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <numbers>
#include <string>
#include <utility>

#include <libflow/fluid/water.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/inputs.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/parts/suspension_hose.hpp>
#include <libflow/parts/table_part.hpp>
#include <libflow/parts/tank.hpp>
#include <libflow/parts/tee.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/parts/vented_tube.hpp>
#include <libflow/physics/tee.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace parts_limits_test {

using namespace units;

/// `act(x)` takes both ends of a range and refuses, naming `field`, what is 1 % beyond them (below zero: 1 % of the end
/// at the top).
template <class Act>
static void expect_range(const Act& act, Range range, const std::string& field) {
  EXPECT_NO_THROW(act(range.low)) << field;
  EXPECT_NO_THROW(act(range.high)) << field;
  const double below = range.low > 0.0 ? 0.99 * range.low : -0.01 * range.high;
  test::expect_refused([&] { act(below); }, field);
  test::expect_refused([&] { act(1.01 * range.high); }, field);
}

static bool has(const Cautions& found, const std::string& code) {
  return std::any_of(found.begin(), found.end(), [&](const Caution& c) { return c.code == code; });
}

/// Flows [m3/s] and gains [Pa].
static PumpCurve curve(std::initializer_list<std::pair<double, double>> points) {
  PumpCurve pump;
  for (const auto& [q, gain] : points) pump.points.push_back({.flow = from_si<Flow>(q), .gain = gain * Pa});
  return pump;
}

// A part about which nothing is known works at nothing.
TEST(PartsLimits, AnUnknownWorkingIsAllZero) {
  const Working working;
  EXPECT_EQ(working.flow, 0.0);
  EXPECT_EQ(working.from, 0.0);
  EXPECT_EQ(working.to, 0.0);
  EXPECT_EQ(working.drop, 0.0);
  EXPECT_EQ(working.higher(), 0.0);
}

// Flow times gain over the efficiency, however small the gain: 1e-3 m3/s x 5 mPa / 0.5.
TEST(PartsLimits, AnyGainIsWork) {
  Law law;
  law.threshold = -0.005;
  EXPECT_DOUBLE_EQ(pump_shaft_power(law, 1e-3, 0.5).value_or(0.0), 1e-5);
  law.threshold = 0.005;
  EXPECT_FALSE(pump_shaft_power(law, 1e-3, 0.5).has_value());
}

TEST(PartsLimits, WhatNobodyGaveIsMissedOrNothing) {
  test::expect_refused([] { Part(Fitting{.bore = 1.0 * cm, .k_inf = 0.4}, "elbow"); }, "elbow, k1");
  EXPECT_EQ((Fitting{.bore = 1.0 * cm, .k1 = 800}.k_inf), 0.0);
  test::expect_refused([] { Part(PositivePump{.displacement = 60.0 * mL}, "pump"); }, "pump, rpm");
  // 1 m of water over a bottom outlet; all of a cubic metre can be drawn.
  const Tank tank{.shape = UprightTank::box(1.0 * m, 1.0 * m, 1.0 * m)};
  EXPECT_NEAR(si(tank.outlet_pressure(1.0 * m, test::water())), 998.21 * 9.80665, 1e-9);
  EXPECT_NEAR(si(tank.usable_volume(1.0 * m)), 1.0, 1e-15);
  // A hose without storage gives nothing back.
  const StoppedRow row{.trapped = 1.0 * L, .before = 210.0 * kPa};
  EXPECT_EQ(si(dribble({.crack = 10.0 * kPa, .passage_bore = 3.0 * mm}, row, test::water()).relaxed), 0.0);
  // The standard atmosphere over water of no vapour pressure: 101,325/(rho g).
  LiquidState liquid = test::water();
  liquid.vapour_pressure = 0.0;
  EXPECT_NEAR(PumpCurve{}.head_available(0.0 * Pa, liquid), 101325.0 / (998.21 * 9.80665), 1e-12);
}

TEST(PartsLimits, OfRatings) {
  // Each end with other values that make it a rating at all.
  const auto flow = [](double q) {
    const bool least = q < 0.5;
    const Length bore = least ? 0.1 * mm : 0.5 * m;
    (void)Fitting::rated(bore, from_si<Flow>(q), (least ? 10.0 : 1e5) * Pa, 1.0, "meter");
  };
  expect_range(flow, {1e-9, 1.0}, "meter, rated flow");
  const auto loss = [](double dp) {
    const bool least = dp < 2.0;
    (void)Fitting::rated(least ? 0.5 * m : 10.0 * mm, from_si<Flow>(least ? 1e-2 : 1e-3), dp * Pa, 1.0, "meter");
  };
  expect_range(loss, {1.0, 1e7}, "meter, rated loss");
  const auto passed = [](double q) { (void)Orifice::rated(from_si<Flow>(q), (q < 0.5 ? 1.0 : 1e8) * Pa, "row 3"); };
  EXPECT_NO_THROW(passed(1e-9));
  test::expect_message([&] { passed(0.99e-9); }, "row 3, rated flow: 9.9e-10 m3/s; allowed: 1e-09 to 1 m3/s");
  test::expect_message([&] { passed(1.01); }, "row 3, rated flow: 1.01 m3/s; allowed: 1e-09 to 1 m3/s");
  const auto pressed = [](double p) { (void)Orifice::rated(from_si<Flow>(p < 2.0 ? 1e-6 : 1e-4), p * Pa, "row 3"); };
  expect_range(pressed, {1.0, 1e8}, "row 3, rated pressure");
}

TEST(PartsLimits, OfAnOrifice) {
  const Orifice o{.bore = 1.0 * mm};
  expect_range([&](double p) { (void)o.flow_at(p * Pa, test::water(), "row 3"); }, {0.0, 1e8}, "row 3, pressure");
  expect_range([&](double wear) { (void)o.worn(wear, 1e5 * Pa, "row 3"); }, {0.0, 1.0}, "row 3, wear");
  expect_range([&](double p) { (void)o.worn(0.1, p * Pa, "row 3"); }, {1.0, 1e8}, "row 3, pressure");
  expect_range([](double t) { Orifice{.bore = 1.0 * mm, .bore_tolerance = t * mm}.check("row 3"); }, {0.0, 0.5},
               "row 3, bore tolerance");
}

TEST(PartsLimits, OfPumps) {
  const auto centrifugal = [](double share, double speed) {
    CentrifugalPump{.shutoff = 4e5 * Pa, .free_flow = 1e-3 * m3_per_s, .linear_share = share, .speed = speed}.check(
        "p");
  };
  expect_range([&](double share) { centrifugal(share, 1.0); }, {0.001, 1.0}, "p, linear share");
  expect_range([&](double speed) { centrifugal(0.05, speed); }, {0.05, 3.0}, "p, speed");
  const auto ground = [](double litres, double distance) {
    return GroundDrivenPump{.displacement = litres * L,
                            .distance = distance * m,
                            .ground_speed = 1.0 * m_per_s,
                            .slip = {.flow = 1.0 * mL_per_min, .gain = 200.0 * kPa}};
  };
  // At 1 m/s it sweeps its displacement over its distance each second.
  expect_range(
      [&](double swept) {
        swept < 0.5 ? ground(1e3 * swept * 1e4, 1e4).check("p") : ground(10.0 * swept, 0.01).check("p");
      },
      {1e-12, 1.0}, "p, swept flow");
  expect_range([&](double width) { (void)ground(0.2, 10.0).swept_rate(width * m, "p"); }, {1e-3, 1e3}, "p, width");
}

TEST(PartsLimits, OfAPumpCurvesPoints) {
  // A second point at no flow is refused as any other that does not rise.
  test::expect_refused(
      [] {
        curve({{0.0, 3e5}, {0.0, 2e5}, {1e-3, 1e5}, {2e-3, 0.0}}).check("p");
      },
      "p, point 2, flow");
  const auto efficiency = [](std::size_t at, double x) {
    PumpCurve pump = curve({{0.0, 3e5}, {1e-3, 2e5}, {2e-3, 1e5}, {3e-3, 0.0}});
    for (PumpPoint& point : pump.points) point.efficiency = 0.5;
    pump.points[at].efficiency = x;
    pump.check("p");
  };
  expect_range([&](double x) { efficiency(0, x); }, {0.0, 1.0}, "p, point 1, efficiency");
  expect_range([&](double x) { efficiency(1, x); }, {1e-3, 1.0}, "p, point 2, efficiency");
  expect_range([&](double x) { efficiency(3, x); }, {1e-3, 1.0}, "p, point 4, efficiency");
}

// A curve that is level from end to end falls by a ten-thousandth of its shutoff gain.
TEST(PartsLimits, OfALevelPumpCurve) {
  const PumpCurve pump = curve({{0.0, 3e5}, {1e-3, 3e5}, {2e-3, 3e5}, {3e-3, 3e5}});
  const auto liquid = test::liquid_of("as the points", 998.2, 1e-3);
  EXPECT_NEAR(-pump.law(liquid)(3e-3).dp, 3e5 * (1.0 - 1e-4), 1e-6);
  EXPECT_NEAR(-pump.law(liquid)(1.5e-3).dp, 3e5 * (1.0 - 0.5e-4), 1e-6);
}

// A curve for water is cautioned from 1e-5 m2/s on; a small pump starves as a large one does.
TEST(PartsLimits, OfAPumpCurvesCautions) {
  PumpCurve pump = curve({{0.0, 3e5}, {1e-3, 2e5}, {2e-3, 1e5}, {3e-3, 0.0}});
  const auto thick = [&](double nu) {
    return has(pump.cautions({.flow = 1e-3}, test::liquid_of("liquid", 1000.0, 1000.0 * nu)), "pump-curve-for-water");
  };
  EXPECT_FALSE(thick(0.99e-5));
  EXPECT_TRUE(thick(1.01e-5));
  for (PumpPoint& point : pump.points) point.suction_head = 5.0 * m;
  EXPECT_TRUE(has(pump.cautions({.flow = 1e-6, .from = -9e4}, test::water()), "suction-starved"));
}

// However little it is: the power by an efficiency of half a per cent, the efficiency by a power of 5 mW.
TEST(PartsLimits, OfWhatAPumpsDutyTells) {
  PumpCurve pump = curve({{0.0, 3e5}, {1e-7, 2e5}, {2e-7, 1e5}, {3e-7, 0.0}});
  const auto liquid = test::liquid_of("as the points", 998.2, 1e-3);
  for (PumpPoint& point : pump.points) point.efficiency = 0.005;
  EXPECT_NEAR(pump.duty(from_si<Flow>(1e-7), liquid).shaft_power.value_or(0.0), 1e-7 * 2e5 / 0.005, 1e-12);
  for (PumpPoint& point : pump.points) {
    point.efficiency.reset();
    point.shaft_power = 0.005;
  }
  pump.points[1].gain = 2e4 * Pa;
  pump.points[2].gain = 1e4 * Pa;
  EXPECT_NEAR(pump.duty(from_si<Flow>(1e-7), liquid).efficiency.value_or(0.0), 1e-7 * 2e4 / 0.005, 1e-9);
}

// Both directions of 10 %, in density as in viscosity; a part that is not rigid ends where its table does.
TEST(PartsLimits, OfATableInAnotherLiquid) {
  TablePart part;
  part.points = {{1.0 * L_per_min, 2.0 * kPa}, {10.0 * L_per_min, 155.0 * kPa}};
  part.rigid = false;
  const auto found = [&](double density, double viscosity, double q) {
    return part.cautions(si(q * L_per_min), 0.0, test::liquid_of("l", 998.2 * density, 1.0016e-3 * viscosity));
  };
  for (const double way : {1.0, -1.0}) {
    const double within = 1.0 + 0.0995 * way, beyond = 1.0 + 0.1005 * way;
    EXPECT_TRUE(found(within, 1.0, 5.0).empty()) << way;
    EXPECT_TRUE(found(1.0, within, 5.0).empty()) << way;
    EXPECT_TRUE(has(found(beyond, 1.0, 5.0), "another-liquid")) << way;
    EXPECT_TRUE(has(found(1.0, beyond, 5.0), "another-liquid")) << way;
  }
  EXPECT_TRUE(found(1.0, 1.0, 0.99 * 10.0).empty());
  EXPECT_TRUE(has(found(1.0, 1.0, 1.01 * 10.0), "outside-range"));
}

// One part in 100,000 of the set pressure counts as held.
TEST(PartsLimits, OfWhatARegulatorHolds) {
  const PressureRegulator regulator{.set = 2e5 * Pa, .passage_bore = 6.0 * mm};
  const auto found = [&](double off) {
    return regulator.cautions({.flow = 1e-4, .from = 3e5, .to = 2e5 * (1.0 + off)}, test::water());
  };
  EXPECT_TRUE(found(-0.99e-5).empty());
  EXPECT_TRUE(found(0.99e-5).empty());
  EXPECT_TRUE(has(found(-1.01e-5), "regulator-cannot-hold"));
  EXPECT_TRUE(has(found(1.01e-5), "regulator-not-throttled"));
}

TEST(PartsLimits, OfAPulsedValve) {
  PulsedValve valve{.passage_bore = 2.0 * mm, .duty = 0.2};
  EXPECT_TRUE(valve.cautions(1e-5, 1e5, test::water()).empty());  // 20 % is usable
  valve.duty = 0.199;
  EXPECT_TRUE(has(valve.cautions(1e-5, 1e5, test::water()), "duty-outside-usable"));
  const auto least = [&](double share) {
    valve.least_usable_duty = share;
    valve.check("valve");
  };
  expect_range(least, {0.0, 1.0}, "valve, least usable duty");
}

TEST(PartsLimits, OfTubesAndSoil) {
  expect_range([](double depth) { (void)soil_back_pressure(depth * m, test::water()); }, {0.0, 2.0}, "depth");
  // A line that sucks by more than 1 Pa takes in air.
  const VentedTube tube{.bore = 4.0 * mm, .fall = 1.0 * m};
  const double pull = 998.21 * 9.80665;
  EXPECT_TRUE(tube.cautions({.drop = pull - 0.99}, test::water()).empty());
  EXPECT_TRUE(has(tube.cautions({.drop = pull - 1.01}, test::water()), "vent-takes-air"));
}

TEST(PartsLimits, OfASuspensionHose) {
  SuspensionHose hose{.length = 4.0 * m, .bore = 2.0 * cm, .consistency = 6.3, .flow_index = 0.3};
  expect_range(
      [&](double rating) {
        SuspensionHose rated = hose;
        rated.rating = rating * Pa;
        rated.check("hose");
      },
      {1.0, 1e8}, "hose, rating");
  // The turbulent formula's range in n matters in turbulent flow alone, the plateau only where there is one.
  EXPECT_TRUE(hose.cautions(1e-5, 0.0, test::water()).empty());
  hose.flow_index = 1.0;
  EXPECT_TRUE(hose.cautions(1e-9, 0.0, test::water()).empty());
}

// Typical values of IEC 60534-2-1 (from memory): globe, parabolic plug FL 0.9, Fd 0.46; full-bore ball 0.74, 0.99.
TEST(PartsLimits, OfAValve) {
  EXPECT_EQ(Valve{}.recovery, 0.9);
  EXPECT_EQ(Valve{}.style, 0.46);
  const Valve ball = Valve::ball(1e-3 * m3_per_s, 20.0 * mm);
  EXPECT_EQ(ball.recovery, 0.74);
  EXPECT_EQ(ball.style, 0.99);
  EXPECT_EQ(ball.open, 1.0);
  // 0.05 velocity heads of 1 bar: v = sqrt(2 x 1e5/(0.05 x 999.1 kg/m3)).
  const double most = std::numbers::pi / 4.0 * 0.005 * 0.005 * std::sqrt(2e5 / (0.05 * 999.1));
  expect_range([](double kv) { Valve{.kv = from_si<Flow>(kv), .bore = 5.0 * mm}.check("valve"); },
               {1e-9, most * (1.0 - 1e-12)}, "valve, kv");
  // FL^2 (p1 - FF pv), FF = 0.96 - 0.28 sqrt(pv/pc), critical pressure 22.12 MPa.
  LiquidState water = test::water();
  water.vapour_pressure = 2339.0;
  const Cautions found = Valve{.kv = 1e-4 * m3_per_s, .bore = 20.0 * mm}.cautions(1e-3, 2e5, water);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].limit, 0.81 * (301325.0 - (0.96 - 0.28 * std::sqrt(2339.0 / 22.12e6)) * 2339.0), 1e-6);
}

TEST(PartsLimits, OfATeesCaution) {
  const Tee tee{.run_bore = 25.0 * mm, .branch_bore = 13.0 * mm};
  const TeeFlows slow{.left = -1e-4, .right = 0.5e-4, .branch = 0.5e-4};
  const TeeLevels l = tee.levels(slow, test::water().density);
  const double differ = std::max({l.left, l.right, l.branch}) - std::min({l.left, l.right, l.branch});
  // A hundredth of the drop that matters.
  EXPECT_TRUE(tee.cautions(slow, test::water(), 101.0 * differ).empty());
  EXPECT_EQ(tee.cautions(slow, test::water(), 99.0 * differ).size(), 1u);
  // Re 10,000 of the run: Q = Re pi d mu/(4 rho).
  const double q = 1e4 * std::numbers::pi * 0.025 * test::water().viscosity / (4.0 * test::water().density);
  const auto at = [&](double share) {
    return tee.cautions({.left = -share * q, .right = 0.5 * share * q, .branch = 0.5 * share * q}, test::water(), 1.0);
  };
  EXPECT_EQ(at(0.99).size(), 1u);
  EXPECT_TRUE(at(1.01).empty());
}

// Combining goes over into dividing over the last tenth of the branch's share, by the square of what is left of it.
TEST(PartsLimits, OfATeesBlending) {
  const Tee tee{.run_bore = 25.0 * mm, .branch_bore = 25.0 * mm};
  const physics::BasicTeeShape<double> shape{.area_ratio = 1.0};
  const double rho = 998.2, v = 1e-3 / (std::numbers::pi / 4.0 * 0.025 * 0.025), head = 0.5 * rho * v * v;
  const double jump =
      -physics::tee_dividing<double>(0.0, shape).branch - physics::tee_combining<double>(0.0, shape).branch;
  ASSERT_GT(std::abs(jump), 0.05);  // so that the weight shows
  for (const auto& [share, weight] : {std::pair{0.05, 0.25}, {0.09, 0.01}, {0.1001, 0.0}, {0.3, 0.0}}) {
    const TeeLevels l = tee.levels({.left = -(1.0 - share) * 1e-3, .right = 1e-3, .branch = -share * 1e-3}, rho);
    EXPECT_NEAR(l.branch / head, physics::tee_combining<double>(share, shape).branch + weight * jump, 1e-9) << share;
  }
}

// At a trickle a sprung valve stands at its crack pressure, whichever way the last digit of its search was rounded.
TEST(PartsLimits, OfASpringAtATrickle) {
  for (int i = 0; i < 200; ++i) {
    const double crack = 1e3 * std::pow(1.03, i);
    const CheckValve valve{.crack = crack * Pa, .passage_bore = 3.0 * mm, .full_open = 1.5 * crack * Pa};
    const Law law = valve.law(test::water());
    for (const double flow : {1e-24, 1e-20, 1e-18}) EXPECT_NEAR(law(flow).dp / crack, 1.0, 1e-12) << crack;
  }
}

// A spring of a twentieth of a pascal lifts as any other: at part lift the valve passes that part of the open hole's
// flow, the lift being 1/0.9 of the rise over the span.
TEST(PartsLimits, OfAWeakSpring) {
  const auto water = test::water();
  const CheckValve valve{.crack = 1.0 * Pa, .passage_bore = 3.0 * mm, .full_open = 1.05 * Pa};
  const Orifice open{.bore = 3.0 * mm};
  test::expect_lawful(valve, water);
  for (const double rise : {0.1, 0.5, 0.79}) {
    const Pressure across = (1.0 + 0.05 * rise) * Pa;
    EXPECT_NEAR(valve.law(water)(rise / 0.9 * si(open.flow_at(across, water))).dp / si(across), 1.0, 1e-11) << rise;
  }
}

// A line relaxes to the head that stands on the valve where that is more than the crack pressure: 2 m of water.
TEST(PartsLimits, OfADribble) {
  const CheckValve valve{.crack = 10.0 * kPa, .passage_bore = 3.0 * mm};
  const StoppedRow row{.column = 2.0 * m, .trapped = 1.0 * L, .storage = 2e-8, .before = 210.0 * kPa};
  EXPECT_NEAR(si(dribble(valve, row, test::water()).relaxed), 1e-3 * 2e-8 * (2.1e5 - 998.21 * 9.80665 * 2.0), 1e-15);
  const auto with = [&](auto change) {
    return [=](double x) {
      StoppedRow other;
      change(other, x);
      (void)dribble(valve, other, test::water());
    };
  };
  expect_range(with([](StoppedRow& r, double x) { r.column = x * m; }), {0.0, 1e9}, "dribble, column");
  expect_range(with([](StoppedRow& r, double x) { r.surface_tension = x; }), {1e-3, 1.0}, "dribble, surface tension");
}

// Up to either end of the bores: the rating of a hole a thousandth within gives that hole. Wear by a thousandth widens.
TEST(PartsLimits, OfOrificesByTheirRating) {
  const auto water = test::liquid_of("water", water_density<double>(293.15), water_viscosity<double>(293.15));
  for (const double bore : {1.001 * 5e-5, 0.999 * 0.05}) {
    const Flow flow = Orifice{.bore = bore * m}.flow_at(1e5 * Pa, water);
    EXPECT_NEAR(si(Orifice::rated(flow, 1e5 * Pa).bore) / bore, 1.0, 1e-9);
  }
  const Orifice fresh{.bore = 1.0 * mm};
  const double more = fresh.worn(0.001, 1e5 * Pa).flow_at(1e5 * Pa, water) / fresh.flow_at(1e5 * Pa, water);
  EXPECT_NEAR(more, 1.001, 1e-9);
}

// A tube of 5 mm has its friction and its fall too: laminar 128 mu L q/(pi d^4), and rho g L.
TEST(PartsLimits, OfAShortTube) {
  const auto water = test::water();
  const RowOutlet tube{.bore = 3.0 * mm, .fall = 5.0 * mm}, none{.bore = 3.0 * mm};
  const double friction = 128.0 * water.viscosity * 0.005 * 1e-6 / (std::numbers::pi * std::pow(0.003, 4));
  EXPECT_NEAR((tube.law(water)(1e-6).dp - none.law(water)(1e-6).dp) / friction, 1.0, 1e-9);
  const VentedTube vented = VentedTube::of(tube);
  EXPECT_NEAR(vented.unused_fall(0.0, water), 998.21 * 9.80665 * 0.005, 1e-9);
  const double fast = 1e-4, full = tube.law(water)(fast).dp;  // its friction is far above its fall
  EXPECT_NEAR(vented.law(water)(fast).dp, full, 1e-9 * full);
}

// What is not set enters a law as nothing.
TEST(PartsLimits, OfAnInputThatIsNotSet) {
  const auto in = input_values<double>(Orifice{.bore = 1.0 * mm}, [](double x, std::size_t) { return x; });
  EXPECT_EQ(in[2], 0.0);
}

}  // namespace parts_limits_test
}  // namespace libflow
