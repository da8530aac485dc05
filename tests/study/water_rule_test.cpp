// SPDX-License-Identifier: MIT
/// @file
/// Tests with water where the supply is no rate controller, and where the test's setting gives no product at all.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/agronomy.hpp>
#include <libflow/study/water_test.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace water_rule_test {

using namespace units;

/// As heavy as a solution of urea and ammonium nitrate, and thicker by as much: the kinematic viscosity is water's.
constexpr double heavier = 1.28;
LiquidState rule_product() {
  return test::liquid_of("product", heavier * test::water().density, heavier * test::water().viscosity);
}

/// Two rows with a hose and an orifice each, from `supply` on.
void rule_rows(Plumbing& p, Length bore, Length height = 0.0 * m) {
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto end = p.network.add_place(name + " end", height);
    const auto air = p.network.add_air(name, height);
    p.network.add_part(name + " hose", p.supply, end, Part(Hose{.length = 1.0 * row * m, .bore = 12.0 * mm}));
    const auto hole = p.network.add_part(name + " hole", end, air, Part(Orifice{.bore = bore}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hole, {.orifices = {hole}}));
  }
}

// From a tank, heads and losses are heights of the same liquid: with the same kinematic viscosity the same volume runs
// out (similarity of Froude and Reynolds), however heavy it is. The square-root rule, made for a held pressure, is then
// wrong by the whole of its own factor.
TEST(WaterRule, ATankGivesTheSameVolumeOfAnyWeight) {
  Plumbing p;
  const Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  p.supply = add_tank(p.network, "tank", tank, 0.8 * m, rule_product(), 1.0 * m);
  p.tanks.push_back({p.supply, tank, 0.8});
  rule_rows(p, 4.0 * mm);
  const Job job = test::plain_job();
  const WaterTest w = water_test(p, job, rule_product(), test::water());
  EXPECT_TRUE(w.same_setting);
  EXPECT_NEAR(w.rule_factor, std::sqrt(heavier), 1e-12);
  EXPECT_NEAR(w.factor, 1.0, 1e-9);
  EXPECT_NEAR(w.product_rate / w.water_rate, 1.0, 1e-9);
  EXPECT_NEAR(w.error, std::sqrt(heavier) - 1.0, 1e-9);
  EXPECT_TRUE(w.fails) << "13 % is more than the tolerance";
  EXPECT_NEAR(w.right_pressure / w.pressure, heavier, 1e-9);
  EXPECT_NEAR(w.product_cv, w.water_cv, 1e-9);
  EXPECT_NEAR(w.product_flow, w.product_rate * 2.0 * si(job.speed), 1e-12);
}

// At a held pressure, through sharp holes at high Reynolds number, the rule is exact.
TEST(WaterRule, HoldsAtAHeldPressure) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 3.0 * bar);
  rule_rows(p, 2.0 * mm);
  const WaterTest w = water_test(p, test::plain_job(), rule_product(), test::water());
  EXPECT_TRUE(w.same_setting);
  EXPECT_NEAR(w.factor / w.rule_factor, 1.0, 2e-3);
  EXPECT_NEAR(w.error, 0.0, 2e-3);
  EXPECT_FALSE(w.fails);
  EXPECT_DOUBLE_EQ(w.pressure, 3e5);
  EXPECT_DOUBLE_EQ(w.right_pressure, 3e5);
}

// Outlets 3 m above the gauge: the heavier product needs 8 kPa more before anything comes, and the water's losses at
// this rate are less than that. At the pressure of the test the product stands still.
TEST(WaterRule, AHeavyProductMayNotComeAtAllAtTheTestsPressure) {
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(2e-6));
  rule_rows(p, 4.0 * mm, 3.0 * m);
  const LiquidState product = rule_product(), water = test::water();
  const WaterTest w = water_test(p, test::plain_job(), product, water);
  EXPECT_FALSE(w.same_setting);
  ASSERT_GT(w.pressure, water.density * standard_gravity * 3.0) << "the water comes";
  ASSERT_LT(w.pressure, product.density * standard_gravity * 3.0);
  EXPECT_EQ(w.product_rate, 0.0);
  EXPECT_EQ(w.product_flow, 0.0);
  EXPECT_EQ(w.factor, 0.0) << "there is no such number";
  EXPECT_EQ(w.error, -1.0);
  EXPECT_TRUE(w.fails);
  EXPECT_GT(w.right_pressure, product.density * standard_gravity * 3.0);
}

// Outlets 3 m above a supply that is held: one of the two liquids is lifted there and not the other.
TEST(WaterRule, AHeldPressureMayLiftOneOfTheTwoOnly) {
  const LiquidState product = rule_product(), water = test::water();
  for (const double lift : {0.9, 1.1, 1.4}) {  // of water's head
    Plumbing p;
    p.supply = p.network.add_supply("pump", from_si<Pressure>(lift * water.density * standard_gravity * 3.0));
    for (int row = 1; row <= 2; ++row) {
      const auto air = p.network.add_air(fmt::format("row {}", row), 3.0 * m);
      const auto valve = p.network.add_part(fmt::format("valve {}", row), p.supply, air,
                                            Part(CheckValve{.passage_bore = 3.0 * mm}, "valve"));
      p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, valve, {.check_valves = {valve}}));
    }
    const WaterTest w = water_test(p, test::plain_job(), product, water);
    EXPECT_TRUE(w.same_setting);
    EXPECT_EQ(w.water_rate > 0.0, lift > 1.0) << lift;
    EXPECT_EQ(w.product_rate > 0.0, lift > heavier) << lift;
    if (lift > heavier) {
      EXPECT_GT(w.factor, w.rule_factor) << "the lift takes more of the heavier product's pressure";
      continue;
    }
    EXPECT_EQ(w.factor, 0.0) << "there is no such number";
    EXPECT_EQ(w.error, lift > 1.0 ? -1.0 : 0.0) << lift;
    EXPECT_EQ(w.fails, lift > 1.0) << "the cups fill with water, and no product comes";
  }
}

