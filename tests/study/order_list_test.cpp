// SPDX-License-Identifier: MIT
/// @file
/// Order lists and cutting from coils: nothing is lost, nothing is counted twice.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/order_list.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace order_list_test {

namespace order_test {
using namespace units;
using test::expect_refused;

bool has_doubt(const OrderList& list) {
  return std::any_of(list.cautions.begin(), list.cautions.end(),
                     [](const Caution& c) { return c.code == "orifice-not-smaller-than-hose"; });
}

Layout bar_layout(int rows) { return {.name = "bar", .job = test::plain_job(), .plumbing = test::plain_bar(rows)}; }

std::size_t count_of(const OrderList& list, const std::string& what) {
  std::size_t count = 0;
  for (const OrderItem& item : list.items) count += item.what == what ? item.count : 0;
  return count;
}

std::vector<Length> metres(const std::vector<double>& values) {
  std::vector<Length> lengths;
  for (const double v : values) lengths.push_back(v * m);
  return lengths;
}

/// The fewest coils, by trying everything.
std::size_t fewest_coils(const std::vector<double>& cuts, double coil, std::vector<double>& left, std::size_t next) {
  if (next == cuts.size()) return left.size();
  std::size_t best = cuts.size();
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (left[i] + 1e-9 < cuts[next]) continue;
    left[i] -= cuts[next];
    best = std::min(best, fewest_coils(cuts, coil, left, next + 1));
    left[i] += cuts[next];
  }
  left.push_back(coil - cuts[next]);
  best = std::min(best, fewest_coils(cuts, coil, left, next + 1));
  left.pop_back();
  return best;
}
}  // namespace order_test

TEST(OrderList, AsksAboutAnOrificeThatMetersNothing) {
  Layout layout = order_test::bar_layout(6);
  EXPECT_FALSE(order_test::has_doubt(order_list(layout)));
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = std::get<Toolbar>(layout.plumbing).hose_bore};
  const OrderList slip = order_list(layout);
  EXPECT_TRUE(order_test::has_doubt(slip));
  const std::string text = order_list_text(slip);
  ASSERT_NE(text.find("Before you order"), std::string::npos) << text;
  EXPECT_LT(text.find("meters nothing"), text.find("Parts\n")) << text;
  EXPECT_EQ(text.find("Before you order"), text.rfind("Before you order"));
}

TEST(Coils, FirstFitDecreasing) {
  using namespace order_test;
  const CoilPlan plan = cut_from_coils(metres({3, 7, 5, 5, 2, 8}), 10.0 * m);
  ASSERT_EQ(plan.coils.size(), 3U);
  EXPECT_EQ(plan.at_least, 3U);
  EXPECT_EQ(plan.coils[0].cuts, (std::vector<std::size_t>{5, 4}));  // 8 + 2
  EXPECT_EQ(plan.coils[1].cuts, (std::vector<std::size_t>{1, 0}));  // 7 + 3
  EXPECT_EQ(plan.coils[2].cuts, (std::vector<std::size_t>{2, 3}));  // 5 + 5
  for (const Coil& coil : plan.coils) EXPECT_NEAR(si(coil.left), 0.0, 1e-12);
}

TEST(Coils, EveryCutOnceAndWithinTheProvedBound) {
  using namespace order_test;
  std::mt19937 random(7);
  std::uniform_real_distribution<double> length(0.5, 6.0);
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<double> cuts(1 + static_cast<std::size_t>(trial) % 8);
    for (double& c : cuts) c = length(random);
    const CoilPlan plan = cut_from_coils(metres(cuts), 10.0 * m);
    std::vector<std::size_t> seen;
    for (const Coil& coil : plan.coils) {
      double sum = si(coil.left);
      for (const std::size_t i : coil.cuts) {
        seen.push_back(i);
        sum += cuts[i];
      }
      EXPECT_NEAR(sum, 10.0, 1e-9);
    }
    std::sort(seen.begin(), seen.end());
    std::vector<std::size_t> all(cuts.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    EXPECT_EQ(seen, all);
    std::vector<double> left;
    const std::size_t fewest = fewest_coils(cuts, 10.0, left, 0);
    EXPECT_GE(fewest, plan.at_least);
    EXPECT_GE(plan.coils.size(), fewest);
    // G. Dosa 2007: at most 11/9 of the fewest and 2/3.
    EXPECT_LE(9.0 * static_cast<double>(plan.coils.size()), 11.0 * static_cast<double>(fewest) + 6.0);
  }
}

