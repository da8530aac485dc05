// SPDX-License-Identifier: MIT
/// @file
/// Operating points: the setting found is the one that a search over whole networks finds, limits are what they say,
/// and what cannot be reached says what can.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/solve/control.hpp>
#include <libflow/study/operating_point.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace operating_point_test {

using namespace units;

const Limit& point_limit(const OperatingPoint& p, const std::string& name) {
  const auto found = std::find_if(p.limits.begin(), p.limits.end(), [&](const Limit& l) { return l.name == name; });
  if (found != p.limits.end()) return *found;
  ADD_FAILURE() << "no limit " << name;
  return p.limits.front();
}
bool has_point_limit(const OperatingPoint& p, const std::string& name) {
  return std::any_of(p.limits.begin(), p.limits.end(), [&](const Limit& l) { return l.name == name; });
}
double total_at(const Layout& layout, double setting) { return at_setting(layout, setting).evenness.total_flow; }

/// The setting by the general controller on whole networks, which shares nothing with the split search.
ControlledSolution searched(const Layout& layout, double wanted) {
  const auto& drive = *std::get<Toolbar>(layout.plumbing).drive;
  const bool falls = drive.control == DriveControl::bypass;
  const Range range = setting_range(drive);
  Answer last;
  const auto setting = [&](double s) { return falls ? range.high + range.low - s : s; };
  ControlledSolution found = reach_total({.setting = "setting",
                                          .unit = "",
                                          .limits = range,
                                          .solve_at =
                                              [&](double s) {
                                                last = at_setting(layout, setting(s));
                                                return last.solution;
                                              },
                                          .total = [&](const Solution&) { return last.evenness.total_flow; },
                                          .wanted = wanted});
  found.setting = setting(found.setting);
  return found;
}

// 5 gal/ac at 5 mph on 16 rows of 30 in: 5 x 5 x 30 x 16 / 5940 = 2.0202 gal/min (University of Florida EDIS WG013).
TEST(OperatingPoint, GivesTheTradesFlow) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  const OperatingPoint p = operating_point(layout);
  EXPECT_TRUE(p.reached);
  EXPECT_TRUE(p.runs());
  EXPECT_NEAR(p.wanted / si(gpm), 5.0 * 5.0 * 30.0 * 16.0 / 5940.0, 1e-12);
  EXPECT_NEAR(p.delivered / p.wanted, 1.0, 1e-9);
  EXPECT_EQ(p.control, "pump speed");
  EXPECT_EQ(p.unit, "1");
  EXPECT_TRUE(p.stop.empty());
}

TEST(OperatingPoint, EveryControlIsFoundAsByASearchOverWholeNetworks) {
  for (const DriveControl control : test::every_control) {
    SCOPED_TRACE(name_of(control));
    Layout layout = test::driven_layout(test::full_drive(control));
    if (control == DriveControl::bypass) layout.job.rate = 140.0 * L_per_ha;
    const OperatingPoint p = operating_point(layout);
    ASSERT_TRUE(p.reached) << p.stop;
    EXPECT_NEAR(p.delivered / p.wanted, 1.0, 1e-9);
    const ControlledSolution brute = searched(layout, p.wanted);
    ASSERT_TRUE(brute.solution.usable());
    EXPECT_NEAR(p.setting / brute.setting, 1.0, 1e-6);
    // What an operator reads does not depend on how the pressure is made.
    Layout ideal = layout;
    std::get<Toolbar>(ideal.plumbing).drive.reset();
    EXPECT_NEAR(p.answer.evenness.supply_pressure, main_job(ideal).evenness.supply_pressure, 1e-3);
    EXPECT_NEAR(p.answer.evenness.cv, main_job(ideal).evenness.cv, 1e-9);
    ASSERT_EQ(p.answer.evenness.causes.size(), main_job(ideal).evenness.causes.size());
  }
}

TEST(OperatingPoint, PumpDutyIsWhatTheNetworkSays) {
  const OperatingPoint p = operating_point(test::driven_layout(test::full_drive(DriveControl::pump_speed)));
  ASSERT_TRUE(p.duty);
  const Network& n = p.answer.plumbing.network;
  const auto part = [&](const char* id) { return p.answer.solution.parts[n.find_part(id)]; };
  EXPECT_DOUBLE_EQ(p.duty->flow, part("pump").flow);
  EXPECT_DOUBLE_EQ(p.duty->gain, -part("pump").drop);
  EXPECT_DOUBLE_EQ(p.duty->agitation, part("agitation jet").flow);
  EXPECT_DOUBLE_EQ(p.duty->bypass, part("bypass valve").flow);
  EXPECT_DOUBLE_EQ(p.duty->hydraulic_power, p.duty->flow * p.duty->gain);
  EXPECT_NEAR(p.duty->outlet - p.duty->inlet, p.duty->gain, 1e-6);  // both at the pump's height
  const double weight = p.answer.liquid.density * standard_gravity;
  EXPECT_NEAR(p.duty->suction_available * weight, p.duty->inlet + 101325.0 - p.answer.liquid.vapour_pressure, 1e-6);
  // Its reserve: at full speed against the same gauge the whole network, held there, would take so much more.
  EXPECT_GT(p.duty->reserve, 0.0);
}

