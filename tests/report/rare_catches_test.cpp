// SPDX-License-Identifier: MIT
/// @file
/// Catch tests and diagnoses that are rare: catches that disagree about the whole bar, readings without a unit, faults
/// of the other sign.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/catch_doubts_text.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_level_text.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace rare_catches_test {

using namespace units;
using report_detail::LevelAdvice;
using test::holds;
using test::says;

static Layout example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

/// The 16 rows of equal hoses, caught as the layout says, the gauge at 39 psi.
static const CatchVerdict& sound() {
  static const CatchVerdict verdict = [] {
    CatchReadings r{.time = 30.0 * s, .gauge = 39.0 * psi};
    for (int row = 1; row <= 16; ++row) r.readings.push_back({.row = row, .repeat = 1, .volume = 8.07 * si(floz)});
    return judge_catch(example("equal_hoses.toml"), r);
  }();
  return verdict;
}
/// The same with the whole bar off.
static CatchVerdict off(double change, bool water = false) {
  CatchVerdict v = sound();
  v.water = water;
  v.level = {};
  v.level.change = change;
  v.level.off = v.level.every_row = true;
  v.level.time = 30.0 * (1.0 + change);
  v.level.other_liquid = 0.0;
  return v;
}
static LevelAdvice advice_on(const std::vector<CatchVerdict>& catches) {
  return report_detail::level_advice(catches, UnitSystem::us);
}
/// The item that begins so; empty where none does.
static std::string item(const LevelAdvice& advice, const std::string& begin) {
  for (const std::string& one : advice.items) {
    if (one.starts_with(begin)) return one;
  }
  return {};
}
static const LevelSlip& slip(double least) {
  for (const LevelSlip& one : level_slips()) {
    if (one.factor > least) return one;
  }
  return level_slips().front();
}

TEST(RareLevels, WhoIsOffAndWhichWay) {
  CatchVerdict v = off(0.2);
  v.even = false;
  EXPECT_EQ(report_detail::level_phrase(v), "; and every row collects some 20 % more than the layout says");
  v.even = true;
  v.level.change = -0.2;
  v.level.every_row = false;
  EXPECT_EQ(report_detail::level_phrase(v), "; BUT the middle row collects 20 % less than the layout says");
}

TEST(RareLevels, EachOfTwoCatchesIsNamedWhereTheyDiffer) {
  EXPECT_TRUE(advice_on({off(-0.2), off(-0.2)})
                  .lead.starts_with("THE WHOLE BAR IS LOW: every row collects some 20 % less than the layout says in "
                                    "both catches."));
  const std::string at = " in the catch at 39.00 psi";
  const LevelAdvice two = advice_on({off(-0.2), off(-0.3, true)});
  EXPECT_TRUE(two.lead.starts_with("THE WHOLE BAR IS LOW: every row collects some 20 % less than the layout says" + at +
                                   ", every row collects some 30 % less than the layout says" + at + " with water."))
      << two.lead;
}

TEST(RareLevels, ARatioOfUnitsIsAskedForOnlyWhereAllCatchesShowIt) {
  const auto with = [](double change, const std::optional<LevelSlip>& ratio) {
    CatchVerdict v = off(change);
    v.level.slip = ratio;
    return v;
  };
  const LevelSlip& ounces = slip(20.0);
  const CatchVerdict little = with(1.0 / ounces.factor - 1.0, ounces);
  EXPECT_TRUE(holds(advice_on({little, little}).lead, std::string(" times too little, the ratio of ") + ounces.of));
  for (const CatchVerdict& other : {with(-0.9, std::nullopt), with(-0.9, LevelSlip{.factor = 10.0, .of = "a point"}),
                                    with(ounces.factor - 1.0, ounces)}) {
    EXPECT_FALSE(holds(advice_on({little, other}).lead, "the ratio of")) << advice_on({little, other}).lead;
  }
}

TEST(RareLevels, APressureThatFitsOneCatchIsToldOfThatOne) {
  CatchVerdict one = off(-0.2), none = off(-0.3);
  one.level.gauge = si(25.0 * psi);
  const std::string gauge = item(advice_on({one, none}), "The gauge");
  EXPECT_TRUE(holds(gauge,
                    "Would fit: 25.00 psi instead of 39.00 psi in the catch at 39.00 psi, none in the catch at "
                    "39.00 psi. One and the same slip does not fit both catches."))
      << gauge;
}

