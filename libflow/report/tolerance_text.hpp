// SPDX-License-Identifier: MIT
/// @file
/// A tolerance study as text for people: how likely every row is within the tolerance, what matters, which rows.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow {

/// At most TextOptions::width columns wide; opens with the verdict. All figures are per cent, so units do not show.
[[nodiscard]] std::string tolerance_text(const ToleranceResult& r, const TextOptions& options = {});

}  // namespace libflow
