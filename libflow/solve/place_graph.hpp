// SPDX-License-Identifier: MIT
/// @file
/// Who is joined to whom, in compact lists: what orders of elimination are found on.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>

namespace libflow {

/// Pairs of unknown places joined by a conductance.
using Joints = std::vector<std::array<int, 2>>;

/// An undirected graph: the neighbours of place i are next[begin[i]] .. next[begin[i + 1] - 1], none twice.
struct PlaceGraph {
  std::vector<int> begin{0};  ///< where the neighbours of each place begin in `next`
  std::vector<int> next;      ///< neighbours, place by place

  PlaceGraph() = default;
  /// From joints; parallel ones count once.
  PlaceGraph(std::size_t places, const Joints& joints) : begin(places + 2, 0), next(2 * joints.size()) {
    for (const auto& [a, b] : joints) {
      ++begin[at(a) + 2];
      ++begin[at(b) + 2];
    }
    for (std::size_t i = 2; i < begin.size(); ++i) begin[i] += begin[i - 1];
    for (const auto& [a, b] : joints) {
      next[at(begin[at(a) + 1]++)] = b;
      next[at(begin[at(b) + 1]++)] = a;
    }
    begin.pop_back();
    drop_repeats();
  }

  /// Number of places.
  [[nodiscard]] std::size_t size() const { return begin.size() - 1; }
  /// Number of neighbours of a place.
  [[nodiscard]] int degree(int i) const { return begin[at(i) + 1] - begin[at(i)]; }

  /// Calls visit(j) for every neighbour of a place.
  template <class Visit>
  void each_neighbour(int i, Visit visit) const {
    for (int k = begin[at(i)]; k < begin[at(i) + 1]; ++k) visit(next[at(k)]);
  }

  /// The part of the graph on `members`, numbered in that order.
  /// @param number  work space, one for each place of this graph, all -1; all -1 again afterwards
  [[nodiscard]] PlaceGraph within(const std::vector<int>& members, std::vector<int>& number) const {
    PlaceGraph g;
    g.begin.reserve(members.size() + 1);
    for (std::size_t k = 0; k < members.size(); ++k) number[at(members[k])] = static_cast<int>(k);
    for (const int i : members) {
      each_neighbour(i, [&](int j) {
        if (number[at(j)] >= 0) g.next.push_back(number[at(j)]);
      });
      g.begin.push_back(static_cast<int>(g.next.size()));
    }
    for (const int i : members) number[at(i)] = -1;
    return g;
  }

  /// Order by approximate minimum degree (P. Amestoy, T. Davis, I. Duff 1996, as in Eigen).
  [[nodiscard]] std::vector<int> minimum_degree() const {
    const auto n = static_cast<int>(size());
    using Matrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;
    std::vector<Eigen::Triplet<double>> pattern;
    pattern.reserve(size() + next.size() / 2);
    for (int i = 0; i < n; ++i) {
      pattern.emplace_back(i, i, 1.0);
      each_neighbour(i, [&](int j) {
        if (j > i) pattern.emplace_back(j, i, 1.0);
      });
    }
    Matrix lower(n, n);
    lower.setFromTriplets(pattern.begin(), pattern.end());
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> permutation;
    Eigen::AMDOrdering<int>()(lower.selfadjointView<Eigen::Lower>(), permutation);
    return {permutation.indices().begin(), permutation.indices().end()};
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }

  void drop_repeats() {
    int kept = 0;
    for (std::size_t i = 0; i + 1 < begin.size(); ++i) {
      const auto first = next.begin() + begin[i], last = next.begin() + begin[i + 1];
      begin[i] = kept;
      std::sort(first, last);
      const auto end = std::unique(first, last);
      std::copy(first, end, next.begin() + kept);
      kept += static_cast<int>(end - first);
    }
    begin.back() = kept;
    next.resize(at(kept));
  }
};

}  // namespace libflow
