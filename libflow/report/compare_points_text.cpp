// SPDX-License-Identifier: MIT
#include <libflow/report/compare_points_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

std::string compare_points_sentence(const PointComparison& c, UnitSystem u) {
  using namespace report_detail;
  if (!c.complete) return "STOPPED: not every layout is done, nothing is ranked.";
  const ComparedLayout &best = c.layouts[c.best], &worst = c.layouts[c.worst];
  const std::size_t points = best.points.size();
  std::string text;
  if (best.even == worst.even && !(worst.cv - best.cv >= 5e-4)) {
    text = fmt::format("No difference worth the name: even at {} of {} points each", best.even, points);
  } else {
    text = fmt::format("{} is the {} one: even at {} of {} points against {} for {}", name_text(best.layout.name),
                       c.layouts.size() > 2 ? "best" : "better", best.even, points, worst.even,
                       name_text(worst.layout.name));
    if (c.shared > 0) text += fmt::format("; worst CV {} against {}", percent(best.cv), percent(worst.cv));
    if (!c.deciding_cause.empty()) {
      text += fmt::format("; what makes the difference: {} (most at {} and {})", c.deciding_cause,
                          shown<AreaRate>(c.deciding_rate, u), shown<Speed>(c.deciding_speed, u));
    }
  }
  return text + ".";
}

namespace report_detail {

static std::string compared_summary(const PointComparison& c, UnitSystem u, std::size_t first, std::size_t last) {
  Table t;
  t.column("", Table::Align::left);
  for (std::size_t k = first; k < last; ++k) t.column(letter(k));
  const auto line = [&](const std::string& name, auto&& value) {
    std::vector<std::string> cells{name};
    for (std::size_t k = first; k < last; ++k) cells.push_back(value(c.layouts[k]));
    t.line(std::move(cells));
  };
  using L = ComparedLayout;
  const auto finite = [](double v, std::string text) { return std::isfinite(v) ? std::move(text) : std::string("-"); };
  line("Points even", [](const L& l) { return fmt::format("{}", l.even); });
  line("Points that run, not as wanted", [](const L& l) { return fmt::format("{}", l.poor); });
  line("Points that cannot run", [](const L& l) { return fmt::format("{}", l.cannot); });
  line("Worst CV", [&](const L& l) { return finite(l.cv, percent(l.cv)); });
  line("Furthest row",
       [&](const L& l) { return finite(l.worst, fmt::format("{}: {} %", l.worst_row, signed_percent(l.worst))); });
  const auto gauge = [&](double v) { return std::isfinite(v) ? shown<Pressure>(v, u) : std::string("-"); };
  line("Gauge, lowest", [&](const L& l) { return gauge(l.gauge_low); });
  line("Gauge, highest", [&](const L& l) { return gauge(l.gauge_high); });
  line("Pump reserve, least", [&](const L& l) { return finite(l.least_reserve, percent(l.least_reserve)); });
  std::vector<double> bores;
  for (const L& l : c.layouts) {
    for (const HoseOrder& h : l.order.hoses) bores.push_back(si(h.bore));
  }
  std::sort(bores.begin(), bores.end(), std::greater<>());
  bores.erase(std::unique(bores.begin(), bores.end(), [](double a, double b) { return std::abs(a - b) < 1e-7; }),
              bores.end());
  for (const double bore : bores) {
    line(fmt::format("Hose of {}", format_bore(from_si<Length>(bore), u)), [&](const L& l) {
      double total = 0.0;
      for (const HoseOrder& h : l.order.hoses) total += std::abs(si(h.bore) - bore) < 1e-7 ? si(h.total) : 0.0;
      return total > 0.0 ? shown<Length>(total, u) : std::string("-");
    });
  }
  line("Hose, all", [&](const L& l) { return format(l.order.hose_total, u); });
  line("Pieces (parts and hoses)", [](const L& l) { return fmt::format("{}", l.pieces); });
  return t.text();
}

static std::string compared_points(const PointComparison& c, UnitSystem u, std::size_t first, std::size_t last) {
  Table t;
  t.column(fmt::format("rate\n{}", unit_name<AreaRate>(u)));
  t.column(fmt::format("speed\n{}", unit_name<Speed>(u)));
  for (std::size_t k = first; k < last; ++k) {
    t.column(fmt::format("{} gauge\n{}", letter(k), unit_name<Pressure>(u)));
    t.column(letter(k) + " CV\n%");
    t.column(letter(k) + " furthest\nrow: %");
    t.column("", Table::Align::left);
  }
  for (std::size_t i = 0; i < c.layouts[first].points.size(); ++i) {
    const EnvelopePoint& p = c.layouts[first].points[i];
    std::vector<std::string> cells{shown_number<AreaRate>(p.rate, u), shown_number<Speed>(p.speed, u)};
    for (std::size_t k = first; k < last; ++k) {
      const EnvelopePoint& o = c.layouts[k].points[i];
      const bool can = o.state != PointState::cannot_run;
      cells.push_back(can ? shown_number<Pressure>(o.gauge, u) : "-");
      cells.push_back(can ? fmt::format("{:.1f}", 100.0 * o.cv) : "-");
      cells.push_back(can ? fmt::format("{}: {}", o.worst_row, signed_percent(o.worst)) : "-");
      cells.push_back(o.state == PointState::even ? "" : fmt::format("{}{}", can ? "" : "NO: ", o.binding));
    }
    t.line(std::move(cells));
  }
  return t.text();
}

}  // namespace report_detail

