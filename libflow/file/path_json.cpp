// SPDX-License-Identifier: MIT
#include <libflow/file/path_json.hpp>

#include <utility>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/path.hpp>
#include <libflow/study/row_inputs.hpp>

namespace libflow {

static Json inputs_to_json(const RowInputs& found) {
  using file_detail::number;
  if (!found.refused.empty()) return {{"refused", found.refused}};
  Json all = Json::array();
  for (const RowInput& in : found.inputs) {
    all.push_back({{"name", in.name},
                   {"group", in.group},
                   {"unit", in.unit},
                   {"reference", number(in.reference)},
                   {"value", number(in.value)},
                   {"deviation", number(in.deviation)}});
  }
  return {{"deviation", number(found.deviation)},
          {"left_over", number(found.left_over)},
          {"reference", found.reference},
          {"parts", std::move(all)}};
}

Json path_to_json(const Answer& answer, const RowPath& path) {
  using file_detail::number;
  const Network& n = answer.plumbing.network;
  Json steps = Json::array();
  for (const PathStep& s : path.steps) {
    steps.push_back({{"part", n.part(s.part).id},
                     {"kind", n.part(s.part).part.kind()},
                     {"from", n.place(s.from).id},
                     {"to", n.place(s.to).id},
                     {"flow_m3_per_s", number(s.flow)},
                     {"loss_Pa", number(s.loss)},
                     {"unused_fall_Pa", number(s.unused_fall)},
                     {"lift_Pa", number(s.lift)},
                     {"before_Pa", number(s.before)},
                     {"after_Pa", number(s.after)}});
  }
  return {{"row", path.row},
          {"supply", n.place(path.supply).id},
          {"steps", std::move(steps)},
          {"inputs", inputs_to_json(inputs_of_row(answer, path.row))}};
}

}  // namespace libflow
