// SPDX-License-Identifier: MIT
/// @file
/// A network together with which of its parts belong to which row.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/network/tee_at.hpp>
#include <libflow/parts/tank.hpp>

namespace libflow {

/// A tank that holds a supply of the network at the pressure of its level.
struct PlumbedTank {
  Network::PlaceIndex place = 0;  ///< the supply at its outlet
  Tank tank{};                    ///< shape and fittings
  double level = 0;               ///< of the liquid above the tank's inside bottom, as the network was built [m]
};

/// Where the parts of a drive are in a network.
struct DrivePlumbing {
  Network::PlaceIndex pump_inlet = 0, pump_outlet = 0;            ///< places on either side of the pump
  Network::PartIndex pump = 0;                                    ///< the pump
  std::optional<Network::PartIndex> relief, bypass, agitation;    ///< back to the tank
  std::optional<Network::PartIndex> meter, regulator;             ///< where there are any
  std::vector<Network::PartIndex> suction_hoses, delivery_hoses;  ///< those ahead of the pump, and those behind it
};

/// One row's share of a network.
struct RowPlumbing {
  int row = 0;                                   ///< 1-based
  double x = 0;                                  ///< along the bar from its centre, + right [m]: its speed in a turn
  double width = 0;                              ///< field width it covers [m], > 0
  double hose_length = 0;                        ///< [m]; 0 where it has none
  bool shut = false;                             ///< valved off: it has no parts
  std::vector<Network::PlaceIndex> airs;         ///< where its liquid leaves, one an outlet
  std::vector<Network::PartIndex> last_parts;    ///< the part before each of `airs`; their flows are the row's
  std::vector<Network::PartIndex> orifices;      ///< one an outlet, in the order of `airs`; may be empty
  std::vector<Network::PartIndex> check_valves;  ///< one an outlet; may be empty
  std::vector<Network::PartIndex> hoses;         ///< the row's own hoses
};

/// A network, its supply, and its rows.
struct Plumbing {
  Network network;                              ///< places and parts
  Network::PlaceIndex supply = 0;               ///< the supply or fed place whose pressure a gauge shows
  std::vector<RowPlumbing> rows;                ///< in row order
  double hose_total = 0;                        ///< all hose to cut, feed hoses included [m]
  std::vector<Network::PartIndex> cut_hoses{};  ///< hoses to cut from a roll, a drive's own not among them
  /// Tees whose losses count: the ports of bars with junction losses, whose branches are rows (or, amid a bar, its
  /// feed), and those of a layout place by place. Their bores stay when a part is exchanged.
  std::vector<TeeAt> tees{};
  /// Junctions of bars with junction losses that no published form fits: taken without loss, cautioned where it counts.
  std::vector<Network::PlaceIndex> lossless{};
  std::vector<PlumbedTank> tanks{};                   ///< the supplies that are tanks
  std::optional<DrivePlumbing> drive = std::nullopt;  ///< what pushes the liquid, where it is part of the network
};

}  // namespace libflow
