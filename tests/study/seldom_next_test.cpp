// SPDX-License-Identifier: MIT
/// @file
/// The next measurement on seldom bars: nothing is asked for that is not there, nor what was measured already.
#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <vector>

#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_next.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace seldom_next_test {

using namespace units;
using Ask = NextMeasurement::Kind;
using Of = CatchCauseKind;
using test::plain_bar, test::plain_job, test::plain_valve;

static CatchReadings at(Pressure gauge) { return {.time = 30.0 * s, .gauge = gauge}; }
static Layout water_on(const Toolbar& bar) {
  Layout layout{.name = "bar", .job = plain_job(), .plumbing = bar};
  layout.job.liquid = find_liquid("water");
  return layout;
}
/// Of two suspects, equally likely.
static std::optional<NextMeasurement> asked(const CatchModel& model, const CatchCause& a, const CatchCause& b) {
  return next_measurement(model, {{.cause = a, .probability = 0.5}, {.cause = b, .probability = 0.5}}, 0.01);
}

// The row is the last one, its hose too long or too narrow: the only parts it has.
TEST(SeldomNext, OnlyPartsThatAreThereAreSwapped) {
  Toolbar bar = plain_bar(4);
  bar.orifice.reset();
  bar.hose.length = 5.0 * m;
  bar.hose_bore = 5.0 * mm;
  const CatchModel model(water_on(bar), {at(0.5 * units::bar)});
  const CatchCause hose{Of::hose_bore, 4, 0, 0, 0.8}, slope{Of::side_slope, 0, 0, 0, 0.2};
  const std::optional<NextMeasurement> next = asked(model, hose, slope);
  ASSERT_TRUE(next);
  EXPECT_GT(next->resolved, 0.5);
  EXPECT_EQ(next->predicted.size(), 2U);
  EXPECT_TRUE(next->kind == Ask::pressure || next->kind == Ask::swap_hoses || next->kind == Ask::gauge_at_row ||
              next->kind == Ask::gauge_at_bar_end);
  if (next->kind == Ask::swap_hoses) {
    EXPECT_EQ(next->other, 3) << "its only neighbour";
  }
}

// Four times the hose's loss or half the orifice: which, a gauge between them tells. Where orifices sit at the ports
// there is nothing between them and the hose's end.
TEST(SeldomNext, NoGaugeAtTheRowWhereTheOrificeIsAtThePort) {
  Toolbar bar = plain_bar(4);
  bar.hose.length = 5.0 * m;
  bar.hose_bore = 4.0 * mm;
  for (const MeteringPlace place : {MeteringPlace::outlet, MeteringPlace::manifold}) {
    bar.metering = place;
    const CatchModel model(water_on(bar), {at(2.0 * units::bar)});
    const auto next = asked(model, {Of::orifice, 4, 0, 0, 0.8}, {Of::hose_bore, 4, 0, 0, 0.6});
    if (place == MeteringPlace::outlet) {
      ASSERT_TRUE(next);
    }
    if (!next) continue;
    EXPECT_NE(next->kind, Ask::swap_valves) << "there are none";
    EXPECT_NE(next->kind, Ask::water) << "it is water";
    if (place == MeteringPlace::manifold) {
      EXPECT_NE(next->kind, Ask::gauge_at_row);
    }
  }
}

// A sticking valve and a small orifice are told apart by another pressure; one that was measured is not asked for
// again.
TEST(SeldomNext, APressureThatWasMeasuredIsNotAskedForAgain) {
  Toolbar bar = plain_bar(4);
  bar.check_valve = plain_valve();
  const CatchCause valve{Of::check_valve, 2, 0, 0, 6e4}, orifice{Of::orifice, 2, 0, 0, 0.8};
  const std::vector<double> measured{3.0, 1.5, 2.1, 4.5};
  std::vector<CatchReadings> settings;
  for (const double p : measured) {
    settings.push_back(at(p * units::bar));
    const CatchModel model(water_on(bar), settings);
    const auto next = asked(model, valve, orifice);
    if (!next || next->kind != Ask::pressure) continue;
    for (const CatchReadings& r : settings) EXPECT_GE(std::abs(std::log(next->pressure / si(*r.gauge))), 0.1);
  }
  const auto last = asked(CatchModel(water_on(bar), settings), valve, orifice);
  ASSERT_TRUE(last) << "parts can still be swapped";
  EXPECT_NE(last->kind, Ask::pressure);
}

// No pump's or hose's limit: half as much again is as far as it goes; with one, no further than that.
TEST(SeldomNext, TheHighestPressureIsWhatTheBarStands) {
  Toolbar bar = plain_bar(4);
  bar.check_valve = plain_valve();
  for (const bool rated : {false, true}) {
    if (rated) bar.hose_rating = 2.0 * units::bar;
    const CatchModel model(water_on(bar), {at(2.0 * units::bar)});
    const auto next = asked(model, {Of::check_valve, 2, 0, 0, 6e4}, {Of::orifice, 2, 0, 0, 0.7});
    ASSERT_TRUE(next);
    EXPECT_LE(next->pressure, (rated ? 2.0e5 : 3.0e5) * (1.0 + 1e-12));
  }
}

// One suspect, or two that do the same: no measurement tells anything.
TEST(SeldomNext, NothingIsMeasuredWhereNothingIsInDoubt) {
  const CatchModel model(water_on(plain_bar(4)), {at(2.0 * units::bar)});
  const CatchCause orifice{Of::orifice, 2, 0, 0, 0.8};
  EXPECT_FALSE(next_measurement(model, {{.cause = orifice, .probability = 0.9}}, 0.01));
  EXPECT_FALSE(asked(model, orifice, orifice));
}

// A catch with water was made already; at its pressure none was made with the product.
TEST(SeldomNext, WaterIsNotAskedForTwice) {
  Layout layout = water_on(plain_bar(4));
  layout.job.liquid = find_liquid("10-34-0");
  CatchReadings water = at(1.0 * units::bar);
  water.water = true;
  const CatchModel model(layout, {at(2.0 * units::bar), water});
  const CatchCause thick{Of::viscosity, 0, 0, 0, 2.0}, bore{Of::orifice, 2, 0, 0, 0.8};
  const auto next = asked(model, bore, thick);
  ASSERT_TRUE(next);
  EXPECT_NE(next->kind, Ask::water);
}

}  // namespace seldom_next_test
}  // namespace libflow
