// SPDX-License-Identifier: MIT
/// @file
/// Wall friction of a full round tube: Darcy friction factor from laminar to rough, and the Darcy-Weisbach drop.
#pragma once

#include <cmath>
#include <concepts>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Flow regime of a tube by Reynolds number: laminar below 2000, turbulent above 4000, transition between.
inline constexpr double laminar_limit_re = 2000.0;
inline constexpr double turbulent_limit_re = 4000.0;  ///< see laminar_limit_re
/// Colebrook-White is used for Reynolds numbers and relative roughness in these ranges; outside: computed, flagged.
inline constexpr Range colebrook_re{4000.0, 1e8};
inline constexpr Range colebrook_roughness{0.0, 0.05};  ///< see colebrook_re

/// ln 10: a constant for a double or a pack of them, computed for a number of more digits.
template <class S>
[[nodiscard]] S natural_log_of_ten() {
  using std::log;
  if constexpr (made_of_doubles<S>) {
    return S(std::numbers::ln10);
  } else {
    return log(S(10.0));
  }
}

namespace friction_detail {
/// ln 10 times a fraction: worked out beforehand for doubles, because a division costs as much as ten products.
template <class S>
[[nodiscard]] S ratio(const S& ln10, double top, double bottom) {
  if constexpr (made_of_doubles<S>) {
    return S(std::numbers::ln10 * top / bottom);
  } else {
    return ln10 * S(top) / S(bottom);
  }
}

/// F of F + ln(a + F) = b. Of numbers that carry slopes: the equation is differentiated, not the steps to its root.
template <class S>
[[nodiscard]] S colebrook_root(const S& a, const S& b) {
  using std::log;
  if constexpr (requires { a.through(0.0, 0.0); }) {
    const double F = colebrook_root<double>(a.v, b.v), s = a.v + F;
    S root = b.through(F, s / (1.0 + s));
    return root += a.through(0.0, -1.0 / (1.0 + s));
  } else {
    S F = b - S(0.2);
    constexpr int steps = made_of_doubles<S> ? 2 : 3;  // the error goes with its fourth power
    for (int i = 0; i < steps; ++i) {
      const S s = a + F;
      const S one_s = S(1.0) + s;
      const S e = (log(s) + F - b) / one_s;
      F -= (one_s + S(0.5) * e) * e * s / (one_s + e * (S(1.0) + e / S(3.0)));
    }
    return F;
  }
}
}  // namespace friction_detail

/// Darcy friction factor [-] and its slope against the Reynolds number.
template <class S>
struct FrictionFactor {
  /// Darcy friction factor [-]
  S f;
  S slope;  ///< against the Reynolds number
};

/// Laminar flow: f = 64/Re (Hagen 1839, Poiseuille 1840; in any fluid mechanics text).
/// @param re  Reynolds number on bore and mean velocity [-], > 0, valid to 2000
template <class S>
[[nodiscard]] FrictionFactor<S> friction_laminar(const S& re) {
  const S f = S(64.0) / re;
  return {f, S(-f / re)};
}

/// Rough and smooth turbulent flow, the Colebrook-White equation
///   1/sqrt(f) = -2 log10( (e/D)/3.7 + 2.51/(Re sqrt(f)) )
/// solved to machine precision, and its exact slope.
///
/// With 1/sqrt(f) = (2/ln 10) F, a = Re (e/D) ln(10)/(3.7 x 5.02) and b = ln(Re ln(10)/5.02) it reads
/// F + ln(a + F) = b: smooth, concave, one root. Two steps of a fourth-order method from F = b - 0.2 leave a relative
/// error below 3e-15, all of it rounding, over the valid range; every lane of a pack takes the same steps.
/// @param re               [-], 4e3 to 1e8 (colebrook_re)
/// @param rel_roughness    e/D [-], 0 to 0.05 (colebrook_roughness)
/// Source: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133; the substitution, the start and the steps are those of
/// D. Clamond, Ind. Eng. Chem. Res. 48 (2009) 3665 (seen in its author's published code; re-derived here).
template <class S>
[[nodiscard]] FrictionFactor<S> friction_colebrook(const S& re, const S& rel_roughness) {
  using std::log;
  const S ln10 = natural_log_of_ten<S>();
  const S a = re * rel_roughness * friction_detail::ratio<S>(ln10, 1000.0, 18574.0);
  const S b = log(S(re * friction_detail::ratio<S>(ln10, 100.0, 502.0)));
  const S F = friction_detail::colebrook_root<S>(a, b);
  const S f = ln10 * ln10 / (S(4.0) * F * F);
  // From F + ln(a+F) = b with a ~ Re, db/dRe = 1/Re:  dF/dRe = F / (Re (1 + a + F)).
  return {f, S(S(-2.0) * f / (re * (S(1.0) + a + F)))};
}

