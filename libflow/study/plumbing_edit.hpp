// SPDX-License-Identifier: MIT
/// @file
/// The same plumbing with a few things otherwise: what a fault does to it. Every place and part keeps its index.
#pragma once

#include <utility>
#include <vector>

#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// What differs. A place or part is named at most once in each list.
struct PlumbingEdit {
  std::vector<std::pair<Network::PartIndex, Part>> exchanged{};  ///< part: what stands there instead
  std::vector<std::pair<Network::PartIndex, Part>> throttled{};  ///< part: what is put in series with it
  std::vector<std::pair<Network::PlaceIndex, double>> raised{};  ///< place: by how much [m]
  std::vector<std::pair<Network::PlaceIndex, double>> held{};    ///< fed or supply place: held at [Pa gauge]
  std::vector<std::pair<Network::PlaceIndex, double>> fed{};     ///< fed or supply place: fed with [m3/s]
  std::vector<int> rows_shut{};                                  ///< rows that no longer count as rows
};

/// A part that lets nothing through, to put in place of what is plugged or shut.
[[nodiscard]] Part shut_part();

/// The plumbing with the edit done. Hoses to cut and tees are those of the plumbing, a tee's bores too: it is a fitting
/// of its own and stays where a hose is exchanged. What is put in series sits behind its part, or ahead of it where the
/// part leads to the air or a supply; it is a new part at the end of the network's list.
/// @throws InputError for values that a place or part cannot have
[[nodiscard]] Plumbing edited(const Plumbing& plumbing, const PlumbingEdit& edit);

}  // namespace libflow
