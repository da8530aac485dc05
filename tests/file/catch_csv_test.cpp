// SPDX-License-Identifier: MIT
/// @file
/// Catch-test readings from text: what is read, and what is refused, with its line.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/catch_csv.hpp>
#include <tests/support/errors.hpp>

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

TEST(CatchCsv, TakesTheMarkThatSpreadsheetsWriteAtTheBeginning) {
  for (const char* heading : {"row,volume [ml]\n", "\"row\",\"volume [ml]\"\n", "# cups\nrow,volume [ml]\n"}) {
    const auto r = parse_catch(std::string("\xEF\xBB\xBF") + heading + "3,250\n", "cups.csv");
    ASSERT_EQ(r.size(), 1U) << heading;
    EXPECT_EQ(r[0].row, 3);
    EXPECT_DOUBLE_EQ(r[0].volume, 250e-6);
  }
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
  refused("row,volume [fl oz]\n1,24O", "'24O' has a letter in its number; allowed: a number alone, in fl oz, e.g. 8.1");
  refused("row,volume\n1,", "volume of row 1: the cell is empty");
  refused("row,volume\n,8 ml", "row: the cell is empty");
  refused("row;volume\n1;8 ml", "separated by ';'");
  refused("row\tvolume\n1\t8 ml", "separated by tabs");
  refused("row,volume,repeat\n1,250 ml,1\n1,251 ml,1", "cups.csv:3:1: row 1 has a repeat 1 already");
  refused("row,volume\n1,250 \\q ml", "backslash");
  refused("row,volume\n1,250 ml\\", "cups.csv:2:1: a backslash that begins nothing");
  refused("# nothing yet\n\n", "cups.csv: is empty; allowed: a heading 'row, volume, repeat' and a line for each cup");
  refused("volume\n8 ml", "cups.csv:1:1: the heading lacks a column");
  refused("row,volume [ml\n1,8", "cups.csv:1:5: there is no column 'volume [ml'");
  refused("row,volume\n201,8 ml", "cups.csv:2:1, row: '201' is no such number; allowed: a whole number, 1 to 200");
  refused("row,volume [fl oz]\n1,", "the cell is empty; allowed: what was caught, e.g. 8.1, in fl oz; or no line");
}

// A column is counted as a person counts it in an editor: letters, not bytes; a comma in quotes separates nothing.
TEST(CatchCsv, TheColumnIsWhereTheCellBegins) {
  const auto refused = [](const std::string& text, const std::string& word) {
    test::expect_message([&] { static_cast<void>(parse_catch(text, "cups.csv")); }, word);
  };
  refused("row,volume\n\xC3\xA9,ten", "\n  cups.csv:2:3, volume: 'ten'");
  refused("row,volume,repeat\n1,\"8,x ml\",y", "\n  cups.csv:2:12, repeat: 'y'");
  refused("row,volume\n1,\t8 psi", "cups.csv:2:4, volume of row 1: '8 psi'");
  // An empty cell at the end of a line begins behind its comma, whatever ends the line.
  for (const char* end : {"", "\n", "\r\n"}) {
    refused(std::string("row,volume\r\n1,") + end, "cups.csv:2:3, volume of row 1: the cell is empty");
  }
  const auto read = parse_catch("row,volume\n1\t,\t250 ml\t\n", "cups.csv");
  ASSERT_EQ(read.size(), 1U);
  EXPECT_EQ(read[0].row, 1);
  EXPECT_EQ(read[0].written, "250 ml");
}

// What was written is quoted, not what the heading adds, and the example is a cup, not a tank.
TEST(CatchCsv, QuotesTheCellAsItWasWritten) {
  const auto refused = [](const std::string& text, const std::string& word) {
    test::expect_message([&] { static_cast<void>(parse_catch(text, "cups.csv")); }, word);
  };
  refused(
      "row,volume [fl oz]\n1,ten",
      "cups.csv:2:3, volume of row 1: 'ten' does not start with a number; allowed: a number alone, in fl oz, e.g. 8.1");
  refused("row,volume\n1,ten", "'ten' does not start with a number; allowed: a number with one of");
  refused("row,volume\n1,ten", "e.g. '8.1 fl oz' or '240 ml'");
  refused("row,volume [fl oz]\n1,240 ml", "'240 ml' has a unit, and so has the heading, 'fl oz'");
  refused("row,volume [fl oz]\n1,-8", "'-8' is no volume of a cup");
  refused("row,volume [psi]\n1,8", "cups.csv:1:5: 'psi' is no unit of a volume; allowed: fl oz, ml");
  const auto read = parse_catch("row,volume [fl oz]\n1,8.1\n2,8", "cups.csv");
  EXPECT_EQ(read.at(0).written, "8.1 fl oz");
  EXPECT_EQ(parse_catch("row,volume\n1, 240 ml", "cups.csv").at(0).written, "240 ml");
}

std::string refusal(const std::string& text) {
  try {
    static_cast<void>(parse_catch(text, "cups.csv"));
  } catch (const InputError& error) {
    return error.what();
  }
  return "not refused";
}

TEST(CatchCsv, TellsEveryMistakeAtOnce) {
  const std::string said = refusal(
      "row, volume, repeat\n1, ten, 1\nx, 8 ml, 1\n2, 8 ml\n3, 8 ml, 1\n3, 8 ml, 1\n4, 8 psi, one\n5, 8 ml, 1\n");
  EXPECT_TRUE(said.starts_with("cups.csv: 6 mistakes:\n  cups.csv:2:4, volume of row 1: 'ten' does not start")) << said;
  for (const char* place :
       {"\n  cups.csv:3:1, row: 'x' is no such number", "\n  cups.csv:4:1: 2 cells under 3 headings",
        "\n  cups.csv:6:1: row 3 has a repeat 1 already", "\n  cups.csv:7:11, repeat: 'one'",
        "\n  cups.csv:7:4, volume: '8 psi'"}) {
    EXPECT_NE(said.find(place), std::string::npos) << place << "\n" << said;
  }
  EXPECT_EQ(said.find("cups.csv:8"), std::string::npos) << said;
}

TEST(CatchCsv, StopsAtTenMistakes) {
  std::string text = "row, volume\n";
  for (int k = 1; k <= 14; ++k) text += std::to_string(k) + ", ten\n";
  const std::string said = refusal(text);
  EXPECT_TRUE(said.starts_with("cups.csv: the first 10 mistakes:\n")) << said;
  EXPECT_NE(said.find("cups.csv:11:5, volume of row 10"), std::string::npos) << said;
  EXPECT_EQ(said.find("row 11"), std::string::npos) << said;
  // One mistake keeps its place in front, where a program finds it.
  EXPECT_TRUE(refusal("row, volume\n1, ten\n").starts_with("cups.csv:2:4, volume of row 1: "));
  // Without a heading nothing else can be judged.
  EXPECT_TRUE(refusal("row, volum\n1, ten\n2, ten\n").starts_with("cups.csv:1:6: there is no column"));
}

}  // namespace catch_csv_test
}  // namespace libflow
