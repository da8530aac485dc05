// SPDX-License-Identifier: MIT
/// @file
/// What the lines hold and how long they take, as text for people.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/lines.hpp>

namespace libflow {

/// Lines of one layout: filling, flushing, delays.
[[nodiscard]] std::string lines_text(const Lines& l, const TextOptions& options = {});

}  // namespace libflow
