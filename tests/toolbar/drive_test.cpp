// SPDX-License-Identifier: MIT
/// @file
/// Drives: what they add to a network, what their controls do, and drives that cannot be.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace drive_test {

using namespace units;

struct DriveRun {
  Plumbing plumbing;
  Solution solution;
  LiquidState liquid;

  [[nodiscard]] double flow(const std::string& part) const {
    return solution.parts[plumbing.network.find_part(part)].flow;
  }
  [[nodiscard]] double rows() const {
    double sum = 0.0;
    for (const RowPlumbing& row : plumbing.rows) {
      for (const auto part : row.last_parts) sum += solution.parts[part].flow;
    }
    return sum;
  }
  [[nodiscard]] double gauge() const { return solution.places[plumbing.supply].total_pressure; }
};

DriveRun run_drive(Layout layout, double setting) {
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.drive->setting = setting;
  DriveRun run;
  run.liquid = layout.job.liquid.at(layout.job.temperature);
  run.plumbing = build_network(bar, layout.job);
  run.solution = solve_plumbing(run.plumbing, run.liquid);
  EXPECT_TRUE(run.solution.usable()) << run.solution.message;
  return run;
}

TEST(Drive, AFreeControlLeavesTheRowsNetworkAsItIs) {
  Layout with = test::driven_layout(test::plain_drive());
  Toolbar without = std::get<Toolbar>(with.plumbing);
  without.drive.reset();
  const Plumbing a = build_network(without, with.job), b = build_network(std::get<Toolbar>(with.plumbing), with.job);
  ASSERT_EQ(a.network.part_count(), b.network.part_count());
  ASSERT_EQ(a.network.place_count(), b.network.place_count());
  for (std::size_t i = 0; i < a.network.part_count(); ++i) EXPECT_EQ(a.network.part(i).id, b.network.part(i).id);
  EXPECT_FALSE(b.drive.has_value());
  EXPECT_EQ(b.network.place(b.supply).kind, PlaceKind::fed);
}

TEST(Drive, WhatThePumpSendsArrivesAtRowsAndInTheTank) {
  for (const DriveControl control : test::every_control) {
    SCOPED_TRACE(name_of(control));
    Drive d = test::full_drive(control);
    const double setting = is_pressure(control) ? si(1.5 * bar) : 0.7;
    const DriveRun r = run_drive(test::driven_layout(d), setting);
    const DrivePlumbing& at = *r.plumbing.drive;
    double back = 0.0;
    for (const auto& part : {at.relief, at.bypass, at.agitation}) back += part ? r.solution.parts[*part].flow : 0.0;
    EXPECT_GT(r.rows(), 0.0);
    EXPECT_NEAR(r.solution.parts[at.pump].flow, r.rows() + back, 1e-12 * r.solution.parts[at.pump].flow);
    EXPECT_NEAR(r.flow("delivery hose"), r.rows(), 1e-12 * r.rows());
    EXPECT_NEAR(r.flow("suction hose"), r.solution.parts[at.pump].flow, 1e-12 * r.solution.parts[at.pump].flow);
  }
}

TEST(Drive, MoreSettingGivesMoreExceptOfABypass) {
  for (const DriveControl control : test::every_control) {
    SCOPED_TRACE(name_of(control));
    const Layout layout = test::driven_layout(test::full_drive(control));
    const Range range = setting_range(*std::get<Toolbar>(layout.plumbing).drive);
    const double low = is_pressure(control) ? si(0.8 * bar) : 0.4, high = is_pressure(control) ? si(1.6 * bar) : 0.9;
    ASSERT_TRUE(range.contains(low) && range.contains(high));
    const double at_low = run_drive(layout, low).rows(), at_high = run_drive(layout, high).rows();
    EXPECT_GT(control == DriveControl::bypass ? at_low - at_high : at_high - at_low, 1e-4 * at_high);
  }
}

