// SPDX-License-Identifier: MIT
/// @file
/// A smooth bridge between two friction laws over a band of Reynolds numbers.
#pragma once

#include <libflow/physics/friction.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Width of the band between laminar and turbulent flow in a straight tube [-], kept for coils and for liquids that
/// thin with shear.
inline constexpr double transition_width_re = turbulent_limit_re - laminar_limit_re;

/// The cubic in Re that continues value and slope of `lower` at Re `low` and of `upper` at Re `high`. With the limits
/// of a straight tube it is friction_transition.
/// @param re     [-], low to high
/// @param low    [-]
/// @param lower  factor and slope at `low`
/// @param high   [-], > low
/// @param upper  factor and slope at `high`
template <class S>
[[nodiscard]] FrictionFactor<S> friction_join(const S& re, const S& low, const FrictionFactor<S>& lower, const S& high,
                                              const FrictionFactor<S>& upper) {
  const S width = high - low;
  const S t = (re - low) / width;
  const S m0 = lower.slope * width;
  const S m1 = upper.slope * width;
  // Hermite cubic on the unit interval.
  const S c2 = S(3.0) * (upper.f - lower.f) - S(2.0) * m0 - m1;
  const S c3 = m0 + m1 - S(2.0) * (upper.f - lower.f);
  return {S(lower.f + t * (m0 + t * (c2 + t * c3))), S((m0 + t * (S(2.0) * c2 + t * S(3.0) * c3)) / width)};
}

}  // namespace libflow::physics
