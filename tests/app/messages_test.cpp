// SPDX-License-Identifier: MIT
/// @file
/// What the program says to a person whose command line, layout or cups are wrong: what it is, where, and what to
/// write.

#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace messages_test {

using test::holds;
using test::Outcome;

class Messages : public test::App {
 protected:
  [[nodiscard]] Outcome cups(const std::string& text) const {
    return run({"catch", example("equal_hoses.toml"), file("cups.csv", text)});
  }
};

TEST_F(Messages, OfCupsSpeakOfCups) {
  expect_refused(run({"catch", example("equal_hoses.toml"), "none.csv"}), 2,
                 "none.csv: there is no such file; allowed: a file of cups");
  expect_refused(run({"catch", example("equal_hoses.toml"), folder_.string()}), 2,
                 "is a folder; allowed: a file of cups");
  expect_refused(cups(""), 2, "is empty; allowed: a file of cups");
  expect_refused(cups("row, volume\n1, -8 fl oz\n"), 2, ":2:4, volume of row 1: '-8 fl oz' is no volume of a cup");
  expect_refused(cups("row, volume\n1, 24O ml\n"), 2, "volume of row 1: '24O ml' has a letter in its number");
  EXPECT_TRUE(holds(cups("row, volume\n1, 24O ml\n").err, "did you mean '240 ml'?"));
  expect_refused(cups("row, volume [ml]\n1, l2\n"), 2, "did you mean '12'?");
  expect_refused(cups("row, volume\n1, 240 ml\n2, \n"), 2,
                 ":3:4, volume of row 2: the cell is empty; allowed: what was caught, e.g. 8.1 fl oz or 240 ml");
  expect_refused(cups("row, volume [ml]\n2, \n"), 2, "what was caught, e.g. 8.1, in ml");
  expect_refused(cups("row, volume\n, 240 ml\n"), 2, ":2:1, row: the cell is empty");
  expect_refused(cups("row; volume\n1; 240 ml\n"), 2, "separated by ';'; allowed: commas");
}

TEST_F(Messages, OfALayoutStillSpeakOfALayout) {
  expect_refused(run({"solve", "none.toml"}), 2, "there is no such file; allowed: a layout file");
}

TEST_F(Messages, NameTheMissingClosingQuote) {
  const Outcome r = run({"solve", changed("bore = \"1/4 in\"", "bore = \"1/4 in")});
  expect_refused(r, 2, ": the quote that begins here is not closed on its line");
  EXPECT_TRUE(holds(r.err, "| bore = \"1/4 in\n       |        ^\n")) << r.err;
}

TEST_F(Messages, ShowTheLinesThatToleranceNeeds) {
  const Outcome r = run({"tolerance", example("equal_hoses.toml")});
  expect_refused(r, 2, "has no [[tolerance]]");
  EXPECT_TRUE(holds(r.err, "[[tolerance]]\n  of = \"orifice_bore\"\n  normal = ")) << r.err;
  // What is shown can be used as it is.
  const std::size_t begin = r.err.find("\n  [[tolerance]]");
  ASSERT_NE(begin, std::string::npos);
  const std::string layout = file("with.toml", test::content(example("equal_hoses.toml")) + r.err.substr(begin));
  EXPECT_EQ(run({"tolerance", layout, "--machines", "128", "--no-shares"}).code, 0);
}

TEST_F(Messages, OfExplainGiveTheRows) {
  for (const char* row : {"abc", "0", "17", "3x", "99999999999999999999"}) {
    expect_refused(run({"explain", example("equal_hoses.toml"), row}), 2,
                   "ROW: '" + std::string(row) + "' is no row of this layout; allowed: 1 to 16");
  }
  expect_refused(run({"explain", example("free_form.toml"), "abc"}), 2, "the number of one of its 6 rows");
}

TEST_F(Messages, NameTheHelpOfTheCommand) {
  expect_refused(run({"solve"}), 2, "Run 'libflow solve --help'");
  expect_refused(run({"catch", example("equal_hoses.toml"), "--tmie", "30 s"}), 2, "Run 'libflow catch --help'");
  expect_refused(run({"tesselate"}), 2, "Run 'libflow --help'");
  expect_refused(run({}), 2, "Run 'libflow --help'");
}

// The sentence ends once, whatever the word that was not expected ends with.
TEST_F(Messages, OfTheCommandLineEndOnceAndProposeWhatIsNear) {
  const std::string layout = example("equal_hoses.toml");
  const auto said = [&](const std::vector<std::string>& arguments) {
    const Outcome r = run(arguments);
    expect_refused(r, 2, "Run 'libflow ");
    return r.err;
  };
  for (const char* word : {"more", "more.", "more?"}) {
    const std::string end = word == std::string("more") ? ". Run" : " Run";
    EXPECT_TRUE(holds(said({"solve", layout, word}), std::string(": ") + word + end)) << word;
  }
  EXPECT_TRUE(holds(said({"--verison"}), "Did you mean '--version'?"));
  EXPECT_TRUE(holds(said({"solve", layout, "--unist", "us"}), "Did you mean '--units'?"));
  // An option that is like none is no command either.
  for (const std::string& text : {said({"--zzzzzzzz"}), said({"solve", layout, "--zzzzzzzz"})}) {
    EXPECT_FALSE(holds(text, "Did you mean")) << text;
    EXPECT_FALSE(holds(text, "is no command")) << text;
  }
  EXPECT_TRUE(holds(said({"zzzzzzzz"}), "'zzzzzzzz' is no command.")) << said({"zzzzzzzz"});
}

