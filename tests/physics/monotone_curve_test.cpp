// SPDX-License-Identifier: MIT
/// @file
/// Monotone curve: through its points, never rising where they fall, slope its own.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include <libflow/physics/monotone_curve.hpp>

namespace libflow::physics {
namespace monotone_curve_test {

TEST(MonotoneCurve, ThroughThePointsAndRisingBetween) {
  // A step that plain cubic splines overshoot.
  const std::vector<double> x{0.0, 1.0, 2.0, 2.1, 5.0, 6.0}, y{0.0, 0.01, 0.02, 3.0, 3.01, 3.05};
  const MonotoneCurve curve{std::vector<double>(x), std::vector<double>(y)};
  for (std::size_t i = 0; i < x.size(); ++i) EXPECT_DOUBLE_EQ(curve(x[i]), y[i]);
  double before = curve(0.0);
  for (int i = 1; i <= 6000; ++i) {
    const double at = i * 1e-3, value = curve(at);
    EXPECT_GT(value, before) << at;
    EXPECT_GT(curve.prime(at), 0.0) << at;
    before = value;
  }
}

TEST(MonotoneCurve, SlopeIsTheCurves) {
  const MonotoneCurve curve{std::vector<double>{0.0, 1.0, 3.0, 4.0}, std::vector<double>{0.0, 2.0, 3.0, 7.0}};
  for (const double at : {0.3, 1.0, 1.9, 2.99, 3.7}) {
    const double h = 1e-6, quotient = (curve(at + h) - curve(at - h)) / (2.0 * h);
    EXPECT_NEAR(curve.prime(at), quotient, 1e-5 * std::abs(quotient)) << at;
  }
}

}  // namespace monotone_curve_test
}  // namespace libflow::physics
