// SPDX-License-Identifier: MIT
/// @file
/// Newton's method for a pack of scenarios on one core network.
///
/// Each round is one Newton step of every lane: flows and potentials move together, by what the laws miss at the
/// present ones (so that near the answer only small numbers are added and nothing cancels). One-way edges open and shut
/// between the steps, by their flow and their potentials; a shut one has a conductance of exactly nothing in its lane.
/// A lane that has converged (to 1e-13 of the largest drop, rounding apart) stays as it is while its neighbours go on:
/// its numbers do not depend on them. There is no line search and no exact descent here: a lane that does not settle is
/// for the solver of single networks (newton.hpp), which has both.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <libflow/solve/newton.hpp>
#include <libflow/solve/packed_core.hpp>
#include <libflow/solve/rounding.hpp>

namespace libflow {

/// Solves one pack after another on one core. Holds its work space: one for each thread.
/// @tparam S  Pack
template <class S>
class PackedNewton {
 public:
  /// True for the lanes that are meant.
  using Mask = typename S::Mask;

  /// Rounds after which a lane is left to the solver of single networks: the slowest lanes of millions of random bars
  /// need about twenty.
  static constexpr int most_rounds = 40;

  /// @param core  must outlive this object
  /// @param first  laws by part: what each lane starts from
  PackedNewton(const PackedCore& core, const std::vector<Law>& first)
      : laws(first, core.seats(), core.edges().size()),
        potential(core.places()),
        inflow(core.unknowns()),
        flow(core.edges().size()),
        core_(&core),
        mesh_(core.mesh()),
        drop_(core.edges().size()),
        slope_(core.edges().size()),
        conductance_(core.edges().size()),
        miss_(core.edges().size()),
        open_(core.edges().size(), Mask(true)) {}

  PackedLaws<S> laws;        ///< to be changed between solves
  std::vector<S> potential;  ///< by core place, from the datum's [Pa]; held places: in, unknown ones: out (rounded)
  std::vector<S> inflow;     ///< pushed in (drawn out: negative), by unknown place [m3/s]
  std::vector<S> flow;       ///< out: by edge [m3/s]
  /// The certificate, from the flows and potentials as they are and the laws: as in Solution [-].
  S mass_residual, energy_residual;  ///< as in Solution [-]
  int rounds = 0;                    ///< of the last solve

  /// @return the lanes that are solved, their certificate within the tolerances
  Mask solve(const SolveOptions& options = {}) {
    const bool warm = has_start_;
    begin(warm);
    // Convergence is quadratic: the last digits cost next to nothing.
    const S wanted(std::min(options.energy_tolerance, 1e-13));
    Mask done(false), changed(false);
    energy_residual = S(HUGE_VAL);
    const int limit = std::min(options.max_iterations, most_rounds);
    for (rounds = 0;; ++rounds) {
      if (rounds > 0 || warm) evaluate();
      const Misfit misfit = assemble();
      if (rounds > 0) {
        const Mask now = !done && !changed && misfit.worst <= wanted * misfit.scale;
        energy_residual = now.select(S(misfit.worst / misfit.scale), energy_residual);
        done = done || now;
        if (done.all() || rounds == limit) break;
      }
      mesh_.solve();
      changed = step(!done);
    }
    shut_what_rounding_opened();
    find_mass_residual();
    return done && mass_residual <= S(options.mass_tolerance) && energy_residual <= S(options.energy_tolerance);
  }

  /// From now on every solve starts from one lane of this solution.
  void start_from(int lane) {
    start_flow_.clear();
    start_potential_.clear();
    start_open_.clear();
    for (const S& q : flow) start_flow_.push_back(S(q[lane]));
    for (std::size_t k = 0; k < core_->unknowns(); ++k) start_potential_.push_back(S(potential[k][lane]));
    for (const Mask& m : open_) start_open_.push_back(Mask(m[lane]));
    has_start_ = true;
  }
  /// From now on every solve starts from nothing.
  void start_cold() { has_start_ = false; }

 private:
  struct Misfit {
    S worst, scale;
  };

  [[nodiscard]] static S rounding(const S& a, const S& b, const S& c) { return S(2e-15) * (abs(a) + abs(b) + abs(c)); }