TEST_F(Messages, NameTheMissingFolder) {
  expect_refused(run({"solve", example("equal_hoses.toml"), "-o", "no/where/x.txt"}), 2,
                 "there is no folder 'no/where'");
}

TEST_F(Messages, GiveLimitsAsPeopleSayThem) {
  const Outcome r = run({"solve", changed("bore = \"1/4 in\"", "bore = \"1/4 mi\"")});
  expect_refused(r, 2, "'1/4 mi' is out of range; allowed: 0.004 to 19 in");
}

TEST_F(Messages, ProposeOnlyWhatIsNear) {
  const Outcome shell = run({"completion", "tcsh"});
  EXPECT_EQ(shell.code, 2);
  EXPECT_FALSE(holds(shell.err, "did you mean")) << shell.err;
  EXPECT_TRUE(holds(shell.err, "bash, zsh")) << shell.err;
  const Outcome liquid = run({"solve", changed("10-34-0", "foo")});
  EXPECT_EQ(liquid.code, 2);
  EXPECT_FALSE(holds(liquid.err, "did you mean")) << liquid.err;
  EXPECT_TRUE(holds(liquid.err, "10-34-0")) << liquid.err;
}

TEST_F(Messages, ShowHowAViscosityIsGiven) {
  const Outcome r = run({"solve", changed("10-34-0", "7-21-7")});
  expect_refused(r, 2, "[job] product");
  EXPECT_TRUE(holds(r.err, "none is known for this liquid")) << r.err;
  EXPECT_TRUE(holds(r.err, "[product] and viscosity = [[")) << r.err;
  EXPECT_TRUE(holds(run({"solve", changed("10-34-0", "foo")}).err, "(7-21-7; needs your viscosity)"));
  // With them it solves; the unmeasured viscosity of 10-34-0 is told the same way.
  const std::string own =
      changed("[toolbar]", "[product]\nviscosity = [[\"40 F\", \"60 cP\"], [\"70 F\", \"30 cP\"]]\n[toolbar]");
  std::string text = test::content(own);
  text.replace(text.find("10-34-0"), 7, "7-21-7");
  EXPECT_EQ(run({"solve", file("own.toml", text)}).code, 0);
  EXPECT_TRUE(holds(run({"solve", example("equal_hoses.toml")}).out, "viscosity = [[\"40 F\", \"... cP\"]"));
}

TEST_F(Messages, TellLayoutsOfOneNameApart) {
  const std::string other = changed("1/4 in", "3/8 in");
  const Outcome r = run({"compare", example("equal_hoses.toml"), other});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "\nA  'North bar, all hoses 22 ft (equal_hoses.toml)'\n")) << r.out;
  EXPECT_TRUE(holds(r.out, "\nB  'North bar, all hoses 22 ft (changed.toml)'\n")) << r.out;
  // Of files of one name too, the folder tells.
  std::filesystem::copy_file(other, folder_ / "equal_hoses.toml");
  const std::string twin = (folder_ / "equal_hoses.toml").string();
  EXPECT_TRUE(holds(run({"compare", example("equal_hoses.toml"), twin, "--json"}).out, "hoses 22 ft (" + twin + ")"));
  // Two names: the files stand beside them.
  const Outcome two = run({"compare", example("equal_hoses.toml"), example("short_hoses.toml")});
  EXPECT_TRUE(holds(two.out, "\nA  'North bar, all hoses 22 ft' (")) << two.out;
  EXPECT_TRUE(holds(two.out, "\nB  'North bar, shortest hoses' (")) << two.out;
}

TEST_F(Messages, AskForThePressureOfTheSecondCatch) {
  const auto with = [&](std::vector<std::string> more) {
    std::vector<std::string> all{"catch",    example("equal_hoses.toml"), example("catch_day.csv"), "--gauge", "39 psi",
                                 "--second", example("catch_day_low.csv")};
    all.insert(all.end(), more.begin(), more.end());
    return run(all);
  };
  expect_refused(with({}), 2, "at which pressure was the second catch made?; allowed: --second-gauge");
  EXPECT_EQ(with({"--second-gauge", "15 psi"}).code, 1);
}

TEST_F(Messages, OfCautionsAreInOneSystemOfUnitsAndThenTheOther) {
  const std::string out = run({"solve", example("equal_hoses.toml")}).out;
  EXPECT_TRUE(holds(out, "11.65 lb/gal (1396")) << out;
  EXPECT_FALSE(holds(out, "mPa s")) << out;
  EXPECT_TRUE(holds(out, "The viscosity 119 cP, somewhere from 64.6 cP to")) << out;
}

}  // namespace messages_test
}  // namespace libflow
