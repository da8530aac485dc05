// SPDX-License-Identifier: MIT
/// @file
/// A smooth curve through given points that rises or falls where they do: Boost.Math's monotone cubic pieces.
#pragma once

#include <vector>

// pchip of Boost 1.74 calls isnan without including it, so its header comes first.
// clang-format off
#include <boost/math/special_functions/fpclassify.hpp>
#include <boost/math/interpolators/pchip.hpp>
// clang-format on

namespace libflow::physics {

/// Made from abscissas that rise and as many ordinates, 4 points or more; then `curve(x)` and its slope
/// `curve.prime(x)`, x between the first and the last abscissa (outside: std::domain_error).
/// Method: F. N. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 (from memory; the end slopes are those of
/// the first and the last piece). Points that strictly rise give a slope that is positive everywhere.
using MonotoneCurve = boost::math::interpolators::pchip<std::vector<double>>;

}  // namespace libflow::physics
