// SPDX-License-Identifier: MIT
/// @file
/// The faults that are tried, how large each is, and what an operator's instruments show.
#pragma once

#include <string_view>

#include <libflow/core/range.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// What can go wrong.
enum class Fault {
  row_plugged,
  orifice_missing,
  hose_kinked,
  hose_half_bore,
  section_shut,
  strainer_blocked,
  tank_empty,
  colder,
  side_slope,
  pump_worn
};

/// A word for programs, e.g. "row-plugged".
[[nodiscard]] constexpr std::string_view name_of(Fault fault) {
  switch (fault) {
    case Fault::row_plugged:
      return "row-plugged";
    case Fault::orifice_missing:
      return "orifice-missing";
    case Fault::hose_kinked:
      return "hose-kinked";
    case Fault::hose_half_bore:
      return "hose-half-bore";
    case Fault::section_shut:
      return "section-shut";
    case Fault::strainer_blocked:
      return "strainer-blocked";
    case Fault::tank_empty:
      return "tank-empty";
    case Fault::colder:
      return "colder";
    case Fault::side_slope:
      return "side-slope";
    case Fault::pump_worn:
      return "pump-worn";
  }
  return "unknown";
}

/// How large each fault is, and what the operator's instruments show. The sizes are common practice, no source.
struct WhatIfOptions {
  int row = 0;                  ///< the row at fault, 1-based; 0: an open row in the middle
  double kink_left = 0.05;      ///< of the hose's area at a kink, more than 0, at most 1
  double bore_left = 0.5;       ///< of the bore of a hose that is too narrow, 0.1 to 1
  double screen_blocked = 0.5;  ///< of what is still open of a strainer's screen, 0 to 0.99
  double colder = 20.0;         ///< [K], 0 to 100; at most to where the product's data end, it salts out or freezes
  double side_slope = 0.10;     ///< rise over run, right end up; on top of the layout's own, -0.5 to 0.5
  double pump_wear = 0.15;      ///< of the gain (centrifugal, curve) or of the swept flow (positive), 0 to 0.9
  double pump_reach = 1.5;  ///< free form: the controller can turn a pump up to this times its present speed, 1 to 3
  /// Smallest change that is seen on the pressure gauge: 2 psi, a fiftieth of a 100 psi dial (common practice, no
  /// source); 0 to 10 MPa.
  Pressure gauge_step = from_si<Pressure>(2.0 * 6894.757293168);
  double meter_step = 0.02;  ///< smallest change that is seen on the flow meter, of its reading (common practice,
                             ///< no source); 0 to 1

  /// @throws InputError naming the field
  void check() const {
    require_in("what if, kink left", kink_left, {1e-4, 1.0}, "");
    require_in("what if, bore left", bore_left, {0.1, 1.0}, "");
    require_in("what if, screen blocked", screen_blocked, {0.0, 0.99}, "");
    require_in("what if, colder", colder, {0.0, 100.0}, "K");
    require_in("what if, side slope", side_slope, {-0.5, 0.5}, "");
    require_in("what if, pump wear", pump_wear, {0.0, 0.9}, "");
    require_in("what if, pump reach", pump_reach, {1.0, 3.0}, "");
    require_in("what if, gauge step", si(gauge_step), {0.0, 1e7}, "Pa");
    require_in("what if, meter step", meter_step, {0.0, 1.0}, "");
  }
};

}  // namespace libflow
