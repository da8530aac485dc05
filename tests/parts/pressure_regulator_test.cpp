// SPDX-License-Identifier: MIT
/// @file
/// Pressure regulator: its wide-open law, and what it says when it cannot hold. That it holds is in
/// tests/solve/corrected_test.cpp.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/network/network.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/solve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace pressure_regulator_test {

using namespace units;

TEST(PressureRegulator, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(PressureRegulator{.set = 30.0 * psi, .passage_bore = 6.0 * mm}, liquid);
    test::expect_lawful(PressureRegulator::rated(1.0 * Pa, 5.0 * gpm, 2.0 * psi), liquid);
  }
}

TEST(PressureRegulator, WideOpenLosesWhatItIsRatedFor) {
  const auto water = test::liquid_of("water", water_density(293.15), water_viscosity(293.15));
  const PressureRegulator regulator = PressureRegulator::rated(30.0 * psi, 5.0 * gpm, 2.0 * psi);
  EXPECT_NEAR(regulator.law(water)(si(5.0 * gpm)).dp / si(2.0 * psi), 1.0, 2e-12);
}

TEST(PressureRegulator, SaysInNumbersThatItCannotHold) {
  const Part part(PressureRegulator{.set = 30.0 * psi, .passage_bore = 6.0 * mm});
  const auto found = [&](double flow, double before, double behind, bool known = true) {
    return part.cautions({.flow = flow, .from = si(before * psi), .to = si(behind * psi), .to_known = known},
                         test::water());
  };
  EXPECT_TRUE(found(1e-4, 60.0, 30.0).empty());  // holds
  EXPECT_TRUE(found(0.0, 60.0, 35.0).empty());   // shut: something else keeps the pressure up
  EXPECT_TRUE(found(0.0, 0.0, 0.0, false).empty());
  const Cautions low = found(1e-4, 25.0, 23.1);
  ASSERT_EQ(low.size(), 1u);
  EXPECT_EQ(low[0].code, "regulator-cannot-hold");
  // 30 psi is 206.8 kPa, 25 psi 172.4 kPa, 23.1 psi 159.3 kPa (1 psi = 6.894757 kPa).
  EXPECT_NE(low[0].text.find("set to 30 psi (207 kPa)"), std::string::npos) << low[0].text;
  EXPECT_NE(low[0].text.find("with 25 psi (172 kPa) before it, only 23.1 psi (159 kPa) is left"), std::string::npos)
      << low[0].text;
  EXPECT_DOUBLE_EQ(low[0].value, si(23.1 * psi));
  EXPECT_DOUBLE_EQ(low[0].limit, si(30.0 * psi));
  EXPECT_EQ(found(1e-4, 60.0, 55.0).at(0).code, "regulator-not-throttled");
}

// A plain solve takes it as wide open and says that this is not its answer.
TEST(PressureRegulator, APlainSolveOwnsUp) {
  Network n;
  n.add_supply("pump", 60.0 * psi);
  n.add_place("bar");
  n.add_air("row");
  n.add_part("regulator", "pump", "bar", PressureRegulator::rated(30.0 * psi, 5.0 * gpm, 2.0 * psi));
  n.add_part("orifice", "bar", "row", Orifice{.bore = 1.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_EQ(s.cautions.size(), 1u);
  EXPECT_EQ(s.cautions[0].code, "regulator-not-throttled");
  EXPECT_EQ(s.cautions[0].subject, "pressure regulator 'regulator'");
}

TEST(PressureRegulator, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -1.0, 5.1e6, nan}) {
    test::expect_refused([&] { PressureRegulator{.set = bad * Pa, .passage_bore = 6.0 * mm}.check("regulator 'a'"); },
                         "regulator 'a', set");
  }
  for (const double bad : {0.0, -1.0, 0.051, nan}) {
    test::expect_refused([&] { PressureRegulator{.set = 1e5 * Pa, .passage_bore = bad * m}.check("regulator 'a'"); },
                         "regulator 'a', passage bore");
  }
}

}  // namespace pressure_regulator_test
}  // namespace libflow
