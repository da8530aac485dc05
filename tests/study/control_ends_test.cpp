// SPDX-License-Identifier: MIT
/// @file
/// Controls at their ends: one that has a single setting, one that decides nothing, one without an upper end, one that
/// jumps; and what then is said to stop a point of the map.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/study/envelope.hpp>
#include <libflow/study/operating_control.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/operating_state.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/limits.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace control_ends_test {

using namespace units;
using test::QuadraticPart;

// Each of two rows gets 1e-5 m3/s through a hole that then loses 2 bar.
constexpr double row_flow = 1e-5, hole_loss = 2e5, hole_k = hole_loss / (row_flow * row_flow);

/// Two rows 1 m wide, each a part behind "gauge".
template <class T>
static Plumbing rows_of(const T& metering) {
  Plumbing p;
  p.supply = p.network.add_place("gauge");
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto last = p.network.add_part(fmt::format("hole {}", row), p.supply, air, Part(metering));
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, last));
  }
  return p;
}

/// At 1 m/s the rate in metres is the flow of a row in m3/s.
static Layout at_rate(Plumbing p, double flow) {
  Layout layout;
  layout.name = "by hand";
  layout.job.rate = from_si<AreaRate>(flow);
  layout.job.speed = from_si<Speed>(1.0);
  layout.plumbing = std::move(p);
  return layout;
}

static EnvelopePoint only_point(const Layout& layout, const std::string& control) {
  const EnvelopeAxes one{.speeds = {layout.job.speed}, .rates = {layout.job.rate}};
  return envelope(layout, one, {.usable_speeds = false, .control = control}).points.front();
}

/// The rows behind a line from a supply at 3 bar; a relief valve at the gauge lets back.
static Layout with_relief(Pressure set) {
  Plumbing p = rows_of(QuadraticPart{.k = hole_k});
  const auto tank = p.network.add_supply("tank", 3.0 * bar);
  p.network.add_part("line", tank, p.supply, Part(QuadraticPart{.k = hole_k}));
  p.network.add_part("relief", p.supply, p.network.add_air("back"),
                     Part(ReliefValve{.set = set, .passage_bore = 5.0 * mm}));
  return at_rate(std::move(p), row_flow);
}

// It can be set from 1 Pa to what it is set to: from 1 Pa to 1 Pa.
TEST(ControlEnds, AControlOfOneSettingHasNoRangeToBeNearTheEndOf) {
  const Layout layout = with_relief(1.0 * Pa);
  const OperatingPoint p = operating_point(layout, "relief");
  EXPECT_FALSE(p.reached);
  EXPECT_EQ(p.settings.low, p.settings.high);
  EXPECT_EQ(p.setting, 1.0);
  EXPECT_TRUE(test::says(p.stop, "most setting of relief")) << p.stop;
  for (const Limit& l : p.limits) {
    EXPECT_TRUE(std::isfinite(l.margin)) << l.name;
    EXPECT_FALSE(test::holds(l.name, "setting of relief")) << l.name;
  }
  // The map names it all the same: nothing else stops this point.
  const EnvelopePoint at = only_point(layout, "relief");
  EXPECT_EQ(at.state, PointState::cannot_run);
  EXPECT_EQ(at.binding, "most setting of relief");
  EXPECT_EQ(at.margin, -1.0);
}

TEST(ControlEnds, ARangeWithoutAnUpperEndHasNoLimits) {
  EXPECT_TRUE(operating_detail::control_limits("pressure", 1e5, {0.0, HUGE_VAL}, "Pa").empty());
  const Limits two = operating_detail::control_limits("pressure", 1e5, {0.0, 4e5}, "Pa");
  ASSERT_EQ(two.size(), 2U);
  EXPECT_DOUBLE_EQ(two[0].margin, 0.75);
  EXPECT_DOUBLE_EQ(two[1].margin, 0.25);
  // A supply without a stated limit: to 5 MPa, as a regulator.
  Plumbing p = rows_of(QuadraticPart{.k = hole_k});
  p.network.add_supply("tank", 3.0 * bar);
  EXPECT_EQ(plumbing_control(p, "tank", HUGE_VAL).settings.high, 5e6);
  EXPECT_EQ(plumbing_control(p, "tank", 4e5).settings.high, 4e5);
  // With a pump of its own nothing is assumed of the pressure.
  p.network.add_part("pump", p.network.find_place("tank"), p.supply,
                     Part(CentrifugalPump{.shutoff = 4.0 * bar, .free_flow = 60.0 * L_per_min}));
  EXPECT_EQ(control_range(at_rate(p, row_flow)).high, HUGE_VAL);
}