// Speed laws (Crane Technical Paper 410, equations of example 7-33): the pump's own point, brought back to full speed,
// lies on the curve as given: gain / n^2 at flow / n.
TEST(Drive, SlowedPumpWorksOnItsCurveByTheSpeedLaws) {
  const CentrifugalPump pump{.shutoff = 4.0 * bar, .free_flow = 60.0 * L_per_min};
  for (const double n : {0.4, 0.55, 0.8, 1.0}) {
    const DriveRun r = run_drive(test::driven_layout(test::plain_drive()), n);
    const PartResult& at = r.solution.parts[r.plumbing.drive->pump];
    const double q = at.flow / n / si(pump.free_flow);
    const double gain = si(pump.shutoff) * (1.0 - pump.linear_share * q - (1.0 - pump.linear_share) * q * q);
    EXPECT_NEAR(-at.drop, n * n * gain, 1e-9 * gain);
  }
}

TEST(Drive, LevelAndSlopeActAsColumnsOfLiquid) {
  Layout layout = test::driven_layout(test::plain_drive());
  const auto inlet = [&](const Layout& l) {
    const DriveRun r = run_drive(l, 0.6);
    return std::pair{r, r.solution.places[r.plumbing.drive->pump_inlet].total_pressure};
  };
  const auto [base, p0] = inlet(layout);
  const double weight = base.liquid.density * standard_gravity;
  // Where the pump passes nothing the inlet stands at the column above it: level 0.6 m in a tank 0.9 m up, pump at 0.5.
  auto& bar = std::get<Toolbar>(layout.plumbing);
  Layout still = layout;
  std::get<Toolbar>(still.plumbing).drive->pump = CentrifugalPump{.shutoff = 1.0 * Pa, .free_flow = 1.0 * L_per_min};
  for (double slope : {0.0, 8.0}) {
    SCOPED_TRACE(slope);
    auto& tilted = std::get<Toolbar>(still.plumbing);
    tilted.side_slope = slope_percent(slope);
    tilted.fore_aft_slope = slope_percent(-slope);
    tilted.drive->tanks[0].right = 1.0 * m;
    tilted.drive->tanks[0].ahead = 3.0 * m;
    const DriveRun r = run_drive(still, 1.0);
    ASSERT_LT(std::abs(r.rows()), 1e-9);
    const double lift = std::sin(std::atan(slope / 100.0)) * (1.0 - 3.0);
    EXPECT_NEAR(r.solution.places[r.plumbing.drive->pump_inlet].total_pressure, weight * (0.9 + 0.6 + lift - 0.5), 0.1);
  }
  // And a higher level shows at the inlet, but for the suction hose's own loss.
  bar.drive->tanks[0].level = 0.8 * m;
  const auto [higher, p1] = inlet(layout);
  EXPECT_NEAR(p1 - p0, 0.2 * weight, 0.02 * weight * 0.2);
  EXPECT_EQ(higher.plumbing.tanks.size(), 1U);
  EXPECT_EQ(higher.plumbing.tanks[0].level, 0.8);
}

TEST(Drive, RegulatorHoldsThePressureBehindIt) {
  const Layout layout = test::driven_layout(test::full_drive(DriveControl::regulator));
  for (const double set : {0.6e5, 1.0e5, 1.5e5}) {
    const DriveRun r = run_drive(layout, set);
    const auto behind = r.plumbing.network.to(*r.plumbing.drive->regulator);
    EXPECT_NEAR(r.solution.places[behind].total_pressure, set, 1e-3);
  }
}

TEST(Drive, SettingsAreWhatThePartCanDo) {
  Drive d = test::full_drive(DriveControl::pulse);
  EXPECT_EQ(setting_range(d).low, d.pulse->least_usable_duty);
  // 30 ms to open at 15 pulses a second: 45 % of the time is gone before anything flows.
  d.pulse->frequency = 15.0;
  d.pulse->opening_lag = from_si<Time>(0.03);
  EXPECT_NEAR(setting_range(d).low, 0.45, 0.01);
  EXPECT_NO_THROW(with_setting(d, setting_range(d).low).pulse->check("pulsed valve"));
  EXPECT_EQ(setting_range(test::full_drive(DriveControl::relief)).high, 5e5);
  EXPECT_EQ(setting_range(test::full_drive(DriveControl::bypass)).low, 0.0);
  EXPECT_EQ(setting_range(test::plain_drive()).high, 1.0);
}

