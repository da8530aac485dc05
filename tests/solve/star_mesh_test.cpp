// SPDX-License-Identifier: MIT
/// @file
/// Star-mesh elimination against dense factorisation in fifty digits, with conductances that differ by 1e12.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <Eigen/Dense>
#include <boost/multiprecision/eigen.hpp>
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/solve/star_mesh.hpp>
#include <tests/support/many_digits.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace star_mesh_test {

using test::Dice;
using test::Many;

/// A random network of conductances.
struct Conductances {
  int places = 0;
  Joints joints;
  std::vector<double> joint, ground;

  /// Connected, with loops, parallel joints, and one to three places joined to known potentials.
  static Conductances random(Dice& dice, int places, double ratio) {
    Conductances c;
    c.places = places;
    const auto n = static_cast<std::size_t>(places);
    c.ground.assign(n, 0.0);
    const auto add = [&](std::size_t a, std::size_t b) {
      c.joints.push_back({static_cast<int>(a), static_cast<int>(b)});
      c.joint.push_back(dice.log_uniform(1.0 / ratio, 1.0));
    };
    for (std::size_t i = 1; i < n; ++i) add(dice.below(i), i);
    for (std::size_t k = dice.below(2 * n + 1); k > 0 && n > 1; --k) {
      const std::size_t a = dice.below(n), b = dice.below(n);
      if (a != b) add(a, b);
    }
    for (std::size_t k = 1 + dice.below(3); k > 0; --k) c.ground[dice.below(n)] = dice.log_uniform(1.0 / ratio, 1.0);
    return c;
  }

  /// The Laplacian, its diagonal summed in the scalar given.
  template <class S>
  [[nodiscard]] Eigen::Matrix<S, Eigen::Dynamic, Eigen::Dynamic> laplacian() const {
    Eigen::Matrix<S, Eigen::Dynamic, Eigen::Dynamic> a(places, places);
    a.setZero();
    for (std::size_t e = 0; e < joints.size(); ++e) {
      const auto [i, j] = joints[e];
      const S g(joint[e]);
      a(i, i) += g;
      a(j, j) += g;
      a(i, j) -= g;
      a(j, i) -= g;
    }
    for (int i = 0; i < places; ++i) a(i, i) += S(ground[static_cast<std::size_t>(i)]);
    return a;
  }

  [[nodiscard]] std::vector<double> solve(std::vector<double> inflow) const {
    StarMesh<double> mesh(places, joints);
    mesh.factor(joint, ground);
    mesh.solve(inflow);
    return inflow;
  }
  template <class S>
  [[nodiscard]] Eigen::Matrix<S, Eigen::Dynamic, 1> dense(const std::vector<double>& inflow) const {
    Eigen::Matrix<S, Eigen::Dynamic, 1> b(places);
    for (int i = 0; i < places; ++i) b(i) = S(inflow[static_cast<std::size_t>(i)]);
    return laplacian<S>().partialPivLu().solve(b);
  }
};

// With liquid pushed in only, every potential is a sum of positive terms: each one, however small beside the others,
// has almost full relative accuracy. A factorisation that subtracts keeps none at a condition number of 1e12 and more.
TEST(StarMesh, EveryPotentialHasItsDigits) {
  Dice dice(11);
  double worst = 0.0;
  for (int k = 0; k < 200; ++k) {
    const int places = 1 + static_cast<int>(dice.below(40));
    const auto c = Conductances::random(dice, places, 1e12);
    std::vector<double> inflow(static_cast<std::size_t>(places));
    for (double& q : inflow) q = dice.chance(0.3) ? 0.0 : dice.log_uniform(1e-6, 1.0);
    inflow[0] += 1.0;
    const auto found = c.solve(inflow);
    const auto truth = c.dense<Many>(inflow);
    for (int i = 0; i < places; ++i) {
      const auto relative = static_cast<double>(abs(Many(Many(found[static_cast<std::size_t>(i)]) / truth(i) - 1)));
      worst = std::max(worst, relative);
      ASSERT_LE(relative, 1e-13) << "network " << k << ", place " << i << " of " << places;
    }
  }
  RecordProperty("largest_relative_error", fmt::format("{:.2g}", worst));
}

TEST(StarMesh, FlowsInAndOut) {
  Dice dice(12);
  for (int k = 0; k < 200; ++k) {
    const int places = 2 + static_cast<int>(dice.below(40));
    const auto c = Conductances::random(dice, places, 1e12);
    std::vector<double> inflow(static_cast<std::size_t>(places)), magnitude(inflow.size());
    for (std::size_t i = 0; i < inflow.size(); ++i) {
      inflow[i] = dice.uniform(-1.0, 1.0);
      magnitude[i] = std::abs(inflow[i]);
    }
    const auto found = c.solve(inflow);
    const auto truth = c.dense<Many>(inflow);
    // What cancels between the inflows cancels against the potential that their sizes would make.
    const auto size = c.dense<Many>(magnitude);
    for (int i = 0; i < places; ++i) {
      const Many error = Many(found[static_cast<std::size_t>(i)]) - truth(i);
      ASSERT_LE(static_cast<double>(Many(abs(error) / size(i))), 1e-13) << "network " << k << ", place " << i;
    }
  }
}

