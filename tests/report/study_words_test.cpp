// SPDX-License-Identifier: MIT
/// @file
/// Moments of doubt of a reader, one by one: each text says in plain words what its numbers mean.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/dealer_sections.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/nutrients_text.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/agronomy.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace study_words_test {

using test::says;

using namespace units;

Layout words_example(const std::string& name) { return read_layout(std::string(LIBFLOW_EXAMPLES) + "/" + name); }

TEST(LimitWords, SayWhatIsNearHowNearAndWhichWay) {
  using report_detail::near_text;
  const Limit speed{"least pump speed", "", 0.433, 0.05, "1", false, 0.40, LimitKind::stops, "range of the control"};
  EXPECT_EQ(near_text(speed, UnitSystem::us),
            "least pump speed: 43.3 % now, 5.0 % is the least, so it may fall by 38.3 % points");
  const Limit hose{"hose rating", "row 8 hose", 5e5, 6.9e5, "Pa", true, 0.28, LimitKind::stops, "given"};
  EXPECT_EQ(near_text(hose, UnitSystem::metric),
            "hose rating (row 8 hose): 500.0 kPa now, 690.0 kPa is the most, so it may rise by 190.0 kPa");
  const Limit broken{"evenness", "row 2", 0.08, 0.05, "1", true, -0.6, LimitKind::wanted, "given"};
  EXPECT_EQ(near_text(broken, UnitSystem::us), "evenness (row 2): 8.0 % now, 5.0 % is the most: 3.0 % points too much");
}

TEST(LimitWords, RoomIsExplainedUnderItsTable) {
  const std::string text = operating_point_text(operating_point(words_example("pump_and_tank_bar.toml")));
  EXPECT_TRUE(says(text, "the nearest limit is least pump speed: 43.3 % now, 5.0 % is the least")) << text;
  EXPECT_TRUE(says(text, "Room: how far the value may still go")) << text;
  EXPECT_TRUE(says(text, "For the pump speed: a share of the whole range that it can be set over.")) << text;
  EXPECT_TRUE(says(text, "For the suction vacuum: a share of the atmosphere's pressure.")) << text;
  const std::string ideal = operating_point_text(operating_point(words_example("equal_hoses.toml")));
  EXPECT_EQ(ideal.find("suction vacuum"), std::string::npos);
}

TEST(GaugeWords, OneWordAndAPlaceForIt) {
  const std::string text = main_job_text(main_job(words_example("equal_hoses.toml")));
  EXPECT_TRUE(says(text, "Gauge pressure 39.04 psi")) << text;
  EXPECT_TRUE(says(text, "The gauge stands where the liquid enters the manifold.")) << text;
  const std::string point = operating_point_text(operating_point(words_example("equal_hoses.toml")));
  EXPECT_TRUE(says(point, "REACHED: 39.04 psi at the gauge gives 5.00 gal/ac")) << point;
  for (const std::string& one : {text, point}) {
    EXPECT_EQ(one.find("upply pressure"), std::string::npos) << one;
    EXPECT_EQ(one.find("on the gauge"), std::string::npos) << one;
  }
  EXPECT_TRUE(says(main_job_text(main_job(words_example("tees.toml"))), "The gauge stands at 'pump'."));
  Layout fed = words_example("equal_hoses.toml");
  std::get<Toolbar>(fed.plumbing).manifolds.front().feed_length = 3.0 * ft;
  EXPECT_EQ(report_detail::gauge_place(fed), "where the manifold's feed hose begins");
  std::vector<Manifold>& both = std::get<Toolbar>(fed.plumbing).manifolds;
  both.push_back(both.front());
  EXPECT_EQ(report_detail::gauge_place(fed), "where the manifolds' feed hoses part");
}

