// SPDX-License-Identifier: MIT
/// @file
/// What tolerances draw and what they leave out: two of one kind, machines in which nothing flows, a study that is
/// stopped, other supplies than one that gives the rate.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <libflow/report/tolerance_text.hpp>
#include <libflow/study/tolerance.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/text.hpp>
#include <tests/support/two_rows.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace tolerance_draws_test {

using namespace units;

/// Laminar hoses of several lengths meter a thick product: rows differ, and by how much hangs on everything.
Layout thick_layout() {
  Toolbar t = test::plain_bar(4);
  t.orifice.reset();
  t.manifolds[0].bore = 50.0 * mm;
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {2.0 * m, 3.0 * m, 4.0 * m, 2.5 * m}};
  t.hose_bore = 6.0 * mm;
  Layout layout{.name = "thick", .job = test::plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("10-34-0");
  return layout;
}
Toolbar& bar_of(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }
Tolerance normal_of(ToleranceOf of, double deviation, bool share = true) {
  Tolerance t{.of = of, .difference = {.kind = Distribution::Kind::normal, .deviation = deviation}};
  t.relative = share;
  return t;
}
/// Deviations of a layout's rows, solved by itself.
std::vector<double> deviations(const Plumbing& p, const Job& job, const LiquidState& liquid) {
  const Solution s = solve_plumbing(p, liquid);
  EXPECT_TRUE(s.usable()) << s.message;
  std::vector<double> all;
  for (const RowResult& r : evaluate(p, job, s, liquid).rows) all.push_back(r.deviation);
  return all;
}

// Independent ones of the same kind add up: variances of s1 and s2 are one of s1^2 + s2^2.
TEST(ToleranceDraws, TwoOfOneKindAreOneOfTheSumOfTheirVariances) {
  const ToleranceOptions few{.points = 1024, .replicates = 4, .share_points = 0};
  const Layout layout = thick_layout();
  for (const ToleranceOf of : {ToleranceOf::hose_bore, ToleranceOf::viscosity, ToleranceOf::rate}) {
    const double a = 0.006, b = 0.008;
    const ToleranceResult two = tolerance_study(layout, {normal_of(of, a), normal_of(of, b)}, few);
    const ToleranceResult one = tolerance_study(layout, {normal_of(of, 0.01)}, few);
    ASSERT_EQ(two.shares.size(), 2U);
    for (std::size_t r = 0; r < 4; ++r) {
      ASSERT_GT(*one.rows[r].first_order, 0.0);
      EXPECT_NEAR(*two.rows[r].first_order / *one.rows[r].first_order, 1.0, 1e-9) << name_of(of).name;
      EXPECT_NEAR(two.rows[r].spread.value / one.rows[r].spread.value, 1.0, 0.04) << name_of(of).name;
    }
    EXPECT_NEAR(*two.shares[0].first_order, a * a / (a * a + b * b), 1e-9);
  }
}

// A temperature of its own moves density and viscosity together: the straight line is that through two solved days.
TEST(ToleranceDraws, ATemperatureAloneIsTheSameLayoutOnWarmerAndColderDays) {
  const Layout layout = thick_layout();
  const double kelvin = 1.0, h = 0.25;
  const ToleranceResult r = tolerance_study(layout, {normal_of(ToleranceOf::temperature, kelvin, false)},
                                            {.points = 512, .replicates = 4, .share_points = 0});
  const auto day = [&](double warmer) {
    Job job = layout.job;
    job.temperature = from_si<Temperature>(si(job.temperature) + warmer);
    return deviations(build_network(std::get<Toolbar>(layout.plumbing), job), job, job.liquid.at(job.temperature));
  };
  const std::vector<double> warm = day(h), cold = day(-h);
  for (std::size_t k = 0; k < 4; ++k) {
    const double spread = kelvin * std::abs(warm[k] - cold[k]) / (2.0 * h);
    ASSERT_GT(spread, 1e-6);
    EXPECT_NEAR(*r.rows[k].first_order / spread, 1.0, 0.02) << k;
    EXPECT_NEAR(r.rows[k].spread.value / spread, 1.0, 0.1) << k;
  }
}

