// SPDX-License-Identifier: MIT
/// @file
/// Fronts: which places of a large looped network are eliminated together, and in which order.
///
/// Places that are eliminated one after another and have the same later neighbours form a front (fronts.hpp).
/// Sources: I. Duff, J. Reid, ACM Trans. Math. Softw. 9 (1983) 302 (fronts); C. Ashcraft, R. Grimes, same journal 15
/// (1989) 291 (joining small fronts) (both from memory).
#pragma once

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/solve/elimination_tree.hpp>
#include <libflow/solve/place_graph.hpp>

namespace libflow {

/// Which places form fronts, and how fronts hand on to each other. Places are numbered as they are eliminated.
class FrontShape {
 public:
  /// Places that are eliminated together.
  struct Front {
    int first, width;   ///< its places: first .. first + width - 1
    std::size_t rest;   ///< its later neighbours: later()[rest .. rest + count)
    int count;          ///< so many later neighbours
    int parent;         ///< front that its first later neighbour is in; -1: none
    std::size_t block;  ///< its rows begin here in the store of all blocks
    [[nodiscard]] int columns() const { return width + count + 1; }  ///< known potentials last
  };

  FrontShape() = default;
  /// @param graph  of the places to eliminate
  /// @param order  place eliminated k-th; changed to an equivalent order in which fronts are neighbours
  FrontShape(const PlaceGraph& graph, std::vector<int>& order) {
    const std::size_t n = order.size();
    std::vector<int> position(n);
    const auto place = [&] {
      for (std::size_t k = 0; k < n; ++k) position[at(order[k])] = static_cast<int>(k);
    };
    place();
    std::vector<int> parent = elimination_tree(graph, order, position);
    put_in_postorder(parent, order);
    place();
    const std::vector<int> count = later_counts(graph, order, position, parent);
    find_fronts(parent, count);
    find_later(graph, order, position);
  }

  /// In the order of elimination.
  [[nodiscard]] const std::vector<Front>& fronts() const { return fronts_; }
  /// Later neighbours of all fronts, front by front.
  [[nodiscard]] const std::vector<int>& later() const { return later_; }
  /// Column of the parent's block that each later neighbour is in.
  [[nodiscard]] const std::vector<int>& into() const { return into_; }
  /// Numbers in the store of all blocks.
  [[nodiscard]] std::size_t block_size() const { return block_size_; }
  /// Largest size of the updates that wait at one time, and of one front's rows.
  [[nodiscard]] std::size_t waiting_size() const { return waiting_; }
  /// Largest size of one front's rows.
  [[nodiscard]] std::size_t widest() const { return widest_; }
  /// Conductances kept, zeros that fronts hold for their shape's sake included.
  [[nodiscard]] std::size_t entries() const {
    std::size_t sum = 0;
    for (const Front& f : fronts_) sum += at(f.width) * at(f.width - 1) / 2 + at(f.width) * at(f.count);
    return sum;
  }
  /// Where the conductance between two places (by position) is in the store of blocks.
  [[nodiscard]] std::size_t slot(int i, int j) const {
    if (i > j) std::swap(i, j);
    const Front& f = fronts_[at(front_of_[at(i)])];
    const auto first = later_.begin() + static_cast<std::ptrdiff_t>(f.rest);
    const auto column = j < f.first + f.width
                            ? j - f.first
                            : f.width + static_cast<int>(std::lower_bound(first, first + f.count, j) - first);
    return f.block + at(i - f.first) * at(f.columns()) + at(column);
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }

