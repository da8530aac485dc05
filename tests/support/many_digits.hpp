// SPDX-License-Identifier: MIT
/// @file
/// Fifty-digit numbers, to hold formulas and their slopes against themselves far beyond double precision.
#pragma once

#include <boost/multiprecision/cpp_bin_float.hpp>

namespace libflow::test {

using Many = boost::multiprecision::cpp_bin_float_50;

/// Slope of `f` at `x` by a central difference in fifty digits; good to about 30 digits where f is smooth.
template <class F>
[[nodiscard]] Many difference_slope(const F& f, const Many& x) {
  const Many h = abs(x) * Many(1e-16);
  return Many((f(Many(x + h)) - f(Many(x - h))) / (2 * h));
}

}  // namespace libflow::test
