// SPDX-License-Identifier: MIT
/// @file
/// What stands in the way of a choice: each limit is named where it is the one that is overstepped, by the share that
/// the plain answer shows.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_limits_test {

using namespace units;

/// Six rows at about 2 bar.
Layout limited_bar() {
  Toolbar t = test::plain_bar(6);
  t.orifice = OrificeByBore{.bore = 1.4 * mm};
  t.hose = {.kind = HoseSchedule::Kind::same, .length = 2.5 * m};
  Layout layout{.name = "limited", .job = test::plain_job(), .plumbing = t};
  layout.job.rate = 150.0 * L_per_ha;
  return layout;
}
Toolbar& limited(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }

/// One choice: the layout's own orifice, equal hoses as they are, at its own job.
SizeChoices as_it_is(const Layout& layout) {
  SizeChoices c;
  c.orifices = {*std::get<Toolbar>(layout.plumbing).orifice};
  c.cuts = {Cut::equal};
  c.extra = 0.5 * m;
  c.cut_to = 0.0 * m;
  c.least_pressure = 0.1 * psi;
  c.most_pressure = 200.0 * psi;
  c.verify = 1;
  return c;
}
/// The choice as a layout, solved by itself.
Evenness plain_answer(const Layout& layout, const SizeAnswer& a) {
  const SizeProblem p = size_problem(layout, a.problem.choices);
  Layout chosen = layout;
  chosen.plumbing = toolbar_for(p, size_detail::all_candidates(p).front().choice);
  return main_job(chosen).evenness;
}
SizeBinding nearest_miss(const SizeAnswer& a) {
  EXPECT_TRUE(a.fits.empty());
  EXPECT_TRUE(a.nearest_miss);
  return a.nearest_miss ? a.nearest_miss->outcome.binding : SizeBinding{};
}

TEST(SizeLimits, PumpAndHoseRatingAgainstTheGauge) {
  Layout layout = limited_bar();
  const SizeAnswer fits = size_toolbar(layout, as_it_is(layout));
  ASSERT_EQ(fits.fits.size(), 1U) << "nothing is in the way";
  const double gauge = plain_answer(layout, fits).supply_pressure;
  Layout weak = layout;
  weak.job.pump_limit = from_si<Pressure>(0.5 * gauge);
  const SizeBinding pump = nearest_miss(size_toolbar(weak, as_it_is(weak)));
  EXPECT_EQ(name_of(pump.limit), "pump");
  EXPECT_NEAR(pump.use, 2.0, 1e-6);
  EXPECT_NEAR(pump.value / gauge, 1.0, 1e-6);
  Layout soft = layout;
  limited(soft).hose_rating = from_si<Pressure>(0.4 * gauge);
  const SizeBinding hose = nearest_miss(size_toolbar(soft, as_it_is(soft)));
  EXPECT_EQ(name_of(hose.limit), "hose rating");
  EXPECT_NEAR(hose.use, 2.5, 1e-6);
}

TEST(SizeLimits, TheWindowOfTheOrificesDrop) {
  const Layout layout = limited_bar();
  double least = HUGE_VAL, most = 0.0;
  for (const RowResult& r : plain_answer(layout, size_toolbar(layout, as_it_is(layout))).rows) {
    least = std::min(least, r.orifice_drop);
    most = std::max(most, r.orifice_drop);
  }
  Layout low = layout, high = layout;
  limited(low).orifice_least = from_si<Pressure>(3.0 * least);
  limited(high).orifice_most = from_si<Pressure>(most / 3.0);
  const SizeBinding too_little = nearest_miss(size_toolbar(low, as_it_is(low)));
  EXPECT_EQ(name_of(too_little.limit), "least orifice drop");
  EXPECT_NEAR(too_little.use, 3.0, 1e-6);
  const SizeBinding too_much = nearest_miss(size_toolbar(high, as_it_is(high)));
  EXPECT_EQ(name_of(too_much.limit), "most orifice drop");
  EXPECT_NEAR(too_much.use, 3.0, 1e-6);
}

