// SPDX-License-Identifier: MIT
/// @file
/// A catch test in words: which catch a table is of, what to check where the whole bar is off, one advice on the
/// liquid.

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_level_text.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace catch_text_test {

using test::holds;

using namespace units;

Layout example() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }

/// Cups of the bar at `real` when the gauge is said to show `said`; every volume times `share`.
CatchVerdict caught(Pressure real, std::optional<Pressure> said, double share = 1.0, bool water = false) {
  Layout bar = example();
  bar.job.pressure = real;
  if (water) {
    bar.job.liquid = find_liquid("water");
    bar.job.temperature = CatchSetup{}.water_temperature;
  }
  CatchReadings r{.time = 30.0 * s, .gauge = said};
  for (const RowResult& row : main_job(bar).evenness.rows) {
    for (int k = 1; k <= 3; ++k) {
      r.readings.push_back({.row = row.row,
                            .repeat = k,
                            .volume = share * row.flow * 30.0 * (1.0 + 0.01 * (k - 2)),
                            .where = "day/cups.csv:" + std::to_string(row.row) + ":1"});
    }
  }
  return judge_catch(example(), r);
}
/// On lines as wide as needed, so that phrases stay whole.
std::string words_of(const std::vector<CatchVerdict>& catches) { return catch_verdicts_text(catches, {.width = 2000}); }
/// The item that begins so, and its place in the list.
std::size_t place_of(const report_detail::LevelAdvice& advice, const std::string& begin) {
  for (std::size_t i = 0; i < advice.items.size(); ++i) {
    if (advice.items[i].starts_with(begin)) return i;
  }
  ADD_FAILURE() << "nothing begins with " << begin;
  return advice.items.size();
}

TEST(CatchText, ASoundBarIsBlamedForNothing) {
  const CatchVerdict v = caught(39.0 * psi, 39.0 * psi);
  EXPECT_TRUE(report_detail::level_advice({v}, UnitSystem::us).lead.empty());
  EXPECT_EQ(catch_sentence(v), "EVEN: every row reads within ±5 % of the mean.");
  EXPECT_TRUE(words_of({v}).starts_with("EVEN: every row"));
}

TEST(CatchText, TheWholeBarComesBeforeItsRows) {
  const CatchVerdict v = caught(14.0 * psi, 39.0 * psi);
  const std::string text = words_of({v});
  EXPECT_TRUE(text.starts_with("THE WHOLE BAR IS LOW: every row collects some ")) << text;
  EXPECT_TRUE(holds(text, "no source")) << text;
  EXPECT_TRUE(holds(text, "Would fit: 14.0")) << text;
  EXPECT_TRUE(holds(text, "instead of 39.00 psi")) << text;
  EXPECT_LT(text.find("The gauge, where the liquid enters the manifold"), text.find("EVEN:"));
  EXPECT_TRUE(holds(catch_sentence(v), "; BUT every row collects some ")) << catch_sentence(v);
  const auto advice = report_detail::level_advice({v}, UnitSystem::us);
  EXPECT_EQ(place_of(advice, "The gauge"), 0U);
  EXPECT_EQ(place_of(advice, "The stop-watch"), 1U);
  place_of(advice, "Between gauge and rows");
  place_of(advice, "The orifices");
  // Water would make it more: that is not asked of a bar that is low.
  EXPECT_FALSE(holds(advice.items[place_of(advice, "The liquid")], "water"));
}

TEST(CatchText, WithoutAGaugeReadingThatIsSaidFirst) {
  const CatchVerdict v = caught(14.0 * psi, std::nullopt);
  EXPECT_TRUE(holds(words_of({v}), "no reading was given"));
  EXPECT_TRUE(holds(words_of({v}), "no gauge reading given, 39.04 psi taken"));
}

TEST(CatchText, WaterInPlaceOfTheProductIsFirstWhereItFits) {
  const CatchVerdict v = caught(39.0 * psi, 39.0 * psi, 1.0, true);
  const auto advice = report_detail::level_advice({v}, UnitSystem::us);
  EXPECT_TRUE(advice.lead.starts_with("THE WHOLE BAR IS HIGH"));
  EXPECT_EQ(place_of(advice, "The liquid: was it water, not the product?"), 0U);
  EXPECT_TRUE(holds(advice.items.front(), ": that fits.")) << advice.items.front();
}

