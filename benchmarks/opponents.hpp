// SPDX-License-Identifier: MIT
/// @file
/// The opponents by name, and the check that they find libflow's answer before their time counts.
#pragma once

#include <benchmark/benchmark.h>

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <benchmarks/equations.hpp>
#include <benchmarks/nodal_newton.hpp>
#if LIBFLOW_HAS_KINSOL
#include <benchmarks/kinsol.hpp>
#endif

namespace libflow::bench {

/// A solver made ready for a network: one call is one cold solve.
struct Ready {
  std::function<bool()> solve;  ///< true when it says it is solved
  std::function<const double*()> flow;
  std::function<long()> iterations;
};

/// How to make it ready.
struct Opponent {
  std::string name;
  std::function<Ready(const Equations&)> prepare;
};

inline Opponent nodal_newton() {
  return {"eigen_nodal", [](const Equations& eq) {
            const auto solver = std::make_shared<NodalNewton>(eq);
            return Ready{[=] { return solver->solve(); }, [=] { return solver->flow.data(); },
                         [=] { return static_cast<long>(solver->iterations); }};
          }};
}

#if LIBFLOW_HAS_KINSOL
template <class Formulation>
Opponent kinsol(std::string name, KinsolOptions options) {
  return {std::move(name), [=](const Equations& eq) {
            const auto solver = std::make_shared<Formulation>(eq, options);
            return Ready{[=] { return solver->solve(); }, [=] { return solver->flow(); },
                         [=] { return solver->iterations(); }};
          }};
}
#endif

/// For networks whose one-way parts are all open.
inline std::vector<Opponent> opponents() {
  std::vector<Opponent> list{nodal_newton()};
#if LIBFLOW_HAS_KINSOL
  list.push_back(kinsol<KinsolMixed>("kinsol_mixed", {}));
  list.push_back(kinsol<KinsolMixed>("kinsol_mixed_line_search", {.line_search = true}));
  list.push_back(kinsol<KinsolMixed>("kinsol_mixed_kept_jacobian", {.keep_jacobian = 3}));
  list.push_back(kinsol<KinsolNodal>("kinsol_nodal", {}));
  list.push_back(kinsol<KinsolNodal>("kinsol_nodal_line_search", {.line_search = true}));
#endif
  return list;
}

/// Times cold solves, after one that must agree with `truth` to 1e-8 of the largest flow.
/// @param anew  make the solver ready in every round
inline void measure(benchmark::State& state, const Opponent& opponent, const Equations& eq,
                    const std::vector<double>& truth, bool anew) {
  Ready ready = opponent.prepare(eq);
  if (!ready.solve()) return state.SkipWithError("does not converge");
  const double off = difference(eq.outflow(ready.flow()), truth);
  if (!(off <= 1e-8)) return state.SkipWithError(fmt::format("another answer: off by {:.1e}", off).c_str());
  for (auto _ : state) {
    if (anew) ready = opponent.prepare(eq);
    benchmark::DoNotOptimize(ready.solve());
  }
  state.counters["newton_steps"] = static_cast<double>(ready.iterations());
  state.counters["difference"] = off;
}

}  // namespace libflow::bench
