// SPDX-License-Identifier: MIT
/// @file
/// The end of the line: does a tube that hangs down run full, and what drips when the flow stops.
#pragma once

#include <cmath>
#include <numbers>
#include <string_view>

#include <libflow/core/range.hpp>
#include <libflow/physics/scalar.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow::physics {

/// Surface tension of water at 20 C [N/m], three digits of IAPWS R1-76(2014) (its formula seen in several open
/// programs; tested). Salts raise it by some per cent, wetting agents halve it (common practice, no source).
inline constexpr double water_surface_tension = 0.0727;

/// Froude number of a tube as if it ran full, V / sqrt(g D) [-]: the pull of inertia on air against its buoyancy.
/// @param q     flow [m3/s], >= 0
/// @param bore  [m], > 0
template <class S>
[[nodiscard]] S froude_number(const S& q, const S& bore) {
  using std::sqrt;
  const S v = S(4.0) * q / (S(std::numbers::pi) * bore * bore);
  return v / sqrt(S(S(standard_gravity) * bore));
}

/// Bond (Eotvos) number rho g D^2 / sigma [-]: weight against surface tension; air's own weight is left out.
/// @param bore     D [m], > 0
/// @param density  of the liquid [kg/m3]
/// @param tension  surface tension [N/m], > 0
template <class S>
[[nodiscard]] S bond_number(const S& bore, const S& density, const S& tension) {
  return density * S(standard_gravity) * bore * bore / tension;
}

/// Below this Bond number a long bubble cannot climb in an upright tube at all: rho g r^2 / sigma < 0.842 (r the
/// radius, so 3.37 on the bore; about 5.0 mm with water). The liquid hangs in the tube and moves as a plug. Source: F.
/// P. Bretherton, J. Fluid Mech. 10 (1961) 166 (abstract read).
inline constexpr double bond_no_climb = 4.0 * 0.842;

/// Air climbs against the liquid while the Froude number is below the first limit, and is swept out above the second;
/// between them it does either. Conservative both ways; measured on water in wide pipes.
/// Source: P. D. Hills, Designing piping for gravity flow, Chem. Eng., 5 September 1983 (0.3 self-venting; title
/// page and limit read in secondary copies; 1.0 for clearing flow read in a secondary text).
inline constexpr Range froude_between{0.3, 1.0};

/// Froude number at which a long bubble climbs in an upright tube of liquid at rest, U / sqrt(g D) [-]; 0.34 in wide
/// tubes and thin liquids, next to nothing in narrow tubes or thick liquids.
/// @param bond       Bond number [-], > 0; the fit's data start near 6
/// @param viscosity_number  buoyancy Reynolds number sqrt(D^3 g rho^2)/mu [-], > 0
/// Source: F. Viana, R. Pardo, R. Yanez, J. L. Trallero, D. D. Joseph, J. Fluid Mech. 494 (2003) 379: form and both end
/// formulas read in the abstract (tested), the constants of the passage between the ends as an open program has them.
template <class S>
[[nodiscard]] S bubble_climb_froude(const S& bond, const S& viscosity_number) {
  using std::pow;
  const auto dose = [](const S& x, double a, double b, double c, double g) {
    return S(S(a) / pow(S(S(1.0) + pow(S(x / S(b)), S(c))), S(g)));
  };
  const S a = dose(bond, 0.34, 14.793, -3.06, 0.58);
  const S b = dose(bond, 31.08, 29.868, -1.96, -0.49);
  const S c = dose(bond, -1.45, 24.867, -9.93, -0.094);
  return a / pow(S(S(1.0) + pow(S(viscosity_number / b), c)), S(S(-1.0295) / c));
}

/// Whether a tube that hangs straight down, open at its foot, is full of liquid while it flows.
enum class Runs {
  full,      ///< no air can climb in from the foot: the tube pulls with its whole height
  partly,    ///< liquid runs down the wall and air stands in the tube: it does not pull
  ambiguous  ///< either, and it may change with the last disturbance: look at both
};

/// In words.
[[nodiscard]] constexpr std::string_view name(Runs r) {
  return r == Runs::full ? "full" : r == Runs::partly ? "partly full" : "full or partly full";
}

