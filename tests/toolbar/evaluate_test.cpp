// SPDX-License-Identifier: MIT
/// @file
/// What every row gets and the verdict: drops that add up, symmetry, the side-slope case, turns, shut valves.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace evaluate_test {

using namespace units;
using test::judge, test::liquid_of, test::plain_bar, test::plain_job, test::plain_valve, test::thick, test::water;

/// A bar on which everything acts: hose lengths, bar and feed hose losses, check valves, slope, a larger orifice.
Toolbar full_bar() {
  Toolbar t = plain_bar(6);
  t.manifolds[0].feed = ManifoldFeed::left;
  t.manifolds[0].feed_length = 3.0 * m;
  t.manifolds[0].bore = 15.0 * mm;
  t.manifolds[0].height = 0.4 * m;
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  t.hose_bore = 6.0 * mm;
  t.check_valve = plain_valve();
  t.side_slope = slope_percent(6.0);
  t.row_changes = {{.row = 3, .height = 0.1 * m}, {.row = 5, .orifice = OrificeByBore{.bore = 1.1 * mm}}};
  return t;
}

TEST(Evaluate, DropsAddUpToTheSupplyPressureLessTheLift) {
  for (const LiquidState& liquid : {water(), thick()}) {
    const test::Case c = judge(full_bar(), plain_job(), liquid);
    ASSERT_TRUE(c.solution.usable()) << c.solution.message;
    const Network& n = c.plumbing.network;
    const double weight = liquid.density * 9.80665, p = c.evenness.supply_pressure;
    for (std::size_t i = 0; i < 6; ++i) {
      const RowResult& r = c.evenness.rows[i];
      const RowPlumbing& row = c.plumbing.rows[i];
      // The line: feed hose, bar as far as this row's port, hose; each drop as the solver has it.
      double line = c.solution.parts[n.find_part("manifold 1 inlet feed hose")].drop;
      for (std::size_t k = 1; k <= i + 1; ++k) {
        line += c.solution.parts[n.find_part(fmt::format("manifold 1 bar {}", k))].drop;
      }
      line += c.solution.parts[row.hoses[0]].drop;
      EXPECT_NEAR(r.line_drop, line, 1e-9 * p);
      EXPECT_DOUBLE_EQ(r.orifice_drop, c.solution.parts[row.orifices[0]].drop);
      EXPECT_DOUBLE_EQ(r.check_valve_drop, c.solution.parts[row.check_valves[0]].drop);
      // By hand: the outlet against the supply, which sits at the manifold's height.
      const double lift = weight * (row.x * 0.06 / std::sqrt(1.0036) + (i == 2 ? 0.1 : 0.0) - 0.4);
      EXPECT_NEAR(r.lift, lift, 1e-9 * p);
      EXPECT_NEAR(line + r.orifice_drop + r.check_valve_drop, p - lift, 1e-9 * p);
      EXPECT_NEAR(r.orifice_share, r.orifice_drop / (p - lift), 1e-12);
      // The row's flow passes its own parts' laws.
      EXPECT_NEAR(n.part(row.hoses[0]).part.law(liquid)(r.flow).dp, c.solution.parts[row.hoses[0]].drop, 1e-9 * p);
      EXPECT_EQ(r.valve, ValveState::open);
      EXPECT_NEAR(r.rate, r.flow / (0.762 * 8.0 / 3.6), 1e-12 * r.rate);
    }
  }
}