TEST(WhatIfWords, AKinkIsAtOnePointAndANarrowHoseWholeWithItsLength) {
  const WhatIf w = what_if(words_example("pump_and_tank_bar.toml"));
  const std::string us = what_if_text(w), metric = what_if_text(w, {.units = UnitSystem::metric});
  EXPECT_TRUE(says(us, "A kink narrows the hose at one place")) << us;
  EXPECT_TRUE(us.find("°C colder") == std::string::npos &&
              us.find("product 18 °F colder (32.0 °F)") != std::string::npos)
      << us;
  EXPECT_NE(metric.find("product 10 °C colder (0.0 °C)"), std::string::npos) << metric;
  EXPECT_EQ(us.find('~'), std::string::npos) << "no name is cut off\n" << us;
  for (const FaultAnswer& a : w.answers) {
    const std::string name = report_detail::fault_text(w, a.fault, UnitSystem::us);
    if (a.fault.fault == Fault::hose_kinked) {
      EXPECT_EQ(name, "row 8: hose kinked at one point to 5 % of its area");
    }
    if (a.fault.fault == Fault::hose_half_bore) {
      EXPECT_EQ(name, "row 8: whole hose (22.0 ft) at half its bore");
    }
    if (a.fault.fault == Fault::strainer_blocked) {
      EXPECT_EQ(name, "strainer 'line strainer' 50 % blocked");
    }
  }
}

TEST(CardWords, OneUnitOneAdviceOnePlaceForTheGauge) {
  const SettingCard card = setting_card(words_example("pump_and_tank_bar.toml"));
  const std::string us = setting_card_text(card), metric = setting_card_text(card, {.units = UnitSystem::metric});
  EXPECT_EQ(us.find("mL"), std::string::npos) << us;
  EXPECT_EQ(us.find(" ml"), std::string::npos) << us;
  EXPECT_NE(us.find("fl oz"), std::string::npos) << us;
  EXPECT_EQ(metric.find("fl oz"), std::string::npos) << metric;
  EXPECT_TRUE(says(us, report_detail::catch_liquid_advice())) << us;
  EXPECT_TRUE(says(us, "The gauge must stand where the liquid enters the manifold")) << us;
  const std::string advice = report_detail::catch_liquid_advice();
  EXPECT_LT(advice.find("first with water"), advice.find("then with the product"));
  EXPECT_NE(advice.find("common practice, no source"), std::string::npos);
}

TEST(CardWords, RowsThatTheLayoutPutsOutsideAreNoFault) {
  EXPECT_FALSE(says(setting_card_text(setting_card(words_example("equal_hoses.toml"))), "expected outside"));
  SettingCard card = setting_card(words_example("short_hoses.toml"));
  std::vector<int> outside;
  for (const CardCatch& r : card.rows) {
    if (r.volume < r.low || r.volume > r.high) outside.push_back(r.row);
  }
  ASSERT_GT(outside.size(), 1U);
  EXPECT_TRUE(says(setting_card_text(card), report_detail::rows_in_words(outside) +
                                                " are expected outside 'good from ... to': that is the layout"))
      << setting_card_text(card);
}

TEST(NutrientWords, ALimitOfASoilCountsOnlyIfTheSoilIsThatOne) {
  const Layout layout = words_example("equal_hoses.toml");
  const std::string any = nutrients_text(agronomy(layout));
  // Kansas State: 6 lb/ac on sandy soil; Michigan State: 5 on sandy soil; 5.9 lb/ac are brought.
  EXPECT_TRUE(says(any,
                   "with corn seed: OVER 1 of 2 published limits for sandy soil; within both published limits "
                   "for medium or fine soil; within both published limits that name no soil."))
      << any;
  EXPECT_TRUE(says(any, "if sandy")) << any;
  EXPECT_TRUE(says(any, "allows on sandy soil: seed injury is likely")) << any;
  EXPECT_TRUE(says(any, "CEC is the cation exchange capacity of a soil test")) << any;
  EXPECT_TRUE(says(any, "nitrogen and potash added up")) << any;
  const std::string sandy = nutrients_text(agronomy(layout, {.soil = Soil::sandy}));
  EXPECT_TRUE(says(sandy, "with corn seed: OVER 1 of 4 published limits for sandy soil.")) << sandy;
  EXPECT_EQ(sandy.find("if sandy"), std::string::npos) << sandy;
  EXPECT_TRUE(says(sandy, "than a published limit allows: seed injury is likely")) << sandy;
}

