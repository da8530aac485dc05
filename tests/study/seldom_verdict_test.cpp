// SPDX-License-Identifier: MIT
/// @file
/// Verdicts on seldom catches: rows that are valved off, gauges that cannot be, readings without a spread or without a
/// proof.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace seldom_verdict_test {

using namespace units;
using test::holds;

static Layout example() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }

/// What the layout gives at 39 psi, times a factor by row and repeat.
template <class F>
static CatchReadings caught(const Layout& layout, int repeats, const F& factor) {
  CatchReadings r{.time = 30.0 * s, .gauge = 39.0 * psi};
  Layout at = layout;
  at.job.pressure = 39.0 * psi;
  for (const RowResult& row : main_job(at).evenness.rows) {
    if (row.shut) continue;
    for (int k = 1; k <= repeats; ++k) {
      r.readings.push_back({.row = row.row, .repeat = k, .volume = row.flow * 30.0 * factor(row.row, k)});
    }
  }
  return r;
}
static double sound(int /*row*/, int /*repeat*/) { return 1.0; }

/// Message of what is thrown; empty where nothing is.
static std::string refused(const Layout& layout, const CatchReadings& r) {
  try {
    (void)judge_catch(layout, r);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

TEST(SeldomVerdict, ARowThatIsValvedOffIsNoPartOfIt) {
  Layout layout = example();
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  CatchReadings r = caught(layout, 1, sound);
  const CatchVerdict v = judge_catch(layout, r);
  EXPECT_EQ(v.rows.size(), 15U);
  EXPECT_TRUE(v.missing.empty()) << "nobody puts a cup under it";
  EXPECT_TRUE(v.even);
  EXPECT_NEAR(v.level.change, 0.0, 1e-6) << "it takes nothing from the level";
  EXPECT_NEAR(v.total_rate / v.expected_rate, 1.0, 1e-6);
  r.readings.push_back({.row = 3, .volume = 1e-4});
  EXPECT_TRUE(holds(refused(layout, r), "row 3 is valved off in the layout")) << refused(layout, r);
}

TEST(SeldomVerdict, NoCupAtAllIsNoCatch) {
  const CatchReadings none{.time = 30.0 * s};
  EXPECT_TRUE(holds(refused(example(), none), "two rows or more")) << refused(example(), none);
}

// The bar gives a fifth less. A viscosity that was measured has no band; the row without a cup is not in the middle.
TEST(SeldomVerdict, AMeasuredViscosityHasNoBandThatExplainsALowBar) {
  Layout layout = example();
  CatchReadings r = caught(layout, 1, [](int /*row*/, int /*repeat*/) { return 0.8; });
  r.readings.erase(r.readings.begin() + 4);
  const CatchVerdict v = judge_catch(layout, r);
  ASSERT_TRUE(v.level.off);
  EXPECT_EQ(v.missing, std::vector<int>{5});
  EXPECT_NEAR(v.level.change, -0.2, 1e-9);
  EXPECT_LT(v.level.thickest, v.level.thinnest);
  const LiquidState now = layout.job.liquid.at(layout.job.temperature);
  layout.job.liquid = layout.job.liquid.with_viscosity(from_si<Viscosity>(now.viscosity), layout.job.temperature);
  const CatchVerdict measured = judge_catch(layout, r);
  ASSERT_TRUE(measured.level.off);
  EXPECT_TRUE(std::isnan(measured.level.thickest) && std::isnan(measured.level.thinnest));
  EXPECT_FALSE(measured.level.viscosity_fits());
  EXPECT_NEAR(measured.level.gauge / v.level.gauge, 1.0, 1e-3) << "all else is the same";
}

/// The figure behind "(about ", in psi; 0 where there is none.
static double about(const std::string& message) {
  const std::size_t at = message.find("(about ");
  return at == std::string::npos ? 0.0 : std::atof(message.c_str() + at + 7);
}

// Nothing comes before 20 psi; hose and orifice ask for more only as they flow, and the bar stands still till then.
TEST(SeldomVerdict, TheGaugesLeastIsWhereTheLastValveOpens) {
  Layout layout = example();
  std::get<Toolbar>(layout.plumbing).check_valve->crack = 20.0 * psi;
  CatchReadings r = caught(layout, 1, sound);
  r.gauge = 3.9 * psi;
  const std::string message = refused(layout, r);
  EXPECT_GE(about(message), 20.0) << message;
  // Eight halvings between the reading and the layout's own pressure, which is below 80 psi.
  EXPECT_LE(about(message), 20.0 + 80.0 / 256.0 + 0.1) << message;
  EXPECT_TRUE(holds(message, "did you mean 39.00 psi?")) << message;
  // Ten times 1 psi is far from what it runs at.
  r.gauge = 1.0 * psi;
  EXPECT_FALSE(holds(refused(layout, r), "did you mean")) << refused(layout, r);
  EXPECT_GE(about(refused(layout, r)), 20.0) << refused(layout, r);
}

// Row 7's valve does not open at the pressure that gives the rate either: no figure is told.
TEST(SeldomVerdict, WhereTheLayoutsOwnPressureDoesNotOpenARowNoFigureIsTold) {
  Layout layout = example();
  CatchReadings r = caught(layout, 1, sound);
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 7, .crack = 95.0 * psi}};
  for (const double gauge : {20.0, 90.0}) {
    r.gauge = gauge * psi;
    const std::string message = refused(layout, r);
    EXPECT_TRUE(holds(message, "is below what opens every row")) << message;
    EXPECT_EQ(about(message), 0.0) << message;
  }
}

