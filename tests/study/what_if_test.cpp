// SPDX-License-Identifier: MIT
/// @file
/// What faults do, against layouts in which the same thing is drawn by hand, and against conservation of flow.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace what_if_test {

using namespace units;
using test::driven_layout, test::expect_refused, test::plain_bar, test::plain_drive, test::plain_job, test::plain_valve;

/// Ten rows on two manifolds with hoses that matter.
Layout two_sections() {
  Toolbar t = plain_bar(10);
  t.manifolds = {Manifold{.id = "left", .first_row = 1, .last_row = 5, .feed_length = 2.0 * m},
                 Manifold{.id = "right", .first_row = 6, .last_row = 10, .feed_length = 2.5 * m}};
  t.hose_bore = 6.0 * mm;
  t.check_valve = plain_valve();
  return {.name = "two sections", .job = plain_job(), .plumbing = t};
}
Toolbar& bar_of(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }

const FaultAnswer& answer(const WhatIf& w, Fault fault) {
  return *std::find_if(w.answers.begin(), w.answers.end(), [&](const auto& a) { return a.fault.fault == fault; });
}

/// The same fault drawn into the layout by hand, at the base's total or at its pressure, solved from nothing.
struct ByHand {
  Evenness held, kept;
};
ByHand by_hand(Layout changed, const WhatIf& base) {
  Layout kept = changed;
  kept.job.pressure = from_si<Pressure>(base.base.supply_pressure);
  // The wanted total counts open rows only: ask the rest for so much more.
  const Plumbing plumbing = build_network(bar_of(changed), changed.job);
  changed.job.rate = changed.job.rate * (base.base_total / wanted_flow(plumbing, changed.job));
  return {main_job(changed).evenness, main_job(kept).evenness};
}

/// Rows' flows, gauge and total agree with the hand-drawn layout.
void expect_as_drawn(const WhatIf& w, Fault fault, const Layout& drawn, double tolerance = 1e-8) {
  const FaultAnswer& a = answer(w, fault);
  const ByHand hand = by_hand(drawn, w);
  for (const auto& [effect, evenness] :
       {std::pair(&a.total_held, &hand.held), std::pair(&a.setting_kept, &hand.kept)}) {
    ASSERT_TRUE(effect->answered()) << effect->why_not;
    EXPECT_NEAR(effect->gauge / evenness->supply_pressure, 1.0, tolerance) << a.fault.name;
    EXPECT_NEAR(effect->total / evenness->total_flow, 1.0, tolerance) << a.fault.name;
    for (std::size_t i = 0; i < evenness->rows.size(); ++i) {
      EXPECT_NEAR(effect->evenness.rows[i].flow, evenness->rows[i].flow, tolerance * w.base_total)
          << a.fault.name << ", row " << i + 1;
    }
  }
  EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-9) << a.fault.name;
  EXPECT_NEAR(a.setting_kept.gauge_change / w.base.supply_pressure, 0.0, 1e-9) << a.fault.name;
}

TEST(WhatIf, AgreesWithTheSameFaultDrawnByHand) {
  const Layout layout = two_sections();
  const WhatIf w = what_if(layout, {.row = 3});
  ASSERT_TRUE(w.complete);

  Layout drawn = layout;
  bar_of(drawn).row_changes = {{.row = 3, .shut = true}};
  expect_as_drawn(w, Fault::row_plugged, drawn);

  drawn = layout;
  bar_of(drawn).row_changes = {{.row = 3, .hose_bore = 3.0 * mm}};
  expect_as_drawn(w, Fault::hose_half_bore, drawn);

  drawn = layout;
  for (int row = 1; row <= 5; ++row) bar_of(drawn).row_changes.push_back({.row = row, .shut = true});
  expect_as_drawn(w, Fault::section_shut, drawn);

  drawn = layout;
  bar_of(drawn).side_slope = slope_percent(10.0);
  expect_as_drawn(w, Fault::side_slope, drawn);

  drawn = layout;
  drawn.job.temperature = from_si<Temperature>(si(layout.job.temperature) - 20.0 + 5.0);
  const WhatIf cooler = what_if(layout, {.colder = 15.0});
  expect_as_drawn(cooler, Fault::colder, drawn);

  // Without its orifice the hose's open end is left: a hole of the hose's bore whose jet does not contract. The two
  // differ in creeping flow only.
  drawn = layout;
  bar_of(drawn).row_changes = {{.row = 3, .orifice = OrificeByBore{.bore = 6.0 * mm, .discharge_coefficient = 1.0}}};
  expect_as_drawn(w, Fault::orifice_missing, drawn, 0.01);
}

