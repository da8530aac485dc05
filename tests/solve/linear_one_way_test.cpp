// SPDX-License-Identifier: MIT
/// @file
/// The linear network of a Newton step, with one-way edges, against trying every combination of open and shut.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <libflow/solve/linear_one_way.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace linear_one_way_test {

using test::Dice;

/// A linear network in the form that LinearOneWay takes.
struct Problem {
  mutable CoreShape shape;
  std::vector<double> c, r, inflow;
  std::vector<double> held;  ///< potentials of the held places

  void edge(std::size_t a, std::size_t b, double constant, double resistance, bool one_way) {
    shape.a.push_back(a);
    shape.b.push_back(b);
    shape.one_way.push_back(one_way);
    c.push_back(constant);
    r.push_back(resistance);
  }
  /// The shape with its symbolic part made.
  [[nodiscard]] const CoreShape& eliminated() const {
    if (!shape.mesh) shape.eliminate();
    return shape;
  }
  [[nodiscard]] Potentials start() const {
    Potentials p(shape.unknowns + held.size());
    for (std::size_t i = 0; i < held.size(); ++i) p.set(shape.unknowns + i, held[i]);
    return p;
  }
};

using LongVector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;
using LongMatrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;

/// The flows that minimise the content, sum of r q^2/2 + c q less what held pressures give, among balancing flows that
/// do not run backward: for every set of open edges the minimum without the bound, the least of those that keep it.
/// Empty if none does.
std::optional<LongVector> try_every_state(const Problem& p) {
  const std::size_t m = p.c.size(), n = p.shape.unknowns;
  std::vector<std::size_t> one_way;
  for (std::size_t e = 0; e < m; ++e) {
    if (p.shape.one_way[e]) one_way.push_back(e);
  }
  const auto ni = static_cast<Eigen::Index>(n), mi = static_cast<Eigen::Index>(m);
  std::optional<LongVector> best;
  long double least = std::numeric_limits<long double>::infinity();
  for (std::size_t states = 0; states < (std::size_t{1} << one_way.size()); ++states) {
    std::vector<bool> open(m, true);
    for (std::size_t k = 0; k < one_way.size(); ++k) open[one_way[k]] = ((states >> k) & 1u) != 0;
    LongMatrix balance = LongMatrix::Zero(ni, mi);  // outflow of each unknown place per flow
    LongVector constant(mi), conductance(mi);
    for (std::size_t e = 0; e < m; ++e) {
      const auto i = static_cast<Eigen::Index>(e);
      const std::size_t a = p.shape.a[e], b = p.shape.b[e];
      if (a < n) balance(static_cast<Eigen::Index>(a), i) += 1.0L;
      if (b < n) balance(static_cast<Eigen::Index>(b), i) -= 1.0L;
      constant(i) = static_cast<long double>(p.c[e]) - (a >= n ? static_cast<long double>(p.held[a - n]) : 0.0L) +
                    (b >= n ? static_cast<long double>(p.held[b - n]) : 0.0L);
      conductance(i) = open[e] ? 1.0L / static_cast<long double>(p.r[e]) : 0.0L;
    }
    LongVector inflow(ni);
    for (std::size_t i = 0; i < n; ++i) inflow(static_cast<Eigen::Index>(i)) = p.inflow[i];
    // q = conductance (balance' potential - constant), balance q = inflow
    LongVector q;
    if (n == 0) {
      q = -conductance.cwiseProduct(constant);
    } else {
      const LongMatrix laplacian = balance * conductance.asDiagonal() * balance.transpose();
      const LongVector right = inflow + balance * conductance.cwiseProduct(constant);
      const LongVector potential = laplacian.completeOrthogonalDecomposition().solve(right);
      q = conductance.cwiseProduct(balance.transpose() * potential - constant);
    }
    const long double pushed = ni > 0 ? inflow.cwiseAbs().maxCoeff() : 0.0L;
    const long double size = std::max({1e-3L, q.cwiseAbs().maxCoeff(), pushed});
    if (ni > 0 && (balance * q - inflow).cwiseAbs().maxCoeff() > 1e-10L * size) continue;
    bool backward = false;
    for (const std::size_t e : one_way) backward = backward || q(static_cast<Eigen::Index>(e)) < -1e-12L * size;
    if (backward) continue;
    long double content = 0.0L;
    for (std::size_t e = 0; e < m; ++e) {
      const auto i = static_cast<Eigen::Index>(e);
      content += q(i) * (0.5L * static_cast<long double>(p.r[e]) * q(i) + constant(i));
    }
    if (content < least) {
      least = content;
      best = q;
    }
  }
  return best;
}

