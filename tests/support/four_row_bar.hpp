// SPDX-License-Identifier: MIT
/// @file
/// A small layout file, for tests of what a layout may hold.
#pragma once

namespace libflow::test {

/// Four rows from one manifold, each with a check valve and an orifice; 20 lines, the last of them in [orifice].
inline constexpr const char* four_row_bar = R"(name = "Bar"
[job]
product = "10-34-0"
temperature = "50 F"
rate = "5 gal/ac"
speed = "5 mph"
[toolbar]
rows = 4
spacing = "30 in"
[[manifold]]
bore = "1 in"
[hose]
bore = "1/4 in"
length = "9 ft"
[check_valve]
crack = "4 psi"
rated_flow = "0.5 gpm"
rated_loss = "2 psi"
[orifice]
bore = "0.04 in"
)";

}  // namespace libflow::test
