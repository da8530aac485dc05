// SPDX-License-Identifier: MIT
/// @file
/// Cutting graphs in two and ordering them by it, on shapes that cut badly: stars and groups of their own.
#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/nested_dissection.hpp>

namespace libflow {
namespace nested_dissection_test {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// `hubs` places that are each joined to all of `leaves` others.
PlaceGraph wheel(int hubs, int leaves) {
  Joints joints;
  for (int h = 0; h < hubs; ++h) {
    for (int i = 0; i < leaves; ++i) joints.push_back({h, hubs + i});
  }
  return {at(hubs + leaves), joints};
}
PlaceGraph grids(int count, int side) {
  Joints joints;
  for (int g = 0; g < count; ++g) {
    const int first = g * side * side;
    for (int i = 0; i < side * side; ++i) {
      if (i % side + 1 < side) joints.push_back({first + i, first + i + 1});
      if (i + side < side * side) joints.push_back({first + i, first + i + side});
    }
  }
  return {at(count * side * side), joints};
}

struct Sizes {
  std::size_t left = 0, right = 0, cut = 0;
};
/// Sizes of the sides, after looking that none has a neighbour in the other.
Sizes sizes_of(const PlaceGraph& graph) {
  const auto side = Bisection::of(graph);
  EXPECT_EQ(side.size(), graph.size());
  Sizes sizes;
  for (int i = 0; i < static_cast<int>(graph.size()); ++i) {
    ++(side[at(i)] == Bisection::left ? sizes.left : side[at(i)] == Bisection::right ? sizes.right : sizes.cut);
    graph.each_neighbour(i, [&](int j) {
      EXPECT_TRUE(side[at(i)] == side[at(j)] || side[at(i)] == Bisection::cut || side[at(j)] == Bisection::cut);
    });
  }
  return sizes;
}

// A grid of 40 by 40 is cut by little more than one of its lines, and neither half is small.
TEST(NestedDissection, AGridIsCutAlongALine) {
  const Sizes s = sizes_of(grids(1, 40));
  EXPECT_LE(s.cut, 50U);
  EXPECT_GE(s.cut, 20U);  // no fewer part a fifth of a grid from the rest
  EXPECT_GE(std::min(s.left, s.right), 500U);
}

// Leaves between two hubs: the hubs are the cut, however many leaves there are to pair up.
TEST(NestedDissection, LeavesArePartedByTheirHubs) {
  const Sizes s = sizes_of(wheel(2, 400));
  EXPECT_EQ(s.cut, 2U);
  EXPECT_GE(std::min(s.left, s.right), 120U);
}

// Two groups of their own need no cut at all.
TEST(NestedDissection, GroupsOfTheirOwnNeedNoCut) {
  const Sizes s = sizes_of(grids(2, 15));
  EXPECT_EQ(s.cut, 0U);
  EXPECT_EQ(s.left, 225U);
  EXPECT_EQ(s.right, 225U);
}

// Every place stands in the order once, also where nothing is joined to anything.
TEST(NestedDissection, OrdersEveryPlaceOnce) {
  for (const PlaceGraph& graph :
       {PlaceGraph(0, {}), PlaceGraph(1, {}), wheel(1, 1200), wheel(2, 1200), grids(3, 30), PlaceGraph(1500, {})}) {
    std::vector<int> order = nested_dissection(graph), all(graph.size());
    std::sort(order.begin(), order.end());
    std::iota(all.begin(), all.end(), 0);
    EXPECT_EQ(order, all) << graph.size();
  }
}

// Of a large grid the places that part it come last.
TEST(NestedDissection, TheCutIsEliminatedLast) {
  const PlaceGraph graph = grids(1, 40);
  const auto side = Bisection::of(graph);
  const std::vector<int> order = nested_dissection(graph);
  const auto cut = at(static_cast<int>(std::count(side.begin(), side.end(), Bisection::cut)));
  ASSERT_EQ(order.size(), graph.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    EXPECT_EQ(side[at(order[k])] == Bisection::cut, k >= order.size() - cut) << k;
  }
}

}  // namespace nested_dissection_test
}  // namespace libflow
