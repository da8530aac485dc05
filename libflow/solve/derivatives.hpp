// SPDX-License-Identifier: MIT
/// @file
/// How the answer moves when an input moves: exact derivatives of every flow and pressure, from one factorisation.
///
/// At a solution every part keeps phi_a - phi_b = D_e(q_e, p), phi the potentials, and flows balance. Differentiated:
/// dq_e = g_e (dphi_a - dphi_b - r_e) with the conductance g_e = 1/D_e' and r_e = (dD_e/dp) dp, and L dphi = what the
/// r_e and given flows push in, L the Laplacian of the g_e. One factorisation of L serves all: *forward*, one solve for
/// each input gives every flow and pressure; *adjoint*, one solve for each flow or pressure gives its derivatives by
/// every input (L is symmetric, so its factor is its own transpose). dD_e/dp is exact: the part's own law on numbers
/// that carry their slopes (parts/inputs.hpp).
///
/// A shut one-way part carries nothing: its conductance is 0 and so are derivatives beyond it. Exactly at its threshold
/// the answer has a corner: the derivative is one-sided, by choice shut or open, and the part is listed in at_crack().
/// Source: the implicit function theorem; adjoint sensitivities of flow networks, e.g. L. O. Chua, P. M. Lin,
/// Computer-Aided Analysis of Electronic Circuits, 1975 (from memory).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/solve/derivative_inputs.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/solve/star_mesh.hpp>

namespace libflow {

/// Which side's derivative is meant where a one-way part stands exactly at its threshold.
enum class AtCrack {
  shut,  ///< for changes that leave it shut
  open   ///< for changes that open it
};

/// A flow of interest: a sum of parts' flows, each with a factor (a row: its last parts with factor 1).
using FlowSum = std::vector<std::pair<Network::PartIndex, double>>;

/// Derivatives of a solved network. Holds its work space: one object for each thread.
class Derivatives {
 public:
  /// @param network   must outlive this; later only its numbers may change (at())
  /// @param solution  of the network in the liquid by its parts' laws alone; usable
  /// @throws InputError when the solution is not usable, of another network, or has corrections (junction losses, a
  ///         throttling regulator): those drops answer to flows elsewhere, of which the parts' laws know nothing
  Derivatives(const Network& network, const LiquidState& liquid, const Solution& solution, AtCrack side = AtCrack::shut)
      : network_(&network), inputs_(inputs_of(network)) {
    number_.assign(network.place_count(), held);
    std::size_t unknowns = 0;
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      if (!network.place(i).held()) number_[i] = unknowns++;
    }
    Joints joints;
    for (std::size_t e = 0; e < network.part_count(); ++e) {
      const std::size_t a = number_[network.from(e)], b = number_[network.to(e)];
      if (a != held && b != held) joints.push_back({static_cast<int>(a), static_cast<int>(b)});
    }
    joint_.resize(joints.size());
    ground_.resize(unknowns);
    right_.resize(unknowns);
    mesh_ = std::make_unique<StarMesh<double>>(static_cast<int>(unknowns), joints);
    at(liquid, solution, side);
  }

  /// The same network at another solution. @throws InputError as the constructor
  void at(const LiquidState& liquid, const Solution& solution, AtCrack side = AtCrack::shut) {
    if (!solution.usable() || solution.parts.size() != network_->part_count() ||
        solution.places.size() != network_->place_count()) {
      throw InputError("derivatives", "the solution is not usable or of another network",
                       "a solution of this network that converged");
    }
    weight_ = liquid.density * standard_gravity;
    at_crack_.clear();
    unlisted_.clear();
    const std::size_t m = network_->part_count();
    slopes_.resize(m);
    conductance_.assign(m, 0.0);
    double scale = 0.0;
    for (const PartResult& p : solution.parts) scale = std::max(scale, std::abs(p.drop));
    for (std::size_t e = 0; e < m; ++e) look_at(e, liquid, solution, side, scale);
    determined_.resize(network_->place_count());
    for (std::size_t i = 0; i < determined_.size(); ++i) determined_[i] = solution.places[i].determined;
    std::fill(ground_.begin(), ground_.end(), 0.0);
    std::size_t j = 0;
    for (std::size_t e = 0; e < m; ++e) {
      const std::size_t a = number_[network_->from(e)], b = number_[network_->to(e)];
      if (a != held && b != held) {
        joint_[j++] = conductance_[e];
      } else if (a != held) {
        ground_[a] += conductance_[e];
      } else if (b != held) {
        ground_[b] += conductance_[e];
      }
    }
    mesh_->factor(joint_, ground_);
  }

