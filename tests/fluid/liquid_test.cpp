// SPDX-License-Identifier: MIT
/// @file
/// A liquid of measured points: interpolation, cautions, refusals.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <type_traits>

#include <libflow/fluid/liquid.hpp>

namespace libflow {
namespace liquid_test {

using namespace libflow::units;

const Caution* caution_of(const LiquidState& state, std::string_view code) {
  for (const Caution& c : state.cautions) {
    if (c.code == code) return &c;
  }
  return nullptr;
}

template <class Action>
std::string refusal(Action action) {
  try {
    action();
  } catch (const InputError& e) {
    return e.what();
  }
  return "";
}
#define EXPECT_REFUSED(action, words) \
  EXPECT_NE(refusal([&] { (void)(action); }).find(words), std::string::npos) << refusal([&] { (void)(action); })

Liquid mine() {
  return Liquid::from_points("my starter", {{11.1 * lb_per_gal, fahrenheit(60)}},
                             {{30.0 * mPa_s, celsius(0)}, {14.0 * mPa_s, celsius(15)}, {8.0 * mPa_s, celsius(30)}});
}

// A bare number is no density, and a viscosity is no density.
static_assert(!std::is_convertible_v<double, Density>);
static_assert(!std::is_convertible_v<Viscosity, Density>);

// The default liquid is water by IAPWS SR6-08(2011): check-value table, 298.15 K.
TEST(Liquid, DefaultIsWaterByFormula) {
  const LiquidState state = Liquid().at(celsius(25));
  EXPECT_EQ(state.name, "Water");
  EXPECT_NEAR(state.density, 997.047013, 5e-7);
  EXPECT_NEAR(1e6 * state.viscosity, 889.996774, 5e-7);
  // IAPWS SR1-86(1992), computed value at 25 C (formula verified by its check table in water_test).
  EXPECT_NEAR(state.vapour_pressure, 3169.8245, 5e-5);
  EXPECT_EQ(state.density_confidence, Confidence::published);
  EXPECT_EQ(state.density_source, "SR6-08");
  EXPECT_TRUE(state.cautions.empty());
}

TEST(Liquid, WaterFreezes) {
  EXPECT_EQ(caution_of(Liquid().at(celsius(0)), "below-freezing"), nullptr);
  const LiquidState cold = Liquid().at(celsius(-3));
  ASSERT_NE(caution_of(cold, "below-freezing"), nullptr);
  EXPECT_DOUBLE_EQ(caution_of(cold, "below-freezing")->limit, 273.15);
  EXPECT_NO_THROW((void)Liquid().at(celsius(-20)));
  EXPECT_REFUSED(Liquid().at(celsius(-21)), "allowed: -20 to 100 C");
}

TEST(Liquid, ViscosityPassesThroughItsPoints) {
  const Liquid liquid = mine();
  EXPECT_NEAR(si(liquid.viscosity_at(celsius(0))), 0.030, 1e-15);
  EXPECT_NEAR(si(liquid.viscosity_at(celsius(15))), 0.014, 1e-15);
  EXPECT_NEAR(si(liquid.viscosity_at(celsius(30))), 0.008, 1e-15);
  EXPECT_EQ(liquid.at(celsius(15)).viscosity_confidence, Confidence::user);
}

// Halfway in 1/T the viscosity is the geometric mean of the ends: the definition of ln(mu) linear in 1/T.
TEST(Liquid, ViscosityIsStraightInLogAgainstInverseTemperature) {
  const double middle = 2.0 / (1.0 / 273.15 + 1.0 / 288.15);
  EXPECT_NEAR(mine().at(from_si<Temperature>(middle)).viscosity, std::sqrt(0.030 * 0.014), 1e-15);
}

TEST(Liquid, ViscosityFallsSteadilyAndIsContinuous) {
  const Liquid liquid = mine();
  double before = std::numeric_limits<double>::infinity();
  for (double c = -40; c <= 100; c += 0.25) {
    const double mu = si(liquid.viscosity_at(celsius(c)));
    EXPECT_LT(mu, before) << c;
    if (std::isfinite(before)) {
      EXPECT_GT(mu, 0.97 * before) << c;
    }
    before = mu;
  }
}

TEST(Liquid, OrderOfPointsDoesNotMatter) {
  const Liquid shuffled =
      Liquid::from_points("my starter", {{11.1 * lb_per_gal, fahrenheit(60)}},
                          {{8.0 * mPa_s, celsius(30)}, {30.0 * mPa_s, celsius(0)}, {14.0 * mPa_s, celsius(15)}});
  for (double c = -10; c <= 50; c += 7) {
    EXPECT_DOUBLE_EQ(shuffled.at(celsius(c)).viscosity, mine().at(celsius(c)).viscosity) << c;
  }
}

TEST(Liquid, OutsideItsPointsTheEndSegmentGoesOnAndSaysSo) {
  const Liquid liquid = mine();
  EXPECT_EQ(caution_of(liquid.at(celsius(0)), "outside-measured"), nullptr);
  EXPECT_EQ(caution_of(liquid.at(celsius(30)), "outside-measured"), nullptr);
  const LiquidState cold = liquid.at(celsius(-10));
  ASSERT_NE(caution_of(cold, "outside-measured"), nullptr);
  EXPECT_DOUBLE_EQ(caution_of(cold, "outside-measured")->limit, 273.15);
  const double slope = std::log(0.030 / 0.014) / (1 / 273.15 - 1 / 288.15);
  EXPECT_NEAR(cold.viscosity, 0.030 * std::exp(slope * (1 / 263.15 - 1 / 273.15)), 1e-14);
  EXPECT_NE(caution_of(liquid.at(celsius(40)), "outside-measured"), nullptr);
}

// One point: water's mean slope from 0 to 40 C; viscosities of IAPWS SR6-08 at the two ends, 1791.7824 and 652.73347
// uPa s (working table of water_test), so that going from 40 to 0 C multiplies by their ratio.
TEST(Liquid, OnePointViscosityTakesTheSlopeOfWater) {
  const Liquid liquid = Liquid::from_points("thin", {{1200.0 * kg_per_m3, celsius(20)}}, {{2.0 * mPa_s, celsius(40)}});
  EXPECT_EQ(caution_of(liquid.at(celsius(40)), "one-point-viscosity"), nullptr);
  const LiquidState cold = liquid.at(celsius(0));
  EXPECT_NEAR(cold.viscosity / 2e-3, 1791.7824 / 652.73347, 1e-6);
  ASSERT_NE(caution_of(cold, "one-point-viscosity"), nullptr);
  EXPECT_DOUBLE_EQ(caution_of(cold, "one-point-viscosity")->limit, 313.15);
}

TEST(Liquid, ViscosityThatRisesIsFlagged) {
  const Liquid odd = Liquid::from_points("odd", {{1200.0 * kg_per_m3, celsius(20)}},
                                         {{2.0 * mPa_s, celsius(10)}, {3.0 * mPa_s, celsius(30)}});
  EXPECT_NE(caution_of(odd.at(celsius(20)), "viscosity-rises"), nullptr);
  EXPECT_EQ(caution_of(mine().at(celsius(20)), "viscosity-rises"), nullptr);
}

TEST(Liquid, NoViscosityIsRefusedNotGuessed) {
  const Liquid liquid = Liquid::from_points("weighed only", {{1300.0 * kg_per_m3, celsius(20)}}, {});
  EXPECT_FALSE(liquid.has_viscosity());
  EXPECT_DOUBLE_EQ(si(liquid.density_at(celsius(20))), 1300);
  EXPECT_REFUSED(liquid.at(celsius(20)), "one measured viscosity");
  EXPECT_REFUSED(liquid.viscosity_at(celsius(20)), "weighed only");
  EXPECT_TRUE(liquid.with_viscosity(3.0 * cP, celsius(20)).has_viscosity());
}

TEST(Liquid, TwoDensitiesMakeALine) {
  const Liquid liquid = Liquid::from_points(
      "line", {{1300.0 * kg_per_m3, celsius(0)}, {1280.0 * kg_per_m3, celsius(40)}}, {{3.0 * cP, celsius(20)}});
  EXPECT_NEAR(si(liquid.density_at(celsius(10))), 1295, 1e-9);
  EXPECT_NEAR(si(liquid.density_at(celsius(60))), 1270, 1e-9);
  EXPECT_TRUE(liquid.at(celsius(20)).cautions.empty());
}

TEST(Liquid, OneDensityIsHeldAndSaysSo) {
  const Liquid liquid = mine();
  EXPECT_NEAR(si(liquid.density_at(celsius(30))), 11.1 * si(lb_per_gal), 1e-9);
  EXPECT_EQ(caution_of(liquid.at(fahrenheit(62)), "one-point-density"), nullptr);
  EXPECT_NE(caution_of(liquid.at(celsius(30)), "one-point-density"), nullptr);
}

TEST(Liquid, OwnDensitiesThatDisagreeAreBothNamed) {
  const Liquid liquid = Liquid::from_points(
      "two scales", {{1300.0 * kg_per_m3, celsius(20)}, {1330.0 * kg_per_m3, celsius(20)}}, {{3.0 * cP, celsius(20)}});
  const LiquidState state = liquid.at(celsius(20));
  EXPECT_DOUBLE_EQ(state.density, 1300);
  const Caution* caution = caution_of(state, "densities-conflict");
  ASSERT_NE(caution, nullptr);
  EXPECT_DOUBLE_EQ(caution->value, 1300);
  EXPECT_DOUBLE_EQ(caution->limit, 1330);
  EXPECT_NEAR(*state.density_high, 1330, 1e-9);
}

// Weighed water keeps its own expansion.
TEST(Liquid, WeighedWater) {
  const Liquid heavy = Liquid().with_density(1010.0 * kg_per_m3, celsius(20));
  EXPECT_NEAR(si(heavy.density_at(celsius(20))), 1010, 1e-9);
  EXPECT_NEAR(si(heavy.density_at(celsius(40))), 1010 * 992.215763 / 998.206546, 1e-6);  // IAPWS SR6-08 at 40 and 20 C
  EXPECT_EQ(heavy.at(celsius(20)).density_confidence, Confidence::user);
  const Liquid dirty = Liquid().with_viscosity(1.1 * cP, celsius(20));
  EXPECT_NEAR(si(dirty.viscosity_at(celsius(20))), 1.1e-3, 1e-15);
  EXPECT_EQ(dirty.at(celsius(20)).viscosity_confidence, Confidence::user);
}

TEST(Liquid, BadInputIsRefusedWithItsPlace) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  const auto made = [](double rho, double rho_c, double mu, double mu_c) {
    return Liquid::from_points("x", {{rho * kg_per_m3, celsius(rho_c)}}, {{mu * Pa_s, celsius(mu_c)}});
  };
  EXPECT_NO_THROW((void)made(1200, 20, 0.01, 20));
  EXPECT_REFUSED(made(nan, 20, 0.01, 20), "liquid 'x', density point 1: not a number");
  EXPECT_REFUSED(made(-1200, 20, 0.01, 20), "density point 1: -1200 kg/m3; allowed: 500 to 3000 kg/m3");
  EXPECT_REFUSED(made(0, 20, 0.01, 20), "density point 1");
  EXPECT_REFUSED(made(inf, 20, 0.01, 20), "density point 1");
  EXPECT_REFUSED(made(1200, nan, 0.01, 20), "density point 1, temperature");
  EXPECT_REFUSED(made(1200, 20, 0, 20), "viscosity point 1: 0 Pa s");
  EXPECT_REFUSED(made(1200, 20, -0.01, 20), "viscosity point 1");
  EXPECT_REFUSED(made(1200, 20, nan, 20), "viscosity point 1");
  EXPECT_REFUSED(made(1200, 20, 0.01, 400), "viscosity point 1, temperature: 400 C; allowed: -40 to 100 C");
  EXPECT_REFUSED(Liquid::from_points("", {{1200.0 * kg_per_m3, celsius(20)}}, {}), "has no name");
  EXPECT_REFUSED(Liquid::from_points("x", {}, {{1.0 * cP, celsius(20)}}), "liquid 'x', density: none given");
  EXPECT_REFUSED(Liquid::from_points("x", {{1200.0 * kg_per_m3, celsius(20)}},
                                     {{1.0 * cP, celsius(20)}, {2.0 * cP, celsius(5)}, {3.0 * cP, celsius(20)}}),
                 "viscosity point 3: same temperature as point 1, 20.0 C");
  EXPECT_REFUSED(mine().at(from_si<Temperature>(nan)), "temperature: not a number");
  EXPECT_REFUSED(mine().at(celsius(101)), "liquid 'my starter', temperature: 101 C");
  EXPECT_NO_THROW((void)mine().at(celsius(-40)));
  EXPECT_REFUSED(mine().with_density(std::vector<MeasuredDensity>{}), "none given");
  EXPECT_REFUSED(mine().with_viscosity(std::vector<MeasuredViscosity>{}), "none given");
}

TEST(Liquid, RecordsAreChecked) {
  LiquidRecord record = mine().record();
  record.viscosity[1].temperature.reset();
  EXPECT_REFUSED(Liquid(record), "viscosity point 2: has no temperature");
  record = mine().record();
  record.viscosity[0].low = 0.031;  // above its value, 0.030
  EXPECT_REFUSED(Liquid(record), "viscosity point 1, low");
  record = mine().record();
  PropertyPoint salt;
  salt.value = std::numeric_limits<double>::quiet_NaN();
  record.salt_out.push_back(salt);
  EXPECT_REFUSED(Liquid(record), "salt-out 1: not a number");
}

// Two close figures that contradict each other give a steep curve; far from them it is refused, not printed.
TEST(Liquid, AbsurdCurvesAreRefused) {
  const Liquid steep =
      Liquid::from_points("steep", {{1280.0 * kg_per_m3, celsius(20)}, {1200.0 * kg_per_m3, celsius(21)}},
                          {{5.0 * cP, celsius(20)}, {4.0 * cP, celsius(20.1)}});
  EXPECT_REFUSED(steep.density_at(celsius(60)), "check the figures");
  EXPECT_REFUSED(steep.viscosity_at(celsius(80)), "viscosity curve carried to 176 °F (80.0 °C)");
}

// A figure that was measured outranks print, print what was derived, that a rule of the trade, and memory comes last.
TEST(Confidence, IsRankedAndSaidInWords) {
  const Confidence best_first[] = {Confidence::user, Confidence::published, Confidence::derived,
                                   Confidence::common_practice, Confidence::memory};
  int rank = 0;
  for (const Confidence c : best_first) EXPECT_EQ(confidence_rank(c), rank++) << to_text(c);
  EXPECT_EQ(to_text(Confidence::common_practice), "common practice, no source");
  EXPECT_EQ(to_text(Confidence::memory), "memory, not verified");
}

}  // namespace liquid_test
}  // namespace libflow
