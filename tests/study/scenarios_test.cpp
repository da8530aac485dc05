// SPDX-License-Identifier: MIT
/// Many scenarios of one toolbar: each gets the answer that it has alone, whatever its neighbours and the threads.
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <random>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/scenarios.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace scenarios_test {

using namespace units;

constexpr Eigen::Index scenario_rows = 8;

/// Check valves and orifices at every row; turbulent to laminar as the liquid asks.
Toolbar scenario_bar() {
  Toolbar t = test::plain_bar(static_cast<int>(scenario_rows));
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  t.hose_bore = 6.0 * mm;
  t.check_valve = test::plain_valve();
  t.orifice = OrificeByBore{.bore = 1.5 * mm};
  return t;
}

Job scenario_job(std::optional<Pressure> pressure) {
  Job job = test::plain_job();
  job.liquid = find_liquid("water");
  job.pressure = pressure;
  return job;
}

class ScenarioDice {
 public:
  explicit ScenarioDice(std::uint64_t seed) : engine_(seed) {}
  Eigen::ArrayXd column(std::size_t count, double low, double high) {
    Eigen::ArrayXd x(static_cast<Eigen::Index>(count));
    std::uniform_real_distribution<double> d(low, high);
    for (double& v : x) v = d(engine_);
    return x;
  }
  Eigen::ArrayXXd table(std::size_t count, double low, double high, Eigen::Index rows = scenario_rows) {
    Eigen::ArrayXXd x(static_cast<Eigen::Index>(count), rows);
    for (Eigen::Index r = 0; r < rows; ++r) x.col(r) = column(count, low, high);
    return x;
  }

 private:
  std::mt19937_64 engine_;
};

/// Sizes, crack pressures and a liquid that goes from laminar to turbulent, so that every regime and its band occur.
Scenarios scenarios_scattered(std::size_t count, std::uint64_t seed) {
  ScenarioDice dice(seed);
  Scenarios s{.count = count};
  s.hose_bore = dice.table(count, 4e-3, 9e-3);
  s.hose_length = dice.table(count, 0.5, 5.0);
  s.orifice_bore = dice.table(count, 0.8e-3, 2.5e-3);
  s.crack = dice.table(count, 0.0, 6e4);
  s.viscosity = Eigen::exp(dice.column(count, std::log(5e-4), std::log(0.2)));
  s.density = dice.column(count, 900.0, 1450.0);
  return s;
}

/// Largest difference of a row's flow over the scenario's largest.
double scenarios_difference(const ScenarioResults& a, const ScenarioResults& b) {
  double worst = 0.0;
  for (Eigen::Index i = 0; i < a.flow.rows(); ++i) {
    const double scale = std::max(least_flow, b.flow.row(i).abs().maxCoeff());
    worst = std::max(worst, (a.flow.row(i) - b.flow.row(i)).abs().maxCoeff() / scale);
  }
  return worst;
}

void expect_scenarios_as_alone(const ScenarioSolver& solver, const Scenarios& s, double most_alone = 0.0) {
  const ScenarioResults packed = solver.solve(s), cold = solver.solve(s, {.from_layout = false});
  // The default would leave 1e-12 of the largest drop, and that much again in the flows; where rounding leaves more
  // than is asked here, the reference says so and is as good all the same.
  const ScenarioResults alone = solver.solve(s, {.packed = false, .solve = {.energy_tolerance = 1e-13}});
  EXPECT_EQ(alone.alone, s.count);
  EXPECT_LE(static_cast<double>(packed.alone), most_alone * static_cast<double>(s.count));
  EXPECT_LE(scenarios_difference(packed, alone), 1e-12);
  EXPECT_LE(scenarios_difference(cold, alone), 1e-12);
  for (std::size_t i = 0; i < s.count; ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    ASSERT_EQ(packed.status[i], ScenarioStatus::solved) << i;
    ASSERT_LE(alone.energy_residual[k], 1e-12) << i;
    EXPECT_LE(packed.mass_residual[k], 1e-12);
    EXPECT_LE(packed.energy_residual[k], 1e-9);
    EXPECT_NEAR(packed.supply_pressure[k], alone.supply_pressure[k], 1e-11 * std::abs(alone.supply_pressure[k]) + 1e-9);
    EXPECT_NEAR(packed.mean_rate[k], alone.mean_rate[k], 1e-12 * std::abs(alone.mean_rate[k]));
    EXPECT_NEAR(packed.cv[k], alone.cv[k], 1e-11);
    EXPECT_NEAR(packed.lowest[k], alone.lowest[k], 1e-11);
    EXPECT_NEAR(packed.highest[k], alone.highest[k], 1e-11);
  }
}

TEST(Scenarios, EachHasTheAnswerThatItHasAloneHeldAtAPressure) {
  const ScenarioSolver solver(scenario_bar(), scenario_job(2.0 * bar));
  Scenarios s = scenarios_scattered(300, 1);
  s.pressure = ScenarioDice(2).column(s.count, 7e4, 4e5);
  s.speed = ScenarioDice(3).column(s.count, 1.0, 5.0);
  expect_scenarios_as_alone(solver, s, 0.02);
}

TEST(Scenarios, EachHasTheAnswerThatItHasAloneFedByTheRate) {
  Job job = scenario_job(std::nullopt);
  job.turn_radius = 20.0 * m;
  const ScenarioSolver solver(scenario_bar(), job);
  Scenarios s = scenarios_scattered(300, 4);
  s.rate = ScenarioDice(5).column(s.count, 2e-3 / 1e3, 3e-2 / 1e3);
  s.speed = ScenarioDice(6).column(s.count, 1.0, 5.0);
  expect_scenarios_as_alone(solver, s, 0.02);
}

TEST(Scenarios, SlopesAndTemperatureAndShutRows) {
  Toolbar t = scenario_bar();
  t.outlets_behind = 1.5 * m;
  t.row_changes = {{.row = 3, .shut = true}, {.row = 6, .hose_length = 9.0 * m}};
  Job job = scenario_job(1.2 * bar);
  job.liquid = find_liquid("10-34-0");
  const ScenarioSolver solver(t, job);
  Scenarios s{.count = 200};
  s.side_slope = ScenarioDice(7).column(s.count, -0.3, 0.3);
  s.fore_aft_slope = ScenarioDice(8).column(s.count, -0.3, 0.3);
  s.temperature = ScenarioDice(9).column(s.count, 275.0, 305.0);
  expect_scenarios_as_alone(solver, s, 0.02);
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.flow.col(2).abs().maxCoeff(), 0.0);
  EXPECT_GT(r.flow.col(3).maxCoeff(), 0.0);
}

