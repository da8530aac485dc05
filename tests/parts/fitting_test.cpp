// SPDX-License-Identifier: MIT
/// @file
/// Fitting: the two-constant loss of the named fittings, its bounds.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include <libflow/parts/fitting.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace fitting_test {

using namespace units;

TEST(Fitting, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double bore : {1e-4, 0.012, 0.5}) {
      for (const auto method : {LossMethod::two_constant, LossMethod::three_constant}) {
        test::expect_lawful(Fitting::elbow_90(bore * m, method), liquid);
        test::expect_lawful(Fitting::elbow_45(bore * m, method), liquid);
        test::expect_lawful(Fitting::tee_run(bore * m, method), liquid);
        test::expect_lawful(Fitting::tee_branch(bore * m, method), liquid);
        test::expect_lawful(Fitting::ball_valve(bore * m, method), liquid);
      }
    }
    test::expect_lawful(Fitting{.bore = 1.0 * cm, .k1 = 1.0, .k_inf = 0.0}, liquid);
    test::expect_lawful(Fitting{.bore = 1.0 * cm, .k1 = 1e5, .k_inf = 1e5}, liquid);
  }
}

double coefficient(const Fitting& fitting, double re) {
  const auto liquid = test::water();
  const double q = re * liquid.viscosity * std::numbers::pi * si(fitting.bore) / (4.0 * liquid.density);
  return fitting.law(liquid)(q).dp / physics::velocity_head(q, si(fitting.bore), liquid.density);
}

// W. B. Hooper, Chem. Eng., 24 August 1981, p. 97 (table as seen in an open package): screwed 90 degree elbow 800 and
// 0.4, 45 degree elbow 500 and 0.2, tee run 200 and 0.1, tee as elbow 500 and 0.7, full-line ball valve 300 and 0.1; K
// computed from the formula.
TEST(Fitting, NamedByTwoConstants) {
  EXPECT_NEAR(coefficient(Fitting::elbow_90(0.5 * inch), 100), 9.2, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::elbow_90(2.0 * inch), 1e4), 0.68, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_run(0.5 * inch), 1000), 0.5, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_run(2.0 * inch), 1e4), 0.17, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::elbow_45(0.5 * inch), 1000), 0.5 + 0.2 * 3.0, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_branch(0.5 * inch), 1000), 0.5 + 0.7 * 3.0, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::ball_valve(0.25 * inch), 100), 3.5, 1e-12);
}

// P. Silverberg, R. Darby, Chem. Eng. 106 (7), July 1999, p. 101 (table as seen in an open package, 1.0.22, which
// computed K): threaded 90 degree elbow 800, 0.14, 4.0; 45 degree elbow 500, 0.071, 4.2; tee run 200, 0.091, 4.0; tee
// branch 500, 0.274, 4.0; ball valve 300, 0.017, 3.5.
TEST(Fitting, NamedByThreeConstants) {
  constexpr auto darby = LossMethod::three_constant;
  EXPECT_NEAR(coefficient(Fitting::elbow_90(0.5 * inch, darby), 100), 8.829440871473153, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::elbow_90(0.25 * inch, darby), 1e4), 1.068801277245823, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::elbow_45(2.0 * inch, darby), 100), 5.313213664593429, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::tee_run(0.5 * inch, darby), 1000), 0.7391365664575495, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::tee_branch(2.0 * inch, darby), 1e4), 1.214228626406434, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::ball_valve(0.5 * inch, darby), 1000), 0.3902530925940225, 1e-12);
}

// The two tables against each other in bores of a quarter to two inches: the same laminar constants, and the stated
// factors between the coefficients at high Reynolds number; further apart below.
TEST(Fitting, TheTwoMethodsAreNeighbours) {
  struct Row {
    Fitting (*make)(Length, LossMethod);
    double factor;
  };
  for (const Row& row : {Row{Fitting::elbow_90, 2.1}, Row{Fitting::elbow_45, 2.1}, Row{Fitting::tee_branch, 2.1},
                         Row{Fitting::tee_run, 2.6}, Row{Fitting::ball_valve, 5.0}}) {
    for (const double size : {0.25, 0.5, 1.0, 2.0}) {
      const Fitting two = row.make(size * inch, LossMethod::two_constant);
      const Fitting three = row.make(size * inch, LossMethod::three_constant);
      EXPECT_EQ(two.k1, three.k1);
      EXPECT_LT(std::abs(std::log(two.k_inf / three.k_inf)), std::log(row.factor)) << size;
    }
  }
  EXPECT_GT(Fitting::elbow_90(0.1 * inch).k_inf, 3.0 * Fitting::elbow_90(0.1 * inch, LossMethod::three_constant).k_inf);
}

TEST(Fitting, MeetsItsRatingPoint) {
  const auto liquid = test::liquid_of("water", water_density<double>(293.15), water_viscosity<double>(293.15));
  const Fitting part = Fitting::rated(25.0 * mm, 10.0 * gpm, 3.0 * psi);
  EXPECT_NO_THROW(part.check("fitting"));
  EXPECT_NEAR(part.law(liquid)(si(10.0 * gpm)).dp / si(3.0 * psi), 1.0, 1e-12);
  // W. B. Hooper's table has 300 to 2000 for valves.
  EXPECT_GE(part.k1, 300);
  EXPECT_LE(part.k1, 2000);
  // 2 gpm of a thick liquid in 25 mm: Re 60, so K1/Re is 16.7 heads more than in the turbulent limit (computed).
  const double q = si(2.0 * gpm), re = physics::reynolds_number(q, 0.025, 1400.0, 0.15);
  const double heads = part.law(test::thick())(q).dp / physics::velocity_head(q, 0.025, 1400.0);
  EXPECT_NEAR(heads - part.k_inf, 1000.0 / re, 1e-9);
  // Less than the laminar part alone, or a bore far too wide for the loss.
  test::expect_refused([] { (void)Fitting::rated(25.0 * mm, 0.01 * gpm, 1.0 * Pa, 1e5, "meter"); },
                       "meter, rated loss");
  test::expect_refused([] { (void)Fitting::rated(0.5 * m, 0.1 * gpm, 3.0 * psi, 1000, "meter"); }, "meter, rated loss");
}

TEST(Fitting, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto check = [](double bore, double k1, double k_inf) {
    Fitting{.bore = bore * m, .k1 = k1, .k_inf = k_inf}.check("fitting 'e1'");
  };
  for (const double bad : {0.0, -0.01, 0.51, nan, inf}) {
    test::expect_refused([&] { check(bad, 800, 0.4); }, "fitting 'e1', bore");
  }
  // Without its laminar constant a fitting would have no slope at zero flow.
  for (const double bad : {0.0, -800.0, 1.1e5, nan, inf}) {
    test::expect_refused([&] { check(0.01, bad, 0.4); }, "fitting 'e1', k1");
  }
  for (const double bad : {-0.1, 1.1e5, nan, inf}) {
    test::expect_refused([&] { check(0.01, 800, bad); }, "fitting 'e1', k_inf");
  }
  test::expect_refused([] { Part(Fitting{}, "fitting 'empty'"); }, "fitting 'empty', bore");
  EXPECT_NO_THROW(check(0.01, 1.0, 0.0));
}

}  // namespace fitting_test
}  // namespace libflow
