// SPDX-License-Identifier: MIT
/// @file
/// Limits that a layout place by place takes from its parts, and those that are none: a pump without a rating, a meter
/// without a lower end, a valve without a spring, a drive without a suction hose.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/operating_point.hpp>
#include <libflow/study/operating_state.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace part_limits_test {

using namespace units;
using test::QuadraticPart;

constexpr double hole_k = 2e15;  // 1e-5 m3/s lose 2 bar

/// Two rows 1 m wide behind "gauge", each a hole that loses k q^2, and a tank open to the air.
static Plumbing two_rows() {
  Plumbing p;
  p.supply = p.network.add_place("gauge");
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hole = p.network.add_part(fmt::format("hole {}", row), p.supply, air, Part(QuadraticPart{.k = hole_k}));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hole));
  }
  p.network.add_supply("tank", 0.0 * bar);
  return p;
}
template <class T>
static Plumbing behind(T part) {
  Plumbing p = two_rows();
  p.network.add_part("part", p.network.find_place("tank"), p.supply, Part(std::move(part)));
  return p;
}
static Layout at_rate(Plumbing p) {
  Layout layout;
  layout.name = "by hand";
  layout.job.rate = from_si<AreaRate>(1e-5);
  layout.job.speed = from_si<Speed>(1.0);
  layout.plumbing = std::move(p);
  return layout;
}

static const Limit* limit_of(const Limits& limits, const std::string& name) {
  const auto found = std::find_if(limits.begin(), limits.end(), [&](const Limit& l) { return l.name == name; });
  return found == limits.end() ? nullptr : &*found;
}

/// From 4 bar at no flow to 1 bar at 60 L/min.
static PumpCurve curve(std::optional<Length> suction_head) {
  PumpCurve pump;
  for (const double q : {0.0, 20.0, 40.0, 60.0}) {
    pump.points.push_back({.flow = q * L_per_min,
                           .gain = (4.0 - q * q / 1200.0) * bar,
                           .efficiency = {},
                           .suction_head = suction_head,
                           .shaft_power = {}});
  }
  return pump;
}

// The required head and the last flow of the curve go with the square of the speed, and with the speed (affinity laws).
TEST(PartLimits, APumpsCurveGivesItsFlowAndItsSuctionHead) {
  PumpCurve pump = curve(3.0 * m);
  pump.speed = 0.8;
  const OperatingPoint p = operating_point(at_rate(behind(pump)));
  const Limit *flow = limit_of(p.limits, "pump flow"), *head = limit_of(p.limits, "suction head");
  ASSERT_NE(flow, nullptr);
  EXPECT_EQ(flow->subject, "part");
  EXPECT_NEAR(flow->limit, 0.8 * 1e-3, 1e-15);
  EXPECT_NEAR(flow->value, p.delivered, 1e-9 * p.delivered);
  ASSERT_NE(head, nullptr);
  EXPECT_EQ(head->subject, "part");
  EXPECT_NEAR(head->limit, 0.64 * 3.0, 1e-9);
  // The tank stands open at the pump: what the air presses less what boils.
  const LiquidState& water = p.answer.liquid;
  const double available = (101325.0 - water.vapour_pressure) / (water.density * 9.80665);
  EXPECT_NEAR(head->value, available, 1e-6 * available);
  EXPECT_NEAR(head->margin, available / 1.92 - 1.0, 1e-6);
  EXPECT_EQ(head->kind, LimitKind::stops);
}

// A pump that needs no head, or says nothing of it, must not boil: that limit stands in any case.
TEST(PartLimits, APumpThatNeedsNoSuctionHeadHasNoLimitOfIt) {
  for (const std::optional<Length>& none : {std::optional<Length>(), std::optional<Length>(0.0 * m)}) {
    SCOPED_TRACE(none.has_value());
    const OperatingPoint free_form = operating_point(at_rate(behind(curve(none))));
    EXPECT_EQ(limit_of(free_form.limits, "suction head"), nullptr);
    ASSERT_NE(limit_of(free_form.limits, "suction above boiling"), nullptr);
    EXPECT_NE(limit_of(free_form.limits, "pump flow"), nullptr);
    Drive drive = test::plain_drive();
    drive.pump = curve(none);
    const OperatingPoint driven = operating_point(test::driven_layout(drive));
    EXPECT_EQ(limit_of(driven.limits, "suction head"), nullptr);
    ASSERT_NE(limit_of(driven.limits, "suction above boiling"), nullptr);
    EXPECT_NEAR(limit_of(driven.limits, "suction above boiling")->value, driven.duty->inlet + 101325.0, 1e-6);
  }
}

