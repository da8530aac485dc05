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
#include <utility>
#include <vector>

#include <libflow/solve/star_mesh.hpp>

namespace libflow {

/// Shape of the core network: unknown places 0 .. unknowns-1, then the held places.
struct CoreShape {
  std::size_t unknowns = 0;
  std::vector<std::size_t> a, b;  ///< by edge; an index >= unknowns is a held place
  std::vector<bool> one_way;      ///< by edge: passes a to b only
};

/// Solves one linear network with one-way edges after another of the same shape.
class LinearOneWay {
 public:
  explicit LinearOneWay(const CoreShape& shape) : shape_(&shape) {
    Joints joints;
    for (std::size_t e = 0; e < shape.a.size(); ++e) {
      if (shape.a[e] < shape.unknowns && shape.b[e] < shape.unknowns) {
        joints.push_back({static_cast<int>(shape.a[e]), static_cast<int>(shape.b[e])});
        joint_edge_.push_back(e);
      }
    }
    mesh_ = StarMesh<double>(static_cast<int>(shape.unknowns), joints);
    joint_.resize(joints.size());
    ground_.resize(shape.unknowns);
    step_.resize(shape.unknowns);
    imbalance_.resize(shape.unknowns);
    open_.assign(shape.a.size(), true);
    flow.assign(shape.a.size(), 0.0);
  }

  std::vector<double> flow;  ///< answer, by edge

  /// @param c, r       by edge
  /// @param inflow     pushed in, by unknown place
  /// @param potential  in: a start for the unknown places and the held values; out: the answer
  /// @return false only if a flow pushed in has no way out whatever opens
  bool solve(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
             std::vector<double>& potential) {
    constexpr int quick_rounds = 12;
    for (int round = 0; round < quick_rounds; ++round) {
      factor(r);
      assume_open(c, r, potential);
      find_imbalance(inflow);
      step_ = imbalance_;
      mesh_.solve(step_);
      for (std::size_t i = 0; i < shape_->unknowns; ++i) potential[i] += step_[i];
      if (!update_states(c, r, potential)) {
        find_imbalance(inflow);
        if (balanced(inflow)) return polish(r, inflow, potential);
        break;  // pushed-in liquid stands before shut edges: a way has to be opened by descent
      }
    }
    return descend(c, r, inflow, potential);
  }

  [[nodiscard]] int factorisations() const { return factorisations_; }
  [[nodiscard]] std::size_t entries() const { return mesh_.entries(); }

 private:
  [[nodiscard]] double drop(std::size_t e, const std::vector<double>& potential) const {
    return potential[shape_->a[e]] - potential[shape_->b[e]];
  }

  void factor(const std::vector<double>& r) {
    std::fill(ground_.begin(), ground_.end(), 0.0);
    for (std::size_t e = 0; e < r.size(); ++e) {
      if (!open_[e]) continue;
      const std::size_t a = shape_->a[e], b = shape_->b[e];
      if (a < shape_->unknowns && b >= shape_->unknowns) ground_[a] += 1.0 / r[e];
      if (b < shape_->unknowns && a >= shape_->unknowns) ground_[b] += 1.0 / r[e];
    }
    for (std::size_t k = 0; k < joint_edge_.size(); ++k) {
      const std::size_t e = joint_edge_[k];
      joint_[k] = open_[e] ? 1.0 / r[e] : 0.0;
    }
    mesh_.factor(joint_, ground_);
    ++factorisations_;
  }

  /// Flows by the assumed states, negative ones included.
  void assume_open(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& potential) {
    for (std::size_t e = 0; e < flow.size(); ++e) flow[e] = open_[e] ? (drop(e, potential) - c[e]) / r[e] : 0.0;
  }

  /// States and flows as the potentials say. @return true if a state changed
  bool update_states(const std::vector<double>& c, const std::vector<double>& r,
                     const std::vector<double>& potential) {
    bool changed = false;
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const double excess = drop(e, potential) - c[e];
      const bool open = !shape_->one_way[e] || excess > 0.0;
      changed = changed || open != open_[e];
      open_[e] = open;
      flow[e] = open ? excess / r[e] : 0.0;
    }
    return changed;
  }

