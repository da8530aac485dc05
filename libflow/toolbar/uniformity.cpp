// SPDX-License-Identifier: MIT
#include <libflow/toolbar/uniformity.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include <boost/math/statistics/univariate_statistics.hpp>

namespace libflow {

double coefficient_of_variation(const std::vector<double>& x) {
  if (x.size() < 2) return 0.0;
  return std::sqrt(boost::math::statistics::sample_variance(x)) / boost::math::statistics::mean(x);
}

double christiansen_uniformity(const std::vector<double>& x) {
  const double mean = boost::math::statistics::mean(x);
  double sum = 0.0;
  for (const double v : x) sum += std::abs(v - mean);
  return 1.0 - sum / (static_cast<double>(x.size()) * mean);
}

double low_quarter_uniformity(std::vector<double> x) {
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
