// SPDX-License-Identifier: MIT
/// @file
/// How even a layout is as built, from the first-order answer to its tolerances: one solve and its derivatives instead
/// of thousands of machines (study/tolerance.hpp draws and solves those).
#pragma once

#include <cstddef>
#include <optional>

namespace libflow {

struct Answer;

/// Machines as the layout's tolerances allow them, the rows' rates a straight line in every difference.
struct AsBuilt {
  double within = 0;   ///< share of the machines with every row within the tolerance [-]
  double mean_cv = 0;  ///< mean coefficient of variation [-]
  /// Machines drawn from the straight line: it costs no solve.
  static constexpr std::size_t machines = 8192;
};

/// Empty where the layout has no tolerances, or no first-order answer (a throttling regulator, a tolerance that does
/// not fit the layout): `tolerance_study` says more.
/// @param answer  of the layout, usable
[[nodiscard]] std::optional<AsBuilt> as_built(const Answer& answer);

}  // namespace libflow
