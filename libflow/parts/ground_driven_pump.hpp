// SPDX-License-Identifier: MIT
/// @file
/// Ground-driven pump: a positive pump turned by a ground wheel, so that its flow follows the ground speed.
#pragma once

#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/positive_pump.hpp>

namespace libflow {

/// Law: as PositivePump's, the swept flow being displacement / distance x ground speed. The rate per area then does not
/// change with speed but for the slip.
struct GroundDrivenPump {
  Volume displacement{};                                ///< swept over `distance`, more than 0, at most 1 m3
  Length distance{};                                    ///< travelled meanwhile, 1 mm to 10 km
  Speed ground_speed{};                                 ///< 0.01 to 20 m/s
  PumpSlip slip{};                                      ///< measured once
  std::optional<Pressure> max_pressure = std::nullopt;  ///< at the outlet, gauge, to 20 MPa
  /// Of the whole pump (slip and friction together; with its drive, then the power is the drive's) near its working
  /// point, 0.01 to 1. Not in the law: for the shaft power.
  std::optional<double> efficiency = std::nullopt;

  static constexpr std::string_view kind = "ground-driven pump";
  static constexpr Contract contract = Contract::source;
  static constexpr std::tuple inputs{
      Input{"displacement", "m3", &GroundDrivenPump::displacement},
      Input{"distance", "m", &GroundDrivenPump::distance},
      Input{"ground speed", "m/s", &GroundDrivenPump::ground_speed},
      Input{"slip flow", "m3/s", [](auto& p) -> decltype(auto) { return (p.slip.flow); }},
      Input{"slip gain", "Pa", [](auto& p) -> decltype(auto) { return (p.slip.gain); }},
      Input{"slip viscosity", "Pa s", [](auto& p) -> decltype(auto) { return (p.slip.viscosity); }}};
  static constexpr Range displacement_range{1e-9, 1.0};  ///< [m3]
  static constexpr Range distance_range{1e-3, 1e4};      ///< [m]
  static constexpr Range speed_range{0.01, 20.0};        ///< [m/s]

  /// Flow that it sweeps at its speed, slip not taken off.
  [[nodiscard]] Flow swept() const {
    return from_si<Flow>(physics::swept_flow(si(displacement), si(ground_speed) / si(distance)));
  }
  /// What it sweeps per area of field over a working width. @throws InputError for a width out of 1 mm to 1 km
  [[nodiscard]] AreaRate swept_rate(Length width, std::string_view where = kind) const {
    require_in(fmt::format("{}, width", where), si(width), {1e-3, 1e3}, "m");
    return from_si<AreaRate>(si(displacement) / si(distance) / si(width));
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, displacement", where), si(displacement), displacement_range, "m3");
    require_in(fmt::format("{}, distance", where), si(distance), distance_range, "m");
    require_in(fmt::format("{}, ground speed", where), si(ground_speed), speed_range, "m/s");
    require_in(fmt::format("{}, swept flow", where), si(swept()), {1e-12, 1.0}, "m3/s");
    PositivePump::check_slip(where, slip);
    if (efficiency) {
      require_in(fmt::format("{}, efficiency", where), *efficiency, physics::pump_efficiency_range, "");
    }
    if (max_pressure) {
      require_in(fmt::format("{}, maximum pressure", where), si(*max_pressure), PositivePump::max_pressure_range, "Pa");
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 6>& in, const LiquidNumbers<S>& liquid) const {
    return PositivePump::straight_law<S>(physics::swept_flow<S>(in[0], S(in[2] / in[1])), in[3], in[4], in[5], liquid);
  }

  /// At its shaft, from the ground wheel [W]; empty without an efficiency, or where the pump does no work.
  [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const {
    return pump_shaft_power(law(liquid), flow, efficiency);
  }

  /// @param higher_pressure  the higher of the total pressures at the pump's two ends [Pa gauge]
  [[nodiscard]] Cautions cautions(double flow, double higher_pressure, const LiquidState& /*liquid*/) const {
    return PositivePump::positive_cautions(flow, higher_pressure, swept(), max_pressure);
  }
};

static_assert(PartType<GroundDrivenPump>);

}  // namespace libflow
