// SPDX-License-Identifier: MIT
/// @file
/// What a long study tells while it works, and how it is stopped without losing what is done.
#pragma once

#include <cstddef>
#include <functional>

namespace libflow {

/// Called after each unit of work with how many are done and how many there are in all (0: not known). Returning false
/// stops the study: it returns what is done, marked as not complete. Empty: nobody watches.
using Progress = std::function<bool(std::size_t done, std::size_t total)>;

/// Tells `progress`. @return false when the study has to stop
[[nodiscard]] inline bool go_on(const Progress& progress, std::size_t done, std::size_t total) {
  return !progress || progress(done, total);
}

}  // namespace libflow
