// SPDX-License-Identifier: MIT
/// @file
/// Faults of parts that plain bars do not have: suspension hose, pulsed valves, positive and ground-driven pumps, pump
/// curves, tanks alone. What they do is worked out by hand from the parts' own laws.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace fault_parts_test {

using namespace units;
using test::expect_message, test::QuadraticPart;

/// One row of a layout place by place, 1 m wide.
RowPlumbing row_of(int row, Network::PlaceIndex air, Network::PartIndex last) {
  return {.row = row,
          .x = row - 1.5,
          .width = 1.0,
          .hose_length = 0.0,
          .airs = {air},
          .last_parts = {last},
          .orifices = {},
          .check_valves = {},
          .hoses = {}};
}
Layout free_form(Plumbing p) {
  Layout layout{.name = "by hand", .job = test::plain_job(), .plumbing = std::move(p)};
  layout.job.speed = from_si<Speed>(1.0);
  return layout;
}
const FaultAnswer& answer_for(const WhatIf& w, Fault fault) {
  return *std::find_if(w.answers.begin(), w.answers.end(), [&](const auto& a) { return a.fault.fault == fault; });
}
LiquidState water_of(const Layout& layout) { return layout.job.liquid.at(layout.job.temperature); }

// Rabinowitsch: laminar, the flow of a power-law liquid at one pressure goes with bore^((3n + 1) / n); with n = 1/2
// that is the fifth power.
TEST(FaultParts, ANarrowHoseOfASuspension) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  const SuspensionHose hose{.length = 5.0 * m, .bore = 10.0 * mm, .consistency = 5.0, .flow_index = 0.5};
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto part = p.network.add_part(fmt::format("hose {}", row), p.supply, air, Part(hose));
    p.rows.push_back(row_of(row, air, part));
    p.rows.back().hoses = {part};
    p.rows.back().hose_length = 5.0;
  }
  const FaultAnswer a = answer_for(what_if(free_form(p), {.row = 1}), Fault::hose_half_bore);
  ASSERT_TRUE(a.setting_kept.answered()) << a.setting_kept.why_not;
  EXPECT_NEAR(a.setting_kept.row_change, 1.0 / 32.0 - 1.0, 1e-5);
  EXPECT_NEAR(a.setting_kept.neighbour_change, 0.0, 1e-9) << "the supply is held";
  EXPECT_NEAR(a.setting_kept.total_change, 0.5 * (1.0 / 32.0 - 1.0), 1e-5);
  // At the same total the two share it 1 : 32, at a pressure higher by the square root of that (n = 1/2).
  EXPECT_NEAR(a.total_held.row_change, 2.0 / 33.0 - 1.0, 1e-5);
  EXPECT_NEAR(a.total_held.gauge / 1e5, std::sqrt(64.0 / 33.0), 1e-4);
}

/// Two rows of a pulsed valve each with its orifice in it; with a hose ahead of the valve or without.
Plumbing pulsed_rows(bool hose, bool first_has_orifice) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 2.0 * bar);
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto air = p.network.add_air(name);
    const auto ahead = hose ? p.network.add_place(name + " end") : p.supply;
    PulsedValve valve{.passage_bore = 3.0 * mm, .outlet_bore = 1.0 * mm, .duty = 0.5};
    if (row == 1 && !first_has_orifice) valve.outlet_bore.reset();
    const auto part = p.network.add_part(name + " valve", ahead, air, Part(valve));
    p.rows.push_back(row_of(row, air, part));
    p.rows.back().orifices = {part};
    if (!hose) continue;
    p.rows.back().hoses = {
        p.network.add_part(name + " hose", p.supply, ahead, Part(Hose{.length = 1.0 * m, .bore = 12.0 * mm}))};
  }
  return p;
}

