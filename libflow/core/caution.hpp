// SPDX-License-Identifier: MIT
/// @file
/// Cautions as data: something that was computed but that a person should know about.
#pragma once

#include <limits>
#include <string>
#include <vector>

namespace libflow {

/// One caution or range warning. Kept with the result, never lost, printed by the report.
struct Caution {
  std::string code{};     ///< short fixed word, e.g. "below-salt-out", "outside-range"
  std::string subject{};  ///< the part, place or liquid it speaks of
  std::string text{};     ///< plain words for the reader
  double value = std::numeric_limits<double>::quiet_NaN();  ///< what was found, SI; NaN where there is no number
  double limit = std::numeric_limits<double>::quiet_NaN();  ///< what it is held against, SI
  std::string source{};                                     ///< where the limit comes from
};

/// In the order in which they were found.
using Cautions = std::vector<Caution>;

}  // namespace libflow
