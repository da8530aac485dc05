// SPDX-License-Identifier: MIT
/// @file
/// Orifices that meter nothing: most often a slip in their bore.
#pragma once

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// An orifice that takes less than this share of its row's friction drop does not set the row's flow; its hose does
/// (common practice, no source) [-].
inline constexpr double least_metering_share = 0.02;

/// Row by row: "orifice-not-smaller-than-hose" for a hole as wide as the hose it sits in, or wider;
/// "orifice-meters-nothing" for one that takes less than least_metering_share of its row's drop. Where a tenth of the
/// bore would meter and keeps the gauge at most_gauge or below, that bore is named as the nearest. Rows that are shut
/// or get nothing have none.
/// @param e           of this plumbing and liquid
/// @param most_gauge  [Pa gauge]
[[nodiscard]] Cautions metering_cautions(const Plumbing& plumbing, const LiquidState& liquid, const Evenness& e,
                                         double most_gauge);

/// The first of them, or nullptr: the layout may not be what is meant.
[[nodiscard]] const Caution* metering_doubt(const Evenness& e);

}  // namespace libflow
