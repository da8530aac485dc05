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

namespace names_detail {

/// True where two neighbouring letters changed places and nothing else is different: "rwo" and "row", one slip.
inline bool neighbours_swapped(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  std::size_t i = 0;
  while (i < a.size() && lower(a[i]) == lower(b[i])) ++i;
  return i + 1 < a.size() && lower(a[i]) == lower(b[i + 1]) && lower(a[i + 1]) == lower(b[i]) &&
         edit_distance(a.substr(i + 2), b.substr(i + 2)) == 0;
}

}  // namespace names_detail

/// The valid name nearest to what was written, or an empty string when none is near. Near is one slip (a letter more,
/// less or other, or two neighbours swapped), in longer names a third of the letters; half of short names changed would
/// be another word. Texts of one letter and over 64 letters have no near name but themselves.
template <class Names>
[[nodiscard]] std::string nearest_name(std::string_view written, const Names& valid) {
  std::string best;
  if (written.size() > 64) return best;
  std::size_t best_distance = written.size();
  for (const auto& name : valid) {
    const std::string_view known(name);
    const std::size_t most =
        written.size() < 2 ? 0 : std::max<std::size_t>(1, std::max(written.size(), known.size()) / 3);
    const std::size_t changed = edit_distance(written, known);
    const std::size_t d = changed == 2 && names_detail::neighbours_swapped(written, known) ? 1 : changed;
    if (d <= most && (best.empty() || d < best_distance)) {
      best_distance = d;
      best = std::string(name);
    }
  }
  return best;
}

}  // namespace libflow
