// SPDX-License-Identifier: MIT
/// @file
/// A number with its slopes in N directions: any formula on it also gives its exact derivatives (forward mode).
///
/// Own and small because the formulas need powers of two such numbers and all directions of one part at once; the tests
/// hold it against Boost.Math's differentiation and 50-digit differences.
/// Source of the rules: any calculus text; as a number type, R. E. Wengert, Comm. ACM 7 (1964) 463 (from memory).
#pragma once

#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>

namespace libflow::physics {

/// v + sum of d_k e_k with e_j e_k = 0. Loops are unrolled, so that slopes which nobody reads are not computed: more
/// than twice as fast.
template <std::size_t N>
struct Dual {
  double v = 0.0;             ///< value
  std::array<double, N> d{};  ///< derivatives by each of the inputs

  constexpr Dual() = default;
  /// A constant: all derivatives 0.
  constexpr explicit Dual(double value) : v(value) {}
  /// An input: slope 1 in its own direction k < N.
  [[nodiscard]] static constexpr Dual input(double value, std::size_t k) {
    Dual x(value);
    x.d[k] = 1.0;
    return x;
  }

  /// Sum.
  constexpr Dual& operator+=(const Dual& o) {
#pragma GCC unroll 8
    for (std::size_t k = 0; k < N; ++k) d[k] += o.d[k];
    v += o.v;
    return *this;
  }
  /// Difference.
  constexpr Dual& operator-=(const Dual& o) {
#pragma GCC unroll 8
    for (std::size_t k = 0; k < N; ++k) d[k] -= o.d[k];
    v -= o.v;
    return *this;
  }
  /// Product rule.
  constexpr Dual& operator*=(const Dual& o) {
#pragma GCC unroll 8
    for (std::size_t k = 0; k < N; ++k) d[k] = d[k] * o.v + v * o.d[k];
    v *= o.v;
    return *this;
  }
  /// Quotient rule.
  constexpr Dual& operator/=(const Dual& o) {
    v /= o.v;
    const double inverse = 1.0 / o.v;
#pragma GCC unroll 8
    for (std::size_t k = 0; k < N; ++k) d[k] = (d[k] - v * o.d[k]) * inverse;
    return *this;
  }
  friend constexpr Dual operator+(Dual a, const Dual& b) { return a += b; }
  friend constexpr Dual operator-(Dual a, const Dual& b) { return a -= b; }
  friend constexpr Dual operator*(Dual a, const Dual& b) { return a *= b; }
  friend constexpr Dual operator/(Dual a, const Dual& b) { return a /= b; }
  friend constexpr Dual operator-(const Dual& a) { return a.through(-a.v, -1.0); }

  /// A function of this: its value, and its slope against this.
  [[nodiscard]] constexpr Dual through(double value, double slope) const {
    Dual r(value);
#pragma GCC unroll 8
    for (std::size_t k = 0; k < N; ++k) r.d[k] = slope * d[k];
    return r;
  }

  // Comparisons look at the value: they choose a branch.
  friend constexpr bool operator<(const Dual& a, const Dual& b) { return a.v < b.v; }
  friend constexpr bool operator>(const Dual& a, const Dual& b) { return a.v > b.v; }
  friend constexpr bool operator<=(const Dual& a, const Dual& b) { return a.v <= b.v; }
  friend constexpr bool operator>=(const Dual& a, const Dual& b) { return a.v >= b.v; }
  friend constexpr bool operator<(const Dual& a, double b) { return a.v < b; }
  friend constexpr bool operator>(const Dual& a, double b) { return a.v > b; }
  friend constexpr bool operator<=(const Dual& a, double b) { return a.v <= b; }
  friend constexpr bool operator>=(const Dual& a, double b) { return a.v >= b; }

  /// At zero the slope of what does not change through zero, 0: formulas take it only of such numbers there.
  friend Dual abs(const Dual& x) { return x.through(std::abs(x.v), x.v > 0.0 ? 1.0 : x.v < 0.0 ? -1.0 : 0.0); }
  friend Dual sqrt(const Dual& x) {
    const double root = std::sqrt(x.v);
    return x.through(root, root > 0.0 ? 0.5 / root : 0.0);
  }
  friend Dual exp(const Dual& x) {
    const double e = std::exp(x.v);
    return x.through(e, e);
  }
  friend Dual log(const Dual& x) { return x.through(std::log(x.v), 1.0 / x.v); }
  friend Dual sin(const Dual& x) { return x.through(std::sin(x.v), std::cos(x.v)); }
  friend Dual tan(const Dual& x) {
    const double t = std::tan(x.v);
    return x.through(t, 1.0 + t * t);
  }
  /// @param x  > 0
  friend Dual pow(const Dual& x, const Dual& y) {
    const double p = std::pow(x.v, y.v);
    return x.through(p, y.v * p / x.v) += y.through(0.0, p * std::log(x.v));
  }
};

/// The plain value of a number, without its slopes or further digits.
[[nodiscard]] constexpr double value_of(double x) { return x; }
/// The value without its derivatives.
template <std::size_t N>
[[nodiscard]] constexpr double value_of(const Dual<N>& x) {
  return x.v;
}
/// Rounded to a double.
template <class Many>
requires requires(const Many& x) { x.template convert_to<double>(); }
[[nodiscard]] double value_of(const Many& x) { return x.template convert_to<double>(); }

}  // namespace libflow::physics
