// SPDX-License-Identifier: MIT
/// @file
/// Drop across a small round hole, from creeping flow to the free jet.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Discharge coefficient of a sharp plate at high Reynolds number: 0.61
/// (D. Wu, R. Burton, G. Schoenau, Int. J. Fluid Power 3 (2002) 13, table 1, read in an open reprint; ISO 5167-2
/// gives 0.597 to 0.607 for small holes).
inline constexpr double sharp_discharge_coefficient = 0.61;
/// Length-to-bore ratios of a hole that the coefficient covers.
inline constexpr Range hole_length_ratio{0.0, 10.0};
/// In this band of length to bore the jet may fill the hole again or not: computed, flagged.
inline constexpr Range reattaching_length_ratio{0.3, 1.0};

/// Resistance of a hole in creeping flow [Pa per m3/s]: mu/a^3 (3 + 8 L/(pi a)), a the radius.
/// @param bore       [m], > 0
/// @param length     of the hole [m], >= 0
/// @param viscosity  dynamic [Pa s], > 0
/// Source: exact for L = 0, R. A. Sampson, Phil. Trans. R. Soc. A 182 (1891) 449 (seen in an open encyclopedia); for a
/// long hole, Hagen and Poiseuille's tube. That their plain sum holds between (within 1 %) is Z. Dagan, S. Weinbaum, R.
/// Pfeffer, J. Fluid Mech. 115 (1982) 505 (that statement from memory).
template <class S>
[[nodiscard]] S creeping_resistance(const S& bore, const S& length, const S& viscosity) {
  const S a = bore / S(2.0);
  return viscosity / (a * a * a) * (S(3.0) + S(8.0) * length / (S(std::numbers::pi) * a));
}

/// How much of a sharp hole's jet contraction is left in a hole of length L: exp(-1.606 (L/d)^2), 1 to 0.
/// Source: as hole_discharge_coefficient.
template <class S>
[[nodiscard]] S contraction_left(const S& length_ratio) {
  using std::exp;
  return exp(S(S(-1.606) * length_ratio * length_ratio));
}

/// Discharge coefficient at high Reynolds number of a hole with length,
///   C = 1 - (1 - C_sharp) [1 + 1.3 exp(-1.606 (L/d)^2)] (0.435 + 0.021 L/d) / 1.0005,
/// the last division being ours, so that a plate without length keeps C_sharp exactly (2.3 x 0.435 = 1.0005).
/// Meets 0.827 - 0.0085 L/d of Lichtarowicz, Duggins and Markland 1965 within 0.01 from 2 to 10 bores (tested).
/// @param length_ratio  L/d [-], 0 to 10 (hole_length_ratio)
/// @param sharp         coefficient of the sharp plate
/// Source: W. F. McGreehan, M. J. Schotsch, J. Turbomachinery 110 (1988) 213 (form seen in two secondary copies).
template <class S>
[[nodiscard]] S hole_discharge_coefficient(const S& length_ratio, const S& sharp) {
  return S(1.0) - (S(1.0) - sharp) * (S(1.0) + S(1.3) * contraction_left<S>(length_ratio)) *
                      (S(0.435) + S(0.021) * length_ratio) / S(1.0005);
}

/// A hole with everything that does not depend on the flow worked out beforehand.
template <class S>
struct Hole {
  S creeping;      ///< creeping_resistance [Pa per m3/s]
  S inertia;       ///< rho / (2 C^2 A^2), C the coefficient at high Reynolds number [Pa per (m3/s)^2]
  S uncontracted;  ///< part of the inertial drop that is absent at low Reynolds number, where no jet contracts [-]
  S re_per_flow;   ///< Reynolds number per flow, 4 rho / (pi d mu) [s/m3]
};

/// Share of the inertial drop that a sharp hole lacks at low Reynolds number, and the Reynolds number that scales its
/// return: the bridge between the two published ends, fitted to the coefficients of Wu, Burton and Schoenau 2002
/// (equation 15, read in an open reprint that holds it against the paper's table 1) and within 1.5 % of them in C
/// from Re 25 to 10,000; below that the exact creeping limit rules (their formula runs to 0.228 sqrt(Re) instead of
/// Sampson's exact 0.163 sqrt(Re)).
inline constexpr double sharp_uncontracted = 0.54;
inline constexpr double sharp_contraction_re = 450.0;  ///< see sharp_uncontracted

/// @param bore       [m], > 0
/// @param length     of the hole [m], >= 0
/// @param density    [kg/m3]
/// @param viscosity  dynamic [Pa s]
/// @param coefficient  discharge coefficient at high Reynolds number [-]
/// @param uncontracted see sharp_uncontracted; less by contraction_left for a hole with length
template <class S>
[[nodiscard]] Hole<S> hole(const S& bore, const S& length, const S& density, const S& viscosity, const S& coefficient,
                           const S& uncontracted) {
  const S pi = S(std::numbers::pi);
  const S area = pi * bore * bore / S(4.0);
  return {creeping_resistance<S>(bore, length, viscosity),
          S(density / (S(2.0) * coefficient * coefficient * area * area)), uncontracted,
          S(S(4.0) * density / (pi * bore * viscosity))};
}

/// The numbers of a hole that is `unit` on another scale and in another liquid, by the powers in which they enter.
/// @param unit          of a hole in a liquid of density 1 kg/m3 and viscosity 1 Pa s
/// @param inverse_bore  bore of that hole over the bore [-]; its length changes with it
/// @param density       [kg/m3]
/// @param viscosity     dynamic [Pa s]
/// @param thinness      density over viscosity [s/m2]
template <class S>
[[nodiscard]] Hole<S> similar_hole(const Hole<double>& unit, const S& inverse_bore, const S& density,
                                   const S& viscosity, const S& thinness) {
  const S square = inverse_bore * inverse_bore;
  return {S(S(unit.creeping) * square * inverse_bore * viscosity), S(S(unit.inertia) * square * square * density),
          S(unit.uncontracted), S(S(unit.re_per_flow) * inverse_bore * thinness)};
}

/// Drop across a hole at flow `q` [m3/s, either sign]: creeping resistance plus the inertial drop,
///   dp = R q + rho q|q| / (2 C^2 A^2) [1 - u/(1 + Re/450)^2].
/// Odd in the flow and strictly increasing; slope at zero flow is the exact creeping one.
/// Sources: the two ends as in creeping_resistance and the coefficient; the bridge is ours, see sharp_uncontracted.
template <class S>
[[nodiscard]] Drop<S> drop_hole(const S& q, const Hole<S>& h) {
  using std::abs;
  const S flow = abs(q);
  const S t = S(sharp_contraction_re) / (S(sharp_contraction_re) + flow * h.re_per_flow);
  const S missing = h.uncontracted * t * t;
  // d(missing)/dq = -2 u t^3 re_per_flow/450, and flow re_per_flow/450 = 1/t - 1.
  const S inertia = h.inertia * flow;
  const S slope = h.creeping + inertia * (S(2.0) * (S(1.0) - missing) + S(2.0) * missing * (S(1.0) - t));
  return {S(q * (h.creeping + inertia * (S(1.0) - missing))), slope};
}

/// Discharge coefficient C = q / (A sqrt(2 dp / rho)) that drop_hole implies at a flow [-].
template <class S>
[[nodiscard]] S discharge_coefficient(const S& q, const Hole<S>& h, const S& bore, const S& density) {
  using std::sqrt;
  const S area = S(std::numbers::pi) * bore * bore / S(4.0);
  return q / (area * sqrt(S(S(2.0) * drop_hole<S>(q, h).dp / density)));
}

}  // namespace libflow::physics
