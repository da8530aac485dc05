// SPDX-License-Identifier: MIT
/// @file
/// Potentials that keep their digits, and how the edges of a core are sorted.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/core_shape.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow {
namespace core_shape_test {

TEST(Potentials, BeginAtZero) {
  const Potentials p(3);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(p.value(i), 0.0);
    EXPECT_EQ(p.rough(i), 0.0);
    EXPECT_EQ(p.difference(i, 0), 0.0);
  }
}

TEST(Potentials, SetAndAdd) {
  Potentials p(2);
  p.set(0, 3.0);
  p.add(0, 0.5);
  p.set(1, -1.0);
  EXPECT_EQ(p.value(0), 3.5);
  EXPECT_EQ(p.rough(0), 3.5);
  EXPECT_EQ(p.difference(0, 1), 4.5);
  EXPECT_EQ(p.difference(1, 0), -4.5);
  p.set(0, 2.0);  // what was kept of the sum before is gone
  EXPECT_EQ(p.value(0), 2.0);
}

// A bar of pressure and steps of a millionth of a millionth of it: their sum, exact in fifty digits, comes out to a
// double's last digits, where plain sums lose most of it.
TEST(Potentials, SmallStepsOnAHighLevelAreKept) {
  Potentials p(2);
  p.set(0, 1e5);
  p.set(1, 1e5);
  test::Many exact(0);
  double plain = 1e5;
  for (int i = 1; i <= 1000; ++i) {
    const double step = 1e-13 * (1.0 + 1.0 / i);
    p.add(0, step);
    plain += step;
    exact += test::Many(step);
  }
  EXPECT_NEAR(p.difference(0, 1) / static_cast<double>(exact), 1.0, 1e-12);
  EXPECT_GT(std::abs((plain - 1e5) / static_cast<double>(exact) - 1.0), 0.01);
  EXPECT_EQ(p.value(0), 1e5 + static_cast<double>(exact));
}

TEST(CoreShape, SortsItsEdges) {
  CoreShape core;
  core.unknowns = 3;
  core.a = {0, 3, 1, 2, 4};
  core.b = {1, 0, 2, 4, 3};
  for (int turn = 0; turn < 2; ++turn) {  // again: the same
    core.eliminate();
    EXPECT_EQ(core.joint_edge, (std::vector<std::size_t>{0, 2}));
    EXPECT_EQ(core.held_edge, (std::vector<std::size_t>{1, 3, 4}));
    ASSERT_NE(core.mesh, nullptr);
    EXPECT_EQ(core.mesh->places(), 3U);
    EXPECT_EQ(core.mesh->entries(), 2U);
  }
}

}  // namespace core_shape_test
}  // namespace libflow
