// SPDX-License-Identifier: MIT
/// @file
/// What the last digits of a double cannot tell: the smallest drops and flows that residuals are held against.
#pragma once

#include <cmath>

namespace libflow {

/// Where everything stands still, residuals are held against these instead of against nothing. Under a head far below
/// `least_drop` the flow is therefore known to fewer digits: under 1e-12 Pa, laws hold to a millionth of it.
inline constexpr double least_drop = 1e-9;   ///< [Pa]
inline constexpr double least_flow = 1e-18;  ///< [m3/s], a cubic micrometre a second

/// A smaller flow is none: a molecule of water (3e-29 m3) takes longer than half a minute to pass. What rounding leaves
/// in pockets where nothing moves is far smaller.
inline constexpr double no_flow = 1e-30;  ///< [m3/s]

/// By how much a drop between potentials `a` and `b` held against a pressure `c` may be off through rounding [Pa]. What
/// doubles cannot tell is no fault of an answer.
[[nodiscard]] inline double pressure_rounding(double a, double b, double c) {
  return 2e-15 * (std::abs(a) + std::abs(b) + std::abs(c));
}

/// A sum that keeps what rounding takes from it. Source: D. E. Knuth, The Art of Computer Programming 2, 4.2.2 (the
/// rounding of a sum, from memory); A. Neumaier, Z. angew. Math. Mech. 54 (1974) 39 (adding it up, from memory).
class CompensatedSum {
 public:
  /// Begins with a number.
  explicit CompensatedSum(double first = 0.0) : sum_(first) {}
  /// Adds a number.
  void add(double x) {
    const double next = sum_ + x, part = next - sum_;
    left_ += (sum_ - (next - part)) + (x - part);
    sum_ = next;
  }
  /// The sum, what rounding took put back.
  [[nodiscard]] double value() const { return sum_ + left_; }

 private:
  double sum_ = 0, left_ = 0;
};

/// Least slope of a law that a Newton step works with [Pa per m3/s]: at the largest flow its drop is nothing beside the
/// largest drop.
template <class S>
[[nodiscard]] S slope_floor(const S& largest_drop, const S& largest_flow) {
  return S(1e-13) * largest_drop / largest_flow;
}

}  // namespace libflow