/// Random: up to five unknown places, two held ones, up to nine one-way edges; small whole numbers when `ties`, so that
/// edges at exactly their threshold happen all the time.
Problem random_problem(Dice& dice, bool ties, double given_flows) {
  Problem p;
  const std::size_t n = dice.below(6), held = 2;
  p.shape.unknowns = n;
  const auto value = [&](double low, double high) {
    return ties ? std::round(low) + static_cast<double>(dice.below(static_cast<std::size_t>(high - low) + 1))
                : dice.uniform(low, high);
  };
  for (std::size_t i = 0; i < held; ++i) p.held.push_back(value(0.0, 8.0));
  const auto add = [&](std::size_t a, std::size_t b) {
    const bool one_way = dice.chance(0.6);
    const double resistance = ties ? value(1.0, 3.0) : dice.log_uniform(1e-2, 1e2);
    if (dice.chance(0.5)) std::swap(a, b);
    p.edge(a, b, one_way || dice.chance(0.3) ? value(-2.0, 4.0) : 0.0, resistance, one_way);
  };
  add(n, n + 1);
  for (std::size_t i = 0; i < n; ++i) add(i, dice.chance(0.4) || i == 0 ? n + dice.below(held) : dice.below(i));
  for (std::size_t k = dice.below(8); k > 0; --k) {
    const std::size_t a = dice.below(n + held), b = dice.below(n + held);
    if (a != b) add(a, b);
  }
  for (std::size_t i = 0; i < n; ++i) p.inflow.push_back(dice.chance(given_flows) ? value(-2.0, 3.0) : 0.0);
  return p;
}

/// Solves from a start of our choice and holds the answer against trying every state.
/// @param cold  whether the start is the one that solve() uses: then a flow without a way is recognised for certain;
///              from potentials far off, rounding may leave it undecided
/// @return true if there was an answer
bool check(const Problem& p, Potentials start, bool cold = true) {
  const auto expected = try_every_state(p);
  LinearOneWay linear(p.eliminated());
  const LinearOutcome outcome = linear.solve(p.c, p.r, p.inflow, start);
  if (!expected) {
    EXPECT_NE(outcome, LinearOutcome::solved);
    if (cold) {
      EXPECT_EQ(outcome, LinearOutcome::no_way);
    }
    return false;
  }
  EXPECT_EQ(outcome, LinearOutcome::solved);
  if (outcome != LinearOutcome::solved) return true;
  const auto size = static_cast<double>(expected->cwiseAbs().maxCoeff());
  for (std::size_t e = 0; e < p.c.size(); ++e) {
    EXPECT_NEAR(linear.flow[e], static_cast<double>((*expected)(static_cast<Eigen::Index>(e))), 1e-9 * size + 1e-15)
        << "edge " << e;
    const double excess = start.difference(p.shape.a[e], p.shape.b[e]) - p.c[e];
    if (p.shape.one_way[e]) {
      EXPECT_GE(linear.flow[e], 0.0);
      if (linear.flow[e] == 0.0) {
        EXPECT_LE(excess, 1e-9) << "edge " << e << " is shut but pushed open";
        continue;
      }
    }
    EXPECT_NEAR(excess, p.r[e] * linear.flow[e], 1e-9 * (1.0 + std::abs(excess))) << "edge " << e;
  }
  return true;
}

TEST(LinearOneWay, AgreesWithEveryState) {
  Dice dice(31);
  for (int k = 0; k < 2000 && !HasFailure(); ++k) {
    SCOPED_TRACE(k);
    const Problem p = random_problem(dice, false, 0.0);
    EXPECT_TRUE(check(p, p.start())) << "without given flows there is always an answer";
  }
}

TEST(LinearOneWay, AgreesWhereEdgesSitAtTheirThreshold) {
  Dice dice(32);
  for (int k = 0; k < 2000 && !HasFailure(); ++k) {
    SCOPED_TRACE(k);
    const Problem p = random_problem(dice, true, 0.0);
    EXPECT_TRUE(check(p, p.start()));
  }
}

