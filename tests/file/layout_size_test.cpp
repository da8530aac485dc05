// SPDX-License-Identifier: MIT
/// @file
/// [size] of a layout file, what is wrong with it, and sizing and what-if as JSON.
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_schema.hpp>
#include <libflow/file/layout_size.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/file/what_if_json.hpp>

namespace libflow {
namespace layout_size_test {

using namespace units;

const std::string bar_text = R"(
[job]
product = "water"
temperature = "68 F"
rate = "10 gal/ac"
speed = "5 mph"
[toolbar]
rows = 4
spacing = "30 in"
[[manifold]]
[hose]
bore = "1/4 in"
schedule = "shortest"
extra = "2 ft"
[check_valve]
crack = "4 psi"
rated_flow = "0.5 gpm"
rated_loss = "2 psi"
[orifice]
bore = "0.06 in"
)";

TEST(LayoutSize, ReadsEverythingThatItMayHold) {
  const SizeFile file = parse_size(bar_text + R"([size]
orifices = ["0.05 in", "0.06 in"]
groups = [{ name = "outer", rows = [1, 4] }]
hose_bores = ["1/4 in", "3/8 in"]
hose_prices = [0.5, 0.9]
cuts = ["equal", "two_lengths"]
step = "1 ft"
extra = "3 ft"
manifold_bores = ["3/4 in", "1 in"]
feeds = ["middle", "left"]
cracks = ["2 psi", "4 psi"]
speeds = ["4 mph", "6 mph"]
rates = ["8 gal/ac", "12 gal/ac"]
temperatures = ["40 F", "70 F"]
side_slopes = ["0 %", "8 %"]
least_pressure = "12 psi"
most_pressure = "50 psi"
verify = 7
)",
                                   "bar.toml");
  const SizeChoices& c = file.choices;
  ASSERT_EQ(c.orifices.size(), 2U);
  EXPECT_DOUBLE_EQ(si(std::get<OrificeByBore>(c.orifices[1]).bore), 0.06 * 0.0254);
  ASSERT_EQ(c.groups.size(), 1U);
  EXPECT_EQ(c.groups[0].name, "outer");
  EXPECT_EQ(c.groups[0].rows, (std::vector<int>{1, 4}));
  EXPECT_EQ(c.hose_bores.size(), 2U);
  ASSERT_EQ(c.hose_prices.size(), 2U);
  EXPECT_DOUBLE_EQ(c.hose_prices[1], 0.9 / 0.3048);
  EXPECT_EQ(c.cuts, (std::vector<Cut>{Cut::equal, Cut::two_lengths}));
  EXPECT_DOUBLE_EQ(si(c.step), 0.3048);
  EXPECT_DOUBLE_EQ(si(*c.extra), 3.0 * 0.3048);
  EXPECT_EQ(c.feeds, (std::vector<ManifoldFeed>{ManifoldFeed::middle, ManifoldFeed::left}));
  EXPECT_EQ(c.manifold_bores.size() + c.cracks.size() + c.speeds.size() + c.rates.size() + c.temperatures.size(), 10U);
  EXPECT_DOUBLE_EQ(to_slope_percent(c.side_slopes[1]), 8.0);
  EXPECT_DOUBLE_EQ(si(c.least_pressure), si(12.0 * psi));
  EXPECT_DOUBLE_EQ(si(c.most_pressure), si(50.0 * psi));
  EXPECT_EQ(c.verify, 7U);
  // The layout itself passes over it, and the schema knows it.
  EXPECT_EQ(std::get<Toolbar>(parse_layout(bar_text + "[size]\nstep = \"1 ft\"\n", "bar.toml").plumbing).rows, 4);
  const Json schema = layout_schema();
  EXPECT_TRUE(schema["properties"].contains("size"));
  EXPECT_EQ(schema["$defs"]["size"]["properties"]["groups"]["items"]["$ref"], "#/$defs/groups");
  EXPECT_TRUE(schema["$defs"].contains("groups"));
}

