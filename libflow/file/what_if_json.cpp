// SPDX-License-Identifier: MIT
#include <libflow/file/what_if_json.hpp>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {

namespace file_detail {

static Json fault_effect_json(const FaultEffect& e) {
  if (!e.answered()) return {{"answered", false}, {"why_not", e.why_not}};
  Json rows = Json::array(), cautions = Json::array();
  for (const RowResult& r : e.evenness.rows) {
    rows.push_back(
        {{"row", r.row}, {"shut", r.shut}, {"rate_m3_per_m2", number(r.rate)}, {"deviation", number(r.deviation)}});
  }
  for (const Caution& c : e.cautions) cautions.push_back(caution_to_json(c));
  return {{"answered", true},
          {"noticed_at", name_of(e.notice)},
          {"limit", e.limit},
          {"total_flow_m3_per_s", number(e.total)},
          {"total_change", number(e.total_change)},
          {"gauge_Pa", number(e.gauge)},
          {"gauge_change_Pa", number(e.gauge_change)},
          {"control_setting_SI", number(e.setting)},
          {"row_change", number(e.row_change)},
          {"neighbour_change", number(e.neighbour_change)},
          {"largest_change_of_other_rows", number(e.largest_change)},
          {"coefficient_of_variation_of_running_rows", number(e.cv)},
          {"coefficient_of_variation", number(e.evenness.cv)},
          {"worst_running_row", e.worst_row == 0 ? Json(nullptr) : Json(e.worst_row)},
          {"worst_running_deviation", number(e.worst_deviation)},
          {"running_rows_outside", e.outside},
          {"dry_rows", e.dry},
          {"rows", std::move(rows)},
          {"cautions", std::move(cautions)}};
}

}  // namespace file_detail

Json what_if_to_json(const WhatIf& w) {
  using file_detail::number;
  Json faults = Json::array();
  for (const FaultAnswer& a : w.answers) {
    faults.push_back({{"fault", name_of(a.fault.fault)},
                      {"name", a.fault.name},
                      {"applies", a.fault.applies()},
                      {"why_not", a.fault.why_not},
                      {"smaller_than_asked_because", a.fault.limited.empty() ? Json(nullptr) : Json(a.fault.limited)},
                      {"rows", a.fault.rows},
                      {"total_held", file_detail::fault_effect_json(a.total_held)},
                      {"setting_kept", file_detail::fault_effect_json(a.setting_kept)}});
  }
  return {{"libflow", version},
          {"name", w.layout.name},
          {"complete", w.complete},
          {"instruments",
           {{"gauge_step_Pa", number(si(w.options.gauge_step))}, {"meter_step", number(w.options.meter_step)}}},
          {"without_fault",
           {{"total_flow_m3_per_s", number(w.base_total)},
            {"gauge_Pa", number(w.base.supply_pressure)},
            {"control_setting_SI", w.has_setting ? number(w.base_setting) : Json(nullptr)},
            {"coefficient_of_variation", number(w.base.cv)},
            {"rows_outside", w.base.outside},
            {"limit", w.base_limit}}},
          {"moved_to_hold_the_total", w.moved},
          {"kept_otherwise", w.kept},
          {"faults", std::move(faults)}};
}

}  // namespace libflow
