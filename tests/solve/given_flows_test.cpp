// SPDX-License-Identifier: MIT
/// @file
/// Flows pushed in and drawn out among one-way parts: solved exactly when a maximum flow says that they fit, refused in
/// words when it says that they do not.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace given_flows_test {

using test::Dice;
using test::Sketch;

constexpr double unit = 1e-6;  ///< given flows are whole numbers of these [m3/s]

/// Whether given flows of whole units fit: a flow network from all that is pushed in to all that is drawn out, in which
/// parts carry any amount the way they pass and held places give and take any amount.
bool given_flows_fit(const Sketch& s) {
  using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
  using Graph = boost::adjacency_list<
      boost::vecS, boost::vecS, boost::directedS, boost::no_property,
      boost::property<boost::edge_capacity_t, long,
                      boost::property<boost::edge_residual_capacity_t, long,
                                      boost::property<boost::edge_reverse_t, Traits::edge_descriptor>>>>;
  constexpr long any = 1'000'000;
  const std::size_t n = s.places.size(), source = n, sink = n + 1, pool = n + 2;
  Graph graph(n + 3);
  auto capacity = get(boost::edge_capacity, graph);
  auto reverse = get(boost::edge_reverse, graph);
  const auto add = [&](std::size_t a, std::size_t b, long most) {
    const auto there = boost::add_edge(a, b, graph).first, back = boost::add_edge(b, a, graph).first;
    capacity[there] = most;
    capacity[back] = 0;
    reverse[there] = back;
    reverse[back] = there;
  };
  for (const auto& p : s.parts) {
    add(p.a, p.b, any);
    if (p.part.contract() == Contract::passage) add(p.b, p.a, any);
  }
  long pushed = 0, drawn = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Place& p = s.places[i];
    const long amount = std::lround(p.flow / unit);
    if (p.kind == PlaceKind::fed) {
      add(source, i, amount);
      pushed += amount;
    } else if (p.kind == PlaceKind::drawn) {
      add(i, sink, amount);
      drawn += amount;
    } else if (p.held()) {
      add(pool, i, any);
      add(i, pool, any);
    }
  }
  // The pool of all held places gives what is missing and takes what is too much.
  if (pushed < drawn) add(source, pool, drawn - pushed);
  if (drawn < pushed) add(pool, sink, pushed - drawn);
  return boost::push_relabel_max_flow(graph, source, sink) == std::max(pushed, drawn);
}

/// As random_sketch, with more one-way parts and with some junctions fed or drawn from.
Sketch with_given_flows(Dice& dice) {
  Sketch s =
      test::random_sketch(dice, {.fewest = 2, .most = 15, .check_valves = dice.uniform(0.3, 0.8), .given_flows = 0.0});
  for (Place& p : s.places) {
    if (p.kind != PlaceKind::junction || !dice.chance(0.3)) continue;
    p.kind = dice.chance(0.5) ? PlaceKind::fed : PlaceKind::drawn;
    p.flow = unit * static_cast<double>(1 + dice.below(50));
  }
  return s;
}

TEST(GivenFlows, SolvedExactlyWhenTheyFit) {
  Dice dice(51);
  int solved = 0, refused = 0;
  for (int k = 0; k < 2000; ++k) {
    const Sketch s = with_given_flows(dice);
    const Network network = s.build();
    const LiquidState liquid = test::liquid_of("any", dice.uniform(900.0, 1500.0), dice.log_uniform(5e-4, 0.5));
    const bool fit = given_flows_fit(s);
    try {
      const Solution solution = solve(network, liquid);
      ASSERT_TRUE(fit) << "network " << k << " was not refused although its flows do not fit: " << solution.message;
      ASSERT_TRUE(solution.usable()) << "network " << k << ": " << solution.message;
      ++solved;
    } catch (const IllPosedError& e) {
      ASSERT_FALSE(fit) << "network " << k << " was refused although its flows fit: " << e.what();
      ++refused;
    }
  }
  RecordProperty("solved", solved);
  RecordProperty("refused", refused);
  EXPECT_GT(solved, 500);
  EXPECT_GT(refused, 200);
}

}  // namespace given_flows_test
}  // namespace libflow
