// SPDX-License-Identifier: MIT
/// @file
/// From a toolbar to its network: where rows and ports are, what joins them, how long the hoses are, how high the
/// outlets are. Expected numbers are worked out by hand.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace build_test {

using namespace units;
using test::plain_bar, test::plain_job, test::plain_valve;

/// What a part of the network joins.
std::string ends(const Network& n, const std::string& id) {
  const auto p = n.find_part(id);
  return n.place(n.from(p)).id + " > " + n.place(n.to(p)).id;
}
double length_of(const Network& n, const std::string& id) {
  return si(n.part(n.find_part(id)).part.as<Hose>()->length);
}
double elevation(const Network& n, const std::string& id) { return n.place(n.find_place(id)).elevation; }

void expect_bar(const Network& n, const std::string& manifold, const std::vector<std::string>& joined,
                const std::vector<double>& lengths) {
  for (std::size_t k = 0; k < joined.size(); ++k) {
    const std::string id = fmt::format("{} bar {}", manifold, k + 1);
    EXPECT_EQ(ends(n, id), joined[k]);
    EXPECT_NEAR(length_of(n, id), lengths[k], 1e-14) << id;
  }
  EXPECT_THROW((void)n.find_part(fmt::format("{} bar {}", manifold, joined.size() + 1)), InputError);
}

TEST(Build, RowsAreCentredOnTheBar) {
  const Plumbing four = build_network(plain_bar(4), plain_job());
  const double x4[] = {-1.143, -0.381, 0.381, 1.143};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(four.rows[i].row, static_cast<int>(i) + 1);
    EXPECT_NEAR(four.rows[i].x, x4[i], 1e-15);
    EXPECT_DOUBLE_EQ(four.rows[i].width, 0.762);
    EXPECT_EQ(four.rows[i].hose_length, 2.0);
    EXPECT_FALSE(four.rows[i].shut);
  }
  const Plumbing three = build_network(plain_bar(3), plain_job());
  EXPECT_NEAR(three.rows[0].x, -0.762, 1e-15);
  EXPECT_EQ(three.rows[1].x, 0.0);
  EXPECT_EQ(build_network(plain_bar(1), plain_job()).rows[0].x, 0.0);
  EXPECT_DOUBLE_EQ(four.hose_total, 8.0);
}

TEST(Build, FeedInTheMiddleOfAnEvenBar) {
  const Network n = build_network(plain_bar(4), plain_job()).network;
  expect_bar(n, "manifold 1",
             {"manifold 1 port 1 > manifold 1 port 2", "manifold 1 port 2 > supply", "supply > manifold 1 port 3",
              "manifold 1 port 3 > manifold 1 port 4"},
             {0.05, 0.025, 0.025, 0.05});
  EXPECT_EQ(ends(n, "row 1 hose"), "manifold 1 port 1 > row 1 hose end");
  EXPECT_EQ(ends(n, "row 1 orifice"), "row 1 hose end > row 1");
}

TEST(Build, FeedInTheMiddleOfAnOddBarIsItsMiddlePort) {
  const Network n = build_network(plain_bar(5), plain_job()).network;
  expect_bar(n, "manifold 1",
             {"manifold 1 port 1 > manifold 1 port 2", "manifold 1 port 2 > supply", "supply > manifold 1 port 4",
              "manifold 1 port 4 > manifold 1 port 5"},
             {0.05, 0.05, 0.05, 0.05});
  EXPECT_EQ(ends(n, "row 3 hose"), "supply > row 3 hose end");
}

TEST(Build, FeedAtAnEnd) {
  Toolbar t = plain_bar(3);
  t.manifolds[0].feed = ManifoldFeed::left;
  t.manifolds[0].port_spacing = 80.0 * mm;
  expect_bar(
      build_network(t, plain_job()).network, "manifold 1",
      {"supply > manifold 1 port 1", "manifold 1 port 1 > manifold 1 port 2", "manifold 1 port 2 > manifold 1 port 3"},
      {0.04, 0.08, 0.08});
  t.manifolds[0].feed = ManifoldFeed::right;
  expect_bar(
      build_network(t, plain_job()).network, "manifold 1",
      {"manifold 1 port 1 > manifold 1 port 2", "manifold 1 port 2 > manifold 1 port 3", "manifold 1 port 3 > supply"},
      {0.08, 0.08, 0.04});
}

