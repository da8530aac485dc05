// SPDX-License-Identifier: MIT
/// @file
/// [[tolerance]] of a layout file: every shape and unit, and what is refused with which words; the study as JSON.
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/tolerance_json.hpp>
#include <tests/support/four_row_bar.hpp>

namespace libflow {
namespace layout_tolerances_test {

Tolerance layout_tolerances_read(const std::string& lines) {
  const Layout layout = parse_layout(test::four_row_bar + ("[[tolerance]]\n" + lines), "bar.toml");
  EXPECT_EQ(layout.tolerances.size(), 1U);
  return layout.tolerances.at(0);
}

TEST(LayoutTolerances, NoneIsNone) { EXPECT_TRUE(parse_layout(test::four_row_bar, "bar.toml").tolerances.empty()); }

TEST(LayoutTolerances, EveryShape) {
  const Tolerance normal = layout_tolerances_read("of = \"orifice_bore\"\nnormal = \"0.01 mm\"\n");
  EXPECT_EQ(normal.of, ToleranceOf::orifice_bore);
  EXPECT_EQ(normal.difference.kind, Distribution::Kind::normal);
  EXPECT_NEAR(normal.difference.deviation, 1e-5, 1e-18);
  EXPECT_FALSE(normal.relative);
  EXPECT_TRUE(normal.batch.empty());

  const Tolerance uniform = layout_tolerances_read("of = \"hose_length\"\nuniform = \"1 in\"\ntogether = true\n");
  EXPECT_NEAR(uniform.difference.low, -0.0254, 1e-15);
  EXPECT_NEAR(uniform.difference.high, 0.0254, 1e-15);
  EXPECT_EQ(uniform.batch, (std::vector<int>{1, 1, 1, 1}));

  const Tolerance triangular =
      layout_tolerances_read("of = \"viscosity\"\ntriangular = [\"-2 %\", \"10 %\"]\nname = \"a warm day\"\n");
  EXPECT_TRUE(triangular.relative);
  EXPECT_NEAR(triangular.difference.low, -0.02, 1e-15);
  EXPECT_NEAR(triangular.difference.high, 0.1, 1e-15);
  EXPECT_EQ(triangular.shown_name(), "a warm day");

  const Tolerance listed = layout_tolerances_read(
      "of = \"hose_bore\"\nlisted = [\"0.1 mm\", \"-0.2 mm\", \"0 mm\"]\nbatches = [1, 1, 5, 5]\n");
  EXPECT_EQ(listed.difference.values.front(), -0.2e-3);
  EXPECT_EQ(listed.batch, (std::vector<int>{1, 1, 5, 5}));
}

// Differences of what belongs to the job and the product, each with its own unit: 1 cP is 1e-3 Pa s, 1 lb/gal
// 0.45359237 kg in 231 in3 (NIST SP 811), 1 mph 0.44704 m/s, 1 L/ha 1e-7 m.
TEST(LayoutTolerances, DifferencesOfTheJobHaveItsUnits) {
  EXPECT_NEAR(layout_tolerances_read("of = \"viscosity\"\nnormal = \"5 cP\"\n").difference.deviation, 5e-3, 1e-17);
  EXPECT_NEAR(layout_tolerances_read("of = \"density\"\nnormal = \"0.1 lb/gal\"\n").difference.deviation,
              0.1 * 0.45359237 / (231.0 * 0.0254 * 0.0254 * 0.0254), 1e-9);
  EXPECT_NEAR(layout_tolerances_read("of = \"speed\"\nuniform = \"0.5 mph\"\n").difference.high, 0.22352, 1e-12);
  const Tolerance rate = layout_tolerances_read("of = \"rate\"\nnormal = \"2 L/ha\"\n");
  EXPECT_NEAR(rate.difference.deviation, 2e-7, 1e-20);
  EXPECT_FALSE(rate.relative);
}

TEST(LayoutTolerances, DifferencesOfTemperatureAndSlope) {
  // 9 Fahrenheit degrees are 5 kelvin; 2 per cent of slope is an angle, not a share.
  EXPECT_NEAR(layout_tolerances_read("of = \"temperature\"\nnormal = \"9 F\"\n").difference.deviation, 5.0, 1e-12);
  EXPECT_NEAR(layout_tolerances_read("of = \"temperature\"\nuniform = [\"-3 C\", \"4 C\"]\n").difference.low, -3.0,
              1e-12);
  for (const std::string of : {"side_slope", "fore_aft_slope"}) {
    const Tolerance slope = layout_tolerances_read("of = \"" + of + "\"\nnormal = \"2 %\"\n");
    EXPECT_FALSE(slope.relative) << of;
    EXPECT_NEAR(slope.difference.deviation, std::atan(0.02), 1e-12) << of;
  }
}

// 1 psi is 1 lbf on a square inch: 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2.
TEST(LayoutTolerances, DifferencesOfPressure) {
  const double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
  for (const std::string of : {"crack", "pressure"}) {
    EXPECT_NEAR(layout_tolerances_read("of = \"" + of + "\"\nnormal = \"2 psi\"\n").difference.deviation, 2.0 * psi,
                1e-6);
  }
}

TEST(LayoutTolerances, RefusalsNameTheLineAndWhatIsAllowed) {
  const auto refused = [](const std::string& lines, const std::string& says) {
    try {
      (void)parse_layout(test::four_row_bar + ("[[tolerance]]\n" + lines), "bar.toml");
      ADD_FAILURE() << "nothing thrown for " << lines;
    } catch (const InputError& e) {
      EXPECT_EQ(std::string(e.what()).rfind("bar.toml:", 0), 0U) << e.what();
      EXPECT_NE(std::string(e.what()).find(says), std::string::npos) << e.what();
      EXPECT_FALSE(e.allowed().empty()) << e.what();
    }
  };
  refused("of = \"orifice\"\nnormal = \"1 %\"\n", "orifice_bore");
  refused("of = \"crack\"\n", "one of normal, uniform, triangular, listed");
  refused("of = \"crack\"\nnormal = \"1 %\"\nuniform = \"1 %\"\n", "more than once");
  refused("of = \"crack\"\nnormal = \"1 ft\"\n", "psi");
  refused("of = \"crack\"\nnormal = \"-1 psi\"\n", "more than 0");
  refused("of = \"temperature\"\nnormal = \"5\"\n", "'5' has no unit");
  refused("of = \"crack\"\nnormal = [\"1 psi\", \"2 psi\"]\n", "one standard deviation");
  refused("of = \"crack\"\nuniform = [\"1 psi\", \"2 psi\"]\n", "0 or below");
  refused("of = \"crack\"\nuniform = [\"1 psi\"]\n", "one or two differences");
  refused("of = \"crack\"\nlisted = \"1 psi\"\n", "not a list");
  refused("of = \"crack\"\nlisted = [\"1 psi\", \"2 %\"]\n", "mixes");
  refused("of = \"crack\"\nlisted = [1, 2]\n", "not text");
  refused("of = \"crack\"\nnormal = \"1 psi\"\nbatches = [1, 2]\n", "2 numbers for 4 rows");
  refused("of = \"crack\"\nnormal = \"1 psi\"\ntogether = true\nbatches = [1, 1, 2, 2]\n", "together");
  refused("of = \"speed\"\nnormal = \"1 %\"\ntogether = true\n", "whole machine");
  refused("of = \"speed\"\nnormal = 0.1\n", "not text");
  for (const char* of : {"viscosity", "density", "speed", "rate"}) {
    refused(std::string("of = \"") + of + "\"\nnormal = \"1 psi\"\n", "psi");
  }
}

TEST(ToleranceJson, HasNoNumberThatIsNone) {
  ToleranceResult r;
  r.layout = "Bar";
  r.machines = 10;
  r.quantiles = {{0.5, {0.01, 0.001}, {0.02}}};
  RowScatter row;
  row.row = 1;
  r.rows = {row};
  ToleranceShare share;
  share.name = "crack";
  share.first_order = 0.25;
  r.shares = {share};
  const Json json = tolerance_to_json(r);
  EXPECT_EQ(json["quantiles"][0]["coefficient_of_variation"]["standard_error"], 0.001);
  EXPECT_TRUE(json["quantiles"][0]["worst_row_deviation"]["standard_error"].is_null());
  EXPECT_TRUE(json["rows"][0]["first_order_standard_deviation"].is_null());
  EXPECT_TRUE(json["tolerances"][0]["sobol_indices"].is_null());
  EXPECT_EQ(json["tolerances"][0]["first_order_share_of_row_variance"], 0.25);
  EXPECT_EQ(json["complete"], false);
  r.share_replicates = 2;
  EXPECT_TRUE(tolerance_to_json(r)["tolerances"][0]["sobol_indices"].is_object());
  EXPECT_EQ(to_text(json).find("nan"), std::string::npos);
}

}  // namespace layout_tolerances_test
}  // namespace libflow
