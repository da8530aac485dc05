// SPDX-License-Identifier: MIT
/// @file
/// A part that passes both ways may be written from either end: every study gives the same answer.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/lines.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/path.hpp>
#include <libflow/study/scenarios.hpp>
#include <libflow/study/tolerance.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace drawn_round_test {

using namespace units;

/// Two tanks over a bar with three rows; every hose and orifice drawn along the flow, or against it.
Layout gravity_bar(bool turned) {
  Plumbing p;
  Network& n = p.network;
  const LiquidState water = Liquid().at(Job{}.temperature);
  p.supply = n.add_place("bar");
  const auto join = [&](std::string id, Network::PlaceIndex a, Network::PlaceIndex b, Part part) {
    return turned ? n.add_part(std::move(id), b, a, std::move(part)) : n.add_part(std::move(id), a, b, std::move(part));
  };
  for (int k = 1; k <= 2; ++k) {
    const std::string name = fmt::format("tank {}", k);
    Tank tank{.shape = UprightTank::round((0.4 + 0.2 * k) * m, 1.0 * m)};
    tank.lowest_level = 0.1 * m;
    const auto place = add_tank(n, name, tank, 1.0 * m, water, 1.0 * m);
    p.tanks.push_back({place, tank, 1.0});
    (void)join(name + " line", place, p.supply, Hose{.length = 2.0 * m, .bore = 25.0 * mm});
  }
  for (int row = 1; row <= 3; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto end = n.add_place(name + " end"), air = n.add_air(name);
    const auto hose = join(name + " hose", p.supply, end, Hose{.length = 1.0 * row * m, .bore = 10.0 * mm});
    const auto hole = join(name + " hole", end, air, Orifice{.bore = 4.0 * mm});
    p.rows.push_back({.row = row,
                      .x = row - 2.0,
                      .width = 0.76,
                      .hose_length = 1.0 * row,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {hose}});
  }
  return {.name = turned ? "turned" : "along", .job = test::plain_job(), .plumbing = std::move(p)};
}

TEST(DrawnRound, TheJobAndTheWayToARow) {
  const Answer along = main_job(gravity_bar(false)), turned = main_job(gravity_bar(true));
  EXPECT_GT(along.evenness.total_flow, 0.0);
  EXPECT_NEAR(turned.evenness.total_flow / along.evenness.total_flow, 1.0, 1e-9);
  for (std::size_t i = 0; i < along.evenness.rows.size(); ++i) {
    const RowResult &a = along.evenness.rows[i], &b = turned.evenness.rows[i];
    EXPECT_NEAR(b.flow / a.flow, 1.0, 1e-9);
    EXPECT_NEAR(b.orifice_drop / a.orifice_drop, 1.0, 1e-8);
    EXPECT_NEAR(b.deviation, a.deviation, 1e-9);
  }
  const RowPath way = path_to_row(along, 3), back = path_to_row(turned, 3);
  ASSERT_EQ(way.steps.size(), back.steps.size());
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    EXPECT_EQ(way.steps[i].part, back.steps[i].part);
    EXPECT_NEAR(back.steps[i].flow / way.steps[i].flow, 1.0, 1e-9);
    EXPECT_NEAR(back.steps[i].loss / way.steps[i].loss, 1.0, 1e-7);
  }
}

TEST(DrawnRound, EveryFault) {
  const WhatIf along = what_if(gravity_bar(false)), turned = what_if(gravity_bar(true));
  ASSERT_EQ(along.answers.size(), turned.answers.size());
  std::size_t tanks = 0;
  for (std::size_t i = 0; i < along.answers.size(); ++i) {
    const FaultEffect &a = along.answers[i].setting_kept, &b = turned.answers[i].setting_kept;
    EXPECT_EQ(a.why_not, b.why_not) << along.answers[i].fault.name;
    if (!a.answered()) continue;
    EXPECT_NEAR(b.total / a.total, 1.0, 1e-8) << along.answers[i].fault.name;
    EXPECT_EQ(a.dry, b.dry) << along.answers[i].fault.name;
    tanks += along.answers[i].fault.fault == Fault::tank_empty ? 1U : 0U;
  }
  EXPECT_EQ(tanks, 2U) << "an empty tank's line is shut whichever way it is drawn";
}

TEST(DrawnRound, AFillAndItsLines) {
  const DrawdownOptions coarse{.samples = 4, .least_flow = 0.0, .tolerance = 1e-7};
  const Drawdown along = drawdown(gravity_bar(false), coarse), turned = drawdown(gravity_bar(true), coarse);
  EXPECT_EQ(along.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(turned.time / along.time, 1.0, 1e-6);
  for (std::size_t r = 0; r < along.delivered.size(); ++r) {
    EXPECT_GT(along.delivered[r], 0.0);
    EXPECT_NEAR(turned.delivered[r] / along.delivered[r], 1.0, 1e-6);
  }
  const Lines there = lines(gravity_bar(false)), back = lines(gravity_bar(true));
  for (std::size_t r = 0; r < there.rows.size(); ++r) {
    EXPECT_NEAR(back.rows[r].fill / there.rows[r].fill, 1.0, 1e-9);
    EXPECT_NEAR(back.rows[r].delay / there.rows[r].delay, 1.0, 1e-9);
  }
}

TEST(DrawnRound, ScenariosAndTolerances) {
  const Layout along = gravity_bar(false), turned = gravity_bar(true);
  Scenarios s{.count = 5};
  s.orifice_bore = Eigen::ArrayXXd::Constant(5, 3, 4e-3);
  for (Eigen::Index i = 0; i < 5; ++i) s.orifice_bore(i, i % 3) = 3e-3 + 0.4e-3 * static_cast<double>(i);
  const ScenarioResults a = ScenarioSolver(std::get<Plumbing>(along.plumbing), along.job).solve(s);
  const ScenarioResults b = ScenarioSolver(std::get<Plumbing>(turned.plumbing), turned.job).solve(s);
  EXPECT_EQ(b.alone, 0U);
  for (Eigen::Index i = 0; i < 5; ++i) {
    for (Eigen::Index r = 0; r < 3; ++r) EXPECT_NEAR(b.flow(i, r) / a.flow(i, r), 1.0, 1e-9);
  }
  Tolerance bores;
  bores.of = ToleranceOf::orifice_bore;
  bores.relative = true;
  bores.difference.deviation = 0.01;
  const ToleranceOptions few{.points = 64, .replicates = 2, .share_points = 0};
  const ToleranceResult x = tolerance_study(along, {bores}, few), y = tolerance_study(turned, {bores}, few);
  EXPECT_GT(x.rms_cv.value, 0.0);
  EXPECT_NEAR(y.rms_cv.value / x.rms_cv.value, 1.0, 1e-8);
  ASSERT_TRUE(x.first_order_rms_cv && y.first_order_rms_cv);
  EXPECT_NEAR(*y.first_order_rms_cv / *x.first_order_rms_cv, 1.0, 1e-8);
}

}  // namespace drawn_round_test
}  // namespace libflow