TEST(FaultParts, AnOrificeLostFromAPulsedValve) {
  for (const bool hose : {true, false}) {
    SCOPED_TRACE(hose);
    const Layout layout = free_form(pulsed_rows(hose, true));
    const FaultAnswer a = answer_for(what_if(layout, {.row = 1}), Fault::orifice_missing);
    ASSERT_TRUE(a.fault.applies()) << a.fault.why_not;
    const Evenness drawn = main_job(free_form(pulsed_rows(hose, false))).evenness;
    EXPECT_NEAR(a.setting_kept.total / drawn.total_flow, 1.0, 1e-9);
    EXPECT_NEAR(a.setting_kept.evenness.rows[0].flow / drawn.rows[0].flow, 1.0, 1e-9);
    if (hose) continue;
    // The passage alone is left, open half the time: half of what a hole of 3 mm lets through at 2 bar.
    EXPECT_NEAR(Orifice{.bore = 3.0 * mm}.law(water_of(layout))(2.0 * a.setting_kept.evenness.rows[0].flow).dp, 2e5,
                1e-3);
  }
}

// A pump that sweeps S and slips L g at a gain g feeds two holes of k q^2: S = Q + L k Q^2 / 4.
constexpr double swept = 4e-5, slip = 4e-7, slip_gain = 2e5, pump_hole = 5e14;
double total_through(double leak) {
  return (std::sqrt(1.0 + leak * pump_hole * swept) - 1.0) / (0.5 * leak * pump_hole);
}
PositivePump rotary() {
  return {.displacement = 4.0 * mL, .rpm = 600.0, .slip = {.flow = from_si<Flow>(slip), .gain = 2.0 * bar}};
}
/// The same sweep and slip, from the ground: 40 mL each metre at 1 m/s.
GroundDrivenPump wheel() {
  return {.displacement = 40.0 * mL,
          .distance = 1.0 * m,
          .ground_speed = from_si<Speed>(1.0),
          .slip = {.flow = from_si<Flow>(slip), .gain = 2.0 * bar}};
}
template <class T>
Plumbing pumped_rows(T pump, double k = pump_hole) {
  Plumbing p;
  p.network.add_supply("tank", 0.0 * bar);
  p.supply = p.network.add_place("gauge");
  p.network.add_part("pump", p.network.find_place("tank"), p.supply, Part(std::move(pump)));
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    p.rows.push_back(
        row_of(row, air, p.network.add_part(fmt::format("hole {}", row), p.supply, air, Part(QuadraticPart{.k = k}))));
  }
  return p;
}

TEST(FaultParts, AWornPositivePumpSlipsMore) {
  const Layout layout = free_form(pumped_rows(rotary()));
  const double thin = 1.0016e-3 / water_of(layout).viscosity, wear = 0.2;
  const WhatIf w = what_if(layout, {.pump_wear = wear});
  const double base = total_through(slip * thin / slip_gain);
  EXPECT_NEAR(w.base_total / base, 1.0, 1e-9);
  EXPECT_EQ(w.moved, "pump speed");
  const FaultAnswer& a = answer_for(w, Fault::pump_worn);
  ASSERT_TRUE(a.setting_kept.answered()) << a.setting_kept.why_not;
  EXPECT_NEAR(a.setting_kept.total / total_through((slip + wear * swept) * thin / slip_gain), 1.0, 1e-9);
  // With the same total the gain is the same; what its gaps let back hangs on that gain, not on the speed.
  const double gain = 0.25 * pump_hole * base * base;
  EXPECT_NEAR(a.total_held.total_change, 0.0, 1e-8);
  EXPECT_NEAR(a.total_held.setting, (base + (slip + wear * swept) * thin * gain / slip_gain) / swept, 1e-7);
}

TEST(FaultParts, APumpFromTheGroundIsAPositivePumpOfItsSweep) {
  const WhatIf turned = what_if(free_form(pumped_rows(rotary()))), rolled = what_if(free_form(pumped_rows(wheel())));
  ASSERT_EQ(turned.answers.size(), rolled.answers.size());
  std::size_t answered = 0;
  for (std::size_t i = 0; i < turned.answers.size(); ++i) {
    const FaultAnswer &a = turned.answers[i], &b = rolled.answers[i];
    for (const auto& [x, y] : {std::pair(&a.setting_kept, &b.setting_kept), std::pair(&a.total_held, &b.total_held)}) {
      EXPECT_EQ(x->why_not, y->why_not) << a.fault.name;
      if (!x->answered()) continue;
      ++answered;
      EXPECT_NEAR(x->total / y->total, 1.0, 1e-9) << a.fault.name;
      EXPECT_NEAR(x->gauge / y->gauge, 1.0, 1e-9) << a.fault.name;
      EXPECT_NEAR(x->setting, y->setting, 1e-7) << a.fault.name;
    }
  }
  EXPECT_GE(answered, 4U) << "a plugged row and a worn pump at least, both ways";
}

