// SPDX-License-Identifier: MIT
/// @file
/// Developing flow: the incremental loss against its published form and limits, and its continuation.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/developing_flow.hpp>
#include <libflow/physics/minor_loss.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace developing_flow_test {

using test::Many;

constexpr double rho = 998.2, mu = 1.0e-3;

double flow_at(double re, double bore) { return re * std::numbers::pi * bore * mu / (4.0 * rho); }

struct DevelopingRow {
  double x, f_app_re, k;
};

// R. K. Shah, A. L. London, Laminar Flow Forced Convection in Ducts, 1978, eq. 192 (Shah 1975): x+ = (L/D)/Re, apparent
// Fanning factor times Re, incremental loss K. Coefficients from memory, values computed from them with many digits.
constexpr DevelopingRow shah[] = {
    {0.0001, 344.1331841340889, 0.1312532736536355}, {0.0005, 154.4207378783209, 0.2768414757566417},
    {0.001, 109.8236673794141, 0.3752946695176563},  {0.005, 51.82459053014144, 0.7164918106028288},
    {0.01, 38.54516129032258, 0.9018064516129032},   {0.02, 29.11170391359282, 1.048936313087425},
    {0.05, 21.71795978372387, 1.143591956744775},    {0.1, 18.95537995903091, 1.182151983612366},
    {0.5, 16.61512980247575, 1.230259604951507},     {1, 16.30979734255806, 1.239189370232251}};

TEST(DevelopingFlow, ShahTable) {
  for (const DevelopingRow& row : shah) {
    EXPECT_NEAR(incremental_loss_laminar(1.0 / row.x).k / row.k, 1.0, 1e-13) << "x+ " << row.x;
  }
}

// The whole laminar drop, friction and beginning together, is 4 f_app (L/D) rho V^2/2.
TEST(DevelopingFlow, FrictionAndBeginningMakeTheApparentFactor) {
  const double bore = 0.006, re = 1500.0, q = flow_at(re, bore);
  for (const DevelopingRow& row : shah) {
    const double length = row.x * re * bore;
    const auto wall = wall_friction<double>(length, bore, 0.0, rho, mu);
    const auto beginning = development<double>(length, bore, rho, mu);
    const double dp = drop_wall_friction(q, wall).dp + drop_development(q, beginning).dp;
    EXPECT_NEAR(dp / (4.0 * row.f_app_re / re * length / bore * velocity_head(q, bore, rho)), 1.0, 1e-12);
  }
}

// Two ends that theory gives. Very short: H. Schlichting, Z. angew. Math. Mech. 14 (1934) 368, drop 13.74 sqrt(x+)
// velocity heads (from memory; boundary layer on the wall of a core that speeds up), 0.3 % from the rounded 3.44. Long:
// the momentum of the profile alone takes 2/3, its friction the rest; numerical solutions give 1.24 to 1.25 (E. M.
// Sparrow, S. H. Lin, T. S. Lundgren, Phys. Fluids 7 (1964) 338, from memory), 2 %.
TEST(DevelopingFlow, Limits) {
  for (const double x : {1e-9, 1e-8, 1e-7}) {
    EXPECT_NEAR(incremental_loss_laminar(1.0 / x).k / (13.74 * std::sqrt(x)), 1.0, 0.003);
  }
  EXPECT_EQ(incremental_loss_laminar(0.0).k, 1.25);
  EXPECT_NEAR(incremental_loss_laminar(0.0).k / 1.24, 1.0, 0.02);
  EXPECT_GT(incremental_loss_laminar(0.0).k, 2.0 / 3.0);
}

TEST(DevelopingFlow, SlopesAreExact) {
  for (const double y : {1e-3, 1.0, 30.0, 400.0, 1e5}) {
    const Many slope =
        test::difference_slope([](const Many& t) { return incremental_loss_laminar<Many>(t).k; }, Many(y));
    EXPECT_LT(abs(Many(incremental_loss_laminar<Many>(Many(y)).slope / slope - 1)), Many(1e-20)) << y;
  }
  const auto d = development<Many>(Many(0.3), Many(0.01), Many(rho), Many(mu));
  for (const double re : {1.0, 300.0, 1999.0, 2001.0, 3000.0, 3999.0}) {
    const Many q = Many(re) / d.re_per_flow;
    const Many slope = test::difference_slope([&](const Many& t) { return drop_development<Many>(t, d).dp; }, q);
    EXPECT_LT(abs(Many(drop_development<Many>(q, d).slope / slope - 1)), Many(1e-20)) << re;
  }
}

// Continuous with its slope at Re 2000 and 4000, odd, nothing at rest, never falling.
TEST(DevelopingFlow, ContinuationBeyondLaminar) {
  for (const double length : {1e-4, 0.01, 1.0, 100.0}) {
    const double bore = 0.01;
    const auto d = development<double>(length, bore, rho, mu);
    for (const double re : {laminar_limit_re, turbulent_limit_re}) {
      const auto before = drop_development(flow_at(re * (1.0 - 1e-9), bore), d);
      const auto after = drop_development(flow_at(re * (1.0 + 1e-9), bore), d);
      EXPECT_NEAR(before.dp / after.dp, 1.0, 1e-8);
      EXPECT_NEAR(before.slope, after.slope, 1e-8 * d.scale * d.re_per_flow * d.last_slope);
    }
    const auto held = drop_development(flow_at(1e5, bore), d);
    EXPECT_NEAR(held.dp / drop_development(flow_at(4000.0, bore), d).dp, 1.0, 1e-12);
    EXPECT_EQ(held.slope, 0.0);
    // At most twice the drop at Re 2000, so that K falls below 0.5 there and below 0.001 at Re 1e5.
    EXPECT_LE(held.dp, 2.0 * d.scale * d.last * (1.0 + 1e-12));
    EXPECT_LT(held.dp / velocity_head(flow_at(1e5, bore), bore, rho), 0.001);
    EXPECT_EQ(drop_development(0.0, d).dp, 0.0);
    EXPECT_EQ(drop_development(0.0, d).slope, 0.0);
    double last = 0.0;
    for (double re = 1e-6; re < 1e5; re *= 1.1) {
      const auto there = drop_development(flow_at(re, bore), d);
      const auto back = drop_development(-flow_at(re, bore), d);
      EXPECT_GE(there.dp, last);
      EXPECT_EQ(back.dp, -there.dp);
      EXPECT_EQ(back.slope, there.slope);
      last = there.dp;
    }
  }
}

TEST(DevelopingFlow, PackTakesEveryRegimeAtOnce) {
  using Pack = Eigen::Array<double, 4, 1>;
  const auto d = development<double>(0.2, 0.01, rho, mu);
  const auto pack = development<Pack>(Pack(0.2), Pack(0.01), Pack(rho), Pack(mu));
  Pack q;
  q << 0.0, flow_at(900.0, 0.01), -flow_at(3100.0, 0.01), flow_at(2e4, 0.01);
  const auto got = drop_development<Pack>(q, pack);
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(got.dp[i], drop_development(q[i], d).dp, 1e-13 * std::abs(got.dp[3]));
    EXPECT_NEAR(got.slope[i], drop_development(q[i], d).slope, 1e-13 * got.slope[1]);
  }
}

}  // namespace developing_flow_test
}  // namespace libflow::physics