TEST(Drive, GroundDrivenPumpKeepsTheRate) {
  Drive d = test::plain_drive();
  // 8 rows of 0.762 m: 100 L/ha needs 0.6096 L for every 10 m.
  d.pump = GroundDrivenPump{.displacement = 0.6096 * L,
                            .distance = 10.0 * m,
                            .ground_speed = 1.0 * m_per_s,
                            .slip = {.flow = 1e-6 * L_per_min, .gain = 1.0 * bar}};
  for (const double speed : {4.0, 8.0, 12.0}) {
    Layout layout = test::driven_layout(d);
    layout.job.speed = speed * kmh;
    const DriveRun r = run_drive(layout, 1.0);
    const double rate = r.rows() / (8 * si(30.0 * inch) * si(layout.job.speed));
    EXPECT_NEAR(rate / si(100.0 * L_per_ha), 1.0, 2e-3);  // the least slip that the part allows
  }
}

TEST(Drive, TiedTanksShareTheFlow) {
  Drive d = test::plain_drive();
  d.tanks.push_back(d.tanks[0]);
  for (DriveTank& t : d.tanks) t.line_length = 1.0 * m;
  DriveRun r = run_drive(test::driven_layout(d), 0.8);
  EXPECT_NEAR(r.flow("tank 1 line"), r.flow("tank 2 line"), 1e-9 * r.flow("tank 1 line"));
  EXPECT_NEAR(r.flow("tank 1 line") + r.flow("tank 2 line"), r.rows(), 1e-12 * r.rows());
  d.tanks[1].level = 0.3 * m;  // the fuller one fills the other
  r = run_drive(test::driven_layout(d), 0.8);
  EXPECT_GT(r.flow("tank 1 line"), r.rows());
  EXPECT_LT(r.flow("tank 2 line"), 0.0);
}

// A single tank may stand away from the pump with a hose of its own; a strainer may stand ahead of the pump. By hand:
// the column of 0.6 m of liquid in a tank 0.9 m up over the pump at 0.5 m, less what the parts on the way lose at the
// flow.
TEST(Drive, WhatStandsAheadOfThePumpTakesFromItsInlet) {
  const Strainer screen{.bore = 38.0 * mm,
                        .rated_flow = 10.0 * L_per_min,
                        .rated_loss = 4.0 * kPa,
                        .opening = 0.3 * mm,
                        .open_area = 1e-3 * (m * m)};
  for (const bool strained : {false, true}) {
    for (const double line : {0.0, 1.5}) {
      SCOPED_TRACE(fmt::format("line {} m{}", line, strained ? ", strainer" : ""));
      Drive d = test::plain_drive();
      d.tanks[0].line_length = line * m;
      d.tanks[0].line_bore = 25.0 * mm;
      if (strained) d.suction_strainer = screen;
      const Layout layout = test::driven_layout(d);
      const DriveRun r = run_drive(layout, 0.8);
      const double pumped = r.solution.parts[r.plumbing.drive->pump].flow;
      EXPECT_NEAR(pumped / r.rows(), 1.0, 1e-12);
      double loss = Hose{.length = 2.0 * m, .bore = 38.0 * mm, .roughness = 1.5e-6 * m}.law(r.liquid)(pumped).dp;
      if (line > 0.0) {
        EXPECT_NEAR(r.flow("tank line") / pumped, 1.0, 1e-12);
        loss += Hose{.length = line * m, .bore = 25.0 * mm, .roughness = 1.5e-6 * m}.law(r.liquid)(pumped).dp;
      }
      if (strained) {
        EXPECT_NEAR(r.flow("suction strainer") / pumped, 1.0, 1e-12);
        loss += screen.law(r.liquid)(pumped).dp;
      }
      const double column = r.liquid.density * standard_gravity * (0.9 + 0.6 - 0.5);
      EXPECT_NEAR(r.solution.places[r.plumbing.drive->pump_inlet].total_pressure, column - loss, 1e-6 * column);
      // What there is to cut: eight rows of 2 m, suction and delivery hose, and the tank's own.
      EXPECT_NEAR(r.plumbing.hose_total, 8 * 2.0 + 2.0 + 3.0 + line, 1e-12);
    }
  }
}

