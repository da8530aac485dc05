// SPDX-License-Identifier: MIT
/// @file
/// Door of the parts room: what a person buys or cuts.
#pragma once

#include <libflow/parts/centrifugal_pump.hpp>  // a gain that falls with flow
#include <libflow/parts/check_valve.hpp>       // spring check valve
#include <libflow/parts/fitting.hpp>           // elbow, tee
#include <libflow/parts/hose.hpp>              // hose, tube, bar
#include <libflow/parts/law.hpp>               // drop and slope at a flow
#include <libflow/parts/open_end.hpp>          // the end of a tube in the air
#include <libflow/parts/orifice.hpp>           // metering orifice
#include <libflow/parts/part.hpp>              // any part, and what it promises
#include <libflow/parts/relief_valve.hpp>      // opens at its set pressure
