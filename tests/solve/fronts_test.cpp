// SPDX-License-Identifier: MIT
/// @file
/// Elimination in fronts and its order against elimination one by one, dense fifty-digit solutions and plain counting.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <memory>
#include <numeric>
#include <vector>

#include <Eigen/Dense>
#include <boost/multiprecision/eigen.hpp>
#include <gtest/gtest.h>

#include <libflow/solve/star_mesh.hpp>
#include <tests/support/many_digits.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace fronts_test {

constexpr std::size_t never = static_cast<std::size_t>(-1);  // as `large`: one by one

struct Web {
  int places = 0;
  Joints joints;
  std::vector<double> joint, ground;

  void add(int a, int b, double conductance) {
    joints.push_back({a, b});
    joint.push_back(conductance);
  }

  /// n x n places; conductances down to 1/ratio, joints and ways to known potentials alike.
  static Web grid(int n, double ratio, test::Dice& dice) {
    Web w;
    w.places = n * n;
    for (int i = 0; i < n * n; ++i) {
      if (i % n + 1 < n) w.add(i, i + 1, dice.log_uniform(1.0 / ratio, 1.0));
      if (i + n < n * n) w.add(i, i + n, dice.log_uniform(1.0 / ratio, 1.0));
      w.ground.push_back(dice.chance(0.1) ? dice.log_uniform(1.0 / ratio, 1.0) : 0.0);
    }
    w.ground[0] = 1.0;
    return w;
  }
  /// Connected, with trees that hang on loops, and parallel joints.
  static Web random(int places, double ratio, test::Dice& dice) {
    Web w;
    w.places = places;
    const auto below = [&](int n) { return static_cast<int>(dice.below(static_cast<std::size_t>(n))); };
    for (int i = 1; i < places; ++i) w.add(below(i), i, dice.log_uniform(1.0 / ratio, 1.0));
    for (int k = below(2 * places); k > 0; --k) {
      const int a = below(places), b = below(places);
      if (a != b) w.add(a, b, dice.log_uniform(1.0 / ratio, 1.0));
    }
    w.ground.assign(static_cast<std::size_t>(places), 0.0);
    w.ground[dice.below(w.ground.size())] = dice.log_uniform(1.0 / ratio, 1.0);
    return w;
  }

  [[nodiscard]] std::shared_ptr<const MeshShape> shape(std::size_t large) const {
    return std::make_shared<const MeshShape>(places, joints, large);
  }
  template <class S = double>
  [[nodiscard]] std::vector<S> solve(std::vector<S> inflow, std::size_t large) const {
    StarMesh<S> mesh(shape(large));
    mesh.factor({joint.begin(), joint.end()}, {ground.begin(), ground.end()});
    mesh.solve(inflow);
    return inflow;
  }
  [[nodiscard]] std::vector<double> inflows(test::Dice& dice) const {
    std::vector<double> q(static_cast<std::size_t>(places));
    for (double& x : q) x = dice.uniform(0.0, 1.0);
    return q;
  }
};

// Inflows of one sign: potentials are sums of positive terms, and each keeps its digits at any ratio of conductances.
TEST(Fronts, AgreeWithEliminationOneByOne) {
  test::Dice dice(21);
  for (int k = 0; k < 120; ++k) {
    const Web w = k % 3 == 0 ? Web::grid(2 + k / 4, 1e12, dice) : Web::random(2 + 3 * k, 1e12, dice);
    const std::vector<double> inflow = w.inflows(dice);
    const std::vector<double> one_by_one = w.solve(inflow, never), found = w.solve(inflow, 0);
    for (std::size_t i = 0; i < found.size(); ++i) {
      ASSERT_NEAR(found[i] / one_by_one[i], 1.0, 1e-12) << "network " << k << ", place " << i;
    }
  }
}

