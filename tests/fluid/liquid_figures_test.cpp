// SPDX-License-Identifier: MIT
/// @file
/// Which of a liquid's figures are used, and what is said of those that are not.
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <gtest/gtest.h>

#include <libflow/fluid/figures.hpp>
#include <libflow/fluid/liquid.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace liquid_figures_test {

using namespace libflow::units;

const Caution* caution_of(const LiquidState& state, std::string_view code) {
  for (const Caution& c : state.cautions) {
    if (c.code == code) return &c;
  }
  return nullptr;
}
PropertyPoint figure(double value, std::string source, std::optional<double> kelvin = std::nullopt,
                     Confidence confidence = Confidence::published) {
  PropertyPoint p;
  p.value = value;
  p.temperature = kelvin;
  p.confidence = confidence;
  p.source = std::move(source);
  return p;
}
LiquidRecord record() {
  LiquidRecord r;
  r.id = "mine";
  r.name = "Mine";
  r.density = {figure(1000.0, "one", 293.15)};
  r.viscosity = {figure(0.010, "one", 293.15)};
  return r;
}

// Two weighed densities of water are a line of their own; its viscosity stays by the formula, with the formula's range.
TEST(LiquidFigures, WaterWithTwoWeighedDensities) {
  const Liquid weighed =
      Liquid().with_density({{from_si<Density>(1010.0), celsius(10)}, {from_si<Density>(990.0), celsius(40)}});
  const LiquidState at = weighed.at(celsius(25));
  EXPECT_NEAR(at.density, 1000.0, 1e-9);
  EXPECT_EQ(at.density_confidence, Confidence::user);
  EXPECT_EQ(at.viscosity, Liquid().at(celsius(25)).viscosity);
  EXPECT_EQ(at.viscosity_source, "SR6-08");
  EXPECT_NO_THROW((void)weighed.at(celsius(-20)));
  test::expect_refused([&] { (void)weighed.at(celsius(-21)); }, "temperature");
  EXPECT_NO_THROW((void)Liquid(record()).at(celsius(-21)));
}

// Two measured viscosities of water are its curve: through both points, straight in ln(mu) against 1/T between.
TEST(LiquidFigures, WaterWithTwoMeasuredViscosities) {
  const Liquid measured = Liquid().with_viscosity({{1.4 * mPa_s, celsius(10)}, {0.7 * mPa_s, celsius(30)}});
  EXPECT_NEAR(measured.at(celsius(10)).viscosity, 1.4e-3, 1e-15);
  EXPECT_NEAR(measured.at(celsius(30)).viscosity, 0.7e-3, 1e-15);
  const double share = (1.0 / 293.15 - 1.0 / 283.15) / (1.0 / 303.15 - 1.0 / 283.15);
  EXPECT_NEAR(measured.at(celsius(20)).viscosity, 1.4e-3 * std::pow(0.5, share), 1e-12);
  EXPECT_EQ(measured.at(celsius(20)).viscosity_confidence, Confidence::user);
}

// One measured viscosity beside a single lesser figure: that is no shape, so the slope of water is taken.
TEST(LiquidFigures, OneLesserFigureIsNoShape) {
  const Liquid measured = Liquid(record()).with_viscosity(12.0 * mPa_s, celsius(15));
  const double slope = std::log(water_viscosity(273.15) / water_viscosity(313.15)) / (1.0 / 273.15 - 1.0 / 313.15);
  const LiquidState at = measured.at(celsius(30));
  EXPECT_NEAR(at.viscosity, 0.012 * std::exp(slope * (1.0 / 303.15 - 1.0 / 288.15)), 1e-12);
  const Caution* c = caution_of(at, "one-point-viscosity");
  ASSERT_NE(c, nullptr);
  EXPECT_TRUE(test::holds(c->text, "by the slope of water")) << c->text;
}

TEST(LiquidFigures, ALiquidNeedsBothItsNames) {
  for (const bool id : {true, false}) {
    LiquidRecord r = record();
    (id ? r.id : r.name).clear();
    test::expect_message([&] { (void)Liquid(r); }, "liquid: has no name; allowed: a name");
  }
}

// Densities 3 % and 1 % above the one in use: both are named, the further one is what it is held against.
TEST(LiquidFigures, EveryDensityThatDisagreesIsNamed) {
  for (const bool further_first : {true, false}) {
    LiquidRecord r = record();
    r.density = {figure(1000.0, "used"), figure(further_first ? 1030.0 : 1010.0, "first"),
                 figure(further_first ? 1010.0 : 1030.0, "second")};
    const LiquidState at = Liquid(r).at(fahrenheit(60));
    const Caution* c = caution_of(at, "densities-conflict");
    ASSERT_NE(c, nullptr);
    EXPECT_NEAR(c->value, 1000.0, 1e-9);
    EXPECT_EQ(c->limit, 1030.0);
    const std::string words =
        further_first ? "8.60 lb/gal (1030 kg/m3) at a temperature not stated, taken as 60 °F [first] (+3.0 "
                        "%); 8.43 lb/gal (1010 kg/m3) at a temperature not stated, taken as 60 °F [second] "
                        "(+1.0 %). Weigh"
                      : "8.43 lb/gal (1010 kg/m3) at a temperature not stated, taken as 60 °F [first] (+1.0 "
                        "%); 8.60 lb/gal (1030 kg/m3) at a temperature not stated, taken as 60 °F [second] "
                        "(+3.0 %). Weigh";
    EXPECT_TRUE(test::holds(c->text, words)) << c->text;
    EXPECT_EQ(at.density_low, 1000.0);
    EXPECT_EQ(at.density_high, 1030.0);
  }
}

// A band needs both its ends.
TEST(LiquidFigures, HalfABandIsNone) {
  for (const int ends : {0, 1, 2, 3}) {
    LiquidRecord r = record();
    if ((ends & 1) != 0) r.viscosity[0].low = 0.008;
    if ((ends & 2) != 0) r.viscosity[0].high = 0.013;
    const LiquidState at = Liquid(r).at(celsius(20));
    EXPECT_EQ(at.viscosity_low.has_value(), ends == 3) << ends;
    EXPECT_EQ(at.viscosity_high.has_value(), ends == 3) << ends;
    if (ends == 3) {
      EXPECT_NEAR(*at.viscosity_low, 0.008, 1e-15);
      EXPECT_NEAR(*at.viscosity_high, 0.013, 1e-15);
    }
  }
}

// Of a published or a measured viscosity nothing is said; of one that is not, that it is not.
TEST(LiquidFigures, OnlyWhatIsNotPublishedIsCautioned) {
  for (const Confidence confidence :
       {Confidence::user, Confidence::published, Confidence::derived, Confidence::memory}) {
    LiquidRecord r = record();
    r.viscosity[0].confidence = confidence;
    const LiquidState at = Liquid(r).at(celsius(20));
    EXPECT_EQ(caution_of(at, "estimated-viscosity") != nullptr, confidence == Confidence::derived);
    EXPECT_EQ(caution_of(at, "unverified-viscosity") != nullptr, confidence == Confidence::memory);
  }
}

TEST(LiquidFigures, ThickViscositiesInWholeCentipoise) {
  EXPECT_EQ(fluid_detail::viscosity_text(0.01234), "12.3 cP");
  EXPECT_EQ(fluid_detail::viscosity_text(0.9994), "999 cP");
  EXPECT_EQ(fluid_detail::viscosity_text(1.2344), "1234 cP");
}

}  // namespace liquid_figures_test
}  // namespace libflow
