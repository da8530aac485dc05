// SPDX-License-Identifier: MIT
/// @file
/// Positive pump: displacement, slip, its steep straight law, its cautions.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/parts/positive_pump.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace positive_pump_test {

using namespace units;

PositivePump roller_pump() {
  return {.displacement = 60.0 * mL,
          .rpm = 540.0,
          .slip = {.flow = 2.0 * L_per_min, .gain = 300.0 * kPa},
          .max_pressure = 1000.0 * kPa};
}

TEST(PositivePump, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(roller_pump(), liquid);
    PositivePump tight = roller_pump();
    tight.slip.flow = from_si<Flow>(1e-12);
    test::expect_lawful(tight, liquid);
    PositivePump slow = roller_pump();
    slow.rpm = 0.01;
    test::expect_lawful(slow, liquid);
  }
}

// Cengel and Cimbala, Fluid Mechanics, example 14-4 (through the FOSSEE textbook companions): two closed volumes of
// 0.45 cm3 each half turn at 900 rpm deliver 1620 cm3/min.
TEST(PositivePump, DisplacementWorked) {
  const PositivePump lobe{.displacement = 4.0 * 0.45 * mL, .rpm = 900.0};
  EXPECT_NEAR(si(lobe.swept()) / si(mL_per_min), 1620.0, 0.5);
}

// K. Subramanya, Hydraulic Machines, chapter 16 (through the FOSSEE textbook companions): a pump that sweeps 0.15 m
// bore by 0.30 m stroke at 60 rpm and delivers 310 L/min has a coefficient of 0.975 (the book rounds the swept flow to
// 0.0053 m3/s; without rounding 0.9746).
TEST(PositivePump, SlipWorked) {
  PositivePump p{.displacement = 3.14159265358979 / 4.0 * 0.15 * 0.15 * 0.30 * m3, .rpm = 60.0};
  const double gain = 2e5;  // any
  p.slip = {.flow = from_si<Flow>(si(p.swept()) - 0.310 / 60.0), .gain = gain * Pa};
  const LiquidState water = test::water();
  EXPECT_NEAR(p.law(water)(0.310 / 60.0).dp, -gain, 1e-6 * gain);
  EXPECT_NEAR((0.310 / 60.0) / si(p.swept()), 0.975, 0.0005);
}

TEST(PositivePump, DeliversTheSweptFlowLessTheSlip) {
  const PositivePump p = roller_pump();
  const LiquidState water = test::water();
  const double swept = 60e-6 * 540.0 / 60.0, slip = 2e-3 / 60.0;
  EXPECT_NEAR(si(p.swept()), swept, 1e-18);
  EXPECT_NEAR(p.law(water)(swept).dp, 0.0, 1e-8);
  EXPECT_NEAR(p.law(water)(swept - slip).dp, -3e5, 1e-3);
  EXPECT_NEAR(p.law(water)(swept - slip / 2.0).dp, -1.5e5, 1e-3);
  // A tenth of the slip in ten times the viscosity.
  const LiquidState tenfold = test::liquid_of("tenfold", 1000.0, 1.0016e-2);
  EXPECT_NEAR(p.law(tenfold)(swept - slip / 10.0).dp, -3e5, 1e-2);
  // The thickest liquid leaves the least slip.
  const LiquidState syrup = test::liquid_of("syrup", 1400.0, 50.0);
  EXPECT_NEAR(p.law(syrup)(swept * (1.0 - PositivePump::least_slip)).dp, -3e5, 1.0);
}

TEST(PositivePump, Cautions) {
  const Part p(roller_pump());
  const LiquidState water = test::water();
  const double swept = 60e-6 * 540.0 / 60.0;
  EXPECT_TRUE(p.cautions(0.97 * swept, 3e5, water).empty());
  const Cautions over = p.cautions(0.95 * swept, 1.1e6, water);
  ASSERT_EQ(over.size(), 1u);
  EXPECT_EQ(over[0].code, "pump-over-pressure");
  EXPECT_EQ(over[0].value, 1.1e6);
  EXPECT_EQ(over[0].limit, 1e6);
  const Cautions slips = p.cautions(0.4 * swept, 9e5, water);
  ASSERT_EQ(slips.size(), 1u);
  EXPECT_EQ(slips[0].code, "pump-slips");
}

TEST(PositivePump, CautionWithoutARelief) {
  const Caution c = PositivePump::without_relief("positive pump 'P'");
  EXPECT_EQ(c.code, "no-relief-valve");
  EXPECT_EQ(c.subject, "positive pump 'P'");
  EXPECT_NE(c.text.find("relief valve"), std::string::npos);
  EXPECT_FALSE(c.source.empty());
}

// Flow times gain over the efficiency; nothing to say without one, or where the pump is dead-headed.
TEST(PositivePump, ShaftPower) {
  PositivePump p = roller_pump();
  const auto water = test::water();
  const double q = 5e-4, gain = -p.law(water)(q).dp;
  EXPECT_FALSE(p.shaft_power(q, water).has_value());
  p.efficiency = 0.6;
  EXPECT_NEAR(*p.shaft_power(q, water), q * gain / 0.6, 1e-9);
  EXPECT_NEAR(*Part(p).shaft_power(q, water), q * gain / 0.6, 1e-9);
  EXPECT_FALSE(p.shaft_power(0.0, water).has_value());
  EXPECT_FALSE(p.shaft_power(2.0 * si(p.swept()), water).has_value());  // driven through: no work done
  for (const double bad : {0.0, 0.009, 1.01, std::numeric_limits<double>::quiet_NaN()}) {
    p.efficiency = bad;
    test::expect_refused([&] { p.check("pump 'p'"); }, "pump 'p', efficiency");
  }
}

TEST(PositivePump, RefusesBadInput) {
  const auto refused = [](const auto& change, const std::string& field) {
    PositivePump p = roller_pump();
    change(p);
    test::expect_refused([&] { p.check("pump 'p1'"); }, "pump 'p1', " + field);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  for (const double bad : {0.0, -1.0, nan, inf}) {
    refused([=](PositivePump& p) { p.displacement = bad * m3; }, "displacement");
    refused([=](PositivePump& p) { p.rpm = bad; }, "rpm");
    refused([=](PositivePump& p) { p.slip.flow = from_si<Flow>(bad); }, "slip flow");
    refused([=](PositivePump& p) { p.slip.gain = bad * Pa; }, "slip gain");
    refused([=](PositivePump& p) { p.slip.viscosity = bad * Pa_s; }, "slip viscosity");
    refused([=](PositivePump& p) { p.max_pressure = bad * Pa; }, "maximum pressure");
  }
  test::expect_refused([] { Part(PositivePump{}, "pump 'empty'"); }, "pump 'empty', displacement");
}

}  // namespace positive_pump_test
}  // namespace libflow