// The end of a hose belongs to it only where the outlet has no bore of its own and the bar is drawn as one: otherwise
// the straight line leaves it where it is, as the draws do.
TEST(ToleranceDraws, OutletsOfTheirOwnDoNotGoWithTheHose) {
  Layout layout = thick_layout();
  bar_of(layout).outlet_bore = 4.0 * mm;
  layout.job.liquid = find_liquid("water");
  Layout by_place = layout;
  by_place.plumbing = build_network(bar_of(layout), layout.job);
  const double share = 0.002, h = 1e-4;
  // One hose at a time a little wider: the row that has it, by itself.
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  std::vector<double> variance(4, 0.0);
  for (int row = 1; row <= 4; ++row) {
    const auto moved = [&](double step) {
      Toolbar t = bar_of(layout);
      t.row_changes = {{.row = row, .hose_bore = (1.0 + step) * t.hose_bore}};
      return deviations(build_network(t, layout.job), layout.job, liquid);
    };
    const std::vector<double> wide = moved(h), narrow = moved(-h);
    for (std::size_t k = 0; k < 4; ++k) variance[k] += std::pow(share * (wide[k] - narrow[k]) / (2.0 * h), 2);
  }
  for (const Layout& one : {layout, by_place}) {
    const ToleranceResult r = tolerance_study(one, {normal_of(ToleranceOf::hose_bore, share)},
                                              {.points = 1024, .replicates = 4, .share_points = 0});
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_NEAR(*r.rows[k].first_order / std::sqrt(variance[k]), 1.0, 1e-3) << k;
      EXPECT_NEAR(r.rows[k].spread.value / *r.rows[k].first_order, 1.0, 0.04) << k;
    }
  }
}

/// Two fed places at the two ends of a narrow bar with a row at each.
Plumbing fed_at_both_ends(double first, double second) {
  Plumbing p;
  Network& n = p.network;
  const auto other = n.add_fed("second pump", from_si<Flow>(second));
  p.supply = n.add_fed("pump", from_si<Flow>(first));
  n.add_part("bar", p.supply, other, Part(Hose{.length = 2.0 * m, .bore = 3.5 * mm}, "bar"));
  for (int row = 1; row <= 2; ++row) {
    const auto air = n.add_air(row == 1 ? "row 1" : "row 2");
    const auto hole = n.add_part(row == 1 ? "hole 1" : "hole 2", row == 1 ? p.supply : other, air,
                                 Part(Orifice{.bore = 1.8 * mm}, "hole"));
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.8, air, hole, {.orifices = {hole}}));
  }
  return p;
}

// The rate is what the gauge's own supply answers for; what is fed at another place stays.
TEST(ToleranceDraws, ARateMovesTheSupplyAloneAndNotTheOtherPlaces) {
  Layout layout{.name = "two pumps", .job = test::plain_job(), .plumbing = {}};
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 1.6, other = 0.3 * wanted;
  layout.plumbing = fed_at_both_ends(wanted - other, other);
  const double share = 0.05;
  const ToleranceResult r = tolerance_study(layout, {normal_of(ToleranceOf::rate, share)},
                                            {.points = 512, .replicates = 4, .share_points = 0});
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const auto at = [&](double more) {
    return deviations(fed_at_both_ends((1.0 + more) * wanted - other, other), layout.job, liquid)[0];
  };
  const double spread = share * std::abs(at(0.01) - at(-0.01)) / 0.02;
  ASSERT_GT(spread, 1e-4);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_NEAR(*r.rows[k].first_order / spread, 1.0, 2e-3);
    EXPECT_NEAR(r.rows[k].spread.value / spread, 1.0, 0.05);
  }
}

