// SPDX-License-Identifier: MIT
#include <libflow/toolbar/junctions.hpp>

#include <utility>
#include <vector>

#include <libflow/solve/corrected.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// A port as the tee that it is. Its bar parts run from left to right.
static TeeAt tee_of(const Network& network, const Port& port) {
  return {.tee = {.run_bore = from_si<Length>(port.bar_bore), .branch_bore = from_si<Length>(port.branch_bore)},
          .place = port.left ? network.to(*port.left) : network.from(*port.right),
          .left = port.left,
          .right = port.right,
          .branches = port.branches};
}

std::vector<TeeAt> port_tees(const Plumbing& plumbing) {
  std::vector<TeeAt> tees;
  for (const Port& port : plumbing.ports) {
    // Without bar on either side, or without a row, nothing divides there.
    if ((port.left || port.right) && !port.branches.empty()) tees.push_back(tee_of(plumbing.network, port));
  }
  return tees;
}

TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid) {
  const std::vector<TeeAt> tees = port_tees(plumbing);
  return solve_hanging_tubes(plumbing.network, liquid, [&](const Network& network) {
    std::vector<Correction> corrections = tee_corrections(network, tees, liquid.density);
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
