// SPDX-License-Identifier: MIT
/// @file
/// What faults do, as JSON: SI numbers with their unit in the key, null where there is no finite number.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {

/// Everything that is known of a what-if.
[[nodiscard]] Json what_if_to_json(const WhatIf& w);

}  // namespace libflow
