// SPDX-License-Identifier: MIT
/// @file
/// The words of [size] in a layout file.
#pragma once

#include <libflow/file/layout_key.hpp>

namespace libflow::layout_keys {

/// Keys of [size].
inline constexpr LayoutKey size[] = {
    {"orifices", "list of lengths", "bores to choose from; default 19 steps from 0.4 to 3.15 mm"},
    {"groups", "tables", "rows that get an orifice of their own; default one for all rows"},
    {"hose_bores", "list of lengths", "default the layout's"},
    {"hose_prices", "list of numbers",
     "money for 1 ft (units us) or 1 m (metric) of each of hose_bores; default: the least hose is the best"},
    {"cuts", "list of equal, shortest, rounded, two_lengths", "how hoses may be cut; default all four"},
    {"step", "length", "runs are rounded up to it, for rounded; default 2 ft"},
    {"extra", "length", "drop and slack on every run; default as [hose] has it, or 0"},
    {"manifold_bores", "list of lengths", "of all manifolds; default the first one's"},
    {"feeds", "list of middle, left, right, both_ends", "where liquid enters all manifolds; default as the first one"},
    {"cracks", "list of pressures", "of all check valves; default the layout's"},
    {"speeds", "list of speeds", "at which everything has to hold; default [range], or the job's"},
    {"rates", "list of rates", "at which everything has to hold; default [range], or the job's"},
    {"temperatures", "list of temperatures", "at which everything has to hold; default the job's"},
    {"side_slopes", "list of slopes", "on which everything has to hold; default the layout's"},
    {"least_pressure", "pressure", "at the gauge; default 10 psi (common practice, no source)"},
    {"most_pressure", "pressure", "at the gauge; default 60 psi (common practice, no source)"},
    {"good_practice", "true | false",
     "line velocity, pump reserve and a shut relief valve count as limits; default false"},
    {"verify", "count",
     "speeds and rates, from the least to the most of the lists, at which the winner is verified, 1 to 50; default 9"}};

/// Keys of [[groups]].
inline constexpr LayoutKey size_group[] = {{"name", "text", "of the group, e.g. outer"},
                                           {"rows", "list of numbers", "its rows, 1 at the left end"}};

}  // namespace libflow::layout_keys
