// SPDX-License-Identifier: MIT
/// @file
/// Text for people: the verdict first, at most 100 columns, nothing hidden.

#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/report/list_words.hpp>
#include <libflow/report/text.hpp>
#include <libflow/report/verdict.hpp>
#include <tests/support/demo_answer.hpp>
#include <tests/support/text.hpp>

namespace text_test {

using namespace libflow;
using libflow::test::demo_answer;
using libflow::test::demo_comparison;
using libflow::test::holds;
using libflow::test::one_line;

void expect_at_most(std::size_t width, const std::string& text) {
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    EXPECT_LE(report_detail::columns(line), width) << line;
    EXPECT_TRUE(line.empty() || line.back() != ' ') << "'" << line << "'";
  }
}

TEST(Verdict, NotEvenNamesTheWorstRowAndWhatDecides) {
  const Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  EXPECT_EQ(verdict_sentence(a),
            "NOT EVEN: row 1 gets 12.0 % less than the mean, 1 of 4 rows is outside ±5 %; what decides it: hose "
            "lengths (90 % of the variation).");
}

TEST(Verdict, EvenNamesTheFurthestRow) {
  const Answer a = demo_answer("Bar", {0.01, -0.02, 0.005, 0.005}, 0.013);
  EXPECT_EQ(verdict_sentence(a),
            "EVEN: every row is within ±5 % of the mean; the furthest, row 2, is 2.0 % below it; most of that comes "
            "from: hose lengths (90 % of the variation).");
}

TEST(Verdict, TableAndVerdictShowTheSameDecimals) {
  // 0.248 % is 0.25 % in both, not +0.2; from a worst row of 1 % on one decimal is shown in both.
  const std::string fine = main_job_text(demo_answer("Bar", {0.00248, -0.001, -0.001, -0.00048}, 0.0015));
  EXPECT_NE(fine.find("row 1, is 0.25 % above it"), std::string::npos) << fine;
  EXPECT_NE(fine.find(" +0.25 "), std::string::npos) << fine;
  EXPECT_NE(fine.find(" -0.10 "), std::string::npos) << fine;
  EXPECT_EQ(fine.find(" +0.2 "), std::string::npos) << fine;
  const std::string coarse = main_job_text(demo_answer("Bar", {0.0248, -0.01, -0.01, -0.0048}, 0.015));
  EXPECT_NE(coarse.find(" +2.5 "), std::string::npos) << coarse;
  EXPECT_NE(coarse.find(" -0.5 "), std::string::npos) << coarse;
}

TEST(Verdict, WhatIsNotSolvedIsNotJudged) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.solution.status = Status::iteration_limit;
  a.solution.message = "no convergence in 60 steps";
  EXPECT_EQ(verdict_sentence(a).rfind("NOT SOLVED", 0), 0U);
  const std::string text = main_job_text(a);
  EXPECT_FALSE(holds(text, "EVEN"));
  EXPECT_FALSE(holds(text, "Mean rate"));
}

TEST(Verdict, NothingFlows) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.evenness.mean_rate = 0.0;
  a.evenness.even = false;
  EXPECT_EQ(verdict_sentence(a), "NOT EVEN: nothing flows out of any row.");
}

TEST(Verdict, ComparisonNamesTheEvenerOne) {
  EXPECT_EQ(verdict_sentence(demo_comparison()),
            "'Long hoses' is evener than 'Short, \"cheap\" hoses': CV 0.80 % against 8.0 %; what makes the difference: "
            "hose lengths. Within ±5 %: 'Long hoses' only.");
  Comparison same = demo_comparison();
  same.answers[1] = same.answers[0];
  EXPECT_EQ(verdict_sentence(same).rfind("No difference worth the name", 0), 0U);
}

TEST(Verdict, ALayoutWithoutAnAnswerIsNotCompared) {
  Comparison c = demo_comparison();
  c.answers[1].solution.status = Status::iteration_limit;
  c.answers[1].solution.message = "no convergence in 60 steps";
  c.answers[1].evenness = {};
  const std::string words = "NOT SOLVED: 'Short, \"cheap\" hoses' has no answer (no convergence in 60 steps).";
  EXPECT_EQ(verdict_sentence(c).rfind(words, 0), 0U) << verdict_sentence(c);
  const std::string text = comparison_text(c);
  EXPECT_TRUE(holds(one_line(text), words)) << text;
  EXPECT_FALSE(holds(text, "Gauge pressure")) << "no number of what has none\n" << text;
  EXPECT_FALSE(holds(text, "nan")) << text;
}

// Row 4 gives a tenth; the mean falls by 22 %, and the other three are 29 % above it though all alike.
TEST(Verdict, ARowThatPullsTheMeanIsNamed) {
  const Answer a = demo_answer("Bar", {0.29, 0.29, 0.29, -0.87}, 0.58);
  EXPECT_TRUE(holds(verdict_sentence(a),
                    "4 of 4 rows are outside ±5 %; row 4 alone pulls the mean: without it all "
                    "others are within; what decides it"))
      << verdict_sentence(a);
  EXPECT_FALSE(holds(verdict_sentence(demo_answer("Bar", {0.2, 0.1, -0.1, -0.2}, 0.2)), "pulls the mean"));
}

