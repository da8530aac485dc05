// SPDX-License-Identifier: MIT
#include <libflow/file/results_json.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include <nlohmann/json.hpp>

#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/verdict.hpp>
#include <libflow/version.hpp>

namespace libflow {

Cautions all_cautions(const Answer& answer) {
  Cautions all;
  for (const Cautions* list : {&answer.liquid.cautions, &answer.solution.cautions, &answer.evenness.cautions}) {
    for (const Caution& c : *list) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const Caution& a) {
        return a.code == c.code && a.subject == c.subject && a.text == c.text;
      });
      if (!known) all.push_back(c);
    }
  }
  return all;
}

namespace file_detail {

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json job_json(const Answer& a) {
  const Job& job = a.layout.job;
  return {{"liquid", a.liquid.name},
          {"temperature_K", number(a.liquid.temperature)},
          {"density_kg_per_m3", number(a.liquid.density)},
          {"density_confidence", to_text(a.liquid.density_confidence)},
          {"density_source", a.liquid.density_source},
          {"viscosity_Pa_s", number(a.liquid.viscosity)},
          {"viscosity_confidence", to_text(a.liquid.viscosity_confidence)},
          {"viscosity_source", a.liquid.viscosity_source},
          {"rate_m3_per_m2", number(si(job.rate))},
          {"speed_m_per_s", number(si(job.speed))},
          {"tolerance", number(job.tolerance)},
          {"pressure_Pa", number(job.pressure)},
          {"turn_radius_m", number(job.turn_radius)},
          {"pump_limit_Pa", number(job.pump_limit)}};
}

static Json row_json(const RowResult& r, const Evenness& e) {
  const bool outside = std::find(e.outside.begin(), e.outside.end(), r.row) != e.outside.end();
  return {{"row", r.row},
          {"shut", r.shut},
          {"flow_m3_per_s", number(r.flow)},
          {"width_m", number(r.width)},
          {"speed_m_per_s", number(r.speed)},
          {"rate_m3_per_m2", number(r.rate)},
          {"deviation", number(r.deviation)},
          {"outside_tolerance", outside},
          {"hose_length_m", number(r.hose_length)},
          {"orifice_drop_Pa", number(r.orifice_drop)},
          {"check_valve_drop_Pa", number(r.check_valve_drop)},
          {"line_drop_Pa", number(r.line_drop)},
          {"unused_fall_Pa", number(r.unused_fall)},
          {"lift_Pa", number(r.lift)},
          {"orifice_share", number(r.orifice_share)},
          {"hose_reynolds", number(r.hose_reynolds)},
          {"hose_regime", name_of(r.regime)},
          {"check_valve", name_of(r.valve)}};
}

Json as_built_json(const std::optional<AsBuilt>& built) {
  if (!built) return nullptr;
  return {{"share_of_machines_even", number(built->within)},
          {"mean_coefficient_of_variation", number(built->mean_cv)},
          {"method", "first order"}};
}

static Json evenness_json(const Answer& a) {
  const Evenness& e = a.evenness;
  Json rows = Json::array(), causes = Json::array(), band = Json::array();
  for (const ViscosityEnd& end : a.viscosity_band) {
    band.push_back({{"viscosity_Pa_s", number(end.viscosity)},
                    {"solved", end.solved},
                    {"even", end.even},
                    {"coefficient_of_variation", end.solved ? number(end.cv) : Json(nullptr)},
                    {"furthest_row", end.worst_row},
                    {"gauge_Pa", end.solved ? number(end.pressure) : Json(nullptr)},
                    {"furthest_deviation", end.solved ? number(end.worst_deviation) : Json(nullptr)},
                    {"rate_stopped_by", end.stop}});
  }
  for (const RowResult& r : e.rows) rows.push_back(row_json(r, e));
  for (const Cause& c : e.causes) {
    Json deviation = Json::array();
    for (const double d : c.deviation) deviation.push_back(number(d));
    causes.push_back({{"name", c.name}, {"share", number(c.share)}, {"deviation", std::move(deviation)}});
  }
  return {{"even", e.even},
          {"verdict", verdict_word(a)},
          {"rate_reached", short_of_rate(a) == nullptr},
          {"tolerance", number(e.tolerance)},
          {"mean_rate_m3_per_m2", number(e.mean_rate)},
          {"target_rate_m3_per_m2", number(e.target_rate)},
          {"total_flow_m3_per_s", number(e.total_flow)},
          {"supply_pressure_Pa", number(e.supply_pressure)},
          {"coefficient_of_variation", number(e.cv)},
          {"christiansen_coefficient", number(e.christiansen)},
          {"low_quarter_uniformity", number(e.low_quarter)},
          {"highest_row", e.highest_row},
          {"lowest_row", e.lowest_row},
          {"rows_outside", e.outside},
          {"hose_total_m", number(a.plumbing.hose_total)},
          {"rows", std::move(rows)},
          {"causes", std::move(causes)},
          {"even_reference", e.reference},
          {"over_viscosity_band", std::move(band)},
          {"as_built", as_built_json(a.built)}};
}

static Json network_json(const Answer& a) {
  const Network& n = a.plumbing.network;
  Json places = Json::array(), parts = Json::array();
  for (std::size_t i = 0; i < n.place_count() && i < a.solution.places.size(); ++i) {
    const PlaceResult& p = a.solution.places[i];
    places.push_back({{"id", n.place(i).id},
                      {"elevation_m", number(n.place(i).elevation)},
                      {"total_pressure_Pa", number(p.total_pressure)},
                      {"determined", p.determined},
                      {"lower_Pa", number(p.lower)},
                      {"upper_Pa", number(p.upper)}});
  }
  for (std::size_t i = 0; i < n.part_count() && i < a.solution.parts.size(); ++i) {
    const PartResult& p = a.solution.parts[i];
    parts.push_back({{"id", n.part(i).id},
                     {"kind", n.part(i).part.kind()},
                     {"from", n.place(n.from(i)).id},
                     {"to", n.place(n.to(i)).id},
                     {"flow_m3_per_s", number(p.flow)},
                     {"drop_Pa", number(p.drop)},
                     {"velocity_m_per_s", number(p.velocity)},
                     {"reynolds", number(p.reynolds)},
                     {"regime", name_of(p.regime)},
                     {"valve", name_of(p.valve)},
                     {"inlet_static_Pa", number(p.inlet_static)},
                     {"outlet_static_Pa", number(p.outlet_static)}});
  }
  return {{"places", std::move(places)}, {"parts", std::move(parts)}};
}

}  // namespace file_detail

