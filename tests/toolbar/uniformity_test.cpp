// SPDX-License-Identifier: MIT
/// @file
/// Coefficient of variation, Christiansen's coefficient and low-quarter uniformity by hand-checked numbers.
#include <boost/math/statistics/univariate_statistics.hpp>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <libflow/toolbar/uniformity.hpp>

namespace libflow {
namespace uniformity_test {

// Twelve numbers; measures computed with many digits from the published definitions (CU: J. E. Christiansen, Irrigation
// by Sprinkling, Calif. Agric. Exp. Stn. Bull. 670, 1942; low quarter: from memory). No published worked data set with
// answers was found.
const std::vector<double> twelve = {1.2, 1.15, 1.1, 1.05, 1.0, 0.98, 0.95, 0.9, 0.87, 0.85, 0.8, 0.75};

TEST(Uniformity, TwelveNumbers) {
  EXPECT_NEAR(boost::math::statistics::mean(twelve), 0.96666666666667, 5e-15);
  EXPECT_NEAR(std::sqrt(boost::math::statistics::sample_variance(twelve)), 0.1402811030709, 5e-14);
  EXPECT_NEAR(coefficient_of_variation(twelve), 0.14511838248714, 5e-15);
  EXPECT_NEAR(100.0 * christiansen_uniformity(twelve), 88.275862068966, 5e-13);
  EXPECT_NEAR(100.0 * low_quarter_uniformity(twelve), 82.758620689655, 5e-13);
}

// What the normal distribution makes of this CV (rules from memory; values computed with many digits).
TEST(Uniformity, NormalRulesOfTheTwelve) {
  const double cv = coefficient_of_variation(twelve);
  EXPECT_NEAR(100.0 * (1.0 - std::sqrt(2.0 / std::numbers::pi) * cv), 88.421228312483, 5e-13);
  EXPECT_NEAR(100.0 * (1.0 - 1.27 * cv), 81.569965424134, 5e-13);
}

// Eight rows (derived from the definitions, printed digits): CV 4.276 % with n - 1 (4.000 % with n), CU 97.0 %,
// low-quarter DU 94.5 %.
TEST(Uniformity, EightRows) {
  const std::vector<double> rows = {10, 10.4, 9.7, 10.1, 9.2, 10.6, 9.9, 10.1};
  const double cv = coefficient_of_variation(rows);
  EXPECT_NEAR(100.0 * cv, 4.276, 5e-4);
  EXPECT_NEAR(100.0 * cv * std::sqrt(7.0 / 8.0), 4.000, 5e-4);
  EXPECT_NEAR(100.0 * christiansen_uniformity(rows), 97.0, 0.05);
  EXPECT_NEAR(100.0 * low_quarter_uniformity(rows), 94.5, 0.05);
}

TEST(Uniformity, EqualNumbersArePerfect) {
  for (const std::size_t n : {1U, 2U, 3U, 4U, 7U, 16U}) {
    const std::vector<double> x(n, 0.37);
    EXPECT_NEAR(coefficient_of_variation(x), 0.0, 1e-15) << n;
    EXPECT_NEAR(christiansen_uniformity(x), 1.0, 1e-15) << n;
    EXPECT_NEAR(low_quarter_uniformity(x), 1.0, 1e-15) << n;
  }
}

TEST(Uniformity, OneNumberHasNoVariation) { EXPECT_EQ(coefficient_of_variation({3.0}), 0.0); }

// By hand: mean 2, deviations -1 and 1.
TEST(Uniformity, TwoNumbers) {
  EXPECT_NEAR(coefficient_of_variation({1.0, 3.0}), std::sqrt(2.0) / 2.0, 1e-15);
  EXPECT_NEAR(christiansen_uniformity({1.0, 3.0}), 0.5, 1e-15);
  EXPECT_NEAR(low_quarter_uniformity({1.0, 3.0}), 0.5, 1e-15);
}

// By hand: all from one outlet, mean 1.
TEST(Uniformity, AsUnevenAsItGets) {
  const std::vector<double> x = {0.0, 0.0, 4.0, 0.0};
  EXPECT_NEAR(coefficient_of_variation(x), 2.0, 1e-15);  // sqrt((3 x 1 + 9) / 3)
  EXPECT_NEAR(christiansen_uniformity(x), -0.5, 1e-15);  // 1 - (3 + 3) / 4: below zero is possible
  EXPECT_EQ(low_quarter_uniformity(x), 0.0);
}

// Where n / 4 is no whole number the border number counts by its part. By hand, 1, 2, ... n:
//   n = 5:  (1 + 0.25 x 2) / 1.25 / 3;   n = 6:  (1 + 0.5 x 2) / 1.5 / 3.5;
//   n = 10: (1 + 2 + 0.5 x 3) / 2.5 / 5.5;  n = 3: 1 / 2.
TEST(Uniformity, QuarterThatIsNoWholeNumber) {
  const auto low = [](int n) {
    std::vector<double> x;
    for (int i = n; i >= 1; --i) x.push_back(i);
    return low_quarter_uniformity(x);
  };
  EXPECT_NEAR(low(3), 1.0 / 2.0, 1e-15);
  EXPECT_NEAR(low(5), 1.5 / 1.25 / 3.0, 1e-15);
  EXPECT_NEAR(low(6), 2.0 / 1.5 / 3.5, 1e-15);
  EXPECT_NEAR(low(10), 4.5 / 2.5 / 5.5, 1e-15);
}

TEST(Uniformity, OrderAndScaleDoNotMatter) {
  std::vector<double> x = twelve, y = twelve;
  std::reverse(x.begin(), x.end());
  std::rotate(x.begin(), x.begin() + 5, x.end());
  for (double& v : y) v *= 1.7e-6;
  for (const auto& other : {x, y}) {
    EXPECT_NEAR(coefficient_of_variation(other), coefficient_of_variation(twelve), 1e-14);
    EXPECT_NEAR(christiansen_uniformity(other), christiansen_uniformity(twelve), 1e-14);
    EXPECT_NEAR(low_quarter_uniformity(other), low_quarter_uniformity(twelve), 1e-14);
  }
}

}  // namespace uniformity_test
}  // namespace libflow
