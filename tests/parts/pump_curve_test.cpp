// SPDX-License-Identifier: MIT
/// @file
/// Pump curve: through its points, speed laws, power, suction head, its cautions and what it refuses.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <libflow/parts/pump_curve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace pump_curve_test {

using namespace units;

constexpr double rho = 998.2;

/// A made-up pump, 45 to 0 psi over 0 to 110 gal/min, with every column.
PumpCurve curve_pump() {
  const auto row = [](double flow, double gain, double efficiency, double head, double power) {
    return PumpPoint{.flow = flow * gpm,
                     .gain = gain * psi,
                     .efficiency = efficiency,
                     .suction_head = head * ft,
                     .shaft_power = power};
  };
  return {.points = {row(0, 45, 0.0, 4.0, 600), row(30, 43, 0.35, 4.5, 900), row(60, 37, 0.55, 6.0, 1200),
                     row(90, 24, 0.50, 9.0, 1300), row(110, 8, 0.25, 14.0, 1350)}};
}
/// Made of plain numbers: flow [m3/s] and gain [Pa].
PumpCurve bare(const std::vector<std::pair<double, double>>& rows) {
  PumpCurve p;
  for (const auto& [flow, gain] : rows) p.points.push_back({.flow = from_si<Flow>(flow), .gain = gain * Pa});
  return p;
}
LiquidState like_points(double viscosity = 1e-3) { return test::liquid_of("as the points", rho, viscosity); }
double gain(const PumpCurve& p, double flow, const LiquidState& liquid = like_points()) {
  return -p.law(liquid)(flow).dp;
}
bool has(const Cautions& cautions, const std::string& code) {
  for (const Caution& c : cautions) {
    if (c.code == code) return true;
  }
  return false;
}

TEST(PumpCurve, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double speed : {0.05, 0.7, 1.0, 3.0}) {
      PumpCurve p = curve_pump();
      p.speed = speed;
      test::expect_lawful(p, liquid);
    }
    test::expect_lawful(bare({{0.0, 3e5}, {1e-3, 3e5}, {2e-3, 3e5}, {3e-3, 1e5}}), liquid);  // level, then falling
    // Steep, then level: so sharp a bend that over a millionth of the flow the slope changes by 1 %.
    test::expect_lawful(bare({{0.0, 3e5}, {1e-3, 2e5}, {2e-3, 2e5}, {3e-3, 2e5}, {4e-3, 0.0}}), liquid,
                        {.slope_tolerance = 0.01});
    test::expect_lawful(bare({{0.0, 3e5}, {1e-3, 3e5}, {2e-3, 3e5}, {3e-3, 3e5}}), liquid);  // all level
  }
}

TEST(PumpCurve, ThroughEveryPoint) {
  const PumpCurve p = curve_pump();
  for (const PumpPoint& point : p.points) {
    EXPECT_NEAR(gain(p, si(point.flow)), si(point.gain), 1e-12 * si(45.0 * psi));
    EXPECT_NEAR(*p.duty(point.flow, like_points()).efficiency, *point.efficiency, 1e-14);
    EXPECT_NEAR(*p.duty(point.flow, like_points()).head_required, si(*point.suction_head), 1e-14);
    EXPECT_NEAR(*p.duty(point.flow, like_points()).shaft_power, *point.shaft_power, 1e-10);
  }
  // Between two points it stays between them.
  for (double flow = 60.5; flow < 90.0; flow += 0.5) {
    EXPECT_LT(gain(p, flow * si(gpm)), si(37.0 * psi));
    EXPECT_GT(gain(p, flow * si(gpm)), si(24.0 * psi));
  }
}

TEST(PumpCurve, LevelStretchesFallByNextToNothing) {
  const PumpCurve p = bare({{0.0, 3e5}, {1e-3, 3e5}, {2e-3, 3e5}, {3e-3, 1e5}});
  EXPECT_NEAR(gain(p, 1e-3), 3e5, PumpCurve::least_fall * 3e5);
  EXPECT_LT(gain(p, 2e-3), gain(p, 1e-3));
  EXPECT_NEAR(gain(p, 3e-3), 1e5, 1e-9 * 3e5);
}

