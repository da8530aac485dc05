// SPDX-License-Identifier: MIT
/// @file
/// Tees of a layout place by place in every study that solves it: none forgets their losses.

#include <string>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/study/drawdown_plant.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_state.hpp>
#include <libflow/study/plumbing_edit.hpp>
#include <libflow/study/scenarios.hpp>
#include <libflow/toolbar.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace tee_layouts_test {

using namespace units;

/// A supply, a tee whose run gives row 1 and whose branch gives row 2. Wide tubes that end in the air at once, so that
/// the tee's losses decide.
Plumbing one_tee(bool with_tee, bool fed) {
  Plumbing p;
  Network& n = p.network;
  p.supply = fed ? n.add_fed("feed", 3.0 * gpm) : n.add_supply("feed", 5.0 * kPa);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("line", "feed", "tee", Hose{.length = 0.3 * m, .bore = 12.0 * mm});
  n.add_part("tube 1", "tee", "row 1", Hose{.length = 0.3 * m, .bore = 10.0 * mm});
  n.add_part("tube 2", "tee", "row 2", Hose{.length = 0.3 * m, .bore = 10.0 * mm});
  for (const int row : {1, 2}) {
    RowPlumbing r;
    r.row = row;
    r.x = row == 1 ? -0.381 : 0.381;
    r.width = 0.762;
    r.airs = {n.find_place("row " + std::to_string(row))};
    r.last_parts = r.hoses = {n.find_part("tube " + std::to_string(row))};
    p.rows.push_back(r);
  }
  if (with_tee) {
    p.tees = {with_bores_of_parts(n, {.tee = {},
                                      .place = n.find_place("tee"),
                                      .left = n.find_part("line"),
                                      .right = n.find_part("tube 1"),
                                      .branches = {n.find_part("tube 2")}})};
  }
  return p;
}
Layout layout_of(Plumbing plumbing) {
  Layout layout;
  layout.name = "one tee";
  layout.job.liquid = find_liquid("water");
  layout.job.rate = 20.0 * gal_per_acre;
  layout.job.speed = 5.0 * mph;
  layout.plumbing = std::move(plumbing);
  return layout;
}

TEST(TeeLayouts, TheMainJobCountsThem) {
  const Answer with = main_job(layout_of(one_tee(true, false)));
  const Answer without = main_job(layout_of(one_tee(false, false)));
  ASSERT_TRUE(with.solution.usable()) << with.solution.message;
  EXPECT_NEAR(without.evenness.rows[0].flow / without.evenness.rows[1].flow, 1.0, 1e-9);
  EXPECT_GT(with.evenness.rows[0].flow / with.evenness.rows[1].flow, 1.05) << "the branch loses more than the run";
  EXPECT_FALSE(needs_corrections(without.plumbing));
  EXPECT_TRUE(needs_corrections(with.plumbing));
}

TEST(TeeLayouts, AnOperatingPointCountsThem) {
  const Layout layout = layout_of(one_tee(true, true));
  OperatingSolver solver(layout);
  const OperatingState state = solver.at(layout.job.rate, layout.job.speed);
  ASSERT_TRUE(state.solved);
  Plumbing by_hand = one_tee(true, true);
  feed_wanted_flow(by_hand, by_hand.supply, layout.job);
  const Solution s = solve_plumbing(by_hand, layout.job.liquid.at(layout.job.temperature));
  ASSERT_TRUE(s.usable()) << s.message;
  for (const std::size_t part : {1U, 2U}) EXPECT_NEAR(state.rows.parts[part].flow / s.parts[part].flow, 1.0, 1e-9);
  EXPECT_GT(s.parts[1].flow / s.parts[2].flow, 1.05);
}

TEST(TeeLayouts, ADrawdownCountsThem) {
  const LiquidState water = test::water();
  const Plumbing p = one_tee(true, false);
  drawdown_detail::Plant plant(p, water);
  const Solution s = plant.solve({}), by_hand = solve_plumbing(p, water);
  EXPECT_NEAR(s.parts[1].flow / by_hand.parts[1].flow, 1.0, 1e-12);
  EXPECT_GT(s.parts[1].flow / s.parts[2].flow, 1.05);
}

TEST(TeeLayouts, ScenariosCountThem) {
  const Layout layout = layout_of(one_tee(true, false));
  const ScenarioSolver solver(one_tee(true, false), layout.job);
  Scenarios two;
  two.count = 2;
  const ScenarioResults results = solver.solve(two);
  const Answer answer = main_job(layout);
  ASSERT_TRUE(results.usable(1));
  for (const std::size_t row : {0U, 1U}) {
    EXPECT_NEAR(results.flow(1, static_cast<Eigen::Index>(row)) / answer.evenness.rows[row].flow, 1.0, 1e-9);
  }
}

// What is put in series with a leg that ends in the air stands between the tee and the leg: it becomes the tee's leg.
// A fitting that loses next to nothing changes next to nothing.
TEST(TeeLayouts, AThrottleAtATeeBecomesItsLeg) {
  const Plumbing p = one_tee(true, false);
  const LiquidState water = test::water();
  const Solution before = solve_plumbing(p, water);
  const Part nothing(Fitting{.bore = 100.0 * mm, .k1 = 1.0}, "nothing");
  for (const char* id : {"tube 1", "tube 2"}) {
    const Plumbing now = edited(p, {.throttled = {{p.network.find_part(id), nothing}}});
    const Solution s = solve_plumbing(now, water);
    ASSERT_TRUE(s.usable()) << s.message;
    for (const char* tube : {"tube 1", "tube 2"}) {
      EXPECT_NEAR(s.parts[now.network.find_part(tube)].flow / before.parts[p.network.find_part(tube)].flow, 1.0, 1e-6)
          << id;
    }
  }
}

}  // namespace tee_layouts_test
}  // namespace libflow
