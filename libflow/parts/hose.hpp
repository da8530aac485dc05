// SPDX-License-Identifier: MIT
/// @file
/// Hose or tube: wall friction in a full, round, smooth or rough bore.
#pragma once

#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// A hose, a tube, or a length of manifold bar between two ports.
///
/// Law: Darcy-Weisbach with 64/Re below Re 2000, Colebrook-White above 4000, a smooth cubic between
/// (physics/friction.hpp, with sources). Entrance and curvature losses are not included.
struct Hose {
  Length length{};                             ///< more than 0, at most 1000 m
  Length bore{};                               ///< inside diameter, 0.1 mm to 0.5 m
  Length roughness = from_si<Length>(1.5e-6);  ///< 0 to 0.05 bore; default: drawn tubing, L. F. Moody, Trans. ASME 66
                                               ///< (1944) 671 (0.0015 mm, from memory)
  std::optional<Pressure> rating = std::nullopt;  ///< working pressure; a caution when the inlet is above it

  static constexpr std::string_view kind = "hose";
  static constexpr Contract contract = Contract::passage;
  /// Allowed values [m].
  static constexpr Range length_range{1e-6, 1000.0};
  static constexpr Range bore_range{1e-4, 0.5};

  void check(std::string_view where) const {
    require_in(fmt::format("{}, length", where), si(length), length_range, "m");
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, roughness", where), si(roughness), {0.0, physics::colebrook_roughness.high * si(bore)},
               "m");
    if (rating) require_in(fmt::format("{}, rating", where), si(*rating), {1.0, 1e8}, "Pa");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const {
    Law law;
    law.friction.push_back(
        physics::wall_friction<double>(si(length), si(bore), si(roughness), liquid.density, liquid.viscosity));
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    Cautions found;
    if (rating && inlet_pressure > si(*rating)) {
      found.push_back({"above-working-pressure",
                       {},
                       "pressure is above the hose's working pressure: a burst hose can injure; the maker's rating, "
                       "local code and a qualified person decide",
                       inlet_pressure,
                       si(*rating),
                       "rating given in the layout"});
    }
    const double re = physics::reynolds_number(flow, si(bore), liquid.density, liquid.viscosity);
    if (re > physics::colebrook_re.high) {
      found.push_back({"outside-range",
                       {},
                       "Reynolds number above the range of the friction formula",
                       re,
                       physics::colebrook_re.high,
                       "libflow/physics/friction.hpp"});
    }
    return found;
  }
};

static_assert(PartType<Hose>);

}  // namespace libflow