// Crane Technical Paper 410, example 7-33 (seen in an open package's notebooks): 400 gal/min at 126 ft and 17.5 hp at
// 3500 rpm are 194.3 gal/min at 29.7 ft and 2.0 hp at 1700 rpm. The other points are free.
TEST(PumpCurve, SpeedLawsWorked) {
  const double foot = 0.3048 * standard_gravity * rho, hp = 745.6998715822702;
  PumpCurve p;
  for (const auto& [flow, head, power] :
       {std::array{0.0, 150.0, 9.0}, {200.0, 144.0, 13.0}, {400.0, 126.0, 17.5}, {500.0, 108.0, 19.0}}) {
    p.points.push_back({.flow = flow * gpm, .gain = head * foot * Pa, .shaft_power = power * hp});
  }
  p.speed = 1700.0 / 3500.0;
  const double half_digit_of_flow = 0.05 * 0.1;  // the curve falls by less than 0.1 ft per gal/min there
  EXPECT_NEAR(gain(p, si(194.3 * gpm)) / foot, 29.7, 0.05 + half_digit_of_flow);
  EXPECT_NEAR(*p.duty(194.3 * gpm, like_points()).shaft_power / hp, 2.0, 0.05);
}

TEST(PumpCurve, SpeedLawsEverywhere) {
  const PumpCurve p = curve_pump();
  for (const double speed : {0.3, 1.7}) {
    PumpCurve other = p;
    other.speed = speed;
    for (const double flow : {0.0, 20.0, 75.0, 105.0}) {
      const auto one = p.duty(flow * gpm, like_points()), two = other.duty(speed * flow * gpm, like_points());
      EXPECT_NEAR(two.gain, speed * speed * one.gain, 1e-9 * si(45.0 * psi));
      EXPECT_NEAR(*two.head_required, speed * speed * *one.head_required, 1e-12);
      EXPECT_NEAR(*two.shaft_power, speed * speed * speed * *one.shaft_power, 1e-9);
      EXPECT_NEAR(*two.efficiency, *one.efficiency, 1e-12);
    }
  }
}

// A centrifugal pump gives a head: the same height of any liquid (any pump handbook).
TEST(PumpCurve, SameHeadInAHeavierLiquid) {
  const PumpCurve p = curve_pump();
  const LiquidState heavy = test::liquid_of("heavy", 1.4 * rho, 1e-3);
  for (const double flow : {0.0, 1e-3, 5e-3}) EXPECT_NEAR(gain(p, flow, heavy), 1.4 * gain(p, flow), 1e-8);
  EXPECT_NEAR(*p.duty(60.0 * gpm, heavy).shaft_power, 1.4 * 1200.0, 1e-9);
}

TEST(PumpCurve, PowerFromEfficiency) {
  PumpCurve p = curve_pump();
  for (PumpPoint& point : p.points) point.shaft_power.reset();
  const auto duty = p.duty(60.0 * gpm, like_points());
  EXPECT_NEAR(*duty.shaft_power, si(60.0 * gpm) * si(37.0 * psi) / 0.55, 1e-9);
  EXPECT_FALSE(p.duty(0.0 * gpm, like_points()).shaft_power.has_value());  // nothing delivered at no efficiency
}

// With the power given and no efficiency, the efficiency is the work done over it, at any speed and in any liquid.
TEST(PumpCurve, EfficiencyFromPower) {
  PumpCurve p = curve_pump();
  for (PumpPoint& point : p.points) point.efficiency.reset();
  for (const double speed : {0.5, 1.0}) {
    p.speed = speed;
    const Flow flow = speed * 60.0 * gpm;
    const auto duty = p.duty(flow, like_points());
    EXPECT_NEAR(*duty.efficiency, si(flow) * duty.gain / *duty.shaft_power, 1e-12);
    EXPECT_EQ(*Part(p).shaft_power(si(flow), like_points()), *duty.shaft_power);
  }
}

