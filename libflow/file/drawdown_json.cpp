// SPDX-License-Identifier: MIT
#include <libflow/file/drawdown_json.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/drawdown_result.hpp>

namespace libflow {

Json drawdown_to_json(const Drawdown& d) {
  using namespace file_detail;
  const auto numbers = [](const std::vector<double>& values) {
    Json list = Json::array();
    for (const double v : values) list.push_back(number(v));
    return list;
  };
  Json tanks = Json::array(), samples = Json::array(), events = Json::array(), cautions = Json::array();
  for (const DrawdownTank& t : d.tanks) {
    tanks.push_back({{"id", t.id},
                     {"capacity_m3", number(t.capacity)},
                     {"start_m3", number(t.start)},
                     {"end_m3", number(t.end)},
                     {"unusable_m3", number(t.unusable)},
                     {"empty_after_s", t.empty_time ? number(*t.empty_time) : Json(nullptr)}});
  }
  for (const DrawdownSample& s : d.samples) {
    samples.push_back({{"time_s", number(s.time)},
                       {"area_m2", number(s.area)},
                       {"share_left", number(s.share_left)},
                       {"volume_m3", numbers(s.volume)},
                       {"level_m", numbers(s.level)},
                       {"liquid_kg", number(s.mass)},
                       {"supply_pressure_Pa", number(s.supply_pressure)},
                       {"pump_inlet_Pa", number(s.pump_inlet)},
                       {"control_setting_SI", number(s.setting)},
                       {"total_flow_m3_per_s", number(s.total_flow)},
                       {"mean_rate_m3_per_m2", number(s.mean_rate)},
                       {"coefficient_of_variation", number(s.cv)},
                       {"worst_row", s.worst_row == 0 ? Json(nullptr) : Json(s.worst_row)},
                       {"worst_deviation", number(s.worst)},
                       {"even", s.even}});
  }
  for (const DrawdownEvent& e : d.events) {
    events.push_back(
        {{"what", name_of(e.kind)}, {"subject", e.subject}, {"time_s", number(e.time)}, {"area_m2", number(e.area)}});
  }
  for (const Caution& c : d.cautions) cautions.push_back(caution_to_json(c));
  return {{"libflow", version},
          {"name", d.name},
          {"complete", d.complete},
          {"end", name_of(d.end)},
          {"time_s", number(d.time)},
          {"area_m2", number(d.area)},
          {"first_empty", d.first_empty ? Json(d.tanks[*d.first_empty].id) : Json(nullptr)},
          {"time_to_air_s", number(d.air_time)},
          {"area_to_air_m2", number(d.air_area)},
          {"delivered_by_row_m3", numbers(d.delivered)},
          {"left_elsewhere_m3", number(d.elsewhere)},
          {"spilled_m3", number(d.spilled)},
          {"lowest_mean_rate_m3_per_m2", number(d.lowest_rate)},
          {"highest_mean_rate_m3_per_m2", number(d.highest_rate)},
          {"highest_coefficient_of_variation", number(d.highest_cv)},
          {"tanks", std::move(tanks)},
          {"samples", std::move(samples)},
          {"events", std::move(events)},
          {"cautions", std::move(cautions)}};
}

std::string drawdown_to_csv(const Drawdown& d, UnitSystem u) {
  using namespace file_detail;
  const auto with = [](std::string_view name, std::string_view unit) { return fmt::format("{} ({})", name, unit); };
  std::vector<std::string> heading{"layout", with("time", unit_name<Time>(u)), with("area", unit_name<Area>(u)),
                                   "left (%)"};
  for (const DrawdownTank& t : d.tanks) {
    heading.push_back(with(t.id + " level", unit_name<Length>(u)));
    heading.push_back(with(t.id + " volume", unit_name<Volume>(u)));
  }
  heading.insert(heading.end(), {with("liquid", unit_name<Mass>(u)), with("supply pressure", unit_name<Pressure>(u)),
                                 with("pump inlet", unit_name<Pressure>(u)), with("total flow", unit_name<Flow>(u)),
                                 with("mean rate", unit_name<AreaRate>(u)), "coefficient of variation (%)", "worst row",
                                 "worst deviation (%)"});
  std::string text = csv_line(heading);
  for (const DrawdownSample& s : d.samples) {
    std::vector<std::string> fields{d.name, csv_quantity<Time>(s.time, u), csv_quantity<Area>(s.area, u),
                                    csv_number(100.0 * s.share_left)};
    for (std::size_t k = 0; k < d.tanks.size(); ++k) {
      fields.push_back(csv_quantity<Length>(s.level[k], u));
      fields.push_back(csv_quantity<Volume>(s.volume[k], u));
    }
    fields.insert(fields.end(),
                  {csv_quantity<Mass>(s.mass, u), csv_quantity<Pressure>(s.supply_pressure, u),
                   csv_quantity<Pressure>(s.pump_inlet, u), csv_quantity<Flow>(s.total_flow, u),
                   csv_quantity<AreaRate>(s.mean_rate, u), csv_number(100.0 * s.cv),
                   s.worst_row == 0 ? std::string() : fmt::format("{}", s.worst_row), csv_number(100.0 * s.worst)});
    text += csv_line(fields);
  }
  return text;
}

}  // namespace libflow
