// SPDX-License-Identifier: MIT
/// @file
/// Causes of an uneven catch on seldom bars: without orifices, valves or a gauge, with rows off, and schedules that are
/// not possible; coils, comparisons and tolerances at their edges.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <libflow/study/as_built.hpp>
#include <libflow/study/catch_causes.hpp>
#include <libflow/study/coils.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace seldom_causes_test {

using namespace units;
using catch_detail::other_schedule, catch_detail::sizes_of, catch_detail::fitted_bores;
using test::plain_bar, test::plain_job, test::plain_valve;

static Layout layout_of(const Toolbar& bar) { return {.name = "bar", .job = plain_job(), .plumbing = bar}; }
static std::vector<build_detail::Row> rows_of(const Layout& layout) {
  return build_detail::make_rows(std::get<Toolbar>(layout.plumbing));
}

// Eight rows 30 in apart: the runs of the outer and the inner rows differ by some 2 m, which a hose of 1 m cannot.
TEST(SeldomCauses, AScheduleThatLeavesNoHoseIsNone) {
  std::vector<build_detail::Row> rows(3);
  for (std::size_t i = 0; i < 3; ++i) {
    rows[i].x = static_cast<double>(i);
    rows[i].hose_length = 2.5;
  }
  const std::vector<double> shorter = other_schedule(rows);
  ASSERT_EQ(shorter.size(), 3U);
  EXPECT_DOUBLE_EQ(shorter[0], 0.5) << "the run of 2 m that the last row has is not needed";
  EXPECT_DOUBLE_EQ(shorter[1], 1.5);
  EXPECT_DOUBLE_EQ(shorter[2], 2.5);
  for (build_detail::Row& r : rows) r.hose_length = 2.0;
  EXPECT_TRUE(other_schedule(rows).empty()) << "nothing would be left of the first";
  rows[0].shut = true;
  EXPECT_EQ(other_schedule(rows).size(), 3U) << "it has no hose";
}

// All ports above their rows: both schedules are the same.
TEST(SeldomCauses, WhereBothSchedulesAreOneThereIsNoOther) {
  std::vector<build_detail::Row> rows(3);
  for (std::size_t i = 0; i < 3; ++i) {
    rows[i].x = rows[i].port_x = static_cast<double>(i);
    rows[i].hose_length = 2.0;
  }
  EXPECT_TRUE(other_schedule(rows).empty());
}

TEST(SeldomCauses, WithoutAnotherScheduleTheHosesStay) {
  Toolbar bar = plain_bar(4);
  bar.manifolds[0].port_spacing = bar.spacing;
  for (const auto& row : rows_of(with_cause(layout_of(bar), {.kind = CatchCauseKind::hose_schedule, .size = 1.0}))) {
    EXPECT_DOUBLE_EQ(row.hose_length, 2.0);
  }
}

TEST(SeldomCauses, OfAPartThatIsNotThereNothingChanges) {
  Toolbar bar = plain_bar(4);
  bar.row_changes = {{.row = 2, .shut = true}};
  Layout layout = layout_of(bar);
  EXPECT_FALSE(with_cause(layout, {.kind = CatchCauseKind::gauge, .size = 0.8}).job.pressure) << "no gauge was read";
  const auto set = rows_of(with_cause(layout, {.kind = CatchCauseKind::orifice_set, .size = 1.1}));
  EXPECT_NEAR(catch_detail::bore_of(*set[0].orifice), 1.1e-3, 1e-12);
  EXPECT_NEAR(catch_detail::bore_of(*set[1].orifice), 1.0e-3, 1e-12) << "of a row that is off nobody knows";
  bar.orifice.reset();
  layout = layout_of(bar);
  for (const auto& row : rows_of(with_cause(layout, {.kind = CatchCauseKind::orifice_set, .size = 1.1}))) {
    EXPECT_FALSE(row.orifice);
  }
  EXPECT_TRUE(fitted_bores(layout, {}).empty());
  EXPECT_EQ(fitted_bores(layout, {1.2 * mm, 1.0 * mm}), (std::vector<double>{si(1.0 * mm), si(1.2 * mm)}));
}

// A tenth of a per cent is no other orifice.
TEST(SeldomCauses, ABoreThatIsListedTwiceIsTriedOnce) {
  const Layout layout = layout_of(plain_bar(4));
  const std::vector<double> bores = fitted_bores(layout, {1.0005 * mm, 1.01 * mm});
  ASSERT_EQ(bores.size(), 2U);
  EXPECT_NEAR(bores[0], 1.0e-3, 1e-12);
  EXPECT_NEAR(bores[1], 1.01e-3, 1e-12);
}

