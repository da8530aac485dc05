// SPDX-License-Identifier: MIT
/// @file
/// Events of a drawdown that fall together or come in an unusual order: a valve that opens, valves that flip just
/// before a tank is empty or full or before the flow fades, a tank that is empty from the first, controls at their
/// ends.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/report/drawdown_text.hpp>
#include <libflow/study/drawdown.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace drawdown_events_test {

using namespace units;
using Kind = DrawdownEventKind;

static LiquidState liquid() { return test::plain_job().liquid.at(test::plain_job().temperature); }
/// Pressure of 1 m of it [Pa].
static double weight() { return liquid().density * standard_gravity; }
/// Plan of an upright round tank of half a metre [m2].
static const double plan = std::numbers::pi / 4.0 * 0.25;
static Tank half_metre(double lowest = 0.0) {
  Tank tank{.shape = UprightTank::round(0.5 * m, 1.0 * m)};
  tank.lowest_level = lowest * m;
  return tank;
}
static Network::PlaceIndex add_standing(Plumbing& p, const char* name, const Tank& tank, double level) {
  const auto place = add_tank(p.network, name, tank, level * m, liquid());
  p.tanks.push_back({place, tank, level});
  return place;
}
static RowPlumbing row_of(int row, Network::PlaceIndex air, Network::PartIndex last) {
  return {.row = row,
          .x = 0.0,
          .width = 0.76,
          .airs = {air},
          .last_parts = {last},
          .orifices = {},
          .check_valves = {},
          .hoses = {}};
}
/// A row at the tank's height, through a part.
static void add_row(Plumbing& p, Network::PlaceIndex from, const char* part, const Part& through) {
  const int number = static_cast<int>(p.rows.size()) + 1;
  const auto air = p.network.add_air(fmt::format("row {}", number));
  p.rows.push_back(row_of(number, air, p.network.add_part(part, from, air, through)));
}
/// A metering pump: so much is drawn at one place and given at the other.
static void add_pump(Plumbing& p, const char* name, Network::PlaceIndex from, Network::PlaceIndex to, Flow flow) {
  const auto in = p.network.add_drawn(fmt::format("{} in", name), flow);
  const auto out = p.network.add_fed(fmt::format("{} out", name), flow);
  p.network.add_part(fmt::format("{} suction", name), from, in, Part(test::QuadraticPart{.k = 1e8}));
  p.network.add_part(fmt::format("{} delivery", name), out, to, Part(test::QuadraticPart{.k = 1e8}));
}
/// A row that gets next to nothing of `from` and nothing below this level.
static void add_trickle(Plumbing& p, Network::PlaceIndex from, double level) {
  const auto behind = p.network.add_place("behind the valve");
  p.network.add_part("valve", from, behind,
                     Part(CheckValve{.crack = from_si<Pressure>(weight() * level), .passage_bore = 4.0 * mm}));
  add_row(p, behind, "trickle", Part(test::QuadraticPart{.k = 1e22}));
}
static Layout layout_of(Plumbing p) { return {.name = "tanks", .job = test::plain_job(), .plumbing = std::move(p)}; }

static std::optional<double> when(const Drawdown& d, Kind kind, const std::string& subject) {
  for (const DrawdownEvent& e : d.events) {
    if (e.kind == kind && e.subject == subject) return e.time;
  }
  return std::nullopt;
}
static double taken(const Drawdown& d) {
  double sum = 0.0;
  for (const DrawdownTank& t : d.tanks) sum += t.start - t.end;
  return sum;
}
/// In order of time, nothing lost on the way.
static void expect_lawful(const Drawdown& d) {
  EXPECT_TRUE(
      std::is_sorted(d.events.begin(), d.events.end(), [](const auto& a, const auto& b) { return a.time < b.time; }));
  EXPECT_TRUE(
      std::is_sorted(d.samples.begin(), d.samples.end(), [](const auto& a, const auto& b) { return a.time < b.time; }));
  const double given = std::accumulate(d.delivered.begin(), d.delivered.end(), 0.0);
  EXPECT_NEAR(given + d.elsewhere + d.spilled, taken(d), 1e-7 * taken(d));
}

