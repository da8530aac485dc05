// SPDX-License-Identifier: MIT
/// @file
/// Losses of fittings that rise at low Reynolds number, and the loss of a jet's velocity head.
#pragma once

#include <numbers>

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
