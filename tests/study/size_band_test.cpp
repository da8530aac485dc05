// SPDX-License-Identifier: MIT
/// @file
/// Sizing over the band of the product's viscosity: what is called sure is so when every point is solved afresh with
/// that viscosity measured, what is cheaper is not, and `solve` of the layout says the same.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <libflow/file/layout_size.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace size_band_test {

using namespace units;

SizeFile band_example() { return read_size(std::string(LIBFLOW_EXAMPLES) + "/sizing.toml"); }

/// A point's job with the viscosity at one end of its band, as if it had been measured.
Job job_at_end(const SizeProblem& p, std::size_t point, bool upper) {
  Job job = p.layout.job;
  job.speed = p.points[point].speed;
  job.rate = p.points[point].rate;
  job.temperature = p.points[point].temperature;
  const LiquidState likely = job.liquid.at(job.temperature);
  const double viscosity = upper ? *likely.viscosity_high : *likely.viscosity_low;
  job.liquid = job.liquid.with_viscosity(from_si<Viscosity>(viscosity), job.temperature);
  return job;
}

/// The largest share of a limit of evenness and pressure that a choice uses at one end, every point from nothing.
double used_at_end(const SizeProblem& p, const SizeChoice& choice, bool upper) {
  double use = 0.0;
  for (std::size_t k = 0; k < p.points.size(); ++k) {
    const Job job = job_at_end(p, k, upper);
    Toolbar t = toolbar_for(p, choice);
    t.side_slope = p.points[k].side_slope;
    const Plumbing plumbing = build_network(t, job);
    const LiquidState liquid = job.liquid.at(job.temperature);
    const Solution s = solve_plumbing(plumbing, liquid);
    EXPECT_TRUE(s.usable()) << s.message;
    const Evenness e = evaluate(plumbing, job, s, liquid);
    for (const RowResult& r : e.rows) use = std::max(use, std::abs(r.deviation) / job.tolerance);
    const double most = std::min({si(p.choices.most_pressure), si(*job.pump_limit), si(*t.hose_rating)});
    use = std::max({use, e.supply_pressure / most, si(p.choices.least_pressure) / e.supply_pressure});
  }
  return use;
}

TEST(SizeBand, TheFirstThatIsSureIsSoAndTheCheaperAreNot) {
  const SizeFile file = band_example();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(a.complete);
  ASSERT_TRUE(a.sure);
  ASSERT_GT(*a.sure, 0U) << "the example of a cheapest choice that holds at the likely viscosity only";
  for (std::size_t k = 0; k <= *a.sure; ++k) {
    const double thin = used_at_end(a.problem, a.fits[k].choice, false);
    const double thick = used_at_end(a.problem, a.fits[k].choice, true);
    EXPECT_EQ(std::max(thin, thick) <= 1.0, k == *a.sure) << k;
  }
  ASSERT_EQ(a.band.size(), 2U);
  EXPECT_FALSE(a.band[0].upper);
  EXPECT_TRUE(a.band[1].upper);
  // The bands of the recommended one, at the points at which they were told.
  for (const SizeBandEnd& end : a.band) {
    const double use = used_at_end(a.problem, a.recommended()->choice, end.upper);
    EXPECT_GE(end.binding.use, use - 1e-9);
    EXPECT_EQ(end.holds, end.binding.use <= 1.0 + 1e-9);
    const LiquidState likely = a.problem.layout.job.liquid.at(end.point.temperature);
    EXPECT_DOUBLE_EQ(end.viscosity, end.upper ? *likely.viscosity_high : *likely.viscosity_low);
  }
}

// The main job of the layout at each operating point: even and at its rate at both ends for what is sure; for the
// cheapest the rate is not reached at the thick end somewhere, which is what a reader of 'solve' finds.
TEST(SizeBand, SolveOfTheLayoutSaysTheSame) {
  const SizeFile file = band_example();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(a.sure);
  const auto depends = [&](const SizeCandidate& c) {
    bool somewhere = false;
    for (const WorkingPoint& at : a.problem.points) {
      Layout layout = a.layout_with(c);
      std::get<Toolbar>(layout.plumbing).side_slope = at.side_slope;
      layout.job.speed = at.speed;
      layout.job.rate = at.rate;
      layout.job.temperature = at.temperature;
      const Answer answer = main_job(layout);
      EXPECT_TRUE(answer.evenness.even);
      somewhere = somewhere || verdict_depends_on_viscosity(answer);
    }
    return somewhere;
  };
  EXPECT_TRUE(depends(*a.winner()));
  EXPECT_FALSE(depends(a.fits[*a.sure]));
}

TEST(SizeBand, WhatIsSureIsRecommendedOnlyWhereItCostsLittle) {
  SizeFile file = band_example();
  const SizeAnswer dear = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(dear.sure);
  const double more = dear.fits[*dear.sure].price / dear.winner()->price - 1.0;
  EXPECT_EQ(dear.best == *dear.sure, more <= SizeAnswer::may_cost_more);
  EXPECT_EQ(dear.is_sure(), dear.best == *dear.sure);
  // The same hoses at prices that are nearly one: now it is worth it.
  file.choices.hose_prices = {1.00, 1.01, 1.02};
  file.choices.cuts = {Cut::equal};
  const SizeAnswer cheap = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(cheap.sure);
  EXPECT_GT(cheap.best, 0U);
  EXPECT_EQ(cheap.best, *cheap.sure);
  EXPECT_TRUE(cheap.is_sure());
  EXPECT_TRUE(cheap.verified.holds);
  ASSERT_EQ(cheap.band.size(), 2U);
  for (const SizeBandEnd& end : cheap.band)
    EXPECT_EQ(end.points, cheap.verified.points) << "verified between points too";
  ASSERT_EQ(cheap.winner_band.size(), 2U);
  EXPECT_FALSE(cheap.winner_band[0].holds && cheap.winner_band[1].holds);
}

