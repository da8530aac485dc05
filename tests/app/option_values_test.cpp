// SPDX-License-Identifier: MIT
/// @file
/// Values of options: quantities without a number, days that there are not, lists that take the file's place.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>

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
                            "2026--1-26", "2026-02-30", "2026-13-01", "today"}) {
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

}  // namespace option_values_test
}  // namespace libflow
