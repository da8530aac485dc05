// SPDX-License-Identifier: MIT
/// @file
/// What a script is told: 0 only where the rows are even and the wanted rate is given; 1 where one of the two is not.

#include <regex>
#include <string>

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace exit_code_test {

using test::holds;
using test::Outcome;

/// The demo of equal hoses needs 39 psi; this one has 20.
class ExitCode : public test::App {
 protected:
  [[nodiscard]] std::string weak() const { return changed("pump_limit = \"60 psi\"", "pump_limit = \"20 psi\""); }
};

TEST_F(ExitCode, IsOneWhereTheRateIsNotReached) {
  const std::string layout = weak();
  const Outcome solved = run({"solve", layout});
  EXPECT_EQ(solved.code, 1) << solved.err;
  EXPECT_TRUE(solved.out.starts_with("NOT REACHED: the rate needs ")) << solved.out;
  EXPECT_TRUE(holds(solved.out.substr(0, 600), "would be EVEN: ")) << solved.out;
  EXPECT_EQ(run({"solve", layout, "--json"}).code, 1);
  EXPECT_EQ(run({"point", layout}).code, 1);
  EXPECT_EQ(run({"explain", layout, "3"}).code, 1);
  EXPECT_EQ(run({"report", layout}).code, 1);
  // The same bar with enough pressure.
  const std::string strong = example("equal_hoses.toml");
  for (const char* command : {"solve", "point", "report"}) EXPECT_EQ(run({command, strong}).code, 0) << command;
  EXPECT_EQ(run({"explain", strong, "3"}).code, 0);
}

TEST_F(ExitCode, IsOneWhereAHeldPressureGivesAnotherRate) {
  const std::string layout = changed("[job]\n", "[job]\npressure = \"20 psi\"\n");
  const Outcome solved = run({"solve", layout});
  EXPECT_EQ(solved.code, 1) << solved.err;
  EXPECT_TRUE(solved.out.starts_with("NOT THE WANTED RATE: what the layout holds, ")) << solved.out;
  const Outcome json = run({"solve", layout, "--json"});
  EXPECT_EQ(json.code, 1);
  EXPECT_EQ(nlohmann::json::parse(json.out)["evenness"]["rate_reached"], false);
}

TEST_F(ExitCode, OfAPumpAtTheEndOfItsRangeIsOne) {
  std::string text = test::content(example("pump_and_tank_bar.toml"));
  const std::size_t at = text.find("rate = \"5 gal/ac\"");
  ASSERT_NE(at, std::string::npos);
  const std::string layout = file("thirsty.toml", text.replace(at, 17, "rate = \"60 gal/ac\""));
  const Outcome r = run({"solve", layout, "--json"});
  EXPECT_EQ(r.code, 1) << r.err;
  bool said = false;
  const auto json = nlohmann::json::parse(r.out);
  for (const auto& c : json["cautions"]) said = said || c["code"] == "rate-not-reached";
  EXPECT_TRUE(said);
}

TEST_F(ExitCode, OfPointIsOneWhereTheRowsAreNotEven) {
  const Outcome r = run({"point", example("short_hoses.toml")});
  EXPECT_EQ(r.code, 1) << r.err;
  EXPECT_TRUE(holds(r.out, "NOT EVEN")) << r.out;
}

TEST_F(ExitCode, OfAReportWithCupsIsTheirVerdict) {
  const std::string layout = example("equal_hoses.toml");  // even as computed
  EXPECT_EQ(run({"report", layout}).code, 0);
  EXPECT_EQ(run({"report", layout, "--catch", example("catch_day.csv"), "--gauge", "39 psi"}).code, 1);
  // Cups that are right outweigh a layout that cannot reach its rate at all.
  std::string cups = "row, volume [ml]\n";
  for (int row = 1; row <= 16; ++row) cups += fmt::format("{}, 239\n", row);
  const std::string weak_layout = weak(), right = file("right.csv", cups);
  EXPECT_EQ(run({"report", weak_layout}).code, 1);
  EXPECT_EQ(run({"report", weak_layout, "--catch", right, "--gauge", "39 psi"}).code, 0);
}

// Even rows of a bar that gives 40 % less than it should are no good catch.
TEST_F(ExitCode, OfACatchIsOneWhereTheWholeBarIsLow) {
  const auto cups = [](double millilitres) {
    std::string text = "row, volume [ml]\n";
    for (int row = 1; row <= 16; ++row) text += fmt::format("{}, {}\n", row, millilitres);
    return text;
  };
  const std::string layout = example("equal_hoses.toml");
  EXPECT_EQ(run({"catch", layout, file("right.csv", cups(239.0)), "--gauge", "39 psi"}).code, 0);
  const Outcome low = run({"catch", layout, file("low.csv", cups(143.0)), "--gauge", "39 psi"});
  EXPECT_EQ(low.code, 1) << low.out;
  EXPECT_TRUE(holds(low.out, "THE WHOLE BAR IS LOW")) << low.out;
}

TEST_F(ExitCode, OfSeveralInAReportIsZeroWhereOneIsGood) {
  EXPECT_EQ(run({"report", example("equal_hoses.toml"), example("short_hoses.toml")}).code, 0);
  EXPECT_EQ(run({"report", weak(), example("short_hoses.toml")}).code, 1);
}

TEST_F(ExitCode, CompareSaysFirstThatTheRateIsNotReached) {
  const Outcome r = run({"compare", weak(), example("short_hoses.toml")});
  EXPECT_EQ(r.code, 0) << r.err;  // all solved
  EXPECT_TRUE(r.out.starts_with("RATE NOT REACHED: A, 'North bar, all hoses 22 ft', cannot give 5.00 gal/ac: "))
      << r.out;
  EXPECT_TRUE(holds(r.out, "compared at that rate nevertheless")) << r.out;
  EXPECT_TRUE(std::regex_search(r.out, std::regex("Wanted rate +NOT REACHED +reached"))) << r.out;
  const Outcome good = run({"compare", example("equal_hoses.toml"), example("short_hoses.toml")});
  EXPECT_TRUE(good.out.starts_with("'North bar, all hoses 22 ft' is evener")) << good.out;
  EXPECT_FALSE(holds(good.out, "Wanted rate")) << good.out;
}

TEST_F(ExitCode, IsExplainedInTheHelp) {
  for (const char* command : {"solve", "point", "explain", "report"}) {
    const std::string help = run({command, "--help"}).out;
    EXPECT_TRUE(holds(help, "Exit code: 0")) << help;
    EXPECT_TRUE(holds(help, "rate is")) << help;
  }
  EXPECT_TRUE(holds(run({"--help"}).out, "Exit code: 0 even and the wanted rate is given"));
}

}  // namespace exit_code_test
}  // namespace libflow
