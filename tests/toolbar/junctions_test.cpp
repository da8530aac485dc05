// SPDX-License-Identifier: MIT
/// @file
/// Ports of a bar as tees: pressure regain along the bar, the closed form of many outlets, and when it does not matter.

#include <cmath>

#include <gtest/gtest.h>

#include <libflow/physics/tee.hpp>
#include <libflow/toolbar.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace junctions_test {

using namespace units;

/// 16 rows from one narrow end-fed bar, water, wide hoses and orifices: the bar's velocity head counts.
Toolbar end_fed(Length bore, Length spacing, bool losses) {
  Toolbar t;
  t.rows = 16;
  t.spacing = 30.0 * inch;
  t.hose = {.kind = HoseSchedule::Kind::same, .length = 1.0 * m};
  t.hose_bore = 10.0 * mm;
  t.orifice = OrificeByBore{.bore = 4.0 * mm};
  t.manifolds = {
      Manifold{.bore = bore, .port_spacing = spacing, .feed = ManifoldFeed::left, .junction_losses = losses}};
  return t;
}

Job water_job() {
  Job job;
  job.liquid = find_liquid("water");
  job.rate = 150.0 * gal_per_acre;
  job.speed = 6.0 * mph;
  return job;
}

std::vector<double> row_flows(const Toolbar& t, const Job& job) {
  const Plumbing p = build_network(t, job);
  const LiquidState liquid = job.liquid.at(job.temperature);
  const Solution s = solve_plumbing(p, liquid);
  EXPECT_TRUE(s.usable()) << s.message;
  std::vector<double> flow;
  for (const RowResult& r : evaluate(p, job, s, liquid).rows) flow.push_back(r.flow);
  return flow;
}

// Regain beats friction in a short wide-spaced-by-nothing bar: the far end gets more. With long thin bars friction
// wins.
TEST(Junctions, RegainGivesTheFarEndMoreAndFrictionLess) {
  const auto regain = row_flows(end_fed(25.0 * mm, 40.0 * mm, true), water_job());
  EXPECT_GT(regain.back(), regain.front());
  const auto friction = row_flows(end_fed(25.0 * mm, 1.0 * m, true), water_job());
  EXPECT_LT(friction.back(), friction.front());
}

TEST(Junctions, TheWantedTotalIsDeliveredAllTheSame) {
  const Job job = water_job();
  const auto flow = row_flows(end_fed(25.0 * mm, 40.0 * mm, true), job);
  double sum = 0.0;
  for (const double q : flow) sum += q;
  EXPECT_NEAR(sum / (16.0 * si(flow_for_rate(job.rate, job.speed, 30.0 * inch))), 1.0, 1e-12);
}

// A wide bar has no velocity head: with or without losses the rows get the same.
TEST(Junctions, AWideBarDoesNotCare) {
  const auto with = row_flows(end_fed(200.0 * mm, 40.0 * mm, true), water_job());
  const auto without = row_flows(end_fed(200.0 * mm, 40.0 * mm, false), water_job());
  for (std::size_t i = 0; i < with.size(); ++i) EXPECT_NEAR(with[i] / without[i], 1.0, 1e-4);
}

// Fed from the right, rows come in the opposite order.
TEST(Junctions, MirroredFeedMirrorsTheRows) {
  Toolbar left = end_fed(25.0 * mm, 40.0 * mm, true), right = left;
  right.manifolds[0].feed = ManifoldFeed::right;
  const auto a = row_flows(left, water_job()), b = row_flows(right, water_job());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i] / b[a.size() - 1 - i], 1.0, 1e-9);
}

// The drops along the answer are those of the tee formulas at its own split.
TEST(Junctions, DropsAreThoseOfTheSplit) {
  const Job job = water_job();
  const Plumbing p = build_network(end_fed(25.0 * mm, 40.0 * mm, true), job);
  const LiquidState liquid = job.liquid.at(job.temperature);
  ASSERT_EQ(p.ports.size(), 16U);
  const auto corrections = junction_corrections(p.ports, liquid.density);
  const CorrectedSolution s = solve_corrected(p.network, liquid, corrections);
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const Port& third = p.ports[2];
  const double arriving = s.solution.parts[*third.left].flow, row = s.solution.parts[third.branches[0]].flow;
  EXPECT_GT(arriving, row);
  const auto loss = physics::tee_dividing<double>(row / arriving, {.area_ratio = 0.16});
  const double head = physics::velocity_head<double>(arriving, 0.025, liquid.density);
  const auto hose = third.branches[0];
  const double friction = p.network.part(hose).part.law(liquid)(row).dp;
  EXPECT_NEAR(s.solution.parts[hose].drop - friction, loss.branch * head, 1e-6 * loss.branch * head);
  const double bar_friction = p.network.part(*third.right).part.law(liquid)(s.solution.parts[*third.right].flow).dp;
  EXPECT_NEAR(s.solution.parts[*third.right].drop - bar_friction, loss.run * head, 1e-6 * std::abs(loss.run * head));
}

TEST(Junctions, TheyCountAsManifoldInTheCauses) {
  const Job job = water_job();
  const Toolbar t = end_fed(25.0 * mm, 40.0 * mm, true);
  const Plumbing p = build_network(t, job);
  const LiquidState liquid = job.liquid.at(job.temperature);
  Evenness e = evaluate(p, job, solve_plumbing(p, liquid), liquid);
  attribute(t, job, liquid, e);
  ASSERT_EQ(e.causes.size(), 1U);
  EXPECT_EQ(e.causes[0].name, "manifold");
  EXPECT_NEAR(e.causes[0].share, 1.0, 1e-9);
}

TEST(Junctions, ABarNarrowerThanItsHosesIsRefused) {
  EXPECT_THROW((void)build_network(end_fed(8.0 * mm, 40.0 * mm, true), water_job()), InputError);
}

}  // namespace junctions_test
}  // namespace libflow
