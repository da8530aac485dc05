// SPDX-License-Identifier: MIT
/// @file
/// A setting card as JSON: SI numbers with their unit in the key, null for no finite number.
#pragma once

#include <libflow/file/results_json.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {

/// As JSON, SI units in the names.
[[nodiscard]] Json setting_card_to_json(const SettingCard& card);

}  // namespace libflow
