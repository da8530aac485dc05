// SPDX-License-Identifier: MIT
/// @file
/// The agronomy check, and blends, as text for people.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/fluid/blend.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/agronomy.hpp>

namespace libflow {

/// The agronomy check of one layout.
[[nodiscard]] std::string nutrients_text(const Agronomy& a, const TextOptions& options = {});

/// A blend of parts.
[[nodiscard]] std::string blend_text(const std::vector<BlendPart>& parts, const Blend& mix, UnitSystem u,
                                     std::size_t width = 100);

}  // namespace libflow