TEST(Build, FeedAtBothEnds) {
  Toolbar t = plain_bar(2);
  Manifold& bar = t.manifolds[0];
  bar.id = "bar";
  bar.feed = ManifoldFeed::both_ends;
  bar.feed_length = 1.5 * m;
  bar.feed_bore = 19.0 * mm;
  bar.bore = 30.0 * mm;
  t.hose_rating = 100.0 * psi;
  const Plumbing p = build_network(t, plain_job());
  expect_bar(p.network, "bar",
             {"bar left inlet > bar port 1", "bar port 1 > bar port 2", "bar port 2 > bar right inlet"},
             {0.025, 0.05, 0.025});
  for (const std::string side : {"left", "right"}) {
    const std::string id = "bar " + side + " inlet feed hose";
    EXPECT_EQ(ends(p.network, id), "supply > bar " + side + " inlet");
    const Hose& hose = *p.network.part(p.network.find_part(id)).part.as<Hose>();
    EXPECT_EQ(si(hose.length), 1.5);
    EXPECT_EQ(si(hose.bore), si(19.0 * mm));
    EXPECT_EQ(si(*hose.rating), si(100.0 * psi));
  }
  EXPECT_EQ(si(*p.network.part(p.network.find_part("bar bar 2")).part.bore()), si(30.0 * mm));
  EXPECT_DOUBLE_EQ(p.hose_total, 2 * 2.0 + 2 * 1.5);
}

Toolbar two_manifolds() {
  Toolbar t = plain_bar(5);
  t.manifolds = {Manifold{.id = "left", .last_row = 2, .feed_length = 3.0 * m},
                 Manifold{.first_row = 3, .feed_length = 2.0 * m}};
  return t;
}

TEST(Build, TwoManifoldsOnFeedHoses) {
  const Plumbing p = build_network(two_manifolds(), plain_job());
  expect_bar(p.network, "left", {"left port 1 > left inlet", "left inlet > left port 2"}, {0.025, 0.025});
  expect_bar(p.network, "manifold 2", {"manifold 2 port 3 > manifold 2 inlet", "manifold 2 inlet > manifold 2 port 5"},
             {0.05, 0.05});
  EXPECT_EQ(ends(p.network, "left inlet feed hose"), "supply > left inlet");
  EXPECT_EQ(ends(p.network, "row 4 hose"), "manifold 2 inlet > row 4 hose end");
  EXPECT_EQ(length_of(p.network, "manifold 2 inlet feed hose"), 2.0);
  EXPECT_DOUBLE_EQ(p.hose_total, 5 * 2.0 + 3.0 + 2.0);
  EXPECT_EQ(p.network.place(p.supply).id, "supply");
}

// Four rows at -1.143, -0.381, 0.381, 1.143 m; ports 0.05 m apart.
TEST(Build, ShortestHosesByHand) {
  Toolbar t = plain_bar(4);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.3 * m};
  const auto lengths = [](const Toolbar& bar) {
    std::vector<double> l;
    for (const RowPlumbing& row : build_network(bar, plain_job()).rows) l.push_back(row.hose_length);
    return l;
  };
  const auto expect = [&](const std::vector<double>& wanted) {
    const std::vector<double> l = lengths(t);
    for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_NEAR(l[i], wanted[i], 1e-14) << i;
  };
  expect({1.368, 0.656, 0.656, 1.368});  // ports at -0.075, -0.025, 0.025, 0.075
  t.manifolds[0].position = 1.0 * m;     // ports at 0.925, 0.975, 1.025, 1.075
  expect({2.368, 1.656, 0.944, 0.368});
  t.manifolds = {Manifold{.last_row = 1, .feed_length = 1.0 * m},    // port over its row
                 Manifold{.first_row = 2, .feed_length = 1.0 * m}};  // ports at 0.331, 0.381, 0.431
  expect({0.3, 1.012, 0.3, 1.012});
  t.hose.extra = 1e-3 * m;
  EXPECT_NEAR(build_network(t, plain_job()).hose_total, 2 * 1.0 + 2 * 0.712 + 4e-3, 1e-14);
}

