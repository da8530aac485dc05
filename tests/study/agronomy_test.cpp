// SPDX-License-Identifier: MIT
/// @file
/// Nutrients by row, limits with the seed, and water tests of a bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <libflow/fluid/sources.hpp>
#include <libflow/study/agronomy.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace agronomy_test {

namespace agronomy_test {
using namespace units;
using test::expect_refused;

double pounds(MassPerArea rate) { return si(rate) / si(lb_per_acre); }

/// Eight rows of 1/4 in hose with 10-34-0.
Layout starter_bar(double fahrenheit_degrees = 70.0) {
  Toolbar bar = test::plain_bar(8);
  bar.hose_bore = 0.25 * inch;
  bar.hose.length = 20.0 * ft;
  bar.orifice = OrificeByBore{.bore = 0.046 * inch};
  Job job = test::plain_job();
  job.liquid = find_liquid("10-34-0");
  job.temperature = fahrenheit(fahrenheit_degrees);
  job.rate = 5.0 * gal_per_acre;
  job.speed = 5.0 * mph;
  return {.name = "starter bar", .job = job, .plumbing = bar};
}

bool warns(const Agronomy& a, const std::string& code) {
  return std::any_of(a.cautions.begin(), a.cautions.end(), [&](const Caution& c) { return c.code == code; });
}

/// Pounds of N + K2O that a source allows; below 0 where it does not speak of this.
double limit_of(Crop crop, Length spacing, Soil soil, std::string_view source) {
  for (const SeedLimit& one : seed_limits_for(crop, spacing, soil)) {
    if (one.source == source) return pounds(one.limit);
  }
  return -1.0;
}
}  // namespace agronomy_test

TEST(SeedLimits, KansasStateTable) {
  using namespace agronomy_test;
  // Kansas State University, Agronomy eUpdate, table 1: 40/30/20 in rows, medium to fine 6/8/12, sandy 4/6/8 lb/ac.
  EXPECT_NEAR(limit_of(Crop::corn, 40.0 * inch, Soil::medium_or_fine, "KSU"), 6.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::medium_or_fine, "KSU"), 8.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 20.0 * inch, Soil::medium_or_fine, "KSU"), 12.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 40.0 * inch, Soil::sandy, "KSU"), 4.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::sandy, "KSU"), 6.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 20.0 * inch, Soil::sandy, "KSU"), 8.0, 1e-12);
  // Between printed spacings the lower limit; beyond the widest none.
  EXPECT_NEAR(limit_of(Crop::corn, 22.0 * inch, Soil::medium_or_fine, "KSU"), 8.0, 1e-12);
  EXPECT_EQ(limit_of(Crop::corn, 45.0 * inch, Soil::medium_or_fine, "KSU"), -1.0);
}

TEST(SeedLimits, OtherServices) {
  using namespace agronomy_test;
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::sandy, "MSUE"), 5.0, 1e-12);           // CEC under 7
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::medium_or_fine, "MSUE"), 8.0, 1e-12);  // CEC 8 or more
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::sandy, "NDSU02"), 10.0, 1e-12);
  EXPECT_NEAR(limit_of(Crop::corn, 30.0 * inch, Soil::sandy, "PSUVT"), 10.0, 1e-12);
  EXPECT_EQ(limit_of(Crop::soybean, 30.0 * inch, Soil::sandy, "MSUE"), 0.0);
  EXPECT_EQ(limit_of(Crop::dry_bean, 30.0 * inch, Soil::sandy, "NDSU02"), 0.0);
  EXPECT_TRUE(seed_limits_for(Crop::spring_wheat, 7.5 * inch).empty());
  for (const SeedLimit& one : seed_limits()) EXPECT_NE(find_source(one.source), nullptr) << one.source;
}

TEST(SeedLimits, SouthDakotaEquation) {
  using namespace agronomy_test;
  // Printed check of the worksheet: corn, urea, furrow 1 in, rows 30 in, 15 % loss, M = 1: 15.5 lb/ac and 7.2 lb N.
  const SeedSafety* urea = find_seed_safety(Crop::corn, "urea");
  ASSERT_NE(urea, nullptr);
  const double rate = pounds(seed_safe_rate(*urea, 0.15, 1.0 * inch, 30.0 * inch));
  EXPECT_NEAR(rate, 15.5, 0.05);
  EXPECT_NEAR(0.46 * rate, 7.2, 0.06);
  // Half the loss, half the rate; twice the spacing, half the rate.
  EXPECT_NEAR(pounds(seed_safe_rate(*urea, 0.075, 1.0 * inch, 30.0 * inch)), 0.5 * rate, 1e-12);
  EXPECT_NEAR(pounds(seed_safe_rate(*urea, 0.15, 1.0 * inch, 60.0 * inch)), 0.5 * rate, 1e-12);
  EXPECT_EQ(find_seed_safety(Crop::sunflower, "urea"), nullptr);
  expect_refused([&] { (void)seed_safe_rate(*urea, 1.5, 1.0 * inch, 30.0 * inch); }, "loss");
  expect_refused([&] { (void)seed_safe_rate(*urea, 0.1, 40.0 * inch, 30.0 * inch); }, "furrow");
}

