// SPDX-License-Identifier: MIT
/// @file
/// After a stop: does the liquid that stands above the rows' check valves open one of them, and what drips?
#pragma once

#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// What the rows of a stopped toolbar let go. All in SI.
struct StopDribble {
  int row = 0;          ///< whose check valve gives way first, 1-based; 0: no row has one
  double standing = 0;  ///< head of the liquid on that valve [Pa]
  double crack = 0;     ///< that opens the earliest valve of its box [Pa]
  double column = 0;    ///< volume that runs out through it until the rest is held [m3]; 0: all is held
  double trapped = 0;   ///< volume of bars and row hoses between the shut supply and the check valves [m3]
  double relaxed = 0;   ///< of it, what stretched hoses give back down to the crack pressure [m3]; 0: wall not given
  double below = 0;     ///< behind the check valves of all rows, in tubes wide enough to let air climb in [m3]
};

/// A stop with the supply shut off just ahead of the manifolds, which stay full: bars and row hoses are one vessel, up
/// to the highest of their points. What stands higher above a check valve than its crack pressure runs out there if air
/// can get in at the top (hydrostatics; where it cannot, less comes). Feed hoses are not counted.
/// @param pressure  at the supply when the flow stopped, gauge
/// @throws InputError for a toolbar that cannot be
[[nodiscard]] StopDribble stop_dribble(const Toolbar& toolbar, const LiquidState& liquid, Pressure pressure);

/// "dribbles-after-stop" where the standing liquid opens a check valve; else nothing.
[[nodiscard]] Cautions stop_cautions(const Toolbar& toolbar, const LiquidState& liquid, Pressure pressure);

}  // namespace libflow
