// SPDX-License-Identifier: MIT
/// @file
/// Why a whole bar collects more or less than the layout says: what each thing that moves all rows alike would have to
/// be for the cups to fit.
///
/// Gauge, time, liquid and orifice set move every row by about the same share. Rows are compared with each other, so
/// none of these shows there; held against the layout, they show first.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_readings.hpp>

namespace libflow {

/// A ratio of units by which a whole catch may be too large or too small.
struct LevelSlip {
  double factor = 1;    ///< above 1 [-]
  const char* of = "";  ///< the units, "fl oz to ml"
};

/// How near a bar's ratio must be to that of two units: gauge, watch and cups are good to that (common practice, no
/// source) [-].
inline constexpr double level_slip_width = 0.06;

/// Ratios of units for volumes and times that are confused; the factors are those of units/quantity.hpp.
[[nodiscard]] const std::vector<LevelSlip>& level_slips();

/// The ratio that a change of the whole bar is, either way up; empty where it is none.
/// @param change  caught over expected, less one [-]
[[nodiscard]] std::optional<LevelSlip> slip_of(double change);

/// How a bar as a whole stands against the layout at one setting. SI.
struct CatchLevel {
  double change = 0;       ///< of the middle row (the median): caught over expected, less one [-]
  bool off = false;        ///< beyond level_limit(), and beyond what reading errors do
  bool every_row = false;  ///< every row that was read is off to the same side, by half of the limit or more
  std::optional<LevelSlip> slip = std::nullopt;  ///< the ratio of two units that the change is; only where `off`

  // What would make the middle row fit, everything else as the layout says; filled when `off`.
  double time = NAN;           ///< that the cups were held [s]
  double gauge = NAN;          ///< pressure where the gauge stands [Pa]; NaN: none fits, or the layout is free-form
  double orifice_share = NAN;  ///< bore of every orifice over the layout's [-]; NaN: none fits, or no orifices
  double other_liquid = NAN;   ///< change if it was water instead of the product, or the other way round [-]
  double thinnest = NAN;       ///< change at the lower end of the viscosity's band [-]; NaN: no band is known
  double thickest = NAN;       ///< change at its upper end [-]

  /// True where the other liquid makes the change, to a tenth of what is caught.
  [[nodiscard]] bool other_liquid_fits() const { return std::abs((1.0 + other_liquid) / (1.0 + change) - 1.0) < 0.1; }
  /// True where the band of the product's viscosity reaches as far.
  [[nodiscard]] bool viscosity_fits() const { return change >= thickest && change <= thinnest; }
};

/// Compares the middle row with the layout and, where the bar is off, looks for what would fit.
/// @param layout    as it was meant
/// @param caught    the layout as it was caught: with its liquid, at its pressure
/// @param volumes   mean cup of each row of `caught`, shut ones included [m3]; negative: not read
/// @param error     standard deviation of one row's mean as a share of it [-]
[[nodiscard]] CatchLevel catch_level(const Layout& layout, const Answer& caught, const std::vector<double>& volumes,
                                     double error, const CatchReadings& readings, const CatchSetup& setup);

}  // namespace libflow
