// SPDX-License-Identifier: MIT
#include <libflow/file/compare_points_json.hpp>

#include <nlohmann/json.hpp>

#include <libflow/file/envelope_json.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/compare_points.hpp>

namespace libflow {

Json compare_points_to_json(const PointComparison& c) {
  using file_detail::number;
  Json layouts = Json::array(), cautions = Json::array(), speeds = Json::array(), rates = Json::array();
  for (const Speed& v : c.speeds) speeds.push_back(number(si(v)));
  for (const AreaRate& r : c.rates) rates.push_back(number(si(r)));
  for (const ComparedLayout& l : c.layouts) {
    Json points = Json::array(), hoses = Json::array();
    for (const EnvelopePoint& p : l.points) {
      points.push_back({{"speed_m_per_s", number(p.speed)},
                        {"rate_m3_per_m2", number(p.rate)},
                        {"state", name_of(p.state)},
                        {"good_practice", p.advised},
                        {"binding_limit", p.binding},
                        {"margin", number(p.margin)},
                        {"coefficient_of_variation", number(p.cv)},
                        {"worst_row", p.worst_row},
                        {"worst_deviation", number(p.worst)},
                        {"gauge_Pa", number(p.gauge)},
                        {"control_setting_SI", number(p.setting)},
                        {"pump_reserve", number(p.reserve)}});
    }
    for (const HoseOrder& h : l.order.hoses) {
      hoses.push_back({{"bore_m", number(si(h.bore))}, {"cuts", h.cuts.size()}, {"total_m", number(si(h.total))}});
    }
    layouts.push_back({{"name", l.layout.name},
                       {"control", l.control},
                       {"points_even", l.even},
                       {"points_poor", l.poor},
                       {"points_cannot_run", l.cannot},
                       {"worst_coefficient_of_variation", number(l.cv)},
                       {"worst_row", l.worst_row},
                       {"worst_deviation", number(l.worst)},
                       {"lowest_gauge_Pa", number(l.gauge_low)},
                       {"highest_gauge_Pa", number(l.gauge_high)},
                       {"least_pump_reserve", number(l.least_reserve)},
                       {"hose_total_m", number(si(l.order.hose_total))},
                       {"hose_by_bore", std::move(hoses)},
                       {"pieces", l.pieces},
                       {"points", std::move(points)}});
  }
  for (const Caution& one : c.cautions) cautions.push_back(caution_to_json(one));
  const auto name = [&](std::size_t k) { return c.complete ? Json(c.layouts[k].layout.name) : Json(nullptr); };
  return {{"libflow", version},
          {"study", "compare points"},
          {"complete", c.complete},
          {"speeds_m_per_s", std::move(speeds)},
          {"rates_m3_per_m2", std::move(rates)},
          {"points_all_can_run", c.shared},
          {"best", name(c.best)},
          {"worst", name(c.worst)},
          {"deciding_cause", c.deciding_cause.empty() ? Json(nullptr) : Json(c.deciding_cause)},
          {"layouts", std::move(layouts)},
          {"cautions", std::move(cautions)}};
}

}  // namespace libflow
