// SPDX-License-Identifier: MIT
/// @file
/// Relief valve: shut below its set pressure, its accumulation above, its caution.
#include <gtest/gtest.h>

#include <limits>

#include <libflow/parts/relief_valve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace relief_valve_test {

using namespace units;

TEST(ReliefValve, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(ReliefValve{.set = 60.0 * psi, .passage_bore = 12.0 * mm}, liquid);
    test::expect_lawful(ReliefValve{.set = 1.0 * Pa, .passage_bore = 0.05 * mm}, liquid);
    test::expect_lawful(ReliefValve{.set = from_si<Pressure>(2e7), .passage_bore = 50.0 * mm}, liquid);
  }
}

TEST(ReliefValve, RatedNeedsItsAccumulation) {
  const auto water = test::liquid_of("water", water_density(293.15), water_viscosity(293.15));
  const ReliefValve valve = ReliefValve::rated(60.0 * psi, 20.0 * gpm, 6.0 * psi);
  EXPECT_EQ(valve.law(water)(0.0).dp, si(60.0 * psi));
  EXPECT_NEAR(valve.law(water)(si(20.0 * gpm)).dp / si(66.0 * psi), 1.0, 2e-12);
  EXPECT_EQ(valve.law(water).passes, Passes::forward);
}

TEST(ReliefValve, CautionWhileOpen) {
  const Part part = ReliefValve{.set = 60.0 * psi, .passage_bore = 12.0 * mm};
  EXPECT_TRUE(part.cautions(0.0, si(59.0 * psi), test::water()).empty());
  const Cautions found = part.cautions(1e-4, si(62.0 * psi), test::water());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "relief-open");
  EXPECT_EQ(found[0].value, si(62.0 * psi));
  EXPECT_EQ(found[0].limit, si(60.0 * psi));
}

TEST(ReliefValve, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto check = [](double set, double bore) {
    ReliefValve{.set = set * Pa, .passage_bore = bore * m}.check("relief 'r1'");
  };
  for (const double bad : {0.0, -1.0, 2.1e7, nan, inf}) {
    test::expect_refused([&] { check(bad, 0.01); }, "relief 'r1', set");
  }
  for (const double bad : {0.0, -1.0, 0.051, nan, inf}) {
    test::expect_refused([&] { check(4e5, bad); }, "relief 'r1', passage bore");
  }
  test::expect_refused([] { Part(ReliefValve{}, "relief 'empty'"); }, "relief 'empty', set");
}

}  // namespace relief_valve_test
}  // namespace libflow
