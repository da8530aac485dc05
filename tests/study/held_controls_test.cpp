// SPDX-License-Identifier: MIT
/// @file
/// Controls that are held, or that give less the more they are opened: faults and fills against the same drawn by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace held_controls_test {

using namespace units;

const FaultAnswer& plugged_row(const WhatIf& w) {
  return *std::find_if(w.answers.begin(), w.answers.end(),
                       [](const auto& a) { return a.fault.fault == Fault::row_plugged; });
}
/// The row shut in the layout, the total asked of the seven others.
Layout without_row(Layout layout, int row) {
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = row, .shut = true}};
  layout.job.rate = layout.job.rate * (8.0 / 7.0);
  return layout;
}
Layout bypass_bar() {
  Layout layout = test::driven_layout(test::full_drive(DriveControl::bypass));
  layout.job.rate = 140.0 * L_per_ha;
  return layout;
}

TEST(HeldControls, ABypassIsMovedTheOtherWay) {
  const Layout layout = bypass_bar();
  const WhatIf w = what_if(layout, {.row = 4});
  EXPECT_EQ(w.moved, "bypass opening");
  EXPECT_NEAR(w.base_setting, operating_point(layout).setting, 1e-5);
  const FaultAnswer& a = plugged_row(w);
  ASSERT_TRUE(a.total_held.limit.empty()) << a.total_held.limit;
  EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-8);
  EXPECT_NEAR(a.total_held.setting, operating_point(without_row(layout, 4)).setting, 1e-5);
  EXPECT_LT(a.total_held.setting, w.base_setting) << "more pressure for seven rows: less goes back";
}

TEST(HeldControls, AHeldSettingIsWhereTheFaultsBegin) {
  const Layout layout = with_setting(test::driven_layout(test::plain_drive()), 0.7);
  const WhatIf w = what_if(layout, {.row = 4});
  EXPECT_DOUBLE_EQ(w.base_setting, 0.7);
  EXPECT_NEAR(w.base_total / main_job(layout).evenness.total_flow, 1.0, 1e-9);
  const FaultAnswer& a = plugged_row(w);
  EXPECT_NEAR(a.setting_kept.total / at_setting(without_row(layout, 4), 0.7).evenness.total_flow, 1.0, 1e-8);
  EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-8);
}

TEST(HeldControls, AHeldGaugeLeavesTheDriveOut) {
  Layout driven = test::driven_layout(test::plain_drive());
  driven.job.pressure = 1.0 * bar;
  Layout ideal = driven;
  std::get<Toolbar>(ideal.plumbing).drive.reset();
  EXPECT_NEAR(main_job(driven).evenness.total_flow / main_job(ideal).evenness.total_flow, 1.0, 1e-9);
  const WhatIf a = what_if(driven, {.row = 4}), b = what_if(ideal, {.row = 4});
  EXPECT_EQ(a.kept, b.kept);
  EXPECT_NEAR(a.base_total / b.base_total, 1.0, 1e-9);
  EXPECT_NEAR(plugged_row(a).setting_kept.total / plugged_row(b).setting_kept.total, 1.0, 1e-9);
  EXPECT_NEAR(plugged_row(a).total_held.gauge / plugged_row(b).total_held.gauge, 1.0, 1e-9);
}

TEST(HeldControls, AFillWithABypass) {
  Layout layout = bypass_bar();
  std::get<Toolbar>(layout.plumbing).drive->tanks[0].tank.lowest_level = 0.1 * m;
  const Drawdown d = drawdown(layout, {.samples = 4, .tolerance = 1e-6});
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 8.0 * si(30.0 * inch);
  EXPECT_NEAR(d.time * wanted / (d.tanks[0].start - d.tanks[0].unusable), 1.0, 1e-5);
  for (std::size_t i = 1; i < d.samples.size(); ++i) {
    EXPECT_LE(d.samples[i].setting, d.samples[i - 1].setting) << "less head in the tank, less may go back";
  }
}

TEST(HeldControls, AFillAtAHeldSetting) {
  Layout layout = with_setting(test::driven_layout(test::plain_drive()), 0.7);
  const Drawdown d = drawdown(layout, {.samples = 4, .tolerance = 1e-6});
  DriveTank& tank = std::get<Toolbar>(layout.plumbing).drive->tanks[0];
  tank.level = tank.tank.height();
  EXPECT_NEAR(d.samples.front().total_flow / at_setting(layout, 0.7).evenness.total_flow, 1.0, 1e-8);
  EXPECT_TRUE(std::isnan(d.samples.front().setting)) << "nothing moves";
  EXPECT_LT(d.samples.back().total_flow, d.samples.front().total_flow);
}

// A tank that stands at its lowest level is empty from the beginning; the other feeds the row alone.
TEST(HeldControls, AFillThatBeginsWithAnEmptyTank) {
  const LiquidState water = Liquid().at(Job{}.temperature);
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.2 * m;
  Plumbing p;
  p.supply = p.network.add_place("tie");
  for (int k = 1; k <= 2; ++k) {
    const double level = k == 1 ? 0.8 : 0.2;
    const auto place = add_tank(p.network, fmt::format("tank {}", k), tank, level * m, water, 0.5 * m);
    p.tanks.push_back({place, tank, level});
    p.network.add_part(fmt::format("line {}", k), place, p.supply, Part(test::QuadraticPart{.k = 1e8}));
  }
  const auto air = p.network.add_air("row 1");
  const auto hole = p.network.add_part("hole", p.supply, air, Part(test::QuadraticPart{.k = 1e11}));
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, hole));
  const Drawdown d = drawdown({.name = "one empty", .job = test::plain_job(), .plumbing = p},
                              {.from_full = false, .samples = 4, .least_flow = 0.0});
  ASSERT_TRUE(d.first_empty);
  EXPECT_EQ(*d.first_empty, 1U);
  EXPECT_EQ(d.air_time, 0.0);
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(std::accumulate(d.delivered.begin(), d.delivered.end(), 0.0), std::numbers::pi / 4.0 * 0.6, 1e-7);
  // The square root of the head falls in time, from 1.3 m to 0.7 m, through line and hole.
  const double weight = water.density * standard_gravity;
  const double exact = std::numbers::pi / 4.0 * 2.0 * std::sqrt(1.001e11 / weight) * (std::sqrt(1.3) - std::sqrt(0.7));
  EXPECT_NEAR(d.time / exact, 1.0, 1e-6);
}

}  // namespace held_controls_test
}  // namespace libflow
