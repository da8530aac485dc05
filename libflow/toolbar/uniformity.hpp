// SPDX-License-Identifier: MIT
/// @file
/// Measures of how alike some numbers are: coefficient of variation, Christiansen's coefficient, low-quarter
/// uniformity.
#pragma once

#include <vector>

namespace libflow {

/// Coefficient of variation [-]: sample standard deviation (n - 1) over the mean. 0 for fewer than two numbers.
/// @param x  mean > 0
[[nodiscard]] double coefficient_of_variation(const std::vector<double>& x);

/// Christiansen's uniformity coefficient [-], 1 when all are equal: 1 - sum |x - mean| / (n mean).
/// @param x  not empty, mean > 0
/// Source: J. E. Christiansen, Irrigation by Sprinkling, Calif. Agric. Exp. Stn. Bull. 670, 1942.
[[nodiscard]] double christiansen_uniformity(const std::vector<double>& x);

/// Low-quarter distribution uniformity [-]: mean of the lowest quarter over the mean of all. Where a quarter of the
/// count is no whole number, the number on the border counts by the part of it that falls in the quarter.
/// @param x  not empty, mean > 0
[[nodiscard]] double low_quarter_uniformity(std::vector<double> x);

}  // namespace libflow