TEST(Build, ListedHosesAreInRowOrder) {
  Toolbar t = plain_bar(3);
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 2.0 * m, 4.0 * m}};
  const Plumbing p = build_network(t, plain_job());
  EXPECT_EQ(length_of(p.network, "row 1 hose"), 1.0);
  EXPECT_EQ(length_of(p.network, "row 3 hose"), 4.0);
  EXPECT_DOUBLE_EQ(p.hose_total, 7.0);
}

TEST(Build, ShutRowsHaveNoParts) {
  Toolbar t = plain_bar(4);
  t.row_changes = {{.row = 1, .shut = true}, {.row = 3, .shut = true}};
  const Plumbing p = build_network(t, plain_job());
  EXPECT_TRUE(p.rows[0].shut);
  EXPECT_TRUE(p.rows[0].airs.empty() && p.rows[0].hoses.empty() && p.rows[0].last_parts.empty());
  EXPECT_THROW((void)p.network.find_part("row 3 hose"), InputError);
  EXPECT_THROW((void)p.network.find_place("row 3"), InputError);
  EXPECT_DOUBLE_EQ(p.hose_total, 4.0);
  // Only the open rows' liquid is pushed in.
  EXPECT_DOUBLE_EQ(p.network.place(p.supply).flow, 2 * si(flow_for_rate(100.0 * L_per_ha, 8.0 * kmh, 0.762 * m)));
}

TEST(Build, RowsOwnValues) {
  Toolbar t = plain_bar(4);
  t.check_valve = plain_valve();
  t.row_changes = {{.row = 2,
                    .hose_length = 5.0 * m,
                    .hose_bore = 6.0 * mm,
                    .orifice = OrificeByBore{.bore = 2.0 * mm},
                    .crack = 10.0 * psi,
                    .width = 0.4 * m,
                    .height = 0.1 * m},
                   {.row = 4, .orifice = OrificeByRating{.flow = 0.2 * gpm, .pressure = 10.0 * psi}}};
  const Plumbing p = build_network(t, plain_job());
  const auto part = [&](std::size_t i) -> const Part& { return p.network.part(i).part; };
  const RowPlumbing &common = p.rows[0], &own = p.rows[1];
  EXPECT_EQ(si(part(own.hoses[0]).as<Hose>()->length), 5.0);
  EXPECT_EQ(si(part(own.hoses[0]).as<Hose>()->bore), 0.006);
  EXPECT_EQ(si(part(own.orifices[0]).as<Orifice>()->bore), 0.002);
  EXPECT_EQ(si(part(own.check_valves[0]).as<CheckValve>()->crack), si(10.0 * psi));
  // What a row change does not name stays common: the valve's passage here.
  EXPECT_EQ(si(part(own.check_valves[0]).as<CheckValve>()->passage_bore),
            si(part(common.check_valves[0]).as<CheckValve>()->passage_bore));
  EXPECT_EQ(own.width, 0.4);
  EXPECT_NEAR(elevation(p.network, "row 2"), 0.1, 1e-15);
  EXPECT_EQ(si(part(common.hoses[0]).as<Hose>()->length), 2.0);
  EXPECT_EQ(si(part(common.check_valves[0]).as<CheckValve>()->crack), si(4.0 * psi));
  EXPECT_EQ(elevation(p.network, "row 1"), 0.0);
  EXPECT_EQ(si(part(p.rows[3].orifices[0]).as<Orifice>()->bore), si(Orifice::rated(0.2 * gpm, 10.0 * psi).bore));
  EXPECT_DOUBLE_EQ(p.hose_total, 3 * 2.0 + 5.0);
}

