// SPDX-License-Identifier: MIT
/// @file
/// The way to a row as JSON.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/path.hpp>

namespace libflow {

/// SI numbers with their unit in the key; steps from the supply to the air.
[[nodiscard]] Json path_to_json(const Answer& answer, const RowPath& path);

}  // namespace libflow