  void begin(bool warm) {
    if (warm) {
      std::copy(start_flow_.begin(), start_flow_.end(), flow.begin());
      std::copy(start_potential_.begin(), start_potential_.end(), potential.begin());
      std::copy(start_open_.begin(), start_open_.end(), open_.begin());
      return;
    }
    std::fill(flow.begin(), flow.end(), S(0.0));
    std::fill(potential.begin(), potential.begin() + static_cast<std::ptrdiff_t>(core_->unknowns()), S(0.0));
    std::fill(open_.begin(), open_.end(), Mask(true));
    // Each edge as a straight line from its threshold through its law at one flow of about the right size.
    const S q = typical_flow();
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const S t = laws.threshold(e);
      const S secant = (laws(e, q).dp - t) / q;
      const Mask good = q > S(0.0) && secant > S(0.0) && secant < S(1e300);
      drop_[e] = t;
      slope_[e] = good.all() ? secant : good.select(secant, laws(e, S(0.0)).slope);
    }
  }

  /// As in Newton::typical_flow.
  [[nodiscard]] S typical_flow() const {
    S pushed(0.0), high(-HUGE_VAL), low(HUGE_VAL);
    for (const S& q : inflow) pushed += abs(q);
    std::vector<std::size_t> outlets;
    const auto unknowns = static_cast<int>(core_->unknowns());
    for (std::size_t e = 0; e < core_->edges().size(); ++e) {
      const auto& edge = core_->edges()[e];
      if (edge.a >= unknowns || edge.b >= unknowns) outlets.push_back(e);
    }
    for (std::size_t k = core_->unknowns(); k < potential.size(); ++k) {
      high = max(potential[k], high);
      low = -max(-potential[k], -low);
    }
    const std::size_t n = std::max<std::size_t>(1, outlets.size());
    const Mask given = pushed > S(0.0);
    if (given.all()) return pushed / S(static_cast<double>(n));
    const S span = S(0.5) * (high - low);
    S least(HUGE_VAL);
    constexpr std::size_t looks = 4;
    for (std::size_t k = 0; k < std::min(looks, outlets.size()); ++k) {
      const std::size_t e = outlets[k * (outlets.size() - 1) / (looks - 1)];
      S q = span / laws(e, S(0.0)).slope;
      for (int i = 0; i < 3; ++i) q *= sqrt(span / (laws(e, q).dp - laws.threshold(e)));
      least = (q > S(0.0) && q < least).select(q, least);
    }
    return given.select(pushed / S(static_cast<double>(n)), (least < S(1e300)).select(least, S(0.0)));
  }

  /// False in lanes where a one-way edge is shut or carries no more than rounding: as in Newton.
  [[nodiscard]] Mask at_work(std::size_t e) const {
    return core_->edges()[e].one_way ? flow[e] > S(1e-15) * most_flow_ : Mask(true);
  }