/// The band between laminar and turbulent: the cubic in Re that continues value and slope of 64/Re at Re 2000 and of
/// a turbulent formula at Re 4000.
///
/// With the Swamee-Jain formula at the upper end this is the cubic of E. J. Dunlop 1991 (see the test); libflow joins
/// Colebrook-White instead, so that friction is continuous with a continuous slope everywhere. The drop f Re^2 rises
/// over the whole band for every roughness to 0.05 (tested), although f itself has a dip near Re 2400.
/// @param re     [-], 2000 to 4000
/// @param upper  factor and slope of the turbulent formula at Re 4000
template <class S>
[[nodiscard]] FrictionFactor<S> friction_transition(const S& re, const FrictionFactor<S>& upper) {
  constexpr double width = turbulent_limit_re - laminar_limit_re;
  const S t = (re - S(laminar_limit_re)) / S(width);
  const S f0 = S(64.0 / laminar_limit_re);
  const S m0 = S(-64.0 / (laminar_limit_re * laminar_limit_re) * width);
  const S m1 = upper.slope * S(width);
  // Hermite cubic on the unit interval.
  const S c2 = S(3.0) * (upper.f - f0) - S(2.0) * m0 - m1;
  const S c3 = m0 + m1 - S(2.0) * (upper.f - f0);
  return {S(f0 + t * (m0 + t * (c2 + t * c3))), S((m0 + t * (S(2.0) * c2 + t * S(3.0) * c3)) / S(width))};
}

/// Friction factor over all regimes. What no lane asks for is not computed.
/// @param upper  gives friction_colebrook at Re 4000 for the same roughness
template <class S, class Upper>
requires std::invocable<const Upper&>
[[nodiscard]] FrictionFactor<S> friction_darcy(const S& re, const S& rel_roughness, const Upper& upper) {
  const auto laminar = re < laminar_limit_re;
  const auto turbulent = re > turbulent_limit_re;
  if (all(laminar)) return friction_laminar<S>(re);
  if (all(turbulent)) return friction_colebrook<S>(re, rel_roughness);
  if constexpr (std::same_as<decltype(laminar), const bool>) {
    return friction_transition<S>(re, upper());
  } else {
    FrictionFactor<S> f = friction_laminar<S>(smaller<S>(re, S(laminar_limit_re)));
    if (any(turbulent)) {
      const FrictionFactor<S> above = friction_colebrook<S>(larger<S>(re, S(turbulent_limit_re)), rel_roughness);
      f = {select<S>(turbulent, above.f, f.f), select<S>(turbulent, above.slope, f.slope)};
    }
    if (!all(laminar || turbulent)) {
      const FrictionFactor<S> band = friction_transition<S>(re, upper());
      f = {select<S>(laminar || turbulent, f.f, band.f), select<S>(laminar || turbulent, f.slope, band.slope)};
    }
    return f;
  }
}

/// The same with `upper` at hand: it does not depend on the flow, so a caller that solves many flows computes it once.
template <class S>
[[nodiscard]] FrictionFactor<S> friction_darcy(const S& re, const S& rel_roughness, const FrictionFactor<S>& upper) {
  return friction_darcy<S>(re, rel_roughness, [&upper]() -> const FrictionFactor<S>& { return upper; });
}

/// Darcy friction factor over all regimes.
/// @param re             Reynolds number [-], > 0
/// @param rel_roughness  e/D [-], 0 to 0.05
template <class S>
[[nodiscard]] FrictionFactor<S> friction_darcy(const S& re, const S& rel_roughness) {
  return friction_darcy<S>(re, rel_roughness, friction_colebrook<S>(S(turbulent_limit_re), rel_roughness));
}

/// Wall friction of a tube with everything that does not depend on the flow worked out beforehand.
template <class S>
struct WallFriction {
  S re_per_flow;            ///< Reynolds number per flow, 4 rho / (pi D mu) [s/m3]
  S scale;                  ///< mu^2 L / (2 rho D^3) [Pa]: the drop is scale x f Re^2
  S rel_roughness;          ///< e/D [-]
  FrictionFactor<S> upper;  ///< friction_colebrook at Re 4000
};

