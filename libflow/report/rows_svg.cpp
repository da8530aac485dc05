// SPDX-License-Identifier: MIT
#include <libflow/report/rows_svg.hpp>

#include <cmath>
#include <string>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/verdict.hpp>

namespace libflow {

std::string rows_svg(const Answer& answer) {
  using namespace report_detail;
  const Evenness& e = answer.evenness;
  constexpr double left = 48, middle = 156, half = 100, line = 20, top = 34;
  const double reach = bar_reach(e);
  const auto at = [&](double deviation) { return middle + half * deviation / reach; };
  const double bottom = top + line * static_cast<double>(e.rows.size());

  std::string s;
  s += svg_text(left - 6, 12, "row", "text-anchor=\"end\"");
  s += svg_text(middle, 12, fmt::format("off the mean, band ±{:g} %", 100.0 * e.tolerance), "text-anchor=\"middle\"");
  s += svg_box(at(-e.tolerance), top, at(e.tolerance) - at(-e.tolerance), bottom - top, "class=\"band\"");
  for (const double end : {-e.tolerance, e.tolerance}) {
    s += svg_line(at(end), top, at(end), bottom, "class=\"limit\"");
    s += svg_text(at(end), top - 5, signed_percent(end), "text-anchor=\"middle\" class=\"small\"");
  }
  for (std::size_t i = 0; i < e.rows.size(); ++i) {
    const RowResult& r = e.rows[i];
    const double y = top + line * static_cast<double>(i);
    s += svg_text(left - 6, y + 14, fmt::format("{}", r.row), "text-anchor=\"end\"");
    const std::string word = mark(r, e);
    if (r.shut || !(e.mean_rate > 0.0)) {
      s += svg_text(middle + half + 8, y + 14, r.shut ? "shut" : "no flow");
      continue;
    }
    const double x = at(r.deviation);
    const bool outside = !word.empty();
    s += svg_box(std::fmin(x, middle), y + 4, std::fmax(1.0, std::abs(x - middle)), line - 8,
                 outside ? "class=\"bar out\"" : "class=\"bar\"");
    s += svg_text(middle + half + 8, y + 14,
                  fmt::format("{} %{}", deviation_text(r.deviation, e), outside ? " " + word : std::string()),
                  outside ? "class=\"strong\"" : "");
  }
  s += svg_line(middle, top, middle, bottom, "class=\"axis\"");
  return svg_picture(362, bottom + 6, "Deviation of each row from the mean, with the tolerance band", s);
}

}  // namespace libflow