TEST(FaultParts, APumpCurveTurnsFasterForOneRowLess) {
  // g is the gain that one hole takes for the whole total; both holes take a quarter of it. A quarter faster, by the
  // speed laws, gives g at the same flow where the curve has g / 1.25^2 at 0.8 of it.
  const double whole = 2e-5, g = 4e5;
  PumpCurve curve;
  const std::pair<double, double> points[] = {{0.0, 1.0}, {0.4, 0.85}, {0.8, 0.64}, {1.0, 0.25}, {1.2, 0.05}};
  for (const auto& [flow, gain] : points) {
    curve.points.push_back({.flow = from_si<Flow>(flow * whole), .gain = from_si<Pressure>(gain * g)});
  }
  Layout layout = free_form(pumped_rows(curve, 1.0));
  const double heavy = water_of(layout).density / si(curve.points_density);
  layout.plumbing = pumped_rows(curve, heavy * g / (whole * whole));
  const WhatIf w = what_if(layout, {.row = 1});
  EXPECT_NEAR(w.base_total / whole, 1.0, 1e-9);
  const FaultEffect& held = answer_for(w, Fault::row_plugged).total_held;
  ASSERT_TRUE(held.answered()) << held.why_not;
  EXPECT_TRUE(held.limit.empty()) << held.limit;
  EXPECT_NEAR(held.setting, 1.25, 1e-7);
  EXPECT_NEAR(held.gauge / (heavy * g), 1.0, 1e-8);
  // 15 % less gain at every flow is what 15 % wear means.
  PumpCurve worn = curve;
  for (PumpPoint& point : worn.points) point.gain = 0.85 * point.gain;
  Layout drawn = layout;
  drawn.plumbing = pumped_rows(worn, heavy * g / (whole * whole));
  EXPECT_NEAR(answer_for(w, Fault::pump_worn).setting_kept.total / main_job(drawn).evenness.total_flow, 1.0, 1e-9);
}

/// A tank over two rows, each with a hose of its own.
Plumbing gravity_rows() {
  Plumbing p;
  const Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  p.supply = add_tank(p.network, "tank", tank, 0.8 * m, Liquid().at(Job{}.temperature), 2.0 * m);
  p.tanks.push_back({p.supply, tank, 0.8});
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose =
        p.network.add_part(fmt::format("hose {}", row), p.supply, air, Part(Hose{.length = 3.0 * m, .bore = 8.0 * mm}));
    p.rows.push_back(row_of(row, air, hose));
    p.rows.back().hoses = {hose};
  }
  return p;
}

TEST(FaultParts, ATankAloneKeepsItsLevel) {
  const WhatIf w = what_if(free_form(gravity_rows()), {.row = 2});
  EXPECT_TRUE(w.moved.empty());
  EXPECT_FALSE(w.has_setting);
  EXPECT_EQ(w.kept, "the tank's level stays");
  const FaultAnswer& a = answer_for(w, Fault::row_plugged);
  EXPECT_FALSE(a.total_held.answered());
  EXPECT_NE(a.total_held.why_not.find("nothing can be moved"), std::string::npos) << a.total_held.why_not;
  // The other row keeps its head and so its flow; half of the total is gone.
  EXPECT_NEAR(a.setting_kept.total_change, -0.5, 1e-9);
  EXPECT_NEAR(a.setting_kept.neighbour_change, 0.0, 1e-9);
  EXPECT_EQ(a.setting_kept.dry, std::vector<int>{2});
}

