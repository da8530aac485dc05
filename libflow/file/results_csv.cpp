// SPDX-License-Identifier: MIT
#include <libflow/file/results_csv.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>
#include <fmt/format.h>

#include <libflow/file/results_json.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

std::string csv_field(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string field = "\"";
  for (const char c : text) {
    if (c == '"') field += '"';
    field += c;
  }
  return field + "\"";
}

namespace file_detail {

std::string csv_number(double value) { return std::isfinite(value) ? fmt::format("{:.7g}", value) : std::string(); }

std::string csv_line(const std::vector<std::string>& fields) {
  std::string line;
  for (std::size_t i = 0; i < fields.size(); ++i) line += (i == 0 ? "" : ",") + csv_field(fields[i]);
  return line + "\r\n";
}

static std::vector<std::string> csv_heading(UnitSystem u) {
  const auto with = [](std::string_view name, std::string_view unit) { return fmt::format("{} ({})", name, unit); };
  const auto pressure = unit_name<Pressure>(u);
  return {"layout",
          "row",
          "shut",
          with("width", unit_name<Length>(u)),
          with("speed", unit_name<Speed>(u)),
          with("hose length", unit_name<Length>(u)),
          with("flow", unit_name<Flow>(u)),
          with("rate", unit_name<AreaRate>(u)),
          "deviation (%)",
          "outside tolerance",
          with("orifice drop", pressure),
          with("check valve drop", pressure),
          with("line drop", pressure),
          with("lift", pressure),
          "orifice share (%)",
          "hose Reynolds number",
          "hose flow",
          "check valve"};
}

static void add_csv_rows(std::string& text, const Answer& a, UnitSystem u) {
  if (!a.solution.usable()) return;
  for (const RowResult& r : a.evenness.rows) {
    const auto& out = a.evenness.outside;
    const bool outside = std::find(out.begin(), out.end(), r.row) != out.end();
    text += csv_line({a.layout.name, fmt::format("{}", r.row), r.shut ? "yes" : "no", csv_quantity<Length>(r.width, u),
                      csv_quantity<Speed>(r.speed, u), csv_quantity<Length>(r.hose_length, u),
                      csv_quantity<Flow>(r.flow, u), csv_quantity<AreaRate>(r.rate, u), csv_number(100.0 * r.deviation),
                      outside ? "yes" : "no", csv_quantity<Pressure>(r.orifice_drop, u),
                      csv_quantity<Pressure>(r.check_valve_drop, u), csv_quantity<Pressure>(r.line_drop, u),
                      csv_quantity<Pressure>(r.lift, u), csv_number(100.0 * r.orifice_share),
                      csv_number(r.hose_reynolds), std::string(name_of(r.regime)), std::string(name_of(r.valve))});
  }
}

}  // namespace file_detail

std::string results_to_csv(const Answer& answer, UnitSystem units) {
  std::string text = file_detail::csv_line(file_detail::csv_heading(units));
  file_detail::add_csv_rows(text, answer, units);
  return text;
}

std::string comparison_to_csv(const Comparison& comparison, UnitSystem units) {
  std::string text = file_detail::csv_line(file_detail::csv_heading(units));
  for (const Answer& a : comparison.answers) file_detail::add_csv_rows(text, a, units);
  return text;
}

}  // namespace libflow
