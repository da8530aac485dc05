// SPDX-License-Identifier: MIT
/// @file
/// An error in a file shows the line that it points at, with a caret below the column; the pages of the commands.

#include <cstdlib>
#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include <libflow/app/shown_line.hpp>
#include <libflow/file/text_file.hpp>
#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace error_line_test {

namespace fs = std::filesystem;
using test::holds;
using test::Outcome;

class ErrorLine : public test::App {};

TEST_F(ErrorLine, OfALayoutIsShownWithItsColumn) {
  const Outcome r = run({"solve", changed("\"22 ft\"", "\"22 psi\"")});
  expect_refused(r, 2, ":10: [hose] length");
  EXPECT_TRUE(holds(r.err, " | length = \"22 psi\"\n       |          ^\n")) << r.err;
  // A wrong word of TOML, and the same by `check`.
  const Outcome c = run({"check", file("half.toml", "[hose]\nlength = \n")});
  EXPECT_EQ(c.code, 2);
  EXPECT_TRUE(holds(c.err, "\n     2 | length = \n")) << c.err;
}

TEST_F(ErrorLine, CountsCharactersAndNotBytes) {
  // What is wrong is the second text, in column 16; counted in bytes it would be 19.
  const Outcome r = run({"solve", file("bar.toml", "length = \"\xC3\xA4\xC3\xB6\xC3\xBC\" \"x\"\n")});
  expect_refused(r, 2, "bar.toml:1:16: ");
  EXPECT_TRUE(holds(r.err, "\xBC\" \"x\"\n       | " + std::string(15, ' ') + "^\n")) << r.err;
}

TEST_F(ErrorLine, OfCupsIsShownWithItsColumn) {
  const std::string layout = example("equal_hoses.toml");
  const auto refused = [&](const std::string& text) { return run({"catch", layout, file("cups.csv", text)}); };
  Outcome r = refused("row, volume\n1, 240 ml\n2, 240 psi\n");
  expect_refused(r, 2, "cups.csv:3:4, volume");
  EXPECT_TRUE(r.err.ends_with("\n     3 | 2, 240 psi\n       |    ^\n")) << r.err;
  r = refused("row, volume\n  x, 240 ml\n");
  expect_refused(r, 2, "cups.csv:2:3, row");
  EXPECT_TRUE(r.err.ends_with("\n     2 |   x, 240 ml\n       |   ^\n")) << r.err;
  r = refused("row, volumne\n1, 240 ml\n");
  expect_refused(r, 2, "cups.csv:1:6");
  EXPECT_TRUE(r.err.ends_with("\n     1 | row, volumne\n       |      ^\n")) << r.err;
  r = refused("row, volume\n1, 240 ml\n17, 240 ml\n");  // the bar has 16 rows
  expect_refused(r, 2, "libflow: " + (folder_ / "cups.csv").string() + ":3:1");
  EXPECT_TRUE(r.err.ends_with("\n     3 | 17, 240 ml\n       | ^\n")) << r.err;
}

TEST_F(ErrorLine, IsCutAroundTheColumnWhereTheLineIsLong) {
  const std::string long_text(300, 'x');
  const Outcome r = run({"solve", file("bar.toml", "hose = { note = \"" + long_text + "\", length = 3 }\n")});
  EXPECT_EQ(r.code, 2);
  const std::size_t line = r.err.find("\n     1 | ");
  ASSERT_NE(line, std::string::npos) << r.err;
  const std::string shown = r.err.substr(line + 1, r.err.find('\n', line + 1) - line - 1);
  EXPECT_LE(shown.size(), 100U) << shown;
  EXPECT_TRUE(holds(r.err, "^")) << r.err;
}

TEST_F(ErrorLine, LetsNoControlCharacterThrough) {
  // A mark that turns the direction of writing (U+202E), and a tab.
  const Outcome r = run({"solve", changed("length = \"22 ft\"", "length =\t\"22 psi\"  # \xE2\x80\xAE")});
  EXPECT_FALSE(holds(r.err, "\xE2\x80\xAE")) << r.err;
  EXPECT_FALSE(holds(r.err, "\t")) << r.err;
  EXPECT_TRUE(holds(r.err, "| length = \"22 psi\"  # \\u202E\n       |          ^\n")) << r.err;
}

