// SPDX-License-Identifier: MIT
/// @file
/// What the options of a solve may be: just inside and just outside of each limit that the headers print.
#include <cmath>
#include <functional>
#include <limits>
#include <string>

#include <gtest/gtest.h>

#include <libflow/solve/control.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/solve/newton.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace solve_ranges_test {

struct Limits {
  std::string field;
  double low, high;
  std::function<void(double)> take;
};

TEST(SolveRanges, AreThosePrinted) {
  const Limits all[] = {
      {"solve options, mass_tolerance", 1e-15, 1e-3, [](double x) { SolveOptions{.mass_tolerance = x}.check(); }},
      {"solve options, energy_tolerance", 1e-14, 1e-3, [](double x) { SolveOptions{.energy_tolerance = x}.check(); }},
      {"corrected options, tolerance", 1e-14, 1e-2, [](double x) { CorrectedOptions{.tolerance = x}.check(); }},
      {"control, wanted total", 1e-18, 10.0,
       [](double x) {
         const ControlledSolution c = reach_total({.setting = "s",
                                                   .unit = "Pa",
                                                   .limits = {0.0, 1.0},
                                                   .solve_at = [](double) { return Solution{}; },
                                                   .total = [x](const Solution&) { return 2.0 * x; },
                                                   .wanted = x});
         EXPECT_EQ(c.solves, 1);  // too much at the low limit already
       }},
  };
  for (const Limits& a : all) {
    for (const double good : {a.low, 1.01 * a.low, 0.99 * a.high, a.high}) EXPECT_NO_THROW(a.take(good)) << a.field;
    for (const double bad : {0.99 * a.low, 1.01 * a.high, std::numeric_limits<double>::quiet_NaN()}) {
      test::expect_refused([&] { a.take(bad); }, a.field);
    }
  }
  for (const int good : {1, 2, 99999, 100000}) {
    EXPECT_NO_THROW(SolveOptions{.max_iterations = good}.check());
    EXPECT_NO_THROW(CorrectedOptions{.max_rounds = good}.check());
  }
  for (const int bad : {0, 100001}) {
    test::expect_refused([&] { SolveOptions{.max_iterations = bad}.check(); }, "solve options, max_iterations");
    test::expect_refused([&] { CorrectedOptions{.max_rounds = bad}.check(); }, "corrected options, max_rounds");
  }
}

TEST(SolveRanges, LimitsOfAControlMustBeInOrder) {
  const auto with = [](double low, double high) {
    static_cast<void>(reach_total({.setting = "s",
                                   .unit = "Pa",
                                   .limits = {low, high},
                                   .solve_at = [](double) { return Solution{}; },
                                   .total = [](const Solution&) { return 1.0; },
                                   .wanted = 0.5}));
  };
  EXPECT_NO_THROW(with(2.0, 2.0));
  test::expect_refused([&] { with(2.0, 1.0); }, "control, high limit");
  test::expect_refused([&] { with(std::numeric_limits<double>::quiet_NaN(), 1.0); }, "control, low limit");
}

// What an extra drop moves: the change that was asked for at first; then by the secant through the last two rounds,
// kept between a twentieth and twenty times the change.
TEST(CorrectedStepper, IsASecantWithinItsBounds) {
  struct Row {
    double second;  ///< change that is asked for after a first of 8, which moved by 8
    double share;
  };
  for (const Row& row : {Row{4.0, 2.0}, Row{0.0, 1.0}, Row{-8.0, 0.5}, Row{7.9, 20.0}, Row{9.0, 20.0},
                         Row{7.592, 1.0 / 0.051}, Row{-152.0, 0.05}, Row{-1000.0, 0.05}, Row{-148.0, 1.0 / 19.5}}) {
    corrected_detail::Stepper stepper;
    EXPECT_EQ(stepper.step(100.0, 8.0), 108.0);
    EXPECT_NEAR(stepper.step(108.0, row.second) - 108.0, row.share * row.second, 1e-12 * std::abs(row.second))
        << row.second;
  }
}

}  // namespace solve_ranges_test
}  // namespace libflow
