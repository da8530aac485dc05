// SPDX-License-Identifier: MIT
/// @file
/// Rows over the ground: each row's own speed, and the flow that a job asks of a network.
#pragma once

#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// Ground speed of a row at `x` along the bar [m/s]: in a turn about a centre at the given radius, speed grows with the
/// distance from that centre.
[[nodiscard]] double row_speed(const Job& job, double x);

/// Flow that a job asks for, all rows that are not shut together [m3/s].
[[nodiscard]] double wanted_flow(const Plumbing& plumbing, const Job& job);

/// Gives a fed place what the job asks for beyond the flows that are given at other places.
/// @throws InputError when those are more than the job asks for
void feed_wanted_flow(Plumbing& plumbing, Network::PlaceIndex fed, const Job& job);

/// Is a pump turned by a wheel on the ground?
[[nodiscard]] bool has_ground_driven_pump(const Network& network);

/// Turns such pumps with the ground speed: each as much faster as `to` is than `from`.
/// @throws InputError for a speed that a pump cannot have
void turn_ground_driven_pumps(Network& network, Speed from, Speed to);

}  // namespace libflow