TEST(WhatIf, APluggedRowsShareGoesToTheOthers) {
  Layout layout{.name = "bar", .job = plain_job(), .plumbing = plain_bar(16)};
  const WhatIf w = what_if(layout);
  const FaultAnswer& a = answer(w, Fault::row_plugged);
  ASSERT_EQ(a.fault.rows.size(), 1U);
  // Fifteen rows carry what sixteen did, equally but for the bar's small loss.
  EXPECT_NEAR(a.total_held.neighbour_change, 1.0 / 15.0, 1e-3);
  EXPECT_DOUBLE_EQ(a.total_held.row_change, -1.0);
  EXPECT_EQ(a.total_held.dry, a.fault.rows);
  EXPECT_TRUE(a.total_held.outside.empty());  // those that run are as even as before
  // At high Reynolds number pressure goes with the square of the flow. The orifice's coefficient and the hose's
  // friction move the exponent a little.
  const double exponent = std::log(a.total_held.gauge / w.base.supply_pressure) / std::log(16.0 / 15.0);
  EXPECT_NEAR(exponent, 2.0, 0.1);
  // At a kept pressure the others stay and the total loses the row.
  EXPECT_NEAR(a.setting_kept.neighbour_change, 0.0, 2e-3);
  EXPECT_NEAR(a.setting_kept.total_change, -1.0 / 16.0, 2e-3);
}

TEST(WhatIf, WhoNotices) {
  const Layout layout = two_sections();
  const FaultAnswer first = answer(what_if(layout), Fault::row_plugged);
  const Pressure rise = from_si<Pressure>(first.total_held.gauge_change);
  const double loss = -first.setting_kept.total_change;
  ASSERT_GT(si(rise), 0.0);
  ASSERT_GT(loss, 0.0);
  const FaultAnswer fine =
      answer(what_if(layout, {.gauge_step = 0.999 * rise, .meter_step = 0.999 * loss}), Fault::row_plugged);
  EXPECT_EQ(fine.total_held.notice, Notice::gauge);
  EXPECT_EQ(fine.setting_kept.notice, Notice::meter);
  const FaultAnswer coarse =
      answer(what_if(layout, {.gauge_step = 1.001 * rise, .meter_step = 1.001 * loss}), Fault::row_plugged);
  EXPECT_EQ(coarse.total_held.notice, Notice::neither);
  EXPECT_EQ(coarse.setting_kept.notice, Notice::neither);
}

TEST(WhatIf, EveryFaultIsListedAndSaysWhyItDoesNotApply) {
  const Layout layout{.name = "bar", .job = plain_job(), .plumbing = plain_bar(4)};
  const WhatIf w = what_if(layout);
  std::set<Fault> listed;
  for (const FaultAnswer& a : w.answers) listed.insert(a.fault.fault);
  EXPECT_EQ(listed.size(), 10U);
  for (const Fault f : {Fault::section_shut, Fault::strainer_blocked, Fault::tank_empty, Fault::pump_worn}) {
    EXPECT_FALSE(answer(w, f).fault.applies()) << name_of(f);
    EXPECT_FALSE(answer(w, f).total_held.answered()) << name_of(f);
    EXPECT_EQ(answer(w, f).total_held.why_not, answer(w, f).fault.why_not);
  }
}

