// SPDX-License-Identifier: MIT
/// @file
/// Door of the parts room: what a person buys or cuts.
#pragma once

#include <libflow/parts/barb.hpp>                // inside the end of a hose
#include <libflow/parts/centrifugal_pump.hpp>    // a gain that falls with flow, by two figures
#include <libflow/parts/check_valve.hpp>         // spring check valve
#include <libflow/parts/fitting.hpp>             // elbow, tee, ball valve: loss coefficients
#include <libflow/parts/flow_meter.hpp>          // a loss at a rated flow, a working range
#include <libflow/parts/ground_driven_pump.hpp>  // flow follows the ground speed
#include <libflow/parts/hose.hpp>                // hose, tube, bar; coiled; with its entrance
#include <libflow/parts/law.hpp>                 // drop and slope at a flow
#include <libflow/parts/lawful.hpp>              // does a part keep its contract?
#include <libflow/parts/open_end.hpp>            // the end of a tube in the air
#include <libflow/parts/orifice.hpp>             // metering orifice
#include <libflow/parts/orifice_pair.hpp>        // two in series
#include <libflow/parts/part.hpp>                // any part, and what it promises
#include <libflow/parts/positive_pump.hpp>       // displacement less slip
#include <libflow/parts/pressure_regulator.hpp>  // holds the pressure behind it
#include <libflow/parts/pulsed_valve.hpp>        // open a share of the time
#include <libflow/parts/pump_curve.hpp>          // centrifugal pump by its points
#include <libflow/parts/reducer.hpp>             // one bore becomes another
#include <libflow/parts/relief_valve.hpp>        // opens at its set pressure
#include <libflow/parts/row_outlet.hpp>          // tubes at the row's end
#include <libflow/parts/strainer.hpp>            // screen and body
#include <libflow/parts/suspension_hose.hpp>     // a liquid that thins with shear
#include <libflow/parts/table_part.hpp>          // by a table of flow and drop
#include <libflow/parts/tank.hpp>                // level, volume, pressure at the outlet
#include <libflow/parts/tee.hpp>                 // dividing, combining, meeting, parting
#include <libflow/parts/valve.hpp>               // section, ball, throttling valve
#include <libflow/parts/vented_tube.hpp>         // hangs down, takes in air at its head
