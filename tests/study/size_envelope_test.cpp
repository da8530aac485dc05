// SPDX-License-Identifier: MIT
/// @file
/// Sizing over a whole envelope: the verified winner against brute force point by point, limits of the drive against
/// operating points, exact slopes against differences.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include <libflow/fluid/catalogue.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_slopes.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_envelope_test {

using namespace units;
using test::plain_bar, test::plain_job, test::plain_valve;

std::vector<OrificeChoice> bored(std::initializer_list<double> mms) {
  std::vector<OrificeChoice> all;
  for (const double one : mms) all.emplace_back(OrificeByBore{.bore = one * mm});
  return all;
}

Layout thick_rows() {
  Toolbar t = plain_bar(8);
  t.check_valve = plain_valve();
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.6 * m};
  t.hose_bore = 6.0 * mm;
  Layout layout{.name = "thick rows", .job = plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.rate = 5.0 * gal_per_acre;
  return layout;
}

/// Most of any limit that is used at one point, from nothing: evenness and the gauge's window.
double used_at(const SizeProblem& p, const SizeChoice& choice, Speed speed, AreaRate rate, Temperature temperature) {
  const Toolbar t = toolbar_for(p, choice);
  Job job = p.layout.job;
  job.speed = speed;
  job.rate = rate;
  job.temperature = temperature;
  const Plumbing plumbing = build_network(t, job);
  const LiquidState liquid = job.liquid.at(temperature);
  const Evenness e = evaluate(plumbing, job, solve_plumbing(plumbing, liquid), liquid);
  double use =
      std::max(si(p.choices.least_pressure) / e.supply_pressure, e.supply_pressure / si(p.choices.most_pressure));
  for (const RowResult& r : e.rows) use = std::max(use, std::abs(r.deviation) / e.tolerance);
  return use;
}

TEST(SizeEnvelope, TheWinnerHoldsAtEveryPointOfABruteGrid) {
  const Layout layout = thick_rows();
  SizeChoices c;
  c.orifices = bored({0.8, 0.95, 1.1, 1.3});
  c.hose_bores = {6.0 * mm, 8.0 * mm};
  c.cuts = {Cut::equal, Cut::shortest};
  c.speeds = {4.0 * mph, 6.0 * mph};
  c.rates = {4.0 * gal_per_acre, 5.0 * gal_per_acre};
  c.temperatures = {celsius(10.0), celsius(20.0)};
  c.verify = 5;
  const SizeAnswer a = size_toolbar(layout, c);
  ASSERT_TRUE(a.complete);
  ASSERT_NE(a.winner(), nullptr);
  EXPECT_TRUE(a.verified.holds);
  EXPECT_GT(a.verified.points, 5U * 5U * 3U / 2U);  // those of one flow are one
  // The same grid by brute force: the same most used limit.
  double most = 0.0;
  for (int i = 0; i < 5; ++i) {
    for (int j = 0; j < 5; ++j) {
      for (int k = 0; k < 3; ++k) {
        most = std::max(most, used_at(a.problem, a.winner()->choice, (4.0 + 0.5 * i) * mph,
                                      (4.0 + 0.25 * j) * gal_per_acre, celsius(10.0 + 5.0 * k)));
      }
    }
  }
  EXPECT_LE(most, 1.0 + 1e-9);
  EXPECT_NEAR(a.verified.binding.use / most, 1.0, 1e-9);
  // And no cheaper combination of the list holds at the search's points.
  for (const SizeCandidate& other : size_detail::all_candidates(a.problem)) {
    if (!size_detail::dearer(a.winner()->price, other.price)) continue;
    double use = 0.0;
    for (const WorkingPoint& at : a.problem.points) {
      use = std::max(use, used_at(a.problem, other.choice, at.speed, at.rate, at.temperature));
    }
    EXPECT_GT(use, 1.0);
  }
}

TEST(SizeEnvelope, TheGridSpansTheLists) {
  const Layout layout = thick_rows();
  SizeChoices c;
  c.orifices = bored({0.95, 1.1});
  c.cuts = {Cut::equal, Cut::shortest};
  c.speeds = {4.0 * mph, 8.0 * mph};
  const SizeProblem p = size_problem(layout, c);
  SizeProblem grown = p;
  const SizeProblem fine = whole_envelope(p);
  ASSERT_EQ(fine.points.size(), 9U);
  EXPECT_EQ(fine.points.front().speed, 4.0 * mph);
  EXPECT_EQ(fine.points.back().speed, 8.0 * mph);
  add_point(grown, fine, 4);
  ASSERT_EQ(grown.points.size(), p.points.size() + 1);
  EXPECT_NEAR(si(grown.points.back().speed), si(6.0 * mph), 1e-12);
  EXPECT_NEAR(grown.flows.back() / p.flows.front(), 1.5, 1e-12);
  // One value stays one; verify = 1 keeps the points of the lists.
  SizeChoices only = c;
  only.verify = 1;
  EXPECT_EQ(whole_envelope(size_problem(layout, only)).points.size(), 2U);
  only.verify = 0;
  test::expect_refused([&] { (void)size_problem(layout, only); }, "verify");
}

