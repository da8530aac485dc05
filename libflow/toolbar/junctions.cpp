// SPDX-License-Identifier: MIT
#include <libflow/toolbar/junctions.hpp>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/physics/tee.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

namespace junctions_detail {

/// Flow split at a port: liquid arrives along the bar from one side, part of it leaves by the row, the rest goes on.
struct Split {
  double combined = 0;  ///< arriving along the bar [m3/s], > 0
  double share = 0;     ///< of it that leaves by the row [-]
  int onward = 0;       ///< +1: the rest goes on to the right, -1: to the left, 0: no dividing split
};

static Split split_at(const Port& port, const Solution& s) {
  const double left = port.left ? s.parts[*port.left].flow : 0.0;     // + towards the port
  const double right = port.right ? s.parts[*port.right].flow : 0.0;  // + away from it
  double row = 0.0;
  for (const auto part : port.branches) row += s.parts[part].flow;
  if (row <= 0.0) return {};
  // Two streams that meet at a port and leave by its row are no dividing tee; no published form is applied to them.
  if (left > 0.0 && right >= 0.0) return {left, std::min(1.0, row / left), +1};
  if (right < 0.0 && left <= 0.0) return {-right, std::min(1.0, row / -right), -1};
  return {};
}

}  // namespace junctions_detail

std::vector<Correction> junction_corrections(const std::vector<Port>& ports, double density) {
  using junctions_detail::Split;
  std::vector<Correction> corrections;
  for (const Port& port : ports) {
    const physics::TeeShape shape{.area_ratio = port.branch_bore * port.branch_bore / (port.bar_bore * port.bar_bore)};
    const auto drops = [shape, bore = port.bar_bore, density](const Split& split) {
      return physics::tee_drops<double>(physics::tee_dividing<double>(split.share, shape), split.combined, bore,
                                        density);
    };
    for (const auto branch : port.branches) {
      corrections.push_back({branch, [port, drops](const Solution& s, double) {
                               const Split split = junctions_detail::split_at(port, s);
                               return split.onward == 0 ? 0.0 : drops(split).branch;
                             }});
    }
    const auto onward = [&](std::optional<Network::PartIndex> part, int way) {
      if (!part) return;
      corrections.push_back({*part, [port, drops, way](const Solution& s, double) {
                               const Split split = junctions_detail::split_at(port, s);
                               return split.onward == way ? way * drops(split).run : 0.0;
                             }});
    };
    onward(port.right, +1);
    onward(port.left, -1);
  }
  return corrections;
}

TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid) {
  return solve_hanging_tubes(plumbing.network, liquid, [&](const Network& network) {
    std::vector<Correction> corrections = junction_corrections(plumbing.ports, liquid.density);
    for (Correction& c : regulations(network)) corrections.push_back(std::move(c));
    if (corrections.empty()) return solve(network, liquid);
    CorrectedSolution corrected = solve_corrected(network, liquid, corrections);
    if (!corrected.usable()) corrected.solution.status = Status::iteration_limit;
    return std::move(corrected.solution);
  });
}

Solution solve_plumbing(const Plumbing& plumbing, const LiquidState& liquid) {
  return solve_plumbing_states(plumbing, liquid).solution;
}

}  // namespace libflow