TEST(Evaluate, SummaryIsThatOfTheRows) {
  Job job = plain_job();
  const Evenness e = judge(full_bar(), job, water()).evenness;
  std::vector<double> rates;
  double flow = 0.0;
  for (const RowResult& r : e.rows) {
    rates.push_back(r.rate);
    flow += r.flow;
  }
  EXPECT_DOUBLE_EQ(e.total_flow, flow);
  EXPECT_EQ(e.cv, coefficient_of_variation(rates));
  EXPECT_EQ(e.christiansen, christiansen_uniformity(rates));
  EXPECT_EQ(e.low_quarter, low_quarter_uniformity(rates));
  EXPECT_GT(e.cv, 1e-3);
  double sum = 0.0, worst = 0.0;
  for (const RowResult& r : e.rows) {
    sum += r.deviation;
    worst = std::max(worst, std::abs(r.deviation));
    EXPECT_NEAR(r.deviation, r.rate / e.mean_rate - 1.0, 1e-15);
    EXPECT_LE(r.rate, e.rows[static_cast<std::size_t>(e.highest_row - 1)].rate);
    EXPECT_GE(r.rate, e.rows[static_cast<std::size_t>(e.lowest_row - 1)].rate);
  }
  EXPECT_NEAR(sum, 0.0, 1e-14);
  EXPECT_EQ(e.highest_row, 5);  // the larger orifice

  // The verdict turns where the tolerance passes the worst row.
  job.tolerance = worst * (1.0 + 1e-9);
  EXPECT_TRUE(judge(full_bar(), job, water()).evenness.even);
  job.tolerance = worst * (1.0 - 1e-9);
  const Evenness tight = judge(full_bar(), job, water()).evenness;
  EXPECT_FALSE(tight.even);
  EXPECT_EQ(tight.outside, std::vector<int>{5});
}

TEST(Evaluate, FedBarMeetsTheTargetRate) {
  const Job job = plain_job();
  for (const LiquidState& liquid : {water(), thick()}) {
    const Evenness e = judge(full_bar(), job, liquid).evenness;
    EXPECT_NEAR(e.mean_rate / si(job.rate), 1.0, 1e-12);
    EXPECT_EQ(e.target_rate, si(job.rate));
    EXPECT_NEAR(e.total_flow / (6 * si(flow_for_rate(job.rate, job.speed, 30.0 * inch))), 1.0, 1e-12);
    EXPECT_GT(e.supply_pressure, si(4.0 * psi));
  }
}

TEST(Evaluate, MirroredBarGivesMirroredRates) {
  Toolbar t = plain_bar(7);
  t.manifolds = {
      Manifold{.last_row = 3, .feed = ManifoldFeed::left, .feed_length = 2.0 * m},
      Manifold{.first_row = 4, .position = 1.0 * m, .feed = ManifoldFeed::both_ends, .feed_length = 1.0 * m}};
  t.hose = {.kind = HoseSchedule::Kind::listed,
            .lengths = {1.0 * m, 4.0 * m, 2.0 * m, 7.0 * m, 3.0 * m, 3.0 * m, 5.0 * m}};
  t.hose_bore = 6.0 * mm;
  t.check_valve = plain_valve();
  t.side_slope = slope_percent(9.0);
  t.row_changes = {{.row = 2, .crack = 5.0 * psi, .width = 0.5 * m}, {.row = 6, .hose_bore = 5.0 * mm}};
  Job job = plain_job();
  job.turn_radius = 40.0 * m;

  Toolbar u = t;
  u.manifolds = {Manifold{.last_row = 4, .position = -1.0 * m, .feed = ManifoldFeed::both_ends, .feed_length = 1.0 * m},
                 Manifold{.first_row = 5, .feed = ManifoldFeed::right, .feed_length = 2.0 * m}};
  std::reverse(u.hose.lengths.begin(), u.hose.lengths.end());
  u.side_slope = -t.side_slope;
  for (RowChange& change : u.row_changes) change.row = 8 - change.row;
  Job back = job;
  back.turn_radius = -40.0 * m;

  const Evenness a = judge(t, job, thick()).evenness, b = judge(u, back, thick()).evenness;
  for (std::size_t i = 0; i < 7; ++i) EXPECT_NEAR(b.rows[6 - i].rate / a.rows[i].rate, 1.0, 1e-10) << i;
  EXPECT_NEAR(b.cv, a.cv, 1e-10);
  EXPECT_GT(a.cv, 0.05);
  EXPECT_EQ(b.highest_row, 8 - a.highest_row);
}

TEST(Evaluate, LevelSymmetricBarIsSymmetric) {
  for (const int rows : {2, 5, 16}) {
    Toolbar t = plain_bar(rows);
    t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
    t.hose_bore = 5.0 * mm;
    const Evenness e = judge(t, plain_job(), thick()).evenness;
    for (std::size_t i = 0; i < e.rows.size(); ++i) {
      EXPECT_NEAR(e.rows[e.rows.size() - 1 - i].rate / e.rows[i].rate, 1.0, 1e-10) << rows << " " << i;
    }
  }
}