TEST(OperatingPoint, ReserveIsWhatIsLeftAtTheMost) {
  // Where the wanted total is all that the drive can give, nothing is left.
  Layout layout = test::driven_layout(test::plain_drive());
  const double most = total_at(layout, 1.0);
  layout.job.rate = from_si<AreaRate>(most / (8 * si(30.0 * inch) * si(layout.job.speed)));
  const OperatingPoint p = operating_point(layout);
  EXPECT_NEAR(p.setting, 1.0, 1e-6);
  EXPECT_NEAR(p.duty->reserve, 0.0, 1e-6);
  EXPECT_TRUE(point_limit(p, "pump reserve").broken());
  EXPECT_EQ(point_limit(p, "pump reserve").kind, LimitKind::advised);
  EXPECT_NEAR(point_limit(p, "most pump speed").margin, 0.0, 1e-6);
}

TEST(OperatingPoint, UnreachableSaysWhatCanBeReachedAndWhatStopsIt) {
  for (const DriveControl control : test::every_control) {
    SCOPED_TRACE(name_of(control));
    Layout layout = test::driven_layout(test::full_drive(control));
    layout.job.rate = 3000.0 * L_per_ha;
    const OperatingPoint p = operating_point(layout);
    EXPECT_FALSE(p.reached);
    EXPECT_FALSE(p.runs());
    EXPECT_FALSE(p.stop.empty());
    EXPECT_LT(p.delivered, p.wanted);
    // Nothing in the control's range gives more.
    const Range range = setting_range(*std::get<Toolbar>(layout.plumbing).drive);
    for (int i = 0; i <= 10; ++i) {
      EXPECT_LE(total_at(layout, range.low + 0.1 * i * (range.high - range.low)), p.delivered * (1.0 + 1e-9));
    }
    for (const Answer& answer : {p.answer, main_job(layout)}) {
      const Cautions& said = answer.evenness.cautions;
      EXPECT_EQ(std::count_if(said.begin(), said.end(), [](const Caution& c) { return c.code == "rate-not-reached"; }),
                1);
      EXPECT_DOUBLE_EQ(answer.evenness.total_flow, p.delivered);
    }
  }
}

TEST(OperatingPoint, TooMuchAtTheLeastIsSaid) {
  Drive d = test::plain_drive();
  d.least = 0.9;
  const OperatingPoint p = operating_point(test::driven_layout(d));
  EXPECT_FALSE(p.reached);
  EXPECT_GT(p.delivered, p.wanted);
  EXPECT_DOUBLE_EQ(p.setting, 0.9);
  EXPECT_NE(p.stop.find("least pump speed"), std::string::npos);
}

TEST(OperatingPoint, WithoutADriveTheSupplyIsTheControl) {
  Layout layout = test::driven_layout(test::plain_drive());
  std::get<Toolbar>(layout.plumbing).drive.reset();
  OperatingPoint p = operating_point(layout);
  EXPECT_TRUE(p.reached);
  EXPECT_EQ(p.control, "supply pressure");
  EXPECT_FALSE(p.duty);
  EXPECT_DOUBLE_EQ(p.setting, main_job(layout).evenness.supply_pressure);
  EXPECT_NEAR(total_at(layout, p.setting) / p.wanted, 1.0, 1e-9);
  const double needed = p.setting;
  layout.job.pump_limit = from_si<Pressure>(0.6 * needed);
  p = operating_point(layout);
  EXPECT_FALSE(p.reached);
  EXPECT_NEAR(p.setting, 0.6 * needed, 1e-6);
  EXPECT_NEAR(p.delivered, total_at(layout, 0.6 * needed), 1e-15);
  layout.job.pump_limit = from_si<Pressure>(2.0 * needed);
  p = operating_point(layout);
  EXPECT_TRUE(p.runs());
  EXPECT_NEAR(point_limit(p, "pressure limit").margin, 0.5, 1e-12);
}

TEST(OperatingPoint, AHeldControlStays) {
  Layout layout = with_setting(test::driven_layout(test::plain_drive()), 0.7);
  const OperatingPoint p = operating_point(layout);
  EXPECT_TRUE(p.held);
  EXPECT_DOUBLE_EQ(p.setting, 0.7);
  EXPECT_FALSE(p.reached);
  EXPECT_NE(p.stop.find("holds"), std::string::npos);
}

