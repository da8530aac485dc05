// SPDX-License-Identifier: MIT
/// @file
/// Hose or tube: wall friction in a full, round, smooth or rough bore, straight or coiled.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/curvature.hpp>
#include <libflow/physics/developing_flow.hpp>

namespace libflow {

/// What the inside of a hose or tube is made of, for its roughness.
enum class Wall {
  drawn_tubing,      ///< brass, copper, glass, plastic: smooth to the touch
  rubber,            ///< smooth lining
  stainless_steel,   ///< tube
  new_steel,         ///< commercial steel pipe, not rusted
  galvanized_steel,  ///< pipe
  cast_iron          ///< fitting or pipe, not lined
};

/// Absolute roughness of a wall and where it is from.
struct WallRoughness {
  Wall wall;                ///< which
  std::string_view name;    ///< as a person writes it
  Length roughness;         ///< of the wall
  std::string_view source;  ///< where the figure comes from
};

namespace hose_detail {
inline constexpr std::string_view moody = "L. F. Moody, Trans. ASME 66 (1944) 671, fig. 2 (from memory)";
/// The same figures within 2 % stand in an open package's table of roughness (tested).
inline constexpr std::string_view moody_met = "L. F. Moody, Trans. ASME 66 (1944) 671, fig. 2";
inline constexpr std::string_view texts =
    "Y. A. Cengel, J. M. Cimbala, Fluid Mechanics, table of equivalent roughness, new pipes (from memory)";
}  // namespace hose_detail

/// For new walls, give or take half; scale and deposits make any wall rougher.
inline constexpr std::array<WallRoughness, 6> wall_roughness_table{{
    {Wall::drawn_tubing, "drawn tubing", from_si<Length>(1.5e-6), hose_detail::moody_met},
    {Wall::rubber, "rubber", from_si<Length>(1e-5), hose_detail::texts},
    {Wall::stainless_steel, "stainless steel", from_si<Length>(2e-6), hose_detail::texts},
    {Wall::new_steel, "new steel", from_si<Length>(4.6e-5), hose_detail::moody},
    {Wall::galvanized_steel, "galvanized steel", from_si<Length>(1.5e-4), hose_detail::moody_met},
    {Wall::cast_iron, "cast iron", from_si<Length>(2.6e-4), hose_detail::moody_met},
}};

/// Absolute roughness of a wall: `Hose{.length = 14.0 * ft, .bore = 1.0 * inch, .roughness =
/// roughness_of(Wall::rubber)}`.
[[nodiscard]] constexpr Length roughness_of(Wall wall) {
  return wall_roughness_table[static_cast<std::size_t>(wall)].roughness;
}

/// The caution for a part that stands above its working pressure, if it does.
/// @param part           as in "the hose's working pressure"
/// @param inlet_pressure [Pa gauge]
/// @param rating         working pressure; empty: unknown, no caution
inline void caution_above_rating(Cautions& found, std::string_view part, double inlet_pressure,
                                 const std::optional<Pressure>& rating) {
  if (!rating || inlet_pressure <= si(*rating)) return;
  found.push_back(
      {"above-working-pressure",
       {},
       fmt::format("pressure is above the {}'s working pressure: a burst hose can injure; the maker's rating, "
                   "local code and a qualified person decide",
                   part),
       inlet_pressure,
       si(*rating),
       "rating given in the layout"});
}

/// A hose, a tube, or a length of manifold bar between two ports.
///
/// Law: Darcy-Weisbach with 64/Re below Re 2000, Colebrook-White above 4000, a smooth cubic between
/// (physics/friction.hpp, with sources). Coiled: physics/curvature.hpp. With `entrance`: physics/developing_flow.hpp.
struct Hose {
  Length length{};                                ///< more than 0, at most 1000 m
  Length bore{};                                  ///< inside diameter, 0.1 mm to 0.5 m
  Length roughness = from_si<Length>(1.5e-6);     ///< 0 to 0.05 bore; default: Wall::drawn_tubing
  std::optional<Pressure> rating = std::nullopt;  ///< working pressure; a caution when the inlet is above it
  /// For the outside diameter only; 0.01 mm to 0.1 m.
  std::optional<Length> wall_thickness = std::nullopt;
  /// Liquid enters with an even velocity, as from a manifold or a tank, and the profile forms in this hose: adds the
  /// loss of developing laminar flow, at most 1.25 velocity heads. Off unless wanted, because it belongs to a hose's
  /// inlet end: a hose drawn as two in series would pay it twice. In a coil it is taken as in a straight tube.
  bool entrance = false;
  /// Between centres of the hose, if it lies coiled: 1/0.15 bores to 1000 m. Empty: straight.
  std::optional<Length> coil_diameter = std::nullopt;

