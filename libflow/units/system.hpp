// SPDX-License-Identifier: MIT
/// @file
/// Quantities for people: US or metric units, with as many digits as the trade reads; and text that loses nothing.
#pragma once

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/units/table.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

/// The units that a person reads. Everything inside is SI; this is only for what is shown.
enum class UnitSystem {
  us,     ///< ft, in, psi, gpm, mph, gal/ac, °F
  metric  ///< m, mm, kPa, L/min, km/h, L/ha, °C
};

/// "us" or "metric" in any case.
/// @throws InputError  anything else; names the nearest
[[nodiscard]] inline UnitSystem parse_unit_system(std::string_view text, std::string_view where) {
  static constexpr std::array<std::string_view, 2> names{"us", "metric"};
  const std::string_view name = units_detail::trimmed(text);
  if (units_detail::same_letters(name, names[0])) return UnitSystem::us;
  if (units_detail::same_letters(name, names[1])) return UnitSystem::metric;
  throw InputError(std::string(where), in_quotes(text) + " is not a system of units", "us or metric",
                   nearest_name(name, names));
}

/// "us" or "metric".
[[nodiscard]] constexpr std::string_view name_of(UnitSystem system) {
  return system == UnitSystem::us ? "us" : "metric";
}

namespace units_detail {

/// How one kind is shown in one system.
struct Shown {
  std::string_view unit;
  int digits;                ///< after the point, or significant ones
  bool significant = false;  ///< for kinds that span decades
};
struct ShownRow {
  Shown us, metric;
};

inline constexpr ShownRow shown_bore{{"in", 3}, {"mm", 2}};
inline constexpr std::array<ShownRow, kinds.size()> shown{{
    {{"ft", 1}, {"m", 2}},                   // length
    {{"ac", 1}, {"ha", 1}},                  // area
    {{"gal", 1}, {"L", 1}},                  // volume
    {{"min", 1}, {"min", 1}},                // time
    {{"mph", 1}, {"km/h", 1}},               // speed
    {{"lb", 1}, {"kg", 1}},                  // mass
    {{"psi", 2}, {"kPa", 1}},                // pressure
    {{"gpm", 4, true}, {"L/min", 4, true}},  // flow: one row to a whole bar
    {{"gal/ac", 2}, {"L/ha", 1}},            // area_rate
    {{"lb/gal", 2}, {"kg/m3", 0}},           // density
    {{"cP", 3, true}, {"mPa·s", 3, true}},   // viscosity: water to cold 10-34-0
    {{"°F", 1}, {"°C", 1}},                  // temperature
    {{"%", 1}, {"%", 1}},                    // angle, as slope
    {{"lb/ac", 1}, {"kg/ha", 1}},            // mass_per_area
    {{"%", 1}, {"%", 1}},                    // fraction
}};

constexpr bool shown_units_exist() {
  for (const KindRow& row : kinds) {
    const ShownRow& s = shown[static_cast<std::size_t>(row.kind)];
    if (!has_unit(row.kind, s.us.unit) || !has_unit(row.kind, s.metric.unit)) return false;
  }
  return has_unit(Kind::length, shown_bore.us.unit) && has_unit(Kind::length, shown_bore.metric.unit);
}
static_assert(shown_units_exist(), "a unit that is shown must be a unit that is read");

constexpr const Shown& pick(const ShownRow& row, UnitSystem system) {
  return system == UnitSystem::us ? row.us : row.metric;
}
constexpr const Shown& shown_for(Kind kind, UnitSystem system) {
  return pick(shown[static_cast<std::size_t>(kind)], system);
}

inline double finite(Kind kind, double value) {
  if (std::isfinite(value)) return value;
  throw InputError({}, std::string(kind_row(kind).noun) + " to be written is not a finite number", "a finite number");
}

/// `value` without exponent where a person can read it so; never "-0.0".
inline std::string digits_of(double value, int digits, bool significant) {
  const double size = std::fabs(value);
  if (size >= 1e9 || (significant && size > 0.0 && size < 1e-4)) {
    return fmt::format("{:.{}g}", value, std::max(digits, 4));
  }
  int decimals = digits;
  if (significant) {
    if (value == 0.0) return "0";
    // The exponent after rounding: 9.9999 with three digits is 10.0.
    const std::string rounded = fmt::format("{:.{}e}", size, digits - 1);
    const int sign = rounded[rounded.find('e') + 1] == '-' ? -1 : 1;
    int exponent = 0;
    std::from_chars(rounded.data() + rounded.find('e') + 2, rounded.data() + rounded.size(), exponent);
    decimals = std::max(0, digits - 1 - sign * exponent);
  }
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

inline double value_in(Kind kind, double value, std::string_view unit) {
  return finite(kind, find_unit(kind, unit)->from_si(finite(kind, value)));
}

/// The fewest digits in `unit` that read back as exactly `value`; in SI where no digits do.
inline std::string exact_text(Kind kind, double value, std::string_view unit) {
  const UnitRow& row = *find_unit(kind, unit);
  const double written = row.from_si(finite(kind, value));
  for (int digits = 1; std::isfinite(written) && digits <= 17; ++digits) {
    const std::string rounded = fmt::format("{:.{}e}", written, digits - 1);
    double number = 0.0;
    std::from_chars(rounded.data(), rounded.data() + rounded.size(), number);
    if (row.to_si(number) == value) return fmt::format("{} {}", number, unit);
  }
  return fmt::format("{} {}", value, kind_row(kind).units[0].name);
}

}  // namespace units_detail

/// The unit in which `Q` is shown, e.g. unit_name<Pressure>(UnitSystem::us) is "psi".
template <class Q>
[[nodiscard]] constexpr std::string_view unit_name(UnitSystem system) {
  return units_detail::shown_for(kind_of<Q>, system).unit;
}

/// The number of `q` in the unit in which it is shown.
/// @throws InputError  q is not finite
template <class Q>
[[nodiscard]] double value_in(const Q& q, UnitSystem system) {
  return units_detail::value_in(kind_of<Q>, si(q), unit_name<Q>(system));
}

/// The number of `q` as text, rounded as the trade reads it: one decimal of a foot, four digits of a flow, ...
/// @throws InputError  q is not finite
template <class Q>
[[nodiscard]] std::string format_number(const Q& q, UnitSystem system) {
  const units_detail::Shown& shown = units_detail::shown_for(kind_of<Q>, system);
  return units_detail::digits_of(value_in(q, system), shown.digits, shown.significant);
}

/// The same with its unit: "14.0 ft", "30.00 psi", "0.2020 gpm". An angle is shown as a slope: "5.0 %".
template <class Q>
[[nodiscard]] std::string format(const Q& q, UnitSystem system) {
  return fmt::format("{} {}", format_number(q, system), unit_name<Q>(system));
}

/// A bore is a length that is read in inches or millimetres.
[[nodiscard]] constexpr std::string_view bore_unit_name(UnitSystem system) {
  return units_detail::pick(units_detail::shown_bore, system).unit;
}
/// The number of a bore, in or mm. @throws InputError  not finite
[[nodiscard]] inline double bore_value_in(const Length& bore, UnitSystem system) {
  return units_detail::value_in(Kind::length, si(bore), bore_unit_name(system));
}
/// A bore as text: "0.250 in", "6.35 mm". @throws InputError  not finite
[[nodiscard]] inline std::string format_bore(const Length& bore, UnitSystem system) {
  const int digits = units_detail::pick(units_detail::shown_bore, system).digits;
  return fmt::format("{} {}", units_detail::digits_of(bore_value_in(bore, system), digits, false),
                     bore_unit_name(system));
}

/// Text in SI that parse_quantity reads back as exactly the same quantity: the shortest such number.
/// @throws InputError  q is not finite
template <class Q>
[[nodiscard]] std::string to_text(const Q& q) {
  const KindRow& row = kind_row(kind_of<Q>);
  return fmt::format("{} {}", units_detail::finite(row.kind, si(q)), row.units[0].name);
}

/// The same in the unit in which it is shown ("14 ft"), or in SI where that unit cannot say it exactly.
template <class Q>
[[nodiscard]] std::string to_text(const Q& q, UnitSystem system) {
  return units_detail::exact_text(kind_of<Q>, si(q), unit_name<Q>(system));
}
/// The same for a bore: "0.375 in".
[[nodiscard]] inline std::string bore_to_text(const Length& bore, UnitSystem system) {
  return units_detail::exact_text(Kind::length, si(bore), bore_unit_name(system));
}

}  // namespace libflow
