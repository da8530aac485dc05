// SPDX-License-Identifier: MIT
/// @file
/// Drawdown against published times of tanks that drain, and against the conservation of mass.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <utility>
#include <vector>

#include <libflow/fluid/liquid.hpp>
#include <libflow/network/tank_supply.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/tank.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/units/quantity.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace drawdown_test {

namespace drawdown_test {
using namespace units;
using test::expect_refused;

constexpr double rho = 998.21;

/// A hole that obeys Torricelli's law, q = cd a sqrt(2 g h): the textbooks' orifice, at every Reynolds number.
test::QuadraticPart hole(double bore, double cd) {
  const double area = cd * std::numbers::pi / 4.0 * bore * bore;
  return {.k = rho / (2.0 * area * area)};
}

Job water_job() {
  Job job = test::plain_job();
  job.liquid = Liquid::from_points("water", {{rho * kg_per_m3, celsius(20)}}, {{1.0016 * mPa_s, celsius(20)}});
  job.temperature = celsius(20);
  return job;
}

/// A tank over one hole in its bottom.
Layout draining(const Tank& tank, const test::QuadraticPart& part, Length level) {
  Plumbing p;
  const LiquidState liquid = water_job().liquid.at(celsius(20));
  p.supply = add_tank(p.network, "tank", tank, level, liquid);
  p.tanks.push_back({p.supply, tank, si(level)});
  const auto air = p.network.add_air("row 1");
  const auto last = p.network.add_part("hole", p.supply, air, Part(part));
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, last));
  return {.name = "draining tank", .job = water_job(), .plumbing = p};
}

double delivered(const Drawdown& d) { return std::accumulate(d.delivered.begin(), d.delivered.end(), 0.0); }
double drawn(const Drawdown& d) {
  double sum = 0.0;
  for (const DrawdownTank& t : d.tanks) sum += t.start - t.end;
  return sum;
}
/// What left the tanks is what the rows got and what spilled.
void expect_mass_kept(const Drawdown& d) {
  EXPECT_NEAR(delivered(d) + d.spilled, drawn(d), 1e-8 * drawn(d));
  EXPECT_NEAR(d.elsewhere, 0.0, 1e-8 * drawn(d));
}

const DrawdownOptions to_the_end{.from_full = false, .least_flow = 0.0};
}  // namespace drawdown_test

TEST(Drawdown, WaterTankOfATextbook) {
  using namespace drawdown_test;
  // Y. A. Cengel, M. A. Boles, Thermodynamics, chapter on mass balance of control volumes: a tank 4 ft high and 3 ft in
  // diameter, a jet of 0.5 in; the level falls to 2 ft in 757 s (from memory; the example's text was found, its answer
  // recomputed). Half the last printed digit, and g = 32.2 ft/s2 there against 32.174 here: 0.04 %.
  Tank tank{.shape = UprightTank::round(3.0 * ft, 4.0 * ft)};
  tank.lowest_level = 2.0 * ft;
  const Drawdown d = drawdown(draining(tank, hole(si(0.5 * inch), 1.0), 4.0 * ft), to_the_end);
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(d.time, 757.0, 0.5 + 0.0004 * 757.0);
  // Torricelli's closed form.
  const double g = standard_gravity, ratio = 36.0 * 36.0 / (0.5 * 0.5);
  const double exact = ratio * std::sqrt(2.0 / g) * (std::sqrt(si(4.0 * ft)) - std::sqrt(si(2.0 * ft)));
  EXPECT_NEAR(d.time, exact, 1e-7 * exact);
  EXPECT_NEAR(d.samples.back().level[0], si(2.0 * ft), 1e-9);
  expect_mass_kept(d);
}

TEST(Drawdown, UprightTankToTheLastDrop) {
  using namespace drawdown_test;
  // Standard Handbook of Engineering Calculations, 4th ed. (T. G. Hicks), section 5: t = pi D^2 sqrt(h) / (16.05 Cd A),
  // in feet; 0.61 for a sharp-edged orifice. 16.05 is 2 sqrt(2 g) rounded: 0.03 %.
  const double diameter = 5.0, height = 6.0, bore = 2.0 / 12.0, cd = 0.61;
  const double area = std::numbers::pi / 4.0 * bore * bore;
  const double published = std::numbers::pi * diameter * diameter * std::sqrt(height) / (16.05 * cd * area);
  const Tank tank{.shape = UprightTank::round(diameter * ft, height * ft)};
  const Drawdown d = drawdown(draining(tank, hole(bore * 0.3048, cd), height * ft), to_the_end);
  // The square root's end is no smooth one, and the hole's laminar term is tiny but not nothing: 0.1 % in all.
  EXPECT_NEAR(d.time, published, 0.001 * published);
  expect_mass_kept(d);
}

TEST(Drawdown, LyingCylinderInClosedForm) {
  using namespace drawdown_test;
  // Time from H1 to H2 through a hole in the bottom of a lying cylinder, flat ends:
  // 4 L [(D - H2)^1.5 - (D - H1)^1.5] / (3 Cd a sqrt(2 g)); R. K. Bansal, Fluid Mechanics, chapter on orifices (also
  // codecogs.com, Circular horizontal).
  const double diameter = 2.0, length = 10.0, bore = 0.1, cd = 0.6;
  const double area = std::numbers::pi / 4.0 * bore * bore;
  const Tank tank{.shape = LyingTank::round(diameter * m, length * m)};
  for (const auto& [from, low] : {std::pair{2.0, 0.2}, std::pair{1.0, 0.2}, std::pair{2.0, 0.001}}) {
    Tank to = tank;
    to.lowest_level = low * m;
    const Drawdown d = drawdown(draining(to, hole(bore, cd), from * m), to_the_end);
    const double exact = 4.0 * length * (std::pow(diameter - low, 1.5) - std::pow(diameter - from, 1.5)) /
                         (3.0 * cd * area * std::sqrt(2.0 * standard_gravity));
    EXPECT_NEAR(d.time, exact, 1e-6 * exact) << from;
    expect_mass_kept(d);
  }
}