TEST(Fronts, AgreeWithFiftyDigits) {
  test::Dice dice(22);
  for (const double ratio : {1.0, 1e6, 1e12}) {
    const Web w = Web::grid(8, ratio, dice);
    const std::vector<double> inflow = w.inflows(dice);
    using Many = test::Many;
    Eigen::Matrix<Many, Eigen::Dynamic, Eigen::Dynamic> a(w.places, w.places);
    a.setZero();
    for (std::size_t e = 0; e < w.joints.size(); ++e) {
      const auto [i, j] = w.joints[e];
      const Many g(w.joint[e]);
      a(i, i) += g;
      a(j, j) += g;
      a(i, j) -= g;
      a(j, i) -= g;
    }
    Eigen::Matrix<Many, Eigen::Dynamic, 1> b(w.places);
    for (int i = 0; i < w.places; ++i) {
      a(i, i) += Many(w.ground[static_cast<std::size_t>(i)]);
      b(i) = Many(inflow[static_cast<std::size_t>(i)]);
    }
    const Eigen::Matrix<Many, Eigen::Dynamic, 1> truth = a.partialPivLu().solve(b);
    const std::vector<double> found = w.solve(inflow, 0);
    const std::vector<Many> exact = w.solve<Many>({inflow.begin(), inflow.end()}, 0);
    for (int i = 0; i < w.places; ++i) {
      const auto k = static_cast<std::size_t>(i);
      EXPECT_LE(static_cast<double>(abs(Many(Many(found[k]) / truth(i) - 1))), 1e-13) << "ratio " << ratio;
      EXPECT_LE(static_cast<double>(abs(Many(exact[k] / truth(i) - 1))), 1e-30) << "ratio " << ratio;
    }
  }
}

TEST(Fronts, RunOnPacks) {
  using Pack = Eigen::Array<double, 4, 1>;
  test::Dice dice(23);
  const Web w = Web::grid(12, 1e6, dice);
  const std::vector<double> inflow = w.inflows(dice);
  for (const std::size_t large : {std::size_t{0}, never}) {
    StarMesh<Pack> mesh(w.shape(large));
    std::vector<Pack> joint, ground, x;
    for (const double g : w.joint) joint.push_back(Pack(g, 2.0 * g, 3.0 * g, 0.0));
    for (const double g : w.ground) ground.push_back(Pack(g, 2.0 * g, 3.0 * g, g > 0.0 ? 1.0 : 0.0));
    for (const double q : inflow) x.push_back(Pack::Constant(q));
    mesh.factor(joint, ground);
    mesh.solve(x);
    const std::vector<double> one = w.solve(inflow, large);
    for (std::size_t i = 0; i < x.size(); ++i) {
      EXPECT_NEAR(x[i](0) / one[i], 1.0, 1e-12);
      EXPECT_NEAR(x[i](1) / one[i], 1.0 / 2.0, 1e-12);
      EXPECT_NEAR(x[i](2) / one[i], 1.0 / 3.0, 1e-12);
      // Nothing joined: each place for itself, and those without a way to a known potential stay at 0.
      EXPECT_EQ(x[i](3), w.ground[i] > 0.0 ? inflow[i] : 0.0);
    }
  }
}

// A square in the middle of the grid is cut off by conductances of zero: known by an exact zero, and nothing leaks.
TEST(Fronts, FloatingGroupsAreExact) {
  test::Dice dice(24);
  constexpr int n = 50, low = 15, high = 35;
  Web w = Web::grid(n, 1e9, dice);
  const auto inside = [](int i) {
    const int x = i % n, y = i / n;
    return x >= low && x < high && y >= low && y < high;
  };
  for (std::size_t e = 0; e < w.joints.size(); ++e) {
    if (inside(w.joints[e][0]) != inside(w.joints[e][1])) w.joint[e] = 0.0;
  }
  for (int i = 0; i < n * n; ++i) {
    if (inside(i)) w.ground[static_cast<std::size_t>(i)] = 0.0;
  }
  std::vector<double> inflow = w.inflows(dice);
  for (int i = 0; i < n * n; ++i) {
    if (inside(i)) inflow[static_cast<std::size_t>(i)] = 0.0;
  }
  for (const std::size_t large : {std::size_t{0}, MeshShape::large_core}) {  // by minimum degree, by dissection
    const std::vector<double> x = w.solve(inflow, large);
    for (int i = 0; i < n * n; ++i) {
      if (inside(i)) {
        ASSERT_EQ(x[static_cast<std::size_t>(i)], 0.0) << i;
      } else {
        ASSERT_GT(x[static_cast<std::size_t>(i)], 0.0) << i;
      }
    }
  }
}

