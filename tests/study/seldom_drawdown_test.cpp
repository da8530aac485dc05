// SPDX-License-Identifier: MIT
/// @file
/// A fill with a row off that nothing holds at its rate, and one that is stopped before it begins.
#include <gtest/gtest.h>

#include <cstddef>
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

// Whoever stops a fill at the first question has full tanks.
TEST(SeldomDrawdown, StoppedBeforeItBeginsNothingWasDone) {
  const Layout layout = test::driven_layout(test::plain_drive());
  const Drawdown d = drawdown(layout, {}, [](std::size_t, std::size_t) { return false; });
  EXPECT_EQ(d.end, DrawdownEnd::stopped);
  EXPECT_FALSE(d.complete);
  EXPECT_EQ(d.time, 0.0);
  EXPECT_EQ(d.tanks.at(0).end, d.tanks[0].start);
  for (const double v : d.delivered) EXPECT_EQ(v, 0.0);
}

}  // namespace seldom_drawdown_test
}  // namespace libflow
