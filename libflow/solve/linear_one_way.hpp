// SPDX-License-Identifier: MIT
/// @file
/// The network that each Newton step solves: every edge linear, some of them one-way.
///
/// Edge e drops c + r q (r > 0) at flow q; a one-way edge passes q = max(0, (drop - c)/r). The potentials are a
/// minimum of a convex, piecewise quadratic function (the co-content), so the states of the one-way edges need no
/// guess: first the states of the last solution are tried and updated by what the potentials then say; if that does
/// not settle at once, exact descent takes over, which ends after finitely many steps.
/// Sources: complementarity of networks with one-way parts: R. T. Rockafellar, Network Flows and Monotropic
/// Optimization, 1984; updating of states: M. Hintermueller, K. Ito, K. Kunisch, SIAM J. Optim. 13 (2002) 865; finite
/// descent on piecewise quadratics: J. Sun, L. Qi and others in the 1990s (all from memory).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <memory>
#include <utility>
#include <vector>

#include <libflow/solve/balance.hpp>
#include <libflow/solve/core_shape.hpp>
#include <libflow/solve/rounding.hpp>
#include <libflow/solve/star_mesh.hpp>

namespace libflow {

/// How a linear solve ended.
enum class LinearOutcome {
  solved,
  no_way,  ///< a given flow has no way through, whatever opens
  stuck    ///< rounding kept it from settling; the flows are the last ones
};

/// Solves one linear network with one-way edges after another of the same shape.
class LinearOneWay {
 public:
  /// @param shape  eliminated; must outlive this object
  explicit LinearOneWay(const CoreShape& shape) : shape_(&shape), mesh_(shape.mesh) {
    joint_.resize(shape.joint_edge.size());
    ground_.resize(shape.unknowns);
    step_.resize(shape.unknowns);
    imbalance_.resize(shape.unknowns);
    open_.assign(shape.a.size(), 1);
    flow.assign(shape.a.size(), 0.0);
    conductance_.resize(shape.a.size());
    for (std::size_t e = 0; e < shape.one_way.size(); ++e) {
      if (shape.one_way[e]) one_way_.push_back(e);
    }
    constexpr std::size_t crowd = 100;  // so many edges at one place, and a plain sum of their flows loses digits
    std::vector<std::size_t> meeting(shape.unknowns, 0);
    for (std::size_t e = 0; e < shape.a.size(); ++e) {
      for (const std::size_t end : {shape.a[e], shape.b[e]}) {
        if (end < shape.unknowns && ++meeting[end] > crowd) crowded_ = true;
      }
    }
  }

  std::vector<double> flow;  ///< answer, by edge

  /// @param c, r       by edge
  /// @param inflow     pushed in (drawn out: negative), by unknown place
  /// @param potential  in: a start for the unknown places and the held values; out: the answer
  LinearOutcome solve(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
                      Potentials& potential) {
    constexpr int quick_rounds = 12;
    for (int round = 0; round < quick_rounds; ++round) {
      factor(r);
      assume_open(c, potential);
      find_imbalance(inflow);
      step_ = imbalance_;
      mesh_.solve(step_);
      move(potential, 1.0);
      if (update_states(c, r, potential)) continue;
      if (!polish(inflow, potential)) break;  // a given flow stands before shut edges: descent opens a way
      if (!revise_states(c, potential)) return LinearOutcome::solved;
    }
    return descend(c, r, inflow, potential);
  }

  /// Since the last call of restart_count().
  [[nodiscard]] int factorisations() const { return factorisations_; }
  /// Counts factorisations from nothing again.
  void restart_count() { factorisations_ = 0; }

 private:
  /// What balances to this share of the largest flow balances.
  static constexpr double balance_tolerance = 1e-13;

  [[nodiscard]] double step_across(std::size_t e) const {
    const double a = shape_->a[e] < shape_->unknowns ? step_[shape_->a[e]] : 0.0;
    const double b = shape_->b[e] < shape_->unknowns ? step_[shape_->b[e]] : 0.0;
    return a - b;
  }
  [[nodiscard]] double excess(std::size_t e, const std::vector<double>& c, const Potentials& potential) const {
    return potential.difference(shape_->a[e], shape_->b[e]) - c[e];
  }
  /// What the last digits of an excess may be wrong by: an edge at its threshold stays shut.
  [[nodiscard]] double rounding(std::size_t e, const std::vector<double>& c, const Potentials& potential) const {
    return pressure_rounding(potential.rough(shape_->a[e]), potential.rough(shape_->b[e]), c[e]);
  }
  void move(Potentials& potential, double share) const {
    for (std::size_t i = 0; i < shape_->unknowns; ++i) potential.add(i, share * step_[i]);
  }

  void find_conductances(const std::vector<double>& r) {
    for (std::size_t e = 0; e < r.size(); ++e) conductance_[e] = open_[e] != 0 ? 1.0 / r[e] : 0.0;
  }