  /// By what there are derivatives, in the order of every gradient.
  [[nodiscard]] const std::vector<NetworkInput>& inputs() const { return inputs_; }
  /// Parts that stand exactly at their threshold: the derivatives are those of one side.
  [[nodiscard]] const std::vector<Network::PartIndex>& at_crack() const { return at_crack_; }
  /// Parts with flow whose types list no inputs (HasInputs): how they answer to the liquid is not known, so gradients
  /// leave their share of density and viscosity out.
  [[nodiscard]] const std::vector<Network::PartIndex>& unlisted() const { return unlisted_; }

  /// Adjoint: derivatives of a flow by every input [m3/s per unit of the input].
  [[nodiscard]] std::vector<double> of_flow(const FlowSum& flow) {
    std::fill(right_.begin(), right_.end(), 0.0);
    for (const auto& [e, factor] : flow) push(e, factor * conductance_[e]);
    solve_adjoint();
    for (const auto& [e, factor] : flow) by_drop_[e] -= factor * conductance_[e];
    return gather(network_->place_count());
  }
  [[nodiscard]] std::vector<double> of_flow(Network::PartIndex part) { return of_flow({{part, 1.0}}); }

  /// Adjoint: derivatives of a place's total pressure by every input [Pa per unit of the input].
  /// @throws InputError for a place whose pressure is not unique
  [[nodiscard]] std::vector<double> of_pressure(Network::PlaceIndex place) {
    if (place >= determined_.size() || !determined_[place]) {
      throw InputError(place < determined_.size() ? fmt::format("place '{}'", network_->place(place).id) : "place",
                       "shut parts cut it off: its pressure is not unique and has no derivatives",
                       "a place that liquid reaches");
    }
    std::fill(right_.begin(), right_.end(), 0.0);
    if (number_[place] != held) right_[number_[place]] = 1.0;
    solve_adjoint();
    return gather(place);
  }

  /// How everything moves with one input.
  struct Change {
    std::vector<double> flow;      ///< by part [m3/s per unit of the input]
    std::vector<double> pressure;  ///< by place, total [Pa per unit of the input]; 0 where it is not unique
  };
  /// Forward: derivatives of every flow and pressure by one input. @param input  index into inputs()
  [[nodiscard]] Change by(std::size_t input) {
    const NetworkInput& in = inputs_.at(input);
    using InputKind = NetworkInput::Kind;
    const std::size_t m = network_->part_count(), n = network_->place_count();
    std::vector<double> drop(m, 0.0), potential(n, 0.0);
    std::fill(right_.begin(), right_.end(), 0.0);
    if (in.kind == InputKind::part) drop[in.index] = slopes_[in.index].inputs[in.field];
    if (in.kind == InputKind::given_flow) right_[number_[in.index]] = given_sign(in.index);
    for (std::size_t e = 0; e < m; ++e) {
      if (in.kind == InputKind::density) drop[e] = slopes_[e].density;
      if (in.kind == InputKind::viscosity) drop[e] = slopes_[e].viscosity;
    }
    for (std::size_t i = 0; i < n; ++i) {
      if (number_[i] != held) continue;
      if (in.kind == InputKind::supply_pressure && i == in.index) potential[i] = 1.0;
      if (in.kind == InputKind::elevation && i == in.index) potential[i] = weight_;
      if (in.kind == InputKind::density) potential[i] = standard_gravity * network_->place(i).elevation;
    }
    for (std::size_t e = 0; e < m; ++e) {
      push(e, conductance_[e] * (drop[e] - potential[network_->from(e)] + potential[network_->to(e)]));
    }
    mesh_->solve(right_);
    Change change{std::vector<double>(m), std::vector<double>(n)};
    for (std::size_t i = 0; i < n; ++i) {
      if (number_[i] != held) potential[i] = right_[number_[i]];
      double lift = in.kind == InputKind::density ? standard_gravity * network_->place(i).elevation : 0.0;
      if (in.kind == InputKind::elevation && i == in.index) lift = weight_;
      change.pressure[i] = determined_[i] ? potential[i] - lift : 0.0;
    }
    for (std::size_t e = 0; e < m; ++e) {
      change.flow[e] = conductance_[e] * (potential[network_->from(e)] - potential[network_->to(e)] - drop[e]);
    }
    return change;
  }