// A bore to choose is the layout's own plate with another hole; where the layout has no plate, a sharp one.
TEST(LayoutSize, ABoreToChooseKeepsThePlate) {
  const auto first = [](const std::string& orifice) {
    std::string text = bar_text + "[size]\norifices = [\"0.05 in\"]\n";
    const std::string own = "bore = \"0.06 in\"\n";
    text.replace(text.find(own), own.size(), orifice);
    return std::get<OrificeByBore>(parse_size(text, "bar.toml").choices.orifices.at(0));
  };
  const OrificeByBore plate = first("bore = \"0.06 in\"\nthickness = \"0.1 in\"\ncoefficient = 0.8\n");
  EXPECT_NEAR(si(plate.bore), 0.05 * 0.0254, 1e-15);
  EXPECT_NEAR(si(plate.thickness), 0.1 * 0.0254, 1e-15);
  EXPECT_EQ(plate.discharge_coefficient, 0.8);
  for (const char* other : {"none = true\n", "rated_flow = \"0.2 gpm\"\nrated_pressure = \"20 psi\"\n"}) {
    const OrificeByBore sharp = first(other);
    EXPECT_NEAR(si(sharp.bore), 0.05 * 0.0254, 1e-15) << other;
    EXPECT_EQ(si(sharp.thickness), 0.0) << other;
    EXPECT_FALSE(sharp.discharge_coefficient) << other;
  }
}

TEST(LayoutSize, WithoutItEverythingIsAtItsDefault) {
  const SizeFile file = parse_size(bar_text, "bar.toml");
  EXPECT_TRUE(file.choices.orifices.empty());
  EXPECT_FALSE(file.choices.extra);
  EXPECT_FALSE(size_toolbar(file.layout, file.choices).fits.empty());
}

TEST(LayoutSize, SaysWhatIsWrong) {
  const auto refused = [](const std::string& line, const std::string& message) {
    try {
      (void)parse_size(bar_text + "[size]\n" + line + "\n", "bar.toml");
      ADD_FAILURE() << line;
    } catch (const InputError& e) {
      const std::string what = e.what();
      EXPECT_NE(what.find(message), std::string::npos) << what;
      EXPECT_NE(what.find("bar.toml:"), std::string::npos) << what;
    }
  };
  refused("orfices = [\"1 mm\"]", "did you mean 'orifices'");
  refused("orifices = [\"1 psi\"]", "orifices #1");
  refused("orifices = []", "the list is empty");
  refused("cuts = [\"shortest\", \"equel\"]", "did you mean 'equal'");
  refused("cuts = [1]", "is not text");
  refused("feeds = [\"top\"]", "none of the choices");
  refused("hose_prices = [1.0]", "'hose_bores' is missing");
  refused("hose_bores = [\"1/4 in\"]\nhose_prices = [1.0, 2.0]", "2 prices for 1 bores");
  refused("groups = [{ name = \"a\", rows = [5] }]", "out of range");
  refused("groups = [{ name = \"a\", rows = [1.5] }]", "1.5 is no row");
  refused("groups = [{ name = \"a\", rows = [] }]", "the list is empty");
  refused("least_pressure = \"40 psi\"\nmost_pressure = \"20 psi\"", "wrong side");
  refused("speeds = [5]", "has no unit");
  refused("cuts = []", "[size] cuts: the list is empty; allowed: at least one way, or leave it out");
  refused("feeds = []", "[size] feeds: the list is empty; allowed: at least one place, or leave it out");
  refused("verify = 51", "51 is out of range; allowed: a whole number, 1 to 50");
  // Against the 60 psi that are assumed where no upper end is given.
  refused("least_pressure = \"70 psi\"", "[size] least_pressure: is on the wrong side of the other");
  const std::string without =
      bar_text.substr(0, bar_text.find("[check_valve]")) + bar_text.substr(bar_text.find("[orifice]"));
  try {
    (void)parse_size(without + "[size]\ncracks = [\"2 psi\", \"4 psi\"]\n", "bar.toml");
    ADD_FAILURE() << "nothing to set";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find("[size] cracks"), std::string::npos) << e.what();
    EXPECT_EQ(e.what_is_wrong(), "the rows have no check valve");
    EXPECT_EQ(e.allowed(), "a [check_valve] first");
  }
}