TEST(RareLevels, TheLayoutDecidesWhatIsAsked) {
  CatchVerdict v = off(-0.2);
  EXPECT_FALSE(holds(item(advice_on({v}), "The stop-watch"), "all outlets"));
  EXPECT_NE(item(advice_on({v}), "The orifices"), "");
  Toolbar& bar = std::get<Toolbar>(v.answer.layout.plumbing);
  bar.outlets_per_row = 2;
  bar.orifice.reset();
  EXPECT_TRUE(holds(item(advice_on({v}), "The stop-watch"), " Were all outlets of a row in one cup?"));
  EXPECT_EQ(item(advice_on({v}), "The orifices"), "") << "there are none";
}

TEST(RareLevels, TheOtherLiquidIsAskedForWhereItPullsThatWay) {
  CatchVerdict v = off(-0.2, true);
  v.level.other_liquid = -0.2;
  const std::string liquid = item(advice_on({v}), "The liquid: ");
  EXPECT_EQ(liquid, "The liquid: was it the product, not water? The product would make -20 %: that fits.");
  v.level.other_liquid = -0.01;
  EXPECT_EQ(item(advice_on({v}), "The liquid"), "") << "a hundredth is no reason";
  // Of the product: how thick it may be.
  v = off(-0.2);
  v.level.other_liquid = 0.3;
  EXPECT_FALSE(holds(item(advice_on({v}), "The liquid"), "The band of its viscosity"));
  v.level.thickest = -0.3;
  v.level.thinnest = 0.1;
  EXPECT_TRUE(item(advice_on({v}), "The liquid: is the product colder or thicker")
                  .ends_with(" The band of its viscosity reaches as far: that alone may be it."))
      << item(advice_on({v}), "The liquid");
}

static std::string doubted(const DoubtfulReading& d) {
  CatchVerdict v = sound();
  v.doubts = {d};
  return report_detail::doubt_sentences(v, UnitSystem::us).at(0);
}

TEST(RareDoubts, AReadingThatIsNoPlainNumberIsPutRightInTheLayoutsUnit) {
  DoubtfulReading d{.kind = ReadingDoubt::slipped_point, .row = 4, .cups = 1, .whole_row = true};
  d.volume = 80.5 * si(floz);
  d.fits = 8.05 * si(floz);
  d.factor = 10.0;
  const auto looks = [&](const std::string& written, const std::string& right) {
    d.written = written;
    EXPECT_EQ(doubted(d), "Look at the reading of row 4 first: " + written + " looks like " + right +
                              " with a slipped decimal point.");
  };
  looks("80.5 fl oz", "8.05 fl oz");
  looks("805 ml", "80.5 ml");
  looks("80.5", "8.05 fl oz");
  looks("161/2 fl oz", "8.05 fl oz");
  looks("eighty", "8.05 fl oz");
  // One cup of several a tenth of the others: the row is not nearly plugged.
  d.factor = 0.1;
  d.written = "0.805 fl oz";
  EXPECT_TRUE(holds(doubted(d), "; if it is right, the row is nearly plugged"));
  d.whole_row = false;
  EXPECT_EQ(doubted(d),
            "Look at row 4's readings first: 0.805 fl oz looks like 8.05 fl oz with a slipped decimal point.");
}

TEST(RareDoubts, RowsThatWereCaughtLessOftenAreCounted) {
  CatchVerdict v = sound();
  for (RowCatch& c : v.rows) c.cups = c.row == 1 ? 1 : c.row <= 3 ? 2 : 3;
  EXPECT_EQ(report_detail::cups_note(v),
            "Row 1 was caught once, rows 2, 3 were caught twice, the other rows 3 times: all cups of a row count, as "
            "their mean.");
  EXPECT_TRUE(holds(catch_findings_part({v}, nullptr, v.answer.layout).sections.at(0).html, "Row 1 was caught once"));
}

TEST(RareCatches, EachOfManyHasItsNumber) {
  EXPECT_EQ(report_detail::which_catch(0, 1), "catch");
  EXPECT_EQ(report_detail::which_catch(2, 4), "third catch");
  EXPECT_EQ(report_detail::which_catch(3, 4), "catch 4");
  EXPECT_EQ(catch_verdicts_text({}), "");
  EXPECT_TRUE(holds(report_detail::catch_setting_text(off(-0.2, true), UnitSystem::us), "water, gauge at 39.00 psi"));
}

