// SPDX-License-Identifier: MIT
/// @file
/// The 16-row bar on a side slope over 6,001 supply pressures from 5 to 305 kPa; the check valves crack at 27.6 kPa,
/// one row after another. How often does a solver fail, or find an answer that is none?
#include <benchmark/benchmark.h>

#include <benchmarks/networks.hpp>
#include <benchmarks/opponents.hpp>

namespace libflow::bench {
namespace {

constexpr int pressures = 6001;

struct Sweep {
  std::vector<Equations> whole, collapsed;
  std::vector<std::vector<double>> truth;
  double scale = 0.0;  ///< largest flow of any
  int worst_iterations = 0, unsolved = 0;
};

Plumbing sloping_bar(const Product& product, int step) {
  constexpr double slope = 0.08;  // the ends of the bar differ by about 12 kPa
  return bar(16, 1, product, 5e3 + 50.0 * step, slope);
}

/// libflow's answers, and the equations, at every pressure.
Sweep make_sweep(const Product& product) {
  Sweep s;
  for (int i = 0; i < pressures; ++i) {
    const Plumbing plumbing = sloping_bar(product, i);
    const Solution solution = solve(plumbing.network, product.liquid);
    s.unsolved += solution.usable() ? 0 : 1;
    s.worst_iterations = std::max(s.worst_iterations, solution.iterations);
    s.truth.push_back(outflow(plumbing.network, solution));
    for (const double q : s.truth.back()) s.scale = std::max(s.scale, q);
    s.whole.push_back(whole(plumbing.network, product.liquid));
    s.collapsed.push_back(collapsed(plumbing.network, product.liquid));
  }
  return s;
}

void crack_libflow(benchmark::State& state, const Product& product, const Sweep& all) {
  std::vector<Plumbing> bars;
  for (int i = 0; i < pressures; ++i) bars.push_back(sloping_bar(product, i));
  for (auto _ : state) {
    for (const Plumbing& plumbing : bars) benchmark::DoNotOptimize(solve(plumbing.network, product.liquid));
  }
  state.counters["failed"] = static_cast<double>(all.unsolved) / pressures;
  state.counters["wrong"] = 0.0;
  state.counters["most_iterations"] = all.worst_iterations;
}

#if LIBFLOW_HAS_KINSOL
/// A solver that says it is solved counts as wrong when an outlet is off by 1e-6 of the largest flow of the sweep.
void crack(benchmark::State& state, const Opponent& opponent, const Sweep& all, bool joined) {
  const std::vector<Equations>& equations = joined ? all.collapsed : all.whole;
  double failed = 0.0, wrong = 0.0, low = HUGE_VAL, high = 0.0;
  for (auto _ : state) {
    failed = wrong = 0.0;
    for (std::size_t i = 0; i < equations.size(); ++i) {
      const Ready ready = opponent.prepare(equations[i]);
      const bool says_solved = ready.solve();
      const bool right = difference(equations[i].outflow(ready.flow()), all.truth[i], all.scale) <= 1e-6;
      if (!says_solved) failed += 1.0;
      if (says_solved && !right) wrong += 1.0;
      if (says_solved && right) continue;
      low = std::min(low, 5.0 + 0.05 * static_cast<double>(i));
      high = std::max(high, 5.0 + 0.05 * static_cast<double>(i));
    }
  }
  state.counters["failed"] = failed / pressures;
  state.counters["wrong"] = wrong / pressures;
  if (failed + wrong > 0.0) {
    state.counters["from_kPa"] = low;
    state.counters["to_kPa"] = high;
  }
}

std::vector<Opponent> ways_to_pose_it() {
  std::vector<Opponent> list;
  const std::pair<const char*, Valve> poses[] = {
      {"open", Valve::open}, {"smallest", Valve::smallest}, {"fischer_burmeister", Valve::fischer_burmeister}};
  for (const bool line_search : {false, true}) {
    const std::string suffix = line_search ? "_line_search" : "";
    for (const auto& [pose, valve] : poses) {
      list.push_back(kinsol<KinsolMixed>(fmt::format("kinsol_mixed_{}{}", pose, suffix),
                                         {.line_search = line_search, .valve = valve}));
    }
    list.push_back(
        kinsol<KinsolNodal>("kinsol_nodal" + suffix, {.line_search = line_search, .valve = Valve::smallest}));
  }
  return list;
}
#endif

const bool registered = [] {
  for (const Product& product : {viscous(), water()}) {
    const auto all = std::make_shared<Sweep>(make_sweep(product));
    benchmark::RegisterBenchmark(fmt::format("crack/{}/libflow", product.name).c_str(),
                                 [=](benchmark::State& state) { crack_libflow(state, product, *all); })
        ->Unit(benchmark::kMillisecond)
        ->Iterations(1);
#if LIBFLOW_HAS_KINSOL
    for (const Opponent& opponent : ways_to_pose_it()) {
      for (const bool joined : {false, true}) {
        const char* form = joined ? "collapsed" : "whole";
        benchmark::RegisterBenchmark(fmt::format("crack/{}/{}_{}", product.name, opponent.name, form).c_str(),
                                     [=](benchmark::State& state) { crack(state, opponent, *all, joined); })
            ->Unit(benchmark::kMillisecond)
            ->Iterations(1);
      }
    }
#endif
  }
  return true;
}();

}  // namespace
}  // namespace libflow::bench
