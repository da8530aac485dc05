// SPDX-License-Identifier: MIT
/// @file
/// Wall friction of a coiled tube: the swirl of the bend adds to it, and holds off turbulence.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/friction.hpp>
#include <libflow/physics/join.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Bore over coil diameter (between centres of the tube) that the coil formulas cover; below, they run to the straight
/// tube's law, which is exact at zero.
inline constexpr Range coil_curvature{0.003, 0.15};
/// Largest Dean number of the laminar formula and largest Reynolds number of the turbulent one; beyond: computed,
/// flagged.
inline constexpr double coil_dean_limit = 3000.0;
/// Highest Reynolds number of the data [-].
inline constexpr double coil_re_limit = 1e5;

/// Dean number Re sqrt(d/D) [-].
/// @param curvature  bore over coil diameter d/D [-], 0 to 0.15
template <class S>
[[nodiscard]] S dean_number(const S& re, const S& curvature) {
  using std::sqrt;
  return re * sqrt(curvature);
}

/// How many times the straight tube's laminar friction a coil has, and the slope of that against ln(Re).
template <class S>
struct CoilRatio {
  S ratio;  ///< [-]
  S slope;  ///< against ln(Re)
};

/// Laminar friction in a coil over that of a straight tube: 1 + 0.033 (log10 De)^4 from Dean number 1 to 3000, and 1
/// below, where it joins without a kink. Pitch is left out: it acts as a slightly wider coil.
/// Within 3 % of C. M. White, Proc. R. Soc. A 123 (1929) 645, from De 100 to 2000, and at most 3 % above W. R. Dean's
/// theory of 1928 up to De 10 (tested).
/// Source: P. Mishra, S. N. Gupta, Ind. Eng. Chem. Process Des. Dev. 18 (1979) 130 (form and constants seen in two
/// secondary copies: an open course text on tube flow, and an open program that follows the VDI Heat Atlas, 2013).
template <class S>
[[nodiscard]] CoilRatio<S> coil_ratio_laminar(const S& dean) {
  using std::log;
  const S ln10 = log(S(10.0));
  const S b = S(33.0) / S(1000.0);
  const S digits = log(larger<S>(dean, S(1.0))) / ln10;
  const S cubed = digits * digits * digits;
  return {S(S(1.0) + b * cubed * digits), S(S(4.0) * b * cubed / ln10)};
}

/// Darcy friction factor of turbulent flow in a coil: Colebrook-White plus 0.03 sqrt(d/D).
///
/// The source adds 0.0075 sqrt(d/D) to the smooth tube's Fanning factor 0.079 Re^(-1/4); four times both is the Darcy
/// factor. The VDI Heat Atlas has it so: 0.3164 Re^(-1/4) (1 + 0.095 sqrt(d/D) Re^(1/4)), which adds 0.0301 sqrt(d/D)
/// (seen as above; tested). (Some copies, from memory, add 0.0075 to the Darcy factor; Mori and Nakayama 1967 show that
/// to be too little by a factor of four, see the test.) Taking Colebrook-White for the straight part, to
/// have rough walls, is ours.
/// @param re             [-], 4500 to 1e5
/// @param rel_roughness  e/d [-], 0 to 0.05
/// @param curvature      d/D [-], 0 to 0.15
/// Source: as coil_ratio_laminar.
template <class S>
[[nodiscard]] FrictionFactor<S> friction_coil_turbulent(const S& re, const S& rel_roughness, const S& curvature) {
  using std::sqrt;
  const FrictionFactor<S> straight = friction_colebrook<S>(re, rel_roughness);
  return {S(straight.f + S(3.0) / S(100.0) * sqrt(curvature)), straight.slope};
}

