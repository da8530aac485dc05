// SPDX-License-Identifier: MIT
/// @file
/// The 16-row and the 48-row bar, cold: libflow and general solvers on the same equations, in one run.
#include <benchmark/benchmark.h>

#include <benchmarks/networks.hpp>
#include <benchmarks/opponents.hpp>

namespace libflow::bench {
namespace {

void measure_libflow(benchmark::State& state, const Plumbing& plumbing, const LiquidState& liquid, bool anew) {
  if (anew) {
    for (auto _ : state) benchmark::DoNotOptimize(solve(plumbing.network, liquid));
    return;
  }
  System system(plumbing.network, liquid);
  for (auto _ : state) benchmark::DoNotOptimize(system.solve());
  state.counters["newton_steps"] = system.solve().iterations;
}

/// Without the certificate, what each part and place is told, and the cautions: what a general solver gives.
void measure_libflow_core(benchmark::State& state, const Plumbing& plumbing, const LiquidState& liquid) {
  System system(plumbing.network, liquid);
  bool solved = true;
  for (auto _ : state) {
    solved = system.solve_core() && solved;
    benchmark::DoNotOptimize(system.core_flow().data());
  }
  if (!solved) state.SkipWithError("does not converge");
}

const bool registered = [] {
  for (const auto& [rows, manifolds] : {std::pair{16, 1}, std::pair{48, 3}}) {
    for (const Product& product : {viscous(), water()}) {
      struct Case {
        Plumbing plumbing;
        std::vector<std::pair<std::string, Equations>> forms;
        std::vector<double> truth;
      };
      const auto shared = std::make_shared<Case>();
      shared->plumbing = bar(rows, manifolds, product);
      const Network& network = shared->plumbing.network;
      shared->forms = {{"whole", whole(network, product.liquid)}, {"collapsed", collapsed(network, product.liquid)}};
      shared->truth = outflow(network, solve(network, product.liquid));
      for (const bool anew : {false, true}) {
        const std::string where = fmt::format("bar{}/{}/{}/", rows, product.name, anew ? "all_in" : "cold");
        benchmark::RegisterBenchmark((where + "libflow").c_str(), [=](benchmark::State& state) {
          measure_libflow(state, shared->plumbing, product.liquid, anew);
        });
        if (!anew) {
          benchmark::RegisterBenchmark((where + "libflow_core").c_str(), [=](benchmark::State& state) {
            measure_libflow_core(state, shared->plumbing, product.liquid);
          });
        }
        for (const Opponent& opponent : opponents()) {
          for (const auto& [form, eq] : shared->forms) {
            benchmark::RegisterBenchmark((where + opponent.name + "_" + form).c_str(),
                                         [=, equations = &eq](benchmark::State& state) {  // `shared` keeps them alive
                                           measure(state, opponent, *equations, shared->truth, anew);
                                         });
          }
        }
      }
    }
  }
  return true;
}();

}  // namespace
}  // namespace libflow::bench