TEST(Drawdown, SamplesAreEqualSharesInOrder) {
  using namespace drawdown_test;
  Tank tank{.shape = LyingTank::round(1.2 * m, 2.0 * m)};
  tank.lowest_level = 0.1 * m;
  const Drawdown d = drawdown(draining(tank, hole(0.01, 0.6), 1.2 * m), {.samples = 10, .least_flow = 0.0});
  ASSERT_EQ(d.samples.size(), 11U);
  for (std::size_t i = 0; i < d.samples.size(); ++i) {
    EXPECT_NEAR(d.samples[i].share_left, 1.0 - 0.1 * static_cast<double>(i), 1e-7);
    EXPECT_NEAR(d.samples[i].mass, rho * d.samples[i].volume[0], 1e-9 * d.samples[i].mass + 1e-12);
    EXPECT_NEAR(d.samples[i].area, si(d.job.speed) * 1.0 * d.samples[i].time, 1e-9 * d.area) << "one row 1 m wide";
    if (i == 0) continue;
    EXPECT_GT(d.samples[i].time, d.samples[i - 1].time);
    EXPECT_LT(d.samples[i].total_flow, d.samples[i - 1].total_flow) << "the head falls";
  }
  EXPECT_EQ(d.samples.back().time, d.time);
  EXPECT_NEAR(si(tank.capacity()), d.tanks[0].start, 1e-12);
  EXPECT_NEAR(d.tanks[0].end, si(tank.volume(0.1 * m)), 1e-9);
}

TEST(Drawdown, TheToleranceDecidesTheError) {
  using namespace drawdown_test;
  Tank tank{.shape = LyingTank::round(1.0 * m, 2.0 * m)};
  tank.lowest_level = 0.2 * m;
  const Layout layout = draining(tank, hole(0.02, 0.6), 1.0 * m);
  const double area = 0.6 * std::numbers::pi / 4.0 * 0.02 * 0.02;
  const double exact = 4.0 * 2.0 * std::pow(0.8, 1.5) / (3.0 * area * std::sqrt(2.0 * standard_gravity));
  double last = 1.0;
  for (const double tolerance : {1e-3, 1e-6, 1e-9}) {
    DrawdownOptions options = to_the_end;
    options.tolerance = tolerance;
    const double error = std::abs(drawdown(layout, options).time / exact - 1.0);
    EXPECT_LT(error, 20.0 * tolerance);
    EXPECT_LT(error, last);
    last = error;
  }
}

TEST(Drawdown, StopsWhenToldAndKeepsWhatIsDone) {
  using namespace drawdown_test;
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.1 * m;
  const Layout layout = draining(tank, hole(0.01, 0.6), 1.0 * m);
  std::vector<std::size_t> told;
  const Drawdown whole = drawdown(layout, {}, [&](std::size_t done, std::size_t total) {
    EXPECT_EQ(total, 20U);
    told.push_back(done);
    return true;
  });
  EXPECT_TRUE(whole.complete);
  EXPECT_EQ(told.front(), 0U);
  EXPECT_EQ(told.back(), 20U);
  const Drawdown part = drawdown(layout, {}, [](std::size_t done, std::size_t) { return done < 5; });
  EXPECT_FALSE(part.complete);
  EXPECT_EQ(part.end, DrawdownEnd::stopped);
  ASSERT_EQ(part.samples.size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(part.samples[i].time, whole.samples[i].time);
  EXPECT_EQ(part.time, part.samples.back().time);
  expect_mass_kept(part);
  DrawdownOptions brief;
  brief.longest = 60.0 * s;
  const Drawdown limited = drawdown(layout, brief);
  EXPECT_EQ(limited.end, DrawdownEnd::time_limit);
  EXPECT_EQ(limited.time, 60.0);
  EXPECT_FALSE(limited.complete);
}

TEST(Drawdown, RefusesLayoutsWithoutATank) {
  using namespace drawdown_test;
  expect_refused([] { (void)drawdown({.name = "bar", .job = water_job(), .plumbing = test::plain_bar(4)}); },
                 "drawdown");
  Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  tank.lowest_level = 0.5 * m;
  expect_refused([&] { (void)drawdown(draining(tank, hole(0.01, 0.6), 0.5 * m), to_the_end); }, "drawdown");
  const Layout good = draining({.shape = UprightTank::round(1.0 * m, 1.0 * m)}, hole(0.01, 0.6), 1.0 * m);
  expect_refused([&] { (void)drawdown(good, {.samples = 1}); }, "samples");
  expect_refused([&] { (void)drawdown(good, {.least_flow = 1.0}); }, "least flow");
  expect_refused([&] { (void)drawdown(good, {.tolerance = 0.1}); }, "tolerance");
}

}  // namespace drawdown_test
}  // namespace libflow