TEST(Evaluate, EqualEverythingIsEven) {
  Toolbar t = plain_bar(16);
  t.manifolds[0].bore = 50.0 * mm;
  t.check_valve = plain_valve();
  const Evenness e = judge(t, plain_job(), water()).evenness;
  EXPECT_TRUE(e.even);
  EXPECT_LT(e.cv, 1e-6);  // what is left is the bar's own loss
  EXPECT_GT(e.christiansen, 1.0 - 1e-6);
  EXPECT_TRUE(e.outside.empty());
  EXPECT_LT(judge(plain_bar(2), plain_job(), water()).evenness.cv, 1e-12);
}

/// Flow of the end rows over the centre row's, less one, across a 10 % slope (1 ft in 10 ft along the bar) at a mean
/// drop: a supply held in the middle, hoses and bar without noticeable loss, a sharp orifice in a liquid as heavy as
/// 10-34-0 (11.65 lb/gal) but so thin that the orifice keeps the square law.
std::pair<double, double> end_rows(int rows, double psi_drop) {
  Toolbar t = plain_bar(rows);
  t.side_slope = from_si<Angle>(std::asin(0.1));
  t.manifolds[0].bore = 0.4 * m;
  t.manifolds[0].port_spacing = 1.0 * mm;
  t.hose.length = 0.01 * m;
  t.hose_bore = 0.1 * m;
  Job job = plain_job();
  job.pressure = psi_drop * psi;
  const Evenness e = judge(t, job, liquid_of("thin", 11.65 * si(lb_per_gal), 1e-7)).evenness;
  // The middle of the bar gets the mean drop: its row, or between the middle rows by the square law.
  const std::size_t k = e.rows.size() / 2;
  const double square = e.rows.size() % 2 == 1 ? std::pow(e.rows[k].flow, 2)
                                               : 0.5 * (std::pow(e.rows[k - 1].flow, 2) + std::pow(e.rows[k].flow, 2));
  return {e.rows.front().flow / std::sqrt(square) - 1.0, e.rows.back().flow / std::sqrt(square) - 1.0};
}

// 40 ft toolbar across a 10 % slope, 4 ft end to end, 10-34-0, central manifold, square law: end rows +5.9/-6.3 % at
// 10 psi mean drop, +-3.0 % at 20, +-2.0 % at 30 (derived, no measurement). The printed digits belong to outlets 20 ft
// from the centre, 40 ft apart: 17 rows of 30 in, not the 16 whose end rows sit 18.75 ft out (+5.5/-5.8 %). At 10 psi
// they are square roots; at 20 and 30 the single figure is their linear part, so the two ends are held against it by
// half of their difference.
TEST(Evaluate, SideSlopeOfFortyFeet) {
  // The head behind the printed digits has three of its own, 0.605 psi/ft: what it leaves open moves the ends by
  // 0.0053 % at most, and the exact -6.247 % needs it.
  const double digits = 0.05 + 0.0053;
  const auto [low10, high10] = end_rows(17, 10.0);
  EXPECT_NEAR(100.0 * low10, 5.9, digits);
  EXPECT_NEAR(100.0 * high10, -6.3, digits);
  const auto [low20, high20] = end_rows(17, 20.0);
  EXPECT_NEAR(100.0 * (low20 - high20) / 2.0, 3.0, 0.05);
  const auto [low30, high30] = end_rows(17, 30.0);
  EXPECT_NEAR(100.0 * (low30 - high30) / 2.0, 2.0, 0.05);
}

// The same with the rows of a 40 ft bar where they are, 16 of 30 in, against the square law worked out by hand:
// sqrt(1 -+ rho g 18.75 ft x 0.1 / drop).
TEST(Evaluate, SideSlopeOfSixteenRows) {
  for (const double drop : {10.0, 20.0, 30.0}) {
    const double head = 11.65 * si(lb_per_gal) * 9.80665 * 1.875 * 0.3048 / si(drop * psi);
    const auto [low, high] = end_rows(16, drop);
    EXPECT_NEAR(low, std::sqrt(1.0 + head) - 1.0, 1e-5) << drop;
    EXPECT_NEAR(high, std::sqrt(1.0 - head) - 1.0, 1e-5) << drop;
  }
}

