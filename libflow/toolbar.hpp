// SPDX-License-Identifier: MIT
/// @file
/// Door of the toolbar room: rows, rate arithmetic, evenness.
#pragma once

#include <libflow/toolbar/attribution.hpp>           // why rows differ
#include <libflow/toolbar/attribution_by_input.hpp>  // which hose, which orifice
#include <libflow/toolbar/build.hpp>                 // toolbar to network
#include <libflow/toolbar/drive.hpp>                 // what pushes the liquid: tank, pump, control
#include <libflow/toolbar/evaluate.hpp>              // solution to rows and verdict
#include <libflow/toolbar/evenness.hpp>              // row by row
#include <libflow/toolbar/ground.hpp>                // row speeds, wanted flow
#include <libflow/toolbar/hanging_tubes.hpp>         // do hanging tubes run full?
#include <libflow/toolbar/junctions.hpp>             // losses and regain at the ports of a bar
#include <libflow/toolbar/layout.hpp>                // what a person says
#include <libflow/toolbar/rate.hpp>                  // gal/ac, mph, spacing to gal/min
#include <libflow/toolbar/stop.hpp>                  // what drips after a stop
#include <libflow/toolbar/uniformity.hpp>            // CV, Christiansen, low quarter
