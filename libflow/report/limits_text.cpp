// SPDX-License-Identifier: MIT
#include <libflow/report/limits_text.hpp>

#include <cmath>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/limits.hpp>

namespace libflow {

namespace report_detail {

/// A velocity in a hose: "4.2 ft/s", "1.28 m/s".
static std::string velocity_text(double value, UnitSystem u) {
  return u == UnitSystem::us ? fmt::format("{:.1f} ft/s", value / 0.3048) : fmt::format("{:.2f} m/s", value);
}

std::string si_value_text(double value, std::string_view unit, UnitSystem u) {
  if (!std::isfinite(value)) return "none";
  if (unit == "Pa") return shown<Pressure>(value, u);
  if (unit == "m3/s") return shown<Flow>(value, u);
  if (unit == "m") return shown<Length>(value, u);
  if (unit == "m/s") return velocity_text(value, u);
  return percent(value);
}

std::string room_text(const Limit& l) {
  if (l.broken()) return l.kind == LimitKind::advised ? "outside advice" : "BROKEN";
  return l.margin > 9.995 ? std::string("> 999 %") : fmt::format("{:.0f} %", 100.0 * l.margin);
}

std::string limits_table(const Limits& limits, UnitSystem u) {
  Table t;
  t.column("limit", Table::Align::left);
  t.column("where", Table::Align::left);
  t.column("now");
  t.column("", Table::Align::left);
  t.column("limit");
  t.column("room");
  t.column("if broken", Table::Align::left);
  for (const Limit& l : limits) {
    t.line({l.name, l.subject, si_value_text(l.value, l.unit, u), l.upper ? "at most" : "at least",
            si_value_text(l.limit, l.unit, u), room_text(l),
            l.kind == LimitKind::stops    ? "stops it"
            : l.kind == LimitKind::wanted ? "runs, not as wanted"
                                          : "advice only"});
  }
  return t.text();
}

}  // namespace report_detail

}  // namespace libflow