TEST(PumpCurve, BeyondTheLastPoint) {
  const PumpCurve p = curve_pump();
  const double last = si(110.0 * gpm);
  const Drop<double> there = p.law(like_points())(last), on = p.law(like_points())(1.1 * last);
  EXPECT_NEAR(on.dp, there.dp + 0.1 * last * there.slope, 1e-9 * si(45.0 * psi));
  EXPECT_FALSE(p.duty(from_si<Flow>(1.1 * last), like_points()).inside);
  EXPECT_TRUE(has(p.cautions({.flow = 1.1 * last}, like_points()), "outside-pump-curve"));
  EXPECT_FALSE(has(p.cautions({.flow = 0.9 * last}, like_points()), "outside-pump-curve"));
  // By the speed laws the curve ends at the last point's flow times the speed.
  for (const double speed : {0.5, 2.0}) {
    PumpCurve other = p;
    other.speed = speed;
    EXPECT_TRUE(has(other.cautions({.flow = 1.01 * speed * last}, like_points()), "outside-pump-curve")) << speed;
    EXPECT_FALSE(has(other.cautions({.flow = 0.99 * speed * last}, like_points()), "outside-pump-curve")) << speed;
  }
}

TEST(PumpCurve, CautionForThickLiquids) {
  EXPECT_TRUE(has(curve_pump().cautions({.flow = 1e-3}, test::thick()), "pump-curve-for-water"));
  EXPECT_FALSE(has(curve_pump().cautions({.flow = 1e-3}, test::water()), "pump-curve-for-water"));
}

// Munson, Fundamentals of Fluid Mechanics, example 12.3 (through the FOSSEE textbook companions): 0.5 ft3/s, 4 in line
// of loss coefficient 20, 15 ft required, 14.7 psi, vapour pressure 0.5069 psi, 62.22 lb/ft3: the pump may stand at
// most 7.65 ft above the water.
TEST(PumpCurve, SuctionLimitWorked) {
  PumpCurve p;
  for (const double q : {0.0, 0.25, 0.5, 0.75}) {
    p.points.push_back(
        {.flow = from_si<Flow>(q * 0.028316846592), .gain = (50.0 - 40.0 * q) * psi, .suction_head = 15.0 * ft});
  }
  p.check("pump");
  p.atmosphere = 14.7 * psi;
  LiquidState water = test::liquid_of("water", 62.22 * 0.45359237 / std::pow(0.3048, 3), 1e-3);
  water.vapour_pressure = si(0.5069 * psi);
  const double velocity = 0.5 / (std::numbers::pi / 36.0), loss = 20.0 * velocity * velocity / (2.0 * 32.2);
  const Flow flow = from_si<Flow>(0.5 * 0.028316846592);
  const auto inlet = [&](double lift) {
    return from_si<Pressure>(-(lift + loss) * 0.3048 * water.density * standard_gravity);
  };
  EXPECT_TRUE(p.suction_cautions(flow, inlet(7.645), water).empty());
  EXPECT_TRUE(has(p.suction_cautions(flow, inlet(7.655), water), "suction-starved"));
  EXPECT_NEAR(p.head_available(inlet(7.65), water) / 0.3048, 15.0, 0.005);
  // As the solver asks: by the pressure at the pump's inlet, whatever it is at the outlet.
  for (const double outlet : {0.0, 5e5}) {
    EXPECT_FALSE(has(p.cautions({.flow = si(flow), .from = si(inlet(7.645)), .to = outlet}, water), "suction-starved"));
    EXPECT_TRUE(has(p.cautions({.flow = si(flow), .from = si(inlet(7.655)), .to = outlet}, water), "suction-starved"));
  }
  EXPECT_FALSE(has(p.cautions({.flow = 0.0, .from = -9e4}, water), "suction-starved"));  // nothing flows
}

TEST(PumpCurve, ARisingCurveIsRefusedInWords) {
  const PumpCurve p = bare({{0.0, 3.0e5}, {1e-3, 3.2e5}, {2e-3, 2.5e5}, {3e-3, 1e5}});
  test::expect_refused([&] { p.check("pump 'p1'"); }, "pump 'p1', point 2, gain");
  try {
    p.check("pump 'p1'");
  } catch (const InputError& e) {
    EXPECT_NE(std::string(e.what()).find("rises before it falls"), std::string::npos) << e.what();
  }
}

