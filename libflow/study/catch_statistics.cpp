// SPDX-License-Identifier: MIT
#include <libflow/study/catch_statistics.hpp>

#include <cmath>
#include <cstddef>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>

namespace libflow {

double provable_row_difference(double error, int rows, int repeats, const CatchPower& power) {
  power.check();
  require_in("catch test, reading error", error, {1e-6, 1.0}, "");
  require_in("catch test, rows", rows, {2, 1e4}, "");
  require_in("catch test, repeats", repeats, {1, 1e4}, "");
  const boost::math::normal z;
  const double n = rows;
  return (quantile(z, 1.0 - (1.0 - power.confidence) / (2.0 * n)) + quantile(z, power.power)) * error *
         std::sqrt((1.0 + 1.0 / (n - 1.0)) / repeats);
}

double provable_cv(double error, int rows, int repeats, const CatchPower& power) {
  power.check();
  require_in("catch test, reading error", error, {1e-6, 1.0}, "");
  require_in("catch test, rows", rows, {2, 1e4}, "");
  require_in("catch test, repeats", repeats, {1, 1e4}, "");
  const boost::math::chi_squared chi2(rows - 1.0);
  return error * std::sqrt((quantile(chi2, power.confidence) / quantile(chi2, 1.0 - power.power) - 1.0) / repeats);
}

SpreadTest analysis_of_variance(const std::vector<std::vector<double>>& groups) {
  if (groups.size() < 2) throw InputError("analysis of variance", "one group of readings", "two groups or more");
  double sum = 0.0, count = 0.0;
  for (const auto& g : groups) {
    if (g.empty()) throw InputError("analysis of variance", "a group without a reading", "a reading in each group");
    for (const double x : g) sum += x;
    count += static_cast<double>(g.size());
  }
  SpreadTest t;
  t.between_dof = static_cast<double>(groups.size()) - 1.0;
  t.within_dof = count - static_cast<double>(groups.size());
  if (t.within_dof < 1.0) throw InputError("analysis of variance", "no group has a repeat", "repeats");
  const double grand = sum / count;
  for (const auto& g : groups) {
    double mean = 0.0;
    for (const double x : g) mean += x / static_cast<double>(g.size());
    t.between += static_cast<double>(g.size()) * (mean - grand) * (mean - grand) / t.between_dof;
    for (const double x : g) t.within += (x - mean) * (x - mean) / t.within_dof;
  }
  if (t.within > 0.0) {
    t.f = t.between / t.within;
    t.p = cdf(complement(boost::math::fisher_f(t.between_dof, t.within_dof), t.f));
  } else {
    t.p = t.between > 0.0 ? 0.0 : 1.0;
  }
  return t;
}

double spread_by_error_alone(const std::vector<double>& means, const std::vector<int>& repeats, double error) {
  if (means.size() < 2 || means.size() != repeats.size()) {
    throw InputError("spread of the rows", "means and repeats do not go together", "two rows or more");
  }
  require_in("catch test, reading error", error, {1e-6, 1.0}, "");
  double weights = 0.0, centre = 0.0, squares = 0.0;
  for (std::size_t i = 0; i < means.size(); ++i) {
    weights += repeats[i];
    centre += repeats[i] * means[i];
  }
  centre /= weights;
  for (std::size_t i = 0; i < means.size(); ++i) {
    squares += repeats[i] * (means[i] - centre) * (means[i] - centre);
  }
  return cdf(complement(boost::math::chi_squared(static_cast<double>(means.size()) - 1.0), squares / (error * error)));
}

}  // namespace libflow
