// SPDX-License-Identifier: MIT
/// @file
/// Graphs of places with an order of elimination each, and plain counting: an elimination on sets, place by place.
#pragma once

#include <cstddef>
#include <iterator>
#include <set>
#include <vector>

#include <libflow/solve/nested_dissection.hpp>
#include <libflow/solve/place_graph.hpp>
#include <tests/support/sketch.hpp>

namespace libflow::test {

inline std::size_t at(int i) { return static_cast<std::size_t>(i); }

inline PlaceGraph grid(int n) {
  Joints joints;
  for (int i = 0; i < n * n; ++i) {
    if (i % n + 1 < n) joints.push_back({i, i + 1});
    if (i + n < n * n) joints.push_back({i, i + n});
  }
  return {at(n * n), joints};
}
inline PlaceGraph web(int places, int more, Dice& dice) {
  Joints joints;
  for (int i = 1; i < places; ++i) joints.push_back({i, static_cast<int>(dice.below(at(i)))});
  for (int k = 0; k < more; ++k) {
    const int a = static_cast<int>(dice.below(at(places))), b = static_cast<int>(dice.below(at(places)));
    if (a != b) joints.push_back({a, b});
  }
  return {at(places), joints};
}

/// Later neighbours of each place when the places are eliminated in this order, by position.
inline std::vector<std::set<int>> eliminated(const PlaceGraph& graph, const std::vector<int>& order) {
  std::vector<int> position(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) position[at(order[k])] = static_cast<int>(k);
  std::vector<std::set<int>> later(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    graph.each_neighbour(order[k], [&](int j) {
      if (position[at(j)] > static_cast<int>(k)) later[k].insert(position[at(j)]);
    });
  }
  for (auto& l : later) {
    // The first later neighbour stands for the whole mesh between them.
    if (!l.empty()) later[at(*l.begin())].insert(std::next(l.begin()), l.end());
  }
  return later;
}
inline std::size_t entries(const std::vector<std::set<int>>& later) {
  std::size_t sum = 0;
  for (const auto& l : later) sum += l.size();
  return sum;
}

/// Places, and the order in which they are eliminated.
struct Elimination {
  PlaceGraph graph;
  std::vector<int> order;
};
inline std::vector<Elimination> eliminations() {
  Dice dice(41);
  std::vector<Elimination> all;
  for (const int n : {2, 7, 20, 34}) {
    all.push_back({grid(n), nested_dissection(grid(n))});
    all.push_back({grid(n), grid(n).minimum_degree()});
  }
  // Two groups of their own: the last place of the first has no parent.
  Joints two;
  for (int i = 0; i < 400; ++i) {
    if (i % 20 != 19) two.push_back({i, i + 1});
    if (i + 20 < 400 && i / 20 != 9) two.push_back({i, i + 20});
  }
  const PlaceGraph halves(400, two);
  all.push_back({halves, halves.minimum_degree()});
  all.push_back({halves, nested_dissection(halves)});
  for (const int n : {30, 300}) {
    const PlaceGraph w = web(n, n, dice);
    all.push_back({w, w.minimum_degree()});
  }
  return all;
}

}  // namespace libflow::test
