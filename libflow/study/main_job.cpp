// SPDX-License-Identifier: MIT
#include <libflow/study/main_job.hpp>

#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/study/operating_state.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

Caution rate_not_reached(std::string_view stop, double delivered, double wanted) {
  return {"rate-not-reached", "drive", fmt::format("the wanted rate cannot be reached; what stops it: {}", stop),
          delivered,          wanted,  "range of the control"};
}

Answer main_job(Layout layout) {
  check(layout.job);
  Answer answer;
  answer.liquid = layout.job.liquid.at(layout.job.temperature);
  Toolbar* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  std::string stop;
  if (toolbar != nullptr && toolbar->drive && !toolbar->drive->setting && !layout.job.pressure) {
    const OperatingState state = OperatingSolver(layout).at(layout.job.rate, layout.job.speed);
    if (!state.solved) throw IllPosedError("the rows have no answer at the wanted rate: " + state.rows.message);
    toolbar->drive->setting = state.setting;
    stop = state.stop;
  }
  answer.plumbing = toolbar != nullptr ? build_network(*toolbar, layout.job) : std::get<Plumbing>(layout.plumbing);
  answer.solution = solve_plumbing(answer.plumbing, answer.liquid);
  if (answer.solution.usable()) {
    answer.evenness = evaluate(answer.plumbing, layout.job, answer.solution, answer.liquid);
    if (toolbar != nullptr) {
      const Pressure before = from_si<Pressure>(answer.evenness.supply_pressure);
      for (Caution& c : stop_cautions(*toolbar, answer.liquid, before))
        answer.evenness.cautions.push_back(std::move(c));
    }
    if (!stop.empty()) {
      answer.evenness.cautions.push_back(
          rate_not_reached(stop, answer.evenness.total_flow, wanted_flow(answer.plumbing, layout.job)));
    }
    if (toolbar != nullptr && answer.evenness.mean_rate > 0.0) {
      // What drives the total does not tell rows apart: causes are measured at the same total from an ideal supply.
      Toolbar rows = *toolbar;
      Job job = layout.job;
      if (rows.drive) {
        rows.drive.reset();
        job.rate = job.rate * (answer.evenness.total_flow / wanted_flow(answer.plumbing, job));
      }
      attribute(rows, job, answer.liquid, answer.evenness);
    }
  }
  answer.layout = std::move(layout);
  return answer;
}

}  // namespace libflow
