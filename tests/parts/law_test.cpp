// SPDX-License-Identifier: MIT
/// @file
/// Laws in series, laws turned round, laws on packs.
#include <gtest/gtest.h>

#include <cmath>

#include <Eigen/Core>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace law_test {

using namespace units;

// A term that is none of the library's kinds: r sinh(q/q0) q0.
template <class S>
Drop<S> own_function(const S& q) {
  using std::cosh;
  using std::sinh;
  const S x = q / S(1e-2);
  return {S(S(3e6) * S(1e-2) * sinh(x)), S(S(3e6) * cosh(x))};
}

Law hose() { return Hose{.length = 3.0 * m, .bore = 6.0 * mm}.law(test::water()); }
Law orifice() { return Orifice{.bore = 1.5 * mm}.law(test::water()); }
Law elbow() { return Fitting::elbow_90(6.0 * mm).law(test::water()); }
Law valve() { return CheckValve{.crack = 3.0 * psi, .passage_bore = 3.0 * mm}.law(test::water()); }
Law own() {
  Law law;
  law.functions.emplace_back(own_function<double>);
  return law;
}

TEST(Law, EmptyIsNothing) {
  const Drop<double> d = Law{}(0.3);
  EXPECT_EQ(d.dp, 0.0);
  EXPECT_EQ(d.slope, 0.0);
  EXPECT_EQ(Law{}.passes, Passes::both);
}

TEST(Law, SeriesAddsDropsAndSlopes) {
  Law run = hose();
  ((run += orifice()) += elbow()) += own();
  for (const double q : {0.0, 1e-9, 3e-6, 8e-5, -8e-5, 1e-2}) {
    const double dp = hose()(q).dp + orifice()(q).dp + elbow()(q).dp + own()(q).dp;
    const double slope = hose()(q).slope + orifice()(q).slope + elbow()(q).slope + own()(q).slope;
    EXPECT_NEAR(run(q).dp, dp, 1e-14 * std::abs(dp)) << q;
    EXPECT_NEAR(run(q).slope, slope, 1e-14 * slope) << q;
  }
  test::expect_lawful(run, Contract::passage);
  // The order does not matter.
  Law other = own();
  ((other += elbow()) += hose()) += orifice();
  EXPECT_NEAR(other(5e-5).dp / run(5e-5).dp, 1.0, 1e-14);
}

TEST(Law, SeriesWithAValve) {
  Law run = hose();
  run += valve();
  run += orifice();
  EXPECT_EQ(run.passes, Passes::forward);
  EXPECT_EQ(run(0.0).dp, si(3.0 * psi));
  test::expect_lawful(run, Contract::one_way);
  // A second valve the same way adds its crack pressure; one the other way shuts the run.
  Law two = run;
  two += valve();
  EXPECT_EQ(two.passes, Passes::forward);
  EXPECT_DOUBLE_EQ(two(0.0).dp, si(6.0 * psi));
  Law shut = run;
  shut += valve().reversed();
  EXPECT_EQ(shut.passes, Passes::neither);
}

TEST(Law, ReversedIsTheSamePartFromItsOtherEnd) {
  for (const Law& law : {hose(), orifice(), elbow(), valve(), own()}) {
    const Law back = law.reversed(), again = back.reversed();
    for (const double q : {0.0, 1e-9, 5e-5, -5e-5, 1e-3, -1e-3}) {
      EXPECT_EQ(back(q).dp, -law(-q).dp) << q;
      EXPECT_EQ(back(q).slope, law(-q).slope) << q;
      EXPECT_EQ(again(q).dp, law(q).dp) << q;
    }
    EXPECT_EQ(again.passes, law.passes);
  }
  EXPECT_EQ(valve().reversed().passes, Passes::backward);
}

TEST(Law, ReversedOwnFunctionThatIsNotOdd) {
  Law law;
  law.functions.emplace_back([](const double& q) { return Drop<double>{std::expm1(q), std::exp(q)}; });
  const Law back = law.reversed();
  EXPECT_DOUBLE_EQ(back(0.7).dp, -std::expm1(-0.7));
  EXPECT_DOUBLE_EQ(back(0.7).slope, std::exp(-0.7));
}

TEST(Passes, BothLimitsAtOnce) {
  using enum Passes;
  static_assert((both & both) == both && (both & forward) == forward && (backward & both) == backward);
  static_assert((forward & forward) == forward && (forward & backward) == neither && (neither & both) == neither);
  static_assert(reversed(forward) == backward && reversed(backward) == forward);
  static_assert(reversed(both) == both && reversed(neither) == neither);
  for (const Passes a : {both, forward, backward, neither}) {
    for (const Passes b : {both, forward, backward, neither}) EXPECT_EQ(a & b, b & a);
  }
}

TEST(Law, PackLanesEqualScalars) {
  using Pack = Eigen::Array<double, 4, 1>;
  BasicLaw<Pack> packed;
  packed.linear = Pack(elbow().linear);
  packed.quadratic = Pack(elbow().quadratic);
  packed.threshold = Pack(2e4);
  packed.friction.push_back(physics::wall_friction<Pack>(Pack(3.0), Pack(0.006), Pack(1.5e-6),
                                                         Pack(test::water().density), Pack(test::water().viscosity)));
  const auto h = Orifice{.bore = 1.5 * mm}.hole(test::water().density, test::water().viscosity);
  packed.holes.push_back({Pack(h.creeping), Pack(h.inertia), Pack(h.uncontracted), Pack(h.re_per_flow)});
  packed.functions.emplace_back(own_function<Pack>);
  Law one = elbow();
  one.threshold = 2e4;
  one += hose();
  one += orifice();
  one += own();
  Pack q;
  q << 0.0, -2e-6, 1.5e-5, 1e-3;  // at rest, laminar, in the transition band, turbulent
  const Drop<Pack> d = packed(q), back = packed.reversed()(q);
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(d.dp[i], one(q[i]).dp, 1e-14 * std::abs(one(q[i]).dp)) << q[i];
    EXPECT_NEAR(d.slope[i], one(q[i]).slope, 1e-14 * one(q[i]).slope) << q[i];
    EXPECT_NEAR(back.dp[i], one.reversed()(q[i]).dp, 1e-14 * std::abs(one.reversed()(q[i]).dp)) << q[i];
  }
}

}  // namespace law_test
}  // namespace libflow