/// Reynolds number to which flow in a coil is laminar: 2000 + 19780 (d/D)^0.45.
/// Source: E. F. Schmidt, Chemie Ingenieur Technik 39 (1967) 781, 2300 [1 + 8.6 (d/D)^0.45] (seen in an open package),
/// less the 300 by which the straight tube's laminar limit here lies below his.
template <class S>
[[nodiscard]] S coil_laminar_limit_re(const S& curvature) {
  using std::exp;
  using std::log;
  // Guarded for a straight tube: 1e-200 to the 0.45 is nothing.
  return S(laminar_limit_re) + S(2300.0 * 8.6) * exp(S(S(9.0) / S(20.0) * log(larger<S>(curvature, S(1e-200)))));
}

/// Wall friction of a coil with everything that does not depend on the flow worked out beforehand.
template <class S>
struct CoilFriction {
  S re_per_flow;            ///< Reynolds number per flow, 4 rho / (pi D mu) [s/m3]
  S scale;                  ///< mu^2 L / (2 rho D^3) [Pa]: the drop is scale x f Re^2
  S rel_roughness;          ///< e/d [-]
  S curvature;              ///< d/D [-]
  S low, high;              ///< Reynolds numbers: laminar below, turbulent above
  FrictionFactor<S> lower;  ///< laminar, at `low`
  FrictionFactor<S> upper;  ///< turbulent, at `high`
};

/// @param straight   the same tube uncoiled
/// @param curvature  d/D [-], 0 to 0.15
template <class S>
[[nodiscard]] CoilFriction<S> coil_friction(const WallFriction<S>& straight, const S& curvature) {
  const S low = coil_laminar_limit_re<S>(curvature);
  const S high = low + S(transition_width_re);
  const CoilRatio<S> at = coil_ratio_laminar<S>(dean_number<S>(low, curvature));
  const S laminar = S(64.0) / low;
  return {straight.re_per_flow,
          straight.scale,
          straight.rel_roughness,
          curvature,
          low,
          high,
          {S(laminar * at.ratio), S(laminar * (at.slope - at.ratio) / low)},
          friction_coil_turbulent<S>(high, straight.rel_roughness, curvature)};
}

/// Drop of a coil at flow `q` [m3/s, either sign]. Odd, strictly increasing, with a continuous slope; slope at zero
/// flow is Hagen-Poiseuille's.
///
/// Laminar to coil_laminar_limit_re, turbulent from 2000 above it (the width of the straight tube's band), and the
/// cubic between that continues value and slope at both ends. The drop rises over the whole band for every curvature
/// to 0.15 and roughness to 0.05 (tested). A straight tube (curvature 0) gives drop_wall_friction.
template <class S>
[[nodiscard]] Drop<S> drop_coil_friction(const S& q, const CoilFriction<S>& c) {
  using std::abs;
  const S re = abs(q) * c.re_per_flow;
  const auto laminar = re < c.low;
  const auto turbulent = re > c.high;
  const CoilRatio<S> coil = coil_ratio_laminar<S>(dean_number<S>(smaller<S>(re, c.low), c.curvature));
  const S linear = S(64.0) * c.scale * c.re_per_flow;
  const Drop<S> below{S(linear * q * coil.ratio), S(linear * (coil.ratio + coil.slope))};
  if (all(laminar)) return below;

  const S inside = smaller<S>(larger<S>(re, c.low), c.high);
  const FrictionFactor<S> band = friction_join<S>(inside, c.low, c.lower, c.high, c.upper);
  const FrictionFactor<S> above = friction_coil_turbulent<S>(larger<S>(re, c.high), c.rel_roughness, c.curvature);
  const FrictionFactor<S> f{select<S>(turbulent, above.f, band.f), select<S>(turbulent, above.slope, band.slope)};
  const S dp = c.scale * f.f * re * re;
  const S slope = c.scale * c.re_per_flow * re * (f.slope * re + S(2.0) * f.f);
  return {select<S>(laminar, below.dp, select<S>(q < S(0.0), S(-dp), dp)), select<S>(laminar, below.slope, slope)};
}

}  // namespace libflow::physics