// The total is metered in by itself: the valve only loses pressure on its way, and every opening gives the rate.
TEST(ControlEnds, AControlThatDecidesNothingIsReachedWhereTheTotalIsRight) {
  Plumbing p = rows_of(QuadraticPart{.k = hole_k});
  const auto pump = p.network.add_fed("metering pump", from_si<Flow>(2.0 * row_flow));
  p.network.add_part("valve", pump, p.supply, Part(Valve{.kv = from_si<Flow>(4.0 / 3600.0), .bore = 20.0 * mm}));
  for (const double flow : {row_flow, 0.9 * row_flow}) {
    const Layout layout = at_rate(p, flow);
    const bool right = flow == row_flow;
    EXPECT_EQ(operating_point(layout, "valve").reached, right);
    EXPECT_EQ(OperatingSolver(layout, "valve").at(layout.job.rate, layout.job.speed).reached, right);
    EXPECT_EQ(only_point(layout, "valve").reached, right);
    EXPECT_EQ(only_point(layout, "valve").state, right ? PointState::even : PointState::cannot_run);
  }
}

// A valve that cracks at 2 bar into next to no resistance: within a millionth of a millionth of that pressure it lets
// through nothing, or far more than a drop.
TEST(ControlEnds, WhatJumpsThroughTheRateIsStoppedByTheJump) {
  Plumbing p = rows_of(CheckValve{.crack = 2.0 * bar, .passage_bore = 50.0 * mm});
  p.network.add_supply("tank", 3.0 * bar);
  p.network.add_part("line", p.network.find_place("tank"), p.supply, Part(QuadraticPart{.k = 1.0}));
  const Layout layout = at_rate(std::move(p), 1e-9);
  OperatingSolver solver(layout, "tank");
  const OperatingState s = solver.at(layout.job.rate, layout.job.speed);
  ASSERT_FALSE(s.reached) << s.setting << " " << s.evenness.total_flow;
  EXPECT_EQ(s.stop, "a jump in pressure of tank");
  const EnvelopePoint at = only_point(layout, "tank");
  EXPECT_EQ(at.state, PointState::cannot_run);
  EXPECT_EQ(at.binding, "a jump in pressure of tank");
  EXPECT_LT(at.margin, 0.0);
}

// As it stands it gives a certain total; asked for just that, nothing has to be moved.
TEST(ControlEnds, AFreeFormThatStandsAtItsRateNeedsNoControl) {
  Layout layout = with_relief(4.0 * bar);  // shut
  const double total = main_job(layout).evenness.total_flow;
  // 3 bar over the line with the whole total and a hole with half of it: k Q^2 (1 + 1/4).
  EXPECT_NEAR(total, std::sqrt(3e5 / hole_k / 1.25), 1e-6 * total);
  layout.job.rate = from_si<AreaRate>(0.5 * total);
  const OperatingPoint p = operating_point(layout);
  EXPECT_TRUE(p.reached);
  EXPECT_TRUE(p.held);
  EXPECT_EQ(p.control, "none");
  EXPECT_TRUE(p.stop.empty()) << p.stop;
  layout.job.rate = from_si<AreaRate>(0.6 * total);
  EXPECT_TRUE(test::says(operating_point(layout).stop, "no part is named as the control"));
}

// Its limits may be none at all: what reaches its rate and breaks nothing runs.
TEST(ControlEnds, WithoutALimitThatStopsItWhatReachesItsRateRuns) {
  OperatingPoint p;
  EXPECT_FALSE(p.runs());
  p.reached = true;
  EXPECT_TRUE(p.runs());
  p.limits = {test::limit_named("pump reserve", -0.5, LimitKind::advised)};
  EXPECT_TRUE(p.runs());
  // The nearest of them counts, in whatever order they stand.
  p.limits.push_back(test::limit_named("pump flow", 0.5, LimitKind::stops));
  p.limits.push_back(test::limit_named("hose rating", -0.1, LimitKind::stops));
  EXPECT_FALSE(p.runs());
  EXPECT_EQ(binding_limit(p.limits, true)->name, "hose rating");
  EXPECT_EQ(binding_limit(p.limits)->name, "pump reserve");
  EXPECT_EQ(binding_limit({}), nullptr);
}

}  // namespace control_ends_test
}  // namespace libflow
