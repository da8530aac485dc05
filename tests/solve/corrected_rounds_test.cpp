// SPDX-License-Identifier: MIT
/// @file
/// The rounds of corrections step by step: when single steps give way to Newton's method on all drops together, and
/// which of its halved steps is taken.
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/parts/orifice.hpp>
#include <libflow/solve/corrected.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace corrected_rounds_test {

using namespace units;
using Numbers = std::vector<double>;

// Of a linear misfit one whole step finds the zero: d = (2, -1) where A d = b. One solve a drop for the slopes, each
// with one drop moved by a millionth of the scale, and one for the step.
TEST(CorrectedRounds, NewtonsStepOfALinearMisfitIsWhole) {
  std::vector<Numbers> asked;
  const auto miss = [&](const Numbers& d) {
    asked.push_back(d);
    return Numbers{3.0 * d[0] + d[1] - 5.0, -d[0] + 2.0 * d[1] + 4.0};
  };
  const Numbers from{0.5, 0.25}, off{3.0 * 0.5 + 0.25 - 5.0, -0.5 + 2.0 * 0.25 + 4.0};
  const Numbers found = corrected_detail::newton_step(miss, from, off, 1e3);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NEAR(found[0], 2.0, 1e-9);
  EXPECT_NEAR(found[1], -1.0, 1e-9);
  ASSERT_EQ(asked.size(), 3U);
  EXPECT_EQ(asked[0], (Numbers{0.5 + 1e-3, 0.25}));
  EXPECT_EQ(asked[1], (Numbers{0.5, 0.25 + 1e-3}));
  EXPECT_EQ(asked[2], found);
}

/// Newton's step from 0, where the misfit is 1 and falls by 1 per unit, with misfits beyond told by `there`.
Numbers step_towards(Numbers (*there)(double), int* asked = nullptr) {
  return corrected_detail::newton_step(
      [&](const Numbers& d) {
        if (asked != nullptr) ++*asked;
        return std::abs(d[0]) < 1e-5 ? Numbers{1.0 - d[0]} : there(d[0]);
      },
      {0.0}, {1.0}, 1.0);
}

// A step is taken where the misfit falls by more than a tenth of what the step promised; half of it is tried else.
TEST(CorrectedRounds, AStepThatHelpsTooLittleIsHalved) {
  int asked = 0;
  EXPECT_NEAR(step_towards([](double) { return Numbers{0.899}; }, &asked)[0], 1.0, 1e-9);
  EXPECT_EQ(asked, 2);  // a slope, the whole step
  asked = 0;
  EXPECT_NEAR(step_towards([](double d) { return Numbers{d > 0.7 ? 0.901 : 0.9}; }, &asked)[0], 0.5, 1e-9);
  EXPECT_EQ(asked, 3);  // and the half, of which 0.95 is enough
  asked = 0;
  EXPECT_NEAR(step_towards([](double d) { return Numbers{d > 0.3 ? -0.96 : 0.5}; }, &asked)[0], 0.25, 1e-9);
  EXPECT_EQ(asked, 4);
}

TEST(CorrectedRounds, WithoutAnAnswerAtAStepHalfOfItIsTried) {
  const Numbers found = step_towards([](double d) { return d > 0.3 ? Numbers{} : Numbers{0.1}; });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0], 0.25, 1e-9);
  EXPECT_TRUE(step_towards([](double) { return Numbers{}; }).empty());
}

// Where none of ten halves lets the misfit fall, the one with the smallest is taken: here the shortest, 2^-9.
TEST(CorrectedRounds, WhereNoHalfHelpsTheBestIsTaken) {
  int asked = 0;
  EXPECT_NEAR(step_towards([](double d) { return Numbers{2.0 + d}; }, &asked)[0], std::ldexp(1.0, -9), 1e-12);
  EXPECT_EQ(asked, 1 + 10);
  EXPECT_NEAR(step_towards([](double d) { return Numbers{std::abs(d - 0.125) < 0.01 ? 3.0 : 4.0}; })[0], 0.125, 1e-9);
}

/// Extra drops that a single correction is asked with, round by round, where it is off by what `off` says of the
/// round; the largest drop is the supply's 20 kPa.
Numbers asked_with(double (*off)(int), int rounds) {
  Network n;
  n.add_supply("supply", 20.0 * kPa);
  n.add_air("row");
  n.add_part("orifice", "supply", "row", Orifice{.bore = 1.0 * mm});
  Numbers asked;
  const Correction one{0, [&](const Solution&, double present) {
                         asked.push_back(present);
                         return present + off(static_cast<int>(asked.size()));
                       }};
  const CorrectedSolution s = solve_corrected(n, test::water(), {one}, {}, {.max_rounds = rounds});
  EXPECT_FALSE(s.settled);
  EXPECT_EQ(s.rounds, rounds);
  return asked;
}

// Twenty times what is asked for, again and again, as nothing comes of it; after forty such rounds Newton's method
// begins at the best of them, the first, with a drop moved by a millionth of the largest.
TEST(CorrectedRounds, AfterFortySingleRoundsNewtonBeginsAtTheBest) {
  const Numbers asked = asked_with([](int) { return 1.0; }, 42);
  ASSERT_GT(asked.size(), 42U);
  EXPECT_EQ(asked[0], 0.0);
  EXPECT_EQ(asked[1], 1.0);
  for (std::size_t k = 2; k < 40; ++k) EXPECT_NEAR(asked[k], 1.0 + 20.0 * (static_cast<double>(k) - 1.0), 1e-9) << k;
  EXPECT_EQ(asked[40], 0.0);
  EXPECT_NEAR(asked[41], 1e-6 * 20e3, 1e-12);
}

// The very first step leads to where the correction is no number: from where it began, Newton's method finds the 250 Pa
// at which it is what it should be.
TEST(CorrectedRounds, AFirstStepTooFarIsTakenBack) {
  Network n;
  n.add_supply("supply", 20.0 * kPa);
  n.add_air("row");
  n.add_part("orifice", "supply", "row", Orifice{.bore = 1.0 * mm});
  const Correction one{0, [](const Solution&, double present) {
                         return present > 400.0 ? std::numeric_limits<double>::quiet_NaN() : 500.0 - present;
                       }};
  const CorrectedSolution s = solve_corrected(n, test::water(), {one});
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_NEAR(s.drops.at(0), 250.0, 1e-4);
}

// A round that is off by more than a hundred times the best is a runaway: Newton's method begins at the best at once.
TEST(CorrectedRounds, ARunawayEndsTheSingleRounds) {
  const Numbers near = asked_with([](int round) { return round == 1 ? 1.0 : 99.0; }, 4);
  EXPECT_NE(near.at(2), 0.0);
  const Numbers far = asked_with([](int round) { return round == 1 ? 1.0 : 101.0; }, 4);
  EXPECT_EQ(far.at(1), 1.0);
  EXPECT_EQ(far.at(2), 0.0);
  EXPECT_NEAR(far.at(3), 1e-6 * 20e3, 1e-12);
}

}  // namespace corrected_rounds_test
}  // namespace libflow
