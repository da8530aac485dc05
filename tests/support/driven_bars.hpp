// SPDX-License-Identifier: MIT
/// @file
/// A bar with tank and pump, for tests that change one thing at a time.
#pragma once

#include <string>

#include <libflow/toolbar.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow::test {

/// A lying tank, 2 m of suction hose, a centrifugal pump and 3 m of delivery hose; the control is the pump's speed.
inline Drive plain_drive() {
  Drive d;
  DriveTank tank;
  tank.tank.shape = LyingTank::round(1.2 * m, 2.0 * m);
  tank.level = 0.6 * m;
  tank.height = 0.9 * m;
  d.tanks = {tank};
  d.suction = {.length = 2.0 * m, .bore = 38.0 * mm};
  d.pump = CentrifugalPump{.shutoff = 4.0 * bar, .free_flow = 60.0 * L_per_min};
  d.pump_height = 0.5 * m;
  d.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  return d;
}

/// The same with everything that a drive can have, moved by `control`.
inline Drive full_drive(DriveControl control) {
  Drive d = plain_drive();
  d.control = control;
  // Wide enough as a control to let the whole pump back.
  const Length passage = control == DriveControl::relief ? 16.0 * mm : 8.0 * mm;
  d.relief = ReliefValve{.set = 5.0 * bar, .passage_bore = passage};
  d.bypass = Valve{.kv = from_si<Flow>(2.0 / 3600.0), .bore = 20.0 * mm, .open = 0.2};
  d.agitation = Orifice{.bore = 3.0 * mm};
  d.meter =
      FlowMeter{.bore = 20.0 * mm, .rated_flow = 20.0 * L_per_min, .rated_loss = 5.0 * kPa, .most = 60.0 * L_per_min};
  d.throttle = Valve{.kv = from_si<Flow>(4.0 / 3600.0), .bore = 20.0 * mm};
  d.section_valve = Valve{.kv = from_si<Flow>(6.0 / 3600.0), .bore = 20.0 * mm};
  if (control == DriveControl::regulator) d.regulator = PressureRegulator{.set = 1.0 * bar, .passage_bore = 8.0 * mm};
  if (control == DriveControl::pulse) d.pulse = PulsedValve{.passage_bore = 4.0 * mm};
  return d;
}

inline constexpr DriveControl every_control[] = {DriveControl::pump_speed, DriveControl::regulator,
                                                 DriveControl::relief,     DriveControl::bypass,
                                                 DriveControl::throttle,   DriveControl::pulse};

/// Eight rows with check valves and the drive.
inline Layout driven_layout(Drive drive) {
  Layout layout;
  layout.name = "driven bar";
  layout.job = plain_job();
  layout.job.liquid = find_liquid("water");
  Toolbar bar = plain_bar(8);
  bar.check_valve = plain_valve();
  bar.orifice = OrificeByBore{.bore = 1.8 * mm};
  bar.drive = std::move(drive);
  layout.plumbing = std::move(bar);
  return layout;
}

}  // namespace libflow::test
