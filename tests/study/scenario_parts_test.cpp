// SPDX-License-Identifier: MIT
/// @file
/// Scenarios of layouts place by place: parts that a plain bar does not have follow the liquid of each scenario, and
/// what a part has no number for is refused in words.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/scenarios.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace scenario_parts_test {

using namespace units;
using test::expect_message;

/// Strainer, meter, valve and elbow ahead of two rows, each with a check valve, a reducer and an orifice.
Plumbing part_rich(Pressure pressure) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("pump", pressure);
  for (const char* name : {"a", "b", "c", "bar"}) n.add_place(name);
  n.add_part("strainer", "pump", "a",
             Strainer{.bore = 25.0 * mm,
                      .rated_flow = 20.0 * L_per_min,
                      .rated_loss = 5.0 * kPa,
                      .opening = 0.3 * mm,
                      .open_area = from_si<Area>(2e-3)});
  n.add_part(
      "meter", "a", "b",
      FlowMeter{.bore = 20.0 * mm, .rated_flow = 20.0 * L_per_min, .rated_loss = 10.0 * kPa, .most = 60.0 * L_per_min});
  n.add_part("valve", "b", "c", Valve{.kv = from_si<Flow>(4.0 / 3600.0), .bore = 20.0 * mm, .open = 0.6});
  n.add_part("elbow", "c", "bar", Fitting::elbow_90(20.0 * mm));
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto behind = n.add_place(name + " valve"), end = n.add_place(name + " end"), air = n.add_air(name);
    const auto valve = n.add_part(name + " check", n.find_place("bar"), behind,
                                  Part(CheckValve::rated(20.0 * kPa, 2.0 * L_per_min, 20.0 * kPa, "check")));
    n.add_part(name + " reducer", behind, end, Part(Reducer{.from_bore = 12.0 * mm, .to_bore = 8.0 * mm}));
    const auto hole = n.add_part(name + " hole", end, air, Part(Orifice{.bore = (1.8 + 0.2 * row) * mm}));
    p.rows.push_back(test::row_by_hand(row, row - 1.5, 0.76, air, hole, {.orifices = {hole}, .check_valves = {valve}}));
  }
  return p;
}
Job part_rich_job() {
  Job job = test::plain_job();
  job.liquid = find_liquid("10-34-0");
  return job;
}
Eigen::ArrayXd column_of(std::vector<double> values) {
  return Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

TEST(ScenarioParts, EveryPartFollowsTheTemperature) {
  const Job job = part_rich_job();
  const ScenarioSolver solver(part_rich(2.0 * bar), job);
  std::vector<double> temperatures, densities, viscosities;
  for (int i = 0; i < 9; ++i) temperatures.push_back(278.15 + 3.0 * i);
  for (const double t : temperatures) {
    densities.push_back(si(job.liquid.density_at(from_si<Temperature>(t))));
    viscosities.push_back(si(job.liquid.viscosity_at(from_si<Temperature>(t))));
  }
  Scenarios by_temperature{.count = temperatures.size()}, by_numbers = by_temperature;
  by_temperature.temperature = column_of(temperatures);
  by_numbers.density = column_of(densities);
  by_numbers.viscosity = column_of(viscosities);
  const ScenarioResults many = solver.solve(by_temperature), same = solver.solve(by_numbers);
  EXPECT_EQ(many.alone, 0U) << "packs know every part of it";
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    // The whole layout on a day of that temperature, by itself.
    Job then = job;
    then.temperature = from_si<Temperature>(temperatures[i]);
    const LiquidState liquid = then.liquid.at(then.temperature);
    const Plumbing plumbing = part_rich(2.0 * bar);
    const Evenness alone = evaluate(plumbing, then, solve_plumbing(plumbing, liquid), liquid);
    for (Eigen::Index r = 0; r < 2; ++r) {
      const double flow = alone.rows[static_cast<std::size_t>(r)].flow;
      EXPECT_NEAR(many.flow(static_cast<Eigen::Index>(i), r) / flow, 1.0, 1e-9) << temperatures[i];
      EXPECT_NEAR(same.flow(static_cast<Eigen::Index>(i), r) / flow, 1.0, 1e-9) << temperatures[i];
    }
    if (i > 0) {
      EXPECT_GT(many.mean_rate[static_cast<Eigen::Index>(i)], many.mean_rate[static_cast<Eigen::Index>(i) - 1])
          << "warmer, thinner, more at one pressure";
    }
  }
}