// A free form with a pump and a tank: as it stands, and brought to the rate by each part that can be set. The setting
// is put in by hand and solved again.
TEST(OperatingPoint, FreeFormIsMovedByAPart) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "tank_and_pump.toml");
  const OperatingPoint stands = operating_point(layout);
  EXPECT_TRUE(stands.held);
  EXPECT_EQ(stands.control, "none");
  EXPECT_FALSE(stands.reached);
  EXPECT_DOUBLE_EQ(stands.delivered, main_job(layout).evenness.total_flow);
  for (const char* name : {"pump flow", "relief valve shut", "velocity", "evenness", "check valve opens"}) {
    EXPECT_TRUE(has_point_limit(stands, name)) << name;
  }
  layout.job.rate = layout.job.rate * (0.9 * stands.delivered / stands.wanted);
  for (const char* part : {"section valve", "pump"}) {
    const OperatingPoint moved = operating_point(layout, part);
    EXPECT_TRUE(moved.reached) << part << moved.stop;
    EXPECT_NEAR(moved.delivered / moved.wanted, 1.0, 1e-6) << part;
    EXPECT_LT(moved.setting, 1.0) << part;
    // The same by hand: the part at that setting gives that total.
    Plumbing by_hand = std::get<Plumbing>(layout.plumbing);
    const auto index = by_hand.network.find_part(part);
    if (const auto* pump = by_hand.network.part(index).part.as<CentrifugalPump>()) {
      CentrifugalPump slower = *pump;
      slower.speed = moved.setting;
      by_hand.network.replace_part(index, Part(slower, "pump"));
    } else {
      Valve valve = *by_hand.network.part(index).part.as<Valve>();
      valve.open = moved.setting;
      by_hand.network.replace_part(index, Part(valve, "valve"));
    }
    const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
    const Evenness e = evaluate(by_hand, layout.job, solve_plumbing(by_hand, liquid), liquid);
    EXPECT_NEAR(e.total_flow / moved.wanted, 1.0, 1e-6) << part;
  }
  layout.job.rate = layout.job.rate * 20.0;
  const OperatingPoint beyond = operating_point(layout, "pump");
  EXPECT_FALSE(beyond.reached);
  EXPECT_DOUBLE_EQ(beyond.setting, 1.0);
  EXPECT_NE(beyond.stop.find("most speed of pump"), std::string::npos) << beyond.stop;
  test::expect_refused([&] { (void)operating_point(layout, "pumb"); }, "control");
  test::expect_refused([&] { (void)operating_point(layout, "hose 1"); }, "control");
  test::expect_refused([&] { (void)operating_point(layout, "tank"); }, "control");
}

TEST(OperatingPoint, FreeFormThatIsFed) {
  const std::filesystem::path folder(LIBFLOW_EXAMPLES);
  const OperatingPoint p = operating_point(read_layout(folder / "free_form.toml"));
  EXPECT_TRUE(p.reached);
  EXPECT_EQ(p.control, "supply pressure");
}

TEST(OperatingLimits, AreReadOffTheSolution) {
  Layout layout = test::driven_layout(test::full_drive(DriveControl::pump_speed));
  auto& toolbar = std::get<Toolbar>(layout.plumbing);
  toolbar.hose_rating = 5.0 * units::bar;
  toolbar.orifice_least = 10.0 * kPa;
  toolbar.orifice_most = 20.0 * kPa;
  toolbar.drive->suction_limit = -20.0 * kPa;
  const OperatingPoint p = operating_point(layout);
  const Evenness& e = p.answer.evenness;
  double least = HUGE_VAL, most = 0.0;
  for (const RowResult& r : e.rows) {
    least = std::min(least, r.orifice_drop);
    most = std::max(most, r.orifice_drop);
  }
  EXPECT_NEAR(point_limit(p, "least orifice drop").value, least, 1e-9);
  EXPECT_NEAR(point_limit(p, "most orifice drop").value, most, 1e-9);
  EXPECT_NEAR(point_limit(p, "most orifice drop").margin, 1.0 - most / 2e4, 1e-12);
  EXPECT_NEAR(point_limit(p, "least orifice drop").margin, least / 1e4 - 1.0, 1e-12);
  const Limit& hose = point_limit(p, "hose rating");
  EXPECT_GT(hose.value, 0.95 * e.supply_pressure);
  EXPECT_LE(hose.value, e.supply_pressure);
  EXPECT_DOUBLE_EQ(hose.limit, 5e5);
  EXPECT_NEAR(point_limit(p, "suction vacuum").value, p.duty->inlet, 1e-9);
  EXPECT_EQ(point_limit(p, "suction above boiling").limit, p.answer.liquid.vapour_pressure);
  EXPECT_NEAR(point_limit(p, "pump flow").limit, 1e-3 * p.setting, 1e-15);  // 60 L/min at full speed
  EXPECT_NEAR(point_limit(p, "most meter flow").value, p.delivered, 1e-12 * p.delivered);
  const double bore = 0.025;
  EXPECT_GE(point_limit(p, "velocity").value, p.delivered / (M_PI / 4.0 * bore * bore) * (1.0 - 1e-9));
  for (std::size_t i = 1; i < p.limits.size(); ++i) EXPECT_LE(p.limits[i - 1].margin, p.limits[i].margin);
  EXPECT_EQ(binding_limit(p.limits), &p.limits.front());
}

