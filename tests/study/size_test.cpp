// SPDX-License-Identifier: MIT
/// @file
/// Sizing against brute force: every combination solved at every point from nothing, limits counted by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <libflow/study/cut_length.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_test {

using namespace units;
using test::driven_layout, test::expect_refused, test::plain_bar, test::plain_drive, test::plain_job, test::plain_valve;

std::vector<OrificeChoice> holes(std::initializer_list<double> mms) {
  std::vector<OrificeChoice> all;
  for (const double one : mms) all.emplace_back(OrificeByBore{.bore = one * mm});
  return all;
}

/// Eight rows of cold thick liquid on thin hose, at two flows, two temperatures, level and on a hill.
Layout thick_bar() {
  Toolbar t = plain_bar(8);
  t.check_valve = plain_valve();
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.6 * m};
  t.hose_rating = 7.0 * bar;
  Layout layout{.name = "thick", .job = plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.rate = 5.0 * gal_per_acre;
  layout.job.pump_limit = 4.5 * bar;
  return layout;
}
SizeChoices coarse_grid() {
  SizeChoices c;
  c.orifices = holes({0.8, 0.95, 1.1, 1.3});
  c.hose_bores = {6.0 * mm, 8.0 * mm};
  c.step = 1.0 * m;
  c.cracks = {2.0 * psi, 4.0 * psi};
  c.speeds = {4.0 * mph, 6.0 * mph};
  c.temperatures = {celsius(5.0), celsius(20.0)};
  c.side_slopes = {slope_percent(0.0), slope_percent(5.0)};
  return c;
}

/// What one combination shows when every point is solved from nothing.
struct Brute {
  double use = 0.0, deviation = 0.0, low = std::numeric_limits<double>::infinity(), high = 0.0;
};
Brute brute(const SizeProblem& p, const SizeChoice& choice) {
  Brute out;
  for (const WorkingPoint& at : p.points) {
    Toolbar t = toolbar_for(p, choice);
    t.side_slope = at.side_slope;
    Job job = p.layout.job;
    job.speed = at.speed;
    job.rate = at.rate;
    job.temperature = at.temperature;
    const Plumbing plumbing = build_network(t, job);
    const LiquidState liquid = job.liquid.at(job.temperature);
    const Solution s = solve_plumbing(plumbing, liquid);
    EXPECT_TRUE(s.usable()) << s.message;
    const Evenness e = evaluate(plumbing, job, s, liquid);
    for (const RowResult& r : e.rows) out.deviation = std::max(out.deviation, r.shut ? 0.0 : std::abs(r.deviation));
    out.low = std::min(out.low, e.supply_pressure);
    out.high = std::max(out.high, e.supply_pressure);
  }
  double most = std::min(si(p.choices.most_pressure), si(*p.layout.job.pump_limit));
  if (p.toolbar().hose_rating) most = std::min(most, si(*p.toolbar().hose_rating));
  out.use = std::max({out.deviation / p.layout.job.tolerance, si(p.choices.least_pressure) / out.low, out.high / most});
  return out;
}

