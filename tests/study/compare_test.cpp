// SPDX-License-Identifier: MIT
/// @file
/// Layouts side by side: one rate for all, the evener one, and what decides it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/study.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace compare_test {

using namespace units;
using test::expect_refused, test::plain_bar, test::plain_job, test::plain_valve;

Layout layout_of(std::string name, const Toolbar& toolbar) {
  return {.name = std::move(name), .job = plain_job(), .plumbing = toolbar};
}
Toolbar long_hoses() {
  Toolbar t = plain_bar(8);
  t.hose.length = 5.0 * m;
  t.hose_bore = 5.0 * mm;
  t.check_valve = plain_valve();
  return t;
}
Toolbar short_hoses() {
  Toolbar t = long_hoses();
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  return t;
}

TEST(Compare, NamesTheEvenerLayoutAndWhatDecides) {
  for (const bool swapped : {false, true}) {
    const std::size_t equal = swapped ? 1 : 0, shortest = 1 - equal;
    std::vector<Layout> layouts = {layout_of("long", long_hoses()), layout_of("short", short_hoses())};
    if (swapped) std::swap(layouts[0], layouts[1]);
    const Comparison c = compare(layouts);
    ASSERT_EQ(c.answers.size(), 2U);
    EXPECT_EQ(c.answers[equal].layout.name, "long");
    EXPECT_EQ(c.evenest, equal);
    EXPECT_EQ(c.least_even, shortest);
    EXPECT_EQ(c.deciding_cause, "hose lengths");
    EXPECT_LT(c.answers[equal].evenness.cv, c.answers[shortest].evenness.cv);
    EXPECT_DOUBLE_EQ(c.answers[equal].plumbing.hose_total, 8 * 5.0);
    // Rows at 0.381, 1.143, 1.905, 2.667 m from the centre, ports at 0.025, 0.075, 0.125, 0.175 m; 0.5 m more each.
    EXPECT_NEAR(c.answers[shortest].plumbing.hose_total, 2 * (6.096 - 0.4) + 8 * 0.5, 1e-13);
    EXPECT_TRUE(c.cautions.empty());
  }
}

TEST(Compare, OtherCausesDecide) {
  Toolbar narrow = long_hoses();
  narrow.manifolds[0].feed = ManifoldFeed::left;
  narrow.manifolds[0].bore = 8.0 * mm;
  EXPECT_EQ(compare({layout_of("wide", long_hoses()), layout_of("narrow", narrow)}).deciding_cause, "manifold");
  Toolbar tilted = long_hoses();
  tilted.side_slope = slope_percent(20.0);
  EXPECT_EQ(compare({layout_of("level", long_hoses()), layout_of("tilted", tilted)}).deciding_cause,
            "slope and height");
}

TEST(Compare, EveryLayoutGetsTheFirstOnesRateAndSpeed) {
  std::vector<Layout> layouts = {layout_of("a", long_hoses()), layout_of("b", short_hoses()),
                                 layout_of("c", plain_bar(8))};
  layouts[0].job.tolerance = 0.03;
  layouts[0].job.turn_radius = 80.0 * m;
  layouts[1].job.rate = 250.0 * L_per_ha;
  layouts[1].job.speed = 12.0 * kmh;
  layouts[2].job.pressure = 50.0 * psi;  // a setting of its own, found anew
  layouts[0].job.pressure = 11.0 * psi;
  const Comparison c = compare(layouts);
  const double total = 8 * si(flow_for_rate(100.0 * L_per_ha, 8.0 * kmh, 30.0 * inch));
  for (const Answer& a : c.answers) {
    ASSERT_TRUE(a.solution.usable());
    EXPECT_NEAR(a.evenness.total_flow / total, 1.0, 1e-12) << a.layout.name;
    EXPECT_EQ(a.evenness.tolerance, 0.03);
    EXPECT_EQ(si(a.layout.job.speed), si(8.0 * kmh));
    EXPECT_EQ(si(*a.layout.job.turn_radius), 80.0);
    EXPECT_FALSE(a.layout.job.pressure.has_value());
  }
  EXPECT_NE(c.answers[0].evenness.supply_pressure, c.answers[1].evenness.supply_pressure);
  const auto cv = [&](std::size_t i) { return c.answers[i].evenness.cv; };
  EXPECT_LE(cv(c.evenest), std::min({cv(0), cv(1), cv(2)}));
  EXPECT_GE(cv(c.least_even), std::max({cv(0), cv(1), cv(2)}));
}

/// Two rows on a free-form network.
Plumbing free_rows(double flow, bool held) {
  Plumbing p;
  p.supply = held ? p.network.add_supply("pump", 20.0 * psi) : p.network.add_fed("pump", from_si<Flow>(flow));
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose = p.network.add_part(fmt::format("hose {}", row), p.supply, air,
                                         Part(Hose{.length = row * 3.0 * m, .bore = 6.0 * mm}));
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = row * 3.0,
                      .airs = {air},
                      .last_parts = {hose},
                      .orifices = {},
                      .check_valves = {},
                      .hoses = {hose}});
  }
  return p;
}