// Prices that are nearly one and parts that scatter: of the choices that are sure and cost little more, the cheapest
// that is, but for a per cent, as often even as built as the best of them; what is not sure is not asked.
TEST(SizeBand, AmongTheSureTheOneThatIsEvenAsBuiltIsRecommended) {
  SizeFile file = band_example();
  file.choices.hose_bores = {0.375 * inch, 0.5 * inch};
  file.choices.hose_prices = {1.01, 1.00};
  file.choices.cuts = {Cut::equal};
  file.choices.verify = 1;
  Tolerance bores{.of = ToleranceOf::orifice_bore};
  bores.difference.deviation = 1e-5;
  Tolerance hoses{.of = ToleranceOf::hose_bore};
  hoses.difference.deviation = 0.02;
  hoses.relative = true;
  file.layout.tolerances = {bores, hoses};
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(a.sure);
  const double most = (1.0 + SizeAnswer::may_cost_more) * a.winner()->price;
  ASSERT_LE(a.fits[*a.sure].price, most);
  std::vector<std::size_t> sure;
  double best = 0.0, best_of_all = 0.0;
  for (std::size_t k = 0; k < a.fits.size() && a.fits[k].price <= most * (1.0 + 1e-9); ++k) {
    ASSERT_TRUE(a.fits[k].built) << k;
    best_of_all = std::max(best_of_all, a.fits[k].built->within);
    const SizeChoice& choice = a.fits[k].choice;
    const double use = std::max(used_at_end(a.problem, choice, false), used_at_end(a.problem, choice, true));
    if (use > 1.0 + 1e-9) continue;
    sure.push_back(k);
    best = std::max(best, a.fits[k].built->within);
  }
  ASSERT_GT(sure.size(), 1U) << "the example of a choice among several";
  ASSERT_GT(best_of_all, best + SizeAnswer::as_even) << "the example of an evener one that is not sure";
  EXPECT_EQ(sure.front(), *a.sure);
  const auto expected = std::find_if(
      sure.begin(), sure.end(), [&](std::size_t k) { return a.fits[k].built->within >= best - SizeAnswer::as_even; });
  EXPECT_EQ(a.best, *expected);
  EXPECT_GT(a.best, *a.sure);
  EXPECT_TRUE(a.is_sure());
}

TEST(SizeBand, AMeasuredViscosityHasNoBand) {
  SizeFile file = band_example();
  file.layout.job.liquid =
      file.layout.job.liquid.with_viscosity({{120.0 * cP, fahrenheit(40)}, {56.0 * cP, fahrenheit(70)}});
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_NE(a.winner(), nullptr);
  EXPECT_TRUE(a.band.empty());
  EXPECT_TRUE(a.is_sure());
  EXPECT_EQ(a.best, 0U);
  EXPECT_EQ(a.recommended(), a.winner());
}

TEST(SizeBand, WhereNothingIsSureItSaysSo) {
  SizeFile file = band_example();
  file.choices.hose_bores = {0.25 * inch};
  file.choices.hose_prices.clear();
  file.choices.cuts = {Cut::equal};
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_NE(a.winner(), nullptr);
  EXPECT_FALSE(a.sure);
  EXPECT_FALSE(a.is_sure());
  EXPECT_EQ(a.best, 0U);
  EXPECT_FALSE(a.band[1].holds) << "a quarter of an inch is too thin for the thick end";
}

// With pump and tank every limit from the tank to the rows counts at the ends too.
TEST(SizeBand, ADriveIsAskedAtTheEndsToo) {
  SizeFile file = read_size(std::string(LIBFLOW_EXAMPLES) + "/pump_and_tank_bar.toml");
  file.choices.orifices = {OrificeByBore{.bore = 0.046 * inch}, OrificeByBore{.bore = 0.052 * inch},
                           OrificeByBore{.bore = 0.059 * inch}};
  file.choices.cuts = {Cut::equal};
  file.choices.speeds = {5.0 * mph};
  file.choices.rates = {5.0 * gal_per_acre};
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_NE(a.winner(), nullptr);
  ASSERT_EQ(a.band.size(), 2U);
  for (const SizeCandidate& c : a.fits) {
    Layout layout = a.layout_with(c);
    layout.job.speed = 5.0 * mph;
    layout.job.rate = 5.0 * gal_per_acre;
    const std::vector<ViscosityEnd> ends = over_viscosity_band(layout);
    ASSERT_EQ(ends.size(), 2U);
    const bool good = std::all_of(ends.begin(), ends.end(), [](const auto& e) { return e.even && e.stop.empty(); });
    if (a.sure && &c == &a.fits[*a.sure]) {
      EXPECT_TRUE(good);
    }
  }
}

}  // namespace size_band_test
}  // namespace libflow