TEST(SizeLimits, ARowThatStaysDry) {
  Layout layout = limited_bar();
  limited(layout).check_valve = test::plain_valve();
  limited(layout).row_changes = {{.row = 4, .crack = 250.0 * psi}};
  const SizeBinding dry = nearest_miss(size_toolbar(layout, as_it_is(layout)));
  EXPECT_EQ(name_of(dry.limit), "a row without flow");
  EXPECT_EQ(dry.row, 4);
  EXPECT_NEAR(dry.value, -1.0, 1e-12);
  EXPECT_NEAR(dry.use, 1.0 / layout.job.tolerance, 1e-9);
}

TEST(SizeLimits, AnOrificeThatMetersNothing) {
  Layout layout = limited_bar();
  limited(layout).hose_bore = 4.0 * mm;
  limited(layout).orifice = OrificeByBore{.bore = 8.0 * mm};
  layout.job.tolerance = 1.0;  // evenness is not what is asked here
  const SizeAnswer a = size_toolbar(layout, as_it_is(layout));
  const SizeBinding none = nearest_miss(a);
  EXPECT_EQ(name_of(none.limit), "metering by the orifice");
  double least = 1.0;
  for (const RowResult& r : plain_answer(layout, a).rows) least = std::min(least, r.orifice_share);
  EXPECT_NEAR(none.value, least, 1e-6);
  EXPECT_LT(least, none.allowed);
}

TEST(SizeLimits, GoodPracticeCountsALineThatIsTooFast) {
  Layout layout = limited_bar();
  Manifold& bar = limited(layout).manifolds[0];
  bar.feed_length = 1.0 * m;
  bar.feed_bore = 8.0 * mm;
  const SizeAnswer without = size_toolbar(layout, as_it_is(layout));
  EXPECT_EQ(without.fits.size(), 1U);
  SizeChoices good = as_it_is(layout);
  good.good_practice = true;
  const SizeBinding fast = nearest_miss(size_toolbar(layout, good));
  EXPECT_EQ(name_of(fast.limit), "supply line");
  EXPECT_NE(fast.name.find("velocity"), std::string::npos) << fast.name;
  // Flow over area, against the 6 ft/s of good practice.
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 6.0 * si(30.0 * inch);
  const double velocity = wanted / (M_PI / 4.0 * 0.008 * 0.008);
  EXPECT_NEAR(fast.value / velocity, 1.0, 1e-6);
  EXPECT_NEAR(fast.use, velocity / (6.0 * 0.3048), 1e-6 * fast.use);
}

// Corner points say nothing of what lies between them: in smooth hose the friction factor of Hagen and Poiseuille is
// 0.028 at Re 2300 and that of turbulent flow 0.040 at Re 4000 (Moody's diagram), so unequal hoses differ most between
// a slow corner, still laminar, and a fast one.
TEST(SizeLimits, TheEnvelopeBetweenTheCornersCounts) {
  Layout layout = limited_bar();
  Toolbar& t = limited(layout);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  t.hose_bore = 6.0 * mm;
  t.orifice = OrificeByBore{.bore = 2.4 * mm};
  layout.job.liquid = find_liquid("water");
  SizeChoices c = as_it_is(layout);
  c.cuts = {Cut::shortest};
  c.most_pressure = 2000.0 * psi;
  c.verify = 9;
  // Rates at which a row's hose is at Re 2200 and 10,000.
  const LiquidState water = layout.job.liquid.at(layout.job.temperature);
  const auto rate_of = [&](double re) {
    const double flow = re * M_PI * 0.006 * water.viscosity / (4.0 * water.density);
    return from_si<AreaRate>(flow / (si(30.0 * inch) * si(layout.job.speed)));
  };
  c.rates = {rate_of(2200.0), rate_of(10000.0)};
  const auto furthest = [&](double re) {
    Layout at = layout;
    const SizeProblem p = size_problem(layout, c);
    at.plumbing = toolbar_for(p, size_detail::all_candidates(p).front().choice);
    at.job.rate = rate_of(re);
    double worst = 0.0;
    for (const RowResult& r : main_job(at).evenness.rows) worst = std::max(worst, std::abs(r.deviation));
    return worst;
  };
  const double corners = std::max(furthest(2200.0), furthest(10000.0));
  const double between = std::max(furthest(2200.0 + 7800.0 / 8.0), furthest(2200.0 + 7800.0 / 4.0));
  ASSERT_GT(between, 1.05 * corners);
  layout.job.tolerance = 0.5 * (corners + between);
  const SizeAnswer a = size_toolbar(layout, c);
  EXPECT_TRUE(a.fits.empty()) << "it holds at the corners and not between them";
  EXPECT_GE(a.verified.added, 1U);
  const SizeBinding broken = nearest_miss(a);
  EXPECT_EQ(broken.limit, SizeLimit::evenness);
  EXPECT_NEAR(std::abs(broken.value), between, 1e-6);
  // Stopped before it could be searched anew: it is not called verified.
  const SizeAnswer stopped = size_toolbar(layout, c, [](std::size_t done, std::size_t all) { return done < all; });
  EXPECT_FALSE(stopped.complete);
  ASSERT_EQ(stopped.fits.size(), 1U);
  EXPECT_FALSE(stopped.verified.holds);
  EXPECT_NEAR(stopped.verified.worst_deviation, between, 1e-6);
  EXPECT_EQ(stopped.verified.added, 0U);
  // With room for it the same choice is verified there.
  layout.job.tolerance = 1.01 * between;
  const SizeAnswer wide = size_toolbar(layout, c);
  ASSERT_EQ(wide.fits.size(), 1U);
  EXPECT_TRUE(wide.verified.holds);
  EXPECT_NEAR(wide.verified.worst_deviation, between, 1e-6);
}

