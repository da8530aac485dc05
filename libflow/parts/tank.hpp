// SPDX-License-Identifier: MIT
/// @file
/// Tank: level to volume and back for the shapes in use, and the pressure that it holds at its outlet.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/physics/monotone_curve.hpp>
#include <libflow/physics/tank_shape.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// Upright cylinder or box: the same plan at every level.
struct UprightTank {
  Area plan{};      ///< inside, 1 cm2 to 1000 m2
  Length height{};  ///< inside, 1 cm to 20 m

  /// Round, of this inside diameter.
  static UprightTank round(Length diameter, Length height) {
    return {.plan = from_si<Area>(std::numbers::pi / 4.0 * si(diameter) * si(diameter)), .height = height};
  }
  /// With a flat, rectangular bottom.
  static UprightTank box(Length length, Length width, Length height) {
    return {.plan = from_si<Area>(si(length) * si(width)), .height = height};
  }
};

/// Lying cylinder, round or elliptical, with flat ends (rounded ends hold more: give a table).
struct LyingTank {
  Length height{};  ///< inside, 1 cm to 20 m; equal to the width: round
  Length width{};   ///< inside, 1 cm to 20 m
  Length length{};  ///< inside, 1 cm to 100 m

  /// With a round section.
  static LyingTank round(Length diameter, Length length) {
    return {.height = diameter, .width = diameter, .length = length};
  }
};

/// Any other shape: what a dipstick says.
struct TankTable {
  /// One line of the table.
  struct Row {
    Length level{};   ///< above the inside bottom; first row 0, then rising
    Volume volume{};  ///< first row 0, then rising
  };
  std::vector<Row> rows{};  ///< 4 or more; joined by monotone cubic pieces (Boost.Math's pchip)
};

/// One of the three.
using TankShape = std::variant<UprightTank, LyingTank, TankTable>;

/// A tank. Levels are above its inside bottom. It joins a network as a supply (add_tank, libflow/network).
struct Tank {
  TankShape shape{};  ///< and size
  /// Gauge, of the air above the liquid; 0 with an open vent. A shut vent makes it fall as liquid leaves: a stuck vent
  /// can be tried with less than 0. -50 kPa to 1 MPa.
  Pressure top_pressure = from_si<Pressure>(0.0);
  Length outlet_level = from_si<Length>(0.0);  ///< of the outlet's opening, 0 to below the tank's height
  /// Below this level nothing is drawn (dead bottom, vortex, outlet). At least the outlet's level.
  Length lowest_level = from_si<Length>(0.0);

  static constexpr std::string_view kind = "tank";
  static constexpr Range plan_range{1e-4, 1e3};          ///< [m2]
  static constexpr Range height_range{0.01, 20.0};       ///< [m]
  static constexpr Range length_range{0.01, 100.0};      ///< [m]
  static constexpr Range top_pressure_range{-5e4, 1e6};  ///< [Pa]
  static constexpr std::size_t fewest_rows = 4;          ///< so that the table has a shape

  void check(std::string_view where) const {
    std::visit([&](const auto& s) { check_shape(s, where); }, shape);
    require_in(fmt::format("{}, top pressure", where), si(top_pressure), top_pressure_range, "Pa");
    const double top = si(height());
    require_in(fmt::format("{}, outlet level", where), si(outlet_level), {0.0, top}, "m");
    require_in(fmt::format("{}, lowest level", where), si(lowest_level), {si(outlet_level), top}, "m");
  }

  /// Highest level.
  [[nodiscard]] Length height() const {
    if (const auto* s = std::get_if<TankTable>(&shape)) return s->rows.back().level;
    if (const auto* s = std::get_if<LyingTank>(&shape)) return s->height;
    return std::get<UprightTank>(shape).height;
  }
  /// Volume of the full tank.
  [[nodiscard]] Volume capacity() const { return volume(height()); }

