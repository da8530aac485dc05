// SPDX-License-Identifier: MIT
/// @file
/// A tolerance study as JSON, for other programs.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow {

/// Fractions, not per cents. "sobol_indices" is null where none were found.
[[nodiscard]] Json tolerance_to_json(const ToleranceResult& r);

}  // namespace libflow
