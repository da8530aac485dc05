// SPDX-License-Identifier: MIT
#include <libflow/report/toolbar_svg.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/tanks_svg.hpp>

namespace libflow {

namespace report_detail {

/// One row as it is drawn: where it is, where its hose comes from.
struct DrawnRow {
  double x, port_x, height, manifold_height;
  const RowResult* result;
};

static std::vector<DrawnRow> drawn_rows(const Toolbar& bar, const Answer& a) {
  std::vector<DrawnRow> rows;
  for (const auto& row : build_detail::make_rows(bar)) {
    const auto i = static_cast<std::size_t>(row.number - 1);
    rows.push_back({row.x, row.port_x, row.height, si(bar.manifolds[row.manifold].height), &a.evenness.rows[i]});
  }
  return rows;
}

static std::string hose_class(const RowResult& r, const Evenness& e) {
  if (r.shut) return "hose off";
  return mark(r, e).empty() ? "hose" : "hose out";
}

/// Farther away than this a tank is drawn nearer than it is, and its words say so [px].
static constexpr double farthest_tank = 220.0;

/// A mark every metre or every five feet along the bar, so that the scale can be read.
static std::string scale_bar(double x, double y, double scale, UnitSystem units) {
  const double length = units == UnitSystem::us ? 5.0 * 0.3048 : 1.0;
  return svg_line(x, y, x + length * scale, y, "class=\"axis\"") + svg_line(x, y - 3, x, y + 3, "class=\"axis\"") +
         svg_line(x + length * scale, y - 3, x + length * scale, y + 3, "class=\"axis\"") +
         svg_text(x + length * scale + 5, y + 4, units == UnitSystem::us ? "5 ft" : "1 m", "class=\"small\"");
}

}  // namespace report_detail

std::string toolbar_svg(const Answer& answer, UnitSystem units) {
  using namespace report_detail;
  const auto* bar = std::get_if<Toolbar>(&answer.layout.plumbing);
  if (bar == nullptr) return {};
  const std::vector<DrawnRow> rows = drawn_rows(*bar, answer);
  const Evenness& e = answer.evenness;
  constexpr double width = 350, margin = 16;
  double reach = si(bar->spacing);
  for (const DrawnRow& r : rows) reach = std::fmax(reach, std::fmax(std::abs(r.x), std::abs(r.port_x)));
  const std::vector<DrawnTank> tanks = bar->drive ? drawn_tanks(*bar->drive, units) : std::vector<DrawnTank>{};
  for (const DrawnTank& t : tanks) reach = std::fmax(reach, std::abs(t.right) + 0.5 * t.width);
  const double scale = (width - 2 * margin) / (2.0 * reach);
  const auto x = [&](double along) { return 0.5 * width + along * scale; };
  const double slope = std::tan(si(bar->side_slope));
  const bool crowded = rows.size() > 18;

  // From behind: the bar on its slope, hoses down to the rows, what each row gets below.
  const double tilt = std::abs(slope) * reach * scale;
  double above = 18.0;  // of the bar: what stands highest
  for (const DrawnTank& t : tanks) above = std::fmax(above, (t.bottom + t.height) * scale + 14);
  const double bar_y = 16 + above + tilt, row_y = bar_y + 52;
  const auto at_bar = [&](double along) { return bar_y - along * slope * scale; };
  std::string s = svg_text(margin, 12, "from behind");
  // Heights of tanks and manifolds are drawn from the bar.
  for (const DrawnTank& t : tanks) {
    s += tank_from_behind(t, x(t.right), at_bar(t.right) - t.bottom * scale, scale);
    s += svg_text(x(t.right), at_bar(t.right) - (t.bottom + t.height) * scale - 4, t.name,
                  "text-anchor=\"middle\" class=\"small\"");
  }
  s += svg_line(x(-reach), at_bar(-reach) + 52, x(reach), at_bar(reach) + 52, "class=\"ground\"");
  s += svg_line(x(-reach), at_bar(-reach), x(reach), at_bar(reach), "class=\"toolbar\"");
  for (const DrawnRow& r : rows) {
    const double y0 = at_bar(r.port_x) - std::fmax(6.0, r.manifold_height * scale), y1 = at_bar(r.x) + 48;
    s += fmt::format("<path d=\"M{:.1f} {:.1f} C{:.1f} {:.1f} {:.1f} {:.1f} {:.1f} {:.1f}\" class=\"{}\"/>\n",
                     x(r.port_x), y0, x(r.port_x), y0 - 14, x(r.x), at_bar(r.x) - 16, x(r.x), y1,
                     hose_class(*r.result, e));
  }
  for (std::size_t m = 0; m < bar->manifolds.size(); ++m) {
    double low = reach, high = -reach, y = 0.0;
    for (const auto& row : build_detail::make_rows(*bar)) {
      if (row.manifold != m) continue;
      low = std::fmin(low, row.port_x);
      high = std::fmax(high, row.port_x);
      y = at_bar(0.5 * (low + high)) - std::fmax(6.0, si(bar->manifolds[m].height) * scale);
    }
    s += svg_box(x(low) - 3, y - 4, std::fmax(6.0, x(high) - x(low) + 6), 8, "class=\"manifold\"");
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const DrawnRow& r = rows[i];
    const double y = row_y + tilt + 16;
    if (!crowded || i % 2 == 0) {
      s += svg_text(x(r.x), y, fmt::format("{}", r.result->row), "text-anchor=\"middle\" class=\"small\"");
    }
    const std::string word = mark(*r.result, e);
    const std::string text = r.result->shut ? "shut" : signed_percent(r.result->deviation) + " %";
    s += svg_text(x(r.x) + 3, y + 8, text,
                  fmt::format("text-anchor=\"end\" class=\"small{}\" transform=\"rotate(-90 {:.1f} {:.1f})\"",
                              word.empty() ? "" : " strong", x(r.x) + 3, y + 8));
  }
  const double bottom = row_y + tilt + 72;
  s += scale_bar(margin, bottom, scale, units);
  if (slope != 0.0) {
    s += svg_text(width - margin, 12, fmt::format("side slope {}", format(bar->side_slope, units)),
                  "text-anchor=\"end\"");
  }
  std::string out = svg_picture(width, bottom + 12, "The toolbar from behind, with each row's deviation", s);

  // From above: forward is up; every hose with its length.
  double front = 20.0;  // of the bar: what stands farthest ahead
  const auto ahead = [&](const DrawnTank& t) { return std::fmin(t.ahead * scale, farthest_tank); };
  for (const DrawnTank& t : tanks) front = std::fmax(front, ahead(t) + 0.5 * t.length * scale + 6);
  const double back = std::fmax(40.0, si(bar->outlets_behind) * scale), y0 = 26 + front, y1 = y0 + back;
  s = svg_text(margin, 12, "from above");
  for (const DrawnTank& t : tanks) {
    s += svg_line(x(t.right), y0 - ahead(t), x(0), y0, "class=\"feed\"");
    s += tank_from_above(t, x(t.right), y0 - ahead(t), scale);
    s += svg_text(x(t.right), y0 - ahead(t) - 0.5 * t.length * scale - 4, t.name,
                  "text-anchor=\"middle\" class=\"small\"");
  }
  s += svg_line(x(-reach), y0, x(reach), y0, "class=\"toolbar\"");
  for (const DrawnRow& r : rows) {
    s += fmt::format("<path d=\"M{:.1f} {:.1f} C{:.1f} {:.1f} {:.1f} {:.1f} {:.1f} {:.1f}\" class=\"{}\"/>\n",
                     x(r.port_x), y0, x(r.port_x), y0 + 0.6 * back, x(r.x), y0 + 0.2 * back, x(r.x), y1,
                     hose_class(*r.result, e));
    s += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"2.5\" class=\"outlet\"/>\n", x(r.x), y1);
    s += svg_text(
        x(r.x) + 3, y1 + 8, shown_number<Length>(r.result->hose_length, units),
        fmt::format("text-anchor=\"end\" class=\"small\" transform=\"rotate(-90 {:.1f} {:.1f})\"", x(r.x) + 3, y1 + 8));
  }
  for (std::size_t m = 0; m < bar->manifolds.size(); ++m) {
    double low = reach, high = -reach;
    for (const auto& row : build_detail::make_rows(*bar)) {
      if (row.manifold != m) continue;
      low = std::fmin(low, row.port_x);
      high = std::fmax(high, row.port_x);
    }
    s += svg_box(x(low) - 3, y0 - 4, std::fmax(6.0, x(high) - x(low) + 6), 8, "class=\"manifold\"");
  }
  s += svg_text(margin, y1 + 52, fmt::format("hose to each row [{}]", unit_name<Length>(units)), "class=\"small\"");
  double end = y1 + 52;
  for (const DrawnTank& t : tanks) {
    const bool nearer = t.ahead * scale > farthest_tank;
    end += 12;
    s += svg_text(margin, end, t.words + (nearer ? " (drawn nearer)" : ""), "class=\"small\"");
  }
  return out + svg_picture(width, end + 8, "The toolbar from above, with the length of each hose and the tanks", s);
}

}  // namespace libflow