// A check valve's limit is broken exactly where the valve is shut.
TEST(OperatingLimits, CheckValvesShutWhereTheirLimitIsBroken) {
  Layout layout = test::driven_layout(test::plain_drive());
  auto& toolbar = std::get<Toolbar>(layout.plumbing);
  toolbar.side_slope = slope_percent(10.0);
  int shut = 0, open = 0;
  for (const double rate : {2.0, 5.0, 10.0, 20.0, 40.0, 100.0}) {
    layout.job.rate = rate * L_per_ha;
    const OperatingPoint p = operating_point(layout);
    ASSERT_TRUE(p.reached);
    const auto& rows = p.answer.evenness.rows;
    const bool any = std::any_of(rows.begin(), rows.end(), [](const auto& r) { return r.valve == ValveState::closed; });
    EXPECT_EQ(point_limit(p, "check valve opens").broken(), any) << rate;
    EXPECT_EQ(p.runs(), !any);
    (any ? shut : open) += 1;
  }
  EXPECT_GT(shut, 0);
  EXPECT_GT(open, 0);
}

TEST(OperatingLimits, ReliefAndPumpPressureAndSuctionHead) {
  Drive d = test::plain_drive();
  d.relief = ReliefValve{.set = 0.6 * units::bar, .passage_bore = 8.0 * mm};
  d.pump = PositivePump{.displacement = 50.0 * mL,
                        .rpm = 600.0,
                        .slip = {.flow = 1.0 * L_per_min, .gain = 2.0 * units::bar},
                        .max_pressure = 1.0 * units::bar};
  const OperatingPoint p = operating_point(test::driven_layout(d));
  ASSERT_TRUE(p.reached);
  EXPECT_GT(p.duty->relief, 0.0);
  EXPECT_TRUE(point_limit(p, "relief valve shut").broken());
  EXPECT_NEAR(point_limit(p, "pump pressure").value, p.duty->outlet, 1e-9);
  EXPECT_FALSE(has_point_limit(p, "suction head"));

  Drive curve = test::plain_drive();
  PumpCurve pump;
  for (const double q : {0.0, 20.0, 40.0, 60.0}) {
    pump.points.push_back(
        {.flow = q * L_per_min, .gain = (4.0 - q * q / 1200.0) * units::bar, .suction_head = 3.0 * m});
  }
  curve.pump = pump;
  const OperatingPoint c = operating_point(test::driven_layout(curve));
  const Limit& head = point_limit(c, "suction head");
  EXPECT_NEAR(head.limit, 3.0 * c.setting * c.setting, 1e-9);  // required head by the speed law
  EXPECT_DOUBLE_EQ(head.value, c.duty->suction_available);
}

// Shaft power is power to the liquid over the efficiency, for every kind of pump.
TEST(OperatingPoint, ShaftPowerOfEveryPump) {
  const PumpSlip slip{.flow = 0.5 * L_per_min, .gain = 4.0 * bar};
  const PumpChoice pumps[] = {
      CentrifugalPump{.shutoff = 4.0 * bar, .free_flow = 60.0 * L_per_min, .efficiency = 0.5},
      PositivePump{.displacement = from_si<Volume>(4e-5), .rpm = 500.0, .slip = slip, .efficiency = 0.5},
      GroundDrivenPump{.displacement = from_si<Volume>(4e-4), .distance = 2.0 * m, .slip = slip, .efficiency = 0.5}};
  for (const PumpChoice& pump : pumps) {
    SCOPED_TRACE(pump.index());
    Drive d = test::plain_drive();
    d.pump = pump;
    d.setting = 0.5;
    const OperatingPoint p = operating_point(test::driven_layout(d));
    ASSERT_TRUE(p.duty && p.duty->shaft_power);
    EXPECT_GT(p.duty->hydraulic_power, 0.0);
    EXPECT_NEAR(p.duty->hydraulic_power / *p.duty->shaft_power, 0.5, 1e-6);
  }
  EXPECT_FALSE(operating_point(test::driven_layout(test::plain_drive())).duty->shaft_power);
}

}  // namespace operating_point_test
}  // namespace libflow