/// Supply pressures within millionths of the crack pressures, on either side and at them.
TEST(Scenarios, NearAndAtTheCrackPressure) {
  const double crack = 3e4;
  const ScenarioSolver solver(scenario_bar(), scenario_job(from_si<Pressure>(crack)));
  Scenarios s{.count = 60};
  s.pressure = Eigen::ArrayXd::Constant(60, crack);
  s.crack = Eigen::ArrayXXd::Constant(60, scenario_rows, crack);
  ScenarioDice dice(10);
  for (Eigen::Index i = 1; i < 60; ++i) {
    const double size = std::pow(10.0, -static_cast<double>(i % 12));
    s.crack.row(i) = crack + size * crack * dice.table(1, -1.0, 1.0).row(0);
  }
  const ScenarioResults packed = solver.solve(s);
  const ScenarioResults alone = solver.solve(s, {.packed = false, .solve = {.energy_tolerance = 1e-13}});
  // Both keep the laws to 1e-13 of the largest drop. Through a valve that is just open that is this flow.
  const double flow = 2e-13 * crack / physics::creeping_resistance<double>(1.5e-3, 0.0, solver.liquid().viscosity);
  for (std::size_t i = 0; i < s.count; ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    ASSERT_EQ(packed.status[i], ScenarioStatus::solved);
    for (Eigen::Index r = 0; r < scenario_rows; ++r) {
      EXPECT_NEAR(packed.flow(k, r), alone.flow(k, r), flow) << "scenario " << i << " row " << r + 1;
      if (s.crack(k, r) > crack) {
        EXPECT_EQ(packed.flow(k, r), 0.0);
      }
    }
  }
}

TEST(Scenarios, TwoOutletsARowMeteredAtTheManifold) {
  Toolbar t = scenario_bar();
  t.outlets_per_row = 2;
  t.metering = MeteringPlace::manifold;
  const ScenarioSolver solver(t, scenario_job(2.0 * bar));
  Scenarios s = scenarios_scattered(60, 11);
  expect_scenarios_as_alone(solver, s, 0.05);
}

