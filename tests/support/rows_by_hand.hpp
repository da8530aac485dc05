// SPDX-License-Identifier: MIT
/// @file
/// Rows of plumbing that is written place by place.
#pragma once

#include <utility>
#include <vector>

#include <libflow/toolbar/plumbing.hpp>

namespace libflow::test {

/// Which parts of a row are what.
struct RowParts {
  std::vector<Network::PartIndex> orifices{};
  std::vector<Network::PartIndex> check_valves{};
  std::vector<Network::PartIndex> hoses{};
};

/// A row with one outlet.
/// @param x, width  along the bar, and of field [m]
/// @param air       where it ends
/// @param last      the part that leads there
inline RowPlumbing row_by_hand(int number, double x, double width, Network::PlaceIndex air, Network::PartIndex last,
                               RowParts parts = {}) {
  RowPlumbing row;
  row.row = number;
  row.x = x;
  row.width = width;
  row.airs = {air};
  row.last_parts = {last};
  row.orifices = std::move(parts.orifices);
  row.check_valves = std::move(parts.check_valves);
  row.hoses = std::move(parts.hoses);
  return row;
}

}  // namespace libflow::test
