// SPDX-License-Identifier: MIT
/// @file
/// Where one row's pressure goes and which inputs make it differ, in layouts that are rare: rows that are shut or dry,
/// a regulator in the line, single parts of their own.
#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace rare_explanations_test {

using namespace units;
using test::holds;
using test::one_line;
using test::says;

/// Rows of 6 mm hose on water, in metric.
static Layout bar_of(int rows) {
  Toolbar t = test::plain_bar(rows);
  t.hose_bore = 6.0 * mm;
  Layout layout{.name = "bar", .units = UnitSystem::metric, .job = test::plain_job(), .plumbing = t};
  return layout;
}
static Toolbar& bar_in(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }

/// The words of the line that begins so.
static std::string line_of(const std::string& text, const std::string& begin) {
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (one_line(line).starts_with(begin)) return one_line(line);
  }
  ADD_FAILURE() << "no line begins with " << begin << "\n" << text;
  return {};
}

// Hoses of 1, 2 and 3 m, the last row shut: the mean of the rows that run is 1.5 m, not 2.
TEST(RareExplanations, AShutRowIsNotInTheMeanOfAllRows) {
  Layout layout = bar_of(3);
  bar_in(layout).hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 2.0 * m, 3.0 * m}};
  bar_in(layout).row_changes = {{.row = 3, .shut = true}};
  const std::string text = explain_text(main_job(layout), 1);
  EXPECT_EQ(line_of(text, "hose [m]"), "hose [m] 1.00 1.50 -0.50");
}

// Row 1's valve needs more than the others' pressure: it stays shut, and the row is compared nevertheless.
TEST(RareExplanations, ARowThatGetsNothingSaysSo) {
  Layout layout = bar_of(4);
  bar_in(layout).check_valve = test::plain_valve();
  bar_in(layout).row_changes = {{.row = 1, .crack = 10.0 * bar}};
  layout.job.pressure = 200.0 * kPa;
  const Answer a = main_job(layout);
  ASSERT_EQ(a.evenness.rows.front().flow, 0.0);
  const std::string text = explain_text(a, 1);
  EXPECT_TRUE(text.starts_with("Row 1 gets nothing.\n")) << text;
  EXPECT_FALSE(holds(text, "nan")) << text;
  EXPECT_TRUE(says(text, "Against the mean of all rows")) << text;
  // The whole supply's pressure stands before its valve.
  EXPECT_TRUE(says(text, "is spent in row 1 check valve")) << text;
  // At a tenth of a bar none of the valves opens.
  layout.job.pressure = 10.0 * kPa;
  const std::string none = explain_text(main_job(layout), 2);
  EXPECT_TRUE(none.starts_with("Row 2 gets nothing.\n")) << none;
  EXPECT_FALSE(holds(none, "Against the mean")) << none;
  EXPECT_FALSE(holds(none, "nan")) << none;
}

// Its passage of 8 mm is 0.315 in.
TEST(RareExplanations, ARegulatorHasAnEquivalentBore) {
  Layout layout = test::driven_layout(test::full_drive(DriveControl::regulator));
  const std::string text = one_line(explain_text(main_job(layout), 1));
  EXPECT_TRUE(holds(text, "regulator (pressure regulator, equivalent bore 0.315 in)")) << text;
}

TEST(RareExplanations, AReliefValveInTheLineHasAnEquivalentBore) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("feed", 2.0 * bar);
  n.add_place("behind");
  n.add_part("sustain", "feed", "behind", ReliefValve{.set = 50.0 * kPa, .passage_bore = 6.0 * mm});
  for (int row = 1; row <= 2; ++row) {
    const std::string name = "row " + std::to_string(row);
    const auto air = n.add_air(name);
    const auto hole = n.add_part(name + " hole", "behind", name, Orifice{.bore = (1.0 + 0.1 * row) * mm});
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = 0.0,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {}});
  }
  const Answer a = main_job({.name = "free", .job = test::plain_job(), .plumbing = p});
  ASSERT_TRUE(a.solution.usable());
  const std::string text = one_line(explain_text(a, 2));
  EXPECT_TRUE(holds(text, "'sustain' (" + std::string(ReliefValve::kind) + ", equivalent bore ")) << text;
  EXPECT_TRUE(holds(text, "'row 2 hole' (orifice, bore ")) << text;
}

