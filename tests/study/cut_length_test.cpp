// SPDX-License-Identifier: MIT
/// @file
/// Cut lengths: never too short, whole steps of a tape, and words that read back as the same number.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

#include <libflow/study/cut_length.hpp>
#include <libflow/units/text.hpp>

namespace libflow {
namespace cut_length_test {

using namespace units;

TEST(CutLength, IsTheNextWholeStepAndNeverShorterThanTheRun) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> metres(0.01, 40.0);
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const double step = si(cut_step(u));
    for (int trial = 0; trial < 2000; ++trial) {
      const double run = metres(random);
      const double cut = si(cut_length(from_si<Length>(run), cut_step(u)));
      EXPECT_GE(cut, run - 1e-6);
      EXPECT_LT(cut, run + step);
      EXPECT_NEAR(std::remainder(cut, step), 0.0, 1e-12);
    }
  }
  EXPECT_EQ(cut_step(UnitSystem::us), 1.0 * inch);
  EXPECT_EQ(cut_step(UnitSystem::metric), 1.0 * cm);
}

TEST(CutLength, WhatIsAWholeStepStaysOne) {
  // 15.833333 ft is 15 ft 10 in but for the digits that nobody wrote.
  for (const char* text : {"15 ft 10 in", "15.833333 ft", "15.8333333333 ft", "190 in", "4.826 m"}) {
    EXPECT_EQ(cut_text(parse_quantity<Length>(text, "hose"), UnitSystem::us), "15 ft 10 in") << text;
  }
  EXPECT_EQ(cut_text(parse_quantity<Length>("15.84 ft", "hose"), UnitSystem::us), "15 ft 11 in");
  EXPECT_EQ(cut_text(parse_quantity<Length>("15.84 ft", "hose"), UnitSystem::metric), "4.83 m");
  EXPECT_EQ(cut_text(11.2 * inch, UnitSystem::us), "1 ft");
  EXPECT_EQ(cut_text(0.0 * m, UnitSystem::us), "1 in") << "nothing to cut is no cut";
  EXPECT_EQ(cut_length(1.2345 * m, 0.0 * m), 1.2345 * m) << "no step: as it is";
  EXPECT_NEAR(si(cut_length(1.3 * m, 0.5 * m)), 1.5, 1e-15);
  EXPECT_EQ(cut_step_text(cut_step(UnitSystem::us), UnitSystem::us), "one inch");
  EXPECT_EQ(cut_step_text(cut_step(UnitSystem::metric), UnitSystem::us), "one centimetre");
  EXPECT_EQ(cut_step_text(50.0 * mm, UnitSystem::metric), "50.00 mm");
}

TEST(CutLength, ItsWordsReadBackToTheLastBit) {
  for (int n = 1; n <= 3000; ++n) {
    for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
      const Length cut = cut_length((n - 0.4) * cut_step(u), cut_step(u));
      EXPECT_EQ(parse_quantity<Length>(cut_text(cut, u), "cut"), cut) << cut_text(cut, u);
      EXPECT_EQ(cut_length(cut, cut_step(u)), cut) << "a cut is cut as it is";
    }
  }
}

}  // namespace cut_length_test
}  // namespace libflow
