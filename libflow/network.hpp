// SPDX-License-Identifier: MIT
/// @file
/// Door of the network room: the plumbing as a graph.
#pragma once

#include <libflow/network/network.hpp>      // places joined by parts
#include <libflow/network/structure.hpp>    // is every place fed?
#include <libflow/network/tank_supply.hpp>  // a tank at a level as a supply
#include <libflow/network/tee_at.hpp>       // a tee and the parts that are its legs