// What an orifice passes at one pressure goes with 1 / sqrt(specific gravity); conversion factors as printed, two
// decimals (University of Nebraska-Lincoln, CropWatch, Setting the sprayer flow rate for non-water solutions, 2016,
// Table 1; the 16 lb/gal row: P. E. Sumner, University of Georgia, Spraying solutions other than water, Table 1).
TEST(Evaluate, DensityFactorOfExtensionTables) {
  Toolbar t = plain_bar(1);
  t.hose_bore = 50.0 * mm;
  Job job = plain_job();
  job.pressure = 20.0 * psi;
  const auto flow = [&](double lb_gal) {
    return judge(t, job, liquid_of("thin", lb_gal * si(lb_per_gal), 1e-7)).evenness.total_flow;
  };
  const double water_flow = flow(8.34);
  const double table[][2] = {{6.6, 0.89},   {7.0, 0.92},  {8.0, 0.98},   {9.0, 1.04},  {10.0, 1.10},
                             {10.65, 1.13}, {11.0, 1.15}, {11.06, 1.15}, {11.4, 1.17}, {11.5, 1.17},
                             {11.6, 1.18},  {12.0, 1.20}, {14.0, 1.30},  {16.0, 1.39}};
  for (const auto& [lb_gal, factor] : table) EXPECT_NEAR(water_flow / flow(lb_gal), factor, 0.005) << lb_gal;
  // 20 gal/ac of 28-0-0 is 22.6 gal/ac of water (the same page, example): the printed factor times 20.
  EXPECT_NEAR(20.0 * water_flow / flow(10.65), 22.6, 20.0 * 0.005);
}

// In a turn every row passes nearly the same liquid at its own ground speed: the outer rows get less per area.
TEST(Evaluate, TurnThinsTheOuterRows) {
  Toolbar t = plain_bar(9);
  t.manifolds[0].bore = 0.1 * m;
  Job job = plain_job();
  job.turn_radius = 20.0 * m;
  const Evenness e = judge(t, job, water()).evenness;
  const double v = 8.0 / 3.6;
  double reciprocals = 0.0;
  for (std::size_t i = 0; i < 9; ++i) reciprocals += 1.0 / (1.0 + (static_cast<double>(i) - 4.0) * 0.762 / 20.0) / 9.0;
  for (std::size_t i = 0; i < 9; ++i) {
    const double ratio = 1.0 + (static_cast<double>(i) - 4.0) * 0.762 / 20.0;
    EXPECT_NEAR(e.rows[i].speed, v * ratio, 1e-14);
    EXPECT_NEAR(e.rows[i].rate * e.rows[i].speed * e.rows[i].width, e.rows[i].flow, 1e-12 * e.rows[i].flow);
    EXPECT_NEAR(e.rows[i].flow / e.rows[4].flow, 1.0, 1e-5);
    EXPECT_NEAR(e.rows[i].deviation, 1.0 / ratio / reciprocals - 1.0, 1e-5);
  }
  EXPECT_EQ(e.highest_row, 1);  // left turn: the left row is the slow one
  EXPECT_EQ(e.lowest_row, 9);
  EXPECT_FALSE(e.even);
  // Turning the other way swaps the ends.
  job.turn_radius = -20.0 * m;
  const Evenness right = judge(t, job, water()).evenness;
  for (std::size_t i = 0; i < 9; ++i) EXPECT_NEAR(right.rows[8 - i].rate / e.rows[i].rate, 1.0, 1e-10);
  EXPECT_NEAR(e.total_flow, 9 * si(flow_for_rate(job.rate, job.speed, 0.762 * m)), 1e-12 * e.total_flow);
}

bool has_caution(const Evenness& e, const std::string& code, const std::string& subject) {
  return std::any_of(e.cautions.begin(), e.cautions.end(),
                     [&](const Caution& c) { return c.code == code && c.subject == subject && !c.text.empty(); });
}

