// SPDX-License-Identifier: MIT
/// @file
/// All of libflow, room by room in the order in which they build on each other.
#pragma once

#include <libflow/version.hpp>

#include <libflow/core.hpp>     // errors, cautions, ranges
#include <libflow/file.hpp>     // layout files in, results out
#include <libflow/fluid.hpp>    // liquids with their sources
#include <libflow/network.hpp>  // places joined by parts
#include <libflow/parts.hpp>    // hose, orifice, check valve ...
#include <libflow/physics.hpp>  // formulas
#include <libflow/report.hpp>   // text for people
#include <libflow/solve.hpp>    // Network to Solution
#include <libflow/study.hpp>    // main job, compare
#include <libflow/toolbar.hpp>  // rows and evenness
#include <libflow/units.hpp>    // 14.0 * ft, parse_quantity<Pressure>("30 psi")
