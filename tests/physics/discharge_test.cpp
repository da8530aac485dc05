// SPDX-License-Identifier: MIT
/// @file
/// The end of the line: full or not, and what drips after a stop.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <libflow/physics/discharge.hpp>

namespace libflow::physics {
namespace discharge_test {

constexpr double water_density = 998.2, water_viscosity = 1.0016e-3;

// IAPWS R1-76(2014): 235.8 mN/m tau^1.256 (1 - 0.625 tau), tau = 1 - T/647.096 K; three digits are kept.
TEST(Discharge, SurfaceTensionOfWater) {
  const double tau = 1.0 - 293.15 / 647.096;
  EXPECT_NEAR(water_surface_tension, 0.2358 * std::pow(tau, 1.256) * (1.0 - 0.625 * tau), 0.5e-4);
}

// P. D. Hills, Chem. Eng., 5 September 1983, as a secondary worked example applies it: 36 m3/h in 180 mm gives 0.296 (3
// digits printed).
TEST(Discharge, FroudeNumberOfAWorkedExample) { EXPECT_NEAR(froude_number<double>(0.01, 0.180), 0.296, 5e-4); }

TEST(Discharge, BondNumber) {
  // Capillary length sqrt(sigma/(rho g)) of water 2.7 mm (any text on surface tension): a bore of one has Bond
  // number 1.
  EXPECT_NEAR(bond_number<double>(0.0027, water_density, water_surface_tension), 1.0, 0.04);
  EXPECT_NEAR(bond_number<double>(0.01, 1000.0, 0.07) / bond_number<double>(0.005, 1000.0, 0.07), 4.0, 1e-12);
}

// F. P. Bretherton, J. Fluid Mech. 10 (1961) 166: no climb below rho g r^2/sigma = 0.842; in other words below a radius
// of 0.918 capillary lengths (C. Lamstaes, J. Eggers, APS Division of Fluid Dynamics, 2016, abstract; 3 digits).
TEST(Discharge, NarrowTubesHoldTheirLiquid) {
  const double length = std::sqrt(water_surface_tension / (water_density * standard_gravity));
  EXPECT_NEAR(std::sqrt(bond_no_climb) / 2.0, 0.918, 5e-4);
  const double still = 1e-9;
  const auto runs = [&](double radius) {
    return runs_full(still, 2.0 * radius, water_density, water_viscosity, water_surface_tension);
  };
  EXPECT_EQ(runs(0.91 * length), Runs::full);
  EXPECT_EQ(runs(0.93 * length), Runs::partly);
}

// By hand: nothing well below zero, x well above, a quarter of the width at zero, and a slope without a jump.
TEST(Discharge, RoundedPositive) {
  const auto at = [](double x) { return rounded_positive<double>(x, 2.0); };
  EXPECT_EQ(at(-2.0).value, 0.0);
  EXPECT_EQ(at(-50.0).value, 0.0);
  EXPECT_EQ(at(-50.0).slope, 0.0);
  EXPECT_EQ(at(0.0).value, 0.5);
  EXPECT_EQ(at(0.0).slope, 0.5);
  EXPECT_EQ(at(2.0).value, 2.0);
  EXPECT_EQ(at(70.0).value, 70.0);
  EXPECT_EQ(at(70.0).slope, 1.0);
  for (const double x : {-1.9, -1.0, 0.3, 1.9, 3.0}) {
    EXPECT_NEAR((at(x + 1e-6).value - at(x - 1e-6).value) / 2e-6, at(x).slope, 1e-9);
  }
}

// F. Viana et al., J. Fluid Mech. 494 (2003) 379, abstract, for large buoyancy Reynolds numbers (> 200):
// Fr = 0.34/(1 + 3805/Eo^3.06)^0.58. The constants are printed to 2
// to 4 digits; the composed formula is within 0.3 % of its own end from R = 2000 on.
TEST(Discharge, BubbleClimbsInThinLiquid) {
  for (const double bond : {6.0, 10.0, 20.0, 50.0, 200.0, 1000.0}) {
    const double printed = 0.34 / std::pow(1.0 + 3805.0 / std::pow(bond, 3.06), 0.58);
    EXPECT_NEAR(bubble_climb_froude<double>(bond, 1e6) / printed, 1.0, 0.003) << bond;
    EXPECT_NEAR(bubble_climb_froude<double>(bond, 2000.0) / printed, 1.0, 0.003) << bond;
  }
}

// Same abstract, for small ones (< 10): Fr = 9.494e-3 R^1.026 / (1 + 6197/Eo^2.561)^0.5793. The composed formula
// meets that separate fit within 5 %.
TEST(Discharge, BubbleClimbsInThickLiquid) {
  for (const double bond : {20.0, 50.0, 200.0, 1000.0}) {
    for (const double r : {0.1, 1.0, 5.0}) {
      const double printed = 9.494e-3 * std::pow(r, 1.026) / std::pow(1.0 + 6197.0 / std::pow(bond, 2.561), 0.5793);
      EXPECT_NEAR(bubble_climb_froude<double>(bond, r) / printed, 1.0, 0.05) << bond << " " << r;
    }
  }
}

// Between the ends, the composed formula of the paper with its twelve constants, as an open program states it: the
// dose curve A/(1 + (R/B)^C)^G written out for a Bond number of 40 and buoyancy Reynolds numbers of 10 to 200.
TEST(Discharge, BubbleClimbsInBetween) {
  const double bond = 40.0;
  const double a = 0.34 / std::pow(1.0 + std::pow(14.793 / bond, 3.06), 0.58);
  const double b = 31.08 * std::pow(1.0 + std::pow(29.868 / bond, 1.96), 0.49);
  const double c = -1.45 * std::pow(1.0 + std::pow(24.867 / bond, 9.93), 0.094);
  for (const double r : {10.0, 50.0, 200.0}) {
    const double climb = a * std::pow(1.0 + std::pow(r / b, c), 1.0295 / c);
    EXPECT_NEAR(bubble_climb_froude<double>(bond, r) / climb, 1.0, 1e-12) << r;
  }
}

// D. T. Dumitrescu 1943: 0.351; R. M. Davies, G. I. Taylor 1950: 0.328 (both from memory): a wide tube lies between.
TEST(Discharge, BubbleInAWideTube) {
  const double fr = bubble_climb_froude<double>(1e4, 1e6);
  EXPECT_GT(fr, 0.328);
  EXPECT_LT(fr, 0.351);
}

TEST(Discharge, HillsLimitsInWideTubes) {
  const double bore = 0.1;
  const auto at = [&](double froude) {
    const double flow = froude * std::sqrt(standard_gravity * bore) * std::numbers::pi * bore * bore / 4.0;
    return runs_full(flow, bore, water_density, water_viscosity, water_surface_tension);
  };
  EXPECT_EQ(at(0.0), Runs::partly);
  EXPECT_EQ(at(0.29), Runs::partly);
  EXPECT_EQ(at(0.31), Runs::ambiguous);
  EXPECT_EQ(at(0.99), Runs::ambiguous);
  EXPECT_EQ(at(1.01), Runs::full);
  EXPECT_EQ(name(Runs::ambiguous), "full or partly full");
  EXPECT_NE(name(Runs::full), name(Runs::partly));
}

// More flow, a thicker liquid or a narrower tube never turns a full tube into a partly full one.
TEST(Discharge, OneWay) {
  const auto rank = [](Runs r) { return r == Runs::partly ? 0 : r == Runs::ambiguous ? 1 : 2; };
  for (const double bore : {0.004, 0.006, 0.008, 0.012, 0.025}) {
    int before = 0, before_thick = 0;
    for (double flow = 1e-8; flow < 1e-2; flow *= 1.2) {
      const int now = rank(runs_full(flow, bore, 1300.0, 0.01, 0.07));
      const int thick = rank(runs_full(flow, bore, 1300.0, 0.2, 0.07));
      EXPECT_GE(now, before) << bore << " " << flow;
      EXPECT_GE(thick, now) << bore << " " << flow;
      EXPECT_GE(thick, before_thick);
      before = now;
      before_thick = thick;
    }
    EXPECT_EQ(before, 2);
  }
}

TEST(Discharge, DrainedHeight) {
  // 4 psi holds 2.81 m of water (0.43 psi per foot: 9.2 ft; any table of heads), so 3 m drain 0.19 m.
  EXPECT_NEAR(drained_height<double>(3.0, 27579.0, 998.2), 3.0 - 2.8174, 1e-3);
  EXPECT_EQ(drained_height<double>(2.0, 27579.0, 998.2), 0.0);
  EXPECT_EQ(drained_height<double>(2.0, 0.0, 998.2), 2.0);
}

// K. Subramanya, 1000 Solved Problems in Fluid Mechanics, chapter 14: K 2.1e9, water 998, D 0.60 m, e 12 mm, E 2.1e11;
// a stop of 2.1 m/s raises the pressure by 2.482 MPa = rho a dV, so the storage is 1/(rho a^2).
TEST(Discharge, StorageGivesThePublishedWaveSpeed) {
  const double a = 1.0 / std::sqrt(998.0 * tube_storage<double>(2.1e9, 0.60, 0.012, 2.1e11));
  EXPECT_NEAR(998.0 * a * 2.1, 2.482e6, 500.0);
  // Same chapter: K 2.11e9 with e 15 mm, E 1.041e11, 3.0 m/s: 3.235 MPa.
  const double b = 1.0 / std::sqrt(998.0 * tube_storage<double>(2.11e9, 0.60, 0.015, 1.041e11));
  EXPECT_NEAR(998.0 * b * 3.0, 3.235e6, 500.0);
}

TEST(Discharge, RelaxedVolume) {
  EXPECT_NEAR(relaxed_volume<double>(1e-3, 1e-7, 3e5, 1e5), 1e-3 * 1e-7 * 2e5, 1e-18);
  EXPECT_EQ(relaxed_volume<double>(1e-3, 1e-7, 1e5, 3e5), 0.0);
}

}  // namespace discharge_test
}  // namespace libflow::physics
