// SPDX-License-Identifier: MIT
/// @file
/// The main job in one call: solved, judged, explained, or refused with a reason.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include <libflow/study.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace main_job_test {

using namespace units;
using test::expect_refused, test::plain_bar, test::plain_job;

Layout layout_of(const Toolbar& toolbar) { return {.name = "north bar", .job = plain_job(), .plumbing = toolbar}; }

/// Two rows on a supply that is fed, one with a longer hose; no bar.
Plumbing two_free_rows(double flow) {
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(flow));
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose = p.network.add_part(fmt::format("hose {}", row), p.supply, air,
                                         Part(Hose{.length = row * 3.0 * m, .bore = 6.0 * mm}));
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = row * 3.0,
                      .airs = {air},
                      .last_parts = {hose},
                      .orifices = {},
                      .check_valves = {},
                      .hoses = {hose}});
  }
  return p;
}

TEST(MainJob, EvenBar) {
  const Answer a = main_job(layout_of(plain_bar(16)));
  EXPECT_TRUE(a.solution.usable()) << a.solution.message;
  EXPECT_EQ(a.layout.name, "north bar");
  EXPECT_EQ(a.liquid.name, Liquid().name());
  EXPECT_EQ(a.plumbing.rows.size(), 16U);
  EXPECT_EQ(a.evenness.rows.size(), 16U);
  EXPECT_TRUE(a.evenness.even);
  EXPECT_FALSE(a.evenness.causes.empty());
  EXPECT_NEAR(a.evenness.mean_rate / si(plain_job().rate), 1.0, 1e-12);
  EXPECT_LE(a.solution.mass_residual, 1e-12);
  EXPECT_LE(a.solution.energy_residual, 1e-9);
}

TEST(MainJob, UnevenBarSaysWhy) {
  Toolbar t = plain_bar(16);
  t.hose_bore = 5.0 * mm;
  t.orifice = OrificeByBore{.bore = 1.5 * mm};
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  Layout layout = layout_of(t);
  layout.job.liquid = find_liquid("10-34-0");
  const Answer a = main_job(layout);
  EXPECT_FALSE(a.evenness.even);
  EXPECT_FALSE(a.evenness.outside.empty());
  EXPECT_EQ(a.evenness.causes.front().name, "hose lengths");
  EXPECT_GT(a.evenness.causes.front().share, 0.9);
  EXPECT_TRUE(a.evenness.lowest_row == 1 || a.evenness.lowest_row == 16);
}

// The liquid is taken at the job's temperature: in small hoses it is laminar, and the cold shows. (In the orifice alone
// it would not: there the jet contracts less.)
TEST(MainJob, ColdLiquidNeedsMorePressure) {
  Toolbar t = plain_bar(4);
  t.hose_bore = 6.0 * mm;
  t.orifice = OrificeByBore{.bore = 2.0 * mm};
  Layout layout = layout_of(t);
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.temperature = fahrenheit(75.0);
  const Answer warm = main_job(layout);
  layout.job.temperature = fahrenheit(40.0);
  const Answer cold = main_job(layout);
  EXPECT_GT(cold.liquid.viscosity, 1.5 * warm.liquid.viscosity);
  EXPECT_GT(cold.evenness.supply_pressure, warm.evenness.supply_pressure);
  EXPECT_NEAR(cold.evenness.mean_rate / warm.evenness.mean_rate, 1.0, 1e-12);
}

// Laminar hoses alone, one twice as long: by Hagen-Poiseuille it passes half.
TEST(MainJob, FreeForm) {
  Layout layout{.name = "free", .job = plain_job(), .plumbing = two_free_rows(2e-6)};
  layout.job.liquid =
      Liquid::from_points("oil", {{1200.0 * kg_per_m3, std::nullopt}}, {{100.0 * mPa_s, celsius(20.0)}});
  const Answer a = main_job(layout);
  ASSERT_TRUE(a.solution.usable());
  EXPECT_NEAR(a.evenness.rows[0].flow, 2e-6 * 2.0 / 3.0, 1e-16);
  EXPECT_NEAR(a.evenness.rows[1].flow, 2e-6 / 3.0, 1e-16);
  EXPECT_NEAR(a.evenness.rows[0].deviation, 1.0 / 3.0, 1e-10);
  EXPECT_EQ(a.evenness.rows[0].regime, Regime::laminar);
  EXPECT_TRUE(a.evenness.causes.empty());
  EXPECT_FALSE(a.evenness.even);
}

TEST(MainJob, PlumbingWithoutAnAnswerNamesThePlace) {
  Plumbing p = two_free_rows(2e-6);
  const auto far = p.network.add_place("lost tee"), out = p.network.add_air("lost row");
  p.network.add_part("lost hose", far, out, Part(Hose{.length = 1.0 * m, .bore = 6.0 * mm}));
  try {
    (void)main_job({.name = "free", .job = plain_job(), .plumbing = p});
    ADD_FAILURE() << "nothing thrown";
  } catch (const IllPosedError& e) {
    EXPECT_NE(std::string(e.what()).find("lost tee"), std::string::npos) << e.what();
  }
}

TEST(MainJob, BadInputIsRefused) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  Layout layout = layout_of(plain_bar(4));
  for (const double kelvin : {nan, -5.0, 0.0, 1000.0}) {
    layout.job.temperature = from_si<Temperature>(kelvin);
    expect_refused([&] { (void)main_job(layout); }, "temperature");
  }
  layout = layout_of(plain_bar(4));
  layout.job.speed = nan * m_per_s;
  expect_refused([&] { (void)main_job(layout); }, "job, speed");
  expect_refused([&] { (void)main_job(layout_of(Toolbar{})); }, "toolbar, rows");
  layout = {.name = "free", .job = plain_job(), .plumbing = two_free_rows(2e-6)};
  layout.job.rate = from_si<AreaRate>(-1.0);
  expect_refused([&] { (void)main_job(layout); }, "job, rate");
}

// On a side slope the lowest check valve bears the liquid in the bar: where it stands higher than the crack pressure it
// runs out there after a stop, and the main job foretells it.
TEST(MainJob, ForetellsWhatRunsOutAfterAStop) {
  Toolbar t = plain_bar(16);
  t.side_slope = slope_percent(20.0);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.1 * m};
  for (const bool strong : {false, true}) {
    t.check_valve = test::plain_valve();
    t.check_valve->crack = (strong ? 10.0 : 0.5) * psi;
    const Answer a = main_job(layout_of(t));
    std::vector<Caution> told;
    for (const Caution& c : a.evenness.cautions) {
      if (c.code == "dribbles-after-stop") told.push_back(c);
    }
    if (strong) {
      EXPECT_TRUE(told.empty());
      continue;
    }
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told[0].subject, "row 1") << "the right end is up";
    EXPECT_NEAR(told[0].limit, si(0.5 * psi), 1e-9);
    // The highest point is row 16: 15 spacings along the bar, times the sine of the slope.
    const double height = 15.0 * si(30.0 * inch) * 0.2 / std::hypot(1.0, 0.2);
    EXPECT_NEAR(told[0].value / (a.liquid.density * 9.80665 * height), 1.0, 1e-6);
  }
}

}  // namespace main_job_test
}  // namespace libflow
