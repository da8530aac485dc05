// SPDX-License-Identifier: MIT
/// @file
/// Comparisons, faults, fills and order lists that are rare: what is shut or without an answer, what was stopped, what
/// of several layouts is the same and what is not.
#include <gtest/gtest.h>

#include <cstddef>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/report/compare_points_text.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/report/dealer_sections.hpp>
#include <libflow/report/drawdown_text.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/demo_answer.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace rare_studies_test {

using namespace units;
using test::demo_answer;
using test::holds;
using test::one_line;
using test::says;

static Layout small_bar(int rows = 6) {
  Toolbar t = test::plain_bar(rows);
  t.hose_bore = 6.0 * mm;
  Layout layout{.name = "small bar", .job = test::plain_job(), .plumbing = t};
  layout.job.pump_limit = 20.0 * bar;
  return layout;
}
/// All lines of a text, in words.
static std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(one_line(line));
  return lines;
}
static std::size_t count_of(const std::string& text, const std::string& begin) {
  std::size_t n = 0;
  for (const std::string& line : lines_of(text)) n += line.starts_with(begin) ? 1U : 0U;
  return n;
}

/// A free form that is fed: two rows with holes of 2 mm, and one such hole that is no row's.
static Layout leaking(double hole_mm) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_fed("feed", 1.0 * L_per_min);
  n.add_air("elsewhere");
  n.add_part("leak", "feed", "elsewhere", Orifice{.bore = hole_mm * mm});
  for (int row = 1; row <= 2; ++row) {
    const std::string name = "row " + std::to_string(row);
    const auto air = n.add_air(name);
    const auto hole = n.add_part(name + " hole", "feed", name, Orifice{.bore = 2.0 * mm});
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = 0.0,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {}});
  }
  return {.name = "leaking", .units = UnitSystem::metric, .job = test::plain_job(), .plumbing = p};
}

// Three holes alike: a third of the wanted 100 L/ha goes elsewhere.
TEST(RareComparisons, ALayoutThatGivesAThirdElsewhereSaysSoFirst) {
  const Comparison c = compare({leaking(2.0), leaking(0.2)});
  const auto said = rate_not_reached_sentences(c, UnitSystem::metric);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(
      said.front(),
      "RATE NOT REACHED: A, 'leaking', does not give 100.0 L/ha: what the layout holds gives 33.3 % less than the "
      "wanted rate. It is compared at the 66.7 L/ha that it gives.");
}

TEST(RareComparisons, ARowThatIsShutInTheFirstHasNoDifference) {
  const Layout open = small_bar(3);
  Layout shut = open;
  std::get<Toolbar>(shut.plumbing).row_changes = {{.row = 2, .shut = true}};
  const std::string two = comparison_text(compare({shut, open}));
  const std::string three = comparison_text(compare({shut, open, open}));
  for (const std::string& text : {two, three}) {
    bool found = false;
    for (const std::string& line : lines_of(text)) {
      if (!line.starts_with("2 ") || !holds(line, "shut")) continue;
      found = true;
      EXPECT_TRUE(line.ends_with(" -")) << line;
    }
    EXPECT_TRUE(found) << text;
  }
}

// Four of five columns of "NOT EVEN, not sure" do not fit beside each other into 80.
TEST(RareComparisons, SummariesStandBelowEachOtherWhereTheyAreTooWide) {
  Comparison c;
  for (int k = 0; k < 5; ++k) {
    c.answers.push_back(demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08));
    c.answers.back().viscosity_band = {{.viscosity = 0.2, .upper = true, .solved = true, .even = true}};
  }
  const std::string text = comparison_text(c, {.width = 80});
  EXPECT_LE(report_detail::widest_line(text), 80U) << text;
  EXPECT_GE(count_of(text, "Verdict NOT EVEN, not sure"), 2U) << text;
}

TEST(RareComparisons, CautionsOfSeveralAreToldApartByWhatTheySay) {
  Comparison c = test::demo_comparison();
  for (Answer& a : c.answers) a.evenness.cautions.clear();
  c.answers[0].liquid.cautions = {
      {"one-point-density", c.answers[0].liquid.name, "It is known at 60 F only", 0, 0, ""}};
  c.answers[1].liquid.cautions = {
      {"one-point-density", c.answers[1].liquid.name, "It is known at 70 F only", 0, 0, ""}};
  c.answers[1].evenness.cautions.push_back({"assumed-pressure-limit", "", "60 psi is assumed", 0, 0, ""});
  const std::string text = comparison_text(c);
  EXPECT_TRUE(says(text, "It is known at 60 F only.") && says(text, "It is known at 70 F only.")) << text;
  EXPECT_TRUE(says(text, " - 60 psi is assumed.")) << "of no part\n" << text;
}

