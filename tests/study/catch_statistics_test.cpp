// SPDX-License-Identifier: MIT
/// @file
/// Statistics of a catch test against published examples and tables.

#include <cmath>
#include <random>
#include <vector>

#include <boost/math/distributions/fisher_f.hpp>
#include <gtest/gtest.h>

#include <libflow/study/catch_statistics.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace catch_statistics_test {

// NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.3 and 7.4.3.4 (figures from memory; its sums follow from its
// readings): three levels of five, SS between 27.897, SS within 17.452, mean squares 13.949 and 1.454, F 9.59.
TEST(CatchStatistics, AnalysisOfVarianceOfTheHandbook) {
  const SpreadTest t =
      analysis_of_variance({{6.9, 5.4, 5.8, 4.6, 4.0}, {8.3, 6.8, 7.8, 9.2, 6.5}, {8.0, 10.5, 8.1, 6.9, 9.3}});
  EXPECT_NEAR(t.between * t.between_dof, 27.897, 5e-4);
  EXPECT_NEAR(t.within * t.within_dof, 17.452, 5e-4);
  EXPECT_NEAR(t.between, 13.949, 5e-4);
  EXPECT_NEAR(t.within, 1.454, 5e-4);
  EXPECT_NEAR(t.f, 9.59, 5e-3);
  // Its table: the critical value of F(2, 12) at 0.05 is 3.89.
  EXPECT_NEAR(quantile(boost::math::fisher_f(2, 12), 0.95), 3.89, 5e-3);
  EXPECT_LT(t.p, 0.05);
}

TEST(CatchStatistics, ProvableDifferenceIsTheSampleSizeFormulaTurnedAround) {
  // One comparison, many other rows: N = (z(1 - alpha/2) + z(power))^2 / delta^2 with delta in standard deviations.
  // Printed normal quantiles: z(0.975) = 1.960, z(0.90) = 1.282 (any table): delta = 1 needs N = 10.5.
  const double two_rows = provable_row_difference(0.02, 2, 1);
  // Two rows: the difference to one other row, sqrt(2) of a reading's error; confidence shared over the two.
  EXPECT_NEAR(two_rows, (2.2414 + 1.2816) * 0.02 * std::sqrt(2.0), 1e-5);  // z(1 - 0.05/4) = 2.2414
  EXPECT_NEAR(provable_row_difference(0.02, 16, 4), 0.5 * provable_row_difference(0.02, 16, 1), 1e-12);
  // 16 rows, three repeats: z(1 - 0.05/32) = 2.955.
  EXPECT_NEAR(provable_row_difference(0.02, 16, 3), (2.955 + 1.2816) * 0.02 * std::sqrt((1.0 + 1.0 / 15.0) / 3.0),
              1e-5);
}

// What the formulas promise is what simulated cups do: the share of even bars that are called uneven, and of rows off
// by the provable difference that are found. Fixed seed; the bounds are four standard errors of the shares.
TEST(CatchStatistics, PowerHoldsForSimulatedCups) {
  std::mt19937_64 random(20260401);
  const double error = 0.02;
  const int rows = 12, repeats = 3, bars = 4000;
  const double delta = provable_row_difference(error, rows, repeats);
  const double critical = quantile(boost::math::normal(), 1.0 - 0.05 / (2.0 * rows)) * error *
                          std::sqrt((1.0 + 1.0 / (rows - 1.0)) / repeats);
  std::normal_distribution<double> reading(0.0, error);
  int false_alarms = 0, found = 0, spread_found = 0;
  const double cv = provable_cv(error, rows, repeats);
  std::normal_distribution<double> spread(0.0, cv);
  for (int bar = 0; bar < bars; ++bar) {
    std::vector<double> mean(rows, 0.0), uneven(rows, 1.0);
    for (double& m : mean) {
      for (int k = 0; k < repeats; ++k) m += reading(random) / repeats;
    }
    double sum = 0.0;
    for (const double m : mean) sum += m;
    const auto against_others = [&](int i, double own, double total) {
      return own - (total - mean[static_cast<std::size_t>(i)]) / (rows - 1.0);
    };
    bool alarm = false;
    for (int i = 0; i < rows; ++i) alarm = alarm || std::abs(against_others(i, mean[std::size_t(i)], sum)) > critical;
    false_alarms += alarm;
    found += against_others(0, mean[0] + delta, sum) > critical;
    for (std::size_t i = 0; i < uneven.size(); ++i) uneven[i] = 1.0 + spread(random) + mean[i];
    spread_found += spread_by_error_alone(uneven, std::vector<int>(rows, repeats), error) < 0.05;
  }
  const auto within = [&](double share) { return 4.0 * std::sqrt(share * (1.0 - share) / bars); };
  EXPECT_LE(false_alarms / double(bars), 0.05 + within(0.05));
  EXPECT_NEAR(found / double(bars), 0.90, within(0.90));
  EXPECT_NEAR(spread_found / double(bars), 0.90, within(0.90) + 0.005);
}

TEST(CatchStatistics, RefusesWhatMakesNoTest) {
  test::expect_message([] { static_cast<void>(analysis_of_variance({{1.0, 2.0}})); }, "two groups");
  test::expect_message([] { static_cast<void>(analysis_of_variance({{1.0}, {2.0}})); }, "repeats");
  test::expect_message([] { static_cast<void>(analysis_of_variance({{1.0, 1.0}, {}})); }, "each group");
  test::expect_message([] { static_cast<void>(provable_row_difference(0.0, 16, 3)); }, "reading error");
  test::expect_message([] { static_cast<void>(provable_row_difference(0.02, 1, 3)); }, "rows");
  test::expect_message([] { static_cast<void>(provable_cv(0.02, 16, 0)); }, "repeats");
  test::expect_message([] { static_cast<void>(provable_cv(0.02, 16, 3, {.power = 1.0})); }, "power");
}

// Repeats that agree to the last digit: any difference between rows is then beyond doubt, and none is none.
TEST(CatchStatistics, RepeatsWithoutAnyScatter) {
  const SpreadTest apart = analysis_of_variance({{1.0, 1.0}, {2.0, 2.0}, {1.0, 1.0}});
  EXPECT_EQ(apart.within, 0.0);
  EXPECT_GT(apart.between, 0.0);
  EXPECT_EQ(apart.p, 0.0);
  EXPECT_EQ(analysis_of_variance({{1.0, 1.0}, {1.0, 1.0}}).p, 1.0);
  test::expect_message([] { static_cast<void>(spread_by_error_alone({1.0, 1.1}, {3}, 0.02)); }, "two rows or more");
  test::expect_message([] { static_cast<void>(spread_by_error_alone({1.0}, {3}, 0.02)); }, "two rows or more");
}

}  // namespace catch_statistics_test
}  // namespace libflow
