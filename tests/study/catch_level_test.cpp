// SPDX-License-Identifier: MIT
/// @file
/// A whole bar that collects too much or too little: the slip that was made is what fits the cups. The cups are those
/// of the bar solved with that slip, so the truth is known.

#include <cmath>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_level.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow {
namespace catch_level_test {

using namespace units;

Layout example(const std::string& name = "equal_hoses.toml") {
  return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name);
}

/// The cups of a bar, three a row with 1 % between them, read as if they had been held 30 s at the gauge's pressure.
/// @param bar  as it really is, at its real pressure
CatchReadings cups_of(const Layout& bar, std::optional<Pressure> gauge, double seconds = 30.0) {
  CatchReadings r{.time = 30.0 * s, .gauge = gauge};
  for (const RowResult& row : main_job(bar).evenness.rows) {
    for (int k = 1; k <= 3; ++k) {
      r.readings.push_back({.row = row.row, .repeat = k, .volume = row.flow * seconds * (1.0 + 0.01 * (k - 2))});
    }
  }
  return r;
}
Layout at(Layout layout, Pressure pressure) {
  layout.job.pressure = pressure;
  return layout;
}

TEST(CatchLevel, ASoundBarIsNotOff) {
  const CatchVerdict v = judge_catch(example(), cups_of(at(example(), 39.0 * psi), 39.0 * psi));
  EXPECT_NEAR(v.level.change, 0.0, 1e-9);
  EXPECT_FALSE(v.level.off);
  EXPECT_TRUE(std::isnan(v.level.gauge));
}

TEST(CatchLevel, AGaugeThatStoodElsewhere) {
  const CatchVerdict v = judge_catch(example(), cups_of(at(example(), 14.0 * psi), 39.0 * psi));
  EXPECT_TRUE(v.even);
  EXPECT_TRUE(v.level.off);
  EXPECT_TRUE(v.level.every_row);
  EXPECT_LT(v.level.change, -0.5);
  EXPECT_NEAR(v.level.gauge / si(14.0 * psi), 1.0, 2e-3);
}

// Rows that agree are no good bar where all of them are outside the tolerance of the wanted rate.
TEST(CatchLevel, BeyondTheTolerancesOfTheRowsTheWholeBarIsOff) {
  for (const double tolerance : {0.02, 0.05, 0.08, 0.15}) {
    const double limit = tolerance < 0.05 ? 0.05 : tolerance > 0.10 ? 0.10 : tolerance;
    EXPECT_DOUBLE_EQ(level_limit(tolerance), limit);
    for (const double beyond : {-0.005, 0.005}) {
      Layout layout = at(example(), 39.0 * psi);
      layout.job.tolerance = tolerance;
      for (const double side : {-1.0, 1.0}) {
        const CatchVerdict v = judge_catch(layout, cups_of(layout, 39.0 * psi, 30.0 * (1.0 + side * (limit + beyond))));
        EXPECT_EQ(v.level.off, beyond > 0.0) << tolerance << " " << side;
        EXPECT_TRUE(v.even);
      }
    }
  }
}

TEST(CatchLevel, AStopWatchThatStoppedEarly) {
  const CatchVerdict v = judge_catch(example(), cups_of(at(example(), 39.0 * psi), 39.0 * psi, 11.4));
  EXPECT_NEAR(v.level.change, 11.4 / 30.0 - 1.0, 1e-9);
  EXPECT_NEAR(v.level.time, 11.4, 1e-9);
}

TEST(CatchLevel, AnotherOrificeSet) {
  Layout other = at(example(), 39.0 * psi);
  std::get<OrificeByBore>(*std::get<Toolbar>(other.plumbing).orifice).bore = 0.029 * inch;
  const CatchVerdict v = judge_catch(example(), cups_of(other, 39.0 * psi));
  EXPECT_TRUE(v.level.off);
  EXPECT_NEAR(v.level.orifice_share, 0.029 / 0.046, 2e-3);
}

TEST(CatchLevel, WaterInPlaceOfTheProduct) {
  Layout water = at(example(), 39.0 * psi);
  water.job.liquid = find_liquid("water");
  water.job.temperature = CatchSetup{}.water_temperature;
  const CatchVerdict v = judge_catch(example(), cups_of(water, 39.0 * psi));
  EXPECT_GT(v.level.change, level_limit(0.05));
  EXPECT_NEAR(v.level.other_liquid, v.level.change, 0.01);
  EXPECT_TRUE(v.level.other_liquid_fits());
  // The other way round: the product is still in the lines.
  CatchReadings product = cups_of(at(example(), 39.0 * psi), 39.0 * psi);
  product.water = true;
  const CatchVerdict w = judge_catch(example(), product);
  EXPECT_LT(w.level.change, 0.0);
  EXPECT_TRUE(w.level.other_liquid_fits());
}

TEST(CatchLevel, AProductAtTheEndOfItsBand) {
  Layout thick = at(example(), 39.0 * psi);
  const LiquidState now = thick.job.liquid.at(thick.job.temperature);
  ASSERT_TRUE(now.viscosity_high);
  thick.job.liquid = thick.job.liquid.with_viscosity(from_si<Viscosity>(*now.viscosity_high), thick.job.temperature);
  const CatchVerdict v = judge_catch(example(), cups_of(thick, 39.0 * psi));
  ASSERT_TRUE(v.level.off);
  EXPECT_NEAR(v.level.thickest, v.level.change, 1e-6);
  EXPECT_GT(v.level.thinnest, 0.0);
  // What is far below the whole band is not the product alone.
  const CatchVerdict far = judge_catch(example(), cups_of(at(example(), 14.0 * psi), 39.0 * psi));
  EXPECT_FALSE(far.level.viscosity_fits());
}

TEST(CatchLevel, OneRowDoesNotMoveTheMiddleRow) {
  CatchReadings r = cups_of(at(example(), 39.0 * psi), 39.0 * psi);
  for (CatchReading& cup : r.readings) {
    if (cup.row == 5) cup.volume *= 0.05;
    if (cup.row == 6) cup.volume *= 8.0;
  }
  const CatchVerdict v = judge_catch(example(), r);
  EXPECT_FALSE(v.level.off);
  EXPECT_NEAR(v.level.change, 0.0, 1e-9);
}

TEST(CatchLevel, WhatNothingFitsIsNotMadeUp) {
  // No pressure and no bore makes a bar give nothing at all.
  CatchReadings r = cups_of(at(example(), 39.0 * psi), 39.0 * psi);
  for (CatchReading& cup : r.readings) cup.volume *= cup.row == 1 ? 1.0 : 0.0;
  const CatchVerdict v = judge_catch(example(), r);
  EXPECT_TRUE(v.level.off);
  EXPECT_FALSE(v.level.every_row);
  EXPECT_TRUE(std::isnan(v.level.gauge));
  EXPECT_TRUE(std::isnan(v.level.orifice_share));
}

TEST(CatchLevel, AFreeFormLayoutHasItsTimeOnly) {
  const Layout layout = example("free_form.toml");
  const CatchVerdict v = judge_catch(layout, cups_of(layout, std::nullopt, 15.0));
  EXPECT_TRUE(v.level.off);
  EXPECT_NEAR(v.level.time, 15.0, 1e-9);
  EXPECT_TRUE(std::isnan(v.level.gauge));
}

}  // namespace catch_level_test
}  // namespace libflow
