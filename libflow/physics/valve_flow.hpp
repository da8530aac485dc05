// SPDX-License-Identifier: MIT
/// @file
/// Flow through a valve known by its flow coefficient: viscosity, inherent characteristics, choked flow.
///
/// Source of all formulas here: IEC 60534-2-1 / ISA-75.01.01 (2007), liquids, in the form seen in an open package,
/// unless a line says otherwise. Its numerical constants are for flows in m3/h, bores in mm and pressures in kPa.
#pragma once

#include <cmath>

#include <libflow/core/range.hpp>
#include <libflow/physics/minor_loss.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Kv is the flow of water that loses 1 bar; its density at 15 C [kg/m3].
inline constexpr double kv_pressure = 1e5;
inline constexpr double kv_density = 999.1;  ///< of the water that defines Kv, 15 C [kg/m3]
/// Pressure recovery factor FL and style modifier Fd that a valve may have [-] (the standard's table spans 0.5 to 0.98
/// and 0.07 to 1; from memory).
inline constexpr Range valve_recovery_range{0.3, 1.0};
inline constexpr Range valve_style_range{0.05, 1.0};  ///< of Fd [-]

/// Share of the rated coefficient at a share of the travel, linear: 1/R + (1 - 1/R) h.
/// @param travel        h [-], 0 to 1
/// @param rangeability  R, the largest over the least controllable coefficient [-], > 1
/// Source: IEC 60534-1 (definitions; from memory): at no travel the coefficient is 1/R, and only the seat shuts.
template <class S>
[[nodiscard]] S inherent_linear(const S& travel, const S& rangeability) {
  return S(1.0) / rangeability + (S(1.0) - S(1.0) / rangeability) * travel;
}

/// Share of the rated coefficient, equal percentage: R^(h - 1), so that equal steps of travel change the coefficient by
/// equal shares of itself. Parameters and source as inherent_linear.
template <class S>
[[nodiscard]] S inherent_equal_percentage(const S& travel, const S& rangeability) {
  using std::pow;
  return pow(rangeability, S(travel - S(1.0)));
}

/// C/d^2 of a valve, coefficient in m3/h over bore in mm squared.
template <class S>
[[nodiscard]] S valve_relative_coefficient(const S& kv, const S& bore) {
  return kv * S(3600.0) / (bore * bore * S(1e6));
}

/// Valve Reynolds number Rev = 0.0707 Fd Q/(nu sqrt(C FL)) (FL^2 C^2/(0.0016 D^4) + 1)^(1/4) [-].
/// @param q          [m3/s], >= 0
/// @param kv         at this opening [m3/s of water at 1 bar], > 0
/// @param bore       of the valve and of the line [m], > 0
/// @param kinematic  viscosity over density [m2/s], > 0
/// @param recovery   FL [-]
/// @param style      Fd [-]
template <class S>
[[nodiscard]] S valve_reynolds(const S& q, const S& kv, const S& bore, const S& kinematic, const S& recovery,
                               const S& style) {
  using std::sqrt;
  const S c = recovery * valve_relative_coefficient<S>(kv, bore);
  return S(0.0707 * 3600.0) * style * q / (kinematic * sqrt(S(kv * S(3600.0) * recovery))) *
         sqrt(sqrt(S(c * c / S(0.0016) + S(1.0))));
}

/// The n of the viscosity factor: n1 = 0.0016/(C/d^2)^2 for full-size trim (rated C/d^2 of 0.016 and more, counted as
/// at most 0.04), n2 = 1 + 140 (C/d^2)^(2/3) for reduced trim.
/// @param relative  C/d^2 at this opening
/// @param rated     C/d^2 fully open
/// n1 is taken fully open: with the coefficient at the opening, the drop in creeping flow would fall as a valve closes.
template <class S>
[[nodiscard]] S valve_trim_n(const S& relative, const S& rated) {
  using std::pow;
  const S counted = smaller<S>(rated, S(0.04));
  return select<S>(rated >= S(0.016), S(S(0.0016) / (counted * counted)),
                   S(S(1.0) + S(140.0) * pow(relative, S(2.0 / 3.0))));
}

/// Laminar limit of the viscosity factor: FR = 0.026/FL sqrt(n Rev).
template <class S>
[[nodiscard]] S laminar_viscosity_factor(const S& reynolds, const S& trim_n, const S& recovery) {
  using std::sqrt;
  return S(0.026) / recovery * sqrt(S(trim_n * reynolds));
}

/// Drop r q + k q|q| of a valve: the standard's laminar limit, which is a drop proportional to the flow, plus its
/// turbulent one. The viscosity factor that this implies is FR = 1/sqrt(1 + 1/FR_laminar^2).
///
/// The standard's own factor is the smaller of the laminar limit and 1 + 0.33 sqrt(FL)/n^(1/4) log10(Rev/10^4), used
/// from Rev 10 up. Where those two join at Rev 10 the factor can jump and the drop fall with rising flow, so it is not
/// used. The sum keeps both limits and differs from it by up to 18 % in FR between (above it most at Rev 500 to 2000;
/// below it most where the two lines cross; tested).
/// @param kv        at this opening, rated_kv fully open [m3/s of water at 1 bar], > 0
/// @param density   [kg/m3]
/// @param viscosity dynamic [Pa s]; other parameters as valve_reynolds
template <class S>
[[nodiscard]] LinearQuadratic<S> valve_loss(const S& kv, const S& rated_kv, const S& bore, const S& density,
                                            const S& viscosity, const S& recovery, const S& style) {
  const S quadratic = S(kv_pressure / kv_density) * density / (kv * kv);
  const S n = valve_trim_n<S>(valve_relative_coefficient<S>(kv, bore), valve_relative_coefficient<S>(rated_kv, bore));
  // k q^2 / FR^2 with FR^2 proportional to q: evaluated at 1 m3/s.
  const S re = valve_reynolds<S>(S(1.0), kv, bore, S(viscosity / density), recovery, style);
  const S factor = laminar_viscosity_factor<S>(re, n, recovery);
  return {S(quadratic / (factor * factor)), quadratic};
}

/// Drop beyond which more pressure across the valve brings no more flow [Pa]: FL^2 (p1 - FF pv),
/// FF = 0.96 - 0.28 sqrt(pv/pc).
/// @param inlet     p1, static [Pa absolute]
/// @param vapour    pv [Pa absolute], 0 to critical
/// @param critical  pc [Pa absolute], > 0
/// @param recovery  FL [-]
template <class S>
[[nodiscard]] S choked_drop(const S& inlet, const S& vapour, const S& critical, const S& recovery) {
  using std::sqrt;
  const S ratio = S(0.96) - S(0.28) * sqrt(S(vapour / critical));
  return recovery * recovery * (inlet - ratio * vapour);
}
/// Critical pressure of water as the standard's examples have it [Pa absolute].
inline constexpr double water_critical_pressure = 22.12e6;

}  // namespace libflow::physics