TEST(PartLimits, APumpWithoutARatingHasNoPressureLimit) {
  PositivePump pump{.displacement = 4.0 * mL, .rpm = 600.0, .slip = {.flow = from_si<Flow>(4e-7), .gain = 2.0 * bar}};
  const OperatingPoint unrated = operating_point(at_rate(behind(pump)));
  EXPECT_EQ(limit_of(unrated.limits, "pump pressure"), nullptr);
  EXPECT_NE(limit_of(unrated.limits, "suction above boiling"), nullptr);
  pump.max_pressure = 4.0 * bar;
  const OperatingPoint rated = operating_point(at_rate(behind(pump)));
  ASSERT_NE(limit_of(rated.limits, "pump pressure"), nullptr);
  // Half of it through each hole.
  const double half = 0.5 * rated.delivered;
  EXPECT_NEAR(limit_of(rated.limits, "pump pressure")->value, hole_k * half * half, 1.0);
}

// A pump from the ground stands what it is rated for, as one from a motor does.
TEST(PartLimits, APumpFromTheGroundHasItsRating) {
  GroundDrivenPump wheel{.displacement = 20.0 * mL,
                         .distance = 1.0 * m,
                         .ground_speed = from_si<Speed>(1.0),
                         .slip = {.flow = from_si<Flow>(1e-7), .gain = 2.0 * bar}};
  EXPECT_EQ(limit_of(operating_point(at_rate(behind(wheel))).limits, "pump pressure"), nullptr);
  wheel.max_pressure = 1.0 * bar;
  const OperatingPoint p = operating_point(at_rate(behind(wheel)));
  const Limit* limit = limit_of(p.limits, "pump pressure");
  ASSERT_NE(limit, nullptr);
  EXPECT_EQ(limit->subject, "part");
  EXPECT_NEAR(limit->limit, 1e5, 1e-9);
  const double half = 0.5 * p.delivered;
  EXPECT_NEAR(limit->value, hole_k * half * half, 1.0);
  EXPECT_TRUE(limit->broken()) << "20 mL each metre at 1 m/s take about 2 bar";
  EXPECT_FALSE(p.runs());
}

TEST(PartLimits, AMeterWithoutALowerEndHasOneLimit) {
  FlowMeter meter{.bore = 12.0 * mm, .rated_flow = 20.0 * L_per_min, .rated_loss = 5.0 * kPa, .most = 60.0 * L_per_min};
  for (const bool lower : {false, true}) {
    if (lower) meter.least = 0.5 * L_per_min;
    Plumbing metered = two_rows();
    const auto pushed = metered.network.add_place("pushed");
    metered.network.add_part("line", metered.network.find_place("tank"), pushed, Part(curve(3.0 * m)));
    metered.network.add_part("meter", pushed, metered.supply, Part(meter));
    const OperatingPoint at = operating_point(at_rate(std::move(metered)));
    ASSERT_NE(limit_of(at.limits, "most meter flow"), nullptr);
    EXPECT_NEAR(limit_of(at.limits, "most meter flow")->value, at.delivered, 1e-9 * at.delivered);
    EXPECT_EQ(limit_of(at.limits, "least meter flow") != nullptr, lower);
  }
}

