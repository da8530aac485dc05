// SPDX-License-Identifier: MIT
/// @file
/// Door of the toolbar room: rows, rate arithmetic, evenness.
#pragma once

#include <libflow/toolbar/attribution.hpp>  // why rows differ
#include <libflow/toolbar/build.hpp>        // toolbar to network
#include <libflow/toolbar/evaluate.hpp>     // solution to rows and verdict
#include <libflow/toolbar/evenness.hpp>     // row by row
#include <libflow/toolbar/ground.hpp>       // row speeds, wanted flow
#include <libflow/toolbar/junctions.hpp>    // losses and regain at the ports of a bar
#include <libflow/toolbar/layout.hpp>       // what a person says
#include <libflow/toolbar/rate.hpp>         // gal/ac, mph, spacing to gal/min
#include <libflow/toolbar/uniformity.hpp>   // CV, Christiansen, low quarter
