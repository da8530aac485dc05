// SPDX-License-Identifier: MIT
/// @file
/// Linear networks of conductances, solved by star-mesh elimination.
///
/// Eliminating a place replaces the star of conductances around it by a mesh between its neighbours. Every
/// conductance made this way is a sum of positive terms, so nothing cancels: however far the conductances differ, each
/// one keeps almost full relative accuracy, and a group of places that no conductance joins to a known potential is
/// recognised exactly, by a sum that is exactly zero. It is Cholesky factorisation of the network's Laplacian with
/// the diagonal kept as a sum instead of a difference.
/// Source: A. Rosen, J. IEE 62 (1924) 916 (star-mesh transform, from memory); accuracy: Q. Ye, Math. Comp. 77 (2008)
/// 2195 (summary seen), J. Demmel, P. Koev, Numer. Math. 98 (2004) 99, and J. Demmel and others, Linear Algebra Appl.
/// 299 (1999) 21 (both from memory).
#pragma once

#include <algorithm>
#include <array>
#include <atomic>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include <libflow/physics/scalar.hpp>
#include <libflow/solve/fronts.hpp>
#include <libflow/solve/nested_dissection.hpp>
#include <libflow/solve/place_graph.hpp>

namespace libflow {

/// The symbolic part of the elimination: its order and the joints that it makes. Done once for a shape and shared by
/// all that solve it.
class MeshShape {
 public:
  /// From so many places in loops on, they are ordered by nested dissection and eliminated in fronts.
  static constexpr std::size_t large_core = 1500;

  /// @param places  number of places with unknown potential
  /// @param joints  which of them are joined; conductances come in this order later
  /// @param large   see large_core
  MeshShape(int places, const Joints& joints, std::size_t large = large_core)
      : n_(static_cast<std::size_t>(places)), single_(n_) {
    ++made_;
    const PlaceGraph graph(n_, joints);
    order(graph, large);
    place_at_.resize(n_);
    for (std::size_t k = 0; k < n_; ++k) place_at_[index(place_[k])] = static_cast<int>(k);
    fill_in(graph);
    slot_.reserve(joints.size());
    for (const auto& [a, b] : joints) {
      const auto [i, j] = std::minmax(place_at_[index(a)], place_at_[index(b)]);
      if (index(i) >= single_) {
        slot_.push_back(row_.size() + fronts_.slot(i - static_cast<int>(single_), j - static_cast<int>(single_)));
        continue;
      }
      const auto first = row_.begin() + begin_[index(i)];
      slot_.push_back(
          static_cast<std::size_t>(std::lower_bound(first, row_.begin() + begin_[index(i) + 1], j) - row_.begin()));
    }
  }

  /// Number of places.
  [[nodiscard]] std::size_t places() const { return n_; }
  /// Joints of the eliminated network, fill-in included.
  [[nodiscard]] std::size_t entries() const { return row_.size() + fronts_.entries(); }
  /// How many shapes this program has made: that solving again does not make another is tested with it.
  [[nodiscard]] static long made() { return made_; }

 private:
  template <class S>
  friend class StarMesh;

  static std::size_t index(int i) { return static_cast<std::size_t>(i); }

  /// Elimination order: places with one neighbour first, again and again (a tree is done then, without fill-in); what
  /// is left by approximate minimum degree or, if it is large, by nested dissection and in fronts.
  void order(const PlaceGraph& graph, std::size_t large) {
    place_.reserve(n_);
    std::vector<char> gone(n_, 0);
    std::vector<int> degree(n_);
    const auto eliminate = [&](int place) {
      gone[index(place)] = 1;
      place_.push_back(place);
    };
    for (std::size_t i = 0; i < n_; ++i) degree[i] = graph.degree(static_cast<int>(i));
    for (std::size_t i = 0; i < n_; ++i) {
      if (degree[i] <= 1) eliminate(static_cast<int>(i));
    }
    for (std::size_t k = 0; k < place_.size(); ++k) {
      graph.each_neighbour(place_[k], [&](int next) {
        if (gone[index(next)] == 0 && --degree[index(next)] <= 1) eliminate(next);
      });
    }
    if (place_.size() == n_) return;

    std::vector<int> left, number(n_, -1);
    for (std::size_t i = 0; i < n_; ++i) {
      if (gone[i] == 0) left.push_back(static_cast<int>(i));
    }
    const PlaceGraph core = graph.within(left, number);
    std::vector<int> sorted;
    if (left.size() < large) {
      sorted = core.minimum_degree();
    } else {
      sorted = nested_dissection(core);
      single_ = place_.size();
      fronts_ = FrontShape(core, sorted);
    }
    for (const int i : sorted) place_.push_back(left[index(i)]);
  }

  /// Pattern of the places eliminated one by one: one gets its own later neighbours and those of its children in the
  /// elimination tree.
  void fill_in(const PlaceGraph& graph) {
    begin_.assign(single_ + 1, 0);
    row_.reserve(single_);
    std::vector<int> seen(n_, -1), last_child(single_, -1), sibling(single_, -1);
    for (std::size_t k = 0; k < single_; ++k) {
      const auto first = static_cast<std::ptrdiff_t>(row_.size());
      const auto add = [&](int i) {
        if (i <= static_cast<int>(k) || seen[index(i)] == static_cast<int>(k)) return;
        seen[index(i)] = static_cast<int>(k);
        row_.push_back(i);
      };
      graph.each_neighbour(place_[k], [&](int j) { add(place_at_[index(j)]); });
      for (int c = last_child[k]; c >= 0; c = sibling[index(c)]) {
        for (int p = begin_[index(c)]; p < begin_[index(c) + 1]; ++p) add(row_[index(p)]);
      }
      std::sort(row_.begin() + first, row_.end());
      begin_[k + 1] = static_cast<int>(row_.size());
      if (begin_[k + 1] == begin_[k] || index(row_[index(begin_[k])]) >= single_) continue;
      const std::size_t parent = index(row_[index(begin_[k])]);
      sibling[k] = last_child[parent];
      last_child[parent] = static_cast<int>(k);
    }
  }

