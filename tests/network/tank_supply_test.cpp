// SPDX-License-Identifier: MIT
/// @file
/// A tank in a network: its outlet is a supply at the level's pressure.
#include <gtest/gtest.h>

#include <libflow/network/tank_supply.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace tank_supply_test {

using namespace units;

Tank tank() {
  return {.shape = UprightTank::round(1.2 * m, 1.5 * m), .outlet_level = 0.1 * m, .lowest_level = 0.15 * m};
}

TEST(TankSupply, HeldAtTheLevelsPressure) {
  Network n;
  const LiquidState thick = test::thick();
  const auto i = add_tank(n, "tank", tank(), 1.1 * m, thick, 0.6 * m);
  EXPECT_EQ(n.place(i).kind, PlaceKind::supply);
  EXPECT_NEAR(n.place(i).elevation, 0.7, 1e-15);
  EXPECT_NEAR(n.place(i).pressure, thick.density * standard_gravity * 1.0, 1e-9);
  // The potential is that of the liquid's surface, wherever the outlet is.
  Tank low = tank();
  low.outlet_level = 0.0 * m;
  const auto k = add_tank(n, "low", low, 1.1 * m, thick, 0.6 * m);
  const double weight = thick.density * standard_gravity;
  EXPECT_NEAR(n.place(i).pressure + weight * n.place(i).elevation, n.place(k).pressure + weight * n.place(k).elevation,
              1e-8);
}

TEST(TankSupply, RefusesBadInput) {
  Network n;
  test::expect_refused([&] { add_tank(n, "t1", Tank{}, 1.0 * m, test::water()); }, "tank 't1', plan");
  test::expect_refused([&] { add_tank(n, "t1", tank(), 1.6 * m, test::water()); }, "tank 't1', level");
  test::expect_refused([&] { add_tank(n, "t1", tank(), 0.14 * m, test::water()); }, "tank 't1', level");
  EXPECT_EQ(n.place_count(), 0u);
  add_tank(n, "t1", tank(), 1.0 * m, test::water());
  test::expect_refused([&] { add_tank(n, "t1", tank(), 1.0 * m, test::water()); }, "t1");
}

}  // namespace tank_supply_test
}  // namespace libflow
