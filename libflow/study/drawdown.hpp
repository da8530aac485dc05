// SPDX-License-Identifier: MIT
/// @file
/// Drawdown: one fill from full to empty. How level, pressure and evenness change, which tank is empty first and when
/// air reaches the pump, how long and how far a fill goes, and what it weighs on the way.
///
/// The tanks' volumes are integrated with the fifth-order Dormand-Prince pair of Boost.odeint; every right-hand side is
/// a solution of the whole network at the levels of the moment (quasi-steady: lines hold little against a tank). A tank
/// that runs empty and a valve that shuts or opens are found exactly, as roots on the dense output, and the integration
/// starts afresh behind each.
#pragma once

#include <libflow/core/progress.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// Empties the tanks of a layout, driving at the job's speed without a stop.
/// @throws InputError for a layout without a tank, tanks without liquid, options out of range; IllPosedError for
///         plumbing without an answer
[[nodiscard]] Drawdown drawdown(const Layout& layout, const DrawdownOptions& options = {},
                                const Progress& progress = {});

}  // namespace libflow
