// SPDX-License-Identifier: MIT
/// @file
/// What the numbers of formulas may be. A layout that is valid today has to be valid tomorrow: a range may grow, with
/// its line here.
#include <gtest/gtest.h>

#include <numbers>

#include <libflow/physics.hpp>

namespace libflow::physics {
namespace physics_ranges_test {

struct Allowed {
  const char* what;
  Range range;
  double low, high;
};

TEST(FormulaRanges, AreThoseThatFilesWereWrittenFor) {
  const Allowed all[] = {
      {"coil_curvature", coil_curvature, 0.003, 0.15},
      {"froude_between", froude_between, 0.3, 1.0},
      {"colebrook_re", colebrook_re, 4000.0, 1e8},
      {"colebrook_roughness", colebrook_roughness, 0.0, 0.05},
      {"cone_angle_range", cone_angle_range, std::numbers::pi / 36.0, std::numbers::pi},
      {"hole_length_ratio", hole_length_ratio, 0.0, 10.0},
      {"reattaching_length_ratio", reattaching_length_ratio, 0.3, 1.0},
      {"power_law_index", power_law_index, 0.2, 1.0},
      {"dodge_metzner_index", dodge_metzner_index, 0.36, 1.0},
      {"dodge_metzner_re", dodge_metzner_re, 2900.0, 36000.0},
      {"pump_efficiency_range", pump_efficiency_range, 0.01, 1.0},
      {"tee_area_ratio", tee_area_ratio, 0.01, 1.0},
      {"tee_angle", tee_angle, 30.0, 90.0},
      {"tee_rounding", tee_rounding, 0.0, 0.15},
      {"tee_parting_range", tee_parting_range, 0.0, 3.0},
      {"valve_recovery_range", valve_recovery_range, 0.3, 1.0},
      {"valve_style_range", valve_style_range, 0.05, 1.0},
  };
  for (const Allowed& a : all) {
    EXPECT_EQ(a.range.low, a.low) << a.what;
    EXPECT_EQ(a.range.high, a.high) << a.what;
  }
}

// Limits that are one number. Laminar to 2000 and turbulent from 4000: any fluid mechanics text. Coils: P. Mishra, S.
// N. Gupta 1979 as the header quotes them, Dean numbers to 3000 and Reynolds numbers to 1e5. Kv: a pressure of 1 bar
// and water of 15 C (IEC 60534-2-1, from memory); 999.10 kg/m3 there (IAPWS). Water's critical pressure: 22.12 MPa in
// that standard.
TEST(FormulaLimits, AreThePublishedOnes) {
  EXPECT_EQ(laminar_limit_re, 2000.0);
  EXPECT_EQ(turbulent_limit_re, 4000.0);
  EXPECT_EQ(coil_dean_limit, 3000.0);
  EXPECT_EQ(coil_re_limit, 1e5);
  EXPECT_EQ(kv_pressure, 1e5);
  EXPECT_NEAR(kv_density, 999.1, 0.05);
  EXPECT_NEAR(water_critical_pressure, 22.12e6, 1e3);
}

}  // namespace physics_ranges_test
}  // namespace libflow::physics