/// Fits, order and numbers agree with brute force for every combination.
void expect_as_brute_force(const Layout& layout, const SizeChoices& choices, const SizeAnswer& a) {
  const SizeProblem p = size_problem(layout, choices);
  std::vector<SizeCandidate> all = size_detail::all_candidates(p);
  ASSERT_EQ(all.size(), a.combinations);
  std::size_t fits = 0;
  double cheapest = std::numeric_limits<double>::infinity(), nearest = cheapest, nearest_cheaper = cheapest;
  std::vector<Brute> results;
  for (const SizeCandidate& c : all) {
    results.push_back(brute(p, c.choice));
    if (results.back().use > 1.0) continue;
    ++fits;
    cheapest = std::min(cheapest, c.price);
  }
  for (std::size_t k = 0; k < all.size(); ++k) {
    nearest = std::min(nearest, results[k].use);
    if (all[k].price < cheapest * (1.0 - 1e-9)) nearest_cheaper = std::min(nearest_cheaper, results[k].use);
  }
  EXPECT_EQ(a.fits.size(), fits);
  for (const SizeCandidate& c : a.fits) {
    const Brute b = brute(p, c.choice);
    EXPECT_NEAR(c.outcome.binding.use / b.use, 1.0, 1e-9);
    EXPECT_NEAR(c.outcome.worst_deviation, b.deviation, 1e-9);
    EXPECT_NEAR(c.outcome.least_pressure / b.low, 1.0, 1e-9);
    EXPECT_NEAR(c.outcome.most_pressure / b.high, 1.0, 1e-9);
    Toolbar as_cut = toolbar_for(p, c.choice);  // its feed hoses too
    for (Manifold& m : as_cut.manifolds) {
      if (si(m.feed_length) > 0.0) m.feed_length = cut_length(m.feed_length, 1.0 * inch);
    }
    EXPECT_NEAR(c.hose, build_network(as_cut, p.layout.job).hose_total, 1e-9);
  }
  if (fits > 0) {
    EXPECT_NEAR(a.winner()->price, cheapest, 1e-9 * cheapest);
    for (std::size_t k = 0; k + 1 < a.fits.size(); ++k) {
      EXPECT_FALSE(size_detail::dearer(a.fits[k].price, a.fits[k + 1].price)) << k;
    }
    EXPECT_EQ(a.nearest_miss.has_value(), std::isfinite(nearest_cheaper));
    if (a.nearest_miss) {
      EXPECT_NEAR(a.nearest_miss->outcome.binding.use / nearest_cheaper, 1.0, 1e-9);
    }
  } else {
    ASSERT_TRUE(a.nearest_miss);
    EXPECT_NEAR(a.nearest_miss->outcome.binding.use / nearest, 1.0, 1e-9);
  }
}

TEST(Size, AgreesWithBruteForcePointByPoint) {
  const Layout layout = thick_bar();
  const SizeChoices choices = coarse_grid();
  const SizeAnswer a = size_toolbar(layout, choices);
  ASSERT_TRUE(a.complete);
  EXPECT_EQ(a.problem.points.size(), 8U);
  EXPECT_GT(a.fits.size(), 0U);
  EXPECT_LT(a.fits.size(), a.combinations);
  EXPECT_GT(a.bounded, 0U);  // the bound is at work, and takes nothing away:
  EXPECT_LT(a.solves, a.combinations * a.problem.points.size());
  expect_as_brute_force(layout, choices, a);
}

TEST(Size, NearestMissAgreesWithBruteForce) {
  Layout layout = thick_bar();
  layout.job.tolerance = 0.004;
  const SizeChoices choices = coarse_grid();
  const SizeAnswer a = size_toolbar(layout, choices);
  EXPECT_TRUE(a.fits.empty());
  expect_as_brute_force(layout, choices, a);
}

TEST(Size, JunctionLossesAndFeedsAgreeWithBruteForce) {
  Layout layout = thick_bar();
  std::get<Toolbar>(layout.plumbing).manifolds = {
      Manifold{.bore = 12.0 * mm, .feed_length = 1.0 * m, .junction_losses = true}};
  SizeChoices choices = coarse_grid();
  choices.orifices = holes({0.8, 1.0});
  choices.hose_bores = {8.0 * mm};
  choices.cuts = {Cut::equal, Cut::shortest};
  choices.side_slopes.clear();
  choices.manifold_bores = {12.0 * mm, 20.0 * mm};
  choices.feeds = {ManifoldFeed::middle, ManifoldFeed::left};
  const SizeAnswer a = size_toolbar(layout, choices);
  EXPECT_EQ(a.bounded, 0U);  // junctions can give pressure back
  expect_as_brute_force(layout, choices, a);
}

// Orifices at the ports and two hoses a row behind each of them; a row that is off, and rows with parts of their own,
// at which the search has nothing to choose.
TEST(Size, MeteredAtThePortsWithRowsOfTheirOwnAgreesWithBruteForce) {
  Layout layout = thick_bar();
  auto& t = std::get<Toolbar>(layout.plumbing);
  t.metering = MeteringPlace::manifold;
  t.outlets_per_row = 2;
  t.row_changes = {{.row = 3, .shut = true},
                   {.row = 5, .orifice = OrificeByBore{.bore = 1.0 * mm}},
                   {.row = 6, .hose_bore = 7.0 * mm},
                   {.row = 7, .crack = 3.0 * psi}};
  SizeChoices choices = coarse_grid();
  choices.speeds = {5.0 * mph};
  layout.job.tolerance = 0.4;
  const SizeAnswer a = size_toolbar(layout, choices);
  ASSERT_FALSE(a.fits.empty());
  expect_as_brute_force(layout, choices, a);
}

