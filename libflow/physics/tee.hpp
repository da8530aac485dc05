// SPDX-License-Identifier: MIT
/// @file
/// Losses of a tee or wye as functions of how the flow splits: branch and run, dividing and combining.
///
/// Every coefficient is a loss of *total* pressure over the velocity head of the combined flow in the run's bore, and
/// may be negative: the liquid that goes one way can gain what the other loses. The run has the same bore before and
/// after. q is the branch's share of the combined flow, 0 to 1.
///
/// **Which source is used.** `tee_dividing` and `tee_combining` follow one source, Crane TP-410: it covers every area
/// ratio up to 1 and angles from 30 to 90 degrees, its text prints worked examples, and for the case of a toolbar, a
/// bar that divides at 90 degrees, its coefficients are continuous in q as printed (the run's slope has a kink at q =
/// 0.5). Two of its factors jump elsewhere: a line that falls with q to 0.54 or 0.64 or 0.82 is followed by a plateau
/// at 0.55, 0.6 or 0.85. An iteration on the split must not meet a jump, so here the line holds until it meets the
/// plateau. That differs from the print only for q 0.389 to 0.400 (combining, by 1.9 % of the factor), 0.600 to 0.667
/// (dividing wye, by 6.7 %) and 0.357 to 0.400 (dividing wye with a small branch, by 3.7 %).
///
/// Idelchik and Gardel are here as second opinions. Gardel's polynomials are smooth in q and would suit a solver best,
/// but they are quoted from memory and were measured on area ratios from about 0.4 to 1 only. For equal areas the
/// three differ by up to half a velocity head on the branch and 0.15 on the run (tested): no tee is known better.
///
/// All hold for turbulent flow (Re above about 1e4). The loss depends on the split, so it is no part of a convex
/// solve: it enters by an outer correction around it.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/dual.hpp>
#include <libflow/physics/minor_loss.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// The two coefficients of a tee and their slopes against the branch's share of the flow [-].
template <class S>
struct TeeLoss {
  S branch;        ///< from the combined flow to the branch (dividing) or from the branch to it (combining)
  S branch_slope;  ///< d branch / dq
  S run;           ///< the same for the straight way
  S run_slope;     ///< d run / dq
};

/// What a tee looks like.
/// @tparam A  of the area ratio: double, or a number that carries slopes or more digits
template <class A>
struct BasicTeeShape {
  A area_ratio = A(1.0);  ///< area of the branch over that of the run [-], 0.01 to 1 (tee_area_ratio)
  double angle = 90.0;    ///< between the branch and the run's direction of flow [degrees], 30 to 90 (tee_angle)
  double rounding = 0.0;  ///< radius of the edge over the branch's bore [-], 0 to 0.15; used by Gardel's form only
};
/// With a plain area ratio.
using TeeShape = BasicTeeShape<double>;

inline constexpr Range tee_area_ratio{0.01, 1.0};  ///< branch over run [-]
inline constexpr Range tee_angle{30.0, 90.0};      ///< between branch and run [degrees]
inline constexpr Range tee_rounding{0.0, 0.15};    ///< radius of the edge over the bore of the branch [-]
/// Crane's special cases for a 90-degree tee are used from this angle on; it prints 60 and 90 (the middle, as the open
/// package that was read does).
inline constexpr double tee_right_angle_from = 75.0;

