// SPDX-License-Identifier: MIT
/// @file
/// Part by table: through its points, lawful whatever the table, similarity in other liquids, its ends and bounds.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <random>
#include <utility>

#include <libflow/parts/orifice.hpp>
#include <libflow/parts/table_part.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace table_part_test {

using namespace units;

LiquidState measured() { return test::liquid_of("measured", 998.2, 1.0016e-3); }

TablePart table(std::initializer_list<std::pair<double, double>> points) {
  TablePart part;
  for (const auto& [q, dp] : points) part.points.push_back({q * L_per_min, dp * kPa});
  return part;
}

TEST(TablePart, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(table({{1, 2}, {2, 7}, {5, 40}, {10, 155}}), liquid);
    test::expect_lawful(table({{1, 2}, {2, 2.1}}), liquid);   // nearly flat
    test::expect_lawful(table({{1, 2}, {2, 3000}}), liquid);  // steep at the end
  }
}

TEST(TablePart, IsLawfulForRandomTables) {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> step(std::log(1.05), std::log(3.0)), exponent(0.3, 3.0);
  for (int trial = 0; trial < 50; ++trial) {
    TablePart part;
    double q = 0.01, dp = 0.1;
    for (int i = 0; i < 2 + trial % 7; ++i) {
      const double further = step(random);
      q *= std::exp(further);
      dp *= std::exp(further * exponent(random));
      part.points.push_back({q * L_per_min, dp * kPa});
    }
    test::expect_lawful(part, test::water(), {.per_decade = 60});
  }
}

// Too steep and narrow for the usual search for jumps: looked at closely, the drop rises and its slope is positive and
// that of a cubic: it never changes by more between neighbours than a cubic between these points can.
TEST(TablePart, ACliffStaysSmooth) {
  const Law law = table({{1, 1e-3}, {1.001, 900}, {20, 900.1}}).law(measured());
  const double from = si(0.9995 * L_per_min), to = si(1.0015 * L_per_min), chord = 9e5 / si(0.001 * L_per_min);
  constexpr int steps = 20000;
  Drop<double> before = law(from);
  for (int i = 1; i <= steps; ++i) {
    const Drop<double> d = law(from + (to - from) * i / steps);
    ASSERT_GT(d.dp, before.dp);
    ASSERT_GT(d.slope, 0.0);
    // Slopes at a cubic's ends are below 3 chords: its second derivative is below 12 chords over the interval.
    ASSERT_LT(std::abs(d.slope - before.slope), 12.0 * chord * 2.0 / steps);
    before = d;
  }
}

TEST(TablePart, GoesThroughItsPoints) {
  const TablePart part = table({{1, 2}, {2, 7}, {5, 40}, {10, 155}});
  const Law law = part.law(measured());
  for (const TablePoint& p : part.points) {
    EXPECT_NEAR(law(si(p.flow)).dp / si(p.drop), 1.0, 1e-12);
    EXPECT_NEAR(law(-si(p.flow)).dp / si(p.drop), -1.0, 1e-12);
  }
  EXPECT_EQ(law(0.0).dp, 0.0);
  EXPECT_NEAR(law(0.0).slope / (2e3 / si(1.0 * L_per_min)), 1.0, 1e-12);  // the first chord
}

// Points of the exact square law: the formula itself is the reference. Between points within 2 % from the second up,
// beyond the last exact.
TEST(TablePart, SquareLaw) {
  const Law law = table({{1, 1}, {2, 4}, {3, 9}, {4, 16}, {5, 25}, {6, 36}}).law(measured());
  for (double q = 2.0; q < 6.0; q += 0.1) EXPECT_NEAR(law(si(q * L_per_min)).dp / (1e3 * q * q), 1.0, 0.02) << q;
  for (const double q : {6.0, 7.0, 12.0, 60.0}) EXPECT_NEAR(law(si(q * L_per_min)).dp / (1e3 * q * q), 1.0, 1e-9) << q;
}

// A part that loses a millionth of another at every flow loses a millionth of it beyond its table too: the way on does
// not hang on the unit of pressure. Tables that end steeper and flatter than the square law.
TEST(TablePart, GoesOnAlikeWhateverTheSizeOfItsDrops) {
  for (const double last : {7.5, 12.0, 40.0}) {
    const Law big = table({{1, 2}, {2, 7}, {3, last}}).law(measured());
    const Law small = table({{1, 2e-6}, {2, 7e-6}, {3, 1e-6 * last}}).law(measured());
    for (const double q : {0.5, 1.7, 2.9, 3.0, 3.1, 10.0, 100.0}) {
      const Drop<double> one = big(si(q * L_per_min)), other = small(si(q * L_per_min));
      EXPECT_NEAR(other.dp * 1e6 / one.dp, 1.0, 1e-12) << q;
      EXPECT_NEAR(other.slope * 1e6 / one.slope, 1.0, 1e-12) << q;
    }
    // The exponent of the last two points, 2 at most.
    const double exponent = std::min(2.0, std::log(last / 7.0) / std::log(1.5));
    EXPECT_NEAR(big(si(6.0 * L_per_min)).dp / (1e3 * last), std::pow(2.0, exponent), 1e-9);
  }
}