TEST(FaultParts, AnEmptyTankBehindAGivenFlowLeavesNoAnswer) {
  // Each tank has a metering pump of its own, a flow drawn and the same flow fed.
  Plumbing p;
  const LiquidState water = Liquid().at(Job{}.temperature);
  const Tank tank{.shape = UprightTank::round(1.0 * m, 1.0 * m)};
  for (int k = 1; k <= 2; ++k) {
    const auto place = add_tank(p.network, fmt::format("tank {}", k), tank, 1.0 * m, water);
    p.tanks.push_back({place, tank, 1.0});
    const auto sucked = p.network.add_drawn(fmt::format("pump {} in", k), 1.0 * L_per_min);
    p.network.add_part(fmt::format("suction {}", k), place, sucked, Part(Hose{.length = 1.0 * m, .bore = 20.0 * mm}));
    const auto pushed = p.network.add_fed(fmt::format("pump {} out", k), 1.0 * L_per_min);
    const auto air = p.network.add_air(fmt::format("row {}", k));
    p.rows.push_back(row_of(
        k, air,
        p.network.add_part(fmt::format("hose {}", k), pushed, air, Part(Hose{.length = 1.0 * m, .bore = 8.0 * mm}))));
    if (k == 1) p.supply = pushed;
  }
  const WhatIf w = what_if(free_form(p));
  const FaultAnswer& a = answer_for(w, Fault::tank_empty);
  EXPECT_TRUE(a.fault.applies());
  EXPECT_FALSE(a.setting_kept.answered());
  EXPECT_NE(a.setting_kept.why_not.find("'pump 1 in'"), std::string::npos) << a.setting_kept.why_not;
  EXPECT_TRUE(w.complete) << "the other faults are answered all the same";
  EXPECT_TRUE(answer_for(w, Fault::pump_worn).fault.why_not.find("no pump") != std::string::npos);
}

TEST(FaultParts, NothingIsAskedOfALayoutThatGivesNothing) {
  Toolbar bar = test::plain_bar(4);
  bar.check_valve = test::plain_valve();  // cracks at 4 psi
  Layout layout{.name = "shut", .job = test::plain_job(), .plumbing = bar};
  layout.job.pressure = 3.0 * psi;
  expect_message([&] { (void)what_if(layout); }, "nothing flows");
}

TEST(FaultParts, AFaultThatGaugeAndMeterBothShow) {
  // With the pump's speed kept a plugged row moves the pump up its curve: less flow, more pressure.
  const WhatIf w = what_if(test::driven_layout(test::plain_drive()), {.gauge_step = 1.0 * Pa, .meter_step = 1e-4});
  const FaultEffect& kept = answer_for(w, Fault::row_plugged).setting_kept;
  EXPECT_GT(kept.gauge_change, 1.0);
  EXPECT_LT(kept.total_change, -1e-4);
  EXPECT_EQ(kept.notice, Notice::both);
  EXPECT_EQ(name_of(kept.notice), "gauge and meter");
}

// Figures of a product that contradict each other in the cold leave the fault out, with their reason.
TEST(FaultParts, AProductWithoutFiguresInTheColdIsNotCooled) {
  Layout layout{.name = "bar", .job = test::plain_job(), .plumbing = test::plain_bar(4)};
  // Two weighings that make a straight line through an impossible density in the cold.
  layout.job.liquid = Liquid::from_points("steep",
                                          {{from_si<Density>(1200.0), from_si<Temperature>(293.15)},
                                           {from_si<Density>(2400.0), from_si<Temperature>(288.15)}},
                                          {{from_si<Viscosity>(0.01), from_si<Temperature>(293.15)},
                                           {from_si<Viscosity>(0.02), from_si<Temperature>(273.15)}});
  const FaultAnswer a = answer_for(what_if(layout, {.colder = 15.0}), Fault::colder);
  EXPECT_FALSE(a.fault.applies());
  EXPECT_NE(a.fault.why_not.find("density"), std::string::npos) << a.fault.why_not;
  EXPECT_EQ(a.setting_kept.why_not, a.fault.why_not);
}

}  // namespace fault_parts_test
}  // namespace libflow
