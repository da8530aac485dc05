// SPDX-License-Identifier: MIT
/// @file
/// Rate arithmetic: area rate, ground speed and row width to flow, and back.
#pragma once

#include <libflow/units/quantity.hpp>

namespace libflow {

/// Flow that gives `rate` over a strip of `width` at `speed`: the trade's gal/min = gal/ac x mph x inches / 5940 and
/// L/min = L/ha x km/h x m / 600, without their units (University of Florida EDIS WG013; University of Illinois, 60
/// Ways, no. 55; the constants are exact: 43,560 x 12 x 60 / 5280).
[[nodiscard]] constexpr Flow flow_for_rate(AreaRate rate, Speed speed, Length width) {
  return from_si<Flow>(si(rate) * si(speed) * si(width));
}

/// Area rate that a flow gives. @param speed, width  > 0
[[nodiscard]] constexpr AreaRate rate_for_flow(Flow flow, Speed speed, Length width) {
  return from_si<AreaRate>(si(flow) / (si(speed) * si(width)));
}

}  // namespace libflow
