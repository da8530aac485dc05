// SPDX-License-Identifier: MIT
/// @file
/// The length to which a hose is cut, and how it is read from a tape: one rule for order list, sizing, text and tables.
#pragma once

#include <string>

#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// The step of a tape: one inch, or one centimetre. Both are ours: common practice, no source.
[[nodiscard]] Length cut_step(UnitSystem units);

/// A hose's length rounded up to whole steps, never less than one, so that it never comes too short. What is above a
/// whole step by rounding only, a micrometre, is that step.
/// @param length  finite, not negative
/// @param step  more than 0; 0: the length stays as it is
[[nodiscard]] Length cut_length(Length length, Length step);

/// A cut as a tape reads it: "15 ft 10 in", "7 in", "4.83 m"; rounded up to the tape's step.
[[nodiscard]] std::string cut_text(Length length, UnitSystem units);

/// "one inch" or "one centimetre", for the sentence that says what cuts are rounded up to.
[[nodiscard]] std::string cut_step_text(Length step, UnitSystem units);

}  // namespace libflow
