// SPDX-License-Identifier: MIT
/// @file
/// Check valve: nothing until it cracks, then a passage forward, never back.
#include <gtest/gtest.h>

#include <limits>

#include <libflow/parts/check_valve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace check_valve_test {

using namespace units;

TEST(CheckValve, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}, liquid);
    test::expect_lawful(CheckValve{.crack = 0.0 * psi, .passage_bore = 0.05 * mm}, liquid);
    test::expect_lawful(CheckValve{.crack = from_si<Pressure>(2e6), .passage_bore = 50.0 * mm}, liquid);
    test::expect_lawful(CheckValve::rated(10.0 * psi, 1.0 * gpm, 2.0 * psi), liquid);
    // Turned round it keeps the same contract the other way.
    test::expect_lawful(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}.law(liquid).reversed(),
                        Contract::one_way);
  }
}

TEST(CheckValve, ThresholdIsTheCrackPressure) {
  const Law law = CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}.law(test::water());
  EXPECT_EQ(law.passes, Passes::forward);
  EXPECT_EQ(law.threshold, si(4.0 * psi));
  EXPECT_EQ(law(0.0).dp, si(4.0 * psi));
  EXPECT_NEAR(law(1e-15).dp, si(4.0 * psi), 1e-6);
  EXPECT_GT(law(1e-5).dp, si(4.0 * psi));
}

TEST(CheckValve, RatedLosesWhatItIsRatedFor) {
  const auto water = test::liquid_of("water", water_density(293.15), water_viscosity(293.15));
  const CheckValve valve = CheckValve::rated(4.0 * psi, 0.5 * gpm, 1.5 * psi);
  EXPECT_EQ(si(valve.crack), si(4.0 * psi));
  EXPECT_NEAR(valve.law(water)(si(0.5 * gpm)).dp / si(5.5 * psi), 1.0, 2e-12);
  test::expect_refused([] { (void)CheckValve::rated(4.0 * psi, 0.0 * gpm, 1.0 * psi, "valve 'r1'"); }, "valve 'r1'");
}

TEST(CheckValve, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto check = [](double crack, double bore) {
    CheckValve{.crack = crack * Pa, .passage_bore = bore * m}.check("check valve 'r1'");
  };
  for (const double bad : {-1.0, 2.1e6, nan, inf}) {
    test::expect_refused([&] { check(bad, 0.003); }, "check valve 'r1', crack");
  }
  for (const double bad : {0.0, -1.0, 0.051, nan, inf}) {
    test::expect_refused([&] { check(3e4, bad); }, "check valve 'r1', passage bore");
  }
  test::expect_refused([] { Part(CheckValve{}, "check valve 'empty'"); }, "check valve 'empty', passage bore");
  EXPECT_NO_THROW(check(0.0, 0.003));
}

}  // namespace check_valve_test
}  // namespace libflow
