// SPDX-License-Identifier: MIT
/// @file
/// What lines hold and how long they take: volumes add up, and volume is flow times time.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <utility>

#include <libflow/study/lines.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace lines_test {

namespace lines_test {
using namespace units;
using test::expect_refused;

Layout bar_layout(int rows = 8) { return {.name = "bar", .job = test::plain_job(), .plumbing = test::plain_bar(rows)}; }

/// Sum over rows of flow times mean delay [m3].
double moved(const Lines& l) {
  double sum = 0.0;
  std::size_t i = 0;
  for (const RowResult& r : l.answer.evenness.rows) {
    if (!r.shut) sum += r.flow * l.rows[i++].delay;
  }
  return sum;
}
}  // namespace lines_test

TEST(Lines, OneHoseByHand) {
  using namespace lines_test;
  Layout layout = bar_layout(1);
  const Lines l = lines(layout);
  const double volume = std::numbers::pi / 4.0 * 0.01 * 0.01 * 2.0;
  ASSERT_EQ(l.rows.size(), 1U);
  EXPECT_NEAR(l.held, volume, 1e-15);
  const double mean = volume / l.answer.evenness.total_flow;
  EXPECT_NEAR(l.rows[0].fill, mean, 1e-9 * mean);
  EXPECT_NEAR(l.rows[0].delay, mean, 1e-9 * mean);
  // Water at this rate: Re about 5000, turbulent, pushed clean.
  ASSERT_EQ(l.answer.solution.parts[0].regime == Regime::turbulent, l.rows[0].first_new == l.rows[0].fill);
}

TEST(Lines, LaminarHoseTakesFiveTimesTheMeanForNinetyNinePerCent) {
  using namespace lines_test;
  Layout layout = bar_layout(1);
  layout.job.liquid = find_liquid("10-34-0");
  const Lines l = lines(layout);
  // Danckwerts 1953, Levenspiel 1999: first at half the mean time, 99 % at five times, 75 % at the mean.
  EXPECT_NEAR(l.rows[0].first_new, 0.5 * l.rows[0].fill, 1e-12 * l.rows[0].fill);
  EXPECT_NEAR(l.rows[0].flushed, 5.0 * l.rows[0].fill, 1e-9 * l.rows[0].fill);
  EXPECT_NEAR(lines(layout, {.share = 0.75}).rows[0].flushed, l.rows[0].fill, 1e-12 * l.rows[0].fill);
  EXPECT_NEAR(l.flush_liquid, 5.0 * l.held, 1e-8 * l.held);
}

TEST(Lines, WhatTheLinesHoldIsFlowTimesDelay) {
  using namespace lines_test;
  for (const ManifoldFeed feed : {ManifoldFeed::middle, ManifoldFeed::left, ManifoldFeed::right}) {
    Layout layout = bar_layout(9);
    auto& bar = std::get<Toolbar>(layout.plumbing);
    bar.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
    bar.manifolds[0].feed = feed;
    bar.manifolds[0].feed_length = 2.0 * m;
    const Lines l = lines(layout);
    EXPECT_NEAR(moved(l), l.held, 1e-9 * l.held) << static_cast<int>(feed);
    EXPECT_EQ(l.still, 0.0);
    EXPECT_NEAR(l.held, l.held_rows + l.held_before, 1e-15);
  }
}

TEST(Lines, TwiceTheFlowHalfTheTime) {
  using namespace lines_test;
  Layout layout = bar_layout();
  const Lines slow = lines(layout);
  layout.job.speed = 2.0 * layout.job.speed;
  const Lines fast = lines(layout);
  EXPECT_EQ(slow.held, fast.held);
  EXPECT_NEAR(fast.fill_time, 0.5 * slow.fill_time, 0.01 * slow.fill_time);
}

TEST(Lines, ARowBehindAShutCheckValveIsNotReached) {
  using namespace lines_test;
  Layout layout = bar_layout(4);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.check_valve = test::plain_valve();
  bar.row_changes = {{.row = 3, .crack = 1.5 * Network::pressure_range.high / 1e2 * Pa}};
  const Lines l = lines(layout);
  EXPECT_TRUE(std::isinf(l.rows[2].fill));
  EXPECT_TRUE(std::isinf(l.rows[2].flushed));
  EXPECT_TRUE(std::isfinite(l.fill_time));
  EXPECT_NEAR(l.still, std::numbers::pi / 4.0 * 0.01 * 0.01 * 2.0, 1e-12) << "its hose stands still";
  bool told = false;
  for (const Caution& c : l.cautions) told = told || (c.code == "row-not-reached" && c.subject == "row 3");
  EXPECT_TRUE(told);
}

TEST(Lines, PressureArrivesLongBeforeTheLiquid) {
  using namespace lines_test;
  const Lines l = lines(bar_layout());
  for (const RowLines& r : l.rows) {
    EXPECT_GT(r.pressure_delay, 0.0);
    EXPECT_LT(r.pressure_delay, 0.2 * r.delay);
  }
  // Korteweg: a stiff wall brings the wave to the speed of sound in water, about 1480 m/s; 2 m of hose and 0.175 m of
  // bar in 1.5 ms.
  const Lines stiff = lines(bar_layout(), {.hose_modulus = from_si<Pressure>(1e12)});
  EXPECT_NEAR(stiff.rows[0].pressure_delay, 2.175 / 1480.0, 0.02 * 2.175 / 1480.0);
}

