// SPDX-License-Identifier: MIT
/// @file
/// A diagnosis as JSON, SI with units in the keys. What a cause's size means depends on its kind (`size_means`).
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

/// What the number `size` of a cause is.
[[nodiscard]] constexpr const char* size_meaning(CatchCauseKind kind) {
  switch (kind) {
    case CatchCauseKind::other_orifice:
      return "bore_m";
    case CatchCauseKind::check_valve:
      return "added_crack_Pa";
    case CatchCauseKind::side_slope:
      return "added_slope_rad";
    case CatchCauseKind::hoses_swapped:
    case CatchCauseKind::feed_place:
      return "none";
    case CatchCauseKind::hose_schedule:
      return "share_of_the_way";  // from the layout's lengths, 0, to the other schedule's, 1
    default:
      return "factor";
  }
}

/// As JSON, SI units in the names.
[[nodiscard]] Json diagnosis_to_json(const Diagnosis& d);

}  // namespace libflow
