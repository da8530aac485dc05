// SPDX-License-Identifier: MIT
/// @file
/// Readings that look odd and are left alone, and words of pairs that are not written alike.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include <libflow/study/catch_screen.hpp>

namespace libflow {
namespace seldom_screen_test {

using namespace units;

/// Readings by row, all rows expected to give 1.
static CatchReadings cups_of(const std::vector<std::vector<double>>& rows, double error) {
  CatchReadings r{.time = 30.0 * s, .reading_error = error};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    int repeat = 0;
    for (const double v : rows[i]) {
      r.readings.push_back({.row = static_cast<int>(i) + 1, .repeat = ++repeat, .volume = v});
    }
  }
  return r;
}
static CatchScreen screened(const CatchReadings& r) {
  std::map<int, double> expected;
  for (const CatchReading& c : r.readings) expected[c.row] = 1.0;
  return screen_catch(r, expected);
}

// ln of the shares: -3, -1.5, 0, 1.5, 3. The median absolute deviation is 1.5, so that the ends are at 0.6745 * 2.
TEST(SeldomScreen, ALittleReadingAmongRowsOfEverySizeIsNoOutlier) {
  std::vector<std::vector<double>> rows;
  for (const double x : {-3.0, -1.5, 0.0, 1.5, 3.0}) rows.push_back({std::exp(x)});
  ASSERT_LT(rows.front().front(), nothing_share);
  EXPECT_TRUE(screened(cups_of(rows, 0.02)).doubts.empty());
  // The same little reading among rows that are alike is.
  rows = {{std::exp(-3.0)}, {0.98}, {1.0}, {1.0}, {1.02}};
  const CatchScreen alike = screened(cups_of(rows, 0.02));
  ASSERT_EQ(alike.doubts.size(), 1U);
  EXPECT_EQ(alike.doubts[0].kind, ReadingDoubt::nothing);
  EXPECT_EQ(alike.rows, std::vector<int>{1});
}

// 5 % is ten times the reading error, but neither spilled nor misread.
TEST(SeldomScreen, ARepeatFarByTheScoreAloneStays) {
  std::vector<std::vector<double>> rows(6, {1.0, 1.0, 1.0});
  rows[2] = {1.0, 1.05, 1.0};
  EXPECT_TRUE(screened(cups_of(rows, 0.005)).doubts.empty());
  rows[2] = {1.0, 1.35, 1.0};
  const CatchScreen s = screened(cups_of(rows, 0.005));
  ASSERT_EQ(s.doubts.size(), 1U);
  EXPECT_EQ(s.doubts[0].kind, ReadingDoubt::repeat_apart);
  EXPECT_EQ(s.doubts[0].volume, 1.35);
  EXPECT_EQ(s.kept.readings.size(), 17U);
}

// Two against two: nobody knows which are right, and none is set aside.
TEST(SeldomScreen, HalfOfARowsCupsAgainstTheOtherHalfStay) {
  std::vector<std::vector<double>> rows(6, {1.0, 1.0, 1.0, 1.0});
  rows[3] = {0.6, 1.5, 0.6, 1.5};
  const CatchScreen s = screened(cups_of(rows, 0.01));
  EXPECT_TRUE(s.doubts.empty());
  EXPECT_EQ(s.kept.readings.size(), 24U);
}

// 10 % is far beyond a reading error of half a per cent, but not beyond what a row's cups may differ by.
TEST(SeldomScreen, TwoCupsATenthApartAreNoDoubt) {
  std::vector<std::vector<double>> rows(6, {1.0, 1.0});
  rows[1] = {0.95, 1.05};
  EXPECT_TRUE(screened(cups_of(rows, 0.005)).doubts.empty());
  rows[1] = {0.9, 1.1};
  const CatchScreen s = screened(cups_of(rows, 0.005));
  ASSERT_EQ(s.doubts.size(), 1U);
  EXPECT_EQ(s.doubts[0].kind, ReadingDoubt::cups_disagree);
  EXPECT_NEAR(s.doubts[0].factor, 1.1 / 0.9, 1e-12);
}

TEST(SeldomScreen, APairIsToldAsItWasWritten) {
  const auto told = [](const std::string& a, const std::string& b) {
    std::vector<std::vector<double>> rows(6, {1.0, 1.0});
    rows[1] = {0.7, 1.2};
    CatchReadings r = cups_of(rows, 0.01);
    r.readings[2].written = a;
    r.readings[3].written = b;
    const CatchScreen s = screened(r);
    return s.doubts.size() == 1 ? s.doubts[0].written : "no doubt of one pair";
  };
  EXPECT_EQ(told("7.0 fl oz", "12.0 fl oz"), "7.0 and 12.0 fl oz");
  EXPECT_EQ(told("7.0 fl oz", "355 ml"), "7.0 fl oz and 355 ml");
  EXPECT_EQ(told("7.0 fl oz", "12.0"), "7.0 fl oz and 12.0") << "the second has no unit";
  EXPECT_EQ(told("7.0", "12.0"), "7.0 and 12.0");
  EXPECT_EQ(told("7.0 fl oz", ""), "") << "half of it is not known";
}

// The layout expects nothing of row 4: its cup says nothing of the others, and they nothing of it.
TEST(SeldomScreen, ARowOfWhichNothingIsExpectedIsKeptAsItIs) {
  const CatchReadings r = cups_of({{1.0}, {1.0}, {1.02}, {0.0}, {0.98}}, 0.02);
  const CatchScreen s = screen_catch(r, {{1, 1.0}, {2, 1.0}, {3, 1.0}, {4, 0.0}, {5, 1.0}});
  EXPECT_TRUE(s.doubts.empty());
  EXPECT_EQ(s.kept.readings.size(), 5U);
}

}  // namespace seldom_screen_test
}  // namespace libflow
