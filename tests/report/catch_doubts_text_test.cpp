// SPDX-License-Identifier: MIT
/// @file
/// A catch test with a bad reading, in words: what to look at stands first, the rest is judged without it, and nothing
/// is surer than it is.

#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/catch_csv.hpp>
#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/report/catch_doubts_text.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_level_text.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace catch_doubts_text_test {

using test::holds;

using namespace units;

const Layout& bar() {
  static const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  return layout;
}

/// A table of 16 rows of 8.0 or 8.1 fl oz, one line replaced; what the layout expects at 39 psi is 8.07.
CatchReadings table(int row, const std::string& line, const std::string& unit = "fl oz") {
  std::string text = "row, volume [" + unit + "]\n";
  for (int k = 1; k <= 16; ++k) {
    const std::string own = std::to_string(k) + (k % 2 == 0 ? ", 8.0" : ", 8.1");
    if (k == row && line.empty()) continue;
    text += (k == row ? line : own) + "\n";
  }
  return {.readings = parse_catch(text, "cups.csv"), .time = 30.0 * s, .gauge = 39.0 * psi};
}
/// What the program says of it, on one line a paragraph.
std::string words(const CatchReadings& r) {
  const TextOptions wide{.width = 2000};
  const std::vector<CatchVerdict> v{judge_catch(bar(), r)};
  const std::string text = catch_verdicts_text(v, wide) + diagnosis_text(diagnose(bar(), {r}), bar(), 30.0, wide);
  EXPECT_FALSE(holds(text, "nan")) << text;
  EXPECT_FALSE(holds(text, "100 %)")) << text;
  return text;
}

TEST(CatchDoubtsText, AnEmptyCupIsTheFirstLine) {
  const std::string text = words(table(4, "4, 0"));
  EXPECT_TRUE(
      text.starts_with("Row 4 gave nothing: plugged, shut or not caught; look there and catch again.\n"
                       "NOT COMPLETE: without row 4, each of the other 15 rows reads within ±5 % of their "
                       "mean"))
      << text;
  EXPECT_TRUE(holds(text, "LOOK FIRST")) << text;
  EXPECT_TRUE(holds(text, "without what is to be looked at first; with it, as read: mean rate 4.67 gal/ac")) << text;
  EXPECT_TRUE(holds(text, "DIAGNOSIS: no cause besides what was set aside: row 4 (nothing caught).")) << text;
  EXPECT_FALSE(holds(text, "kinked") || holds(text, "check valve")) << text;
  EXPECT_TRUE(words(table(4, "4, 0.05"))
                  .starts_with("Row 4 gave almost nothing (0.05 fl oz, where 8.05 fl oz would fit): plugged, shut"));
}

TEST(CatchDoubtsText, ASlippedPointIsSaidAsItWasWritten) {
  EXPECT_TRUE(
      words(table(7, "7, 81"))
          .starts_with(
              "Look at the reading of row 7 first: 81 fl oz looks like 8.1 fl oz with a slipped decimal point.\n"));
  EXPECT_TRUE(words(table(7, "7, 0.82"))
                  .starts_with("Look at the reading of row 7 first: 0.82 fl oz looks like 8.2 fl oz with a slipped "
                               "decimal point; if it is right, "
                               "the row is nearly plugged"));
  // In millilitres, where the layout speaks of fluid ounces: 240 ml are 8.1 fl oz.
  std::string text = "row, volume\n";
  for (int k = 1; k <= 16; ++k) text += std::to_string(k) + (k == 7 ? ", 2400 ml\n" : ", 239 ml\n");
  const CatchReadings r{.readings = parse_catch(text, "cups.csv"), .time = 30.0 * s, .gauge = 39.0 * psi};
  EXPECT_TRUE(holds(words(r), "2400 ml looks like 240 ml with a slipped decimal point"));
}

TEST(CatchDoubtsText, OtherDoubts) {
  std::string text = "row, volume\n";
  for (int k = 1; k <= 16; ++k) text += std::to_string(k) + (k == 3 ? ", 8.1 ml\n" : ", 8.1 fl oz\n");
  const CatchReadings unit{.readings = parse_catch(text, "cups.csv"), .time = 30.0 * s, .gauge = 39.0 * psi};
  EXPECT_TRUE(holds(words(unit), "row 3 first: 8.1 ml is 29.6 times too little, the ratio of fl oz to ml"));
  EXPECT_TRUE(holds(words(table(3, "3, 48")), "row 3 first: 48 fl oz is 6.0 times what would fit (8.05 fl oz)"));
  const std::string three = words(table(6, "6, 8.0\n6, 8.1\n6, 4.0"));
  EXPECT_TRUE(holds(three, "Look at row 6's readings first: 4 fl oz is far from its other cups") ||
              holds(three, "Look at row 6's readings first: 4.0 fl oz is far from its other cups"))
      << three;
  EXPECT_TRUE(holds(three, "2 of 3")) << three;
}