TEST(RareComparisons, APageOfTwoNamesTheLayoutOfACaution) {
  Comparison c = compare({small_bar(2), small_bar(2)});
  for (Answer& a : c.answers) {
    a.evenness.causes.clear();
    a.evenness.cautions.clear();
    a.liquid.cautions.clear();
  }
  EXPECT_FALSE(holds(comparison_page(c), "<h2 id=\"cautions\">"));
  EXPECT_TRUE(holds(comparison_page(c), "what decides it</th><td>-</td><td>-</td>")) << comparison_page(c);
  c.answers[1].evenness.cautions = {{"assumed-pressure-limit", "", "60 psi is assumed", 0, 0, ""}};
  EXPECT_TRUE(holds(comparison_page(c), "<li>small bar: 60 psi is assumed.</li>")) << comparison_page(c);
}

TEST(RarePages, WhereStudiesAreStoppedTheRestIsMissing) {
  Layout layout = small_bar(2);
  const Answer a = main_job(layout);
  const char* const ids[] = {"range", "faults", "order", "card"};
  for (std::size_t stop = 1; stop <= 4; ++stop) {
    const std::string page = dealer_page(layout, a, {}, [&](std::size_t done, std::size_t) { return done < stop; });
    EXPECT_TRUE(holds(page, "The studies after this were stopped by the user."));
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_EQ(holds(page, std::string("<h2 id=\"") + ids[k] + "\">"), k < stop) << stop << " " << ids[k];
    }
    EXPECT_FALSE(holds(page, "<h2 id=\"catch\">"));
  }
}

TEST(RarePoints, WhatWasStoppedRanksNothing) {
  PointComparison c;
  EXPECT_EQ(compare_points_text(c), "STOPPED: nothing is done.\n");
  c = compare_points({small_bar(2), small_bar(2)});
  c.complete = false;
  EXPECT_EQ(compare_points_sentence(c, UnitSystem::us), "STOPPED: not every layout is done, nothing is ranked.");
}

TEST(RarePoints, AsManyPointsButMoreEvenAtThem) {
  PointComparison c = compare_points({small_bar(2), small_bar(2)});
  c.layouts[0].layout.name = "A bar";
  c.layouts[0].cv = 0.01;
  c.layouts[1].cv = 0.03;
  c.best = 0;
  c.worst = 1;
  c.deciding_cause.clear();
  EXPECT_EQ(
      compare_points_sentence(c, UnitSystem::us),
      "'A bar' is the better one: even at 1 of 1 points against 1 for 'small bar'; worst CV 1.0 % against 3.0 %.");
  // Where no point is run by both there is no CV to compare.
  c.layouts[1].even = 0;
  c.shared = 0;
  EXPECT_EQ(compare_points_sentence(c, UnitSystem::us),
            "'A bar' is the better one: even at 1 of 1 points against 0 for 'small bar'.");
  // Of three there is a best one.
  c.layouts.push_back(c.layouts[1]);
  EXPECT_EQ(compare_points_sentence(c, UnitSystem::us),
            "'A bar' is the best one: even at 1 of 1 points against 0 for 'small bar'.");
}

TEST(RarePoints, AHoseThatOneHasAloneIsNoneOfTheOther) {
  Layout wide = small_bar(2);
  std::get<Toolbar>(wide.plumbing).hose_bore = 8.0 * mm;
  Layout warm = small_bar(2);
  warm.job.liquid = find_liquid("10-34-0");
  wide.job.liquid = find_liquid("10-34-0");
  wide.job.temperature = celsius(5);
  const PointComparison c = compare_points({warm, wide});
  const std::string text = compare_points_text(c, {.units = UnitSystem::metric});
  EXPECT_EQ(count_of(text, "Hose of 8.00 mm - 4.00 m"), 1U) << text;
  EXPECT_EQ(count_of(text, "Hose of 6.00 mm 4.00 m -"), 1U) << text;
  // Each temperature has its own figure of the viscosity to doubt.
  for (const Layout* layout : {&warm, &wide}) {
    const LiquidState at = layout->job.liquid.at(layout->job.temperature);
    EXPECT_TRUE(says(text, "The viscosity " + format(from_si<Viscosity>(at.viscosity), UnitSystem::us) + ", somewhere"))
        << text;
  }
}

TEST(RareFaults, ColderIsSaidInDegreesOfTheReader) {
  WhatIf w;
  w.options.colder = 20.0;
  const FaultCase colder{.fault = Fault::colder, .name = "product colder", .why_not = "it is at its freezing point"};
  EXPECT_EQ(report_detail::fault_text(w, colder, UnitSystem::metric), "product 20 °C colder");
  EXPECT_EQ(report_detail::fault_text(w, colder, UnitSystem::us), "product 36 °F colder");
}

TEST(RareFaults, AHoseThatNobodyMeasuredHasNoLength) {
  WhatIf w = what_if(small_bar());
  FaultCase narrow{.fault = Fault::hose_half_bore, .name = "row 3 whole hose half as wide", .rows = {3}};
  EXPECT_EQ(report_detail::fault_text(w, narrow, UnitSystem::metric), "row 3 whole hose (2.00 m) half as wide");
  narrow.name = "row 3 narrow";
  EXPECT_EQ(report_detail::fault_text(w, narrow, UnitSystem::metric), "row 3 narrow");
  narrow.name = "row 3 whole hose half as wide";
  narrow.rows = {3, 4};
  EXPECT_EQ(report_detail::fault_text(w, narrow, UnitSystem::metric), narrow.name);
  narrow.rows = {3};
  w.plumbing.rows[2].hose_length = 0.0;
  EXPECT_EQ(report_detail::fault_text(w, narrow, UnitSystem::metric), narrow.name);
}

