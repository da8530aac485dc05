// SPDX-License-Identifier: MIT
/// @file
/// What faults do, as a person reads it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <string>

#include <fmt/core.h>

#include <libflow/network/network.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/report/dealer_sections.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace what_if_text_test {

using test::says;

using namespace units;

Layout small_bar() {
  Toolbar t = test::plain_bar(6);
  t.hose_bore = 6.0 * mm;
  return {.name = "small bar", .job = test::plain_job(), .plumbing = t};
}

TEST(WhatIfText, TwoTablesOneVerdictNothingDropped) {
  const WhatIf w = what_if(small_bar());
  for (const UnitSystem units : {UnitSystem::us, UnitSystem::metric}) {
    for (const std::size_t width : {std::size_t{80}, std::size_t{100}}) {
      const std::string text = what_if_text(w, {.units = units, .width = width});
      EXPECT_LE(report_detail::widest_line(text), width) << text;
      EXPECT_TRUE(text.starts_with("With the total held, ")) << text;
      EXPECT_TRUE(says(text, "The controller holds the total (the supply's flow moves)")) << text;
      EXPECT_TRUE(says(text, "The setting stays (the supply's pressure stays)")) << text;
      EXPECT_TRUE(says(text, "row 3 plugged")) << text;
      EXPECT_TRUE(says(text, "-100.0")) << text;
      EXPECT_TRUE(says(text, "common practice, no source")) << text;
      EXPECT_TRUE(says(text, "Not applicable here")) << text;
      EXPECT_TRUE(says(text, "a section shut: one manifold feeds all rows.")) << text;
      EXPECT_TRUE(says(text, "there is no pump in the layout")) << text;
      EXPECT_TRUE(says(text, "This is a computation, not a permission.")) << text;
      EXPECT_TRUE(says(text, units == UnitSystem::us ? "psi" : "kPa")) << text;
      EXPECT_FALSE(says(text, "nan")) << text;
    }
  }
}

TEST(WhatIfText, OwnInstrumentsAreNoCommonPractice) {
  const std::string text = what_if_text(what_if(small_bar(), {.gauge_step = 1.0 * psi, .meter_step = 0.005}));
  EXPECT_TRUE(says(text, "a change of 1.00 psi or more at the gauge, of 0.50 % or more")) << text;
  EXPECT_FALSE(says(text, "no source; give your own")) << text;
}

TEST(WhatIfText, SaysWhenItWasStopped) {
  const WhatIf w = what_if(small_bar(), {}, [](std::size_t done, std::size_t) { return done < 2; });
  EXPECT_TRUE(says(what_if_text(w), "STOPPED")) << what_if_text(w);
}

TEST(WhatIfText, ShutGaugeAndDryRowsAreWords) {
  // A section valve between a pump and all rows: shut, nothing flows and the gauge behind it shows nothing.
  Plumbing p;
  Network& n = p.network;
  n.add_supply("tank", 1.0 * kPa);
  n.add_place("out");
  p.supply = n.add_place("manifold");
  n.add_part("pump", "tank", "out", CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 30.0 * L_per_min});
  n.add_part("valve", "out", "manifold", Valve::ball(from_si<Flow>(2e-3), 20.0 * mm));
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto air = n.add_air(name);
    const auto hole = n.add_part(name + " hole", "manifold", name, Orifice{.bore = 2.0 * mm});
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
  const std::string text = what_if_text(what_if({.name = "valve", .job = test::plain_job(), .plumbing = p}));
  EXPECT_TRUE(says(text, "valve 'valve' shut: rows 1, 2 run dry.")) << text;
  EXPECT_TRUE(says(text, "pump speed is at its limit: 100 % less than wanted")) << text;
  EXPECT_TRUE(says(text, "all its rows are in the middle of the bar")) << text;
  EXPECT_FALSE(says(text, "nan")) << text;
}

TEST(WhatIfText, WhereNothingCanBeMovedOnlyTheSettingIsTold) {
  WhatIf w = what_if(small_bar());
  w.moved.clear();
  std::size_t unseen = 0, all = 0;
  for (const FaultAnswer& a : w.answers) {
    if (!a.setting_kept.answered()) continue;
    ++all;
    unseen += a.setting_kept.notice == Notice::neither ? 1 : 0;
  }
  const std::string verdict =
      fmt::format("With the setting kept, {} of {} faults show neither at the gauge nor at the meter.", unseen, all);
  EXPECT_EQ(report_detail::what_if_verdict(w), verdict);
  const std::string text = what_if_text(w);
  EXPECT_TRUE(says(text, verdict)) << text;
  EXPECT_TRUE(says(text, "The total cannot be held: nothing can be moved. The setting stays")) << text;
  EXPECT_FALSE(says(text, "The controller holds")) << text;
}

TEST(WhatIfText, AFaultWithoutAnAnswerGivesItsReason) {
  WhatIf w = what_if(small_bar());
  const auto some = std::find_if(w.answers.begin(), w.answers.end(),
                                 [](const FaultAnswer& a) { return a.fault.applies() && a.total_held.answered(); });
  ASSERT_NE(some, w.answers.end());
  const std::string name = report_detail::fault_text(w, some->fault, UnitSystem::us);
  some->total_held.why_not = "liquid is pushed in but has no way out";
  const std::string text = what_if_text(w, {.units = UnitSystem::us});
  EXPECT_TRUE(says(text, "- " + name + ": no answer, liquid is pushed in but has no way out.")) << text;
  const std::string html = what_if_section(w, UnitSystem::us).html;
  EXPECT_NE(html.find(">no answer: liquid is pushed in but has no way out<"), std::string::npos) << html;
  // Where no row is left to vary there is no spread.
  some->total_held.why_not.clear();
  some->total_held.cv = std::numeric_limits<double>::quiet_NaN();
  some->total_held.worst_row = 0;
  EXPECT_EQ(what_if_section(w, UnitSystem::us).html.find("nan"), std::string::npos);
  EXPECT_FALSE(says(what_if_text(w), "nan"));
}

}  // namespace what_if_text_test
}  // namespace libflow
