// SPDX-License-Identifier: MIT
/// @file
/// Small before fast: what never needs the Newton is taken out of the network first.
///
/// Parts in series carry one flow, so a run of them is one edge; a dead end carries none. What is left (the core) is
/// solved; then the steps are undone in reverse to give every part its flow and every place its pressure.
#pragma once

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/law.hpp>

namespace libflow {

/// A law between two places; in the core, `passes` is both or forward.
struct Edge {
  std::size_t a = 0, b = 0;
  Law law;
};

/// The reduced network and the way back.
/// Potentials are total pressure plus the weight of the liquid up to the place's elevation, p + rho g z [Pa].
class Reduction {
 public:
  Reduction(const Network& network, const LiquidState& liquid) : places_(network.place_count()) {
    incident_.resize(places_);
    held_.resize(places_);
    for (std::size_t i = 0; i < places_; ++i) held_[i] = network.place(i).kind != PlaceKind::junction;
    for (std::size_t i = 0; i < network.part_count(); ++i) {
      add({network.from(i), network.to(i), network.part(i).part.law(liquid)});
    }
    parts_ = edges_.size();
    std::vector<std::size_t> todo;
    for (std::size_t i = 0; i < places_; ++i) todo.push_back(i);
    while (!todo.empty()) {
      const std::size_t place = todo.back();
      todo.pop_back();
      if (held_[place] || gone_at(place)) continue;
      auto& edges = incident_[place];
      if (edges.size() == 1) {
        const std::size_t edge = edges.front(), next = other(edge, place);
        steps_.push_back({.place = place, .first = edge, .second = none, .merged = none});
        remove(edge);
        todo.push_back(next);
      } else if (edges.size() == 2) {
        const std::size_t first = edges[0], second = edges[1];
        const std::size_t x = other(first, place), y = other(second, place);
        if (x == y) continue;  // two ways round between two places are no series run
        steps_.push_back(merge(place, first, second, x, y));
      }
    }
    for (std::size_t e = 0; e < edges_.size(); ++e) {
      if (!alive_[e]) continue;
      if (edges_[e].law.passes == Passes::neither) continue;  // shut both ways: no flow, no place in the core
      if (edges_[e].law.passes == Passes::backward) turn(e);
      core_.push_back(e);
    }
  }

  /// Edges of the core, as indices into edges().
  [[nodiscard]] const std::vector<std::size_t>& core() const { return core_; }
  [[nodiscard]] const Edge& edge(std::size_t e) const { return edges_[e]; }
  [[nodiscard]] std::size_t edge_count() const { return edges_.size(); }
  /// True for places that the core still has.
  [[nodiscard]] bool in_core(std::size_t place) const { return held_[place] || !gone_at(place); }

  /// Undoes the steps: from the flow of the core's edges and the potential of its places to all of them.
  /// @param flow       by edge; in: the core's edges, out: all; a part's flow is flow[part]
  /// @param potential  by place; in: the core's places, out: all
  void expand(std::vector<double>& flow, std::vector<double>& potential) const {
    for (std::size_t i = steps_.size(); i-- > 0;) {
      const Step& s = steps_[i];
      if (s.merged == none) {
        flow[s.first] = 0.0;
        potential[s.place] = beyond(s.first, s.place, potential);
        continue;
      }
      const double q = flow[s.merged] * (turned_[s.merged] ? -1.0 : 1.0);
      flow[s.first] = q * s.first_sign;
      flow[s.second] = q * s.second_sign;
      potential[s.place] = between(s, q, potential);
    }
    for (std::size_t e = 0; e < parts_; ++e) {
      if (turned_[e]) flow[e] = -flow[e];
    }
  }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  struct Step {
    std::size_t place, first, second, merged;
    double first_sign = 1.0, second_sign = 1.0;  // flow of the piece per flow of the run
  };

  void add(Edge edge) {
    const std::size_t e = edges_.size();
    incident_[edge.a].push_back(e);
    incident_[edge.b].push_back(e);
    edges_.push_back(std::move(edge));
    alive_.push_back(true);
    turned_.push_back(false);
  }
  void remove(std::size_t e) {
    alive_[e] = false;
    std::erase(incident_[edges_[e].a], e);
    std::erase(incident_[edges_[e].b], e);
  }
  [[nodiscard]] bool gone_at(std::size_t place) const { return incident_[place].empty(); }
  [[nodiscard]] std::size_t other(std::size_t e, std::size_t place) const {
    return edges_[e].a == place ? edges_[e].b : edges_[e].a;
  }
  void turn(std::size_t e) {
    std::swap(edges_[e].a, edges_[e].b);
    edges_[e].law = edges_[e].law.reversed();
    turned_[e] = true;
  }

  Step merge(std::size_t place, std::size_t first, std::size_t second, std::size_t x, std::size_t y) {
    const bool forward1 = edges_[first].b == place, forward2 = edges_[second].a == place;
    Step step{.place = place,
              .first = first,
              .second = second,
              .merged = edges_.size(),
              .first_sign = forward1 ? 1.0 : -1.0,
              .second_sign = forward2 ? 1.0 : -1.0};
    Law run = forward1 ? edges_[first].law : edges_[first].law.reversed();
    run += forward2 ? edges_[second].law : edges_[second].law.reversed();
    remove(first);
    remove(second);
    add({x, y, std::move(run)});
    return step;
  }

  /// Potential beyond an edge that carries nothing, at the dead end `place`.
  [[nodiscard]] double beyond(std::size_t e, std::size_t place, const std::vector<double>& potential) const {
    const Edge& edge = edges_[e];
    return edge.b == place ? potential[edge.a] - edge.law.threshold : potential[edge.b] + edge.law.threshold;
  }

  /// Potential at the place that a series run was merged over.
  [[nodiscard]] double between(const Step& s, double q, const std::vector<double>& potential) const {
    const Edge& first = edges_[s.first];
    const Edge& second = edges_[s.second];
    const double up = potential[other(s.first, s.place)], down = potential[other(s.second, s.place)];
    const double from_up = up - s.first_sign * first.law(q * s.first_sign).dp;
    const double from_down = down + s.second_sign * second.law(q * s.second_sign).dp;
    if (q != 0.0) return from_up;
    // Nothing flows. A two-way piece settles the place's pressure; a shut one-way piece only bounds it.
    const Passes in = s.first_sign > 0.0 ? first.law.passes : reversed(first.law.passes);
    const Passes out = s.second_sign > 0.0 ? second.law.passes : reversed(second.law.passes);
    if (in == Passes::both) return from_up;
    if (out == Passes::both) return from_down;
    if (in == Passes::neither) return from_down;
    if (out == Passes::neither) return from_up;
    if (in == out) return 0.5 * (from_up + from_down);  // any pressure between the two bounds is possible
    return in == Passes::forward ? std::max(from_up, from_down) : std::min(from_up, from_down);
  }

  std::size_t places_ = 0, parts_ = 0;
  std::vector<Edge> edges_;
  std::vector<bool> alive_, turned_, held_;
  std::vector<std::vector<std::size_t>> incident_;
  std::vector<Step> steps_;
  std::vector<std::size_t> core_;
};

}  // namespace libflow
