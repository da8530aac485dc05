// SPDX-License-Identifier: MIT
/// @file
/// Linear networks of conductances, solved by star-mesh elimination.
///
/// Eliminating a place replaces the star of conductances around it by a mesh between its neighbours. Every
/// conductance made this way is a sum of positive terms, so nothing cancels: however far the conductances differ, each
/// one keeps almost full relative accuracy, and a group of places that no conductance joins to a known potential is
/// recognised exactly, by a sum that is exactly zero. It is Cholesky factorisation of the network's Laplacian with
/// the diagonal kept as a sum instead of a difference.
/// Source: A. Rosen, J. IEE 62 (1924) 916 (star-mesh transform, from memory); accuracy: J. Demmel, P. Koev, Math.
/// Comp. 74 (2005) 223, and J. Demmel and others, Linear Algebra Appl. 299 (1999) 21 (from memory).
#pragma once

#include <algorithm>
#include <array>
#include <atomic>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>

namespace libflow {

/// Pairs of unknown places joined by a conductance.
using Joints = std::vector<std::array<int, 2>>;

/// The symbolic part of the elimination: its order and the joints that it makes. Done once for a shape and shared by
/// all that solve it.
class MeshShape {
 public:
  /// @param places  number of places with unknown potential
  /// @param joints  which of them are joined; conductances come in this order later
  MeshShape(int places, const Joints& joints) : n_(static_cast<std::size_t>(places)) {
    ++made_;
    order(joints);
    std::vector<std::vector<int>> columns(n_);
    for (const auto& [a, b] : joints) {
      const auto [i, j] = std::minmax(place_at_[index(a)], place_at_[index(b)]);
      columns[index(i)].push_back(j);
    }
    fill_in(columns);
    slot_.reserve(joints.size());
    for (const auto& [a, b] : joints) {
      const auto [i, j] = std::minmax(place_at_[index(a)], place_at_[index(b)]);
      const auto first = row_.begin() + begin_[index(i)];
      slot_.push_back(static_cast<int>(std::lower_bound(first, row_.begin() + begin_[index(i) + 1], j) - row_.begin()));
    }
  }

  [[nodiscard]] std::size_t places() const { return n_; }
  /// Joints of the eliminated network, fill-in included.
  [[nodiscard]] std::size_t entries() const { return row_.size(); }
  /// How many shapes this program has made: that solving again does not make another is tested with it.
  [[nodiscard]] static long made() { return made_; }

 private:
  template <class S>
  friend class StarMesh;

  static std::size_t index(int i) { return static_cast<std::size_t>(i); }

  /// Elimination order: places with one neighbour first, again and again (a tree is done then, without fill-in), what
  /// is left by approximate minimum degree.
  void order(const Joints& joints) {
    place_.clear();
    place_.reserve(n_);
    place_at_.assign(n_, -1);
    std::vector<std::vector<int>> neighbours(n_);
    for (const auto& [a, b] : joints) {
      neighbours[index(a)].push_back(b);
      neighbours[index(b)].push_back(a);
    }
    std::vector<std::size_t> degree(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      auto& list = neighbours[i];
      std::sort(list.begin(), list.end());
      list.erase(std::unique(list.begin(), list.end()), list.end());
      degree[i] = list.size();
    }
    const auto eliminate = [&](int place) {
      place_at_[index(place)] = static_cast<int>(place_.size());
      place_.push_back(place);
    };
    for (std::size_t i = 0; i < n_; ++i) {
      if (place_at_[i] < 0 && degree[i] <= 1) eliminate(static_cast<int>(i));
    }
    for (std::size_t k = 0; k < place_.size(); ++k) {
      for (const int next : neighbours[index(place_[k])]) {
        if (place_at_[index(next)] < 0 && --degree[index(next)] <= 1) eliminate(next);
      }
    }
    if (place_.size() == n_) return;

    std::vector<int> left, number(n_, -1);
    for (std::size_t i = 0; i < n_; ++i) {
      if (place_at_[i] >= 0) continue;
      number[i] = static_cast<int>(left.size());
      left.push_back(static_cast<int>(i));
    }
    using Matrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;
    std::vector<Eigen::Triplet<double>> pattern;
    pattern.reserve(joints.size() + left.size());
    for (std::size_t i = 0; i < left.size(); ++i) pattern.emplace_back(static_cast<int>(i), static_cast<int>(i), 1.0);
    for (const auto& [a, b] : joints) {
      const int i = number[index(a)], j = number[index(b)];
      if (i >= 0 && j >= 0) pattern.emplace_back(std::max(i, j), std::min(i, j), 1.0);
    }
    Matrix lower(static_cast<int>(left.size()), static_cast<int>(left.size()));
    lower.setFromTriplets(pattern.begin(), pattern.end());
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> permutation;
    Eigen::AMDOrdering<int>()(lower.selfadjointView<Eigen::Lower>(), permutation);
    for (Eigen::Index k = 0; k < permutation.size(); ++k) eliminate(left[index(permutation.indices()[k])]);
  }

