// SPDX-License-Identifier: MIT
/// @file
/// What no convex law can say: drops that depend on flows elsewhere, and pressures held downstream.
///
/// A junction's loss depends on how its flow splits; a downstream regulator throttles as far as the pressure behind it
/// asks. Both enter as a correction around the convex solve: each corrected part gets a constant drop on top of its
/// law, the network is solved, the constants are found anew, until they settle. The convex solve always has an answer;
/// that the rounds settle is reported, not promised.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <limits>
#include <utility>
#include <vector>

#include <Eigen/LU>
#include <fmt/core.h>

#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/solve/system.hpp>

namespace libflow {

/// A drop on top of one part's law that depends on the solution.
struct Correction {
  Network::PartIndex part = 0;  ///< whose drop is corrected
  /// What the extra drop from the part's first place to its second should be [Pa], in a solution that was found with
  /// `present`; negative where pressure is regained.
  std::function<double(const Solution&, double present)> drop;
};

/// When the rounds stop.
struct CorrectedOptions {
  double tolerance = 1e-9;  ///< largest change of an extra drop over the largest drop [-], 1e-14 to 1e-2
  int max_rounds = 100;     ///< 1 to 100000

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("corrected options, tolerance", tolerance, {1e-14, 1e-2}, "");
    require_in("corrected options, max_rounds", max_rounds, {1, 100000}, "");
  }
};

/// A solution with its corrections and how well they settled.
struct CorrectedSolution {
  Solution solution;          ///< of the network with the extra drops
  std::vector<double> drops;  ///< extra drop of each correction [Pa]
  bool settled = false;       ///< the last round changed no more than the tolerance
  int rounds = 0;             ///< done
  double change = 0;          ///< in the last round: largest change of an extra drop over the largest drop [-]

  /// True when the numbers may be used.
  [[nodiscard]] bool usable() const { return settled && solution.usable(); }
};

namespace corrected_detail {

/// Steps of one extra drop: a secant through the last two rounds, kept between a twentieth and twenty times the change
/// that was asked for; the plain change in the first round.
class Stepper {
 public:
  double step(double present, double change) {
    double share = 1.0;
    if (moved_ != 0.0) {
      const double slope = (change - last_change_) / moved_;  // -1 where the correction does not feed back
      share = 1.0 / std::min(20.0, std::max(0.05, -slope));
    }
    last_change_ = change;
    moved_ = share * change;
    return present + moved_;
  }

 private:
  double last_change_ = 0, moved_ = 0;
};

/// Rounds by steps of each extra drop alone; what has not settled by then, or is this many times further off than it
/// was, goes on from the best of them by Newton's method on all drops together.
inline constexpr int single_rounds = 40;
inline constexpr double runaway = 100.0;

/// Newton's method on all extra drops together, for loops whose drops decide one another's flow (tees of a bar with two
/// feeds). The slopes are difference quotients, one solve each; a step is halved until the misfit falls, and the best
/// of the halves is taken where none does.
/// @param miss   extra drops to how far off each is [Pa]; empty where the network has no answer
/// @param scale  [Pa]
template <class Miss>
[[nodiscard]] std::vector<double> newton_step(const Miss& miss, const std::vector<double>& drops,
                                              const std::vector<double>& off, double scale) {
  const auto n = static_cast<Eigen::Index>(drops.size());
  const double h = 1e-6 * scale;
  Eigen::MatrixXd slopes(n, n);
  std::vector<double> moved = drops;
  for (std::size_t k = 0; k < drops.size(); ++k) {
    moved[k] = drops[k] + h;
    const std::vector<double> there = miss(moved);
    moved[k] = drops[k];
    if (there.empty()) return {};
    for (std::size_t i = 0; i < drops.size(); ++i) {
      slopes(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) = (there[i] - off[i]) / h;
    }
  }
  const Eigen::VectorXd step = slopes.fullPivLu().solve(-Eigen::Map<const Eigen::VectorXd>(off.data(), n));
  const double before = Eigen::Map<const Eigen::VectorXd>(off.data(), n).norm();
  std::vector<double> best;
  double least = std::numeric_limits<double>::infinity();
  for (int halved = 0; halved < 10; ++halved) {
    const double share = std::ldexp(1.0, -halved);
    for (std::size_t k = 0; k < drops.size(); ++k) moved[k] = drops[k] + share * step[static_cast<Eigen::Index>(k)];
    const std::vector<double> there = miss(moved);
    if (there.empty()) continue;
    const double norm = Eigen::Map<const Eigen::VectorXd>(there.data(), n).norm();
    if (norm < least) {
      least = norm;
      best = moved;
    }
    if (norm < before * (1.0 - 0.1 * share)) break;
  }
  return best;
}

}  // namespace corrected_detail

