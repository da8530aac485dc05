// SPDX-License-Identifier: MIT
/// @file
/// Series runs and dead ends leave the network before the Newton, and come back with their flows and pressures.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/solve/reduction.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace reduction_test {

using namespace libflow::units;
using test::Dice;
using test::Sketch;

const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};
const CheckValve valve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm};

Solution solved(const Network& n, const LiquidState& liquid = test::water()) {
  Solution s = solve(n, liquid);
  EXPECT_TRUE(s.usable()) << s.message;
  return s;
}

std::vector<Law> laws_of(const Network& n, const LiquidState& liquid) {
  std::vector<Law> laws;
  for (Network::PartIndex i = 0; i < n.part_count(); ++i) laws.push_back(n.part(i).part.law(liquid));
  return laws;
}

TEST(Reduction, ARunIsOneEdge) {
  Network n;
  n.add_supply("tank", 2.0 * bar, 1.0 * m);
  n.add_place("a");
  n.add_place("b", 3.0 * m);
  n.add_place("c");
  n.add_air("row");
  n.add_part("hose", "tank", "a", hose);
  n.add_part("elbow", "b", "a", Fitting::elbow_90(6.0 * mm));  // placed against the flow
  n.add_part("valve", "b", "c", valve);
  n.add_part("tip", "c", "row", Orifice{.bore = 1.0 * mm});
  const LiquidState water = test::water();
  const std::vector<Law> laws = laws_of(n, water);
  std::vector<Law> core_laws;
  const Reduction r(n, laws);
  ASSERT_EQ(r.core().size(), 1u);
  const Edge& edge = r.core()[0];
  r.sum_laws(laws, core_laws);
  const Law& law = core_laws[0];
  EXPECT_EQ(n.place(edge.a).id, "tank");
  EXPECT_EQ(n.place(edge.b).id, "row");
  EXPECT_EQ(law.passes, Passes::forward);
  EXPECT_EQ(law.threshold, 2e4);
  for (const double q : {1e-7, 1e-5, 1e-4}) {
    double sum = 0.0, slope = 0.0;
    for (Network::PartIndex i = 0; i < n.part_count(); ++i) {
      const Drop<double> d = n.part(i).part.law(water)(q);
      sum += d.dp;
      slope += d.slope;
    }
    EXPECT_NEAR(law(q).dp, sum, 1e-14 * sum);
    EXPECT_NEAR(law(q).slope, slope, 1e-14 * slope);
  }
  EXPECT_TRUE(r.in_core(0));
  EXPECT_FALSE(r.in_core(1));
  EXPECT_FALSE(r.in_core(2));
  EXPECT_FALSE(r.in_core(3));
  EXPECT_TRUE(r.in_core(4));

  const Solution s = solved(n, water);
  EXPECT_GT(s.parts[0].flow, 0.0);
  EXPECT_EQ(s.parts[1].flow, -s.parts[0].flow);
  EXPECT_EQ(s.parts[2].flow, s.parts[0].flow);
  EXPECT_EQ(s.parts[3].flow, s.parts[0].flow);
}

TEST(Reduction, AChainPlacedEitherWayGivesTheSame) {
  // All 32 ways to lay five parts along a run; a check valve laid against it stops the flow.
  const std::vector<Part> run{hose, Fitting::elbow_45(6.0 * mm), valve, hose, Orifice{.bore = 1.0 * mm}};
  double expected = 0.0;
  for (unsigned ways = 0; ways < 32; ++ways) {
    Network n;
    n.add_supply("tank", 2.0 * bar);
    for (int i = 0; i < 4; ++i) n.add_place(fmt::format("p{}", i));
    n.add_air("row");
    const auto against = [&](std::size_t i) { return ((ways >> i) & 1u) != 0; };
    for (std::size_t i = 0; i < 5; ++i) {
      n.add_part(fmt::format("part {}", i), against(i) ? i + 1 : i, against(i) ? i : i + 1, run[i]);
    }
    const Solution s = solved(n);
    if (ways == 0) expected = s.parts[0].flow;
    ASSERT_GT(expected, 0.0);
    for (std::size_t i = 0; i < 5; ++i) {
      const double along = against(i) ? -s.parts[i].flow : s.parts[i].flow;
      EXPECT_NEAR(along, against(2) ? 0.0 : expected, 1e-12 * expected) << "ways " << ways << ", part " << i;
    }
    if (!against(2)) continue;
    // Shut: the supply's pressure stands before the valve, the air's behind it.
    EXPECT_NEAR(s.places[2].total_pressure, 2e5, 1e-6);
    EXPECT_NEAR(s.places[3].total_pressure, 0.0, 1e-6);
    EXPECT_TRUE(s.places[2].determined);
    EXPECT_TRUE(s.places[3].determined);
  }
}