/// Full when the Bond number is below bond_no_climb, or the Froude number is above froude_between.high. Partly full
/// when it is below froude_between.low, lowered in narrow tubes and thick liquids by the ratio of the climbing speed
/// there to that in wide tubes (0.34). Else ambiguous. The lowering is ours: it lets Hills' limit, measured on wide
/// pipes, follow the measured climb of bubbles.
/// @param froude, bond, viscosity_number  [-], as froude_number, bond_number, bubble_climb_froude
/// For an upright tube; in a slanted one air climbs faster, so "full" needs more flow than this says.
[[nodiscard]] inline Runs runs_full(double froude, double bond, double viscosity_number) {
  if (bond < bond_no_climb || froude > froude_between.high) return Runs::full;
  const double ratio = std::fmin(1.0, bubble_climb_froude<double>(bond, viscosity_number) / 0.34);
  return froude < froude_between.low * ratio ? Runs::partly : Runs::ambiguous;
}

/// The same from the tube and the liquid.
/// @param flow       [m3/s], >= 0
/// @param bore       [m], > 0
/// @param density    [kg/m3]
/// @param viscosity  dynamic [Pa s]
/// @param tension    surface tension [N/m], > 0
[[nodiscard]] inline Runs runs_full(double flow, double bore, double density, double viscosity, double tension) {
  return runs_full(froude_number<double>(flow, bore), bond_number<double>(bore, density, tension),
                   std::sqrt(bore * bore * bore * standard_gravity) * density / viscosity);
}

/// x where it is positive, else nothing, with the corner rounded over `width` on either side; and its slope.
/// @param x      [any unit]
/// @param width  of the same unit, > 0; the rounding adds a quarter of it at most, at x = 0
template <class S>
struct Positive {
  S value;  ///< rounded, never below 0
  S slope;  ///< against the argument
};
/// The larger of x and 0, the corner rounded over `width` on either side.
template <class S>
[[nodiscard]] Positive<S> rounded_positive(const S& x, const S& width) {
  const S in = smaller<S>(larger<S>(S(x + width), S(0.0)), S(S(2.0) * width));
  return {select<S>(x > width, x, S(in * in / (S(4.0) * width))), S(in / (S(2.0) * width))};
}

/// Width, over the pressure of a vented tube's fall, of the rounding where the tube goes from partly to quite full
/// (ours).
inline constexpr double vent_rounding = 0.05;

/// Height of a standing column that drains through a valve that closes at `crack`: what is above crack/(rho g), at
/// least nothing [m].
/// @param column   height of the liquid standing above the valve [m], >= 0
/// @param crack    pressure at which the valve closes [Pa], >= 0
/// @param density  [kg/m3]
/// Source: hydrostatics.
template <class S>
[[nodiscard]] S drained_height(const S& column, const S& crack, const S& density) {
  return larger<S>(S(column - crack / (density * S(standard_gravity))), S(0.0));
}

/// Storage of a full elastic tube: relative volume per pressure, 1/K + D/(E e) [1/Pa].
/// @param bulk_modulus  K of the liquid [Pa]
/// @param bore          D [m]
/// @param wall          e, wall thickness [m], > 0
/// @param modulus       E of the wall [Pa], > 0
/// Source: D. J. Korteweg 1878: the wave speed is sqrt(1/(rho (1/K + D/(E e)))) (thin wall, free to stretch; E. B.
/// Wylie, V. L. Streeter, Fluid Transients, 1978, ch. 1). Thick soft hose stores somewhat less.
template <class S>
[[nodiscard]] S tube_storage(const S& bulk_modulus, const S& bore, const S& wall, const S& modulus) {
  return S(1.0) / bulk_modulus + bore / (modulus * wall);
}

/// Volume that a stopped full line gives back while its pressure falls from `before` to `after` [m3].
/// @param volume   of the line that is cut off between a shut valve and the outlet valve [m3]
/// @param storage  tube_storage [1/Pa]
/// @param before, after  gauge pressures [Pa]; nothing comes when `after` is not below `before`
template <class S>
[[nodiscard]] S relaxed_volume(const S& volume, const S& storage, const S& before, const S& after) {
  return volume * storage * larger<S>(S(before - after), S(0.0));
}

}  // namespace libflow::physics
