// SPDX-License-Identifier: MIT
/// @file
/// Plumbing that no toolbar made: rows without outlets, rows that are all shut, outlets that differ within a row.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/toolbar/drive_network.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace hand_built_plumbing_test {

using namespace units;
using test::plain_job, test::water;

/// A supply held at 100 kPa and no row yet.
static Plumbing held_supply() {
  Plumbing p;
  p.supply = p.network.add_supply("supply", 100.0 * kPa);
  return p;
}

static RowPlumbing row_numbered(int number) {
  RowPlumbing row;
  row.row = number;
  row.width = 0.762;
  return row;
}

/// Adds an outlet that is an orifice, behind a check valve where it is given one.
static void add_outlet(Plumbing& p, RowPlumbing& row, const std::string& name, Length bore,
                       std::optional<Pressure> crack = std::nullopt) {
  Network& n = p.network;
  row.airs.push_back(n.add_air(name));
  Network::PlaceIndex from = p.supply;
  if (crack) {
    const Network::PlaceIndex behind = n.add_place(name + " behind");
    const CheckValve valve{.crack = *crack, .passage_bore = 4.0 * mm};
    row.check_valves.push_back(n.add_part(name + " valve", from, behind, Part(valve, name)));
    from = behind;
  }
  row.orifices.push_back(n.add_part(name + " orifice", from, row.airs.back(), Part(Orifice{.bore = bore}, name)));
  row.last_parts.push_back(row.orifices.back());
}

static Evenness judged(const Plumbing& p) { return evaluate(p, plain_job(), solve_plumbing(p, water()), water()); }

static bool is_said_shut(const Evenness& e, int row) {
  return std::any_of(e.cautions.begin(), e.cautions.end(), [&](const Caution& c) {
    return c.code == "check-valve-shut" && c.subject == fmt::format("row {}", row);
  });
}

// A row that is not shut and has no outlet gets nothing, which counts: of two rows the mean is half of the other one's.
TEST(HandBuiltPlumbing, ARowWithoutOutletsGetsNothing) {
  Plumbing p = held_supply();
  RowPlumbing fed = row_numbered(1);
  add_outlet(p, fed, "row 1", 1.0 * mm);
  p.rows = {fed, row_numbered(2)};
  const Evenness e = judged(p);
  const double flow = si(Orifice{.bore = 1.0 * mm}.flow_at(100.0 * kPa, water()));
  EXPECT_NEAR(e.total_flow, flow, 1e-9 * flow);
  EXPECT_NEAR(e.mean_rate, 0.5 * e.rows[0].rate, 1e-12 * e.mean_rate);
  EXPECT_EQ(e.rows[1].flow, 0.0);
  EXPECT_NEAR(e.rows[0].deviation, 1.0, 1e-12);
  EXPECT_EQ(e.rows[1].deviation, -1.0);
  EXPECT_EQ(e.outside, (std::vector<int>{1, 2}));
  EXPECT_EQ(e.lowest_row, 2);
  EXPECT_FALSE(e.even);
}

// Where no row is open there is nothing to be even, and no number that is none.
TEST(HandBuiltPlumbing, RowsThatAreAllShutAreNotEven) {
  Plumbing p = held_supply();
  RowPlumbing open = row_numbered(1);  // its parts stand there, but it does not count
  add_outlet(p, open, "row 1", 1.0 * mm);
  p.rows = {open, row_numbered(2)};
  for (RowPlumbing& row : p.rows) row.shut = true;
  const Evenness e = judged(p);
  EXPECT_FALSE(e.even);
  EXPECT_EQ(e.mean_rate, 0.0);
  EXPECT_EQ(e.total_flow, 0.0);
  EXPECT_EQ(e.highest_row, 0);
  EXPECT_EQ(e.lowest_row, 0);
  EXPECT_TRUE(e.outside.empty());
  for (const double v : {e.cv, e.christiansen, e.low_quarter, e.rows[0].rate, e.rows[1].deviation}) EXPECT_EQ(v, 0.0);
}