TEST(Reduction, DeadEndsLeave) {
  Network n;
  n.add_supply("tank", 2.0 * bar);
  n.add_place("tee");
  n.add_air("row");
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("tip", "tee", "row", Orifice{.bore = 1.0 * mm});
  const Solution before = solved(n);
  for (int i = 0; i < 5; ++i) n.add_place(fmt::format("end {}", i), from_si<Length>(i));
  n.add_part("branch 0", "tee", "end 0", hose);
  n.add_part("branch 1", "end 1", "end 0", hose);
  n.add_part("branch 2", "end 0", "end 2", hose);
  n.add_part("branch 3", "tank", "end 3", hose);  // dead ends on a held place leave too
  n.add_part("branch 4", "end 4", "end 2", hose);
  const Reduction r(n, laws_of(n, test::water()));
  EXPECT_EQ(r.core().size(), 1u);
  const System system(n, test::water());
  EXPECT_EQ(system.core_places(), 0u);
  EXPECT_EQ(system.core_edges(), 1u);
  const Solution s = solved(n);
  const double weight = test::water().density * standard_gravity;
  EXPECT_NEAR(s.parts[0].flow, before.parts[0].flow, 1e-12 * before.parts[0].flow);
  for (std::size_t i = 2; i < 7; ++i) EXPECT_EQ(s.parts[i].flow, 0.0);
  for (std::size_t i = 0; i < 5; ++i) {  // what stands still weighs
    const double foot = i == 3 ? 2e5 : s.places[1].total_pressure;
    EXPECT_NEAR(s.places[3 + i].total_pressure, foot - weight * static_cast<double>(i), 1e-6);
    EXPECT_TRUE(s.places[3 + i].determined);
  }
}

TEST(Reduction, ABarIsAsSmallAsItsPorts) {
  // 16 rows: port, hose, check valve, orifice; fed in the middle. The two end ports are no branches.
  Network n;
  n.add_supply("tank", 2.0 * bar);
  for (int i = 0; i < 16; ++i) {
    n.add_place(fmt::format("port {}", i));
    n.add_place(fmt::format("end {}", i));
    n.add_place(fmt::format("tip {}", i));
    n.add_air(fmt::format("row {}", i));
    n.add_part(fmt::format("hose {}", i), fmt::format("port {}", i), fmt::format("end {}", i), hose);
    n.add_part(fmt::format("valve {}", i), fmt::format("end {}", i), fmt::format("tip {}", i), valve);
    n.add_part(fmt::format("orifice {}", i), fmt::format("tip {}", i), fmt::format("row {}", i),
               Orifice{.bore = 1.0 * mm});
    if (i > 0) n.add_part(fmt::format("bar {}", i), fmt::format("port {}", i - 1), fmt::format("port {}", i), hose);
  }
  n.add_part("feed", "tank", "port 8", hose);
  const System system(n, test::water());
  EXPECT_EQ(system.core_places(), 14u);
  EXPECT_EQ(system.core_edges(), 14u + 13u + 2u + 1u);  // rows, bar between branches, end runs, feed
}

TEST(Reduction, ValvesFaceToFacePassNothing) {
  for (const bool outward : {false, true}) {
    Network n;
    n.add_supply("tank", 2.0 * bar);
    n.add_place("between");
    n.add_air("row");
    n.add_part("valve 1", outward ? "between" : "tank", outward ? "tank" : "between", valve);
    n.add_part("valve 2", outward ? "between" : "row", outward ? "row" : "between", valve);
    const Reduction r(n, laws_of(n, test::water()));
    EXPECT_TRUE(r.core().empty());
    const Solution s = solved(n);
    EXPECT_EQ(s.parts[0].flow, 0.0);
    EXPECT_EQ(s.parts[1].flow, 0.0);
    const PlaceResult& between = s.places[1];
    EXPECT_FALSE(between.determined);
    if (outward) {  // at most the lower of the two ends and a crack pressure
      EXPECT_EQ(between.lower, -std::numeric_limits<double>::infinity());
      EXPECT_NEAR(between.upper, 2e4, 1e-6);
    } else {  // at least the higher of the two ends less a crack pressure
      EXPECT_NEAR(between.lower, 1.8e5, 1e-6);
      EXPECT_EQ(between.upper, std::numeric_limits<double>::infinity());
    }
    EXPECT_GE(between.total_pressure, between.lower - 1e-6);
    EXPECT_LE(between.total_pressure, between.upper + 1e-6);
  }
}

