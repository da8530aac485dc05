// SPDX-License-Identifier: MIT
/// @file
/// A network compiled to numbers for one liquid at one temperature, and its solution.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/network/network.hpp>
#include <libflow/network/structure.hpp>
#include <libflow/solve/certificate.hpp>
#include <libflow/solve/newton.hpp>
#include <libflow/solve/reduction.hpp>
#include <libflow/solve/solution.hpp>

namespace libflow {

/// A network in a liquid, ready to solve. Supply pressures and given flows are read from the network at each solve, so
/// they may change between solves; parts and elevations may not.
class System {
 public:
  /// @throws IllPosedError when the network cannot have an answer (check_structure)
  System(const Network& network, LiquidState liquid)
      : network_(network),
        liquid_(std::move(liquid)),
        structure_(check_structure(network)),
        reduction_(network, liquid_) {
    laws_.reserve(network.part_count());
    for (std::size_t i = 0; i < network.part_count(); ++i) {
      laws_.push_back(network.part(i).part.law(liquid_));
      threshold_scale_ = std::max(threshold_scale_, std::abs(laws_.back().threshold));
    }
    number_places();
    for (const std::size_t e : reduction_.core()) {
      const Edge& edge = reduction_.edge(e);
      shape_.a.push_back(number_[edge.a]);
      shape_.b.push_back(number_[edge.b]);
      shape_.one_way.push_back(edge.law.passes == Passes::forward);
      core_laws_.push_back(edge.law);
    }
  }
  System(const System&) = delete;
  System& operator=(const System&) = delete;

  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  /// Size of what the Newton works on, after series runs and dead ends are taken out.
  [[nodiscard]] std::size_t core_places() const { return shape_.unknowns; }
  [[nodiscard]] std::size_t core_edges() const { return core_laws_.size(); }

  /// Solves for the supplies and given flows that the network has now.
  /// @throws InputError for options out of range, IllPosedError when a given flow has no way out or in
  [[nodiscard]] Solution solve(const SolveOptions& options = {}) const {
    options.check();
    const double weight = liquid_.density * standard_gravity;
    // Potentials are taken from the first held one: where all are nearly equal, their differences keep their digits.
    const Place& datum = network_.place(place_[shape_.unknowns]);
    Potentials core_potential(place_.size());
    std::vector<double> inflow(shape_.unknowns, 0.0);
    for (std::size_t k = 0; k < place_.size(); ++k) {
      const Place& place = network_.place(place_[k]);
      if (k < shape_.unknowns) {
        inflow[k] = place.inflow();
      } else {
        core_potential.set(k, (place.pressure - datum.pressure) + weight * (place.elevation - datum.elevation));
      }
    }
    Newton newton(shape_, core_laws_, threshold_scale_);
    const bool converged = newton.solve(inflow, core_potential, options, false);

    std::vector<double> flow(reduction_.edge_count(), 0.0), potential(network_.place_count(), 0.0);
    for (std::size_t k = 0; k < newton.flow.size(); ++k) flow[reduction_.core()[k]] = newton.flow[k];
    for (std::size_t k = 0; k < place_.size(); ++k) potential[place_[k]] = core_potential.value(k);
    reduction_.expand(flow, potential);
    flow.resize(network_.part_count());

    Solution solution;
    solution.iterations = newton.iterations;
    solution.factorisations = newton.factorisations();
    const Certificate proof = certify(network_, laws_, flow, potential, datum, weight, solution.places);
    solution.mass_residual = proof.mass_residual;
    solution.energy_residual = proof.energy_residual;
    const bool good =
        proof.mass_residual <= options.mass_tolerance && proof.energy_residual <= options.energy_tolerance;
    solution.status = converged && good ? Status::converged : Status::iteration_limit;
    solution.message = fmt::format(
        "{} after {} Newton steps: mass balances to {:.1e} of the largest flow, every law holds to {:.1e} of the "
        "largest "
        "drop",
        solution.usable() ? "solved" : "not solved", newton.iterations, proof.mass_residual, proof.energy_residual);
    fill_parts(solution, flow, potential);
    add_cautions(solution);
    return solution;
  }

