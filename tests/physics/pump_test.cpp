// SPDX-License-Identifier: MIT
/// @file
/// Pumps: worked examples of speed laws, suction head, displacement and slip.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/pump.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace pump_test {

// US units of the examples, in SI.
constexpr double ft = 0.3048, pump_inch = 0.0254, lbf = 0.45359237 * 9.80665, psi = lbf / (pump_inch * pump_inch);
constexpr double pcf = lbf / (ft * ft * ft);  // specific weight [Pa/m]

// Crane Technical Paper 410, example 7-33 (seen in an open package's notebooks): 400 gal/min, 126 ft and 17.5 hp at
// 3500 rpm are 194.3 gal/min, 29.7 ft and 2.0 hp at 1700 rpm.
TEST(Pump, SpeedLawsWorked) {
  const double ratio = 1700.0 / 3500.0;
  EXPECT_NEAR(flow_at_speed(400.0, ratio), 194.3, 0.05);
  EXPECT_NEAR(gain_at_speed(126.0, ratio), 29.7, 0.05);
  EXPECT_NEAR(power_at_speed(17.5, ratio), 2.0, 0.05);
}

// Efficiency does not change with speed: power by the speed law is the power of the new flow and gain.
TEST(Pump, SpeedLawsAgreeWithPower) {
  const double q = 3e-3, gain = 2e5, efficiency = 0.62;
  for (const double ratio : {0.3, 1.0, 1.7}) {
    const double there = shaft_power(flow_at_speed(q, ratio), gain_at_speed(gain, ratio), efficiency);
    EXPECT_NEAR(there, power_at_speed(shaft_power(q, gain, efficiency), ratio), 1e-12 * there);
  }
}

// Crane Technical Paper 410, example 7-32 (seen in an open package's notebooks, which print 13.887 ft): tank at 5 psi
// gauge, vapour pressure 0.256 psi, 62.364 lb/ft3, lift 25 ft, line loss 6 ft. Standard atmosphere 14.696 psi.
TEST(Pump, SuctionHeadWorkedCrane) {
  const double weight = 62.364 * pcf;
  const double inlet = (14.696 + 5.0) * psi - weight * (25.0 + 6.0) * ft;
  EXPECT_NEAR(suction_head_available(inlet, 0.256 * psi, weight) / ft, 13.887, 0.0005 + 0.0005 * 144.0 / 62.364);
  EXPECT_LT(suction_head_available(inlet, 0.256 * psi, weight) / ft, 20.0 * 1.3);  // printed: not enough
}

// Munson, Fundamentals of Fluid Mechanics, example 12.3 (through the FOSSEE textbook companions): 0.5 ft3/s in a 4 in
// line with loss coefficient 20, 14.7 psi, vapour pressure 0.5069 psi, 62.22 lb/ft3, 15 ft required: the pump may
// stand 7.65 ft above the water.
TEST(Pump, SuctionHeadWorkedMunson) {
  const double weight = 62.22 * pcf, v = 0.5 / (std::numbers::pi / 4.0 / 9.0);
  const double loss = 20.0 * v * v / (2.0 * 32.2);
  const double inlet = 14.7 * psi - weight * (7.65 + loss) * ft;
  EXPECT_NEAR(suction_head_available(inlet, 0.5069 * psi, weight) / ft, 15.0, 0.005);
}

// Schaschke, Worked Examples for Engineers, chapter 9 (through the FOSSEE textbook companions): 0.94 of 101.3 kPa
// above the liquid, vapour pressure 18 kPa, 970 kg/m3, pump 3 m above the bottom of the tank, 0.5 m of loss, 5 m of
// suction head required. From a level of 2.5 m the tank (3 m bore) may be drawn down by 14.95 m3, in 2.99 h at 5 m3/h.
TEST(Pump, SuctionHeadWorkedSchaschke) {
  const double weight = 970.0 * 9.81;
  const double level = 2.5 - 14.95 / (std::numbers::pi / 4.0 * 9.0);
  const double inlet = 0.94 * 101.3e3 + weight * (level - 3.0 - 0.5);
  const double half_digit_of_volume = 0.005 / (std::numbers::pi / 4.0 * 9.0);
  EXPECT_NEAR(suction_head_available(inlet, 18e3, weight), 5.0, half_digit_of_volume);
  EXPECT_NEAR(14.95 / 5.0, 2.99, 0.005);
}

