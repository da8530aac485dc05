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
#include <tests/support/eliminations.hpp>

namespace libflow {
namespace front_shape_test {

/// Zeros that a front may hold by the header's rule: none counted to a width of 8 and in a small subtree of 12 places,
/// then 40, 15 and 5 % of its entries. A wide front may have a small subtree at its lower end.
double most_zeros(const FrontShape::Front& f) {
  const double width = f.width, all = width * (width - 1.0) / 2.0 + width * f.count;
  if (f.width <= 12) return all;
  return (f.width <= 24 ? 0.4 : (f.width <= 64 ? 0.15 : 0.05)) * all + 12.0 * (width + f.count);
}

// Fronts are stretches of places, in order; each holds the later neighbours of its last place and no others; few zeros
// come in by taking places together, and many places are taken together.
TEST(FrontShape, HoldsWhatAnEliminationPlaceByPlaceMakes) {
  for (test::Elimination& c : test::eliminations()) {
    const std::size_t before = test::entries(test::eliminated(c.graph, c.order));
    const FrontShape shape(c.graph, c.order);
    const auto later = test::eliminated(c.graph, c.order);
    EXPECT_EQ(test::entries(later), before);  // an equivalent order
    std::size_t kept = 0;
    EXPECT_LE(shape.fronts().size(), c.order.size() / 4 + 1);
    int next = 0;
    std::size_t block = 0, widest = 0;
    std::vector<int> front_of(c.order.size());
    for (std::size_t s = 0; s < shape.fronts().size(); ++s) {
      const FrontShape::Front& f = shape.fronts()[s];
      ASSERT_EQ(f.first, next);
      ASSERT_GT(f.width, 0);
      for (; next < f.first + f.width; ++next) front_of[test::at(next)] = static_cast<int>(s);
      const auto begin = shape.later().begin() + static_cast<std::ptrdiff_t>(f.rest);
      EXPECT_EQ(std::set<int>(begin, begin + f.count), later[test::at(next - 1)]);
      EXPECT_TRUE(std::is_sorted(begin, begin + f.count));
      const std::size_t all = test::at(f.width) * test::at(f.width - 1) / 2 + test::at(f.width) * test::at(f.count);
      EXPECT_LE(static_cast<double>(all - test::entries({later.begin() + f.first, later.begin() + next})),
                most_zeros(f));
      kept += all;
      EXPECT_EQ(f.columns(), f.width + f.count + 1);
      EXPECT_EQ(f.block, block);
      block += test::at(f.width) * test::at(f.columns());
      widest = std::max(widest, test::at(f.width) * test::at(f.columns()));
    }
    EXPECT_EQ(test::at(next), c.order.size());
    EXPECT_EQ(shape.entries(), kept);
    EXPECT_EQ(shape.block_size(), block);
    EXPECT_EQ(shape.widest(), widest);
    for (const FrontShape::Front& f : shape.fronts()) {
      EXPECT_EQ(f.parent, f.count == 0 ? -1 : front_of[test::at(shape.later()[f.rest])]);
    }
  }
}

// Every joint has one number of its own in the store, and a later neighbour its column in the parent's block.
TEST(FrontShape, EveryJointHasItsPlace) {
  for (test::Elimination& c : test::eliminations()) {
    const FrontShape shape(c.graph, c.order);
    const auto later = test::eliminated(c.graph, c.order);
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
      const FrontShape::Front& p = shape.fronts()[test::at(f.parent)];
      for (std::size_t k = f.rest; k < f.rest + test::at(f.count); ++k) {
        const int i = shape.later()[k], column = shape.into()[k];
        if (i < p.first + p.width) {
          EXPECT_EQ(column, i - p.first);
        } else {
          EXPECT_EQ(shape.later()[p.rest + test::at(column - p.width)], i);
        }
      }
    }
  }
}

// Where a front's later neighbours are all the places and all the later neighbours of the front behind it, taking both
// together costs nothing: they are one.
TEST(FrontShape, WhatBringsNoZerosIsTakenTogether) {
  for (test::Elimination& c : test::eliminations()) {
    const FrontShape shape(c.graph, c.order);
    for (std::size_t s = 0; s + 1 < shape.fronts().size(); ++s) {
      const FrontShape::Front &f = shape.fronts()[s], &next = shape.fronts()[s + 1];
      EXPECT_FALSE(f.parent == static_cast<int>(s) + 1 && f.count == next.width + next.count)
          << c.order.size() << " places, front of " << f.width << " at " << f.first;
    }
  }
}

// The store of updates that wait for their parents is as large as the worst moment needs, and no larger.
TEST(FrontShape, StoreOfWaitingUpdates) {
  for (test::Elimination& c : test::eliminations()) {
    const FrontShape shape(c.graph, c.order);
    std::vector<std::size_t> update;
    std::vector<std::vector<std::size_t>> children(shape.fronts().size());
    std::size_t waiting = 0, most = 0;
    for (std::size_t s = 0; s < shape.fronts().size(); ++s) {
      const FrontShape::Front& f = shape.fronts()[s];
      update.push_back(test::at(f.count) *
                       test::at(f.count + 1));  // a square of the later neighbours, and the known potentials
      most = std::max(most, waiting + update[s]);
      for (const std::size_t child : children[s]) waiting -= update[child];
      waiting += update[s];
      if (f.parent >= 0) children[test::at(f.parent)].push_back(s);
    }
    EXPECT_EQ(shape.waiting_size(), most);
    EXPECT_EQ(waiting, 0U);
  }
}

}  // namespace front_shape_test
}  // namespace libflow