TEST(ScenarioParts, ACheckValvesPassageIsANumberToo) {
  const Plumbing plumbing = part_rich(2.0 * bar);
  const ScenarioSolver solver(plumbing, part_rich_job());
  const auto valve = plumbing.rows[0].check_valves[0];
  const double own = si(plumbing.network.part(valve).part.as<CheckValve>()->passage_bore);
  Scenarios s{.count = 3};
  s.parts.push_back({valve, PartQuantity::bore, column_of({0.5 * own, own, 2.0 * own})});
  s.parts.push_back({plumbing.rows[0].orifices[0], PartQuantity::discharge_coefficient, column_of({0.6, 0.6, 0.6})});
  const ScenarioResults r = solver.solve(s);
  for (Eigen::Index i = 0; i < 3; ++i) {
    Plumbing one = plumbing;
    CheckValve other = *plumbing.network.part(valve).part.as<CheckValve>();
    other.passage_bore = from_si<Length>(s.parts[0].values[i]);
    one.network.replace_part(valve, Part(other, "valve"));
    Orifice hole = *plumbing.network.part(plumbing.rows[0].orifices[0]).part.as<Orifice>();
    hole.discharge_coefficient = 0.6;
    one.network.replace_part(plumbing.rows[0].orifices[0], Part(hole, "hole"));
    const Solution alone = solve_plumbing(one, solver.liquid());
    EXPECT_NEAR(r.flow(i, 0) / alone.parts[plumbing.rows[0].orifices[0]].flow, 1.0, 1e-9) << i;
  }
  EXPECT_LT(r.flow(0, 0), r.flow(1, 0));
}

TEST(ScenarioParts, RefusesWhatAPartDoesNotHave) {
  const Plumbing plumbing = part_rich(2.0 * bar);
  const ScenarioSolver solver(plumbing, part_rich_job());
  const auto ask = [&](const char* id, PartQuantity q) {
    Scenarios s{.count = 1};
    s.parts.push_back({plumbing.network.find_part(id), q, column_of({1e-3})});
    (void)solver.solve(s);
  };
  expect_message([&] { ask("valve", PartQuantity::bore); }, "a valve has no bore that a scenario can change");
  expect_message([&] { ask("row 1 hole", PartQuantity::roughness); }, "an orifice has no roughness");
  expect_message([&] { ask("row 1 hole", PartQuantity::crack); }, "an orifice has no crack");
  expect_message([&] { ask("row 1 check", PartQuantity::discharge_coefficient); },
                 "a check valve has no discharge coefficient");
  expect_message([&] { ask("elbow", PartQuantity::length); }, "a fitting has no length");
  expect_message([&] { ask("elbow", PartQuantity::length); }, "'elbow'");
  Scenarios slope{.count = 1};
  slope.side_slope = column_of({0.05});
  expect_message([&] { (void)solver.solve(slope); }, "place by place");
}

TEST(ScenarioParts, SlopesAndRatesAsTheBarBuiltSo) {
  Toolbar bar = test::plain_bar(3);
  bar.outlets_behind = 1.5 * m;
  bar.hose_roughness = 0.0 * m;
  bar.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 3.0 * m, 5.0 * m}};
  const Job job = test::plain_job();
  const std::vector<double> fore_aft = {0.0, 0.1, -0.2}, side = {0.05, 0.0, -0.1}, rates = {2e-6, 1e-5, 3e-5};
  Scenarios s{.count = 3};
  s.fore_aft_slope = column_of(fore_aft);
  s.side_slope = column_of(side);
  s.rate = column_of(rates);
  const ScenarioResults many = solve_many(bar, job, s);
  for (std::size_t i = 0; i < 3; ++i) {
    Toolbar built = bar;
    built.fore_aft_slope = from_si<Angle>(fore_aft[i]);
    built.side_slope = from_si<Angle>(side[i]);
    Job then = job;
    then.rate = from_si<AreaRate>(rates[i]);
    const LiquidState liquid = then.liquid.at(then.temperature);
    const Evenness one = test::judge(built, then, liquid).evenness;
    const auto k = static_cast<Eigen::Index>(i);
    for (Eigen::Index r = 0; r < 3; ++r) {
      EXPECT_NEAR(many.flow(k, r) / one.rows[static_cast<std::size_t>(r)].flow, 1.0, 1e-9) << i;
    }
    EXPECT_NEAR(many.supply_pressure[k], one.supply_pressure, 1e-9 * std::abs(one.supply_pressure) + 1e-6);
  }
}

TEST(ScenarioParts, ARoughnessIsHeldAgainstTheBoreOfItsOwnScenario) {
  const Toolbar bar = test::plain_bar(2);  // hoses of 10 mm
  const ScenarioSolver solver(bar, test::plain_job());
  const auto hose = solver.plumbing().rows[0].hoses[0];
  Scenarios s{.count = 2};
  s.hose_bore = Eigen::ArrayXXd::Constant(2, 2, 10e-3);
  s.hose_bore(1, 0) = 5e-3;
  // 0.4 mm is 4 % of 10 mm and allowed, 8 % of 5 mm and not; by the second scenario's own bore.
  s.parts.push_back({hose, PartQuantity::roughness, column_of({0.4e-3, 0.2e-3})});
  EXPECT_EQ(solver.solve(s).status[1], ScenarioStatus::solved);
  s.parts[0].values[1] = 0.4e-3;
  try {
    (void)solver.solve(s);
    ADD_FAILURE() << "not refused";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find("scenario 1"), std::string::npos) << e.where();
    EXPECT_NE(e.where().find("roughness"), std::string::npos) << e.where();
  }
}

}  // namespace scenario_parts_test
}  // namespace libflow