// Cengel and Cimbala, Fluid Mechanics, example 8-7 (inputs through the FOSSEE textbook companions; answers 0.0300 m3/s
// and a pump head of 19.1 m from memory): a motor of 8 kW and pump of 70 % together, density 998 kg/m3, g 9.81.
// Half the last digit of each answer: 0.17 % and 0.26 %.
TEST(Pump, PowerWorked) {
  const double gain = 998.0 * 9.81 * 19.1;
  EXPECT_NEAR(shaft_power(0.0300, gain, 0.70) / 8000.0, 1.0, 0.0017 + 0.0026);
  EXPECT_NEAR(pump_efficiency(0.0300, gain, 8000.0), 0.70, 0.70 * (0.0017 + 0.0026));
  EXPECT_DOUBLE_EQ(hydraulic_power(0.03, 2e5), 6000.0);
  EXPECT_DOUBLE_EQ(pump_efficiency(0.03, 2e5, shaft_power(0.03, 2e5, 0.55)), 0.55);
}

// Crane Technical Paper 410, example 7-33 again: 400 gal/min and 126 ft of water (62.36 lb/ft3) for 17.5 hp at 3500
// rpm, and the rounded 194.3 gal/min, 29.7 ft and 2.0 hp at 1700 rpm are one efficiency, within the 2.5 % of the
// rounded power. The trade's horse power of water, gal/min x ft/3960 (from memory), has its constant rounded: 0.1 %.
TEST(Pump, EfficiencyIsTheSameAtBothSpeeds) {
  const double gal_per_min = 231.0 * std::pow(pump_inch, 3) / 60.0, horse_power = 550.0 * ft * lbf;
  const double at_3500 = pump_efficiency(400.0 * gal_per_min, 126.0 * ft * 62.36 * pcf, 17.5 * horse_power);
  const double at_1700 = pump_efficiency(194.3 * gal_per_min, 29.7 * ft * 62.36 * pcf, 2.0 * horse_power);
  EXPECT_NEAR(at_1700 / at_3500, 1.0, 0.025);
  EXPECT_NEAR(at_3500 / (400.0 * 126.0 / 3960.0 / 17.5), 1.0, 0.001);
}

// Cengel and Cimbala, Fluid Mechanics, example 14-4 (through the FOSSEE textbook companions): a lobe pump that moves
// two closed volumes of 0.45 cm3 each half turn delivers 1620 cm3/min at 900 rpm.
TEST(Pump, DisplacementWorked) { EXPECT_NEAR(swept_flow(4.0 * 0.45, 900.0), 1620.0, 0.5); }

// K. Subramanya, Hydraulic Machines, chapter 16 (through the FOSSEE textbook companions): bore 0.15 m, stroke 0.30 m,
// 60 rpm sweep 0.0053 m3/s; 310 L/min delivered are a slip of 2.52 % (from the rounded flow; 2.54 % without rounding)
// and a coefficient of 0.975.
TEST(Pump, SlipWorked) {
  const double swept = swept_flow(std::numbers::pi / 4.0 * 0.15 * 0.15 * 0.30, 60.0 / 60.0);
  EXPECT_NEAR(swept, 0.0053, 5e-5);
  EXPECT_NEAR(100.0 * slip_share(0.0053, 0.310 / 60.0), 2.52, 0.005);
  EXPECT_NEAR(1.0 - slip_share(0.0053, 0.310 / 60.0), 0.975, 0.0005);
  EXPECT_NEAR(100.0 * slip_share(swept, 0.310 / 60.0), 2.542, 0.0005);
}

// Wilson's slip flow is C_s D dp/mu: half in twice the viscosity, whatever was measured.
TEST(Pump, LeakGoesWithPressureAgainstViscosity) {
  EXPECT_DOUBLE_EQ(leak_conductance(2e-5, 4e5, 1e-3, 1e-3), 5e-11);
  EXPECT_DOUBLE_EQ(leak_conductance(2e-5, 4e5, 1e-3, 2e-3), 2.5e-11);
}

TEST(Pump, PacksAndManyDigits) {
  using Pack = Eigen::Array<double, 4, 1>;
  using test::Many;
  Pack x;
  x << 0.2, 0.5, 1.0, 3.0;
  const Pack power = power_at_speed<Pack>(Pack(17.5), x), head = suction_head_available<Pack>(Pack(1e5 * x), x, x);
  for (int i = 0; i < 4; ++i) {
    EXPECT_DOUBLE_EQ(power[i], power_at_speed(17.5, x[i]));
    EXPECT_DOUBLE_EQ(head[i], suction_head_available(1e5 * x[i], x[i], x[i]));
    const Many many = leak_conductance<Many>(Many(x[i]), Many(3), Many(7), Many(11));
    EXPECT_LT(abs(Many(leak_conductance(x[i], 3.0, 7.0, 11.0) / many - 1)), 1e-15);
  }
}

}  // namespace pump_test
}  // namespace libflow::physics