TEST(Build, TwoOutletsARowMeteredAtTheOutletShareTheHose) {
  Toolbar t = plain_bar(2);
  t.outlets_per_row = 2;
  t.check_valve = plain_valve();
  const Plumbing p = build_network(t, plain_job());
  const RowPlumbing& row = p.rows[1];
  EXPECT_EQ(row.hoses.size(), 1U);
  EXPECT_EQ(row.orifices.size(), 2U);
  EXPECT_EQ(row.check_valves.size(), 2U);
  EXPECT_EQ(row.last_parts, row.orifices);
  EXPECT_EQ(ends(p.network, "row 2a check valve"), "row 2 hose end > row 2a behind check valve");
  EXPECT_EQ(ends(p.network, "row 2b orifice"), "row 2b behind check valve > row 2b");
  EXPECT_DOUBLE_EQ(p.hose_total, 4.0);
}

TEST(Build, TwoOutletsARowMeteredAtTheManifoldHaveAHoseEach) {
  Toolbar t = plain_bar(2);
  t.outlets_per_row = 2;
  t.metering = MeteringPlace::manifold;
  const Plumbing p = build_network(t, plain_job());
  const RowPlumbing& row = p.rows[0];
  EXPECT_EQ(row.hoses.size(), 2U);
  EXPECT_EQ(row.airs.size(), 2U);
  EXPECT_EQ(ends(p.network, "row 1a orifice"), "manifold 1 port 1 > row 1a behind orifice");
  EXPECT_EQ(ends(p.network, "row 1a hose"), "row 1a behind orifice > row 1a hose end");
  EXPECT_EQ(ends(p.network, "row 1a outlet"), "row 1a hose end > row 1a");
  EXPECT_EQ(si(*p.network.part(row.last_parts[0]).part.bore()), si(10.0 * mm));  // the hose's own end
  EXPECT_DOUBLE_EQ(p.hose_total, 8.0);
}

TEST(Build, OpenEnds) {
  Toolbar t = plain_bar(1);
  t.outlet_bore = 4.0 * mm;  // a tube behind the orifice
  const Plumbing tube = build_network(t, plain_job());
  EXPECT_EQ(ends(tube.network, "row 1 outlet"), "row 1 behind orifice > row 1");
  EXPECT_EQ(si(tube.network.part(tube.rows[0].last_parts[0]).part.as<OpenEnd>()->bore), 0.004);
  t = plain_bar(1);
  t.orifice.reset();  // the hose itself meters
  const Plumbing hose = build_network(t, plain_job());
  EXPECT_EQ(ends(hose.network, "row 1 outlet"), "row 1 hose end > row 1");
  EXPECT_EQ(si(hose.network.part(hose.rows[0].last_parts[0]).part.as<OpenEnd>()->bore), si(10.0 * mm));
}

// A 10 % slope: the sine of its angle is 0.1 / sqrt(1.01).
TEST(Build, HeightsOnASlope) {
  Toolbar t = two_manifolds();
  t.manifolds[0].height = 0.5 * m;
  t.manifolds[1].height = 0.2 * m;
  t.side_slope = slope_percent(10.0);
  t.fore_aft_slope = slope_percent(-20.0);  // front lower
  t.outlets_behind = 1.5 * m;
  t.check_valve = plain_valve();
  t.row_changes = {{.row = 5, .height = 0.05 * m}};
  const Network n = build_network(t, plain_job()).network;
  const double side = 0.1 / std::sqrt(1.01), back = 0.2 / std::sqrt(1.04);
  EXPECT_NEAR(elevation(n, "supply"), 0.5, 1e-15);
  EXPECT_NEAR(elevation(n, "row 1"), -2 * 0.762 * side + 1.5 * back, 1e-14);
  EXPECT_NEAR(elevation(n, "row 5"), 2 * 0.762 * side + 1.5 * back + 0.05, 1e-14);
  EXPECT_NEAR(elevation(n, "row 5 behind check valve"), elevation(n, "row 5"), 1e-15);
  EXPECT_NEAR(elevation(n, "left inlet"), -1.5 * 0.762 * side + 0.5, 1e-14);
  EXPECT_NEAR(elevation(n, "left port 1"), (-1.5 * 0.762 - 0.025) * side + 0.5, 1e-14);
  EXPECT_NEAR(elevation(n, "manifold 2 port 5"), (0.762 + 0.05) * side + 0.2, 1e-14);
}

