// SPDX-License-Identifier: MIT
/// @file
/// The first-order answer to tolerances: every row's scatter from the derivatives at the layout itself.
#pragma once

#include <cstddef>

#include <Eigen/Core>

#include <libflow/study/tolerance_draws.hpp>

namespace libflow {

/// Rows' deviations as a straight function of all draws.
struct FirstOrder {
  Eigen::ArrayXXd slope;     ///< of the rows' deviations by each draw, rows down, draws across
  Eigen::ArrayXd deviation;  ///< of the rows, mean of the linear model [-]; 0 where shut
  Eigen::ArrayXd spread;     ///< standard deviation by row [-]
  Eigen::ArrayXd share;      ///< by tolerance, of the sum of the rows' variances [-]
  double rms_cv = 0;         ///< root of the mean square of the coefficient of variation [-]
  std::size_t at_crack = 0;  ///< one-way parts exactly at their threshold: the model is one-sided
};

namespace tolerance_detail {

/// Rows' flows per rate, up to what they share: width times relative speed; 0 for a shut row.
Eigen::ArrayXd row_weights(const Plumbing& plumbing, const Job& job);

}  // namespace tolerance_detail

/// @param solution  of the layout itself, usable
/// @throws InputError where there are no derivatives (junction losses, a throttling regulator)
[[nodiscard]] FirstOrder first_order(const ScenarioSolver& solver, const ToleranceDraws& draws, const Toolbar* toolbar,
                                     const Solution& solution);

}  // namespace libflow