TEST(SizeEnvelope, LimitsOfTheDriveAreThoseOfTheOperatingPoint) {
  Drive drive = test::full_drive(DriveControl::pump_speed);
  drive.delivery.rating = 2.5 * bar;  // less than the pump can give
  drive.suction_limit = -4.0 * kPa;   // soon reached
  Layout layout = test::driven_layout(drive);
  std::get<Toolbar>(layout.plumbing).hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.6 * m};
  SizeChoices c;
  c.orifices = bored({1.0, 1.25, 1.6, 2.0});
  c.cuts = {Cut::equal};
  c.rates = {60.0 * L_per_ha, 100.0 * L_per_ha, 160.0 * L_per_ha};
  c.least_pressure = 0.1 * psi;
  c.most_pressure = 500.0 * psi;
  for (const bool good_practice : {false, true}) {
    c.good_practice = good_practice;
    const SizeProblem p = size_problem(layout, c);
    std::size_t fit = 0, not_fit = 0;
    for (std::size_t hole = 0; hole < c.orifices.size(); ++hole) {
      SizeChoice choice;
      choice.orifices = {hole};
      bool keeps = true;
      for (const WorkingPoint& at : p.points) {
        Layout drawn = p.layout;
        drawn.plumbing = toolbar_for(p, choice);
        drawn.job.rate = at.rate;
        const OperatingPoint point = operating_point(drawn);
        keeps = keeps && point.reached;
        for (const Limit& l : point.limits) {
          keeps = keeps && (!l.broken() || (l.kind == LimitKind::advised && !good_practice));
        }
      }
      SizeBench bench(p);
      const SizeOutcome o = bench.try_choice(choice, 1.0 + 1e-9);
      EXPECT_EQ(o.fits(), keeps) << hole << " " << good_practice << " " << o.binding.name;
      ++(keeps ? fit : not_fit);
    }
    EXPECT_GT(not_fit, 0U);
    EXPECT_TRUE(fit > 0U || good_practice);
  }
}

/// Central difference of `f` at x.
double difference(const std::function<double(double)>& f, double x, double h) {
  return (f(x + h) - f(x - h)) / (2.0 * h);
}

TEST(SizeSlopes, AgreeWithDifferences) {
  const Layout layout = thick_rows();
  const Toolbar base = std::get<Toolbar>(layout.plumbing);
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const Plumbing drawn = build_network(base, layout.job);
  std::vector<double> lengths;
  for (const RowPlumbing& row : drawn.rows) lengths.push_back(row.hose_length);
  const double longest = *std::max_element(lengths.begin(), lengths.end());
  const auto solved = [&](const std::string& choice, double move) {
    Toolbar t = base;
    if (choice == "orifice bore") {
      auto& plate = std::get<OrificeByBore>(*t.orifice);
      plate.bore = from_si<Length>(si(plate.bore) + move);
    }
    if (choice == "hose bore") {
      t.hose_bore = from_si<Length>(si(t.hose_bore) + move);
    }
    if (choice == "crack pressure") t.check_valve->crack = from_si<Pressure>(si(t.check_valve->crack) + move);
    t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {}};
    for (const double l : lengths) {
      const double way = choice == "hose length towards equal" ? move : 0.0;
      t.hose.lengths.push_back(from_si<Length>(l + way * (longest - l)));
    }
    const Plumbing p = build_network(t, layout.job);
    return evaluate(p, layout.job, solve_plumbing(p, liquid), liquid);
  };
  const std::vector<ChoiceSlope> slopes = choice_slopes(base, layout.job, liquid);
  ASSERT_EQ(slopes.size(), 4U);
  for (const ChoiceSlope& s : slopes) {
    const double h = s.unit == "1" ? 1e-4 : s.unit == "Pa" ? 10.0 : 1e-5 * s.value;
    const auto row = static_cast<std::size_t>(s.row - 1);
    const double deviation =
        difference([&](double x) { return std::abs(solved(s.choice, x).rows[row].deviation); }, 0.0, h);
    const double cv = difference([&](double x) { return solved(s.choice, x).cv; }, 0.0, h);
    const double pressure = difference([&](double x) { return solved(s.choice, x).supply_pressure; }, 0.0, h);
    EXPECT_NEAR(s.deviation, deviation, 2e-4 * std::abs(deviation) + 1e-15) << s.choice;
    EXPECT_NEAR(s.cv, cv, 2e-4 * std::abs(cv) + 1e-15) << s.choice;
    EXPECT_NEAR(s.pressure, pressure, 2e-4 * std::abs(pressure)) << s.choice;
    // One crack pressure for all rows is one more constant loss: the gauge rises with it, pascal for pascal, no row
    // moves.
    if (s.choice == "crack pressure") {
      EXPECT_NEAR(s.pressure, 1.0, 1e-9);
    } else {
      EXPECT_NE(deviation, 0.0) << s.choice;
    }
  }
}

