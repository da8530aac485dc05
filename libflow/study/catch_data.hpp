// SPDX-License-Identifier: MIT
/// @file
/// Cups to robust row means and a reading error.
/// Source: P. J. Huber, Robust Estimation of a Location Parameter, Ann. Math. Statist. 35 (1964) 73 (from memory).
#pragma once

#include <vector>

#include <Eigen/Core>

#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_readings.hpp>

namespace libflow {

/// What the cups say, by cell of the model.
struct CatchData {
  Eigen::VectorXd log_flow;         ///< robust mean [ln m3/s]; 0 where nothing was read
  std::vector<int> repeats;         ///< readings; 0: missing
  double error = 0.02;              ///< standard deviation of one reading [-]
  double error_dof = 0;             ///< degrees of freedom behind it
  bool error_from_repeats = false;  ///< true: from the repeats; false: as given
};

/// Cups to cells. The reading error is that of the repeats, with the error that was given counted as eight more of
/// them (common practice, no source), so that two or three repeats alone do not decide it.
/// @throws InputError for a row that is not there or shut, a volume out of range, fewer than two rows read at a setting
[[nodiscard]] CatchData catch_data(const CatchModel& model, const std::vector<CatchReadings>& catches);

}  // namespace libflow
