// SPDX-License-Identifier: MIT
#include <libflow/report/limits_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/limits.hpp>
#include <libflow/study/pressure_limit.hpp>

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
  if (l.broken()) return l.kind == LimitKind::advised ? "outside" : "BROKEN";
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
            : l.kind == LimitKind::wanted ? "not as wanted"
                                          : "advice only"});
  }
  return t.text();
}

std::string near_text(const Limit& l, UnitSystem u) {
  const double room = std::abs(l.limit - l.value);
  const bool up = l.value <= l.limit;
  std::string by = si_value_text(room, l.unit, u);
  if (l.unit == "1") by += " points";
  const std::string where = l.subject.empty() ? l.name : fmt::format("{} ({})", l.name, l.subject);
  const std::string now = fmt::format("{}: {} now, {} is the {}", where, si_value_text(l.value, l.unit, u),
                                      si_value_text(l.limit, l.unit, u), l.upper ? "most" : "least");
  if (l.broken()) return fmt::format("{}: {} too {}", now, by, l.upper ? "much" : "little");
  return fmt::format("{}, so it may {} by {}", now, up ? "rise" : "fall", by);
}

std::string limits_note(const Limits& limits, std::string_view control, std::size_t width) {
  const auto any = [&](auto&& test) { return std::any_of(limits.begin(), limits.end(), test); };
  std::string text =
      "Room: how far the value may still go before it is at the limit, as a share of the limit itself; 0 % is at the "
      "limit, and with 100 % under 'at least' the value is twice what it must be. If broken: 'stops it', it cannot be "
      "run so; 'not as wanted', it runs, but uneven or outside a window; 'advice only', good practice.";
  if (any([](const Limit& l) { return l.source == "range of the control"; })) {
    text += fmt::format(" For the {}: a share of the whole range that it can be set over.", control);
  }
  if (any([](const Limit& l) { return l.name == "suction vacuum"; })) {
    text += " For the suction vacuum: a share of the atmosphere's pressure.";
  }
  if (any([](const Limit& l) { return l.source == assumed_limit_source; })) {
    text += " The pressure limit is assumed, the layout gives none (common practice, no source): write pump_limit.";
  }
  return wrapped(text, width, 1, " ");
}

std::string control_text(std::string_view control) {
  return control == "supply pressure" ? std::string("pressure at the gauge") : std::string(control);
}

}  // namespace report_detail

}  // namespace libflow
