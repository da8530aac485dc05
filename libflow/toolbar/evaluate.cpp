// SPDX-License-Identifier: MIT
#include <libflow/toolbar/evaluate.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <boost/math/statistics/univariate_statistics.hpp>
#include <fmt/core.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/ground.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/junctions.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/toolbar/uniformity.hpp>

namespace libflow {

namespace evaluate_detail {

static double mean_drop(const Solution& solution, const std::vector<Network::PartIndex>& parts) {
  double sum = 0.0;
  for (const auto p : parts) sum += solution.parts[p].drop;
  return parts.empty() ? 0.0 : sum / static_cast<double>(parts.size());
}

/// Along the flow of its outlet: an orifice passes both ways and may be drawn against it.
static double mean_orifice_drop(const Network& network, const Solution& solution, const RowPlumbing& row) {
  double sum = 0.0;
  for (std::size_t k = 0; k < row.orifices.size(); ++k) {
    const PartResult& hole = solution.parts[row.orifices[k]];
    const std::size_t outlet = std::min(k, row.airs.size() - 1);
    const auto last = row.last_parts[outlet];
    const double out = network.to(last) == row.airs[outlet] ? solution.parts[last].flow : -solution.parts[last].flow;
    sum += hole.flow * out < 0.0 ? -hole.drop : hole.drop;
  }
  return row.orifices.empty() ? 0.0 : sum / static_cast<double>(row.orifices.size());
}

static RowResult row_result(const RowPlumbing& row, const Plumbing& plumbing, const Job& job, const Solution& solution,
                            const LiquidState& liquid) {
  const Network& network = plumbing.network;
  RowResult r;
  r.row = row.row;
  r.shut = row.shut;
  r.width = row.width;
  r.speed = row_speed(job, row.x);
  r.hose_length = row.hose_length;
  if (row.shut || row.airs.empty()) return r;
  for (std::size_t k = 0; k < row.airs.size(); ++k) {
    const auto last = row.last_parts[k];
    r.flow += network.to(last) == row.airs[k] ? solution.parts[last].flow : -solution.parts[last].flow;
  }
  r.rate = r.flow / (r.width * r.speed);
  r.orifice_drop = mean_orifice_drop(network, solution, row);
  r.check_valve_drop = mean_drop(solution, row.check_valves);
  const double supply_z = network.place(plumbing.supply).elevation;
  double outlet_z = 0.0;
  for (const auto air : row.airs) outlet_z += network.place(air).elevation / static_cast<double>(row.airs.size());
  r.lift = liquid.density * standard_gravity * (outlet_z - supply_z);
  const double friction = solution.places[plumbing.supply].total_pressure - r.lift;
  for (const auto last : row.last_parts) {
    r.unused_fall += unused_fall(network, solution, last, liquid) / static_cast<double>(row.last_parts.size());
  }
  r.line_drop = friction - r.orifice_drop - r.check_valve_drop - r.unused_fall;
  // Where a pump stands behind the gauge the row has more pressure than the gauge shows: no share of it is known.
  const bool pumped = r.line_drop < -1e-6 * (r.orifice_drop + r.check_valve_drop);
  r.orifice_share = r.flow > 0.0 && friction > 0.0 && !pumped ? r.orifice_drop / friction : 0.0;
  if (!row.hoses.empty()) {
    r.hose_reynolds = solution.parts[row.hoses.front()].reynolds;
    r.regime = solution.parts[row.hoses.front()].regime;
  }
  for (const auto valve : row.check_valves) {
    const ValveState state = solution.parts[valve].valve;
    if (r.valve != ValveState::closed) r.valve = state;
  }
  return r;
}

/// What a row's rate hangs on [Pa]: the drop of its orifice, or of its lines where no row has an orifice; the mean.
static double metering_drop(const std::vector<RowResult>& rows) {
  double orifice = 0.0, line = 0.0;
  int with_orifice = 0, open = 0;
  for (const RowResult& r : rows) {
    if (r.shut) continue;
    ++open;
    line += r.line_drop;
    orifice += r.orifice_drop;
    with_orifice += r.orifice_drop > 0.0 ? 1 : 0;
  }
  if (with_orifice > 0) return orifice / with_orifice;
  return open > 0 ? line / open : 0.0;
}

/// Positive pumps of a network that has no relief valve at all.
static Cautions without_relief(const Network& network) {
  Cautions found;
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    const PlacedPart& placed = network.part(i);
    if (placed.part.as<ReliefValve>() != nullptr) return {};
    if (placed.part.as<PositivePump>() == nullptr && placed.part.as<GroundDrivenPump>() == nullptr) continue;
    found.push_back(PositivePump::without_relief(fmt::format("{} '{}'", placed.part.kind(), placed.id)));
  }
  return found;
}

}  // namespace evaluate_detail

Evenness evaluate(const Plumbing& plumbing, const Job& job, const Solution& solution, const LiquidState& liquid) {
  Evenness e;
  e.tolerance = job.tolerance;
  e.target_rate = si(job.rate);
  e.supply_pressure = solution.places[plumbing.supply].total_pressure;
  std::vector<double> rates;
  for (const RowPlumbing& row : plumbing.rows) {
    e.rows.push_back(evaluate_detail::row_result(row, plumbing, job, solution, liquid));
    if (row.shut) continue;
    rates.push_back(e.rows.back().rate);
    e.total_flow += e.rows.back().flow;
  }
  e.mean_rate = rates.empty() ? 0.0 : boost::math::statistics::mean(rates);
  if (e.mean_rate > 0.0) {
    e.cv = coefficient_of_variation(rates);
    e.christiansen = christiansen_uniformity(rates);
    e.low_quarter = low_quarter_uniformity(rates);
    const RowResult* highest = nullptr;
    const RowResult* lowest = nullptr;
    for (RowResult& r : e.rows) {
      if (r.shut) continue;
      r.deviation = r.rate / e.mean_rate - 1.0;
      if (std::abs(r.deviation) > e.tolerance) e.outside.push_back(r.row);
      if (highest == nullptr || r.rate > highest->rate) highest = &r;
      if (lowest == nullptr || r.rate < lowest->rate) lowest = &r;
    }
    e.highest_row = highest->row;
    e.lowest_row = lowest->row;
    e.even = e.outside.empty();
  }

  e.cautions = solution.cautions;
  for (Caution& c : evaluate_detail::without_relief(plumbing.network)) e.cautions.push_back(std::move(c));
  for (Caution& c : junction_cautions(plumbing, solution, liquid, evaluate_detail::metering_drop(e.rows))) {
    e.cautions.push_back(std::move(c));
  }
  for (const RowResult& r : e.rows) {
    if (r.valve == ValveState::closed) {
      e.cautions.push_back({"check-valve-shut", fmt::format("row {}", r.row),
                            "the pressure does not open this row's check valve: it delivers nothing or too little"});
    }
  }
  if (job.pump_limit && e.supply_pressure > si(*job.pump_limit)) {
    e.cautions.push_back({"above-pump-limit", "supply",
                          "the rate needs more pressure than the supply can give: it will fall short",
                          e.supply_pressure, si(*job.pump_limit), "pump limit given in the layout"});
  }
  return e;
}

}  // namespace libflow
