// SPDX-License-Identifier: MIT
/// @file
/// Causes that do nothing, cannot be, or do nothing where a cup stood: they are not suspected, and the others are
/// found.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <utility>
#include <variant>
#include <vector>

#include <libflow/study/catch_data.hpp>
#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace causes_without_effect_test {

using namespace units;
using Of = CatchCauseKind;

static Layout water_on(const Toolbar& bar) {
  Layout layout{.name = "bar", .job = test::plain_job(), .plumbing = bar};
  layout.job.liquid = find_liquid("water");
  return layout;
}
static CatchReadings at(Pressure gauge) { return {.time = 30.0 * s, .gauge = gauge}; }
/// Two cups a row, read exactly, of the rows up to `last`.
static CatchReadings cups(const Layout& layout, CatchReadings setting, const std::vector<CatchCause>& causes,
                          int last = 1000) {
  const CatchModel model(layout, {setting});
  const Eigen::VectorXd logs = *model.exact(causes);
  for (std::size_t i = 0; i < model.rows().size(); ++i) {
    if (model.rows()[i] > last) continue;
    for (int k = 1; k <= 2; ++k) {
      setting.readings.push_back(
          {.row = model.rows()[i], .repeat = k, .volume = 30.0 * std::exp(logs[model.cell(0, i)])});
    }
  }
  return setting;
}
static std::set<Of> kinds(const FoundCause& found) {
  std::set<Of> out;
  for (const LikelyCause& l : found.likely) out.insert(l.cause.kind);
  return out;
}

// One bore alone is on the bar and in the workshop: another orifice cannot have been fitted.
TEST(CausesWithoutEffect, AnotherOrificeWhereThereIsNoneIsNotPossible) {
  const Layout layout = water_on(test::plain_bar(4));
  const std::vector<CatchReadings> caught{cups(layout, at(2.0 * units::bar), {{Of::orifice, 2, 0, 0, 0.8}})};
  CatchModel model(layout, caught);
  const CatchCause other{Of::other_orifice, 2};
  EXPECT_TRUE(model.effect(other).cells.empty());
  const CatchData data = catch_data(model, caught);
  CatchFit fit(model, data);
  const Eigen::VectorXd residual = data.log_flow - model.base();
  const CatchFit::Best b = fit.best(other, residual);
  EXPECT_FALSE(b.possible);
  EXPECT_DOUBLE_EQ(b.chi2, fit.chi2(residual)) << "it explains nothing";
  CatchCause sized = other;
  sized.size = 1e-3;
  EXPECT_EQ(fit.interval(sized, residual, 4.0), (std::pair<double, double>{1e-3, 1e-3}));
  // That orifice itself is.
  EXPECT_TRUE(fit.best({Of::orifice, 2}, residual).possible);
  EXPECT_NEAR(fit.best({Of::orifice, 2}, residual).cause.size, 0.8, 1e-3);
}

// Of a cause that has sizes of its own: the nearest one's effect, whichever that is.
TEST(CausesWithoutEffect, AFittedOrificeHasTheEffectOfTheNearestBore) {
  DiagnosisSetup setup;
  setup.orifice_bores = {0.8 * mm, 1.2 * mm, 1.5 * mm};
  CatchModel model(water_on(test::plain_bar(4)), {at(2.0 * units::bar)}, setup);
  const CatchEffect& e = model.effect({Of::other_orifice, 3});
  ASSERT_EQ(e.sizes.size(), 3U) << "its own of 1 mm is no other";
  Eigen::VectorXd v;
  const auto effect = [&](double bore) {
    e.at(bore, v);
    const auto cell = std::find(e.cells.begin(), e.cells.end(), model.cell(0, 2)) - e.cells.begin();
    return v[cell];
  };
  // By exact solves of that bore alone.
  for (const double bore : {0.8e-3, 1.2e-3, 1.5e-3}) {
    const Eigen::VectorXd exact = *model.exact({{Of::other_orifice, 3, 0, 0, bore}});
    EXPECT_NEAR(effect(bore), exact[model.cell(0, 2)] - model.base()[model.cell(0, 2)], 1e-12) << bore;
  }
  EXPECT_EQ(effect(0.5e-3), effect(0.8e-3));
  EXPECT_EQ(effect(1.3e-3), effect(1.2e-3));
  EXPECT_EQ(effect(9e-3), effect(1.5e-3));
  EXPECT_LT(effect(0.8e-3), 0.0);
  EXPECT_GT(effect(1.2e-3), 0.0);
}

// A bar of 4 in pipe takes nothing from the rows' small flow: where it is fed does not matter.
TEST(CausesWithoutEffect, AWideBarIsNotSuspectedOfItsFeed) {
  Toolbar bar = test::plain_bar(8);
  bar.manifolds[0].bore = 100.0 * mm;
  bar.manifolds[0].port_spacing = 20.0 * mm;
  bar.orifice = OrificeByBore{.bore = 0.5 * mm};
  const Layout layout = water_on(bar);
  CatchModel model(layout, {at(2.0 * units::bar)});
  EXPECT_TRUE(model.effect({Of::feed_place}).cells.empty());
  const Diagnosis sound = diagnose(layout, {cups(layout, at(2.0 * units::bar), {})});
  EXPECT_TRUE(sound.causes.empty());
  const Diagnosis d = diagnose(layout, {cups(layout, at(2.0 * units::bar), {{Of::orifice, 6, 0, 0, 0.85}})});
  ASSERT_EQ(d.causes.size(), 1U);
  EXPECT_EQ(d.causes[0].best().row, 6);
  EXPECT_TRUE(kinds(d.causes[0]).contains(Of::orifice));
  EXPECT_FALSE(kinds(d.causes[0]).contains(Of::feed_place));
}