// Without valves a gauge may read ten times too much; with them no pressure is tried at which they stay shut.
TEST(SeldomCauses, TheGaugeGoesNoLowerThanTheValves) {
  Toolbar bar = plain_bar(4);
  const CatchCause gauge{.kind = CatchCauseKind::gauge};
  EXPECT_DOUBLE_EQ(sizes_of(layout_of(bar), gauge, si(2.0 * units::bar), {}).low, 0.1);
  bar.check_valve = plain_valve();
  const double low = sizes_of(layout_of(bar), gauge, si(2.0 * units::bar), {}).low;
  EXPECT_NEAR(low, 1.25 * si(4.0 * psi) / si(2.0 * units::bar), 1e-12);
}

// A valve that must be pressed fully open has a spring: its crack pressure cannot be found to be nothing.
TEST(SeldomCauses, AValveThatOpensFullyKeepsSomeSpring) {
  Toolbar bar = plain_bar(4);
  bar.check_valve = plain_valve();
  const CatchCause weak{.kind = CatchCauseKind::check_valve, .row = 2};
  const double crack = si(4.0 * psi);
  EXPECT_DOUBLE_EQ(sizes_of(layout_of(bar), weak, 2e5, {}).low, -crack);
  bar.check_valve->full_open = 12.0 * psi;
  const double low = sizes_of(layout_of(bar), weak, 2e5, {}).low;
  EXPECT_GT(low + crack, 0.0);
  EXPECT_LT(low + crack, 10.0) << "next to nothing [Pa]";
  // And the layout at that size is one that can be built.
  EXPECT_NO_THROW(
      (void)main_job(with_cause(layout_of(bar), {.kind = CatchCauseKind::check_valve, .row = 2, .size = low})));
}

TEST(SeldomCauses, TwoSwapsOfOneRowAreTwoCauses) {
  const CatchCause a{.kind = CatchCauseKind::hoses_swapped, .row = 1, .other = 2};
  CatchCause b = a;
  b.size = 1.0;
  EXPECT_TRUE(a.same(b));
  b.other = 3;
  EXPECT_FALSE(a.same(b));
}

TEST(SeldomCoils, ACutOfNothingIsRefused) {
  EXPECT_THROW((void)cut_from_coils({1.0 * m, 0.0 * m}, 10.0 * m), InputError);
  EXPECT_THROW((void)cut_from_coils({1.0 * m, from_si<Length>(NAN)}, 10.0 * m), InputError);
}

// A control that is held at a setting does not give the rate; compared are layouts at one rate.
TEST(SeldomCompare, AHeldControlIsLetGo) {
  Layout held = test::driven_layout(test::plain_drive());
  held.name = "held";
  const Layout free = held;
  std::get<Toolbar>(held.plumbing).drive->setting = 0.5;
  ASSERT_GT(std::abs(main_job(held).evenness.mean_rate / si(held.job.rate) - 1.0), 0.02);
  const Comparison c = compare({held, free});
  for (const Answer& a : c.answers) EXPECT_NEAR(a.evenness.mean_rate / si(held.job.rate), 1.0, 1e-6);
  EXPECT_NEAR(c.answers[0].evenness.cv, c.answers[1].evenness.cv, 1e-9);
}

static Layout hose(const char* name, Length bore, bool shortest) {
  Toolbar bar = plain_bar(8);
  bar.hose_bore = bore;
  bar.hose =
      shortest ? HoseSchedule{.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m} : HoseSchedule{.length = 5.0 * m};
  Layout layout = layout_of(bar);
  layout.name = name;
  return layout;
}

// No tolerance is met or missed by one of the two alone: as many even points each, and the CV decides. Of a schedule of
// unequal hoses the unevenness moves with the flow (hose losses are less turbulent, orifices quadratic).
TEST(SeldomCompare, BetweenAsManyEvenPointsTheCvDecides) {
  Layout even = hose("even", 10.0 * mm, false), uneven = hose("uneven", 6.0 * mm, true);
  even.job.tolerance = 0.5;
  for (const bool first : {true, false}) {
    const std::vector<Layout> both = first ? std::vector<Layout>{even, uneven} : std::vector<Layout>{uneven, even};
    const PointComparison c =
        compare_points(both, {6.0 * kmh, 8.0 * kmh, 10.0 * kmh}, {30.0 * L_per_ha, 50.0 * L_per_ha});
    ASSERT_EQ(c.shared, 6U);
    EXPECT_EQ(c.layouts[c.best].layout.name, "even");
    EXPECT_EQ(c.layouts[c.worst].layout.name, "uneven");
    for (const ComparedLayout& l : c.layouts) {
      double cv = 0.0, worst = 0.0;
      for (const EnvelopePoint& p : l.points) {
        cv = std::max(cv, p.cv);
        if (std::abs(p.worst) > std::abs(worst)) worst = p.worst;
      }
      EXPECT_EQ(l.cv, cv);
      EXPECT_EQ(l.worst, worst);
    }
  }
}

