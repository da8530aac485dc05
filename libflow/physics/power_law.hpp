// SPDX-License-Identifier: MIT
/// @file
/// Flow of a shear-thinning liquid, such as a suspension, in a full round smooth tube.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/friction.hpp>
#include <libflow/physics/join.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Flow index n that these formulas take; 1 is a Newtonian liquid.
inline constexpr Range power_law_index{0.2, 1.0};
/// Flow index and generalised Reynolds number of the measurements behind friction_dodge_metzner (from memory);
/// outside: computed, flagged.
inline constexpr Range dodge_metzner_index{0.36, 1.0};
inline constexpr Range dodge_metzner_re{2900.0, 36000.0};  ///< of the data [-]

/// Reynolds number of Metzner and Reed, rho V^(2-n) D^n / (K 8^(n-1) ((3n+1)/(4n))^n) [-]: the laminar Darcy factor is
/// 64 over it.
/// @param velocity     mean [m/s], >= 0
/// @param bore         [m], > 0
/// @param density      [kg/m3]
/// @param consistency  K [Pa s^n], > 0
/// @param index        n [-], 0.2 to 1
/// Source: A. B. Metzner, J. C. Reed, AIChE J. 1 (1955) 434.
template <class S>
[[nodiscard]] S reynolds_metzner_reed(const S& velocity, const S& bore, const S& density, const S& consistency,
                                      const S& index) {
  using std::exp;
  using std::log;
  const S base = S(8.0) * velocity / bore * (S(3.0) * index + S(1.0)) / (S(4.0) * index);
  return S(8.0) * density * velocity * velocity / (consistency * exp(S(index * log(base))));
}

/// Wall stress and its slope, both dimensionless, of laminar flow.
template <class S>
struct WallStress {
  S t;      ///< wall stress over the stress at the end of the plateau
  S slope;  ///< dt/dg
};

/// Laminar flow of a liquid with the constant viscosity K G^(n-1) up to the shear rate G and the power law K s^n above
/// it. With g = (8V/D)/G and t = (wall stress)/(K G^n) the flow is, exactly,
///   g = t                                              to t = 1,
///   g = a t^(1/n) + (1 - a) t^(-3),  a = 4n/(3n + 1)   above,
/// continuous with a continuous slope. For g >> 1 this is the power law's t = (g/a)^n, that is
/// wall stress = K (8V/D (3n+1)/(4n))^n. Solved for t by Newton's method on s = t^(1/n): the left side is convex in s
/// and s = g/a lies above the root, so the steps only fall and cannot miss; seven reach full precision.
/// @param g      nominal shear rate over the plateau's [-], >= 0
/// @param index  n [-], 0.2 to 1
/// Source: the stated viscosity (T. W. Spriggs's truncated power law) put into the integral of B. Rabinowitsch, Z.
/// phys. Chem. A 145 (1929) 1: derived here, and integrated numerically in the test.
template <class S>
[[nodiscard]] WallStress<S> power_law_wall_stress(const S& g, const S& index) {
  using std::exp;
  using std::log;
  const auto plateau = g < 1.0;
  if (all(plateau)) return {g, S(1.0)};
  const S a = S(4.0) * index / (S(3.0) * index + S(1.0));
  const S power = S(-3.0) * index;
  const S wanted = larger<S>(g, S(1.0));
  S s = wanted / a;
  S slope = a;
  constexpr int steps = std::same_as<S, double> ? 7 : 9;
  for (int i = 0; i < steps; ++i) {
    const S rest = (S(1.0) - a) * exp(S(power * log(s)));
    slope = a + power * rest / s;
    s -= (a * s + rest - wanted) / slope;
  }
  const S rest = (S(1.0) - a) * exp(S(power * log(s)));
  slope = a + power * rest / s;
  const S t = exp(S(index * log(s)));
  return {select<S>(plateau, g, t), select<S>(plateau, S(1.0), S(index * t / (s * slope)))};
}

/// Darcy friction factor of turbulent flow in a smooth tube, from the Fanning factor f of
///   1/sqrt(f) = (4/n^0.75) log10(Re f^(1 - n/2)) - 0.4/n^1.2,
/// and its exact slope. With z = ln(1/sqrt f) it reads e^z + c z = b: convex, one root; Newton's method from z = ln b
/// only falls.
/// @param re     generalised, reynolds_metzner_reed [-], 2900 to 36000 (dodge_metzner_re)
/// @param index  n [-], 0.36 to 1 (dodge_metzner_index)
/// Source: D. W. Dodge, A. B. Metzner, AIChE J. 5 (1959) 189 (form and constants seen in an open program for the flow
/// of drilling mud, which has 0.395 for 0.4: 0.3 % in f at most, tested).
template <class S>
[[nodiscard]] FrictionFactor<S> friction_dodge_metzner(const S& re, const S& index) {
  using std::exp;
  using std::log;
  const S ln10 = log(S(10.0));
  const S a = S(4.0) * exp(S(S(-0.75) * log(index))) / ln10;
  const S b = a * log(re) - S(4.0) / S(10.0) * exp(S(S(-6.0) / S(5.0) * log(index)));
  const S c = a * (S(2.0) - index);
  S z = log(b);
  constexpr int steps = std::same_as<S, double> ? 7 : 9;
  for (int i = 0; i < steps; ++i) {
    const S x = exp(z);
    z -= (x + c * z - b) / (x + c);
  }
  const S x = exp(z);
  const S f = S(4.0) / (x * x);
  // From x + c ln x = b with b ~ a ln Re:  dx/dRe = a x / (Re (x + c)).
  return {f, S(S(-2.0) * f * a / (re * (x + c)))};
}

