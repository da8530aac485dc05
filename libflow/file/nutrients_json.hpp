// SPDX-License-Identifier: MIT
/// @file
/// The agronomy check and blends as JSON; the rows' nutrients as comma-separated values.
#pragma once

#include <string>
#include <vector>

#include <libflow/file/results_json.hpp>
#include <libflow/fluid/blend.hpp>
#include <libflow/study/agronomy.hpp>

namespace libflow {

/// Everything that the agronomy check found.
[[nodiscard]] Json nutrients_to_json(const Agronomy& a);

/// One line a row.
[[nodiscard]] std::string nutrients_to_csv(const Agronomy& a, UnitSystem units);

/// A blend and its parts.
[[nodiscard]] Json blend_to_json(const std::vector<BlendPart>& parts, const Blend& mix);

}  // namespace libflow
