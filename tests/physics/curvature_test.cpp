// SPDX-License-Identifier: MIT
/// @file
/// Coiled tubes: the formulas against independent published ones, and a lawful drop over all regimes.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/curvature.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace curvature_test {

using test::Many;

// C. M. White, Proc. R. Soc. A 123 (1929) 645: laminar friction factor of a coil, valid for Dean numbers 11.6 to 2000;
// computed with fluids 1.0.22. Mishra and Gupta's formula meets it within 3 % from De 100.
TEST(CoilLaminar, MeetsWhite1929) {
  const double rows[][3] = {{1000, 0.01, 0.097934}, {2000, 0.01, 0.062180}, {4000, 0.01, 0.040355},
                            {1000, 0.02, 0.109993}, {2000, 0.02, 0.070684}, {4000, 0.02, 0.046248},
                            {500, 0.05, 0.203164},  {1000, 0.05, 0.129529}, {2000, 0.05, 0.084299},
                            {4000, 0.05, 0.055637}};
  for (const auto& row : rows) {
    const double ratio = coil_ratio_laminar(dean_number(row[0], row[1])).ratio;
    EXPECT_NEAR(64.0 / row[0] * ratio / row[2], 1.0, 0.03) << "Re " << row[0] << ", d/D " << row[1];
  }
}

// A gentle curve costs next to nothing: W. R. Dean, Phil. Mag. 5 (1928) 673, finds by theory that the flow falls as
// 1 - 0.0306 (K/576)^2 with K = 2 De^2 (from memory). The formula has at most 3 % more from De 1 to 10, and nothing
// below.
TEST(CoilLaminar, MeetsDean1928) {
  for (const double dean : {0.0, 0.3, 1.0}) {
    EXPECT_EQ(coil_ratio_laminar(dean).ratio, 1.0);
    EXPECT_EQ(coil_ratio_laminar(dean).slope, 0.0);
  }
  for (const double dean : {1.0, 2.0, 4.0, 7.0, 10.0}) {
    const double k = 2.0 * dean * dean / 576.0;
    const double excess = coil_ratio_laminar(dean).ratio * (1.0 - 0.0306 * k * k) - 1.0;
    EXPECT_GE(excess, -1e-4) << dean;
    EXPECT_LT(excess, 0.03) << dean;
  }
}

// Mishra and Gupta as the VDI Heat Atlas, 2013, prints them (seen in an open program that follows it), on Blasius's
// smooth tube instead of Colebrook-White's; those two differ by 3 % here.
TEST(CoilTurbulent, MeetsTheHeatAtlas) {
  for (const double re : {1e4, 3e4, 1e5}) {
    for (const double curvature : {0.003, 0.05, 0.15}) {
      const double printed = 0.3164 / std::pow(re, 0.25) * (1.0 + 0.095 * std::sqrt(curvature) * std::pow(re, 0.25));
      EXPECT_NEAR(friction_coil_turbulent(re, 0.0, curvature).f / printed, 1.0, 0.03) << re << " " << curvature;
      // What the coil adds, three digits.
      const double added = friction_coil_turbulent(re, 0.0, curvature).f - friction_colebrook(re, 0.0).f;
      EXPECT_NEAR(added / std::sqrt(curvature), 0.3164 * 0.095, 0.5e-3);
    }
  }
}

// Two independent turbulent formulas, computed with fluids 1.0.22: Y. Mori, W. Nakayama, Int. J. Heat Mass Transfer 10
// (1967) 37, within 8 %, and E. F. Schmidt, Chemie Ingenieur Technik 39 (1967) 781, from Re 2.2e4 on, within 5 %.
// A quarter of the added term (0.0075 instead of 0.03, as some copies have it) misses the first by more than 12 %.
TEST(CoilTurbulent, MeetsMoriNakayamaAndSchmidt) {
  const double rows[][4] = {
      {1e4, 0.003, 0.031419, 0},        {2e4, 0.003, 0.026808, 0},       {5e4, 0.003, 0.021810, 0.022078},
      {1e5, 0.003, 0.018701, 0.019205}, {1e4, 0.01, 0.033360, 0},        {2e4, 0.01, 0.028663, 0},
      {5e4, 0.01, 0.023508, 0.023153},  {1e5, 0.01, 0.020266, 0.020306}, {1e4, 0.02, 0.034882, 0},
      {2e4, 0.02, 0.030059, 0},         {5e4, 0.02, 0.024738, 0.024189}, {1e5, 0.02, 0.021374, 0.021367},
      {1e4, 0.05, 0.037312, 0},         {2e4, 0.05, 0.032248, 0},        {5e4, 0.05, 0.026629, 0.026409},
      {1e5, 0.05, 0.023059, 0.023640}};
  double worst_of_a_quarter = 0.0;
  for (const auto& row : rows) {
    const double f = friction_coil_turbulent(row[0], 0.0, row[1]).f;
    EXPECT_NEAR(f / row[2], 1.0, 0.08) << "Re " << row[0] << ", d/D " << row[1];
    if (row[3] > 0.0) {
      EXPECT_NEAR(f / row[3], 1.0, 0.05) << "Re " << row[0] << ", d/D " << row[1];
    }
    worst_of_a_quarter = std::max(worst_of_a_quarter, 1.0 - (f - 0.75 * 0.03 * std::sqrt(row[1])) / row[2]);
  }
  EXPECT_GT(worst_of_a_quarter, 0.12);
}

