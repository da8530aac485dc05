// SPDX-License-Identifier: MIT
#include <libflow/file/catch_json.hpp>

#include <utility>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>

namespace libflow {

Json catch_plan_to_json(const CatchPlan& plan) {
  using file_detail::number;
  Json rows = Json::array(), cautions = Json::array();
  for (const CatchPlanRow& r : plan.rows) {
    rows.push_back({{"row", r.row},
                    {"shut", r.shut},
                    {"product_m3", number(r.product)},
                    {"water_m3", number(r.water)},
                    {"strip_length_m", number(r.strip_length)},
                    {"strip_time_s", number(r.strip_time)},
                    {"strip_volume_m3", number(r.strip_volume)}});
  }
  for (const Caution& c : plan.cautions) cautions.push_back(caution_to_json(c));
  return {{"layout", plan.product.layout.name},
          {"time_s", number(si(plan.setup.time))},
          {"repeats", plan.setup.repeats},
          {"reading_error", number(plan.setup.reading_error)},
          {"cup_error", number(plan.setup.cup_error())},
          {"confidence", number(plan.setup.power.confidence)},
          {"power", number(plan.setup.power.power)},
          {"strip_m2", number(si(plan.setup.strip))},
          {"supply_pressure_Pa", number(plan.product.evenness.supply_pressure)},
          {"water_supply_pressure_Pa", number(plan.water.evenness.supply_pressure)},
          {"water_at_same_pressure", plan.water_at_same_pressure},
          {"provable_row_difference", number(plan.provable_row)},
          {"provable_coefficient_of_variation", number(plan.provable_cv)},
          {"rows", std::move(rows)},
          {"cautions", std::move(cautions)}};
}

Json doubts_to_json(const std::vector<DoubtfulReading>& doubts) {
  using file_detail::number;
  Json out = Json::array();
  for (const DoubtfulReading& d : doubts) {
    out.push_back({{"row", d.row},
                   {"kind", name_of(d.kind)},
                   {"cups", d.cups},
                   {"whole_row", d.whole_row},
                   {"volume_m3", number(d.volume)},
                   {"fitting_volume_m3", number(d.fits)},
                   {"share", number(d.share)},
                   {"modified_z_score", number(d.score)},
                   {"where", d.where}});
  }
  return out;
}

Json catch_verdict_to_json(const CatchVerdict& v) {
  using file_detail::number;
  Json rows = Json::array();
  for (const RowCatch& c : v.rows) {
    rows.push_back({{"row", c.row},
                    {"cups", c.cups},
                    {"repeats", c.repeats},
                    {"mean_m3", number(c.mean)},
                    {"rate_m3_per_m2", number(c.rate)},
                    {"deviation", number(c.deviation)},
                    {"deviation_low", number(c.low)},
                    {"deviation_high", number(c.high)},
                    {"outside_probability", number(c.outside_probability)},
                    {"mark", mark_name(c.mark)},
                    {"expected_m3", number(c.expected)},
                    {"against_layout", number(c.against_layout)},
                    {"against_layout_error", number(c.against_layout_error)}});
  }
  return {{"layout", v.answer.layout.name},
          {"even", v.even},
          {"proved", v.proved},
          {"tolerance", number(v.tolerance)},
          {"confidence", number(v.confidence)},
          {"mean_m3", number(v.mean)},
          {"mean_rate_m3_per_m2", number(v.total_rate)},
          {"expected_rate_m3_per_m2", number(v.expected_rate)},
          {"coefficient_of_variation", number(v.cv)},
          {"coefficient_of_variation_beyond_error", number(v.cv_beyond_error)},
          {"reading_error", number(v.reading_error)},
          {"reading_error_from_repeats", v.error_from_repeats},
          {"spread_p", number(v.spread_p)},
          {"spread_is_real", v.spread_is_real},
          {"rows_outside", v.outside},
          {"rows_missing", v.missing},
          {"rows_set_aside", v.rows_set_aside},
          {"doubtful_readings", doubts_to_json(v.doubts)},
          {"doubtful_readings_set_aside", v.doubts_set_aside},
          {"with_all_readings",
           {{"mean_m3", number(v.mean_of_all)},
            {"mean_rate_m3_per_m2", number(v.total_rate_of_all)},
            {"coefficient_of_variation", number(v.cv_of_all)}}},
          {"level",
           {{"change", number(v.level.change)},
            {"off", v.level.off},
            {"every_row", v.level.every_row},
            {"unit_slip_factor", v.level.slip ? number(v.level.slip->factor) : Json(nullptr)},
            {"fitting_time_s", number(v.level.time)},
            {"fitting_gauge_Pa", number(v.level.gauge)},
            {"fitting_orifice_share", number(v.level.orifice_share)},
            {"other_liquid_change", number(v.level.other_liquid)},
            {"thinnest_change", number(v.level.thinnest)},
            {"thickest_change", number(v.level.thickest)}}},
          {"rows", std::move(rows)}};
}

}  // namespace libflow