TEST(CatchDoubtsText, TwoCupsThatDisagreeBlameNeither) {
  const std::string two = words(table(6, "6, 8.0\n6, 3.0"));
  EXPECT_TRUE(
      two.starts_with("Row 6's two cups disagree (8.0 and 3.0 fl oz): one of them is not right; catch row 6 "
                      "again.\nNOT COMPLETE: without row 6, each of the other 15 rows"))
      << two;
  EXPECT_TRUE(holds(two, "DIAGNOSIS: no cause besides what was set aside: row 6 (two cups that disagree).")) << two;
  // Of three cups, one empty: what is left disagrees.
  const std::string three = words(table(6, "6, 0\n6, 8.0\n6, 3.0"));
  EXPECT_TRUE(holds(three, "Look at row 6's readings first: one cup holds nothing, its others do not: was it caught?"))
      << three;
  EXPECT_TRUE(holds(three, "Row 6's other two cups disagree (8.0 and 3.0 fl oz)")) << three;
  const Json json = catch_verdict_to_json(judge_catch(bar(), table(6, "6, 0\n6, 8.0\n6, 3.0")))["doubtful_readings"];
  ASSERT_EQ(json.size(), 2U) << json;
  EXPECT_EQ(json[0]["kind"], "nothing");
  EXPECT_EQ(json[1]["kind"], "cups-disagree");
  EXPECT_EQ(json[1]["cups"], 2);
  EXPECT_FALSE(json[1]["whole_row"].get<bool>());
  // A cup of 5 drops beside full ones is as good as empty.
  EXPECT_TRUE(holds(words(table(6, "6, 0.1\n6, 8.0\n6, 8.1")),
                    "one cup holds almost nothing (0.1 fl oz), its others do not: was it caught?"));
  // Readings that no file holds, 4 and 8 fl oz: mean 6, the larger twice the smaller.
  CatchVerdict v;
  v.doubts.push_back({.kind = ReadingDoubt::cups_disagree,
                      .row = 2,
                      .cups = 2,
                      .whole_row = true,
                      .volume = 6.0 * si(floz),
                      .factor = 2.0});
  EXPECT_EQ(report_detail::doubt_sentences(v, UnitSystem::us).at(0),
            "Row 2's two cups disagree (4.00 and 8.00 fl oz): one of them is not right; catch row 2 again.");
}

TEST(CatchDoubtsText, SeveralReadingsOfOneKindAreOneSentence) {
  CatchReadings r = table(0, "");
  for (CatchReading& c : r.readings) c.volume = c.row == 3 || c.row == 4 ? 0.05 * c.row * si(floz) : c.volume;
  EXPECT_TRUE(words(r).starts_with("Rows 3 and 4 gave almost nothing (at most 0.20 fl oz, where ") ||
              words(r).starts_with("Rows 3, 4 gave almost nothing (at most 0.20 fl oz, where "))
      << words(r);
  // 240 ml written under a heading of fluid ounces, in both cups of row 9.
  const std::string both = words(table(9, "9, 239\n9, 240"));
  EXPECT_TRUE(both.starts_with("Look at the readings of row 9 first: 239 fl oz is 29.")) << both;
  EXPECT_TRUE(holds(both, "times too much, the ratio of fl oz to ml: is its unit right?")) << both;
}

TEST(CatchDoubtsText, RepeatsAndMissingRowsAreSaid) {
  EXPECT_TRUE(holds(words(table(3, "3, 8.1\n3, 8.0")),
                    "Row 3 was caught twice, the other rows once: all cups of a row count, as their mean."));
  const std::string missing = words(table(8, ""));
  EXPECT_TRUE(holds(missing, "NOT COMPLETE: no row reads outside ±5 %")) << missing;
  EXPECT_TRUE(holds(missing, "; row 8 has no cup.")) << missing;
  // Where a row is outside, too.
  CatchReadings both = table(8, "");
  both.readings.front().volume *= 0.7;
  EXPECT_TRUE(holds(words(both), "NOT EVEN: row 1 reads outside ±5 %")) << words(both);
  EXPECT_TRUE(holds(words(both), "; row 8 has no cup.")) << words(both);
}

