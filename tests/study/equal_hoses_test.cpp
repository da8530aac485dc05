// SPDX-License-Identifier: MIT
/// @file
/// Do my hoses have to be equal? The root against a brute scan, against the rule of thumb, and at the limits.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include <libflow/fluid/catalogue.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/junctions.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/table.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace equal_hoses_test {

using namespace units;
using test::plain_bar, test::plain_job;

Layout unequal_bar() {
  Toolbar t = plain_bar(8);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  t.hose_bore = 5.0 * mm;
  t.orifice = OrificeByBore{.bore = 2.0 * mm};
  return {.name = "unequal", .job = plain_job(), .plumbing = t};
}

Evenness with_orifice(const Layout& layout, double bore) {
  Toolbar t = std::get<Toolbar>(layout.plumbing);
  t.orifice = OrificeByBore{.bore = from_si<Length>(bore)};
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const Plumbing plumbing = build_network(t, layout.job);
  return evaluate(plumbing, layout.job, solve_plumbing(plumbing, liquid), liquid);
}
double furthest(const Evenness& e) {
  double worst = 0.0;
  for (const RowResult& r : e.rows) worst = std::max(worst, std::abs(r.deviation));
  return worst;
}

TEST(EqualHoses, TheRootIsWhatABruteScanFinds) {
  for (const char* product : {"water", "10-34-0"}) {
    Layout layout = unequal_bar();
    layout.job.liquid = find_liquid(product);
    const EqualHoses a = equal_hoses(layout);
    ASSERT_TRUE(a.complete);
    ASSERT_EQ(a.points.size(), 1U);
    const EqualHosesPoint& at = a.points.front();
    ASSERT_EQ(at.need, EqualHosesPoint::Need::some_orifice) << product;
    // Right at the border, on its good side.
    EXPECT_LE(at.needed.deviation, layout.job.tolerance);
    EXPECT_NEAR(at.needed.deviation / layout.job.tolerance, 1.0, 1e-6);
    const Evenness e = with_orifice(layout, at.needed.bore);
    EXPECT_NEAR(furthest(e), at.needed.deviation, 1e-9);
    EXPECT_NEAR(e.supply_pressure / at.needed.pressure, 1.0, 1e-9);
    // Every 1 % from the hose's bore down: the first that is even enough lies just below the root.
    double bore = 5e-3;
    while (furthest(with_orifice(layout, bore)) > layout.job.tolerance) bore /= 1.01;
    EXPECT_LE(bore, at.needed.bore * (1.0 + 1e-9)) << product;
    EXPECT_GE(bore, at.needed.bore / 1.0101) << product;
    // And the drop there is the smallest one that does: a wider hole loses less.
    EXPECT_LT(with_orifice(layout, 1.02 * at.needed.bore).rows.front().orifice_drop, at.needed.orifice_drop);
  }
}

// dq/q = 1/2 d(hose loss)/(orifice drop), so a band of +-5 % takes a hose loss spread of +-10 % of the orifice drop
// (shared trade facts, derived, for orifices of the square law). Both sides are taken from the rows, whose spread is
// not small: the second order is left.
TEST(EqualHoses, TheRuleOfThumbHoldsAtHighReynoldsNumber) {
  Layout layout = unequal_bar();
  layout.job.liquid = find_liquid("water");
  layout.job.rate = 300.0 * L_per_ha;
  const EqualHoses a = equal_hoses(layout);
  const Evenness e = with_orifice(layout, a.points.front().needed.bore);
  const auto spread = [&](auto value) {
    const auto [low, high] = std::minmax_element(
        e.rows.begin(), e.rows.end(), [&](const RowResult& x, const RowResult& y) { return value(x) < value(y); });
    return value(*high) - value(*low);
  };
  const double rates = spread([](const RowResult& r) { return r.rate; }) / e.mean_rate;
  const double losses = spread([](const RowResult& r) { return r.line_drop; }) / a.points.front().needed.orifice_drop;
  EXPECT_NEAR(2.0 * rates / losses, 1.0, 0.05);
}