/// A supply at a pressure, one row behind check valves one after another, and one without.
static Limits with_valves(double supply, const std::vector<double>& cracks) {
  Plumbing p = two_rows();
  p.network.set_supply_pressure(p.network.find_place("tank"), from_si<Pressure>(supply));
  p.network.add_part("line", p.network.find_place("tank"), p.supply, Part(QuadraticPart{.k = 1e10}));
  const auto air = p.network.add_air("row 3");
  auto at = p.supply;
  RowPlumbing row{.row = 3,
                  .x = 0.0,
                  .width = 1.0,
                  .airs = {air},
                  .last_parts = {},
                  .orifices = {},
                  .check_valves = {},
                  .hoses = {}};
  for (std::size_t i = 0; i < cracks.size(); ++i) {
    const auto next = p.network.add_place(fmt::format("behind valve {}", i + 1));
    // From the air back, as a layout file's rows are read.
    row.check_valves.insert(
        row.check_valves.begin(),
        p.network.add_part(fmt::format("valve {}", i + 1), at, next,
                           Part(CheckValve{.crack = from_si<Pressure>(cracks[i]), .passage_bore = 4.0 * mm})));
    at = next;
  }
  row.last_parts = {p.network.add_part("hole 3", at, air, Part(QuadraticPart{.k = hole_k}))};
  p.rows.push_back(std::move(row));
  return operating_point(at_rate(std::move(p))).limits;
}

TEST(PartLimits, AValveThatNoSpringHoldsNeedsNoPressure) {
  EXPECT_EQ(limit_of(with_valves(2e5, {0.0}), "check valve opens"), nullptr);
  const Limits sprung = with_valves(2e5, {1e5});
  ASSERT_NE(limit_of(sprung, "check valve opens"), nullptr);
  EXPECT_NEAR(limit_of(sprung, "check valve opens")->margin, 1.0, 1e-2);
  EXPECT_TRUE(limit_of(with_valves(0.9e5, {1e5}), "check valve opens")->broken());
}

// A row that one of its two valves keeps shut is not opened, whichever of the two it is.
TEST(PartLimits, OfTwoValvesInARowEachHasToOpen) {
  for (const auto& cracks : {std::vector<double>{2.5e5, 0.5e5}, std::vector<double>{0.5e5, 2.5e5}}) {
    const Limits limits = with_valves(2e5, cracks);
    ASSERT_NE(limit_of(limits, "check valve opens"), nullptr);
    EXPECT_TRUE(limit_of(limits, "check valve opens")->broken())
        << cracks.front() << ": " << limit_of(limits, "check valve opens")->value;
  }
}

TEST(PartLimits, ADriveWithoutASuctionHoseHasNoVelocityInIt) {
  Drive drive = test::plain_drive();
  ASSERT_NE(limit_of(operating_point(test::driven_layout(drive)).limits, "suction velocity"), nullptr);
  drive.suction.length = 0.0 * m;
  const OperatingPoint p = operating_point(test::driven_layout(drive));
  EXPECT_TRUE(p.reached);
  EXPECT_EQ(limit_of(p.limits, "suction velocity"), nullptr);
  EXPECT_NE(limit_of(p.limits, "velocity"), nullptr);
}

// Fed with the wanted total, a booster in the line leaves nothing to be assumed of the pressure: every rate is reached.
TEST(PartLimits, AFedTotalWithAPumpInTheLineHasNoAssumedPressureLimit) {
  Plumbing p = two_rows();
  const auto fed = p.network.add_fed("feed", from_si<Flow>(2e-5));
  p.network.add_part("booster", fed, p.supply, Part(curve(3.0 * m)));
  p.supply = fed;
  for (const double rate : {1e-5, 3e-5}) {  // 2 and 18 bar at the holes
    Layout layout = at_rate(p);
    layout.job.rate = from_si<AreaRate>(rate);
    const OperatingState s = OperatingSolver(layout).at(layout.job.rate, layout.job.speed);
    EXPECT_TRUE(s.reached);
    EXPECT_TRUE(s.stop.empty()) << s.stop;
    EXPECT_EQ(s.setting, s.gauge);
    EXPECT_NEAR(s.evenness.total_flow, 2.0 * rate, 1e-9 * rate);
    EXPECT_EQ(limit_of(s.limits, "pressure limit"), nullptr);
  }
}

}  // namespace part_limits_test
}  // namespace libflow
