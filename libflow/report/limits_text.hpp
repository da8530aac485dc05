// SPDX-License-Identifier: MIT
/// @file
/// Limits and control settings in a person's units.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <libflow/study/limits.hpp>

namespace libflow::report_detail {

/// A value in the SI unit of a Limit or of a control's setting.
std::string si_value_text(double value, std::string_view unit, UnitSystem u);

/// How much room a limit leaves, in words.
std::string room_text(const Limit& l);

/// How near a limit is and which way, in a sentence's words: "least pump speed: 43.3 % now, 5.0 % is the least, so it
/// may fall by 38.3 % points".
std::string near_text(const Limit& l, UnitSystem u);

/// Every limit, nearest first.
std::string limits_table(const Limits& limits, UnitSystem u);

/// What the table's columns mean. @param control  whose range is the measure of its own limits; may be empty
std::string limits_note(const Limits& limits, std::string_view control, std::size_t width);

/// The name of a control in a sentence: a supply's pressure is what the gauge shows.
std::string control_text(std::string_view control);

}  // namespace libflow::report_detail
