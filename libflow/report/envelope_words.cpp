// SPDX-License-Identifier: MIT
#include <libflow/report/envelope_words.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/envelope.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/units/system.hpp>

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

std::vector<std::string> envelope_assumptions(const Layout& layout, UnitSystem u) {
  std::vector<std::string> found;
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  if (liquid.viscosity_low && liquid.viscosity_high && *liquid.viscosity_low < *liquid.viscosity_high) {
    const auto text = [&](double viscosity) { return format(from_si<Viscosity>(viscosity), u); };
    found.push_back(
        fmt::format("Every point is for the most likely viscosity, {} at {}; it may be {} to {}, and then other points "
                    "may be even.",
                    text(liquid.viscosity), format(layout.job.temperature, u), text(*liquid.viscosity_low),
                    text(*liquid.viscosity_high)));
  }
  if (std::string limit = assumed_limit_sentence(layout); !limit.empty()) found.push_back(std::move(limit) + ".");
  return found;
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
