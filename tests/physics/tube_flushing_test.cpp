// SPDX-License-Identifier: MIT
/// @file
/// Flushing of a tube in laminar flow against the published residence-time distribution.
#include <gtest/gtest.h>

#include <cmath>

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <libflow/physics/tube_flushing.hpp>

namespace libflow {
namespace tube_flushing_test {

TEST(TubeFlushing, PointsOfThePublishedCurve) {
  // O. Levenspiel, Chemical Reaction Engineering, 3rd ed., 1999, p. 344: F = 0 up to half the mean time, then
  // 1 - 1/(4 t^2): three quarters at the mean time, 15/16 at twice, 99 % at five times.
  EXPECT_EQ(physics::laminar_new_share<double>(0.0), 0.0);
  EXPECT_EQ(physics::laminar_new_share<double>(0.5), 0.0);
  EXPECT_EQ(physics::laminar_new_share<double>(1.0), 0.75);
  EXPECT_EQ(physics::laminar_new_share<double>(2.0), 0.9375);
  EXPECT_NEAR(physics::laminar_new_share<double>(5.0), 0.99, 1e-15);
  EXPECT_NEAR(physics::laminar_flushing_time<double>(0.99), 5.0, 1e-13);
}

TEST(TubeFlushing, ShareAndTimeUndoEachOther) {
  for (const double share : {0.0, 0.1, 0.5, 0.75, 0.9, 0.99, 0.9999}) {
    EXPECT_NEAR(physics::laminar_new_share<double>(physics::laminar_flushing_time<double>(share)), share, 1e-12);
  }
}

TEST(TubeFlushing, ComesFromTheParabolicProfile) {
  // Independent of the closed form: the part of the flow whose streamlines, at 2 (1 - s^2) of the mean velocity, have
  // crossed the tube within t. Integrated over the radius s.
  using boost::math::quadrature::gauss_kronrod;
  for (const double t : {0.6, 1.0, 1.7, 4.0}) {
    const double edge = std::sqrt(1.0 - 0.5 / t);
    const double through = gauss_kronrod<double, 31>::integrate([](double s) { return 2.0 * (1.0 - s * s) * 2.0 * s; },
                                                                0.0, edge, 5, 1e-14);
    EXPECT_NEAR(physics::laminar_new_share<double>(t), through, 1e-12) << t;
  }
}

TEST(TubeFlushing, TheMeanTimeIsVolumeOverFlow) {
  // P. V. Danckwerts, Chem. Eng. Sci. 2 (1953) 1: the integral of 1 - F is one mean time. The tail beyond 1000 is
  // 1/(4 x 1000) exactly.
  using boost::math::quadrature::gauss_kronrod;
  const double mean =
      0.5 + gauss_kronrod<double, 61>::integrate([](double t) { return 1.0 - physics::laminar_new_share<double>(t); },
                                                 0.5, 1000.0, 15, 1e-13);
  EXPECT_NEAR(mean + 1.0 / 4000.0, 1.0, 1e-9);
}

TEST(TubeFlushing, VolumeOfATube) {
  // 100 ft of 1/4 in hose hold 58.9 in3 = 0.255 US gal.
  EXPECT_NEAR(physics::tube_volume<double>(30.48, 0.00635) / 3.785411784e-3, 0.255, 0.0005);
}

}  // namespace tube_flushing_test
}  // namespace libflow
