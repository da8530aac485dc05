// SPDX-License-Identifier: MIT
/// @file
/// The units that libflow reads and writes: one table a kind of quantity, used by the parser, by the formatter and
/// by every list of allowed units.
///
/// Factors come from units/quantity.hpp. "gal", "qt", "pt" and "fl oz" are US liquid measure (1 gal = 231 in3);
/// an imperial gallon (4.54609 L) is never meant and is refused by name.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include <libflow/units/quantity.hpp>

namespace libflow {

/// What a quantity is. Each kind has one table of units and, but for the fraction, one
/// quantity type.
enum class Kind {
  length,
  area,
  volume,
  time,
  speed,
  mass,
  pressure,
  flow,
  area_rate,
  density,
  viscosity,
  temperature,
  angle,
  mass_per_area,
  fraction  ///< a plain number, written in per cent
};

/// One unit of a kind.
struct UnitRow {
  std::string_view name;        ///< as written by libflow, and read back
  double factor = 1.0;          ///< SI value of one such unit
  std::string_view other = {};  ///< further spellings, separated by '|'
  /// True where another case means another size: mPa and MPa, mL and ML.
  bool exact_case = false;
  double (*read)(double) = nullptr;   ///< number in this unit to SI, where a factor is not enough
  double (*write)(double) = nullptr;  ///< SI to number in this unit; given together with `read`

