// SPDX-License-Identifier: MIT
#include <libflow/toolbar/junctions.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/physics/minor_loss.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

bool needs_corrections(const Plumbing& plumbing) {
  if (!plumbing.tees.empty()) return true;
  for (Network::PartIndex i = 0; i < plumbing.network.part_count(); ++i) {
    if (plumbing.network.part(i).part.contract() == Contract::outer_corrected) return true;
  }
  return false;
}

/// Largest velocity head of the parts that meet at a place [Pa].
static double largest_head(const Network& network, Network::PlaceIndex place, const Solution& s, double density) {
  double largest = 0.0;
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    if (network.from(i) != place && network.to(i) != place) continue;
    const auto bore = network.part(i).part.bore();
    if (bore)
      largest = std::max(largest, physics::velocity_head<double>(std::abs(s.parts[i].flow), si(*bore), density));
  }
  return largest;
}

Cautions junction_cautions(const Plumbing& plumbing, const Solution& solution, const LiquidState& liquid,
                           double matters) {
  struct Worst {
    std::string bar;  // empty: a tee by itself
    Caution caution;
    double loss = 0;
    int ports = 0;  // that are cautioned
  };
  std::vector<Worst> found;
  for (const TeeAt& at : plumbing.tees) {
    const TeeResult r = tee_result(plumbing.network, at, solution, liquid.density);
    Cautions cautions = at.tee.cautions(r.flows, liquid, matters);
    if (cautions.empty()) continue;
    const auto [low, high] = std::minmax({r.levels.left, r.levels.right, r.levels.branch});
    auto known =
        std::find_if(found.begin(), found.end(), [&](const Worst& w) { return !at.bar.empty() && w.bar == at.bar; });
    if (known == found.end()) known = found.insert(found.end(), {.bar = at.bar, .caution = {}, .loss = -1.0});
    ++known->ports;
    if (high - low <= known->loss) continue;
    known->loss = high - low;
    known->caution = std::move(cautions.front());
    known->caution.subject = plumbing.network.place(at.place).id;
    if (at.bar.empty()) known->caution.subject = fmt::format("tee at '{}'", known->caution.subject);
  }
  Cautions out;
  for (Worst& w : found) {
    if (w.ports > 1) w.caution.subject += fmt::format(" (the worst of {} such ports)", w.ports);
    out.push_back(std::move(w.caution));
  }
  for (const auto place : plumbing.lossless) {
    const double head = largest_head(plumbing.network, place, solution, liquid.density);
    if (!(head > 0.01 * matters)) continue;
    out.push_back({"no-published-loss", plumbing.network.place(place).id,
                   "the feed meets the bar here in a cross, or is wider than the bar: no published loss fits, it is "
                   "taken without loss, and that may count",
                   head, 0.01 * matters,
                   "crosses were measured with four equal bores: Sharp, Johnson, Barfuss and Rahmeyer, J. Hydraul. "
                   "Eng. 136, 2010"});
  }
  return out;
}

TubesSolved solve_plumbing_states(const Plumbing& plumbing, const LiquidState& liquid) {
  return solve_hanging_tubes(plumbing.network, liquid, [&](const Network& network) {
    std::vector<Correction> corrections = tee_corrections(network, plumbing.tees, liquid.density);
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
