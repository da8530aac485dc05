// SPDX-License-Identifier: MIT
/// @file
/// Doubts about a layout itself: orifices that meter nothing, parts that take far more pressure than there is, hoses
/// too wide for a row or too short to reach it. Most often a slip in one figure.
#pragma once

#include <string_view>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// An orifice that takes less than this share of its row's friction drop does not set the row's flow; its hose does
/// (common practice, no source) [-].
inline constexpr double least_metering_share = 0.02;

/// An orifice that takes this much, 2 psi, sets a sensible drop; where its share is small all the same, something else
/// takes too much (common practice, no source) [Pa].
inline constexpr double metering_pressure = 2.0 * 6894.757293168;

/// A part that takes more than this many times the pressure limit is asked about (common practice, no source) [-].
inline constexpr double most_metering_pressure = 10.0;

/// A row's hose wider than this, 1 in, is asked about where the liquid creeps in it: it loses next to nothing (common
/// practice, no source) [m].
inline constexpr double wide_row_hose = 0.0254;

/// Below this, 0.2 ft/s, liquid creeps in a hose (common practice, no source) [m/s].
inline constexpr double creeping_velocity = 0.2 * 0.3048;

/// Row by row: "orifice-not-smaller-than-hose" for a hole as wide as the hose it sits in, or wider;
/// "orifice-meters-nothing" for one that takes less than least_metering_share of its row's drop, and less than
/// metering_pressure. Where a tenth of the
/// bore would meter and keeps the gauge at most_gauge or below, that bore is named as the nearest.
/// "orifice-takes-too-much" for one that takes more than most_metering_pressure times most_gauge; there ten times the
/// bore may be the nearest. "valve-takes-too-much" and "line-takes-too-much" where the check valve, or hose and bar,
/// do. Rows that are shut or get nothing have none.
/// @param e           of this plumbing and liquid
/// @param most_gauge  [Pa gauge]
[[nodiscard]] Cautions metering_cautions(const Plumbing& plumbing, const LiquidState& liquid, const Evenness& e,
                                         double most_gauge);

/// "hose-too-wide" row by row: a hose wider than the manifold or the feed hose that it is fed from, or wider than
/// wide_row_hose and slower than creeping_velocity.
/// @param toolbar, e  of this plumbing
[[nodiscard]] Cautions wide_hose_cautions(const Toolbar& toolbar, const Plumbing& plumbing, const Evenness& e);

/// "hose-too-short" row by row: an open row's hose is shorter than its run along the bar, from its port to its row, so
/// it cannot reach. Needs no solution.
/// @throws InputError  for a toolbar that cannot be
[[nodiscard]] Cautions short_hose_cautions(const Toolbar& toolbar);

/// True for the codes of the cautions above: a figure of the layout may be a slip.
[[nodiscard]] bool is_layout_doubt(std::string_view code);

/// The first of the cautions above, or nullptr: the layout may not be what is meant.
[[nodiscard]] const Caution* layout_doubt(const Evenness& e);

}  // namespace libflow
