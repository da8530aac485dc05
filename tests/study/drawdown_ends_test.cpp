// SPDX-License-Identifier: MIT
/// @file
/// How a drawdown begins and ends: nothing to draw from, nothing that flows, a control that does not answer at first,
/// tanks whose rest cannot be fed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/operating_point.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace drawdown_ends_test {

using namespace units;

RowPlumbing ending_row(int row, Network::PlaceIndex air, Network::PartIndex last) {
  return {.row = row,
          .x = 0.0,
          .width = 0.76,
          .airs = {air},
          .last_parts = {last},
          .orifices = {},
          .check_valves = {},
          .hoses = {}};
}
LiquidState ending_liquid() { return test::plain_job().liquid.at(test::plain_job().temperature); }
double head_pressure(double head) { return ending_liquid().density * standard_gravity * head; }
bool cautioned(const Drawdown& d, const std::string& code) {
  return std::any_of(d.cautions.begin(), d.cautions.end(), [&](const Caution& c) { return c.code == code; });
}
double taken(const Drawdown& d) {
  double sum = 0.0;
  for (const DrawdownTank& t : d.tanks) sum += t.start - t.end;
  return sum;
}

TEST(DrawdownEnds, WithoutATankThereIsNothingToDraw) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  const auto air = p.network.add_air("row 1");
  p.rows.push_back(ending_row(1, air, p.network.add_part("hole", p.supply, air, Part(Orifice{.bore = 2.0 * mm}))));
  const Layout layout{.name = "no tank", .job = test::plain_job(), .plumbing = p};
  test::expect_message([&] { (void)drawdown(layout); }, "a supply place with a tank");
}

TEST(DrawdownEnds, AValveThatTheFullTankDoesNotOpen) {
  const Tank tank{.shape = UprightTank::round(0.5 * m, 1.0 * m)};
  Plumbing p;
  p.supply = add_tank(p.network, "tank", tank, 1.0 * m, ending_liquid());
  p.tanks.push_back({p.supply, tank, 1.0});
  const auto air = p.network.add_air("row 1");
  const CheckValve valve{.crack = from_si<Pressure>(head_pressure(1.01)), .passage_bore = 4.0 * mm};
  p.rows.push_back(ending_row(1, air, p.network.add_part("valve", p.supply, air, Part(valve))));
  const Drawdown d = drawdown({.name = "shut", .job = test::plain_job(), .plumbing = p});
  EXPECT_EQ(d.end, DrawdownEnd::flow_faded);
  EXPECT_EQ(d.time, 0.0);
  EXPECT_EQ(d.delivered.at(0), 0.0);
  EXPECT_EQ(d.tanks.at(0).end, d.tanks.at(0).start);
}

// The valve of the second row shuts 1 mm above the lowest level: in the same stride of the integration as the end.
TEST(DrawdownEnds, AValveThatShutsJustBeforeTheEnd) {
  Tank tank{.shape = UprightTank::round(0.5 * m, 1.0 * m)};
  tank.lowest_level = 0.1 * m;
  Plumbing p;
  p.supply = add_tank(p.network, "tank", tank, 1.0 * m, ending_liquid());
  p.tanks.push_back({p.supply, tank, 1.0});
  const auto first = p.network.add_air("row 1"), second = p.network.add_air("row 2");
  p.rows.push_back(
      ending_row(1, first, p.network.add_part("hole", p.supply, first, Part(test::QuadraticPart{.k = 1e11}))));
  const CheckValve valve{.crack = from_si<Pressure>(head_pressure(0.101)), .passage_bore = 4.0 * mm};
  p.rows.push_back(ending_row(2, second, p.network.add_part("valve", p.supply, second, Part(valve))));
  const Drawdown d =
      drawdown({.name = "late", .job = test::plain_job(), .plumbing = p}, {.samples = 2, .least_flow = 0.0});
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  ASSERT_EQ(d.events.size(), 2U);
  EXPECT_EQ(d.events[0].kind, DrawdownEventKind::valve_shut);
  EXPECT_EQ(d.events[0].subject, "valve");
  EXPECT_EQ(d.events[1].kind, DrawdownEventKind::tank_empty);
  // From there on the hole alone, in closed form: the square root of the head falls in time.
  const double plan = std::numbers::pi / 4.0 * 0.25;
  const double rest = plan * 2.0 * std::sqrt(1e11 / head_pressure(1.0)) * (std::sqrt(0.101) - std::sqrt(0.1));
  EXPECT_NEAR((d.events[1].time - d.events[0].time) / rest, 1.0, 1e-3);
  EXPECT_NEAR(d.tanks[0].end, plan * 0.1, 1e-9);
  EXPECT_NEAR(std::accumulate(d.delivered.begin(), d.delivered.end(), 0.0), taken(d), 1e-8 * taken(d));
}