// By dissection: 4,900 places in a grid, tails and parallel joints on it.
TEST(Fronts, ALargeCoreKeepsItsDigits) {
  test::Dice dice(25);
  Web w = Web::grid(70, 1e10, dice);
  for (int i = 0; i < 500; ++i) {
    const int on = static_cast<int>(dice.below(static_cast<std::size_t>(w.places)));
    w.add(on, w.places++, dice.log_uniform(1e-10, 1.0));
    w.ground.push_back(0.0);
  }
  for (std::size_t e = 0; e < 300; ++e) w.add(w.joints[e][0], w.joints[e][1], dice.log_uniform(1e-10, 1.0));
  const std::vector<double> inflow = w.inflows(dice);
  const std::vector<double> one_by_one = w.solve(inflow, never), found = w.solve(inflow, MeshShape::large_core);
  for (std::size_t i = 0; i < found.size(); ++i) ASSERT_NEAR(found[i] / one_by_one[i], 1.0, 1e-12) << i;
}

TEST(NestedDissection, CutsKeepTheSidesApart) {
  test::Dice dice(26);
  for (const Web& w : {Web::grid(40, 10.0, dice), Web::random(1500, 10.0, dice)}) {
    const PlaceGraph graph(static_cast<std::size_t>(w.places), w.joints);
    const auto side = Bisection::of(graph);
    std::array<int, 3> count{};
    for (const auto s : side) ++count[static_cast<std::size_t>(s)];
    EXPECT_GT(std::min(count[0], count[1]), 0);
    EXPECT_LE(std::max(count[0], count[1]), w.places * 6 / 10 + 1);  // what a move may leave on one side
    for (const auto& [a, b] : w.joints) {
      const auto sa = side[static_cast<std::size_t>(a)], sb = side[static_cast<std::size_t>(b)];
      EXPECT_TRUE(sa == sb || sa == Bisection::cut || sb == Bisection::cut) << a << " to " << b;
    }
  }
  // The shortest cut that halves a square grid is one line of it; a quarter more will do.
  const Web square = Web::grid(40, 10.0, dice);
  const auto side = Bisection::of(PlaceGraph(1600, square.joints));
  EXPECT_LE(std::count(side.begin(), side.end(), Bisection::cut), 50);
}

// Groups that nothing joins (three grids of 144, 100 and 144 places) need no cut but through one of them.
TEST(NestedDissection, GroupsApartAreSharedOut) {
  std::vector<std::array<int, 2>> joints;
  int places = 0;
  for (const int n : {12, 10, 12}) {
    for (int i = 0; i < n * n; ++i) {
      if (i % n + 1 < n) joints.push_back({places + i, places + i + 1});
      if (i + n < n * n) joints.push_back({places + i, places + i + n});
    }
    places += n * n;
  }
  const auto side = Bisection::of(PlaceGraph(static_cast<std::size_t>(places), joints));
  std::array<int, 3> count{};
  for (const auto s : side) ++count[static_cast<std::size_t>(s)];
  EXPECT_GT(std::min(count[0], count[1]), 0);
  EXPECT_LE(std::max(count[0], count[1]), places * 6 / 10 + 1);
  EXPECT_LE(std::count(side.begin(), side.end(), Bisection::cut), 12) << "one line of one grid is enough";
  for (const auto& [a, b] : joints) {
    const auto sa = side[static_cast<std::size_t>(a)], sb = side[static_cast<std::size_t>(b)];
    EXPECT_TRUE(sa == sb || sa == Bisection::cut || sb == Bisection::cut) << a << " to " << b;
  }
}

TEST(NestedDissection, IsAnOrder) {
  test::Dice dice(27);
  for (const int n : {1, 5, 31, 32, 90}) {
    const Web w = Web::grid(n, 10.0, dice);
    std::vector<int> order = nested_dissection(PlaceGraph(static_cast<std::size_t>(w.places), w.joints));
    std::sort(order.begin(), order.end());
    std::vector<int> all(static_cast<std::size_t>(w.places));
    std::iota(all.begin(), all.end(), 0);
    EXPECT_EQ(order, all);
  }
}

// What is kept grows hardly faster than the grid (n log n in a plane: George 1973), minimum degree or not.
TEST(NestedDissection, FillGrowsSlowly) {
  test::Dice dice(28);
  const auto per_place = [&](int n) {
    return static_cast<double>(Web::grid(n, 10.0, dice).shape(MeshShape::large_core)->entries()) / (n * n);
  };
  EXPECT_LT(per_place(160) / per_place(40), 2.0);
}

}  // namespace fronts_test
}  // namespace libflow
