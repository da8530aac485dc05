// SPDX-License-Identifier: MIT
/// @file
/// Words of an envelope that its picture and its text share: states, letters for limits.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/envelope.hpp>

namespace libflow::report_detail {

std::string_view state_text(PointState state);

/// What every point of a map takes for granted, each in a sentence: the most likely viscosity where a band is known, a
/// pressure limit that nobody gave.
std::vector<std::string> envelope_assumptions(const Layout& layout, UnitSystem u);

/// One limit of a map: its letter, its name, how many points it binds.
struct BindingLetter {
  char letter = '?';
  std::string name;
  std::size_t points = 0;
};

/// Letters for the limits that bind in a map, most frequent first. A letter comes from the limit's own name where it is
/// free, otherwise it is the next one of the alphabet.
std::vector<BindingLetter> binding_letters(const std::vector<EnvelopePoint>& points);

char letter_of(const std::vector<BindingLetter>& letters, std::string_view name);

}  // namespace libflow::report_detail
