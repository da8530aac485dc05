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
        incidence_(std::make_shared<const Incidence>(network)),
        structure_(check_structure(network, *incidence_)),
        laws_(lower(network, liquid_, extra)),
        reduction_(network, laws_, incidence_) {
    number_places();
    shape_.a.reserve(reduction_.core().size());
    shape_.b.reserve(reduction_.core().size());
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
    reduction_.largest_thresholds(laws_, terms_);
  }
  System(const System&) = delete;
  System& operator=(const System&) = delete;

  /// Another liquid (or the same at another temperature), other extra drops: the shape stays, only numbers change.
  void set_numbers(LiquidState liquid, const std::vector<double>& extra = {}) {
    liquid_ = std::move(liquid);
    laws_ = lower(network_, liquid_, extra);
    reduction_.sum_laws(laws_, core_laws_);
    newton_->laws_changed();
    reduction_.largest_thresholds(laws_, terms_);
  }

  /// What it is solved for.
  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  /// Size of what the Newton works on, after series runs and dead ends are taken out.
  [[nodiscard]] std::size_t core_places() const { return shape_.unknowns; }
  /// See core_places().
  [[nodiscard]] std::size_t core_edges() const { return core_laws_.size(); }

  /// Solves for the supplies and given flows that the network has now.
  /// @throws InputError for options out of range, IllPosedError when a given flow has no way out or in
  [[nodiscard]] Solution solve(const SolveOptions& options = {}, Start start = Start::cold) {
    const bool converged = solve_core(options, start);

    potential_.assign(network_.place_count(), 0.0);
    for (std::size_t k = 0; k < place_.size(); ++k) potential_[place_[k]] = core_potential_.value(k);
    reduction_.expand(laws_, newton_->flow, flow_, drop_, potential_);

    Solution solution;
    solution.iterations = newton_->iterations;
    solution.factorisations = newton_->factorisations();
    const Certificate proof = certify(network_, laws_, flow_, drop_, potential_, datum(),
                                      liquid_.density * standard_gravity, solution.places);
    solution.mass_residual = proof.mass_residual;
    solution.energy_residual = proof.energy_residual;
    const bool good =
        proof.mass_residual <= options.mass_tolerance && proof.energy_residual <= options.energy_tolerance;
    solution.status = converged && good ? Status::converged : Status::iteration_limit;
    solution.message = fmt::format(
        "{} after {} Newton steps: mass balances to {:.1e} of the largest flow, every law holds to {:.1e} of "
        "the largest drop",
        solution.usable() ? "solved" : "not solved", newton_->iterations, proof.mass_residual, proof.energy_residual);
    fill_parts(solution);
    add_place_cautions(solution);
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
    solved_ = newton_->solve(inflow_, core_potential_, terms_, options, warm);
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

  /// What is known of each part, and its cautions behind those of the liquid and the network's shape.
  void fill_parts(Solution& solution) const {
    solution.cautions = liquid_.cautions;
    solution.cautions.insert(solution.cautions.end(), structure_.begin(), structure_.end());
    solution.parts.resize(flow_.size());
    for (std::size_t i = 0; i < flow_.size(); ++i) {
      PartResult& r = solution.parts[i];
      const PlacedPart& placed = network_.part(i);
      const PlaceResult &from = solution.places[placed.from], &to = solution.places[placed.to];
      r.flow = flow_[i];
      r.drop = potential_[placed.from] - potential_[placed.to];
      r.inlet_static = from.total_pressure;
      r.outlet_static = to.total_pressure;
      if (const auto bore = placed.part.bore()) {
        const double d = si(*bore);
        r.velocity = r.flow / (std::numbers::pi * d * d / 4.0);
        r.reynolds = placed.part.reynolds_number(r.flow, liquid_);
        const double head = physics::velocity_head<double>(r.flow, d, liquid_.density);
        r.inlet_static -= head;
        r.outlet_static -= head;
        r.regime = r.flow == 0.0                               ? Regime::still
                   : r.reynolds < physics::laminar_limit_re    ? Regime::laminar
                   : r.reynolds <= physics::turbulent_limit_re ? Regime::transition
                                                               : Regime::turbulent;
      }
      if (laws_[i].passes != Passes::both) r.valve = r.flow != 0.0 ? ValveState::open : ValveState::closed;
      const Working working{.flow = r.flow,
                            .from = from.total_pressure,
                            .to = to.total_pressure,
                            .drop = r.drop,
                            .from_known = from.determined,
                            .to_known = to.determined};
      for (Caution& c : placed.part.cautions(working, liquid_)) {
        c.subject = fmt::format("{} '{}'", placed.part.kind(), placed.id);
        solution.cautions.push_back(std::move(c));
      }
    }
  }

  void add_place_cautions(Solution& solution) const {
    const auto delivered = [&](std::size_t place) {
      double sum = 0.0;
      for (const auto& meeting : incidence_->at(place)) {
        sum += incidence_->to(meeting.part) == place ? flow_[meeting.part] : -flow_[meeting.part];
      }
      return sum;
    };
    for (std::size_t i = 0; i < network_.place_count(); ++i) {
      const Place& place = network_.place(i);
      if (place.kind == PlaceKind::air && delivered(i) < 0.0) {
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
  std::shared_ptr<const Incidence> incidence_;
  Cautions structure_;
  std::vector<Law> laws_;
  Reduction reduction_;
  std::vector<Law> core_laws_;
  std::vector<std::size_t> number_, place_;  // place -> core number and back; unknown places first
  CoreShape shape_;
  std::vector<double> terms_;  // largest threshold of any part, by core edge
  std::unique_ptr<Newton> newton_;
  Potentials core_potential_;
  std::vector<double> inflow_;
  std::vector<double> flow_, drop_, potential_;  // of the last solve, by part, by part and by place
  bool solved_ = false;
};

/// Solves a network with a liquid at a temperature.
/// @throws InputError, IllPosedError; a solution that did not converge says so in its status
[[nodiscard]] inline Solution solve(const Network& network, const LiquidState& liquid,
                                    const SolveOptions& options = {}) {
  return System(network, liquid).solve(options);
}

}  // namespace libflow