TEST(CatchDoubtsText, MostOfTheBarEmptyIsNoDiagnosis) {
  CatchReadings r = table(1, "1, 8.1");
  for (CatchReading& c : r.readings) c.volume *= c.row < 12 ? 0.0 : 1.0;
  const std::string text = words(r);
  EXPECT_TRUE(holds(text, "Too few rows would be left to set aside what is doubtful")) << text;
  EXPECT_TRUE(holds(text, "Rows 1 to 11 gave nothing")) << text;
  EXPECT_TRUE(holds(text, "DIAGNOSIS: none made: fewer than half of the rows can be judged.")) << text;
}

// 231 in3 / 128 = 29.5735 ml (NIST Special Publication 811, appendix B).
TEST(CatchDoubtsText, ARatioOfUnitsIsNamed) {
  const std::string ml = words(table(0, "", "ml"));
  EXPECT_TRUE(
      ml.starts_with("THE WHOLE BAR IS LOW: every row collects some 97 % less than the layout says: that is 29.6 "
                     "times too little, the ratio of fl oz to ml: is the unit in the column of the volumes "
                     "right?"))
      << ml;
  EXPECT_TRUE(holds(ml, " 1. The stop-watch and the measure")) << ml;
  CatchReadings litres = table(0, "");
  for (CatchReading& c : litres.readings) c.volume *= 231.0 * 0.0254 * 0.0254 * 0.0254 * 1000.0;
  EXPECT_TRUE(holds(words(litres), "3.79 times too much, the ratio of gal to l"));
  CatchReadings minutes = table(0, "");
  for (CatchReading& c : minutes.readings) c.volume *= 60.0;
  EXPECT_TRUE(holds(words(minutes), "60 times too much, the ratio of minutes to seconds: is the time right (--time)?"));
  CatchReadings none = table(0, "");
  for (CatchReading& c : none.readings) c.volume *= 0.5;
  EXPECT_FALSE(holds(words(none), "the ratio of"));
}

TEST(CatchDoubtsText, ASlippedPointOfAWholeTableIsAskedFor) {
  for (const double slip : {10.0, 0.1}) {
    CatchReadings r = table(0, "");
    for (CatchReading& c : r.readings) c.volume *= slip;
    const std::string text = words(r);
    EXPECT_TRUE(holds(text, std::string("that is 10 times too ") + (slip > 1.0 ? "much" : "little") +
                                ": is a decimal point one place off, in the volumes or in --time?"))
        << text;
  }
}

TEST(CatchDoubtsText, AWholeBarThatIsOffIsOneGroupOfShares) {
  CatchReadings r = table(0, "");
  for (CatchReading& c : r.readings) c.volume *= 0.5;
  const std::string text = words(r);
  EXPECT_TRUE(holds(text, "DIAGNOSIS: 1 cause explains the cups.")) << text;
  EXPECT_TRUE(holds(text, "It is one of these (probability more than 99 % together)")) << text;
  for (const char* part : {"the gauge reads too high, or something behind it", "the watch or the measure is off",
                           "all rows have another orifice", "the product is thicker"}) {
    EXPECT_TRUE(holds(text, part)) << text;
  }
  EXPECT_FALSE(holds(text, "50.0 % (50.0 %")) << text;
}