TEST(Scenarios, AnyNumberOfAnyPart) {
  Toolbar t = scenario_bar();
  t.orifice = OrificeByBore{.bore = 1.5 * mm, .thickness = 3.0 * mm};
  const ScenarioSolver solver(t, scenario_job(2.0 * bar));
  const Network& network = solver.plumbing().network;
  Scenarios s{.count = 40};
  ScenarioDice dice(12);
  s.orifice_bore = dice.table(40, 1.2e-3, 2.2e-3);
  const auto column = [&](std::string_view id, PartQuantity q, double low, double high) {
    s.parts.push_back({network.find_part(id), q, dice.column(40, low, high)});
  };
  column("manifold 1 bar 2", PartQuantity::bore, 8e-3, 3e-2);
  column("manifold 1 bar 2", PartQuantity::length, 0.1, 3.0);
  column("row 1 hose", PartQuantity::roughness, 0.0, 2e-4);
  column("row 2 orifice", PartQuantity::discharge_coefficient, 0.5, 0.9);
  column("row 4 check valve", PartQuantity::bore, 1e-3, 5e-3);
  expect_scenarios_as_alone(solver, s);
}

TEST(Scenarios, OneWrittenOutIsTheSameAsInThePack) {
  const ScenarioSolver solver(scenario_bar(), scenario_job(2.0 * bar));
  const Scenarios s = scenarios_scattered(20, 13);
  const ScenarioResults r = solver.solve(s);
  const Scenario one = solver.scenario(s, 7);
  const Evenness e = evaluate(one.plumbing, one.job, solve_plumbing(one.plumbing, one.liquid), one.liquid);
  EXPECT_NEAR(r.cv[7], e.cv, 1e-11);
  EXPECT_NEAR(r.flow(7, 4), e.rows[4].flow, 1e-12 * e.rows[4].flow);
  EXPECT_EQ(one.plumbing.rows[2].hose_length, s.hose_length(7, 2));
}

/// A colder, denser liquid stands heavier in the tank: packs leave such scenarios to be solved one by one.
TEST(Scenarios, ATanksPressureGoesWithItsLiquid) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "tank_and_pump.toml");
  const auto& plumbing = std::get<Plumbing>(layout.plumbing);
  ASSERT_FALSE(plumbing.tanks.empty());
  const ScenarioSolver solver(plumbing, layout.job);
  Scenarios s{.count = 3};
  s.density = Eigen::ArrayXd::LinSpaced(3, 1000.0, 1400.0);
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    const Scenario one = solver.scenario(s, i);
    const Evenness e = evaluate(one.plumbing, one.job, solve_plumbing(one.plumbing, one.liquid), one.liquid);
    EXPECT_NEAR(r.cv[static_cast<Eigen::Index>(i)], e.cv, 1e-11);
    const double head = one.plumbing.network.place(one.plumbing.tanks.front().place).pressure;
    // 2 ft of liquid in the tank (examples/tank_and_pump.toml).
    EXPECT_NEAR(head, s.density[static_cast<Eigen::Index>(i)] * standard_gravity * 2.0 * 0.3048, 1e-6 * head);
  }
}

/// Bit for bit: the number of threads, and who stands beside whom.
TEST(Scenarios, NeitherThreadsNorNeighboursChangeADigit) {
  const ScenarioSolver solver(scenario_bar(), scenario_job(2.0 * bar));
  const Scenarios s = scenarios_scattered(2000, 14);
  const ScenarioResults one = solver.solve(s, {.threads = 1}), three = solver.solve(s, {.threads = 3});
  EXPECT_TRUE((one.flow == three.flow).all());
  EXPECT_TRUE((one.cv == three.cv).all());
  EXPECT_TRUE((one.energy_residual == three.energy_residual).all());
  EXPECT_EQ(one.alone, three.alone);

  // Every scenario in another lane beside others.
  std::vector<Eigen::Index> order(s.count);
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<Eigen::Index>((i * 1231 + 5) % order.size());
  Scenarios mixed{.count = s.count};
  mixed.hose_bore = s.hose_bore(order, Eigen::all);
  mixed.hose_length = s.hose_length(order, Eigen::all);
  mixed.orifice_bore = s.orifice_bore(order, Eigen::all);
  mixed.crack = s.crack(order, Eigen::all);
  mixed.viscosity = s.viscosity(order);
  mixed.density = s.density(order);
  const ScenarioResults other = solver.solve(mixed);
  EXPECT_TRUE((one.flow(order, Eigen::all) == other.flow).all());
  EXPECT_TRUE((one.cv(order) == other.cv).all());
}

