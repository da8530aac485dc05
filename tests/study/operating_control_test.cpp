// SPDX-License-Identifier: MIT
/// @file
/// The controls of a layout place by place: what each kind can be set to, and that the setting found is the one worked
/// out by hand from the parts' own laws.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/study/operating_control.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/operating_state.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace operating_control_test {

using namespace units;
using test::expect_message, test::expect_refused, test::QuadraticPart;

// Every row gets 1e-5 m3/s through a hole that then loses 2 bar.
constexpr double row_flow = 1e-5, total = 2.0 * row_flow, hole_loss = 2e5;
constexpr double hole_k = hole_loss / (row_flow * row_flow);

/// Two rows behind "gauge", each a hole that loses k q^2.
Plumbing two_rows(double k = hole_k) {
  Plumbing p;
  p.supply = p.network.add_place("gauge");
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hole = p.network.add_part(fmt::format("hole {}", row), p.supply, air, Part(QuadraticPart{.k = k}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hole));
  }
  return p;
}

/// Rows 1 m wide at 1 m/s: the rate in metres is the flow of a row in m3/s.
Layout at_rate(Plumbing p, double flow = row_flow) {
  Layout layout;
  layout.name = "by hand";
  layout.job.rate = from_si<AreaRate>(flow);
  layout.job.speed = from_si<Speed>(1.0);
  layout.plumbing = std::move(p);
  return layout;
}
LiquidState water_now() { return Liquid().at(Job{}.temperature); }

/// The two rows behind a part that joins them to a supply.
template <class T>
Plumbing behind(T part, double supply, double k = hole_k) {
  Plumbing p = two_rows(k);
  p.network.add_supply("tank", from_si<Pressure>(supply));
  p.network.add_part("part", p.network.find_place("tank"), p.supply, Part(std::move(part)));
  return p;
}
Plumbing& plumbing_of(Layout& layout) { return std::get<Plumbing>(layout.plumbing); }

const Limit& limit_of(const OperatingPoint& p, const std::string& name) {
  const auto found = std::find_if(p.limits.begin(), p.limits.end(), [&](const Limit& l) { return l.name == name; });
  if (found != p.limits.end()) return *found;
  ADD_FAILURE() << "no limit " << name;
  return p.limits.front();
}

PositivePump small_pump() {
  return {.displacement = 4.0 * mL,
          .rpm = 600.0,  // sweeps 4e-5 m3/s
          .slip = {.flow = from_si<Flow>(4e-7), .gain = 2.0 * bar},
          .max_pressure = 4.0 * bar};
}
/// Its slip at 2 bar in the liquid of the test: against the viscosity.
double slip_now() { return 4e-7 * 1.0016e-3 / water_now().viscosity; }

TEST(OperatingControl, ASupplyIsSetToWhatLineAndHoleLose) {
  const double line_k = 1e14;  // 0.4 bar with both rows' flow
  Layout layout = at_rate(behind(QuadraticPart{.k = line_k}, 1e5));
  const double needed = hole_loss + line_k * total * total;
  const OperatingPoint p = operating_point(layout, "tank");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_EQ(p.control, "pressure of tank");
  EXPECT_EQ(p.unit, "Pa");
  EXPECT_NEAR(p.setting / needed, 1.0, 1e-9);
  EXPECT_DOUBLE_EQ(p.settings.low, 0.0);
  EXPECT_NEAR(p.settings.high / si(psi), 60.0, 1e-9) << "what is assumed where nothing is stated";
  EXPECT_NEAR(limit_of(p, "most pressure of tank").margin, 1.0 - needed / p.settings.high, 1e-9);

  // With less than that to give, both rows get what the square law leaves them.
  layout.job.pump_limit = 2.0 * bar;
  const OperatingPoint weak = operating_point(layout, "tank");
  EXPECT_FALSE(weak.reached);
  EXPECT_DOUBLE_EQ(weak.setting, 2e5);
  EXPECT_NEAR(weak.delivered, 2.0 * std::sqrt(2e5 / (hole_k + 4.0 * line_k)), 1e-9 * total);
  EXPECT_NE(weak.stop.find("most pressure of tank"), std::string::npos) << weak.stop;
}