  /// Pattern of the eliminated network: a column gets its own later neighbours and those of its children in the
  /// elimination tree.
  void fill_in(std::vector<std::vector<int>>& columns) {
    std::vector<std::vector<int>> children(n_);
    begin_.assign(n_ + 1, 0);
    for (std::size_t k = 0; k < n_; ++k) {
      auto& column = columns[k];
      for (const int child : children[k]) {
        for (int p = begin_[index(child)]; p < begin_[index(child) + 1]; ++p) {
          if (row_[index(p)] != static_cast<int>(k)) column.push_back(row_[index(p)]);
        }
      }
      std::sort(column.begin(), column.end());
      column.erase(std::unique(column.begin(), column.end()), column.end());
      if (!column.empty()) children[index(column.front())].push_back(static_cast<int>(k));
      row_.insert(row_.end(), column.begin(), column.end());
      begin_[k + 1] = static_cast<int>(row_.size());
      column = {};
    }
  }

  inline static std::atomic<long> made_{0};

  std::size_t n_ = 0;
  std::vector<int> place_, place_at_;  // elimination order: place eliminated k-th, and back
  std::vector<int> begin_, row_;       // later neighbours of the k-th, ascending
  std::vector<int> slot_;              // where each joint's conductance enters
};

/// The numeric part.
/// @tparam S  scalar: double or a many-digit number
template <class S>
class StarMesh {
 public:
  explicit StarMesh(std::shared_ptr<const MeshShape> shape) : shape_(std::move(shape)) {
    mesh_.resize(shape_->entries());
    factor_.resize(shape_->entries());
    ground_.resize(shape_->places());
    inverse_.resize(shape_->places());
    work_.resize(shape_->places());
  }
  StarMesh(int places, const Joints& joints) : StarMesh(std::make_shared<const MeshShape>(places, joints)) {}

  /// Joints of the eliminated network, fill-in included.
  [[nodiscard]] std::size_t entries() const { return shape_->entries(); }

  /// Numeric part.
  /// @param joint   conductance of each joint, >= 0
  /// @param ground  conductance of each place to known potentials, >= 0
  void factor(const std::vector<S>& joint, const std::vector<S>& ground) {
    const std::size_t n = shape_->n_;
    const int* const place = shape_->place_.data();
    const int* const begin = shape_->begin_.data();
    const int* const row = shape_->row_.data();
    std::fill(mesh_.begin(), mesh_.end(), S(0.0));
    for (std::size_t e = 0; e < shape_->slot_.size(); ++e) mesh_[index(shape_->slot_[e])] += joint[e];
    for (std::size_t i = 0; i < n; ++i) ground_[i] = ground[index(place[i])];
    for (std::size_t k = 0; k < n; ++k) {
      const int first = begin[k], last = begin[k + 1];
      S sum = ground_[k];
      for (int p = first; p < last; ++p) sum += mesh_[index(p)];
      inverse_[k] = sum > S(0.0) ? S(S(1.0) / sum) : S(0.0);
      for (int p = first; p < last; ++p) {
        const S share = mesh_[index(p)] * inverse_[k];
        factor_[index(p)] = share;
        if (!(share > S(0.0))) continue;
        const std::size_t i = index(row[index(p)]);
        ground_[i] += share * ground_[k];
        // The later neighbours of k are neighbours of i too, in the same order: walk both lists.
        int slot = begin[i];
        for (int q = p + 1; q < last; ++q) {
          while (row[index(slot)] != row[index(q)]) ++slot;
          mesh_[index(slot)] += share * mesh_[index(q)];
        }
      }
    }
  }

  /// Potentials from what flows in. A floating group (no conductance to a known potential) keeps its last place at 0,
  /// and its net inflow should be zero.
  /// @param x  in: net inflow at each place; out: potential
  void solve(std::vector<S>& x) {
    const std::size_t n = shape_->n_;
    const int* const place = shape_->place_.data();
    const int* const begin = shape_->begin_.data();
    const int* const row = shape_->row_.data();
    for (std::size_t k = 0; k < n; ++k) work_[k] = x[index(place[k])];
    for (std::size_t k = 0; k < n; ++k) {
      for (int p = begin[k]; p < begin[k + 1]; ++p) work_[index(row[index(p)])] += factor_[index(p)] * work_[k];
    }
    for (std::size_t k = n; k-- > 0;) {
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
};

}  // namespace libflow
