// SPDX-License-Identifier: MIT
#include <libflow/report/toolbar_svg.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/tanks_svg.hpp>
#include <libflow/report/verdict.hpp>

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

/// A manifold along the bar, from its first to its last port.
struct DrawnManifold {
  double low = 0.0, high = 0.0, height = 0.0;
  [[nodiscard]] double middle() const { return 0.5 * (low + high); }
};

static std::vector<DrawnManifold> drawn_manifolds(const Toolbar& bar) {
  std::vector<DrawnManifold> all;
  for (const Manifold& m : bar.manifolds) all.push_back({INFINITY, -INFINITY, si(m.height)});
  for (const auto& row : build_detail::make_rows(bar)) {
    DrawnManifold& m = all[row.manifold];
    m.low = std::fmin(m.low, row.port_x);
    m.high = std::fmax(m.high, row.port_x);
  }
  return all;
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
  const std::vector<DrawnManifold> manifolds = drawn_manifolds(*bar);
  // The pump stands aside of what is around the middle, so that its lines are seen.
  const auto pump_x = [&] {
    double right = 0.5 * width;
    for (const DrawnTank& t : tanks) {
      if (std::abs(t.right) < 0.5 * reach) right = std::fmax(right, x(t.right + 0.5 * t.width));
    }
    for (const DrawnManifold& m : manifolds) {
      if (std::abs(m.middle()) < 0.5 * reach) right = std::fmax(right, x(m.high));
    }
    return std::fmin(right + 26.0, width - margin - pump_radius - 2.0);
  }();
  /// From the tanks to the pump and on to the manifolds, with the pump.
  const auto lines = [&](const auto& tank_end, double pump_y, const auto& manifold_end) {
    std::string out;
    for (const DrawnTank& t : tanks) {
      const auto [tx, ty] = tank_end(t);
      out += svg_line(tx, ty, pump_x, pump_y, "class=\"feed\"");
    }
    for (const DrawnManifold& m : manifolds) {
      const auto [mx, my] = manifold_end(m);
      out += svg_line(pump_x, pump_y, mx, my, "class=\"feed\"");
    }
    return out + drawn_pump(pump_x, pump_y) + svg_text(pump_x + pump_radius + 4, pump_y + 3, "pump", "class=\"small\"");
  };
  const double slope = std::tan(si(bar->side_slope));
  const bool crowded = rows.size() > 18;

  // From behind: the bar on its slope, hoses down to the rows, what each row gets below.
  const double tilt = std::abs(slope) * reach * scale;
  double above = 18.0;  // of the bar: what stands highest
  for (const DrawnTank& t : tanks) above = std::fmax(above, (t.bottom + t.height) * scale + 14);
  const double pump_above = 24.0;
  if (bar->drive) above = std::fmax(above, pump_above + pump_radius + 8.0);
  const double bar_y = 16 + above + tilt, row_y = bar_y + 52;
  const auto at_bar = [&](double along) { return bar_y - along * slope * scale; };
  const double pump_y = at_bar((pump_x - 0.5 * width) / scale) - pump_above;
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
  const auto top_of = [&](const DrawnManifold& m) { return at_bar(m.middle()) - std::fmax(6.0, m.height * scale); };
  if (bar->drive) {
    s += lines([&](const DrawnTank& t) { return std::pair(x(t.right), at_bar(t.right) - t.bottom * scale); }, pump_y,
               [&](const DrawnManifold& m) { return std::pair(x(m.middle()), top_of(m)); });
  }
  for (const DrawnManifold& m : manifolds) {
    s += svg_box(x(m.low) - 3, top_of(m) - 4, std::fmax(6.0, x(m.high) - x(m.low) + 6), 8, "class=\"manifold\"");
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
  const double pump_ahead = 22.0;
  if (bar->drive) front = std::fmax(front, pump_ahead + pump_radius + 6.0);
  const double back = std::fmax(40.0, si(bar->outlets_behind) * scale), y0 = 26 + front, y1 = y0 + back;
  s = svg_text(margin, 12, "from above");
  for (const DrawnTank& t : tanks) {
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
  if (bar->drive) {
    s += lines(
        [&](const DrawnTank& t) {
          // The point of its rim that is nearest to the pump.
          const double tx = x(t.right), ty = y0 - ahead(t);
          const double w = 0.5 * t.width * scale, l = 0.5 * t.length * scale;
          if (t.lying)
            return std::pair(std::clamp(pump_x, tx - w, tx + w), std::clamp(y0 - pump_ahead, ty - l, ty + l));
          const double dx = pump_x - tx, dy = y0 - pump_ahead - ty, away = std::fmax(w, std::hypot(dx, dy));
          return std::pair(tx + w * dx / away, ty + w * dy / away);
        },
        y0 - pump_ahead, [&](const DrawnManifold& m) { return std::pair(x(m.middle()), y0); });
  }
  for (const DrawnManifold& m : manifolds) {
    s += svg_box(x(m.low) - 3, y0 - 4, std::fmax(6.0, x(m.high) - x(m.low) + 6), 8, "class=\"manifold\"");
  }
  s += svg_text(margin, y1 + 52, fmt::format("hose to each row [{}]", unit_name<Length>(units)), "class=\"small\"");
  double end = y1 + 52;
  for (const DrawnTank& t : tanks) {
    const bool nearer = t.ahead * scale > farthest_tank;
    end += 12;
    s += svg_text(margin, end, t.words + (nearer ? " (drawn nearer)" : ""), "class=\"small\"");
  }
  if (bar->drive) {
    end += 12;
    s += svg_text(margin, end, pump_words(*bar->drive, units), "class=\"small\"");
  }
  return out + svg_picture(width, end + 8,
                           bar->drive ? "The toolbar from above, with the length of each hose, tanks and pump"
                                      : "The toolbar from above, with the length of each hose",
                           s);
}

}  // namespace libflow
