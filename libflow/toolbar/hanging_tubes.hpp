// SPDX-License-Identifier: MIT
/// @file
/// Hanging tubes that may or may not run full: both states, and which of them is the answer.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/parts/vented_tube.hpp>
#include <libflow/solve/solution.hpp>

namespace libflow {

/// A row outlet with a fall that does not surely run full, in both states.
struct HangingTube {
  Network::PartIndex part = 0;                    ///< the row outlet
  physics::Runs runs = physics::Runs::ambiguous;  ///< partly: solved as vented; ambiguous: solved as full
  double flow_full = 0;                           ///< of all its tubes where it runs full [m3/s]
  double flow_vented = 0;                         ///< with air in all the tubes of this list [m3/s]
};

/// A solution and the tubes that were in question.
struct TubesSolved {
  Solution solution;               ///< with the state that each tube is taken to have
  std::vector<HangingTube> tubes;  ///< empty: every tube runs full, or there is none
};

/// What of the drop of a part in a solution is height that its liquid falls through air, and no loss in the line [Pa]:
/// of a vented tube, and of a hanging row outlet that the solution has partly full; else 0.
[[nodiscard]] double unused_fall(const Network& network, const Solution& solution, Network::PartIndex part,
                                 const LiquidState& liquid);

namespace hanging_tubes_detail {

physics::Runs runs(const RowOutlet& outlet, double flow, const LiquidState& liquid);

/// The network with these row outlets as vented tubes.
template <class Wanted>
Network vented(Network network, const std::vector<HangingTube>& tubes, const Wanted& wanted) {
  for (const HangingTube& tube : tubes) {
    if (!wanted(tube)) continue;
    network.replace_part(tube.part, Part(VentedTube::of(*network.part(tube.part).part.as<RowOutlet>())));
  }
  return network;
}

/// What a person should know, in the place of what the parts said of themselves.
void add_cautions(const Network& network, TubesSolved& solved);

}  // namespace hanging_tubes_detail

/// Solves a network whose row outlets hang (RowOutlet::fall) in as many states as the question needs, three at most:
/// all full; with air in all that are not surely full; and, where only some of those are surely partly full, with air
/// in them alone. A tube is surely full when the criterion (physics::runs_full) says so at its flow with all full, and
/// surely partly full when it says so at its flow in both states; else it is ambiguous: both flows are in the list and
/// a caution tells.
/// @param solve_one  solves one network: Network to Solution
template <class SolveOne>
[[nodiscard]] TubesSolved solve_hanging_tubes(const Network& network, const LiquidState& liquid,
                                              const SolveOne& solve_one) {
  using namespace hanging_tubes_detail;
  TubesSolved out;
  out.solution = solve_one(network);
  if (!out.solution.usable()) return out;
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    const auto* outlet = network.part(i).part.as<RowOutlet>();
    const double flow = out.solution.parts[i].flow;
    if (outlet == nullptr || !(si(outlet->fall) > 0.0) || !(flow > 0.0)) continue;
    const physics::Runs state = runs(*outlet, flow, liquid);
    if (state != physics::Runs::full) out.tubes.push_back({.part = i, .runs = state, .flow_full = flow});
  }
  if (out.tubes.empty()) return out;

  Solution all = solve_one(vented(network, out.tubes, [](const HangingTube&) { return true; }));
  if (!all.usable()) {
    out.solution = std::move(all);
    return out;
  }
  std::size_t partly = 0;
  for (HangingTube& tube : out.tubes) {
    tube.flow_vented = all.parts[tube.part].flow;
    const bool both = tube.runs == physics::Runs::partly && runs(*network.part(tube.part).part.as<RowOutlet>(),
                                                                 tube.flow_vented, liquid) == physics::Runs::partly;
    tube.runs = both ? physics::Runs::partly : physics::Runs::ambiguous;
    partly += both ? 1 : 0;
  }
  if (partly == out.tubes.size()) {
    out.solution = std::move(all);
  } else if (partly > 0) {
    out.solution = solve_one(
        vented(network, out.tubes, [](const HangingTube& tube) { return tube.runs == physics::Runs::partly; }));
  }
  add_cautions(network, out);
  return out;
}

}  // namespace libflow
