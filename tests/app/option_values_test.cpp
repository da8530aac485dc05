// SPDX-License-Identifier: MIT
/// @file
/// Values of options: quantities without a number, days that there are not, lists that take the file's place.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace option_values_test {

using test::holds;
using test::Outcome;

class OptionValues : public test::App {};

// Quotes are asked for where the shell may have taken the unit away; of a word they are no advice.
TEST_F(OptionValues, OnlyANumberMayHaveLostItsUnit) {
  const Outcome lost = run({"point", example("equal_hoses.toml"), "--speed", "5"});
  expect_refused(lost, 2, "--speed");
  EXPECT_TRUE(holds(lost.err, "in quotes where it has a space")) << lost.err;
  for (const char* wrong : {"fast", "5 furlongs", ""}) {
    const Outcome word = run({"point", example("equal_hoses.toml"), "--speed", wrong});
    expect_refused(word, 2, "--speed");
    EXPECT_FALSE(holds(word.err, "in quotes where it has a space")) << word.err;
  }
}

TEST_F(OptionValues, ADayHasToBeOne) {
  for (const char* wrong : {"2026-11/26", "2026/11-26", "26-11-26", "2026-11-260", "2026-1x-26", "-026-11-26",
                            "2026--1-26", "2026-xx-26", "2026-02-30", "2026-13-01", "today"}) {
    expect_refused(run({"report", example("equal_hoses.toml"), "--date=" + std::string(wrong)}), 2, "is no date");
  }
  const Outcome leap = run({"report", example("equal_hoses.toml"), "--date", "2028-02-29"});
  EXPECT_TRUE(holds(leap.out, "2028-02-29")) << leap.err;
}

// Seconds since 1970 (reproducible-builds.org): the last day of the year 9999 is the end of what is a date; one that is
// empty is not set.
TEST_F(OptionValues, TheFixedTimeHasToBeSeconds) {
  const std::string layout = example("equal_hoses.toml");
  for (const char* wrong : {"-1", "12x", "1e9", "253402300800", "99999999999999999999"}) {
    expect_refused(run({"report", layout}, {.environment = "SOURCE_DATE_EPOCH=" + std::string(wrong)}), 2,
                   "SOURCE_DATE_EPOCH");
  }
  EXPECT_TRUE(holds(run({"report", layout}, {.environment = "SOURCE_DATE_EPOCH=253402300799"}).out, "9999-12-31"));
  const Outcome unset = run({"report", layout}, {.environment = "SOURCE_DATE_EPOCH="});
  EXPECT_EQ(unset.err, "");
  EXPECT_TRUE(holds(unset.out, "</html>"));
}

TEST_F(OptionValues, ListsTakeThePlaceOfTheFiles) {
  const std::string layout = example("equal_hoses.toml"), short_hoses = example("short_hoses.toml");
  const Outcome rates = run({"compare", layout, short_hoses, "--rates", "4 gal/ac, 5 gal/ac", "--json"});
  const auto compared = nlohmann::json::parse(rates.out, nullptr, false);
  ASSERT_FALSE(compared.is_discarded()) << rates.err;
  EXPECT_EQ(compared.at("layouts").at(0).at("points").size(), 2U) << "two rates at the first layout's speed";
  const Outcome cold = run({"size", example("sizing.toml"), "--temperatures", "35 F", "--json"});
  const auto sized = nlohmann::json::parse(cold.out, nullptr, false);
  ASSERT_FALSE(sized.is_discarded()) << cold.err;
  std::size_t points = 0;
  for (const auto& point : sized.at("operating_points")) {
    EXPECT_NEAR(point.at("temperature_K").get<double>(), (35.0 - 32.0) / 1.8 + 273.15, 1e-9);
    ++points;
  }
  EXPECT_GT(points, 0U);
}

TEST_F(OptionValues, AGridHasTwoToFourHundredPointsEitherWay) {
  const std::string layout = example("equal_hoses.toml");
  for (const char* wrong : {"401x20", "20x401", "1x20", "20x1", "20", "x20", "20x", "20x20x20", "-2x20", "12345x20"}) {
    expect_refused(run({"envelope", layout, "--grid=" + std::string(wrong)}), 2, "2x2 to 400x400");
  }
  const Outcome least = run({"envelope", layout, "--grid", "2x3", "--json"});
  const auto grid = nlohmann::json::parse(least.out, nullptr, false);
  ASSERT_FALSE(grid.is_discarded()) << least.err;
  EXPECT_EQ(grid.at("points").size(), 6U);
}

// A picture that is asked for by name is one, whatever the file is called; two formats at once are refused.
TEST_F(OptionValues, APictureIsAskedForByNameOrByTheFilesEnd) {
  const std::string layout = example("equal_hoses.toml");
  const std::string picture = run({"envelope", layout, "--grid", "4x3", "--svg"}).out;
  EXPECT_TRUE(picture.starts_with("<svg ")) << picture.substr(0, 100);
  for (const char* name : {"map.svg", "map.csv", "map.json", "map"}) {
    std::vector<std::string> command{"envelope", layout, "--grid", "4x3", "-o", name};
    if (name != std::string("map.svg")) command.emplace_back("--svg");
    EXPECT_EQ(run(command).code, 0) << name;
    EXPECT_EQ(test::content(folder_ / "work" / name), picture) << name;
  }
  for (const char* other : {"--json", "--csv"}) {
    const Outcome r = run({"envelope", layout, "--svg", other});
    EXPECT_EQ(r.code, 2);
    EXPECT_TRUE(holds(r.err, "--svg: another format is asked for too")) << r.err;
  }
}

// [range] may name rates only: then over those, at the job's speed.
TEST_F(OptionValues, ARangeMayBeOfRatesOnly) {
  const std::string layout =
      changed("[toolbar]", "[range]\nrates = [\"4 gal/ac\", \"5 gal/ac\", \"6 gal/ac\"]\n[toolbar]");
  const Outcome r = run({"compare", layout, example("short_hoses.toml"), "--range", "--json"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto compared = nlohmann::json::parse(r.out, nullptr, false);
  ASSERT_FALSE(compared.is_discarded()) << r.err;
  EXPECT_EQ(compared.at("layouts").at(0).at("points").size(), 3U);
  EXPECT_EQ(run({"compare", example("equal_hoses.toml"), layout, "--range"}).code, 2) << "the first file has none";
}

}  // namespace option_values_test
}  // namespace libflow
