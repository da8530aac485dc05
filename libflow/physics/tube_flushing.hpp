// SPDX-License-Identifier: MIT
/// @file
/// How long one liquid takes to push another out of a tube: plug flow, and laminar flow, whose slow layer at the wall
/// holds the old liquid back.
#pragma once

#include <cmath>

#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// First new liquid at the end of a tube in laminar flow, as a share of the mean transit time: the axis runs at twice
/// the mean velocity.
inline constexpr double laminar_breakthrough = 0.5;

/// Share of new liquid in what leaves a tube in laminar flow: 1 - 1/(4 t^2), and none before t = 1/2.
/// @param time  since the new liquid entered, over the mean transit time (volume / flow), >= 0
/// Developed Newtonian flow, liquids of one viscosity and density, no diffusion: it holds where bore^2 / (4
/// diffusivity) is long against the transit time, which it is for salts in hose (hours against a minute). Diffusion,
/// bends and junctions only mix: the true tail is shorter.
/// Sources: P. V. Danckwerts, Chem. Eng. Sci. 2 (1953) 1; O. Levenspiel, Chemical Reaction Engineering, 3rd ed., Wiley,
/// 1999, p. 344; the convective limit of G. I. Taylor, Proc. R. Soc. A 219 (1953) 186.
template <class S>
[[nodiscard]] S laminar_new_share(const S& time) {
  const S t = larger<S>(time, S(laminar_breakthrough));
  return S(S(1.0) - S(1.0) / (S(4.0) * t * t));
}

/// Time after which what leaves a tube in laminar flow is new liquid to a share, over the mean transit time:
/// 1 / (2 sqrt(1 - share)); 1 for three quarters, 5 for 99 %.
/// @param share  0 to below 1
template <class S>
[[nodiscard]] S laminar_flushing_time(const S& share) {
  using std::sqrt;
  return S(S(laminar_breakthrough) / sqrt(S(S(1.0) - share)));
}

/// Volume of a round tube [m3]. @param length, bore  inside [m]
template <class S>
[[nodiscard]] S tube_volume(const S& length, const S& bore) {
  return S(S(0.78539816339744830962) * bore * bore * length);
}

}  // namespace libflow::physics