TEST(Build, WhatTheSupplyGives) {
  Job job = plain_job();
  const double each = si(flow_for_rate(100.0 * L_per_ha, 8.0 * kmh, 0.762 * m));
  Toolbar t = plain_bar(4);
  t.row_changes = {{.row = 4, .width = 0.381 * m}};
  const Plumbing fed = build_network(t, job);
  EXPECT_EQ(fed.network.place(fed.supply).kind, PlaceKind::fed);
  EXPECT_DOUBLE_EQ(fed.network.place(fed.supply).flow, 3.5 * each);
  // In a left turn of 5.715 m the end rows, 1.143 m out, go 20 % slower and faster, the inner ones 6.67 %; the fastest
  // covers half the width.
  job.turn_radius = 5.715 * m;
  EXPECT_NEAR(build_network(t, job).network.place(0).flow, (0.8 + 2.0 + 1.2 / 2.0) * each, 1e-12 * each);
  job.turn_radius.reset();
  job.pressure = 20.0 * psi;
  const Plumbing held = build_network(t, job);
  EXPECT_EQ(held.network.place(held.supply).kind, PlaceKind::supply);
  EXPECT_EQ(held.network.place(held.supply).pressure, si(20.0 * psi));
}

TEST(Build, EvenReferenceOfEachCause) {
  Toolbar t = two_manifolds();
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 2.0 * m, 3.0 * m, 4.0 * m, 9.0 * m}};
  t.side_slope = slope_percent(5.0);
  t.check_valve = plain_valve();
  t.row_changes = {{.row = 1,
                    .hose_bore = 6.0 * mm,
                    .orifice = OrificeByBore{.bore = 2.0 * mm},
                    .crack = 9.0 * psi,
                    .height = 0.1 * m},
                   {.row = 5, .shut = true}};
  const auto built = [&](const Causes& causes) { return build_network(t, plain_job(), causes); };
  const auto part = [](const Plumbing& p, const char* id) { return p.network.part(p.network.find_part(id)).part; };

  const Plumbing hoses = built({.hoses = false});
  for (const char* id : {"row 1 hose", "row 4 hose"}) {
    EXPECT_DOUBLE_EQ(si(part(hoses, id).as<Hose>()->length), 2.5) << id;  // mean of the open rows
    EXPECT_EQ(si(part(hoses, id).as<Hose>()->bore), 0.01) << id;
  }
  const Plumbing manifold = built({.manifold = false});
  EXPECT_EQ(ends(manifold.network, "row 1 hose"), "supply > row 1 hose end");
  EXPECT_EQ(ends(manifold.network, "row 4 hose"), "supply > row 4 hose end");
  EXPECT_THROW((void)manifold.network.find_part("left inlet feed hose"), InputError);
  const Plumbing level = built({.slope = false});
  for (std::size_t i = 0; i < level.network.place_count(); ++i) EXPECT_EQ(level.network.place(i).elevation, 0.0);
  EXPECT_EQ(si(part(built({.orifices = false}), "row 1 orifice").as<Orifice>()->bore), si(1.0 * mm));
  EXPECT_EQ(si(part(built({.check_valves = false}), "row 1 check valve").as<CheckValve>()->crack), si(4.0 * psi));
  // With every cause as the layout says, the layout's own values stand.
  EXPECT_EQ(si(part(built({}), "row 1 orifice").as<Orifice>()->bore), si(2.0 * mm));
}

}  // namespace build_test
}  // namespace libflow