  /// Places with the same later neighbours; small subtrees whole; a front and its last child where few zeros come in.
  void find_fronts(const std::vector<int>& parent, const std::vector<int>& count) {
    const auto n = static_cast<int>(parent.size());
    constexpr int small_subtree = 12;
    std::vector<int> size(at(n), 1);
    for (int k = 0; k < n; ++k) {
      if (parent[at(k)] >= 0) size[at(parent[at(k)])] += size[at(k)];
    }
    const auto small = [&](int k) { return size[at(k)] <= small_subtree; };
    std::vector<int> starts;
    for (int k = 0; k < n; ++k) {
      const bool same =
          k > 0 && parent[at(k - 1)] == k && (small(k) || (!small(k - 1) && count[at(k)] == count[at(k - 1)] - 1));
      // A small subtree begins with its lowest place, not with each of its branches.
      if (same) {
        while (small(k) && starts.back() > k - size[at(k)] + 1) starts.pop_back();
      } else {
        starts.push_back(k);
      }
    }
    struct Draft {
      int first, width, count;  // count: later neighbours
      double zeros;
    };
    std::vector<Draft> drafts;
    for (std::size_t s = 0; s < starts.size(); ++s) {
      const int first = starts[s], end = s + 1 < starts.size() ? starts[s + 1] : n;
      Draft d{first, end - first, count[at(end - 1)] - 1, 0.0};
      // Join it with the front before it, when that is its last child, as long as that brings few zeros.
      while (!drafts.empty()) {
        const Draft& c = drafts.back();
        if (parent[at(c.first + c.width - 1)] < d.first || parent[at(c.first + c.width - 1)] >= end) break;
        const double width = c.width + d.width, all = width * (width - 1) / 2 + width * d.count;
        const double more = static_cast<double>(c.width) * (d.width + d.count - c.count);
        const double share = (c.zeros + d.zeros + more) / all;
        if (!(width <= 8 || (width <= 24 && share < 0.4) || (width <= 64 && share < 0.15) || share < 0.05)) break;
        d = {c.first, c.width + d.width, d.count, c.zeros + d.zeros + more};
        drafts.pop_back();
      }
      drafts.push_back(d);
    }
    front_of_.resize(at(n));
    for (const Draft& d : drafts) {
      for (int k = d.first; k < d.first + d.width; ++k) front_of_[at(k)] = static_cast<int>(fronts_.size());
      fronts_.push_back({.first = d.first, .width = d.width, .rest = 0, .count = 0, .parent = -1, .block = 0});
    }
  }

  /// Lists of later neighbours, places in the parents, sizes.
  void find_later(const PlaceGraph& graph, const std::vector<int>& order, const std::vector<int>& position) {
    std::vector<int> seen(order.size(), -1), last_child(fronts_.size(), -1), sibling(fronts_.size(), -1);
    for (int s = 0; s < static_cast<int>(fronts_.size()); ++s) {
      Front& f = fronts_[at(s)];
      const int end = f.first + f.width;
      f.rest = later_.size();
      const auto add = [&](int i) {
        if (i < end || seen[at(i)] == s) return;
        seen[at(i)] = s;
        later_.push_back(i);
      };
      for (int k = f.first; k < end; ++k) {
        graph.each_neighbour(order[at(k)], [&](int j) { add(position[at(j)]); });
      }
      for (int c = last_child[at(s)]; c >= 0; c = sibling[at(c)]) {
        const Front& child = fronts_[at(c)];
        for (std::size_t k = child.rest; k < child.rest + at(child.count); ++k) add(later_[k]);
      }
      std::sort(later_.begin() + static_cast<std::ptrdiff_t>(f.rest), later_.end());
      f.count = static_cast<int>(later_.size() - f.rest);
      f.block = block_size_;
      block_size_ += at(f.width) * at(f.columns());
      widest_ = std::max(widest_, at(f.width) * at(f.columns()));
      if (f.count == 0) continue;
      f.parent = front_of_[at(later_[f.rest])];
      sibling[at(s)] = last_child[at(f.parent)];
      last_child[at(f.parent)] = s;
    }
    into_.resize(later_.size());
    std::size_t waiting = 0;
    for (int s = 0; s < static_cast<int>(fronts_.size()); ++s) {
      const Front& f = fronts_[at(s)];
      const std::size_t own = at(f.count) * at(f.count + 1);
      waiting_ = std::max(waiting_, waiting + own);
      for (int c = last_child[at(s)]; c >= 0; c = sibling[at(c)]) {
        waiting -= at(fronts_[at(c)].count) * at(fronts_[at(c)].count + 1);
      }
      waiting += own;
      if (f.parent < 0) continue;
      const Front& p = fronts_[at(f.parent)];
      const int* next = later_.data() + p.rest;
      for (std::size_t k = f.rest; k < f.rest + at(f.count); ++k) {
        const int i = later_[k];
        if (i < p.first + p.width) {
          into_[k] = i - p.first;
          continue;
        }
        while (*next != i) ++next;
        into_[k] = p.width + static_cast<int>(next - (later_.data() + p.rest));
      }
    }
  }

  std::vector<Front> fronts_;
  std::vector<int> front_of_, later_, into_;
  std::size_t block_size_ = 0, waiting_ = 0, widest_ = 0;
};

}  // namespace libflow