TEST(CatchDoubtsText, WhatNothingExplainsIsGivenToNoPart) {
  EXPECT_TRUE(words(table(7, "7, 28")).starts_with("Look at the reading of row 7 first: 28 fl oz is 3.5 times what"));
  Diagnosis d;
  FoundCause f;
  f.unnamed = 0.97;
  f.likely.push_back(
      {.cause = {CatchCauseKind::orifice, 7, 0, 0, 2.0}, .low = 1.9, .high = 2.0, .probability = 0.03, .at_end = true});
  d.causes.push_back(f);
  const std::string text = diagnosis_text(d, bar(), 30.0, {.width = 2000});
  EXPECT_TRUE(holds(text, "1. Nothing that was tried explains row 7 well. The nearest:")) << text;
  EXPECT_TRUE(holds(text, "the end of what was tried")) << text;
  EXPECT_FALSE(holds(text, "robability")) << text;
  // One cause at the end of its range is not called sure, and two of the whole bar are not either.
  d.causes.front().unnamed = 0.0;
  d.causes.front().likely.front().probability = 1.0;
  EXPECT_TRUE(holds(diagnosis_text(d, bar(), 30.0, {.width = 2000}), "No probability is given."));
  d.causes.clear();
  for (const CatchCauseKind kind : {CatchCauseKind::viscosity, CatchCauseKind::orifice_set}) {
    FoundCause one;
    one.likely.push_back({.cause = {kind, 0, 0, 0, 0.8}, .low = 0.7, .high = 0.9, .probability = 1.0});
    d.causes.push_back(one);
  }
  const std::string two = diagnosis_text(d, bar(), 30.0, {.width = 2000});
  EXPECT_FALSE(holds(two, "99 %")) << two;
  EXPECT_TRUE(holds(two, "other causes of the whole bar may explain it as well")) << two;
}

TEST(CatchDoubtsText, JsonHasAllOfIt) {
  const CatchReadings r = table(4, "4, 0");
  const Json v = catch_verdict_to_json(judge_catch(bar(), r));
  EXPECT_EQ(v["rows_set_aside"], Json::array({4}));
  ASSERT_EQ(v["doubtful_readings"].size(), 1U);
  EXPECT_EQ(v["doubtful_readings"][0]["kind"], "nothing");
  EXPECT_EQ(v["doubtful_readings"][0]["where"], "cups.csv:5:1");
  EXPECT_EQ(v["rows"][3]["mark"], "set-aside");
  EXPECT_TRUE(v["rows"][3]["deviation_low"].is_null());
  EXPECT_TRUE(v["level"]["unit_slip_factor"].is_null());
  EXPECT_LT(v["with_all_readings"]["mean_m3"].get<double>(), v["mean_m3"].get<double>());
  const Json d = diagnosis_to_json(diagnose(bar(), {r}));
  EXPECT_TRUE(d["judged"].get<bool>());
  EXPECT_EQ(d["doubtful_readings"][0][0]["row"], 4);
}

TEST(CatchDoubtsText, ThePageSaysTheSame) {
  const CatchReadings r = table(4, "4, 0");
  const std::vector<CatchVerdict> v{judge_catch(bar(), r)};
  const Diagnosis d = diagnose(bar(), {r});
  const PageFindings found = catch_findings_part(v, &d, bar());
  EXPECT_FALSE(found.good);
  EXPECT_TRUE(found.sentence.starts_with("The cups say: Row 4 gave nothing: plugged, shut or not caught;"));
  const std::string& html = found.sections.at(0).html;
  EXPECT_TRUE(holds(html, "LOOK FIRST")) << html;
  EXPECT_TRUE(holds(html, "with it, as read")) << html;
  EXPECT_TRUE(holds(html, "row 4 (nothing caught)")) << html;
}

TEST(CatchDoubtsText, ChancesInWords) {
  using namespace report_detail;
  EXPECT_EQ(chance_text(0.0), "less than one in 10,000");
  EXPECT_EQ(chance_text(8.9e-6), "less than one in 10,000");
  EXPECT_EQ(chance_text(2.23e-3), "about one in 450");
  EXPECT_EQ(chance_text(0.84), "84 %");
  EXPECT_EQ(chance_text(1.0), "more than 99 %");
  EXPECT_EQ(sure_text(0.9999), "more than 99 %");
  EXPECT_EQ(sure_text(0.003), "less than 1 %");
  EXPECT_EQ(sure_text(0.85), "85 %");
  // Three thirds and a bit: rounded one by one they would be 99, or 102 of six sixths.
  EXPECT_EQ(share_texts({1.0 / 3, 1.0 / 3, 1.0 / 3}), (std::vector<std::string>{"34 %", "33 %", "33 %"}));
  EXPECT_EQ(share_texts({0.166, 0.166, 0.167, 0.167, 0.167, 0.167}),
            (std::vector<std::string>{"16 %", "16 %", "17 %", "17 %", "17 %", "17 %"}));
  EXPECT_EQ(share_texts({0.999, 0.0004}), (std::vector<std::string>{"more than 99 %", "less than 1 %"}));
  EXPECT_TRUE(share_texts({}).empty());
}

}  // namespace catch_doubts_text_test
}  // namespace libflow