TEST(OperatingControl, ASupplyHeldAtASettingGivesTheSquareRoot) {
  Layout layout = at_rate(behind(QuadraticPart{.k = 1e14}, 1e5));
  plumbing_of(layout).supply = plumbing_of(layout).network.find_place("tank");
  const double whole = hole_k + 4e14;
  for (const double pressure : {5e4, 2e5, 8e5}) {
    const Answer a = at_setting(layout, pressure);
    EXPECT_NEAR(a.evenness.total_flow, 2.0 * std::sqrt(pressure / whole), 1e-9 * total);
    EXPECT_NEAR(a.evenness.supply_pressure, pressure, 1e-6);
  }
  // A gauge that is no supply cannot be held.
  plumbing_of(layout).supply = plumbing_of(layout).network.find_place("gauge");
  EXPECT_THROW((void)at_setting(layout, 1e5), InputError);
}

TEST(OperatingControl, ARegulatorIsSetToWhatTheHolesLose) {
  const OperatingPoint p =
      operating_point(at_rate(behind(PressureRegulator{.set = 1.0 * bar, .passage_bore = 5.0 * mm}, 6e5)), "part");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_EQ(p.control, "setting of part");
  EXPECT_EQ(p.unit, "Pa");
  EXPECT_NEAR(p.setting / hole_loss, 1.0, 2.0 * PressureRegulator::held_within);
  EXPECT_DOUBLE_EQ(p.settings.low, 1.0);
  EXPECT_DOUBLE_EQ(p.settings.high, 5e6);
}

TEST(OperatingControl, ADutyIsTheShareOfTheTimeThatTheValveHasToBeOpen) {
  // Half the time open, so twice the flow while it is: the sharp hole loses what that takes.
  const Length passage = 3.0 * mm;
  const double open_drop = Orifice{.bore = passage}.law(water_now())(2.0 * total).dp;
  const OperatingPoint p =
      operating_point(at_rate(behind(PulsedValve{.passage_bore = passage}, hole_loss + open_drop)), "part");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_EQ(p.control, "duty of part");
  EXPECT_EQ(p.unit, "1");
  EXPECT_NEAR(p.setting, 0.5, 1e-7);
  EXPECT_DOUBLE_EQ(p.settings.low, 0.2) << "its least usable duty";
}

TEST(OperatingControl, ThePulseIsNeverShorterThanTheOpeningLag) {
  Plumbing p =
      behind(PulsedValve{.passage_bore = 3.0 * mm, .frequency = 10.0, .opening_lag = from_si<Time>(0.03)}, 4e5);
  const PlumbingControl c = plumbing_control(p, "part", 1e6);
  EXPECT_GT(c.settings.low, 0.3) << "0.03 s ten times a second";
  EXPECT_LT(c.settings.low, 0.31);
  EXPECT_DOUBLE_EQ(c.settings.high, 1.0);
  EXPECT_DOUBLE_EQ(c.present, 1.0);
  set_control(p, c, c.settings.low);  // its own check accepts it
  EXPECT_DOUBLE_EQ(p.network.part(p.network.find_part("part")).part.as<PulsedValve>()->duty, c.settings.low);
  EXPECT_THROW(set_control(p, c, 0.29), InputError);
}

TEST(OperatingControl, APositivePumpTurnsForTheRowsAndItsSlip) {
  const OperatingPoint p = operating_point(at_rate(behind(small_pump(), 0.0)), "part");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_EQ(p.control, "speed of part");
  // swept x speed = rows + slip at 2 bar
  EXPECT_NEAR(p.setting, (total + slip_now()) / 4e-5, 1e-9);
  const Limit& pressure = limit_of(p, "pump pressure");
  EXPECT_NEAR(pressure.value, 2e5, 1.0);
  EXPECT_NEAR(pressure.margin, 0.5, 1e-5) << "2 of 4 bar";
  EXPECT_EQ(pressure.kind, LimitKind::stops);
  EXPECT_EQ(pressure.subject, "part");
}

