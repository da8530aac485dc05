// SPDX-License-Identifier: MIT
#include <libflow/study/operating_state.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <variant>

#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/study/limits.hpp>
#include <libflow/study/operating_control.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

Range control_range(const Layout& layout) {
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  if (toolbar != nullptr && toolbar->drive) return setting_range(*toolbar->drive);
  const auto limit = pressure_limit(layout);
  return {0.0, limit ? limit->most : HUGE_VAL};
}

namespace operating_detail {

PumpDuty pump_duty(const Plumbing& p, const Solution& s, const Drive& drive, const LiquidState& liquid) {
  const DrivePlumbing& d = *p.drive;
  PumpDuty duty;
  duty.flow = s.parts[d.pump].flow;
  duty.gain = -s.parts[d.pump].drop;
  duty.inlet = s.places[d.pump_inlet].total_pressure;
  duty.outlet = s.places[d.pump_outlet].total_pressure;
  duty.hydraulic_power = duty.flow * duty.gain;
  duty.shaft_power = p.network.part(d.pump).part.shaft_power(duty.flow, liquid);
  const double weight = liquid.density * standard_gravity;
  if (const auto* curve = std::get_if<PumpCurve>(&drive.pump)) {
    duty.suction_available = curve->head_available(from_si<Pressure>(duty.inlet), liquid);
    duty.suction_required = curve->duty(from_si<Flow>(std::max(0.0, duty.flow)), liquid).head_required;
  } else {
    duty.suction_available =
        physics::suction_head_available<double>(duty.inlet + limits_detail::atmosphere, liquid.vapour_pressure, weight);
  }
  const auto back = [&](const std::optional<Network::PartIndex>& part) { return part ? s.parts[*part].flow : 0.0; };
  duty.relief = back(d.relief);
  duty.bypass = back(d.bypass);
  duty.agitation = back(d.agitation);
  return duty;
}

Limits control_limits(const std::string& name, double setting, Range range, const std::string& unit) {
  const double width = range.high - range.low;
  if (!std::isfinite(width) || !(width > 0.0)) return {};
  const std::string source = "range of the control";
  return {
      {"most " + name, "", setting, range.high, unit, true, (range.high - setting) / width, LimitKind::stops, source},
      {"least " + name, "", setting, range.low, unit, false, (setting - range.low) / width, LimitKind::stops, source}};
}

void sort_by_margin(Limits& limits) {
  std::stable_sort(limits.begin(), limits.end(), [](const Limit& a, const Limit& b) { return a.margin < b.margin; });
}

}  // namespace operating_detail

OperatingState OperatingSolver::at_control(const Job& job) {
  OperatingState state;
  state.wanted = wanted_flow(plumbing_, job);
  const PlumbingControl& c = *control_;
  const auto solve_at = [&](double setting) {
    set_control(plumbing_, c, setting);
    state.setting = setting;
    state.rows = solve_plumbing(plumbing_, liquid_);
    if (!state.rows.usable()) throw IllPosedError(state.rows.message);
    state.evenness = evaluate(plumbing_, job, state.rows, liquid_);
    return state.evenness.total_flow - state.wanted;
  };
  const double low = solve_at(c.settings.low), high = solve_at(c.settings.high);
  state.solved = true;
  const auto right = [&](double miss) { return std::abs(miss) <= 1e-6 * state.wanted; };
  // A bypass or relief valve works the other way round; one that decides nothing gives the same at both ends.
  if (low * high > 0.0 || low == high) {
    const bool nearer_high = std::abs(high) <= std::abs(low);
    state.reached = right(solve_at(nearer_high ? c.settings.high : c.settings.low));
    if (!state.reached) state.stop = (nearer_high ? "most " : "least ") + c.name;
  } else {  // an end that gives just the total is found as any other
    std::uintmax_t steps = 200;
    const auto bracket = boost::math::tools::toms748_solve(solve_at, c.settings.low, c.settings.high, low, high,
                                                           boost::math::tools::eps_tolerance<double>(46), steps);
    const double miss = solve_at(0.5 * (bracket.first + bracket.second));
    // What jumps through the wanted total (a valve that slams) is not reached.
    state.reached = right(miss);
    if (!state.reached) state.stop = "a jump in " + c.name;
  }
  state.gauge = state.evenness.supply_pressure;
  state.limits = find_limits({.toolbar = nullptr,
                              .job = job,
                              .liquid = liquid_,
                              .rows = plumbing_,
                              .rows_solution = state.rows,
                              .evenness = state.evenness});
  for (Limit& l : operating_detail::control_limits(c.name, state.setting, c.settings, c.unit)) {
    state.limits.push_back(std::move(l));
  }
  operating_detail::sort_by_margin(state.limits);
  return state;
}

}  // namespace libflow