  void factor(const std::vector<double>& r) {
    find_conductances(r);
    std::fill(ground_.begin(), ground_.end(), 0.0);
    for (const std::size_t e : shape_->held_edge) {
      const std::size_t a = shape_->a[e], b = shape_->b[e];
      if (a < shape_->unknowns) ground_[a] += conductance_[e];
      if (b < shape_->unknowns) ground_[b] += conductance_[e];
    }
    for (std::size_t k = 0; k < joint_.size(); ++k) joint_[k] = conductance_[shape_->joint_edge[k]];
    mesh_.factor(joint_, ground_);
    ++factorisations_;
  }

  /// Flows by the assumed states, negative ones included.
  void assume_open(const std::vector<double>& c, const Potentials& potential) {
    for (std::size_t e = 0; e < flow.size(); ++e) flow[e] = excess(e, c, potential) * conductance_[e];
  }

  /// States and flows as the potentials say. A shut edge opens when its drop is above its threshold beyond rounding,
  /// an open one shuts when its flow would turn back. @return true if a state changed
  bool update_states(const std::vector<double>& c, const std::vector<double>& r, const Potentials& potential) {
    bool changed = false;
    for (const std::size_t e : one_way_) {
      const double x = excess(e, c, potential);
      const char open = (open_[e] != 0 ? x >= 0.0 : x > rounding(e, c, potential)) ? 1 : 0;
      if (open == open_[e]) continue;
      changed = true;
      open_[e] = open;
      conductance_[e] = open != 0 ? 1.0 / r[e] : 0.0;
    }
    assume_open(c, potential);
    return changed;
  }

  /// The same by the polished flows. Flows turned back are put to nothing. @return true if a state changed
  bool revise_states(const std::vector<double>& c, const Potentials& potential) {
    bool changed = false;
    for (const std::size_t e : one_way_) {
      const char open = (open_[e] != 0 ? flow[e] >= 0.0 : excess(e, c, potential) > rounding(e, c, potential)) ? 1 : 0;
      if (open == 0) flow[e] = 0.0;
      changed = changed || open != open_[e];
      open_[e] = open;
    }
    return changed;
  }

  void find_imbalance(const std::vector<double>& inflow) {
    if (crowded_) return exact_imbalance(shape_->a, shape_->b, inflow, flow, imbalance_);
    imbalance_ = inflow;
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (shape_->a[e] < shape_->unknowns) imbalance_[shape_->a[e]] -= flow[e];
      if (shape_->b[e] < shape_->unknowns) imbalance_[shape_->b[e]] += flow[e];
    }
  }

  /// Largest imbalance of a place over the largest flow.
  [[nodiscard]] double relative_imbalance(const std::vector<double>& inflow) const {
    double most = least_flow, worst = 0.0;
    for (const double q : flow) most = std::max(most, std::abs(q));
    for (const double q : inflow) most = std::max(most, std::abs(q));
    for (const double g : imbalance_) worst = std::max(worst, std::abs(g));
    return worst / most;
  }

  /// Removes what rounding left of the imbalance: with the states and the factors as they are, the flows are corrected
  /// by the small flows of a small problem, so they lose nothing to the subtraction of nearly equal potentials.
  /// @return true if every place balances
  bool polish(const std::vector<double>& inflow, Potentials& potential) {
    constexpr int rounds = 4;
    find_imbalance(inflow);
    double off = relative_imbalance(inflow);
    for (int round = 0; round < rounds && off > 0.01 * balance_tolerance; ++round) {
      step_ = imbalance_;
      mesh_.solve(step_);
      for (std::size_t e = 0; e < flow.size(); ++e) flow[e] += step_across(e) * conductance_[e];
      move(potential, 1.0);
      find_imbalance(inflow);
      off = relative_imbalance(inflow);
    }
    return off <= balance_tolerance || balance_exactly(inflow);
  }

  /// What sums can still mend. One-way edges that carry next to nothing stay as they are: they could be turned back.
  bool balance_exactly(const std::vector<double>& inflow) {
    constexpr double next_to_nothing = 1e-9;
    double most = 0.0;
    for (const double q : flow) most = std::max(most, std::abs(q));
    std::vector<double> usable = conductance_;
    for (const std::size_t e : one_way_) {
      if (flow[e] <= next_to_nothing * most) usable[e] = 0.0;
    }
    balance_along_tree(shape_->a, shape_->b, usable, inflow, flow, imbalance_);
    return relative_imbalance(inflow) <= balance_tolerance;
  }

