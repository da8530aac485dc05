// SPDX-License-Identifier: MIT
/// @file
/// The elimination tree against an elimination on sets, place by place.
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/elimination_tree.hpp>
#include <tests/support/eliminations.hpp>

namespace libflow {
namespace elimination_tree_test {

using test::at;

std::vector<int> position_in(const std::vector<int>& order) {
  std::vector<int> position(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) position[at(order[k])] = static_cast<int>(k);
  return position;
}

TEST(EliminationTree, AParentIsTheFirstLaterNeighbour) {
  for (const test::Elimination& c : test::eliminations()) {
    const std::vector<int> parent = elimination_tree(c.graph, c.order, position_in(c.order));
    const auto later = test::eliminated(c.graph, c.order);
    for (std::size_t k = 0; k < later.size(); ++k) EXPECT_EQ(parent[k], later[k].empty() ? -1 : *later[k].begin());
  }
}

// Every subtree is a stretch that ends with its root, the order is an equivalent one, and the tree is that of the
// order.
TEST(EliminationTree, InPostorderASubtreeEndsWithItsRoot) {
  for (const test::Elimination& c : test::eliminations()) {
    std::vector<int> order = c.order, parent = elimination_tree(c.graph, order, position_in(order));
    put_in_postorder(parent, order);
    EXPECT_EQ(parent, elimination_tree(c.graph, order, position_in(order)));
    EXPECT_EQ(test::entries(test::eliminated(c.graph, order)), test::entries(test::eliminated(c.graph, c.order)));
    std::vector<int> size(order.size(), 1);
    for (int k = 0; k < static_cast<int>(order.size()); ++k) {
      if (parent[at(k)] >= 0) size[at(parent[at(k)])] += size[at(k)];
      for (int i = k - size[at(k)] + 1; i < k; ++i) {
        EXPECT_GT(parent[at(i)], i);
        EXPECT_LE(parent[at(i)], k) << "of the subtree of " << k;
      }
    }
  }
}

TEST(EliminationTree, CountsLaterNeighboursWithoutEliminating) {
  for (const test::Elimination& c : test::eliminations()) {
    std::vector<int> order = c.order, parent = elimination_tree(c.graph, order, position_in(order));
    put_in_postorder(parent, order);
    const std::vector<int> count = later_counts(c.graph, order, position_in(order), parent);
    const auto later = test::eliminated(c.graph, order);
    for (std::size_t k = 0; k < later.size(); ++k) EXPECT_EQ(at(count[k]), later[k].size() + 1) << k;
  }
}

}  // namespace elimination_tree_test
}  // namespace libflow
