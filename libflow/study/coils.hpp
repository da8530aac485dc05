// SPDX-License-Identifier: MIT
/// @file
/// Cutting hose from coils of one length: first-fit decreasing.
#pragma once

#include <cstddef>
#include <vector>

#include <libflow/units/quantity.hpp>

namespace libflow {

/// One coil and what is cut from it.
struct Coil {
  std::vector<std::size_t> cuts{};  ///< indices into the list of lengths, longest first
  Length left{};                    ///< what remains of it
};

/// A cutting plan.
struct CoilPlan {
  std::vector<Coil> coils{};  ///< one by one
  std::size_t at_least = 0;   ///< no plan needs fewer: total length over coil length, rounded up
};

/// Cuts from coils of one length, the longest cut first, each from the first coil that has enough left. At most 11/9 of
/// the fewest coils and two thirds of a coil more (G. Dosa, ESCAPE 2007, Lecture Notes in Computer Science 4614, p. 1;
/// the rule is from D. S. Johnson, 1973), and mostly the fewest.
/// @param lengths  more than 0 each
/// @throws InputError for a cut that is longer than a coil
[[nodiscard]] CoilPlan cut_from_coils(const std::vector<Length>& lengths, Length coil);

}  // namespace libflow