  static constexpr std::string_view kind = "hose";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"length", "m", &Hose::length}, Input{"bore", "m", &Hose::bore},
                                     Input{"roughness", "m", &Hose::roughness},
                                     Input{"coil diameter", "m", &Hose::coil_diameter}};
  /// Allowed values [m].
  static constexpr Range length_range{1e-6, 1000.0};
  static constexpr Range bore_range{1e-4, 0.5};            ///< [m]
  static constexpr Range wall_thickness_range{1e-5, 0.1};  ///< [m]

  void check(std::string_view where) const {
    require_in(fmt::format("{}, length", where), si(length), length_range, "m");
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, roughness", where), si(roughness), {0.0, physics::colebrook_roughness.high * si(bore)},
               "m");
    if (rating) require_in(fmt::format("{}, rating", where), si(*rating), {1.0, 1e8}, "Pa");
    if (wall_thickness) {
      require_in(fmt::format("{}, wall thickness", where), si(*wall_thickness), wall_thickness_range, "m");
    }
    if (coil_diameter) {
      require_in(fmt::format("{}, coil diameter", where), si(*coil_diameter),
                 {si(bore) / physics::coil_curvature.high, 1000.0}, "m");
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 4>& in, const LiquidNumbers<S>& liquid) const {
    const auto& [l, d, e, coil_d] = in;
    BasicLaw<S> law;
    const auto straight = physics::wall_friction<S>(l, d, e, liquid.density, liquid.viscosity);
    if (coil_diameter) {
      law.functions.emplace_back([coil = physics::coil_friction<S>(straight, S(d / coil_d))](const S& q) {
        return physics::drop_coil_friction<S>(q, coil);
      });
    } else {
      law.friction.push_back(straight);
    }
    if (entrance) {
      const auto beginning = physics::development<S>(l, d, liquid.density, liquid.viscosity);
      law.functions.emplace_back([beginning](const S& q) { return physics::drop_development<S>(q, beginning); });
    }
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }
  /// Bore and two walls, if the wall is known.
  [[nodiscard]] std::optional<Length> outside_diameter() const {
    if (!wall_thickness) return std::nullopt;
    return bore + 2.0 * *wall_thickness;
  }
  /// Bore over coil diameter [-]; 0: straight.
  [[nodiscard]] double curvature() const { return coil_diameter ? si(bore) / si(*coil_diameter) : 0.0; }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    Cautions found;
    caution_above_rating(found, kind, inlet_pressure, rating);
    const double re = physics::reynolds_number(flow, si(bore), liquid.density, liquid.viscosity);
    const auto outside = [&](std::string_view text, double value, double limit, std::string_view source) {
      found.push_back({"outside-range", {}, std::string(text), value, limit, std::string(source)});
    };
    if (re > physics::colebrook_re.high) {
      outside("Reynolds number above the range of the friction formula", re, physics::colebrook_re.high,
              "libflow/physics/friction.hpp");
    }
    if (coil_diameter) {
      const double dean = physics::dean_number<double>(re, curvature());
      const bool laminar = re < physics::coil_laminar_limit_re<double>(curvature());
      if (laminar && dean > physics::coil_dean_limit) {
        outside("Dean number above the range of the coil's laminar formula", dean, physics::coil_dean_limit,
                "libflow/physics/curvature.hpp");
      }
      if (!laminar && re > physics::coil_re_limit) {
        outside("Reynolds number above the range of the coil's turbulent formula", re, physics::coil_re_limit,
                "libflow/physics/curvature.hpp");
      }
    }
    if (entrance && re > physics::laminar_limit_re) {
      outside("Reynolds number above the range of the formula for the hose's beginning", re, physics::laminar_limit_re,
              "libflow/physics/developing_flow.hpp");
    }
    return found;
  }
};

static_assert(PartType<Hose>);

}  // namespace libflow
