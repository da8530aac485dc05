// SPDX-License-Identifier: MIT
#include <libflow/study/catch_model.hpp>

#include <cstddef>
#include <optional>
#include <tuple>
#include <variant>
#include <vector>

#include <libflow/study/catch_causes.hpp>
#include <libflow/study/catch_readings.hpp>
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
    for (std::size_t k = 0; k < r.last_parts.size(); ++k) {
      const auto part = r.last_parts[k];
      q += plumbing.network.to(part) == r.airs[k] ? solution.parts[part].flow : -solution.parts[part].flow;
    }
    flows.push_back(q);
  }
  return flows;
}

}  // namespace catch_detail

}  // namespace libflow