TEST(RareCatches, SeveralRowsWithoutACupAndOutsideOfTheOthers) {
  CatchVerdict v = sound();
  v.even = false;
  v.missing = {5, 6};
  EXPECT_TRUE(catch_sentence(v).ends_with("; rows 5, 6 have no cup.")) << catch_sentence(v);
  v.missing = {5};
  v.rows_set_aside = {4};
  v.outside = {7};
  EXPECT_TRUE(catch_sentence(v).starts_with("NOT EVEN: without row 4, row 7 reads outside ±5 % of the others' mean"))
      << catch_sentence(v);
  EXPECT_TRUE(holds(catch_sentence(v), "; row 5 has no cup"));
}

// A strip of another size has no short rule in gallons; in litres every strip has one: 10 m2 of 1 L/ha are 1 mL.
TEST(RareCatches, TheStripsRuleIsThatOfItsSize) {
  CatchSetup setup;
  setup.repeats = 1;
  CatchPlan plan = plan_catch(example("equal_hoses.toml"), setup);
  EXPECT_TRUE(
      holds(report_detail::strip_text(plan, UnitSystem::us), "fluid ounces are then the row's gallons per acre"));
  plan.setup.strip = from_si<Area>(10.0);
  EXPECT_FALSE(holds(report_detail::strip_text(plan, UnitSystem::us), "gallons per acre"));
  EXPECT_TRUE(holds(report_detail::strip_text(plan, UnitSystem::metric), "mL divided by 1 are then the row's L/ha"));
  const std::string sheet = catch_plan_section(plan, {.units = UnitSystem::us}).html;
  EXPECT_TRUE(holds(sheet, "the product 1 time; row 1")) << sheet;
  EXPECT_TRUE(holds(sheet, "1 reading good to " + report_detail::percent(setup.cup_error()) + " proves one row off"))
      << sheet;
  plan.provable_row = 0.0;
  EXPECT_FALSE(holds(catch_plan_section(plan).html, "one row off"));
  EXPECT_FALSE(says(catch_plan_text(plan), "What the cups can prove"));
}

TEST(RareCatches, ABarThatRunsOnWaterHasOneColumnOfIt) {
  Layout layout = example("equal_hoses.toml");
  layout.job.liquid = find_liquid("water");
  const CatchPlan plan = plan_catch(layout);
  const std::string sheet = catch_plan_section(plan, {.units = UnitSystem::us}).html;
  EXPECT_TRUE(holds(sheet, "water [fl oz]")) << sheet;
  EXPECT_FALSE(holds(sheet, "product [fl oz]")) << sheet;
  EXPECT_FALSE(holds(sheet, "Catch twice: first with water")) << sheet;
  EXPECT_FALSE(holds(sheet, "with water and with the product")) << sheet;
}

TEST(RareCatches, APageOfABarThatIsOffSaysThatFirst) {
  CatchVerdict v = off(-0.2);
  const Diagnosis none;
  const PageFindings found = catch_findings_part({v}, &none, v.answer.layout);
  EXPECT_FALSE(found.good) << "even, but the whole bar is low";
  EXPECT_TRUE(holds(found.sections.at(0).html, "First find out why the whole bar is off")) << found.sections.at(0).html;
  EXPECT_TRUE(catch_findings_part({sound()}, &none, v.answer.layout).good);
  // Nothing set aside: there is one mean only.
  v.doubts = {{.kind = ReadingDoubt::nothing, .row = 4, .cups = 1, .whole_row = true}};
  EXPECT_TRUE(holds(catch_findings_part({v}, nullptr, v.answer.layout).sections.at(0).html, "with it, as read"));
  v.doubts_set_aside = false;
  EXPECT_FALSE(holds(catch_findings_part({v}, nullptr, v.answer.layout).sections.at(0).html, "with it, as read"));
}

static std::string phrase(const Layout& layout, const CatchCause& cause) {
  return report_detail::cause_phrase(layout, {.cause = cause, .probability = 0.9}, UnitSystem::us);
}

TEST(RareDiagnoses, AGaugeThatReadsTooLowAndOrificesOfNoBore) {
  Layout layout = example("equal_hoses.toml");
  EXPECT_EQ(phrase(layout, {CatchCauseKind::gauge, 0, 0, 0, 1.2}),
            "the gauge reads too low: the true pressure at the bar is 120.0 % of its reading");
  std::get<Toolbar>(layout.plumbing).orifice.reset();
  EXPECT_EQ(phrase(layout, {CatchCauseKind::orifice_set, 0, 0, 0, 1.1}),
            "all rows have another orifice: 110.0 % of the layout's bore");
}