TEST(OrderWords, PortSpacingThatNobodyGaveIsMarked) {
  const std::string text = order_list_text(order_list(words_example("pump_and_tank_bar.toml")));
  EXPECT_TRUE(says(text, "Assumed: libflow's own default")) << text;
  EXPECT_NE(text.find("(assumed)"), std::string::npos) << text;
  EXPECT_TRUE(says(text, "16 ports for hose 0.375 in")) << text;
  Layout own = words_example("pump_and_tank_bar.toml");
  std::get<Toolbar>(own.plumbing).manifolds.front().port_spacing = 3.0 * inch;
  EXPECT_EQ(order_list_text(order_list(own)).find("ssumed"), std::string::npos);
  const std::string tees = order_list_text(order_list(words_example("tees.toml")));
  EXPECT_TRUE(says(tees, "run 0.500 in, branch 0.375 in")) << tees;
}

TEST(OrderWords, ThePageCutsAsTheListDoes) {
  const Layout layout = words_example("short_hoses.toml");
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const OrderList list = order_list(layout, {.tape = u});
    const std::string html = order_section(list, u).html, text = order_list_text(list, {.units = u});
    for (const HoseCut& c : list.hoses.front().cuts) {
      EXPECT_NE(html.find(">" + cut_text(c.cut, u) + "<"), std::string::npos) << html;
      EXPECT_TRUE(says(text, cut_text(c.cut, u))) << text;
    }
    EXPECT_EQ(cut_text(list.hoses.front().cuts.front().cut, u), u == UnitSystem::us ? "20 ft 7 in" : "6.26 m");
  }
}

TEST(EqualWords, SaysAgainstWhichHosesTheSavingIs) {
  const std::string text = equal_hoses_text(equal_hoses(words_example("short_hoses.toml")));
  EXPECT_TRUE(
      says(text, "(198.7 ft of hose instead of 329.3 ft with every hose as long as the longest run, 20 ft 7 in)"))
      << text;
  EXPECT_TRUE(says(text, "60.00 psi is allowed at the gauge (common practice, no source; most_pressure")) << text;
}

TEST(SizeWords, LengthsAreThoseOfATapeAndMoneyIsTheGiversOwn) {
  Layout layout = words_example("equal_hoses.toml");
  layout.job.liquid = find_liquid("28-0-0");
  SizeChoices c;
  c.hose_bores = {0.25 * inch};
  c.hose_prices = {1.0};
  c.cuts = {Cut::equal, Cut::shortest, Cut::two_lengths};
  c.least_pressure = 1.0 * psi;
  const SizeAnswer a = size_toolbar(layout, c);
  ASSERT_NE(a.winner(), nullptr);
  for (const HosePlan& plan : a.problem.plans) {
    for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
      const double inches = plan.lengths[i] / si(inch);
      EXPECT_NEAR(inches, std::round(inches), 1e-9);
      EXPECT_GE(plan.lengths[i], a.problem.runs[i] - 1e-12) << "never shorter than its run";
      if (plan.cut == Cut::shortest) {
        EXPECT_LT(plan.lengths[i], a.problem.runs[i] + si(inch));
      }
    }
  }
  const std::string text = size_text(a);
  EXPECT_TRUE(says(text, "in the currency of the prices given")) << text;
  EXPECT_TRUE(says(text, "there is one operating point only")) << text;
  EXPECT_EQ(text.find("at 1 points"), std::string::npos) << text;
  EXPECT_TRUE(says(text, "The gauge has to stay from 1.00 psi to 60.00 psi: the least and the most pressure that"))
      << text;
  // One point: the least and the most are one number, told once.
  const std::string gauge = format(from_si<Pressure>(a.winner()->outcome.most_pressure), UnitSystem::us);
  EXPECT_TRUE(says(text, "from the mean; " + gauge + " at the gauge")) << text;
  EXPECT_EQ(text.find(gauge + " to"), std::string::npos) << text;
  SizeChoices exact = c;
  exact.cut_to = 0.0 * m;
  EXPECT_EQ(size_problem(layout, exact).plans[1].lengths, size_problem(layout, exact).runs);
}

TEST(ExplainWords, PlacesOfABarHavePlainNames) {
  const std::string text = explain_text(main_job(words_example("short_hoses.toml")), 8);
  EXPECT_EQ(text.find("bar 8"), std::string::npos) << text;
  EXPECT_TRUE(says(text, "manifold 1, feed to row 8's port (0.1 ft, bore 1.000 in,")) << text;
  EXPECT_TRUE(says(text, "Most is spent in row 8 orifice (bore 0.046 in)")) << text;
  Layout named = words_example("short_hoses.toml");
  std::get<Toolbar>(named.plumbing).manifolds.front().id = "left";
  EXPECT_TRUE(says(explain_text(main_job(named), 1), "manifold 'left', feed to row 1's port"));
}

