// SPDX-License-Identifier: MIT
/// @file
/// Measures of how alike some numbers are: coefficient of variation, Christiansen's coefficient, low-quarter
/// uniformity.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <boost/math/statistics/univariate_statistics.hpp>

namespace libflow {

/// Coefficient of variation [-]: sample standard deviation (n - 1) over the mean. 0 for fewer than two numbers.
/// @param x  mean > 0
[[nodiscard]] inline double coefficient_of_variation(const std::vector<double>& x) {
  if (x.size() < 2) return 0.0;
  return std::sqrt(boost::math::statistics::sample_variance(x)) / boost::math::statistics::mean(x);
}

/// Christiansen's uniformity coefficient [-], 1 when all are equal: 1 - sum |x - mean| / (n mean).
/// @param x  not empty, mean > 0
/// Source: J. E. Christiansen, Irrigation by Sprinkling, Calif. Agric. Exp. Stn. Bull. 670, 1942.
[[nodiscard]] inline double christiansen_uniformity(const std::vector<double>& x) {
  const double mean = boost::math::statistics::mean(x);
  double sum = 0.0;
  for (const double v : x) sum += std::abs(v - mean);
  return 1.0 - sum / (static_cast<double>(x.size()) * mean);
}

/// Low-quarter distribution uniformity [-]: mean of the lowest quarter over the mean of all. Where a quarter of the
/// count is no whole number, the number on the border counts by the part of it that falls in the quarter.
/// @param x  not empty, mean > 0
[[nodiscard]] inline double low_quarter_uniformity(std::vector<double> x) {
  const double mean = boost::math::statistics::mean(x);
  std::sort(x.begin(), x.end());
  const double quarter = static_cast<double>(x.size()) / 4.0;
  double sum = 0.0, left = quarter;
  for (const double v : x) {
    const double part = std::min(1.0, left);
    sum += part * v;
    left -= part;
    if (left <= 0.0) break;
  }
  return sum / quarter / mean;
}

}  // namespace libflow
