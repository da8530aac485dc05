// SPDX-License-Identifier: MIT
/// @file
/// The nearest valid name, for error messages.
#pragma once

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

namespace libflow {

/// Edit distance (insert, delete, replace; letters without case).
/// Source: V. I. Levenshtein, Soviet Physics Doklady 10 (1966) 707.
inline std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
    }
  }
  return row.back();
}

/// The valid name nearest to what was written, or an empty string when none is near
/// (more than a third of the letters differ, and more than two). Texts over 64 letters have no near name.
template <class Names>
[[nodiscard]] std::string nearest_name(std::string_view written, const Names& valid) {
  std::string best;
  if (written.size() > 64) return best;
  std::size_t best_distance = std::max<std::size_t>(2, written.size() / 3) + 1;
  for (const auto& name : valid) {
    const std::size_t d = edit_distance(written, std::string_view(name));
    if (d < best_distance) {
      best_distance = d;
      best = std::string(name);
    }
  }
  return best;
}

}  // namespace libflow
