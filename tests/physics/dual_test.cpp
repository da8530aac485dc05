// SPDX-License-Identifier: MIT
/// @file
/// Numbers that carry their slopes, against the differentiation of Boost.Math.
#include <array>
#include <cmath>

#include <boost/math/differentiation/autodiff.hpp>
#include <gtest/gtest.h>

#include <libflow/physics/dual.hpp>
#include <libflow/physics/friction.hpp>

namespace libflow {
namespace dual_test {

using DualTestNumber = physics::Dual<3>;

/// Every operation that formulas use.
template <class S>
S dual_test_mix(const S& x, const S& y, const S& z) {
  using std::abs, std::exp, std::log, std::pow, std::sin, std::sqrt, std::tan;
  S s = x * y - z / x + sqrt(S(x + y)) * exp(S(-z));
  s += log(S(x * z)) * pow(S(y / x), S(z + x)) - sin(y) / tan(x);
  s *= S(2.0) + abs(S(x - y * z));
  s /= -(z + y);
  s -= x;
  return s;
}

TEST(Dual, AgreesWithBoostDifferentiation) {
  namespace diff = boost::math::differentiation;
  for (const auto& [x, y, z] : {std::array{0.7, 1.3, 0.4}, std::array{1.2, 0.3, 2.5}, std::array{0.01, 5.0, 3.0}}) {
    const DualTestNumber ours =
        dual_test_mix(DualTestNumber::input(x, 0), DualTestNumber::input(y, 1), DualTestNumber::input(z, 2));
    const auto& in = diff::make_ftuple<double, 1, 1, 1>(x, y, z);
    using Mixed = std::remove_cvref_t<decltype(std::get<0>(in) * std::get<1>(in) * std::get<2>(in))>;
    const Mixed theirs = dual_test_mix<Mixed>(Mixed(std::get<0>(in)), Mixed(std::get<1>(in)), Mixed(std::get<2>(in)));
    const double scale = std::abs(ours.d[0]) + std::abs(ours.d[1]) + std::abs(ours.d[2]);
    EXPECT_NEAR(ours.v, theirs.derivative(0, 0, 0), 1e-14 * std::abs(ours.v));
    EXPECT_NEAR(ours.d[0], theirs.derivative(1, 0, 0), 1e-13 * scale);
    EXPECT_NEAR(ours.d[1], theirs.derivative(0, 1, 0), 1e-13 * scale);
    EXPECT_NEAR(ours.d[2], theirs.derivative(0, 0, 1), 1e-13 * scale);
  }
}

// A formula that carries its slope against the Reynolds number itself: both must be the same.
TEST(Dual, FrictionSlopeIsTheSlopeThatTheFormulaGives) {
  for (const double re : {500.0, 2500.0, 3999.0, 4001.0, 1e5, 1e7}) {
    const auto f = physics::friction_darcy<DualTestNumber>(DualTestNumber::input(re, 0), DualTestNumber(1e-3));
    EXPECT_NEAR(f.f.d[0], f.slope.v, 1e-12 * std::abs(f.slope.v)) << re;
  }
}

TEST(Dual, ZeroIsAnOrdinaryValueOfRootAndAmount) {
  const DualTestNumber zero(0.0), moving = DualTestNumber::input(0.0, 0);
  EXPECT_EQ(sqrt(zero).d[0], 0.0);
  EXPECT_EQ(abs(zero).d[0], 0.0);
  // The promise holds for an input too: no infinite slope gets into a sum.
  EXPECT_EQ(sqrt(moving).d[0], 0.0);
  EXPECT_EQ(abs(moving).d[0], 0.0);
  // Next to zero it is steep: d sqrt(x) = dx / (2 sqrt(x)).
  for (const double x : {1e-2, 1e-6, 1e-12}) {
    EXPECT_NEAR(sqrt(DualTestNumber::input(x, 0)).d[0] * 2.0 * std::sqrt(x), 1.0, 1e-15) << x;
  }
  EXPECT_EQ(abs(DualTestNumber::input(1e-12, 0)).d[0], 1.0);
  EXPECT_EQ(abs(DualTestNumber::input(-2.0, 1)).d[1], -1.0);
}

}  // namespace dual_test
}  // namespace libflow