TEST(WaterRule, OfWaterItselfIsExact) {
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(2e-5));
  rule_rows(p, 2.0 * mm, 1.0 * m);
  const WaterTest w = water_test(p, test::plain_job(), test::water(), test::water());
  EXPECT_EQ(w.rule_factor, 1.0);
  EXPECT_NEAR(w.factor, 1.0, 1e-12);
  EXPECT_NEAR(w.error, 0.0, 1e-12);
  EXPECT_FALSE(w.fails);
  EXPECT_DOUBLE_EQ(w.pressure, w.right_pressure);
}

// A product that is lighter than water, lifted 5 m: at the pressure of the water's test, nearly all of it lift, even
// twenty times the flow of product would not lose what the lift leaves.
TEST(WaterRule, ALightProductMayHaveNoFlowAtTheTestsPressure) {
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(2e-7));
  rule_rows(p, 6.0 * mm, 5.0 * m);
  const LiquidState light = test::liquid_of("light", 900.0, test::water().viscosity);
  EXPECT_THROW((void)water_test(p, test::plain_job(), light, test::water()), IllPosedError);
}

// Outlets 1 m below the gauge: the heavier product pulls 2.7 kPa more, and only many times the test's flow loses as
// much as to have its pressure. At sixteen to twenty times it has: that flow is told; a little more and it would be
// looked for no further.
TEST(WaterRule, AHeavyProductBelowTheGaugeMayTakeManyTimesTheFlow) {
  const LiquidState product = rule_product(), water = test::water();
  double flow = 1e-6;
  const auto tested = [&] {
    Plumbing p;
    p.supply = p.network.add_fed("pump", from_si<Flow>(flow));
    rule_rows(p, 4.0 * mm, -1.0 * m);
    return water_test(p, test::plain_job(), product, water);
  };
  double times = 0.0;
  for (; flow < 1e-5 && !(times > 15.7 && times < 20.0); flow *= 1.02) {
    try {
      times = tested().product_flow / flow;
    } catch (const IllPosedError&) {
      EXPECT_EQ(times, 0.0) << "the larger the flow, the fewer times";
    }
  }
  EXPECT_GT(times, 15.7) << "between e^2.75 and e^3, the last step of the search";
  EXPECT_LT(times, 20.0);
}

// What is fed leaves by an overflow before it opens the rows: no rate to be right or wrong by.
TEST(WaterRule, RowsThatAnOverflowKeepsDryHaveNoError) {
  Plumbing p;
  p.supply = p.network.add_fed("pump", from_si<Flow>(1e-5));
  const auto overflow = p.network.add_air("overflow");
  p.network.add_part("overflow pipe", p.supply, overflow, Part(Hose{.length = 1.0 * m, .bore = 20.0 * mm}, "pipe"));
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row), 1.0 * m);
    const auto valve = p.network.add_part(fmt::format("valve {}", row), p.supply, air,
                                          Part(CheckValve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm}, "valve"));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, valve, {.check_valves = {valve}}));
  }
  const WaterTest w = water_test(p, test::plain_job(), rule_product(), test::water());
  EXPECT_EQ(w.water_rate, 0.0);
  EXPECT_EQ(w.product_rate, 0.0);
  EXPECT_EQ(w.factor, 0.0);
  EXPECT_EQ(w.error, 0.0);
  EXPECT_FALSE(w.fails);
}

// The caution says which of the two it is.
TEST(WaterRule, TheCautionNamesTheTank) {
  LiquidRecord record = Liquid::from_points("plain product", {{from_si<Density>(1280.0), celsius(20.0)}},
                                            {{from_si<Viscosity>(1.28e-3), celsius(20.0)}})
                            .record();
  record.analysis = Analysis{.n = 10.0};
  Layout layout{.name = "gravity", .job = test::plain_job(), .plumbing = {}};
  layout.job.liquid = Liquid(record);
  Plumbing p;
  const Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  p.supply = add_tank(p.network, "tank", tank, 0.8 * m, layout.job.liquid.at(celsius(20.0)), 1.0 * m);
  p.tanks.push_back({p.supply, tank, 0.8});
  rule_rows(p, 4.0 * mm);
  layout.plumbing = p;
  const Agronomy a = agronomy(layout);
  EXPECT_NEAR(a.water.error, std::sqrt(1280.0 / 998.2) - 1.0, 2e-3);
  const auto rule =
      std::find_if(a.cautions.begin(), a.cautions.end(), [](const Caution& c) { return c.code == "square-root-rule"; });
  ASSERT_NE(rule, a.cautions.end());
  EXPECT_NE(rule->text.find("a tank's own goes with the product's weight"), std::string::npos) << rule->text;
  EXPECT_EQ(rule->text.find("viscosity counts"), std::string::npos) << rule->text;
}

}  // namespace water_rule_test
}  // namespace libflow
