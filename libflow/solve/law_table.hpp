// SPDX-License-Identifier: MIT
/// @file
/// Many laws at once: terms of one kind stand side by side and are evaluated several at a time.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

#include <libflow/parts/law.hpp>
#include <libflow/solve/pack.hpp>

namespace libflow {

/// Drops and slopes of a list of laws at a list of flows; the formulas are those of physics/, as in Law itself.
class LawTable {
 public:
  /// Takes the numbers from the laws. @param laws  functions of their own are called where they are: must stay
  void read(const std::vector<Law>& laws) {
    laws_ = &laws;
    own_.clear();
    Filler<Tubes> tubes(tubes_);
    Filler<Holes> holes(holes_);
    bool plain = true;
    for (std::size_t e = 0; e < laws.size(); ++e) {
      const Law& law = laws[e];
      for (const auto& t : law.friction) {
        tubes.add(e, [&](Tubes& at, int lane) {
          at.term.re_per_flow.set(lane, t.re_per_flow);
          at.term.scale.set(lane, t.scale);
          at.term.rel_roughness.set(lane, t.rel_roughness);
          at.term.upper.f.set(lane, t.upper.f);
          at.term.upper.slope.set(lane, t.upper.slope);
        });
      }
      for (const auto& h : law.holes) {
        holes.add(e, [&](Holes& at, int lane) {
          at.term.creeping.set(lane, h.creeping);
          at.term.inertia.set(lane, h.inertia);
          at.term.uncontracted.set(lane, h.uncontracted);
          at.term.re_per_flow.set(lane, h.re_per_flow);
        });
      }
      for (const auto& f : law.functions) own_.push_back({e, &f});
      plain = plain && law.linear == 0.0 && law.quadratic == 0.0;
    }
    threshold_.resize(laws.size());
    for (std::size_t e = 0; e < laws.size(); ++e) threshold_[e] = laws[e].threshold;
    powers_ = !plain;
  }

  /// Threshold of an edge [Pa].
  [[nodiscard]] double threshold(std::size_t e) const { return threshold_[e]; }

  /// @param flow         by law
  /// @param drop, slope  out: as long as `flow`
  void evaluate(const std::vector<double>& flow, std::vector<double>& drop, std::vector<double>& slope) const {
    for (std::size_t e = 0; e < flow.size(); ++e) {
      drop[e] = threshold_[e];
      slope[e] = 0.0;
    }
    if (powers_) {
      for (std::size_t e = 0; e < flow.size(); ++e) {
        const double linear = (*laws_)[e].linear, square = (*laws_)[e].quadratic * std::abs(flow[e]);
        drop[e] += flow[e] * (linear + square);
        slope[e] += linear + 2.0 * square;
      }
    }
    for (const Tubes& t : tubes_) {
      t.add([&](const Pack& q) { return physics::drop_wall_friction<Pack>(q, t.term); }, flow, drop, slope);
    }
    for (const Holes& h : holes_) {
      h.add([&](const Pack& q) { return physics::drop_hole<Pack>(q, h.term); }, flow, drop, slope);
    }
    for (const auto& [e, f] : own_) {
      const Drop<double> d = (*f)(flow[e]);
      drop[e] += d.dp;
      slope[e] += d.slope;
    }
  }

 private:
  /// A few terms of one kind, and the laws that they belong to. What is left over of the last one repeats its last
  /// term.
  template <class Term>
  struct Group {
    Term term;
    std::array<std::size_t, std::size_t{Pack::width}> law{};
    int used = 0;

    template <class Formula>
    void add(Formula formula, const std::vector<double>& flow, std::vector<double>& drop,
             std::vector<double>& slope) const {
      Pack q;
      for (int i = 0; i < Pack::width; ++i) q.set(i, flow[law[static_cast<std::size_t>(i)]]);
      const Drop<Pack> d = formula(q);
      for (int i = 0; i < used; ++i) {
        drop[law[static_cast<std::size_t>(i)]] += d.dp[i];
        slope[law[static_cast<std::size_t>(i)]] += d.slope[i];
      }
    }
  };
  using Tubes = Group<physics::WallFriction<Pack>>;
  using Holes = Group<physics::Hole<Pack>>;

  template <class G>
  class Filler {
   public:
    explicit Filler(std::vector<G>& groups) : groups_(&groups) { groups.clear(); }
    template <class Set>
    void add(std::size_t law, Set set) {
      if (groups_->empty() || groups_->back().used == Pack::width) groups_->emplace_back();
      G& g = groups_->back();
      for (int lane = g.used; lane < Pack::width; ++lane) {
        set(g, lane);
        g.law[static_cast<std::size_t>(lane)] = law;
      }
      ++g.used;
    }

   private:
    std::vector<G>* groups_;
  };

  const std::vector<Law>* laws_ = nullptr;
  std::vector<double> threshold_;
  std::vector<Tubes> tubes_;
  std::vector<Holes> holes_;
  std::vector<std::pair<std::size_t, const std::function<Drop<double>(const double&)>*>> own_;
  bool powers_ = false;  // any law with a linear or quadratic term
};

}  // namespace libflow
