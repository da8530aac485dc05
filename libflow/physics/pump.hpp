// SPDX-License-Identifier: MIT
/// @file
/// Pumps: speed laws, suction head, power, displacement and slip.
#pragma once

#include <libflow/core/range.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Flow, gain and power at another speed of one pump, its curve at the first speed being known at the flow that the
/// speed law leads to. Speed laws (affinity laws): flow with speed, gain and suction head with its square, power with
/// its cube.
/// @param ratio  new speed over old [-], > 0; the further from 1 the rougher (no loss of efficiency is counted)
/// Source: Crane Technical Paper 410, equations of example 7-33; any pump handbook.
template <class S>
[[nodiscard]] S flow_at_speed(const S& flow, const S& ratio) {
  return flow * ratio;
}
/// Gain at another speed: as the square of the ratio.
/// @param ratio  new speed over old [-], > 0
template <class S>
[[nodiscard]] S gain_at_speed(const S& gain, const S& ratio) {
  return gain * ratio * ratio;
}
/// Power at another speed: as the cube of the ratio.
/// @param ratio  new speed over old [-], > 0
template <class S>
[[nodiscard]] S power_at_speed(const S& power, const S& ratio) {
  return power * ratio * ratio * ratio;
}

/// Power [W] that a pump puts into the liquid: flow [m3/s] times gain of total pressure [Pa].
/// Source: the mechanical energy balance of any fluid mechanics textbook, e.g. Y. A. Cengel, J. M. Cimbala, Fluid
/// Mechanics, example 8-7.
template <class S>
[[nodiscard]] S hydraulic_power(const S& flow, const S& gain) {
  return flow * gain;
}
/// Power at the shaft [W] of a pump that gives `gain` [Pa] to `flow` [m3/s] with `efficiency` [-, above 0, to 1]. With
/// the efficiency of pump and motor together: what the motor draws.
template <class S>
[[nodiscard]] S shaft_power(const S& flow, const S& gain, const S& efficiency) {
  return hydraulic_power<S>(flow, gain) / efficiency;
}
/// Efficiency [-] of a pump that takes `power` [W, above 0] at its shaft.
template <class S>
[[nodiscard]] S pump_efficiency(const S& flow, const S& gain, const S& power) {
  return hydraulic_power<S>(flow, gain) / power;
}
/// Efficiencies that a pump can be said to have.
inline constexpr Range pump_efficiency_range{0.01, 1.0};

/// Net positive suction head available [m of liquid]: how far the total pressure at the pump's inlet is above the
/// vapour pressure, (p - p_v)/(rho g).
/// @param inlet_pressure   total (velocity head included), absolute, at the level of the pump's inlet [Pa]
/// @param vapour_pressure  absolute [Pa]
/// @param weight           rho g [Pa/m], > 0
/// Source: ANSI/HI 9.6.1 defines it so (from memory); Crane Technical Paper 410, example 7-32.
template <class S>
[[nodiscard]] S suction_head_available(const S& inlet_pressure, const S& vapour_pressure, const S& weight) {
  return (inlet_pressure - vapour_pressure) / weight;
}

/// Flow that a positive pump's displacement sweeps [m3/s].
/// @param displacement  a revolution, or any cycle [m3]
/// @param rate          revolutions a second [1/s]
template <class S>
[[nodiscard]] S swept_flow(const S& displacement, const S& rate) {
  return displacement * rate;
}

/// Slip [-]: the share of the swept flow that is not delivered, 1 - q/q_swept.
/// Source: K. Subramanya, Hydraulic Machines, chapter 16 (through the FOSSEE textbook companions).
template <class S>
[[nodiscard]] S slip_share(const S& swept, const S& delivered) {
  return S(1.0) - delivered / swept;
}

/// How much leaks back through the clearances of a positive pump for each pascal of its gain [m3/s per Pa], from the
/// slip measured once. Laminar leakage: with the gain, against the viscosity, whatever the speed.
/// @param measured_flow       slip [m3/s] at `measured_gain` [Pa] with a liquid of `measured_viscosity` [Pa s]
/// @param viscosity           of the liquid now [Pa s]
/// Source: plane Poiseuille flow through a gap of width w, height h and length L, w h^3 dp / (12 mu L) (any text), as
/// W. E. Wilson, Positive-Displacement Pumps and Fluid Motors, 1950, applies it to pumps (C_s D dp / mu).
template <class S>
[[nodiscard]] S leak_conductance(const S& measured_flow, const S& measured_gain, const S& measured_viscosity,
                                 const S& viscosity) {
  return measured_flow / measured_gain * measured_viscosity / viscosity;
}

}  // namespace libflow::physics
