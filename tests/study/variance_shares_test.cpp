// SPDX-License-Identifier: MIT
/// @file
/// Scrambled points fill the cube as they must; Sobol' indices of functions whose indices are known.
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <random>
#include <set>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/study/scrambled_points.hpp>
#include <libflow/study/variance_shares.hpp>

namespace libflow {
namespace variance_shares_test {

TEST(ScrambledPoints, HaveOnePointInEverySlice) {
  constexpr std::size_t n = 256, d = 40;
  const ScrambledPoints points(d, 7);
  for (const std::size_t replicate : {0U, 1U, 5U}) {
    const Eigen::ArrayXXd u = points.points(replicate, 0, n);
    EXPECT_GT(u.minCoeff(), 0.0);
    EXPECT_LT(u.maxCoeff(), 1.0);
    for (Eigen::Index k = 0; k < u.cols(); ++k) {
      for (const std::size_t slices : {2U, 16U, 256U}) {
        std::vector<int> count(slices, 0);
        for (Eigen::Index i = 0; i < u.rows(); ++i) ++count[static_cast<std::size_t>(u(i, k) * double(slices))];
        for (const int c : count) EXPECT_EQ(static_cast<std::size_t>(c), n / slices) << "dimension " << k;
      }
    }
  }
}

// The first two dimensions are a (0, 2)-sequence: one point in every box of 2^-a by 2^-(m-a).
TEST(ScrambledPoints, KeepTheFirstTwoDimensionsEven) {
  const Eigen::ArrayXXd u = ScrambledPoints(2, 3).points(2, 0, 64);
  for (const int a : {1, 2, 3, 4, 5}) {
    std::set<std::array<int, 2>> boxes;
    for (Eigen::Index i = 0; i < u.rows(); ++i) {
      boxes.insert({static_cast<int>(u(i, 0) * (1 << a)), static_cast<int>(u(i, 1) * (1 << (6 - a)))});
    }
    EXPECT_EQ(boxes.size(), 64U) << a;
  }
}

TEST(ScrambledPoints, AreTheSameInAnyPieceAndNewInEveryReplicate) {
  const ScrambledPoints points(5, 11);
  const Eigen::ArrayXXd whole = points.points(1, 0, 100);
  for (const Eigen::Index first : {0, 1, 2, 37}) {
    EXPECT_TRUE((points.points(1, static_cast<std::size_t>(first), 30) == whole.middleRows(first, 30)).all()) << first;
  }
  EXPECT_FALSE((points.points(2, 0, 100) == whole).any());
  EXPECT_FALSE((ScrambledPoints(5, 12).points(1, 0, 100) == whole).any());
  EXPECT_THROW(ScrambledPoints(0, 1), InputError);
  EXPECT_THROW(ScrambledPoints(4000, 1), InputError);
}

// No bias: the mean over many replicates of a kinked function, against its integral, within its own sampling error.
TEST(ScrambledPoints, HaveNoBias) {
  std::vector<double> means;
  for (std::size_t r = 0; r < 400; ++r) {
    means.push_back((ScrambledPoints(1, 5).points(r, 0, 8).col(0) - 0.3).abs().mean());
  }
  const Estimate e = mean_of(means);
  EXPECT_NEAR(e.value, 0.5 * (0.3 * 0.3 + 0.7 * 0.7), 4.0 * e.error);
  EXPECT_LT(e.error, 1e-3);
}

// T. Ishigami, T. Homma, Proc. ISUMA (1990) 398: sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 on (-pi, pi). Published indices
// (A. Saltelli and others, Global Sensitivity Analysis: The Primer, 2008, from memory, and from the closed form):
// first order 0.3139, 0.4424, 0; total 0.5576, 0.4424, 0.2437.
TEST(VarianceShares, OfTheIshigamiFunction) {
  const PointFunction f = [](const Eigen::ArrayXXd& u) {
    const Eigen::ArrayXXd x = std::numbers::pi * (2.0 * u - 1.0);
    return Eigen::ArrayXXd(x.col(0).sin() + 7.0 * x.col(1).sin().square() + 0.1 * x.col(2).pow(4) * x.col(0).sin());
  };
  const VarianceShares found = variance_shares(f, {0, 1, 2}, {.points = 4096, .replicates = 16});
  ASSERT_TRUE(found.complete);
  const double a = 7.0, b = 0.1, pi = std::numbers::pi;
  const double exact = a * a / 8.0 + b * std::pow(pi, 4) / 5.0 + b * b * std::pow(pi, 8) / 18.0 + 0.5;
  EXPECT_NEAR(found.variance[0].value, exact, 5.0 * found.variance[0].error);
  // As many plain random points would leave the standard error sqrt((mean (f - mean)^4 - variance^2) / n).
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  Eigen::ArrayXXd u(200000, 3);
  for (double& v : u.reshaped()) v = uniform(random);
  const Eigen::ArrayXd centred = f(u).col(0) - 3.5;  // its mean is a / 2
  const double plain = std::sqrt((centred.pow(4).mean() - exact * exact) / (4096.0 * 16.0));
  EXPECT_LT(found.variance[0].error, plain / 4.0);
  const std::array<double, 3> first{0.3139, 0.4424, 0.0}, total{0.5576, 0.4424, 0.2437};
  for (std::size_t g = 0; g < 3; ++g) {
    const VarianceShare& s = found.shares[0][g];
    EXPECT_NEAR(s.first_order.value, first[g], 5.0 * s.first_order.error + 5e-5) << g;
    EXPECT_NEAR(s.total.value, total[g], 5.0 * s.total.error + 5e-5) << g;
    EXPECT_LT(s.first_order.error, 0.005);
    EXPECT_LT(s.total.error, 0.005);
  }
}

// Groups: x0 and x1 together, x2 alone, in 3 x0 + 4 x1 x... kept linear, so that the shares are 25/26 and 1/26.
TEST(VarianceShares, OfGroupsInALinearFunction) {
  const PointFunction f = [](const Eigen::ArrayXXd& u) {
    Eigen::ArrayXXd y(u.rows(), 2);
    y.col(0) = 3.0 * u.col(0) + 4.0 * u.col(1) + u.col(2);
    y.col(1) = u.col(2);
    return y;
  };
  const VarianceShares found = variance_shares(f, {0, 0, 1}, {.points = 2048, .replicates = 8});
  EXPECT_NEAR(found.variance[0].value, 26.0 / 12.0, 2e-3);
  EXPECT_NEAR(found.shares[0][0].first_order.value, 25.0 / 26.0, 2e-3);
  EXPECT_NEAR(found.shares[0][0].total.value, 25.0 / 26.0, 2e-3);
  EXPECT_NEAR(found.shares[0][1].first_order.value, 1.0 / 26.0, 2e-3);
  EXPECT_NEAR(found.shares[1][0].total.value, 0.0, 1e-12);
  EXPECT_NEAR(found.shares[1][1].first_order.value, 1.0, 2e-3);
}

TEST(VarianceShares, StopWithWholeReplicates) {
  const PointFunction f = [](const Eigen::ArrayXXd& u) { return Eigen::ArrayXXd(u.leftCols(1)); };
  std::size_t told = 0, of = 0;
  const VarianceShares found =
      variance_shares(f, {0, 1}, {.points = 64, .replicates = 5}, [&](std::size_t done, std::size_t all) {
        told = done;
        of = all;
        return done < 10;
      });
  EXPECT_EQ(told, 10U);
  EXPECT_EQ(of, 20U);
  EXPECT_FALSE(found.complete);
  EXPECT_EQ(found.replicates, 2U);
  EXPECT_NEAR(found.shares[0][0].first_order.value, 1.0, 0.05);
  EXPECT_THROW((void)variance_shares(f, {0}, {.points = 100}), InputError);
}

// Wherever it is stopped, by the one who is told or by the function itself: four matrices of points make a replicate of
// two groups, and a part of one is none.
TEST(VarianceShares, StopAmidAReplicateAnywhere) {
  for (std::size_t last = 0; last <= 8; ++last) {
    std::size_t asked = 0;
    const PointFunction gives_up = [&](const Eigen::ArrayXXd& u) {
      return asked++ < last ? Eigen::ArrayXXd(u.leftCols(1)) : Eigen::ArrayXXd();
    };
    const PointFunction whole = [](const Eigen::ArrayXXd& u) { return Eigen::ArrayXXd(u.leftCols(1)); };
    const VarianceShareOptions few{.points = 64, .replicates = 2};
    const VarianceShares by_function = variance_shares(gives_up, {0, 1}, few);
    const VarianceShares by_progress =
        variance_shares(whole, {0, 1}, few, [&](std::size_t done, std::size_t) { return done <= last; });
    for (const VarianceShares& found : {by_function, by_progress}) {
      EXPECT_EQ(found.replicates, last / 4) << last;
      EXPECT_EQ(found.complete, last == 8) << last;
      EXPECT_EQ(found.shares.size(), last < 4 ? 0U : 1U) << last;
      EXPECT_EQ(found.variance.size(), found.shares.size()) << last;
    }
  }
}

// What does not vary has no shares: noughts, no nought over nought.
TEST(VarianceShares, OfAConstantAreNone) {
  const PointFunction f = [](const Eigen::ArrayXXd& u) { return Eigen::ArrayXXd::Constant(u.rows(), 1, 3.0); };
  const VarianceShares found = variance_shares(f, {0, 1}, {.points = 64, .replicates = 3});
  ASSERT_TRUE(found.complete);
  EXPECT_EQ(found.variance[0].value, 0.0);
  for (const VarianceShare& share : found.shares[0]) {
    EXPECT_EQ(share.first_order.value, 0.0);
    EXPECT_EQ(share.total.value, 0.0);
    EXPECT_EQ(share.total.error, 0.0);
  }
}

}  // namespace variance_shares_test
}  // namespace libflow
