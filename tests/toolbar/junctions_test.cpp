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
  Toolbar counted = end_fed(200.0 * mm, 40.0 * mm, true);
  counted.hose_bore = 21.0 * mm;  // a branch is at least a tenth of its run
  Toolbar plain = counted;
  plain.manifolds[0].junction_losses = false;
  const auto with = row_flows(counted, water_job());
  const auto without = row_flows(plain, water_job());
  for (std::size_t i = 0; i < with.size(); ++i) EXPECT_NEAR(with[i] / without[i], 1.0, 1e-4);
}

// Fed from the right, rows come in the opposite order.
TEST(Junctions, MirroredFeedMirrorsTheRows) {
  Toolbar left = end_fed(25.0 * mm, 40.0 * mm, true), right = left;
  right.manifolds[0].feed = ManifoldFeed::right;
  const auto a = row_flows(left, water_job()), b = row_flows(right, water_job());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i] / b[a.size() - 1 - i], 1.0, 1e-9);
}

// A bar of one port is a hose that becomes a row: nothing divides there, and nothing is lost or doubted.
TEST(Junctions, ABarOfOneRowHasNoTee) {
  for (const double feed : {0.0, 1.0}) {
    Toolbar t = test::plain_bar(1);
    t.manifolds[0].feed_length = feed * m;
    const auto without = row_flows(t, water_job());
    t.manifolds[0].junction_losses = true;
    const Plumbing p = build_network(t, water_job());
    EXPECT_TRUE(p.tees.empty());
    EXPECT_TRUE(p.lossless.empty());
    const auto with = row_flows(t, water_job());
    ASSERT_EQ(with.size(), 1U);
    EXPECT_NEAR(with[0] / without[0], 1.0, 1e-12);
  }
}

// The drops along the answer are those of the tee formulas at its own split.
TEST(Junctions, DropsAreThoseOfTheSplit) {
  const Job job = water_job();
  const Plumbing p = build_network(end_fed(25.0 * mm, 40.0 * mm, true), job);
  const LiquidState liquid = job.liquid.at(job.temperature);
  ASSERT_EQ(p.tees.size(), 16U);
  const auto corrections = tee_corrections(p.network, p.tees, liquid.density);
  const CorrectedSolution s = solve_corrected(p.network, liquid, corrections);
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const TeeAt& third = p.tees[2];
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

// The published losses begin at a branch of a tenth of the run.
TEST(Junctions, ABarFarWiderThanItsHosesIsRefused) {
  EXPECT_NO_THROW((void)build_network(end_fed(99.0 * mm, 120.0 * mm, true), water_job()));
  EXPECT_THROW((void)build_network(end_fed(101.0 * mm, 120.0 * mm, true), water_job()), InputError);
  EXPECT_NO_THROW((void)build_network(end_fed(101.0 * mm, 120.0 * mm, false), water_job()));
}

// Two feeds meet in the middle of the bar: with a row there (nine rows) and without one (eight). In thick cold liquid
// the bar's friction decides where they meet.
TEST(Junctions, ABarFedAtBothEndsSettlesAndIsSymmetric) {
  Job cold = water_job();
  cold.liquid = find_liquid("10-34-0");
  cold.temperature = from_si<Temperature>(273.15);
  cold.rate = 60.0 * gal_per_acre;
  for (const Job& job : {cold, water_job()}) {
    for (const int rows : {1, 2, 3, 8, 9, 16}) {
      SCOPED_TRACE(rows);
      Toolbar t = end_fed(25.0 * mm, 40.0 * mm, true);
      t.rows = rows;
      t.manifolds[0].feed = ManifoldFeed::both_ends;
      t.manifolds[0].feed_length = 1.0 * m;
      t.manifolds[0].feed_bore = 25.0 * mm;
      const auto flow = row_flows(t, job);
      for (std::size_t i = 0; i < flow.size(); ++i) EXPECT_NEAR(flow[i] / flow[flow.size() - 1 - i], 1.0, 1e-8);
    }
  }
}

// Where two streams meet, the row loses what the published form says of their split.
TEST(Junctions, MeetingStreamsLoseWhatTheTeeSays) {
  Toolbar t = end_fed(25.0 * mm, 40.0 * mm, true);
  t.rows = 9;
  t.manifolds[0].feed = ManifoldFeed::both_ends;
  t.manifolds[0].feed_length = 1.0 * m;
  const Plumbing p = build_network(t, water_job());
  const LiquidState liquid = water_job().liquid.at(water_job().temperature);
  const Solution s = solve_plumbing(p, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  const std::vector<TeeAt>& tees = p.tees;
  ASSERT_EQ(tees.size(), 9U);
  EXPECT_EQ(tee_result(p.network, tees[3], s, liquid.density).state, TeeState::dividing);
  const TeeResult middle = tee_result(p.network, tees[4], s, liquid.density);
  EXPECT_EQ(middle.state, TeeState::meeting);
  EXPECT_NEAR(middle.flows.left / middle.flows.right, 1.0, 1e-6);
  const double row = s.parts[tees[4].branches[0]].flow;
  const double loss =
      physics::tee_meeting<double>(0.5, 0.16) * physics::velocity_head<double>(row, 0.010, liquid.density);
  const double friction = p.network.part(tees[4].branches[0]).part.law(liquid)(row).dp;
  EXPECT_NEAR(s.parts[tees[4].branches[0]].drop - friction, loss, 1e-5 * loss);
}

}  // namespace junctions_test
}  // namespace libflow