TEST(Verdict, TolerancesWithoutAFirstOrderAnswerAreToldWhereToLook) {
  Answer a = demo_answer("Bar", {0.01, -0.01}, 0.01);
  EXPECT_TRUE(as_built_sentence(a).starts_with("This is the layout as drawn; real parts vary"));
  a.layout.tolerances.emplace_back();
  EXPECT_EQ(as_built_sentence(a),
            "EVEN on paper; its parts have tolerances: 'libflow tolerance' says how even it is as built.");
  a.built = AsBuilt{.within = 0.6, .mean_cv = 0.02};
  EXPECT_TRUE(as_built_sentence(a).starts_with("AS BUILT, with its tolerances: about 60 % of such machines are even"));
}

TEST(MainJobText, OpensWithTheVerdictAndFits) {
  const Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const std::string text = main_job_text(a, {.units = u});
    EXPECT_EQ(text.rfind("NOT EVEN: row 1", 0), 0U);
    expect_at_most(100, text);
    expect_at_most(80, main_job_text(a, {.units = u, .width = 80}));
  }
  const std::string us = main_job_text(a, {.units = UnitSystem::us});
  for (const char* part : {"gal/ac", "psi", "5.00 gal/ac at 5.0 mph", "LOW", "-12.0", "+5.0", "laminar", "40 %",
                           "8.0 % (n-1)", "95.0 %", "93.0 %", "30.00 psi", "100.0 ft", "hose lengths", "90 %",
                           "every row with the mean hose length", "a trillionth of the largest", "qualified person"}) {
    EXPECT_TRUE(holds(us, part)) << part << "\n" << us;
  }
  const std::string metric = main_job_text(a, {.units = UnitSystem::metric});
  EXPECT_TRUE(holds(metric, "L/ha")) << metric;
  EXPECT_TRUE(holds(metric, "206.8 kPa")) << metric;  // 30 psi
  EXPECT_FALSE(holds(metric, "psi")) << metric;
}

TEST(MainJobText, RegimesAreShortenedWhereThereIsNoRoom) {
  Answer a = demo_answer("Bar", {0.0, 0.0, 0.0, 0.0}, 0.0);
  const Regime all[] = {Regime::still, Regime::laminar, Regime::transition, Regime::turbulent};
  for (std::size_t i = 0; i < 4; ++i) a.evenness.rows[i].regime = all[i];
  const auto words = [&](bool in_full) {
    std::istringstream in(report_detail::rows_table(a, UnitSystem::us, {.bar = 0, .words = in_full}));
    std::vector<std::string> last;
    for (std::string line; std::getline(in, line);) last.push_back(line.substr(line.rfind(' ') + 1));
    return std::vector<std::string>(last.end() - 4, last.end());
  };
  EXPECT_EQ(words(false), (std::vector<std::string>{"still", "lam.", "trans.", "turb."}));
  EXPECT_EQ(words(true), (std::vector<std::string>{"still", "laminar", "transition", "turbulent"}));
}

TEST(MainJobText, ShutRowsAndClosedValvesAreSaid) {
  Answer a = demo_answer("Bar", {0.0, 0.0, 0.0}, 0.0);
  a.evenness.rows[1].shut = true;
  a.evenness.rows[2].valve = ValveState::closed;
  const std::string text = main_job_text(a);
  EXPECT_TRUE(holds(text, "shut")) << text;
  EXPECT_TRUE(holds(text, "CLOSED")) << text;
  expect_at_most(100, text);
}

TEST(MainJobText, EveryColumnAtOnceStillFits) {
  Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  for (RowResult& r : a.evenness.rows) {
    r.lift = -12345.0;
    r.regime = Regime::transition;
    r.valve = ValveState::closed;
    r.orifice_drop = r.line_drop = 9.876e6;
  }
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const std::string text = main_job_text(a, {.units = u});
    expect_at_most(100, text);
    EXPECT_TRUE(holds(text, "lift")) << text;
    EXPECT_TRUE(holds(text, "check")) << text;
    EXPECT_TRUE(holds(text, "trans")) << text;
  }
}

TEST(MainJobText, CautionsKeepTheirSourceAndAreGrouped) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  for (int i = 3; i <= 9; ++i) {
    Caution more = a.evenness.cautions[0];
    more.subject = "hose " + std::to_string(i);
    a.evenness.cautions.push_back(more);
  }
  a.liquid.cautions.push_back({"below-salt-out", "Starter", "crystals", 270.0, 275.0, "FFC"});
  const std::string text = one_line(main_job_text(a));
  EXPECT_TRUE(holds(text, "hose 1, hose 3, hose 4, hose 5 and 4 more: pressure is above")) << text;
  EXPECT_TRUE(holds(text, "] rating given in the layout")) << text;  // each source has its number ...
  EXPECT_TRUE(holds(text, "crystals. [")) << text;
  EXPECT_TRUE(holds(text, "] Estimated Physical")) << "the key's title is printed\n"
                                                   << text;  // ... and a key its title
}