TEST(Evaluate, OneRowsCheckValveStaysShut) {
  Toolbar t = plain_bar(4);
  t.check_valve = plain_valve();
  t.row_changes = {{.row = 2, .crack = 21.0 * psi}};
  Job job = plain_job();
  job.pressure = 20.0 * psi;
  const Evenness e = judge(t, job, water()).evenness;
  EXPECT_EQ(e.rows[1].flow, 0.0);
  EXPECT_EQ(e.rows[1].rate, 0.0);
  EXPECT_EQ(e.rows[1].deviation, -1.0);
  EXPECT_EQ(e.rows[1].orifice_share, 0.0);
  EXPECT_EQ(e.rows[1].valve, ValveState::closed);
  EXPECT_EQ(e.lowest_row, 2);
  EXPECT_FALSE(e.even);
  EXPECT_TRUE(has_caution(e, "check-valve-shut", "row 2"));
  EXPECT_FALSE(has_caution(e, "check-valve-shut", "row 1"));
  // Just below the pressure it opens, and says so no more.
  t.row_changes[0].crack = 19.5 * psi;
  const Evenness open = judge(t, job, water()).evenness;
  EXPECT_GT(open.rows[1].flow, 0.0);
  EXPECT_EQ(open.rows[1].valve, ValveState::open);
  EXPECT_FALSE(has_caution(open, "check-valve-shut", "row 2"));
}

TEST(Evaluate, NothingOpens) {
  Toolbar t = plain_bar(4);
  t.check_valve = plain_valve();
  Job job = plain_job();
  job.pressure = 3.0 * psi;
  const test::Case c = judge(t, job, water());
  EXPECT_TRUE(c.solution.usable()) << c.solution.message;
  EXPECT_FALSE(c.evenness.even);
  EXPECT_EQ(c.evenness.mean_rate, 0.0);
  EXPECT_EQ(c.evenness.total_flow, 0.0);
  for (const RowResult& r : c.evenness.rows) {
    EXPECT_TRUE(has_caution(c.evenness, "check-valve-shut", fmt::format("row {}", r.row)));
    for (const double v : {r.rate, r.deviation, r.orifice_drop, r.check_valve_drop, r.line_drop, r.orifice_share}) {
      EXPECT_TRUE(std::isfinite(v));
    }
  }
  EXPECT_EQ(c.evenness.cv, 0.0);
}

TEST(Evaluate, ShutRowsDoNotCount) {
  Toolbar t = plain_bar(4);
  t.row_changes = {{.row = 1, .shut = true}, {.row = 4, .hose_length = 30.0 * m}};
  const Evenness e = judge(t, plain_job(), thick()).evenness;
  EXPECT_TRUE(e.rows[0].shut);
  EXPECT_EQ(e.rows[0].flow, 0.0);
  EXPECT_EQ(e.rows[0].deviation, 0.0);
  EXPECT_NEAR(e.mean_rate, (e.rows[1].rate + e.rows[2].rate + e.rows[3].rate) / 3.0, 1e-14 * e.mean_rate);
  EXPECT_NEAR(e.mean_rate / si(plain_job().rate), 1.0, 1e-12);
  EXPECT_EQ(e.cv, coefficient_of_variation({e.rows[1].rate, e.rows[2].rate, e.rows[3].rate}));
  EXPECT_EQ(e.lowest_row, 4);
  EXPECT_EQ(std::count(e.outside.begin(), e.outside.end(), 1), 0);
}

TEST(Evaluate, TwoOutletsARowCountTogether) {
  for (const MeteringPlace place : {MeteringPlace::outlet, MeteringPlace::manifold}) {
    Toolbar t = plain_bar(4);
    t.outlets_per_row = 2;
    t.metering = place;
    const test::Case c = judge(t, plain_job(), water());
    const RowPlumbing& row = c.plumbing.rows[3];
    EXPECT_DOUBLE_EQ(c.evenness.rows[3].flow,
                     c.solution.parts[row.last_parts[0]].flow + c.solution.parts[row.last_parts[1]].flow);
    EXPECT_NEAR(c.solution.parts[row.last_parts[0]].flow / c.solution.parts[row.last_parts[1]].flow, 1.0, 1e-10);
    EXPECT_NEAR(c.evenness.mean_rate / si(plain_job().rate), 1.0, 1e-12);
  }
}

TEST(Evaluate, PumpLimit) {
  Job job = plain_job();
  const double pressure = judge(plain_bar(4), job, water()).evenness.supply_pressure;
  job.pump_limit = from_si<Pressure>(pressure * 1.001);
  EXPECT_FALSE(has_caution(judge(plain_bar(4), job, water()).evenness, "above-pump-limit", "supply"));
  job.pump_limit = from_si<Pressure>(pressure * 0.999);
  EXPECT_TRUE(has_caution(judge(plain_bar(4), job, water()).evenness, "above-pump-limit", "supply"));
}

}  // namespace evaluate_test
}  // namespace libflow