TEST(EqualHoses, SaysWhetherTheyHaveToBe) {
  Layout layout = unequal_bar();
  layout.job.liquid = find_liquid("10-34-0");
  const EqualHoses a = equal_hoses(layout);
  EXPECT_TRUE(a.have_to);
  EXPECT_GT(a.points.front().shortest.deviation, layout.job.tolerance);
  EXPECT_LT(a.points.front().equal.deviation, 0.005);
  EXPECT_GT(a.hose_equal, a.hose_shortest);
  EXPECT_NEAR(a.hose_equal, 8.0 * (3.5 * (si(30.0 * inch) - 0.05) + 0.5), 1e-9);
  // With the orifice that was asked for, they need not.
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = from_si<Length>(a.points.front().needed.bore)};
  EXPECT_FALSE(equal_hoses(layout).have_to);
}

TEST(EqualHoses, AlwaysAndNever) {
  Layout wide = unequal_bar();
  std::get<Toolbar>(wide.plumbing).hose_bore = 25.0 * mm;
  std::get<Toolbar>(wide.plumbing).manifolds.front().bore = 50.0 * mm;
  wide.job.tolerance = 0.9;
  EXPECT_EQ(equal_hoses(wide).points.front().need, EqualHosesPoint::Need::any_orifice);
  // In a turn the rows' own speeds differ by more than the tolerance: no orifice helps.
  Layout turning = unequal_bar();
  turning.job.turn_radius = 15.0 * m;
  const EqualHoses never = equal_hoses(turning);
  EXPECT_EQ(never.points.front().need, EqualHosesPoint::Need::never);
  EXPECT_FALSE(never.points.front().reachable());
}

TEST(EqualHoses, OneOrificeForEveryPoint) {
  Layout layout = unequal_bar();
  layout.job.liquid = find_liquid("10-34-0");
  SizeChoices choices;
  choices.speeds = {4.0 * mph, 8.0 * mph};
  choices.temperatures = {celsius(5.0), celsius(20.0)};
  const EqualHoses a = equal_hoses(layout, choices);
  ASSERT_EQ(a.points.size(), 4U);
  ASSERT_EQ(a.with_one.size(), 4U);
  for (std::size_t k = 0; k < 4; ++k) {
    EXPECT_GE(a.points[k].needed.bore, a.points[a.strictest].needed.bore);
    EXPECT_LE(a.with_one[k].deviation, layout.job.tolerance) << k;
  }
  // The slowest and coldest asks for most.
  EXPECT_EQ(a.points[a.strictest].point.speed, 4.0 * mph);
  EXPECT_EQ(a.points[a.strictest].point.temperature, celsius(5.0));
  const EqualHoses stopped = equal_hoses(layout, choices, [](std::size_t done, std::size_t) { return done < 2; });
  EXPECT_FALSE(stopped.complete);
  EXPECT_EQ(stopped.points.size(), 2U);
}

// A row with an orifice of its own keeps it, so the slope of all bores together does not lead there: bracketed instead.
TEST(EqualHoses, WithARowOfItsOwnTheBorderIsBracketed) {
  Layout layout = unequal_bar();
  layout.job.tolerance = 0.10;
  // An inner row gets more than the mean by its short hose; a somewhat smaller hole takes some of that back.
  const double plain = equal_hoses(layout).points.front().needed.bore;
  std::get<Toolbar>(layout.plumbing).row_changes = {
      {.row = 4, .orifice = OrificeByBore{.bore = from_si<Length>(0.94 * plain)}}};
  const EqualHosesPoint at = equal_hoses(layout).points.front();
  ASSERT_EQ(at.need, EqualHosesPoint::Need::some_orifice);
  EXPECT_FALSE(at.needed.exact_slope);
  EXPECT_LE(at.needed.deviation, layout.job.tolerance * (1.0 + 1e-9));
  EXPECT_NEAR(furthest(with_orifice(layout, at.needed.bore)), layout.job.tolerance, 1e-6);
  EXPECT_GT(furthest(with_orifice(layout, 1.001 * at.needed.bore)), layout.job.tolerance);
}