// Tank 1 stands at 1 m and empties through its line and the hole; tank 2 at 0.5 m waits behind a check valve. Alone,
// tank 1 loses the square root of its head evenly in time, and at the hole stands k_hole / (k_line + k_hole) of it.
TEST(DrawdownEvents, AValveOpensWhereTheOtherTankHasFallenToIt) {
  const double k_line = 2e9, k_hole = 1e10, crack = 0.1;  // the last in metres of liquid
  Plumbing p;
  p.supply = p.network.add_place("tie");
  const auto first = add_standing(p, "tank 1", half_metre(), 1.0);
  const auto second = add_standing(p, "tank 2", half_metre(), 0.5);
  p.network.add_part("line", first, p.supply, Part(test::QuadraticPart{.k = k_line}));
  p.network.add_part("valve", second, p.supply,
                     Part(CheckValve{.crack = from_si<Pressure>(crack * weight()), .passage_bore = 8.0 * mm}));
  add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = k_hole}));
  const Drawdown d = drawdown(layout_of(p), {.from_full = false, .least_flow = 0.1, .tolerance = 1e-11});
  const double opens = (0.5 - crack) * (k_line + k_hole) / k_hole;
  const double exact = plan * 2.0 * std::sqrt((k_line + k_hole) / weight()) * (1.0 - std::sqrt(opens));
  const auto at = when(d, Kind::valve_open, "valve");
  ASSERT_TRUE(at);
  EXPECT_NEAR(*at / exact, 1.0, 1e-6);
  for (const DrawdownSample& s : d.samples) {
    if (s.time <= *at) {
      EXPECT_NEAR(s.level[1], 0.5, 1e-9) << "nothing comes through a shut valve";
    }
  }
  EXPECT_LT(d.samples.back().level[1], 0.45) << "it feeds from then on";
  EXPECT_FALSE(when(d, Kind::valve_shut, "valve")) << "it was shut from the first";
  expect_lawful(d);
}

// A metering pump takes the level down evenly, 1 m in `whole`; the trickle is nothing beside it. The integration takes
// strides as long as the rest of the fill, so that both events fall into one.
TEST(DrawdownEvents, AValveThatShutsAheadOfTheEmptyTankIsToldAtItsOwnTime) {
  const double whole = plan / si(1.0 * L_per_min);
  for (const double shuts : {0.1 * (1.0 + 1e-13), 0.12, 0.15, 0.2, 0.25, 0.3}) {
    SCOPED_TRACE(shuts);
    Plumbing p;
    const auto tank = add_standing(p, "tank", half_metre(0.1), 1.0);
    p.supply = p.network.add_place("nozzle");
    add_pump(p, "pump", tank, p.supply, 1.0 * L_per_min);
    add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = 1e10}));
    add_trickle(p, tank, shuts);
    const Drawdown d = drawdown(layout_of(p), {.samples = 2, .least_flow = 0.0, .tolerance = 1e-3});
    const auto shut = when(d, Kind::valve_shut, "valve"), empty = when(d, Kind::tank_empty, "tank");
    ASSERT_TRUE(empty);
    EXPECT_NEAR(*empty / whole, 0.9, 1e-3);
    if (shuts > 0.11) {  // at the lowest level itself the tank's end is told, whatever the valve does behind it
      EXPECT_NEAR(shut.value_or(NAN) / whole, 1.0 - shuts, 1e-3);
    }
    EXPECT_NEAR(d.tanks[0].end, plan * 0.1, 1e-9);
    EXPECT_EQ(d.end, DrawdownEnd::all_empty);
    expect_lawful(d);
  }
}

// One pump feeds the row, one lifts into a tank that is full after 0.5 m of the first tank's 1 m, or a little later
// than a valve shuts.
TEST(DrawdownEvents, AValveThatShutsAheadOfTheBrimIsToldAtItsOwnTime) {
  const double whole = plan / si(2.0 * L_per_min);
  for (const double tolerance : {1e-5, 1e-8}) {
    for (const double shuts : {0.5002, 0.5005, 0.505, 0.52, 0.55, 0.6, 0.7}) {
      SCOPED_TRACE(fmt::format("{} at {}", shuts, tolerance));
      Plumbing p;
      const auto tank = add_standing(p, "tank", half_metre(), 1.0);
      const auto filled = add_standing(p, "filled", half_metre(), 0.75);
      p.supply = p.network.add_place("nozzle");
      add_pump(p, "pump", tank, p.supply, 1.0 * L_per_min);
      add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = 1e10}));
      add_pump(p, "lift", tank, filled, 1.0 * L_per_min);
      add_trickle(p, tank, shuts);
      const Time longest = from_si<Time>(0.9 * whole);
      const Drawdown d =
          drawdown(layout_of(p),
                   {.from_full = false, .samples = 2, .least_flow = 0.0, .longest = longest, .tolerance = tolerance});
      const auto shut = when(d, Kind::valve_shut, "valve"), brim = when(d, Kind::overflow_begins, "filled");
      EXPECT_TRUE(shut) << "it is told";
      ASSERT_TRUE(brim);
      EXPECT_NEAR(shut.value_or(NAN) / whole, 1.0 - shuts, 5e-5);
      EXPECT_LT(shut.value_or(NAN), *brim);
      EXPECT_NEAR(*brim / whole, 0.5, 1e-6) << "a quarter of a metre at half the pace";
      EXPECT_NEAR(d.spilled / (si(1.0 * L_per_min) * 0.4 * whole), 1.0, 1e-3);
      EXPECT_EQ(d.end, DrawdownEnd::time_limit);
      EXPECT_FALSE(d.complete);
      EXPECT_NEAR(d.time, si(longest), 1e-9 * si(longest));
      expect_lawful(d);
    }
  }
}

