// SPDX-License-Identifier: MIT
/// @file
/// Where a tee stands in a network.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/tee.hpp>

namespace libflow {

/// A tee and where it stands: a place, and the parts that are its legs there, each in either direction. They have to be
/// all parts of a place that keeps what flows (a junction). A run end without a part is plugged: the tee is an elbow.
struct TeeAt {
  Tee tee{};                                          ///< its sizes
  Network::PlaceIndex place = 0;                      ///< where the three ways meet
  std::optional<Network::PartIndex> left{}, right{};  ///< the parts at the ends of the run; empty: plugged
  std::vector<Network::PartIndex> branches{};         ///< one or more: a row's parts that leave the branch side by side
  std::string bar{};  ///< of which bar it is a port, for cautions once a bar; empty: it stands by itself
};

}  // namespace libflow