namespace tee_detail {

template <class S>
struct Sloped {
  S value;
  S slope;
};

template <class S>
[[nodiscard]] Sloped<S> product(const Sloped<S>& a, const Sloped<S>& b) {
  return {S(a.value * b.value), S(a.slope * b.value + a.value * b.slope)};
}

template <class S>
[[nodiscard]] Sloped<S> constant(double value) {
  return {S(value), S(0.0)};
}

/// start - fall q, until it meets the plateau.
template <class S>
[[nodiscard]] Sloped<S> falling_to(const S& q, double start, double fall, double plateau) {
  const S line = S(start) - S(fall) * q;
  const Sloped<S> level = constant<S>(plateau);
  return {select<S>(line > plateau, line, level.value), select<S>(line > plateau, S(-fall), level.slope)};
}

/// Straight line between the printed points. @param at  x.front() to x.back()
template <std::size_t N>
[[nodiscard]] inline double between(const std::array<double, N>& x, const std::array<double, N>& y, double at) {
  std::size_t i = 1;
  while (i + 1 < N && at > x[i]) ++i;
  return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
}

[[nodiscard]] inline double cosine(double degrees) {
  return degrees == 90.0 ? 0.0 : std::cos(degrees * std::numbers::pi / 180.0);
}

/// Branch of a combining tee: A [1 + (q/a)^2 - 2 (1 - q)^2 - (f/a) q^2], the same in Crane and Idelchik.
template <class S, class A>
[[nodiscard]] Sloped<S> combining_branch(const S& q, const A& a, double f) {
  const Sloped<S> factor = value_of(a) <= 0.35 ? constant<S>(1.0) : falling_to<S>(q, 0.9, 0.9, 0.55);
  const S rest = S(1.0) - q;
  const Sloped<S> sum{S(S(1.0) + q * q * S(A(1.0) / (a * a) - A(f) / a) - S(2.0) * rest * rest),
                      S(q * S(A(2.0) / (a * a) - A(2.0 * f) / a) + S(4.0) * rest)};
  return product(factor, sum);
}

/// Branch of a dividing wye: A' [1 + (q/a)^2 - 2 (q/a) cos], with Idelchik's A'.
template <class S, class A>
[[nodiscard]] Sloped<S> dividing_branch(const S& q, const A& a, double angle) {
  const Sloped<S> factor = value_of(a) <= 0.35 ? falling_to<S>(q, 1.1, 0.7, 0.85) : falling_to<S>(q, 1.0, 0.6, 0.6);
  const double c = cosine(angle);
  const Sloped<S> sum{S(S(1.0) + q * q * S(A(1.0) / (a * a)) - q * S(A(2.0 * c) / a)),
                      S(q * S(A(2.0) / (a * a)) - S(A(2.0 * c) / a))};
  return product(factor, sum);
}

/// Run of a dividing tee: tau q^2, the same in Crane and Idelchik.
template <class S>
[[nodiscard]] Sloped<S> dividing_run(const S& q, double a) {
  if (a <= 0.4) return {S(S(0.4) * q * q), S(S(0.8) * q)};
  const S steep = select<S>(q > 0.5, S(0.3), S(2.0));
  return {S(steep * (S(2.0) * q - S(1.0)) * q * q), S(steep * q * (S(6.0) * q - S(2.0)))};
}

template <class S>
[[nodiscard]] TeeLoss<S> both(const Sloped<S>& branch, const Sloped<S>& run) {
  return {branch.value, branch.slope, run.value, run.slope};
}

}  // namespace tee_detail

/// A tee or wye that divides the flow.
/// @param q     the branch's share of the combined flow [-], 0 to 1
/// @param tee   the shape; `rounding` is not used
/// Source: Crane Co., Flow of Fluids Through Valves, Fittings, and Pipe, Technical Paper 410, 2009 edition, equations
/// 2-35 to 2-37 and their tables (seen in an open package); jumps closed as the file's head tells.
template <class S, class A = double>
[[nodiscard]] TeeLoss<S> tee_dividing(const S& q, const BasicTeeShape<A>& tee) {
  const A& a = tee.area_ratio;
  const double plain = value_of(a);  // chooses among the printed forms
  const tee_detail::Sloped<S> run = tee_detail::dividing_run<S>(q, plain);
  if (tee.angle < tee_right_angle_from) {
    // Crane prints other constants for 60 degrees and a branch bore above 2/3 of the run's.
    if (tee.angle < 60.0 || std::sqrt(plain) <= 2.0 / 3.0) {
      return tee_detail::both(tee_detail::dividing_branch<S>(q, a, tee.angle), run);
    }
    const tee_detail::Sloped<S> factor = tee_detail::falling_to<S>(q, 1.0, 0.6, 0.6);
    const tee_detail::Sloped<S> sum{S(S(1.0) + q * q * S(A(0.3) / (a * a))), S(q * S(A(0.6) / (a * a)))};
    return tee_detail::both(tee_detail::product(factor, sum), run);
  }
  const double h = std::sqrt(plain) <= 2.0 / 3.0 ? 1.0 : 0.3;
  const double g = plain <= 2.0 / 3.0 ? 0.0 : 0.3;
  // The published form has no cosine for a right angle; the small-branch form has one, and it is 0 at 90 degrees.
  const double j = h == 1.0 ? 2.0 * tee_detail::cosine(tee.angle) : 0.0;
  const tee_detail::Sloped<S> factor{S(S(1.0) + S(g) * q * q), S(S(2.0 * g) * q)};
  const tee_detail::Sloped<S> sum{S(S(1.0) + q * q * S(A(h) / (a * a)) - q * S(A(j) / a)),
                                  S(q * S(A(2.0 * h) / (a * a)) - S(A(j) / a))};
  return tee_detail::both(tee_detail::product(factor, sum), run);
}

/// A tee or wye in which two flows combine. Parameters and source as tee_dividing.
template <class S, class A = double>
[[nodiscard]] TeeLoss<S> tee_combining(const S& q, const BasicTeeShape<A>& tee) {
  const A& a = tee.area_ratio;
  constexpr std::array<double, 4> angles{30.0, 45.0, 60.0, 90.0};
  constexpr std::array<double, 4> turned{1.74, 1.41, 1.0, 0.0};
  const double f = tee_detail::between(angles, turned, tee.angle);
  const tee_detail::Sloped<S> branch = tee_detail::combining_branch<S>(q, a, f);
  if (tee.angle >= tee_right_angle_from) {
    return tee_detail::both(branch, {S(S(1.55) * q - q * q), S(S(1.55) - S(2.0) * q)});
  }
  // For the run the table ends at 60 degrees; its value holds on from there.
  const double run_f = std::fmax(f, 1.0);
  const S rest = S(1.0) - q;
  return tee_detail::both(
      branch, {S(S(1.0) - rest * rest - S(A(run_f) / a) * q * q), S(S(2.0) * rest - S(A(2.0 * run_f) / a) * q)});
}

