// SPDX-License-Identifier: MIT
/// @file
/// Hose that carries a suspension: a liquid that thins with shear, by the power law with your two constants.
#pragma once

#include <cmath>
#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/power_law.hpp>

namespace libflow {

/// A hose for a liquid whose shear stress is K x (shear rate)^n. Density is the liquid's; its viscosity is not used:
/// K and n take its place, at the temperature they were measured at.
///
/// Law: laminar exact, Dodge and Metzner 1959 for turbulent flow in a smooth bore, a smooth cubic between
/// (physics/power_law.hpp, with sources). n = 1 is a liquid of viscosity K in a smooth hose.
struct SuspensionHose {
  Length length{};           ///< more than 0, at most 1000 m
  Length bore{};             ///< inside diameter, 0.1 mm to 0.5 m
  double consistency = 0.0;  ///< K [Pa s^n] (its unit depends on n, so it is a plain number), 1e-5 to 1e4
  double flow_index = 0.0;   ///< n [-], 0.2 to 1
  /// Shear rate [1/s] below which the viscosity is taken as constant, 1e-4 to 1e3. No liquid thickens without end, and
  /// without this a power law would be infinitely stiff at rest. Default 0.01 1/s (our choice, no source): thousands of
  /// times below the shear in a working hose, so that the drop there is the power law's to about one part in a million.
  double plateau_shear_rate = 0.01;
  std::optional<Pressure> rating = std::nullopt;  ///< working pressure; a caution when the inlet is above it

  static constexpr std::string_view kind = "suspension hose";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"length", "m", &SuspensionHose::length},
                                     Input{"bore", "m", &SuspensionHose::bore},
                                     Input{"consistency", "Pa s^n", &SuspensionHose::consistency},
                                     Input{"flow index", "", &SuspensionHose::flow_index},
                                     Input{"plateau shear rate", "1/s", &SuspensionHose::plateau_shear_rate}};
  static constexpr Range consistency_range{1e-5, 1e4};  ///< K [Pa s^n]
  static constexpr Range plateau_range{1e-4, 1e3};      ///< shear rate of the plateau [1/s]
  /// Below this many times the plateau's shear rate the assumed plateau begins to show in the drop.
  static constexpr double plateau_margin = 10.0;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, length", where), si(length), Hose::length_range, "m");
    require_in(fmt::format("{}, bore", where), si(bore), Hose::bore_range, "m");
    require_in(fmt::format("{}, consistency", where), consistency, consistency_range, "Pa s^n");
    require_in(fmt::format("{}, flow index", where), flow_index, physics::power_law_index, "");
    require_in(fmt::format("{}, plateau shear rate", where), plateau_shear_rate, plateau_range, "1/s");
    if (rating) require_in(fmt::format("{}, rating", where), si(*rating), {1.0, 1e8}, "Pa");
  }

  /// The hose's numbers at a density [kg/m3].
  [[nodiscard]] physics::PowerLawTube<double> tube(double density) const {
    return physics::power_law_tube<double>(si(length), si(bore), density, consistency, flow_index, plateau_shear_rate);
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 5>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law;
    law.functions.emplace_back([t = physics::power_law_tube<S>(in[0], in[1], liquid.density, in[2], in[3], in[4])](
                                   const S& q) { return physics::drop_power_law<S>(q, t); });
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }
  /// Generalised Reynolds number (Metzner and Reed) at a flow [m3/s]: laminar to 3370 - 1370 n, turbulent from 2000
  /// more.
  [[nodiscard]] double reynolds_number(double flow, const LiquidState& liquid) const {
    return physics::generalised_reynolds_number<double>(flow, tube(liquid.density));
  }
  /// Viscosity at rest, K G^(n-1) with the plateau's shear rate G.
  [[nodiscard]] Viscosity viscosity_at_rest() const {
    return from_si<Viscosity>(consistency * std::pow(plateau_shear_rate, flow_index - 1.0));
  }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    Cautions found;
    caution_above_rating(found, "hose", inlet_pressure, rating);
    const auto numbers = tube(liquid.density);
    const auto outside = [&](std::string_view text, double value, double limit) {
      found.push_back({"outside-range", {}, std::string(text), value, limit, "libflow/physics/power_law.hpp"});
    };
    const double shear = std::abs(flow) * numbers.shear_per_flow * plateau_shear_rate;
    if (flow != 0.0 && flow_index < 1.0 && shear < plateau_margin * plateau_shear_rate) {
      outside(
          "suspension almost at rest: shear rate so low that the drop rests on the assumed plateau; a gelled or "
          "settled suspension may not flow at all",
          shear, plateau_margin * plateau_shear_rate);
    }
    const double re = physics::generalised_reynolds_number<double>(flow, numbers);
    if (re > numbers.low && flow_index < physics::dodge_metzner_index.low) {
      outside("flow index below the range of the turbulent formula", flow_index, physics::dodge_metzner_index.low);
    }
    if (re > physics::dodge_metzner_re.high) {
      outside("generalised Reynolds number above the range of the turbulent formula", re,
              physics::dodge_metzner_re.high);
    }
    return found;
  }
};

static_assert(PartType<SuspensionHose>);

}  // namespace libflow
