// SPDX-License-Identifier: MIT
#include <libflow/file/nutrients_json.hpp>

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/fluid/blend.hpp>
#include <libflow/study/agronomy.hpp>

namespace libflow {

namespace file_detail {

static Json analysis_json(const Analysis& a) {
  return {{"N", number(a.n / 100.0)},
          {"P2O5", number(a.p2o5 / 100.0)},
          {"K2O", number(a.k2o / 100.0)},
          {"S", number(a.s / 100.0)}};
}

static Json nutrients_json(const NutrientRates& r) {
  return {{"N_kg_per_m2", number(si(r.n))},
          {"P2O5_kg_per_m2", number(si(r.p2o5))},
          {"K2O_kg_per_m2", number(si(r.k2o))},
          {"S_kg_per_m2", number(si(r.s))},
          {"N_and_K2O_kg_per_m2", number(si(r.salt()))}};
}

static Json water_test_json(const WaterTest& w) {
  return {{"water_temperature_K", number(w.water_temperature)},
          {"square_root_factor", number(w.rule_factor)},
          {"factor_by_the_plumbing", number(w.factor)},
          {"same_setting", w.same_setting},
          {"water_rate_m3_per_m2", number(w.water_rate)},
          {"pressure_Pa", number(w.pressure)},
          {"product_rate_m3_per_m2", number(w.product_rate)},
          {"error_of_the_rule", number(w.error)},
          {"rule_fails", w.fails},
          {"right_pressure_Pa", number(w.right_pressure)},
          {"coefficient_of_variation_water", number(w.water_cv)},
          {"coefficient_of_variation_product", number(w.product_cv)}};
}

}  // namespace file_detail

Json nutrients_to_json(const Agronomy& a) {
  using namespace file_detail;
  Json rows = Json::array(), limits = Json::array(), cautions = Json::array();
  for (const RowNutrients& r : a.rows) {
    Json row{{"row", r.row}};
    row.update(nutrients_json(r.rates));
    rows.push_back(std::move(row));
  }
  for (const SeedLimitCheck& c : a.limits) {
    limits.push_back({{"source", c.limit.source},
                      {"says", c.limit.words},
                      {"soil", c.limit.soil ? Json(name_of(*c.limit.soil)) : Json(nullptr)},
                      {"limit_kg_per_m2", number(si(c.limit.limit))},
                      {"applies", applies(c, a.options)},
                      {"over", c.over},
                      {"highest_rate_m3_per_m2", number(si(c.highest_rate))}});
  }
  for (const Cautions& list : {a.cautions, all_cautions(a.answer)}) {
    for (const Caution& c : list) cautions.push_back(caution_to_json(c));
  }
  return {{"libflow", version},
          {"name", a.answer.layout.name},
          {"job", job_json(a.answer)},
          {"analysis", analysis_json(a.analysis)},
          {"wanted", nutrients_json(a.wanted)},
          {"mean", nutrients_json(a.mean)},
          {"rows", std::move(rows)},
          {"with_the_seed",
           {{"crop", name_of(a.options.crop)},
            {"row_spacing_m", number(si(a.spacing))},
            {"limits", std::move(limits)},
            {"product_for_a_tenth_of_the_stand_kg_per_m2", number(a.product_at_ten_per_cent)}}},
          {"water_test", water_test_json(a.water)},
          {"cautions", std::move(cautions)}};
}

std::string nutrients_to_csv(const Agronomy& a, UnitSystem units) {
  using namespace file_detail;
  const auto unit = unit_name<MassPerArea>(units);
  std::vector<std::string> heading{"layout", "row"};
  for (const char* name : {"N", "P2O5", "K2O", "S", "N + K2O"}) heading.push_back(fmt::format("{} ({})", name, unit));
  std::string text = csv_line(heading);
  for (const RowNutrients& r : a.rows) {
    std::vector<std::string> fields{a.answer.layout.name, fmt::format("{}", r.row)};
    for (const MassPerArea& v : {r.rates.n, r.rates.p2o5, r.rates.k2o, r.rates.s, r.rates.salt()}) {
      fields.push_back(csv_quantity<MassPerArea>(si(v), units));
    }
    text += csv_line(fields);
  }
  return text;
}

Json blend_to_json(const std::vector<BlendPart>& parts, const Blend& mix) {
  using namespace file_detail;
  const auto one = [](const Analysis& a, double volume, double mass, double density) {
    return Json{{"analysis", analysis_json(a)},
                {"volume_m3", number(volume)},
                {"mass_kg", number(mass)},
                {"density_kg_per_m3", number(density)}};
  };
  Json list = Json::array(), cautions = Json::array();
  for (const BlendPart& p : parts) {
    Json part{{"name", p.name}};
    part.update(one(p.analysis, si(p.volume), si(p.volume) * si(p.density), si(p.density)));
    list.push_back(std::move(part));
  }
  for (const Caution& c : blend_cautions()) cautions.push_back(caution_to_json(c));
  return {{"libflow", version},
          {"parts", std::move(list)},
          {"mix", one(mix.analysis, si(mix.volume), si(mix.mass), si(mix.density))},
          {"cautions", std::move(cautions)}};
}

}  // namespace libflow
