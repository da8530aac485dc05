// SPDX-License-Identifier: MIT
/// @file
/// Orifices that meter nothing or take far more pressure than there is, and hoses too wide for a row: most often a slip
/// in a bore.
#pragma once

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// An orifice that takes less than this share of its row's friction drop does not set the row's flow; its hose does
/// (common practice, no source) [-].
inline constexpr double least_metering_share = 0.02;

/// An orifice that takes more than this many times the pressure limit is asked about (common practice, no source) [-].
inline constexpr double most_metering_pressure = 10.0;

/// A row's hose wider than this, 1 in, is asked about where the liquid creeps in it: it loses next to nothing (common
/// practice, no source) [m].
inline constexpr double wide_row_hose = 0.0254;

/// Below this, 0.2 ft/s, liquid creeps in a hose (common practice, no source) [m/s].
inline constexpr double creeping_velocity = 0.2 * 0.3048;

/// Row by row: "orifice-not-smaller-than-hose" for a hole as wide as the hose it sits in, or wider;
/// "orifice-meters-nothing" for one that takes less than least_metering_share of its row's drop. Where a tenth of the
/// bore would meter and keeps the gauge at most_gauge or below, that bore is named as the nearest.
/// "orifice-takes-too-much" for one that takes more than most_metering_pressure times most_gauge; there ten times the
/// bore may be the nearest. Rows that are shut or get nothing have none.
/// @param e           of this plumbing and liquid
/// @param most_gauge  [Pa gauge]
[[nodiscard]] Cautions metering_cautions(const Plumbing& plumbing, const LiquidState& liquid, const Evenness& e,
                                         double most_gauge);

/// "hose-too-wide" row by row: a hose wider than the manifold or the feed hose that it is fed from, or wider than
/// wide_row_hose and slower than creeping_velocity.
/// @param toolbar, e  of this plumbing
[[nodiscard]] Cautions wide_hose_cautions(const Toolbar& toolbar, const Plumbing& plumbing, const Evenness& e);

/// The first caution about an orifice, or nullptr: the layout may not be what is meant.
[[nodiscard]] const Caution* metering_doubt(const Evenness& e);

}  // namespace libflow
