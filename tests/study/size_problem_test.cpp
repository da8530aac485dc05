// SPDX-License-Identifier: MIT
/// @file
/// A sizing task filled in: operating points, groups, ends of the viscosity's band; and what the search makes of bars
/// that stand on a slope, lose a row or have tolerances that no straight line answers.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace size_problem_test {

using namespace units;

std::vector<OrificeChoice> holes_of(std::initializer_list<double> mms) {
  std::vector<OrificeChoice> all;
  for (const double one : mms) all.emplace_back(OrificeByBore{.bore = one * mm});
  return all;
}
Layout sized_bar(int rows) {
  Toolbar t = test::plain_bar(rows);
  t.hose = {.kind = HoseSchedule::Kind::same, .length = 2.5 * m};
  Layout layout{.name = "sized", .job = test::plain_job(), .plumbing = t};
  layout.job.rate = 150.0 * L_per_ha;
  return layout;
}
Toolbar& bar_of(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }
SizeChoices equal_hoses(std::initializer_list<double> mms) {
  SizeChoices c;
  c.orifices = holes_of(mms);
  c.cuts = {Cut::equal};
  c.extra = 0.5 * m;
  c.least_pressure = 0.1 * psi;
  c.most_pressure = 200.0 * psi;
  c.verify = 1;
  return c;
}

// From an ideal supply twice the speed at half the rate is the same task; a pump that a wheel or an engine turns may
// give something else there.
TEST(SizeProblem, PointsOfOneFlowAreOneButForADrive) {
  SizeChoices c = equal_hoses({1.4});
  c.speeds = {4.0 * kmh, 8.0 * kmh};
  c.rates = {50.0 * L_per_ha, 100.0 * L_per_ha};
  EXPECT_EQ(size_problem(sized_bar(6), c).points.size(), 3U);
  const SizeProblem driven = size_problem(test::driven_layout(test::plain_drive()), c);
  ASSERT_EQ(driven.points.size(), 4U);
  EXPECT_NEAR(driven.flows[1] / driven.flows[2], 1.0, 1e-12);
  EXPECT_NE(driven.points[1].speed, driven.points[2].speed);
  c.rates.push_back(c.rates.front());  // written twice
  EXPECT_EQ(size_problem(test::driven_layout(test::plain_drive()), c).points.size(), 4U);
}

TEST(SizeProblem, AGroupOfNoRowsIsNone) {
  SizeChoices c = equal_hoses({1.4});
  c.groups = {{"wide rows", {2, 5}}, {"nobody", {}}};
  const SizeProblem p = size_problem(sized_bar(6), c);
  ASSERT_EQ(p.groups.size(), 2U);
  EXPECT_EQ(p.groups[0].name, "other rows");
  EXPECT_EQ(p.groups[0].rows, (std::vector<int>{1, 3, 4, 6}));
  EXPECT_EQ(p.groups[1].name, "wide rows");
  // All rows named: there are no others.
  c.groups = {{"left", {1, 2, 3}}, {"right", {4, 5, 6}}};
  EXPECT_EQ(size_problem(sized_bar(6), c).groups.front().name, "left");
}

TEST(SizeProblem, ARowsOwnOrificeStaysInAGroupToo) {
  Layout layout = sized_bar(6);
  bar_of(layout).row_changes = {{.row = 5, .orifice = OrificeByBore{.bore = 1.7 * mm}}};
  SizeChoices c = equal_hoses({1.2, 1.4});
  c.groups = {{"right", {5, 6}}};
  const SizeProblem p = size_problem(layout, c);
  SizeChoice choice;
  choice.orifices = {0, 1};
  const Plumbing built = build_network(toolbar_for(p, choice), layout.job);
  const auto bore = [&](std::size_t row) {
    return si(built.network.part(built.rows[row - 1].orifices.front()).part.as<Orifice>()->bore);
  };
  EXPECT_DOUBLE_EQ(bore(1), 1.2e-3);
  EXPECT_DOUBLE_EQ(bore(5), 1.7e-3);
  EXPECT_DOUBLE_EQ(bore(6), 1.4e-3);
}

TEST(SizeProblem, ABarWithoutAManifoldIsRefused) {
  Layout layout = sized_bar(6);
  bar_of(layout).manifolds.clear();
  test::expect_message([&] { (void)size_problem(layout, equal_hoses({1.4})); }, "no manifold");
}

// A figure that may be too low but not too high has one end: the thick one.
TEST(SizeProblem, ABandOnOneSideHasOneEnd) {
  const double likely = 0.0078125;  // 2^-7 Pa s: ratios of it are exact
  LiquidRecord record = Liquid::from_points("one-sided", {{from_si<Density>(1200.0), celsius(20.0)}},
                                            {{from_si<Viscosity>(likely), celsius(20.0)}})
                            .record();
  record.viscosity.front().low = likely;
  record.viscosity.front().high = 2.0 * likely;
  Layout layout = sized_bar(6);
  layout.job.liquid = Liquid(record);
  layout.job.temperature = celsius(20.0);
  const SizeProblem p = size_problem(layout, equal_hoses({1.4}));
  EXPECT_FALSE(at_band_end(p, false));
  const std::optional<SizeProblem> thick = at_band_end(p, true);
  ASSERT_TRUE(thick);
  EXPECT_NEAR(thick->liquids[0].viscosity / likely, 2.0, 1e-12);
  const SizeAnswer a = size_toolbar(layout, equal_hoses({1.4}));
  ASSERT_EQ(a.band.size(), 1U);
  EXPECT_TRUE(a.band[0].upper);
}

