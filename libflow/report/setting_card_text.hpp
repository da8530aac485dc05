// SPDX-License-Identifier: MIT
/// @file
/// The setting card as one page of text.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {

/// One page for the operator.
[[nodiscard]] std::string setting_card_text(const SettingCard& card, const TextOptions& options = {});

}  // namespace libflow