TEST(Lines, TheLoopOfABothEndsFeedIsPushedThroughItsSlowestWay) {
  using namespace lines_test;
  Layout layout = bar_layout(6);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.manifolds[0].feed = ManifoldFeed::both_ends;
  bar.manifolds[0].feed_length = 2.0 * m;
  const Lines l = lines(layout);
  for (const RowLines& r : l.rows) {
    EXPECT_GE(r.fill, r.delay * (1.0 - 1e-12)) << "the latest front is not ahead of the earliest";
    EXPECT_GE(r.flushed, r.fill * (1.0 - 1e-12));
    EXPECT_LE(r.first_new, r.delay * (1.0 + 1e-12));
  }
}

TEST(Lines, TheControlCanBeElsewhere) {
  using namespace lines_test;
  Layout layout = bar_layout(4);
  std::get<Toolbar>(layout.plumbing).manifolds[0].feed_length = 3.0 * m;
  const Lines gauge = lines(layout);
  const Lines inlet = lines(layout, {.control = "manifold 1 inlet"});
  EXPECT_LT(inlet.rows[0].delay, gauge.rows[0].delay);
  EXPECT_EQ(inlet.rows[0].fill, gauge.rows[0].fill);
  EXPECT_THROW((void)lines(layout, {.control = "manifold inlet 1"}), InputError);
  expect_refused([&] { (void)lines(layout, {.share = 1.0}); }, "share");
}

TEST(Lines, AHosesOwnWallAndStiffnessAreItsOwn) {
  using namespace lines_test;
  // 2 mm on 10 mm of bore is the share 0.2 that is taken where nothing is given.
  Layout own = bar_layout(4);
  std::get<Toolbar>(own.plumbing).hose_wall = 2.0 * mm;
  std::get<Toolbar>(own.plumbing).hose_modulus = 350.0 * bar;
  const Lines stated = lines(own), asked = lines(bar_layout(4), {.hose_modulus = 350.0 * bar});
  for (std::size_t r = 0; r < stated.rows.size(); ++r) {
    EXPECT_NEAR(stated.rows[r].pressure_delay / asked.rows[r].pressure_delay, 1.0, 1e-9);
  }
  // A thinner wall gives more: the wave takes longer.
  std::get<Toolbar>(own.plumbing).hose_wall = 1.0 * mm;
  EXPECT_GT(lines(own).rows[0].pressure_delay, 1.2 * stated.rows[0].pressure_delay);
}

/// A layout place by place with one row: the last place of `p` is its outlet.
Layout lines_one_row(Plumbing p, Network::PartIndex last) {
  const auto air = p.network.to(last);
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, last));
  return {.name = "one row", .job = test::plain_job(), .plumbing = std::move(p)};
}

TEST(Lines, SuspensionHoseAndBarbHoldTheirVolumes) {
  using namespace units;
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  p.network.add_place("barb");
  p.network.add_air("row 1");
  p.network.add_part("barb", "pump", "barb", Barb{.bore = 9.0 * mm, .hose_bore = 12.0 * mm, .length = 60.0 * mm});
  const auto last =
      p.network.add_part("hose", "barb", "row 1",
                         SuspensionHose{.length = 4.0 * m, .bore = 12.0 * mm, .consistency = 2.0, .flow_index = 0.6});
  const Lines l = lines(lines_one_row(std::move(p), last));
  const double hose = std::numbers::pi / 4.0 * 0.012 * 0.012 * 4.0,
               barb = std::numbers::pi / 4.0 * 0.009 * 0.009 * 0.06;
  EXPECT_NEAR(l.held, hose + barb, 1e-15);
  EXPECT_NEAR(l.rows[0].fill, l.held / l.answer.evenness.total_flow, 1e-9 * l.rows[0].fill);
}

TEST(Lines, ABypassToThePumpsOwnInletCirculates) {
  using namespace units;
  Plumbing p;
  Network& n = p.network;
  n.add_supply("tank", 0.2 * bar);
  n.add_place("inlet");
  p.supply = n.add_place("outlet");
  n.add_air("row 1");
  n.add_part("suction", "tank", "inlet", Hose{.length = 2.0 * m, .bore = 20.0 * mm});
  n.add_part("pump", "inlet", "outlet", CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 40.0 * L_per_min});
  n.add_part("bypass", "outlet", "inlet", Hose{.length = 1.0 * m, .bore = 8.0 * mm});
  const auto last = n.add_part("row hose", "outlet", "row 1", Hose{.length = 3.0 * m, .bore = 10.0 * mm});
  const Lines l = lines(lines_one_row(std::move(p), last));
  ASSERT_GT(l.answer.solution.parts[2].flow, 0.0);
  EXPECT_TRUE(
      std::any_of(l.cautions.begin(), l.cautions.end(), [](const Caution& c) { return c.code == "circulation"; }));
  EXPECT_EQ(l.still, 0.0);
  // The front takes the straight way, with what leaves the tank: suction and row hose over the row's flow.
  const double straight = std::numbers::pi / 4.0 * (0.02 * 0.02 * 2.0 + 0.01 * 0.01 * 3.0);
  EXPECT_NEAR(l.rows[0].fill, straight / l.answer.evenness.total_flow, 1e-8 * l.rows[0].fill);
  EXPECT_NEAR(l.held, straight + std::numbers::pi / 4.0 * 0.008 * 0.008, 1e-15);
}

}  // namespace lines_test
}  // namespace libflow