/// Generalised Reynolds number to which flow is laminar: 3370 - 1370 n.
/// Source: 3470 - 1370 n in drilling practice (seen in a public textbook page on circulation hydraulics), less the 100
/// by which the Newtonian limit here, 2000, lies below its 2100.
template <class S>
[[nodiscard]] S power_law_laminar_limit_re(const S& index) {
  return S(laminar_limit_re) + S(1370.0) * (S(1.0) - index);
}

/// A tube of shear-thinning liquid with everything that does not depend on the flow worked out beforehand.
template <class S>
struct PowerLawTube {
  S index;                  ///< n [-]
  S shear_per_flow;         ///< nominal shear rate 8V/D over the plateau's, per flow [s/m3]
  S velocity_per_flow;      ///< 4/(pi D^2) [1/m2]
  S plateau_stress;         ///< K G^n [Pa]
  S length_ratio;           ///< L/D [-]
  S density;                ///< [kg/m3]
  S low, high;              ///< generalised Reynolds numbers: laminar below, turbulent above
  FrictionFactor<S> lower;  ///< laminar, at `low`
  FrictionFactor<S> upper;  ///< turbulent, at `high`
};

/// @param length         [m], > 0
/// @param bore           [m], > 0
/// @param density        [kg/m3], > 0
/// @param consistency    K [Pa s^n], > 0
/// @param index          n [-], 0.2 to 1
/// @param plateau_shear  shear rate G below which the viscosity is constant [1/s], > 0
template <class S>
[[nodiscard]] PowerLawTube<S> power_law_tube(const S& length, const S& bore, const S& density, const S& consistency,
                                             const S& index, const S& plateau_shear) {
  using std::exp;
  using std::log;
  const S pi = S(std::numbers::pi_v<double>);
  const S low = power_law_laminar_limit_re<S>(index);
  const S high = low + S(transition_width_re);
  return {index,
          S(S(32.0) / (pi * bore * bore * bore * plateau_shear)),
          S(S(4.0) / (pi * bore * bore)),
          S(consistency * exp(S(index * log(plateau_shear)))),
          S(length / bore),
          density,
          low,
          high,
          friction_laminar<S>(low),
          friction_dodge_metzner<S>(high, index)};
}

/// Generalised Reynolds number 8 rho V^2 / (laminar wall stress) at a flow [-]; reynolds_metzner_reed above the
/// plateau.
template <class S>
[[nodiscard]] S generalised_reynolds_number(const S& q, const PowerLawTube<S>& tube) {
  using std::abs;
  const S v = abs(q) * tube.velocity_per_flow;
  // At rest the wall stress is zero as well: the smallest shear stands in for it.
  const S g = larger<S>(S(abs(q) * tube.shear_per_flow), S(1e-300));
  return S(8.0) * tube.density * v * v / (tube.plateau_stress * power_law_wall_stress<S>(g, tube.index).t);
}

/// Drop at flow `q` [m3/s, either sign]: laminar exact (power_law_wall_stress) to power_law_laminar_limit_re, Dodge and
/// Metzner from 2000 above it, and between them the cubic in Re that continues value and slope of the friction factor.
/// Odd, strictly increasing (tested for n from 0.2 to 1), with a continuous slope. A pure power law with n < 1 would be
/// infinitely stiff at rest; the plateau makes the slope there finite, Hagen-Poiseuille's with viscosity K G^(n-1).
template <class S>
[[nodiscard]] Drop<S> drop_power_law(const S& q, const PowerLawTube<S>& tube) {
  using std::abs;
  const S g = abs(q) * tube.shear_per_flow;
  const WallStress<S> stress = power_law_wall_stress<S>(g, tube.index);
  const S lengths = S(4.0) * tube.length_ratio * tube.plateau_stress;
  const S dp_laminar = lengths * stress.t;
  const S slope_laminar = lengths * stress.slope * tube.shear_per_flow;

  const S v = abs(q) * tube.velocity_per_flow;
  const S head = S(8.0) * tube.density * v * v;  // over the wall stress: the Reynolds number
  const S wall = tube.plateau_stress * stress.t;
  const auto laminar = head <= tube.low * wall;
  const S signed_laminar = select<S>(q < S(0.0), S(-dp_laminar), dp_laminar);
  if (all(laminar)) return {signed_laminar, slope_laminar};

  // Laminar lanes, which may be at rest, are not chosen below: there any number will do.
  const S re = head / select<S>(laminar, S(1.0), wall);
  const auto turbulent = re > tube.high;
  const S inside = smaller<S>(larger<S>(re, tube.low), tube.high);
  const FrictionFactor<S> band = friction_join<S>(inside, tube.low, tube.lower, tube.high, tube.upper);
  const FrictionFactor<S> above = friction_dodge_metzner<S>(larger<S>(re, tube.high), tube.index);
  const FrictionFactor<S> f{select<S>(turbulent, above.f, band.f), select<S>(turbulent, above.slope, band.slope)};
  // d ln Re / d ln q = 2 - (d ln t / d ln g).
  const S local_index = stress.slope * g / larger<S>(stress.t, S(1e-300));
  const S per_flow = tube.length_ratio * tube.density * v * tube.velocity_per_flow / S(2.0);
  const S dp = f.f * per_flow * abs(q);
  const S slope = per_flow * (S(2.0) * f.f + f.slope * re * (S(2.0) - local_index));
  return {select<S>(laminar, signed_laminar, select<S>(q < S(0.0), S(-dp), dp)),
          select<S>(laminar, slope_laminar, slope)};
}

}  // namespace libflow::physics
