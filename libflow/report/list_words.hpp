// SPDX-License-Identifier: MIT
/// @file
/// Words for lists and times: rows that follow each other, durations, row spacing, distances.
#pragma once

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/words.hpp>

namespace libflow::report_detail {

/// "row 4", "rows 1 to 16", "rows 1, 3 to 5"; empty for none.
inline std::string row_list_text(const std::vector<int>& rows) {
  if (rows.empty()) return {};
  std::string text = rows.size() == 1 ? "row " : "rows ";
  for (std::size_t i = 0; i < rows.size();) {
    std::size_t last = i;
    while (last + 1 < rows.size() && rows[last + 1] == rows[last] + 1) ++last;
    if (i > 0) text += ", ";
    text += fmt::format("{}", rows[i]);
    if (last == i + 1) text += fmt::format(", {}", rows[last]);
    if (last > i + 1) text += fmt::format(" to {}", rows[last]);
    i = last + 1;
  }
  return text;
}

/// "0.13 s", "35 s", "12.5 min", "4 h 39 min"; "-" where there is none.
inline std::string duration_text(double seconds) {
  if (!std::isfinite(seconds)) return "-";
  if (seconds == 0.0) return "0 s";
  if (seconds < 1.0) return fmt::format("{:.2f} s", seconds);
  if (seconds < 10.0) return fmt::format("{:.1f} s", seconds);
  if (seconds < 119.5) return fmt::format("{:.0f} s", seconds);
  if (seconds < 89.5 * 60.0) return fmt::format("{:.1f} min", seconds / 60.0);
  const double minutes = std::round(seconds / 60.0);
  return fmt::format("{:.0f} h {:.0f} min", std::floor(minutes / 60.0), std::fmod(minutes, 60.0));
}

/// "30 in", "76.2 cm".
inline std::string spacing_text(Length spacing, UnitSystem units) {
  return units == UnitSystem::us ? fmt::format("{:.4g} in", si(spacing) / si(units::inch))
                                 : fmt::format("{:.4g} cm", 100.0 * si(spacing));
}

/// "1 hose", "2 hoses".
inline std::string counted(std::size_t count, std::string_view one, std::string_view more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

}  // namespace libflow::report_detail
