// SPDX-License-Identifier: MIT
/// @file
/// Suspension hose: its law, its bounds, its cautions.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include <libflow/parts/suspension_hose.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace suspension_hose_test {

using namespace units;

/// An example, not a product's figures: at 100 1/s as thick as 0.4 Pa s.
const SuspensionHose example{.length = 4.0 * m, .bore = 0.75 * inch, .consistency = 6.3, .flow_index = 0.4};

TEST(SuspensionHose, IsLawful) {
  test::expect_lawful(example, test::water());
  for (const double n : {0.2, 0.5, 1.0}) {
    for (const double k : {1e-5, 0.05, 1e4}) {
      for (const double bore : {1e-4, 0.02, 0.5}) {
        test::expect_lawful(SuspensionHose{.length = 3.0 * m,
                                           .bore = from_si<Length>(bore),
                                           .consistency = k,
                                           .flow_index = n,
                                           .plateau_shear_rate = n < 0.4 ? 1e-4 : 1e3},
                            test::thick());
      }
    }
  }
}

// C. J. Geankoplis, Transport Processes and Unit Operations, example 3.5-1 (from memory): K' 15.23, n' 0.40, 1041
// kg/m3, bore 0.0524 m, 14.9 m, 0.0728 m/s: 45390 Pa, Reynolds number 1.106.
TEST(SuspensionHose, TextbookDrop) {
  const double n = 0.40, k = 15.23 / std::pow((3.0 * n + 1.0) / (4.0 * n), n);
  const SuspensionHose hose{.length = 14.9 * m, .bore = 52.4 * mm, .consistency = k, .flow_index = n};
  const double q = 0.0728 * std::numbers::pi * 0.0524 * 0.0524 / 4.0;
  // The viscosity plays no part.
  for (const double viscosity : {1e-3, 10.0}) {
    const auto liquid = test::liquid_of("suspension", 1041.0, viscosity);
    EXPECT_NEAR(hose.law(liquid)(q).dp, 45390.0, 5.0);
    EXPECT_NEAR(hose.law(liquid)(-q).dp, -45390.0, 5.0);
    EXPECT_NEAR(hose.reynolds_number(q, liquid), 1.106, 0.0005);
  }
}

TEST(SuspensionHose, ViscosityAtRest) {
  EXPECT_NEAR(si(example.viscosity_at_rest()), 6.3 * std::pow(0.01, -0.6), 1e-12);
  const double area2 = std::numbers::pi * std::pow(0.75 * 0.0254, 4);
  EXPECT_NEAR(example.law(test::water())(0.0).slope / (128.0 * si(example.viscosity_at_rest()) * 4.0 / area2), 1.0,
              1e-12);
}

// The default plateau is out of sight at a row's flow: a plateau ten times lower changes the drop by less than a
// millionth.
TEST(SuspensionHose, PlateauDoesNotShowInAWorkingHose) {
  SuspensionHose lower = example;
  lower.plateau_shear_rate = 0.001;
  const double q = si(0.5 * L_per_min);
  EXPECT_NEAR(lower.law(test::water())(q).dp / example.law(test::water())(q).dp, 1.0, 1e-6);
}

TEST(SuspensionHose, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto refused = [](auto change, const std::string& field) {
    SuspensionHose hose = example;
    change(hose);
    test::expect_refused([&] { hose.check("suspension hose 'a'"); }, "suspension hose 'a', " + field);
  };
  for (const double bad : {0.0, -1.0, nan, inf, 1e9}) {
    refused([&](SuspensionHose& h) { h.length = from_si<Length>(bad); }, "length");
    refused([&](SuspensionHose& h) { h.bore = from_si<Length>(bad); }, "bore");
    refused([&](SuspensionHose& h) { h.consistency = bad; }, "consistency");
    refused([&](SuspensionHose& h) { h.plateau_shear_rate = bad; }, "plateau shear rate");
    refused([&](SuspensionHose& h) { h.rating = from_si<Pressure>(bad); }, "rating");
  }
  for (const double bad : {0.0, -1.0, nan, 0.19, 1.01, 2.0}) {
    refused([&](SuspensionHose& h) { h.flow_index = bad; }, "flow index");
  }
  // Its two constants have no default: forgetting them is an error.
  test::expect_refused([] { Part(SuspensionHose{.length = 1.0 * m, .bore = 1.0 * cm}, "h"); }, "h, consistency");
  EXPECT_NO_THROW(example.check("h"));
}

TEST(SuspensionHose, Cautions) {
  const auto liquid = test::liquid_of("suspension", 1400.0, 1e-3);
  SuspensionHose hose = example;
  hose.rating = 100.0 * psi;
  const double working = si(2.0 * L_per_min);
  EXPECT_TRUE(Part(hose).cautions(working, si(100.0 * psi), liquid).empty());
  EXPECT_TRUE(Part(hose).cautions(0.0, 0.0, liquid).empty());
  const Cautions burst = Part(hose).cautions(working, si(101.0 * psi), liquid);
  ASSERT_EQ(burst.size(), 1u);
  EXPECT_EQ(burst[0].code, "above-working-pressure");
  EXPECT_EQ(burst[0].limit, si(100.0 * psi));
  // Shear rate 8V/D = 32 q/(pi D^3) against ten times the plateau's 0.01 1/s.
  const double q_low = 0.1 * std::numbers::pi * std::pow(0.75 * 0.0254, 3) / 32.0;
  EXPECT_TRUE(Part(hose).cautions(1.01 * q_low, 0.0, liquid).empty());
  const Cautions slow = Part(hose).cautions(-0.5 * q_low, 0.0, liquid);
  ASSERT_EQ(slow.size(), 1u);
  EXPECT_EQ(slow[0].code, "outside-range");
  EXPECT_NEAR(slow[0].value, 0.05, 1e-12);
  EXPECT_NEAR(slow[0].limit, 0.1, 1e-15);
  // Fast: beyond the measurements in Reynolds number, and, with n 0.3, in n as well.
  SuspensionHose thin = example;
  thin.consistency = 0.01;
  const Cautions fast = Part(thin).cautions(si(40.0 * L_per_min), 0.0, liquid);
  ASSERT_EQ(fast.size(), 1u);
  EXPECT_EQ(fast[0].limit, 36000.0);
  EXPECT_GT(fast[0].value, 36000.0);
  thin.flow_index = 0.3;
  EXPECT_EQ(Part(thin).cautions(si(40.0 * L_per_min), 0.0, liquid).size(), 2u);
}

}  // namespace suspension_hose_test
}  // namespace libflow
