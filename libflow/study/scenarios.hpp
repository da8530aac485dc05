// SPDX-License-Identifier: MIT
/// @file
/// Many scenarios of one toolbar: thousands to millions of answers, each with its certificate.
///
/// Every scenario gets the answer that it would get alone, whatever its neighbours and however many threads work.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/study/scenario_alone.hpp>
#include <libflow/study/scenario_inputs.hpp>
#include <libflow/study/scenario_results.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

namespace scenarios_detail {
struct Shared;
}  // namespace scenarios_detail

/// One layout made ready for many scenarios: what they share is compiled once.
class ScenarioSolver {
 public:
  /// @throws InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer
  ScenarioSolver(const Toolbar& toolbar, const Job& job);
  /// Any plumbing; its slopes cannot change.
  ScenarioSolver(Plumbing plumbing, const Job& job);

  /// The network of the scenarios.
  [[nodiscard]] const Plumbing& plumbing() const;
  /// As given.
  [[nodiscard]] const Job& job() const;
  /// As the layout has it.
  [[nodiscard]] const LiquidState& liquid() const;

  /// One scenario written out, for a closer look with solve_plumbing and evaluate.
  /// @throws InputError naming scenario and field
  [[nodiscard]] Scenario scenario(const Scenarios& s, std::size_t i) const;

  /// @param progress  called from the calling thread with the scenarios done and all
  /// @throws InputError when a column has the wrong length or a value is not allowed; names scenario and field
  [[nodiscard]] ScenarioResults solve(const Scenarios& s, const ScenarioOptions& options = {},
                                      const Progress& progress = {}) const;

 private:
  explicit ScenarioSolver(scenarios_detail::Base&& base);

  [[nodiscard]] const scenarios_detail::Base& base() const;
  [[nodiscard]] std::vector<scenarios_detail::Binding> checked(const Scenarios& s) const;
  [[nodiscard]] ScenarioResults empty_results(std::size_t count) const;

  // What packs are made of stays in the source: it is as wide as the registers that the library was compiled for.
  std::shared_ptr<const scenarios_detail::Shared> shared_;
};

/// Solves many scenarios of a toolbar in one call; to solve in several, keep a ScenarioSolver.
/// @throws InputError, IllPosedError as ScenarioSolver
[[nodiscard]] ScenarioResults solve_many(const Toolbar& toolbar, const Job& job, const Scenarios& scenarios,
                                         const ScenarioOptions& options = {}, const Progress& progress = {});

}  // namespace libflow
