// SPDX-License-Identifier: MIT
/// @file
/// Why rows differ: how much of every row's deviation each cause makes, adding up exactly.
///
/// Each cause (hose lengths, manifold, slope ...) can be put to an even reference or left as it is. Every combination
/// is solved; a cause's part of a row's deviation is its average effect over all orders in which the causes could be
/// brought in (the Shapley value: L. S. Shapley, A Value for n-Person Games, 1953), so the parts add up to the row's
/// deviation, whatever the causes do to each other.
#pragma once

#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// Fills `evenness.causes` and `evenness.reference`.
/// @param evenness  of this toolbar, job and liquid
void attribute(const Toolbar& toolbar, const Job& job, const LiquidState& liquid, Evenness& evenness);

}  // namespace libflow