TEST(CauseWords, ASpreadThatNobodyCanMeasureIsNotBlamedOnAnything) {
  const Answer equal = main_job(words_example("equal_hoses.toml"));
  const std::string text = main_job_text(equal);
  EXPECT_TRUE(says(text, "What decides it: nothing that matters (spread 0.01 %).")) << text;
  EXPECT_EQ(text.find("100 %      "), std::string::npos) << text;
  EXPECT_TRUE(says(explain_text(equal, 8), "Why it is off: nothing that matters")) << explain_text(equal, 8);
  EXPECT_TRUE(says(main_job_text(main_job(words_example("short_hoses.toml"))), "hose lengths 100 % +25.5"));
}

TEST(EnvelopeWords, TheMapHasTicksAndTheJobsOwnPoint) {
  const Layout layout = words_example("pump_and_tank_bar.toml");
  const Envelope e = envelope(layout, default_axes(layout, 9, 5), {.usable_speeds = false});
  const std::string text = envelope_text(e);
  const std::size_t star = text.find('*');
  ASSERT_NE(star, std::string::npos) << text;
  EXPECT_TRUE(says(text, "* the job's own, 5.00 gal/ac at 5.0 mph")) << text;
  EXPECT_NE(text.find("+--+"), std::string::npos) << text;
  // The star stands in the line of the rate nearest to the job's.
  const std::size_t begin = text.rfind('\n', star) + 1;
  double nearest = 1e9;
  std::string label;
  for (const AreaRate& rate : e.axes.rates) {
    const double off = std::abs(si(rate) - si(layout.job.rate));
    if (off < nearest) label = format_number(rate, UnitSystem::us);
    nearest = std::min(nearest, off);
  }
  EXPECT_TRUE(says(text.substr(begin, star - begin), label + " |")) << text;
  // A slice of another temperature is not the job's.
  EnvelopeAxes warm = default_axes(layout, 3, 3);
  warm.temperatures = {celsius(25.0)};
  EXPECT_EQ(envelope_text(envelope(layout, warm, {.usable_speeds = false})).find('*'), std::string::npos);
}

// Two published limits speak of medium or fine soil, two of none (see above): on such soil all four count.
TEST(NutrientWords, OnANamedSoilEveryLimitCounts) {
  const std::string text = nutrients_text(agronomy(words_example("equal_hoses.toml"), {.soil = Soil::medium_or_fine}));
  EXPECT_TRUE(says(text, "with corn seed: within all 4 published limits for medium or fine soil.")) << text;
}

// What brings no nitrogen and no potash is not held by a limit of salt; of one row there is no lowest and no highest.
TEST(NutrientWords, OfPhosphateAloneAnyRateIsWithin) {
  Layout layout = words_example("equal_hoses.toml");
  LiquidRecord record = find_liquid("10-34-0").record();
  record.analysis = Analysis{.p2o5 = 0.2};
  layout.job.liquid = Liquid(record);
  EXPECT_TRUE(says(nutrients_text(agronomy(layout)), "row 1, the"));
  std::get<Toolbar>(layout.plumbing).rows = 1;
  const std::string text = nutrients_text(agronomy(layout));
  EXPECT_TRUE(says(text, "0.0 any ")) << text;
  EXPECT_FALSE(says(text, "OVER")) << text;
  EXPECT_FALSE(says(text, "inf ")) << text;
  EXPECT_FALSE(says(text, "the lowest")) << text;
}

// Of plumbing place by place the card has no column for a drive's setting: pressures and cups.
TEST(CardWords, OfALayoutPlaceByPlace) {
  const Layout layout = words_example("tees.toml");
  const SettingCard card = setting_card(layout, {.speeds = {layout.job.speed}, .rates = {layout.job.rate}});
  const std::string text = setting_card_text(card);
  EXPECT_TRUE(says(text, "gauge, psi")) << text;
  EXPECT_TRUE(says(text, report_detail::shown_number<Pressure>(card.job.gauge, UnitSystem::us))) << text;
}

}  // namespace study_words_test
}  // namespace libflow
