// SPDX-License-Identifier: MIT
/// @file
/// What the last digits of a double cannot tell: the smallest drops and flows that residuals are held against.
#pragma once

#include <cmath>

namespace libflow {

/// Where everything stands still, residuals are held against these instead of against nothing.
inline constexpr double least_drop = 1e-9;   ///< [Pa]
inline constexpr double least_flow = 1e-18;  ///< [m3/s], a cubic micrometre a second

/// By how much a drop between potentials `a` and `b` held against a pressure `c` may be off through rounding [Pa].
[[nodiscard]] inline double pressure_rounding(double a, double b, double c) {
  return 2e-15 * (std::abs(a) + std::abs(b) + std::abs(c));
}

}  // namespace libflow