// The same of the thick end of the viscosity's band, where the flow is laminar at the slow corner, while that of the
// likely viscosity, a sixth of it, is turbulent everywhere: what holds at both corners of both is not sure.
TEST(SizeLimits, TheEnvelopeBetweenTheCornersCountsOverTheBandToo) {
  Layout layout = limited_bar();
  Toolbar& t = limited(layout);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  t.hose_bore = 6.0 * mm;
  t.orifice = OrificeByBore{.bore = 2.4 * mm};
  LiquidRecord record =
      Liquid::from_points("banded", {{from_si<Density>(1000.0), celsius(20.0)}}, {{1.0 * mPa_s, celsius(20.0)}})
          .record();
  record.viscosity.front().low = 0.9e-3;
  record.viscosity.front().high = 6e-3;
  layout.job.liquid = Liquid(record);
  layout.job.temperature = celsius(20.0);
  SizeChoices c = as_it_is(layout);
  c.cuts = {Cut::shortest};
  c.most_pressure = 2000.0 * psi;
  c.verify = 9;
  const auto rate_of = [&](double re) {  // of the thick product
    const double flow = re * M_PI * 0.006 * 6e-3 / (4.0 * 1000.0);
    return from_si<AreaRate>(flow / (si(30.0 * inch) * si(layout.job.speed)));
  };
  c.rates = {rate_of(2200.0), rate_of(10000.0)};
  const auto furthest = [&](double re, double viscosity) {
    Layout at = layout;
    const SizeProblem p = size_problem(layout, c);
    at.plumbing = toolbar_for(p, size_detail::all_candidates(p).front().choice);
    at.job.rate = rate_of(re);
    at.job.liquid = layout.job.liquid.with_viscosity(from_si<Viscosity>(viscosity), celsius(20.0));
    double worst = 0.0;
    for (const RowResult& r : main_job(at).evenness.rows) worst = std::max(worst, std::abs(r.deviation));
    return worst;
  };
  const double corners = std::max(furthest(2200.0, 6e-3), furthest(10000.0, 6e-3));
  const double between = furthest(2200.0 + 7800.0 / 8.0, 6e-3);
  layout.job.tolerance = 0.5 * (corners + between);
  for (const double viscosity : {0.9e-3, 1e-3}) {
    for (int k = 0; k <= 8; ++k) ASSERT_LT(furthest(2200.0 + 975.0 * k, viscosity), layout.job.tolerance);
  }
  const SizeAnswer a = size_toolbar(layout, c);
  ASSERT_EQ(a.fits.size(), 1U) << "at the likely viscosity it holds everywhere";
  EXPECT_TRUE(a.verified.holds);
  EXPECT_GE(a.verified.added, 1U);
  EXPECT_FALSE(a.sure);
  EXPECT_FALSE(a.is_sure());
  ASSERT_EQ(a.band.size(), 2U);
  EXPECT_TRUE(a.band[0].holds);
  EXPECT_FALSE(a.band[1].holds);
  EXPECT_GT(std::abs(a.band[1].binding.value), layout.job.tolerance);
  // With room for it the same is sure, and verified so.
  layout.job.tolerance = 1.05 * std::max(between, furthest(2200.0 + 7800.0 / 4.0, 6e-3));
  const SizeAnswer wide = size_toolbar(layout, c);
  EXPECT_TRUE(wide.is_sure());
  EXPECT_EQ(wide.verified.added, 0U);
}