TEST(WhatIf, NoProductIsCooledBeyondItsData) {
  const Layout bar{.name = "bar", .job = plain_job(), .plumbing = plain_bar(4)};
  const auto cooled = [&](Liquid liquid, double now, double colder) {
    Layout layout = bar;
    layout.job.liquid = std::move(liquid);
    layout.job.temperature = from_si<Temperature>(now + 273.15);
    return answer(what_if(layout, {.colder = colder}), Fault::colder);
  };
  const auto celsius = [](const FaultAnswer& a) { return si(*a.fault.temperature) - 273.15; };
  // Water freezes at 0 C, however much colder is asked for.
  for (const double colder : {20.0, 100.0}) {
    const FaultAnswer a = cooled(find_liquid("water"), 10.0, colder);
    ASSERT_TRUE(a.fault.applies()) << a.fault.why_not;
    EXPECT_NEAR(celsius(a), 0.0, 1e-9);
    EXPECT_NE(a.fault.limited.find("it freezes at 32 °F (0.0 °C)"), std::string::npos) << a.fault.limited;
    EXPECT_TRUE(a.setting_kept.answered());
  }
  // 10-34-0 is known down to 0 C; 28-0-0 salts out at -17 C, so that the whole step from 18 C is weather.
  EXPECT_NEAR(celsius(cooled(find_liquid("10-34-0"), 4.4, 20.0)), 0.0, 1e-9);
  const FaultAnswer whole = cooled(find_liquid("28-0-0"), 18.0, 10.0);
  EXPECT_NEAR(celsius(whole), 8.0, 1e-9);
  EXPECT_TRUE(whole.fault.limited.empty());
  // At the end already: left out, with the reason.
  const FaultAnswer none = cooled(find_liquid("water"), 0.5, 20.0);
  EXPECT_FALSE(none.fault.applies());
  EXPECT_NE(none.fault.why_not.find("it freezes at"), std::string::npos) << none.fault.why_not;
  EXPECT_EQ(none.setting_kept.why_not, none.fault.why_not);
  // The user's own figures: as far as they were measured.
  const Liquid own = Liquid::from_points("own", {{from_si<Density>(1200.0), from_si<Temperature>(283.15)}},
                                         {{from_si<Viscosity>(0.02), from_si<Temperature>(278.15)},
                                          {from_si<Viscosity>(0.01), from_si<Temperature>(293.15)}});
  EXPECT_NEAR(celsius(cooled(own, 15.0, 20.0)), 5.0, 1e-9);
  // One figure alone, and nothing of its freezing: as water.
  const Liquid one = Liquid::from_points("one", {{from_si<Density>(1200.0), from_si<Temperature>(283.15)}},
                                         {{from_si<Viscosity>(0.02), from_si<Temperature>(278.15)}});
  EXPECT_NEAR(celsius(cooled(one, 15.0, 20.0)), 0.0, 1e-9);
}

TEST(WhatIf, WithADriveTheControlMoves) {
  Drive drive = plain_drive();
  drive.pump = CentrifugalPump{.shutoff = 10.0 * bar, .free_flow = 60.0 * L_per_min};  // with something to spare
  drive.line_strainer = Strainer{.bore = 25.0 * mm,
                                 .rated_flow = 20.0 * L_per_min,
                                 .rated_loss = 5.0 * kPa,
                                 .opening = 0.3 * mm,
                                 .open_area = from_si<Area>(2e-3)};
  const Layout layout = driven_layout(drive);
  const WhatIf w = what_if(layout);
  ASSERT_TRUE(w.complete);
  const OperatingPoint point = operating_point(layout);
  EXPECT_NEAR(w.base_setting / point.setting, 1.0, 1e-5);
  EXPECT_EQ(w.moved, point.control);
  for (const Fault f : {Fault::row_plugged, Fault::strainer_blocked, Fault::pump_worn, Fault::hose_kinked}) {
    const FaultAnswer& a = answer(w, f);
    ASSERT_TRUE(a.total_held.answered()) << a.total_held.why_not;
    EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-8) << a.fault.name;
    EXPECT_DOUBLE_EQ(a.setting_kept.setting, w.base_setting) << a.fault.name;
  }
  // What is behind the gauge has not changed: the same flow asks for the same pressure there, at more speed.
  for (const Fault f : {Fault::strainer_blocked, Fault::pump_worn}) {
    const FaultAnswer& a = answer(w, f);
    EXPECT_NEAR(a.total_held.gauge / w.base.supply_pressure, 1.0, 1e-6) << a.fault.name;
    EXPECT_GT(a.total_held.setting, w.base_setting) << a.fault.name;
    EXPECT_LT(a.setting_kept.total_change, 0.0) << a.fault.name;
  }
  // A pump that gives 15 % less gain at every flow is the pump whose shutoff pressure is 15 % lower.
  Drive weak = drive;
  std::get<CentrifugalPump>(weak.pump).shutoff = 0.85 * std::get<CentrifugalPump>(drive.pump).shutoff;
  const Answer hand = at_setting(driven_layout(weak), w.base_setting);
  EXPECT_NEAR(answer(w, Fault::pump_worn).setting_kept.total / hand.evenness.total_flow, 1.0, 1e-8);
}

/// Two tanks tied to one pump, two rows; or the second tank alone.
Plumbing two_tanks(bool both) {
  Plumbing p;
  Network& n = p.network;
  const LiquidState liquid = Liquid().at(celsius(20.0));
  const Tank tank{.shape = LyingTank::round(1.0 * m, 2.0 * m)};
  n.add_place("tie");
  p.supply = n.add_place("gauge");
  for (const char* name : {"tank A", "tank B"}) {
    if (!both && std::string(name) == "tank A") continue;
    const auto place = add_tank(n, name, tank, 0.5 * m, liquid, 1.0 * m);
    p.tanks.push_back({place, tank, 0.5});
    n.add_part(std::string(name) + " line", name, "tie", Hose{.length = 2.0 * m, .bore = 12.0 * mm});
  }
  n.add_part("pump", "tie", "gauge", CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 30.0 * L_per_min});
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto air = n.add_air(name);
    const auto hole = n.add_part(name + " hole", "gauge", name, Orifice{.bore = 2.0 * mm});
    p.rows.push_back({.row = row,
                      .x = row - 1.5,
                      .width = 0.762,
                      .hose_length = 0.0,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {}});
  }
  return p;
}