TEST(RareFaults, WhatAFaultDoesBesidesIsNoted) {
  WhatIf w = what_if(small_bar(), {.meter_step = 0.005});
  ASSERT_FALSE(w.answers.empty());
  w.base_limit = "pump speed is at its limit: 20 % less than wanted";
  FaultAnswer& plugged = w.answers.front();
  ASSERT_EQ(plugged.fault.rows, (std::vector<int>{3}));
  plugged.total_held.dry = {5};
  plugged.total_held.cautions = {{"above-assumed-limit", "", "more than is assumed", 0, 0, ""}};
  plugged.setting_kept.dry = {3};
  const std::string text = what_if_text(w);
  const std::string name = report_detail::fault_text(w, plugged.fault, UnitSystem::us);
  EXPECT_TRUE(says(text, "Even without fault, pump speed is at its limit: 20 % less than wanted.")) << text;
  EXPECT_TRUE(says(text, "- " + name + ": row 5 runs dry.")) << text;
  EXPECT_FALSE(says(text, "row 3 runs dry")) << "that is the fault itself\n" << text;
  EXPECT_TRUE(says(text, "- " + name + ": more than is assumed.")) << text;
  EXPECT_FALSE(says(text, "give your own instruments'")) << "one of the two is the reader's own";
}

TEST(RareFaults, WhereNothingCanBeMovedThePageTellsOfTheSetting) {
  WhatIf w = what_if(small_bar());
  w.moved.clear();
  w.answers.resize(1);
  FaultAnswer& one = w.answers.front();
  one.fault.limited.clear();
  one.setting_kept.total_change = -0.123;
  one.total_held.total_change = 0.0;
  one.setting_kept.gauge_change = std::numeric_limits<double>::quiet_NaN();
  w.answers.push_back(one);
  const std::string html = what_if_section(w, UnitSystem::us).html;
  EXPECT_TRUE(holds(html, "The setting stays; changes are against the bar without fault")) << html;
  EXPECT_TRUE(holds(html, "<td>-12.3</td>")) << html;
  EXPECT_FALSE(holds(html, "Not applicable")) << html;
  EXPECT_FALSE(holds(html, "nan")) << html;
  for (FaultAnswer& a : w.answers) a.fault.limited = "it salts out there";
  const std::string name = report_detail::fault_text(w, one.fault, UnitSystem::us);
  EXPECT_TRUE(holds(what_if_section(w, UnitSystem::us).html,
                    "Smaller than usual: " + name + " (it salts out there); " + name + " (it salts out there)."));
}

/// A fill of 30 samples, 100 s apart.
static Drawdown fill() {
  Drawdown d;
  d.name = "fill";
  d.units = UnitSystem::metric;
  d.job = test::plain_job();
  d.liquid = d.job.liquid.at(d.job.temperature);
  d.tanks = {{.id = "tank", .capacity = 0.5, .start = 0.5}};
  for (int i = 0; i < 30; ++i) {
    DrawdownSample s;
    s.time = 100.0 * i;
    s.level = {0.5};
    s.volume = {0.25};
    s.mean_rate = i == 29 ? 0.0 : 1e-5;
    s.worst_row = 3;
    d.samples.push_back(s);
  }
  return d;
}

// Every third of 30 samples is shown, and the last; 400 s and 500 s are not, but for what happens there.
TEST(RareFills, AMomentAtWhichSomethingHappensIsShown) {
  Drawdown d = fill();
  EXPECT_EQ(count_of(drawdown_text(d), "6.7 min "), 0U) << drawdown_text(d);
  d.events = {{DrawdownEventKind::valve_shut, 400.0, 0.0, "row 3 check valve"}};
  EXPECT_EQ(count_of(drawdown_text(d), "6.7 min "), 1U) << drawdown_text(d);
  EXPECT_EQ(count_of(drawdown_text(d), "8.3 min "), 0U) << drawdown_text(d);
  for (int k = 0; k < 20; ++k) d.events.push_back(d.events.front());
  EXPECT_EQ(count_of(drawdown_text(d), "6.7 min "), 0U) << "a valve that chatters fills no table";
}

TEST(RareFills, WhereNothingFlowsThereIsNoSpread) {
  const std::string text = drawdown_text(fill());
  bool found = false;
  for (const std::string& line : lines_of(text))
    found = found || (line.starts_with("48.3 min ") && line.ends_with(" - - -"));
  EXPECT_TRUE(found) << text;
  Drawdown none = fill();
  none.samples.clear();
  none.complete = false;
  none.end = DrawdownEnd::stopped;
  const std::string stopped = drawdown_text(none);
  EXPECT_TRUE(says(stopped, "No control is moved during the fill")) << stopped;
  EXPECT_FALSE(says(stopped, "weighs")) << stopped;
}

}  // namespace rare_studies_test
}  // namespace libflow
