// SPDX-License-Identifier: MIT
/// @file
/// A solved network made linear: conductances, the slopes of every drop, one factorisation, and the conditions of drops
/// that come by corrections. Derivatives (derivatives.hpp) are what follows from it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include <Eigen/LU>
#include <fmt/core.h>

#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/solve/derivative_corrections.hpp>
#include <libflow/solve/derivative_inputs.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/solve/star_mesh.hpp>

namespace libflow {

/// Which side's derivative is meant where a one-way part stands exactly at its threshold.
enum class AtCrack {
  shut,  ///< for changes that leave it shut
  open   ///< for changes that open it
};

namespace derivatives_detail {

/// See Derivatives, which holds one.
class Linearised {
 protected:
  Linearised(const Network& network, std::vector<TeeAt> tees)
      : network_(&network), inputs_(inputs_of(network, tees)), tees_(std::move(tees)) {
    const std::size_t n = network.place_count(), m = network.part_count();
    number_.resize(n);
    for (const bool of_held : {false, true}) {
      for (std::size_t i = 0; i < n; ++i) {
        if (network.place(i).held() == of_held) {
          number_[i] = place_.size();
          place_.push_back(i);
        }
      }
      if (!of_held) unknowns_ = place_.size();
    }
    Joints joints;
    for (std::size_t e = 0; e < m; ++e) {
      from_.push_back(number_[network.from(e)]);
      to_.push_back(number_[network.to(e)]);
      if (from_[e] < unknowns_ && to_[e] < unknowns_) {
        joints.push_back({static_cast<int>(from_[e]), static_cast<int>(to_[e])});
      }
    }
    const auto of_no_part = std::find_if(inputs_.begin(), inputs_.end(), [](const NetworkInput& input) {
      return input.kind != NetworkInput::Kind::part;
    });
    part_inputs_ = static_cast<std::size_t>(of_no_part - inputs_.begin());
    input_slope_.resize(part_inputs_);
    joint_.resize(joints.size());
    ground_.resize(unknowns_);
    right_.resize(n);
    slopes_.resize(m);
    mesh_ = std::make_unique<StarMesh<double>>(static_cast<int>(unknowns_), joints);
  }

  void linearise(const LiquidState& liquid, const Solution& solution, AtCrack side) {
    if (!solution.usable() || solution.parts.size() != network_->part_count() ||
        solution.places.size() != network_->place_count()) {
      throw InputError("derivatives", "the solution is not usable or of another network",
                       "a solution of this network that converged");
    }
    weight_ = liquid.density * standard_gravity;
    at_crack_.clear();
    unlisted_.clear();
    const std::size_t m = from_.size();
    conductance_.assign(m, 0.0);
    extras_ = derivatives_detail::tee_extras(*network_, tees_, solution, liquid.density);
    correction_.assign(m, 0.0);
    for (const auto& extra : extras_) correction_[extra.part] += extra.drop;
    double scale = 0.0;
    for (const PartResult& p : solution.parts) scale = std::max(scale, std::abs(p.drop));
    for (std::size_t e = 0; e < m; ++e) look_at(e, liquid, solution, side, scale);
    for (std::size_t k = 0; k < part_inputs_; ++k) {
      input_slope_[k] = slopes_[inputs_[k].index].inputs[inputs_[k].field];
    }
    determined_.resize(number_.size());
    for (std::size_t i = 0; i < determined_.size(); ++i) determined_[i] = solution.places[i].determined;
    std::fill(ground_.begin(), ground_.end(), 0.0);
    std::size_t j = 0;
    for (std::size_t e = 0; e < m; ++e) {
      const std::size_t a = from_[e], b = to_[e];
      if (a < unknowns_ && b < unknowns_) {
        joint_[j++] = conductance_[e];
      } else if (a < unknowns_) {
        ground_[a] += conductance_[e];
      } else if (b < unknowns_) {
        ground_[b] += conductance_[e];
      }
    }
    mesh_->factor(joint_, ground_);
    close();
  }

  void look_at(std::size_t e, const LiquidState& liquid, const Solution& solution, AtCrack side, double scale) {
    const PlacedPart& placed = network_->part(e);
    const PartResult& result = solution.parts[e];
    const Passes passes = placed.part.passes();
    if (const auto known = placed.part.drop_slopes(result.flow, liquid)) {
      slopes_[e] = *known;
    } else {
      const Drop<double> d = placed.part.law(liquid)(result.flow);
      slopes_[e] = {.drop = d.dp, .flow = d.slope};
      if (passes != Passes::neither) unlisted_.push_back(e);
    }
    if (passes == Passes::neither) return;
    const double excess = result.drop - slopes_[e].drop - correction_[e];  // shut: the law at no flow is its threshold
    const double tolerance = exactly * std::max(scale, std::abs(slopes_[e].drop));
    if (passes != Passes::both && result.flow == 0.0) {
      const bool known = solution.places[placed.from].determined && solution.places[placed.to].determined;
      if (!known || std::abs(excess) > tolerance) return;  // shut
      at_crack_.push_back(e);
      if (side == AtCrack::shut) return;
    } else if (!throttles(e, solution, side, excess, tolerance) && std::abs(excess) > 1000.0 * tolerance) {
      throw InputError(
          "derivatives",
          fmt::format("the drop of '{}' is not that of its law alone: the solution has corrections", placed.id),
          "a solution whose corrections are those of the tees given and of pressure regulators");
    }
    if (!(slopes_[e].flow > 0.0)) {
      throw InputError("derivatives", fmt::format("'{}' has no slope at its flow", placed.id), "a lawful part");
    }
    conductance_[e] = 1.0 / slopes_[e].flow;
  }

