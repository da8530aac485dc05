// SPDX-License-Identifier: MIT
#include <libflow/report/tanks_svg.hpp>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <variant>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/words.hpp>

namespace libflow {

using namespace report_detail;

/// Diameter of a circle of this area.
static double circle_width(double area) { return 2.0 * std::sqrt(area / std::numbers::pi); }

static std::string where_it_stands(const DrawnTank& t, UnitSystem units) {
  std::string words;
  const auto add = [&](double distance, const char* one_way, const char* other_way) {
    if (distance == 0.0) return;
    words += fmt::format(", {} {}", format(from_si<Length>(std::abs(distance)), units),
                         distance > 0.0 ? one_way : other_way);
  };
  add(t.ahead, "ahead", "behind");
  add(t.right, "to the right", "to the left");
  return words;
}

std::vector<DrawnTank> drawn_tanks(const Drive& drive, UnitSystem units) {
  std::vector<DrawnTank> drawn;
  for (std::size_t i = 0; i < drive.tanks.size(); ++i) {
    const DriveTank& given = drive.tanks[i];
    DrawnTank t;
    t.name = !given.id.empty() ? given.id : drive.tanks.size() == 1 ? "tank" : fmt::format("tank {}", i + 1);
    t.right = si(given.right);
    t.ahead = si(given.ahead);
    t.bottom = si(given.height);
    t.height = si(given.tank.height());
    t.level = si(given.level);
    if (const auto* lying = std::get_if<LyingTank>(&given.tank.shape)) {
      t.lying = true;
      t.width = si(lying->width);
      t.length = si(lying->length);
    } else if (const auto* upright = std::get_if<UprightTank>(&given.tank.shape)) {
      t.width = t.length = circle_width(si(upright->plan));
    } else {
      t.width = t.length = circle_width(si(given.tank.capacity()) / t.height);
    }
    t.words = fmt::format("{}: {} of {}{}", t.name, shown<Volume>(si(given.tank.volume(given.level)), units),
                          format(given.tank.capacity(), units), where_it_stands(t, units));
    drawn.push_back(std::move(t));
  }
  return drawn;
}

std::string tank_from_behind(const DrawnTank& tank, double x, double y, double scale) {
  const double w = 0.5 * tank.width * scale, h = tank.height * scale, level = tank.level * scale;
  if (!tank.lying) {
    return svg_box(x - w, y - level, 2.0 * w, level, "class=\"liquid\"") +
           svg_box(x - w, y - h, 2.0 * w, h, "class=\"tank\"");
  }
  // The liquid's outline: its surface, a chord of the ellipse, and the arc below it.
  const double up = 2.0 * level / h - 1.0;  // -1 empty, 1 full
  const double chord = w * std::sqrt(std::fmax(0.0, 1.0 - up * up));
  const std::string liquid =
      tank.level >= tank.height
          ? fmt::format("<ellipse cx=\"{:.1f}\" cy=\"{:.1f}\" rx=\"{:.1f}\" ry=\"{:.1f}\" class=\"liquid\"/>\n", x,
                        y - 0.5 * h, w, 0.5 * h)
          : fmt::format("<path d=\"M{:.1f} {:.1f} A{:.1f} {:.1f} 0 {} 0 {:.1f} {:.1f} Z\" class=\"liquid\"/>\n",
                        x - chord, y - level, w, 0.5 * h, up > 0.0 ? 1 : 0, x + chord, y - level);
  return liquid + fmt::format("<ellipse cx=\"{:.1f}\" cy=\"{:.1f}\" rx=\"{:.1f}\" ry=\"{:.1f}\" class=\"tank\"/>\n", x,
                              y - 0.5 * h, w, 0.5 * h);
}

std::string tank_from_above(const DrawnTank& tank, double x, double y, double scale) {
  const double w = 0.5 * tank.width * scale, l = 0.5 * tank.length * scale;
  if (tank.lying) return svg_box(x - w, y - l, 2.0 * w, 2.0 * l, "class=\"tank\"");
  return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" class=\"tank\"/>\n", x, y, w);
}

std::string drawn_pump(double x, double y) {
  return fmt::format(
      "<circle cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"{2:.1f}\" class=\"pump\"/>\n"
      "<path d=\"M{0:.1f} {3:.1f} L{4:.1f} {1:.1f} L{5:.1f} {1:.1f} Z\" class=\"outlet\"/>\n",
      x, y, pump_radius, y + pump_radius, x - 0.7 * pump_radius, x + 0.7 * pump_radius);
}

std::string pump_words(const Drive& drive, UnitSystem units) {
  const auto hose = [&](const DriveLine& line) {
    return si(line.length) > 0.0 ? format(line.length, units) + " of hose" : std::string("no hose");
  };
  return fmt::format("pump (drawn aside): {} before it, {} behind", hose(drive.suction), hose(drive.delivery));
}

}  // namespace libflow
