// SPDX-License-Identifier: MIT
/// @file
/// Power-law liquids: exact laminar flow, the turbulent formula, and the bridge between.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>
#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <libflow/physics/minor_loss.hpp>
#include <libflow/physics/power_law.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace power_law_test {

using test::Many;

double flow_of(double velocity, double bore) { return velocity * std::numbers::pi * bore * bore / 4.0; }
/// K of the shear law from Metzner and Reed's K' = K ((3n+1)/(4n))^n, in which the textbook's examples are given.
double consistency_of(double k_prime, double n) { return k_prime / std::pow((3.0 * n + 1.0) / (4.0 * n), n); }

// C. J. Geankoplis, Transport Processes and Unit Operations, example 3.5-1: density 1041 kg/m3, bore 0.0524 m, 14.9 m,
// 0.0728 m/s, n' 0.40, K' 15.23: Reynolds number 1.106, Fanning factor 14.44, 45390 Pa (from memory). The book's
// rounded steps leave 0.2 % in the two numbers.
TEST(PowerLaw, LaminarTextbookExample) {
  const double n = 0.40, k = consistency_of(15.23, n), bore = 0.0524, v = 0.0728, rho = 1041.0;
  const double re = reynolds_metzner_reed(v, bore, rho, k, n);
  EXPECT_NEAR(re, 1.106, 0.0005);
  EXPECT_NEAR(16.0 / re / 14.44, 1.0, 0.002);
  const auto tube = power_law_tube<double>(14.9, bore, rho, k, n, 0.01);
  EXPECT_NEAR(drop_power_law(flow_of(v, bore), tube).dp, 45390.0, 5.0);
  EXPECT_NEAR(generalised_reynolds_number(flow_of(v, bore), tube) / re, 1.0, 1e-6);  // the plateau's share
}

// The same book, example 3.5-2: density 961, bore 0.0508 m, 30.5 m, 6.10 m/s, n' 0.3, K' 2.744: Reynolds
// number 1.328e4, Fanning factor 0.0032 read from Dodge and Metzner's chart, 137.4 kPa (from memory). Half a digit of
// that factor is 1.6 %, reading the chart as much again.
TEST(PowerLaw, TurbulentTextbookExample) {
  const double n = 0.3, k = consistency_of(2.744, n), bore = 0.0508, v = 6.10, rho = 961.0;
  const double re = reynolds_metzner_reed(v, bore, rho, k, n);
  EXPECT_NEAR(re, 13280.0, 5.0);
  EXPECT_NEAR(friction_dodge_metzner(re, n).f / 4.0 / 0.0032, 1.0, 0.032);
  const auto tube = power_law_tube<double>(30.5, bore, rho, k, n, 0.01);
  EXPECT_NEAR(drop_power_law(flow_of(v, bore), tube).dp / 137.4e3, 1.0, 0.032);
}

// J. R. Backhurst, J. H. Harker, solutions to Coulson and Richardson's Chemical Engineering 1, problem 3.40 (seen in a
// public copy): twice the flow takes 1.5 times the pressure in laminar flow, so n is 0.585.
TEST(PowerLaw, TwiceTheFlow) {
  const auto tube = power_law_tube<double>(2.0, 0.07, 1000.0, 5.0, 0.585, 0.01);
  const double q = flow_of(0.4, 0.07);
  EXPECT_NEAR(drop_power_law(2.0 * q, tube).dp / drop_power_law(q, tube).dp, 1.5, 0.0005);
}

// D. W. Dodge, A. B. Metzner, AIChE J. 5 (1959) 189, table of f = a/Re^b in turbulent flow (from memory), which the
// authors fitted to the logarithmic formula itself; compared from Re 1e4 to the end of the data, 1.5 %.
TEST(DodgeMetzner, MeetsItsOwnPowerForm) {
  const double rows[][3] = {{0.2, 0.0646, 0.349}, {0.3, 0.0685, 0.325}, {0.4, 0.0712, 0.307},
                            {0.6, 0.0740, 0.281}, {0.8, 0.0761, 0.263}, {1.0, 0.0779, 0.250}};
  for (const auto& row : rows) {
    for (const double re : {1e4, 1.5e4, 2e4, 3e4, 3.6e4}) {
      const double fanning = friction_dodge_metzner(re, row[0]).f / 4.0;
      EXPECT_NEAR(fanning / (row[1] / std::pow(re, row[2])), 1.0, 0.015) << "n " << row[0] << ", Re " << re;
    }
  }
}