TEST(Scenarios, WhatCannotBeSolvedIsReportedAlone) {
  const Toolbar t = scenario_bar();
  const Job job = scenario_job(2.0 * bar);
  const ScenarioSolver solver(t, job);
  // One step is enough for the layout itself and for nothing that is far from it.
  Scenarios s{.count = 21};
  s.viscosity = Eigen::ArrayXd::Constant(21, solver.liquid().viscosity);
  s.viscosity[4] *= 30.0;
  s.viscosity[17] *= 100.0;
  const ScenarioResults r = solver.solve(s, {.solve = {.max_iterations = 1}});
  ASSERT_EQ(r.failures.size(), 2U);
  EXPECT_EQ(r.failures[0].scenario, 4U);
  EXPECT_EQ(r.failures[1].scenario, 17U);
  EXPECT_FALSE(r.failures[0].message.empty());
  EXPECT_EQ(r.alone, 2U);
  const ScenarioResults good = solver.solve(s);
  for (std::size_t i = 0; i < s.count; ++i) {
    const bool bad = i == 4 || i == 17;
    EXPECT_EQ(r.status[i], bad ? ScenarioStatus::not_converged : ScenarioStatus::solved);
    EXPECT_EQ(r.usable(i), !bad);
    if (bad) continue;
    EXPECT_NEAR(r.cv[static_cast<Eigen::Index>(i)], good.cv[static_cast<Eigen::Index>(i)], 1e-11);
  }
  EXPECT_TRUE(good.failures.empty());
}

TEST(Scenarios, JunctionLossesAreSolvedOneByOne) {
  Toolbar t = scenario_bar();
  t.manifolds[0].junction_losses = true;
  const Job job = scenario_job(2.0 * bar);
  Scenarios s{.count = 3};
  s.pressure = Eigen::ArrayXd::LinSpaced(3, 1e5, 3e5);
  const ScenarioResults r = solve_many(t, job, s);
  EXPECT_EQ(r.alone, 3U);
  Job at = job;
  at.pressure = from_si<Pressure>(2e5);
  const Plumbing plumbing = build_network(t, at);
  const LiquidState liquid = job.liquid.at(job.temperature);
  const Evenness e = evaluate(plumbing, at, solve_plumbing(plumbing, liquid), liquid);
  EXPECT_NEAR(r.cv[1], e.cv, 1e-11);
}

TEST(Scenarios, StopsWhenToldAndKeepsWhatIsDone) {
  const ScenarioSolver solver(scenario_bar(), scenario_job(2.0 * bar));
  const Scenarios s = scenarios_scattered(5000, 15);
  std::size_t asked = 0;
  const ScenarioResults r = solver.solve(s, {}, [&](std::size_t done, std::size_t total) {
    EXPECT_EQ(total, 5000U);
    EXPECT_GT(done, 0U);
    return ++asked < 2;
  });
  EXPECT_FALSE(r.complete);
  EXPECT_EQ(asked, 2U);
  EXPECT_GT(r.done, 0U);
  EXPECT_LT(r.done, s.count);
  EXPECT_EQ(r.status.front(), ScenarioStatus::solved);
  EXPECT_EQ(r.status.back(), ScenarioStatus::not_reached);
  EXPECT_TRUE(solver.solve(scenarios_scattered(5, 16)).complete);
}

TEST(Scenarios, BadInputIsRefusedByName) {
  const ScenarioSolver solver(scenario_bar(), scenario_job(2.0 * bar));
  const auto refused = [&](Scenarios s, const std::string& field) {
    s.count = 3;
    test::expect_refused([&] { static_cast<void>(solver.solve(s)); }, field);
  };
  refused({.speed = Eigen::ArrayXd::Constant(2, 3.0)}, "speed");
  refused({.speed = Eigen::ArrayXd::Constant(3, std::nan(""))}, "speed");
  refused({.viscosity = Eigen::ArrayXd::Constant(3, -1.0)}, "viscosity");
  refused({.hose_bore = Eigen::ArrayXXd::Constant(3, 2, 5e-3)}, "hose bore");
  Eigen::ArrayXXd cracks = Eigen::ArrayXXd::Constant(3, scenario_rows, 3e4);
  cracks(2, 5) = std::nan("");
  refused({.crack = cracks}, "scenario 2");
  cracks(2, 5) = -5.0;
  refused({.crack = cracks}, "row 6 check valve");
  refused({.parts = {{.part = 1000}}}, "parts");
  const auto valve = solver.plumbing().network.find_part("row 1 check valve");
  refused({.parts = {{valve, PartQuantity::length, Eigen::ArrayXd::Constant(3, 1.0)}}}, "row 1 check valve");
  test::expect_refused([&] { static_cast<void>(solver.solve(Scenarios{.count = 1}, {.threads = -1})); }, "threads");
  test::expect_refused([&] { static_cast<void>(solver.scenario(Scenarios{.count = 1}, 1)); }, "scenario");
  const ScenarioSolver fed(scenario_bar(), scenario_job(std::nullopt));
  test::expect_refused(
      [&] { static_cast<void>(fed.solve({.count = 1, .pressure = Eigen::ArrayXd::Constant(1, 2e5)})); }, "pressure");
}

}  // namespace scenarios_test
}  // namespace libflow
