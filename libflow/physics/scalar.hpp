// SPDX-License-Identifier: MIT
/// @file
/// The few operations that a formula needs to run on a `double`, on a pack of scenarios
/// (`Eigen::Array<double, W, 1>`) and on a many-digit number alike.
#pragma once

#include <cmath>
#include <concepts>

namespace libflow::physics {

/// A total-pressure drop [Pa] and its slope against flow [Pa per m3/s]; always made together by one formula.
template <class S>
struct Drop {
  S dp;     ///< drop [Pa]
  S slope;  ///< of the drop against the flow [Pa per m3/s]
};

/// Choice by lane: `yes` where `mask` holds, else `no`. For one number the mask is a bool.
template <class S>
[[nodiscard]] inline S select(bool mask, const S& yes, const S& no) {
  return mask ? yes : no;
}
/// Lane by lane one of two values.
template <class S, class Mask>
requires requires(const Mask& m, const S& a) { m.select(a, a); }
[[nodiscard]] inline S select(const Mask& mask, const S& yes, const S& no) { return mask.select(yes, no); }

/// True when the condition holds in every lane.
[[nodiscard]] constexpr bool all(bool mask) { return mask; }
/// True in every lane.
template <class Mask>
requires requires(const Mask& m) {
  { m.all() } -> std::convertible_to<bool>;
}
[[nodiscard]] inline bool all(const Mask& mask) { return mask.all(); }

/// True when the condition holds in any lane.
[[nodiscard]] constexpr bool any(bool mask) { return mask; }
/// True in some lane.
template <class Mask>
requires requires(const Mask& m) {
  { m.any() } -> std::convertible_to<bool>;
}
[[nodiscard]] inline bool any(const Mask& mask) { return mask.any(); }

/// A double, or lanes of doubles side by side: what is accurate enough for a double is so for it.
template <class S>
inline constexpr bool made_of_doubles = std::same_as<S, double> || requires(const S& s) {
  s.matrix();
}
|| requires { S::width; };

/// Larger and smaller of two, lane by lane.
template <class S>
[[nodiscard]] inline S larger(const S& a, const S& b) {
  return select<S>(a > b, a, b);
}
/// The smaller of two, lane by lane.
template <class S>
[[nodiscard]] inline S smaller(const S& a, const S& b) {
  return select<S>(a < b, a, b);
}

}  // namespace libflow::physics
