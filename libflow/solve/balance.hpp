// SPDX-License-Identifier: MIT
/// @file
/// Balances a network's places to the last digit where the linear algebra cannot.
///
/// The flow of an edge is its conductance times a difference of potentials. Where conductances of 1e9 and 1e-15 meet,
/// or thousands of edges meet in one place, the rounding of that product leaves more imbalance than is allowed, and
/// solving again for what is left leaves as much again. Sending what is left along the edges of a tree, from its leaves
/// to the held places, needs sums alone. The tree takes the best conductors, in which a flow more or less drops least
/// (a maximum spanning tree: J. B. Kruskal, Proc. Am. Math. Soc. 7 (1956) 48, from memory).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include <libflow/solve/rounding.hpp>

namespace libflow {

/// What flows into each unknown place and does not flow out [m3/s], each sum compensated.
/// @param a, b    ends by edge; from `inflow.size()` on: held places
/// @param inflow  pushed in, by unknown place
inline void exact_imbalance(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b,
                            const std::vector<double>& inflow, const std::vector<double>& flow,
                            std::vector<double>& imbalance) {
  const std::size_t n = inflow.size();
  std::vector<CompensatedSum> sum;
  sum.reserve(n);
  for (const double q : inflow) sum.emplace_back(q);
  for (std::size_t e = 0; e < flow.size(); ++e) {
    if (a[e] < n) sum[a[e]].add(-flow[e]);
    if (b[e] < n) sum[b[e]].add(flow[e]);
  }
  for (std::size_t i = 0; i < n; ++i) imbalance[i] = sum[i].value();
}

/// Sends the imbalance of every unknown place to a held one, along a tree of the best conductors.
/// @param conductance  by edge; 0: not to be used
/// @param flow         in and out
/// @param imbalance    out: of the new flows; what a group of places joined to no held one cannot send away stays
inline void balance_along_tree(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b,
                               const std::vector<double>& conductance, const std::vector<double>& inflow,
                               std::vector<double>& flow, std::vector<double>& imbalance) {
  struct Twig {
    std::size_t edge, beyond;
  };
  const std::size_t n = inflow.size();  // as a place: everything held
  std::vector<std::size_t> best, group(n + 1);
  for (std::size_t e = 0; e < flow.size(); ++e) {
    if (conductance[e] > 0.0) best.push_back(e);
  }
  std::stable_sort(best.begin(), best.end(),
                   [&](std::size_t i, std::size_t j) { return conductance[i] > conductance[j]; });
  std::iota(group.begin(), group.end(), std::size_t{0});
  const auto find = [&](std::size_t i) {
    while (group[i] != i) i = group[i] = group[group[i]];
    return i;
  };
  std::vector<std::vector<Twig>> twigs(n + 1);
  for (const std::size_t e : best) {
    const std::size_t i = std::min(a[e], n), j = std::min(b[e], n);
    if (find(i) == find(j)) continue;
    group[find(i)] = find(j);
    twigs[i].push_back({e, j});
    twigs[j].push_back({e, i});
  }

  // Away from the held places, and from any one place of a group that has none; then back.
  struct Step {
    std::size_t place, edge, toward;
  };
  std::vector<Step> outward;
  std::vector<char> seen(n + 1, 0);
  std::vector<std::size_t> todo;
  for (std::size_t root = n + 1; root-- > 0;) {
    if (seen[root] != 0) continue;
    seen[root] = 1;
    todo.push_back(root);
    while (!todo.empty()) {
      const std::size_t at = todo.back();
      todo.pop_back();
      for (const Twig& t : twigs[at]) {
        if (seen[t.beyond] != 0) continue;
        seen[t.beyond] = 1;
        outward.push_back({t.beyond, t.edge, at});
        todo.push_back(t.beyond);
      }
    }
  }
  exact_imbalance(a, b, inflow, flow, imbalance);
  for (std::size_t k = outward.size(); k-- > 0;) {
    const auto [place, edge, toward] = outward[k];
    const double before = flow[edge];
    flow[edge] += a[edge] == place ? imbalance[place] : -imbalance[place];
    const double moved = a[edge] == place ? flow[edge] - before : before - flow[edge];
    imbalance[place] -= moved;
    if (toward < n) imbalance[toward] += moved;
  }
  exact_imbalance(a, b, inflow, flow, imbalance);
}

}  // namespace libflow
