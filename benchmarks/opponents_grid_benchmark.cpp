// SPDX-License-Identifier: MIT
/// @file
/// Looped grids, cold, solver made ready in the measured time: libflow and general solvers on the same equations.
#include <benchmark/benchmark.h>

#include <benchmarks/memory.hpp>
#include <benchmarks/networks.hpp>
#include <benchmarks/opponents.hpp>

namespace libflow::bench {
namespace {

/// A grid and libflow's answer, made when first asked for.
class Case {
 public:
  explicit Case(std::size_t parts) : parts_(parts) {}
  const Network& network() {
    if (!network_) network_ = std::make_unique<Network>(grid(parts_));
    return *network_;
  }
  const std::vector<double>& truth() {
    if (truth_.empty()) truth_ = outflow(network(), solve(network(), liquid));
    return truth_;
  }
  const LiquidState liquid = water().liquid;

 private:
  std::size_t parts_;
  std::unique_ptr<Network> network_;
  std::vector<double> truth_;
};

/// From here on the largest networks are left to the fastest opponents.
constexpr std::size_t large = 100000, largest = 1000000;

const bool registered = [] {
  for (const std::size_t parts : {std::size_t{1000}, std::size_t{10000}, large, largest}) {
    const auto one = std::make_shared<Case>(parts);
    const std::string where = fmt::format("grid/{}/all_in/", parts);
    benchmark::RegisterBenchmark((where + "libflow").c_str(), [=](benchmark::State& state) {
      const Network& network = one->network();
      for (auto _ : state) benchmark::DoNotOptimize(solve(network, one->liquid));
    })->Unit(benchmark::kMillisecond);
    for (const Opponent& opponent : opponents()) {
      if (parts >= large && (opponent.name.ends_with("_line_search") || opponent.name.ends_with("_kept_jacobian")))
        continue;
      if (parts >= largest && opponent.name != "eigen_nodal") continue;
      benchmark::RegisterBenchmark((where + opponent.name).c_str(), [=](benchmark::State& state) {
        const Equations eq = whole(one->network(), one->liquid);
        const std::vector<double>& truth = one->truth();
        forget_peak_memory();
        measure(state, opponent, eq, truth, true);
        state.counters["peak_MB"] = peak_memory();
      })->Unit(benchmark::kMillisecond);
    }
  }
  return true;
}();

}  // namespace
}  // namespace libflow::bench
