// SPDX-License-Identifier: MIT
/// @file
/// The limits of a range, as a message gives them.
#pragma once

#include <cmath>
#include <string>

#include <fmt/core.h>

namespace libflow::file_detail {

/// A limit as a person says it: as it is where three digits say it, else two digits, or three where two would be more
/// than 5 % off, rounded into the range so that what is said is allowed ("0.004 to 19 in", not "0.003937 to 19.685
/// in").
[[nodiscard]] inline std::string people_limit(double value, bool low) {
  if (value == 0.0) return "0";
  const double decade = std::pow(10.0, std::floor(std::log10(std::abs(value))));
  const double fine = 0.01 * decade;
  // A limit of few digits must not lose one to the rounding of its unit: 212 °F is computed as 211.9999...
  if (std::abs(value / fine - std::round(value / fine)) < 1e-6)
    return fmt::format("{:.6g}", std::round(value / fine) * fine);
  const auto inside = [&](double step) { return (low ? std::ceil(value / step) : std::floor(value / step)) * step; };
  const double two = inside(0.1 * decade);
  return fmt::format("{:.6g}", std::abs(two - value) < 0.05 * std::abs(value) ? two : inside(fine));
}

}  // namespace libflow::file_detail