TEST(SeldomVerdict, TheSourceIsTheFileThatIsNumbered) {
  const Layout layout = example();
  CatchReadings r = caught(layout, 1, sound);
  const auto source = [&](const char* where) {
    r.readings.front().where = where;
    return judge_catch(layout, r).source;
  };
  EXPECT_EQ(source("a/cups.csv:3:1"), "cups.csv");
  EXPECT_EQ(source("a/cups.csv:3:"), "") << "no line behind the mark";
  EXPECT_EQ(source("cups:first"), "");
  EXPECT_EQ(source("day:2/cups.csv:3"), "cups.csv") << "a mark in a folder's name";
  EXPECT_EQ(source(":3"), "") << "no file";
}

// Each row twice the same to the digit: the cups were read to no finer than that, and the error is not zero. What was
// given counts as eight readings, the repeats as one a row (catch_data.hpp's rule).
TEST(SeldomVerdict, RepeatsThatAreEqualDoNotMakeTheReadingsExact) {
  const Layout layout = example();
  CatchReadings r = caught(layout, 2, sound);
  for (CatchReading& c : r.readings) c.volume = 1e-4;
  const CatchVerdict v = judge_catch(layout, r);
  EXPECT_FALSE(v.error_from_repeats);
  EXPECT_NEAR(v.reading_error, 0.02 * std::sqrt(8.0 / (8.0 + 16.0)), 1e-12);
  EXPECT_EQ(v.cv_beyond_error, 0.0);
  for (const RowCatch& c : v.rows) EXPECT_LT(c.low, c.high);
}

// Nine of sixteen rows are empty: too many to be set aside, so all readings count. The error is that of the seven rows
// that gave something, whose repeats are 1 % either side of their mean: s2 = 2 * 0.01^2 a row, one degree each.
TEST(SeldomVerdict, EmptyRowsThatCountSayNothingOfTheReadingError) {
  const Layout layout = example();
  const CatchReadings r = caught(layout, 3, [](int row, int k) { return row <= 9 ? 0.0 : 1.0 + 0.01 * (k - 2); });
  const CatchVerdict v = judge_catch(layout, r);
  EXPECT_FALSE(v.doubts_set_aside);
  EXPECT_TRUE(v.error_from_repeats);
  EXPECT_NEAR(v.reading_error, 0.01, 1e-9) << "three readings at -1, 0 and 1 % have a standard deviation of 1 %";
  EXPECT_TRUE(v.spread_is_real);
  EXPECT_FALSE(v.even);
  for (const RowCatch& c : v.rows) {
    if (c.row <= 9) {
      EXPECT_EQ(c.deviation, -1.0);
    }
  }
}

// A row is surely beyond a thousandth of the mean; but within a reading error of a quarter nobody knows on which side.
TEST(SeldomVerdict, BeyondTheToleranceOnNobodyKnowsWhichSideIsNotProved) {
  Layout layout = example();
  layout.job.tolerance = 0.001;
  CatchReadings r = caught(layout, 1, sound);
  r.reading_error = 0.25;
  const CatchVerdict v = judge_catch(layout, r);
  for (const RowCatch& c : v.rows) {
    EXPECT_GT(c.outside_probability, v.confidence);
    EXPECT_LT(c.low, 0.0);
    EXPECT_GT(c.high, 0.0);
    EXPECT_EQ(c.mark, CatchMark::unproved) << c.row;
  }
  EXPECT_FALSE(v.proved);
}

// Both take the same file of cups; nobody who reads "job, pressure" looks for it there.
TEST(SeldomVerdict, AGaugeAtNothingIsRefusedAsTheGauges) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  CatchReadings r{.time = 30.0 * s, .gauge = 0.0 * psi};
  for (int row = 1; row <= 16; ++row) r.readings.push_back({.row = row, .volume = 2e-4});
  const auto refused = [](const auto& asked) {
    try {
      asked();
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("not refused");
  };
  const std::string diagnosis = refused([&] { (void)diagnose(layout, {r}); });
  EXPECT_TRUE(diagnosis.starts_with("gauge: 0 Pa")) << diagnosis;
  const std::string verdict = refused([&] { (void)judge_catch(layout, r); });
  EXPECT_TRUE(verdict.starts_with("gauge: 0 Pa")) << verdict;
}

}  // namespace seldom_verdict_test
}  // namespace libflow