  /// @throws InputError for a level out of the tank
  [[nodiscard]] Volume volume(Length level, std::string_view where = kind) const {
    return from_si<Volume>(filling(checked(level, where)).volume);
  }
  /// Free surface: what the volume gains for each metre of level [m2].
  [[nodiscard]] Area surface(Length level, std::string_view where = kind) const {
    return from_si<Area>(filling(checked(level, where)).surface);
  }
  /// @throws InputError for a volume that the tank does not hold
  [[nodiscard]] Length level(Volume volume, std::string_view where = kind) const {
    const double v = si(volume), full = si(capacity()), top = si(height());
    require_in(fmt::format("{}, volume", where), v, {0.0, full}, "m3");
    if (v == 0.0) return from_si<Length>(0.0);
    if (v == full) return height();
    // The volume rises with the level: one zero.
    std::uintmax_t steps = 200;
    const auto bracket = boost::math::tools::toms748_solve([&](double h) { return filling(h).volume - v; }, 0.0, top,
                                                           boost::math::tools::eps_tolerance<double>(52), steps);
    return from_si<Length>(0.5 * (bracket.first + bracket.second));
  }
  /// What can be drawn from this level down to the lowest. @throws InputError for a level out of the tank
  [[nodiscard]] Volume usable_volume(Length level, std::string_view where = kind) const {
    const double left = si(volume(level, where)) - si(volume(lowest_level, where));
    return from_si<Volume>(std::max(left, 0.0));
  }

  /// Total pressure (gauge) of the liquid at the outlet's level.
  /// @throws InputError for a level out of the tank or below the lowest
  [[nodiscard]] Pressure outlet_pressure(Length level, const LiquidState& liquid, std::string_view where = kind) const {
    require_in(fmt::format("{}, level", where), si(level), {si(lowest_level), si(height())}, "m");
    return from_si<Pressure>(si(top_pressure) + liquid.density * standard_gravity * (si(level) - si(outlet_level)));
  }

 private:
  using Curve = physics::MonotoneCurve;

  [[nodiscard]] double checked(Length level, std::string_view where) const {
    require_in(fmt::format("{}, level", where), si(level), {0.0, si(height())}, "m");
    return si(level);
  }

  [[nodiscard]] physics::Filling<double> filling(double level) const {
    if (const auto* s = std::get_if<UprightTank>(&shape)) return physics::upright_filling(si(s->plan), level);
    if (const auto* s = std::get_if<LyingTank>(&shape)) {
      return physics::lying_filling(si(s->height), si(s->width), si(s->length), level);
    }
    std::vector<double> x, y;
    for (const TankTable::Row& row : std::get<TankTable>(shape).rows) {
      x.push_back(si(row.level));
      y.push_back(si(row.volume));
    }
    const Curve curve(std::move(x), std::move(y));
    return {curve(level), curve.prime(level)};
  }

  static void check_shape(const UprightTank& s, std::string_view where) {
    require_in(fmt::format("{}, plan", where), si(s.plan), plan_range, "m2");
    require_in(fmt::format("{}, height", where), si(s.height), height_range, "m");
  }
  static void check_shape(const LyingTank& s, std::string_view where) {
    require_in(fmt::format("{}, height", where), si(s.height), height_range, "m");
    require_in(fmt::format("{}, width", where), si(s.width), height_range, "m");
    require_in(fmt::format("{}, length", where), si(s.length), length_range, "m");
  }
  static void check_shape(const TankTable& s, std::string_view where) {
    if (s.rows.size() < fewest_rows) {
      throw InputError(fmt::format("{}, table", where), fmt::format("{} rows", s.rows.size()),
                       fmt::format("{} rows or more, the first of level 0 and volume 0", fewest_rows));
    }
    for (std::size_t i = 0; i < s.rows.size(); ++i) {
      const std::string row = fmt::format("{}, table row {}", where, i + 1);
      const double level = si(s.rows[i].level), volume = si(s.rows[i].volume);
      require_in(row + ", level", level, {0.0, height_range.high}, "m");
      require_in(row + ", volume", volume, {0.0, 1e5}, "m3");
      if (i == 0 ? level != 0.0 || volume != 0.0
                 : !(level - si(s.rows[i - 1].level) >= 1e-6 && volume > si(s.rows[i - 1].volume))) {
        throw InputError(
            row, fmt::format("level {:.6g} m, volume {:.6g} m3", level, volume),
            i == 0 ? "level 0 and volume 0 in the first row" : "level and volume above those of the row before");
      }
    }
  }
};

}  // namespace libflow