TEST(Reduction, TwoWaysRoundAreNotARun) {
  // A ring that hangs on one place: nothing flows in it.
  Network n;
  n.add_supply("tank", 2.0 * bar);
  n.add_place("tee");
  n.add_place("ring", 1.0 * m);
  n.add_air("row");
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("tip", "tee", "row", Orifice{.bore = 1.0 * mm});
  n.add_part("left", "tee", "ring", hose);
  n.add_part("right", "ring", "tee", Hose{.length = 7.0 * m, .bore = 4.0 * mm});
  const Solution s = solved(n);
  EXPECT_NEAR(s.parts[2].flow, 0.0, 1e-12 * s.parts[0].flow);
  EXPECT_NEAR(s.parts[3].flow, 0.0, 1e-12 * s.parts[0].flow);
  EXPECT_NEAR(s.places[2].total_pressure, s.places[1].total_pressure - test::water().density * standard_gravity, 1e-6);
}

// A place where a flow of nothing is pushed in is a junction by another name, but it stays in the core: the same
// networks solved without any reduction.
TEST(Reduction, ChangesNoAnswer) {
  Dice dice(21);
  for (int k = 0; k < 300; ++k) {
    const Sketch sketch = test::random_sketch(dice, {.check_valves = 0.3});
    Sketch kept = sketch;
    for (Place& p : kept.places) {
      if (p.kind == PlaceKind::junction) p.kind = PlaceKind::fed;
    }
    const LiquidState liquid = test::liquid_of("any", dice.uniform(900.0, 1500.0), dice.log_uniform(5e-4, 0.5));
    const Network small = sketch.build(), whole = kept.build();
    ASSERT_EQ(System(whole, liquid).core_edges(), whole.part_count());
    const Solution a = solved(small, liquid), b = solved(whole, liquid);
    const double largest = std::max(test::largest_flow(a), test::largest_flow(b));
    double range = 1.0;
    for (const auto& p : a.places) range = std::max(range, std::abs(p.total_pressure));
    for (std::size_t i = 0; i < a.parts.size(); ++i) {
      ASSERT_NEAR(a.parts[i].flow, b.parts[i].flow, 1e-9 * largest + 1e-20) << "network " << k << ", part " << i;
    }
    for (std::size_t i = 0; i < a.places.size(); ++i) {
      ASSERT_EQ(a.places[i].determined, b.places[i].determined) << "network " << k << ", place " << i;
      if (a.places[i].determined) {
        ASSERT_NEAR(a.places[i].total_pressure, b.places[i].total_pressure, 1e-8 * range)
            << "network " << k << ", place " << i;
      }
    }
  }
}

// What hangs on nothing (refused before a solve) is reduced all the same: of a pair of dead ends nothing is left, and a
// ring of its own is two runs, each of its parts in one of them.
TEST(Reduction, GroupsOfTheirOwn) {
  Network n;
  n.add_supply("tank", 2.0 * bar);
  n.add_air("row");
  for (const char* id : {"a", "b", "c", "d", "e"}) n.add_place(id);
  n.add_part("hose", "tank", "row", hose);
  n.add_part("pair", "a", "b", hose);
  n.add_part("ring 1", "c", "d", hose);
  n.add_part("ring 2", "e", "d", hose);
  n.add_part("ring 3", "e", "c", hose);
  const std::vector<Law> laws = laws_of(n, test::water());
  const Reduction r(n, laws);
  EXPECT_FALSE(r.in_core(2));
  EXPECT_FALSE(r.in_core(3));
  ASSERT_EQ(r.core().size(), 3U);
  std::vector<double> flow, potential(n.place_count(), 0.0);
  r.expand(laws, {1.0, 2.0, 4.0}, flow, potential);
  EXPECT_EQ(flow[0], 1.0);
  EXPECT_EQ(flow[1], 0.0);
  double ring = 0.0;
  for (const std::size_t part : {2u, 3u, 4u}) {
    EXPECT_TRUE(std::abs(flow[part]) == 2.0 || std::abs(flow[part]) == 4.0) << part;
    ring += std::abs(flow[part]);
  }
  EXPECT_TRUE(ring == 8.0 || ring == 10.0) << ring;  // two parts on one run, one on the other
}

}  // namespace reduction_test
}  // namespace libflow
