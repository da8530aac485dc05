// SPDX-License-Identifier: MIT
#include <libflow/file/envelope_json.hpp>

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

Json envelope_to_json(const Envelope& e) {
  using file_detail::number;
  const auto axis = [](const auto& values) {
    Json list = Json::array();
    for (const auto& v : values) list.push_back(number(si(v)));
    return list;
  };
  Json points = Json::array(), usable = Json::array();
  for (const EnvelopePoint& p : e.points) {
    points.push_back({{"speed_m_per_s", number(p.speed)},
                      {"rate_m3_per_m2", number(p.rate)},
                      {"temperature_K", number(p.temperature)},
                      {"side_slope_rad", number(p.side_slope)},
                      {"state", name_of(p.state)},
                      {"good_practice", p.advised},
                      {"reached", p.reached},
                      {"binding_limit", p.binding},
                      {"margin", number(p.margin)},
                      {"coefficient_of_variation", number(p.cv)},
                      {"worst_deviation", number(p.worst)},
                      {"gauge_Pa", number(p.gauge)},
                      {"control_setting_SI", number(p.setting)},
                      {"pump_reserve", number(p.reserve)}});
  }
  for (const UsableSpeeds& u : e.usable) {
    Json spans = Json::array();
    for (const auto& s : u.spans) {
      spans.push_back({{"low_m_per_s", number(s.low)},
                       {"low_stop", s.low_stop.empty() ? Json(nullptr) : Json(s.low_stop)},
                       {"high_m_per_s", number(s.high)},
                       {"high_stop", s.high_stop.empty() ? Json(nullptr) : Json(s.high_stop)}});
    }
    usable.push_back({{"rate_m3_per_m2", number(u.rate)},
                      {"temperature_K", number(u.temperature)},
                      {"side_slope_rad", number(u.side_slope)},
                      {"speeds", std::move(spans)}});
  }
  const auto limit = pressure_limit(e.layout);
  return {{"libflow", version},
          {"study", "envelope"},
          {"name", e.layout.name},
          {"complete", e.complete},
          {"control", e.control},
          {"pressure_limit_Pa", limit ? number(limit->most) : Json(nullptr)},
          {"pressure_limit_assumed", limit && limit->assumed},
          {"tolerance", number(e.layout.job.tolerance)},
          {"axes",
           {{"speeds_m_per_s", axis(e.axes.speeds)},
            {"rates_m3_per_m2", axis(e.axes.rates)},
            {"temperatures_K", axis(e.axes.temperatures)},
            {"side_slopes_rad", axis(e.axes.side_slopes)}}},
          {"points", std::move(points)},
          {"usable_speeds", std::move(usable)}};
}

std::string envelope_to_csv(const Envelope& e, UnitSystem u) {
  using namespace file_detail;
  const auto with = [](std::string_view name, std::string_view unit) { return fmt::format("{} ({})", name, unit); };
  std::string text =
      csv_line({with("speed", unit_name<Speed>(u)), with("rate", unit_name<AreaRate>(u)),
                with("temperature", unit_name<Temperature>(u)), with("side slope", unit_name<Angle>(u)), "state",
                "good practice", "binding limit", "margin (%)", "CV (%)", "worst row (%)",
                with("gauge", unit_name<Pressure>(u)), "control", "control setting (SI)", "pump reserve (%)"});
  for (const EnvelopePoint& p : e.points) {
    text += csv_line({csv_quantity<Speed>(p.speed, u), csv_quantity<AreaRate>(p.rate, u),
                      csv_quantity<Temperature>(p.temperature, u), csv_quantity<Angle>(p.side_slope, u),
                      std::string(name_of(p.state)), p.advised ? "yes" : "no", p.binding, csv_number(100.0 * p.margin),
                      csv_number(100.0 * p.cv), csv_number(100.0 * p.worst), csv_quantity<Pressure>(p.gauge, u),
                      e.control, csv_number(p.setting), csv_number(100.0 * p.reserve)});
  }
  return text;
}

}  // namespace libflow
