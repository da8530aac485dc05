// SPDX-License-Identifier: MIT
/// @file
/// The account of one row's pressure: what falls through air is not a loss of the line.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/path.hpp>
#include <libflow/toolbar.hpp>
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

}  // namespace explain_text_test
}  // namespace libflow