// n = 1: the smooth-tube law 2 log10(Re sqrt f) - 0.8; F. M. White, Fluid Mechanics, prints 0.0309, 0.0180, 0.0116 for
// Re 1e4, 1e5, 1e6 (from memory). Half a digit, and 0.1 % because the 0.4 of the formula is rounded.
TEST(DodgeMetzner, NewtonianIsTheSmoothTubesLaw) {
  EXPECT_NEAR(friction_dodge_metzner(1e4, 1.0).f, 0.0309, 5e-5 + 3e-5);
  EXPECT_NEAR(friction_dodge_metzner(1e5, 1.0).f, 0.0180, 5e-5 + 2e-5);
  EXPECT_NEAR(friction_dodge_metzner(1e6, 1.0).f, 0.0116, 5e-5 + 1e-5);
  for (const double re : {4e3, 1e4, 3e4, 1e5}) {
    EXPECT_NEAR(friction_dodge_metzner(re, 1.0).f / friction_colebrook(re, 0.0).f, 1.0, 0.002);
  }
}

// An open program for the flow of drilling mud solves 4/n^0.75 log10(Re f^(1 - n/2)) - 0.395/n^1.2: the same form.
TEST(DodgeMetzner, MeetsAnIndependentProgram) {
  for (const double n : {0.36, 0.6, 1.0}) {
    for (const double re : {3e3, 1e4, 3.6e4}) {
      double f = 0.005;  // fixed-point steps; each shrinks the error
      for (int i = 0; i < 200; ++i) {
        const double root =
            4.0 / std::pow(n, 0.75) * std::log10(re * std::pow(f, 1.0 - n / 2.0)) - 0.395 / std::pow(n, 1.2);
        f = 0.5 * f + 0.5 / (root * root);
      }
      EXPECT_NEAR(friction_dodge_metzner(re, n).f / (4.0 * f), 1.0, 0.003) << n << " " << re;
    }
  }
}

TEST(DodgeMetzner, SolvesItsEquationAndSlope) {
  for (const double n : {0.2, 0.36, 0.6, 1.0}) {
    for (const double re : {2000.0, 5e3, 4e4, 1e6, 1e8}) {
      const auto at = friction_dodge_metzner(re, n);
      const double f = at.f / 4.0;
      const double right =
          4.0 / std::pow(n, 0.75) * std::log10(re * std::pow(f, 1.0 - n / 2.0)) - 0.4 / std::pow(n, 1.2);
      EXPECT_NEAR(right * std::sqrt(f), 1.0, 1e-13) << n << " " << re;
      const auto factor = [&](const Many& r) { return friction_dodge_metzner<Many>(r, Many(n)).f; };
      const Many slope = test::difference_slope(factor, Many(re));
      EXPECT_NEAR(static_cast<double>(Many(at.slope / slope)), 1.0, 1e-12);
    }
  }
}

// Rabinowitsch 1929: flow = pi R^3 / tw^3 times the integral of t^2 (shear rate at stress t) up to the wall stress tw,
// done by quadrature over the plateau and the power law, piece by piece.
TEST(PowerLaw, LaminarFlowIsRabinowitschsIntegral) {
  for (const double n : {0.2, 0.4, 0.7, 1.0}) {
    for (const double g : {0.2, 0.999, 1.0, 1.001, 1.7, 40.0, 1e5}) {
      const double t = power_law_wall_stress(g, n).t;
      const auto moment = [&](double s) { return s * s * (s < 1.0 ? s : std::pow(s, 1.0 / n)); };
      using Rule = boost::math::quadrature::gauss_kronrod<double, 31>;
      double integral = Rule::integrate(moment, 0.0, std::min(t, 1.0), 10, 1e-13);
      if (t > 1.0) integral += Rule::integrate(moment, 1.0, t, 10, 1e-13);
      EXPECT_NEAR(4.0 * integral / (t * t * t) / g, 1.0, 1e-11) << "n " << n << ", g " << g;
    }
  }
}

TEST(PowerLaw, WallStressSlopeIsExact) {
  for (const double n : {0.2, 0.5, 0.9}) {
    for (const double g : {0.5, 1.01, 3.0, 1e3}) {
      const auto stress = [&](const Many& x) { return power_law_wall_stress<Many>(x, Many(n)).t; };
      const Many slope = test::difference_slope(stress, Many(g));
      EXPECT_NEAR(static_cast<double>(Many(power_law_wall_stress(g, n).slope / slope)), 1.0, 1e-12) << n << " " << g;
    }
    EXPECT_NEAR(power_law_wall_stress(1.0, n).slope, 1.0, 1e-13);
  }
}

// How little the plateau shows: 100 times above its shear rate less than 1e-4 of the drop, 1000 times 1e-5.
TEST(PowerLaw, PlateauFades) {
  for (const double n : {0.2, 0.5, 0.9}) {
    const double a = 4.0 * n / (3.0 * n + 1.0);
    EXPECT_NEAR(power_law_wall_stress(100.0, n).t / std::pow(100.0 / a, n), 1.0, 1e-4) << n;
    EXPECT_NEAR(power_law_wall_stress(1000.0, n).t / std::pow(1000.0 / a, n), 1.0, 1e-5) << n;
  }
}