TEST(CatchText, TwoCatchesTellASlipOfTheWatchFromOneOfTheGauge) {
  // The same share of both catches, as of a watch: no gauge is wrong by one share in both, because the valves' springs
  // take more of the low pressure.
  const auto watch = report_detail::level_advice(
      {caught(39.0 * psi, 39.0 * psi, 0.38), caught(15.0 * psi, 15.0 * psi, 0.38)}, UnitSystem::us);
  EXPECT_EQ(place_of(watch, "The stop-watch"), 0U);
  EXPECT_FALSE(holds(watch.items[0], "does not fit both"));
  EXPECT_TRUE(holds(watch.items[0], "11.4 s instead of 30 s in both catches")) << watch.items[0];
  EXPECT_TRUE(holds(watch.items[place_of(watch, "The gauge")], "does not fit both catches"));
  // A gauge that shows double.
  const auto gauge =
      report_detail::level_advice({caught(19.5 * psi, 39.0 * psi), caught(7.5 * psi, 15.0 * psi)}, UnitSystem::us);
  EXPECT_EQ(place_of(gauge, "The gauge"), 0U);
  EXPECT_FALSE(holds(gauge.items[0], "does not fit both"));
  EXPECT_TRUE(holds(gauge.items[place_of(gauge, "The stop-watch")], "does not fit both catches"));
}

TEST(CatchText, EachOfTwoTablesHasItsTitle) {
  const std::vector<CatchVerdict> two{caught(39.0 * psi, 39.0 * psi), caught(15.0 * psi, 15.0 * psi)};
  const std::string text = words_of(two);
  const std::size_t first = text.find("FIRST CATCH  cups.csv: the product, gauge at 39.00 psi, 30 s each"),
                    second = text.find("SECOND CATCH  cups.csv: the product, gauge at 15.00 psi, 30 s each");
  ASSERT_NE(first, std::string::npos) << text;
  ASSERT_NE(second, std::string::npos) << text;
  EXPECT_LT(first, second);
  EXPECT_TRUE(holds(text, "the row's share of the total")) << "what the last column is";
  EXPECT_EQ(
      catch_sentence(two),
      "First catch: EVEN: every row reads within ±5 % of the mean. Second catch: EVEN: every row reads within ±5 % "
      "of the mean.");
}

TEST(CatchText, TheSheetExplainsItsStripAndFollowsTheUnits) {
  const CatchPlan plan = plan_catch(example());
  const std::string us = catch_plan_text(plan, {.units = UnitSystem::us, .width = 2000});
  EXPECT_TRUE(holds(us, "1/128 of an acre for each row. Drive 'strip ft'")) << us;
  EXPECT_TRUE(holds(us, "fluid ounces are then the row's gallons per acre")) << us;
  const std::string metric = catch_plan_text(plan, {.units = UnitSystem::metric, .width = 2000});
  EXPECT_FALSE(holds(metric, "fl oz") || holds(metric, "acre")) << metric;
  EXPECT_TRUE(holds(metric, "mL")) << metric;
  // 31.6 m2 of 1 L/ha are 3.16 mL (a hectare is 10,000 m2).
  EXPECT_TRUE(holds(metric, "divided by 3.16 are then the row's L/ha")) << metric;
  const std::string sheet = catch_plan_section(plan, {.units = UnitSystem::metric}).html;
  EXPECT_TRUE(holds(sheet, "[mL]") && !holds(sheet, "fl oz")) << sheet;
}

TEST(CatchText, OneAdviceOnTheLiquid) {
  const CatchPlan plan = plan_catch(example());
  const std::string advice = report_detail::catch_liquid_advice();
  EXPECT_TRUE(holds(catch_plan_text(plan, {.width = 2000}), advice));
  EXPECT_TRUE(holds(catch_plan_section(plan).html, advice));
  EXPECT_FALSE(holds(catch_plan_text(plan, {.width = 2000}), "begin with water"));
}

TEST(CatchText, TheSheetsPageBeginsWithTheSheet) {
  const std::string page = catch_plan_page(plan_catch(example()), {}, {.file = "bar.toml", .date = "2026-11-26"});
  EXPECT_TRUE(holds(page, "bar.toml, 2026-11-26"));
  EXPECT_LT(page.find("<h2 id=\"catch\">"), page.find("<h2 id=\"product\">"));
  for (const char* other : {"id=\"rows\"", "id=\"toolbar\"", "id=\"pressure\""})
    EXPECT_FALSE(holds(page, other)) << other;
}

TEST(CatchText, APlanWithNothingToCautionHasNoSuchSection) {
  CatchPlan plan = plan_catch(example());
  EXPECT_TRUE(holds(catch_plan_page(plan), "<h2 id=\"cautions\">"));
  Answer& a = plan.product;
  for (Cautions* list : {&a.liquid.cautions, &a.solution.cautions, &a.evenness.cautions}) list->clear();
  EXPECT_FALSE(holds(catch_plan_page(plan), "<h2 id=\"cautions\">"));
}

TEST(CatchText, FindingsLeadThePageOfTheLayout) {
  const std::vector<CatchVerdict> low{caught(14.0 * psi, 39.0 * psi)};
  const PageFindings found = catch_findings_part(low, nullptr, example());
  EXPECT_FALSE(found.good) << "even, but far too little";
  const std::string page = layout_page(main_job(example()), {}, {}, found);
  const std::size_t box = page.find("<h1>The cups say: EVEN"), predicted = page.find("The layout predicts: EVEN");
  ASSERT_NE(box, std::string::npos);
  ASSERT_NE(predicted, std::string::npos);
  EXPECT_LT(box, predicted);
  EXPECT_LT(page.find("<h2 id=\"catch-test\">"), page.find("<h2 id=\"rows\">"));
  EXPECT_TRUE(holds(page, "THE WHOLE BAR IS LOW"));
}

