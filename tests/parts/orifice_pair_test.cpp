// SPDX-License-Identifier: MIT
/// @file
/// Two orifices in series: drops add, the pair's bore by the square law, and the caution for a short gap.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <utility>

#include <libflow/parts/orifice_pair.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace orifice_pair_test {

using namespace units;

OrificePair pair_of(double first, double second, double gap = 0.02) {
  return {.first = {.bore = first * m}, .second = {.bore = second * m}, .gap = gap * m};
}

TEST(OrificePair, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(pair_of(1.2e-3, 1.2e-3), liquid);
    test::expect_lawful(pair_of(5e-5, 5e-2, 0.5), liquid);
  }
}

// Hydraulic resistances in series add, so under the square law 1/d^4 = 1/d1^4 + 1/d2^4 (any text on fluid power).
TEST(OrificePair, OneHoleThatPassesTheSame) {
  const auto liquid = test::water();
  for (const auto& [first, second] : {std::pair{1.2e-3, 1.2e-3}, std::pair{1.0e-3, 1.5e-3}}) {
    const double one = std::pow(std::pow(first, -4.0) + std::pow(second, -4.0), -0.25);
    const double flow = 1e-3;  // Reynolds number 1e6: the square law alone
    EXPECT_NEAR(pair_of(first, second).law(liquid)(flow).dp / Orifice{.bore = one * m}.law(liquid)(flow).dp, 1.0, 2e-3);
  }
  const double ratio = std::pow(2.0, -0.25);
  EXPECT_NEAR(ratio, 0.84, 0.005);
}

// Creeping flow: resistances d^-3 add exactly (R. A. Sampson 1891).
TEST(OrificePair, CreepingResistancesAdd) {
  const double slope = pair_of(1e-3, 2e-3).law(test::thick())(0.0).slope;
  EXPECT_NEAR(slope / (24.0 * 0.150 * (1e9 + 1e9 / 8.0)), 1.0, 1e-14);
}

// The same flow passes both, so the drops of the two add, each with its own bore, thickness and coefficient.
TEST(OrificePair, EachHoleKeepsItsOwnSizes) {
  const Orifice one{.bore = 1.2 * mm, .thickness = 0.2 * mm, .discharge_coefficient = 0.8},
      other{.bore = 1.7 * mm, .thickness = 2.0 * mm, .discharge_coefficient = 0.65}, plain{.bore = 1.4 * mm};
  for (const auto& [first, second] : {std::pair{one, other}, std::pair{other, one}, std::pair{one, plain}}) {
    const OrificePair pair{.first = first, .second = second, .gap = 2.0 * cm};
    for (const double flow : {1e-9, 1e-6, 1e-4, -1e-4}) {
      const double sum = first.law(test::water())(flow).dp + second.law(test::water())(flow).dp;
      EXPECT_NEAR(pair.law(test::water())(flow).dp / sum, 1.0, 1e-14) << flow;
    }
  }
}

TEST(OrificePair, OrderDoesNotMatterToTheLaw) {
  for (const double flow : {1e-9, 1e-6, 1e-4}) {
    EXPECT_NEAR(pair_of(1e-3, 2e-3).law(test::water())(flow).dp / pair_of(2e-3, 1e-3).law(test::water())(flow).dp, 1.0,
                1e-14);
  }
}

TEST(OrificePair, CautionsForAShortGapAndForItsHoles) {
  const auto cautions = [](const OrificePair& p) { return Part(p).cautions(1e-5, 1e5, test::water()); };
  EXPECT_TRUE(cautions(pair_of(1e-3, 1e-3, 0.0061)).empty());
  ASSERT_EQ(cautions(pair_of(1e-3, 1e-3, 0.0059)).size(), 1u);
  EXPECT_EQ(cautions(pair_of(1e-3, 1e-3, 0.0059))[0].code, "outside-range");
  OrificePair thick = pair_of(1e-3, 1e-3);
  thick.second.thickness = 0.6 * mm;
  EXPECT_EQ(cautions(thick).size(), 1u);
  thick.first.thickness = 0.6 * mm;
  EXPECT_EQ(cautions(thick).size(), 2u);
}

TEST(OrificePair, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -1.0, 1.1, nan}) {
    test::expect_refused([&] { pair_of(1e-3, 1e-3, bad).check("pair 'r1'"); }, "pair 'r1', gap");
    test::expect_refused([&] { pair_of(bad, 1e-3).check("pair 'r1'"); }, "pair 'r1', first hole, bore");
    test::expect_refused([&] { pair_of(1e-3, bad).check("pair 'r1'"); }, "pair 'r1', second hole, bore");
  }
}

TEST(OrificePair, ItsBoreIsTheSmallerOne) {
  for (const auto& [first, second] : {std::pair(1.0, 2.0), std::pair(2.0, 1.0), std::pair(1.0, 1.0)}) {
    const OrificePair pair{.first = {.bore = first * mm}, .second = {.bore = second * mm}, .gap = 30.0 * mm};
    EXPECT_DOUBLE_EQ(si(pair.inside_bore()), 1e-3);
  }
}

}  // namespace orifice_pair_test
}  // namespace libflow