// A relief valve set above what the pump can give does nothing until it is turned down to that: the search begins on
// the flat.
TEST(DrawdownEnds, ARateHeldByAReliefValve) {
  Drive drive = test::full_drive(DriveControl::relief);
  drive.tanks[0].tank.lowest_level = 0.1 * m;
  const Layout layout = test::driven_layout(drive);
  const Drawdown d = drawdown(layout, {.samples = 4, .tolerance = 1e-6});
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 8.0 * si(30.0 * inch);
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(d.time * wanted / (d.tanks[0].start - d.tanks[0].unusable), 1.0, 1e-5)
      << "what the jet, the bypass and the valve return stays in the tank";
  for (const DrawdownSample& s : d.samples) EXPECT_NEAR(s.mean_rate / si(layout.job.rate), 1.0, 1e-6);
  // At the beginning the setting is that of the full tank's operating point.
  Layout full = layout;
  DriveTank& tank = std::get<Toolbar>(full.plumbing).drive->tanks[0];
  tank.level = tank.tank.height();
  EXPECT_NEAR(d.samples.front().setting / operating_point(full).setting, 1.0, 1e-5);
}

/// Two tanks, each with a metering pump of its own: a flow drawn from it and the same flow fed to a row.
Layout metering_pumps(bool regulator) {
  Plumbing p;
  for (int k = 1; k <= 2; ++k) {
    const Tank tank{.shape = UprightTank::round((k == 1 ? 0.5 : 0.8) * m, 1.0 * m)};
    const auto place = add_tank(p.network, fmt::format("tank {}", k), tank, 1.0 * m, ending_liquid());
    p.tanks.push_back({place, tank, 1.0});
    const auto sucked = p.network.add_drawn(fmt::format("pump {} in", k), 1.0 * L_per_min);
    p.network.add_part(fmt::format("suction {}", k), place, sucked, Part(Hose{.length = 1.0 * m, .bore = 20.0 * mm}));
    const auto pushed = p.network.add_fed(fmt::format("pump {} out", k), 1.0 * L_per_min);
    const auto air = p.network.add_air(fmt::format("row {}", k));
    p.rows.push_back(ending_row(
        k, air,
        p.network.add_part(fmt::format("hose {}", k), pushed, air, Part(Hose{.length = 1.0 * m, .bore = 8.0 * mm}))));
    if (k == 1) p.supply = pushed;
  }
  if (regulator) {  // beside the rows, from the second tank
    const auto jet = p.network.add_place("jet"), out = p.network.add_air("drain");
    p.network.add_part("regulator", p.tanks[1].place, jet,
                       Part(PressureRegulator{.set = 1.0 * kPa, .passage_bore = 3.0 * mm}));
    p.network.add_part("drain hole", jet, out, Part(Orifice{.bore = 0.5 * mm}));
  }
  return {.name = "two pumps", .job = test::plain_job(), .plumbing = p};
}

TEST(DrawdownEnds, WhatTheRestCannotFeedIsSaid) {
  for (const bool regulator : {false, true}) {
    SCOPED_TRACE(regulator);
    const Drawdown d = drawdown(metering_pumps(regulator), {.samples = 4, .tolerance = 1e-6});
    ASSERT_TRUE(d.first_empty);
    EXPECT_EQ(*d.first_empty, 0U);
    EXPECT_NEAR(d.air_time * si(1.0 * L_per_min) / (std::numbers::pi / 4.0 * 0.25), 1.0, 1e-6)
        << "volume over a constant flow";
    EXPECT_EQ(d.end, DrawdownEnd::flow_faded);
    ASSERT_TRUE(cautioned(d, "rest-not-fed"));
    const auto said =
        std::find_if(d.cautions.begin(), d.cautions.end(), [](const Caution& c) { return c.code == "rest-not-fed"; });
    EXPECT_NE(said->text.find("'pump 1 in'"), std::string::npos) << said->text;
  }
}

}  // namespace drawdown_ends_test
}  // namespace libflow