// A free-form network's pushed-in flow was set for its own rate: it must follow the first layout's too.
TEST(Compare, FreeFormIsBroughtToTheFirstOnesRate) {
  const double total = 2 * si(flow_for_rate(100.0 * L_per_ha, 8.0 * kmh, 30.0 * inch));
  const Layout bar = layout_of("bar", plain_bar(2));
  Layout free{.name = "free", .job = plain_job(), .plumbing = free_rows(2.0 * total, false)};
  free.job.rate = 200.0 * L_per_ha;
  const Comparison c = compare({bar, free});
  EXPECT_NEAR(c.answers[1].evenness.total_flow / total, 1.0, 1e-12);
  EXPECT_NEAR(c.answers[1].evenness.mean_rate / c.answers[0].evenness.mean_rate, 1.0, 1e-12);
}

TEST(Compare, OtherProductIsACaution) {
  std::vector<Layout> layouts = {layout_of("a", long_hoses()), layout_of("b", short_hoses())};
  layouts[1].job.temperature = celsius(5.0);
  const Comparison c = compare(layouts);
  ASSERT_EQ(c.cautions.size(), 1U);
  EXPECT_EQ(c.cautions[0].code, "different-product");
  EXPECT_EQ(c.cautions[0].subject, "b");
}

TEST(Compare, Errors) {
  const Layout bar = layout_of("bar", plain_bar(2));
  expect_refused([] { (void)compare({}); }, "compare");
  expect_refused([&] { (void)compare({bar}); }, "compare");
  expect_refused([&] { (void)compare({bar, layout_of("wide bar", plain_bar(3))}); }, "wide bar");
  const Layout held{.name = "held one", .job = plain_job(), .plumbing = free_rows(0.0, true)};
  expect_refused([&] { (void)compare({bar, held}); }, "held one");
  Toolbar bad = plain_bar(2);
  bad.hose_bore = 0.0 * m;
  expect_refused([&] { (void)compare({bar, layout_of("bad", bad)}); }, "hose, bore");
  try {
    (void)compare({bar, layout_of("wide bar", plain_bar(3))});
  } catch (const InputError& e) {
    EXPECT_NE(std::string(e.what()).find("3 rows"), std::string::npos) << e.what();
  }
}

// compare() promises errors that name the layout.
TEST(Compare, ErrorsNameTheLayout) {
  Toolbar bad = plain_bar(2);
  bad.hose_bore = 0.0 * m;
  expect_refused([&] { (void)compare({layout_of("good", plain_bar(2)), layout_of("bad one", bad)}); }, "bad one");
}

// A layout that has no answer is named, in a list of several.
TEST(Compare, NamesTheLayoutWithoutAnAnswer) {
  Plumbing p;  // the valve stands the wrong way round
  p.supply = p.network.add_fed("pump", 1.0 * L_per_min);
  for (int row = 1; row <= 8; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto valve = p.network.add_part(fmt::format("valve {}", row), air, p.supply,
                                          Part(CheckValve{.crack = 0.3 * bar, .passage_bore = 4.0 * mm}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.76, air, valve, {.check_valves = {valve}}));
  }
  const Layout wrong{.name = "wrong way", .job = plain_job(), .plumbing = p};
  const std::vector<Layout> layouts = {layout_of("long", long_hoses()), wrong};
  const auto named = [&](auto&& ask) {
    try {
      ask();
      ADD_FAILURE() << "answered";
    } catch (const IllPosedError& e) {
      EXPECT_EQ(std::string(e.what()).rfind("wrong way: ", 0), 0U) << e.what();
      EXPECT_NE(std::string(e.what()).find("'pump'"), std::string::npos) << e.what();
    }
  };
  named([&] { (void)compare(layouts); });
  named([&] { (void)compare_points(layouts, {8.0 * kmh}, {100.0 * L_per_ha}); });
}

// Hoses that are slow and thin lose in proportion to the flow, a narrow bar more than that: the higher rate is the more
// uneven one. With a wide bar and short hoses of unequal length before square-law orifices it is the lower one.
TEST(ComparePoints, TheWorstRowIsThatOfTheWorstPoint) {
  Toolbar higher = plain_bar(8), lower = short_hoses();
  higher.orifice.reset();
  higher.hose.length = 5.0 * m;
  higher.hose_bore = 3.0 * mm;
  higher.manifolds[0].bore = 5.0 * mm;
  lower.check_valve.reset();
  std::vector<Layout> layouts{layout_of("higher", higher), layout_of("lower", lower)};
  for (Layout& l : layouts) l.job.liquid = find_liquid("water");
  const PointComparison c = compare_points(layouts, {8.0 * kmh}, {8.0 * L_per_ha, 25.0 * L_per_ha});
  ASSERT_EQ(c.shared, 2U);
  for (std::size_t k = 0; k < 2; ++k) {
    const ComparedLayout& l = c.layouts[k];
    const EnvelopePoint &worse = l.points[1 - k], &better = l.points[k];
    EXPECT_GT(std::abs(worse.worst), 1.1 * std::abs(better.worst)) << l.layout.name;
    EXPECT_EQ(l.worst, worse.worst);
    EXPECT_EQ(l.worst_row, worse.worst_row);
    EXPECT_EQ(l.cv, worse.cv);
  }
}

}  // namespace compare_test
}  // namespace libflow