TEST(Size, TheTradeOffsFrontIsWhatNothingBeats) {
  const SizeAnswer a = size_toolbar(thick_bar(), coarse_grid());
  std::size_t front = 0;
  for (const SizeCandidate& c : a.fits) {
    front += c.pareto ? 1 : 0;
    const bool beaten = std::any_of(a.fits.begin(), a.fits.end(), [&](const SizeCandidate& d) {
      return d.price < c.price - 1e-6 && d.outcome.worst_deviation < c.outcome.worst_deviation &&
             d.outcome.most_pressure < c.outcome.most_pressure;
    });
    EXPECT_FALSE(beaten && c.pareto);
  }
  EXPECT_GT(front, 0U);
  EXPECT_LE(front, a.fits.size());
}

TEST(Size, HosePlansReachEveryRow) {
  const SizeProblem p = size_problem(thick_bar(), coarse_grid());
  // Eight rows mirror each other: four runs, so three ways to split them.
  EXPECT_EQ(p.plans.size(), 3U + 3U);
  for (const HosePlan& plan : p.plans) {
    double total = 0.0;
    for (std::size_t i = 0; i < p.runs.size(); ++i) {
      EXPECT_GE(plan.lengths[i], p.runs[i] - 1e-9);
      total += plan.lengths[i];
      if (plan.cut == Cut::rounded) {
        EXPECT_NEAR(std::remainder(plan.lengths[i], 1.0), 0.0, 1e-12);
      }
    }
    EXPECT_NEAR(plan.total, total, 1e-9);
  }
  // The outermost row: 3.5 spacings out, less 3.5 port spacings, and the slack.
  EXPECT_NEAR(p.runs.front(), 3.5 * (si(30.0 * inch) - 0.05) + 0.6, 1e-12);
}

TEST(Size, PricesDecideWhereTheyAreGiven) {
  const Layout layout = thick_bar();
  SizeChoices choices = coarse_grid();
  choices.hose_prices = {1.0, 100.0};
  const SizeAnswer a = size_toolbar(layout, choices);
  ASSERT_FALSE(a.fits.empty());
  for (const SizeCandidate& c : a.fits) {
    EXPECT_NEAR(c.price, a.problem.plans[c.choice.plan].total * choices.hose_prices[c.choice.hose_bore], 1e-9);
    EXPECT_GE(c.price, a.winner()->price * (1.0 - 1e-9));
  }
}

TEST(Size, GroupsOfRowsGetTheirOwnOrifice) {
  // The outer rows cover strips of double width: one orifice cannot be right, two can.
  Layout layout = thick_bar();
  Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  for (const int row : {1, 8}) bar.row_changes.push_back({.row = row, .width = 60.0 * inch});
  SizeChoices choices = coarse_grid();
  choices.temperatures = {celsius(20.0)};
  choices.side_slopes.clear();
  choices.orifices = holes({0.8, 0.9, 1.0, 1.13, 1.27, 1.41});
  choices.hose_bores = {10.0 * mm};
  EXPECT_TRUE(size_toolbar(layout, choices).fits.empty());
  choices.groups = {{.name = "outer", .rows = {1, 8}}};
  const SizeAnswer a = size_toolbar(layout, choices);
  ASSERT_FALSE(a.fits.empty());
  expect_as_brute_force(layout, choices, a);
  const SizeChoice& best = a.winner()->choice;
  ASSERT_EQ(best.orifices.size(), 2U);
  const auto bore = [&](std::size_t group) {
    return si(std::get<OrificeByBore>(choices.orifices[best.orifices[group]]).bore);
  };
  // Double the flow through the same drop takes 1.41 times the bore; the list's nearest steps are about 12 % apart.
  EXPECT_NEAR(bore(1) / bore(0), std::sqrt(2.0), 0.13);
  // The layout that comes out has them.
  const Toolbar out = std::get<Toolbar>(a.layout_with(*a.winner()).plumbing);
  EXPECT_EQ(std::get<OrificeByBore>(*out.row_changes.front().orifice).bore, from_si<Length>(bore(1)));
}

