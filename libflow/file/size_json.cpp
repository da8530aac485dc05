// SPDX-License-Identifier: MIT
#include <libflow/file/size_json.hpp>

#include <cstddef>
#include <variant>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size.hpp>

namespace libflow {

namespace file_detail {

static Json orifice_json(const OrificeChoice& choice) {
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    return {{"rated_flow_m3_per_s", number(si(rated->flow))}, {"rated_pressure_Pa", number(si(rated->pressure))}};
  }
  const auto& bored = std::get<OrificeByBore>(choice);
  return {{"bore_m", number(si(bored.bore))}, {"thickness_m", number(si(bored.thickness))}};
}

static Json point_json(const WorkingPoint& p) {
  return {{"speed_m_per_s", number(si(p.speed))},
          {"rate_m3_per_m2", number(si(p.rate))},
          {"temperature_K", number(si(p.temperature))},
          {"side_slope_rad", number(si(p.side_slope))}};
}

static Json binding_json(const SizeBinding& b) {
  Json binding = {{"limit", b.name.empty() ? std::string(name_of(b.limit)) : b.name},
                  {"use", number(b.use)},
                  {"row", b.row == 0 ? Json(nullptr) : Json(b.row)}};
  if (b.limit == SizeLimit::supply_line) {
    binding["value"] = number(b.value);
    binding["allowed"] = number(b.allowed);
    binding["unit"] = b.unit;
    return binding;
  }
  if (b.limit == SizeLimit::metering) {
    binding["share"] = number(b.value);
    binding["least_share"] = number(b.allowed);
    return binding;
  }
  const bool pressure = b.limit != SizeLimit::evenness && b.limit != SizeLimit::row_dry;
  binding[pressure ? "value_Pa" : "deviation"] = number(b.value);
  binding[pressure ? "allowed_Pa" : "allowed_deviation"] = number(b.allowed);
  return binding;
}

static Json slopes_json(const std::vector<ChoiceSlope>& slopes) {
  Json all = Json::array();
  for (const ChoiceSlope& s : slopes) {
    all.push_back({{"choice", s.choice},
                   {"unit", s.unit},
                   {"value", number(s.value)},
                   {"worst_row", s.row},
                   {"worst_deviation_per_unit", number(s.deviation)},
                   {"coefficient_of_variation_per_unit", number(s.cv)},
                   {"gauge_Pa_per_unit", number(s.pressure)}});
  }
  return all;
}

static Json verified_json(const SizeVerified& v) {
  if (v.points == 0) return nullptr;
  Json binding = binding_json(v.binding);
  binding["at"] = point_json(v.point);
  return {{"points", v.points},
          {"holds", v.holds},
          {"points_added_to_the_search", v.added},
          {"worst_deviation", number(v.worst_deviation)},
          {"least_gauge_Pa", number(v.least_pressure)},
          {"most_gauge_Pa", number(v.most_pressure)},
          {"binding", std::move(binding)}};
}

static Json band_json(const std::vector<SizeBandEnd>& band) {
  Json ends = Json::array();
  for (const SizeBandEnd& end : band) {
    Json binding = nullptr;
    if (end.refused.empty()) {
      binding = binding_json(end.binding);
      binding["at"] = point_json(end.point);
    }
    ends.push_back({{"end", end.upper ? "upper" : "lower"},
                    {"holds", end.holds},
                    {"points", end.points},
                    {"viscosity_Pa_s", end.refused.empty() ? number(end.viscosity) : Json(nullptr)},
                    {"no_answer", end.refused},
                    {"binding", std::move(binding)}});
  }
  return ends;
}

static Json candidate_json(const SizeProblem& p, const SizeCandidate& c) {
  Json orifices = Json::array(), lengths = Json::array();
  for (std::size_t g = 0; g < p.groups.size(); ++g) {
    orifices.push_back({{"group", p.groups[g].name},
                        {"rows", p.groups[g].rows},
                        {"orifice", orifice_json(p.choices.orifices[c.choice.orifices[g]])}});
  }
  for (const double length : p.plans[c.choice.plan].lengths) lengths.push_back(number(length));
  const SizeOutcome& o = c.outcome;
  Json binding = binding_json(o.binding);
  binding["point"] = o.binding.point;
  return {{"orifices", std::move(orifices)},
          {"cut", name_of(p.plans[c.choice.plan].cut)},
          {"hose_lengths_m", std::move(lengths)},
          {"hose_bore_m", number(si(p.choices.hose_bores[c.choice.hose_bore]))},
          {"manifold_bore_m", number(si(p.choices.manifold_bores[c.choice.manifold_bore]))},
          {"feed", name_of(p.choices.feeds[c.choice.feed])},
          {"crack_Pa", p.choices.cracks.empty() ? Json(nullptr) : number(si(p.choices.cracks[c.choice.crack]))},
          {"hose_m", number(c.hose)},
          {"price", p.choices.hose_prices.empty() ? Json(nullptr) : number(c.price)},
          {"fits", o.fits()},
          {"pareto", c.pareto},
          {"worst_deviation", number(o.worst_deviation)},
          {"as_built", as_built_json(c.built)},
          {"orifices_share_of_a_rows_loss", c.orifice_share > 0.0 ? number(c.orifice_share) : Json(nullptr)},
          {"worst_coefficient_of_variation", number(o.worst_cv)},
          {"least_gauge_Pa", number(o.least_pressure)},
          {"most_gauge_Pa", number(o.most_pressure)},
          {"least_orifice_drop_Pa", number(o.least_orifice_drop)},
          {"most_orifice_drop_Pa", number(o.most_orifice_drop)},
          {"binding", std::move(binding)}};
}

static Json points_json(const SizeProblem& p) {
  Json points = Json::array();
  for (std::size_t k = 0; k < p.points.size(); ++k) {
    Json point = point_json(p.points[k]);
    point["flow_m3_per_s"] = number(p.flows[k]);
    point["drive_most_gauge_Pa"] = number(p.supply[k].high);
    points.push_back(std::move(point));
  }
  return points;
}

static Json hoses_at_json(const HosesAt& h) {
  return {{"orifice_bore_m", h.bore > 0.0 ? number(h.bore) : Json(nullptr)},
          {"orifice_drop_Pa", number(h.orifice_drop)},
          {"gauge_Pa", number(h.pressure)},
          {"worst_deviation", number(h.deviation)},
          {"worst_row", h.row},
          {"deviation_per_bore_per_m", h.exact_slope ? number(h.deviation_by_bore) : Json(nullptr)},
          {"coefficient_of_variation", number(h.cv)}};
}

}  // namespace file_detail