 private:
  void number_places() {
    number_.assign(network_.place_count(), 0);
    for (const bool held : {false, true}) {
      for (std::size_t i = 0; i < network_.place_count(); ++i) {
        if (network_.place(i).held() != held || !reduction_.in_core(i)) continue;
        number_[i] = place_.size();
        place_.push_back(i);
      }
      if (!held) shape_.unknowns = place_.size();
    }
  }

  void fill_parts(Solution& solution, const std::vector<double>& flow, const std::vector<double>& potential) const {
    solution.parts.resize(flow.size());
    for (std::size_t i = 0; i < flow.size(); ++i) {
      PartResult& r = solution.parts[i];
      const std::size_t a = network_.from(i), b = network_.to(i);
      r.flow = flow[i];
      r.drop = potential[a] - potential[b];
      r.inlet_static = solution.places[a].total_pressure;
      r.outlet_static = solution.places[b].total_pressure;
      if (const auto bore = network_.part(i).part.bore()) {
        const double d = si(*bore);
        r.velocity = flow[i] / (std::numbers::pi * d * d / 4.0);
        r.reynolds = physics::reynolds_number<double>(flow[i], d, liquid_.density, liquid_.viscosity);
        const double head = physics::velocity_head<double>(flow[i], d, liquid_.density);
        r.inlet_static -= head;
        r.outlet_static -= head;
        r.regime = flow[i] == 0.0                              ? Regime::still
                   : r.reynolds < physics::laminar_limit_re    ? Regime::laminar
                   : r.reynolds <= physics::turbulent_limit_re ? Regime::transition
                                                               : Regime::turbulent;
      }
      if (laws_[i].passes != Passes::both) r.valve = flow[i] != 0.0 ? ValveState::open : ValveState::closed;
    }
  }

  void add_cautions(Solution& solution) const {
    solution.cautions = liquid_.cautions;
    solution.cautions.insert(solution.cautions.end(), structure_.begin(), structure_.end());
    for (std::size_t i = 0; i < network_.part_count(); ++i) {
      const PlacedPart& placed = network_.part(i);
      const double inlet =
          std::max(solution.places[network_.from(i)].total_pressure, solution.places[network_.to(i)].total_pressure);
      for (Caution& c : placed.part.cautions(solution.parts[i].flow, inlet, liquid_)) {
        c.subject = fmt::format("{} '{}'", placed.part.kind(), placed.id);
        solution.cautions.push_back(std::move(c));
      }
    }
    std::vector<double> delivered(network_.place_count(), 0.0);
    for (std::size_t i = 0; i < network_.part_count(); ++i) {
      delivered[network_.to(i)] += solution.parts[i].flow;
      delivered[network_.from(i)] -= solution.parts[i].flow;
    }
    for (std::size_t i = 0; i < network_.place_count(); ++i) {
      const Place& place = network_.place(i);
      if (place.kind == PlaceKind::air && delivered[i] < 0.0) {
        solution.cautions.push_back({"air-drawn-in", place.id,
                                     "pressure behind this outlet is below the air's: it would draw air, not deliver; "
                                     "flows are as if it drew liquid"});
      }
      const double absolute = solution.places[i].total_pressure + 101325.0;
      if (solution.places[i].determined && absolute < liquid_.vapour_pressure) {
        solution.cautions.push_back({"below-vapour-pressure", place.id,
                                     "absolute pressure is below the vapour pressure of water at this temperature: "
                                     "the liquid column would break here",
                                     absolute, liquid_.vapour_pressure, "standard atmosphere 101.325 kPa"});
      }
    }
  }

  const Network& network_;
  LiquidState liquid_;
  Cautions structure_;
  Reduction reduction_;
  std::vector<Law> laws_, core_laws_;
  std::vector<std::size_t> number_, place_;  // place -> core number and back; unknown places first
  CoreShape shape_;
  double threshold_scale_ = 0;
};

/// Solves a network with a liquid at a temperature.
/// @throws InputError, IllPosedError; a solution that did not converge says so in its status
[[nodiscard]] inline Solution solve(const Network& network, const LiquidState& liquid,
                                    const SolveOptions& options = {}) {
  return System(network, liquid).solve(options);
}

}  // namespace libflow
