// SPDX-License-Identifier: MIT
/// @file
/// libflow on bars of 16 and 48 rows: compiling the network apart from solving it.
#include <benchmark/benchmark.h>

#include <vector>

#include <benchmarks/networks.hpp>
#include <libflow/solve/derivatives.hpp>

namespace libflow::bench {
namespace {

void report(benchmark::State& state, const System& system, const Solution& solution) {
  if (!solution.usable()) return state.SkipWithError(solution.message.c_str());
  state.counters["newton_steps"] = solution.iterations;
  state.counters["factorisations"] = solution.factorisations;
  state.counters["core_places"] = static_cast<double>(system.core_places());
  state.counters["core_edges"] = static_cast<double>(system.core_edges());
}

void build(benchmark::State& state, int rows, int manifolds, const Product& product) {
  for (auto _ : state) benchmark::DoNotOptimize(bar(rows, manifolds, product));
}

void compile(benchmark::State& state, int rows, int manifolds, const Product& product) {
  const Plumbing plumbing = bar(rows, manifolds, product);
  for (auto _ : state) {
    System system(plumbing.network, product.liquid);
    benchmark::DoNotOptimize(&system);
  }
}

void solve_cold(benchmark::State& state, int rows, int manifolds, const Product& product) {
  const Plumbing plumbing = bar(rows, manifolds, product);
  System system(plumbing.network, product.liquid);
  Solution solution;
  for (auto _ : state) {
    solution = system.solve();
    benchmark::DoNotOptimize(solution);
  }
  report(state, system, solution);
}

/// The total flow changes by 2 % from solve to solve, as a rate controller's does.
void solve_at_other_flows(benchmark::State& state, int rows, int manifolds, const Product& product, Start start) {
  const Plumbing held = bar(rows, manifolds, product);
  const Solution at_pressure = solve(held.network, product.liquid);
  double total = 0.0;
  for (const RowPlumbing& row : held.rows) {
    for (const auto part : row.last_parts) total += at_pressure.parts[part].flow;
  }
  Plumbing fed = bar(rows, manifolds, product, std::nullopt);
  fed.network.set_fed_flow(fed.supply, from_si<Flow>(total));
  System system(fed.network, product.liquid);
  Solution solution = system.solve();
  bool more = false;
  for (auto _ : state) {
    more = !more;
    fed.network.set_fed_flow(fed.supply, from_si<Flow>(more ? 1.02 * total : total));
    solution = system.solve({}, start);
    benchmark::DoNotOptimize(solution);
  }
  report(state, system, solution);
}
void solve_fed_cold(benchmark::State& state, int rows, int manifolds, const Product& product) {
  solve_at_other_flows(state, rows, manifolds, product, Start::cold);
}
void solve_fed_warm(benchmark::State& state, int rows, int manifolds, const Product& product) {
  solve_at_other_flows(state, rows, manifolds, product, Start::warm);
}

void compile_and_solve(benchmark::State& state, int rows, int manifolds, const Product& product) {
  const Plumbing plumbing = bar(rows, manifolds, product);
  for (auto _ : state) benchmark::DoNotOptimize(solve(plumbing.network, product.liquid));
}

/// Derivatives of every row's flow by every input, from a solution: to be held against a solve.
void derivatives(benchmark::State& state, int rows, int manifolds, const Product& product) {
  const Plumbing plumbing = bar(rows, manifolds, product);
  const Solution solution = solve(plumbing.network, product.liquid);
  Derivatives all(plumbing.network, product.liquid, solution);
  std::vector<double> gradient(all.inputs().size());
  for (auto _ : state) {
    all.at(product.liquid, solution);
    for (const RowPlumbing& row : plumbing.rows) {
      all.of_flow({{row.last_parts.front(), 1.0}}, gradient);
      benchmark::DoNotOptimize(gradient.data());
    }
  }
  state.counters["inputs"] = static_cast<double>(gradient.size());
}

const bool registered = [] {
  using Measure = void (*)(benchmark::State&, int, int, const Product&);
  const std::pair<const char*, Measure> measures[] = {{"build", build},
                                                      {"compile", compile},
                                                      {"solve_cold", solve_cold},
                                                      {"solve_fed_cold", solve_fed_cold},
                                                      {"solve_fed_warm", solve_fed_warm},
                                                      {"compile_and_solve", compile_and_solve},
                                                      {"derivatives", derivatives}};
  for (const auto& [rows, manifolds] : {std::pair{16, 1}, std::pair{48, 3}}) {
    for (const Product& product : {viscous(), water()}) {
      for (const auto& [name, measure] : measures) {
        benchmark::RegisterBenchmark(
            fmt::format("bar{}/{}/{}", rows, product.name, name).c_str(),
            [measure, rows, manifolds, product](benchmark::State& state) { measure(state, rows, manifolds, product); });
      }
    }
  }
  return true;
}();

}  // namespace
}  // namespace libflow::bench
