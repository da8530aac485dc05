// SPDX-License-Identifier: MIT
/// @file
/// The layout file as built: read back, it is the calibrated layout.

#include <cmath>
#include <cstddef>
#include <filesystem>
#include <regex>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/calibrated_layout.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/study/catch_causes.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace calibrated_layout_test {

std::string example_text(const std::string& name) {
  return read_text_file(std::filesystem::path(LIBFLOW_EXAMPLES) / name);
}

/// Reads the text back and expects the rows' flows of `calibrated`, to the millionth that eight digits promise.
void expect_same_rows(const std::string& text, const Layout& calibrated) {
  const Layout back = parse_layout(text, "as_built.toml");
  EXPECT_EQ(back.name, calibrated.name + ", as built");
  const Answer a = main_job(back), b = main_job(calibrated);
  ASSERT_EQ(a.evenness.rows.size(), b.evenness.rows.size());
  for (std::size_t i = 0; i < a.evenness.rows.size(); ++i) {
    EXPECT_NEAR(a.evenness.rows[i].flow, b.evenness.rows[i].flow, 1e-6 * b.evenness.rows[i].flow) << text;
  }
}

TEST(CalibratedLayout, ReadsBackAsWhatWasFound) {
  using Of = CatchCauseKind;
  const std::string text = example_text("short_hoses.toml");
  const Layout layout = parse_layout(text, "short_hoses.toml");
  const std::vector<CatchCause> each{
      {Of::orifice, 5, 0, 0, 0.9},     {Of::other_orifice, 5, 0, 0, 0.00132}, {Of::hose_length, 3, 0, 0, 1.25},
      {Of::hose_bore, 3, 0, 0, 0.93},  {Of::check_valve, 16, 0, 0, 12e3},     {Of::hoses_swapped, 2, 7, 0, 1.0},
      {Of::side_slope, 0, 0, 0, 0.03}, {Of::bar_bore, 0, 0, 0, 0.6},          {Of::feed_place, 0, 0, 0, 1.0},
      {Of::density, 0, 0, 0, 1.03},    {Of::viscosity, 0, 0, 0, 1.4}};
  for (const CatchCause& c : each) {
    const Layout calibrated = with_cause(layout, c);
    expect_same_rows(calibrated_layout_text(text, "short_hoses.toml", layout, calibrated), calibrated);
  }
  const Layout all = with_causes(layout, {each[0], each[2], each[4], each[5], each[6], each[9], each[10]});
  const std::string written = calibrated_layout_text(text, "short_hoses.toml", layout, all, {"why", "and why"});
  EXPECT_EQ(written.rfind("# why\n# and why\n", 0), 0U) << written;
  // A person reads these figures: in the layout's units, and no longer than eight digits.
  EXPECT_NE(written.find(" psi'"), std::string::npos) << written;
  EXPECT_FALSE(std::regex_search(written, std::regex("[0-9.]{13}"))) << written;
  expect_same_rows(written, all);
}

TEST(CalibratedLayout, KeepsDriveTolerancesAndEarlierRowChanges) {
  for (const char* name : {"pump_and_tank_bar.toml", "as_built.toml", "sizing.toml"}) {
    std::string text = example_text(name);
    text += "\n[[row]]\nnumber = 2\nhose_length = \"9 ft\"\n";
    const Layout layout = parse_layout(text, name);
    const Layout calibrated =
        with_causes(layout, {{CatchCauseKind::orifice, 2, 0, 0, 0.95}, {CatchCauseKind::hose_bore, 4, 0, 0, 0.95}});
    const std::string written = calibrated_layout_text(text, name, layout, calibrated);
    expect_same_rows(written, calibrated);
    const Layout back = parse_layout(written, name);
    EXPECT_EQ(back.tolerances.size(), layout.tolerances.size()) << name;
    EXPECT_EQ(std::get<Toolbar>(back.plumbing).drive.has_value(), std::get<Toolbar>(layout.plumbing).drive.has_value());
  }
}

