// SPDX-License-Identifier: MIT
/// @file
/// A pump that a wheel on the ground turns goes with every speed that a study asks for.
#include <gtest/gtest.h>

#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/study/operating_state.hpp>
#include <libflow/toolbar/ground.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace ground_driven_pump_test {

using namespace units;

/// Two rows 1 m wide, each of which loses 2 bar at 1e-5 m3/s; the pump sweeps 1e-4 m3 a metre, a relief valve lets
/// back what is too much.
static Layout wheel_driven(double speed) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_place("gauge");
  const auto tank = n.add_supply("tank", 0.0 * Pa);
  const GroundDrivenPump pump{.displacement = from_si<Volume>(1e-4),
                              .distance = 1.0 * m,
                              .ground_speed = from_si<Speed>(speed),
                              .slip = {.flow = 0.1 * L_per_min, .gain = 1.0 * bar, .viscosity = 1.0 * mPa_s}};
  n.add_part("pump", tank, p.supply, Part(pump, "pump"));
  n.add_part("relief", p.supply, n.add_air("back"),
             Part(ReliefValve{.set = 5.0 * bar, .passage_bore = 8.0 * mm}, "relief"));
  for (int row = 1; row <= 2; ++row) {
    const auto air = n.add_air(fmt::format("row {}", row));
    const auto last =
        n.add_part(fmt::format("hole {}", row), p.supply, air, Part(test::QuadraticPart{.k = 2e5 / (1e-5 * 1e-5)}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, last));
  }
  Layout layout;
  layout.name = "by wheel";
  layout.job.rate = from_si<AreaRate>(1e-5);
  layout.job.speed = from_si<Speed>(speed);
  layout.plumbing = std::move(p);
  return layout;
}

// What the relief valve has to let back, and so its setting, goes with what the pump gives at that speed.
TEST(GroundDrivenPumps, AControlFindsTheSettingOfEachSpeed) {
  const Layout layout = wheel_driven(1.0);
  OperatingSolver solver(layout, "relief");
  const auto setting_at = [&](double speed) {
    const OperatingState state = solver.at(layout.job.rate, from_si<Speed>(speed));
    EXPECT_TRUE(state.reached) << speed;
    return state.setting;
  };
  const auto built_for = [&](double speed) {
    const Layout there = wheel_driven(speed);
    OperatingSolver own(there, "relief");
    return own.at(there.job.rate, there.job.speed).setting;
  };
  for (const double speed : {0.5, 1.5, 1.0}) {
    EXPECT_NEAR(setting_at(speed) / built_for(speed), 1.0, 1e-6) << speed;
  }
  // The rows get the rate at 0.5 and at 1 m/s: half the flow, a quarter of the pressure.
  EXPECT_LT(setting_at(0.5), 0.5 * setting_at(1.0));
}

TEST(GroundDrivenPumps, OnlyTheyAreTurned) {
  Network n = std::get<Plumbing>(wheel_driven(1.0).plumbing).network;
  ASSERT_TRUE(has_ground_driven_pump(n));
  turn_ground_driven_pumps(n, from_si<Speed>(1.0), from_si<Speed>(1.5));
  EXPECT_DOUBLE_EQ(si(n.part(n.find_part("pump")).part.as<GroundDrivenPump>()->ground_speed), 1.5);
  EXPECT_DOUBLE_EQ(si(n.part(n.find_part("relief")).part.as<ReliefValve>()->set), 5e5);
  Network none;
  none.add_supply("tank", 1.0 * bar);
  EXPECT_FALSE(has_ground_driven_pump(none));
}

}  // namespace ground_driven_pump_test
}  // namespace libflow
