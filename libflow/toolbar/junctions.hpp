// SPDX-License-Identifier: MIT
/// @file
/// What the ports of a bar do to the flow: the branch loses velocity head, the bar regains pressure past it.
#pragma once

#include <vector>

#include <libflow/solve/tees.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// The ports of bars as tees, for tee_corrections (solve/tees.hpp): whichever way the bar flows past a port, between
/// two feeds too, the row and the bar get what the published forms say of that way (parts/tee.hpp; turbulent flow).
[[nodiscard]] std::vector<TeeAt> port_tees(const Plumbing& plumbing);

/// Solves a plumbing with all that a single convex solve cannot say: its ports' losses, its pressure regulators (a
/// drive's among them), and hanging tubes that may or may not run full, with both states of those (hanging_tubes.hpp).
/// A solution whose corrections did not settle is not usable.
[[nodiscard]] TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid);
/// The answer alone; what is in question stands in its cautions.
[[nodiscard]] Solution solve_plumbing(const Plumbing& plumbing, const LiquidState& liquid);

}  // namespace libflow
