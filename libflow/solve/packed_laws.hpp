// SPDX-License-Identifier: MIT
/// @file
/// The laws of a core network's edges for a pack of scenarios: the terms of BasicLaw, laid out one after another.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include <libflow/parts/law.hpp>
#include <libflow/solve/pack.hpp>

namespace libflow {

/// Constant-coefficient terms of one part.
template <class S>
struct PackedConstants {
  S linear{0.0};     ///< [Pa per m3/s]
  S quadratic{0.0};  ///< [Pa per (m3/s)^2]
  S threshold{0.0};  ///< [Pa]
};

/// Where a part sits in the core: its edge (empty: none, it carries nothing) and whether it runs the edge's way.
struct PackedSeat {
  std::size_t edge = static_cast<std::size_t>(-1);  ///< of the core; the largest number: none
  bool forward = true;                              ///< it runs the edge's way

  /// True where it carries anything.
  [[nodiscard]] bool in_core() const { return edge != static_cast<std::size_t>(-1); }
};

/// Laws by edge, numbers by part and lane. Every part keeps the terms that it had when this was made.
template <class S>
class PackedLaws {
 public:
  /// @param laws  by part; what they are made of stays, their numbers fill all lanes
  /// @param seats by part
  PackedLaws(const std::vector<Law>& laws, const std::vector<PackedSeat>& seats, std::size_t edges)
      : seats_(seats), parts_(laws.size()), sums_(edges), edges_(edges) {
    std::vector<std::vector<std::size_t>> on(edges);
    for (std::size_t i = 0; i < laws.size(); ++i) {
      if (seats[i].in_core()) on[seats[i].edge].push_back(i);
    }
    for (std::size_t e = 0; e < edges; ++e) {
      Range& r = edges_[e];
      r = {static_cast<int>(friction_.size()),  0, static_cast<int>(holes_.size()), 0,
           static_cast<int>(functions_.size()), 0};
      for (const std::size_t i : on[e]) {
        parts_[i] = {friction_.size(), holes_.size(), functions_.size(), constants_.size()};
        friction_.resize(friction_.size() + laws[i].friction.size());
        holes_.resize(holes_.size() + laws[i].holes.size());
        functions_.resize(functions_.size() + laws[i].functions.size());
        constants_.emplace_back();
        order_.push_back(i);
      }
      r.friction_end = static_cast<int>(friction_.size());
      r.hole_end = static_cast<int>(holes_.size());
      r.function_end = static_cast<int>(functions_.size());
    }
    for (const std::size_t i : order_) {
      for (int lane = 0; lane < S::width; ++lane) set(i, lane, laws[i]);
    }
    sum();
  }

  /// True where a part carries anything.
  [[nodiscard]] bool in_core(std::size_t part) const { return seats_[part].in_core(); }
  /// Where a part sits.
  [[nodiscard]] const PackedSeat& seat(std::size_t part) const { return seats_[part]; }

  /// Numbers of a part that is in the core: its k-th term of each kind. After changing constants: sum().
  [[nodiscard]] physics::BareFriction<S>& friction(std::size_t part, std::size_t k = 0) {
    return friction_[parts_[part].friction + k];
  }
  /// See friction().
  [[nodiscard]] physics::Hole<S>& hole(std::size_t part, std::size_t k = 0) { return holes_[parts_[part].hole + k]; }
  /// See friction().
  [[nodiscard]] PackedConstants<S>& constants(std::size_t part) { return constants_[parts_[part].constants]; }

