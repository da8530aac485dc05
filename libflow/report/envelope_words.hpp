// SPDX-License-Identifier: MIT
/// @file
/// Words of an envelope that its picture and its text share: states, letters for limits.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/envelope.hpp>

namespace libflow::report_detail {

inline std::string_view state_text(PointState state) {
  switch (state) {
    case PointState::even:
      return "even, as wanted";
    case PointState::poor:
      return "runs, but uneven or outside a wanted window";
    case PointState::cannot_run:
      return "cannot run";
  }
  return {};
}

/// One limit of a map: its letter, its name, how many points it binds.
struct BindingLetter {
  char letter = '?';
  std::string name;
  std::size_t points = 0;
};

/// Letters for the limits that bind in a map, most frequent first. A letter comes from the limit's own name where it is
/// free, otherwise it is the next one of the alphabet.
inline std::vector<BindingLetter> binding_letters(const std::vector<EnvelopePoint>& points) {
  std::vector<BindingLetter> all;
  for (const EnvelopePoint& p : points) {
    const auto known =
        std::find_if(all.begin(), all.end(), [&](const BindingLetter& b) { return b.name == p.binding; });
    if (known == all.end()) {
      all.push_back({'?', p.binding, 1});
    } else {
      ++known->points;
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const BindingLetter& a, const BindingLetter& b) { return a.points > b.points; });
  std::string used;
  for (BindingLetter& b : all) {
    std::string wanted;
    bool start = true;
    for (const char c : b.name) {  // first letters of its words, then the others
      if (start && c >= 'a' && c <= 'z') wanted += c;
      start = c == ' ';
    }
    wanted += b.name + "abcdefghijklmnopqrstuvwxyz";
    for (const char c : wanted) {
      if (c < 'a' || c > 'z' || used.find(c) != std::string::npos) continue;
      b.letter = static_cast<char>(c - 'a' + 'A');
      used += c;
      break;
    }
  }
  return all;
}

inline char letter_of(const std::vector<BindingLetter>& letters, std::string_view name) {
  for (const BindingLetter& b : letters) {
    if (b.name == name) return b.letter;
  }
  return '?';
}

}  // namespace libflow::report_detail
