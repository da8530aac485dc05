// SPDX-License-Identifier: MIT
/// @file
/// What the ports of a bar do to the flow: the branch loses velocity head, the bar regains pressure past it.
#pragma once

#include <vector>

#include <libflow/solve/corrected.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// Corrections for the ports of bars, total-pressure form: the row loses the branch coefficient, the bar beyond the run
/// coefficient, both on the velocity head of the flow that arrives (physics/tee.hpp: Crane TP-410 2009, turbulent). A
/// negative run coefficient is a regain of total pressure by the faster core that goes on.
/// @param density  [kg/m3]
std::vector<Correction> junction_corrections(const std::vector<Port>& ports, double density);

/// Solves a plumbing with all that a single convex solve cannot say: its ports' losses, its pressure regulators (a
/// drive's among them), and hanging tubes that may or may not run full, with both states of those (hanging_tubes.hpp).
/// A solution whose corrections did not settle is not usable.
[[nodiscard]] TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid);
/// The answer alone; what is in question stands in its cautions.
[[nodiscard]] Solution solve_plumbing(const Plumbing& plumbing, const LiquidState& liquid);

}  // namespace libflow