// The same against a symmetric factorisation in long double, where it can keep up.
TEST(StarMesh, AgreesWithDenseLdlt) {
  Dice dice(13);
  for (int k = 0; k < 50; ++k) {
    const int places = 2 + static_cast<int>(dice.below(60));
    const auto c = Conductances::random(dice, places, 1e3);
    std::vector<double> inflow(static_cast<std::size_t>(places));
    for (double& q : inflow) q = dice.uniform(0.0, 1.0);
    Eigen::Matrix<long double, Eigen::Dynamic, 1> b(places);
    for (int i = 0; i < places; ++i) b(i) = inflow[static_cast<std::size_t>(i)];
    const Eigen::Matrix<long double, Eigen::Dynamic, 1> truth = c.laplacian<long double>().ldlt().solve(b);
    const auto found = c.solve(inflow);
    for (int i = 0; i < places; ++i) {
      const auto t = static_cast<double>(truth(i));
      ASSERT_NEAR(found[static_cast<std::size_t>(i)], t, 1e-11 * t);
    }
  }
}

TEST(StarMesh, RunsInManyDigits) {
  Dice dice(14);
  const auto c = Conductances::random(dice, 25, 1e12);
  std::vector<double> inflow(25);
  for (double& q : inflow) q = dice.uniform(0.0, 1.0);
  StarMesh<Many> mesh(c.places, c.joints);
  mesh.factor({c.joint.begin(), c.joint.end()}, {c.ground.begin(), c.ground.end()});
  std::vector<Many> found(inflow.begin(), inflow.end());
  mesh.solve(found);
  const auto truth = c.dense<Many>(inflow);
  for (int i = 0; i < 25; ++i) {
    EXPECT_LE(static_cast<double>(abs(Many(found[static_cast<std::size_t>(i)] / truth(i) - 1))), 1e-30);
  }
}

// Four places in a chain, cut off from every known potential, beside a group that is not: the cut-off group is
// recognised by an exact zero, whatever its conductances, and disturbs nothing.
TEST(StarMesh, FloatingGroupsAreExact) {
  Dice dice(15);
  for (int k = 0; k < 200; ++k) {
    Conductances c;
    c.places = 7;
    c.joints = {{0, 1}, {1, 2}, {2, 3}, {0, 3}, {4, 5}, {5, 6}};
    for (std::size_t e = 0; e < c.joints.size(); ++e) c.joint.push_back(dice.log_uniform(1e-12, 1.0));
    c.ground.assign(7, 0.0);
    c.ground[5] = dice.log_uniform(1e-12, 1.0);

    // Nothing pushed in: exactly no potential, no noise over a tiny pivot.
    std::vector<double> still = c.solve({0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0});
    for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(still[i], 0.0);
    EXPECT_NEAR(still[5], 1.0 / c.ground[5], 1e-15 / c.ground[5]);
    EXPECT_NEAR(still[6], still[5], 1e-15 * still[5]);

    // A flow through the cut-off group, in at one place and out at another: finite potentials, one of them 0, whose
    // differences drive that flow.
    const std::vector<double> x = c.solve({1.0, 0.0, -1.0, 0.0, 0.0, 0.0, 0.0});
    for (const double v : x) ASSERT_TRUE(std::isfinite(v));
    EXPECT_EQ(std::count(x.begin(), x.begin() + 4, 0.0), 1);
    const double q01 = c.joint[0] * (x[0] - x[1]), q12 = c.joint[1] * (x[1] - x[2]);
    const double q23 = c.joint[2] * (x[2] - x[3]), q03 = c.joint[3] * (x[0] - x[3]);
    const double rounding = 1e-14 * (std::abs(x[0]) + std::abs(x[1]) + std::abs(x[2]) + std::abs(x[3]));
    EXPECT_NEAR(q01, q12, rounding * std::max(c.joint[0], c.joint[1]) + 1e-14);
    EXPECT_NEAR(q03, -q23, rounding * std::max(c.joint[2], c.joint[3]) + 1e-14);
    EXPECT_NEAR(q01 + q03, 1.0, rounding * std::max(c.joint[0], c.joint[3]) + 1e-14);
  }
}

TEST(StarMesh, ConductancesOfZeroAreNotThere) {
  // A bridge of zero splits the group; the same mesh is used again with it there.
  Conductances c;
  c.places = 3;
  c.joints = {{0, 1}, {1, 2}};
  c.joint = {2.0, 0.0};
  c.ground = {1.0, 0.0, 0.0};
  StarMesh<double> mesh(c.places, c.joints);
  mesh.factor(c.joint, c.ground);
  std::vector<double> x{0.0, 1.0, 0.0};
  mesh.solve(x);
  EXPECT_DOUBLE_EQ(x[0], 1.0);
  EXPECT_DOUBLE_EQ(x[1], 1.5);
  EXPECT_EQ(x[2], 0.0);
  mesh.factor({2.0, 4.0}, c.ground);
  x = {0.0, 0.0, 1.0};
  mesh.solve(x);
  EXPECT_DOUBLE_EQ(x[0], 1.0);
  EXPECT_DOUBLE_EQ(x[1], 1.5);
  EXPECT_DOUBLE_EQ(x[2], 1.75);
}

TEST(StarMesh, ATreeHasNoFillIn) {
  Dice dice(16);
  for (int places : {1, 2, 17, 1000}) {
    Joints joints;
    for (int i = 1; i < places; ++i) {
      joints.push_back({static_cast<int>(dice.below(static_cast<std::size_t>(i))), i});
    }
    EXPECT_EQ(StarMesh<double>(places, joints).entries(), joints.size());
  }
}

TEST(StarMesh, NoPlaces) {
  StarMesh<double> mesh(0, {});
  mesh.factor({}, {});
  std::vector<double> x;
  mesh.solve(x);
  EXPECT_TRUE(x.empty());
}

}  // namespace star_mesh_test
}  // namespace libflow
