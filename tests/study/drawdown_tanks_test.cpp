// SPDX-License-Identifier: MIT
/// @file
/// Drawdown of several tanks and of pumps: which is empty first, exact events, rate held or not.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <string>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/network/tank_supply.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/tank.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace drawdown_tanks_test {

namespace tanks_test {
using namespace units;
using test::expect_refused;

struct Standing {
  Tank tank;
  double bottom;  ///< [m]
  double line;    ///< quadratic loss of its own line [Pa per (m3/s)^2]
};

/// Tanks tied at one place, from which one hole drains: nothing else.
Layout tied(const std::vector<Standing>& all, double k_out, double outlet = 0.0) {
  Job job = test::plain_job();
  job.temperature = celsius(20);
  Plumbing p;
  const LiquidState liquid = job.liquid.at(job.temperature);
  const auto tie = p.network.add_place("tie", outlet * m);
  for (std::size_t k = 0; k < all.size(); ++k) {
    const Length full = all[k].tank.height();
    const auto place = add_tank(p.network, fmt::format("tank {}", k + 1), all[k].tank, full, liquid, all[k].bottom * m);
    p.tanks.push_back({place, all[k].tank, si(full)});
    p.network.add_part(fmt::format("line {}", k + 1), place, tie, Part(test::QuadraticPart{.k = all[k].line}));
  }
  p.supply = tie;
  const auto air = p.network.add_air("row 1", outlet * m);
  const auto last = p.network.add_part("hole", tie, air, Part(test::QuadraticPart{.k = k_out}));
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, last));
  return {.name = "tied tanks", .job = job, .plumbing = p};
}

double liquid_weight() { return Liquid().at(celsius(20)).density * standard_gravity; }

void expect_mass_kept(const Drawdown& d) {
  double drawn = 0.0;
  for (const DrawdownTank& t : d.tanks) drawn += t.start - t.end;
  const double got = std::accumulate(d.delivered.begin(), d.delivered.end(), 0.0);
  EXPECT_NEAR(got + d.spilled, drawn, 1e-8 * drawn);
  EXPECT_NEAR(d.elsewhere, 0.0, 1e-8 * drawn);
}
bool happened(const Drawdown& d, DrawdownEventKind kind, const std::string& subject) {
  return std::any_of(d.events.begin(), d.events.end(),
                     [&](const DrawdownEvent& e) { return e.kind == kind && e.subject == subject; });
}

/// A bar with a pump and one tank.
Layout pumped(std::size_t tanks = 1) {
  Toolbar bar = test::plain_bar(6);
  Drive drive;
  for (std::size_t k = 0; k < tanks; ++k) {
    DriveTank t{.tank = {.shape = UprightTank::round(0.8 * m, 1.0 * m)}, .level = 0.5 * m};
    t.height = 0.6 * m;
    t.tank.lowest_level = 0.05 * m;
    if (tanks > 1) t.line_length = (1.0 + 2.0 * static_cast<double>(k)) * m;
    drive.tanks.push_back(t);
  }
  drive.suction = {.length = 2.0 * m};
  drive.pump = CentrifugalPump{.shutoff = 1500.0 * kPa, .free_flow = 60.0 * L_per_min};
  drive.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  bar.drive = drive;
  return {.name = "pumped bar", .job = test::plain_job(), .plumbing = bar};
}
}  // namespace tanks_test

