// SPDX-License-Identifier: MIT
#include <libflow/file/tolerance_json.hpp>

#include <nlohmann/json.hpp>

#include <libflow/file/results_json.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow {

namespace file_detail {

/// An error that is not known (one replicate only) is null.
static Json estimate_json(const Estimate& e) {
  return {{"value", number(e.value)}, {"standard_error", number(e.error)}};
}

static Json plain_or_null(const std::optional<double>& x) { return x ? number(*x) : Json(nullptr); }

static Json share_json(const VarianceShare& s) {
  return {{"first_order", estimate_json(s.first_order)}, {"total", estimate_json(s.total)}};
}

}  // namespace file_detail

Json tolerance_to_json(const ToleranceResult& r) {
  using namespace file_detail;
  Json quantiles = Json::array(), rows = Json::array(), shares = Json::array();
  for (const ToleranceQuantile& q : r.quantiles) {
    quantiles.push_back({{"level", number(q.level)},
                         {"coefficient_of_variation", estimate_json(q.cv)},
                         {"worst_row_deviation", estimate_json(q.worst)}});
  }
  for (const RowScatter& row : r.rows) {
    rows.push_back({{"row", row.row},
                    {"layout_deviation", number(row.nominal)},
                    {"mean_deviation", estimate_json(row.mean)},
                    {"standard_deviation", estimate_json(row.spread)},
                    {"first_order_standard_deviation", plain_or_null(row.first_order)},
                    {"first_order_parts_company", row.parts_company}});
  }
  for (const ToleranceShare& s : r.shares) {
    Json indices = nullptr;
    if (r.share_replicates > 0) {
      indices = {{"coefficient_of_variation", share_json(s.cv)}, {"worst_row_deviation", share_json(s.worst)}};
    }
    shares.push_back({{"name", s.name},
                      {"sobol_indices", std::move(indices)},
                      {"first_order_share_of_row_variance", plain_or_null(s.first_order)}});
  }
  return {{"libflow", version},
          {"name", r.layout},
          {"tolerance", number(r.tolerance)},
          {"complete", r.complete},
          {"seed", r.seed},
          {"machines", r.machines},
          {"unsolved", r.unsolved},
          {"replicates", r.replicates},
          {"share_replicates", r.share_replicates},
          {"layout_coefficient_of_variation", number(r.nominal_cv)},
          {"layout_worst_row_deviation", number(r.nominal_worst)},
          {"probability_within_tolerance", estimate_json(r.within)},
          {"mean_coefficient_of_variation", estimate_json(r.mean_cv)},
          {"rms_coefficient_of_variation", estimate_json(r.rms_cv)},
          {"first_order_rms_coefficient_of_variation", plain_or_null(r.first_order_rms_cv)},
          {"at_crack_pressure", r.at_crack},
          {"no_first_order", r.no_first_order},
          {"quantiles", std::move(quantiles)},
          {"rows", std::move(rows)},
          {"tolerances", std::move(shares)}};
}

}  // namespace libflow
