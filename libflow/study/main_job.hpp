// SPDX-License-Identifier: MIT
/// @file
/// The main job: is this layout even at this setting, and if not, why?
#pragma once

#include <string_view>

#include <libflow/toolbar.hpp>

namespace libflow {

/// A layout and everything that was found out about it.
struct Answer {
  Layout layout;       ///< with its drive's setting, where it has a drive
  Plumbing plumbing;   ///< its network
  LiquidState liquid;  ///< at its temperature
  Solution solution;   ///< of the network
  Evenness evenness;   ///< filled when solution.usable()
};

/// What main_job and operating_point say of a rate that is not reached.
/// @param stop  the limit that stops it
[[nodiscard]] Caution rate_not_reached(std::string_view stop, double delivered, double wanted);

/// Solves a layout at its job's setting and judges its rows. A drive whose control is free is brought to the wanted
/// rate; where it cannot reach that, to the end of its range that comes nearest, with the caution "rate-not-reached".
/// @throws InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer
[[nodiscard]] Answer main_job(Layout layout);

}  // namespace libflow
