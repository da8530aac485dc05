// SPDX-License-Identifier: MIT
/// @file
/// A drive to places and parts: from the tanks to the place where the gauge stands.
#pragma once

#include <libflow/fluid/liquid.hpp>
#include <libflow/network/network.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// How the ground tilts a drive, and how fast it goes.
struct DriveGround {
  double side = 0;                             ///< sine of the side slope, + right end higher
  double fore_aft = 0;                         ///< sine of the fore-aft slope, + front higher
  Speed speed = from_si<Speed>(1.0);           ///< turns a ground-driven pump
  Length roughness = from_si<Length>(1.5e-6);  ///< of its hoses
};

/// Adds tanks, pump and lines in front of `gauge`; fills plumbing.drive and plumbing.tanks, adds to
/// plumbing.hose_total.
/// @param plumbing  its network holds `gauge` already
/// @param given     with `setting` set
/// @throws InputError naming the part
void add_drive(Plumbing& plumbing, const Drive& given, const LiquidState& liquid, const DriveGround& ground,
               Network::PlaceIndex gauge);

}  // namespace libflow
