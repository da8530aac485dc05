// SPDX-License-Identifier: MIT
/// @file
/// Ground-driven pump: flow follows the ground speed, rate per area stays.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/parts/ground_driven_pump.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace ground_driven_pump_test {

using namespace units;

/// 0.2 L each 10 m: 20 mL a metre.
GroundDrivenPump pump(Speed speed = 2.0 * m_per_s) {
  return {.displacement = 0.2 * L,
          .distance = 10.0 * m,
          .ground_speed = speed,
          .slip = {.flow = 0.05 * L_per_min, .gain = 200.0 * kPa},
          .max_pressure = 600.0 * kPa};
}

TEST(GroundDrivenPump, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double speed : {0.01, 2.0, 20.0}) test::expect_lawful(pump(speed * m_per_s), liquid);
  }
}

TEST(GroundDrivenPump, FlowFollowsTheGroundSpeed) {
  EXPECT_NEAR(si(pump().swept()), 20e-6 * 2.0, 1e-18);
  EXPECT_NEAR(si(pump(6.0 * m_per_s).swept()), 20e-6 * 6.0, 1e-18);
  // 20 mL/m over 0.5 m are 40 mL/m2, 400 L/ha, at any speed.
  EXPECT_NEAR(si(pump().swept_rate(0.5 * m)) / si(L_per_ha), 400.0, 1e-10);
  EXPECT_NEAR(si(pump(6.0 * m_per_s).swept_rate(0.5 * m)) / si(L_per_ha), 400.0, 1e-10);
}

// The identity gal/min = gal/ac x mph x inches / 5940 of the trade: 4 digits printed.
TEST(GroundDrivenPump, RateArithmeticOfTheTrade) {
  const GroundDrivenPump p = pump(5.0 * mph);
  const double rate = si(p.swept_rate(30.0 * inch)) / si(gal_per_acre);
  EXPECT_NEAR(si(p.swept()) / si(gpm), rate * 5.0 * 30.0 / 5940.0, 1e-12);
}

TEST(GroundDrivenPump, SlipIsThePositivePumps) {
  const LiquidState water = test::water();
  const double swept = 40e-6, slip = 0.05e-3 / 60.0;
  EXPECT_NEAR(pump().law(water)(swept - slip).dp, -2e5, 1e-3);
  EXPECT_EQ(pump().law(water).passes, Passes::forward);
  const Cautions over = Part(pump()).cautions(0.97 * swept, 7e5, water);
  ASSERT_EQ(over.size(), 1u);
  EXPECT_EQ(over[0].code, "pump-over-pressure");
}

TEST(GroundDrivenPump, ShaftPowerAsThePositivePumps) {
  GroundDrivenPump ground{.displacement = 0.5 * L,
                          .distance = 2.0 * m,
                          .ground_speed = 2.0 * m_per_s,
                          .slip = {.flow = 0.2 * gpm, .gain = 40.0 * psi},
                          .efficiency = 0.5};
  const PositivePump turned{
      .displacement = 0.5 * L, .rpm = 60.0, .slip = {.flow = 0.2 * gpm, .gain = 40.0 * psi}, .efficiency = 0.5};
  EXPECT_NEAR(*ground.shaft_power(4e-4, test::water()), *turned.shaft_power(4e-4, test::water()), 1e-9);
  ground.efficiency = 1.5;
  test::expect_refused([&] { ground.check("pump 'g'"); }, "pump 'g', efficiency");
}

TEST(GroundDrivenPump, RefusesBadInput) {
  const auto refused = [](const auto& change, const std::string& field) {
    GroundDrivenPump p = pump();
    change(p);
    test::expect_refused([&] { p.check("pump 'p1'"); }, "pump 'p1', " + field);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  for (const double bad : {0.0, -1.0, nan, inf}) {
    refused([=](GroundDrivenPump& p) { p.displacement = bad * m3; }, "displacement");
    refused([=](GroundDrivenPump& p) { p.distance = bad * m; }, "distance");
    refused([=](GroundDrivenPump& p) { p.ground_speed = bad * m_per_s; }, "ground speed");
    refused([=](GroundDrivenPump& p) { p.slip.flow = from_si<Flow>(bad); }, "slip flow");
    refused([=](GroundDrivenPump& p) { p.max_pressure = bad * Pa; }, "maximum pressure");
    test::expect_refused([=] { static_cast<void>(pump().swept_rate(bad * m)); }, "width");
  }
  refused(
      [](GroundDrivenPump& p) {
        p.displacement = 1.0 * m3;
        p.distance = 1.0 * mm;
      },
      "swept flow");
}

}  // namespace ground_driven_pump_test
}  // namespace libflow