// A second row of the tank that is filled opens where it stands at the brim: both at one moment.
TEST(DrawdownEvents, AValveThatOpensAtTheBrimDoesNotHideIt) {
  const double whole = plan / si(2.0 * L_per_min);
  Plumbing p;
  const auto tank = add_standing(p, "tank", half_metre(), 1.0);
  const auto filled = add_standing(p, "filled", half_metre(), 0.75);
  p.supply = p.network.add_place("nozzle");
  add_pump(p, "pump", tank, p.supply, 1.0 * L_per_min);
  add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = 1e10}));
  add_pump(p, "lift", tank, filled, 1.0 * L_per_min);
  add_trickle(p, filled, 1.0 - 1e-13);
  const Drawdown d = drawdown(layout_of(p), {.from_full = false, .longest = from_si<Time>(0.9 * whole)});
  const auto brim = when(d, Kind::overflow_begins, "filled");
  ASSERT_TRUE(brim);
  EXPECT_NEAR(*brim / whole, 0.5, 1e-6);
  EXPECT_NEAR(d.spilled / (si(1.0 * L_per_min) * 0.4 * whole), 1.0, 1e-5);
  EXPECT_EQ(d.tanks[1].end, d.tanks[1].capacity);
  expect_lawful(d);
}

// The flow has faded where the hole's flow, which goes with the square root of the level, is half of what both rows
// want; the trickle ends a little before.
TEST(DrawdownEvents, AValveThatShutsAheadOfTheFadingIsToldAtItsOwnTime) {
  const Job job = test::plain_job();
  const double wanted = 2.0 * si(job.rate) * si(job.speed) * 0.76;
  const double fades = 0.25, k = weight() * fades / std::pow(0.5 * wanted, 2);
  const auto time_to = [&](double level) { return plan * 2.0 * std::sqrt(k / weight()) * (1.0 - std::sqrt(level)); };
  for (const double above : {0.0005, 0.002, 0.01}) {
    SCOPED_TRACE(above);
    Plumbing p;
    p.supply = add_standing(p, "tank", half_metre(), 1.0);
    add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = k}));
    add_trickle(p, p.supply, fades + above);
    const Drawdown d = drawdown(layout_of(p), {.samples = 2, .least_flow = 0.5, .tolerance = 1e-5});
    const auto shut = when(d, Kind::valve_shut, "valve");
    ASSERT_TRUE(shut);
    EXPECT_NEAR(*shut / time_to(fades + above), 1.0, 1e-3);
    EXPECT_EQ(d.end, DrawdownEnd::flow_faded);
    EXPECT_NEAR(d.time / time_to(fades), 1.0, 1e-3);
    EXPECT_LT(*shut, d.time);
    expect_lawful(d);
  }
}

// Both lose the same; whether rounding leaves the second one a drop or not, it is empty at that moment.
TEST(DrawdownEvents, TanksThatAreAlikeAreEmptyAtOneMoment) {
  for (const double lowest : {0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4}) {
    SCOPED_TRACE(lowest);
    Plumbing p;
    p.supply = p.network.add_place("tie");
    for (const char* name : {"tank 1", "tank 2"}) {
      const auto tank = add_standing(p, name, half_metre(lowest), 1.0);
      p.network.add_part(fmt::format("line of {}", name), tank, p.supply, Part(test::QuadraticPart{.k = 4e9}));
    }
    add_row(p, p.supply, "hole", Part(test::QuadraticPart{.k = 1e10}));
    const Drawdown d = drawdown(layout_of(p), {.samples = 2, .least_flow = 0.0});
    ASSERT_TRUE(d.tanks[0].empty_time && d.tanks[1].empty_time);
    EXPECT_EQ(d.end, DrawdownEnd::all_empty);
    // As one tank of twice the plan behind a quarter of a line's loss.
    const double exact = 2.0 * plan * 2.0 * std::sqrt((1e10 + 1e9) / weight()) * (1.0 - std::sqrt(lowest));
    for (const DrawdownTank& t : d.tanks) EXPECT_NEAR(*t.empty_time / exact, 1.0, 1e-6);
    expect_lawful(d);
  }
}

