// SPDX-License-Identifier: MIT
/// @file
/// A network compiled to numbers for one liquid at one temperature, and its solution.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
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

/// How a solve begins.
enum class Start {
  cold,  ///< from nothing
  warm   ///< from the last answer of the same System (cold if there is none)
};

/// A network in a liquid, ready to solve again and again.
///
/// What belongs to the shape (structure checks, reduction, symbolic elimination) is done once, when it is made. Supply
/// pressures and given flows are read from the network at each solve and may change between solves; the liquid and
/// extra drops change by set_numbers. It holds its work space: one System for each thread.
class System {
 public:
  /// @param network  must outlive the System; its places and parts must stay as they are
  /// @param extra    constant drops on top of the parts' laws [Pa], by part; empty: none (see corrected.hpp)
  /// @throws IllPosedError when the network cannot have an answer (check_structure)
  System(const Network& network, LiquidState liquid, const std::vector<double>& extra = {})
      : network_(network),
        liquid_(std::move(liquid)),
        structure_(check_structure(network)),
        laws_(lower(network, liquid_, extra)),
        reduction_(network, laws_) {
    number_places();
    for (const Edge& edge : reduction_.core()) {
      shape_.a.push_back(number_[edge.a]);
      shape_.b.push_back(number_[edge.b]);
    }
    reduction_.sum_laws(laws_, core_laws_);
    for (const Law& law : core_laws_) shape_.one_way.push_back(law.passes == Passes::forward);
    shape_.eliminate();
    newton_ = std::make_unique<Newton>(shape_, core_laws_);
    core_potential_ = Potentials(place_.size());
    inflow_.resize(shape_.unknowns);
    find_threshold_scale();
  }
  System(const System&) = delete;
  System& operator=(const System&) = delete;

  /// Another liquid (or the same at another temperature), other extra drops: the shape stays, only numbers change.
  void set_numbers(LiquidState liquid, const std::vector<double>& extra = {}) {
    liquid_ = std::move(liquid);
    laws_ = lower(network_, liquid_, extra);
    reduction_.sum_laws(laws_, core_laws_);
    find_threshold_scale();
  }

  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  /// Size of what the Newton works on, after series runs and dead ends are taken out.
  [[nodiscard]] std::size_t core_places() const { return shape_.unknowns; }
  [[nodiscard]] std::size_t core_edges() const { return core_laws_.size(); }
  /// Conductances in the eliminated core, fill-in included.
  [[nodiscard]] std::size_t core_entries() const { return shape_.mesh->entries(); }

  /// Solves for the supplies and given flows that the network has now.
  /// @throws InputError for options out of range, IllPosedError when a given flow has no way out or in
  [[nodiscard]] Solution solve(const SolveOptions& options = {}, Start start = Start::cold) {
    const bool converged = solve_core(options, start);

    std::vector<double> flow, potential(network_.place_count(), 0.0);
    for (std::size_t k = 0; k < place_.size(); ++k) potential[place_[k]] = core_potential_.value(k);
    reduction_.expand(laws_, newton_->flow, flow, potential);

    Solution solution;
    solution.iterations = newton_->iterations;
    solution.factorisations = newton_->factorisations();
    const Certificate proof =
        certify(network_, laws_, flow, potential, datum(), liquid_.density * standard_gravity, solution.places);
    solution.mass_residual = proof.mass_residual;
    solution.energy_residual = proof.energy_residual;
    const bool good =
        proof.mass_residual <= options.mass_tolerance && proof.energy_residual <= options.energy_tolerance;
    solution.status = converged && good ? Status::converged : Status::iteration_limit;
    solution.message = fmt::format(
        "{} after {} Newton steps: mass balances to {:.1e} of the largest flow, every law holds to {:.1e} of "
        "the largest drop",
        solution.usable() ? "solved" : "not solved", newton_->iterations, proof.mass_residual, proof.energy_residual);
    fill_parts(solution, flow, potential);
    add_cautions(solution);
    return solution;
  }

  /// The numerical part of solve() alone, without the certificate and what a person reads: for measuring, and for who
  /// needs only core_flow(). @return what the Newton believes
  bool solve_core(const SolveOptions& options = {}, Start start = Start::cold) {
    options.check();
    const double weight = liquid_.density * standard_gravity;
    // Potentials are taken from the first held one: where all are nearly equal, their differences keep their digits.
    const bool warm = start == Start::warm && solved_;
    const Place& zero = datum();
    for (std::size_t k = 0; k < place_.size(); ++k) {
      const Place& place = network_.place(place_[k]);
      if (k < shape_.unknowns) {
        inflow_[k] = place.inflow();
        if (!warm) core_potential_.set(k, 0.0);
      } else {
        core_potential_.set(k, (place.pressure - zero.pressure) + weight * (place.elevation - zero.elevation));
      }
    }
    solved_ = newton_->solve(inflow_, core_potential_, threshold_scale_, options, warm);
    return solved_;
  }
  /// Flow of each edge of the core after a solve [m3/s].
  [[nodiscard]] const std::vector<double>& core_flow() const { return newton_->flow; }

 private:
  static std::vector<Law> lower(const Network& network, const LiquidState& liquid, const std::vector<double>& extra) {
    std::vector<Law> laws;
    laws.reserve(network.part_count());
    for (std::size_t i = 0; i < network.part_count(); ++i) {
      laws.push_back(network.part(i).part.law(liquid));
      if (i < extra.size()) laws.back().threshold += extra[i];
    }
    return laws;
  }

  void find_threshold_scale() {
    threshold_scale_ = 0.0;
    for (const Law& law : laws_) threshold_scale_ = std::max(threshold_scale_, std::abs(law.threshold));
  }

  [[nodiscard]] const Place& datum() const { return network_.place(place_[shape_.unknowns]); }

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
        r.reynolds = network_.part(i).part.reynolds_number(flow[i], liquid_);
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
  std::vector<Law> laws_;
  Reduction reduction_;
  std::vector<Law> core_laws_;
  std::vector<std::size_t> number_, place_;  // place -> core number and back; unknown places first
  CoreShape shape_;
  double threshold_scale_ = 0;
  std::unique_ptr<Newton> newton_;
  Potentials core_potential_;
  std::vector<double> inflow_;
  bool solved_ = false;
};

/// Solves a network with a liquid at a temperature.
/// @throws InputError, IllPosedError; a solution that did not converge says so in its status
[[nodiscard]] inline Solution solve(const Network& network, const LiquidState& liquid,
                                    const SolveOptions& options = {}) {
  return System(network, liquid).solve(options);
}

}  // namespace libflow
