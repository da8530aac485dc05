// SPDX-License-Identifier: MIT
/// @file
/// From a solution to the rows: what each gets, and the verdict.
#pragma once

#include <libflow/fluid/liquid.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// What every row gets and whether that is even. Does not say why (see attribution.hpp).
/// @param solution  of plumbing.network; usable
[[nodiscard]] Evenness evaluate(const Plumbing& plumbing, const Job& job, const Solution& solution,
                                const LiquidState& liquid);

}  // namespace libflow
