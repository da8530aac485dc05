// SPDX-License-Identifier: MIT
#include <libflow/toolbar/hanging_tubes.hpp>

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/core.h>

#include <libflow/network/network.hpp>
#include <libflow/parts/row_outlet.hpp>

namespace libflow {

namespace hanging_tubes_detail {

physics::Runs runs(const RowOutlet& outlet, double flow, const LiquidState& liquid) {
  return physics::runs_full(std::max(flow, 0.0) / outlet.count, si(outlet.bore), liquid.density, liquid.viscosity,
                            outlet.surface_tension);
}

void add_cautions(const Network& network, TubesSolved& solved) {
  const auto subject = [&](const HangingTube& tube) {
    return fmt::format("{} '{}'", RowOutlet::kind, network.part(tube.part).id);
  };
  std::erase_if(solved.solution.cautions, [&](const Caution& c) {
    return c.code == "may-not-run-full" &&
           std::any_of(solved.tubes.begin(), solved.tubes.end(),
                       [&](const HangingTube& tube) { return subject(tube) == c.subject; });
  });
  double most = 0.0;  // change of a tube's flow from one state to the other
  for (const HangingTube& tube : solved.tubes) {
    if (tube.runs != physics::Runs::ambiguous) continue;
    most = std::max(most, std::abs(tube.flow_vented / tube.flow_full - 1.0));
  }
  for (const HangingTube& tube : solved.tubes) {
    const bool partly = tube.runs == physics::Runs::partly;
    solved.solution.cautions.push_back(
        {partly ? "runs-partly-full" : "full-or-partly-full", subject(tube),
         partly
             ? std::string("air stands in this hanging tube, so its fall does not pull: solved as open to the air at "
                           "its head")
             : fmt::format("this hanging tube may run full or partly full and may change from one to the other: "
                           "solved as full; with air in the tubes in question a row's flow is other by up to "
                           "{:.2g} %. A vent at the tube's head, a narrower tube or an orifice at its foot decides "
                           "it",
                           100.0 * most),
         tube.flow_vented, tube.flow_full,
         "P. D. Hills, Chem. Eng., 5 September 1983; F. P. Bretherton, J. Fluid Mech. 10 (1961) 166"});
  }
}

}  // namespace hanging_tubes_detail

double unused_fall(const Network& network, const Solution& solution, Network::PartIndex part,
                   const LiquidState& liquid) {
  const Part& placed = network.part(part).part;
  const double flow = solution.parts[part].flow;
  const auto* outlet = placed.as<RowOutlet>();
  if (outlet == nullptr || !(si(outlet->fall) > 0.0)) return placed.unused_fall(flow, liquid);
  // Full, it drops what its law says; partly full, it was solved as a vented tube and drops the height on top.
  const double unused = VentedTube::of(*outlet).unused_fall(flow, liquid);
  return solution.parts[part].drop - outlet->law(liquid)(flow).dp > 0.5 * unused ? unused : 0.0;
}

}  // namespace libflow
