// SPDX-License-Identifier: MIT
/// @file
/// Rate arithmetic against the trade's constants and worked numbers.
#include <gtest/gtest.h>

#include <libflow/toolbar/rate.hpp>

namespace libflow {
namespace rate_test {

using namespace units;

// gal/min = gal/ac x mph x inches / 5940 (University of Florida EDIS WG013, Calibration of Herbicide Applicators;
// University of Illinois, 60 Ways, no. 55). The constant is exact: square feet an acre, inches a foot, minutes an hour,
// feet a mile.
static_assert(43560 * 12 * 60 == 5940 * 5280);

TEST(Rate, UsConstant5940) {
  EXPECT_DOUBLE_EQ(si(flow_for_rate(1.0 * gal_per_acre, 1.0 * mph, 1.0 * inch)) * 5940.0, si(1.0 * gpm));
  EXPECT_DOUBLE_EQ(si(flow_for_rate(5940.0 * gal_per_acre, 1.0 * mph, 1.0 * inch)), si(1.0 * gpm));
  EXPECT_DOUBLE_EQ(si(rate_for_flow(1.0 * gpm, 1.0 * mph, 1.0 * inch)), si(5940.0 * gal_per_acre));
}

// L/min = L/ha x km/h x m / 600 (common practice, no source; exact: 10,000 m2/ha, 60 min/h, 1000 m/km).
static_assert(10000 * 60 == 600 * 1000);

TEST(Rate, MetricConstant600) {
  EXPECT_DOUBLE_EQ(si(flow_for_rate(1.0 * L_per_ha, 1.0 * kmh, 1.0 * m)) * 600.0, si(1.0 * L_per_min));
  EXPECT_DOUBLE_EQ(si(rate_for_flow(1.0 * L_per_min, 1.0 * kmh, 1.0 * m)), si(600.0 * L_per_ha));
}

// Whole machine: gal/min = gal/ac x mph x feet / 495 (constant from memory; derived: 5940 / 12).
TEST(Rate, WholeMachineConstant495) {
  EXPECT_DOUBLE_EQ(si(flow_for_rate(1.0 * gal_per_acre, 1.0 * mph, 1.0 * ft)) * 495.0, si(1.0 * gpm));
}

// Derived from the printed formulas, to half the last digit shown.
TEST(Rate, WorkedNumbers) {
  const auto in_gpm = [](double gal_ac, double miles, Length width) {
    return si(flow_for_rate(gal_ac * gal_per_acre, miles * mph, width)) / si(gpm);
  };
  EXPECT_NEAR(in_gpm(5.0, 5.0, 30.0 * inch), 0.1263, 5e-5);
  EXPECT_NEAR(in_gpm(20.0, 6.0, 30.0 * inch), 0.606, 5e-4);
  EXPECT_NEAR(in_gpm(5.0, 5.0, 16 * 30.0 * inch), 2.0202, 5e-5);  // 16 rows, 40 ft
  EXPECT_NEAR(si(flow_for_rate(100.0 * L_per_ha, 8.0 * kmh, 0.75 * m)) / si(L_per_min), 1.0, 1e-14);
}

// The 1/128-acre method: drive the distance that covers 1/128 acre for one row, and the fluid ounces caught are the
// gallons an acre. Distances as printed (Fountain, North Carolina Cooperative Extension, Duplin County, 2014), whole
// feet. 340.3 square feet over the spacing; 30 in gives 136.1 ft (derived).
TEST(Rate, OneHundredTwentyEighthOfAnAcre) {
  struct Row {
    double inches, feet, tol;
  };
  for (const auto& [inches, feet, tol] :
       {Row{48, 85, 0.5}, Row{46, 89, 0.5}, Row{44, 93, 0.5}, Row{42, 97, 0.5}, Row{30, 136.1, 0.05}}) {
    for (const double miles : {3.0, 6.0}) {  // the speed does not matter
      const Speed speed = miles * mph;
      const double seconds = si(1.0 * floz) / si(flow_for_rate(1.0 * gal_per_acre, speed, inches * inch));
      EXPECT_NEAR(seconds * si(speed) / si(ft), feet, tol) << inches;
    }
  }
  EXPECT_NEAR(43560.0 / 128.0, 340.3, 0.05);
}

// mph = ft x 60 / (s x 88) (from memory): 88 ft in a minute is one mile an hour.
TEST(Rate, RateFromATimedRun) {
  const Speed speed = from_si<Speed>(si(88.0 * ft) / 60.0);
  EXPECT_DOUBLE_EQ(si(speed), si(1.0 * mph));
  const AreaRate rate = rate_for_flow(from_si<Flow>(si(1.0 * gal) / 60.0), speed, 30.0 * inch);
  EXPECT_NEAR(si(rate) / si(gal_per_acre), 5940.0 / 30.0, 1e-10);
}

TEST(Rate, ThereAndBack) {
  for (const double rate : {1e-3, 5.0, 400.0}) {
    for (const double speed : {0.5, 7.0}) {
      for (const double width : {0.19, 0.762, 24.0}) {
        const Flow flow = flow_for_rate(rate * L_per_ha, speed * kmh, width * m);
        EXPECT_DOUBLE_EQ(si(rate_for_flow(flow, speed * kmh, width * m)), si(rate * L_per_ha));
      }
    }
  }
}

// 1 gal/ac = 9.354 L/ha, four digits as rate tables print it (derived).
TEST(Rate, BothSystemsAreOneRate) {
  EXPECT_NEAR(si(1.0 * gal_per_acre) / si(L_per_ha), 9.354, 5e-4);
  EXPECT_NEAR(si(flow_for_rate(9.35396 * L_per_ha, 1.609344 * kmh, 0.762 * m)) /
                  si(flow_for_rate(1.0 * gal_per_acre, 1.0 * mph, 30.0 * inch)),
              1.0, 1e-6);
}

}  // namespace rate_test
}  // namespace libflow
