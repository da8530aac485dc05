// SPDX-License-Identifier: MIT
/// @file
/// Scenarios per second on the 16-row bar: in packs and one by one, on one thread and on all, and the cost of a
/// scenario against the number of rows; a whole study of a million machines. Built once for each width of registers.
#include <benchmark/benchmark.h>

#include <random>
#include <thread>

#include <benchmarks/networks.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_core.hpp>
#include <libflow/solve/packed_newton.hpp>
#include <libflow/solve/system.hpp>
#include <libflow/study/scenarios.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow::bench {
namespace {

/// Bores, crack pressures and the liquid as they vary from part to part and from day to day.
Scenarios as_built(const Plumbing& plumbing, const Product& product, std::size_t count) {
  std::mt19937_64 dice(7);
  std::normal_distribution<double> scatter(0.0, 0.02);
  const auto n = static_cast<Eigen::Index>(count);
  const auto rows = static_cast<Eigen::Index>(plumbing.rows.size());
  const auto table = [&](double mean, Eigen::Index columns) {
    Eigen::ArrayXXd x(n, columns);
    for (double& v : x.reshaped()) v = mean * (1.0 + scatter(dice));
    return x;
  };
  Scenarios s{.count = count};
  s.crack = table(4.0 * 6894.757293168361, rows);
  s.orifice_bore = table(product.orifice_bore, rows);
  s.hose_bore = table(0.25 * 0.0254, rows);
  s.density = table(product.liquid.density, 1).col(0);
  s.viscosity = table(product.liquid.viscosity, 1).col(0);
  return s;
}

Job bar_job(const Product& product) {
  Job job;
  job.liquid = find_liquid(product.name == "water" ? "water" : "10-34-0");
  job.temperature = from_si<Temperature>(product.liquid.temperature);
  job.rate = 5.0 * units::gal_per_acre;
  job.speed = 5.0 * units::mph;
  return job;
}

void scenarios(benchmark::State& state, int rows, const Product& product, const ScenarioOptions& options,
               std::size_t count) {
  const ScenarioSolver solver(bar(rows, 1, product), bar_job(product));
  const Scenarios s = as_built(solver.plumbing(), product, count);
  ScenarioResults r;
  for (auto _ : state) {
    r = solver.solve(s, options);
    benchmark::DoNotOptimize(r);
  }
  if (!r.failures.empty()) state.SkipWithError(r.failures.front().message.c_str());
  state.counters["lanes"] = Twin::width;
  state.counters["scenarios"] = static_cast<double>(count);
  state.counters["alone"] = static_cast<double>(r.alone);
  state.counters["energy_residual"] = r.energy_residual.maxCoeff();
}

/// The scalar solver's numerical core alone, on the same shape and from its last answer or from nothing.
void one_by_one(benchmark::State& state, const Product& product, Start start) {
  const Plumbing plumbing = bar(16, 1, product);
  System system(plumbing.network, product.liquid);
  LiquidState other = product.liquid;
  other.viscosity *= 1.02;
  bool turn = false;
  for (auto _ : state) {
    // Numbers change as from scenario to scenario.
    system.set_numbers((turn = !turn) ? other : product.liquid);
    benchmark::DoNotOptimize(system.solve_core({}, start));
  }
  state.counters["scenarios"] = 1;
}

/// A whole tolerance study of 2^20 machines, all threads: drawn, solved, judged, sorted.
void million_machines(benchmark::State& state, const Product& product) {
  Layout layout = read_layout(LIBFLOW_EXAMPLES "/as_built.toml");
  if (product.name == "water") layout.job.liquid = find_liquid("water");
  constexpr std::size_t replicates = 8;
  const ToleranceOptions options{.points = (1U << 20U) / replicates, .replicates = replicates, .share_points = 0};
  for (auto _ : state) benchmark::DoNotOptimize(tolerance_study(layout, layout.tolerances, options));
  state.counters["scenarios"] = static_cast<double>(options.points * options.replicates);
}

/// What the arithmetic alone costs: every law of a pack once, as often as a solve evaluates them, with nothing around
/// it.
void floor(benchmark::State& state, const Product& product) {
  const Plumbing plumbing = bar(16, 1, product);
  std::vector<Law> laws;
  for (std::size_t i = 0; i < plumbing.network.part_count(); ++i) {
    laws.push_back(plumbing.network.part(i).part.law(product.liquid));
  }
  const PackedCore core(plumbing.network, laws);
  PackedNewton<Twin> newton(core, laws);
  for (std::size_t i = 0; i < plumbing.network.place_count(); ++i) {
    const Place& place = plumbing.network.place(i);
    if (const auto number = core.number(i); number && place.held()) {
      newton.potential[*number] = Twin(place.pressure - plumbing.network.place(core.datum()).pressure);
    }
  }
  newton.solve();
  const int evaluations = newton.rounds;
  for (auto _ : state) {
    for (int k = 0; k < evaluations; ++k) {
      for (std::size_t e = 0; e < newton.flow.size(); ++e) benchmark::DoNotOptimize(newton.laws(e, newton.flow[e]));
    }
  }
  state.counters["scenarios"] = Twin::width;
  state.counters["evaluations"] = evaluations;
}

const bool registered = [] {
  const auto add = [](const std::string& name, auto measure) {
    return benchmark::RegisterBenchmark(name.c_str(), measure);
  };
  constexpr std::size_t many = 20000;
  for (const Product& product : {viscous(), water()}) {
    const std::string where = fmt::format("scenarios16/{}/", product.name);
    add(where + "packed", [=](auto& state) { scenarios(state, 16, product, {}, many); });
    add(where + "packed_cold", [=](auto& state) { scenarios(state, 16, product, {.from_layout = false}, many); });
    add(where + "alone", [=](auto& state) { scenarios(state, 16, product, {.packed = false}, 200); });
    add(where + "scalar_core", [=](auto& state) { one_by_one(state, product, Start::cold); });
    add(where + "scalar_core_warm", [=](auto& state) { one_by_one(state, product, Start::warm); });
    add(where + "floor", [=](auto& state) { floor(state, product); });
    add(where + "all_threads", [=](auto& state) { scenarios(state, 16, product, {.threads = 0}, 10 * many); })
        ->UseRealTime()
        ->MeasureProcessCPUTime();
    add(fmt::format("million/{}", product.name), [=](auto& state) { million_machines(state, product); })
        ->Iterations(1)
        ->UseRealTime()
        ->MeasureProcessCPUTime();
    for (const int rows : {8, 32, 64, 128}) {
      add(fmt::format("scenario_rows/{}/{}", product.name, rows),
          [=](auto& state) { scenarios(state, rows, product, {}, 2000); });
    }
  }
  return true;
}();

}  // namespace
}  // namespace libflow::bench