TEST(SeedLimits, ReadsCropsAndSoils) {
  using namespace agronomy_test;
  EXPECT_EQ(parse_crop("dry-bean"), Crop::dry_bean);
  EXPECT_EQ(parse_crop("spring wheat"), Crop::spring_wheat);
  EXPECT_EQ(parse_crop("spring_wheat"), Crop::spring_wheat);
  for (const char* soil : {"fine", "medium", "medium or fine"}) EXPECT_EQ(parse_soil(soil), Soil::medium_or_fine);
  EXPECT_EQ(parse_soil("sandy"), Soil::sandy);
  try {
    (void)parse_crop("soyben", "--crop");
    ADD_FAILURE() << "soyben is no crop";
  } catch (const InputError& e) {
    EXPECT_EQ(e.nearest(), "soybean");
  }
  expect_refused([] { (void)parse_soil("gravel"); }, "soil");
}

TEST(AgronomyStudy, RowsAddUpToWhatTheTotalBrings) {
  using namespace agronomy_test;
  Layout layout = starter_bar(40.0);
  std::get<Toolbar>(layout.plumbing).hose = {.kind = HoseSchedule::Kind::shortest, .extra = 3.0 * ft};
  const Agronomy a = agronomy(layout);
  ASSERT_EQ(a.rows.size(), 8U);
  double sum = 0.0;
  for (const RowNutrients& r : a.rows) {
    sum += si(r.rates.p2o5);
    EXPECT_GE(si(r.rates.p2o5), si(a.lowest.rates.p2o5));
    EXPECT_LE(si(r.rates.p2o5), si(a.highest.rates.p2o5));
  }
  const double total =
      a.answer.evenness.total_flow * a.answer.liquid.density * 0.34 / (si(layout.job.speed) * 8.0 * si(30.0 * inch));
  EXPECT_NEAR(sum / 8.0, total, 1e-10 * total);
  EXPECT_NEAR(si(a.mean.p2o5), total, 1e-10 * total);
  EXPECT_GT(si(a.highest.rates.n), 1.1 * si(a.lowest.rates.n)) << "cold and unequal hoses: rows differ";
}

TEST(AgronomyStudy, SaltIsHeldAgainstEachLimit) {
  using namespace agronomy_test;
  Layout layout = starter_bar();
  // Derived in the trade facts: 8 lb N + K2O are reached at 6.9 gal/ac of 10-34-0 at 11.65 lb/gal.
  layout.job.liquid = layout.job.liquid.with_density(11.65 * lb_per_gal, fahrenheit(70));
  layout.job.rate = 6.8 * gal_per_acre;
  EXPECT_FALSE(warns(agronomy(layout, {.soil = Soil::medium_or_fine}), "salt-with-seed"));
  EXPECT_TRUE(warns(agronomy(layout, {.soil = Soil::sandy}), "salt-with-seed"));
  layout.job.rate = 7.0 * gal_per_acre;
  const Agronomy a = agronomy(layout, {.soil = Soil::medium_or_fine});
  EXPECT_TRUE(warns(a, "salt-with-seed"));
  EXPECT_TRUE(warns(a, "label-decides"));
  for (const SeedLimitCheck& c : a.limits) {
    if (c.limit.source == "KSU") {
      EXPECT_NEAR(si(c.highest_rate) / si(gal_per_acre), 6.87, 0.01);
    }
  }
}

TEST(AgronomyStudy, UreaAndThiosulfateAreNamed) {
  using namespace agronomy_test;
  Layout layout = starter_bar();
  layout.job.liquid = find_liquid("28-0-0");
  const Agronomy uan = agronomy(layout);
  EXPECT_TRUE(warns(uan, "urea-with-seed"));
  EXPECT_FALSE(warns(uan, "thiosulfate-with-seed"));
  ASSERT_TRUE(uan.product_at_ten_per_cent);
  EXPECT_NEAR(pounds(*uan.product_at_ten_per_cent), 30.0 * 10.0 / (0.236 * 30.0), 1e-9);
  layout.job.liquid = find_liquid("12-0-0-26S");
  EXPECT_TRUE(warns(agronomy(layout), "thiosulfate-with-seed"));
  EXPECT_TRUE(warns(agronomy(layout, {.crop = Crop::spring_wheat}), "no-seed-limit"));
}

TEST(AgronomyStudy, RefusesWaterAndUnknownProducts) {
  using namespace agronomy_test;
  Layout layout = starter_bar();
  layout.job.liquid = Liquid();
  expect_refused([&] { (void)agronomy(layout); }, "water");
}

TEST(Agronomy, AProductWithoutNitrogenAndPotashIsNoSaltWithTheSeed) {
  using namespace agronomy_test;
  Layout layout = starter_bar();
  LiquidRecord record = layout.job.liquid.record();
  record.analysis = Analysis{.p2o5 = 34.0};
  layout.job.liquid = Liquid(record);
  const Agronomy a = agronomy(layout);
  ASSERT_FALSE(a.limits.empty());
  for (const SeedLimitCheck& c : a.limits) {
    EXPECT_FALSE(c.over);
    EXPECT_TRUE(std::isinf(si(c.highest_rate))) << "no rate of it reaches the limit";
  }
  EXPECT_EQ(si(a.mean.salt()), 0.0);
  EXPECT_GT(si(a.mean.p2o5), 0.0);
}

