// SPDX-License-Identifier: MIT
/// @file
/// Small before fast: what never needs the Newton is taken out of the network first.
///
/// A dead end carries nothing; parts in series carry one flow, so a run of them is one edge. What is left (the core) is
/// solved; then every part gets its flow and every place its potential back.
/// Potentials are total pressure plus the weight of the liquid up to the place's elevation, p + rho g z [Pa].
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <utility>
#include <vector>

#include <libflow/network/incidence.hpp>
#include <libflow/network/network.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/solve/rounding.hpp>

namespace libflow {

/// An edge of the core: a run of parts from place `a` to place `b`. It passes both ways or forward only.
struct Edge {
  std::size_t a = 0, b = 0;         ///< its end places
  std::size_t first = 0, last = 0;  ///< its steps, [first, last)
};

/// The reduced network and the way back.
class Reduction {
 public:
  /// @param laws   by part of the network
  /// @param shape  of the network, if it is known already
  Reduction(const Network& network, const std::vector<Law>& laws, std::shared_ptr<const Incidence> shape = nullptr)
      : shape_(shape ? std::move(shape) : std::make_shared<const Incidence>(network)),
        degree_(shape_->places(), 0),
        alive_(shape_->parts(), 1) {
    strip_dead_ends();
    collect_runs(laws);
  }

  /// Edges of the core.
  [[nodiscard]] const std::vector<Edge>& core() const { return core_; }
  /// True for places that the core has.
  [[nodiscard]] bool in_core(std::size_t place) const { return ends_[place] != 0; }

  /// Laws of the core's edges, summed from the parts' laws. Which way each part passes must be as it was.
  void sum_laws(const std::vector<Law>& laws, std::vector<Law>& core) const {
    core.resize(core_.size());
    for (std::size_t e = 0; e < core_.size(); ++e) {
      const std::size_t first = core_[e].first;
      core[e] = steps_[first].forward ? laws[steps_[first].part] : laws[steps_[first].part].reversed();
      for (std::size_t s = first + 1; s < core_[e].last; ++s) {
        if (steps_[s].forward) {
          core[e] += laws[steps_[s].part];
        } else {
          core[e] += laws[steps_[s].part].reversed();
        }
      }
    }
  }

  /// Largest threshold of any part [Pa], by edge of the core: in the sum of a run, gains and cracks may cancel.
  void largest_thresholds(const std::vector<Law>& laws, std::vector<double>& core) const {
    core.assign(core_.size(), 0.0);
    for (std::size_t e = 0; e < core_.size(); ++e) {
      for (std::size_t s = core_[e].first; s < core_[e].last; ++s) {
        core[e] = std::max(core[e], std::abs(laws[steps_[s].part].threshold));
      }
    }
  }

  /// The same without the drops.
  void expand(const std::vector<Law>& laws, const std::vector<double>& core_flow, std::vector<double>& flow,
              std::vector<double>& potential) const {
    std::vector<double> drop;
    expand(laws, core_flow, flow, drop, potential);
  }
  /// From the core to the whole network.
  /// @param laws       by part
  /// @param core_flow  by edge of the core
  /// @param flow       out: by part
  /// @param drop       out: each law at its flow, by part
  /// @param potential  by place; in: the core's places, out: all
  void expand(const std::vector<Law>& laws, const std::vector<double>& core_flow, std::vector<double>& flow,
              std::vector<double>& drop, std::vector<double>& potential) const {
    flow.assign(laws.size(), 0.0);
    drop.resize(laws.size());
    for (std::size_t e = 0; e < core_.size(); ++e) {
      for (std::size_t s = core_[e].first; s < core_[e].last; ++s) {
        flow[steps_[s].part] = steps_[s].forward ? core_flow[e] : -core_flow[e];
      }
    }
    for (std::size_t i = 0; i < laws.size(); ++i) drop[i] = laws[i](flow[i]).dp;
    for (std::size_t e = 0; e < core_.size(); ++e) walk(core_[e], core_flow[e] == 0.0, laws, drop, potential);
    for (const Edge& run : shut_) walk(run, true, laws, drop, potential);
    for (std::size_t i = dead_ends_.size(); i-- > 0;) {
      const DeadEnd& d = dead_ends_[i];
      const double t = laws[d.part].threshold;
      potential[d.place] =
          shape_->to(d.part) == d.place ? potential[shape_->from(d.part)] - t : potential[shape_->to(d.part)] + t;
    }
  }