  /// A value in this unit in SI.
  [[nodiscard]] constexpr double to_si(double value) const { return read ? read(value) : value * factor; }
  /// An SI value in this unit.
  [[nodiscard]] constexpr double from_si(double value) const { return write ? write(value) : value / factor; }
};

/// A kind with its words and its units; the first unit is the SI unit, with factor 1
/// (a fraction has only per cent).
struct KindRow {
  Kind kind;                       ///< of quantity
  std::string_view noun;           ///< "a length"
  std::string_view example;        ///< "14 ft"
  std::span<const UnitRow> units;  ///< that are read for it, the first the preferred one
};

namespace units_detail {

namespace u = libflow::units;

/// Water at 60 F [kg/m3], against which a specific gravity is read: labels give it as 60/60 F, and the trade's
/// 8.34 lb/gal is this figure rounded (999.016 kg/m3, from memory).
inline constexpr double water_60f = 999.016;

inline constexpr double ft = si(u::ft), in = si(u::inch), lb = si(u::lb), gal = si(u::gal), floz = si(u::floz),
                        acre = si(u::acre), qt = gal / 4.0, pt = gal / 8.0;

inline double read_celsius(double t) { return si(u::celsius(t)); }
inline double read_fahrenheit(double t) { return si(u::fahrenheit(t)); }
inline constexpr double read_percent(double percent) { return percent / 100.0; }
inline constexpr double write_percent(double fraction) { return fraction * 100.0; }
inline double read_slope(double percent) { return si(u::slope_percent(percent)); }
inline double write_celsius(double t) { return u::to_celsius(from_si<Temperature>(t)); }
inline double write_fahrenheit(double t) { return u::to_fahrenheit(from_si<Temperature>(t)); }
inline double write_slope(double a) { return u::to_slope_percent(from_si<Angle>(a)); }

inline constexpr UnitRow length_units[] = {
    {"m", 1.0},          {"ft", ft, "'"},   {"in", in, "\"|''"},           {"yd", 3.0 * ft},
    {"mi", 5280.0 * ft}, {"cm", si(u::cm)}, {"mm", si(u::mm), "MM", true}, {"km", 1000.0}};
inline constexpr UnitRow area_units[] = {
    {"m2", 1.0, "sq m"},      {"ac", acre},  {"ha", si(u::ha)},         {"ft2", ft* ft, "sq ft"},
    {"in2", in* in, "sq in"}, {"cm2", 1e-4}, {"mm2", 1e-6, "MM2", true}};
inline constexpr UnitRow volume_units[] = {{"m3", 1.0, "cu m"},
                                           {"gal", gal},
                                           {"qt", qt},
                                           {"pt", pt},
                                           {"fl oz", floz},
                                           {"ft3", ft* ft* ft, "cu ft"},
                                           {"in3", in* in* in, "cu in"},
                                           {"L", si(u::L)},
                                           {"mL", si(u::mL), "ml", true},
                                           {"cm3", 1e-6, "cc"}};
inline constexpr UnitRow time_units[] = {
    {"s", 1.0}, {"min", si(u::minute)}, {"h", si(u::hour)}, {"d", 86400.0}, {"ms", 1e-3, "", true}};
inline constexpr UnitRow speed_units[] = {
    {"m/s", 1.0},        {"mph", si(u::mph), "mi/h"},  {"km/h", si(u::kmh), "kmh|kph"},
    {"ft/s", ft, "fps"}, {"ft/min", ft / 60.0, "fpm"}, {"m/min", 1.0 / 60.0}};
inline constexpr UnitRow mass_units[] = {{"kg", 1.0}, {"lb", lb}, {"oz", lb / 16.0}, {"g", 1e-3}, {"t", 1000.0}};
inline constexpr UnitRow pressure_units[] = {{"Pa", 1.0},
                                             {"psi", si(u::psi), "lbf/in2|lb/in2"},
                                             {"kPa", si(u::kPa)},
                                             {"bar", si(u::bar)},
                                             {"mbar", 100.0, "", true},
                                             {"MPa", 1e6, "", true}};
inline constexpr UnitRow flow_units[] = {{"m3/s", 1.0},
                                         {"gpm", si(u::gpm), "gal/min"},
                                         {"gph", gal / 3600.0, "gal/h"},
                                         {"fl oz/min", floz / 60.0},
                                         {"ft3/s", ft* ft* ft, "cfs"},
                                         {"L/min", si(u::L_per_min), "lpm"},
                                         {"L/s", 1e-3},
                                         {"L/h", 1e-3 / 3600.0, "lph"},
                                         {"mL/min", si(u::mL_per_min), "ml/min", true},
                                         {"mL/s", 1e-6, "ml/s", true},
                                         {"cm3/min", si(u::mL_per_min), "cc/min"},
                                         {"m3/min", 1.0 / 60.0},
                                         {"m3/h", 1.0 / 3600.0}};
inline constexpr UnitRow area_rate_units[] = {{"m3/m2", 1.0},
                                              {"gal/ac", si(u::gal_per_acre), "gpa|gal/a"},
                                              {"qt/ac", qt / acre},
                                              {"pt/ac", pt / acre},
                                              {"fl oz/ac", floz / acre},
                                              {"gal/1000 ft2", gal / (1000.0 * ft * ft), "gal/1000ft2"},
                                              {"L/ha", si(u::L_per_ha)},
                                              {"m3/ha", 1e-4},
                                              {"L/m2", 1e-3},
                                              {"mL/m2", 1e-6, "ml/m2", true}};
inline constexpr UnitRow density_units[] = {{"kg/m3", 1.0},
                                            {"lb/gal", si(u::lb_per_gal)},
                                            {"lb/ft3", lb / (ft * ft * ft)},
                                            {"kg/L", 1000.0},
                                            {"g/mL", 1000.0, "g/ml", true},
                                            {"g/cm3", 1000.0, "g/cc"},
                                            {"g/L", 1.0},
                                            {"SG", water_60f}};
inline constexpr UnitRow viscosity_units[] = {{"Pa·s", 1.0, "Pa.s|Pa s|Pa-s"},
                                              {"cP", si(u::cP), "cps"},
                                              {"mPa·s", si(u::mPa_s), "mPa.s|mPa s|mPa-s", true},
                                              {"P", 0.1}};
inline constexpr UnitRow temperature_units[] = {
    {"K", 1.0},
    {"°F", 5.0 / 9.0, "F|degF|deg F|degrees F", false, read_fahrenheit, write_fahrenheit},
    {"°C", 1.0, "C|degC|deg C|degrees C", false, read_celsius, write_celsius}};
inline constexpr UnitRow angle_units[] = {
    {"rad", 1.0}, {"deg", si(u::deg), "°"}, {"%", 0.01, "", false, read_slope, write_slope}};
inline constexpr UnitRow mass_per_area_units[] = {
    {"kg/m2", 1.0}, {"lb/ac", si(u::lb_per_acre), "lb/a"}, {"kg/ha", si(u::kg_per_ha)}, {"t/ha", 0.1}, {"g/m2", 1e-3}};
inline constexpr UnitRow fraction_units[] = {{"%", 0.01, "", false, read_percent, write_percent}};

inline constexpr std::array<KindRow, 15> kinds{{
    {Kind::length, "a length", "14 ft", length_units},
    {Kind::area, "an area", "80 ac", area_units},
    {Kind::volume, "a volume", "300 gal", volume_units},
    {Kind::time, "a time", "30 s", time_units},
    {Kind::speed, "a speed", "5 mph", speed_units},
    {Kind::mass, "a mass", "10 lb", mass_units},
    {Kind::pressure, "a pressure", "30 psi", pressure_units},
    {Kind::flow, "a flow", "12 gpm", flow_units},
    {Kind::area_rate, "a rate per area", "12 gal/ac", area_rate_units},
    {Kind::density, "a density", "10.65 lb/gal", density_units},
    {Kind::viscosity, "a viscosity", "40 cP", viscosity_units},
    {Kind::temperature, "a temperature", "50 °F", temperature_units},
    {Kind::angle, "an angle or slope", "5 %", angle_units},
    {Kind::mass_per_area, "a mass per area", "40 lb/ac", mass_per_area_units},
    {Kind::fraction, "a fraction", "5 %", fraction_units},
}};

/// Words that may stand for a part of a unit ("gallons per acre" is gal/ac); letters without case.
inline constexpr std::pair<std::string_view, std::string_view> words[] = {{"foot", "ft"},
                                                                          {"feet", "ft"},
                                                                          {"inch", "in"},
                                                                          {"inches", "in"},
                                                                          {"yard", "yd"},
                                                                          {"yards", "yd"},
                                                                          {"mile", "mi"},
                                                                          {"miles", "mi"},
                                                                          {"meter", "m"},
                                                                          {"meters", "m"},
                                                                          {"metre", "m"},
                                                                          {"metres", "m"},
                                                                          {"millimeter", "mm"},
                                                                          {"millimeters", "mm"},
                                                                          {"millimetre", "mm"},
                                                                          {"millimetres", "mm"},
                                                                          {"centimeter", "cm"},
                                                                          {"centimeters", "cm"},
                                                                          {"centimetre", "cm"},
                                                                          {"centimetres", "cm"},
                                                                          {"kilometer", "km"},
                                                                          {"kilometers", "km"},
                                                                          {"kilometre", "km"},
                                                                          {"kilometres", "km"},
                                                                          {"acre", "ac"},
                                                                          {"acres", "ac"},
                                                                          {"hectare", "ha"},
                                                                          {"hectares", "ha"},
                                                                          {"gallon", "gal"},
                                                                          {"gallons", "gal"},
                                                                          {"gals", "gal"},
                                                                          {"us gal", "gal"},
                                                                          {"us gallon", "gal"},
                                                                          {"us gallons", "gal"},
                                                                          {"quart", "qt"},
                                                                          {"quarts", "qt"},
                                                                          {"pint", "pt"},
                                                                          {"pints", "pt"},
                                                                          {"floz", "fl oz"},
                                                                          {"fl. oz", "fl oz"},
                                                                          {"fluid ounce", "fl oz"},
                                                                          {"fluid ounces", "fl oz"},
                                                                          {"liter", "L"},
                                                                          {"liters", "L"},
                                                                          {"litre", "L"},
                                                                          {"litres", "L"},
                                                                          {"milliliter", "mL"},
                                                                          {"milliliters", "mL"},
                                                                          {"millilitre", "mL"},
                                                                          {"millilitres", "mL"},
                                                                          {"sec", "s"},
                                                                          {"second", "s"},
                                                                          {"seconds", "s"},
                                                                          {"mins", "min"},
                                                                          {"minute", "min"},
                                                                          {"minutes", "min"},
                                                                          {"hr", "h"},
                                                                          {"hrs", "h"},
                                                                          {"hour", "h"},
                                                                          {"hours", "h"},
                                                                          {"day", "d"},
                                                                          {"days", "d"},
                                                                          {"pound", "lb"},
                                                                          {"pounds", "lb"},
                                                                          {"lbs", "lb"},
                                                                          {"ounce", "oz"},
                                                                          {"ounces", "oz"},
                                                                          {"kilogram", "kg"},
                                                                          {"kilograms", "kg"},
                                                                          {"gram", "g"},
                                                                          {"grams", "g"},
                                                                          {"tonne", "t"},
                                                                          {"tonnes", "t"},
                                                                          {"kilopascal", "kPa"},
                                                                          {"kilopascals", "kPa"},
                                                                          {"pascal", "Pa"},
                                                                          {"pascals", "Pa"},
                                                                          {"centipoise", "cP"},
                                                                          {"degree", "deg"},
                                                                          {"degrees", "deg"},
                                                                          {"percent", "%"},
                                                                          {"radian", "rad"},
                                                                          {"radians", "rad"}};

inline constexpr std::string_view why_gauge =
    "gauge or absolute is said by the field, not by the unit: write psi or bar";
inline constexpr std::string_view why_imperial =
    "an imperial gallon (4.54609 L) is not the US gallon (3.785412 L) that 'gal' means: give litres";
inline constexpr std::string_view why_ton = "a ton may be 2000 lb, 2240 lb or 1000 kg: write lb or kg";
inline constexpr std::string_view why_kinematic =
    "a kinematic viscosity needs the density: give the dynamic viscosity in cP (cSt times kg/L)";
inline constexpr std::string_view why_ounce = "an ounce is a mass; a fluid ounce is written 'fl oz'";

/// Unit words that could be read two ways, and why each is refused; letters without case.
inline constexpr std::pair<std::string_view, std::string_view> refused[] = {{"psig", why_gauge},
                                                                            {"psia", why_gauge},
                                                                            {"barg", why_gauge},
                                                                            {"bara", why_gauge},
                                                                            {"imp gal", why_imperial},
                                                                            {"imp. gal", why_imperial},
                                                                            {"igal", why_imperial},
                                                                            {"imperial gallon", why_imperial},
                                                                            {"imperial gallons", why_imperial},
                                                                            {"imperial gal", why_imperial},
                                                                            {"uk gal", why_imperial},
                                                                            {"uk gallon", why_imperial},
                                                                            {"uk gallons", why_imperial},
                                                                            {"ton", why_ton},
                                                                            {"tons", why_ton},
                                                                            {"cst", why_kinematic},
                                                                            {"mm2/s", why_kinematic},
                                                                            {"oz", why_ounce}};

template <class Q>
struct KindOf;
template <Kind K>
struct KindIs {
  static constexpr Kind value = K;
};
template <>
struct KindOf<Length> : KindIs<Kind::length> {};
template <>
struct KindOf<Area> : KindIs<Kind::area> {};
template <>
struct KindOf<Volume> : KindIs<Kind::volume> {};
template <>
struct KindOf<Time> : KindIs<Kind::time> {};
template <>
struct KindOf<Speed> : KindIs<Kind::speed> {};
template <>
struct KindOf<Mass> : KindIs<Kind::mass> {};
template <>
struct KindOf<Pressure> : KindIs<Kind::pressure> {};
template <>
struct KindOf<Flow> : KindIs<Kind::flow> {};
template <>
struct KindOf<AreaRate> : KindIs<Kind::area_rate> {};
template <>
struct KindOf<Density> : KindIs<Kind::density> {};
template <>
struct KindOf<Viscosity> : KindIs<Kind::viscosity> {};
template <>
struct KindOf<Temperature> : KindIs<Kind::temperature> {};
template <>
struct KindOf<Angle> : KindIs<Kind::angle> {};
template <>
struct KindOf<MassPerArea> : KindIs<Kind::mass_per_area> {};

}  // namespace units_detail

/// The kind of a quantity type, e.g. kind_of<Length> is Kind::length; other types do not compile.
template <class Q>
inline constexpr Kind kind_of = units_detail::KindOf<Q>::value;

/// Every kind, with its words and its units: what the documentation lists.
[[nodiscard]] constexpr std::span<const KindRow> all_kinds() { return units_detail::kinds; }

/// Words and units of one kind.
[[nodiscard]] constexpr const KindRow& kind_row(Kind kind) {
  return units_detail::kinds[static_cast<std::size_t>(kind)];
}

/// Whether libflow writes a unit of `kind` as `name`; for compile-time checks.
[[nodiscard]] constexpr bool has_unit(Kind kind, std::string_view name) {
  for (const UnitRow& row : kind_row(kind).units) {
    if (row.name == name) return true;
  }
  return false;
}

/// The unit of `kind` that libflow writes as `name`, or a null pointer.
[[nodiscard]] constexpr const UnitRow* find_unit(Kind kind, std::string_view name) {
  for (const UnitRow& row : kind_row(kind).units) {
    if (row.name == name) return &row;
  }
  return nullptr;
}

/// The units of a kind as a list for people: "m, ft, in, ...".
[[nodiscard]] inline std::string allowed_units(Kind kind) {
  std::string list;
  for (const UnitRow& row : kind_row(kind).units) {
    if (!list.empty()) list += ", ";
    list += row.name;
  }
  return list;
}

}  // namespace libflow
