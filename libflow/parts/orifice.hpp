// SPDX-License-Identifier: MIT
/// @file
/// Metering orifice: a small round hole, sharp or thick, known by its bore or by the water it passes.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>
#include <string_view>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: exact creeping resistance at low Reynolds number, free jet at high, a bridge between (physics/orifice.hpp,
/// with sources). The pressure downstream is the liquid's or the air's; the velocity of the jet is lost.
struct Orifice {
  Length bore{};                            ///< 0.05 mm to 50 mm
  Length thickness = from_si<Length>(0.0);  ///< length of the hole, 0 (sharp plate) to 10 bores; longer: use a hose
  /// At high Reynolds number, 0.3 to 1; empty: 0.61 for a sharp plate, rising with the length of the hole
  /// (physics::hole_discharge_coefficient).
  std::optional<double> discharge_coefficient = std::nullopt;

  static constexpr std::string_view kind = "orifice";
  static constexpr Contract contract = Contract::passage;
  static constexpr Range bore_range{5e-5, 0.05};  ///< [m]
  static constexpr Range coefficient_range{0.3, 1.0};

  /// The sharp orifice that passes `flow` of water at 20 C at `pressure` across it.
  /// @throws InputError when no bore in bore_range does
  static Orifice rated(Flow flow, Pressure pressure, std::string_view where = kind);

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, thickness", where), si(thickness), {0.0, physics::hole_length_ratio.high * si(bore)},
               "m");
    if (discharge_coefficient) {
      require_in(fmt::format("{}, discharge coefficient", where), *discharge_coefficient, coefficient_range, "");
    }
  }

  /// The hole's numbers in a liquid.
  [[nodiscard]] physics::Hole<double> hole(double density, double viscosity) const {
    const double ratio = si(thickness) / si(bore);
    const double c = discharge_coefficient.value_or(
        physics::hole_discharge_coefficient<double>(ratio, physics::sharp_discharge_coefficient));
    return physics::hole<double>(si(bore), si(thickness), density, viscosity, c,
                                 physics::sharp_uncontracted * physics::contraction_left<double>(ratio));
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const {
    Law law;
    law.holes.push_back(hole(liquid.density, liquid.viscosity));
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double /*flow*/, double /*inlet_pressure*/, const LiquidState& /*liquid*/) const {
    const double ratio = si(thickness) / si(bore);
    if (!physics::reattaching_length_ratio.contains(ratio)) return {};
    return {{"outside-range",
             {},
             "orifice between sharp and thick: the jet may fill the hole again or not, so its coefficient is uncertain",
             ratio,
             physics::reattaching_length_ratio.high,
             "libflow/physics/orifice.hpp"}};
  }
};

inline Orifice Orifice::rated(Flow flow, Pressure pressure, std::string_view where) {
  require_in(fmt::format("{}, rated flow", where), si(flow), {1e-9, 1.0}, "m3/s");
  require_in(fmt::format("{}, rated pressure", where), si(pressure), {1.0, 1e8}, "Pa");
  const double density = water_density<double>(293.15);
  const double viscosity = water_viscosity<double>(293.15);
  // The drop falls steadily as the bore grows, so log(drop/rated) has one zero.
  const auto miss = [&](double log_bore) {
    const Orifice o{.bore = from_si<Length>(std::exp(log_bore))};
    return std::log(physics::drop_hole<double>(si(flow), o.hole(density, viscosity)).dp / si(pressure));
  };
  const double low = std::log(bore_range.low), high = std::log(bore_range.high);
  if (miss(low) < 0.0 || miss(high) > 0.0) {
    throw InputError(fmt::format("{}, rated flow", where),
                     fmt::format("{:.6g} m3/s of water at {:.6g} Pa is no orifice", si(flow), si(pressure)),
                     fmt::format("a flow that a bore of {:g} to {:g} m passes", bore_range.low, bore_range.high));
  }
  std::uintmax_t steps = 100;
  const auto bracket =
      boost::math::tools::toms748_solve(miss, low, high, boost::math::tools::eps_tolerance<double>(50), steps);
  return {.bore = from_si<Length>(std::exp(0.5 * (bracket.first + bracket.second)))};
}

static_assert(PartType<Orifice>);

}  // namespace libflow