// With tees at the ports of a bar that is fed at both ends, a hose of less than a tenth of its bore cannot be.
TEST(SizeLimits, AChoiceThatCannotBeIsCountedAndSaid) {
  Layout layout = limited_bar();
  Manifold& bar = limited(layout).manifolds[0];
  bar.feed = ManifoldFeed::both_ends;
  bar.feed_length = 1.0 * m;
  bar.junction_losses = true;
  SizeChoices c = as_it_is(layout);
  c.hose_bores = {10.0 * mm, 2.0 * mm};
  const SizeAnswer a = size_toolbar(layout, c);
  EXPECT_EQ(a.combinations, 2U);
  EXPECT_EQ(a.tried, 2U);
  EXPECT_EQ(a.refused, 1U);
  EXPECT_NE(a.refusal.find("hose"), std::string::npos) << a.refusal;
  ASSERT_EQ(a.fits.size(), 1U);
  EXPECT_EQ(si(toolbar_for(a.problem, a.fits[0].choice).hose_bore), 0.010);
  EXPECT_TRUE(a.complete);
  c.hose_bores.push_back(1.5 * mm);
  const SizeAnswer two = size_toolbar(layout, c);
  EXPECT_EQ(two.refused, 2U);
  EXPECT_EQ(two.refusal, a.refusal) << "of the first";
  EXPECT_EQ(two.fits.size(), 1U);
  c.cracks = {4.0 * psi};
  test::expect_message([&] { (void)size_toolbar(layout, c); }, "no check valve");
}

// Stopped after the search: what fits is listed, what was to come (how even as built) is not, and that is said.
TEST(SizeLimits, AStopAfterTheSearchKeepsWhatWasFound) {
  Layout layout = limited_bar();
  Tolerance bores;
  bores.of = ToleranceOf::orifice_bore;
  bores.relative = true;
  bores.difference.deviation = 0.01;
  layout.tolerances = {bores};
  const SizeChoices c = as_it_is(layout);
  const SizeAnswer whole = size_toolbar(layout, c);
  EXPECT_TRUE(whole.complete);
  ASSERT_TRUE(whole.recommended() != nullptr && whole.recommended()->built);
  const SizeAnswer stopped = size_toolbar(layout, c, [](std::size_t done, std::size_t all) { return done < all; });
  EXPECT_FALSE(stopped.complete);
  ASSERT_EQ(stopped.fits.size(), 1U);
  EXPECT_EQ(stopped.tried, 1U);
  EXPECT_EQ(stopped.best, 0U);
}

// The words are those by which a layout file is written.
TEST(SizeLimits, FeedsAreNamedAsInALayoutFile) {
  for (const ManifoldFeed feed :
       {ManifoldFeed::middle, ManifoldFeed::left, ManifoldFeed::right, ManifoldFeed::both_ends}) {
    const Layout read = parse_layout(fmt::format(R"(
[job]
product = "water"
temperature = "68 F"
rate = "10 gal/ac"
speed = "5 mph"
[toolbar]
rows = 4
spacing = "30 in"
[[manifold]]
bore = "1 in"
feed = "{}"
[hose]
bore = "0.375 in"
length = "5 ft"
[orifice]
bore = "0.05 in"
)",
                                                 name_of(feed)),
                                     "feeds.toml");
    EXPECT_EQ(std::get<Toolbar>(read.plumbing).manifolds.at(0).feed, feed) << name_of(feed);
  }
}

}  // namespace size_limits_test
}  // namespace libflow