Json caution_to_json(const Caution& c) {
  return {{"code", c.code},
          {"subject", c.subject},
          {"text", c.text},
          {"value", file_detail::number(c.value)},
          {"limit", file_detail::number(c.limit)},
          {"source", c.source}};
}

Json results_to_json(const Answer& answer) {
  const Solution& s = answer.solution;
  Json cautions = Json::array();
  for (const Caution& c : all_cautions(answer)) cautions.push_back(caution_to_json(c));
  return {{"libflow", version},
          {"name", answer.layout.name},
          {"job", file_detail::job_json(answer)},
          {"solution",
           {{"status", name_of(s.status)},
            {"message", s.message},
            {"iterations", s.iterations},
            {"mass_residual", file_detail::number(s.mass_residual)},
            {"energy_residual", file_detail::number(s.energy_residual)}}},
          {"evenness", s.usable() ? file_detail::evenness_json(answer) : Json(nullptr)},
          {"network", s.usable() ? file_detail::network_json(answer) : Json(nullptr)},
          {"cautions", std::move(cautions)}};
}

Json comparison_to_json(const Comparison& comparison) {
  Json layouts = Json::array(), differences = Json::array();
  for (const Answer& a : comparison.answers) layouts.push_back(results_to_json(a));
  for (std::size_t k = 1; k < comparison.answers.size(); ++k) {
    const Answer& first = comparison.answers.front();
    const Answer& other = comparison.answers[k];
    if (!first.solution.usable() || !other.solution.usable()) {
      differences.push_back(nullptr);
      continue;
    }
    Json rows = Json::array();
    for (std::size_t i = 0; i < first.evenness.rows.size() && i < other.evenness.rows.size(); ++i) {
      const RowResult &a = first.evenness.rows[i], &b = other.evenness.rows[i];
      rows.push_back({{"row", a.row},
                      {"rate_m3_per_m2", file_detail::number(b.rate - a.rate)},
                      {"deviation", file_detail::number(b.deviation - a.deviation)}});
    }
    differences.push_back({{"name", other.layout.name},
                           {"coefficient_of_variation", file_detail::number(other.evenness.cv - first.evenness.cv)},
                           {"hose_total_m", file_detail::number(other.plumbing.hose_total - first.plumbing.hose_total)},
                           {"rows", std::move(rows)}});
  }
  return {{"libflow", version}, {"layouts", std::move(layouts)}, {"differences_from_first", std::move(differences)}};
}

std::string to_text(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace libflow
