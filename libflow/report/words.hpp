// SPDX-License-Identifier: MIT
/// @file
/// Small pieces of text that reports are made of: wrapped lines, per cent, bars, a table that fits its columns.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/units/system.hpp>

namespace libflow {

/// How a text report is written.
struct TextOptions {
  std::optional<UnitSystem> units = std::nullopt;  ///< empty: as the layout asks
  bool colour = false;      ///< terminal colours for the verdict and the marks; never the only sign
  std::size_t width = 100;  ///< columns, at least 80
};

namespace report_detail {

/// How small a residual is, in words: "rounding", "a billionth", "a millionth", "0.3 %".
std::string residual(double r);

/// A number's text, where it would need an exponent as "< 0.0001": nobody reads 8.9e-06.
std::string without_exponent(std::string number);

/// Columns that a text takes on a terminal; every character of a report takes one.
std::size_t columns(std::string_view text);

/// Columns of the widest line of a text.
std::size_t widest_line(std::string_view text);

std::string padded(std::string_view text, std::size_t width, bool right);

/// `text` in lines of at most `width` columns, broken at spaces. The first line begins with `lead`, the others with as
/// many spaces as `indent`.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0, std::string_view lead = {});

/// 0.0634 as "6.3 %"; small numbers keep two digits that say something.
std::string percent(double fraction);
/// The same with its sign and without its mark, for a column headed %.
std::string signed_percent(double fraction);

/// A deviation as a bar around a middle line: "   ===|      ". `full` fills half of it; longer ones end in '<' or '>'.
std::string deviation_bar(double deviation, double full, std::size_t half = 6);

enum class Colour { none, good, bad, strong };
std::string coloured(std::string_view text, Colour colour, const TextOptions& options);

/// A name from a file in quotes, safe to print.
std::string name_text(std::string_view name);
/// The same without the quotes, at most `most` characters.
std::string safe_text(std::string_view text, std::size_t most);

/// With what a catch test is done, in which order: one advice for the setting card and for the catch sheet.
std::string catch_liquid_advice();

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
