// SPDX-License-Identifier: MIT
#include <libflow/report/markup.hpp>

#include <string>
#include <string_view>

#include <fmt/core.h>

namespace libflow {

namespace report_detail {

std::string xml_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '&':
        out += "&amp;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

std::string svg_text(double x, double y, std::string_view text, std::string_view rest) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\"{}{}>{}</text>\n", x, y, rest.empty() ? "" : " ", rest,
                     xml_text(text));
}

std::string svg_line(double x1, double y1, double x2, double y2, std::string_view rest) {
  return fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\"{}{}/>\n", x1, y1, x2, y2,
                     rest.empty() ? "" : " ", rest);
}

std::string svg_box(double x, double y, double width, double height, std::string_view rest) {
  return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"{}{}/>\n", x, y, width, height,
                     rest.empty() ? "" : " ", rest);
}

std::string svg_picture(double width, double height, std::string_view title, std::string_view content) {
  return fmt::format(
      "<svg class=\"picture\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-label=\"{}\" "
      "xmlns=\"http://www.w3.org/2000/svg\">\n{}</svg>\n",
      width, height, xml_text(title), content);
}

std::string section(std::string_view id, std::string_view heading, std::string_view content) {
  return fmt::format("<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n", xml_text(id),
                     xml_text(heading), content);
}

std::string paragraph(std::string_view text) { return fmt::format("<p>{}</p>\n", xml_text(text)); }

}  // namespace report_detail

}  // namespace libflow