TEST(MainJobText, ACautionOfSeveralRowsNamesThemInOneSentence) {
  Answer a = demo_answer("Bar", {0.0, 0.0, 0.0, 0.0}, 0.0);
  for (const char* row : {"row 4", "row 2", "row 2"}) {
    a.evenness.cautions.push_back({"closed", row, "the pressure does not open this row's check valve"});
  }
  EXPECT_TRUE(holds(one_line(main_job_text(a)), "rows 2 and 4: the pressure does not open this row's check valve."))
      << main_job_text(a);
}

TEST(MainJobText, ColourOnlyWhenAskedFor) {
  const Answer a = demo_answer("Bar", {0.2, -0.2}, 0.28);
  EXPECT_FALSE(holds(main_job_text(a), "\x1b"));
  const std::string text = main_job_text(a, {.colour = true});
  EXPECT_TRUE(holds(text, "\x1b[1;31mNOT EVEN")) << text;
}

TEST(MainJobText, ANameCannotWriteToTheTerminal) {
  const Answer a = demo_answer("\x1b[2Jgone\n\nEVEN", {0.2, -0.2}, 0.28);
  const std::string text = main_job_text(a);
  EXPECT_FALSE(holds(text, "\x1b"));
  EXPECT_FALSE(holds(text, "\nEVEN"));
}

TEST(ComparisonText, OpensWithTheVerdictAndFits) {
  const Comparison c = demo_comparison();
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const std::string text = comparison_text(c, {.units = u});
    EXPECT_EQ(text.rfind("'Long hoses' is evener", 0), 0U);
    expect_at_most(100, text);
  }
  const std::string text = comparison_text(c);
  for (const char* part : {"B less A", "-13.0", "Hose to cut", "100.0 ft", "NOT EVEN", "same total rate"}) {
    EXPECT_TRUE(holds(text, part)) << part << "\n" << text;
  }
}

TEST(ComparisonText, ManyLayoutsGoIntoTablesThatFit) {
  Comparison c = demo_comparison();
  for (int i = 0; i < 28; ++i) c.answers.push_back(c.answers[1]);
  const std::string text = comparison_text(c);
  expect_at_most(100, text);
  EXPECT_TRUE(holds(text, "'Long hoses' is the evenest of 30 layouts")) << text;
  EXPECT_TRUE(holds(text, "Z less A")) << text;
  EXPECT_TRUE(holds(text, "#30 less A")) << text;
}

TEST(ComparisonText, ALayoutThatGivesLessIsComparedAtWhatItGives) {
  Comparison c = demo_comparison();
  Evenness& e = c.answers[1].evenness;
  e.mean_rate = 0.5 * e.target_rate;
  e.cautions.push_back(
      {"rate-not-reached", "Bar", "the wanted rate cannot be reached; what stops it: most pump speed"});
  const std::string text = one_line(comparison_text(c));
  EXPECT_TRUE(holds(text,
                    "RATE NOT REACHED: B, 'Short, \"cheap\" hoses', cannot give 5.00 gal/ac: the wanted rate cannot "
                    "be reached; what stops it: most pump speed. It is compared at the 2.50 gal/ac that it gives."))
      << text;
  e.mean_rate = e.target_rate;
  EXPECT_TRUE(holds(one_line(comparison_text(c)), "It is compared at that rate nevertheless, as if its supply could."));
}

TEST(Words, ANameTooLongForItsColumnIsBrokenBetweenCharacters) {
  // Each character of a column, none cut in two: the letters below are two bytes each.
  const std::string name = "\u00dcberlandleitungsverl\u00e4ngerung\u00e4\u00f6\u00fc";
  for (const std::size_t most : {5U, 9U, 16U}) {
    std::string together;
    for (const std::string& line : report_detail::name_lines(name, most)) {
      EXPECT_LE(report_detail::columns(line), most) << line;
      EXPECT_TRUE((static_cast<unsigned char>(line.back()) & 0xC0U) != 0xC0U) << "half a character: " << line;
      together += together.empty() ? line : line.substr(2);
    }
    EXPECT_EQ(together, name);
  }
  EXPECT_EQ(report_detail::name_lines("two words", 20), (std::vector<std::string>{"two words"}));
}

TEST(Words, BarsPointTheWayOfTheDeviation) {
  using report_detail::deviation_bar;
  EXPECT_EQ(deviation_bar(0.0, 0.1), "      |      ");
  EXPECT_EQ(deviation_bar(0.1, 0.1), "      |======");
  EXPECT_EQ(deviation_bar(-0.05, 0.1), "   ===|      ");
  EXPECT_EQ(deviation_bar(9.0, 0.1), "      |======");
  EXPECT_EQ(deviation_bar(0.1, 0.0), "      |      ");
}

TEST(Words, LinesBreakAtSpacesAndLongWordsStayWhole) {
  using report_detail::wrapped;
  EXPECT_EQ(wrapped("one two three", 8, 2), "one two\n  three\n");
  EXPECT_EQ(wrapped("one two", 80, 3, " - "), " - one two\n");
  EXPECT_EQ(wrapped("incomprehensible", 5), "incomprehensible\n");
}

}  // namespace text_test