TEST(SeldomCompare, AnotherProductIsSaid) {
  Layout a = hose("a", 10.0 * mm, false), b = a;
  b.name = "b";
  a.job.liquid = find_liquid("water");
  b.job.liquid = find_liquid("28-0-0");
  const PointComparison c = compare_points({a, b}, {8.0 * kmh}, {100.0 * L_per_ha});
  ASSERT_EQ(c.cautions.size(), 1U);
  EXPECT_EQ(c.cautions[0].code, "different-product");
  EXPECT_EQ(compare_points({a, a}, {8.0 * kmh}, {100.0 * L_per_ha}).cautions.size(), 0U);
}

// Orifices of half the bore ask for sixteen times the pressure: at the higher rate only the wide ones can run, and what
// is compared in the end is a point that both can run.
TEST(SeldomCompare, APointThatOneCannotRunDecidesNothing) {
  Layout wide = hose("wide", 6.0 * mm, true), narrow = wide;
  narrow.name = "narrow";
  std::get<Toolbar>(narrow.plumbing).orifice = OrificeByBore{.bore = 0.5 * mm};
  wide.job.pump_limit = narrow.job.pump_limit = 8.0 * bar;
  const PointComparison c = compare_points({wide, narrow}, {8.0 * kmh}, {20.0 * L_per_ha, 100.0 * L_per_ha});
  ASSERT_EQ(c.layouts[0].cannot, 0U);
  ASSERT_EQ(c.layouts[1].cannot, 1U);
  EXPECT_EQ(c.shared, 1U);
  for (const ComparedLayout& l : c.layouts) EXPECT_EQ(l.cv, l.points[0].cv) << "of the point that both can run";
  if (!c.deciding_cause.empty()) {
    EXPECT_DOUBLE_EQ(c.deciding_rate, si(20.0 * L_per_ha));
  }
  // One that can run nowhere: no point is shared, nothing decides.
  const PointComparison none = compare_points({wide, narrow}, {8.0 * kmh}, {100.0 * L_per_ha});
  EXPECT_EQ(none.shared, 0U);
  EXPECT_TRUE(none.deciding_cause.empty());
  EXPECT_TRUE(std::isnan(none.layouts[0].cv) && std::isnan(none.layouts[1].worst));
}

// One row has no coefficient of variation.
TEST(SeldomAsBuilt, OfOneRowThereIsNoSpread) {
  Layout layout = layout_of(plain_bar(1));
  layout.job.liquid = find_liquid("water");
  layout.tolerances = {{.of = ToleranceOf::orifice_bore,
                        .difference = {.kind = Distribution::Kind::normal, .deviation = 0.02},
                        .relative = true}};
  const std::optional<AsBuilt> built = as_built(main_job(layout));
  ASSERT_TRUE(built);
  EXPECT_EQ(built->mean_cv, 0.0);
  EXPECT_DOUBLE_EQ(built->within, 1.0) << "a row is its own mean";
}

// Causes may come from anywhere: from a file of a season ago, or a caller's loop.
TEST(SeldomCauses, ACauseOfARowOrAPartThatIsNotThereIsRefused) {
  Toolbar bar = test::plain_bar(4);
  const auto refused = [&](const CatchCause& c, const std::string& words) {
    test::expect_message([&] { (void)with_cause({.name = "bar", .job = test::plain_job(), .plumbing = bar}, c); },
                         words);
  };
  refused({.kind = CatchCauseKind::check_valve, .row = 2, .size = 1e3},
          "row 2: has no check valve; allowed: a cause of");
  for (const int row : {0, 5, -1}) {
    refused({.kind = CatchCauseKind::hose_bore, .row = row, .size = 0.9}, "cause, row");
    refused({.kind = CatchCauseKind::hoses_swapped, .row = 1, .other = row, .size = 1.0}, "cause, row");
  }
  for (const auto kind : {CatchCauseKind::bar_bore, CatchCauseKind::feed_hose, CatchCauseKind::feed_place}) {
    refused({.kind = kind, .manifold = 1, .size = 0.9}, "cause, manifold");
  }
  refused({.kind = CatchCauseKind::feed_place, .size = 7.0}, "cause, feed place");
  bar.orifice.reset();
  refused({.kind = CatchCauseKind::orifice, .row = 3, .size = 0.9}, "row 3: has no orifice; allowed: a cause of");
  refused({.kind = CatchCauseKind::other_orifice, .row = 3, .size = 1e-3}, "row 3: has no orifice");
}

}  // namespace seldom_causes_test
}  // namespace libflow
