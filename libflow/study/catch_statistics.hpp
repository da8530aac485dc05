// SPDX-License-Identifier: MIT
/// @file
/// What cups can prove: the power of a catch test, and the spread of its readings against their error.
#pragma once

#include <vector>

#include <libflow/core/range.hpp>

namespace libflow {

/// How a catch test is judged.
struct CatchPower {
  double confidence = 0.95;  ///< that an even bar is not called uneven, over all rows together, 0.5 to 0.9999
  double power = 0.90;       ///< that a difference of the size given is found, 0.5 to 0.9999

  /// @throws InputError
  void check() const {
    require_in("catch test, confidence", confidence, {0.5, 0.9999}, "");
    require_in("catch test, power", power, {0.5, 0.9999}, "");
  }
};

/// Smallest difference between one row and the mean of the other rows that the cups prove, as a share of the mean.
///
/// delta = (z(1 - alpha / (2 n)) + z(power)) sigma sqrt((1 + 1 / (n - 1)) / repeats): the two-sided test of a
/// difference of means with known error, the confidence shared over the n rows that could be the one (Bonferroni).
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.2.2 (sample sizes required).
/// @param error    standard deviation of one reading as a share of it, > 0
/// @param rows     2 or more
/// @param repeats  readings a row, 1 or more
[[nodiscard]] double provable_row_difference(double error, int rows, int repeats, const CatchPower& power = {});

/// Smallest true coefficient of variation of the rows that the cups tell from reading error alone.
///
/// With reading error sigma / sqrt(r) in each row's mean, the sum of squares over sigma^2 / r is chi-squared with n - 1
/// degrees of freedom for an even bar and (1 + r CV^2 / sigma^2) times as large for an uneven one, so
/// CV = sigma sqrt((chi2(confidence) / chi2(1 - power) - 1) / r).
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.8 (chi-square test for the variance) and 7.2.3.
[[nodiscard]] double provable_cv(double error, int rows, int repeats, const CatchPower& power = {});

/// Are groups of readings further apart than readings of one group?
struct SpreadTest {
  double between = 0;      ///< mean square between groups
  double within = 0;       ///< mean square within groups; 0 where no group has a repeat
  double between_dof = 0;  ///< groups less one
  double within_dof = 0;   ///< readings less groups
  double f = 0;            ///< between over within [-]
  double p = 1;            ///< probability of so large an f where the groups are alike
};

/// One-way analysis of variance. Groups may differ in size; none is empty.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.
/// @throws InputError for fewer than two groups, an empty group, or no repeat at all
[[nodiscard]] SpreadTest analysis_of_variance(const std::vector<std::vector<double>>& groups);

/// Probability of a spread at least as large as seen where only reading errors of a known size spread the rows.
/// @param means    of the rows' readings over the mean of all
/// @param repeats  readings in each
/// @param error    standard deviation of one reading as a share of it, > 0
/// Source: as provable_cv; for unequal repeats the weighted sum of squares.
[[nodiscard]] double spread_by_error_alone(const std::vector<double>& means, const std::vector<int>& repeats,
                                           double error);

}  // namespace libflow