// Long holes with a coefficient of their own, a row that has its own hole already, a file with [product], a name that
// is as long as names may be.
TEST(CalibratedLayout, KeepsWhatAnOrificeIsBesideItsBore) {
  using Of = CatchCauseKind;
  std::string text = example_text("equal_hoses.toml");
  const auto put = [&](const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    ASSERT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
  };
  put("[orifice]\n", "[orifice]\nthickness = \"0.1 in\"\ncoefficient = 0.8\n");
  put("North bar, all hoses 22 ft", std::string(195, 'n'));
  text +=
      "\n[product]\ndensity = [[\"40 F\", \"11.7 lb/gal\"]]\n[[row]]\nnumber = 2\norifice = { bore = \"0.05 in\" }\n";
  const Layout layout = parse_layout(text, "long.toml");
  const Layout calibrated =
      with_causes(layout, {{Of::orifice, 2, 0, 0, 0.9}, {Of::orifice, 5, 0, 0, 0.9}, {Of::density, 0, 0, 0, 1.02}});
  const Layout back = parse_layout(calibrated_layout_text(text, "long.toml", layout, calibrated), "as_built.toml");
  EXPECT_EQ(back.name, layout.name) << "with ', as built' it would be longer than a name may be";
  std::vector<OrificeByBore> holes;
  for (const int row : {2, 5}) {
    for (const RowChange& c : std::get<Toolbar>(back.plumbing).row_changes) {
      if (c.row == row && c.orifice) holes.push_back(std::get<OrificeByBore>(*c.orifice));
    }
  }
  ASSERT_EQ(holes.size(), 2U);
  EXPECT_NEAR(si(holes[0].bore), 0.9 * 0.05 * 0.0254, 1e-9);
  EXPECT_NEAR(si(holes[1].thickness), 0.1 * 0.0254, 1e-9);
  ASSERT_TRUE(holes[1].discharge_coefficient);
  EXPECT_NEAR(*holes[1].discharge_coefficient, 0.8, 1e-12);
  const Answer a = main_job(back), b = main_job(calibrated);
  for (std::size_t i = 0; i < a.evenness.rows.size(); ++i) {
    EXPECT_NEAR(a.evenness.rows[i].flow, b.evenness.rows[i].flow, 1e-6 * b.evenness.rows[i].flow) << i;
  }
}

// What a row had of its own and still has stays as its owner wrote it.
TEST(CalibratedLayout, WritesWhatChangedAndNothingElse) {
  using Of = CatchCauseKind;
  const std::string text = example_text("short_hoses.toml") +
                           "\n[[row]]\nnumber = 2\nhose_length = \"9 ft\"\norifice = { bore = \"0.0500 in\" }\n"
                           "[[row]]\nnumber = 3\nhose_length = \"96 in\"\n";
  const Layout layout = parse_layout(text, "own.toml");
  const Layout calibrated = with_causes(layout, {{Of::hose_length, 2, 0, 0, 1.25}, {Of::feed_hose, 0, 0, 0, 0.6}});
  const std::string written = calibrated_layout_text(text, "own.toml", layout, calibrated);
  EXPECT_TRUE(test::holds(written, "11.25 ft")) << "9 ft and a quarter: " << written;
  EXPECT_TRUE(test::holds(written, "0.0500 in")) << written;
  EXPECT_TRUE(test::holds(written, "96 in")) << written;
  expect_same_rows(written, calibrated);
  const Layout back = parse_layout(written, "as_built.toml");
  const auto feed = [](const Layout& l) { return si(std::get<Toolbar>(l.plumbing).manifolds.at(0).feed_bore); };
  EXPECT_NEAR(feed(back), 0.6 * feed(layout), 1e-8 * feed(layout));
  EXPECT_EQ(std::get<Toolbar>(back.plumbing).row_changes.size(), 2U);
}

TEST(CalibratedLayout, RefusesAFreeForm) {
  const std::string text = example_text("free_form.toml");
  const Layout layout = parse_layout(text, "free_form.toml");
  test::expect_message([&] { static_cast<void>(calibrated_layout_text(text, "free_form.toml", layout, layout)); },
                       "[toolbar]");
  const std::string bar = example_text("short_hoses.toml");
  test::expect_message(
      [&] { static_cast<void>(calibrated_layout_text(bar, "bar.toml", parse_layout(bar, "bar.toml"), layout)); },
      "bar.toml: the layout is given place by place; allowed: a layout with a [toolbar]");
}

// A file that has changed since it was read, or is another one: what was found would go to the wrong places.
TEST(CalibratedLayout, TheTextIsTheLayouts) {
  const std::string text = example_text("short_hoses.toml");
  std::string two = text;
  const std::string one = "[[manifold]] ";
  two.replace(two.find(one), one.size(), "[[manifold]]\nlast_row = 8\n[[manifold]]\nfirst_row = 9\n");
  const Layout layout = parse_layout(text, "bar.toml"), other = parse_layout(two, "bar.toml");
  const auto refused = [&](const std::string& file, const Layout& calibrated) {
    test::expect_message([&] { static_cast<void>(calibrated_layout_text(file, "bar.toml", layout, calibrated)); },
                         "bar.toml: its manifolds are not those of the layout; allowed: the file that the layout was "
                         "read from, unchanged");
  };
  refused(two, layout);
  refused(text, other);
  refused(example_text("free_form.toml"), layout);
  std::string wrong = text;
  wrong.replace(wrong.find("rows = 16"), 9, "rows = 0");
  test::expect_refused([&] { static_cast<void>(calibrated_layout_text(wrong, "bar.toml", layout, layout)); },
                       "[toolbar] rows");
}

}  // namespace calibrated_layout_test
}  // namespace libflow
