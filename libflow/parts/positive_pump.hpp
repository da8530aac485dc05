// SPDX-License-Identifier: MIT
/// @file
/// Positive displacement pump: what it sweeps less what slips back, nearly whatever the pressure.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/pump.hpp>

namespace libflow {

/// Slip of a positive pump, measured once: by how much less than it sweeps it delivered, at what gain, in what liquid.
struct PumpSlip {
  Flow flow{};                                          ///< swept less delivered, 1e-12 to 1 m3/s
  Pressure gain{};                                      ///< at which it was measured, 1 kPa to 20 MPa
  Viscosity viscosity = from_si<Viscosity>(1.0016e-3);  ///< of the liquid: water at 20 C
};

/// Law: gain = (swept flow - q) / leak, the leak proportional to the gain and against the viscosity (physics/pump.hpp,
/// with source). So the gain falls in a straight, very steep line from dead-head; no flow back.
///
/// A straight law with no slip at all would be vertical. Slip is therefore taken as at least `least_slip` of the swept
/// flow at the gain at which it was measured, less than anybody measures. A pump without slip is a fed place
/// (Network::add_fed).
///
/// A positive pump needs a relief valve and a way back to the tank (common practice): join a ReliefValve beside it. A
/// part does not see its neighbours: whoever builds the plumbing says `without_relief` where there is none.
struct PositivePump {
  Volume displacement{};                                ///< swept a revolution, more than 0, at most 0.1 m3
  double rpm = 0;                                       ///< revolutions a minute, more than 0, at most 10,000
  PumpSlip slip{};                                      ///< measured once
  std::optional<Pressure> max_pressure = std::nullopt;  ///< at the outlet, gauge, to 20 MPa
  /// Of the whole pump (slip and friction together; with its drive, then the power is the drive's) near its working
  /// point, 0.01 to 1. Not in the law: for the shaft power.
  std::optional<double> efficiency = std::nullopt;

  static constexpr std::string_view kind = "positive pump";
  static constexpr Contract contract = Contract::source;
  static constexpr std::tuple inputs{
      Input{"displacement", "m3", &PositivePump::displacement}, Input{"rpm", "rev/min", &PositivePump::rpm},
      Input{"slip flow", "m3/s", [](auto& p) -> decltype(auto) { return (p.slip.flow); }},
      Input{"slip gain", "Pa", [](auto& p) -> decltype(auto) { return (p.slip.gain); }},
      Input{"slip viscosity", "Pa s", [](auto& p) -> decltype(auto) { return (p.slip.viscosity); }}};
  static constexpr double least_slip = 1e-4;             ///< of the swept flow at the stated gain; see above [-]
  static constexpr Range displacement_range{1e-9, 0.1};  ///< [m3]
  static constexpr Range rpm_range{0.01, 1e4};           ///< [1/min]
  static constexpr Range slip_flow_range{1e-12, 1.0};    ///< [m3/s]
  static constexpr Range gain_range{1e3, 2e7};           ///< [Pa]
  static constexpr Range max_pressure_range{1e3, 2e7};   ///< [Pa]
  /// More slip than this share of the swept flow raises "pump-slips" (common practice, no source).
  static constexpr double slip_limit = 0.5;

  /// Flow that it sweeps at its speed, slip not taken off.
  [[nodiscard]] Flow swept() const { return from_si<Flow>(physics::swept_flow(si(displacement), rpm / 60.0)); }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, displacement", where), si(displacement), displacement_range, "m3");
    require_in(fmt::format("{}, rpm", where), rpm, rpm_range, "rev/min");
    check_slip(where, slip);
    if (efficiency) {
      require_in(fmt::format("{}, efficiency", where), *efficiency, physics::pump_efficiency_range, "");
    }
    if (max_pressure) {
      require_in(fmt::format("{}, maximum pressure", where), si(*max_pressure), max_pressure_range, "Pa");
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 5>& in, const LiquidNumbers<S>& liquid) const {
    return straight_law<S>(physics::swept_flow<S>(in[0], S(in[1] / S(60.0))), in[2], in[3], in[4], liquid);
  }

  /// At the shaft [W]; empty without an efficiency, or where the pump does no work.
  [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const {
    return pump_shaft_power(law(liquid), flow, efficiency);
  }

  /// The caution for a positive pump without a relief valve beside it.
  [[nodiscard]] static Caution without_relief(std::string_view subject) {
    return {
        .code = "no-relief-valve",
        .subject = std::string(subject),
        .text =
            "a positive pump pushes until something gives way: with its outlets shut, pressure rises until a hose "
            "bursts, the drive stalls or the pump breaks; fit a relief valve with a way back to the tank, set below "
            "the lowest working pressure in the line",
        .source = "common practice; the pump maker's instructions and local code decide"};
  }

  /// @param higher_pressure  the higher of the total pressures at the pump's two ends [Pa gauge]
  [[nodiscard]] Cautions cautions(double flow, double higher_pressure, const LiquidState& /*liquid*/) const {
    return positive_cautions(flow, higher_pressure, swept(), max_pressure);
  }

  /// The parts of it that a pump driven from the ground shares.
  static void check_slip(std::string_view where, const PumpSlip& slip) {
    require_in(fmt::format("{}, slip gain", where), si(slip.gain), gain_range, "Pa");
    require_in(fmt::format("{}, slip viscosity", where), si(slip.viscosity), liquid_viscosity, "Pa s");
    require_in(fmt::format("{}, slip flow", where), si(slip.flow), slip_flow_range, "m3/s");
  }
  /// @param swept  [m3/s]; the slip as in PumpSlip, SI
  template <class S>
  static BasicLaw<S> straight_law(const S& swept, const S& slip_flow, const S& slip_gain, const S& slip_viscosity,
                                  const LiquidNumbers<S>& liquid) {
    const S measured = physics::leak_conductance<S>(slip_flow, slip_gain, slip_viscosity, liquid.viscosity);
    const S leak = physics::larger<S>(measured, S(S(least_slip) * swept / slip_gain));
    BasicLaw<S> law;
    law.threshold = -swept / leak;
    law.linear = S(1.0) / leak;
    law.passes = Passes::forward;
    return law;
  }
  /// What every pump that sweeps a volume has to say, in terms of its flow, pressure and sweep.
  static Cautions positive_cautions(double flow, double higher_pressure, Flow swept,
                                    const std::optional<Pressure>& max_pressure) {
    Cautions found;
    if (max_pressure && higher_pressure > si(*max_pressure)) {
      found.push_back({"pump-over-pressure",
                       {},
                       "the pump works above its maximum pressure: something may burst; fit a relief valve that opens "
                       "below it",
                       higher_pressure,
                       si(*max_pressure),
                       "maximum pressure given"});
    }
    if (physics::slip_share(si(swept), flow) > slip_limit) {
      found.push_back(
          {"pump-slips",
           {},
           "more than half of what this positive pump sweeps slips back: its outlets are shut and no relief "
           "valve opens",
           flow,
           (1.0 - slip_limit) * si(swept),
           "common practice"});
    }
    return found;
  }
};

static_assert(PartType<PositivePump>);

}  // namespace libflow