std::string compare_points_text(const PointComparison& c, const TextOptions& options,
                                const std::vector<std::string>& files) {
  using namespace report_detail;
  const std::size_t width = std::max<std::size_t>(80, options.width);
  if (c.layouts.empty()) return "STOPPED: nothing is done.\n";
  const UnitSystem u = options.units.value_or(c.layouts.front().layout.units);
  std::string text = coloured(wrapped(compare_points_sentence(c, u), width), Colour::strong, options) + "\n";
  for (std::size_t k = 0; k < c.layouts.size(); ++k) {
    const std::string& name = c.layouts[k].layout.name;
    const std::string file = k < files.size() ? file_beside(name, files[k]) : std::string();
    text += wrapped(
        fmt::format("{}  {}{} (control: {})", letter(k), name_text(name), file, control_text(c.layouts[k].control)),
        width, 3);
  }
  for (std::size_t k = 0; k < c.layouts.size(); k += layouts_in_a_table) {
    text += "\n" + compared_summary(c, u, k, std::min(k + layouts_in_a_table, c.layouts.size()));
  }
  text += wrapped(c.shared == 0
                      ? "No point can be run by every layout, so there is no worst CV and no furthest row."
                      : fmt::format("Worst CV and furthest row are over the {} that every layout can run; of rows that "
                                    "are as far, the first is named.",
                                    report_detail::counted(c.shared, "point", "points")),
                  width, 1, " ");
  for (std::size_t k = 0; k < c.layouts.size(); k += 2) {
    text += "\n" + compared_points(c, u, k, std::min(k + 2, c.layouts.size()));
  }
  Cautions all = c.cautions;
  for (const ComparedLayout& l : c.layouts) {
    const Job& job = l.layout.job;
    if (std::string assumed = assumed_limit_sentence(l.layout); !assumed.empty()) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const Caution& o) { return o.text == assumed; });
      if (!known) all.push_back({"assumed-pressure-limit", "", std::move(assumed)});
    }
    for (const Caution& one : job.liquid.at(job.temperature).cautions) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const Caution& o) {
        return o.code == one.code && o.subject == one.subject && o.text == one.text;
      });
      if (!known) all.push_back(one);
    }
  }
  return text + cautions_section(all, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
