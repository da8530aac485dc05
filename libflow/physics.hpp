// SPDX-License-Identifier: MIT
/// @file
/// Door of the physics room: pure formulas, one published source each, on any scalar.
#pragma once

#include <libflow/physics/friction.hpp>    // Darcy-Weisbach, Colebrook-White, the transition
#include <libflow/physics/minor_loss.hpp>  // fittings, velocity head, Reynolds number
#include <libflow/physics/orifice.hpp>     // small holes from creeping flow to the jet
#include <libflow/physics/scalar.hpp>      // one formula for a number, a pack, many digits
