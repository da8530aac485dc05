// SPDX-License-Identifier: MIT
/// @file
/// Layouts compared over operating points, as JSON: SI numbers with their unit in the key, null for no finite number.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/compare_points.hpp>

namespace libflow {

/// As JSON, SI units in the names.
[[nodiscard]] Json compare_points_to_json(const PointComparison& c);

}  // namespace libflow
