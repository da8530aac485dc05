// SPDX-License-Identifier: MIT
/// @file
/// Faults of layouts place by place: which line of an empty tank still works, what a shut valve is, which supplies give
/// the controller their flow, and how far a product can be cooled that is warm.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/fault_bench.hpp>
#include <libflow/study/faults.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace fault_places_test {

using namespace units;
using test::QuadraticPart;

constexpr double hole_k = 2e15, line_k = 5e14;  // [Pa per (m3/s)^2]

/// Two rows 1 m wide behind "gauge", each a hole that loses k q^2.
static Plumbing two_rows() {
  Plumbing p;
  p.supply = p.network.add_place("gauge");
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hole = p.network.add_part(fmt::format("hole {}", row), p.supply, air, Part(QuadraticPart{.k = hole_k}));
    p.rows.push_back(test::row_by_hand(row, row - 1.5, 1.0, air, hole));
  }
  return p;
}
/// A place held at a pressure, joined to the gauge by a line that loses k q^2.
static void add_held(Plumbing& p, const std::string& id, Pressure pressure) {
  const auto at = p.network.add_supply(id, pressure);
  p.network.add_part(id + " line", at, p.supply, Part(QuadraticPart{.k = line_k}));
}
static Network::PlaceIndex add_tank_to(Plumbing& p, const std::string& id, Length height) {
  const Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  const auto place = add_tank(p.network, id, tank, 0.5 * m, Liquid().at(Job{}.temperature), height);
  p.tanks.push_back({place, tank, 0.5});
  return place;
}
static Layout layout_of(Plumbing p) {
  Layout layout;
  layout.name = "by hand";
  layout.job.rate = from_si<AreaRate>(1e-5);
  layout.job.speed = from_si<Speed>(1.0);
  layout.plumbing = std::move(p);
  return layout;
}
static std::vector<FaultCase> cases_of(const Layout& layout, Fault fault, const WhatIfOptions& o = {}) {
  std::vector<FaultCase> all = fault_cases(layout, std::get<Plumbing>(layout.plumbing), o);
  std::erase_if(all, [&](const FaultCase& c) { return c.fault != fault; });
  return all;
}

/// Passes liquid towards its first place alone.
struct BackwardValve {
  static constexpr std::string_view kind = "backward valve";
  static constexpr Contract contract = Contract::one_way;
  void check(std::string_view /*where*/) const {}
  [[nodiscard]] Passes passes() const { return Passes::backward; }
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.linear = 1e-7;
    law.quadratic = line_k;
    law.passes = Passes::backward;
    return law;
  }
};
static_assert(PartType<BackwardValve>);

// Nothing is sucked from an empty tank, but what returns to it through a valve that opens towards it still can.
TEST(FaultPlaces, WhatReturnsToAnEmptyTankStillCan) {
  Plumbing p = two_rows();
  Network& n = p.network;
  const auto first = add_tank_to(p, "tank 1", 2.0 * m), second = add_tank_to(p, "tank 2", 2.0 * m);
  const auto out = n.add_part("outlet", first, p.supply, Part(QuadraticPart{.k = line_k}));
  const auto back =
      n.add_part("return", p.supply, first, Part(CheckValve{.crack = 1.0 * bar, .passage_bore = 4.0 * mm}));
  const auto turned = n.add_part("turned return", first, p.supply, Part(BackwardValve{}));
  const auto both = n.add_part("open return", p.supply, first, Part(QuadraticPart{.k = 100.0 * line_k}));
  n.add_part("other outlet", second, p.supply, Part(QuadraticPart{.k = line_k}));
  const Layout layout = layout_of(p);
  const auto cases = cases_of(layout, Fault::tank_empty);
  ASSERT_EQ(cases.size(), 2U);
  EXPECT_EQ(cases[0].name, "'tank 1' empty");
  std::vector<Network::PartIndex> shut;
  for (const auto& exchanged : cases[0].edit(p).exchanged) shut.push_back(exchanged.first);
  EXPECT_EQ(shut, (std::vector<Network::PartIndex>{out, both}));
  EXPECT_EQ(std::count(shut.begin(), shut.end(), back) + std::count(shut.begin(), shut.end(), turned), 0);
}

TEST(FaultPlaces, AValveThatIsShutIsNoSectionToShut) {
  Plumbing p = two_rows();
  const auto supply = p.network.add_supply("pump", 2.0 * bar);
  Valve valve{.kv = from_si<Flow>(4.0 / 3600.0), .bore = 20.0 * mm};
  p.network.add_part("open valve", supply, p.supply, Part(valve));
  valve.open = 0.0;
  p.network.add_part("shut valve", supply, p.supply, Part(valve));
  const auto cases = cases_of(layout_of(p), Fault::section_shut);
  ASSERT_EQ(cases.size(), 1U);
  EXPECT_EQ(cases[0].name, "valve 'open valve' shut");
  EXPECT_TRUE(cases[0].applies());
}