/// A second opinion: a 90-degree tee that divides the flow, branch and run by Idelchik.
/// Source: I. E. Idelchik, Handbook of Hydraulic Resistance, 3rd edition, section 7-16 (equations seen in an open
/// model library that reprints it); jumps closed as above.
template <class S>
[[nodiscard]] TeeLoss<S> tee_dividing_idelchik(const S& q, double area_ratio) {
  return tee_detail::both(tee_detail::dividing_branch<S>(q, area_ratio, 90.0),
                          tee_detail::dividing_run<S>(q, area_ratio));
}

/// A second opinion: a 90-degree tee in which two flows combine. Source as tee_dividing_idelchik, section 7-15.
template <class S>
[[nodiscard]] TeeLoss<S> tee_combining_idelchik(const S& q, double area_ratio) {
  const S rest = S(1.0) - q;
  return tee_detail::both(
      tee_detail::combining_branch<S>(q, area_ratio, 0.0),
      {S(S(1.0) - rest * rest - (S(1.4) - q) * q * q), S(S(2.0) * rest - S(2.8) * q + S(3.0) * q * q)});
}

/// A third opinion, smooth in q: a tee that divides the flow, by Gardel.
/// Source: A. Gardel, Bull. Tech. Suisse Romande 83 (1957) 123 and 143 (equations from memory, not seen).
template <class S>
[[nodiscard]] TeeLoss<S> tee_dividing_gardel(const S& q, const TeeShape& tee) {
  const double a = tee.area_ratio;
  // cot((180 - angle)/2) = tan(angle/2)
  const double t = std::tan(tee.angle * std::numbers::pi / 360.0);
  const double turn = (1.3 * t - 0.3 + (0.4 - 0.1 * a) / (a * a)) * (1.0 - 0.9 * std::sqrt(tee.rounding / a));
  const double mixed = 0.4 * (1.0 + 1.0 / a) * t;
  const S rest = S(1.0) - q;
  return {S(S(0.95) * rest * rest + S(turn) * q * q + S(mixed) * q * rest),
          S(S(-1.9) * rest + S(2.0 * turn) * q + S(mixed) * (S(1.0) - S(2.0) * q)),
          S(S(0.03) * rest * rest + S(0.35) * q * q - S(0.2) * q * rest),
          S(S(-0.06) * rest + S(0.7) * q - S(0.2) * (S(1.0) - S(2.0) * q))};
}

/// A third opinion, smooth in q: a tee in which two flows combine. Source as tee_dividing_gardel.
template <class S>
[[nodiscard]] TeeLoss<S> tee_combining_gardel(const S& q, const TeeShape& tee) {
  const double a = tee.area_ratio, c = tee_detail::cosine(tee.angle), r = std::sqrt(tee.rounding);
  const double branch = (1.2 - r) * (c / a - 1.0) + 0.8 * (1.0 - 1.0 / (a * a)) - (1.0 / a - 1.0) * c;
  const double run = 1.0 + (1.62 - r) * (c / a - 1.0) - 0.38 * (1.0 - a);
  const S rest = S(1.0) - q;
  const S mixed = S(2.0 - a) * q * rest, mixed_slope = S(2.0 - a) * (S(1.0) - S(2.0) * q);
  return {S(S(-0.92) * rest * rest - S(branch) * q * q + mixed), S(S(1.84) * rest - S(2.0 * branch) * q + mixed_slope),
          S(S(0.03) * rest * rest - S(run) * q * q + mixed), S(S(-0.06) * rest - S(2.0 * run) * q + mixed_slope)};
}

/// Losses of total pressure in the two ways of a tee [Pa].
template <class S>
struct TeeDrops {
  S branch;  ///< of the branch [Pa]
  S run;     ///< of the run [Pa]
};

/// @param loss      coefficients at the split
/// @param combined  the combined flow [m3/s]
/// @param bore      of the run [m], > 0
/// @param density   [kg/m3]
template <class S>
[[nodiscard]] TeeDrops<S> tee_drops(const TeeLoss<S>& loss, const S& combined, const S& bore, const S& density) {
  const S head = velocity_head<S>(combined, bore, density);
  return {S(loss.branch * head), S(loss.run * head)};
}

/// Pressure regain: how far the *static* pressure rises along the run past a branch that takes the share q, over the
/// velocity head before it: 1 - (1 - q)^2 - K_run (Bernoulli with the run's loss). Positive where the velocity head
/// given up exceeds the loss; this is what feeds the far ports of a short wide bar more than the near ones.
template <class S>
[[nodiscard]] S run_regain(const S& run_loss, const S& q) {
  const S rest = S(1.0) - q;
  return S(1.0) - rest * rest - run_loss;
}

}  // namespace libflow::physics
