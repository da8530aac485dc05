// SPDX-License-Identifier: MIT
/// @file
/// Scenarios of what feeds the rows: regulators and drives that no pack can solve, given flows at several places, shut
/// valves; each against the same plumbing written by hand.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/scenarios.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/two_rows.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace scenario_supplies_test {

using namespace units;
using test::numbers, test::TwoRows, test::plumbed, test::expect_rows;

// A regulator needs outer rounds, a hanging tube may run full or not: no pack says either, each scenario is solved as
// its plumbing is.
TEST(ScenarioSupplies, RegulatorsAndHangingTubesAreSolvedOneByOne) {
  TwoRows base;
  const auto with_regulator = [&](Pressure pressure) {
    Plumbing p = plumbed(base, pressure);
    // Between the pump and a place from which row 1 goes: row 1's hose is exchanged for it, the hose lies behind.
    Network n;
    p.supply = n.add_supply("pump", pressure);
    n.add_place("held");
    n.add_part("regulator", "pump", "held", PressureRegulator{.set = 0.8 * bar, .passage_bore = 6.0 * mm});
    for (RowPlumbing& row : p.rows) {
      const std::string name = fmt::format("row {}", row.row);
      const auto end = n.add_place(name + " end");
      row.airs = {n.add_air(name)};
      row.hoses = {n.add_part(name + " hose", n.find_place("held"), end, Part(base.first, "hose"))};
      row.last_parts = {n.add_part(name + " hole", end, row.airs[0], base.metering_first)};
    }
    p.network = std::move(n);
    return p;
  };
  const ScenarioSolver solver(with_regulator(2.0 * bar), test::plain_job());
  Scenarios s{.count = 3};
  s.pressure = numbers({1.2e5, 2e5, 4e5});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    expect_rows(r, i, with_regulator(from_si<Pressure>(s.pressure[static_cast<Eigen::Index>(i)])), solver.liquid());
  }
  EXPECT_NEAR(r.flow(0, 0) / r.flow(2, 0), 1.0, 1e-4) << "it holds its pressure whatever comes";

  Toolbar bar = test::plain_bar(4);
  bar.outlet_bore = 6.0 * mm;
  bar.outlet_fall = 0.4 * m;
  Scenarios rates{.count = 2};
  rates.rate = numbers({5e-6, 2e-5});
  const ScenarioResults tubes = solve_many(bar, test::plain_job(), rates);
  EXPECT_EQ(tubes.alone, 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    Job job = test::plain_job();
    job.rate = from_si<AreaRate>(rates.rate[static_cast<Eigen::Index>(i)]);
    const Plumbing one = build_network(bar, job);
    const LiquidState liquid = job.liquid.at(job.temperature);
    expect_rows(tubes, i, one, liquid);
    const double gauge = solve_plumbing(one, liquid).places[one.supply].total_pressure;
    EXPECT_NEAR(tubes.supply_pressure[static_cast<Eigen::Index>(i)], gauge, 1e-6 * std::abs(gauge));
  }
}

// With the drive's control held, and the bar fed at its end, the gauge stands amid a line, where no pack has a place.
TEST(ScenarioSupplies, AHeldDriveIsSolvedWithItsGauge) {
  Layout layout = test::driven_layout(test::plain_drive());
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.drive->setting = 0.9;
  bar.manifolds[0].feed = ManifoldFeed::left;
  const ScenarioSolver solver(bar, layout.job);
  Scenarios s{.count = 2};
  s.orifice_bore = Eigen::ArrayXXd::Constant(2, 8, 1.8e-3);
  s.orifice_bore.row(1) = 1.2e-3;
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    Toolbar one = bar;
    one.orifice = OrificeByBore{.bore = (i == 0 ? 1.8 : 1.2) * mm};
    const Plumbing plumbing = build_network(one, layout.job);
    expect_rows(r, i, plumbing, solver.liquid());
    const double gauge = solve_plumbing(plumbing, solver.liquid()).places[plumbing.supply].total_pressure;
    EXPECT_NEAR(r.supply_pressure[static_cast<Eigen::Index>(i)] / gauge, 1.0, 1e-9);
  }
  EXPECT_GT(r.supply_pressure[1], r.supply_pressure[0]) << "smaller holes, more pressure before them";
}

constexpr double two_widths = 2.0 * 0.76;  // of the rows [m]