// A setting is put in place of the one before: one after another they do not add up.
TEST(OperatingControl, TheLastSettingCounts) {
  Plumbing p = behind(small_pump(), 0.0);
  const PlumbingControl c = plumbing_control(p, "part", 1e6);
  for (const double setting : {0.05, 1.0, 0.4}) {
    set_control(p, c, setting);
    EXPECT_DOUBLE_EQ(p.network.part(p.network.find_part("part")).part.as<PositivePump>()->rpm, 600.0 * setting);
  }
}

// One point after another, as a map asks for them: the speed of each is its own.
TEST(OperatingControl, PointsDoNotHangOnTheOneBefore) {
  OperatingSolver solver(at_rate(behind(small_pump(), 0.0)), "part");
  for (const double flow : {0.5e-5, 1.4e-5, 0.9e-5}) {
    const OperatingState state = solver.at(from_si<AreaRate>(flow), from_si<Speed>(1.0));
    ASSERT_TRUE(state.reached) << state.stop;
    const double gain = hole_k * flow * flow;
    EXPECT_NEAR(state.setting, (2.0 * flow + slip_now() * gain / 2e5) / 4e-5, 1e-9);
    EXPECT_NEAR(state.gauge / gain, 1.0, 1e-6);
  }
}

TEST(OperatingControl, AReliefValveIsSetToWhatIsLeftAheadOfItsPassage) {
  Plumbing plumbing = behind(small_pump(), 0.0);
  const Length passage = 4.0 * mm;
  plumbing.network.add_part("relief", plumbing.supply, plumbing.network.find_place("tank"),
                            Part(ReliefValve{.set = 5.0 * bar, .passage_bore = passage}));
  const OperatingPoint p = operating_point(at_rate(plumbing), "relief");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_EQ(p.control, "setting of relief");
  EXPECT_DOUBLE_EQ(p.settings.high, 5e5) << "as bought";
  // What the pump sends and the rows do not take goes back through the valve.
  const double back = 4e-5 - slip_now() - total;
  EXPECT_NEAR(p.setting, hole_loss - Orifice{.bore = passage}.law(water_now())(back).dp, 1.0);
  EXPECT_TRUE(limit_of(p, "relief valve shut").broken());
  EXPECT_NEAR(limit_of(p, "relief valve shut").value, 2e5, 1.0);
}

TEST(OperatingControl, APumpCurveTurnsByTheSpeedLaws) {
  // At half speed the flow is half and the gain a quarter: the third point, 4e-5 m3/s at 3 bar, becomes 2e-5 at 0.75.
  PumpCurve curve;
  const double gains[] = {4e5, 3.6e5, 3e5, 2e5};
  for (int i = 0; i < 4; ++i) {
    curve.points.push_back(
        {.flow = from_si<Flow>(2e-5 * i), .gain = from_si<Pressure>(gains[i]), .suction_head = 3.0 * m});
  }
  const LiquidState water = water_now();
  const double gain = 0.25 * 3e5 * water.density / si(curve.points_density);
  const OperatingPoint p = operating_point(at_rate(behind(curve, 0.0, gain / (row_flow * row_flow))), "part");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_NEAR(p.setting, 0.5, 1e-8);
  const Limit& head = limit_of(p, "suction head");
  EXPECT_NEAR(head.limit, 0.75, 1e-7) << "3 m, by the square of the speed";
  EXPECT_NEAR(head.value, (101325.0 - water.vapour_pressure) / (water.density * standard_gravity), 1e-6);
  const Limit& flow = limit_of(p, "pump flow");
  EXPECT_NEAR(flow.limit, 0.5 * 6e-5, 1e-11);
  EXPECT_NEAR(flow.margin, 1.0 / 3.0, 1e-6);
}

