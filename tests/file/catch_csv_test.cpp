// SPDX-License-Identifier: MIT
/// @file
/// Catch-test readings from text: what is read, and what is refused, with its line.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/catch_csv.hpp>

#include "../support/errors.hpp"

namespace libflow {
namespace catch_csv_test {

TEST(CatchCsv, ReadsValuesWithTheirUnits) {
  const auto r = parse_catch(
      "# north bar, 3 May\nrow, volume, repeat\n1, 250 ml, 1\n\n1,\"8.4 fl oz\",2\n12 , 0.25 L , 1\r\n", "cups.csv");
  ASSERT_EQ(r.size(), 3U);
  EXPECT_EQ(r[0].row, 1);
  EXPECT_EQ(r[1].repeat, 2);
  EXPECT_DOUBLE_EQ(r[0].volume, 250e-6);
  EXPECT_DOUBLE_EQ(r[1].volume, 8.4 * si(units::floz));
  EXPECT_EQ(r[2].row, 12);
  EXPECT_DOUBLE_EQ(r[2].volume, 250e-6);
  EXPECT_EQ(r[2].where, "cups.csv:6:1");
}

TEST(CatchCsv, UnitOnceInTheHeadingAndRepeatsInTheirOrder) {
  const auto r = parse_catch("Volume [ml],Row\n250,1\n248,1\n251,2\n249,1", "cups.csv");
  ASSERT_EQ(r.size(), 4U);
  EXPECT_EQ(r[0].repeat, 1);
  EXPECT_EQ(r[1].repeat, 2);
  EXPECT_EQ(r[2].repeat, 1);
  EXPECT_EQ(r[3].repeat, 3);
  EXPECT_DOUBLE_EQ(r[1].volume, 248e-6);
}

TEST(CatchCsv, IsNoLayout) {
  // What TOML could not hold is plain text in a list of cups.
  const auto r = parse_catch("# \xC2\xBD full \"today\nrow,volume\n\"1\", 8 fl oz\n", "cups.csv");
  ASSERT_EQ(r.size(), 1U);
  EXPECT_EQ(r[0].where, "cups.csv:3:1");
}

TEST(CatchCsv, RefusesWithTheLine) {
  const auto refused = [](const std::string& text, const std::string& word) {
    test::expect_message([&] { static_cast<void>(parse_catch(text, "cups.csv")); }, word);
  };
  refused("", "is empty");
  refused("row,volume\n", "no reading");
  refused("row,volum\n1,3 ml", "did you mean 'volume'");
  refused("row,row\n1,1", "cups.csv:1:5: the column 'row' stands twice");
  refused("row\n1", "lacks a column");
  refused("row [ml],volume\n1,3 ml", "unit with the volume only");
  refused("row,volume\n1,250", "cups.csv:2:3, volume");      // no unit
  refused("row,volume\n1,250 psi", "cups.csv:2:3, volume");  // another kind
  refused("row,volume\n1,250 ml,1", "3 cells under 2 headings");
  refused("row,volume\n0,250 ml", "cups.csv:2:1, row: '0'");
  refused("row,volume\n1.5,250 ml", "1 to 200");
  refused("row,volume\n-1,250 ml", "whole number");
  refused("row,volume\n99999999999,250 ml", "whole number");
  refused("row,volume\n1,-3 ml", "volume");
  refused("row,volume\n1,5 m3", "'5 m3' is no volume of a cup; allowed: 0 to 1000 L (264 gal)");
  refused("row,volume\n1,-8 fl oz", "'-8 fl oz' is no volume of a cup");
  refused("row,volume [fl oz]\n1,24O", "'24O fl oz' has a letter in its number");
  refused("row,volume\n1,", "volume of row 1: the cell is empty");
  refused("row,volume\n,8 ml", "row: the cell is empty");
  refused("row;volume\n1;8 ml", "separated by ';'");
  refused("row\tvolume\n1\t8 ml", "separated by tabs");
  refused("row,volume,repeat\n1,250 ml,1\n1,251 ml,1", "cups.csv:3:1: row 1 has a repeat 1 already");
  refused("row,volume\n1,250 \\q ml", "backslash");
}

}  // namespace catch_csv_test
}  // namespace libflow
