// SPDX-License-Identifier: MIT
/// @file
/// The way that liquid takes from the supply to a row, part by part, and the pressure along it.
#pragma once

#include <vector>

#include <libflow/study/main_job.hpp>

namespace libflow {

/// One part on the way. SI.
struct PathStep {
  Network::PartIndex part = 0;           ///< in the network
  Network::PlaceIndex from = 0, to = 0;  ///< in the direction of the way
  double flow = 0;                       ///< in that direction [m3/s]; 0 where nothing flows
  double loss = 0;                       ///< pressure lost in it; a pump's is negative [Pa]
  double unused_fall = 0;                ///< height of a hanging tube that liquid falls through air, not in loss [Pa]
  double lift = 0;                       ///< pressure spent on height; negative where it falls [Pa]
  double before = 0, after = 0;          ///< total gauge pressure at its ends [Pa]
};

/// The way to one row.
struct RowPath {
  int row = 0;                     ///< 1-based
  Network::PlaceIndex supply = 0;  ///< where it begins
  std::vector<PathStep> steps;     ///< from the supply to the air
};

/// The way to a row: where liquid flows, along the largest flow; to a row that gets none, over the fewest parts.
/// Of a row with two outlets, the way to the first.
/// @param row  1-based
/// @throws InputError for a row that the layout does not have, or that is valved off
[[nodiscard]] RowPath path_to_row(const Answer& answer, int row);

}  // namespace libflow
