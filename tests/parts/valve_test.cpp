// SPDX-License-Identifier: MIT
/// @file
/// Valve: its contract at every opening, the standard's example, what shut means, choked flow, its bounds.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include <libflow/parts/valve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace valve_test {

using namespace units;

constexpr Flow m3_per_hour = from_si<Flow>(1.0 / 3600.0);
const Valve throttle{.kv = 4.0 * m3_per_hour, .bore = 20.0 * mm};

TEST(Valve, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double open : {0.001, 0.1, 0.5, 1.0}) {
      for (const auto how : {ValveCharacteristic::equal_percentage, ValveCharacteristic::linear}) {
        test::expect_lawful(Valve{.kv = 4.0 * m3_per_hour, .bore = 20.0 * mm, .open = open, .characteristic = how},
                            liquid);
      }
      test::expect_lawful(Valve::ball(10.0 * m3_per_hour, 20.0 * mm, open), liquid);
      test::expect_lawful(Valve{.kv = 0.01 * m3_per_hour, .bore = 10.0 * mm, .open = open}, liquid);
    }
  }
}

// IEC 60534-2-1 / ISA-75.01.01-2007, example 1, seen in an open package: a globe valve of Kv 165 m3/h (0 decimals) in
// 150 mm takes 360 m3/h of water at 363 K from 680 to 220 kPa. Half a digit of Kv is 0.6 % of the drop; not choked.
TEST(Valve, StandardExample) {
  auto water = test::liquid_of("water at 363 K", 965.4, 3.1472e-4);
  water.vapour_pressure = 70.1e3;
  const Valve globe{.kv = 165.0 * m3_per_hour, .bore = 150.0 * mm};
  EXPECT_NO_THROW(globe.check("valve"));
  EXPECT_NEAR(globe.law(water)(0.1).dp / 460e3, 1.0, 0.0061);
  EXPECT_TRUE(globe.cautions(0.1, 680e3 - 101325.0, water).empty());
  // Example 2, a segmented ball valve of Kv 238 in 100 mm, FL 0.6: choked. 460 kPa lie beyond 221 kPa; with its Kv the
  // valve needs 221 kPa, the limit itself, for the flow.
  const Valve ball{.kv = 238.0 * m3_per_hour, .bore = 100.0 * mm, .recovery = 0.6, .style = 0.98};
  EXPECT_NEAR(ball.law(water)(0.1).dp / 220.9712e3, 1.0, 0.0042);
  const double more = 0.1 * std::sqrt(2.0);
  const Cautions found = ball.cautions(more, 680e3 - 101325.0, water);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "choked-flow");
  EXPECT_NEAR(found[0].limit, 220.9712e3, 50.0);
  EXPECT_NEAR(found[0].value, 2.0 * 220.9712e3, 0.0042 * 2.0 * 220.9712e3);
}

// Cv 8 is Kv 6.9198 (converted by an open package, 1.0.22: 6.919821243538413).
TEST(Valve, CvBecomesKv) {
  EXPECT_NEAR(si(Valve::kv_from_cv(8.0 * gpm)) * 3600.0, 6.919821243538413, 2e-3);
  // Exactly: the square law from 1 psi to 1 bar.
  EXPECT_DOUBLE_EQ(si(Valve::kv_from_cv(8.0 * gpm)), si(8.0 * gpm) * std::sqrt(1e5 / si(psi)));
}

TEST(Valve, OpeningFollowsItsCharacteristic) {
  const auto kv = [](double open, ValveCharacteristic how) {
    return Valve{.kv = 4.0 * m3_per_hour, .bore = 20.0 * mm, .open = open, .characteristic = how}.present_kv() /
           m3_per_hour;
  };
  EXPECT_DOUBLE_EQ(kv(1.0, ValveCharacteristic::equal_percentage), 4.0);
  EXPECT_NEAR(kv(0.5, ValveCharacteristic::equal_percentage), 4.0 / std::sqrt(50.0), 1e-14);
  EXPECT_NEAR(kv(0.5, ValveCharacteristic::linear), 4.0 * 0.51, 1e-14);
}

// Closing never lowers the drop, in water or in a thick liquid, in either trim.
TEST(Valve, ClosingRaisesTheDrop) {
  for (const auto& liquid : {test::water(), test::thick()}) {
    for (const double rated : {0.5, 4.0, 10.0}) {
      for (const auto how : {ValveCharacteristic::equal_percentage, ValveCharacteristic::linear}) {
        for (const double flow : {1e-8, 1e-6, 1e-4}) {
          double before = 0.0;
          for (double open = 1.0; open > 0.005; open -= 0.01) {
            const Valve valve{.kv = rated * m3_per_hour, .bore = 20.0 * mm, .open = open, .characteristic = how};
            const double dp = valve.law(liquid)(flow).dp;
            EXPECT_GT(dp, before) << liquid.name << " " << rated << " m3/h, open " << open;
            before = dp;
          }
        }
      }
    }
  }
}

TEST(Valve, ShutPassesNeitherWay) {
  for (const auto how : {ValveCharacteristic::equal_percentage, ValveCharacteristic::linear}) {
    Valve valve = throttle;
    valve.characteristic = how;
    EXPECT_EQ(valve.law(test::water()).passes, Passes::both);
    valve.open = 0.0;
    EXPECT_NO_THROW(valve.check("valve"));
    const Law law = valve.law(test::water());
    EXPECT_EQ(law.passes, Passes::neither);
    EXPECT_EQ(law(0.0).dp, 0.0);
    EXPECT_EQ(law.reversed().passes, Passes::neither);
    EXPECT_TRUE(valve.cautions(0.0, 1e6, test::water()).empty());
  }
}

TEST(Valve, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change, const char* field) {
    Valve valve = throttle;
    change(valve);
    test::expect_refused([&] { Part(valve, "valve 's1'"); }, field);
  };
  for (const double bad : {0.0, -1.0, nan, 4.6}) {  // at 0.05 velocity heads 5 mm pass 4.5 m3/h
    refused([&](Valve& v) { v.kv = bad * m3_per_hour, v.bore = 5.0 * mm; }, "valve 's1', kv");
  }
  for (const double bad : {0.0, 0.51, nan}) refused([&](Valve& v) { v.bore = bad * m; }, "valve 's1', bore");
  for (const double bad : {-0.01, 1.01, 50.0, nan}) refused([&](Valve& v) { v.open = bad; }, "valve 's1', open");
  for (const double bad : {1.0, 1e4, nan}) refused([&](Valve& v) { v.rangeability = bad; }, "valve 's1', rangeability");
  for (const double bad : {0.0, 1.1, nan}) refused([&](Valve& v) { v.recovery = bad; }, "valve 's1', recovery");
  for (const double bad : {0.0, 1.1, nan}) refused([&](Valve& v) { v.style = bad; }, "valve 's1', style");
  EXPECT_NO_THROW(throttle.check("valve"));
}

}  // namespace valve_test
}  // namespace libflow
