// SPDX-License-Identifier: MIT
/// @file
/// Sizing, and whether hoses have to be equal, as JSON: SI numbers with their unit in the key, null where there is no
/// finite number.
#pragma once

#include <cstddef>

#include <libflow/file/results_json.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size.hpp>

namespace libflow {

/// Everything that is known of a sizing. The recommended one, the cheapest that is sure and all that are on the
/// trade-off's front are listed, and of the others the first `most`. "winner" in the keys is the recommended one.
[[nodiscard]] Json size_to_json(const SizeAnswer& a, std::size_t most = 200);

/// Everything that is known of whether hoses have to be equal.
[[nodiscard]] Json equal_hoses_to_json(const EqualHoses& a);

}  // namespace libflow
