// SPDX-License-Identifier: MIT
#include <libflow/study/operating_point.hpp>

#include <cmath>
#include <string>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/study/limits.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_control.hpp>
#include <libflow/study/operating_state.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

Layout with_setting(Layout layout, double setting) {
  if (auto* toolbar = std::get_if<Toolbar>(&layout.plumbing)) {
    if (toolbar->drive) {
      toolbar->drive->setting = setting;
      layout.job.pressure.reset();
    } else {
      layout.job.pressure = from_si<Pressure>(setting);
    }
    return layout;
  }
  auto& plumbing = std::get<Plumbing>(layout.plumbing);
  plumbing.network.set_supply_pressure(plumbing.supply, from_si<Pressure>(setting));
  return layout;
}

Answer at_setting(Layout layout, double setting) { return main_job(with_setting(std::move(layout), setting)); }

namespace operating_detail {

/// Why the wanted total is not reached, in words.
static std::string reason(const OperatingState& state, const Layout& layout) {
  if (state.stop == "pump and lines") {
    return "the pump cannot bring enough pressure through its lines to the gauge: the regulator is wide open";
  }
  if (state.stop == pressure_limit_name(false)) return "the supply cannot give the pressure that the rows need";
  if (const auto above = assumed_limit_caution(layout, state.gauge); above && above->code == "above-assumed-limit") {
    return above->text;
  }
  if (state.stop == "no answer") return "the rows have no answer at the wanted rate: " + state.rows.message;
  return fmt::format("the control is at the end of its range ({})", state.stop);
}

/// A free form: with its named control, or as it stands.
static OperatingPoint free_point(const Layout& layout, std::string_view control) {
  OperatingPoint point;
  point.control = "none";
  point.unit = "Pa";
  point.held = control.empty();
  Layout at = layout;
  Limits of_control;
  if (!control.empty()) {
    OperatingSolver solver(layout, control);
    const OperatingState state = solver.at(layout.job.rate, layout.job.speed);
    const PlumbingControl& c = *solver.control();
    point.control = c.name;
    point.unit = c.unit;
    point.settings = c.settings;
    point.setting = state.setting;
    if (!state.reached) point.stop = reason(state, layout);
    of_control = control_limits(c.name, state.setting, c.settings, c.unit);
    set_control(std::get<Plumbing>(at.plumbing), c, state.setting);
  }
  point.answer = main_job(std::move(at));
  const Answer& a = point.answer;
  if (!a.solution.usable()) throw IllPosedError(a.solution.message);
  point.wanted = wanted_flow(a.plumbing, a.layout.job);
  point.delivered = a.evenness.total_flow;
  point.reached = std::abs(point.delivered - point.wanted) <= OperatingPoint::rate_tolerance * point.wanted;
  if (point.reached) point.stop.clear();
  if (control.empty()) {
    point.setting = a.evenness.supply_pressure;
    point.settings = {point.setting, point.setting};
    if (!point.reached) point.stop = "no part is named as the control that would bring it to the rate";
  }
  point.limits = find_limits({.toolbar = nullptr,
                              .job = a.layout.job,
                              .liquid = a.liquid,
                              .rows = a.plumbing,
                              .rows_solution = a.solution,
                              .evenness = a.evenness});
  for (Limit& l : of_control) point.limits.push_back(std::move(l));
  sort_by_margin(point.limits);
  return point;
}

}  // namespace operating_detail

OperatingPoint operating_point(const Layout& layout, std::string_view control) {
  using namespace operating_detail;
  if (const auto* free_form = std::get_if<Plumbing>(&layout.plumbing)) {
    const bool fed = free_form->network.place(free_form->supply).kind == PlaceKind::fed;
    if (!fed || !control.empty()) return free_point(layout, control);
  } else if (!control.empty()) {
    throw InputError("control", "is named for a layout with a [toolbar]", "control in [drive]");
  }
  OperatingPoint point;
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  const bool driven = toolbar != nullptr && toolbar->drive;
  point.control = driven ? std::string(name_of(toolbar->drive->control)) : "supply pressure";
  point.unit = driven && !is_pressure(toolbar->drive->control) ? "1" : "Pa";
  point.settings = control_range(layout);
  point.held = driven ? toolbar->drive->setting.has_value() : layout.job.pressure.has_value();

  OperatingSolver solver(layout);
  const OperatingState state = solver.at(layout.job.rate, layout.job.speed);
  if (!state.solved) throw IllPosedError(reason(state, layout));
  point.wanted = state.wanted;
  Layout at = layout;
  if (!point.held && (driven || !state.reached)) at = with_setting(std::move(at), state.setting);
  point.answer = main_job_detail::at_most_likely(std::move(at));
  // The control is brought to the rate at the ends of the band too.
  if (point.answer.solution.usable()) point.answer.viscosity_band = over_viscosity_band(layout);
  const Answer& a = point.answer;
  if (!a.solution.usable()) throw IllPosedError(a.solution.message);
  point.delivered = a.evenness.total_flow;
  point.reached = std::abs(point.delivered - point.wanted) <= OperatingPoint::rate_tolerance * point.wanted;
  if (!point.reached) {
    if (!point.held) {
      point.answer.evenness.cautions.push_back(rate_not_reached(state.stop, point.delivered, point.wanted));
    }
    point.stop =
        point.held ? "the layout holds the control at a setting that gives another total" : reason(state, layout);
  }

  LimitView view{.toolbar = toolbar,
                 .job = a.layout.job,
                 .liquid = a.liquid,
                 .rows = a.plumbing,
                 .rows_solution = a.solution,
                 .evenness = a.evenness};
  if (!driven) {
    point.setting = a.evenness.supply_pressure;
    point.limits = find_limits(view);
    sort_by_margin(point.limits);
    return point;
  }
  const Drive& given = *std::get<Toolbar>(a.layout.plumbing).drive;
  point.setting = *given.setting;
  const Drive drive = with_setting(given, point.setting);
  point.duty = pump_duty(a.plumbing, a.solution, drive, a.liquid);
  point.duty->reserve = solver.reserve(a.evenness.supply_pressure, point.delivered);
  view.drive = &drive;
  view.drive_plumbing = &a.plumbing;
  view.drive_solution = &a.solution;
  view.duty = &*point.duty;
  point.limits = find_limits(view);
  for (Limit& l : control_limits(point.control, point.setting, point.settings, point.unit)) {
    point.limits.push_back(std::move(l));
  }
  sort_by_margin(point.limits);
  return point;
}

}  // namespace libflow
