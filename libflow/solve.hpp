// SPDX-License-Identifier: MIT
/// @file
/// Door of the solve room: Network to Solution.
#pragma once

#include <libflow/solve/control.hpp>      // move a setting until the total is right
#include <libflow/solve/corrected.hpp>    // junction losses, regulators
#include <libflow/solve/derivatives.hpp>  // how the answer moves with every input
#include <libflow/solve/solution.hpp>     // flows, pressures, states, proof
#include <libflow/solve/system.hpp>       // solve(network, liquid)
#include <libflow/solve/tees.hpp>         // losses of tees, whichever way they flow
