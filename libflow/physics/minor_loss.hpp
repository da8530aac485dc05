// SPDX-License-Identifier: MIT
/// @file
/// Losses of fittings and of changes of bore that rise at low Reynolds number, and the loss of a jet's velocity head.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/core/range.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Drop r q + k q|q| of a local loss K = K1/Re + K_inf on the velocity in `bore`.
template <class S>
struct LinearQuadratic {
  S linear;     ///< [Pa per m3/s]
  S quadratic;  ///< [Pa per (m3/s)^2]
};

/// @param k1         laminar constant [-], >= 0 (800 for a screwed elbow, for example)
/// @param k_inf      loss coefficient at high Reynolds number, size correction included [-], >= 0
/// @param bore       [m], > 0
/// @param density    [kg/m3]
/// @param viscosity  dynamic [Pa s]
/// Source: W. B. Hooper, Chem. Eng., 24 August 1981, p. 97 (two-constant method).
template <class S>
[[nodiscard]] LinearQuadratic<S> local_loss(const S& k1, const S& k_inf, const S& bore, const S& density,
                                            const S& viscosity) {
  const S area = S(std::numbers::pi) * bore * bore / S(4.0);
  return {S(k1 * viscosity / (S(2.0) * bore * area)), S(k_inf * density / (S(2.0) * area * area))};
}

/// Hooper's size correction: K_inf = K (1 + 1/D), D the bore in inches.
template <class S>
[[nodiscard]] S hooper_k_inf(const S& k, const S& bore) {
  return k * (S(1.0) + S(0.0254) / bore);
}

/// Darby's size correction: K_inf = Ki (1 + Kd/D^0.3), D the nominal size in inches; the bore stands for it in hose.
/// @param ki    [-], >= 0
/// @param kd    [inch^0.3], >= 0
/// @param bore  [m], > 0
/// Source: P. Silverberg, R. Darby, Chem. Eng. 106 (7), July 1999, p. 101 (three-constant method; form seen in an open
/// package).
template <class S>
[[nodiscard]] S darby_k_inf(const S& ki, const S& kd, const S& bore) {
  using std::pow;
  return ki * (S(1.0) + kd / pow(S(bore / S(0.0254)), S(0.3)));
}

/// Full cone angles of a change of bore [rad]: 180 degrees is a sudden change.
inline constexpr Range cone_angle_range{std::numbers::pi / 36.0, std::numbers::pi};

/// Loss coefficient at high Reynolds number of a narrowing bore on the velocity in the smaller one:
///   0.5 (1 - b^2) sqrt(sin(t/2)) above 45 degrees, 0.8 (1 - b^2) sin(t/2) up to there,
/// b the ratio of the bores, t the full cone angle. The two differ by 1 % where they meet.
/// @param bore_ratio  smaller over larger bore [-], 0 to 1
/// @param angle       full cone angle [rad], cone_angle_range; pi: sudden, sharp-edged
/// Source: Crane Technical Paper 410 (form seen in an open package).
template <class S>
[[nodiscard]] S contraction_k_inf(const S& bore_ratio, const S& angle) {
  using std::sin;
  using std::sqrt;
  const S half = sin(S(angle / S(2.0)));
  const S cone = select<S>(angle <= S(std::numbers::pi / 4.0), S(S(0.8) * half), S(S(0.5) * sqrt(half)));
  return cone * (S(1.0) - bore_ratio * bore_ratio);
}

/// Loss coefficient at high Reynolds number of a widening bore on the velocity in the smaller one:
///   (1 - b^2)^2 above 45 degrees, 2.6 sin(t/2) times that up to there.
/// Parameters as contraction_k_inf. Source: J.-C. de Borda, L. Carnot (sudden); Crane Technical Paper 410 (cone; form
/// seen in an open package).
template <class S>
[[nodiscard]] S expansion_k_inf(const S& bore_ratio, const S& angle) {
  using std::sin;
  const S left = S(1.0) - bore_ratio * bore_ratio;
  return select<S>(angle <= S(std::numbers::pi / 4.0), S(S(2.6) * sin(S(angle / S(2.0)))), S(1.0)) * left * left;
}

/// Laminar constant K1 of a change of bore, the same in both directions (creeping flow runs back on its own path):
///   6 pi (1 - b^2) + 32 (1 - b^3) / (3 tan(t/2)).
/// The first term is the end of a tube in a wide space, half of the exact 3 mu q/a^3 of a hole in a thin plate
/// (R. A. Sampson, Phil. Trans. R. Soc. A 182 (1891) 449), less as the bores come together (1 - b^2 is ours). The
/// second is Hagen-Poiseuille friction along the cone, nothing for a sudden change. For cones between, their sum errs
/// upwards. W. B. Hooper, Chem. Eng., 7 November 1988, p. 89 has 160/Re and a constant 1.2 for a sudden contraction
/// below Re 2500: that includes the development of the laminar profile behind it, which belongs to the tube.
template <class S>
[[nodiscard]] S bore_change_k1(const S& bore_ratio, const S& angle) {
  using std::tan;
  return S(6.0 * std::numbers::pi) * (S(1.0) - bore_ratio * bore_ratio) +
         S(32.0) * (S(1.0) - bore_ratio * bore_ratio * bore_ratio) / (S(3.0) * tan(S(angle / S(2.0))));
}

/// Velocity head rho V^2 / 2 of a flow in a round bore [Pa].
template <class S>
[[nodiscard]] S velocity_head(const S& q, const S& bore, const S& density) {
  const S area = S(std::numbers::pi) * bore * bore / S(4.0);
  const S v = q / area;
  return density * v * v / S(2.0);
}

/// Reynolds number of a flow in a round bore, 4 rho |q| / (pi D mu) [-].
template <class S>
[[nodiscard]] S reynolds_number(const S& q, const S& bore, const S& density, const S& viscosity) {
  using std::abs;
  return S(4.0) * density * abs(q) / (S(std::numbers::pi) * bore * viscosity);
}

}  // namespace libflow::physics