/// The same without `upper`, which is found anew where a lane is in the band: for numbers that change with every
/// solve, where most solves never need it.
template <class S>
struct BareFriction {
  S re_per_flow;    ///< as in WallFriction
  S scale;          ///< as in WallFriction
  S rel_roughness;  ///< as in WallFriction
};

/// @param length     [m], > 0
/// @param bore       inside diameter [m], > 0
/// @param roughness  of the wall [m], 0 to 0.05 bore
/// @param density    [kg/m3], > 0
/// @param viscosity  dynamic [Pa s], > 0
template <class S>
[[nodiscard]] BareFriction<S> bare_friction(const S& length, const S& bore, const S& roughness, const S& density,
                                            const S& viscosity) {
  return {S(S(4.0) * density / (S(std::numbers::pi_v<double>) * bore * viscosity)),
          S(viscosity * viscosity * length / (S(2.0) * density * bore * bore * bore)), S(roughness / bore)};
}

/// The numbers of a tube that differs from `unit` by these ratios, by the powers in which length, bore, roughness and
/// liquid enter: one division where bare_friction takes three.
/// @param unit       of a tube in a liquid of density 1 kg/m3 and viscosity 1 Pa s
/// @param length     over the length of that tube [-]
/// @param inverse_bore  bore of that tube over the bore [-]
/// @param roughness  over the roughness of that tube [-]
/// @param thinness   density over viscosity [s/m2]
/// @param thickness  viscosity squared over density [Pa2 s2 m3/kg]
template <class S>
[[nodiscard]] BareFriction<S> similar_friction(const BareFriction<double>& unit, const S& length, const S& inverse_bore,
                                               const S& roughness, const S& thinness, const S& thickness) {
  return {S(S(unit.re_per_flow) * inverse_bore * thinness),
          S(S(unit.scale) * length * inverse_bore * inverse_bore * inverse_bore * thickness),
          S(S(unit.rel_roughness) * roughness * inverse_bore)};
}

/// Parameters as bare_friction.
template <class S>
[[nodiscard]] WallFriction<S> wall_friction(const S& length, const S& bore, const S& roughness, const S& density,
                                            const S& viscosity) {
  const BareFriction<S> w = bare_friction<S>(length, bore, roughness, density, viscosity);
  return {w.re_per_flow, w.scale, w.rel_roughness, friction_colebrook<S>(S(turbulent_limit_re), w.rel_roughness)};
}

namespace friction_detail {
template <class S>
[[nodiscard]] const FrictionFactor<S>& upper(const WallFriction<S>& w) {
  return w.upper;
}
template <class S>
[[nodiscard]] FrictionFactor<S> upper(const BareFriction<S>& w) {
  return friction_colebrook<S>(S(turbulent_limit_re), w.rel_roughness);
}
}  // namespace friction_detail

/// Darcy-Weisbach drop f (L/D) rho V^2/2 at flow `q` [m3/s, either sign], written as scale x f Re^2 so that it stays
/// exact at zero flow. Odd in the flow, strictly increasing, slope at zero = Hagen-Poiseuille.
/// Source: J. Weisbach 1845, H. Darcy 1857; any fluid mechanics text.
/// @param w  WallFriction or BareFriction
template <class S, class Friction = WallFriction<S>>
[[nodiscard]] Drop<S> drop_wall_friction(const S& q, const Friction& w) {
  using std::abs;
  const S re = abs(q) * w.re_per_flow;
  const auto laminar = re < laminar_limit_re;
  const S slope_laminar = S(64.0) * w.scale * w.re_per_flow;
  if (all(laminar)) return {S(slope_laminar * q), slope_laminar};
  const FrictionFactor<S> f = friction_darcy<S>(larger<S>(re, S(1.0)), w.rel_roughness,
                                                [&w]() -> decltype(auto) { return friction_detail::upper<S>(w); });
  const S dp = w.scale * f.f * re * re;
  const S slope = w.scale * w.re_per_flow * re * (f.slope * re + S(2.0) * f.f);
  const S signed_dp = select<S>(q < S(0.0), S(-dp), dp);
  return {select<S>(laminar, S(slope_laminar * q), signed_dp), select<S>(laminar, slope_laminar, slope)};
}

}  // namespace libflow::physics
