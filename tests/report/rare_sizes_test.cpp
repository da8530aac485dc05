// SPDX-License-Identifier: MIT
/// @file
/// Sizing answers that are rare: what is recommended though it is not the cheapest, what does not hold between the
/// points, lengths and pieces in a person's words, orifices with more than a bore.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <libflow/fluid/catalogue.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/report/size_band_words.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_choices.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace rare_sizes_test {

using namespace units;
using test::holds;
using test::says;

static Layout four_rows() {
  Toolbar t = test::plain_bar(4);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  Layout layout{.name = "small", .job = test::plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("28-0-0");
  return layout;
}
/// Shortest and equal hoses of two bores: everything fits at once.
static const SizeAnswer& answered() {
  static const SizeAnswer answer = [] {
    SizeChoices c;
    c.verify = 1;
    c.orifices = {OrificeByBore{.bore = 1.5 * mm}, OrificeByBore{.bore = 1.6 * mm}};
    c.hose_bores = {6.0 * mm, 8.0 * mm};
    c.cuts = {Cut::shortest, Cut::equal};
    c.least_pressure = 1.0 * psi;
    SizeAnswer a = size_toolbar(four_rows(), c);
    a.band.clear();
    a.winner_band.clear();
    return a;
  }();
  return answer;
}
static std::string text_of(const SizeAnswer& a) { return size_text(a, {.units = UnitSystem::us, .width = 400}); }

TEST(RareSizes, WhyItIsNotTheCheapest) {
  SizeAnswer a = answered();
  ASSERT_GE(a.fits.size(), 3U);
  a.best = 1;
  a.fits[1].price = 1.04 * a.fits[0].price;
  a.fits[0].built = AsBuilt{.within = 0.10, .mean_cv = 0.03};
  a.fits[1].built = AsBuilt{.within = 0.78, .mean_cv = 0.02};
  const std::string number = "below is number 2 of the list, with more hose, by 4.0 %, because ";
  EXPECT_TRUE(says(text_of(a), number + "78.0 % of such machines are even as built, not 10.0 %.")) << text_of(a);
  // The cheapest is not sure: that, and the other where it is so.
  a.winner_band = {{.upper = true, .holds = false, .refused = "the pump cannot give that flow", .points = 2}};
  a.winner_band.front().viscosity = si(200.0 * cP);
  EXPECT_TRUE(says(text_of(a), number + "it holds over the whole band of the viscosity and 78.0 % of such machines are "
                                        "even as built, not 10.0 %."))
      << text_of(a);
  EXPECT_TRUE(says(text_of(a), "number 1 of the list fits, but at " + format(200.0 * cP, UnitSystem::us) +
                                   " it has no answer: the pump cannot give that flow."))
      << text_of(a);
  a.fits[0].built->within = 0.78;
  EXPECT_TRUE(says(text_of(a), number + "it holds over the whole band of the viscosity.")) << text_of(a);
  a.fits[0].built.reset();
  EXPECT_TRUE(says(text_of(a), number + "it holds over the whole band of the viscosity.")) << text_of(a);
}

TEST(RareSizes, WhatIsAlikeInPriceIsNoDearer) {
  SizeAnswer a = answered();
  for (SizeCandidate& c : a.fits) c.price = 0.0;  // hose that is there already
  EXPECT_EQ(report_detail::dearer_text(a, 1), "with no more hose");
  a.problem.choices.hose_prices = {0.0, 0.0};
  EXPECT_EQ(report_detail::dearer_text(a, 1), "at the same price");
}

TEST(RareSizes, WhatIsEvenerAsBuiltIsNamedOnlyAgainstAFigure) {
  SizeAnswer a = answered();
  a.fits[1].built = AsBuilt{.within = 0.80, .mean_cv = 0.02};
  EXPECT_FALSE(says(text_of(a), "Evener as built")) << "nobody asked it of the recommended one";
  a.fits[0].built = AsBuilt{.within = 0.795, .mean_cv = 0.02};
  EXPECT_FALSE(says(text_of(a), "Evener as built")) << "half a per cent is as even";
  a.fits[0].built->within = 0.60;
  a.fits[1].price = a.fits[0].price;
  EXPECT_TRUE(says(text_of(a),
                   "Evener as built number 2 of the list, with no more hose: 80.0 % of such machines are even, "
                   "not 60.0 %."))
      << text_of(a);
}

TEST(RareSizes, TheWindowOfThePressureIsWhoseItIs) {
  SizeAnswer a = answered();
  const SizeChoices usual;
  a.problem.choices.least_pressure = usual.least_pressure;
  EXPECT_TRUE(says(text_of(a), "common practice, no source; least_pressure and most_pressure in [size] change it"));
  a.problem.choices.most_pressure = 0.5 * usual.most_pressure;
  EXPECT_TRUE(says(text_of(a), format(0.5 * usual.most_pressure, UnitSystem::us) +
                                   ": the least and the most pressure that were asked for."))
      << text_of(a);
}

TEST(RareSizes, WhatHoseIsBoughtAndHowItIsRounded) {
  SizeAnswer a = answered();
  EXPECT_TRUE(says(text_of(a), "; runs rounded up to one inch")) << text_of(a);
  EXPECT_FALSE(says(text_of(a), "feed hoses included"));
  a.fits[0].hose += 2.0;  // to the manifold
  EXPECT_TRUE(says(text_of(a), " in all, feed hoses included: ")) << text_of(a);
  for (HosePlan& plan : a.problem.plans) plan.cut = Cut::rounded;
  EXPECT_FALSE(says(text_of(a), "runs rounded up")) << "rounded already";
  a = answered();
  a.problem.choices.cut_to = 0.0 * m;
  EXPECT_FALSE(says(text_of(a), "runs rounded up")) << text_of(a);
  // A bar whose hoses meter has no drop across an orifice to tell, nor a share of it.
  a.fits[0].outcome.least_orifice_drop = std::numeric_limits<double>::infinity();
  a.fits[0].orifice_share = 0.0;
  EXPECT_FALSE(says(text_of(a), "across the orifices")) << text_of(a);
  EXPECT_FALSE(says(text_of(a), "Orifices' share"));
  EXPECT_FALSE(holds(text_of(a), "inf"));
}

TEST(RareSizes, BetweenThePoints) {
  SizeAnswer a = answered();
  a.verified = {.points = 1, .holds = true};
  EXPECT_TRUE(says(text_of(a), "there is one operating point only, and nothing between to verify."));
  a.verified.binding = {.limit = SizeLimit::row_dry, .row = 2};
  a.verified.point = a.problem.points.front();
  a.verified.holds = false;
  EXPECT_TRUE(says(text_of(a),
                   "DOES NOT HOLD at 1 point over the whole of these speeds, rates, temperatures and slopes; "
                   "what binds there: row 2 gets nothing, at "))
      << text_of(a);
  a.verified.holds = true;
  a.verified.added = 1;
  EXPECT_TRUE(says(text_of(a), "verified at 1 point")) << text_of(a);
  EXPECT_TRUE(says(text_of(a), " 1 of these joined the search")) << text_of(a);
}

TEST(RareSizes, SlopesOfPortsWithTeesSaySoAndWithoutAnyNothingIsSaid) {
  SizeAnswer a = answered();
  ASSERT_FALSE(a.slopes.empty());
  EXPECT_FALSE(says(text_of(a), "the ports' tees change with it"));
  std::get<Toolbar>(a.problem.layout.plumbing).manifolds.front().junction_losses = true;
  EXPECT_TRUE(says(text_of(a), "; of the hose bore none: the ports' tees change with it")) << text_of(a);
  a.slopes.clear();
  EXPECT_FALSE(says(text_of(a), "A little more of a choice")) << text_of(a);
}

TEST(RareSizes, AnotherBoreThanTheLayoutsIsNotCalledItsOwn) {
  SizeAnswer a = answered();
  a.problem.choices.hose_bores = {7.0 * mm};
  for (SizeCandidate& c : a.fits) c.choice.hose_bore = 0;
  a.nearest_miss.reset();
  EXPECT_FALSE(says(text_of(a), "the layout's own; give hose_bores"));
  a.problem.choices.hose_bores = {10.0 * mm};
  EXPECT_TRUE(says(text_of(a), "Tried: hose bores: " + format_bore(10.0 * mm, UnitSystem::us) + ", the layout's own"));
}

TEST(RareSizes, WhereNothingFitsAndNothingWasNearThatIsAll) {
  SizeAnswer a = answered();
  a.fits.clear();
  a.nearest_miss.reset();
  const std::string text = text_of(a);
  EXPECT_TRUE(text.starts_with("NOTHING FITS: ")) << text;
  EXPECT_FALSE(says(text, "The nearest miss") || says(text, "What to buy")) << text;
}

TEST(RareSizes, NotSureAndStoppedBeforeTheListEnds) {
  SizeAnswer a = answered();
  a.sure.reset();
  a.complete = false;
  a.band = {{.upper = true, .holds = false, .viscosity = si(200.0 * cP), .refused = "no convergence", .points = 1}};
  EXPECT_TRUE(says(text_of(a), "at " + format(200.0 * cP, UnitSystem::us) +
                                   " it has no answer: no convergence. Measure your product's viscosity"))
      << "what was not tried is not said to fail\n"
      << text_of(a);
}

TEST(RareSizeWords, LengthsAsTheyAreReadOnATape) {
  using report_detail::short_cut_text;
  EXPECT_EQ(short_cut_text(10.0 * 0.0254, UnitSystem::us), "10\"");
  EXPECT_EQ(short_cut_text(22.0 * 0.3048, UnitSystem::us), "22'");
  EXPECT_EQ(short_cut_text(6.0 * 0.3048 + 3.0 * 0.0254, UnitSystem::us), "6'3\"");
  EXPECT_EQ(short_cut_text(1.27, UnitSystem::metric), "1.27");
}

TEST(RareSizeWords, PiecesOfOpenRowsAndOfTwoOutlets) {
  SizeProblem p = answered().problem;
  Toolbar& t = std::get<Toolbar>(p.layout.plumbing);
  HosePlan plan = p.plans.front();
  plan.lengths = {2.0, 1.0, 1.0, 2.0};
  EXPECT_EQ(report_detail::pieces_text(p, plan, UnitSystem::metric),
            "2 of 2.00 m (rows 1, 4), 2 of 1.00 m (rows 2, 3)");
  t.row_changes = {{.row = 1, .shut = true}};
  EXPECT_EQ(report_detail::pieces_text(p, plan, UnitSystem::metric), "1 of 2.00 m (row 4), 2 of 1.00 m (rows 2, 3)");
  // Metered at the ports each outlet has a hose of its own from there; metered at the row both share one.
  t.outlets_per_row = 2;
  EXPECT_EQ(report_detail::pieces_text(p, plan, UnitSystem::metric), "1 of 2.00 m (row 4), 2 of 1.00 m (rows 2, 3)");
  t.metering = MeteringPlace::manifold;
  EXPECT_EQ(report_detail::pieces_text(p, plan, UnitSystem::metric), "2 of 2.00 m (row 4), 4 of 1.00 m (rows 2, 3)");
}

TEST(RareSizeWords, SpansOfSlopesAndAPumpWithoutALimit) {
  WorkingPoint p{
      .speed = 5.0 * mph, .rate = 5.0 * gal_per_acre, .temperature = fahrenheit(40), .side_slope = 0.0 * rad};
  std::vector<WorkingPoint> points{p, p};
  EXPECT_TRUE(report_detail::span_text(points, UnitSystem::us).ends_with(", level ground"));
  points[1].side_slope = slope_percent(8.0);
  const std::string high = format(points[1].side_slope, UnitSystem::us);
  EXPECT_TRUE(report_detail::span_text(points, UnitSystem::us).ends_with(" to " + high));
  points[0].side_slope = points[1].side_slope;
  EXPECT_TRUE(report_detail::span_text(points, UnitSystem::us).ends_with(", side slope " + high));
  EXPECT_TRUE(
      report_detail::binding_text(p, {.limit = SizeLimit::pump, .value = 1e5, .allowed = HUGE_VAL}, UnitSystem::us)
          .starts_with("pump, it cannot give that flow at all, at "));
}

TEST(RareSizeLines, AnOrificesThicknessAndCoefficientAndEveryManifold) {
  SizeProblem p = answered().problem;
  for (OrificeChoice& o : p.choices.orifices) {
    o = OrificeByBore{.bore = 1.5 * mm, .thickness = 3.0 * mm, .discharge_coefficient = 0.75};
  }
  const SizeCandidate& c = answered().fits.front();
  EXPECT_TRUE(size_toml(p, c, UnitSystem::metric)
                  .starts_with("[orifice]\nbore = \"1.5 mm\"\nthickness = \"3 mm\"\ncoefficient = 0.75\n\n[hose]\n"))
      << size_toml(p, c, UnitSystem::metric);
  EXPECT_TRUE(holds(size_toml(p, c, UnitSystem::metric), "\n[[manifold]]\n"));
  std::get<Toolbar>(p.layout.plumbing).manifolds.emplace_back();
  EXPECT_TRUE(holds(size_toml(p, c, UnitSystem::metric), "\n[[manifold]]                   # each of them\n"));
}

TEST(RareEqualHoses, WhatDiffersFromPointToPointHasAColumn) {
  SizeChoices c;
  c.rates = {50.0 * L_per_ha, 100.0 * L_per_ha};
  c.temperatures = {celsius(5), celsius(20)};
  c.side_slopes = {0.0 * rad, slope_percent(5.0)};
  EqualHoses a = equal_hoses(four_rows(), c);
  ASSERT_EQ(a.points.size(), 8U);
  const std::string text = equal_hoses_text(a, {.units = UnitSystem::metric});
  EXPECT_TRUE(says(text, "rate temp. slope now: shortest")) << text;
  EXPECT_TRUE(says(text, "50.0 5.0 0.0 ") && says(text, "100.0 20.0 5.0 ")) << text;
  EXPECT_FALSE(says(text, "speed ")) << text;
}

TEST(RareEqualHoses, StoppedOnTheWayOrBeforeIt) {
  EqualHoses a;
  EXPECT_EQ(equal_hoses_text(a), "STOPPED before the first operating point.\n");
  a = equal_hoses(four_rows());
  ASSERT_FALSE(a.points.empty());
  a.points.front().need = EqualHosesPoint::Need::some_orifice;
  a.points.front().needed = {.bore = 1e-3, .orifice_drop = 2e5, .pressure = 3e5};
  a.with_one = {{.bore = 1e-3, .pressure = 3e5}};
  a.one_allowed = false;
  a.points.front().limit = si(30.0 * psi);
  EXPECT_TRUE(says(equal_hoses_text(a, {.units = UnitSystem::us, .width = 400}),
                   " 30.00 psi is allowed at the gauge: keep the hoses equal, try two lengths"))
      << "the reader's own limit is no common practice\n"
      << equal_hoses_text(a);
  a.with_one.clear();
  a.complete = false;
  const std::string text = equal_hoses_text(a);
  EXPECT_TRUE(says(text, "STOPPED: the operating points after these were not tried.")) << text;
  EXPECT_FALSE(says(text, "is allowed at the gauge")) << text;
}

}  // namespace rare_sizes_test
}  // namespace libflow