TEST_F(ErrorLine, IsLeftOutWhereThereIsNoLine) {
  for (const Outcome& r : {run({"solve", "missing.toml"}), run({"solve", file("empty.toml", "")}),
                           run({"solve", example("equal_hoses.toml"), "--units", "imperial"})}) {
    EXPECT_EQ(r.code, 2);
    EXPECT_FALSE(holds(r.err, " | ")) << r.err;
  }
}

// What has a wider place in front, as `libflow size` gives it, is looked for behind it; what cannot be read is left
// out.
TEST_F(ErrorLine, IsOfTheFirstFileThatIsThere) {
  const std::string path = file("bar.toml", "one\ntwo three\n");
  const std::string shown = app::shown_line("the second layout: " + path + ":2:5: [hose] length");
  EXPECT_TRUE(holds(shown, "     2 | two three\n       |     ^")) << shown;
  EXPECT_EQ(app::shown_line(path + ": the second layout:2:5"), "") << "no file of that name";
  EXPECT_EQ(app::shown_line(path + ":9:1"), "") << "no such line";
  const std::string large = file("large.toml", std::string(largest_text_file + 1, 'x'));
  EXPECT_EQ(app::shown_line(large + ":1:1"), "") << "nothing is read of what no layout is as large as";
}

// A place is file, line and column; where one of them is missing, or no number that a file can have, there is no line.
TEST_F(ErrorLine, NeedsFileLineAndColumn) {
  const std::string path = file("bar.toml", "one\ntwo three\n");
  EXPECT_TRUE(holds(app::shown_line(path + ":2:5"), "     2 | two three\n       |     ^"));
  for (const char* place : {":2", ":2 5", ":2: 5", ":2:0", ":0:5", ":2:x", ":12345678901:1", "", ":"}) {
    EXPECT_EQ(app::shown_line(path + place), "") << place;
  }
  EXPECT_EQ(app::shown_line((folder_ / "missing.toml").string() + ":2:5: [hose]: length"), "");
}

// Lines of a file from another system end in a carriage return, which is not shown.
TEST_F(ErrorLine, OfAFileWithCarriageReturns) {
  const Outcome r = run({"solve", file("bar.toml", "[hose]\r\nlength = \r\n")});
  EXPECT_EQ(r.code, 2);
  EXPECT_TRUE(holds(r.err, "\n     2 | length = \n       | ")) << r.err;
  EXPECT_FALSE(holds(r.err, "\r")) << r.err;
}

// An escaped character takes as many columns as it is shown with, so the caret stands below the column that is meant;
// so does a backslash, which is one character as it is.
TEST_F(ErrorLine, PutsTheCaretBehindEscapedCharacters) {
  const auto shown = [&](const std::string& line, std::size_t column) {
    return app::shown_line(file("bar.toml", line + "\n") + ":1:" + std::to_string(column));
  };
  // U+202E is one character, shown as six; the seventh of the line is x.
  EXPECT_EQ(shown("a = \"\xE2\x80\xAEx\"", 7), "\n     1 | a = \"\\u202Ex\"\n       | " + std::string(11, ' ') + "^");
  const std::string path = shown("a = \"b\\c\"", 8);
  const std::size_t line = path.find(" | ") + 3, caret = path.rfind(" | ") + 3;
  EXPECT_EQ(path[line + path.find('^') - caret], 'c') << path;
}

class CommandPages : public test::App {};

TEST_F(CommandPages, SayWhatTheProgramsHelpSays) {
  const fs::path docs = fs::path(LIBFLOW_TESTS).parent_path() / "libflow" / "docs";
  const fs::path made = folder_ / "made";
  const std::string command = test::in_shell_quotes((docs / "make").string()) + " " +
                              test::in_shell_quotes(LIBFLOW_APP) + " " + test::in_shell_quotes(made.string());
  ASSERT_EQ(std::system(command.c_str()), 0);
  std::size_t pages = 0;
  for (const auto& entry : fs::directory_iterator(made)) {
    const fs::path kept = docs / "commands" / entry.path().filename();
    EXPECT_EQ(test::content(entry.path()), test::content(kept)) << "run libflow/docs/make PROGRAM";
    ++pages;
  }
  std::size_t there = 0;
  for (const auto& entry : fs::directory_iterator(docs / "commands")) there += entry.is_regular_file() ? 1U : 0U;
  EXPECT_EQ(pages, there);
  EXPECT_GT(pages, 20U);
}

}  // namespace error_line_test
}  // namespace libflow