// A row's valve is closed when any of its outlets is closed, whichever comes first.
TEST(HandBuiltPlumbing, OneShutOutletOfTwoIsSaid) {
  const auto row_with = [](Pressure first, Pressure second) {
    Plumbing p = held_supply();
    RowPlumbing row = row_numbered(1);
    add_outlet(p, row, "row 1a", 1.0 * mm, first);
    add_outlet(p, row, "row 1b", 1.0 * mm, second);
    p.rows = {row};
    return judged(p);
  };
  const Pressure opens = 30.0 * kPa, stays = 120.0 * kPa;
  const Evenness both_open = row_with(opens, opens);
  EXPECT_EQ(both_open.rows[0].valve, ValveState::open);
  EXPECT_FALSE(is_said_shut(both_open, 1));
  for (const Evenness& e : {row_with(stays, opens), row_with(opens, stays)}) {
    EXPECT_EQ(e.rows[0].valve, ValveState::closed);
    EXPECT_TRUE(is_said_shut(e, 1));
    EXPECT_NEAR(e.total_flow, 0.5 * both_open.total_flow, 1e-9 * e.total_flow);
  }
  const Evenness both_shut = row_with(stays, stays);
  EXPECT_EQ(both_shut.rows[0].valve, ValveState::closed);
  EXPECT_TRUE(is_said_shut(both_shut, 1));
  EXPECT_EQ(both_shut.total_flow, 0.0);
}

// The drive of hand-built plumbing is added as a toolbar's is; it needs its setting.
TEST(HandBuiltPlumbing, ADriveWithoutASettingIsRefused) {
  Plumbing p;
  p.supply = p.network.add_place("gauge");
  RowPlumbing row = row_numbered(1);
  add_outlet(p, row, "row 1", 2.0 * mm);
  p.rows = {row};
  Drive d;
  DriveTank tank;
  tank.tank.shape = LyingTank::round(1.2 * m, 2.0 * m);
  tank.level = 0.6 * m;
  d.tanks = {tank};
  d.pump = CentrifugalPump{.shutoff = 4.0 * bar, .free_flow = 60.0 * L_per_min};
  d.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  test::expect_refused([&] { add_drive(p, d, water(), {}, p.supply); }, "drive, setting");
  d.setting = 0.8;
  add_drive(p, d, water(), {}, p.supply);
  ASSERT_TRUE(p.drive.has_value());
  EXPECT_EQ(p.tanks.size(), 1U);
  EXPECT_EQ(p.hose_total, 3.0);
  const Solution s = solve_plumbing(p, water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_GT(s.parts[row.last_parts[0]].flow, 0.0);
  EXPECT_NEAR(s.parts[p.drive->pump].flow / s.parts[row.last_parts[0]].flow, 1.0, 1e-12);
}

// The gauge stands at the tank, the pump behind it: an orifice takes more than the gauge shows, which is no share of
// it.
TEST(HandBuiltPlumbing, BehindAPumpNoShareOfTheGaugeIsTold) {
  Plumbing pumped;
  RowPlumbing row = row_numbered(1);
  Network& n = pumped.network;
  pumped.supply = n.add_supply("tank", 10.0 * kPa);
  const auto behind = n.add_place("behind the pump");
  n.add_part("pump", pumped.supply, behind,
             Part(CentrifugalPump{.shutoff = 200.0 * kPa, .free_flow = 60.0 * L_per_min}, "pump"));
  row.airs = {n.add_air("row 1")};
  row.orifices = {n.add_part("row 1 orifice", behind, row.airs[0], Part(Orifice{.bore = 1.0 * mm}, "row 1"))};
  row.last_parts = row.orifices;
  pumped.rows = {row};
  const Evenness e = judged(pumped);
  EXPECT_GT(e.rows[0].orifice_drop, 200e3) << "of the tank and the pump";
  EXPECT_LT(e.rows[0].line_drop, -190e3) << "the pump gives what the line takes, and more";
  EXPECT_EQ(e.rows[0].orifice_share, 0.0);
}

}  // namespace hand_built_plumbing_test
}  // namespace libflow