TEST(Coils, RefusesACutLongerThanACoil) {
  using namespace order_test;
  expect_refused([] { (void)cut_from_coils(metres({3, 12}), 10.0 * m); }, "coil");
  EXPECT_EQ(cut_from_coils(metres({10}), 10.0 * m).coils.size(), 1U);
  EXPECT_TRUE(cut_from_coils({}, 10.0 * m).coils.empty());
}

TEST(OrderList, PlainBarByCount) {
  using namespace order_test;
  Layout layout = bar_layout(12);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.check_valve = test::plain_valve();
  const OrderList list = order_list(layout);
  ASSERT_EQ(list.hoses.size(), 1U);
  EXPECT_EQ(list.hoses[0].cuts.size(), 12U);
  EXPECT_NEAR(si(list.hoses[0].total), 24.0, 1e-12);
  EXPECT_NEAR(si(list.hoses[0].to_buy), 1.05 * 12.0 * 79.0 * 0.0254, 1e-12) << "2 m are 78.7 in: cut at 79";
  for (int row = 1; row <= 12; ++row) EXPECT_EQ(list.hoses[0].cuts[static_cast<std::size_t>(row - 1)].row, row);
  EXPECT_EQ(count_of(list, "orifice"), 12U);
  EXPECT_EQ(count_of(list, "check valve"), 12U);
  EXPECT_EQ(count_of(list, "manifold with 12 ports"), 1U);
  EXPECT_EQ(count_of(list, "hose end"), 24U);
  EXPECT_NEAR(si(list.hose_total), main_job(layout).plumbing.hose_total, 1e-12) << "as much hose as solve says";
}

TEST(OrderList, RowsOfTheirOwnAreApart) {
  using namespace order_test;
  Layout layout = bar_layout(6);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.2 * mm}},
                     {.row = 5, .hose_length = 3.5 * m, .hose_bore = 12.0 * mm},
                     {.row = 6, .shut = true}};
  const OrderList list = order_list(layout);
  ASSERT_EQ(list.hoses.size(), 2U);
  EXPECT_NEAR(si(list.hoses[0].bore), 0.012, 1e-15) << "widest first";
  ASSERT_EQ(list.hoses[0].cuts.size(), 1U);
  EXPECT_EQ(list.hoses[0].cuts[0].row, 5);
  EXPECT_EQ(list.hoses[1].cuts.size(), 4U) << "the shut row has none";
  std::size_t kinds = 0;
  for (const OrderItem& item : list.items) {
    if (item.what != "orifice") continue;
    ++kinds;
    EXPECT_EQ(item.rows, item.count == 1 ? std::vector<int>{2} : std::vector<int>({1, 3, 4, 5}));
  }
  EXPECT_EQ(kinds, 2U);
}

TEST(OrderList, FeedHosesAndTheirTee) {
  using namespace order_test;
  Layout layout = bar_layout(8);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.manifolds = {{.id = "left", .first_row = 1, .last_row = 4, .feed_length = 3.0 * m, .feed_bore = 19.0 * mm},
                   {.id = "right", .first_row = 5, .last_row = 8, .feed_length = 4.0 * m, .feed_bore = 19.0 * mm}};
  const OrderList list = order_list(layout);
  ASSERT_EQ(list.hoses.size(), 2U);
  EXPECT_NEAR(si(list.hoses[0].total), 7.0, 1e-12);
  EXPECT_EQ(list.hoses[0].cuts[0].row, 0);
  EXPECT_EQ(count_of(list, "manifold with 4 ports"), 2U);
  EXPECT_EQ(count_of(list, "tee"), 1U) << "where the two feed hoses part";
}

TEST(OrderList, TwoOutletsARowNeedATee) {
  using namespace order_test;
  Layout layout = bar_layout(4);
  std::get<Toolbar>(layout.plumbing).outlets_per_row = 2;
  const OrderList list = order_list(layout);
  EXPECT_EQ(count_of(list, "orifice"), 8U);
  EXPECT_EQ(count_of(list, "tee"), 4U);
}

