// SPDX-License-Identifier: MIT
/// @file
/// The account of one row's pressure: what falls through air is not a loss of the line.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/path.hpp>
#include <libflow/toolbar.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace explain_text_test {

using namespace units;

/// Two rows with a 1 mm orifice and a vented half-inch tube that hangs down.
Layout explained_layout(Length fall) {
  Layout layout;
  layout.job = test::plain_job();
  layout.job.pressure = 20.0 * kPa;
  Toolbar t = test::plain_bar(2);
  t.outlet_bore = 12.7 * mm;
  t.outlet_fall = fall;
  t.outlet_vented = si(fall) > 0.0;
  layout.plumbing = t;
  return layout;
}

TEST(ExplainText, HeightThatIsNotUsedHasItsOwnLine) {
  const Answer answer = main_job(explained_layout(0.6 * m));
  const RowPath path = path_to_row(answer, 1);
  ASSERT_FALSE(path.steps.empty());
  const PathStep& tube = path.steps.back();
  EXPECT_NEAR(tube.unused_fall / (answer.liquid.density * standard_gravity * 0.6), 1.0, 1e-3);
  EXPECT_LT(std::abs(tube.loss), 0.05 * tube.unused_fall);
  for (const PathStep& s : path.steps) {
    EXPECT_NEAR(s.before - s.after, s.loss + s.unused_fall + s.lift, 1e-6 * 20e3);
  }
  EXPECT_NE(explain_text(answer, 1).find("height not used (falls through air)"), std::string::npos);
}

TEST(ExplainText, WithoutATubeNothingIsSaidOfHeight) {
  EXPECT_EQ(explain_text(main_job(explained_layout(0.0 * m)), 1).find("height not used"), std::string::npos);
}

// A bar of 0.3 in loses enough for row 1 to differ by it, piece by piece.
TEST(ExplainText, PiecesOfABarAreNamedByTheBar) {
  Layout layout = read_layout(std::string(LIBFLOW_EXAMPLES) + "/equal_hoses.toml");
  Manifold& bar = std::get<Toolbar>(layout.plumbing).manifolds.front();
  bar.bore = 0.3 * inch;
  const Answer answer = main_job(layout);
  const std::string text = explain_text(answer, 1);
  EXPECT_NE(text.find(" manifold 1, piece 7 of its bar, length"), std::string::npos) << text;
  EXPECT_EQ(text.find("manifold 1 bar 7"), std::string::npos) << "our own name of the part\n" << text;
  bar.id = "left";
  EXPECT_NE(explain_text(main_job(layout), 1).find(" manifold 'left', piece 7 of its bar, length"), std::string::npos);
}

TEST(ExplainText, AFigureWithoutAUnitStandsAlone) {
  Layout layout;
  layout.job = test::plain_job();
  Toolbar t = test::plain_bar(2);
  t.orifice = OrificeByBore{.bore = 1.0 * mm, .discharge_coefficient = 0.60};
  t.row_changes = {{.row = 1, .orifice = OrificeByBore{.bore = 1.0 * mm, .discharge_coefficient = 0.70}}};
  layout.plumbing = t;
  const std::string text = explain_text(main_job(layout), 1);
  const std::size_t at = text.find(" row 1 orifice, discharge coefficient ");
  ASSERT_NE(at, std::string::npos) << text;
  const std::string line = text.substr(at, text.find('\n', at) - at);
  EXPECT_NE(line.find(" 0.600  0.700  "), std::string::npos) << line;
}

// Sixty rows, of which one has a hose of 23 ft instead of 22: it moves the mean by some 0.04 %, and row 30 no more.
TEST(ExplainText, WhereNoSingleInputCountsThatIsSaid) {
  Layout layout = read_layout(std::string(LIBFLOW_EXAMPLES) + "/equal_hoses.toml");
  Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  bar.rows = 60;
  bar.manifolds.front().bore = 2.0 * inch;
  bar.row_changes = {{.row = 1, .hose_length = 23.0 * ft}};
  const std::string text = explain_text(main_job(layout), 30);
  EXPECT_NE(text.find("Which single inputs make row 30 differ\n None: no single input moves this row by 0.05 % of the "
                      "mean.\n"),
            std::string::npos)
      << text;
}

/// What the longest step of the way takes of all that is spent, on friction and on height.
double largest_share(const RowPath& path) {
  double largest = 0.0, spent = 0.0;
  for (const PathStep& s : path.steps) {
    spent += std::fmax(0.0, s.loss) + std::fmax(0.0, s.lift);
    largest = std::fmax(largest, s.loss);
  }
  return largest / spent;
}

