// SPDX-License-Identifier: MIT
/// @file
/// Values of the wrong shape in a layout: a text where a table belongs, a pair of three, a list without end.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/four_row_bar.hpp>

namespace libflow {
namespace layout_shapes_test {

struct Wrong {
  std::string from, to;  // of the layout; from empty: put behind it
  std::string says;
};

TEST(LayoutShapes, AreRefusedWithTheirLineAndWhatIsAllowed) {
  std::string many = "lengths = [";
  for (int i = 0; i < 1001; ++i) many += "\"9 ft\", ";
  many += "]";
  const std::vector<Wrong> all{
      {"", "[[row]]\nnumber = 2\norifice = \"0.05 in\"\n",
       "bar.toml:23:11: [[row]] #1 orifice: '0.05 in' is not a table; allowed: a table [[row]] #1 orifice"},
      {"[orifice]\nbore = \"0.04 in\"\n", "orifice = 3\n", "3 is not a table; allowed: a table [orifice]"},
      {"[[manifold]]\n", "[manifold]\n", "is not a list of tables; allowed: entries [[manifold]]"},
      {"", "row = [{ number = 2, shut = true }, 7]\n", "7 is not a table; allowed: entries [[row]]"},
      {"", "[product]\ndensity = [[\"60 F\", \"11.6 lb/gal\", \"11.7 lb/gal\"]]\n", "a list is not a pair"},
      {"", "[product]\ndensity = [[\"60 F\"]]\n", "a list is not a pair"},
      {"", "[product]\ndensity = [\"60 F\", \"11.6 lb/gal\"]\n", "'60 F' is not a pair"},
      {"length = \"9 ft\"", many, "a list of 1001 items; allowed: at most 1000"},
      {"length = \"9 ft\"", "lengths = \"9 ft\"", "[hose] lengths: '9 ft' is not a list; allowed: a list in [ ]"},
      {"\"Bar\"", "\"" + std::string(201, 'b') + "\"", "name: text is empty or too long; allowed: 1 to 200 bytes"},
      {"bore = \"0.04 in\"", "bore = \"0.04 in\"\ncoefficient = \"0.6\"", "'0.6' is not a number; allowed: a number, "},
      {"bore = \"0.04 in\"", "bore = \"0.04 in\"\ncoefficient = 6", "6 is out of range; allowed: a number, "},
      {"rows = 4", "rows = 4.0", "4.0 is not a whole number; allowed: a whole number, 1 to"},
      {"rows = 4", "rows = \"4\"", "'4' is text, for its quotes; allowed: a whole number"},
      {"rows = 4", "rows = 2026-11-26", "a date or time is not a whole number"},
      {"rows = 4", "rows = false", "false is not a whole number"},
      {"rows = 4", "rows = {}", "a table is not a whole number"}};
  for (const Wrong& w : all) {
    SCOPED_TRACE(w.to.substr(0, 60));
    std::string text = test::four_row_bar;
    if (w.from.empty()) {
      // A key of the whole layout has to stand ahead of the first table.
      if (w.to.starts_with("row = "))
        text = w.to + text;
      else
        text += w.to;
    } else {
      const std::size_t at = text.find(w.from);
      ASSERT_NE(at, std::string::npos);
      if (w.to == "orifice = 3\n") {
        text.erase(at, w.from.size());
        text = w.to + text;
      } else {
        text.replace(at, w.from.size(), w.to);
      }
    }
    test::expect_message([&] { (void)parse_layout(text, "bar.toml"); }, w.says);
  }
}

// A bar of one row has only row 1 to begin with: "1 to 1" would be no way to say it.
TEST(LayoutShapes, WhereOneNumberIsAllowedItIsSaid) {
  std::string text = test::four_row_bar;
  const std::string from = "rows = 4\nspacing = \"30 in\"\n[[manifold]]\n";
  const std::size_t at = text.find(from);
  ASSERT_NE(at, std::string::npos);
  text.replace(at, from.size(), "rows = 1\nspacing = \"30 in\"\n[[manifold]]\nfirst_row = 2\n");
  try {
    (void)parse_layout(text, "bar.toml");
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "bar.toml:11:13: [[manifold]] #1 first_row");
    EXPECT_EQ(e.allowed(), "1");
  }
}

}  // namespace layout_shapes_test
}  // namespace libflow
