// SPDX-License-Identifier: MIT
/// @file
/// Laws evaluated side by side against each law by itself.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/law_table.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace law_table_test {

/// A random law: tubes and holes in series, with or without straight and square terms and a function of its own.
Law random_law(test::Dice& dice) {
  Law law;
  for (std::size_t k = dice.below(3); k > 0; --k) {
    const double bore = dice.log_uniform(1e-3, 0.05);
    law.friction.push_back(physics::wall_friction<double>(
        dice.log_uniform(0.01, 100.0), bore, dice.uniform(0.0, 0.05) * bore, 1000.0, dice.log_uniform(5e-4, 0.1)));
  }
  for (std::size_t k = dice.below(4); k > 0; --k) {
    law.holes.push_back(physics::hole<double>(dice.log_uniform(3e-4, 0.01), 0.0, 1200.0, dice.log_uniform(5e-4, 0.1),
                                              0.61, physics::sharp_uncontracted));
  }
  if (dice.chance(0.3)) law.linear = dice.log_uniform(1e3, 1e9);
  if (dice.chance(0.3)) law.quadratic = dice.log_uniform(1e8, 1e14);
  if (dice.chance(0.5)) law.threshold = dice.uniform(-1e5, 1e5);
  if (dice.chance(0.2)) law.functions.emplace_back([](const double& q) { return Drop<double>{1e8 * q, 1e8}; });
  return dice.chance(0.5) ? law : law.reversed();
}

/// Each drop and slope of the table is the law's, to rounding: of the drop's terms, since thresholds may cancel them.
void expect_same(const std::vector<Law>& laws, const LawTable& table, test::Dice& dice) {
  std::vector<double> flow, drop(laws.size()), slope(laws.size());
  for (std::size_t e = 0; e < laws.size(); ++e) {
    flow.push_back(dice.chance(0.1) ? 0.0 : std::copysign(dice.log_uniform(1e-9, 0.01), dice.uniform(-1.0, 1.0)));
  }
  table.evaluate(flow, drop, slope);
  for (std::size_t e = 0; e < laws.size(); ++e) {
    const Drop<double> alone = laws[e](flow[e]);
    const double size = std::abs(laws[e].threshold) + std::abs(alone.dp - laws[e].threshold);
    EXPECT_NEAR(drop[e], alone.dp, 1e-14 * size) << "law " << e << " at " << flow[e];
    EXPECT_NEAR(slope[e], alone.slope, 1e-13 * alone.slope) << "law " << e << " at " << flow[e];
    EXPECT_EQ(table.threshold(e), laws[e].threshold);
  }
}

// Any number of laws, so that any number of terms is left over for the last pack.
TEST(LawTable, AgreesWithEachLawByItself) {
  test::Dice dice(31);
  for (std::size_t count = 0; count < 40; ++count) {
    std::vector<Law> laws;
    for (std::size_t e = 0; e < count; ++e) laws.push_back(random_law(dice));
    LawTable table;
    table.read(laws);
    for (int k = 0; k < 5; ++k) expect_same(laws, table, dice);
  }
}

TEST(LawTable, ReadsAgain) {
  test::Dice dice(32);
  std::vector<Law> laws;
  LawTable table;
  for (const std::size_t count : {std::size_t{9}, std::size_t{3}, std::size_t{17}}) {
    laws.clear();
    for (std::size_t e = 0; e < count; ++e) laws.push_back(random_law(dice));
    table.read(laws);
    expect_same(laws, table, dice);
  }
}

}  // namespace law_table_test
}  // namespace libflow