TEST(PumpCurve, RefusesBadInput) {
  const auto refused = [](const auto& change, const std::string& field) {
    PumpCurve p = curve_pump();
    change(p);
    test::expect_refused([&] { p.check("pump 'p1'"); }, "pump 'p1', " + field);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  refused([](PumpCurve& p) { p.points.resize(3); }, "points");
  refused([](PumpCurve& p) { p.points.erase(p.points.begin()); }, "point 1, flow");
  refused([](PumpCurve& p) { p.points[2].flow = p.points[1].flow; }, "point 3, flow");
  refused([](PumpCurve& p) { p.points[2].shaft_power.reset(); }, "point 3");
  refused([](PumpCurve& p) { p.points[1].suction_head.reset(); }, "point 2");
  refused([](PumpCurve& p) { p.points[0].gain = 0.0 * Pa; }, "point 1, gain");
  for (const double bad : {-1.0, nan, inf}) {
    refused([=](PumpCurve& p) { p.points[3].flow = from_si<Flow>(bad); }, "point 4, flow");
    refused([=](PumpCurve& p) { p.points[3].gain = bad * Pa; }, "point 4, gain");
    refused([=](PumpCurve& p) { p.points[3].efficiency = bad; }, "point 4, efficiency");
    refused([=](PumpCurve& p) { p.points[3].suction_head = bad * m; }, "point 4, suction head");
    refused([=](PumpCurve& p) { p.points[3].shaft_power = bad; }, "point 4, shaft power");
    refused([=](PumpCurve& p) { p.speed = bad; }, "speed");
    refused([=](PumpCurve& p) { p.points_density = bad * kg_per_m3; }, "points density");
    refused([=](PumpCurve& p) { p.atmosphere = bad * Pa; }, "atmosphere");
  }
  test::expect_refused([] { Part(PumpCurve{}, "pump 'empty'"); }, "pump 'empty', points");
  // Four points are a curve; flows 1e-9 m3/s apart are two flows.
  EXPECT_NO_THROW(bare({{0.0, 3e5}, {1e-3, 2e5}, {1e-3 + 1.01e-9, 1.9e5}, {2e-3, 1e5}}).check("pump 'p1'"));
  test::expect_refused(
      [] {
        bare({{0.0, 3e5}, {1e-3, 2e5}, {1e-3 + 0.99e-9, 1.9e5}, {2e-3, 1e5}}).check("pump 'p1'");
      },
      "pump 'p1', point 3, flow");
  EXPECT_NO_THROW(curve_pump().check("pump 'p1'"));
}

// Of a flow back its curve says nothing; and without shaft power no efficiency follows from it.
TEST(PumpCurve, NothingIsReadBeforeItsFirstPointOrWithoutPower) {
  const PumpCurve p = curve_pump();
  const auto back = p.duty(-1.0 * gpm, like_points());
  EXPECT_FALSE(back.inside);
  EXPECT_FALSE(back.efficiency || back.head_required || back.shaft_power);
  EXPECT_TRUE(p.duty(0.0 * gpm, like_points()).inside);
  PumpCurve idle = bare({{0.0, 2e5}, {1e-3, 1.8e5}, {2e-3, 1.4e5}, {3e-3, 0.6e5}});
  const double power[] = {0.0, 300.0, 400.0, 450.0};
  for (std::size_t i = 0; i < 4; ++i) idle.points[i].shaft_power = power[i];
  const auto still = idle.duty(from_si<Flow>(0.0), like_points());
  EXPECT_TRUE(still.inside);
  EXPECT_EQ(still.shaft_power, 0.0);
  EXPECT_FALSE(still.efficiency);
  const auto running = idle.duty(from_si<Flow>(1e-3), like_points());
  EXPECT_NEAR(running.efficiency.value_or(0.0), 1e-3 * 1.8e5 / 300.0, 1e-9);
}

}  // namespace pump_curve_test
}  // namespace libflow
