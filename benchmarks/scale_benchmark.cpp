// SPDX-License-Identifier: MIT
/// @file
/// libflow on looped grids and random trees of a thousand to a million parts: time from network to solution, the
/// Newton steps, the peak memory.
#include <benchmark/benchmark.h>

#include <ctime>

#include <benchmarks/memory.hpp>
#include <benchmarks/networks.hpp>

namespace libflow::bench {
namespace {

double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void scale(benchmark::State& state, Network (*make)(std::size_t)) {
  forget_peak_memory();
  const double start = cpu_seconds();
  const Network network = make(static_cast<std::size_t>(state.range(0)));
  const LiquidState liquid = water().liquid;
  const double built = cpu_seconds();
  double compiled = 0.0, solved = 0.0;
  for (auto _ : state) {
    const double before = cpu_seconds();
    System system(network, liquid);
    const double between = cpu_seconds();
    const Solution solution = system.solve();
    compiled += between - before;
    solved += cpu_seconds() - between;
    if (!solution.usable()) return state.SkipWithError(solution.message.c_str());
    state.counters["newton_steps"] = solution.iterations;
    state.counters["factorisations"] = solution.factorisations;
    state.counters["core_places"] = static_cast<double>(system.core_places());
    state.counters["mass_residual"] = solution.mass_residual;
    state.counters["energy_residual"] = solution.energy_residual;
  }
  const auto rounds = static_cast<double>(state.iterations());
  state.counters["parts"] = static_cast<double>(network.part_count());
  state.counters["build_s"] = built - start;
  state.counters["compile_s"] = compiled / rounds;
  state.counters["solve_s"] = solved / rounds;
  state.counters["peak_MB"] = peak_memory();
  state.SetComplexityN(static_cast<benchmark::IterationCount>(network.part_count()));
}

void sizes(benchmark::internal::Benchmark* b) {
  b->Arg(1000)->Arg(10000)->Arg(100000)->Arg(1000000)->Unit(benchmark::kMillisecond);
  // A power law is fitted to these times by benchmarks/ratios.py; this one only prints the nearest textbook order.
  b->Complexity(benchmark::oAuto);
}

BENCHMARK_CAPTURE(scale, grid, grid)->Apply(sizes);
BENCHMARK_CAPTURE(scale, tree, tree)->Apply(sizes);

}  // namespace
}  // namespace libflow::bench