// E. F. Schmidt 1967, critical Reynolds number 10540.09 for d/D 1/7, 7437.63 for 1/20 (computed with fluids 1.0.22),
// less 300. H. Ito's 20000 (d/D)^0.32 (J. Basic Eng. 81 (1959) 123, from memory) lies within 12 % from d/D 1/100 up.
TEST(CoilTransition, CriticalReynoldsNumber) {
  EXPECT_NEAR(coil_laminar_limit_re(1.0 / 7.0), 10540.094061770815 - 300.0, 1e-8);
  EXPECT_NEAR(coil_laminar_limit_re(0.05), 7437.629586198897 - 300.0, 1e-8);
  EXPECT_EQ(coil_laminar_limit_re(0.0), laminar_limit_re);
  for (const double r : {0.01, 0.02, 0.05, 0.1, 0.15}) {
    EXPECT_NEAR(coil_laminar_limit_re(r) / (20000.0 * std::pow(r, 0.32)), 1.0, 0.12) << r;
  }
}

WallFriction<double> tube(double rel_roughness) {
  return wall_friction<double>(3.0, 0.01, 0.01 * rel_roughness, 998.2, 1e-3);
}

TEST(CoilDrop, StraightTubeIsTheLimit) {
  for (const double rel : {0.0, 1e-3, 0.05}) {
    const auto straight = tube(rel);
    const auto coil = coil_friction<double>(straight, 0.0);
    const auto wide = coil_friction<double>(straight, 1e-9);
    for (double re = 1e-3; re < 1e7; re *= 1.17) {
      const double q = re / straight.re_per_flow;
      const auto expected = drop_wall_friction(q, straight), got = drop_coil_friction(q, coil);
      EXPECT_NEAR(got.dp / expected.dp, 1.0, 1e-13) << re;
      EXPECT_NEAR(got.slope / expected.slope, 1.0, 1e-12) << re;
      EXPECT_NEAR(drop_coil_friction(q, wide).dp / expected.dp, 1.0, 0.01) << re;
    }
  }
}

// Rises over the whole band, at least in proportion to the flow, for every curvature and roughness.
TEST(CoilDrop, BandRises) {
  for (double curvature = 1e-7; curvature <= 0.1501; curvature *= 1.3) {
    for (const double rel : {0.0, 1e-4, 1e-2, 0.05}) {
      const auto coil = coil_friction<double>(tube(rel), curvature);
      for (int i = 0; i <= 100; ++i) {
        const double re = coil.low + (coil.high - coil.low) * i / 100.0;
        const auto drop = drop_coil_friction(re / coil.re_per_flow, coil);
        EXPECT_GT(drop.slope * re / coil.re_per_flow / drop.dp, 0.999) << curvature << " " << rel << " " << re;
      }
    }
  }
}

TEST(CoilDrop, SlopeIsExactInEveryRegime) {
  const auto straight = wall_friction<Many>(Many(3), Many(0.01), Many(1e-5), Many(998), Many(0.001));
  const auto coil = coil_friction<Many>(straight, Many(0.04));
  for (const double re : {3.0, 300.0, 6000.0, 7000.0, 7900.0, 8600.0, 9e4}) {
    const Many q = Many(re) / coil.re_per_flow;
    const Many slope = test::difference_slope([&](const Many& x) { return drop_coil_friction<Many>(x, coil).dp; }, q);
    EXPECT_LT(abs(Many(drop_coil_friction<Many>(q, coil).slope / slope - 1)), Many(1e-20)) << re;
  }
  const auto rest = drop_coil_friction<Many>(Many(0), coil);
  EXPECT_EQ(rest.dp, Many(0));
  EXPECT_EQ(rest.slope, Many(64 * coil.scale * coil.re_per_flow));
}

TEST(CoilDrop, PackTakesEveryRegimeAtOnce) {
  using Pack = Eigen::Array<double, 4, 1>;
  const auto one = coil_friction<double>(tube(1e-3), 0.04);
  const auto pack =
      coil_friction<Pack>(wall_friction<Pack>(Pack(3.0), Pack(0.01), Pack(1e-5), Pack(998.2), Pack(1e-3)), Pack(0.04));
  Pack q;
  q << 0.0, 3000.0 / one.re_per_flow, -8000.0 / one.re_per_flow, 3e4 / one.re_per_flow;
  const auto got = drop_coil_friction<Pack>(q, pack);
  for (int i = 0; i < 4; ++i) {
    const auto expected = drop_coil_friction(q[i], one);
    EXPECT_NEAR(got.dp[i], expected.dp, 1e-13 * std::abs(expected.dp));
    EXPECT_NEAR(got.slope[i] / expected.slope, 1.0, 1e-13);
  }
  EXPECT_NEAR(drop_coil_friction<Pack>(Pack(1e-8), pack).dp[2] / drop_coil_friction(1e-8, one).dp, 1.0, 1e-13);
}

}  // namespace curvature_test
}  // namespace libflow::physics
