// SPDX-License-Identifier: MIT
/// @file
/// Door of the physics room: pure formulas, one published source each, on any scalar.
#pragma once

#include <libflow/physics/curvature.hpp>        // coiled tubes
#include <libflow/physics/developing_flow.hpp>  // the beginning of a tube
#include <libflow/physics/discharge.hpp>        // does the end run full?
#include <libflow/physics/dual.hpp>             // a number that carries its slopes
#include <libflow/physics/duty_cycle.hpp>       // pulsed valves
#include <libflow/physics/friction.hpp>         // Darcy-Weisbach, Colebrook-White, the transition
#include <libflow/physics/join.hpp>             // smooth bridge between two laws
#include <libflow/physics/minor_loss.hpp>       // fittings, changes of bore, velocity head
#include <libflow/physics/monotone_curve.hpp>   // a curve through given points
#include <libflow/physics/orifice.hpp>          // small holes from creeping flow to the jet
#include <libflow/physics/power_law.hpp>        // shear-thinning liquids
#include <libflow/physics/pump.hpp>             // speed laws, suction head, slip
#include <libflow/physics/scalar.hpp>           // one formula for a number, a pack, many digits
#include <libflow/physics/tank_shape.hpp>       // level and volume
#include <libflow/physics/tee.hpp>              // junction losses against the split
#include <libflow/physics/tee_symmetric.hpp>    // two streams meet, or one parts
#include <libflow/physics/tube_flushing.hpp>    // one liquid pushes another out of a tube
#include <libflow/physics/valve_flow.hpp>       // flow coefficients
