// SPDX-License-Identifier: MIT
/// @file
/// Layouts side by side at the same delivered total rate.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/study/main_job.hpp>

namespace libflow {

/// Two or more answers at one rate, and which layout is evener.
struct Comparison {
  std::vector<Answer> answers;  ///< in the order given
  std::size_t evenest = 0;      ///< index of the layout with the lowest CV
  std::size_t least_even = 0;   ///< index of the layout with the highest CV
  /// The cause whose part of the unevenness differs most between those two; empty where it is not known.
  std::string deciding_cause;
  Cautions cautions;  ///< about the comparison itself
};

/// Brings every layout to the first one's rate and speed with its setting (its drive's, or the supply's pressure) found
/// anew.
/// @param layouts  two or more with the same number of rows; free-form ones must be fed, not held at a pressure
/// @throws InputError, IllPosedError naming the layout
[[nodiscard]] Comparison compare(const std::vector<Layout>& layouts);

}  // namespace libflow
