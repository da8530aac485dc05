// SPDX-License-Identifier: MIT
#include <libflow/report/list_words.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/words.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

std::string row_list_text(const std::vector<int>& rows) {
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

std::string rows_in_words(const std::vector<int>& rows) {
  return rows.size() == 2 ? fmt::format("rows {} and {}", rows[0], rows[1]) : row_list_text(rows);
}

std::string duration_text(double seconds) {
  if (!std::isfinite(seconds)) return "-";
  if (seconds == 0.0) return "0 s";
  if (seconds < 1.0) return fmt::format("{:.2f} s", seconds);
  if (seconds < 10.0) return fmt::format("{:.1f} s", seconds);
  if (seconds < 119.5) return fmt::format("{:.0f} s", seconds);
  if (seconds < 89.5 * 60.0) return fmt::format("{:.1f} min", seconds / 60.0);
  const double minutes = std::round(seconds / 60.0);
  return fmt::format("{:.0f} h {:.0f} min", std::floor(minutes / 60.0), std::fmod(minutes, 60.0));
}

std::string spacing_text(Length spacing, UnitSystem units) {
  return units == UnitSystem::us ? fmt::format("{:.4g} in", si(spacing) / si(units::inch))
                                 : fmt::format("{:.4g} cm", 100.0 * si(spacing));
}

std::vector<std::string> name_lines(const std::string& text, std::size_t most) {
  std::vector<std::string> lines;
  std::string rest = wrapped(text, most, 2);
  while (!rest.empty()) {
    const std::size_t end = rest.find('\n');
    std::string line = rest.substr(0, end);
    rest.erase(0, end + 1);
    while (columns(line) > most) {
      std::size_t cut = 0;
      for (std::size_t taken = 0; taken < most; ++taken) {
        ++cut;
        while (cut < line.size() && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) ++cut;
      }
      lines.push_back(line.substr(0, cut));
      line = "  " + line.substr(cut);
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string counted(std::size_t count, std::string_view one, std::string_view more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

}  // namespace report_detail

}  // namespace libflow
