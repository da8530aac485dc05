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
///
/// Drops that come by corrections are unknowns of their own: a tee's c = F(q) (solve/tees.hpp), a throttling
/// regulator's whatever keeps its pressure. With x = x0 + A dc for what they move, their conditions are a small dense
/// system for dc, its columns from the same factorisation; its transpose gives the adjoint what the conditions add to
/// it. A wide open regulator and a shut one are one-way parts as any other. Source: the implicit function theorem;
/// adjoint sensitivities of flow networks, e.g. L. O. Chua, P. M. Lin, Computer-Aided Analysis of Electronic Circuits,
/// 1975 (from memory).
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>

#include <libflow/solve/derivative_system.hpp>

namespace libflow {

/// Derivatives of a solved network. Holds its work space: one object for each thread.
class Derivatives : private derivatives_detail::Linearised {
 public:
  /// @param network   must outlive this; later only its numbers may change (at())
  /// @param solution  of the network in the liquid: by its parts' laws, by the tees given here and by its regulators;
  ///                  usable, and settled to many digits where exactness matters (CorrectedOptions::tolerance)
  /// @param tees      whose corrections the solution has (tee_corrections); their own sizes are inputs too
  /// @throws InputError when the solution is not usable, of another network, or has other corrections
  Derivatives(const Network& network, const LiquidState& liquid, const Solution& solution, AtCrack side = AtCrack::shut,
              std::vector<TeeAt> tees = {})
      : Linearised(network, std::move(tees)), by_held_(network.place_count()), by_drop_(network.part_count()) {
    linearise(liquid, solution, side);
  }

  /// The same network at another solution. @throws InputError as the constructor
  void at(const LiquidState& liquid, const Solution& solution, AtCrack side = AtCrack::shut) {
    linearise(liquid, solution, side);
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
    std::vector<double> gradient(inputs_.size());
    of_flow(flow, gradient);
    return gradient;
  }
  /// The same of one part's flow.
  [[nodiscard]] std::vector<double> of_flow(Network::PartIndex part) { return of_flow(FlowSum{{part, 1.0}}); }
  /// The same into numbers that are there. @param gradient  as many as inputs()
  void of_flow(const FlowSum& flow, std::span<double> gradient) {
    pressures_.clear();
    gather(flow, gradient);
  }

  /// Adjoint: derivatives of a place's total pressure by every input [Pa per unit of the input].
  /// @throws InputError for a place whose pressure is not unique
  [[nodiscard]] std::vector<double> of_pressure(Network::PlaceIndex place) {
    if (place >= determined_.size() || !determined_[place]) {
      throw InputError(place < determined_.size() ? fmt::format("place '{}'", network_->place(place).id) : "place",
                       "shut parts cut it off: its pressure is not unique and has no derivatives",
                       "a place that liquid reaches");
    }
    pressures_.assign(1, {place, 1.0});
    std::vector<double> gradient(inputs_.size());
    gather({}, gradient);
    return gradient;
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
    const std::size_t m = from_.size(), n = number_.size();
    drop_.assign(m, 0.0);
    if (in.kind == InputKind::part) drop_[in.index] = slopes_[in.index].inputs[in.field];
    for (std::size_t e = 0; e < m; ++e) {
      if (in.kind == InputKind::density) drop_[e] = slopes_[e].density;
      if (in.kind == InputKind::viscosity) drop_[e] = slopes_[e].viscosity;
    }
    Change change{std::vector<double>(m), std::vector<double>(n)};
    move(in, change);
    if (extras_.empty()) return change;
    Eigen::VectorXd off(static_cast<Eigen::Index>(extras_.size()));
    for (std::size_t i = 0; i < extras_.size(); ++i) {
      const auto& extra = extras_[i];
      double& x = off[static_cast<Eigen::Index>(i)];
      if (extra.holds) {
        x = (extra.set_input == input ? 1.0 : 0.0) - change.pressure[*extra.holds];
        continue;
      }
      x = in.kind == InputKind::density ? extra.density : 0.0;
      if (in.kind == InputKind::tee && extra.tee == in.index) x = extra.sizes[in.field];
      for (const auto& [e, slope] : extra.flows) x += slope * change.flow[e];
    }
    const Eigen::VectorXd extra_drops = conditions_.solve(off);
    for (std::size_t i = 0; i < extras_.size(); ++i)
      drop_[extras_[i].part] += extra_drops[static_cast<Eigen::Index>(i)];
    move(in, change);
    return change;
  }

 private:
  /// How flows and pressures move with the parts' drop_ and with what the input itself moves.
  void move(const NetworkInput& in, Change& change) {
    using InputKind = NetworkInput::Kind;
    const std::size_t m = from_.size(), n = number_.size();
    held_.assign(n, 0.0);
    for (std::size_t i = unknowns_; i < n; ++i) {
      const bool own = place_[i] == in.index;
      if (in.kind == InputKind::supply_pressure && own) held_[i] = 1.0;
      if ((in.kind == InputKind::elevation || in.kind == InputKind::tank_level) && own) held_[i] = weight_;
      if (in.kind == InputKind::density) held_[i] = held_by_density(place_[i]);
    }
    std::fill(right_.begin(), right_.end(), 0.0);
    if (in.kind == InputKind::given_flow) right_[number_[in.index]] = given_sign(in.index);
    for (std::size_t e = 0; e < m; ++e) push(e, conductance_[e] * (drop_[e] - held_[from_[e]] + held_[to_[e]]));
    solve_held_still();
    for (std::size_t i = unknowns_; i < n; ++i) right_[i] = held_[i];
    for (std::size_t i = 0; i < n; ++i) {
      double lift = in.kind == InputKind::density ? standard_gravity * network_->place(i).elevation : 0.0;
      if (in.kind == InputKind::elevation && i == in.index) lift = weight_;
      change.pressure[i] = determined_[i] ? right_[number_[i]] - lift : 0.0;
    }
    for (std::size_t e = 0; e < m; ++e) {
      change.flow[e] = conductance_[e] * (right_[from_[e]] - right_[to_[e]] - drop_[e]);
    }
  }

