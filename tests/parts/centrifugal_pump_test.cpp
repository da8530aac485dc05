// SPDX-License-Identifier: MIT
/// @file
/// Centrifugal pump: its curve, the affinity laws, its bounds.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include <libflow/parts/centrifugal_pump.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace centrifugal_pump_test {

using namespace units;

double gain(const CentrifugalPump& pump, double flow) { return -pump.law(test::water())(flow).dp; }

TEST(CentrifugalPump, IsLawful) {
  for (const double share : {0.001, 0.05, 1.0}) {
    for (const double speed : {0.05, 1.0, 3.0}) {
      test::expect_lawful(
          CentrifugalPump{.shutoff = 60.0 * psi, .free_flow = 90.0 * gpm, .linear_share = share, .speed = speed},
          test::water());
    }
  }
}

TEST(CentrifugalPump, CurveFromShutoffToFreeFlow) {
  const CentrifugalPump pump{.shutoff = 60.0 * psi, .free_flow = 90.0 * gpm};
  EXPECT_DOUBLE_EQ(gain(pump, 0.0), si(60.0 * psi));
  EXPECT_NEAR(gain(pump, si(90.0 * gpm)), 0.0, 1e-9);
  EXPECT_NEAR(gain(pump, si(45.0 * gpm)) / si(60.0 * psi), 1.0 - 0.05 / 2.0 - 0.95 / 4.0, 1e-14);
  EXPECT_LT(gain(pump, si(95.0 * gpm)), 0.0);
  EXPECT_EQ(pump.law(test::water()).passes, Passes::forward);
}

// Affinity laws. Crane Technical Paper 410, example 7-33 (seen in an open package's notebooks): from 3500 to 1700
// rpm, 400 gal/min at 126 ft become 194.3 gal/min at 29.7 ft.
TEST(CentrifugalPump, AffinityLaws) {
  // Any curve through the first point: shutoff twice its gain, the free flow that puts it there.
  const double foot_of_water = 0.3048 * 9.80665 * 1000.0, share = 0.3;
  CentrifugalPump pump{.shutoff = 2.0 * 126.0 * foot_of_water * Pa, .linear_share = share};
  // 1 - share x - (1 - share) x^2 = 1/2 at x = 400 gpm/free flow.
  const double x = (-share + std::sqrt(share * share + 2.0 * (1.0 - share))) / (2.0 * (1.0 - share));
  pump.free_flow = 400.0 / x * gpm;
  ASSERT_NEAR(gain(pump, si(400.0 * gpm)) / foot_of_water, 126.0, 1e-9);
  pump.speed = 1700.0 / 3500.0;
  const double half_digit_of_flow = 0.05 * 0.25;  // the curve falls by 0.25 ft per gal/min there
  EXPECT_NEAR(gain(pump, si(194.3 * gpm)) / foot_of_water, 29.7, 0.05 + half_digit_of_flow);
  for (const double speed : {0.3, 1.7}) {
    CentrifugalPump other = pump;
    pump.speed = 1.0;
    other.speed = speed;
    for (const double flow : {0.0, 1e-3, 2e-2}) {
      EXPECT_NEAR(gain(other, speed * flow), speed * speed * gain(pump, flow), 1e-9 * si(pump.shutoff)) << speed;
    }
  }
}

TEST(CentrifugalPump, ShaftPower) {
  CentrifugalPump p{.shutoff = 60.0 * psi, .free_flow = 40.0 * gpm};
  const auto water = test::water();
  const double q = si(20.0 * gpm), gain = -p.law(water)(q).dp;
  EXPECT_FALSE(p.shaft_power(q, water).has_value());
  p.efficiency = 0.5;
  EXPECT_NEAR(*p.shaft_power(q, water), 2.0 * q * gain, 1e-9);
  EXPECT_FALSE(p.shaft_power(si(41.0 * gpm), water).has_value());  // beyond its free flow it is a resistance
  p.efficiency = 0.0;
  test::expect_refused([&] { p.check("pump 'p'"); }, "pump 'p', efficiency");
}

TEST(CentrifugalPump, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto check = [](double shutoff, double flow, double share, double speed) {
    CentrifugalPump{.shutoff = shutoff * Pa, .free_flow = from_si<Flow>(flow), .linear_share = share, .speed = speed}
        .check("pump 'p1'");
  };
  for (const double bad : {0.0, -1.0, nan, inf, 1e9}) {
    test::expect_refused([&] { check(bad, 1e-3, 0.05, 1.0); }, "pump 'p1', shutoff");
    test::expect_refused([&] { check(4e5, bad, 0.05, 1.0); }, "pump 'p1', free flow");
    test::expect_refused([&] { check(4e5, 1e-3, bad, 1.0); }, "pump 'p1', linear share");
    test::expect_refused([&] { check(4e5, 1e-3, 0.05, bad); }, "pump 'p1', speed");
  }
  test::expect_refused([] { Part(CentrifugalPump{}, "pump 'empty'"); }, "pump 'empty', shutoff");
  EXPECT_NO_THROW(check(4e5, 1e-3, 1.0, 0.05));
}

}  // namespace centrifugal_pump_test
}  // namespace libflow