TEST(LinearOneWay, AgreesWithGivenFlowsAndKnowsWhenTheyHaveNoWay) {
  Dice dice(33);
  int answered = 0, refused = 0;
  for (int k = 0; k < 4000 && !HasFailure(); ++k) {
    SCOPED_TRACE(k);
    const Problem p = random_problem(dice, k % 2 == 0, 0.5);
    (check(p, p.start()) ? answered : refused)++;
  }
  EXPECT_GT(answered, 1000);
  EXPECT_GT(refused, 100);
}

TEST(LinearOneWay, TheStartDoesNotMatter) {
  Dice dice(34);
  for (int k = 0; k < 1000 && !HasFailure(); ++k) {
    SCOPED_TRACE(k);
    const Problem p = random_problem(dice, k % 2 == 0, 0.3);
    Potentials start = p.start();
    for (std::size_t i = 0; i < p.shape.unknowns; ++i) start.set(i, dice.uniform(-1e3, 1e3));
    check(p, start, false);
  }
}

TEST(LinearOneWay, OneProblemAfterAnother) {
  // The states that one problem leaves are the next one's first guess.
  Dice dice(35);
  for (int k = 0; k < 300 && !HasFailure(); ++k) {
    Problem p = random_problem(dice, false, 0.0);
    LinearOneWay linear(p.eliminated());
    Potentials potential = p.start();
    for (int again = 0; again < 5; ++again) {
      for (double& c : p.c) c = dice.uniform(-2.0, 4.0);
      for (double& r : p.r) r = dice.log_uniform(1e-2, 1e2);
      ASSERT_EQ(linear.solve(p.c, p.r, p.inflow, potential), LinearOutcome::solved);
      const auto expected = try_every_state(p);
      ASSERT_TRUE(expected);
      const auto size = static_cast<double>(expected->cwiseAbs().maxCoeff());
      for (std::size_t e = 0; e < p.c.size(); ++e) {
        ASSERT_NEAR(linear.flow[e], static_cast<double>((*expected)(static_cast<Eigen::Index>(e))),
                    1e-9 * size + 1e-15);
      }
    }
  }
}

TEST(LinearOneWay, PushedInLiquidOpensTheCheaperWay) {
  // One place, a flow of 1 pushed in, two one-way edges out: thresholds 5 and 3, the second carries it all.
  Problem p;
  p.shape.unknowns = 1;
  p.held = {0.0};
  p.inflow = {1.0};
  p.edge(0, 1, 5.0, 1.0, true);
  p.edge(0, 1, 3.0, 1.0, true);
  LinearOneWay linear(p.eliminated());
  Potentials potential = p.start();
  ASSERT_EQ(linear.solve(p.c, p.r, p.inflow, potential), LinearOutcome::solved);
  EXPECT_EQ(linear.flow[0], 0.0);
  EXPECT_DOUBLE_EQ(linear.flow[1], 1.0);
  EXPECT_DOUBLE_EQ(potential.value(0), 4.0);
  // More of it opens both: (x - 5) + (x - 3) = 4.
  p.inflow = {4.0};
  ASSERT_EQ(linear.solve(p.c, p.r, p.inflow, potential), LinearOutcome::solved);
  EXPECT_DOUBLE_EQ(linear.flow[0], 1.0);
  EXPECT_DOUBLE_EQ(linear.flow[1], 3.0);
}

TEST(LinearOneWay, NoWayInOrOut) {
  Problem p;
  p.shape.unknowns = 2;
  p.held = {0.0};
  p.inflow = {0.0, 1.0};
  p.edge(0, 1, 0.0, 1.0, false);
  p.edge(2, 0, 0.0, 1.0, true);  // only inward
  LinearOneWay linear(p.eliminated());
  Potentials potential = p.start();
  EXPECT_EQ(linear.solve(p.c, p.r, p.inflow, potential), LinearOutcome::no_way);
  p.inflow = {0.0, -1.0};
  potential = p.start();
  ASSERT_EQ(linear.solve(p.c, p.r, p.inflow, potential), LinearOutcome::solved);
  EXPECT_DOUBLE_EQ(linear.flow[1], 1.0);
}

TEST(Potentials, KeepADifferenceBeyondDoublePrecision) {
  Potentials p(2);
  p.set(0, 1e6);
  p.set(1, 1e6);
  for (int i = 0; i < 1000; ++i) p.add(0, 1e-13);  // each is lost in a plain sum
  EXPECT_NEAR(p.difference(0, 1), 1e-10, 1e-22);
  EXPECT_NEAR(p.difference(1, 0), -1e-10, 1e-22);
}

}  // namespace linear_one_way_test
}  // namespace libflow