  /// Takes a flowing part as a regulator that holds its pressure, if it is one and does. One that holds it wide open,
  /// with nothing left to throttle, stands at a corner.
  bool throttles(std::size_t e, const Solution& solution, AtCrack side, double excess, double tolerance) {
    const auto* regulator = network_->part(e).part.as<PressureRegulator>();
    if (regulator == nullptr) return false;
    const std::size_t behind = network_->to(e);
    if (std::abs(solution.places[behind].total_pressure - si(regulator->set)) > 1000.0 * tolerance) return false;
    if (excess < -1000.0 * tolerance) return false;
    if (excess <= tolerance) {
      at_crack_.push_back(e);
      if (side == AtCrack::open) return false;
    }
    derivatives_detail::Extra extra{.part = e, .holds = behind};
    const NetworkInput set{NetworkInput::Kind::part, e, PressureRegulator::set_input};
    const auto last = inputs_.begin() + static_cast<std::ptrdiff_t>(part_inputs_);
    extra.set_input = static_cast<std::size_t>(std::find(inputs_.begin(), last, set) - inputs_.begin());
    extras_.push_back(std::move(extra));
    return true;
  }

  /// The conditions of the extra drops against these drops: a column each, by one solve.
  void close() {
    if (extras_.empty()) return;
    const auto n = static_cast<Eigen::Index>(extras_.size());
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Identity(n, n);
    for (Eigen::Index k = 0; k < n; ++k) {
      const std::size_t on = extras_[static_cast<std::size_t>(k)].part;
      std::fill(right_.begin(), right_.end(), 0.0);
      push(on, conductance_[on]);
      solve_held_still();
      for (Eigen::Index i = 0; i < n; ++i) {
        const auto& extra = extras_[static_cast<std::size_t>(i)];
        if (extra.holds) {
          matrix(i, k) = right_[number_[*extra.holds]];
          continue;
        }
        for (const auto& [e, slope] : extra.flows) {
          matrix(i, k) -= slope * conductance_[e] * (right_[from_[e]] - right_[to_[e]] - (e == on ? 1.0 : 0.0));
        }
      }
    }
    conditions_.compute(matrix);
    if (!(conditions_.rcond() > 1e-14)) {
      throw InputError("derivatives", "the losses of tees or the regulators do not decide one answer here",
                       "plumbing in which each regulator's flow can pass");
    }
  }

  [[nodiscard]] double given_sign(std::size_t place) const {
    return network_->place(place).kind == PlaceKind::drawn ? -1.0 : 1.0;
  }
  /// What the potential of a held place moves by with the density.
  [[nodiscard]] double held_by_density(std::size_t place) const {
    const Place& p = network_->place(place);
    return standard_gravity * (p.elevation + (p.tank ? p.tank->depth : 0.0));
  }

  /// Adds a flow that enters at a part's first place and leaves at its second.
  void push(std::size_t e, double flow) {
    right_[from_[e]] += flow;
    right_[to_[e]] -= flow;
  }
  /// From right_, flows pushed in, to potentials, those of held places 0.
  void solve_held_still() {
    std::fill(right_.begin() + static_cast<std::ptrdiff_t>(unknowns_), right_.end(), 0.0);
    mesh_->solve(right_);
  }

  const Network* network_;
  double weight_ = 0;
  std::vector<NetworkInput> inputs_;
  std::size_t part_inputs_ = 0;  // those of parts come first
  std::vector<TeeAt> tees_;
  std::vector<std::size_t> number_, place_;  // place -> number and back; places of unknown potential first
  std::size_t unknowns_ = 0;
  std::vector<std::size_t> from_, to_;  // by part: numbers of its places
  std::vector<DropSlopes> slopes_;      // by part
  std::vector<double> input_slope_;     // by input of a part: of its drop
  std::vector<double> conductance_;     // by part; 0: shut
  std::vector<double> correction_;      // by part: what tees add to its drop
  std::vector<derivatives_detail::Extra> extras_;
  Eigen::PartialPivLU<Eigen::MatrixXd> conditions_;
  std::vector<bool> determined_;
  std::vector<Network::PartIndex> at_crack_, unlisted_;
  std::unique_ptr<StarMesh<double>> mesh_;
  std::vector<double> joint_, ground_;
  std::vector<double> right_;  // by number of a place

 private:
  /// Of the largest drop: nearer than this to its threshold a one-way part counts as exactly there, and a drop further
  /// than a thousand times this from its part's law and its tees has another correction in it.
  static constexpr double exactly = 1e-9;
};

}  // namespace derivatives_detail

}  // namespace libflow
