// SPDX-License-Identifier: MIT
/// @file
/// Each number that a scenario gives a part, in a pack, against the same plumbing with that part written by hand; and
/// what is no number of a part is refused by name.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

#include <libflow/study/scenarios.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/two_rows.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace scenario_numbers_test {

using namespace units;
using test::numbers, test::TwoRows, test::plumbed, test::expect_rows;

// A coil and a hose with an entrance have laws of their own: their lengths and bores go lane by lane.
TEST(ScenarioNumbers, CoiledHosesAndEntrancesKeepTheirOwnLaws) {
  const Job job = test::plain_job();
  for (const bool coil : {true, false}) {
    TwoRows base;
    if (coil) {
      base.first.coil_diameter = 0.3 * m;
    } else {
      base.first.entrance = true;
    }
    const Plumbing plumbing = plumbed(base);
    const ScenarioSolver solver(plumbing, job);
    const std::vector<double> lengths = {0.5, 3.0, 9.0}, bores = {5e-3, 8e-3, 6e-3};
    Scenarios s{.count = 3};
    s.parts.push_back({plumbing.rows[0].hoses[0], PartQuantity::length, numbers(lengths)});
    s.parts.push_back({plumbing.rows[0].hoses[0], PartQuantity::bore, numbers(bores)});
    const ScenarioResults r = solver.solve(s);
    EXPECT_EQ(r.alone, 0U) << "packs know it";
    for (std::size_t i = 0; i < 3; ++i) {
      TwoRows one = base;
      one.first.length = lengths[i] * m;
      one.first.bore = bores[i] * m;
      expect_rows(r, i, plumbed(one), solver.liquid());
    }
    TwoRows straight = base;
    straight.first = {.length = 9.0 * m, .bore = 6.0 * mm};
    const Solution without = solve_plumbing(plumbed(straight), solver.liquid());
    EXPECT_LT(r.flow(2, 0), without.parts[1].flow * (1.0 - 1e-4)) << "the coil or the entrance does count";
  }
}

// A hose that the layout has smooth, rough in some scenarios.
TEST(ScenarioNumbers, ASmoothHoseMayBeRoughInAScenario) {
  TwoRows base;
  base.first.roughness = 0.0 * m;
  base.first.bore = 5.0 * mm;
  base.metering_first = Part(Orifice{.bore = 3.0 * mm}, "hole");
  const Plumbing plumbing = plumbed(base);
  const ScenarioSolver solver(plumbing, test::plain_job());
  const std::vector<double> walls = {0.0, 1e-5, 2e-4};
  Scenarios s{.count = 3};
  s.parts.push_back({plumbing.rows[0].hoses[0], PartQuantity::roughness, numbers(walls)});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    TwoRows one = base;
    one.first.roughness = walls[i] * m;
    expect_rows(r, i, plumbed(one), solver.liquid());
  }
  EXPECT_GT(r.flow(0, 0), 1.01 * r.flow(2, 0)) << "the wall does count";
}

// An outlet tube without a fall is an open end and some: packs know it, and it goes with the liquid.
TEST(ScenarioNumbers, AnOutletThatDoesNotHangIsPackedToo) {
  TwoRows base;
  base.metering_second = Part(RowOutlet{.bore = 2.0 * mm, .count = 2}, "outlet");
  const ScenarioSolver solver(plumbed(base), test::plain_job());
  Scenarios s{.count = 3};
  s.density = numbers({900.0, 1000.0, 1400.0});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    LiquidState liquid = solver.liquid();
    liquid.density = s.density[static_cast<Eigen::Index>(i)];
    expect_rows(r, i, plumbed(base), liquid);
  }
}

