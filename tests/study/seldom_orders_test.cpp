// SPDX-License-Identifier: MIT
/// @file
/// What must not be merged in an order list: hoses of another rating, tees of other hoses, fittings of another loss.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/parts.hpp>
#include <libflow/study/order_list.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace seldom_orders_test {

using namespace units;

static OrderList order_of(Plumbing p) {
  return order_list({.name = "parts", .job = test::plain_job(), .plumbing = std::move(p)});
}

static std::vector<OrderItem> items_named(const OrderList& list, const std::string& what) {
  std::vector<OrderItem> found;
  for (const OrderItem& item : list.items) {
    if (item.what == what) found.push_back(item);
  }
  return found;
}

/// A bar of three rows whose hoses have these ratings.
static OrderList rated(const std::vector<std::optional<Pressure>>& ratings) {
  Plumbing p = build_network(test::plain_bar(3), test::plain_job());
  for (std::size_t i = 0; i < ratings.size(); ++i) {
    const auto at = p.rows[i].hoses.front();
    Hose hose = *p.network.part(at).part.as<Hose>();
    hose.rating = ratings[i];
    p.network.replace_part(at, hose);
  }
  return order_of(std::move(p));
}

// A hose of a lower rating, or of none, cut from the same coil as a stronger one could burst.
TEST(SeldomOrders, HosesOfOneBoreAreCutFromOneCoilOnlyWhereTheirRatingIsTheSame) {
  const auto cuts_at = [](const OrderList& list, std::optional<Pressure> rating) {
    std::size_t cuts = 0;
    for (const HoseOrder& h : list.hoses) {
      if (h.rating.has_value() == rating.has_value() && (!rating || si(*h.rating) == si(*rating))) {
        cuts += h.cuts.size();
      }
    }
    return cuts;
  };
  const OrderList two = rated({10.0 * bar, 20.0 * bar, 10.0 * bar});
  ASSERT_EQ(two.hoses.size(), 2U);
  EXPECT_EQ(cuts_at(two, 10.0 * bar), 2U);
  EXPECT_EQ(cuts_at(two, 20.0 * bar), 1U);
  const OrderList some = rated({std::nullopt, 20.0 * bar, std::nullopt});
  ASSERT_EQ(some.hoses.size(), 2U);
  EXPECT_EQ(cuts_at(some, std::nullopt), 2U);
  EXPECT_EQ(cuts_at(some, 20.0 * bar), 1U);
  EXPECT_EQ(rated({10.0 * bar, 10.0 * bar, 10.0 * bar}).hoses.size(), 1U);
}

// Two wide hoses and a narrow one need another tee than one wide and two narrow ones.
TEST(SeldomOrders, TeesAreToldApartByHowManyHosesOfEachBoreMeetThere) {
  Plumbing p;
  p.supply = p.network.add_place("supply");
  const auto hose = [](double bore) { return Hose{.length = 1.0 * m, .bore = bore * mm}; };
  struct Branch {
    std::string name;
    double one, other;  // bores beyond it [mm]
  };
  for (const Branch& b : {Branch{"A", 12.0, 10.0}, Branch{"B", 10.0, 10.0}}) {
    const auto at = p.network.add_place(b.name);
    p.network.add_part("to " + b.name, p.supply, at, hose(12.0));
    p.network.add_part(b.name + " 1", at, p.network.add_air(b.name + " end 1"), hose(b.one));
    p.network.add_part(b.name + " 2", at, p.network.add_air(b.name + " end 2"), hose(b.other));
  }
  const auto tees = items_named(order_of(std::move(p)), "tee");
  ASSERT_EQ(tees.size(), 2U);
  for (const OrderItem& tee : tees) {
    EXPECT_EQ(tee.count, 1U);
    ASSERT_EQ(tee.sizes.size(), 2U);  // widest first
    const std::size_t wide = tee.ids == std::vector<std::string>{"A"} ? 2U : 1U;
    EXPECT_EQ(static_cast<std::size_t>(tee.sizes[0].count), wide);
    EXPECT_EQ(static_cast<std::size_t>(tee.sizes[1].count), 3U - wide);
  }
}

static OrderList list_of(std::vector<Part> parts) {
  Plumbing p;
  p.supply = p.network.add_place("bar");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string n = std::to_string(i + 1);
    p.network.add_part("part " + n, p.supply, p.network.add_air("end " + n), std::move(parts[i]));
  }
  return order_of(std::move(p));
}

// A fitting that shares one constant with an elbow is none: bought as an elbow it would lose another pressure.
TEST(SeldomOrders, AFittingWithOnlyOneConstantOfAnElbowIsNotCalledOne) {
  Fitting almost = Fitting::elbow_90(12.0 * mm);
  almost.k_inf *= 1.5;
  const OrderList list = list_of({Fitting::elbow_90(12.0 * mm), almost});
  ASSERT_EQ(items_named(list, "elbow").size(), 1U);
  EXPECT_EQ(items_named(list, "elbow").front().count, 1U);
  ASSERT_EQ(items_named(list, "fitting").size(), 1U);
  EXPECT_FALSE(items_named(list, "fitting").front().note.empty());
}

// A long hole loses otherwise than a sharp plate of its bore: two things to buy, the long one with its length.
TEST(SeldomOrders, ALongHoleIsOrderedApartFromAPlateAndByItsLength) {
  const OrderList list = list_of({Orifice{.bore = 1.0 * mm}, Orifice{.bore = 1.0 * mm, .thickness = 5.0 * mm},
                                  Orifice{.bore = 1.0 * mm, .thickness = 6.0 * mm}, OpenEnd{.bore = 10.0 * mm}});
  const auto plates = items_named(list, "orifice");
  ASSERT_EQ(plates.size(), 1U);
  EXPECT_EQ(plates.front().sizes.size(), 1U);
  const auto holes = items_named(list, "orifice, long hole");
  ASSERT_EQ(holes.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    ASSERT_EQ(holes[i].sizes.size(), 2U);
    EXPECT_EQ(holes[i].sizes[1].name, "hole length");
    EXPECT_NEAR(holes[i].sizes[1].value, i == 0 ? 5e-3 : 6e-3, 1e-15);
  }
  // Nobody buys an open end.
  for (const OrderItem& item : list.items) {
    EXPECT_EQ(std::count(item.ids.begin(), item.ids.end(), "part 4"), 0) << item.what;
  }
}

}  // namespace seldom_orders_test
}  // namespace libflow