  void evaluate() {
    most_flow_ = S(least_flow);
    for (const S& q : flow) most_flow_ = max(abs(q), most_flow_);
    S most_drop(least_drop);
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const Drop<S> d = laws(e, flow[e]);
      drop_[e] = d.dp;
      slope_[e] = d.slope;
      most_drop = max(at_work(e).select(abs(d.dp), S(0.0)), most_drop);
    }
    const S floor = slope_floor(most_drop, most_flow_);  // as Newton::linearise
    for (S& slope : slope_) slope = max(slope, floor);
  }

  /// Conductances and right sides of the step, and how far the laws are from being kept.
  Misfit assemble() {
    mesh_.clear();
    std::copy(inflow.begin(), inflow.end(), mesh_.inflow.begin());
    Misfit m{S(0.0), S(least_drop)};
    S poison(0.0);  // not a number once any miss is not: comparisons alone would pass over it
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const PackedCore::Edge& edge = core_->edges()[e];
      const S a = potential[static_cast<std::size_t>(edge.a)], b = potential[static_cast<std::size_t>(edge.b)];
      // The last digits of high potentials need not be kept, as Potentials does: flows move by what is missed, and what
      // rounding takes from a potential every edge at it misses alike.
      const S between = a - b;
      const S drop = drop_[e];
      S miss = between - drop;
      poison += S(0.0) * miss;
      S g = S(1.0) / slope_[e];
      S off = abs(miss);
      if (edge.one_way) {
        off = (flow[e] > S(0.0)).select(off, max(miss, S(0.0)));
        const Mask open = open_[e];
        if (!open.all()) {
          g = open.select(g, S(0.0));
          miss = open.select(miss, S(0.0));
        }
      }
      m.worst = max(off - rounding(a, b, drop), m.worst);
      m.scale = max(at_work(e).select(max(abs(drop), abs(between)), S(0.0)), m.scale);
      conductance_[e] = g;
      miss_[e] = miss;
      const S q = flow[e] + g * miss;
      if (edge.slot >= 0) {
        mesh_.joint[static_cast<std::size_t>(edge.slot)] += g;
        mesh_.inflow[static_cast<std::size_t>(edge.a)] -= q;
        mesh_.inflow[static_cast<std::size_t>(edge.b)] += q;
      } else if (edge.ground >= 0) {
        const auto i = static_cast<std::size_t>(edge.ground);
        mesh_.ground[i] += g;
        if (edge.ground == edge.a) {
          mesh_.inflow[i] -= q;
        } else {
          mesh_.inflow[i] += q;
        }
      }
    }
    m.worst += poison;
    return m;
  }

  /// @return the lanes in which a one-way edge opened or shut
  Mask step(const Mask& active) {
    const std::size_t n = core_->unknowns();
    Mask changed(false);
    const S nothing(0.0);
    for (std::size_t i = 0; i < n; ++i) mesh_.potential[i] = active.select(mesh_.potential[i], nothing);
    const auto moved = [&](int i) {
      return static_cast<std::size_t>(i) < n ? mesh_.potential[static_cast<std::size_t>(i)] : nothing;
    };
    for (std::size_t i = 0; i < n; ++i) potential[i] += mesh_.potential[i];
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const PackedCore::Edge& edge = core_->edges()[e];
      const S dq = conductance_[e] * (miss_[e] + (moved(edge.a) - moved(edge.b)));
      S q = active.select(flow[e] + dq, flow[e]);
      if (edge.one_way) {
        Mask& open = open_[e];
        const Mask shuts = active && open && q < nothing;
        const S a = potential[static_cast<std::size_t>(edge.a)], b = potential[static_cast<std::size_t>(edge.b)];
        Mask opens(false);
        if (!open.all()) {
          const S t = laws.threshold(e);
          opens = active && !open && (a - b) - t > rounding(a, b, t);
        }
        const Mask turned = shuts || opens;
        if (turned.any()) {
          q = turned.select(nothing, q);
          open = (open || opens) && !shuts;
          changed = changed || turned;
        }
      }
      flow[e] = q;
    }
    return changed;
  }

  /// As in Newton: a one-way edge that carries nothing but rounding and stands at its threshold is shut.
  void shut_what_rounding_opened() {
    S largest(least_flow);
    for (const S& q : flow) largest = max(abs(q), largest);
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const PackedCore::Edge& edge = core_->edges()[e];
      if (!edge.one_way) continue;
      const Mask tiny = flow[e] <= S(1e-15) * largest;
      if (!tiny.any()) continue;
      const S t = laws.threshold(e);
      const S a = potential[static_cast<std::size_t>(edge.a)], b = potential[static_cast<std::size_t>(edge.b)];
      flow[e] = (tiny && drop_[e] - t <= rounding(a, b, t)).select(S(0.0), flow[e]);
    }
  }

  void find_mass_residual() {
    std::vector<S>& left = mesh_.inflow;
    std::copy(inflow.begin(), inflow.end(), left.begin());
    S largest(least_flow);
    for (const S& q : inflow) largest = max(abs(q), largest);
    const auto n = static_cast<int>(core_->unknowns());
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const PackedCore::Edge& edge = core_->edges()[e];
      if (edge.a < n) left[static_cast<std::size_t>(edge.a)] -= flow[e];
      if (edge.b < n) left[static_cast<std::size_t>(edge.b)] += flow[e];
      largest = max(abs(flow[e]), largest);
    }
    S worst(0.0);
    for (const S& x : left) worst = max(abs(x), worst);
    mass_residual = worst / largest;
  }

  const PackedCore* core_;
  PackedMesh<S> mesh_;
  std::vector<S> drop_, slope_, conductance_, miss_;
  std::vector<Mask> open_;
  S most_flow_ = S(least_flow);
  std::vector<S> start_flow_, start_potential_;
  std::vector<Mask> start_open_;
  bool has_start_ = false;
};

}  // namespace libflow
