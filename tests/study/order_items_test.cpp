// SPDX-License-Identifier: MIT
/// @file
/// What every kind of part is ordered as: its name and the sizes that it is bought by are those that were given.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts.hpp>
#include <libflow/parts/table_part.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/order_list.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace order_items_test {

using namespace units;

/// A part as one of a layout place by place. Nothing is solved: a list needs no answer.
OrderList list_of(std::vector<Part> parts) {
  Plumbing p;
  p.supply = p.network.add_place("bar");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto air = p.network.add_air(fmt::format("end {}", i + 1));
    p.network.add_part(fmt::format("part {}", i + 1), p.supply, air, std::move(parts[i]));
  }
  return order_list({.name = "parts", .job = test::plain_job(), .plumbing = std::move(p)});
}

struct NamedSize {
  std::string name;
  double value;  // SI
};
/// The list of this one part holds it once, by these sizes.
void expect_ordered(Part part, const std::string& what, const std::vector<NamedSize>& sizes) {
  SCOPED_TRACE(what);
  const OrderList list = list_of({std::move(part)});
  const auto found = std::find_if(list.items.begin(), list.items.end(), [&](const auto& i) { return i.what == what; });
  ASSERT_NE(found, list.items.end());
  EXPECT_EQ(found->count, 1U);
  EXPECT_EQ(found->ids, std::vector<std::string>{"part 1"});
  ASSERT_EQ(found->sizes.size(), sizes.size());
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    EXPECT_EQ(found->sizes[i].name, sizes[i].name);
    EXPECT_NEAR(found->sizes[i].value / sizes[i].value, 1.0, 1e-12) << sizes[i].name;
  }
}

TEST(OrderItems, ValvesByWhatTheyAreSetToAndLetThrough) {
  expect_ordered(PressureRegulator{.set = 2.0 * bar, .passage_bore = 8.0 * mm}, "pressure regulator",
                 {{"set pressure", 2e5}});
  expect_ordered(ReliefValve{.set = 5.0 * bar, .passage_bore = 8.0 * mm}, "relief valve", {{"set pressure", 5e5}});
  expect_ordered(PulsedValve{.passage_bore = 3.0 * mm}, "pulsed valve", {{"passage", 3e-3}});
  expect_ordered(PulsedValve{.passage_bore = 3.0 * mm, .outlet_bore = 1.0 * mm}, "pulsed valve",
                 {{"passage", 3e-3}, {"orifice in it", 1e-3}});
}

TEST(OrderItems, FittingsByTheirBores) {
  expect_ordered(Reducer{.from_bore = 25.0 * mm, .to_bore = 19.0 * mm}, "reducer", {{"from", 25e-3}, {"to", 19e-3}});
  expect_ordered(Barb{.bore = 9.0 * mm, .hose_bore = 12.0 * mm, .length = 25.0 * mm}, "hose barb",
                 {{"bore", 9e-3}, {"hose", 12e-3}});
  expect_ordered(Fitting::elbow_45(12.0 * mm), "45 degree elbow", {{"bore", 12e-3}});
  // By constants of its own it has no other name.
  expect_ordered(Fitting{.bore = 12.0 * mm, .k1 = 123.0, .k_inf = 0.4}, "fitting", {{"bore", 12e-3}});
  expect_ordered(RowOutlet{.bore = 10.0 * mm}, "row outlet", {{"bore", 10e-3}});
  expect_ordered(RowOutlet{.bore = 10.0 * mm, .count = 2}, "row outlet, two tubes", {{"bore", 10e-3}});
  expect_ordered(VentedTube{.bore = 12.0 * mm, .fall = 0.5 * m}, std::string(VentedTube::kind), {{"bore", 12e-3}});
  expect_ordered(TablePart{.points = {{1.0 * L_per_min, 1.0 * kPa}, {2.0 * L_per_min, 4.0 * kPa}}},
                 std::string(TablePart::kind), {{"loses", 4e3}, {"at", 2e-3 / 60.0}});
}

// Two losses in one bore are two things to buy, and a named fitting needs no constants.
TEST(OrderItems, FittingsWithoutANameAreToldApartByTheirLoss) {
  const OrderList list = list_of({Fitting{.bore = 12.0 * mm, .k1 = 123.0, .k_inf = 0.4},
                                  Fitting{.bore = 12.0 * mm, .k1 = 123.0, .k_inf = 0.4},
                                  Fitting{.bore = 12.0 * mm, .k1 = 123.0, .k_inf = 2.5}, Fitting::elbow_90(12.0 * mm)});
  std::vector<std::pair<std::string, std::size_t>> fittings;
  for (const OrderItem& i : list.items) {
    if (i.what == "fitting") fittings.emplace_back(i.note, i.count);
    if (i.what == "elbow") {
      EXPECT_EQ(i.note, "");
    }
  }
  EXPECT_EQ(fittings,
            (std::vector<std::pair<std::string, std::size_t>>{{"K = 123/Re + 0.4", 2}, {"K = 123/Re + 2.5", 1}}));
}

TEST(OrderItems, PumpsByWhatTheySweep) {
  const PumpSlip slip{.flow = from_si<Flow>(1e-7), .gain = 2.0 * bar};
  expect_ordered(PositivePump{.displacement = 50.0 * mL, .rpm = 600.0, .slip = slip}, "positive pump",
                 {{"each revolution", 50e-6}});
  expect_ordered(
      GroundDrivenPump{
          .displacement = 2.0 * L, .distance = 10.0 * m, .ground_speed = from_si<Speed>(2.0), .slip = slip},
      "ground-driven pump", {{"displacement", 2e-3}});
}

