// SPDX-License-Identifier: MIT
#include <libflow/file/setting_card_json.hpp>

#include <nlohmann/json.hpp>

#include <libflow/file/envelope_json.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow {

Json setting_card_to_json(const SettingCard& card) {
  using file_detail::number;
  Json points = Json::array(), rows = Json::array(), cautions = Json::array();
  const auto point = [&](const EnvelopePoint& p) -> Json {
    return {{"speed_m_per_s", number(p.speed)},
            {"rate_m3_per_m2", number(p.rate)},
            {"state", name_of(p.state)},
            {"good_practice", p.advised},
            {"reached", p.reached},
            {"binding_limit", p.binding},
            {"gauge_Pa", number(p.gauge)},
            {"control_setting_SI", number(p.setting)}};
  };
  for (std::size_t i = 0; i < card.points.size(); ++i) {
    Json one = point(card.points[i]);
    one["mean_catch_m3"] = number(card.mean_catch[i]);
    points.push_back(std::move(one));
  }
  for (const CardCatch& r : card.rows) {
    rows.push_back({{"row", r.row},
                    {"shut", r.shut},
                    {"catch_m3", number(r.volume)},
                    {"lowest_m3", number(r.low)},
                    {"highest_m3", number(r.high)}});
  }
  for (const Caution& c : card.cautions) cautions.push_back(caution_to_json(c));
  return {{"libflow", version},
          {"study", "setting card"},
          {"name", card.layout.name},
          {"liquid", card.liquid.name},
          {"temperature_K", number(card.liquid.temperature)},
          {"control", card.control},
          {"tolerance", number(card.layout.job.tolerance)},
          {"catch_time_s", number(si(card.options.catch_time))},
          {"verdict", verdict_word(card.main)},
          {"rate_reached", card.main.solution.usable() && short_of_rate(card.main) == nullptr},
          {"points", std::move(points)},
          {"job_point", point(card.job)},
          {"rows", std::move(rows)},
          {"cautions", std::move(cautions)}};
}

}  // namespace libflow
