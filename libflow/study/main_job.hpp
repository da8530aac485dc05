// SPDX-License-Identifier: MIT
/// @file
/// The main job: is this layout even at this setting, and if not, why?
#pragma once

#include <utility>
#include <variant>

#include <libflow/toolbar.hpp>

namespace libflow {

/// A layout and everything that was found out about it.
struct Answer {
  Layout layout;
  Plumbing plumbing;
  LiquidState liquid;
  Solution solution;
  Evenness evenness;  ///< filled when solution.usable()
};

/// Solves a layout at its job's setting and judges its rows.
/// @throws InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer
[[nodiscard]] inline Answer main_job(Layout layout) {
  check(layout.job);
  Answer answer;
  answer.liquid = layout.job.liquid.at(layout.job.temperature);
  const Toolbar* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  answer.plumbing = toolbar != nullptr ? build_network(*toolbar, layout.job) : std::get<Plumbing>(layout.plumbing);
  answer.solution = solve_plumbing(answer.plumbing, answer.liquid);
  if (answer.solution.usable()) {
    answer.evenness = evaluate(answer.plumbing, layout.job, answer.solution, answer.liquid);
    if (toolbar != nullptr && answer.evenness.mean_rate > 0.0)
      attribute(*toolbar, layout.job, answer.liquid, answer.evenness);
  }
  answer.layout = std::move(layout);
  return answer;
}

}  // namespace libflow