TEST(DriveErrors, NameTheFieldAndWhatIsAllowed) {
  using SpoilDrive = std::function<void(Drive&)>;
  const auto refused = [](const SpoilDrive& spoil, const std::string& field) {
    Drive d = test::full_drive(DriveControl::throttle);
    EXPECT_NO_THROW(check(d));
    spoil(d);
    d.setting = d.setting.value_or(0.5);
    Layout layout = test::driven_layout(d);
    test::expect_refused([&] { (void)build_network(std::get<Toolbar>(layout.plumbing), layout.job); }, field);
  };
  constexpr double drive_nan = std::numeric_limits<double>::quiet_NaN();
  refused([](Drive& d) { d.tanks.clear(); }, "drive, tanks");
  refused([](Drive& d) { d.tanks.resize(21, d.tanks[0]); }, "drive, tanks");
  refused([](Drive& d) { d.tanks.resize(2, d.tanks[0]); }, "tank 1, line length");
  refused([](Drive& d) { d.tanks[0].height = 60.0 * m; }, "tank, height");
  refused([](Drive& d) { d.tanks[0].ahead = from_si<Length>(drive_nan); }, "tank, ahead");
  refused([](Drive& d) { d.tanks[0].right = -51.0 * m; }, "tank, right");
  refused([](Drive& d) { d.tanks[0].level = 1.3 * m; }, "tank 'tank', level");
  refused([](Drive& d) { d.suction.length = -1.0 * m; }, "suction, line, length");
  refused([](Drive& d) { d.delivery.bore = 0.0 * m; }, "delivery, line, bore");
  refused([](Drive& d) { d.pump_height = 51.0 * m; }, "pump, height");
  refused([](Drive& d) { d.pump = CentrifugalPump{}; }, "pump, shutoff");
  refused([](Drive& d) { d.suction_velocity = 0.0 * m_per_s; }, "suction velocity");
  refused([](Drive& d) { d.delivery_velocity = from_si<Speed>(drive_nan); }, "delivery velocity");
  refused([](Drive& d) { d.suction_limit = -2.0 * bar; }, "suction limit");
  refused([](Drive& d) { d.least = 0.0; }, "drive, least setting");
  refused([](Drive& d) { d.most = 1.1; }, "drive, most setting");
  refused(
      [](Drive& d) {
        d.least = 0.9;
        d.most = 0.8;
      },
      "drive, most setting");
  refused([](Drive& d) { d.setting = 0.0; }, "drive, setting");
  for (const DriveControl control : test::every_control) {
    if (control == DriveControl::pump_speed) continue;
    Drive d = test::plain_drive();
    d.control = control;
    test::expect_refused([&] { check(d); }, "drive, control");
  }
  Drive bare = test::plain_drive();
  bare.delivery.length = 0.0 * m;
  test::expect_refused([&] { (void)run_drive(test::driven_layout(bare), 1.0); }, "delivery");
  Layout both = test::driven_layout(test::plain_drive());
  both.job.pressure = 1.0 * bar;
  test::expect_refused([&] { (void)run_drive(both, 1.0); }, "job, pressure");
}

bool warns_of_relief(const Drive& d) {
  const Layout layout = test::driven_layout(d);
  const DriveRun run = run_drive(layout, 0.5);
  const Cautions found = evaluate(run.plumbing, layout.job, run.solution, run.liquid).cautions;
  return std::any_of(found.begin(), found.end(),
                     [](const Caution& c) { return c.code == "no-relief-valve" && c.subject.ends_with("'pump'"); });
}

TEST(Drive, APositivePumpWithoutAReliefValveIsCautioned) {
  const PumpSlip slip{.flow = 0.5 * L_per_min, .gain = 4.0 * bar};
  Drive d = test::plain_drive();
  EXPECT_FALSE(warns_of_relief(d));  // a centrifugal pump stops at its shutoff
  for (const PumpChoice& pump :
       {PumpChoice(PositivePump{.displacement = from_si<Volume>(4e-5), .rpm = 500.0, .slip = slip}),
        PumpChoice(GroundDrivenPump{
            .displacement = from_si<Volume>(4e-4), .distance = 2.0 * m, .ground_speed = {}, .slip = slip})}) {
    d.pump = pump;
    d.relief.reset();
    EXPECT_TRUE(warns_of_relief(d));
    d.relief = ReliefValve{.set = 5.0 * bar, .passage_bore = 8.0 * mm};
    EXPECT_FALSE(warns_of_relief(d));
  }
}

}  // namespace drive_test
}  // namespace libflow