// On a hillside, at a rate so low that the rows' losses are less than the height between the outermost of them: the
// bound of the pressure says nothing there, and the search finds what each choice shows by itself.
TEST(SizeSearch, OnASteepSlopeNothingIsRuledOutUnseen) {
  Layout layout = sized_bar(12);
  layout.job.rate = 20.0 * L_per_ha;
  layout.job.tolerance = 1.0;
  SizeChoices c = equal_hoses({0.8, 1.2, 2.0, 3.0});
  c.side_slopes = {slope_percent(25.0)};
  c.most_pressure = 3.0 * psi;
  const SizeAnswer a = size_toolbar(layout, c);
  EXPECT_EQ(a.bounded, 0U);
  std::size_t fit = 0;
  for (std::size_t k = 0; k < c.orifices.size(); ++k) {
    SizeChoice choice;
    choice.orifices = {k};
    Layout one = layout;
    one.plumbing = toolbar_for(a.problem, choice);
    bar_of(one).side_slope = c.side_slopes[0];
    const Evenness e = main_job(one).evenness;
    double worst = 0.0;
    for (const RowResult& r : e.rows) worst = std::max(worst, std::abs(r.deviation));
    // Orifices that meter nothing are a limit of their own: they lose next to nothing of a row's pressure.
    bool meters = true;
    for (const RowResult& r : e.rows)
      meters = meters && (r.orifice_drop >= metering_pressure || r.orifice_share >= least_metering_share);
    fit +=
        worst <= 1.0 && meters && e.supply_pressure >= si(c.least_pressure) && e.supply_pressure <= si(c.most_pressure);
  }
  EXPECT_EQ(a.fits.size(), fit);
}

// Within 100 % of the mean a dry row is: what the orifices take is the mean of the rows that run.
TEST(SizeSearch, ADryRowTakesNoPartInTheOrificesShare) {
  Layout layout = sized_bar(4);
  layout.job.tolerance = 1.0;
  bar_of(layout).check_valve = test::plain_valve();
  bar_of(layout).row_changes = {{.row = 2, .crack = 15.0 * bar}};
  const SizeAnswer a = size_toolbar(layout, equal_hoses({1.4}));
  ASSERT_EQ(a.fits.size(), 1U);
  const Layout chosen = a.layout_with(a.fits[0]);
  double share = 0.0;
  for (const RowResult& r : main_job(chosen).evenness.rows) {
    EXPECT_EQ(r.flow > 0.0, r.row != 2);
    share += r.orifice_share / 3.0;
  }
  EXPECT_NEAR(a.fits[0].orifice_share, share, 1e-9);
}

// A tolerance of valves that the bar does not have: no machine can be judged, and the cheapest stands.
TEST(SizeSearch, WhereNoMachineCanBeJudgedTheCheapestStands) {
  Layout layout = sized_bar(6);
  Tolerance valves{.of = ToleranceOf::crack};
  valves.difference.deviation = 1000.0;
  layout.tolerances = {valves};
  const SizeAnswer a = size_toolbar(layout, equal_hoses({1.3, 1.4, 1.5}));
  ASSERT_GT(a.fits.size(), 1U);
  EXPECT_TRUE(a.complete);
  EXPECT_EQ(a.best, 0U);
  for (const SizeCandidate& c : a.fits) EXPECT_FALSE(c.built);
  EXPECT_GT(a.fits[0].orifice_share, 0.5);
}

// The recommended stands in the list wherever it is, as the first sure one does where a band is known.
TEST(SizeList, HoldsTheRecommendedAndTheFirstSureBeyondTheFirstTen) {
  SizeAnswer a;
  EXPECT_EQ(a.winner(), nullptr);
  EXPECT_EQ(a.recommended(), nullptr);
  EXPECT_TRUE(a.listed().empty());
  a.fits.resize(30);
  a.best = 15;
  a.sure = 20;
  const auto all_of = [&] { return a.listed(); };
  std::vector<std::size_t> expected = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 15};
  EXPECT_EQ(all_of(), expected) << "without a band every one is as sure";
  a.band.resize(2);
  expected.push_back(20);
  EXPECT_EQ(all_of(), expected);
  // The front fills it up to sixteen, no further; what must be there is there all the same.
  for (SizeCandidate& c : a.fits) c.pareto = true;
  EXPECT_EQ(all_of(), (std::vector<std::size_t>{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 20}));
  EXPECT_EQ(a.recommended(), &a.fits[15]);
  EXPECT_EQ(a.winner(), &a.fits[0]);
}

}  // namespace size_problem_test
}  // namespace libflow
