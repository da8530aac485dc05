// SPDX-License-Identifier: MIT
/// @file
/// Rows of a layout given place by place: two outlets that say the same, gauges, soil, parts that name their row.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <variant>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace free_form_rows_test {

/// One row with two outlets, `left` and `right`, from one supply; more keys for each of them, and more entries.
static std::string two_outlets(const std::string& left, const std::string& right, const std::string& places = "",
                               const std::string& parts = "") {
  return R"(name = "one row, two outlets"
place = [
  { id = "pump", kind = "supply", pressure = "20 psi" },
  { id = "fork", kind = "junction" },
  { id = "left", kind = "air", row = 1, )" +
         left + R"( },
  { id = "right", kind = "air", row = 1)" +
         right + " },\n" + places + R"(]
part = [
  { id = "line", kind = "hose", from = "pump", to = "fork", length = "10 ft", bore = "3/8 in" },
  { id = "left tube", kind = "hose", from = "fork", to = "left", length = "2 ft", bore = "1/4 in" },
  { id = "right tube", kind = "hose", from = "fork", to = "right", length = "4 ft", bore = "1/4 in" },
)" + parts +
         R"(]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
}
static Plumbing read(const std::string& text) { return std::get<Plumbing>(parse_layout(text, "row.toml").plumbing); }

// What is said twice and is the same is no contradiction; the row has the mean length of its two tubes, 3 ft.
TEST(FreeFormRows, TwoOutletsMaySayTheSame) {
  const Plumbing p = read(two_outlets("width = \"30 in\", x = \"-2 ft\"", ", width = \"30 in\", x = \"-2 ft\""));
  ASSERT_EQ(p.rows.size(), 1U);
  EXPECT_NEAR(p.rows[0].width, 30.0 * 0.0254, 1e-12);
  EXPECT_NEAR(p.rows[0].x, -2.0 * 0.3048, 1e-12);
  EXPECT_NEAR(p.rows[0].hose_length, 3.0 * 0.3048, 1e-12);
  EXPECT_EQ(p.rows[0].airs.size(), 2U);
  EXPECT_EQ(p.rows[0].hoses.size(), 2U) << "the line is of both";
}

// A part that names its row counts once, whether the way back from an outlet meets it or not.
TEST(FreeFormRows, APartThatNamesItsRowCountsOnce) {
  std::string text = two_outlets("width = \"30 in\"", "");
  const auto tag = [&](const std::string& id) {
    const std::string begin = "{ id = \"" + id + "\", kind = \"hose\",";
    text.replace(text.find(begin), begin.size(), begin + " row = 1,");
  };
  tag("left tube");
  const Plumbing met = read(text);
  EXPECT_EQ(met.rows[0].hoses.size(), 2U);
  EXPECT_NEAR(met.rows[0].hose_length, 3.0 * 0.3048, 1e-12);
  tag("line");
  const Plumbing named = read(text);
  EXPECT_EQ(named.rows[0].hoses.size(), 3U);
  EXPECT_NEAR(named.rows[0].hose_length, 13.0 * 0.3048, 1e-12);
}

/// One row behind three hoses of 2, 3 and 10 ft; `middle` says between which of `a` and `b` the second one is drawn.
static std::string three_hoses(const std::string& middle) {
  return R"(place = [
  { id = "pump", kind = "supply", pressure = "20 psi" },
  { id = "a", kind = "junction" },
  { id = "b", kind = "junction" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
  { id = "tube", kind = "hose", from = "b", to = "row 1", length = "2 ft", bore = "1/4 in" },
  { id = "middle", kind = "hose", )" +
         middle + R"(, length = "3 ft", bore = "1/4 in" },
  { id = "line", kind = "hose", from = "pump", to = "a", length = "10 ft", bore = "3/8 in" },
]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
}

// In which order parts are listed, and from which end a hose is drawn, changes no row.
TEST(FreeFormRows, APartMayBeDrawnAgainstTheFlow) {
  const Layout along = parse_layout(three_hoses("from = \"a\", to = \"b\""), "row.toml");
  const Layout against = parse_layout(three_hoses("from = \"b\", to = \"a\""), "row.toml");
  const Plumbing& p = std::get<Plumbing>(against.plumbing);
  EXPECT_EQ(p.rows[0].hoses.size(), 3U);
  EXPECT_NEAR(p.rows[0].hose_length, 15.0 * 0.3048, 1e-12);
  const Answer there = main_job(along), back = main_job(against);
  ASSERT_TRUE(there.solution.usable() && back.solution.usable());
  const double flow = there.evenness.rows.at(0).flow;
  EXPECT_GT(flow, 0.0);
  EXPECT_NEAR(back.evenness.rows.at(0).flow, flow, 1e-9 * flow);
  EXPECT_NEAR(back.evenness.rows.at(0).line_drop, there.evenness.rows.at(0).line_drop, 1e-3);
  EXPECT_NEAR(back.solution.parts.at(1).flow, -flow, 1e-9 * flow);
}

// The pressure of the soil at an outlet is not what feeds the bar, even where it is listed first.
TEST(FreeFormRows, SoilFeedsNothing) {
  const std::string soil = "{ id = \"slot\", kind = \"soil\", row = 1, width = \"30 in\", depth = \"2 in\" }";
  const auto with = [&](const std::string& other) {
    return "place = [" + soil + ", " + other + R"(]
part = [{ id = "tube", kind = "hose", from = "pump", to = "slot", length = "2 ft", bore = "1/4 in" }]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
  };
  const Plumbing p = read(with("{ id = \"pump\", kind = \"supply\", pressure = \"20 psi\" }"));
  EXPECT_EQ(p.network.place(p.supply).id, "pump");
  test::expect_message([&] { (void)read(with("{ id = \"pump\", kind = \"junction\" }")); },
                       "nothing feeds the plumbing");
}

TEST(FreeFormRows, OneGaugeAndNoFlowOutOfTheSoil) {
  const auto refused = [](const std::string& text, const std::string& words) {
    test::expect_message([&] { (void)read(text); }, words);
  };
  const std::string other = "  { id = \"other\", kind = \"supply\", pressure = \"20 psi\", gauge = true },\n";
  const std::string to_fork =
      R"(  { id = "tie", kind = "hose", from = "other", to = "fork", length = "2 ft", bore = "1/4 in" },
)";
  EXPECT_EQ(read(two_outlets("width = \"30 in\"", "", other, to_fork)).supply, 4U) << "the gauge's, not the first";
  std::string twice = two_outlets("width = \"30 in\"", "", other, to_fork);
  twice.replace(twice.find("\"20 psi\""), 8, "\"20 psi\", gauge = true");
  refused(twice, "the pressure is read at two places; allowed: one place with gauge = true");
  const std::string soil = "  { id = \"slot\", kind = \"soil\", row = 1, depth = \"2 in\" },\n";
  refused(two_outlets("width = \"30 in\"", "", soil,
                      "  { id = \"up\", kind = \"hose\", from = \"slot\", to = \"fork\", length = \"2 ft\", bore = "
                      "\"1/4 in\" },\n"),
          "'slot' is in the soil: liquid leaves there");
  refused(two_outlets("width = \"30 in\"", "", "  { id = \"loose\", kind = \"air\", row = 1 },\n"),
          "0 parts lead to 'loose'; allowed: exactly one part to each air place of a row");
}

}  // namespace free_form_rows_test
}  // namespace libflow