// A gauge shows 3 bar held by one supply; another at 1 bar takes liquid in, and a tank is joined too.
TEST(FaultPlaces, ASupplyGivesItsFlowToTheControllerUnlessItTakesLiquidInOrIsATank) {
  Plumbing p = two_rows();
  add_held(p, "high", 3.0 * bar);
  add_held(p, "low", 0.5 * bar);
  const auto tank = add_tank_to(p, "tank", 1.0 * m);
  p.network.add_part("tank line", tank, p.supply, Part(QuadraticPart{.k = line_k}));
  const double level = p.network.place(tank).pressure;  // of the water that stands in it, at its outlet
  const Layout layout = layout_of(p);
  const FaultBench bench(layout, {.row = 1});
  EXPECT_EQ(bench.moved(), "the supply's flow");
  const auto& base = bench.base();
  const auto flow_of = [](const FaultBench::Run& run, const char* id) {
    return run.solution.parts[run.plumbing.network.find_part(id)].flow;
  };
  const double given = flow_of(base, "high line");
  ASSERT_GT(given, 0.0);
  ASSERT_LT(flow_of(base, "low line"), 0.0);
  ASSERT_LT(flow_of(base, "tank line"), 0.0);
  const auto plugged = cases_of(layout, Fault::row_plugged, {.row = 1});
  ASSERT_EQ(plugged.size(), 1U);
  const FaultBench::Run held = bench.hold_total(plugged[0]);
  EXPECT_NEAR(flow_of(held, "high line") / given, 1.0, 1e-9);
  EXPECT_EQ(flow_of(held, "hole 1"), 0.0);
  // By hand: a gauge pressure at which one hole, the low supply and the tank take what the high supply gives.
  const double weight = Liquid().at(Job{}.temperature).density * 9.80665;
  const double tank_at_gauge = level + weight * p.network.place(tank).elevation;
  double low = tank_at_gauge, high = 3e5;
  for (int i = 0; i < 200; ++i) {
    const double at = 0.5 * (low + high);
    const double taken = std::sqrt(at / hole_k) + std::copysign(std::sqrt(std::abs(at - 0.5e5) / line_k), at - 0.5e5) +
                         std::sqrt((at - tank_at_gauge) / line_k);
    (taken < given ? low : high) = at;
  }
  EXPECT_NEAR(flow_of(held, "hole 2") / std::sqrt(low / hole_k), 1.0, 1e-5);
  EXPECT_NEAR(held.solution.places[p.supply].total_pressure / low, 1.0, 1e-5);
}

TEST(FaultPlaces, ATankAloneCannotBeMovedToHoldTheTotal) {
  Plumbing p = two_rows();
  p.network.add_part("line", add_tank_to(p, "tank", 2.0 * m), p.supply, Part(QuadraticPart{.k = line_k}));
  const Layout layout = layout_of(p);
  const FaultBench bench(layout, {.row = 1});
  EXPECT_TRUE(bench.moved().empty());
  EXPECT_EQ(bench.kept(), "the tank's level stays");
  const auto plugged = cases_of(layout, Fault::row_plugged, {.row = 1});
  test::expect_refused([&] { (void)bench.hold_total(plugged[0]); }, "what if");
  test::expect_message([&] { (void)bench.hold_total(plugged[0]); }, "nothing can be moved to hold the total");
  EXPECT_NEAR(bench.keep_setting(plugged[0]).evenness.rows[0].flow, 0.0, 1e-18);
}

// Its figures end at 15 C: warmer than that it is outside them already, and cooling it takes it no further out.
TEST(FaultPlaces, AWarmProductIsCooledThoughItsDataEndBelow) {
  Plumbing p = two_rows();
  add_held(p, "pump", 2.0 * bar);
  Layout layout = layout_of(p);
  layout.job.liquid =
      Liquid::from_points("blend", {{from_si<Density>(1200.0), celsius(15.0)}},
                          {{from_si<Viscosity>(0.02), celsius(5.0)}, {from_si<Viscosity>(0.01), celsius(15.0)}});
  layout.job.temperature = celsius(40.0);
  const auto warm = cases_of(layout, Fault::colder, {.colder = 10.0});
  ASSERT_EQ(warm.size(), 1U);
  EXPECT_TRUE(warm[0].applies()) << warm[0].why_not;
  ASSERT_TRUE(warm[0].temperature);
  EXPECT_NEAR(si(*warm[0].temperature), 273.15 + 30.0, 1e-9);
  EXPECT_TRUE(warm[0].limited.empty()) << warm[0].limited;
  // Cooled by 60 C it ends where they end in the cold.
  const auto cold = cases_of(layout, Fault::colder, {.colder = 60.0});
  ASSERT_TRUE(cold[0].temperature) << cold[0].why_not;
  EXPECT_NEAR(si(*cold[0].temperature), 273.15 + 5.0, 1e-9);
  EXPECT_NE(cold[0].limited.find("its viscosity is known down to"), std::string::npos) << cold[0].limited;
}

}  // namespace fault_places_test
}  // namespace libflow