  /// One lane of a part by its law, which has the same terms as before. After it: sum().
  void set(std::size_t part, int lane, const Law& law) {
    if (!in_core(part)) return;
    PackedConstants<S>& c = constants(part);
    c.linear.set(lane, law.linear);
    c.quadratic.set(lane, law.quadratic);
    c.threshold.set(lane, law.threshold);
    for (std::size_t k = 0; k < law.friction.size(); ++k) {
      friction(part, k).re_per_flow.set(lane, law.friction[k].re_per_flow);
      friction(part, k).scale.set(lane, law.friction[k].scale);
      friction(part, k).rel_roughness.set(lane, law.friction[k].rel_roughness);
    }
    for (std::size_t k = 0; k < law.holes.size(); ++k) {
      hole(part, k).creeping.set(lane, law.holes[k].creeping);
      hole(part, k).inertia.set(lane, law.holes[k].inertia);
      hole(part, k).uncontracted.set(lane, law.holes[k].uncontracted);
      hole(part, k).re_per_flow.set(lane, law.holes[k].re_per_flow);
    }
    const double way = seats_[part].forward ? 1.0 : -1.0;
    for (std::size_t k = 0; k < law.functions.size(); ++k) {
      functions_[parts_[part].function + k][static_cast<std::size_t>(lane)] = {law.functions[k], way};
    }
  }

  /// Adds up the constants of each edge.
  void sum() {
    std::fill(sums_.begin(), sums_.end(), PackedConstants<S>{});
    for (std::size_t n = 0; n < order_.size(); ++n) {
      const PackedSeat& seat = seats_[order_[n]];
      PackedConstants<S>& s = sums_[seat.edge];
      s.linear += constants_[n].linear;
      s.quadratic += constants_[n].quadratic;
      if (seat.forward) {
        s.threshold += constants_[n].threshold;
      } else {
        s.threshold -= constants_[n].threshold;
      }
    }
  }
  /// Sum of the thresholds of an edge [Pa].
  [[nodiscard]] const S& threshold(std::size_t edge) const { return sums_[edge].threshold; }

  /// Drop and slope of an edge at a flow.
  [[nodiscard]] Drop<S> operator()(std::size_t edge, const S& q) const {
    const PackedConstants<S>& c = sums_[edge];
    const Range& r = edges_[edge];
    const S bent = c.quadratic * abs(q);
    Drop<S> d{c.threshold + q * (c.linear + bent), c.linear + bent + bent};
    for (int k = r.friction; k < r.friction_end; ++k) {
      add(d, physics::drop_wall_friction<S>(q, friction_[static_cast<std::size_t>(k)]));
    }
    for (int k = r.hole; k < r.hole_end; ++k) add(d, physics::drop_hole<S>(q, holes_[static_cast<std::size_t>(k)]));
    for (int k = r.function; k < r.function_end; ++k) {
      const auto& term = functions_[static_cast<std::size_t>(k)];
      for (int lane = 0; lane < S::width; ++lane) {
        const Function& f = term[static_cast<std::size_t>(lane)];
        const Drop<double> one = f.law(f.way * q[lane]);
        d.dp.set(lane, d.dp[lane] + f.way * one.dp);
        d.slope.set(lane, d.slope[lane] + one.slope);
      }
    }
    return d;
  }

 private:
  struct Range {
    int friction = 0, friction_end = 0, hole = 0, hole_end = 0, function = 0, function_end = 0;
  };
  struct First {
    std::size_t friction = 0, hole = 0, function = 0, constants = 0;
  };
  struct Function {
    std::function<Drop<double>(const double&)> law;
    double way = 1.0;  ///< +1: along the edge
  };

  static void add(Drop<S>& sum, const Drop<S>& term) {
    sum.dp += term.dp;
    sum.slope += term.slope;
  }

  std::vector<PackedSeat> seats_;
  std::vector<First> parts_;
  std::vector<PackedConstants<S>> constants_, sums_;
  std::vector<std::size_t> order_;  // part of each of constants_
  std::vector<Range> edges_;
  std::vector<physics::BareFriction<S>> friction_;
  std::vector<physics::Hole<S>> holes_;
  std::vector<std::array<Function, static_cast<std::size_t>(S::width)>> functions_;
};

}  // namespace libflow