  /// right_ and by_drop_ (by part): derivatives of the flows and of pressures_ by a flow pushed in and by a constant
  /// drop added.
  void solve_adjoint(const FlowSum& flows) {
    std::fill(right_.begin(), right_.end(), 0.0);
    for (const auto& [e, factor] : flows) push(e, factor * conductance_[e]);
    for (const auto& [place, factor] : pressures_) right_[number_[place]] += factor;
    solve_held_still();
    for (std::size_t e = 0; e < by_drop_.size(); ++e)
      by_drop_[e] = conductance_[e] * (right_[from_[e]] - right_[to_[e]]);
    for (const auto& [e, factor] : flows) by_drop_[e] -= factor * conductance_[e];
  }

  /// What density and viscosity do through the parts' laws. A function of its own, so that both sums stay in registers.
  [[nodiscard]] std::pair<double, double> through_laws() const {
    double density = 0.0, viscosity = 0.0;
    for (std::size_t e = 0; e < by_drop_.size(); ++e) {
      density += by_drop_[e] * slopes_[e].density;
      viscosity += by_drop_[e] * slopes_[e].viscosity;
    }
    return {density, viscosity};
  }

  /// Chain rule over all inputs, for flows and for pressures_.
  void gather(const FlowSum& flows, std::span<double> gradient) {
    if (gradient.size() != inputs_.size()) {
      throw InputError("derivatives, gradient", fmt::format("it holds {} numbers", gradient.size()),
                       fmt::format("{}, one for each input", inputs_.size()));
    }
    solve_adjoint(flows);
    double density = 0.0, viscosity = 0.0;
    Eigen::VectorXd weight;  // of each condition
    if (!extras_.empty()) {
      weight.resize(static_cast<Eigen::Index>(extras_.size()));
      Eigen::Index k = 0;
      for (const auto& extra : extras_) weight[k++] = by_drop_[extra.part];
      weight = conditions_.transpose().solve(weight).eval();
      FlowSum all = flows;
      k = 0;
      for (const auto& extra : extras_) {
        const double w = weight[k++];
        density += w * extra.density;
        for (const auto& [e, slope] : extra.flows) all.emplace_back(e, w * slope);
        if (extra.holds) pressures_.emplace_back(*extra.holds, -w);
      }
      solve_adjoint(all);
    }
    std::fill(by_held_.begin(), by_held_.end(), 0.0);
    for (std::size_t e = 0; e < by_drop_.size(); ++e) {
      by_held_[from_[e]] -= by_drop_[e];
      by_held_[to_[e]] += by_drop_[e];
    }
    const auto [by_density, by_viscosity] = through_laws();
    density += by_density;
    viscosity += by_viscosity;
    std::fill(by_held_.begin(), by_held_.begin() + static_cast<std::ptrdiff_t>(unknowns_), 0.0);
    for (const auto& [place, factor] : pressures_) {
      if (number_[place] >= unknowns_) by_held_[number_[place]] += factor;
      density -= factor * standard_gravity * network_->place(place).elevation;
    }
    for (std::size_t i = unknowns_; i < place_.size(); ++i) density += by_held_[i] * held_by_density(place_[i]);
    for (std::size_t k = 0; k < part_inputs_; ++k) gradient[k] = by_drop_[inputs_[k].index] * input_slope_[k];
    for (std::size_t k = part_inputs_; k < inputs_.size(); ++k) {
      const NetworkInput& in = inputs_[k];
      switch (in.kind) {
        case NetworkInput::Kind::part:
          break;
        case NetworkInput::Kind::tee: {
          gradient[k] = 0.0;
          Eigen::Index i = 0;
          for (const auto& extra : extras_) {
            if (extra.tee == in.index) gradient[k] += weight[i] * extra.sizes[in.field];
            ++i;
          }
          break;
        }
        case NetworkInput::Kind::density:
          gradient[k] = density;
          break;
        case NetworkInput::Kind::viscosity:
          gradient[k] = viscosity;
          break;
        case NetworkInput::Kind::supply_pressure:
          gradient[k] = by_held_[number_[in.index]];
          break;
        case NetworkInput::Kind::tank_level:
          gradient[k] = weight_ * by_held_[number_[in.index]];
          break;
        case NetworkInput::Kind::given_flow:
          gradient[k] = given_sign(in.index) * right_[number_[in.index]];
          break;
        case NetworkInput::Kind::elevation:
          gradient[k] = weight_ * by_held_[number_[in.index]];
          for (const auto& [place, factor] : pressures_) {
            if (place == in.index) gradient[k] -= factor * weight_;
          }
          break;
      }
    }
    Eigen::Index k = 0;
    for (const auto& extra : extras_) {
      if (extra.set_input) gradient[*extra.set_input] += weight[k];
      ++k;
    }
  }

  std::vector<double> by_held_, held_;                             // by number of a place
  std::vector<double> by_drop_, drop_;                             // by part
  std::vector<std::pair<Network::PlaceIndex, double>> pressures_;  // whose derivatives are asked for
};

}  // namespace libflow