// A valve that opens against its spring, another crack pressure: the spring is set harder, the fully-open pressure
// moves with it.
TEST(ScenarioNumbers, ASpringSetHarderOpensLaterAltogether) {
  TwoRows base;
  const CheckValve valve = CheckValve::sprung(30.0 * kPa, 70.0 * kPa, 2.0 * L_per_min, "valve");
  base.metering_first = Part(valve, "valve");
  const Plumbing plumbing = plumbed(base, 1.5 * bar);
  const ScenarioSolver solver(plumbing, test::plain_job());
  const std::vector<double> cracks = {1e4, 3e4, 1.3e5};
  Scenarios s{.count = 3};
  s.parts.push_back({plumbing.rows[0].last_parts[0], PartQuantity::crack, numbers(cracks)});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    CheckValve other = valve;
    other.crack = from_si<Pressure>(cracks[i]);
    other.full_open = from_si<Pressure>(cracks[i] + 4e4);
    TwoRows one = base;
    one.metering_first = Part(other, "valve");
    expect_rows(r, i, plumbed(one, 1.5 * bar), solver.liquid());
  }
}

// A hole with a length and a measured coefficient: another bore changes its shape, not its coefficient.
TEST(ScenarioNumbers, AMeasuredCoefficientStaysWithAnotherBore) {
  TwoRows base;
  const Orifice hole{.bore = 1.6 * mm, .thickness = 2.0 * mm, .discharge_coefficient = 0.72};
  base.metering_first = Part(hole, "hole");
  const Plumbing plumbing = plumbed(base);
  const ScenarioSolver solver(plumbing, test::plain_job());
  const std::vector<double> bores = {1.2e-3, 1.6e-3, 2.4e-3};
  Scenarios s{.count = 3};
  s.parts.push_back({plumbing.rows[0].last_parts[0], PartQuantity::bore, numbers(bores)});
  const ScenarioResults r = solver.solve(s);
  EXPECT_EQ(r.alone, 0U);
  for (std::size_t i = 0; i < 3; ++i) {
    TwoRows one = base;
    one.metering_first = Part(hole.with_bore(bores[i] * m), "hole");
    expect_rows(r, i, plumbed(one), solver.liquid());
  }
  // At high Reynolds number a jet passes coefficient x area x sqrt(2 dp / density); some of the drop is viscous.
  const double area = 0.25 * std::numbers::pi * 2.4e-3 * 2.4e-3,
               jet = 0.72 * area * std::sqrt(2.0 * 2e5 / solver.liquid().density);
  EXPECT_LT(r.flow(2, 0), jet);
  EXPECT_GT(r.flow(2, 0), 0.9 * jet);
}

TEST(ScenarioNumbers, RefusesByNameWhatCannotBe) {
  TwoRows rows;
  rows.metering_second = Part(OpenEnd{.bore = 3.0 * mm}, "end");
  const Plumbing plumbing = plumbed(rows);
  const ScenarioSolver solver(plumbing, test::plain_job());
  const auto refused = [&](Network::PartIndex part, PartQuantity q, double value, const char* words) {
    Scenarios s{.count = 2};
    s.parts.push_back({part, q, numbers({value, value})});
    test::expect_message([&] { (void)solver.solve(s); }, words);
  };
  const auto hose = plumbing.rows[0].hoses[0], end = plumbing.rows[1].last_parts[0];
  refused(hose, PartQuantity::crack, 1e4, "a hose has no crack that a scenario can change");
  refused(hose, PartQuantity::discharge_coefficient, 0.6, "a hose has no discharge coefficient");
  refused(end, PartQuantity::length, 1.0, "an open end has no length");
  refused(end, PartQuantity::roughness, 1e-6, "an open end has no roughness");
  // Too wide, in the second scenario alone.
  Scenarios wide{.count = 2};
  wide.parts.push_back({hose, PartQuantity::bore, numbers({8e-3, 3.0})});
  test::expect_message([&] { (void)solver.solve(wide); }, "scenario 1, part 'row 1 hose'");
  // Tables and columns of another length.
  Scenarios table{.count = 2};
  table.hose_length = Eigen::ArrayXXd::Constant(3, 2, 1.0);
  test::expect_message([&] { (void)solver.solve(table); }, "a table of 3 x 2");
  Scenarios column{.count = 2};
  column.parts.push_back({hose, PartQuantity::bore, numbers({8e-3})});
  test::expect_message([&] { (void)solver.solve(column); }, "1 values for 2 scenarios");
}