  void find_imbalance(const std::vector<double>& inflow) {
    imbalance_ = inflow;
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (shape_->a[e] < shape_->unknowns) imbalance_[shape_->a[e]] -= flow[e];
      if (shape_->b[e] < shape_->unknowns) imbalance_[shape_->b[e]] += flow[e];
    }
  }

  [[nodiscard]] double largest_flow(const std::vector<double>& inflow) const {
    double most = 0.0;
    for (const double q : flow) most = std::max(most, std::abs(q));
    for (const double q : inflow) most = std::max(most, std::abs(q));
    return most;
  }

  /// Coarse: what rounding in the potentials leaves behind is far smaller, what a wrong state leaves is larger, and
  /// polish() removes the former.
  [[nodiscard]] bool balanced(const std::vector<double>& inflow) const {
    const double limit = 1e-6 * largest_flow(inflow);
    return std::all_of(imbalance_.begin(), imbalance_.end(), [&](double g) { return std::abs(g) <= limit; });
  }

  /// Removes what rounding left of the imbalance: the flows are corrected by the small flows of a small problem, so
  /// they lose nothing to the subtraction of two nearly equal potentials.
  bool polish(const std::vector<double>& r, const std::vector<double>& inflow,
              std::vector<double>& potential) {
    for (int round = 0; round < 2; ++round) {
      find_imbalance(inflow);
      step_ = imbalance_;
      mesh_.solve(step_);
      for (std::size_t e = 0; e < flow.size(); ++e) {
        if (!open_[e]) continue;
        const double da = shape_->a[e] < shape_->unknowns ? step_[shape_->a[e]] : 0.0;
        const double db = shape_->b[e] < shape_->unknowns ? step_[shape_->b[e]] : 0.0;
        flow[e] += (da - db) / r[e];
        if (shape_->one_way[e] && flow[e] < 0.0) flow[e] = 0.0;
      }
      for (std::size_t i = 0; i < shape_->unknowns; ++i) potential[i] += step_[i];
    }
    return true;
  }

  /// Exact descent on the co-content from the given potentials.
  bool descend(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
               std::vector<double>& potential) {
    const std::size_t limit = 50 + 4 * flow.size();
    update_states(c, r, potential);
    for (std::size_t round = 0; round < limit; ++round) {
      factor(r);
      find_imbalance(inflow);
      if (!lift_floating(inflow)) {
        step_ = imbalance_;
        mesh_.solve(step_);
      }
      const double t = line_minimum(c, r, inflow, potential);
      if (!std::isfinite(t)) return false;
      for (std::size_t i = 0; i < shape_->unknowns; ++i) potential[i] += t * step_[i];
      const bool changed = update_states(c, r, potential);
      find_imbalance(inflow);
      if (!changed && balanced(inflow)) return polish(r, inflow, potential);
      if (exactly_balanced(inflow)) {  // at a threshold: the state is either, the flow through it nothing
        factor(r);
        return polish(r, inflow, potential);
      }
    }
    return false;
  }

  [[nodiscard]] bool exactly_balanced(const std::vector<double>& inflow) const {
    const double limit = 1e-12 * largest_flow(inflow);
    return std::all_of(imbalance_.begin(), imbalance_.end(), [&](double g) { return std::abs(g) <= limit; });
  }

  /// Groups of places that open edges join to each other but to no held place. If liquid is left over in one, the
  /// step lifts (or lowers) the whole group until an edge opens. @return true if there is such a group
  bool lift_floating(const std::vector<double>& inflow) {
    const std::size_t n = shape_->unknowns;
    group_.resize(n + 1);  // group n: everything held
    for (std::size_t i = 0; i <= n; ++i) group_[i] = i;
    const auto find = [&](std::size_t i) {
      while (group_[i] != i) i = group_[i] = group_[group_[i]];
      return i;
    };
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (open_[e]) group_[find(std::min(shape_->a[e], n))] = find(std::min(shape_->b[e], n));
    }
    const std::size_t held = find(n);
    std::vector<double> left(n + 1, 0.0);
    for (std::size_t i = 0; i < n; ++i) left[find(i)] += imbalance_[i];
    const double limit = 1e-12 * largest_flow(inflow);
    bool any = false;
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t g = find(i);
      const bool lift = g != held && std::abs(left[g]) > limit;
      step_[i] = lift ? std::copysign(1.0, left[g]) : 0.0;
      any = any || lift;
    }
    return any;
  }

  /// Where the co-content is least along the step: its slope is piecewise linear and rising, with a bend wherever a
  /// one-way edge opens or shuts.
  double line_minimum(const std::vector<double>& c, const std::vector<double>& r, const std::vector<double>& inflow,
                      const std::vector<double>& potential) {
    double slope = 0.0, bend = 0.0;
    bends_.clear();
    for (std::size_t i = 0; i < shape_->unknowns; ++i) slope -= inflow[i] * step_[i];
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const double da = shape_->a[e] < shape_->unknowns ? step_[shape_->a[e]] : 0.0;
      const double db = shape_->b[e] < shape_->unknowns ? step_[shape_->b[e]] : 0.0;
      const double d = da - db;
      if (d == 0.0) continue;
      const double excess = drop(e, potential) - c[e];
      const double curvature = d * d / r[e];
      const bool open = !shape_->one_way[e] || excess > 0.0 || (excess == 0.0 && d > 0.0);
      slope += open ? excess / r[e] * d : 0.0;
      bend += open ? curvature : 0.0;
      if (!shape_->one_way[e]) continue;
      const double t = -excess / d;
      if (t > 0.0) bends_.emplace_back(t, open ? -curvature : curvature);
    }
    if (slope >= 0.0) return 0.0;
    std::sort(bends_.begin(), bends_.end());
    double t = 0.0;
    for (const auto& [at, change] : bends_) {
      const double next = slope + bend * (at - t);
      if (next >= 0.0) break;
      slope = next;
      bend = std::max(0.0, bend + change);
      t = at;
    }
    return bend > 0.0 ? t - slope / bend : std::numeric_limits<double>::infinity();
  }

  const CoreShape* shape_;
  StarMesh<double> mesh_;
  std::vector<std::size_t> joint_edge_;
  std::vector<double> joint_, ground_, step_, imbalance_;
  std::vector<bool> open_;
  std::vector<std::size_t> group_;
  std::vector<std::pair<double, double>> bends_;
  int factorisations_ = 0;
};

}  // namespace libflow