TEST(OperatingControl, AMetersRangeIsALimitOnBothSides) {
  Plumbing p = two_rows();
  p.network.add_fed("feed", from_si<Flow>(total));
  p.network.add_part("meter", p.network.find_place("feed"), p.supply,
                     Part(FlowMeter{.bore = 20.0 * mm,
                                    .rated_flow = 20.0 * L_per_min,
                                    .rated_loss = 5.0 * kPa,
                                    .least = from_si<Flow>(0.5 * total),
                                    .most = from_si<Flow>(4.0 * total)}));
  p.supply = p.network.find_place("feed");
  const OperatingPoint point = operating_point(at_rate(p));
  ASSERT_TRUE(point.reached);
  EXPECT_NEAR(limit_of(point, "most meter flow").margin, 0.75, 1e-9);
  EXPECT_NEAR(limit_of(point, "least meter flow").margin, 1.0, 1e-9);
  EXPECT_EQ(limit_of(point, "least meter flow").kind, LimitKind::wanted);
  // A fed total is given whatever a part does.
  expect_message([&] { (void)operating_point(at_rate(p), "meter"); }, "fed by a given flow");
}

TEST(OperatingControl, AllThatTheEndOfTheRangeGivesIsReached) {
  // What the present pump gives at full speed, asked for to the last digit.
  Layout layout = at_rate(behind(small_pump(), 0.0));
  const double most = main_job(layout).evenness.total_flow;
  layout.job.rate = from_si<AreaRate>(0.5 * most);
  const OperatingPoint p = operating_point(layout, "part");
  EXPECT_TRUE(p.reached) << p.stop;
  EXPECT_NEAR(p.setting, 1.0, 1e-9);
  EXPECT_NEAR(limit_of(p, "most speed of part").margin, 0.0, 1e-9);
}

TEST(OperatingControl, SaysWhatCanBeSet) {
  const GroundDrivenPump wheel{.displacement = 40.0 * mL,
                               .distance = 1.0 * m,
                               .ground_speed = from_si<Speed>(1.0),
                               .slip = {.flow = from_si<Flow>(1e-7), .gain = 2.0 * bar}};
  const Layout layout = at_rate(behind(wheel, 0.0));
  // Its speed is the ground's.
  expect_message([&] { (void)operating_point(layout, "part"); }, "nothing can be set on 'part'");
  expect_message([&] { (void)operating_point(layout, "gauge"); }, "nothing can be set on 'gauge'");
  expect_message([&] { (void)operating_point(layout, "tanks"); }, "did you mean 'tank'?");
  expect_refused([&] { (void)operating_point(layout, "nobody"); }, "control");
  const Layout bar = test::driven_layout(test::plain_drive());
  expect_refused([&] { OperatingSolver(bar, "pump"); }, "control");
  expect_refused([&] { (void)operating_point(bar, "pump"); }, "control");
}

/// A drive whose regulator needs another pressure than it can be set to.
TEST(OperatingControl, ARegulatorsRangeEndsTheSearchOnEitherSide) {
  Drive drive = test::full_drive(DriveControl::regulator);
  const double needed = operating_point(test::driven_layout(drive)).setting;
  Drive low = drive, high = drive;
  low.most = 0.5 * needed;
  high.least = 2.0 * needed;
  for (const bool weak : {true, false}) {
    const Layout layout = test::driven_layout(weak ? low : high);
    const OperatingPoint p = operating_point(layout);
    EXPECT_FALSE(p.reached);
    EXPECT_DOUBLE_EQ(p.setting, weak ? 0.5 * needed : 2.0 * needed);
    EXPECT_NE(p.stop.find(weak ? "most regulator" : "least regulator"), std::string::npos) << p.stop;
    EXPECT_EQ(p.delivered < p.wanted, weak);
    EXPECT_NEAR(p.delivered / at_setting(layout, p.setting).evenness.total_flow, 1.0, 1e-9);
  }
}

TEST(OperatingControl, ADrivesPumpLimitIsAgainstItsOutlet) {
  Layout layout = test::driven_layout(test::plain_drive());
  const double outlet = operating_point(layout).duty->outlet;
  for (const double share : {0.8, 2.0}) {
    layout.job.pump_limit = from_si<Pressure>(share * outlet);
    const OperatingPoint p = operating_point(layout);
    const Limit& limit = limit_of(p, "pump limit");
    EXPECT_NEAR(limit.value, outlet, 1e-6 * outlet);
    EXPECT_NEAR(limit.margin, 1.0 - 1.0 / share, 1e-6);
    EXPECT_EQ(p.runs(), share > 1.0) << "a broken pump limit stops it";
  }
}

}  // namespace operating_control_test
}  // namespace libflow
