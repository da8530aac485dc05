// SPDX-License-Identifier: MIT
#include <libflow/toolbar/drive.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

Range setting_range(const Drive& d) {
  Range range = allowed_settings(d.control);
  if (d.control == DriveControl::pump_speed) range.high = 1.0;
  if (d.control == DriveControl::pulse && d.pulse) {
    // A pulse shorter than the opening lag never opens the valve.
    const double opens = si(d.pulse->opening_lag) * d.pulse->frequency + 2.0 * PulsedValve::duty_range.low;
    range.low = std::max({range.low, d.pulse->least_usable_duty, opens});
  }
  if (d.control == DriveControl::relief && d.relief) range.high = std::min(range.high, si(d.relief->set));
  if (d.least) range.low = *d.least;
  if (d.most) range.high = *d.most;
  return range;
}

Drive with_setting(Drive d, double setting) {
  const auto needed = [&](auto& part, std::string_view what) -> auto& {
    if (!part) {
      throw InputError("drive, control", fmt::format("is the {}, but there is no {}", name_of(d.control), what),
                       fmt::format("a {}, or another control", what));
    }
    return *part;
  };
  require_in(fmt::format("drive, {}", name_of(d.control)), setting, allowed_settings(d.control),
             is_pressure(d.control) ? "Pa" : "");
  switch (d.control) {
    case DriveControl::pump_speed:
      if (auto* centrifugal = std::get_if<CentrifugalPump>(&d.pump)) centrifugal->speed *= setting;
      if (auto* curve = std::get_if<PumpCurve>(&d.pump)) curve->speed *= setting;
      if (auto* positive = std::get_if<PositivePump>(&d.pump)) positive->rpm *= setting;
      if (auto* ground = std::get_if<GroundDrivenPump>(&d.pump)) {
        ground->displacement = setting * ground->displacement;
      }
      break;
    case DriveControl::regulator:
      needed(d.regulator, "pressure regulator").set = from_si<Pressure>(setting);
      break;
    case DriveControl::relief:
      needed(d.relief, "relief valve").set = from_si<Pressure>(setting);
      break;
    case DriveControl::bypass:
      needed(d.bypass, "bypass valve").open = setting;
      break;
    case DriveControl::throttle:
      needed(d.throttle, "throttle valve").open = setting;
      break;
    case DriveControl::pulse:
      needed(d.pulse, "pulsed valve").duty = setting;
      break;
  }
  d.setting = setting;
  return d;
}

std::string tank_name(const Drive& d, std::size_t k) {
  if (!d.tanks[k].id.empty()) return d.tanks[k].id;
  return d.tanks.size() == 1 ? "tank" : fmt::format("tank {}", k + 1);
}

void check(const Drive& d) {
  if (d.tanks.empty() || d.tanks.size() > drive_limits::tanks) {
    throw InputError("drive, tanks", fmt::format("{} tanks", d.tanks.size()),
                     fmt::format("1 to {} tanks", drive_limits::tanks));
  }
  const auto line = [](std::string_view where, Length length, Length bore) {
    require_in(fmt::format("{}, length", where), si(length), drive_limits::line, "m");
    require_in(fmt::format("{}, bore", where), si(bore), Hose::bore_range, "m");
  };
  for (std::size_t k = 0; k < d.tanks.size(); ++k) {
    const DriveTank& t = d.tanks[k];
    const std::string where = tank_name(d, k);
    require_in(where + ", height", si(t.height), drive_limits::offset, "m");
    require_in(where + ", ahead", si(t.ahead), drive_limits::offset, "m");
    require_in(where + ", right", si(t.right), drive_limits::offset, "m");
    line(where + ", line", t.line_length, t.line_bore);
    if (d.tanks.size() > 1 && si(t.line_length) == 0.0) {
      throw InputError(where + ", line length", "0 m with more than one tank",
                       "more than 0 m for each tank, so that the flow between them is known");
    }
  }
  line("suction, line", d.suction.length, d.suction.bore);
  line("delivery, line", d.delivery.length, d.delivery.bore);
  require_in("pump, height", si(d.pump_height), drive_limits::offset, "m");
  require_in("drive, suction velocity", si(d.suction_velocity), drive_limits::velocity, "m/s");
  require_in("drive, delivery velocity", si(d.delivery_velocity), drive_limits::velocity, "m/s");
  if (d.suction_limit) {
    require_in("drive, suction limit", si(*d.suction_limit), drive_limits::suction_pressure, "Pa");
  }
  const std::string_view unit = is_pressure(d.control) ? "Pa" : "";
  const Range range = setting_range(d), allowed = allowed_settings(d.control);
  require_in("drive, least setting", range.low, allowed, unit);
  require_in("drive, most setting", range.high, {range.low, allowed.high}, unit);
  if (d.setting) require_in("drive, setting", *d.setting, allowed, unit);
  (void)with_setting(d, range.high);  // the part that the control moves is there
}

}  // namespace libflow