// Outlets at three heights: the highest valve shuts first, then the next, and each is cautioned of once.
TEST(DrawdownEvents, EachValveThatShutsIsCautionedOfOnce) {
  Plumbing p;
  p.supply = add_standing(p, "tank", half_metre(), 1.0);
  for (int number = 1; number <= 3; ++number) {
    const auto air = p.network.add_air(fmt::format("row {}", number), 0.2 * (number - 1) * m);
    const auto valve =
        p.network.add_part(fmt::format("valve {}", number), p.supply, air,
                           Part(CheckValve{.crack = from_si<Pressure>(0.2 * weight()), .passage_bore = 4.0 * mm}));
    p.rows.push_back(row_of(number, air, valve));
    p.rows.back().check_valves = {valve};
  }
  const Drawdown d = drawdown(layout_of(p), {.samples = 40, .least_flow = 1e-4});
  std::vector<std::string> shut, cautioned;
  for (const DrawdownEvent& e : d.events) {
    if (e.kind == Kind::valve_shut) shut.push_back(e.subject);
  }
  for (const Caution& c : d.cautions) {
    if (c.code == "check-valve-shut") cautioned.push_back(c.subject);
  }
  EXPECT_EQ(shut, (std::vector<std::string>{"valve 3", "valve 2"}));
  EXPECT_EQ(cautioned, (std::vector<std::string>{"row 3", "row 2"}));
  expect_lawful(d);
}

// The first tank is empty when the fill begins, and its pump would draw from nothing.
TEST(DrawdownEvents, WhereTheRestCannotFeedTheRowsFromTheFirstTheFillIsNone) {
  Plumbing p;
  for (const int k : {1, 2}) {
    const auto tank = add_standing(p, k == 1 ? "tank 1" : "tank 2", half_metre(0.1), k == 1 ? 0.1 : 1.0);
    const auto nozzle = p.network.add_place(fmt::format("nozzle {}", k));
    add_pump(p, k == 1 ? "pump 1" : "pump 2", tank, nozzle, 1.0 * L_per_min);
    add_row(p, nozzle, k == 1 ? "hole 1" : "hole 2", Part(test::QuadraticPart{.k = 1e10}));
    if (k == 1) p.supply = nozzle;
  }
  const Drawdown d = drawdown(layout_of(p), {.from_full = false});
  EXPECT_EQ(d.end, DrawdownEnd::flow_faded);
  EXPECT_EQ(d.time, 0.0);
  ASSERT_TRUE(d.first_empty);
  EXPECT_EQ(*d.first_empty, 0U);
  EXPECT_EQ(d.tanks[1].end, d.tanks[1].start);
  for (const double v : d.delivered) EXPECT_EQ(v, 0.0);
  EXPECT_TRUE(
      std::any_of(d.cautions.begin(), d.cautions.end(), [](const Caution& c) { return c.code == "rest-not-fed"; }));
  EXPECT_TRUE(test::says(drawdown_text(d), "with the empty tank shut the others do not feed the rows"));
}

// Another supply at twice the tank's pressure feeds the row through a square-law line and hole, and holds the tank's
// valve shut. The rows get what they get, from elsewhere, till the time is up.
TEST(DrawdownEvents, ATankThatNothingIsDrawnFromRests) {
  const double k = 1e11, longest = 3600.0;
  Plumbing p;
  p.supply = p.network.add_supply("main", from_si<Pressure>(4.0 * weight()));
  const auto tie = p.network.add_place("tie");
  p.network.add_part("line", p.supply, tie, Part(test::QuadraticPart{.k = k}));
  const auto tank = add_standing(p, "tank", half_metre(), 1.0);
  p.network.add_part("valve", tank, tie, Part(CheckValve{.crack = 1.0 * kPa, .passage_bore = 8.0 * mm}));
  add_row(p, tie, "hole", Part(test::QuadraticPart{.k = k}));
  const Drawdown d = drawdown(layout_of(p), {.longest = from_si<Time>(longest)});
  EXPECT_EQ(d.end, DrawdownEnd::time_limit) << "nothing faded";
  EXPECT_FALSE(d.complete);
  EXPECT_EQ(d.time, longest);
  EXPECT_EQ(d.tanks[0].end, d.tanks[0].start);
  const double flow = std::sqrt(4.0 * weight() / (2.0 * k));
  EXPECT_NEAR(d.delivered.at(0) / (flow * longest), 1.0, 1e-6);
  EXPECT_NEAR(d.elsewhere / (-flow * longest), 1.0, 1e-6) << "brought by the other supply";
  EXPECT_TRUE(d.events.empty());
}