/// A second pump that pushes in a given flow, and a place that is drawn from.
Plumbing two_pumps(Flow fed) {
  Plumbing p = plumbed({});
  Network n;
  p.supply = n.add_fed("pump", fed);
  n.add_fed("second pump", 0.4 * L_per_min);
  n.add_drawn("agitation", 0.1 * L_per_min);
  n.add_place("bar");
  n.add_part("line", p.supply, n.find_place("bar"), Part(Hose{.length = 1.0 * m, .bore = 12.0 * mm}, "line"));
  n.add_part("second line", "second pump", "bar", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  n.add_part("way back", "bar", "agitation", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  for (RowPlumbing& row : p.rows) {
    const std::string name = fmt::format("row {}", row.row);
    row.airs = {n.add_air(name)};
    row.hoses.clear();
    row.last_parts = {
        n.add_part(name + " hole", n.find_place("bar"), row.airs[0], Part(Orifice{.bore = (1.0 + row.row) * mm}))};
  }
  p.network = std::move(n);
  return p;
}
/// What the rate leaves for the first pump [m3/s].
double rest_of(double rate, const Job& job) { return rate * two_widths * si(job.speed) - si(0.3 * L_per_min); }

// The rate asks for what the other places leave.
TEST(ScenarioSupplies, TheSupplyGivesWhatOtherPlacesLeave) {
  const Job job = test::plain_job();
  const ScenarioSolver solver(two_pumps(from_si<Flow>(rest_of(si(job.rate), job))), job);
  Scenarios s{.count = 3};
  s.rate = numbers({0.5e-5, 1e-5, 3e-5});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    const double rate = s.rate[static_cast<Eigen::Index>(i)];
    EXPECT_NEAR(r.mean_rate[static_cast<Eigen::Index>(i)] / rate, 1.0, 1e-9);
    expect_rows(r, i, two_pumps(from_si<Flow>(rest_of(rate, job))), solver.liquid());
  }
}

// Less than the second pump gives alone: there is no flow of the first that makes it so.
TEST(ScenarioSupplies, ARateBelowWhatOtherPlacesGiveIsRefused) {
  Job job = test::plain_job();
  const ScenarioSolver solver(two_pumps(from_si<Flow>(rest_of(si(job.rate), job))), job);
  Scenarios s{.count = 3};
  s.rate = numbers({0.5e-5, 1e-7, 3e-5});
  test::expect_message([&] { (void)solver.solve(s, {.packed = false}); }, "more than the job's rate asks for");
  test::expect_message([&] { (void)solver.solve(s); }, "more than the job's rate asks for");
  Scenarios slow{.count = 2};
  slow.speed = numbers({si(job.speed), 0.1 * si(job.speed)});
  test::expect_message([&] { (void)solver.solve(slow); }, "scenario 1");
  EXPECT_TRUE(solver.solve({.count = 0}).complete) << "nothing is asked for";
}

// Where the rate asks for less than the second pump gives, the agitation cannot be fed: that one scenario has no
// answer.
TEST(ScenarioSupplies, WhatOneWayPartsKeepFromBalancingHasNoAnswer) {
  const Job job = test::plain_job();
  const double second = si(0.4 * L_per_min), drawn = si(1.0 * L_per_min);
  const Plumbing p = test::agitated(si(job.rate) * two_widths * si(job.speed) - second + drawn, second, drawn);
  const ScenarioSolver solver(p, job);
  Scenarios s{.count = 3};
  s.rate = numbers({1e-5, 0.5 * second / (two_widths * si(job.speed)), 2e-5});
  for (const bool packed : {true, false}) {
    const ScenarioResults r = solver.solve(s, {.packed = packed});
    EXPECT_EQ(r.status[0], ScenarioStatus::solved);
    EXPECT_EQ(r.status[1], ScenarioStatus::no_answer);
    EXPECT_EQ(r.status[2], ScenarioStatus::solved);
    EXPECT_FALSE(r.usable(1));
    ASSERT_EQ(r.failures.size(), 1U);
    EXPECT_EQ(r.failures[0].scenario, 1U);
    EXPECT_NE(r.failures[0].message.find("one-way parts"), std::string::npos) << r.failures[0].message;
    EXPECT_EQ(r.flow.row(1).abs().maxCoeff(), 0.0);
    EXPECT_EQ(r.mean_rate[1], 0.0);
    EXPECT_EQ(r.cv[1], 0.0);
    for (const Eigen::Index i : {0, 2}) EXPECT_NEAR(r.mean_rate[i] / s.rate[i], 1.0, 1e-9);
  }
}

// Behind a shut valve a row has no seat in a pack: it gets nothing, and the others what they get without it.
TEST(ScenarioSupplies, ARowBehindAShutValveGetsNothing) {
  TwoRows open;
  Plumbing p = plumbed(open);
  p.network.replace_part(p.rows[1].hoses[0],
                         Part(Valve{.kv = from_si<Flow>(1e-4), .bore = 8.0 * mm, .open = 0.0}, "valve"));
  p.rows[1].hoses.clear();
  const ScenarioSolver solver(p, test::plain_job());
  Scenarios s{.count = 3};
  s.viscosity = numbers({1e-3, 1e-2, 5e-2});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    LiquidState liquid = solver.liquid();
    liquid.viscosity = s.viscosity[static_cast<Eigen::Index>(i)];
    const auto k = static_cast<Eigen::Index>(i);
    const double flow = solve_plumbing(plumbed(open), liquid).parts[1].flow;
    EXPECT_NEAR(r.flow(k, 0) / flow, 1.0, 1e-9);
    EXPECT_EQ(r.flow(k, 1), 0.0);
    EXPECT_NEAR(r.lowest[k], -1.0, 1e-12) << "dry";
    EXPECT_NEAR(r.highest[k], 1.0, 1e-9) << "of two rows the other has it all";
  }
}

// The pump turns with the ground wheel: twice the speed is twice the flow on twice the field, the same rate but for the
// slip.
TEST(ScenarioSupplies, AGroundDrivenPumpGoesWithTheSpeed) {
  Layout layout = test::driven_layout(test::plain_drive());
  auto& driven = std::get<Toolbar>(layout.plumbing);
  driven.drive->pump = GroundDrivenPump{.displacement = from_si<Volume>(1e-4),
                                        .distance = 1.0 * m,
                                        .ground_speed = layout.job.speed,
                                        .slip = {.flow = 0.1 * L_per_min, .gain = 1.0 * bar, .viscosity = 1.0 * mPa_s}};
  driven.drive->setting = 1.0;
  const ScenarioSolver solver(driven, layout.job);
  Scenarios s{.count = 2};
  s.speed = numbers({0.5 * si(layout.job.speed), si(layout.job.speed)});
  for (const bool packed : {true, false}) {
    const ScenarioResults r = solver.solve(s, {.packed = packed});
    for (std::size_t i = 0; i < 2; ++i) {
      Job job = layout.job;
      job.speed = from_si<Speed>(s.speed[static_cast<Eigen::Index>(i)]);
      expect_rows(r, i, build_network(driven, job), solver.liquid());
    }
  }
}

}  // namespace scenario_supplies_test
}  // namespace libflow