 private:
  static constexpr auto held = static_cast<std::size_t>(-1);
  /// Of the largest drop: nearer than this to its threshold a one-way part counts as exactly there, and a drop further
  /// than a thousand times this from its part's law has a correction in it.
  static constexpr double exactly = 1e-9;

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
    const double excess = result.drop - slopes_[e].drop;  // shut: the law at no flow is its threshold
    const double tolerance = exactly * std::max(scale, std::abs(slopes_[e].drop));
    if (passes != Passes::both && result.flow == 0.0) {
      const bool known = solution.places[placed.from].determined && solution.places[placed.to].determined;
      if (!known || std::abs(excess) > tolerance) return;  // shut
      at_crack_.push_back(e);
      if (side == AtCrack::shut) return;
    } else if (std::abs(excess) > 1000.0 * tolerance) {
      throw InputError(
          "derivatives",
          fmt::format("the drop of '{}' is not that of its law alone: the solution has corrections", placed.id),
          "plumbing without junction losses and without a throttling regulator");
    }
    if (!(slopes_[e].flow > 0.0)) {
      throw InputError("derivatives", fmt::format("'{}' has no slope at its flow", placed.id), "a lawful part");
    }
    conductance_[e] = 1.0 / slopes_[e].flow;
  }

  [[nodiscard]] double given_sign(std::size_t place) const {
    return network_->place(place).kind == PlaceKind::drawn ? -1.0 : 1.0;
  }

  /// Adds a flow that enters at a part's first place and leaves at its second.
  void push(std::size_t e, double flow) {
    const std::size_t a = number_[network_->from(e)], b = number_[network_->to(e)];
    if (a != held) right_[a] += flow;
    if (b != held) right_[b] -= flow;
  }

  /// From right_: by_inflow_ (by unknown place) and by_drop_ (by part): derivatives by a flow pushed in and by a
  /// constant drop added.
  void solve_adjoint() {
    mesh_->solve(right_);
    by_drop_.resize(conductance_.size());
    for (std::size_t e = 0; e < conductance_.size(); ++e) {
      const std::size_t a = number_[network_->from(e)], b = number_[network_->to(e)];
      const double across = (a == held ? 0.0 : right_[a]) - (b == held ? 0.0 : right_[b]);
      by_drop_[e] = conductance_[e] * across;
    }
  }

  /// Chain rule over all inputs. @param pressure_of  a place whose pressure is asked for; none: the place count
  [[nodiscard]] std::vector<double> gather(std::size_t pressure_of) {
    const std::size_t n = network_->place_count();
    by_held_.assign(n, 0.0);
    double density = 0.0, viscosity = 0.0;
    for (std::size_t e = 0; e < by_drop_.size(); ++e) {
      by_held_[network_->from(e)] -= by_drop_[e];
      by_held_[network_->to(e)] += by_drop_[e];
      density += by_drop_[e] * slopes_[e].density;
      viscosity += by_drop_[e] * slopes_[e].viscosity;
    }
    if (pressure_of < n && number_[pressure_of] == held) by_held_[pressure_of] += 1.0;
    for (std::size_t i = 0; i < n; ++i) {
      if (number_[i] == held) density += by_held_[i] * standard_gravity * network_->place(i).elevation;
    }
    if (pressure_of < n) density -= standard_gravity * network_->place(pressure_of).elevation;
    std::vector<double> gradient(inputs_.size());
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      const NetworkInput& in = inputs_[k];
      switch (in.kind) {
        case NetworkInput::Kind::part:
          gradient[k] = by_drop_[in.index] * slopes_[in.index].inputs[in.field];
          break;
        case NetworkInput::Kind::density:
          gradient[k] = density;
          break;
        case NetworkInput::Kind::viscosity:
          gradient[k] = viscosity;
          break;
        case NetworkInput::Kind::supply_pressure:
          gradient[k] = by_held_[in.index];
          break;
        case NetworkInput::Kind::given_flow:
          gradient[k] = given_sign(in.index) * right_[number_[in.index]];
          break;
        case NetworkInput::Kind::elevation:
          gradient[k] = number_[in.index] == held ? weight_ * by_held_[in.index] : 0.0;
          if (in.index == pressure_of) gradient[k] -= weight_;
          break;
      }
    }
    return gradient;
  }

  const Network* network_;
  double weight_ = 0;
  std::vector<NetworkInput> inputs_;
  std::vector<std::size_t> number_;  // place -> number among those whose potential is unknown, or `held`
  std::vector<DropSlopes> slopes_;   // by part
  std::vector<double> conductance_;  // by part; 0: shut
  std::vector<bool> determined_;
  std::vector<Network::PartIndex> at_crack_, unlisted_;
  std::unique_ptr<StarMesh<double>> mesh_;
  std::vector<double> joint_, ground_, right_, by_drop_, by_held_;
};

}  // namespace libflow
