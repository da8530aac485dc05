// SPDX-License-Identifier: MIT
/// @file
/// Star-mesh elimination (star_mesh.hpp) for packs: the same sums without a branch on a number.
///
/// The order and every index are worked out once, as a list that the numeric part runs through; right sides are
/// eliminated together with the conductances.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include <libflow/physics/scalar.hpp>

namespace libflow {

/// Symbolic part: the elimination order, the joints that it makes, and where each product goes.
class PackedMeshShape {
 public:
  /// @param places  number of places with unknown potential
  /// @param joints  which of them are joined
  PackedMeshShape(std::size_t places, const std::vector<std::array<std::size_t, 2>>& joints) {
    std::vector<std::set<std::size_t>> neighbours(places);
    for (const auto& [a, b] : joints) {
      neighbours[a].insert(b);
      neighbours[b].insert(a);
    }
    // Fewest neighbours first; among equals the one that has waited longest, so that the branches of a tree are taken
    // in turn and the processor can work on several at once.
    std::set<std::tuple<std::size_t, std::size_t, std::size_t>> queue;
    std::vector<std::tuple<std::size_t, std::size_t, std::size_t>> ticket(places);
    std::size_t stamp = 0;
    for (std::size_t i = 0; i < places; ++i) queue.insert(ticket[i] = {neighbours[i].size(), stamp++, i});
    place_at_.resize(places);
    std::vector<std::vector<std::size_t>> later;  // places, by step
    while (!queue.empty()) {
      const std::size_t k = std::get<2>(*queue.begin());
      queue.erase(queue.begin());
      place_at_[k] = later.size();
      later.emplace_back(neighbours[k].begin(), neighbours[k].end());
      for (const std::size_t i : later.back()) {
        queue.erase(ticket[i]);
        neighbours[i].erase(k);
        for (const std::size_t j : later.back()) {
          if (j != i) neighbours[i].insert(j);
        }
        queue.insert(ticket[i] = {neighbours[i].size(), stamp++, i});
      }
    }
    begin_.push_back(0);
    for (auto& list : later) {
      for (std::size_t& i : list) i = place_at_[i];
      std::sort(list.begin(), list.end());
      for (const std::size_t i : list) neighbour_.push_back(static_cast<int>(i));
      begin_.push_back(static_cast<int>(neighbour_.size()));
    }
    for (const auto& list : later) {
      for (std::size_t p = 0; p < list.size(); ++p) {
        for (std::size_t q = p + 1; q < list.size(); ++q) target_.push_back(entry(list[p], list[q]));
      }
    }
    for (const auto& [a, b] : joints) {
      const auto [i, j] = std::minmax(place_at_[a], place_at_[b]);
      slot_.push_back(entry(i, j));
    }
  }

  /// Number of places.
  [[nodiscard]] std::size_t places() const { return place_at_.size(); }
  /// Conductances of the eliminated network.
  [[nodiscard]] std::size_t entries() const { return neighbour_.size(); }
  /// Step at which a place is eliminated. The numeric part counts places by these.
  [[nodiscard]] std::size_t step_of(std::size_t place) const { return place_at_[place]; }
  /// Where a joint's conductance enters, by joint.
  [[nodiscard]] int slot(std::size_t joint) const { return slot_[joint]; }

 private:
  template <class S>
  friend class PackedMesh;

  [[nodiscard]] int entry(std::size_t i, std::size_t j) const {
    const auto first = neighbour_.begin() + begin_[i], last = neighbour_.begin() + begin_[i + 1];
    return static_cast<int>(std::lower_bound(first, last, static_cast<int>(j)) - neighbour_.begin());
  }

  std::vector<std::size_t> place_at_;
  std::vector<int> begin_, neighbour_;  // later neighbours of each step, ascending
  std::vector<int> target_;             // where each new conductance enters, in the order in which they are made
  std::vector<int> slot_;
};

/// Numeric part. Fill `joint` (by slot), `ground` and `inflow` (by step), then solve().
template <class S>
class PackedMesh {
 public:
  /// @param shape  must outlive this object
  explicit PackedMesh(const PackedMeshShape& shape)
      : joint(shape.entries()),
        ground(shape.places()),
        inflow(shape.places()),
        potential(shape.places()),
        shape_(&shape),
        share_(shape.entries()),
        inverse_(shape.places()) {}

  std::vector<S> joint;      ///< in: conductances; used up
  std::vector<S> ground;     ///< in: conductance to known potentials; used up
  std::vector<S> inflow;     ///< in: net inflow; used up
  std::vector<S> potential;  ///< out

  /// All conductances and inflows to nothing.
  void clear() {
    std::fill(joint.begin(), joint.end(), S(0.0));
    std::fill(ground.begin(), ground.end(), S(0.0));
  }

  /// Potentials. A group of places that no conductance joins to a known potential keeps its last place at 0: there the
  /// sum of conductances is exactly zero.
  void solve() {
    const int n = static_cast<int>(ground.size());
    const int* const begin = shape_->begin_.data();
    const int* const neighbour = shape_->neighbour_.data();
    const int* target = shape_->target_.data();
    S* const mesh = joint.data();
    S* const to_ground = ground.data();
    S* const in = inflow.data();
    S* const share = share_.data();
    S* const inverse = inverse_.data();
    S* const x = potential.data();
    for (int k = 0; k < n; ++k) {
      const int first = begin[k], last = begin[k + 1];
      S sum = to_ground[k];
      for (int p = first; p < last; ++p) sum += mesh[p];
      const S inv = physics::select<S>(sum > S(0.0), S(S(1.0) / sum), S(0.0));
      inverse[k] = inv;
      const S own_ground = to_ground[k], own_in = in[k];
      for (int p = first; p < last; ++p) {
        const S part = mesh[p] * inv;
        share[p] = part;
        const int i = neighbour[p];
        to_ground[i] += part * own_ground;
        in[i] += part * own_in;
        for (int q = p + 1; q < last; ++q) mesh[*target++] += part * mesh[q];
      }
    }
    for (int k = n; k-- > 0;) {
      S sum = in[k] * inverse[k];
      for (int p = begin[k]; p < begin[k + 1]; ++p) sum += share[p] * x[neighbour[p]];
      x[k] = sum;
    }
  }

 private:
  const PackedMeshShape* shape_;
  std::vector<S> share_, inverse_;
};

}  // namespace libflow
