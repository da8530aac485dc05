// SPDX-License-Identifier: MIT
/// @file
/// What the places of a layout need: tees where lines meet, elbows where a tee is plugged, plugs in a bar, and the row
/// that a pipe belongs to.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts.hpp>
#include <libflow/study/order_items.hpp>
#include <libflow/study/order_list.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace order_places_test {

using namespace units;

static OrderList order_of(Plumbing p) {
  return order_list({.name = "places", .job = test::plain_job(), .plumbing = std::move(p)});
}
static OrderList order_of(Toolbar t) {
  return order_list({.name = "bar", .job = test::plain_job(), .plumbing = std::move(t)});
}
static std::vector<OrderItem> items_named(const OrderList& list, const std::string& what) {
  std::vector<OrderItem> found;
  for (const OrderItem& item : list.items) {
    if (item.what.starts_with(what)) found.push_back(item);
  }
  return found;
}
static Part hose_of(Length bore) { return Part(Hose{.length = 1.0 * m, .bore = bore}); }

// A pipe is not cut from a roll; where it is a row's own, the list says whose.
TEST(OrderPlaces, APipeIsOrderedForItsRow) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto pipe = p.network.add_part(fmt::format("pipe {}", row), p.supply, air, hose_of(row * 6.0 * mm));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, pipe));
  }
  const auto pipes = items_named(order_of(std::move(p)), "pipe or tube");
  ASSERT_EQ(pipes.size(), 2U);
  for (const OrderItem& pipe : pipes) {
    ASSERT_EQ(pipe.rows.size(), 1U);
    EXPECT_EQ(pipe.ids.front(), fmt::format("pipe {}", pipe.rows.front()));
    EXPECT_NEAR(pipe.sizes.front().value, 6e-3 * pipe.rows.front(), 1e-12);
  }
}

// Two lines that meet where liquid is drawn off, or fed in, need a tee: the third way is what draws or feeds. In the
// open air nothing is joined.
TEST(OrderPlaces, WhatIsDrawnOffIsAWayOfItsTeeAndTheAirIsNone) {
  Plumbing p;
  p.supply = p.network.add_supply("bar", 1.0 * bar);
  const auto drawn = p.network.add_drawn("drawn", 1.0 * L_per_min), plain = p.network.add_place("plain"),
             air = p.network.add_air("air");
  p.network.add_part("to drawn", p.supply, drawn, hose_of(12.0 * mm));
  p.network.add_part("from drawn", drawn, air, hose_of(10.0 * mm));
  p.network.add_part("to plain", p.supply, plain, hose_of(12.0 * mm));
  p.network.add_part("from plain", plain, air, hose_of(12.0 * mm));
  p.network.add_part("third", p.supply, air, hose_of(10.0 * mm));
  const OrderList list = order_of(std::move(p));
  std::vector<std::string> at;
  for (const OrderItem& tee : items_named(list, "tee")) at.insert(at.end(), tee.ids.begin(), tee.ids.end());
  std::sort(at.begin(), at.end());
  EXPECT_EQ(at, (std::vector<std::string>{"bar", "drawn"}));  // three lines leave "bar"
  EXPECT_TRUE(items_named(list, "cross").empty());
}

// A hose of a suspension takes a way of a tee as any hose does; what has no end for a hose does not.
TEST(OrderPlaces, ATeeIsOrderedForEveryHoseThatMeetsThere) {
  Plumbing p;
  p.supply = p.network.add_place("tee");
  p.network.add_part("thick", p.network.add_supply("pump", 1.0 * bar), p.supply,
                     Part(SuspensionHose{.length = 2.0 * m, .bore = 19.0 * mm, .consistency = 1.0, .flow_index = 0.6}));
  p.network.add_part("thin", p.supply, p.network.add_air("end 1"), hose_of(10.0 * mm));
  p.network.add_part("nozzle", p.supply, p.network.add_air("end 2"), Part(Orifice{.bore = 1.0 * mm}));
  const auto tees = items_named(order_of(std::move(p)), "tee");
  ASSERT_EQ(tees.size(), 1U);
  ASSERT_EQ(tees[0].sizes.size(), 2U);
  EXPECT_NEAR(tees[0].sizes[0].value, 19e-3, 1e-12);
  EXPECT_NEAR(tees[0].sizes[1].value, 10e-3, 1e-12);
}