TEST(Size, ADrivesReachIsWhatTheOperatingPointFinds) {
  Layout layout = driven_layout(plain_drive());
  std::get<Toolbar>(layout.plumbing).hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.6 * m};
  SizeChoices choices;
  choices.orifices = holes({0.8, 1.0, 1.25, 1.6});
  choices.cuts = {Cut::equal};
  choices.rates = {60.0 * L_per_ha, 100.0 * L_per_ha, 150.0 * L_per_ha, 250.0 * L_per_ha};
  choices.least_pressure = 0.1 * psi;
  choices.most_pressure = 500.0 * psi;
  const SizeProblem p = size_problem(layout, choices);
  std::size_t within = 0, beyond = 0;
  for (std::size_t k = 0; k < p.points.size(); ++k) {
    for (std::size_t hole = 0; hole < choices.orifices.size(); ++hole) {
      SizeChoice choice;
      choice.orifices = {hole};
      Layout drawn = p.layout;
      drawn.plumbing = toolbar_for(p, choice);
      drawn.job.rate = p.points[k].rate;
      Layout ideal = drawn;
      std::get<Toolbar>(ideal.plumbing).drive.reset();
      const double pressure = main_job(ideal).evenness.supply_pressure;
      const bool reached = operating_point(drawn).reached;
      EXPECT_EQ(p.supply[k].contains(pressure), reached) << k << " " << hole << " " << pressure;
      ++(reached ? within : beyond);
    }
  }
  EXPECT_GT(within, 0U);
  EXPECT_GT(beyond, 0U);
}

TEST(Size, GenericBoresAreSeriesR20) {
  // ISO 3: the R 20 numbers are 10^(k/20), rounded by -1.01 % to +1.26 % (from memory).
  const auto all = generic_orifices();
  EXPECT_EQ(all.size(), 19U);
  for (std::size_t k = 0; k < all.size(); ++k) {
    const double exact = std::pow(10.0, (static_cast<double>(k) - 8.0) / 20.0);
    const double written = 1e3 * si(std::get<OrificeByBore>(all[k]).bore);
    EXPECT_GT(written / exact, 1.0 - 0.0102) << written;
    EXPECT_LT(written / exact, 1.0 + 0.0127) << written;
  }
}

TEST(Size, StopsAndRefuses) {
  const Layout layout = thick_bar();
  const SizeAnswer stopped =
      size_toolbar(layout, coarse_grid(), [](std::size_t done, std::size_t) { return done < 40; });
  EXPECT_FALSE(stopped.complete);
  EXPECT_EQ(stopped.tried, 48U);
  const auto refused = [&](auto change, const char* field) {
    SizeChoices c = coarse_grid();
    change(c);
    expect_refused([&] { (void)size_toolbar(layout, c); }, field);
  };
  refused([](SizeChoices& c) { c.groups = {{"a", {1}}, {"b", {1}}}; }, "group 'b'");
  refused([](SizeChoices& c) { c.groups = {{"a", {9}}}; }, "group 'a'");
  refused([](SizeChoices& c) { c.hose_prices = {1.0}; }, "hose prices");
  refused([](SizeChoices& c) { c.step = 0.0 * m; }, "step");
  refused([](SizeChoices& c) { c.most_pressure = 1.0 * psi; }, "most pressure");
  refused([](SizeChoices& c) { c.speeds = {0.0 * mph}; }, "speed");
  refused(
      [](SizeChoices& c) {
        c.orifices = generic_orifices();
        c.groups = {{"a", {1}}, {"b", {2}}, {"c", {3}}, {"d", {4}}};
      },
      "size");
  Layout free = layout;
  free.plumbing = Plumbing{};
  expect_refused([&] { (void)size_toolbar(free, {}); }, "size");
}

}  // namespace size_test
}  // namespace libflow