TEST(WaterTest, FactorsOfExtensionTables) {
  using namespace agronomy_test;
  // University of Nebraska-Lincoln CropWatch 2016, table 1, and P. Sumner, University of Georgia: lb/gal to factor.
  const double printed[][2] = {{7.0, 0.92},   {8.0, 0.98},  {9.0, 1.04},  {10.0, 1.10}, {10.65, 1.13}, {10.8, 1.14},
                               {11.06, 1.15}, {11.2, 1.16}, {11.4, 1.17}, {11.6, 1.18}, {12.0, 1.20},  {14.0, 1.30}};
  for (const auto& [weight, factor] : printed) {
    EXPECT_NEAR(square_root_factor(weight * lb_per_gal, 8.34 * lb_per_gal), factor, 0.0051) << weight;
  }
  // The same sources: 20 gal/ac of 28 % is set as 22.6 gal/ac on water charts.
  EXPECT_NEAR(20.0 * square_root_factor(10.65 * lb_per_gal, 8.34 * lb_per_gal), 22.6, 0.05);
}

TEST(WaterTest, TheRuleHoldsForAThinProductThroughSharpOrifices) {
  using namespace agronomy_test;
  Layout layout = starter_bar();
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.hose_bore = 0.5 * inch;
  layout.job.liquid = Liquid::from_points("heavy water-like liquid", {{10.65 * lb_per_gal, celsius(20)}},
                                          {{1.0016 * mPa_s, celsius(20)}});
  layout.job.temperature = celsius(20);
  layout.job.rate = 30.0 * gal_per_acre;
  const Plumbing plumbing = build_network(bar, layout.job);
  const WaterTest w = water_test(plumbing, layout.job, layout.job.liquid.at(celsius(20)), Liquid().at(celsius(20)));
  EXPECT_FALSE(w.fails);
  EXPECT_NEAR(w.factor, w.rule_factor, 0.002 * w.rule_factor);
  EXPECT_NEAR(w.water_rate, si(layout.job.rate) * w.rule_factor, 1e-9 * w.water_rate);
}

TEST(WaterTest, TheRuleFailsForAThickProductInLongHose) {
  using namespace agronomy_test;
  const Agronomy a = agronomy(starter_bar(40.0));
  EXPECT_TRUE(a.water.fails);
  EXPECT_LT(a.water.error, -0.2) << "cold 10-34-0 creeps where water runs";
  EXPECT_GT(a.water.factor, 1.3 * a.water.rule_factor);
  EXPECT_GT(a.water.right_pressure, 1.3 * a.water.pressure);
  EXPECT_TRUE(warns(a, "square-root-rule"));
  // What it says of the product at the test's pressure is what a supply held there gives.
  Layout held = starter_bar(40.0);
  held.job.pressure = from_si<Pressure>(a.water.pressure);
  EXPECT_NEAR(main_job(held).evenness.mean_rate, a.water.product_rate, 1e-8 * a.water.product_rate);
}

TEST(WaterTest, LaminarLimitGoesWithViscosityAlone) {
  using namespace agronomy_test;
  // A hose without orifice in laminar flow both ways: flow goes as 1 / viscosity whatever the density (Poiseuille).
  Layout layout = starter_bar();
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.orifice.reset();
  bar.hose_bore = 2.0 * mm;
  bar.hose.length = 30.0 * m;
  const LiquidState thin = test::liquid_of("thin", 1000.0, 0.050), thick = test::liquid_of("thick", 1000.0, 0.100);
  const WaterTest w = water_test(build_network(bar, layout.job), layout.job, thick, thin);
  EXPECT_EQ(w.rule_factor, 1.0);
  EXPECT_NEAR(w.factor, 2.0, 0.002);
}

TEST(WaterTest, AFreeFormWithTwoPumpsChangesBothInStep) {
  using namespace agronomy_test;
  Plumbing p;
  p.supply = p.network.add_fed("left pump", from_si<Flow>(2e-5));
  const auto right = p.network.add_fed("right pump", from_si<Flow>(2e-5));
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hole = p.network.add_part(fmt::format("orifice {}", row), row == 1 ? p.supply : right, air,
                                         Part(Orifice{.bore = 1.2 * mm}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.762, air, hole, {.orifices = {hole}}));
  }
  Job job = test::plain_job();
  const LiquidState heavy = test::liquid_of("heavy", 1300.0, 1.0e-3);
  const WaterTest w = water_test(p, job, heavy, test::water());
  EXPECT_NEAR(w.factor, w.rule_factor, 0.01 * w.rule_factor);
  EXPECT_NEAR(w.product_flow, 4e-5, 0.01 * 4e-5);
}

}  // namespace agronomy_test
}  // namespace libflow