// A tee whose run ends at it, at either side, is an elbow to the liquid.
TEST(OrderPlaces, ATeePluggedAtEitherEndMayBeAnElbow) {
  for (const bool left : {true, false}) {
    Plumbing p;
    p.supply = p.network.add_supply("pump", 1.0 * bar);
    const auto place = p.network.add_place("corner");
    const auto run = p.network.add_part("run", p.supply, place, hose_of(12.0 * mm));
    const auto branch = p.network.add_part("branch", place, p.network.add_air("end"), hose_of(10.0 * mm));
    TeeAt tee{.tee = {.run_bore = 12.0 * mm, .branch_bore = 10.0 * mm}, .place = place, .branches = {branch}};
    (left ? tee.left : tee.right) = run;
    p.tees.push_back(tee);
    const OrderList list = order_of(std::move(p));
    const auto elbows = items_named(list, "elbow, or tee with one end plugged");
    ASSERT_EQ(elbows.size(), 1U) << left;
    EXPECT_EQ(elbows[0].ids, std::vector<std::string>{"corner"});
    EXPECT_EQ(elbows[0].sizes[0].name, "one way");
    EXPECT_TRUE(items_named(list, "tee").empty());
  }
}

TEST(OrderPlaces, EveryShutRowLeavesAPortToPlug) {
  Toolbar t = test::plain_bar(6);
  t.row_changes = {{.row = 1, .shut = true}, {.row = 6, .shut = true}};
  const auto bars = items_named(order_of(std::move(t)), "manifold");
  ASSERT_EQ(bars.size(), 1U);
  EXPECT_EQ(bars[0].what, "manifold with 6 ports");
  EXPECT_EQ(bars[0].note, "fed by a port between those of rows 3 and 4, 2 ports plugged");
}

// Two bars of three ports are two things to buy where their ports are for other hoses.
TEST(OrderPlaces, BarsAreToldApartByThePortsTheyHave) {
  Toolbar t = test::plain_bar(9);
  t.manifolds.clear();
  for (int first = 1; first <= 7; first += 3) {
    t.manifolds.push_back({.id = fmt::format("bar {}", first),
                           .first_row = first,
                           .last_row = first + 2,
                           .feed = ManifoldFeed::left,
                           .feed_length = 1.0 * m});
  }
  // Ports for 12, 10, 10 mm; for 12, 12, 10 mm; and for 12, 10, 10 mm again.
  for (const int row : {1, 4, 5, 7}) t.row_changes.push_back({.row = row, .hose_bore = 12.0 * mm});
  const auto bars = items_named(order_of(std::move(t)), "manifold");
  ASSERT_EQ(bars.size(), 2U);
  EXPECT_EQ(bars[0].count, 2U);
  EXPECT_EQ(bars[0].ids, (std::vector<std::string>{"bar 1", "bar 7"}));
  EXPECT_EQ(bars[1].ids, std::vector<std::string>{"bar 4"});
}

// Somebody's own part without a bore is ordered by its kind; a size of any quantity is read.
TEST(OrderPlaces, APartWithoutABoreIsOrderedByItsKind) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  p.network.add_part("own", p.supply, p.network.add_air("end"), Part(test::QuadraticPart{.k = 1e12}));
  const auto own = items_named(order_of(std::move(p)), std::string(test::QuadraticPart::kind));
  ASSERT_EQ(own.size(), 1U);
  EXPECT_EQ(own[0].count, 1U);
  EXPECT_TRUE(own[0].sizes.empty());
  const OrderSize share{.name = "open", .kind = Kind::fraction, .value = 0.25};
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) EXPECT_EQ(order_size_text(share, u), "open 0.25");
}

}  // namespace order_places_test
}  // namespace libflow
