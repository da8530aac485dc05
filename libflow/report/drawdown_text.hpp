// SPDX-License-Identifier: MIT
/// @file
/// One fill as text for people: how long, how far, what happens on the way.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/drawdown_result.hpp>

namespace libflow {

/// One fill of one layout.
[[nodiscard]] std::string drawdown_text(const Drawdown& d, const TextOptions& options = {});

}  // namespace libflow