TEST(OrderList, ADriveIsListedWhateverItsSetting) {
  using namespace order_test;
  Layout layout = bar_layout(4);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  Drive drive;
  drive.tanks = {{.tank = {.shape = UprightTank::round(1.0 * m, 1.0 * m)}, .level = 0.5 * m}};
  drive.suction = {.length = 2.0 * m};
  drive.pump = CentrifugalPump{.shutoff = 300.0 * kPa, .free_flow = 100.0 * L_per_min};
  drive.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  bar.drive = drive;
  const OrderList list = order_list(layout);
  EXPECT_EQ(count_of(list, "tank"), 1U);
  EXPECT_EQ(count_of(list, "centrifugal pump"), 1U);
  EXPECT_NEAR(si(list.hose_total), 2.0 + 3.0 + 4.0 * 2.0, 1e-12);
  bar.drive->setting = 0.5;
  const OrderList held = order_list(layout);
  EXPECT_EQ(held.items.size(), list.items.size());
  EXPECT_EQ(si(held.hose_total), si(list.hose_total));
}

TEST(OrderList, FreeFormByPartKind) {
  using namespace order_test;
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(5e-5));
  const auto tee = p.network.add_place("tee");
  const auto pipe = p.network.add_part("pipe", p.supply, tee, Part(Hose{.length = 2.0 * m, .bore = 12.0 * mm}));
  for (int row = 1; row <= 2; ++row) {
    const auto end = p.network.add_place(fmt::format("end {}", row));
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose = p.network.add_part(fmt::format("hose {}", row), tee, end,
                                         Part(Hose{.length = row * 1.5 * m, .bore = 8.0 * mm}));
    const auto elbow = p.network.add_part(fmt::format("elbow {}", row), end, air, Part(Fitting::elbow_90(8.0 * mm)));
    p.cut_hoses.push_back(hose);
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.762, air, elbow, {.hoses = {hose}}));
  }
  (void)pipe;
  const OrderList list = order_list({.name = "free", .job = test::plain_job(), .plumbing = p});
  EXPECT_EQ(count_of(list, "pipe or tube"), 1U);
  EXPECT_EQ(count_of(list, "elbow"), 2U) << "named by its constants";
  EXPECT_EQ(count_of(list, "tee"), 1U);
  EXPECT_NEAR(si(list.hose_total), 4.5, 1e-12) << "pipe is not cut from a roll";
}

const OrderItem* order_item(const OrderList& list, const std::string& what) {
  const auto at = std::find_if(list.items.begin(), list.items.end(), [&](const auto& i) { return i.what == what; });
  return at == list.items.end() ? nullptr : &*at;
}

TEST(OrderList, AManifoldsPortsAreCountedByBoreAndItsSpacingIsMarkedWhereAssumed) {
  using namespace order_test;
  Layout layout = bar_layout(6);
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.row_changes = {{.row = 5, .hose_bore = 12.0 * mm}, {.row = 6, .shut = true}};
  const OrderList list = order_list(layout);
  const OrderItem* manifold = order_item(list, "manifold with 6 ports");
  ASSERT_NE(manifold, nullptr);
  EXPECT_EQ(manifold->note, "fed by a port between those of rows 3 and 4, 1 port plugged");
  ASSERT_EQ(manifold->sizes.size(), 4U);
  EXPECT_EQ(manifold->sizes[1].name, "port spacing");
  EXPECT_TRUE(manifold->sizes[1].assumed);
  EXPECT_EQ(manifold->sizes[2].count, 1U);
  EXPECT_NEAR(manifold->sizes[2].value, 0.012, 1e-15);
  EXPECT_EQ(manifold->sizes[3].count, 4U);
  bar.manifolds.front().port_spacing = 60.0 * mm;
  bar.manifolds.front().feed = ManifoldFeed::both_ends;
  bar.manifolds.front().feed_length = 1.0 * m;
  const OrderList own = order_list(layout);
  manifold = order_item(own, "manifold with 6 ports");
  ASSERT_NE(manifold, nullptr);
  EXPECT_FALSE(manifold->sizes[1].assumed);
  EXPECT_EQ(manifold->sizes.back().name, "feed for hose");
  EXPECT_EQ(manifold->sizes.back().count, 2U);
  EXPECT_EQ(manifold->note, "fed at both ends, 1 port plugged");
}