  inline static std::atomic<long> made_{0};

  std::size_t n_ = 0;
  std::size_t single_ = 0;             // so many places are eliminated one by one; those behind them in fronts
  std::vector<int> place_, place_at_;  // elimination order: place eliminated k-th, and back
  std::vector<int> begin_, row_;       // later neighbours of the k-th, ascending
  FrontShape fronts_;                  // numbers its places from 0
  std::vector<std::size_t> slot_;      // where each joint's conductance enters: behind row_'s, the fronts' blocks
};

/// The numeric part.
/// @tparam S  scalar: double, a pack of them, or a many-digit number
template <class S>
class StarMesh {
 public:
  /// From a shape, shared with others.
  explicit StarMesh(std::shared_ptr<const MeshShape> shape) : shape_(std::move(shape)), fronts_(shape_->fronts_) {
    mesh_.resize(shape_->row_.size());
    factor_.resize(shape_->row_.size());
    ground_.resize(shape_->places());
    inverse_.resize(shape_->places());
    work_.resize(shape_->places());
  }
  /// With a shape of its own.
  StarMesh(int places, const Joints& joints) : StarMesh(std::make_shared<const MeshShape>(places, joints)) {}

  /// Joints of the eliminated network, fill-in included.
  [[nodiscard]] std::size_t entries() const { return shape_->entries(); }

  /// Numeric part.
  /// @param joint   conductance of each joint, >= 0
  /// @param ground  conductance of each place to known potentials, >= 0
  void factor(const std::vector<S>& joint, const std::vector<S>& ground) {
    const std::size_t n = shape_->n_, single = shape_->single_;
    const int* const place = shape_->place_.data();
    const int* const begin = shape_->begin_.data();
    const int* const row = shape_->row_.data();
    std::fill(mesh_.begin(), mesh_.end(), S(0.0));
    std::fill(fronts_.block.begin(), fronts_.block.end(), S(0.0));
    for (std::size_t e = 0; e < shape_->slot_.size(); ++e) {
      const std::size_t slot = shape_->slot_[e];
      (slot < mesh_.size() ? mesh_[slot] : fronts_.block[slot - mesh_.size()]) += joint[e];
    }
    for (std::size_t i = 0; i < n; ++i) ground_[i] = ground[index(place[i])];
    for (std::size_t k = 0; k < single; ++k) {
      const int first = begin[k], last = begin[k + 1];
      S sum = ground_[k];
      for (int p = first; p < last; ++p) sum += mesh_[index(p)];
      inverse_[k] = physics::select<S>(sum > S(0.0), S(S(1.0) / sum), S(0.0));
      for (int p = first; p < last; ++p) {
        const S share = mesh_[index(p)] * inverse_[k];
        factor_[index(p)] = share;
        if (physics::all(!(share > S(0.0)))) continue;
        const std::size_t i = index(row[index(p)]);
        ground_[i] += share * ground_[k];
        // The later neighbours of k are neighbours of i too, in the same order: walk both lists.
        int slot = p + 1 < last ? begin[i] : 0;
        for (int q = p + 1; q < last; ++q) {
          while (row[index(slot)] != row[index(q)]) ++slot;
          mesh_[index(slot)] += share * mesh_[index(q)];
        }
      }
    }
    fronts_.add_known(ground_.data() + single);
    fronts_.factor(inverse_.data() + single);
  }

  /// Potentials from what flows in. A floating group (no conductance to a known potential) keeps its last place at 0,
  /// and its net inflow should be zero.
  /// @param x  in: net inflow at each place; out: potential
  void solve(std::vector<S>& x) {
    const std::size_t n = shape_->n_, single = shape_->single_;
    const int* const place = shape_->place_.data();
    const int* const begin = shape_->begin_.data();
    const int* const row = shape_->row_.data();
    for (std::size_t k = 0; k < n; ++k) work_[k] = x[index(place[k])];
    for (std::size_t k = 0; k < single; ++k) {
      for (int p = begin[k]; p < begin[k + 1]; ++p) work_[index(row[index(p)])] += factor_[index(p)] * work_[k];
    }
    fronts_.forward(work_.data() + single);
    fronts_.backward(work_.data() + single, inverse_.data() + single);
    for (std::size_t k = single; k-- > 0;) {
      S sum = work_[k] * inverse_[k];
      for (int p = begin[k]; p < begin[k + 1]; ++p) sum += factor_[index(p)] * work_[index(row[index(p)])];
      work_[k] = sum;
    }
    for (std::size_t k = 0; k < n; ++k) x[index(place[k])] = work_[k];
  }

 private:
  static std::size_t index(int i) { return static_cast<std::size_t>(i); }

  std::shared_ptr<const MeshShape> shape_;
  std::vector<S> mesh_, factor_, ground_, inverse_, work_;
  Fronts<S> fronts_;
};

}  // namespace libflow