// A row that is valved off has no rate to be even: it is neither the furthest nor in the mean of the orifices' drops.
TEST(EqualHoses, AShutRowDoesNotCount) {
  Layout layout = unequal_bar();
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 1, .shut = true}};
  const EqualHosesPoint at = equal_hoses(layout).points.front();
  ASSERT_EQ(at.need, EqualHosesPoint::Need::some_orifice);
  EXPECT_NEAR(at.needed.deviation / layout.job.tolerance, 1.0, 1e-6);
  const Evenness e = with_orifice(layout, at.needed.bore);
  double drop = 0.0, worst = 0.0;
  for (const RowResult& r : e.rows) {
    if (r.row == 1) continue;
    drop += r.orifice_drop / 7.0;
    worst = std::max(worst, std::abs(r.deviation));
  }
  EXPECT_NEAR(at.needed.orifice_drop / drop, 1.0, 1e-9);
  EXPECT_NEAR(at.needed.deviation, worst, 1e-9);
  EXPECT_NE(at.needed.row, 1);
}

// The search puts a hole of its own into every row: which one the layout has does not matter for what is needed.
TEST(EqualHoses, WhatIsNeededDoesNotHangOnTheLayoutsOwnOrifice) {
  Layout layout = unequal_bar();
  const EqualHosesPoint plate = equal_hoses(layout).points.front();
  Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  bar.orifice.reset();
  const EqualHosesPoint none = equal_hoses(layout).points.front();
  bar.orifice = OrificeByRating{.flow = 1.0 * L_per_min, .pressure = 50.0 * kPa};
  const EqualHosesPoint rated = equal_hoses(layout).points.front();
  for (const EqualHosesPoint* other : {&none, &rated}) {
    EXPECT_EQ(other->need, plate.need);
    EXPECT_NEAR(other->needed.bore / plate.needed.bore, 1.0, 1e-9);
    EXPECT_EQ(other->shortest.bore, 0.0);
  }
  EXPECT_EQ(none.shortest.orifice_drop, 0.0);
  EXPECT_GT(rated.shortest.orifice_drop, 0.0);
  EXPECT_GT(none.shortest.deviation, rated.shortest.deviation) << "no orifice evens nothing out";
}

// What a junction loses hangs on how the flow splits there, which the slope by the bore does not know: bracketed.
TEST(EqualHoses, WithJunctionLossesTheBorderIsBracketed) {
  Layout layout = unequal_bar();
  for (Manifold& bar : std::get<Toolbar>(layout.plumbing).manifolds) bar.junction_losses = true;
  const EqualHosesPoint at = equal_hoses(layout).points.front();
  ASSERT_EQ(at.need, EqualHosesPoint::Need::some_orifice);
  EXPECT_FALSE(at.needed.exact_slope);
  EXPECT_LE(at.needed.deviation, layout.job.tolerance * (1.0 + 1e-9));
  EXPECT_NEAR(furthest(with_orifice(layout, at.needed.bore)), layout.job.tolerance, 1e-6);
  EXPECT_GT(furthest(with_orifice(layout, 1.001 * at.needed.bore)), layout.job.tolerance);
}

// A hole is at most ten times as long as it is wide: in a plate of 45 mm none is drilled below 4.5 mm.
TEST(EqualHoses, NoHoleIsTriedThatThePlateDoesNotAllow) {
  Layout layout = unequal_bar();
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = 4.8 * mm, .thickness = 45.0 * mm};
  const EqualHosesPoint at = equal_hoses(layout).points.front();
  EXPECT_EQ(at.need, EqualHosesPoint::Need::never);
  EXPECT_GE(at.needed.bore, 4.5e-3);
  EXPECT_LT(at.needed.pressure, EqualHoses::give_up_pressure);
  EXPECT_GT(at.needed.deviation, layout.job.tolerance);
}

// On a slope the rows' heights come on top of their hoses: that point asks for more, though it is not the first.
TEST(EqualHoses, TheStrictestPointIsFoundWhereverItStands) {
  Layout layout = unequal_bar();
  SizeChoices choices;
  choices.side_slopes = {slope_percent(0.0), slope_percent(2.0)};
  const EqualHoses a = equal_hoses(layout, choices);
  ASSERT_EQ(a.points.size(), 2U);
  EXPECT_EQ(a.strictest, 1U);
  ASSERT_EQ(a.points[1].need, EqualHosesPoint::Need::some_orifice);
  EXPECT_LT(a.points[1].needed.bore, a.points[0].needed.bore);
  for (const HosesAt& with : a.with_one) EXPECT_EQ(with.bore, a.points[1].needed.bore);
}

}  // namespace equal_hoses_test
}  // namespace libflow
