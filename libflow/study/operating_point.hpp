// SPDX-License-Identifier: MIT
/// @file
/// The operating point: the control's setting that gives the wanted rate, what the pump then does, what every row gets,
/// and how near every limit is. Where the rate cannot be reached: what can, and what stops it.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/study/limits.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_state.hpp>

namespace libflow {

/// A toolbar at work. SI.
struct OperatingPoint {
  Answer answer;         ///< at `setting`: every row, every part
  bool reached = false;  ///< the wanted total is delivered, to `rate_tolerance`
  bool held = false;     ///< the layout holds the control: nothing was searched
  std::string control;   ///< "pump speed", "supply pressure" ...
  std::string unit;      ///< of the setting: "Pa", or "1" for a share
  double setting = 0;
  Range settings;                ///< what the control can be; its end may be infinite
  double wanted = 0;             ///< total [m3/s]
  double delivered = 0;          ///< total [m3/s]
  std::string stop;              ///< where not reached: what stops it, in words; empty where reached
  std::optional<PumpDuty> duty;  ///< where the layout has a drive
  Limits limits;                 ///< least margin first

  static constexpr double rate_tolerance = 1e-6;  ///< of the wanted total [-]

  /// True when the rate is reached and no limit that stops it is broken.
  [[nodiscard]] bool runs() const {
    if (!reached) return false;
    const Limit* l = binding_limit(limits, true);
    return l == nullptr || !l->broken();
  }
};

/// The layout with its control held at a setting: the supply's pressure [Pa], or of its drive (toolbar/drive.hpp).
/// @throws InputError for a free-form layout whose supply is not held at a pressure
[[nodiscard]] inline Layout with_setting(Layout layout, double setting) {
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

/// The answer with the control held at a setting, e.g. after a change that the operator does not correct.
/// @throws InputError, IllPosedError as main_job
[[nodiscard]] inline Answer at_setting(Layout layout, double setting) {
  return main_job(with_setting(std::move(layout), setting));
}

namespace operating_detail {

/// Why the wanted total is not reached, in words.
inline std::string reason(const OperatingState& state) {
  if (state.stop == "pump and lines") {
    return "the pump cannot bring enough pressure through its lines to the gauge: the regulator is wide open";
  }
  if (state.stop == "pump limit") return "the supply cannot give the pressure that the rows need";
  if (state.stop == "no answer") return "the rows have no answer at the wanted rate: " + state.rows.message;
  return fmt::format("the control is at the end of its range ({})", state.stop);
}

}  // namespace operating_detail

/// Finds the operating point at the job's rate, speed and temperature. The control is the drive's; without a drive it
/// is the supply's pressure with job.pump_limit as its limit. A control that the layout holds (drive.setting,
/// job.pressure) stays where it is.
/// @throws InputError, IllPosedError as main_job; InputError for a free-form layout whose supply is not fed
[[nodiscard]] inline OperatingPoint operating_point(const Layout& layout) {
  using namespace operating_detail;
  OperatingPoint point;
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  const bool driven = toolbar != nullptr && toolbar->drive;
  point.control = driven ? std::string(name_of(toolbar->drive->control)) : "supply pressure";
  point.unit = driven && !is_pressure(toolbar->drive->control) ? "1" : "Pa";
  point.settings = control_range(layout);
  point.held = driven ? toolbar->drive->setting.has_value() : layout.job.pressure.has_value();

  OperatingSolver solver(layout);
  const OperatingState state = solver.at(layout.job.rate, layout.job.speed);
  if (!state.solved) throw IllPosedError(reason(state));
  point.wanted = state.wanted;
  Layout at = layout;
  if (!point.held && (driven || !state.reached)) at = with_setting(std::move(at), state.setting);
  point.answer = main_job(std::move(at));
  const Answer& a = point.answer;
  if (!a.solution.usable()) throw IllPosedError(a.solution.message);
  point.delivered = a.evenness.total_flow;
  point.reached = std::abs(point.delivered - point.wanted) <= OperatingPoint::rate_tolerance * point.wanted;
  if (!point.reached) {
    if (!point.held) {
      point.answer.evenness.cautions.push_back(rate_not_reached(state.stop, point.delivered, point.wanted));
    }
    point.stop = point.held ? "the layout holds the control at a setting that gives another total" : reason(state);
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