/// A bar whose check valves open just below the pressure that is held: a third of a per cent above.
Layout barely_open() {
  Toolbar t = test::plain_bar(3);
  t.check_valve = test::plain_valve();
  Layout layout{.name = "barely open", .job = test::plain_job(), .plumbing = t};
  layout.job.pressure = 1.003 * test::plain_valve().crack;
  return layout;
}

// Where the pressure is less than the valves crack at nothing flows: such a machine has no evenness, neither in the
// quantiles nor in the shares.
TEST(ToleranceDraws, MachinesInWhichNothingFlowsCountInNoFigure) {
  const Layout layout = barely_open();
  Tolerance pressure{.of = ToleranceOf::pressure,
                     .difference = {.kind = Distribution::Kind::uniform, .low = -0.01, .high = 0.01}};
  pressure.relative = true;
  const ToleranceResult r =
      tolerance_study(layout, {pressure}, {.points = 256, .replicates = 2, .share_points = 0, .threads = 1});
  EXPECT_EQ(r.machines, 512U);
  // Uniform from 1 % below to 1 % above: those below 0.3 % under the layout's pressure, by 0.003/1.003.
  EXPECT_NEAR(static_cast<double>(r.unsolved) / 512.0, 0.5 * (1.0 - 0.3 / 1.003), 0.01);
  EXPECT_NE(test::one_line(tolerance_text(r)).find("have no answer (nothing flows"), std::string::npos);
}

TEST(ToleranceDraws, SharesAreNotTakenFromMachinesInWhichNothingFlows) {
  const Layout layout = barely_open();
  Tolerance pressure{.of = ToleranceOf::pressure,
                     .difference = {.kind = Distribution::Kind::uniform, .low = -0.01, .high = 0.01}};
  pressure.relative = true;
  const ToleranceResult r = tolerance_study(layout, {pressure, normal_of(ToleranceOf::orifice_bore, 0.01)},
                                            {.points = 16, .replicates = 2, .share_points = 64, .threads = 1});
  EXPECT_TRUE(r.complete);
  EXPECT_EQ(r.share_replicates, 0U) << "a dry machine is not an even one";
}

// Machines whose pumps cannot keep what the agitation draws (tests/support/two_rows.hpp) have no answer at all.
TEST(ToleranceDraws, MachinesWithoutAnAnswerCountInNoFigureAndLeaveNoShares) {
  Layout layout{.name = "agitated", .job = test::plain_job(), .plumbing = {}};
  const double wanted = si(layout.job.rate) * si(layout.job.speed) * 2.0 * 0.76, second = wanted / 1.003;
  layout.plumbing = test::agitated(wanted - second + 1e-5, second, 1e-5);
  Tolerance rate{.of = ToleranceOf::rate,
                 .difference = {.kind = Distribution::Kind::uniform, .low = -0.01, .high = 0.01}};
  rate.relative = true;
  const ToleranceResult r =
      tolerance_study(layout, {rate}, {.points = 256, .replicates = 2, .share_points = 16, .threads = 1});
  EXPECT_TRUE(r.complete);
  const double below = 0.5 * (1.0 - 0.3 / 1.003);  // of uniform draws within 1 %, 0.003/1.003 below the layout's own
  EXPECT_NEAR(static_cast<double>(r.unsolved) / (512.0 + 2.0 * 3.0 * 16.0), below, 0.05);
  EXPECT_EQ(r.share_replicates, 0U);
  EXPECT_GT(r.rms_cv.value, 0.05) << "the two holes differ";
}

