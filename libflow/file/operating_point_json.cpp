// SPDX-License-Identifier: MIT
#include <libflow/file/operating_point_json.hpp>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/operating_point.hpp>

namespace libflow {

Json limits_to_json(const Limits& limits) {
  using file_detail::number;
  Json list = Json::array();
  for (const Limit& l : limits) {
    list.push_back({{"name", l.name},
                    {"subject", l.subject},
                    {"value", number(l.value)},
                    {"limit", number(l.limit)},
                    {"unit", l.unit},
                    {"value_must_be", l.upper ? "at most" : "at least"},
                    {"margin", number(l.margin)},
                    {"if_broken", name_of(l.kind)},
                    {"source", l.source}});
  }
  return list;
}

namespace file_detail {

static Json pump_duty_json(const PumpDuty& d) {
  return {{"flow_m3_per_s", number(d.flow)},
          {"gain_Pa", number(d.gain)},
          {"inlet_Pa", number(d.inlet)},
          {"outlet_Pa", number(d.outlet)},
          {"suction_head_available_m", number(d.suction_available)},
          {"suction_head_required_m", d.suction_required ? number(*d.suction_required) : Json(nullptr)},
          {"hydraulic_power_W", number(d.hydraulic_power)},
          {"shaft_power_W", d.shaft_power ? number(*d.shaft_power) : Json(nullptr)},
          {"efficiency",
           d.shaft_power && *d.shaft_power > 0.0 ? number(d.hydraulic_power / *d.shaft_power) : Json(nullptr)},
          {"relief_m3_per_s", number(d.relief)},
          {"bypass_m3_per_s", number(d.bypass)},
          {"agitation_m3_per_s", number(d.agitation)},
          {"reserve", number(d.reserve)}};
}

}  // namespace file_detail

Json operating_point_to_json(const OperatingPoint& p) {
  using file_detail::number;
  return {{"libflow", version},
          {"study", "operating point"},
          {"reached", p.reached},
          {"can_be_run", p.runs()},
          {"what_stops_it", p.stop.empty() ? Json(nullptr) : Json(p.stop)},
          {"control",
           {{"name", p.control},
            {"held", p.held},
            {"setting", number(p.setting)},
            {"unit", p.unit},
            {"lowest", number(p.settings.low)},
            {"highest", number(p.settings.high)}}},
          {"wanted_m3_per_s", number(p.wanted)},
          {"delivered_m3_per_s", number(p.delivered)},
          {"gauge_Pa", number(p.answer.evenness.supply_pressure)},
          {"pump", p.duty ? file_detail::pump_duty_json(*p.duty) : Json(nullptr)},
          {"limits", limits_to_json(p.limits)},
          {"answer", results_to_json(p.answer)}};
}

}  // namespace libflow