 private:
  struct DeadEnd {
    std::size_t place, part;
  };
  struct Step {
    std::uint32_t part, beyond;  ///< beyond: place at its far end
    bool forward;                ///< the part's own direction is the run's
  };

  [[nodiscard]] bool junction(std::size_t place) const { return shape_->kind(place) == PlaceKind::junction; }

  void strip_dead_ends() {
    std::vector<std::size_t> todo;
    for (std::size_t i = 0; i < degree_.size(); ++i) {
      degree_[i] = static_cast<std::uint32_t>(shape_->at(i).size());
      if (degree_[i] == 1 && junction(i)) todo.push_back(i);
    }
    while (!todo.empty()) {
      const std::size_t place = todo.back();
      todo.pop_back();
      if (degree_[place] != 1) continue;  // its neighbour went first
      for (const auto& [part, next] : shape_->at(place)) {
        if (alive_[part] == 0) continue;
        alive_[part] = 0;
        dead_ends_.push_back({place, part});
        --degree_[place];
        if (--degree_[next] == 1 && junction(next)) todo.push_back(next);
      }
    }
  }

  /// A place that a run goes through.
  [[nodiscard]] bool inner(std::size_t place) const { return ends_[place] == 0 && degree_[place] == 2; }

  void collect_runs(const std::vector<Law>& laws) {
    ends_.resize(degree_.size());
    for (std::size_t i = 0; i < degree_.size(); ++i) ends_[i] = junction(i) ? 0 : 1;
    steps_.reserve(laws.size());
    std::vector<char> taken(laws.size(), 0);
    for (std::size_t part = 0; part < laws.size(); ++part) {
      // Go back to where the run begins, then along it. Where it ends where it began, its last part is left for a run
      // of its own, and that may be this one.
      while (alive_[part] != 0 && taken[part] == 0) {
        std::size_t start = shape_->from(part), at = part;
        while (inner(start) && start != shape_->to(part)) {
          const std::size_t before = next_part(start, at);
          start = shape_->other_end(before, start);
          at = before;
        }
        add_run(start, at, laws, taken);
      }
    }
  }

  [[nodiscard]] std::size_t next_part(std::size_t place, std::size_t arrived_by) const {
    std::size_t next = arrived_by;
    for (const auto& meeting : shape_->at(place)) {
      if (alive_[meeting.part] != 0 && meeting.part != arrived_by) next = meeting.part;
    }
    return next;
  }

  void add_run(std::size_t start, std::size_t part, const std::vector<Law>& laws, std::vector<char>& taken) {
    Edge run{.a = start, .b = start, .first = steps_.size(), .last = 0};
    Passes passes = Passes::both;
    for (;;) {
      const bool forward = shape_->from(part) == run.b;
      const std::size_t beyond = shape_->other_end(part, run.b);
      // A run that would end where it began keeps its last part for an edge of its own: an edge joins two places.
      if (beyond == start) break;
      taken[part] = 1;
      steps_.push_back({static_cast<std::uint32_t>(part), static_cast<std::uint32_t>(beyond), forward});
      passes = passes & (forward ? laws[part].passes : reversed(laws[part].passes));
      run.b = beyond;
      if (!inner(beyond)) break;
      part = next_part(beyond, part);
    }
    run.last = steps_.size();
    ends_[run.a] = ends_[run.b] = 1;
    if (passes == Passes::neither) {
      shut_.push_back(run);
      return;
    }
    if (passes == Passes::backward) turn(run);
    core_.push_back(run);
  }