// Each row has one thing of its own; its value stands beside that of the others in the units that it is read in.
TEST(RareExplanations, InputsStandInTheUnitsOfTheirKind) {
  Layout layout = bar_of(4);
  Toolbar& t = bar_in(layout);
  t.check_valve = test::plain_valve();
  t.check_valve->crack = 20.0 * kPa;
  t.orifice = OrificeByBore{.bore = 1.0 * mm, .thickness = 2.0 * mm};
  t.row_changes = {{.row = 1, .crack = 30.0 * kPa},
                   {.row = 2, .hose_bore = 5.0 * mm},
                   {.row = 3, .orifice = OrificeByBore{.bore = 1.0 * mm, .thickness = 4.0 * mm}},
                   {.row = 4, .orifice = OrificeByBore{.bore = 1.1 * mm, .thickness = 2.0 * mm}}};
  const Answer a = main_job(layout);
  EXPECT_TRUE(line_of(explain_text(a, 1), "row 1 check valve, ").find(" 20.0 kPa 30.0 kPa -") != std::string::npos)
      << explain_text(a, 1);
  EXPECT_TRUE(holds(line_of(explain_text(a, 2), "row 2 hose, bore"), " 6.00 mm 5.00 mm -")) << explain_text(a, 2);
  EXPECT_TRUE(holds(line_of(explain_text(a, 3), "row 3 orifice, thickness"), " 2.00 mm 4.00 mm -"))
      << explain_text(a, 3);
  EXPECT_TRUE(holds(line_of(explain_text(a, 4), "row 4 orifice, bore"), " 1.00 mm 1.10 mm +")) << explain_text(a, 4);
}

// A row that is wider than the rest, on hoses that are alike. A bar that is fed ahead of its first port has one piece
// that counts; of one that is thin, and rows that are alike, the piece is all that counts.
TEST(RareExplanations, WhatElseCountsIsOneOrNothing) {
  Layout layout = bar_of(2);
  Toolbar& t = bar_in(layout);
  t.row_changes = {{.row = 1, .width = 0.9 * m}};
  t.manifolds.front().feed = ManifoldFeed::left;
  // The rates are as 1/0.9 and 1/0.762: row 1 is 2 * 0.762 / (0.9 + 0.762) - 1 = -8.3 % from their mean.
  const std::string one = explain_text(main_job(layout), 1);
  EXPECT_EQ(line_of(one, "row 1, width"), "row 1, width 0.76 m 0.90 m -8.3");
  EXPECT_EQ(line_of(one, "1 other"), "1 other 0.0");
  t.row_changes.clear();
  t.manifolds.front().bore = 2.0 * mm;
  const std::string none = explain_text(main_job(layout), 1);
  EXPECT_TRUE(line_of(none, "manifold 1, piece 2 of its bar, length")
                  .starts_with("manifold 1, piece 2 of its bar, length none 0.05 m +"));
  EXPECT_FALSE(says(none, " other")) << none;
}

// One row has an orifice and the others have none: there is no even bar to measure the single inputs from.
TEST(RareExplanations, PartsThatOthersLackAreNotToldApart) {
  Layout layout = bar_of(4);
  bar_in(layout).orifice.reset();
  bar_in(layout).row_changes = {{.row = 1, .orifice = OrificeByBore{.bore = 2.0 * mm}}};
  const std::string text = explain_text(main_job(layout), 1);
  EXPECT_TRUE(
      says(text, "Which single inputs make row 1 differ Not told apart here: rows differ in which parts they have"))
      << text;
}

}  // namespace rare_explanations_test
}  // namespace libflow
