// SPDX-License-Identifier: MIT
/// @file
/// Plan and verdict of a catch test.

#include <cmath>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace catch_test {

using namespace units;

Layout example(const std::string& name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

/// Readings that a bar of this layout gives when every cup is read without error, row `wrong` times `factor`.
CatchReadings perfect(const Layout& layout, Time time, int wrong = 0, double factor = 1.0, int repeats = 3) {
  CatchReadings readings{.time = time};
  for (const RowResult& r : main_job(layout).evenness.rows) {
    for (int k = 1; k <= repeats; ++k) {
      // The repeats differ by 1 % around their mean, so that there is an error to judge by.
      const double wobble = 1.0 + 0.01 * (k - 0.5 * (repeats + 1));
      readings.readings.push_back(
          {.row = r.row, .repeat = k, .volume = r.flow * si(time) * wobble * (r.row == wrong ? factor : 1.0)});
    }
  }
  return readings;
}

// Row spacing in inches and feet to drive for 1/128 acre, so that fluid ounces are gallons per acre: North Carolina
// State University extension, as quoted in its calibration sheet (48 in 85 ft, 46 in 89, 44 in 93, 42 in 97).
TEST(CatchPlan, StripIsTheOneHundredTwentyEighthAcre) {
  for (const auto& [inches, feet] : {std::pair{48.0, 85.0}, {46.0, 89.0}, {44.0, 93.0}, {42.0, 97.0}}) {
    Layout layout = example("equal_hoses.toml");
    std::get<Toolbar>(layout.plumbing).spacing = inches * inch;
    const CatchPlan plan = plan_catch(layout);
    EXPECT_NEAR(plan.rows.front().strip_length / si(ft), feet, 0.5) << inches;
    // On the strip, fluid ounces are gallons per acre.
    EXPECT_NEAR(plan.rows.front().strip_volume / si(floz), plan.product.evenness.rows.front().rate / si(gal_per_acre),
                1e-9);
  }
}

// One gallon is 128 fluid ounces: in a minute, a row of q gpm fills 128 q (University of Florida EDIS WG013).
TEST(CatchPlan, ProductIsFlowTimesTime) {
  const CatchPlan plan = plan_catch(example("equal_hoses.toml"), {.time = 60.0 * s});
  for (std::size_t i = 0; i < plan.rows.size(); ++i) {
    EXPECT_NEAR(plan.rows[i].product / si(floz), 128.0 * plan.product.evenness.rows[i].flow / si(gpm), 1e-9);
  }
}

TEST(CatchPlan, WaterRunsFasterThanColdPolyphosphateAtTheSamePressure) {
  const CatchPlan plan = plan_catch(example("short_hoses.toml"));
  EXPECT_TRUE(plan.water_at_same_pressure);
  EXPECT_NEAR(plan.water.evenness.supply_pressure, plan.product.evenness.supply_pressure, 1e-6);
  for (const CatchPlanRow& r : plan.rows) EXPECT_GT(r.water, r.product);
  // The bar that is uneven with the product looks far more even with water: the plan says to catch the product too.
  EXPECT_LT(plan.water.evenness.cv, 0.5 * plan.product.evenness.cv);
  bool told = false;
  for (const Caution& c : plan.cautions) told = told || c.code == "catch-the-product-too";
  EXPECT_TRUE(told);
}

TEST(CatchPlan, SaysWhenCupsProveTooLittle) {
  CatchSetup rough{.repeats = 1, .reading_error = 0.05};
  const CatchPlan plan = plan_catch(example("equal_hoses.toml"), rough);
  EXPECT_GT(plan.provable_row, 0.05);
  bool told = false;
  for (const Caution& c : plan.cautions) told = told || c.code == "cups-prove-too-little";
  EXPECT_TRUE(told);
  rough.together = false;
  EXPECT_GT(plan_catch(example("equal_hoses.toml"), rough).provable_row, plan.provable_row);
}

TEST(CatchVerdict, EvenBarReadsEven) {
  const Layout layout = example("equal_hoses.toml");
  const CatchVerdict v = judge_catch(layout, perfect(layout, 30.0 * s));
  EXPECT_TRUE(v.even);
  EXPECT_TRUE(v.proved);
  EXPECT_FALSE(v.spread_is_real);
  EXPECT_NEAR(v.total_rate, v.expected_rate, 1e-9 * v.expected_rate);
  for (const RowCatch& c : v.rows) {
    EXPECT_EQ(c.mark, CatchMark::inside) << c.row;
    EXPECT_NEAR(c.against_layout, 0.0, 1e-9);
    EXPECT_LE(c.low, c.deviation);
    EXPECT_GE(c.high, c.deviation);
  }
}

TEST(CatchVerdict, FindsTheRowThatIsOff) {
  const Layout layout = example("equal_hoses.toml");
  const CatchVerdict v = judge_catch(layout, perfect(layout, 30.0 * s, 5, 0.85));
  EXPECT_FALSE(v.even);
  ASSERT_EQ(v.outside, std::vector<int>{5});
  EXPECT_EQ(v.rows[4].mark, CatchMark::outside);
  EXPECT_TRUE(v.spread_is_real);
  // 15 rows at 1 and one at 0.85: mean 0.990625.
  EXPECT_NEAR(v.rows[4].deviation, 0.85 / 0.990625 - 1.0, 1e-4);
  EXPECT_GT(v.cv_beyond_error, 0.0);
  EXPECT_LT(v.cv_beyond_error, v.cv);
}

TEST(CatchVerdict, UnevenLayoutIsUnevenAsExpected) {
  // The cups agree with the layout row by row, and both say that it is uneven.
  const Layout layout = example("short_hoses.toml");
  const CatchVerdict v = judge_catch(layout, perfect(layout, 30.0 * s));
  EXPECT_FALSE(v.even);
  EXPECT_NEAR(v.cv, v.answer.evenness.cv, 1e-9);
  EXPECT_EQ(v.outside, v.answer.evenness.outside);
  for (const RowCatch& c : v.rows) EXPECT_NEAR(c.against_layout, 0.0, 1e-9) << c.row;
}

TEST(CatchVerdict, MissingRowsAreSaidToBeMissing) {
  const Layout layout = example("equal_hoses.toml");
  CatchReadings readings = perfect(layout, 30.0 * s);
  std::erase_if(readings.readings, [](const CatchReading& r) { return r.row == 3 || r.row == 16; });
  const CatchVerdict v = judge_catch(layout, readings);
  EXPECT_FALSE(v.even);
  EXPECT_FALSE(v.proved);
  EXPECT_EQ(v.missing, (std::vector<int>{3, 16}));
  EXPECT_TRUE(v.outside.empty());
}

TEST(CatchVerdict, OneReadingARowIsJudgedByTheGivenError) {
  const Layout layout = example("equal_hoses.toml");
  CatchReadings readings = perfect(layout, 30.0 * s, 7, 0.94, 1);
  readings.reading_error = 0.02;
  const CatchVerdict v = judge_catch(layout, readings);
  EXPECT_FALSE(v.error_from_repeats);
  EXPECT_EQ(v.rows[6].mark, CatchMark::unproved);  // 6 % off, read to 2 %: may be inside 5 %
  readings.reading_error = 0.002;
  EXPECT_EQ(judge_catch(layout, readings).rows[6].mark, CatchMark::outside);
}

TEST(CatchVerdict, WaterAtTheGaugeIsComparedWithWater) {
  const Layout layout = example("short_hoses.toml");
  const CatchPlan plan = plan_catch(layout);
  CatchReadings readings{.time = 30.0 * s, .water = true};
  for (const CatchPlanRow& r : plan.rows) readings.readings.push_back({.row = r.row, .volume = r.water});
  const CatchVerdict v = judge_catch(layout, readings);
  for (const RowCatch& c : v.rows) EXPECT_NEAR(c.mean, c.expected, 1e-9 * c.expected) << c.row;
  // At a lower gauge pressure the layout expects less.
  readings.gauge = from_si<Pressure>(0.5 * plan.product.evenness.supply_pressure);
  EXPECT_LT(judge_catch(layout, readings).rows[0].expected, v.rows[0].expected);
}

TEST(CatchVerdict, RefusesReadingsThatCannotBe) {
  const Layout layout = example("equal_hoses.toml");
  const auto refused = [&](CatchReadings readings, const std::string& word) {
    test::expect_message([&] { static_cast<void>(judge_catch(layout, readings)); }, word);
  };
  refused({.readings = {{.row = 17, .volume = 1e-4}}, .time = 30.0 * s}, "1 to 16");
  refused({.readings = {{.row = 1, .volume = 1e-4}}, .time = 30.0 * s}, "two rows");
  refused({.readings = {{.row = 1, .volume = 1e-4}, {.row = 2, .volume = -1.0}}, .time = 30.0 * s}, "volume");
  refused({.readings = {{.row = 1, .volume = 0.0}, {.row = 2, .volume = 0.0}}, .time = 30.0 * s}, "empty");
  refused({.readings = {{.row = 1, .volume = 1e-4}, {.row = 2, .volume = 1e-4}}, .time = 0.0 * s}, "time");
}

}  // namespace catch_test
}  // namespace libflow