TEST(ToleranceDraws, WhereEveryMachineIsDryThereAreNoFigures) {
  Tolerance pressure{.of = ToleranceOf::pressure,
                     .difference = {.kind = Distribution::Kind::listed, .values = {-0.02, -0.01}}};
  pressure.relative = true;
  const ToleranceResult r =
      tolerance_study(barely_open(), {pressure}, {.points = 16, .replicates = 2, .share_points = 0, .threads = 1});
  EXPECT_TRUE(r.complete);
  EXPECT_EQ(r.machines, 32U);
  EXPECT_EQ(r.unsolved, 32U);
  EXPECT_TRUE(r.quantiles.empty());
  EXPECT_EQ(r.within.value, 0.0);
  for (const RowScatter& row : r.rows) EXPECT_EQ(row.spread.value, 0.0);
  // They were drawn and solved, and nothing was stopped.
  EXPECT_EQ(test::one_line(tolerance_text(r)).find("stopped"), std::string::npos) << test::one_line(tolerance_text(r));
}

TEST(ToleranceDraws, AStopAmidTheSharesKeepsWholeReplicates) {
  const Layout layout = thick_layout();
  const std::vector<Tolerance> two = {normal_of(ToleranceOf::hose_bore, 0.01),
                                      normal_of(ToleranceOf::hose_length, 0.01)};
  // 2 x 16 machines for the quantiles; then four matrices of 64 a replicate for the shares.
  const ToleranceOptions options{.points = 16, .replicates = 2, .share_points = 64, .threads = 1};
  const auto stopped_at = [&](std::size_t machines) {
    return tolerance_study(layout, two, options, [&](std::size_t done, std::size_t) { return done < machines; });
  };
  const ToleranceResult first = stopped_at(32 + 3 * 64), second = stopped_at(32 + 6 * 64), whole = stopped_at(100000);
  EXPECT_FALSE(first.complete);
  EXPECT_EQ(first.replicates, 2U);
  EXPECT_EQ(first.share_replicates, 0U);
  EXPECT_EQ(first.rms_cv.value, whole.rms_cv.value);
  EXPECT_FALSE(second.complete);
  EXPECT_EQ(second.share_replicates, 1U);
  EXPECT_TRUE(std::isinf(second.shares[0].cv.total.error)) << "of one replicate";
  EXPECT_TRUE(whole.complete);
  EXPECT_EQ(whole.share_replicates, 2U);
}

TEST(ToleranceDraws, RefusesWhatHasNoMeaningInTheLayout) {
  const Layout layout = thick_layout();  // without orifices
  const auto refused = [](const Layout& one, const Tolerance& t, const std::string& words) {
    test::expect_message([&] { (void)tolerance_study(one, {t}); }, words);
  };
  refused(layout, normal_of(ToleranceOf::orifice_bore, 0.01), "this layout has no orifices");
  for (const ToleranceOf of : {ToleranceOf::side_slope, ToleranceOf::fore_aft_slope}) {
    refused(layout, normal_of(of, 0.01), "a share of it has no meaning");
  }
  Layout dry = barely_open();
  dry.job.pressure = 0.9 * test::plain_valve().crack;
  EXPECT_THROW((void)tolerance_study(dry, {normal_of(ToleranceOf::crack, 0.01)}), IllPosedError);
}

// Two holes in series meter a row: neither is "the" bore, and no narrower tolerance would help.
TEST(ToleranceDraws, ABoreOfWhatHasTwoIsRefusedAsSuch) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(row == 1 ? "row 1" : "row 2");
    const Part pair(OrificePair{.first = {.bore = 1.0 * mm}, .second = {.bore = 1.2 * mm}, .gap = 20.0 * mm}, "pair");
    const auto hole = p.network.add_part(row == 1 ? "pair 1" : "pair 2", p.supply, air, pair);
    p.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hole, {.orifices = {hole}}));
  }
  const Layout layout{.name = "pairs", .job = test::plain_job(), .plumbing = p};
  try {
    (void)tolerance_study(layout, {normal_of(ToleranceOf::orifice_bore, 0.001)});
    ADD_FAILURE() << "not refused";
  } catch (const InputError& e) {
    EXPECT_TRUE(test::holds(e.what(), "has no bore that a scenario can change")) << e.what();
    EXPECT_FALSE(test::holds(e.what(), "so wide")) << e.what();
  }
}

}  // namespace tolerance_draws_test
}  // namespace libflow
