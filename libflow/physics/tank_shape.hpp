// SPDX-License-Identifier: MIT
/// @file
/// Tanks: volume and free surface against level for upright, horizontal and elliptical cylinders.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// What stands in a tank up to a level, and how it grows with the level.
template <class S>
struct Filling {
  S volume;   ///< [m3]
  S surface;  ///< free surface, d(volume)/d(level) [m2]
};

/// Upright cylinder or box of any plan.
/// @param plan   area of its plan [m2], > 0
/// @param level  above the bottom [m], >= 0
template <class S>
[[nodiscard]] Filling<S> upright_filling(const S& plan, const S& level) {
  return {S(plan * level), plan};
}

/// Lying cylinder of elliptical section with flat ends; equal height and width: of circular section.
///   area = (w h / 4) [acos(1 - 2y/h) - (1 - 2y/h) sqrt(1 - (1 - 2y/h)^2)],
/// the circular segment stretched to the width. The square root is taken of (2y/h)(2 - 2y/h): nothing cancels.
/// @param height, width, length  inside [m], > 0
/// @param level                  y, above the bottom [m], 0 to height
/// Source: circular segment, any table of mensuration (e.g. Perry's Chemical Engineers' Handbook, section 10, partially
/// filled horizontal tanks; from memory); checked against an open package's geometry functions.
template <class S>
[[nodiscard]] Filling<S> lying_filling(const S& height, const S& width, const S& length, const S& level) {
  using std::acos;
  using std::sqrt;
  const S t = S(2.0) * level / height;  // 0 to 2
  const S chord = sqrt(S(t * (S(2.0) - t)));
  const S segment = acos(S(S(1.0) - t)) - (S(1.0) - t) * chord;
  return {S(width * height / S(4.0) * segment * length), S(width * chord * length)};
}

}  // namespace libflow::physics
