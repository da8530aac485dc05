// SPDX-License-Identifier: MIT
/// @file
/// The elimination tree of a large looped network: whose elimination changes which later place, and how many.
///
/// Sources: J. Liu, SIAM J. Matrix Anal. Appl. 11 (1990) 134 (elimination trees); J. Gilbert, E. Ng, B. Peyton, same
/// journal 15 (1994) 1075 (counts without the elimination itself) (both from memory).
#pragma once

#include <cstddef>
#include <vector>

#include <libflow/solve/place_graph.hpp>

namespace libflow {

namespace elimination_detail {
/// Place numbers are ints here: -1 is none.
inline std::size_t at(int i) { return static_cast<std::size_t>(i); }
}  // namespace elimination_detail

/// The first later neighbour of each place once it is eliminated; -1: none.
/// @param order     place eliminated k-th
/// @param position  of each place in that order; so are places numbered in what is returned
[[nodiscard]] inline std::vector<int> elimination_tree(const PlaceGraph& graph, const std::vector<int>& order,
                                                       const std::vector<int>& position) {
  using elimination_detail::at;
  std::vector<int> parent(order.size(), -1), top(order.size(), -1);
  for (std::size_t k = 0; k < order.size(); ++k) {
    graph.each_neighbour(order[k], [&](int j) {
      for (int i = position[at(j)]; i >= 0 && i < static_cast<int>(k);) {
        const int next = top[at(i)];
        top[at(i)] = static_cast<int>(k);
        if (next < 0) parent[at(i)] = static_cast<int>(k);
        i = next;
      }
    });
  }
  return parent;
}

/// Renumbers so that each subtree is a stretch that ends with its root: an equivalent order.
/// @param parent  as elimination_tree; @param order  changed with it
inline void put_in_postorder(std::vector<int>& parent, std::vector<int>& order) {
  using elimination_detail::at;
  const auto n = static_cast<int>(parent.size());
  std::vector<int> child(at(n), -1), sibling(at(n), -1), sorted, stack;
  for (int i = n; i-- > 0;) {
    if (parent[at(i)] < 0) continue;
    sibling[at(i)] = child[at(parent[at(i)])];
    child[at(parent[at(i)])] = i;
  }
  for (int root = 0; root < n; ++root) {
    if (parent[at(root)] >= 0) continue;
    stack.push_back(root);
    while (!stack.empty()) {
      const int i = stack.back(), c = child[at(i)];
      if (c >= 0) {
        child[at(i)] = sibling[at(c)];
        stack.push_back(c);
      } else {
        stack.pop_back();
        sorted.push_back(i);
      }
    }
  }
  std::vector<int> number(at(n)), old_parent = parent, old_order = order;
  for (int k = 0; k < n; ++k) number[at(sorted[at(k)])] = k;
  for (int k = 0; k < n; ++k) {
    const int i = sorted[at(k)];
    order[at(k)] = old_order[at(i)];
    parent[at(k)] = old_parent[at(i)] < 0 ? -1 : number[at(old_parent[at(i)])];
  }
}

/// Later neighbours of each place once it is eliminated, and itself, counted.
/// @param order  in postorder; @param position  in it; @param parent  as elimination_tree of it
[[nodiscard]] inline std::vector<int> later_counts(const PlaceGraph& graph, const std::vector<int>& order,
                                                   const std::vector<int>& position, const std::vector<int>& parent) {
  using elimination_detail::at;
  const auto n = static_cast<int>(order.size());
  std::vector<int> count(at(n)), first(at(n), -1), most_first(at(n), -1), previous_leaf(at(n), -1), ancestor(at(n));
  for (int k = 0; k < n; ++k) {
    count[at(k)] = first[at(k)] < 0 ? 1 : 0;
    for (int i = k; i >= 0 && first[at(i)] < 0; i = parent[at(i)]) first[at(i)] = k;
    ancestor[at(k)] = k;
  }
  for (int j = 0; j < n; ++j) {
    if (parent[at(j)] >= 0) --count[at(parent[at(j)])];
    graph.each_neighbour(order[at(j)], [&](int neighbour) {
      const int i = position[at(neighbour)];
      // Is j a leaf of the subtree of places that reach i?
      if (i <= j || first[at(j)] <= most_first[at(i)]) return;
      most_first[at(i)] = first[at(j)];
      const int leaf = previous_leaf[at(i)];
      previous_leaf[at(i)] = j;
      ++count[at(j)];
      if (leaf < 0) return;
      int common = leaf;
      while (common != ancestor[at(common)]) common = ancestor[at(common)];
      for (int s = leaf; s != common;) {
        const int up = ancestor[at(s)];
        ancestor[at(s)] = common;
        s = up;
      }
      --count[at(common)];
    });
    if (parent[at(j)] >= 0) ancestor[at(j)] = parent[at(j)];
  }
  for (int j = 0; j < n; ++j) {
    if (parent[at(j)] >= 0) count[at(parent[at(j)])] += count[at(j)];
  }
  return count;
}

}  // namespace libflow
