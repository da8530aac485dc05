// SPDX-License-Identifier: MIT
#include <libflow/report/path_svg.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/explain_text.hpp>
#include <libflow/report/markup.hpp>

namespace libflow {

namespace report_detail {

/// A round step for about four marks up to `most`.
static double round_step(double most) {
  const double rough = most / 4.0;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * power >= rough) return factor * power;
  }
  return 10.0 * power;
}

/// What a part is called under the picture: of a row and of a bar the same for every row.
static std::string part_label(const std::string& id) {
  if (id.starts_with("row ")) {
    const std::size_t after = id.find(' ', 4);
    return after == std::string::npos ? id : "row's" + id.substr(after);
  }
  if (const std::size_t bar = id.rfind(" bar "); bar != std::string::npos) return id.substr(0, bar);
  if (id.ends_with("feed hose")) return "feed hose";
  constexpr std::size_t most = 18;
  if (columns(id) <= most) return id;
  std::string cut = id;
  while (columns(cut) >= most) {  // whole characters
    while ((static_cast<unsigned char>(cut.back()) & 0xC0U) == 0x80U) cut.pop_back();
    cut.pop_back();
  }
  return cut + ".";
}

/// The kind where one stretch alone is of it; otherwise what tells it from the others.
static std::string stretch_label(const PathStretch& s, const std::vector<PathStretch>& all) {
  const auto same = std::count_if(all.begin(), all.end(), [&](const PathStretch& o) { return o.kind == s.kind; });
  if (same < 2) return s.kind;
  const std::string first = part_label(s.first), last = part_label(s.last);
  return first == last ? first : first + " ... " + last;
}

}  // namespace report_detail

std::string path_svg(const Answer& answer, UnitSystem units) {
  using namespace report_detail;
  const Evenness& e = answer.evenness;
  struct Way {
    int row;
    double start;
    std::vector<PathStretch> parts;
  };
  std::vector<Way> ways;
  for (const int row : {e.highest_row, e.lowest_row}) {
    if (row == 0 || (!ways.empty() && ways.front().row == row)) continue;
    const RowPath path = path_to_row(answer, row);
    ways.push_back({row, answer.solution.places[path.supply].total_pressure, stretches(answer, path)});
  }
  if (ways.empty()) return {};
  double high = 0.0, low = 0.0;
  std::size_t most_parts = 1;
  const Way* longest = &ways.front();
  for (const Way& w : ways) {
    high = std::fmax(high, w.start);
    for (const PathStretch& p : w.parts) {
      high = std::fmax(high, p.after);
      low = std::fmin(low, p.after);
    }
    if (w.parts.size() > most_parts) longest = &w;
    most_parts = std::max(most_parts, w.parts.size());
  }
  constexpr double left = 46, right = 340, top = 34, bottom = 190;
  const double unit = value_in(from_si<Pressure>(1.0), units);
  const double span = std::fmax(high - low, 1.0);
  const auto y = [&](double pressure) { return bottom - (bottom - top) * (pressure - low) / span; };
  const auto x = [&](std::size_t k, std::size_t of) {
    return left + (right - left) * static_cast<double>(k) / static_cast<double>(std::max<std::size_t>(1, of));
  };
  std::string s;
  const double step = round_step(span * unit);
  const auto last_mark = static_cast<long>(std::floor(high * unit * 1.0001 / step));
  for (auto k = static_cast<long>(std::ceil(low * unit / step)); k <= last_mark; ++k) {
    const double mark_at = static_cast<double>(k) * step;
    s += svg_line(left, y(mark_at / unit), right, y(mark_at / unit), "class=\"grid\"");
    s += svg_text(left - 5, y(mark_at / unit) + 4, fmt::format("{:g}", mark_at + 0.0),
                  "text-anchor=\"end\" class=\"small\"");
  }
  s += svg_text(left - 40, 12, fmt::format("pressure [{}]", unit_name<Pressure>(units)));
  for (std::size_t w = 0; w < ways.size(); ++w) {
    const Way& way = ways[w];
    // The second way stands a little to the right, so that it is seen where both lose the same.
    const double aside = w == 0 ? 0.0 : 5.0;
    const auto at = [&](std::size_t k) { return x(k, way.parts.size()) + aside; };
    std::string points = fmt::format("{:.1f},{:.1f}", at(0), y(way.start));
    std::string marks;
    const auto add_mark = [&](double px, double py) {
      marks += w == 0 ? fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3.5\" class=\"most\"/>\n", px, py)
                      : svg_box(px - 3, py - 3, 6, 6, "class=\"least\"");
    };
    add_mark(at(0), y(way.start));
    for (std::size_t k = 0; k < way.parts.size(); ++k) {
      points += fmt::format(" {:.1f},{:.1f}", at(k + 1), y(way.parts[k].after));
      add_mark(at(k + 1), y(way.parts[k].after));
    }
    s += fmt::format("<polyline points=\"{}\" class=\"{}\"/>\n", points, w == 0 ? "way most" : "way least");
    s += marks;
    const double legend = 130.0 + 110.0 * static_cast<double>(w);
    s += svg_line(legend, 9, legend + 22, 9, w == 0 ? "class=\"way most\"" : "class=\"way least\"");
    s += w == 0 ? fmt::format("<circle cx=\"{:.1f}\" cy=\"9\" r=\"3.5\" class=\"most\"/>\n", legend + 11)
                : svg_box(legend + 8, 6, 6, 6, "class=\"least\"");
    s += svg_text(legend + 27, 13, fmt::format("row {} ({})", way.row, w == 0 ? "most" : "least"));
  }
  double lowest = 62.0;  // a label reaches down by the sine of 35 degrees, some 5 px a letter
  for (const PathStretch& p : longest->parts) {
    const double letters = static_cast<double>(columns(stretch_label(p, longest->parts)));
    lowest = std::fmax(lowest, 24.0 + 5.0 * letters * 0.574);
  }
  for (std::size_t k = 0; k < longest->parts.size(); ++k) {
    const double middle = 0.5 * (x(k, longest->parts.size()) + x(k + 1, longest->parts.size()));
    s += svg_text(middle + 4, bottom + 14, stretch_label(longest->parts[k], longest->parts),
                  fmt::format("text-anchor=\"end\" class=\"small\" transform=\"rotate(-35 {:.1f} {:.1f})\"", middle + 4,
                              bottom + 14));
  }
  return svg_picture(352, bottom + lowest, "Pressure along the way to the rows that get most and least", s);
}

}  // namespace libflow
