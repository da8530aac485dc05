// SPDX-License-Identifier: MIT
/// @file
/// Centrifugal pump at one speed: a gain in pressure that falls as the flow rises, and no flow back.
#pragma once

#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/pump.hpp>

namespace libflow {

/// Law: gain = shutoff - b q - a q^2 with the given share of the fall made by the linear term, so that the gain is zero
/// at `free_flow`. Beyond it the pump is a resistance (liquid driven through it). Flow back is stopped (a foot or check
/// valve; common practice). The curve is for the liquid at hand: pumps are rated on water, and thick liquids lower the
/// curve. Speed laws: flow with speed, gain with its square (affinity laws, any pump handbook).
struct CentrifugalPump {
  Pressure shutoff{};          ///< gain at no flow, 1 Pa to 5 MPa
  Flow free_flow{};            ///< flow at no gain, more than 0, at most 1 m3/s
  double linear_share = 0.05;  ///< of the fall that is linear in flow, 0.001 to 1
  double speed = 1.0;          ///< against the curve's speed, 0.05 to 3
  /// Of the pump alone (or with its motor, then the power is the motor's), near its working flow, 0.01 to 1. Not in the
  /// law: for the shaft power.
  std::optional<double> efficiency = std::nullopt;

  static constexpr std::string_view kind = "centrifugal pump";
  static constexpr Contract contract = Contract::source;
  static constexpr std::tuple inputs{
      Input{"shutoff", "Pa", &CentrifugalPump::shutoff}, Input{"free flow", "m3/s", &CentrifugalPump::free_flow},
      Input{"linear share", "", &CentrifugalPump::linear_share}, Input{"speed", "", &CentrifugalPump::speed}};
  static constexpr Range shutoff_range{1.0, 5e6};     ///< [Pa]
  static constexpr Range free_flow_range{1e-9, 1.0};  ///< [m3/s]

  void check(std::string_view where) const {
    require_in(fmt::format("{}, shutoff", where), si(shutoff), shutoff_range, "Pa");
    require_in(fmt::format("{}, free flow", where), si(free_flow), free_flow_range, "m3/s");
    require_in(fmt::format("{}, linear share", where), linear_share, {0.001, 1.0}, "");
    require_in(fmt::format("{}, speed", where), speed, {0.05, 3.0}, "");
    if (efficiency) {
      require_in(fmt::format("{}, efficiency", where), *efficiency, physics::pump_efficiency_range, "");
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 4>& in, const LiquidNumbers<S>& /*liquid*/) const {
    const auto& [p0, q0, straight, n] = in;
    // n^2 p0 - n b q - a q^2, b and a from the curve at full speed.
    BasicLaw<S> law;
    law.threshold = -p0 * n * n;
    law.linear = straight * p0 / q0 * n;
    law.quadratic = (S(1.0) - straight) * p0 / (q0 * q0);
    law.passes = Passes::forward;
    return law;
  }

  /// At the shaft [W]; empty without an efficiency, or where the pump does no work.
  [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const {
    return pump_shaft_power(law(liquid), flow, efficiency);
  }
};

static_assert(PartType<CentrifugalPump>);

}  // namespace libflow
