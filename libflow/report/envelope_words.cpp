// SPDX-License-Identifier: MIT
#include <libflow/report/envelope_words.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/envelope.hpp>

namespace libflow {

namespace report_detail {

std::string_view state_text(PointState state) {
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

std::vector<BindingLetter> binding_letters(const std::vector<EnvelopePoint>& points) {
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

char letter_of(const std::vector<BindingLetter>& letters, std::string_view name) {
  for (const BindingLetter& b : letters) {
    if (b.name == name) return b.letter;
  }
  return '?';
}

}  // namespace report_detail

}  // namespace libflow