// What examples/tees.toml draws: a feed and two rows branch off in tees, the two outer rows at the plugged ends.
TEST(OrderList, TeesOfALayoutByTheirBores) {
  using namespace order_test;
  const OrderList list = order_list(read_layout(std::string(LIBFLOW_EXAMPLES) + "/tees.toml"));
  std::size_t tees = 0, elbows = 0;
  for (const OrderItem& item : list.items) {
    if (item.what == "tee") {
      tees += item.count;
      ASSERT_EQ(item.sizes.size(), 2U);
      EXPECT_NEAR(item.sizes[0].value, si(0.5 * inch), 1e-12);
      const bool feed = item.ids == std::vector<std::string>{"feed tee"};
      EXPECT_NEAR(item.sizes[1].value, si((feed ? 0.5 : 0.375) * inch), 1e-12);
    }
    if (item.what.rfind("elbow", 0) == 0) elbows += item.count;
  }
  EXPECT_EQ(tees, 3U);
  EXPECT_EQ(elbows, 2U);
  ASSERT_NE(order_item(list, "pipe or tube"), nullptr);
  EXPECT_EQ(order_item(list, "pipe or tube")->count, 4U);
}

TEST(OrderList, CoilsCarryTheAllowance) {
  using namespace order_test;
  // 12 cuts of 2 m: 24 m fit one 25 m coil, with 5 % allowance they do not.
  const Layout layout = bar_layout(12);
  EXPECT_EQ(order_list(layout, {.waste = 0.0, .coil = 25.0 * m}).hoses[0].plan->coils.size(), 1U);
  EXPECT_EQ(order_list(layout, {.waste = 0.05, .coil = 25.0 * m}).hoses[0].plan->coils.size(), 2U);
  expect_refused([&] { (void)order_list(layout, {.coil = 1.0 * m}); }, "bore");
  expect_refused([&] { (void)order_list(layout, {.waste = -0.1}); }, "waste");
}

// 12 runs that are no whole inches: what is cut is, and with its allowance it fits its coil.
TEST(OrderList, CutsAreThoseOfATape) {
  using namespace order_test;
  Layout layout = bar_layout(12);
  auto& hose = std::get<Toolbar>(layout.plumbing).hose;
  hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  for (const UnitSystem tape : {UnitSystem::us, UnitSystem::metric}) {
    layout.units = tape;
    const OrderList list = order_list(layout, {.waste = 0.08, .coil = 11.0 * m});
    const double step = tape == UnitSystem::us ? 0.0254 : 0.01;
    ASSERT_EQ(list.hoses.size(), 1U);
    const HoseOrder& h = list.hoses[0];
    double cuts = 0.0, lengths = 0.0;
    for (const HoseCut& c : h.cuts) {
      EXPECT_NEAR(std::remainder(si(c.cut), step), 0.0, 1e-12);
      EXPECT_GE(si(c.cut), si(c.length) - 1e-6);
      EXPECT_LT(si(c.cut), si(c.length) + step);
      cuts += si(c.cut);
      lengths += si(c.length);
    }
    EXPECT_GT(cuts, lengths);
    EXPECT_NEAR(si(h.cut_total), cuts, 1e-12);
    EXPECT_NEAR(si(list.cut_total), cuts, 1e-12);
    EXPECT_NEAR(si(list.hose_total), lengths, 1e-12);
    EXPECT_NEAR(si(h.to_buy), 1.08 * cuts, 1e-12);
    ASSERT_TRUE(h.plan);
    std::vector<int> seen(h.cuts.size(), 0);
    for (const Coil& coil : h.plan->coils) {
      double used = 0.0;
      for (const std::size_t i : coil.cuts) {
        used += 1.08 * si(h.cuts[i].cut);
        ++seen[i];
      }
      EXPECT_NEAR(used + si(coil.left), 11.0, 1e-9);
      EXPECT_GE(si(coil.left), 0.0);
    }
    EXPECT_EQ(std::count(seen.begin(), seen.end(), 1), 12);
    // The same layout, cut by the other tape.
    const UnitSystem other = tape == UnitSystem::us ? UnitSystem::metric : UnitSystem::us;
    EXPECT_EQ(order_list(layout, {.tape = other}).units, other);
    EXPECT_NE(order_list(layout, {.tape = other}).cut_total, list.cut_total);
  }
}

}  // namespace order_list_test
}  // namespace libflow