TEST(LayoutSize, AFreeFormHasNothingToChoose) {
  const std::filesystem::path example = std::filesystem::path(LIBFLOW_EXAMPLES) / "free_form.toml";
  EXPECT_NO_THROW((void)read_size(example));
  const std::string text = read_text_file(example) + "\n[size]\nstep = \"1 ft\"\n";
  EXPECT_THROW((void)parse_size(text, "free.toml"), InputError);
}

TEST(SizeJson, HasTheRankedListAndTheMiss) {
  SizeFile file = parse_size(bar_text, "bar.toml");
  file.choices.speeds = {4.0 * mph, 6.0 * mph};
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  const Json j = size_to_json(a, 3);
  EXPECT_EQ(j["fit"], a.fits.size());
  EXPECT_EQ(j["operating_points"].size(), 2U);
  EXPECT_GE(j["ranked"].size(), 3U);
  EXPECT_EQ(j["ranked"][0]["rank"], 1);
  EXPECT_EQ(j["ranked"][0]["fits"], true);
  EXPECT_EQ(j["ranked"][0]["hose_lengths_m"].size(), 4U);
  EXPECT_DOUBLE_EQ(j["ranked"][0]["hose_m"].get<double>(), a.winner()->hose);
  EXPECT_TRUE(j["ranked"][0]["price"].is_null());
  EXPECT_TRUE(j["operating_points"][0]["drive_most_gauge_Pa"].is_null());  // an ideal supply
  EXPECT_EQ(to_text(j).find("nan"), std::string::npos);
}

TEST(SizeJson, EqualHoses) {
  const SizeFile file = parse_size(bar_text, "bar.toml");
  const EqualHoses a = equal_hoses(file.layout, file.choices);
  const Json j = equal_hoses_to_json(a);
  EXPECT_EQ(j["hoses_have_to_be_equal"], a.have_to);
  ASSERT_EQ(j["points"].size(), 1U);
  EXPECT_TRUE(j["points"][0]["shortest_hoses_own_orifice"]["orifice_bore_m"].is_null());
  EXPECT_DOUBLE_EQ(j["points"][0]["equal_hoses_own_orifice"]["worst_deviation"].get<double>(),
                   a.points[0].equal.deviation);
}

TEST(WhatIfJson, ListsEveryFaultWithBothAnswers) {
  const WhatIf w = what_if(parse_layout(bar_text, "bar.toml"));
  const Json j = what_if_to_json(w);
  ASSERT_EQ(j["faults"].size(), w.answers.size());
  EXPECT_EQ(j["complete"], true);
  const Json& plugged = j["faults"][0];
  EXPECT_EQ(plugged["fault"], "row-plugged");
  EXPECT_EQ(plugged["total_held"]["noticed_at"], name_of(w.answers[0].total_held.notice));
  EXPECT_DOUBLE_EQ(plugged["setting_kept"]["row_change"].get<double>(), -1.0);
  EXPECT_EQ(plugged["total_held"]["rows"].size(), 4U);
  for (const Json& fault : j["faults"]) {
    if (fault["applies"] == false) {
      EXPECT_FALSE(fault["why_not"].get<std::string>().empty());
      EXPECT_EQ(fault["total_held"]["answered"], false);
    }
    if (fault["fault"] == "colder" && fault["applies"] == true) {
      EXPECT_TRUE(fault["total_held"]["row_change"].is_null());  // no row is at fault
    }
  }
}

}  // namespace layout_size_test
}  // namespace libflow
