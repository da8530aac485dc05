// SPDX-License-Identifier: MIT
/// @file
/// A fill with a row off that nothing holds at its rate.
#include <gtest/gtest.h>

#include <variant>

#include <libflow/study/drawdown.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace seldom_drawdown_test {

using namespace units;

// A pump of fixed speed and no regulation: what is taken is what is given, whatever rows are off.
TEST(SeldomDrawdown, UnheldRatesToo) {
  Layout layout = test::driven_layout(test::plain_drive());
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  const Drawdown d = drawdown(layout, {.hold_rate = false});
  ASSERT_TRUE(d.complete);
  double given = 0.0, taken = 0.0;
  for (const double v : d.delivered) given += v;
  for (const DrawdownTank& t : d.tanks) taken += t.start - t.end;
  EXPECT_NEAR((given + d.elsewhere) / taken, 1.0, 1e-6);
  EXPECT_EQ(d.delivered.at(2), 0.0);
  EXPECT_LE(d.lowest_rate, d.highest_rate);
}

}  // namespace seldom_drawdown_test
}  // namespace libflow