// A bar whose ports are tees: their losses move with the flows, and the slopes with them.
TEST(SizeSlopes, GoThroughThePortsTees) {
  Layout layout = thick_rows();
  Toolbar& base = std::get<Toolbar>(layout.plumbing);
  base.hose_bore = 10.0 * mm;
  base.orifice = OrificeByBore{.bore = 4.0 * mm};
  base.manifolds.front().bore = 12.0 * mm;
  base.manifolds.front().junction_losses = true;
  layout.job.liquid = Liquid();
  layout.job.rate = 60.0 * gal_per_acre;
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const auto solved = [&](const std::string& choice, double move) {
    Toolbar t = base;
    if (choice == "orifice bore") t.orifice = OrificeByBore{.bore = from_si<Length>(4e-3 + move)};
    if (choice == "crack pressure") t.check_valve->crack = from_si<Pressure>(si(t.check_valve->crack) + move);
    if (choice == "hose length towards equal") {
      std::vector<double> lengths;
      for (const RowPlumbing& row : build_network(base, layout.job).rows) lengths.push_back(row.hose_length);
      const double longest = *std::max_element(lengths.begin(), lengths.end());
      t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {}};
      for (const double l : lengths) t.hose.lengths.push_back(from_si<Length>(l + move * (longest - l)));
    }
    const Plumbing p = build_network(t, layout.job);
    EXPECT_FALSE(p.tees.empty());
    return evaluate(p, layout.job, solve_plumbing(p, liquid), liquid);
  };
  const std::vector<ChoiceSlope> slopes = choice_slopes(base, layout.job, liquid);
  ASSERT_EQ(slopes.size(), 3U);  // none of the hose bore
  for (const ChoiceSlope& s : slopes) {
    EXPECT_NE(s.choice, "hose bore");
    const double h = s.unit == "1" ? 1e-3 : s.unit == "Pa" ? 100.0 : 1e-3 * s.value;
    const auto row = static_cast<std::size_t>(s.row - 1);
    const double deviation =
        difference([&](double x) { return std::abs(solved(s.choice, x).rows[row].deviation); }, 0.0, h);
    const double pressure = difference([&](double x) { return solved(s.choice, x).supply_pressure; }, 0.0, h);
    EXPECT_NEAR(s.deviation, deviation, 1e-3 * std::abs(deviation) + 1e-9) << s.choice;
    EXPECT_NEAR(s.pressure, pressure, 1e-3 * std::abs(pressure)) << s.choice;
  }
}

TEST(SizeSlopes, OfTheNeededOrifice) {
  Layout layout = thick_rows();
  const EqualHoses a = equal_hoses(layout);
  ASSERT_EQ(a.points.size(), 1U);
  const HosesAt& needed = a.points.front().needed;
  ASSERT_TRUE(needed.exact_slope);
  EXPECT_GT(needed.deviation_by_bore, 0.0);  // a wider hole is less even
  Toolbar t = std::get<Toolbar>(layout.plumbing);
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const double slope = difference(
      [&](double bore) {
        t.orifice = OrificeByBore{.bore = from_si<Length>(bore)};
        const Plumbing p = build_network(t, layout.job);
        const Evenness e = evaluate(p, layout.job, solve_plumbing(p, liquid), liquid);
        return std::abs(e.rows[static_cast<std::size_t>(needed.row - 1)].deviation);
      },
      needed.bore, 1e-5 * needed.bore);
  EXPECT_NEAR(needed.deviation_by_bore / slope, 1.0, 2e-4);
}

}  // namespace size_envelope_test
}  // namespace libflow
