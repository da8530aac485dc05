// SPDX-License-Identifier: MIT
/// @file
/// The tanks of a drive in the toolbar's pictures, to the scale of the bar, and its pump.
#pragma once

#include <string>
#include <vector>

#include <libflow/toolbar/drive.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// A tank as it is drawn. Of an upright tank only the area of its plan is known: it is drawn round. Of one that is
/// known by its dipstick too, as wide as its mean surface. A lying tank is drawn with its axis in the direction of
/// travel.
struct DrawnTank {
  std::string name;                                             ///< its id, or "tank", "tank 1" ...
  double right = 0.0, ahead = 0.0, bottom = 0.0;                ///< [m] of its middle and its inside bottom
  double width = 0.0, length = 0.0, height = 0.0, level = 0.0;  ///< [m]
  bool lying = false;                                           ///< true: a lying tank
  std::string words;                                            ///< name, what it holds and where it stands
};

/// Tanks of a drive as they are drawn.
[[nodiscard]] std::vector<DrawnTank> drawn_tanks(const Drive& drive, UnitSystem units);

/// From behind: outline and liquid. @param x, y  of the middle of its bottom [px]  @param scale  [px/m]
[[nodiscard]] std::string tank_from_behind(const DrawnTank& tank, double x, double y, double scale);
/// From above. @param x, y  of its middle [px]
[[nodiscard]] std::string tank_from_above(const DrawnTank& tank, double x, double y, double scale);

/// The pump of a drive: a circle with a triangle that points the way of the liquid (as in ISO 1219-1, from memory), not
/// to scale. @param x, y  of its middle [px]; the triangle points down
[[nodiscard]] std::string drawn_pump(double x, double y);
/// Half of its width [px].
inline constexpr double pump_radius = 8.0;
/// Which pump it is, with the hose before and behind it. It is drawn aside, wherever it stands.
[[nodiscard]] std::string pump_words(const Drive& drive, UnitSystem units);

}  // namespace libflow
