// SPDX-License-Identifier: MIT
/// @file
/// What tees do to the flow: at a bar's port the branch loses velocity head and the bar regains pressure past it.
#pragma once

#include <libflow/core/caution.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// True where one convex solve does not answer: the plumbing has tees or pressure regulators, and only solve_plumbing
/// counts them.
[[nodiscard]] bool needs_corrections(const Plumbing& plumbing);

/// What a person should know of the tees in a solution, once a bar (its worst port) and once each other tee:
/// "outside-range" where the flow is not turbulent enough for the published losses and these count (Tee::cautions);
/// "no-published-loss" where a feed meets a bar in a way that no published form fits and its velocity head counts.
/// @param matters  [Pa], a drop of which a hundredth counts: a row's orifice
[[nodiscard]] Cautions junction_cautions(const Plumbing& plumbing, const Solution& solution, const LiquidState& liquid,
                                         double matters);

/// Solves a plumbing with all that a single convex solve cannot say: its tees' losses, which are those of the published
/// forms whichever way each flows (solve/tees.hpp), its pressure regulators (a
/// drive's among them), and hanging tubes that may or may not run full, with both states of those (hanging_tubes.hpp).
/// A solution whose corrections did not settle is not usable.
[[nodiscard]] TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid);
/// The answer alone; what is in question stands in its cautions.
[[nodiscard]] Solution solve_plumbing(const Plumbing& plumbing, const LiquidState& liquid);

}  // namespace libflow