TEST(OrderItems, SmallVolumesAreReadInMillilitres) {
  const OrderSize small = order_detail::volume(50.0 * mL, "each revolution"),
                  large = order_detail::volume(2.0 * L, "displacement");
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    EXPECT_EQ(order_size_text(small, u), "each revolution 50 mL");
  }
  EXPECT_NE(order_size_text(large, UnitSystem::us).find("gal"), std::string::npos);
  EXPECT_NE(order_size_text(large, UnitSystem::metric).find("L"), std::string::npos);
}

TEST(OrderItems, OneSizeApartIsAnotherThing) {
  const OrderList list = list_of({Reducer{.from_bore = 25.0 * mm, .to_bore = 19.0 * mm},
                                  Reducer{.from_bore = 25.0 * mm, .to_bore = 12.0 * mm},
                                  Reducer{.from_bore = 25.0 * mm, .to_bore = 19.0 * mm}});
  std::vector<std::size_t> counts;
  for (const OrderItem& item : list.items) {
    if (item.what == "reducer") counts.push_back(item.count);
  }
  EXPECT_EQ(counts, (std::vector<std::size_t>{2, 1}));
  // Parts that are known by measured points are told apart by them.
  const OrderList tables = list_of({TablePart{.points = {{1.0 * L_per_min, 1.0 * kPa}, {2.0 * L_per_min, 4.0 * kPa}}},
                                    TablePart{.points = {{1.0 * L_per_min, 3.0 * kPa}, {2.0 * L_per_min, 9.0 * kPa}}}});
  EXPECT_EQ(std::count_if(tables.items.begin(), tables.items.end(),
                          [](const OrderItem& i) { return i.what == TablePart::kind && i.count == 1; }),
            2);
}

TEST(OrderItems, SuspensionHoseIsCutAsAnyHose) {
  Plumbing p;
  p.supply = p.network.add_supply("bar", 1.0 * bar);
  const SuspensionHose thick{
      .length = 2.5 * m, .bore = 19.0 * mm, .consistency = 1.0, .flow_index = 0.6, .rating = 10.0 * bar};
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose = p.network.add_part(fmt::format("hose {}", row), p.supply, air, Part(thick));
    p.cut_hoses.push_back(hose);
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hose, {.hoses = {hose}}));
  }
  const OrderList list = order_list({.name = "suspension", .job = test::plain_job(), .plumbing = p},
                                    {.waste = 0.1, .tape = UnitSystem::metric});
  ASSERT_EQ(list.hoses.size(), 1U);
  EXPECT_EQ(list.hoses[0].cuts.size(), 2U);
  EXPECT_DOUBLE_EQ(si(list.hoses[0].bore), 0.019);
  ASSERT_TRUE(list.hoses[0].rating);
  EXPECT_DOUBLE_EQ(si(*list.hoses[0].rating), 1e6);
  EXPECT_NEAR(si(list.hose_total), 5.0, 1e-12);
  EXPECT_NEAR(si(list.hoses[0].to_buy), 1.1 * 5.0, 1e-9);
}

TEST(OrderItems, WhereABarIsFed) {
  const auto note = [](int rows, ManifoldFeed feed) {
    Toolbar t = test::plain_bar(rows);
    t.manifolds[0].feed = feed;
    if (feed == ManifoldFeed::both_ends) t.manifolds[0].feed_length = 1.0 * m;
    for (const OrderItem& item : order_list({.name = "bar", .job = test::plain_job(), .plumbing = t}).items) {
      if (item.what.starts_with("manifold")) return item.note;
    }
    return std::string("no manifold");
  };
  EXPECT_EQ(note(6, ManifoldFeed::left), "fed at the left end");
  EXPECT_EQ(note(6, ManifoldFeed::right), "fed at the right end");
  EXPECT_EQ(note(6, ManifoldFeed::both_ends), "fed at both ends");
  EXPECT_EQ(note(6, ManifoldFeed::middle), "fed by a port between those of rows 3 and 4");
  EXPECT_EQ(note(5, ManifoldFeed::middle), "fed by a cross at the port of row 3");
  EXPECT_EQ(note(1, ManifoldFeed::middle), "a coupling");
}

TEST(OrderItems, AListNeedsNoAnswer) {
  // Liquid is pushed in against a valve that is mounted the wrong way round: no answer, but the same parts to buy.
  Plumbing p;
  p.supply = p.network.add_fed("pump", 1.0 * L_per_min);
  const auto air = p.network.add_air("row 1");
  const auto valve =
      p.network.add_part("valve", air, p.supply, Part(CheckValve{.crack = 0.3 * bar, .passage_bore = 4.0 * mm}));
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, valve, {.check_valves = {valve}}));
  const Layout layout{.name = "wrong way", .job = test::plain_job(), .plumbing = p};
  EXPECT_THROW((void)main_job(layout), IllPosedError);
  const OrderList list = order_list(layout);
  ASSERT_EQ(list.items.size(), 1U);
  EXPECT_EQ(list.items[0].what, "check valve");
  EXPECT_EQ(list.items[0].rows, std::vector<int>{1});
}

}  // namespace order_items_test
}  // namespace libflow
