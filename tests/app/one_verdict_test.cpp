// SPDX-License-Identifier: MIT
/// @file
/// The program: one verdict in every command, and nobody is misled by a limit or an orifice that nobody meant.
#include <filesystem>
#include <regex>
#include <string>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace one_verdict_test {

class OneVerdict : public test::App {
 protected:
  using Outcome = test::Outcome;
  static std::string flat(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }
  static bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
};

TEST_F(OneVerdict, WithoutALimitEveryCommandKeepsTheSameAssumption) {
  const std::string easy = changed("pump_limit = \"60 psi\"\n", "");
  for (const char* command : {"solve", "point", "envelope", "card"}) {
    const Outcome r = run({command, easy});
    EXPECT_EQ(r.code, 0) << command << r.err;
    EXPECT_TRUE(holds(flat(r.out), "No limit of the pressure is given: 60 psi (414 kPa) at the gauge is assumed"))
        << command << "\n"
        << r.out;
    EXPECT_TRUE(holds(flat(r.out), "pump_limit = \"60 psi\"")) << command;
  }
  // 20 gal/ac need some three hundred psi.
  const std::string hard = file(
      "hard.toml", std::regex_replace(test::content(easy), std::regex("rate = \"5 gal/ac\""), "rate = \"20 gal/ac\""));
  const Outcome solved = run({"solve", hard}), point = run({"point", hard});
  EXPECT_EQ(solved.code, 1) << solved.out;
  EXPECT_TRUE(holds(flat(solved.out), "more than the 60 psi (414 kPa) that are assumed")) << solved.out;
  EXPECT_EQ(point.code, 1) << point.out;
  EXPECT_TRUE(point.out.starts_with("NOT REACHED: 60.00 psi at the gauge gives")) << point.out;
  EXPECT_TRUE(holds(run({"envelope", hard}).out, "pressure limit"));
  EXPECT_TRUE(holds(flat(run({"equal", hard}).out), "60")) << "the limit of equal is the same";
  const Outcome report = run({"report", hard, "-q"});
  EXPECT_EQ(report.code, 1);
  EXPECT_TRUE(holds(report.out, "<div class=\"verdict bad\">"));
}

TEST_F(OneVerdict, TheStarterStatesItsLimit) {
  ASSERT_EQ(run({"new", "--rows", "8", "--spacing", "30 in", "--product", "28-0-0", "--temperature", "50 F", "--rate",
                 "10 gal/ac", "--speed", "5 mph", "-o", (folder_ / "start.toml").string()})
                .code,
            0);
  const std::string text = test::content(folder_ / "start.toml");
  EXPECT_TRUE(holds(text, "\npump_limit = \"60 psi\"")) << text;
  EXPECT_TRUE(holds(text, "common practice, no source")) << text;
  const Outcome r = run({"solve", (folder_ / "start.toml").string()});
  EXPECT_FALSE(holds(r.out, "No limit of the pressure is given")) << r.out;
}

TEST_F(OneVerdict, AnOrificeTypedTenTimesTooWideIsNotGood) {
  const Outcome r = run({"solve", changed("bore = \"0.046 in\"", "bore = \"0.46 in\"")});
  EXPECT_TRUE(r.out.starts_with("EVEN, not sure: ")) << r.out;
  EXPECT_TRUE(holds(flat(r.out), "Nearest: 0.046 in (1.17 mm)")) << r.out;
  EXPECT_TRUE(holds(run({"report", changed("bore = \"0.046 in\"", "bore = \"0.46 in\""), "-q"}).out,
                    "<div class=\"verdict unsure\">"));
}

TEST_F(OneVerdict, AsBuiltStandsBelowTheVerdict) {
  const Outcome with = run({"solve", example("as_built.toml")}), without = run({"solve", example("equal_hoses.toml")});
  EXPECT_TRUE(std::regex_search(flat(with.out), std::regex("AS BUILT, with its tolerances: about 9[5-9] % of such")))
      << with.out;
  EXPECT_TRUE(holds(flat(without.out), "real parts vary: 'libflow tolerance' says")) << without.out;
  EXPECT_TRUE(holds(run({"report", example("as_built.toml"), "-q"}).out, "AS BUILT, with its tolerances"));
}

TEST_F(OneVerdict, TheMapOfThePageIsThatOfTheCommand) {
  // 25 speeds by 17 rates in both: the page draws as many cells as the picture.
  const std::string page = run({"report", example("short_hoses.toml"), "-q"}).out;
  ASSERT_EQ(run({"envelope", example("short_hoses.toml"), "-o", (folder_ / "map.svg").string()}).code, 0);
  const std::string picture = test::content(folder_ / "map.svg");
  const auto usable = [](const std::string& text) {
    const std::size_t begin =
        text.find("<svg", text.find("id=\"range\"") == std::string::npos ? 0 : text.find("id=\"range\""));
    const std::string svg = text.substr(begin, text.find("</svg>", begin) - begin);
    std::size_t cells = 0;
    for (std::size_t at = svg.find("<rect"); at != std::string::npos; at = svg.find("<rect", at + 1)) ++cells;
    return cells;
  };
  EXPECT_GT(usable(picture), 0U);
  EXPECT_EQ(usable(page), usable(picture));
}

}  // namespace one_verdict_test
}  // namespace libflow
