// SPDX-License-Identifier: MIT
#include <libflow/study/main_job.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/as_built.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/study/operating_state.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/study/verdict.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

Caution rate_not_reached(std::string_view stop, double delivered, double wanted) {
  return {"rate-not-reached", "drive", fmt::format("the wanted rate cannot be reached; what stops it: {}", stop),
          delivered,          wanted,  "range of the control"};
}

namespace main_job_detail {

/// The answer without causes. @param stop  what keeps a drive's control from the rate
static Answer solved(Layout layout, std::string& stop) {
  check(layout.job);
  Answer answer;
  answer.liquid = layout.job.liquid.at(layout.job.temperature);
  Toolbar* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  if (toolbar != nullptr && toolbar->drive && !toolbar->drive->setting && !layout.job.pressure) {
    const OperatingState state = OperatingSolver(layout).at(layout.job.rate, layout.job.speed);
    if (!state.solved) throw IllPosedError("the rows have no answer at the wanted rate: " + state.rows.message);
    toolbar->drive->setting = state.setting;
    stop = state.stop;
  }
  answer.plumbing = toolbar != nullptr ? build_network(*toolbar, layout.job) : std::get<Plumbing>(layout.plumbing);
  answer.solution = solve_plumbing(answer.plumbing, answer.liquid);
  if (answer.solution.usable()) {
    Evenness& e = answer.evenness;
    e = evaluate(answer.plumbing, layout.job, answer.solution, answer.liquid);
    if (auto assumed = assumed_limit_caution(layout, e.supply_pressure)) e.cautions.push_back(std::move(*assumed));
    if (stop.empty()) {
      if (auto other = other_rate_held(answer.plumbing, layout.job, e)) e.cautions.push_back(std::move(*other));
    }
  }
  answer.layout = std::move(layout);
  return answer;
}

Answer at_most_likely(Layout given) {
  std::string stop;
  Answer answer = solved(std::move(given), stop);
  if (!answer.solution.usable()) return answer;
  const Layout& layout = answer.layout;
  const Toolbar* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  if (toolbar != nullptr) {
    for (Caution& c : short_hose_cautions(*toolbar)) answer.evenness.cautions.push_back(std::move(c));
    for (Caution& c : wide_hose_cautions(*toolbar, answer.plumbing, answer.evenness)) {
      answer.evenness.cautions.push_back(std::move(c));
    }
  }
  const auto limit = pressure_limit(layout);
  const double most = limit ? limit->most : assumed_pressure_limit;
  for (Caution& c : metering_cautions(answer.plumbing, answer.liquid, answer.evenness, most)) {
    answer.evenness.cautions.push_back(std::move(c));
  }
  // A stop is foretold from a pressure that can be only: far above the limit a bore is wrong, which is told above.
  if (toolbar != nullptr && answer.evenness.supply_pressure <= most_metering_pressure * most) {
    const Pressure before = from_si<Pressure>(answer.evenness.supply_pressure);
    for (Caution& c : stop_cautions(*toolbar, answer.liquid, before)) answer.evenness.cautions.push_back(std::move(c));
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
  return answer;
}

/// What keeps a solved layout from its rate; empty: nothing does.
static std::string stop_of(const Answer& a, const std::string& stop) {
  if (!stop.empty()) return stop;
  const auto* bar = std::get_if<Toolbar>(&a.layout.plumbing);
  for (const Caution& c : a.evenness.cautions) {
    if (c.code == "above-pump-limit") return pressure_limit_name(bar != nullptr && bar->drive);
    if (c.code == "above-assumed-limit") return "assumed " + pressure_limit_name(false);
    if (c.code == "other-rate-held") return c.text;
  }
  return {};
}

}  // namespace main_job_detail

std::vector<ViscosityEnd> over_viscosity_band(const Layout& layout) {
  const LiquidState likely = layout.job.liquid.at(layout.job.temperature);
  std::vector<ViscosityEnd> ends;
  for (const bool upper : {false, true}) {
    const std::optional<double>& viscosity = upper ? likely.viscosity_high : likely.viscosity_low;
    if (!viscosity || *viscosity == likely.viscosity) continue;
    ViscosityEnd end{.viscosity = *viscosity, .upper = upper};
    Layout there = layout;
    try {
      there.job.liquid = layout.job.liquid.with_viscosity(from_si<Viscosity>(*viscosity), layout.job.temperature);
      std::string stop;
      const Answer a = main_job_detail::solved(std::move(there), stop);
      end.solved = a.solution.usable();
      end.stop = end.solved ? main_job_detail::stop_of(a, stop) : a.solution.message;
      end.even = end.solved && a.evenness.even;
      end.cv = a.evenness.cv;
      end.pressure = end.solved ? a.evenness.supply_pressure : 0.0;
      for (const RowResult& r : a.evenness.rows) {
        if (r.shut || (end.worst_row != 0 && std::abs(r.deviation) <= std::abs(end.worst_deviation))) continue;
        end.worst_row = r.row;
        end.worst_deviation = r.deviation;
      }
    } catch (const Error& error) {
      end.stop = error.what();
    }
    ends.push_back(std::move(end));
  }
  return ends;
}

Answer main_job(Layout layout) {
  const Layout as_given = layout;
  Answer answer = main_job_detail::at_most_likely(std::move(layout));
  if (answer.solution.usable()) {
    answer.viscosity_band = over_viscosity_band(as_given);
    answer.built = as_built(answer);
  }
  return answer;
}

}  // namespace libflow