  void turn(Edge& run) {
    std::vector<Step> turned;
    auto beyond = static_cast<std::uint32_t>(run.a);
    for (std::size_t s = run.first; s < run.last; ++s) {
      turned.push_back({steps_[s].part, beyond, !steps_[s].forward});
      beyond = steps_[s].beyond;
    }
    std::copy(turned.rbegin(), turned.rend(), steps_.begin() + static_cast<std::ptrdiff_t>(run.first));
    std::swap(run.a, run.b);
  }

  /// Potentials of a run's inner places. Where liquid flows, each part's drop gives the next; where nothing does,
  /// two-way parts carry the potential on and shut one-way parts only bound it: first what each place could have seen
  /// from the run's beginning, then a choice from its end.
  void walk(const Edge& run, bool still, const std::vector<Law>& laws, const std::vector<double>& drop,
            std::vector<double>& potential) const {
    if (run.last - run.first < 2) return;
    if (!still) {
      walk_flowing(run, drop, potential);
      return;
    }
    constexpr double infinite = std::numeric_limits<double>::infinity();
    std::vector<double> low{potential[run.a]}, high{potential[run.a]};
    for (std::size_t s = run.first; s < run.last; ++s) {
      const auto [t, passes] = threshold_along(steps_[s], laws);
      const bool keeps_low = passes == Passes::both || passes == Passes::forward;
      const bool keeps_high = passes == Passes::both || passes == Passes::backward;
      low.push_back(keeps_low ? low.back() - t : -infinite);
      high.push_back(keeps_high ? high.back() - t : infinite);
    }
    double at = potential[run.b];
    bool hangs_on_end = true;
    for (std::size_t s = run.last; s-- > run.first + 1;) {
      const std::size_t k = s - run.first;
      const auto [t, passes] = threshold_along(steps_[s], laws);
      at += t;
      hangs_on_end = hangs_on_end && passes == Passes::both;
      // What hangs on an end of the run has exactly its pressure; elsewhere what rounding puts beyond a bound is at it.
      if (!hangs_on_end) {
        const bool hangs_on_start = low[k] == high[k];
        const double blur = hangs_on_start ? 0.0 : pressure_rounding(potential[run.a], potential[run.b], at);
        if (at > high[k] + blur) at = high[k];
        if (at < low[k] - blur) at = low[k];
      }
      potential[steps_[s - 1].beyond] = at;
    }
  }

  /// In a run of thousands of parts neither the sum of the drops nor a potential reached by subtracting them one by one
  /// may lose digits: both are compensated. What the drops then miss of the run's whole drop is shared out by their
  /// size, so that it does not all fall on the last part.
  void walk_flowing(const Edge& run, const std::vector<double>& drop, std::vector<double>& potential) const {
    const auto along = [&](std::size_t s) { return steps_[s].forward ? drop[steps_[s].part] : -drop[steps_[s].part]; };
    constexpr std::size_t few = 8;  // not enough to lose a digit
    if (run.last - run.first <= few) {
      double at = potential[run.a];
      for (std::size_t s = run.first; s + 1 < run.last; ++s) potential[steps_[s].beyond] = at -= along(s);
      return;
    }
    CompensatedSum miss(potential[run.a]);
    double size = 0.0;
    miss.add(-potential[run.b]);
    for (std::size_t s = run.first; s < run.last; ++s) {
      miss.add(-along(s));
      size += std::abs(along(s));
    }
    const double share = size > 0.0 ? miss.value() / size : 0.0;
    CompensatedSum at(potential[run.a]);
    for (std::size_t s = run.first; s + 1 < run.last; ++s) {
      at.add(-along(s));
      at.add(-share * std::abs(along(s)));
      potential[steps_[s].beyond] = at.value();
    }
  }

  static std::pair<double, Passes> threshold_along(const Step& step, const std::vector<Law>& laws) {
    const Law& law = laws[step.part];
    if (step.forward) return {law.threshold, law.passes};
    return {-law.threshold, reversed(law.passes)};
  }

  std::shared_ptr<const Incidence> shape_;
  std::vector<std::uint32_t> degree_;
  std::vector<char> alive_, ends_;
  std::vector<DeadEnd> dead_ends_;
  std::vector<Step> steps_;
  std::vector<Edge> core_, shut_;
};

}  // namespace libflow