Json size_to_json(const SizeAnswer& a, std::size_t most) {
  using file_detail::number;
  Json ranked = Json::array();
  for (std::size_t k = 0; k < a.fits.size(); ++k) {
    if (k >= most && !a.fits[k].pareto && k != a.best && a.sure != k) continue;
    Json candidate = file_detail::candidate_json(a.problem, a.fits[k]);
    candidate["rank"] = k + 1;
    ranked.push_back(std::move(candidate));
  }
  return {{"libflow", version},
          {"name", a.problem.layout.name},
          {"complete", a.complete},
          {"combinations", a.combinations},
          {"tried", a.tried},
          {"left_out_by_bound", a.bounded},
          {"refused", a.refused},
          {"first_refusal", a.refusal},
          {"solves", a.solves},
          {"operating_points", file_detail::points_json(a.problem)},
          {"tolerance", number(a.problem.layout.job.tolerance)},
          {"least_pressure_Pa", number(si(a.problem.choices.least_pressure))},
          {"most_pressure_Pa", number(si(a.problem.choices.most_pressure))},
          {"fit", a.fits.size()},
          {"recommended_rank", a.fits.empty() ? Json(nullptr) : Json(a.best + 1)},
          {"recommended_is_sure", a.fits.empty() ? Json(nullptr) : Json(a.is_sure())},
          {"recommended_over_viscosity_band", file_detail::band_json(a.band)},
          {"cheapest_sure_rank", a.sure ? Json(*a.sure + 1) : Json(nullptr)},
          {"cheapest_over_viscosity_band", file_detail::band_json(a.winner_band)},
          {"winner_over_the_whole_envelope", file_detail::verified_json(a.verified)},
          {"winner_slopes", file_detail::slopes_json(a.slopes)},
          {"ranked", std::move(ranked)},
          {"nearest_miss", a.nearest_miss ? file_detail::candidate_json(a.problem, *a.nearest_miss) : Json(nullptr)}};
}

Json equal_hoses_to_json(const EqualHoses& a) {
  using file_detail::number;
  Json points = Json::array();
  for (const EqualHosesPoint& at : a.points) {
    Json point = file_detail::point_json(at.point);
    point["flow_m3_per_s"] = number(at.flow);
    point["shortest_hoses_own_orifice"] = file_detail::hoses_at_json(at.shortest);
    point["equal_hoses_own_orifice"] = file_detail::hoses_at_json(at.equal);
    point["shortest_hoses_are_even_with"] = at.need == EqualHosesPoint::Need::never ? "no orifice"
                                            : at.need == EqualHosesPoint::Need::any_orifice
                                                ? "any orifice"
                                                : "this orifice or a smaller";
    point["needed"] =
        at.need == EqualHosesPoint::Need::some_orifice ? file_detail::hoses_at_json(at.needed) : Json(nullptr);
    point["most_gauge_allowed_Pa"] = number(at.limit);
    point["allowed"] = at.reachable();
    points.push_back(std::move(point));
  }
  return {
      {"libflow", version},
      {"name", a.problem.layout.name},
      {"complete", a.complete},
      {"tolerance", number(a.problem.layout.job.tolerance)},
      {"hoses_have_to_be_equal", a.have_to},
      {"hose_equal_m", number(a.hose_equal)},
      {"hose_shortest_m", number(a.hose_shortest)},
      {"cut_equal_m", number(a.cut_equal)},
      {"cut_shortest_m", number(a.cut_shortest)},
      {"cut_longest_m", number(a.cut_longest)},
      {"one_orifice_for_all_points", a.with_one.empty() ? Json(nullptr) : number(a.points[a.strictest].needed.bore)},
      {"one_orifice_allowed", a.one_allowed},
      {"strictest_point", a.points.empty() ? Json(nullptr) : Json(a.strictest)},
      {"points", std::move(points)}};
}

}  // namespace libflow
