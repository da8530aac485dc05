// SPDX-License-Identifier: MIT
/// @file
/// Shape of the fronts against plain counting: an elimination on sets, place by place.
#include <algorithm>
#include <cstddef>
#include <numeric>
#include <set>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/front_shape.hpp>
#include <libflow/solve/nested_dissection.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace front_shape_test {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

PlaceGraph grid(int n) {
  Joints joints;
  for (int i = 0; i < n * n; ++i) {
    if (i % n + 1 < n) joints.push_back({i, i + 1});
    if (i + n < n * n) joints.push_back({i, i + n});
  }
  return {at(n * n), joints};
}
PlaceGraph web(int places, int more, test::Dice& dice) {
  Joints joints;
  for (int i = 1; i < places; ++i) joints.push_back({i, static_cast<int>(dice.below(at(i)))});
  for (int k = 0; k < more; ++k) {
    const int a = static_cast<int>(dice.below(at(places))), b = static_cast<int>(dice.below(at(places)));
    if (a != b) joints.push_back({a, b});
  }
  return {at(places), joints};
}

/// Later neighbours of each place when the places are eliminated in this order, by position.
std::vector<std::set<int>> eliminated(const PlaceGraph& graph, const std::vector<int>& order) {
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
std::size_t entries(const std::vector<std::set<int>>& later) {
  std::size_t sum = 0;
  for (const auto& l : later) sum += l.size();
  return sum;
}

/// Zeros that a front may hold by the header's rule: none counted to a width of 8 and in a small subtree of 12 places,
/// then 40, 15 and 5 % of its entries. A wide front may have a small subtree at its lower end.
double most_zeros(const FrontShape::Front& f) {
  const double width = f.width, all = width * (width - 1.0) / 2.0 + width * f.count;
  if (f.width <= 12) return all;
  return (f.width <= 24 ? 0.4 : (f.width <= 64 ? 0.15 : 0.05)) * all + 12.0 * (width + f.count);
}

struct Case {
  PlaceGraph graph;
  std::vector<int> order;
};
std::vector<Case> cases() {
  test::Dice dice(41);
  std::vector<Case> all;
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

// Fronts are stretches of places, in order; each holds the later neighbours of its last place and no others; few zeros
// come in by taking places together, and many places are taken together.
TEST(FrontShape, HoldsWhatAnEliminationPlaceByPlaceMakes) {
  for (Case& c : cases()) {
    const std::size_t before = entries(eliminated(c.graph, c.order));
    const FrontShape shape(c.graph, c.order);
    const auto later = eliminated(c.graph, c.order);
    EXPECT_EQ(entries(later), before);  // an equivalent order
    std::size_t kept = 0;
    EXPECT_LE(shape.fronts().size(), c.order.size() / 4 + 1);
    int next = 0;
    std::size_t block = 0, widest = 0;
    std::vector<int> front_of(c.order.size());
    for (std::size_t s = 0; s < shape.fronts().size(); ++s) {
      const FrontShape::Front& f = shape.fronts()[s];
      ASSERT_EQ(f.first, next);
      ASSERT_GT(f.width, 0);
      for (; next < f.first + f.width; ++next) front_of[at(next)] = static_cast<int>(s);
      const auto begin = shape.later().begin() + static_cast<std::ptrdiff_t>(f.rest);
      EXPECT_EQ(std::set<int>(begin, begin + f.count), later[at(next - 1)]);
      EXPECT_TRUE(std::is_sorted(begin, begin + f.count));
      const std::size_t all = at(f.width) * at(f.width - 1) / 2 + at(f.width) * at(f.count);
      EXPECT_LE(static_cast<double>(all - entries({later.begin() + f.first, later.begin() + next})), most_zeros(f));
      kept += all;
      EXPECT_EQ(f.columns(), f.width + f.count + 1);
      EXPECT_EQ(f.block, block);
      block += at(f.width) * at(f.columns());
      widest = std::max(widest, at(f.width) * at(f.columns()));
    }
    EXPECT_EQ(at(next), c.order.size());
    EXPECT_EQ(shape.entries(), kept);
    EXPECT_EQ(shape.block_size(), block);
    EXPECT_EQ(shape.widest(), widest);
    for (const FrontShape::Front& f : shape.fronts()) {
      EXPECT_EQ(f.parent, f.count == 0 ? -1 : front_of[at(shape.later()[f.rest])]);
    }
  }
}

// Every joint has one number of its own in the store, and a later neighbour its column in the parent's block.
TEST(FrontShape, EveryJointHasItsPlace) {
  for (Case& c : cases()) {
    const FrontShape shape(c.graph, c.order);
    const auto later = eliminated(c.graph, c.order);
    std::set<std::size_t> taken;
    std::size_t joints = 0;
    for (std::size_t k = 0; k < later.size(); ++k) {
      for (const int j : later[k]) {
        const std::size_t slot = shape.slot(static_cast<int>(k), j);
        EXPECT_EQ(slot, shape.slot(j, static_cast<int>(k)));
        EXPECT_LT(slot, shape.block_size());
        taken.insert(slot);
        ++joints;
      }
    }
    EXPECT_EQ(taken.size(), joints);
    for (const FrontShape::Front& f : shape.fronts()) {
      if (f.parent < 0) continue;
      const FrontShape::Front& p = shape.fronts()[at(f.parent)];
      for (std::size_t k = f.rest; k < f.rest + at(f.count); ++k) {
        const int i = shape.later()[k], column = shape.into()[k];
        if (i < p.first + p.width) {
          EXPECT_EQ(column, i - p.first);
        } else {
          EXPECT_EQ(shape.later()[p.rest + at(column - p.width)], i);
        }
      }
    }
  }
}

// The store of updates that wait for their parents is as large as the worst moment needs, and no larger.
TEST(FrontShape, StoreOfWaitingUpdates) {
  for (Case& c : cases()) {
    const FrontShape shape(c.graph, c.order);
    std::vector<std::size_t> update;
    std::vector<std::vector<std::size_t>> children(shape.fronts().size());
    std::size_t waiting = 0, most = 0;
    for (std::size_t s = 0; s < shape.fronts().size(); ++s) {
      const FrontShape::Front& f = shape.fronts()[s];
      update.push_back(at(f.count) * at(f.count + 1));  // a square of the later neighbours, and the known potentials
      most = std::max(most, waiting + update[s]);
      for (const std::size_t child : children[s]) waiting -= update[child];
      waiting += update[s];
      if (f.parent >= 0) children[at(f.parent)].push_back(s);
    }
    EXPECT_EQ(shape.waiting_size(), most);
    EXPECT_EQ(waiting, 0U);
  }
}

}  // namespace front_shape_test
}  // namespace libflow
