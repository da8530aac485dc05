// SPDX-License-Identifier: MIT
/// @file
/// What is said of tees: a flow too slow for the published losses, a port that no published loss fits; and the feed of
/// a bar, which parts in a tee of its own.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/physics/minor_loss.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/toolbar.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace junction_cautions_test {

using namespace units;

/// A narrow bar with wide hoses and orifices: what its ports do to the flow counts.
Toolbar narrow_bar(int rows, ManifoldFeed feed) {
  Toolbar t;
  t.rows = rows;
  t.spacing = 30.0 * inch;
  t.hose = {.kind = HoseSchedule::Kind::same, .length = 1.0 * m};
  t.hose_bore = 10.0 * mm;
  t.orifice = OrificeByBore{.bore = 4.0 * mm};
  t.manifolds = {Manifold{.bore = 25.0 * mm,
                          .port_spacing = 40.0 * mm,
                          .feed = feed,
                          .feed_length = 1.0 * m,
                          .feed_bore = 20.0 * mm,
                          .junction_losses = true}};
  return t;
}

Job bar_job(const char* product) {
  Job job;
  job.liquid = find_liquid(product);
  job.rate = 150.0 * gal_per_acre;
  job.speed = 6.0 * mph;
  return job;
}

struct BarAnswer {
  Plumbing plumbing;
  LiquidState liquid;
  Solution solution;
  Evenness evenness;

  [[nodiscard]] std::vector<Caution> of(const std::string& code) const {
    std::vector<Caution> found;
    for (const Caution& c : evenness.cautions) {
      if (c.code == code && (c.text.find("tee") != std::string::npos || c.text.find("feed") != std::string::npos)) {
        found.push_back(c);
      }
    }
    return found;
  }
};
BarAnswer bar_answer(const Toolbar& t, const Job& job) {
  BarAnswer a{
      .plumbing = build_network(t, job), .liquid = job.liquid.at(job.temperature), .solution = {}, .evenness = {}};
  a.solution = solve_plumbing(a.plumbing, a.liquid);
  EXPECT_TRUE(a.solution.usable()) << a.solution.message;
  a.evenness = evaluate(a.plumbing, job, a.solution, a.liquid);
  return a;
}

TEST(JunctionCautions, OneABarNamesItsWorstPort) {
  const BarAnswer a = bar_answer(narrow_bar(16, ManifoldFeed::left), bar_job("10-34-0"));
  const auto said = a.of("outside-range");
  ASSERT_EQ(said.size(), 1U);
  EXPECT_LT(said[0].value, 1e4);
  EXPECT_EQ(said[0].limit, 1e4);
  // By hand: the port with the largest loss of those whose combined flow has a Reynolds number below 10,000 and loses
  // more than a hundredth of the rows' orifices.
  double orifices = 0.0, largest = 0.0;
  for (const RowResult& r : a.evenness.rows) orifices += r.orifice_drop / 16.0;
  std::string worst;
  int count = 0;
  for (const TeeAt& at : a.plumbing.tees) {
    const TeeResult r = tee_result(a.plumbing.network, at, a.solution, a.liquid.density);
    const double q = std::max(std::abs(r.flows.left), std::abs(r.flows.right));
    const double re = 4.0 * q * a.liquid.density / (3.14159265358979 * 0.025 * a.liquid.viscosity);
    const double loss = std::max({r.levels.left, r.levels.right, r.levels.branch}) -
                        std::min({r.levels.left, r.levels.right, r.levels.branch});
    if (re >= 1e4 || loss <= 0.01 * orifices) continue;
    ++count;
    if (loss > largest) {
      largest = loss;
      worst = a.plumbing.network.place(at.place).id;
    }
  }
  ASSERT_GT(count, 1);
  EXPECT_EQ(said[0].subject, worst + " (the worst of " + std::to_string(count) + " such ports)");
}

TEST(JunctionCautions, EveryBarSpeaksForItself) {
  Toolbar t = narrow_bar(16, ManifoldFeed::left);
  t.manifolds.push_back(t.manifolds[0]);
  t.manifolds[0].last_row = 8;
  t.manifolds[1].first_row = 9;
  const auto said = bar_answer(t, bar_job("10-34-0")).of("outside-range");
  ASSERT_EQ(said.size(), 2U);
  EXPECT_EQ(said[0].subject.rfind("manifold 1 port ", 0), 0U) << said[0].subject;
  EXPECT_EQ(said[1].subject.rfind("manifold 2 port ", 0), 0U) << said[1].subject;
}

// The same bar with orifices of a quarter of the bore: 256 times their drop, against which no port counts. And without
// junction losses there is nothing to be wrong about.
TEST(JunctionCautions, NoneWherePortsDoNotCount) {
  Toolbar t = narrow_bar(16, ManifoldFeed::left);
  t.orifice = OrificeByBore{.bore = 1.0 * mm};
  EXPECT_TRUE(bar_answer(t, bar_job("10-34-0")).of("outside-range").empty());
  t = narrow_bar(16, ManifoldFeed::left);
  t.manifolds[0].junction_losses = false;
  EXPECT_TRUE(bar_answer(t, bar_job("10-34-0")).of("outside-range").empty());
}

