// SPDX-License-Identifier: MIT
/// @file
/// Small pieces of text that reports are made of: wrapped lines, per cent, bars, a table that fits its columns.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/units/quote.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// How a text report is written.
struct TextOptions {
  std::optional<UnitSystem> units = std::nullopt;  ///< empty: as the layout asks
  bool colour = false;      ///< terminal colours for the verdict and the marks; never the only sign
  std::size_t width = 100;  ///< columns, at least 80
};

namespace report_detail {

/// A residual: one digit, or that it is no more than rounding.
inline std::string residual(double r) { return r < 1e-15 ? std::string("rounding") : fmt::format("{:.0e}", r); }

/// Columns that a text takes on a terminal; every character of a report takes one.
inline std::size_t columns(std::string_view text) {
  std::size_t n = 0;
  for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return n;
}

/// Columns of the widest line of a text.
inline std::size_t widest_line(std::string_view text) {
  std::size_t widest = 0;
  for (;;) {
    const std::size_t end = text.find('\n');
    widest = std::max(widest, columns(text.substr(0, end)));
    if (end == std::string_view::npos) return widest;
    text.remove_prefix(end + 1);
  }
}

inline std::string padded(std::string_view text, std::size_t width, bool right) {
  const std::size_t has = columns(text);
  const std::string space(width > has ? width - has : 0, ' ');
  return right ? space + std::string(text) : std::string(text) + space;
}

/// `text` in lines of at most `width` columns, broken at spaces. The first line begins with `lead`, the others with as
/// many spaces as `indent`.
inline std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0,
                           std::string_view lead = {}) {
  std::string out(lead);
  std::size_t at = columns(lead);
  bool fresh = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    const std::size_t wide = columns(word);
    if (!fresh && at + 1 + wide > width) {
      out += "\n" + std::string(indent, ' ');
      at = indent;
    } else if (!fresh) {
      out += ' ';
      ++at;
    }
    out += word;
    at += wide;
    fresh = false;
    if (space == std::string_view::npos) break;
    text.remove_prefix(space + 1);
  }
  return out + "\n";
}

/// 0.0634 as "6.3 %"; small numbers keep two digits that say something.
inline std::string percent(double fraction) {
  const double p = 100.0 * fraction;
  if (std::abs(p) < 0.005) return "0.00 %";
  return fmt::format("{:.{}f} %", p, std::abs(p) < 0.995 ? 2 : 1);
}
/// The same with its sign and without its mark, for a column headed %.
inline std::string signed_percent(double fraction) {
  const std::string text = fmt::format("{:+.1f}", 100.0 * fraction);
  return text == "-0.0" || text == "+0.0" ? "0.0" : text;
}

/// A deviation as a bar around a middle line: "   ===|      ". `full` fills half of it; longer ones end in '<' or '>'.
inline std::string deviation_bar(double deviation, double full, std::size_t half = 6) {
  std::string bar(2 * half + 1, ' ');
  bar[half] = '|';
  const double cells = full > 0.0 ? std::abs(deviation) / full * static_cast<double>(half) : 0.0;
  const auto n = static_cast<std::size_t>(std::lround(std::fmin(cells, static_cast<double>(half))));
  for (std::size_t i = 1; i <= n; ++i) bar[deviation < 0.0 ? half - i : half + i] = '=';
  return bar;
}

enum class Colour { none, good, bad, strong };
inline std::string coloured(std::string_view text, Colour colour, const TextOptions& options) {
  if (!options.colour || colour == Colour::none) return std::string(text);
  const char* const code = colour == Colour::good ? "1;32" : colour == Colour::bad ? "1;31" : "1";
  return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

/// A name from a file in quotes, safe to print.
inline std::string name_text(std::string_view name) { return in_quotes(name, 60); }

/// Columns of text under headings of one or more lines (split at '\n'); numbers to the right, words to the left.
class Table {
 public:
  enum class Align { left, right };

  void column(std::string heading, Align align = Align::right) {
    heads_.push_back(std::move(heading));
    aligns_.push_back(align);
  }
  [[nodiscard]] std::size_t column_count() const { return heads_.size(); }
  void line(std::vector<std::string> cells) { lines_.push_back(std::move(cells)); }

  [[nodiscard]] std::string text() const {
    std::size_t head_lines = 1;
    std::vector<std::vector<std::string>> heads;
    std::vector<std::size_t> widths;
    for (std::size_t c = 0; c < heads_.size(); ++c) {
      heads.push_back(split(heads_[c]));
      head_lines = std::max(head_lines, heads[c].size());
      std::size_t width = 0;
      for (const auto& h : heads[c]) width = std::max(width, columns(h));
      for (const auto& l : lines_) width = std::max(width, c < l.size() ? columns(l[c]) : 0);
      widths.push_back(width);
    }
    std::string out;
    for (std::size_t h = 0; h < head_lines; ++h) {
      std::vector<std::string> cells;
      for (const auto& head : heads) {
        const std::size_t skip = head_lines - head.size();
        cells.push_back(h < skip ? std::string() : head[h - skip]);
      }
      out += row(cells, widths);
    }
    for (const auto& l : lines_) out += row(l, widths);
    return out;
  }

 private:
  static std::vector<std::string> split(const std::string& text) {
    std::vector<std::string> parts;
    std::size_t at = 0;
    for (;;) {
      const std::size_t end = text.find('\n', at);
      parts.push_back(text.substr(at, end - at));
      if (end == std::string::npos) return parts;
      at = end + 1;
    }
  }
  [[nodiscard]] std::string row(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) const {
    std::string out;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      out += (c == 0 ? " " : "  ") + padded(cells[c], widths[c], aligns_[c] == Align::right);
    }
    out.erase(out.find_last_not_of(' ') + 1);
    return out + "\n";
  }

  std::vector<std::string> heads_;
  std::vector<Align> aligns_;
  std::vector<std::vector<std::string>> lines_;
};

}  // namespace report_detail
}  // namespace libflow