// n = 1 is a Newtonian liquid in a smooth tube: the same laminar law, the same limits, and turbulent flow within the
// 0.2 % by which the two smooth-tube formulas differ.
TEST(PowerLaw, NewtonianIsTheHoseLaw) {
  const double bore = 0.01, rho = 1200.0, mu = 4e-3;
  const auto tube = power_law_tube<double>(5.0, bore, rho, mu, 1.0, 0.01);
  const auto wall = wall_friction<double>(5.0, bore, 0.0, rho, mu);
  for (double re = 1e-6; re < 1e5; re *= 1.3) {
    const double q = re / wall.re_per_flow;
    EXPECT_NEAR(drop_power_law(q, tube).dp / drop_wall_friction(q, wall).dp, 1.0, re < 2000.0 ? 1e-12 : 0.002) << re;
    EXPECT_NEAR(generalised_reynolds_number(q, tube) / re, 1.0, 1e-12);
  }
}

// The drop rises all through the band for every n of the range: least exponent of the drop against the flow, and no
// jump at either end.
TEST(PowerLaw, BandRises) {
  for (double n = 0.2; n <= 1.0001; n += 0.02) {
    const double index = std::min(n, 1.0);
    const auto tube = power_law_tube<double>(1.0, 0.02, 1300.0, 0.5, index, 0.01);
    EXPECT_NEAR(tube.low, 3370.0 - 1370.0 * index, 1e-9);
    // Re goes with q^(2-n).
    const double q0 = 1e-4, re0 = generalised_reynolds_number(q0, tube);
    for (int i = 0; i <= 200; ++i) {
      const double re = tube.low * 0.99 + (tube.high * 1.01 - tube.low * 0.99) * i / 200.0;
      const double q = q0 * std::pow(re / re0, 1.0 / (2.0 - index));
      const auto drop = drop_power_law(q, tube);
      EXPECT_GT(drop.slope * q / drop.dp, 0.9 * index) << "n " << index << ", Re " << re;
      const double h = 1e-6 * q;
      const double quotient = (drop_power_law(q + h, tube).dp - drop_power_law(q - h, tube).dp) / (2.0 * h);
      EXPECT_NEAR(drop.slope / quotient, 1.0, 1e-5) << "n " << index << ", Re " << re;
    }
  }
}

TEST(PowerLaw, AtRest) {
  const double bore = 0.0127, k = 2.0, n = 0.4, plateau = 0.05;
  const auto tube = power_law_tube<double>(6.0, bore, 1400.0, k, n, plateau);
  const auto rest = drop_power_law(0.0, tube);
  EXPECT_EQ(rest.dp, 0.0);
  // Hagen-Poiseuille with the viscosity of the plateau.
  const double at_rest = 128.0 * k * std::pow(plateau, n - 1.0) * 6.0 / (std::numbers::pi * std::pow(bore, 4));
  EXPECT_NEAR(rest.slope / at_rest, 1.0, 1e-13);
  EXPECT_EQ(generalised_reynolds_number(0.0, tube), 0.0);
}

TEST(PowerLaw, PackTakesEveryRegimeAtOnce) {
  using Pack = Eigen::Array<double, 4, 1>;
  const auto one = power_law_tube<double>(3.0, 0.02, 1300.0, 0.5, 0.5, 0.01);
  const auto pack = power_law_tube<Pack>(Pack(3.0), Pack(0.02), Pack(1300.0), Pack(0.5), Pack(0.5), Pack(0.01));
  const auto flow_at = [&](double re) {
    return 1e-4 * std::pow(re / generalised_reynolds_number(1e-4, one), 1.0 / 1.5);
  };
  Pack q;
  q << 0.0, flow_at(300.0), -flow_at(3600.0), flow_at(2e4);
  const auto got = drop_power_law<Pack>(q, pack);
  for (int i = 0; i < 4; ++i) {
    const auto expected = drop_power_law(q[i], one);
    EXPECT_NEAR(got.dp[i], expected.dp, 1e-12 * std::abs(expected.dp));
    EXPECT_NEAR(got.slope[i] / expected.slope, 1.0, 1e-12);
  }
  Pack slow;
  slow << 0.0, flow_at(1.0), -flow_at(30.0), 1e-14;
  const auto laminar = drop_power_law<Pack>(slow, pack);
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(laminar.slope[i] / drop_power_law(slow[i], one).slope, 1.0, 1e-12);
}

}  // namespace power_law_test
}  // namespace libflow::physics
