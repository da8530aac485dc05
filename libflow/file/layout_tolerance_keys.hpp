// SPDX-License-Identifier: MIT
/// @file
/// The words of [[tolerance]] in a layout file.
#pragma once

#include <libflow/file/layout_key.hpp>

namespace libflow {

namespace layout_keys {

/// Keys of [[tolerance]].
inline constexpr LayoutKey tolerance[] = {
    {"of",
     "orifice_bore | hose_length | hose_bore | crack | viscosity | density | temperature | side_slope | "
     "fore_aft_slope | speed | rate | pressure",
     "what differs; the first four in every row by itself"},
    {"normal", "difference", "bell-shaped, with this standard deviation"},
    {"uniform", "difference, or list of differences",
     "anything up to so much more or less, or between the two ends of a list"},
    {"triangular", "difference, or list of differences", "the same with the layout's value the most frequent"},
    {"listed", "list of differences", "one of these measured differences, each as often as another"},
    {"together", "true | false", "one bad batch: all rows share one draw; default false"},
    {"batches", "list of numbers", "one a row: rows of one number share one draw"},
    {"name", "text", "for the report; default: what it is of"}};

}  // namespace layout_keys

}  // namespace libflow
