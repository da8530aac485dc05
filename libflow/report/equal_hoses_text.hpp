// SPDX-License-Identifier: MIT
/// @file
/// Do my hoses have to be equal? The answer as text for people.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/equal_hoses.hpp>

namespace libflow {

/// The answer, at most TextOptions::width columns wide; opens with yes or no.
[[nodiscard]] std::string equal_hoses_text(const EqualHoses& a, const TextOptions& options = {});

}  // namespace libflow