// Row 1 shut: the schedule is that of the rows that run, which are alike on the other side of the bar.
TEST(RareDiagnoses, AScheduleIsToldWithoutAFirstRowThatIsShut) {
  Layout layout = example("short_hoses.toml");
  const CatchCause half{CatchCauseKind::hose_schedule, 0, 0, 0, 0.5};
  const std::string open = phrase(layout, half);
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 1, .shut = true}};
  EXPECT_EQ(phrase(layout, half), open);
}

TEST(RareDiagnoses, WhatIsNotExplainedNamesTheNearestFour) {
  const Layout layout = example("equal_hoses.toml");
  Diagnosis d;
  FoundCause f;
  f.unnamed = 0.7;
  for (const double size : {0.90, 0.91, 0.92, 0.93, 0.94}) {
    f.likely.push_back({.cause = {CatchCauseKind::orifice, 5, 0, 0, size}, .probability = 0.05});
  }
  f.likely.insert(f.likely.begin() + 1, {.cause = {CatchCauseKind::orifice, 6, 0, 0, 0.9}, .probability = 0.05});
  d.causes.push_back(f);
  const auto words = report_detail::cause_words(d, 0, layout, UnitSystem::us, 30.0);
  ASSERT_EQ(words.items.size(), 4U);
  for (const std::string& one : words.items) EXPECT_TRUE(one.starts_with("row 5's orifice")) << one;
}

// What is wrong with the whole bar is not clear: each size of a row is told with what it goes with.
TEST(RareDiagnoses, ARowsSizeSaysWhatItTakesTheWholeBarFor) {
  using Of = CatchCauseKind;
  const Layout layout = example("equal_hoses.toml");
  const CatchCause gauge{Of::gauge, 0, 0, 0, 0.6}, set{Of::orifice_set, 0, 0, 0, 0.7};
  const CatchCause orifice{Of::orifice, 5, 0, 0, 1.3}, hose{Of::hose_bore, 5, 0, 0, 1.4};
  Diagnosis d;
  d.causes.resize(2);
  d.causes[0].likely = {{.cause = orifice, .probability = 0.5, .others = {gauge}},
                        {.cause = hose, .probability = 0.4, .others = {{Of::check_valve, 9, 0, 0, 1e4}, set}}};
  d.causes[1].likely = {{.cause = gauge, .probability = 0.5, .others = {orifice}},
                        {.cause = set, .probability = 0.4, .others = {hose}}};
  const auto items = [&](std::size_t k) {
    return report_detail::cause_words(d, k, layout, UnitSystem::us, 30.0).items;
  };
  EXPECT_TRUE(items(0).at(0).ends_with(", where the whole bar's fault is the gauge (50 %)")) << items(0).at(0);
  EXPECT_TRUE(items(0).at(1).ends_with(", where the whole bar's fault is the orifice set (40 %)")) << items(0).at(1);
  for (const std::string& one : items(1)) EXPECT_EQ(one.find("where the whole bar"), std::string::npos) << one;
  // Two faults of the whole bar at once.
  d.causes[0].likely[1].others = {gauge, set};
  EXPECT_TRUE(items(0).at(1).ends_with(", where the whole bar's fault is the gauge and the orifice set (40 %)"))
      << items(0).at(1);
  // It is clear: nothing is said of it.
  d.causes[1].likely.pop_back();
  for (const std::string& one : items(0)) EXPECT_EQ(one.find("where the whole bar"), std::string::npos) << one;
}

TEST(RareDiagnoses, TheBuiltLayoutSaysWhatIsNotPutIn) {
  const Layout layout = example("equal_hoses.toml");
  Diagnosis d;
  EXPECT_EQ(report_detail::calibrated_reasons(d, layout, UnitSystem::us).at(1),
            "- nothing: no cause. The cups agree with the layout as far as reading error and sound parts let them.");
  for (const CatchCauseKind kind : {CatchCauseKind::gauge, CatchCauseKind::measure, CatchCauseKind::density}) {
    FoundCause f;
    f.likely.push_back({.cause = {kind, 0, 0, 0, 0.9}, .probability = 0.97});
    d.causes.push_back(f);
  }
  d.doubts = {{{.kind = ReadingDoubt::nothing, .row = 4}}};
  const auto why = report_detail::calibrated_reasons(d, layout, UnitSystem::us);
  ASSERT_EQ(why.size(), 5U);
  const std::string left_out = "; left out: it is not known of the bar itself";
  EXPECT_TRUE(why[1].ends_with(left_out) && why[2].ends_with(left_out));
  EXPECT_TRUE(why[3].ends_with("(97 %)")) << why[3];
  EXPECT_EQ(why[4], "Set aside and not put in: row 4 (nothing caught)");
}

}  // namespace rare_catches_test
}  // namespace libflow
