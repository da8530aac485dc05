// SPDX-License-Identifier: MIT
/// @file
/// What the lines hold and how long they take, as JSON and as comma-separated values.
#pragma once

#include <string>

#include <libflow/file/results_json.hpp>
#include <libflow/study/lines.hpp>

namespace libflow {

/// As JSON, SI units in the names.
[[nodiscard]] Json lines_to_json(const Lines& l);

/// One line a row; times in seconds.
[[nodiscard]] std::string lines_to_csv(const Lines& l, UnitSystem u);

}  // namespace libflow