// Laminar points: exact between, and beyond the last.
TEST(TablePart, StraightLine) {
  const Law law = table({{1, 3}, {4, 12}, {5, 15}}).law(measured());
  for (double q = 0.25; q < 40.0; q *= 1.3) EXPECT_NEAR(law(si(q * L_per_min)).dp / (3e3 * q), 1.0, 1e-9) << q;
}

// Similarity: an orifice measured in water, as a table, answers for the thick liquid as the orifice's own law does
// there, in the range of the table.
TEST(TablePart, AnotherLiquidBySimilarity) {
  const Orifice orifice{.bore = 2.0 * mm};
  TablePart part;
  for (double q = 1e-9; q < 3e-4; q *= 1.05) {
    part.points.push_back({q * m3_per_s, orifice.law(measured())(q).dp * Pa});
  }
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    const double nu = liquid.viscosity / liquid.density * 998.2 / 1.0016e-3;
    for (double q = 1e-8; q < 2e-4; q *= 1.7) {
      EXPECT_NEAR(part.law(liquid)(q * nu).dp / orifice.law(liquid)(q * nu).dp, 1.0, 1e-4) << liquid.name << " " << q;
    }
  }
  // What moves with the flow is not scaled.
  part.rigid = false;
  EXPECT_EQ(part.law(test::thick())(1e-5).dp, part.law(measured())(1e-5).dp);
}

TEST(TablePart, WarnsOutsideItsTable) {
  TablePart part = table({{1, 2}, {2, 7}, {10, 155}});
  const auto found_at = [&](double q, const LiquidState& liquid) {
    return part.cautions(si(q * L_per_min), 0.0, liquid);
  };
  for (const double inside : {0.0, 1.0, -5.0, 10.0}) EXPECT_TRUE(found_at(inside, measured()).empty()) << inside;
  for (const double outside : {0.9, -0.9, 10.1, -10.1}) {
    const Cautions found = found_at(outside, measured());
    ASSERT_EQ(found.size(), 1u) << outside;
    EXPECT_EQ(found[0].code, "outside-range");
    EXPECT_DOUBLE_EQ(found[0].limit, si((std::abs(outside) < 5 ? 1.0 : 10.0) * L_per_min));
  }
  // Ten times the kinematic viscosity: the table then ends at ten times the flow.
  const auto thicker = test::liquid_of("thicker", 998.2, 1.0016e-2);
  EXPECT_TRUE(found_at(50, thicker).empty());
  ASSERT_EQ(found_at(5, thicker).size(), 1u);
  EXPECT_NEAR(found_at(5, thicker)[0].limit, si(10.0 * L_per_min), 1e-15);
  part.rigid = false;
  const Cautions found = found_at(5, thicker);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "another-liquid");
  EXPECT_TRUE(found_at(5, measured()).empty());
  const auto denser = test::liquid_of("denser", 1.2 * measured().density, measured().viscosity);
  ASSERT_EQ(found_at(5, denser).size(), 1u);
  EXPECT_EQ(found_at(5, denser)[0].code, "another-liquid");
}

TEST(TablePart, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](const TablePart& part, const char* field) {
    test::expect_refused([&] { Part(part, "part 'x'"); }, field);
  };
  refused(table({}), "part 'x', points");
  refused(table({{1, 2}}), "part 'x', points");
  TablePart long_table = table({{1, 2}, {2, 7}});
  while (long_table.points.size() <= TablePart::most_points) {
    const TablePoint& last = long_table.points.back();
    long_table.points.push_back({1.001 * last.flow, 1.001 * last.drop});
  }
  refused(long_table, "part 'x', points");
  long_table.points.pop_back();
  EXPECT_NO_THROW(long_table.check("part 'x'"));
  for (const double bad : {0.0, -1.0, nan, 1e9}) {
    refused(table({{bad, 2}, {2, 7}}), "part 'x', point 1, flow");
    refused(table({{1, 2}, {2, bad}}), "part 'x', point 2, drop");
  }
  refused(table({{1, 2}, {1, 7}}), "part 'x', point 2, flow");
  refused(table({{1, 2}, {2, 7}, {1.5, 8}}), "part 'x', point 3, flow");
  refused(table({{1, 2}, {2, 2}}), "part 'x', point 2, drop");
  refused(table({{1, 2}, {2, 7}, {3, 6}}), "part 'x', point 3, drop");
  TablePart part = table({{1, 2}, {2, 7}});
  EXPECT_NO_THROW(part.check("part 'x'"));
  part.viscosity = 0.0 * Pa_s;
  refused(part, "part 'x', viscosity");
  part = table({{1, 2}, {2, 7}});
  part.density = 10.0 * kg_per_m3;
  refused(part, "part 'x', density");
}

}  // namespace table_part_test
}  // namespace libflow