// A row that is valved off has no hose for a scenario's length; it keeps the layout's, whoever solves it.
TEST(ScenarioNumbers, AHoseLengthIsNoneOfARowThatIsValvedOff) {
  Toolbar bar = test::plain_bar(3);
  bar.row_changes = {{.row = 2, .shut = true}};
  const ScenarioSolver solver(bar, test::plain_job());
  Scenarios s{.count = 1};
  s.hose_length = Eigen::ArrayXXd::Constant(1, 3, 6.0);
  const Scenario one = solver.scenario(s, 0);
  EXPECT_EQ(one.plumbing.rows[0].hose_length, 6.0);
  EXPECT_EQ(one.plumbing.rows[1].hose_length, solver.plumbing().rows[1].hose_length);
  EXPECT_EQ(solver.solve(s).flow(0, 1), 0.0);
}

// Nothing given is the layout itself; none asked for is none solved.
TEST(ScenarioNumbers, AnEmptyColumnChangesNothing) {
  const Plumbing plumbing = plumbed({});
  const ScenarioSolver solver(plumbing, test::plain_job());
  Scenarios s{.count = 2};
  s.parts.push_back({plumbing.rows[0].hoses[0], PartQuantity::bore, {}});
  const ScenarioResults r = solver.solve(s);
  for (std::size_t i = 0; i < 2; ++i) expect_rows(r, i, plumbing, solver.liquid());
  Scenarios none{.count = 0};
  none.hose_bore.resize(0, 2);
  none.parts.push_back({plumbing.rows[0].hoses[0], PartQuantity::bore, {}});
  const ScenarioResults nothing = solver.solve(none);
  EXPECT_TRUE(nothing.complete);
  EXPECT_EQ(nothing.done, 0U);
  EXPECT_EQ(nothing.flow.rows(), 0);
}

TEST(ScenarioNumbers, OneRowIsAlwaysEven) {
  const ScenarioSolver solver(test::plain_bar(1), test::plain_job());
  Scenarios s{.count = 3};
  s.rate = numbers({5e-6, 1e-5, 2e-5});
  for (const bool packed : {true, false}) {
    const ScenarioResults r = solver.solve(s, {.packed = packed});
    for (Eigen::Index i = 0; i < 3; ++i) {
      EXPECT_EQ(r.cv[i], 0.0);
      EXPECT_EQ(r.lowest[i], 0.0);
      EXPECT_EQ(r.highest[i], 0.0);
      EXPECT_NEAR(r.mean_rate[i] / s.rate[i], 1.0, 1e-9);
    }
  }
}

// Up and down hill alone: outlets 2 m behind the bar, at one pressure.
TEST(ScenarioNumbers, AForeAftSlopeAloneLiftsTheOutlets) {
  Toolbar bar = test::plain_bar(3);
  bar.outlets_behind = 2.0 * m;
  bar.side_slope = slope_percent(3.0);
  Job job = test::plain_job();
  job.pressure = 50.0 * kPa;
  const ScenarioSolver solver(bar, job);
  Scenarios s{.count = 3};
  s.fore_aft_slope = numbers({-0.2, 0.0, 0.3});
  for (const bool packed : {true, false}) {
    const ScenarioResults r = solver.solve(s, {.packed = packed});
    for (std::size_t i = 0; i < 3; ++i) {
      Toolbar one = bar;
      one.fore_aft_slope = from_si<Angle>(s.fore_aft_slope[static_cast<Eigen::Index>(i)]);
      expect_rows(r, i, build_network(one, job), solver.liquid());
    }
    EXPECT_GT(r.flow(2, 0), r.flow(1, 0)) << "outlets behind the bar lie lower where the front is higher";
    EXPECT_LT(r.flow(0, 0), r.flow(1, 0));
  }
  test::expect_message(
      [&] {
        const ScenarioSolver by_hand(plumbed({}), test::plain_job());
        Scenarios slope{.count = 1};
        slope.fore_aft_slope = numbers({0.1});
        (void)by_hand.solve(slope);
      },
      "place by place");
}

}  // namespace scenario_numbers_test
}  // namespace libflow
