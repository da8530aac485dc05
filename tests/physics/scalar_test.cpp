// SPDX-License-Identifier: MIT
/// @file
/// The few operations that formulas take from a number: on one, on lanes side by side, on one with slopes.
#include <array>

#include <Eigen/Core>
#include <gtest/gtest.h>

#include <libflow/physics/dual.hpp>
#include <libflow/physics/scalar.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace scalar_test {

using Lanes = Eigen::Array<double, 3, 1>;

/// Doubles side by side of another make than Eigen's: they tell how many they are.
struct OtherLanes {
  static constexpr int width = 2;
  std::array<double, width> lane{};
};

// What takes the short cuts for doubles, and what must not: digits beyond a double's, slopes that the short cuts lose.
TEST(Scalar, WhichNumbersAreMadeOfDoubles) {
  EXPECT_TRUE(made_of_doubles<double>);
  EXPECT_TRUE(made_of_doubles<Lanes>);
  EXPECT_TRUE(made_of_doubles<OtherLanes>);
  EXPECT_FALSE(made_of_doubles<Dual<2>>);
  EXPECT_FALSE(made_of_doubles<test::Many>);
  EXPECT_FALSE(made_of_doubles<float>);
}

TEST(Scalar, LanesChooseEachForItself) {
  const Lanes a(1.0, -2.0, 3.0), b(2.0, -3.0, 3.0);
  const Lanes most = larger<Lanes>(a, b), least = smaller<Lanes>(a, b);
  for (int i = 0; i < 3; ++i) {
    EXPECT_EQ(most[i], larger<double>(a[i], b[i]));
    EXPECT_EQ(least[i], smaller<double>(a[i], b[i]));
  }
  EXPECT_EQ(larger<double>(1.0, 2.0), 2.0);
  EXPECT_EQ(smaller<double>(1.0, 2.0), 1.0);
  EXPECT_EQ(select<double>(true, 4.0, 5.0), 4.0);
  EXPECT_EQ(select<double>(false, 4.0, 5.0), 5.0);
}

TEST(Scalar, AllAndAny) {
  const Lanes none(1.0, 2.0, 3.0), one(-1.0, 2.0, 3.0), each(-1.0, -2.0, -3.0);
  EXPECT_FALSE(all(none < 0.0));
  EXPECT_FALSE(any(none < 0.0));
  EXPECT_FALSE(all(one < 0.0));
  EXPECT_TRUE(any(one < 0.0));
  EXPECT_TRUE(all(each < 0.0));
  EXPECT_TRUE(all(true) && any(true));
  EXPECT_FALSE(all(false) || any(false));
}

}  // namespace scalar_test
}  // namespace libflow::physics
