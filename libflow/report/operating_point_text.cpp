// SPDX-License-Identifier: MIT
#include <libflow/report/operating_point_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/operating_point.hpp>

namespace libflow {

std::string operating_sentence(const OperatingPoint& p, UnitSystem u) {
  using namespace report_detail;
  const Evenness& e = p.answer.evenness;
  const std::string setting = fmt::format("{} {}", p.control, si_value_text(p.setting, p.unit, u));
  const std::string gauge = shown<Pressure>(e.supply_pressure, u);
  // Without a drive the setting is the gauge's pressure itself.
  const std::string at = p.duty || p.control != "supply pressure" ? fmt::format("{}, {} at the gauge,", setting, gauge)
                                                                  : gauge + " at the gauge";
  std::string text;
  if (p.control == "none") {
    text = fmt::format("AS IT STANDS, no control named: {} at the gauge gives {} ({} in all), {} is wanted", gauge,
                       shown<AreaRate>(e.mean_rate, u), shown<Flow>(p.delivered, u), shown<AreaRate>(e.target_rate, u));
  } else if (p.reached) {
    text = fmt::format("{}: {} gives {} ({} in all)", p.runs() ? "REACHED" : "REACHED, BUT IT CANNOT BE RUN", at,
                       shown<AreaRate>(e.mean_rate, u), shown<Flow>(p.delivered, u));
  } else {
    const std::string gives = shown<AreaRate>(e.mean_rate, u), wanted = shown<AreaRate>(e.target_rate, u);
    const std::string off = percent(std::abs(p.delivered / p.wanted - 1.0));
    const bool more = p.delivered > p.wanted;
    const char *word = more ? "EXCEEDED" : "NOT REACHED", *which = more ? "more" : "less";
    text = gives == wanted
               ? fmt::format("{}: {} gives {} {} than the wanted {}; {}", word, at, off, which, wanted, p.stop)
               : fmt::format("{}: {} gives {} instead of {} ({} {} than wanted); {}", word, at, gives, wanted, off,
                             which, p.stop);
  }
  std::string broken;
  for (const Limit& l : p.limits) {
    if (l.broken() && l.kind != LimitKind::advised) broken += (broken.empty() ? "" : ", ") + l.name;
  }
  if (!broken.empty()) return text + "; broken: " + broken + ".";
  const Limit* nearest = binding_limit(p.limits);
  if (nearest != nullptr && p.reached) text += "; the nearest limit is " + near_text(*nearest, u);
  return text + ".";
}

namespace report_detail {

static std::string pump_table(const PumpDuty& d, UnitSystem u) {
  std::string text;
  const auto line = [&](const char* name, const std::string& value) {
    text += fmt::format(" {}{}\n", padded(name, 27, false), value);
  };
  line("Flow through it", shown<Flow>(d.flow, u));
  line("Pressure that it adds", shown<Pressure>(d.gain, u));
  line("Pressure ahead of it", shown<Pressure>(d.inlet, u));
  line("Pressure behind it", shown<Pressure>(d.outlet, u));
  line("Suction head available", shown<Length>(d.suction_available, u));
  if (d.suction_required) line("Suction head required", shown<Length>(*d.suction_required, u));
  line("Power to the liquid", fmt::format("{:.0f} W", d.hydraulic_power));
  if (d.shaft_power) {
    line("Power at the shaft", fmt::format("{:.0f} W", *d.shaft_power));
    if (*d.shaft_power > 0.0) line("Efficiency", fmt::format("{:.0f} %", 100.0 * d.hydraulic_power / *d.shaft_power));
  }
  if (d.relief > 0.0) line("Back by the relief valve", shown<Flow>(d.relief, u));
  if (d.bypass > 0.0) line("Back by the bypass", shown<Flow>(d.bypass, u));
  if (d.agitation > 0.0) line("Back by the agitation jet", shown<Flow>(d.agitation, u));
  const double reserve = std::round(100.0 * d.reserve) + 0.0;  // + 0: no minus zero
  line("In reserve for the rows", fmt::format("{:.0f} %", reserve));
  return text;
}

}  // namespace report_detail

std::string operating_point_text(const OperatingPoint& p, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(p.answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text = coloured(wrapped(operating_sentence(p, u), width), p.runs() ? Colour::good : Colour::bad, options);
  text += wrapped(verdict_sentence(p.answer), width);
  text += "\n" + wrapped(fmt::format("{}: {}", name_text(p.answer.layout.name), job_text(p.answer, u)), width, 2);
  if (p.duty) text += "\nThe pump\n" + pump_table(*p.duty, u);
  text += "\nRoom to every limit, nearest first\n" + limits_table(p.limits, u) +
          limits_note(p.limits, control_text(p.control), width);
  text += "\n" + fitting(width, [&](const Detail& detail) { return rows_table(p.answer, u, detail); }) + "\n" +
          summary(p.answer, u) + viscosity_band_text(p.answer, u, width);
  text += cautions_section(all_cautions(p.answer), width);
  return text + "\n" + proof_text(p.answer.solution, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
