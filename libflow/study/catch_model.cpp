// SPDX-License-Identifier: MIT
#include <libflow/study/catch_model.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <tuple>
#include <variant>
#include <vector>

#include <libflow/study/catch_causes.hpp>
#include <libflow/study/catch_readings.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace catch_detail {

CatchCondition condition_of(const Layout& layout, const CatchReadings& readings, const DiagnosisSetup& setup,
                            std::optional<double>& job_pressure) {
  CatchCondition c{.layout = layout, .gauge = readings.gauge.has_value(), .water = readings.water};
  Toolbar& bar = bar_of(c.layout);
  if (readings.gauge) {
    require_in("gauge", si(*readings.gauge), layout_limits::pressure, "Pa");
    c.pressure = si(*readings.gauge);
  } else {
    if (!job_pressure) {
      const Answer answer = main_job(layout);
      if (!answer.solution.usable()) throw IllPosedError(answer.solution.message);
      job_pressure = answer.evenness.supply_pressure;
    }
    c.pressure = *job_pressure;
  }
  bar.drive.reset();
  c.layout.job.pressure = from_si<Pressure>(c.pressure);
  if (c.water) {
    c.layout.job.liquid = find_liquid("water");
    c.layout.job.temperature = setup.water_temperature;
  }
  return c;
}

std::vector<double> row_flows(const Layout& layout) {
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const Plumbing plumbing = build_network(std::get<Toolbar>(layout.plumbing), layout.job);
  const Solution solution = solve_plumbing(plumbing, liquid);
  if (!solution.usable()) return {};
  std::vector<double> flows;
  for (const RowPlumbing& r : plumbing.rows) {
    if (r.shut) continue;
    double q = 0.0;
    for (const auto part : r.last_parts) q += solution.parts[part].flow;  // a bar's lead to the air
    flows.push_back(q);
  }
  return flows;
}

double share_without_orifice(const Layout& at, int row) {
  try {
    const std::vector<build_detail::Row> rows = build_detail::make_rows(std::get<Toolbar>(at.plumbing));
    const build_detail::Row& own = row_of(rows, row);
    std::size_t place = 0;  // among the open rows
    for (const build_detail::Row& r : rows) place += !r.shut && r.number < row ? 1U : 0U;
    if (!own.orifice) return too_much_share;
    const double bore = std::min(own.hose_bore, Orifice::bore_range.high) / bore_of(*own.orifice);
    const std::vector<double> now = row_flows(at);
    const std::vector<double> open = row_flows(with_cause(at, {CatchCauseKind::orifice, row, 0, 0, bore}));
    if (place >= now.size() || place >= open.size() || !(now[place] > no_flow)) return too_much_share;
    return std::max(1.0, open[place] / now[place]);
  } catch (const Error&) {
    return too_much_share;
  }
}

}  // namespace catch_detail

}  // namespace libflow
