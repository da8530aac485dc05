// SPDX-License-Identifier: MIT
/// @file
/// Water against the check tables of its own releases.
#include <gtest/gtest.h>

#include <cmath>

#include <boost/multiprecision/cpp_dec_float.hpp>

#include <libflow/fluid/water.hpp>

namespace libflow {
namespace water_test {

// IAPWS R12-08 (2008), Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance, table 4
// (no critical enhancement); 6 decimals of a micropascal second printed. Seen in an open copy.
TEST(Water, ViscosityOfTheFullFormulation) {
  struct Row {
    double t, rho, mu;
  };
  const Row rows[] = {{298.15, 998, 889.735100}, {298.15, 1200, 1437.649467}, {373.15, 1000, 307.883622},
                      {433.15, 1, 14.538324},    {433.15, 1000, 217.685358},  {873.15, 1, 32.619287},
                      {873.15, 100, 35.802262},  {873.15, 600, 77.430195},    {1173.15, 1, 44.217245},
                      {1173.15, 100, 47.640433}, {1173.15, 400, 64.154608}};
  for (const Row& row : rows) {
    EXPECT_NEAR(1e6 * water_viscosity_r12_08(row.t, row.rho), row.mu, 5e-7) << row.t << " K, " << row.rho;
  }
}

// IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa, check-value table.
// Seen in an open copy.
TEST(Water, LiquidAtAtmosphericPressure) {
  struct Row {
    double t, rho, mu, mu_tol;
  };
  const Row rows[] = {
      {260, 997.068360, 3058.36075, 5e-6}, {298.15, 997.047013, 889.996774, 5e-7}, {375, 957.009710, 276.207245, 5e-7}};
  for (const Row& row : rows) {
    EXPECT_NEAR(water_density(row.t), row.rho, 5e-7) << row.t;
    EXPECT_NEAR(1e6 * water_viscosity(row.t), row.mu, row.mu_tol) << row.t;
  }
}

// IAPWS SR1-86(1992), table 1; Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783. Printed to 6 digits. The
// middle row's temperature is itself rounded to 1e-4 K: 3.6 kPa/K times half of that is 0.18 Pa.
TEST(Water, VapourPressure) {
  EXPECT_NEAR(water_vapour_pressure(273.16), 611.657, 5e-4);
  EXPECT_NEAR(water_vapour_pressure(373.1243), 101325, 0.5 + 0.18);
  EXPECT_NEAR(water_vapour_pressure(647.096), 22.064e6, 5e2);
}

// IAPWS R7-97(2012), table 35, region 4; 9 digits printed.
TEST(Water, VapourPressureOfTheIndustrialFormulation) {
  EXPECT_NEAR(1e-6 * water_vapour_pressure_if97(300.0), 0.00353658941, 5e-12);
  EXPECT_NEAR(1e-6 * water_vapour_pressure_if97(500.0), 2.63889776, 5e-9);
  EXPECT_NEAR(1e-6 * water_vapour_pressure_if97(600.0), 12.3443146, 5e-8);
}

// Working table 0 to 40 C, computed independently (multiprecision) from SR6-08, R12-08, SR1-86 and IF97, formulas as
// verified by the releases' own check values above; digits as tabulated.
TEST(Water, WorkingTable) {
  struct Row {
    double t_c, rho, mu_sr6, mu_r12, psat, psat_tol, psat_if97;
  };
  const Row rows[] = {{0, 999.842383, 1791.7824, 1791.7593, 611.21285, 5e-6, 611.21268},
                      {5, 999.965981, 1518.1983, 1518.1748, 872.53022, 5e-6, 872.57486},
                      {10, 999.701864, 1305.9017, 1305.9008, 1228.1122, 5e-5, 1228.1839},
                      {15, 999.10203, 1137.5478, 1137.5683, 1705.677, 5e-4, 1705.7449},
                      {20, 998.206546, 1001.5673, 1001.5965, 2339.1937, 5e-5, 2339.2148},
                      {25, 997.047013, 889.99677, 890.02268, 3169.8245, 5e-5, 3169.7469},
                      {30, 995.648824, 797.2062, 797.22183, 4246.9199, 5e-5, 4246.6883},
                      {35, 994.032698, 719.12145, 719.12553, 5629.0574, 5e-5, 5628.6201},
                      {40, 992.215763, 652.73347, 652.72856, 7385.1105, 5e-5, 7384.4275}};
  for (const Row& row : rows) {
    const double t = row.t_c + 273.15;
    EXPECT_NEAR(water_density(t), row.rho, row.t_c == 15 ? 5e-6 : 5e-7) << row.t_c;
    EXPECT_NEAR(1e6 * water_viscosity(t), row.mu_sr6, row.mu_sr6 > 1000 ? 5e-5 : 5e-6) << row.t_c;
    EXPECT_NEAR(1e6 * water_viscosity_r12_08(t, water_density(t)), row.mu_r12, row.mu_r12 > 1000 ? 5e-5 : 5e-6);
    EXPECT_NEAR(water_vapour_pressure(t), row.psat, row.psat_tol) << row.t_c;
    EXPECT_NEAR(water_vapour_pressure_if97(t), row.psat_if97, row.psat_if97 > 1000 ? 5e-5 : 5e-6) << row.t_c;
  }
}

// Neighbours: the short viscosity formula agrees with the full one, and the two vapour pressures with each other, over
// the range that plumbing sees (gap stated in SR6-08's docstring; vapour pressures within 0.02 %).
TEST(Water, NeighbouringFormulasAgree) {
  for (double t = 273.16; t <= 373.15; t += 1.0) {
    EXPECT_NEAR(water_viscosity(t) / water_viscosity_r12_08(t, water_density(t)), 1.0, 2e-4) << t;
    EXPECT_NEAR(water_vapour_pressure(t) / water_vapour_pressure_if97(t), 1.0, 2e-4) << t;
  }
}

// The formulas are templates: 50-digit arithmetic gives the same numbers.
TEST(Water, RunsInFiftyDigits) {
  using Wide = boost::multiprecision::cpp_dec_float_50;
  const Wide t("293.15");
  EXPECT_NEAR(static_cast<double>(water_density(t)), water_density(293.15), 1e-10);
  EXPECT_NEAR(static_cast<double>(water_viscosity(t)), water_viscosity(293.15), 1e-16);
  EXPECT_NEAR(static_cast<double>(water_vapour_pressure(t)), water_vapour_pressure(293.15), 1e-9);
  EXPECT_NEAR(static_cast<double>(water_viscosity_r12_08(t, Wide(998))), water_viscosity_r12_08(293.15, 998.0), 1e-16);
}

TEST(Water, RangesAreData) {
  EXPECT_TRUE(water_temperature.contains(293.15));
  EXPECT_FALSE(water_temperature.contains(250.0));
  EXPECT_FALSE(water_vapour_temperature.contains(std::nan("")));
}

}  // namespace water_test
}  // namespace libflow
