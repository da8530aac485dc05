// SPDX-License-Identifier: MIT
/// @file
/// A tank in a network: a supply at its outlet, held at the pressure that its level gives.
#pragma once

#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/network/network.hpp>
#include <libflow/parts/tank.hpp>

namespace libflow {

/// Adds the outlet of a tank as a supply. Join hoses to `id`; liquid may flow out of the tank or into it.
/// @param level   of the liquid above the tank's inside bottom; at least the tank's lowest level
/// @param liquid  the one that the network is solved with
/// @param bottom  elevation of the tank's inside bottom
/// @throws InputError for a wrong tank or level, or a used id
inline Network::PlaceIndex add_tank(Network& network, std::string id, const Tank& tank, Length level,
                                    const LiquidState& liquid, Length bottom = from_si<Length>(0.0)) {
  const std::string where = fmt::format("tank '{}'", id);
  tank.check(where);
  const Pressure pressure = tank.outlet_pressure(level, liquid, where);
  const auto place = network.add_supply(std::move(id), pressure, bottom + tank.outlet_level);
  network.set_tank_level(place, {.level = si(level), .depth = si(level) - si(tank.outlet_level)});
  return place;
}

}  // namespace libflow