// Free plumbing has no manifold and no rows alike: what is asked names no pressure and no bore.
TEST(CatchText, ABarGivenPlaceByPlaceIsAskedWithoutFigures) {
  const Layout tees = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "tees.toml");
  CatchReadings r{.time = 30.0 * s};
  for (const RowResult& row : main_job(tees).evenness.rows) {
    r.readings.push_back({.row = row.row, .repeat = 1, .volume = 0.5 * row.flow * 30.0});
  }
  const CatchVerdict v = judge_catch(tees, r);
  const auto advice = report_detail::level_advice({v}, UnitSystem::us);
  EXPECT_TRUE(advice.lead.starts_with("THE WHOLE BAR IS LOW: every row collects some 50 % less")) << advice.lead;
  for (const char* item : {"The gauge: does it show zero without pressure, and did it stand at the layout's pressure",
                           "The liquid: was it the one that was said, water or product, and as warm?",
                           "The orifices: is it the set that the layout names? Read the size on them."}) {
    EXPECT_FALSE(holds(advice.items.at(place_of(advice, item)), "Would fit")) << item;
  }
}

TEST(CatchText, WhatPullsTheOtherWayIsNotAsked) {
  // Too much, caught with water: the product would make it less, and nothing that is blocked makes it more.
  const Layout bar = example();
  CatchReadings r{.time = 30.0 * s, .water = true, .gauge = 39.0 * psi};
  for (const RowCatch& row : caught(39.0 * psi, 39.0 * psi, 1.0, true).rows) {
    r.readings.push_back({.row = row.row, .repeat = 1, .volume = 2.0 * row.mean});
  }
  const auto advice = report_detail::level_advice({judge_catch(bar, r)}, UnitSystem::us);
  EXPECT_TRUE(advice.lead.starts_with("THE WHOLE BAR IS HIGH: every row collects some 100 % more")) << advice.lead;
  EXPECT_EQ(advice.items.size(), 3U);
  for (const std::string& item : advice.items) {
    EXPECT_FALSE(item.starts_with("The liquid") || item.starts_with("Between gauge and rows")) << item;
  }
}

TEST(CatchText, OneRowThatPullsTheMeanIsNamed) {
  // Row 12 gives 15 %: the mean of all falls by 0.85/16, and the others read 5 to 6 % above it.
  CatchReadings r{.time = 30.0 * s, .gauge = 39.0 * psi};
  for (int k = 1; k <= 16; ++k) {
    r.readings.push_back({.row = k, .repeat = 1, .volume = (k == 12 ? 1.2 : k % 2 == 0 ? 8.0 : 8.1) * si(floz)});
  }
  const std::string sentence = catch_sentence(judge_catch(example(), r));
  EXPECT_TRUE(sentence.starts_with("NOT EVEN: rows 1, 3, 5, 7, 9, 11 to 13, 15 read outside ±5 %") ||
              sentence.starts_with("NOT EVEN: rows 1, 3, 5, 7, 9, 11, 12, 13, 15 read outside ±5 %"))
      << sentence;
  EXPECT_TRUE(holds(sentence, "look at row 12 first: it alone pulls the mean, and without it all others read within"))
      << sentence;
}

// Plumbing that is fed by a flow has no pressure to keep: with water it is the flow that stays.
TEST(CatchText, WhereTheFlowIsGivenWaterKeepsTheTotal) {
  const CatchPlan plan = plan_catch(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "free_form.toml"));
  ASSERT_FALSE(plan.water_at_same_pressure);
  const std::string text = catch_plan_text(plan, {.units = UnitSystem::us, .width = 2000});
  EXPECT_TRUE(holds(text, "With water, keep the same total: its pressure is then " +
                              format(from_si<Pressure>(plan.water.evenness.supply_pressure), UnitSystem::us) + "."))
      << text;
  EXPECT_FALSE(holds(text, "keep the same pressure")) << text;
}

TEST(CatchText, OneVerdictAloneIsTheListOfIt) {
  const CatchVerdict v = caught(39.0 * psi, 39.0 * psi);
  EXPECT_EQ(catch_verdict_text(v, {.width = 100}), catch_verdicts_text({v}, {.width = 100}));
  CatchSetup once;
  once.repeats = 1;
  once.time = 45.0 * s;
  EXPECT_TRUE(catch_plan_text(plan_catch(example(), once)).starts_with("CATCH TEST: 45 s under each row, 1 time\n"));
}

}  // namespace catch_text_test
}  // namespace libflow