TEST(DrawdownTanks, AlikeTanksEmptyTogether) {
  using namespace tanks_test;
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.2 * m;
  const double k = 1e10;
  const Drawdown two = drawdown(tied({{tank, 0.5, 1e6}, {tank, 0.5, 1e6}}, k), {.least_flow = 0.0});
  ASSERT_EQ(two.tanks.size(), 2U);
  EXPECT_EQ(two.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(*two.tanks[0].empty_time, *two.tanks[1].empty_time, 1e-5 * two.time);
  // As one tank of twice the plan behind a quarter of the line's loss, in closed form: sqrt of head falls in time.
  const double plan = 2.0 * std::numbers::pi / 4.0, total = k + 1e6 / 4.0, w = liquid_weight();
  const double exact = plan * 2.0 * std::sqrt(total / w) * (std::sqrt(1.5) - std::sqrt(0.7));
  EXPECT_NEAR(two.time, exact, 1e-6 * exact);
  expect_mass_kept(two);
}

TEST(DrawdownTanks, TheSmallerOneIsEmptyFirstAndTheOtherGoesOn) {
  using namespace tanks_test;
  Tank small{.shape = UprightTank::round(0.6 * m, 1.0 * m)}, large{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  small.lowest_level = large.lowest_level = 0.1 * m;
  const Drawdown d = drawdown(tied({{large, 0.5, 4e9}, {small, 0.5, 4e9}}, 1e10), {.least_flow = 0.0});
  ASSERT_TRUE(d.first_empty);
  EXPECT_EQ(*d.first_empty, 1U);
  EXPECT_TRUE(happened(d, DrawdownEventKind::tank_empty, "tank 2"));
  EXPECT_LT(d.air_time, d.time);
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  for (const DrawdownTank& t : d.tanks) EXPECT_NEAR(t.end, t.unusable, 1e-9);
  // Once alone, the large tank drains through its line and the hole: closed form from its level at that moment.
  double level = -1.0;
  for (const DrawdownSample& s : d.samples) {
    if (s.time == d.air_time) level = s.level[0];
  }
  ASSERT_GT(level, 0.1);
  const double rest =
      std::numbers::pi / 4.0 * 2.0 * std::sqrt(1.4e10 / liquid_weight()) * (std::sqrt(level + 0.5) - std::sqrt(0.6));
  EXPECT_NEAR(d.time - d.air_time, rest, 1e-6 * rest);
  expect_mass_kept(d);
}

TEST(DrawdownTanks, AHigherTankSpillsOverALowerFullOne) {
  using namespace tanks_test;
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.1 * m;
  const Drawdown d = drawdown(tied({{tank, 1.0, 1e8}, {tank, 0.4, 1e8}}, 1e11), {.least_flow = 0.0});
  EXPECT_TRUE(happened(d, DrawdownEventKind::overflow_begins, "tank 2"));
  EXPECT_EQ(d.events.front().time, 0.0);
  EXPECT_GT(d.spilled, 0.01);
  EXPECT_LT(d.spilled, 0.79);
  EXPECT_LE(d.tanks[1].end, d.tanks[1].capacity);
  for (const DrawdownSample& s : d.samples) EXPECT_LE(s.volume[1], d.tanks[1].capacity * (1.0 + 1e-12));
  EXPECT_EQ(*d.first_empty, 0U) << "the higher one is empty first";
  expect_mass_kept(d);
  bool told = false;
  for (const Caution& c : d.cautions) told = told || c.code == "overflow";
  EXPECT_TRUE(told);
}

TEST(DrawdownTanks, ALowerTankFillsToTheBrimAtOneMoment) {
  using namespace tanks_test;
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.1 * m;
  Layout layout = tied({{tank, 2.0, 1e8}, {tank, 0.4, 1e8}}, 1e11);
  auto& p = std::get<Plumbing>(layout.plumbing);
  p.tanks[1].level = 0.5;
  const Drawdown d = drawdown(layout, {.from_full = false, .least_flow = 0.0});
  EXPECT_TRUE(happened(d, DrawdownEventKind::overflow_begins, "tank 2"));
  EXPECT_GT(d.spilled, 0.0);
  expect_mass_kept(d);
}

TEST(DrawdownTanks, CheckValvesShutOneByOneAtTheirLevels) {
  using namespace tanks_test;
  // Two rows by gravity, the second outlet 0.2 m higher. A valve shuts when the head on it is its crack pressure.
  Job job = test::plain_job();
  const LiquidState liquid = job.liquid.at(job.temperature);
  const Tank tank{.shape = UprightTank::round(0.5 * m, 1.0 * m)};
  Plumbing p;
  p.supply = add_tank(p.network, "tank", tank, 1.0 * m, liquid, 1.0 * m);
  p.tanks.push_back({p.supply, tank, 1.0});
  const Pressure crack = 12.0 * kPa;
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row), (row == 1 ? 0.0 : 0.2) * m);
    const auto last = p.network.add_part(fmt::format("valve {}", row), p.supply, air,
                                         Part(CheckValve::rated(crack, 1.0 * L_per_min, 10.0 * kPa, "valve")));
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.76, air, last, {.check_valves = {last}}));
  }
  const Drawdown d = drawdown({.name = "gravity", .job = job, .plumbing = p}, {.least_flow = 0.0});
  ASSERT_TRUE(happened(d, DrawdownEventKind::valve_shut, "valve 2"));
  const double head = si(crack) / (liquid.density * standard_gravity);
  for (const DrawdownEvent& e : d.events) {
    if (e.subject != "valve 2") continue;
    for (const DrawdownSample& s : d.samples) {
      if (s.time == e.time) {
        EXPECT_NEAR(s.level[0], head + 0.2 - 1.0, 1e-6);
      }
    }
  }
  EXPECT_EQ(d.end, DrawdownEnd::flow_faded) << "the first row's valve holds the rest back";
  EXPECT_NEAR(d.samples.back().level[0], head - 1.0, 2e-3);
  expect_mass_kept(d);
}