/// Solves a network with corrections.
/// @throws InputError, IllPosedError as solve()
[[nodiscard]] inline CorrectedSolution solve_corrected(const Network& network, const LiquidState& liquid,
                                                       const std::vector<Correction>& corrections,
                                                       const SolveOptions& options = {},
                                                       const CorrectedOptions& rounds = {}) {
  rounds.check();
  const std::size_t n = corrections.size();
  for (const Correction& c : corrections) {
    if (c.part >= network.part_count()) {
      throw InputError("correction", fmt::format("part {} is not in the network", c.part),
                       fmt::format("0 to {}", network.part_count() - 1));
    }
  }
  CorrectedSolution out;
  out.drops.assign(n, 0.0);
  std::vector<corrected_detail::Stepper> steppers(n);
  std::vector<double> extra(network.part_count());
  System system(network, liquid);
  double scale = least_drop;
  // Solves with these extra drops and says how far each is from what it should be; empty: no usable solution, or a
  // correction that is no number there.
  const auto miss = [&](const std::vector<double>& drops) {
    std::fill(extra.begin(), extra.end(), 0.0);
    for (std::size_t i = 0; i < n; ++i) extra[corrections[i].part] += drops[i];
    system.set_numbers(liquid, extra);
    out.solution = system.solve(options, Start::warm);
    std::vector<double> off;
    if (!out.solution.usable()) return off;
    scale = least_drop;
    for (const PartResult& p : out.solution.parts) scale = std::max(scale, std::abs(p.drop));
    off.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
      off.push_back(corrections[i].drop(out.solution, drops[i]) - drops[i]);
      if (!std::isfinite(off.back())) return std::vector<double>();
    }
    return off;
  };
  std::vector<double> best = out.drops;  // of the single rounds
  double least = std::numeric_limits<double>::infinity();
  bool single = true;
  for (int round = 1; round <= rounds.max_rounds; ++round) {
    out.rounds = round;
    std::vector<double> off = miss(out.drops);
    if (single && round > 1 && off.size() != n) {
      out.drops = best;
      off = miss(best);
      single = false;
    }
    if (off.size() != n) {
      if (out.solution.usable()) out.solution.message += "; a correction is not a finite number";
      return out;
    }
    double largest = 0.0;
    for (const double x : off) largest = std::max(largest, std::abs(x));
    out.change = largest / scale;
    if (out.change <= rounds.tolerance) {
      out.settled = true;
      if (n > 0) out.solution.message += fmt::format("; {} corrections settled in {} rounds", n, round);
      return out;
    }
    if (round == rounds.max_rounds) break;
    if (single) {
      if (largest < least) {
        least = largest;
        best = out.drops;
      }
      single = round < corrected_detail::single_rounds && largest <= corrected_detail::runaway * least;
      for (std::size_t i = 0; i < n; ++i) out.drops[i] = steppers[i].step(out.drops[i], off[i]);
      if (!single) out.drops = best;
      continue;
    }
    std::vector<double> next = corrected_detail::newton_step(miss, out.drops, off, scale);
    if (next.empty()) {
      (void)miss(out.drops);
      break;
    }
    out.drops = std::move(next);
  }
  out.solution.message += fmt::format(
      "; corrections did not settle in {} rounds: they still change by {:.1e} of the "
      "largest drop",
      out.rounds, out.change);
  return out;
}

/// The correction of a PressureRegulator in a network: throttles until the total pressure behind it is at most its set
/// pressure, and not at all where the pressure before it does not reach that.
/// @throws InputError when the part is no PressureRegulator
[[nodiscard]] inline Correction regulation(const Network& network, Network::PartIndex part) {
  const auto* regulator = network.part(part).part.as<PressureRegulator>();
  if (regulator == nullptr) {
    throw InputError(fmt::format("part '{}'", network.part(part).id), "is no pressure regulator",
                     "a part of kind 'pressure regulator'");
  }
  const double set = si(regulator->set);
  const auto behind = network.to(part);
  return {part, [set, behind, part](const Solution& s, double present) {
            const PlaceResult& place = s.places[behind];
            // Shut, it holds when what is behind it is at its set pressure without it, or has no way to lose pressure.
            const bool shut = s.parts[part].valve == ValveState::closed;
            if (shut && (!place.determined || place.total_pressure >= set)) return present;
            return std::max(0.0, present + place.total_pressure - set);
          }};
}

/// The corrections of all regulators of a network.
[[nodiscard]] inline std::vector<Correction> regulations(const Network& network) {
  std::vector<Correction> corrections;
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    if (network.part(i).part.as<PressureRegulator>() != nullptr) corrections.push_back(regulation(network, i));
  }
  return corrections;
}

}  // namespace libflow
