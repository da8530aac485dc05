// SPDX-License-Identifier: MIT
#include <libflow/study/row_inputs.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/toolbar/attribution_by_input.hpp>
#include <libflow/toolbar/ground.hpp>

namespace libflow {

RowInputs inputs_of_row(const Answer& answer, int row) {
  const auto& rows = answer.plumbing.rows;
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const RowPlumbing& r) { return r.row == row; });
  if (found == rows.end()) {
    throw InputError("row", fmt::format("{} is not in the layout", row), fmt::format("1 to {}", rows.size()));
  }
  const auto at = static_cast<std::size_t>(found - rows.begin());
  RowInputs out;
  out.row = row;
  const auto* toolbar = std::get_if<Toolbar>(&answer.layout.plumbing);
  if (toolbar == nullptr) {
    out.refused = "a layout that is written place by place has no even bar to measure from";
    return out;
  }
  if (!(answer.evenness.mean_rate > 0.0)) {
    out.refused = "nothing flows";
    return out;
  }
  // What drives the total does not tell rows apart: as the causes, at the same total from an ideal supply.
  Toolbar bare = *toolbar;
  Job job = answer.layout.job;
  if (bare.drive) {
    bare.drive.reset();
    job.rate = job.rate * (answer.evenness.total_flow / wanted_flow(answer.plumbing, job));
  }
  InputAttribution all;
  try {
    all = attribute_by_input(bare, job, answer.liquid, {.tolerance = 1e-7, .max_solves = 20000});
  } catch (const InputError& e) {
    out.refused = e.what_is_wrong();
    return out;
  } catch (const Error& e) {
    out.refused = e.what();
    return out;
  }
  out.deviation = all.deviation[at];
  out.left_over = all.left_over;
  out.reference = std::move(all.reference);
  for (const InputShare& in : all.inputs) {
    if (in.deviation[at] == 0.0) continue;
    out.inputs.push_back({in.name, in.group, in.unit, in.reference, in.value, in.deviation[at]});
  }
  std::stable_sort(out.inputs.begin(), out.inputs.end(),
                   [](const RowInput& a, const RowInput& b) { return std::abs(a.deviation) > std::abs(b.deviation); });
  return out;
}

}  // namespace libflow
