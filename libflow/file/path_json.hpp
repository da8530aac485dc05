// SPDX-License-Identifier: MIT
/// @file
/// The way to a row, and which single inputs make it differ, as JSON.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/path.hpp>

namespace libflow {

/// SI numbers with their unit in the key; steps from the supply to the air. `inputs` holds the `parts` of the row's
/// deviation, largest first, or why there are none (`refused`): study/row_inputs.hpp.
[[nodiscard]] Json path_to_json(const Answer& answer, const RowPath& path);

}  // namespace libflow