// A bar that leans, is constricted and stood at another pressure than was read; caught with water, fed where it does
// not matter, every port at its row. With these three named no other cause is left, and that is the end of the search.
TEST(CausesWithoutEffect, WhereEveryCauseOfTheBarIsNamedTheSearchEnds) {
  Toolbar bar = test::plain_bar(8);
  bar.manifolds[0].bore = 30.0 * mm;
  bar.manifolds[0].port_spacing = bar.spacing;
  bar.orifice = OrificeByBore{.bore = 0.5 * mm};
  const Layout layout = water_on(bar);
  CatchReadings setting = at(2.0 * units::bar);
  setting.water = true;
  setting.reading_error = 2e-4;
  const std::vector<CatchCause> all{
      {Of::side_slope, 0, 0, 0, 0.1}, {Of::bar_bore, 0, 0, 0, 0.16}, {Of::gauge, 0, 0, 0, 0.8}};
  const Diagnosis d =
      diagnose(layout, {cups(layout, setting, all)}, {.most_causes = 5, .part_scatter = 1e-5, .gauge_error = 0.01});
  ASSERT_EQ(d.causes.size(), 3U);
  std::set<Of> named;
  double slope = 0.0, share = 1.0;
  for (const FoundCause& found : d.causes) {
    const CatchCause& c = found.best();
    named.insert(c.of_level() ? Of::gauge : c.kind);
    if (c.kind == Of::side_slope) slope = c.size;
    if (c.kind == Of::gauge) share = c.size;
  }
  // What a lean does is a share of the pressure: if the level is put down to the measure instead, the same cups come of
  // a steeper lean at the pressure as read.
  EXPECT_NEAR(slope / share, 0.1 / 0.8, 0.002);
  EXPECT_EQ(named, (std::set<Of>{Of::side_slope, Of::bar_bore, Of::gauge}));
  EXPECT_LT(d.spread_left, 1e-4);
}

// Two manifolds, each with its own feed hose, and cups under the first alone: nothing is known of the second, and
// nothing of it is suspected.
TEST(CausesWithoutEffect, OfAManifoldWithoutCupsNothingIsSuspected) {
  Toolbar bar = test::plain_bar(8);
  bar.manifolds = {Manifold{.first_row = 1, .last_row = 4, .feed_length = 3.0 * m, .feed_bore = 19.0 * mm},
                   Manifold{.first_row = 5, .last_row = 8, .feed_length = 3.0 * m, .feed_bore = 19.0 * mm}};
  const Layout layout = water_on(bar);
  for (const bool gauged : {true, false}) {
    SCOPED_TRACE(gauged);
    CatchReadings setting = at(2.0 * units::bar);
    if (!gauged) setting.gauge.reset();
    const std::vector<CatchCause> both{{Of::orifice, 2, 0, 0, 0.85}, {Of::orifice, 7, 0, 0, 0.7}};
    const Diagnosis d = diagnose(layout, {cups(layout, setting, both, 4)});
    ASSERT_TRUE(d.judged);
    ASSERT_EQ(d.causes.size(), 1U) << "row 7 had no cup";
    EXPECT_EQ(d.causes[0].best().row, 2);
    for (const LikelyCause& l : d.causes[0].likely) EXPECT_EQ(l.cause.manifold, 0U);
    EXPECT_TRUE(std::isfinite(d.threshold));
    EXPECT_GT(d.threshold, 0.0);
    // Four rows; without a gauge one of them goes into the level.
    EXPECT_EQ(d.degrees, gauged ? 4.0 : 3.0);
  }
}

// A hole 1.5 mm wide and 12 mm long, in a hose of 1 mm: a hole as wide as the hose would be longer than ten times its
// bore, of which nothing is known (physics/orifice.hpp). What the row gives without it has no answer.
TEST(CausesWithoutEffect, AnOrificeThatCannotBeAsWideAsTheHoseHasNoShareWithoutIt) {
  Toolbar bar = test::plain_bar(4);
  bar.orifice = OrificeByBore{.bore = 1.5 * mm, .thickness = 12.0 * mm};
  bar.hose_bore = 1.0 * mm;
  Layout layout = water_on(bar);
  layout.job.pressure = 2.0 * units::bar;
  EXPECT_EQ(catch_detail::share_without_orifice(layout, 2), too_much_share);
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = 1.5 * mm, .thickness = 9.0 * mm};
  const double share = catch_detail::share_without_orifice(layout, 2);
  EXPECT_NE(share, too_much_share);
  EXPECT_GE(share, 1.0) << "taking it out never gives less";
}

// Without a gauge nine of sixteen cups are empty: which to believe nobody can say, whatever the level.
TEST(CausesWithoutEffect, EmptyCupsWithoutAGaugeAreNotJudged) {
  const Layout layout = water_on(test::plain_bar(16));
  CatchReadings r{.time = 30.0 * s};
  r = cups(layout, r, {});
  for (CatchReading& c : r.readings) c.volume *= c.row <= 9 ? 0.0 : 1.0;
  const Diagnosis d = diagnose(layout, {r});
  EXPECT_FALSE(d.judged);
  EXPECT_TRUE(d.causes.empty());
  ASSERT_EQ(d.doubts.size(), 1U);
  EXPECT_EQ(d.doubts[0].size(), 9U);
}

}  // namespace causes_without_effect_test
}  // namespace libflow