TEST(WhatIf, FreeFormPumpsAndTanks) {
  const Layout layout{.name = "tanks", .job = plain_job(), .plumbing = two_tanks(true)};
  const WhatIf w = what_if(layout);
  EXPECT_EQ(w.moved, "pump speed");
  const Answer alone = main_job({.name = "one tank", .job = plain_job(), .plumbing = two_tanks(false)});
  std::size_t tanks = 0;
  for (const FaultAnswer& a : w.answers) {
    if (a.fault.fault != Fault::tank_empty) continue;
    ++tanks;
    EXPECT_NEAR(a.setting_kept.total / alone.evenness.total_flow, 1.0, 1e-9) << a.fault.name;
    EXPECT_LT(a.setting_kept.total_change, 0.0) << a.fault.name;
    EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-8) << a.fault.name;
    EXPECT_GT(a.total_held.setting, 1.0) << a.fault.name;
  }
  EXPECT_EQ(tanks, 2U);
  EXPECT_FALSE(answer(w, Fault::hose_kinked).fault.applies());
  EXPECT_FALSE(answer(w, Fault::orifice_missing).fault.applies());
  // A pump that cannot turn faster cannot hold the total, and says so.
  const FaultAnswer tired = answer(what_if(layout, {.pump_reach = 1.0}), Fault::pump_worn);
  EXPECT_LT(tired.total_held.total_change, 0.0);
  EXPECT_NE(tired.total_held.limit.find("at its limit"), std::string::npos) << tired.total_held.limit;
}

TEST(WhatIf, AHeldSupplyGivesItsFlowToTheController) {
  Layout layout = two_sections();
  layout.job.pressure = 2.0 * bar;
  const WhatIf held = what_if(layout);
  EXPECT_NEAR(answer(held, Fault::row_plugged).total_held.total_change, 0.0, 1e-9);
  EXPECT_NEAR(answer(held, Fault::row_plugged).setting_kept.gauge, 2e5, 1e-3);
  EXPECT_LT(answer(held, Fault::row_plugged).setting_kept.total_change, -0.05);
}

// A row that gets nothing even without a fault loses nothing by one.
TEST(WhatIf, ARowThatIsDryAnywayChangesByNothing) {
  Layout layout = two_sections();
  layout.job.pressure = 2.0 * bar;
  bar_of(layout).row_changes = {{.row = 2, .crack = 3.0 * bar}};
  const WhatIf w = what_if(layout, {.row = 2});
  ASSERT_EQ(w.base.rows[1].flow, 0.0);
  const FaultEffect& plugged = answer(w, Fault::row_plugged).setting_kept;
  ASSERT_TRUE(plugged.answered()) << plugged.why_not;
  EXPECT_EQ(plugged.row_change, 0.0);
  EXPECT_NEAR(plugged.total_change, 0.0, 1e-9);
  EXPECT_NEAR(plugged.largest_change, 0.0, 1e-9);
  EXPECT_EQ(plugged.dry, std::vector<int>{2});
}

TEST(WhatIf, StopsAndRefuses) {
  const Layout layout = two_sections();
  const WhatIf stopped = what_if(layout, {}, [](std::size_t done, std::size_t) { return done < 3; });
  EXPECT_FALSE(stopped.complete);
  EXPECT_EQ(stopped.answers.size(), 3U);
  expect_refused([&] { (void)what_if(layout, {.row = 11}); }, "row");
  expect_refused([&] { (void)what_if(layout, {.kink_left = 0.0}); }, "kink");
  expect_refused([&] { (void)what_if(layout, {.pump_wear = 1.0}); }, "wear");
  expect_refused([&] { (void)what_if(layout, {.meter_step = std::nan("")}); }, "meter");
  Layout with_shut = layout;
  bar_of(with_shut).row_changes = {{.row = 5, .shut = true}};
  expect_refused([&] { (void)what_if(with_shut, {.row = 5}); }, "row");
  EXPECT_NE(answer(what_if(with_shut), Fault::row_plugged).fault.rows.front(), 5);
}

}  // namespace what_if_test
}  // namespace libflow