TEST(DrawdownTanks, AHeldRateEmptiesATankAtOnePace) {
  using namespace tanks_test;
  const Layout layout = pumped();
  const Drawdown d = drawdown(layout);
  const double usable = d.tanks[0].start - d.tanks[0].unusable;
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 6.0 * si(30.0 * inch);
  EXPECT_NEAR(d.time, usable / wanted, 1e-6 * d.time);
  EXPECT_NEAR(d.area, usable / si(layout.job.rate), 1e-6 * d.area);
  for (std::size_t i = 0; i < d.samples.size(); ++i) {
    EXPECT_NEAR(d.samples[i].mean_rate, si(layout.job.rate), 1e-6 * si(layout.job.rate));
    EXPECT_TRUE(std::isfinite(d.samples[i].pump_inlet));
    if (i == 0) continue;
    EXPECT_GT(d.samples[i].setting, d.samples[i - 1].setting) << "the pump turns faster as the level falls";
    EXPECT_LT(d.samples[i].pump_inlet, d.samples[i - 1].pump_inlet);
  }
  expect_mass_kept(d);
}

TEST(DrawdownTanks, AFixedControlLetsTheRateFall) {
  using namespace tanks_test;
  const Layout layout = pumped();
  const Drawdown d = drawdown(layout, {.hold_rate = false});
  EXPECT_NEAR(d.samples.front().mean_rate, si(layout.job.rate), 1e-5 * si(layout.job.rate));
  EXPECT_LT(d.samples.back().mean_rate, 0.999 * si(layout.job.rate));
  EXPECT_EQ(d.lowest_rate, d.samples.back().mean_rate);
  EXPECT_TRUE(std::isnan(d.samples.front().setting));
  expect_mass_kept(d);
  // The mean of the rate over the fill lies between its ends: area x rate is the liquid.
  const double mean = (d.tanks[0].start - d.tanks[0].end) / d.area;
  EXPECT_LT(mean, d.highest_rate);
  EXPECT_GT(mean, d.lowest_rate);
}

TEST(DrawdownTanks, ThePumpDrawsMoreFromTheTankWithTheShorterLine) {
  using namespace tanks_test;
  Layout layout = pumped(2);
  layout.job.rate = 1.5 * layout.job.rate;
  auto& drive = *std::get<Toolbar>(layout.plumbing).drive;
  drive.pump = CentrifugalPump{.shutoff = 4900.0 * kPa, .free_flow = 200.0 * L_per_min};
  for (DriveTank& t : drive.tanks) t.line_bore = 12.0 * mm;
  const Drawdown d = drawdown(layout, {.samples = 5, .tolerance = 1e-5});
  ASSERT_TRUE(d.first_empty);
  EXPECT_EQ(*d.first_empty, 0U);
  EXPECT_LT(d.air_area, d.area);
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  expect_mass_kept(d);
  bool told = false;
  for (const Caution& c : d.cautions) told = told || c.code == "air-at-pump";
  EXPECT_TRUE(told);
}

TEST(DrawdownTanks, ThePumpOfAnEmptyTankEndsTheFill) {
  using namespace tanks_test;
  // Each tank has a metering pump of its own: when the first is empty, its pump has nothing to draw.
  Job job = test::plain_job();
  const LiquidState liquid = job.liquid.at(job.temperature);
  Plumbing p;
  for (int k = 1; k <= 2; ++k) {
    Tank tank{.shape = UprightTank::round((k == 1 ? 0.5 : 0.8) * m, 1.0 * m)};
    const auto place = add_tank(p.network, fmt::format("tank {}", k), tank, 1.0 * m, liquid);
    p.tanks.push_back({place, tank, 1.0});
    const auto sucked = p.network.add_drawn(fmt::format("pump {} in", k), 1.0 * L_per_min);
    p.network.add_part(fmt::format("suction {}", k), place, sucked, Part(Hose{.length = 1.0 * m, .bore = 20.0 * mm}));
    const auto pushed = p.network.add_fed(fmt::format("pump {} out", k), 1.0 * L_per_min);
    const auto air = p.network.add_air(fmt::format("row {}", k));
    const auto hose =
        p.network.add_part(fmt::format("hose {}", k), pushed, air, Part(Hose{.length = 1.0 * m, .bore = 8.0 * mm}));
    p.rows.push_back(test::row_by_hand(k, 0.0, 0.76, air, hose, {.hoses = {hose}}));
    if (k == 1) p.supply = pushed;
  }
  const Drawdown d = drawdown({.name = "two pumps", .job = job, .plumbing = p});
  ASSERT_TRUE(d.first_empty);
  EXPECT_EQ(*d.first_empty, 0U);
  const double exact = std::numbers::pi / 4.0 * 0.25 / si(1.0 * L_per_min);
  EXPECT_NEAR(d.air_time, exact, 1e-7 * exact) << "volume over a constant flow";
  EXPECT_EQ(d.end, DrawdownEnd::flow_faded);
}

TEST(DrawdownTanks, ASupplyHeldAtAPressureHasNoDrawdown) {
  using namespace tanks_test;
  Layout layout = pumped();
  layout.job.pressure = 200.0 * kPa;
  expect_refused([&] { (void)drawdown(layout); }, "pressure");
}

}  // namespace drawdown_tanks_test
}  // namespace libflow
