// SPDX-License-Identifier: MIT
/// @file
/// Text inside HTML and SVG, and the small pieces that pages and pictures are made of.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

namespace libflow::report_detail {

/// Text inside an element or an attribute. Control characters, which XML does not allow at all, become spaces.
std::string xml_text(std::string_view text);

/// One piece of text in a picture. @param rest  further attributes
std::string svg_text(double x, double y, std::string_view text, std::string_view rest = {});
std::string svg_line(double x1, double y1, double x2, double y2, std::string_view rest = {});
std::string svg_box(double x, double y, double width, double height, std::string_view rest = {});

/// A picture inside a page. It takes its colours from the page (class names) and its text grows with it.
/// @param title  what a reader who does not see the picture is told
std::string svg_picture(double width, double height, std::string_view title, std::string_view content);

/// A table of a page: headings of columns, then rows; the first column names the row.
class HtmlTable {
 public:
  /// A cell that is filled in by hand.
  static constexpr std::string_view blank = "____";

  /// @param words  true: words, to the left; false: numbers, to the right
  void column(std::string heading, bool words = false) { columns_.emplace_back(std::move(heading), words); }
  void line(std::vector<std::string> cells) { lines_.push_back(std::move(cells)); }

  [[nodiscard]] std::string html(std::string_view caption = {}) const {
    std::string out = "<div class=\"wide\" tabindex=\"0\"><table>\n";
    if (!caption.empty()) out += fmt::format("<caption>{}</caption>\n", xml_text(caption));
    out += "<thead><tr>";
    for (const auto& [heading, words] : columns_) {
      out += fmt::format("<th scope=\"col\"{}>{}</th>", words ? " class=\"words\"" : "", xml_text(heading));
    }
    out += "</tr></thead>\n<tbody>\n";
    for (const auto& line : lines_) {
      out += "<tr>";
      for (std::size_t c = 0; c < columns_.size(); ++c) {
        const bool by_hand = c < line.size() && line[c] == blank;
        const std::string text = c < line.size() && !by_hand ? xml_text(line[c]) : std::string();
        const char* const kind = by_hand ? " class=\"fill\"" : columns_[c].second ? " class=\"words\"" : "";
        out +=
            c == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", kind, text) : fmt::format("<td{}>{}</td>", kind, text);
      }
      out += "</tr>\n";
    }
    return out + "</tbody></table></div>\n";
  }

 private:
  std::vector<std::pair<std::string, bool>> columns_;
  std::vector<std::vector<std::string>> lines_;
};

/// A part of a page under its heading.
std::string section(std::string_view id, std::string_view heading, std::string_view content);
std::string paragraph(std::string_view text);

}  // namespace libflow::report_detail