// Hose, check valve and orifice take about a third each: none of them takes most.
TEST(ExplainText, ALargestPartBelowHalfIsNotMost) {
  Toolbar t = test::plain_bar(2);
  t.hose_bore = 3.2 * mm;
  t.orifice = OrificeByBore{.bore = 2.0 * mm};
  t.check_valve = test::plain_valve();
  Layout layout{.name = "thirds", .job = test::plain_job(), .plumbing = t};
  const auto said = [&] {
    const Answer answer = main_job(layout);
    return std::pair{largest_share(path_to_row(answer, 1)), explain_text(answer, 1)};
  };
  const auto [thirds, largest] = said();
  ASSERT_LT(thirds, 0.5);
  EXPECT_TRUE(test::holds(largest, "The largest part is spent in ")) << largest;
  t.orifice = OrificeByBore{.bore = 1.2 * mm};
  layout.plumbing = t;
  const auto [much, most] = said();
  ASSERT_GT(much, 0.5);
  ASSERT_LT(much, 0.995);
  EXPECT_TRUE(test::holds(most, "Most is spent in ")) << most;
}

// 1 kPa does not lift the liquid by 1 m, 9.8 kPa, and check valves keep it from running back: nothing is spent
// anywhere.
TEST(ExplainText, WhereNothingIsSpentNothingIsNamed) {
  Toolbar t = test::plain_bar(2);
  t.manifolds[0].height = -1.0 * m;
  t.check_valve = test::plain_valve();
  Layout layout{.name = "too high", .job = test::plain_job(), .plumbing = t};
  layout.job.pressure = 1.0 * kPa;
  const std::string text = explain_text(main_job(layout), 1);
  EXPECT_TRUE(test::holds(text, "Row 1 gets nothing.")) << text;
  EXPECT_FALSE(test::holds(text, "is spent in")) << text;
  EXPECT_FALSE(test::holds(text, "nan")) << text;
}

// One orifice of 40 is 0.25 % wider: its row gets 0.5 % more, and the spread of all is 0.5 % / sqrt(40), below 0.1 %.
TEST(ExplainText, ARowThatIsOffIsExplainedWhereTheSpreadOfAllIsSmall) {
  Toolbar t = test::plain_bar(40);
  t.manifolds[0].bore = 0.4 * m;
  t.row_changes = {{.row = 7, .orifice = OrificeByBore{.bore = 1.0025 * mm}}};
  const Answer answer = main_job({.name = "long bar", .job = test::plain_job(), .plumbing = t});
  ASSERT_LT(answer.evenness.cv, 1e-3);
  ASSERT_GT(answer.evenness.rows[6].deviation, 4e-3);
  const std::string off = explain_text(answer, 7), other = explain_text(answer, 8);
  EXPECT_FALSE(test::says(off, "nothing that matters")) << off;
  EXPECT_TRUE(test::says(off, "row 7 orifice, bore")) << off;
  EXPECT_TRUE(test::says(other, "Why it is off: nothing that matters")) << other;
}

// A part that is called after its kind, and has neither length nor bore, is named once and no more.
TEST(ExplainText, APartThatIsCalledAfterItsKindIsNamedOnce) {
  const auto said = [](const std::string& name) {
    Plumbing p;
    Network& n = p.network;
    p.supply = n.add_supply("tank", 2.0 * kPa);
    const auto behind = n.add_place("behind"), air = n.add_air("row 1");
    n.add_part(name, "tank", "behind", CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 60.0 * L_per_min});
    RowPlumbing row;
    row.row = 1;
    row.width = 0.762;
    row.airs = {air};
    row.orifices = row.last_parts = {n.add_part("hole", behind, air, Part(Orifice{.bore = 1.0 * mm}, "hole"))};
    p.rows = {row};
    return explain_text(main_job({.name = "pumped", .job = test::plain_job(), .plumbing = p}), 1);
  };
  EXPECT_TRUE(test::holds(said("P1"), "'P1' (centrifugal pump)")) << said("P1");
  const std::string text = said("centrifugal pump");
  EXPECT_TRUE(test::holds(text, "centrifugal pump")) << text;
  EXPECT_FALSE(test::holds(text, "(centrifugal pump") || test::holds(text, "()")) << text;
}

}  // namespace explain_text_test
}  // namespace libflow