// Idelchik, diagram 7-29, a feed that parts evenly: 1 + 1.5 (a/2)^2 velocity heads of the feed, a its area over the
// bar's.
TEST(JunctionCautions, AFeedAmidTheBarPartsInATee) {
  const BarAnswer a = bar_answer(narrow_bar(8, ManifoldFeed::middle), bar_job("water"));
  ASSERT_EQ(a.plumbing.tees.size(), 9U);
  EXPECT_TRUE(a.plumbing.lossless.empty());
  const TeeAt& feed = a.plumbing.tees.back();
  EXPECT_EQ(tee_result(a.plumbing.network, feed, a.solution, a.liquid.density).state, TeeState::parting);
  ASSERT_EQ(feed.branches.size(), 1U);
  const PartResult& hose = a.solution.parts[feed.branches[0]];
  const double friction = a.plumbing.network.part(feed.branches[0]).part.law(a.liquid)(hose.flow).dp;
  const double ratio = 0.64, head = physics::velocity_head<double>(hose.flow, 0.020, a.liquid.density);
  EXPECT_NEAR((hose.drop - friction) / head, 1.0 + 1.5 * ratio * ratio / 4.0, 1e-6);
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_NEAR(a.evenness.rows[i].flow / a.evenness.rows[7 - i].flow, 1.0, 1e-8);
  }
}

// A middle port with a row is a cross, for which there is no published loss with these bores: said, not made up.
TEST(JunctionCautions, ACrossIsTakenWithoutLossAndSaidSo) {
  const BarAnswer a = bar_answer(narrow_bar(9, ManifoldFeed::middle), bar_job("water"));
  EXPECT_EQ(a.plumbing.tees.size(), 8U);
  const auto said = a.of("no-published-loss");
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].subject, "manifold 1 inlet");
  EXPECT_GT(said[0].value, said[0].limit);
  const Network& n = a.plumbing.network;
  for (const char* id : {"manifold 1 inlet feed hose", "row 5 hose"}) {
    const auto part = n.find_part(id);
    const double friction = n.part(part).part.law(a.liquid)(a.solution.parts[part].flow).dp;
    EXPECT_NEAR(a.solution.parts[part].drop / friction, 1.0, 1e-9) << id;
  }
  // With the middle row shut it is a parting tee.
  Toolbar shut = narrow_bar(9, ManifoldFeed::middle);
  shut.row_changes = {RowChange{.row = 5, .shut = true}};
  const BarAnswer parts = bar_answer(shut, bar_job("water"));
  EXPECT_EQ(parts.plumbing.tees.size(), 9U);
  EXPECT_TRUE(parts.of("no-published-loss").empty());
  // Small orifices: it does not count.
  Toolbar fine = narrow_bar(9, ManifoldFeed::middle);
  fine.orifice = OrificeByBore{.bore = 1.0 * mm};
  EXPECT_TRUE(bar_answer(fine, bar_job("water")).of("no-published-loss").empty());
}

TEST(JunctionCautions, AFeedWiderThanItsBarIsTakenWithoutLoss) {
  Toolbar t = narrow_bar(8, ManifoldFeed::middle);
  t.manifolds[0].feed_bore = 32.0 * mm;
  t.orifice = OrificeByBore{.bore = 6.0 * mm};  // so wide that the feed's 4 kPa of velocity head count
  const BarAnswer a = bar_answer(t, bar_job("water"));
  EXPECT_EQ(a.plumbing.tees.size(), 8U);
  EXPECT_EQ(a.of("no-published-loss").size(), 1U);
}

// Two metered outlets leave one port side by side: one branch with the area of both.
TEST(JunctionCautions, TwoOutletsAtAPortAreOneBranch) {
  Toolbar t = narrow_bar(8, ManifoldFeed::left);
  t.metering = MeteringPlace::manifold;
  t.outlets_per_row = 2;
  const Plumbing p = build_network(t, bar_job("water"));
  ASSERT_EQ(p.tees.size(), 8U);
  for (const TeeAt& tee : p.tees) {
    EXPECT_EQ(tee.branches.size(), 2U);
    EXPECT_NEAR(si(tee.tee.branch_bore), 0.010 * std::sqrt(2.0), 1e-15);
  }
  t.hose_bore = 18.0 * mm;  // 25.5 mm together
  test::expect_message([&] { (void)build_network(t, bar_job("water")); }, "hoses together are wider than the bar");
  t.outlets_per_row = 1;
  EXPECT_NO_THROW((void)build_network(t, bar_job("water")));
}

}  // namespace junction_cautions_test
}  // namespace libflow
