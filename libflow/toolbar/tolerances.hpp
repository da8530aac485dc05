// SPDX-License-Identifier: MIT
/// @file
/// How much the machine as built and its work may differ from the layout: what a person says of it.
///
/// There are no defaults: how well a hose is cut or an orifice drilled is the user's to say.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>

namespace libflow {

/// A difference from the layout's value as chance: zero is the layout's own value.
struct Distribution {
  /// Its shape.
  enum class Kind {
    normal,      ///< about 0 with a standard deviation
    uniform,     ///< anything from low to high alike
    triangular,  ///< from low to high, 0 the most frequent
    listed       ///< one of the measured differences, each as often as another
  };
  Kind kind = Kind::normal;      ///< its shape
  double deviation = 0;          ///< standard deviation, > 0: normal
  double low = 0, high = 0;      ///< low <= 0 <= high, low < high: uniform, triangular
  std::vector<double> values{};  ///< two or more, rising: listed

  /// @throws InputError
  void check(std::string_view where) const;

  /// The difference below which a share u of them lie. @param u  more than 0, less than 1
  [[nodiscard]] double quantile(double u) const;
  /// Of the difference [as the difference].
  [[nodiscard]] double mean() const;
  /// Of the difference, squared.
  [[nodiscard]] double variance() const;
};

/// What can differ. The first four are of each row, the others of the whole machine and its work.
enum class ToleranceOf {
  orifice_bore,
  hose_length,
  hose_bore,
  crack,
  viscosity,
  density,
  temperature,
  side_slope,
  fore_aft_slope,
  speed,
  rate,
  pressure
};

/// As a layout file writes them, and the unit of the difference [SI].
struct ToleranceName {
  ToleranceOf of;                      ///< what differs
  std::string_view name, words, unit;  ///< in a file, in a report, of the difference
};
/// In the order of ToleranceOf.
inline constexpr std::array<ToleranceName, 12> tolerance_names{{
    {ToleranceOf::orifice_bore, "orifice_bore", "orifice bore", "m"},
    {ToleranceOf::hose_length, "hose_length", "hose length", "m"},
    {ToleranceOf::hose_bore, "hose_bore", "hose bore", "m"},
    {ToleranceOf::crack, "crack", "crack pressure", "Pa"},
    {ToleranceOf::viscosity, "viscosity", "viscosity", "Pa s"},
    {ToleranceOf::density, "density", "density", "kg/m3"},
    {ToleranceOf::temperature, "temperature", "temperature", "K"},
    {ToleranceOf::side_slope, "side_slope", "side slope", "rad"},
    {ToleranceOf::fore_aft_slope, "fore_aft_slope", "fore-aft slope", "rad"},
    {ToleranceOf::speed, "speed", "speed", "m/s"},
    {ToleranceOf::rate, "rate", "rate", "m3/m2"},
    {ToleranceOf::pressure, "pressure", "supply pressure", "Pa"},
}};
/// Its names.
[[nodiscard]] constexpr const ToleranceName& name_of(ToleranceOf of) {
  return tolerance_names[static_cast<std::size_t>(of)];
}
/// True for what every row has of its own.
[[nodiscard]] constexpr bool by_row(ToleranceOf of) { return of <= ToleranceOf::crack; }

/// One source of difference. Sources are independent of each other; several of the same kind add up (each orifice's own
/// scatter and a whole batch that is too wide, say).
struct Tolerance {
  ToleranceOf of = ToleranceOf::orifice_bore;  ///< what differs
  Distribution difference{};                   ///< from the layout's value
  bool relative = false;                       ///< the difference is a share of the layout's value, not [SI]
  std::vector<int> batch{};  ///< by row: rows of one number share one draw; empty: every row has its own
  std::string name{};        ///< for reports; empty: what it is of

  /// For reports.
  [[nodiscard]] std::string shown_name() const {
    if (!name.empty()) return name;
    return std::string(name_of(of).words) + (batch.empty() ? "" : ", by batch");
  }
};

}  // namespace libflow
