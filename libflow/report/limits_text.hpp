// SPDX-License-Identifier: MIT
/// @file
/// Limits and control settings in a person's units.
#pragma once

#include <string>
#include <string_view>

#include <libflow/study/limits.hpp>

namespace libflow::report_detail {

/// A value in the SI unit of a Limit or of a control's setting.
std::string si_value_text(double value, std::string_view unit, UnitSystem u);

/// How much room a limit leaves, in words.
std::string room_text(const Limit& l);

/// Every limit, nearest first.
std::string limits_table(const Limits& limits, UnitSystem u);

}  // namespace libflow::report_detail