  /// Exact descent on the co-content from the given potentials.
  LinearOutcome descend(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
                        Potentials& potential) {
    const std::size_t limit = 100 + 4 * flow.size();
    find_conductances(r);
    update_states(c, r, potential);
    int nearly = 0;
    for (std::size_t round = 0; round < limit; ++round) {
      factor(r);
      find_imbalance(inflow);
      const bool lifted = lift_floating(inflow);
      if (!lifted) {
        step_ = imbalance_;
        mesh_.solve(step_);
      }
      const double t = line_minimum(c, r, inflow, potential);
      if (!std::isfinite(t)) return LinearOutcome::no_way;
      move(potential, t);
      const bool changed = update_states(c, r, potential);
      if (lifted) continue;
      find_imbalance(inflow);
      // Where an edge sits at its threshold, rounding may flip its state for ever; both states are right then.
      if (relative_imbalance(inflow) <= 1e-9) ++nearly;
      if (changed && nearly < 3) continue;
      if (changed) factor(r);
      if (polish(inflow, potential)) {
        if (!revise_states(c, potential)) return LinearOutcome::solved;
        if (nearly >= 3) {
          exact_imbalance(shape_->a, shape_->b, inflow, flow, imbalance_);
          if (relative_imbalance(inflow) <= balance_tolerance) return LinearOutcome::solved;
        }
      }
    }
    return LinearOutcome::stuck;
  }

  /// Groups of places that open edges join to each other but to no held place. If a given flow is left over in one,
  /// the step lifts (or lowers) the whole group until an edge opens. @return true if there is such a group
  bool lift_floating(const std::vector<double>& inflow) {
    const std::size_t n = shape_->unknowns;
    group_.resize(n + 1);  // group n: everything held
    for (std::size_t i = 0; i <= n; ++i) group_[i] = i;
    const auto find = [&](std::size_t i) {
      while (group_[i] != i) i = group_[i] = group_[group_[i]];
      return i;
    };
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (open_[e] != 0) group_[find(std::min(shape_->a[e], n))] = find(std::min(shape_->b[e], n));
    }
    const std::size_t held = find(n);
    left_.assign(n + 1, 0.0);
    double most = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      left_[find(i)] += inflow[i];
      most = std::max(most, std::abs(inflow[i]));
    }
    bool any = false;
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t g = find(i);
      const bool lift = g != held && std::abs(left_[g]) > balance_tolerance * most;
      step_[i] = lift ? std::copysign(1.0, left_[g]) : 0.0;
      any = any || lift;
    }
    return any;
  }

  /// Slope of the co-content against the share of the step, and its bend (second derivative) just beyond.
  struct AlongStep {
    double slope, bend;
  };
  AlongStep along_step(double share, const std::vector<double>& c, const std::vector<double>& r,
                       const std::vector<double>& inflow, const Potentials& potential) const {
    AlongStep at{0.0, 0.0};
    for (std::size_t i = 0; i < shape_->unknowns; ++i) at.slope -= inflow[i] * step_[i];
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const double d = step_across(e);
      if (d == 0.0) continue;
      const double x = excess(e, c, potential) + share * d;
      if (shape_->one_way[e] && (x < 0.0 || (x == 0.0 && d < 0.0))) continue;
      at.slope += x / r[e] * d;
      at.bend += d * d / r[e];
    }
    return at;
  }

  /// Where the co-content is least along the step: its slope is piecewise linear and rising, with a bend wherever a
  /// one-way edge opens or shuts. The piece is found by halving the list of bends; sums are made afresh at each look.
  double line_minimum(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
                      const Potentials& potential) {
    if (along_step(0.0, c, r, inflow, potential).slope >= 0.0) return 0.0;
    bends_.assign(1, 0.0);
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const double d = step_across(e);
      if (!shape_->one_way[e] || d == 0.0) continue;
      const double t = -excess(e, c, potential) / d;
      if (t > 0.0) bends_.push_back(t);
    }
    std::sort(bends_.begin(), bends_.end());
    std::size_t low = 0, high = bends_.size();  // the slope falls at low; at high it does not, or there is no such bend
    while (high - low > 1) {
      const std::size_t middle = low + (high - low) / 2;
      (along_step(bends_[middle], c, r, inflow, potential).slope < 0.0 ? low : high) = middle;
    }
    const AlongStep at = along_step(bends_[low], c, r, inflow, potential);
    if (!(at.bend > 0.0)) {
      return high < bends_.size() ? bends_[high] : std::numeric_limits<double>::infinity();
    }
    const double t = bends_[low] - at.slope / at.bend;
    return high < bends_.size() ? std::min(t, bends_[high]) : t;
  }

  const CoreShape* shape_;
  StarMesh<double> mesh_;
  std::vector<double> joint_, ground_, step_, imbalance_, left_;
  std::vector<double> conductance_;   // by edge; 0 where shut
  std::vector<char> open_;            // by edge
  std::vector<std::size_t> one_way_;  // the edges that are
  std::vector<std::size_t> group_;
  std::vector<double> bends_;
  int factorisations_ = 0;
  bool crowded_ = false;  // many edges meet somewhere
};

}  // namespace libflow
