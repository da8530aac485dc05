// SPDX-License-Identifier: MIT
/// @file
/// Fitting: the two-constant loss of the named fittings, its bounds.
#include <gtest/gtest.h>

#include <limits>

#include <libflow/parts/fitting.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace {

using namespace units;

TEST(Fitting, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double bore : {1e-4, 0.012, 0.5}) {
      test::expect_lawful(Fitting::elbow_90(bore * m), liquid);
      test::expect_lawful(Fitting::elbow_45(bore * m), liquid);
      test::expect_lawful(Fitting::tee_run(bore * m), liquid);
      test::expect_lawful(Fitting::tee_branch(bore * m), liquid);
    }
    test::expect_lawful(Fitting{.bore = 1.0 * cm, .k1 = 1.0, .k_inf = 0.0}, liquid);
    test::expect_lawful(Fitting{.bore = 1.0 * cm, .k1 = 1e5, .k_inf = 1e5}, liquid);
  }
}

// W. B. Hooper, Chem. Eng., 24 August 1981, p. 97 (table as seen in an open package): screwed 90 degree elbow 800 and
// 0.4, 45 degree elbow 500 and 0.2, tee run 200 and 0.1, tee as elbow 500 and 0.7; K computed from the formula.
TEST(Fitting, NamedFittings) {
  const auto coefficient = [](const Fitting& fitting, double re) {
    const auto liquid = test::water();
    const double q = re * liquid.viscosity * 3.14159265358979324 * si(fitting.bore) / (4.0 * liquid.density);
    return fitting.law(liquid)(q).dp / physics::velocity_head(q, si(fitting.bore), liquid.density);
  };
  EXPECT_NEAR(coefficient(Fitting::elbow_90(0.5 * inch), 100), 9.2, 1e-12);
  EXPECT_NEAR(coefficient(Fitting::elbow_90(2.0 * inch), 1e4), 0.68, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_run(0.5 * inch), 1000), 0.5, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_run(2.0 * inch), 1e4), 0.17, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::elbow_45(0.5 * inch), 1000), 0.5 + 0.2 * 3.0, 1e-13);
  EXPECT_NEAR(coefficient(Fitting::tee_branch(0.5 * inch), 1000), 0.5 + 0.7 * 3.0, 1e-12);
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

}  // namespace
}  // namespace libflow