/// The time in which the usable liquid of a bar's tank is gone at the wanted rate [s].
static double time_at_rate(const Layout& layout, const Drawdown& d, int rows) {
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * rows * si(30.0 * inch);
  return (d.tanks[0].start - d.tanks[0].unusable) / wanted;
}
static Layout driven(Drive drive) {
  drive.tanks[0].tank.lowest_level = 0.1 * m;
  return test::driven_layout(std::move(drive));
}

// Rate out of reach, above or below: the control stays at its end, and the fill is that of a control held there.
TEST(DrawdownEvents, ARateOutOfReachIsThatOfTheControlsEnd) {
  for (const bool too_much : {true, false}) {
    SCOPED_TRACE(too_much);
    Layout layout = driven(test::plain_drive());
    auto& drive = *std::get<Toolbar>(layout.plumbing).drive;
    drive.least = 0.7;
    layout.job.rate = (too_much ? 1000.0 : 10.0) * L_per_ha;
    const double end = too_much ? 1.0 : 0.7;
    const DrawdownOptions options{.samples = 4, .tolerance = 1e-6};
    const Drawdown moved = drawdown(layout, options);
    drive.setting = end;
    const Drawdown held = drawdown(layout, options);
    EXPECT_EQ(moved.end, DrawdownEnd::all_empty);
    EXPECT_NEAR(moved.time / held.time, 1.0, 1e-6);
    for (const DrawdownSample& s : moved.samples) EXPECT_EQ(s.setting, end);
    EXPECT_EQ(std::any_of(moved.cautions.begin(), moved.cautions.end(),
                          [](const Caution& c) { return c.code == "rate-falls-short"; }),
              too_much);
    expect_lawful(moved);
  }
}

// A twentieth of what the pump could give, behind valves that open at most of its pressure: below that nothing comes,
// and a search along the slope from the full speed stands on the flat for long.
TEST(DrawdownEvents, ALowRateBehindStrongValvesIsHeldAllTheSame) {
  for (const double crack : {0.3, 0.6, 0.9, 1.2, 1.8, 2.4}) {
    SCOPED_TRACE(crack);
    Layout layout = driven(test::plain_drive());
    auto& bar = std::get<Toolbar>(layout.plumbing);
    bar.check_valve->crack = crack * units::bar;
    layout.job.rate = 8.0 * L_per_ha;
    const Drawdown d = drawdown(layout, {.samples = 4, .longest = from_si<Time>(72.0 * 3600.0), .tolerance = 1e-6});
    EXPECT_EQ(d.end, DrawdownEnd::all_empty);
    EXPECT_NEAR(d.time / time_at_rate(layout, d, 8), 1.0, 1e-6);
    for (const DrawdownSample& s : d.samples) EXPECT_NEAR(s.mean_rate / si(layout.job.rate), 1.0, 1e-6);
    expect_lawful(d);
  }
}

// What a row does not take the others do not get more of: the rate is that of the rows that are on.
TEST(DrawdownEvents, WithARowOffTheRateOfTheOthersIsHeld) {
  Layout layout = driven(test::plain_drive());
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  const Drawdown d = drawdown(layout, {.samples = 4, .tolerance = 1e-6});
  EXPECT_EQ(d.end, DrawdownEnd::all_empty);
  EXPECT_NEAR(d.time / time_at_rate(layout, d, 7), 1.0, 1e-6);
  EXPECT_EQ(d.delivered.at(2), 0.0);
  for (const DrawdownSample& s : d.samples) EXPECT_NEAR(s.mean_rate / si(layout.job.rate), 1.0, 1e-6);
  expect_lawful(d);
}

}  // namespace drawdown_events_test
}  // namespace libflow
