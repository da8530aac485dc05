// SPDX-License-Identifier: MIT
/// @file
/// Balancing along a tree: exact to the last digit whatever the conductances, and through the best of them.
#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/balance.hpp>

namespace libflow {
namespace balance_test {

struct Web {
  explicit Web(std::size_t places) : unknowns(places) {}

  std::size_t unknowns;
  std::vector<std::size_t> a, b;
  std::vector<double> conductance, inflow, flow, imbalance;

  void add(std::size_t from, std::size_t to, double g, double q) {
    a.push_back(from);
    b.push_back(to);
    conductance.push_back(g);
    flow.push_back(q);
  }
  void balance() {
    inflow.resize(unknowns);
    imbalance.resize(unknowns);
    balance_along_tree(a, b, conductance, inflow, flow, imbalance);
  }
};

TEST(Balance, SendsWhatIsLeftThroughTheBestConductors) {
  Web w(2);
  w.inflow = {1.0, 0.0};
  w.add(0, 2, 1e-15, 0.25);  // to a held place, badly
  w.add(0, 1, 1e9, 0.5);
  w.add(3, 1, 1e-3, -0.5);  // from another, better
  w.balance();
  EXPECT_EQ(w.flow, (std::vector<double>{0.25, 0.75, -0.75}));
  EXPECT_EQ(w.imbalance, (std::vector<double>{0.0, 0.0}));
}

TEST(Balance, LeavesShutEdgesAndWhatHasNoWayOut) {
  Web w(3);
  w.inflow = {0.0, 0.5, 0.25};
  w.add(0, 1, 2.0, 0.0);
  w.add(1, 3, 0.0, 0.0);  // shut
  w.add(2, 3, 1.0, 0.0);
  w.balance();
  EXPECT_EQ(w.flow[1], 0.0);
  EXPECT_EQ(w.flow[2], 0.25);
  EXPECT_EQ(w.imbalance[0] + w.imbalance[1], 0.5);
  EXPECT_EQ(w.imbalance[2], 0.0);
}

TEST(Balance, RandomWebsToTheLastDigit) {
  std::mt19937_64 dice(5);
  std::uniform_real_distribution<double> part(0.0, 1.0);
  for (int turn = 0; turn < 200; ++turn) {
    Web w(30);
    for (std::size_t i = 0; i < w.unknowns; ++i) {
      w.inflow.push_back(part(dice) - 0.5);
      w.add(i, i + 1, std::pow(10.0, 24.0 * part(dice) - 15.0), part(dice) - 0.5);
      w.add(i, (i * 7 + 3) % 31 == i ? 31 : (i * 7 + 3) % 31, std::pow(10.0, 24.0 * part(dice) - 15.0), part(dice));
    }
    w.balance();
    double most = 0.0;
    for (const double q : w.flow) most = std::max(most, std::abs(q));
    for (const double left : w.imbalance) EXPECT_LE(std::abs(left), 1e-15 * most);
  }
}

TEST(Balance, CompensatedSumKeepsWhatRoundingTakes) {
  CompensatedSum sum(1.0);
  for (const double x : {1e100, 1.0, -1e100}) sum.add(x);  // Neumaier's own example: 2, where a plain sum gives 0
  EXPECT_EQ(sum.value(), 2.0);
}

}  // namespace balance_test
}  // namespace libflow
