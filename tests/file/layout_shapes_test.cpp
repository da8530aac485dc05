// SPDX-License-Identifier: MIT
/// @file
/// Values of the wrong shape in a layout: a text where a table belongs, a pair of three, a list without end.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace layout_shapes_test {

constexpr const char* bar = R"(name = "Bar"
[job]
product = "10-34-0"
temperature = "50 F"
rate = "5 gal/ac"
speed = "5 mph"
[toolbar]
rows = 4
spacing = "30 in"
[[manifold]]
bore = "1 in"
[hose]
bore = "1/4 in"
length = "9 ft"
[orifice]
bore = "0.04 in"
)";

struct Wrong {
  std::string from, to;  // of the bar; from empty: put behind it
  std::string says;
};

TEST(LayoutShapes, AreRefusedWithTheirLineAndWhatIsAllowed) {
  std::string many = "lengths = [";
  for (int i = 0; i < 1001; ++i) many += "\"9 ft\", ";
  many += "]";
  const std::vector<Wrong> all{
      {"", "[[row]]\nnumber = 2\norifice = \"0.05 in\"\n",
       "bar.toml:19:11: [[row]] #1 orifice: '0.05 in' is not a table; allowed: a table [[row]] #1 orifice"},
      {"[orifice]\nbore = \"0.04 in\"\n", "orifice = 3\n", "3 is not a table; allowed: a table [orifice]"},
      {"[[manifold]]\n", "[manifold]\n", "is not a list of tables; allowed: entries [[manifold]]"},
      {"", "row = [{ number = 2, shut = true }, 7]\n", "7 is not a table; allowed: entries [[row]]"},
      {"", "[product]\ndensity = [[\"60 F\", \"11.6 lb/gal\", \"11.7 lb/gal\"]]\n", "a list is not a pair"},
      {"", "[product]\ndensity = [[\"60 F\"]]\n", "a list is not a pair"},
      {"", "[product]\ndensity = [\"60 F\", \"11.6 lb/gal\"]\n", "'60 F' is not a pair"},
      {"length = \"9 ft\"", many, "a list of 1001 items; allowed: at most 1000"},
      {"bore = \"0.04 in\"", "bore = \"0.04 in\"\ncoefficient = \"0.6\"", "'0.6' is not a number; allowed: a number, "},
      {"bore = \"0.04 in\"", "bore = \"0.04 in\"\ncoefficient = 6", "6 is out of range; allowed: a number, "},
      {"rows = 4", "rows = 4.0", "4.0 is not a whole number; allowed: a whole number, 1 to"},
      {"rows = 4", "rows = \"4\"", "'4' is text, for its quotes; allowed: a whole number"},
      {"rows = 4", "rows = 2026-11-26", "a date or time is not a whole number"},
      {"rows = 4", "rows = false", "false is not a whole number"},
      {"rows = 4", "rows = {}", "a table is not a whole number"}};
  for (const Wrong& w : all) {
    SCOPED_TRACE(w.to.substr(0, 60));
    std::string text = bar;
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

}  // namespace layout_shapes_test
}  // namespace libflow
