// SPDX-License-Identifier: MIT
/// @file
/// Valid ranges as data, and the check that a number lies in one.
#pragma once

#include <cmath>
#include <limits>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/error.hpp>

namespace libflow {

/// A closed range of numbers [low, high]; infinities mean no limit. Formulas state where they hold with it.
struct Range {
  double low = -std::numeric_limits<double>::infinity();  ///< smallest value allowed
  double high = std::numeric_limits<double>::infinity();  ///< largest value allowed

  /// False for NaN.
  [[nodiscard]] constexpr bool contains(double x) const noexcept { return x >= low && x <= high; }
};

/// Throws InputError unless `value` is finite and within `range`.
/// @param where  the field, e.g. "hose 'row 3', length"
/// @param unit   the unit in which value and range are given, for the message, e.g. "m"
inline void require_in(std::string_view where, double value, Range range, std::string_view unit) {
  if (std::isfinite(value) && range.contains(value)) return;
  const std::string suffix = unit.empty() ? "" : fmt::format(" {}", unit);
  std::string allowed;
  if (std::isinf(range.low) && std::isinf(range.high)) {
    allowed = "a finite number";
  } else if (std::isinf(range.high)) {
    allowed = fmt::format("at least {:.6g}{}", range.low, suffix);
  } else if (std::isinf(range.low)) {
    allowed = fmt::format("at most {:.6g}{}", range.high, suffix);
  } else {
    allowed = fmt::format("{:.6g} to {:.6g}{}", range.low, range.high, suffix);
  }
  const std::string what = std::isnan(value) ? std::string("not a number") : fmt::format("{:.6g}{}", value, suffix);
  throw InputError(std::string(where), what, allowed);
}

}  // namespace libflow
