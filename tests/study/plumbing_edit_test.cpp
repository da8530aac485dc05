// SPDX-License-Identifier: MIT
/// @file
/// Edited plumbing and scenarios: what is not edited stays, hoses to cut and tees included.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <vector>

#include <libflow/study/order_list.hpp>
#include <libflow/study/plumbing_edit.hpp>
#include <libflow/study/scenarios.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace plumbing_edit_test {

using namespace units;

Toolbar edit_bar() {
  Toolbar t = test::plain_bar(6);
  t.manifolds = {Manifold{.bore = 25.0 * mm, .feed_length = 1.0 * m, .feed_bore = 19.0 * mm, .junction_losses = true}};
  return t;
}

TEST(PlumbingEdit, KeepsWhatItDoesNotName) {
  const Plumbing before = build_network(edit_bar(), test::plain_job());
  ASSERT_FALSE(before.cut_hoses.empty());
  ASSERT_FALSE(before.tees.empty());
  const Network::PartIndex hose = before.rows[2].hoses.front();
  Hose narrow = *before.network.part(hose).part.as<Hose>();
  narrow.bore = 0.5 * narrow.bore;
  const Plumbing after = edited(before, {.exchanged = {{hose, Part(narrow, "hose")}},
                                         .throttled = {{before.rows[3].hoses.front(), shut_part()}},
                                         .rows_shut = {4}});
  EXPECT_EQ(after.cut_hoses, before.cut_hoses);
  for (const auto part : after.cut_hoses) {
    EXPECT_EQ(after.network.part(part).id, before.network.part(part).id);
    EXPECT_NE(after.network.part(part).part.as<Hose>(), nullptr);
  }
  EXPECT_EQ(after.hose_total, before.hose_total);
  ASSERT_EQ(after.tees.size(), before.tees.size());
  for (std::size_t k = 0; k < after.tees.size(); ++k) {
    EXPECT_EQ(after.tees[k].tee.branch_bore, before.tees[k].tee.branch_bore) << "a tee is a fitting of its own";
    EXPECT_EQ(after.tees[k].place, before.tees[k].place);
  }
  // What is ordered for it is the same but for the hose that is narrower.
  const Layout layout{.name = "edited", .job = test::plain_job(), .plumbing = after};
  const OrderList list = order_list(layout);
  std::size_t cuts = 0;
  for (const HoseOrder& h : list.hoses) cuts += h.cuts.size();
  EXPECT_EQ(cuts, before.cut_hoses.size());
  EXPECT_EQ(list.hoses.back().cuts.size(), 1U);
  EXPECT_EQ(list.hoses.back().bore, narrow.bore);
}

// What throttles a length of the bar stands between it and the port behind it: it is then the leg of that port's tee,
// on the left or on the right of it, and the tees go on joining the parts that meet there.
TEST(PlumbingEdit, AThrottleIsTheLegOfTheTeeThatItStandsAt) {
  const Job job = test::plain_job();
  const LiquidState liquid = job.liquid.at(job.temperature);
  const Plumbing before = build_network(edit_bar(), job);
  const Solution open = solve_plumbing(before, liquid);
  const Part lossless(Hose{.length = from_si<Length>(1e-6), .bore = 25.0 * mm}, "throttle");
  const Part narrow(Orifice{.bore = 2.0 * mm}, "throttle");
  for (const TeeAt& tee : before.tees) {
    for (const auto& leg : {tee.left, tee.right}) {
      if (!leg) continue;
      const Plumbing after = edited(before, {.throttled = {{*leg, lossless}}});
      for (const TeeAt& t : after.tees) {
        std::vector<Network::PartIndex> legs = t.branches;
        if (t.left) legs.push_back(*t.left);
        if (t.right) legs.push_back(*t.right);
        for (const Network::PartIndex part : legs) {
          EXPECT_TRUE(after.network.from(part) == t.place || after.network.to(part) == t.place)
              << after.network.part(part).id << " is no leg of the tee at " << after.network.place(t.place).id;
        }
      }
      const Solution same = solve_plumbing(after, liquid);
      ASSERT_TRUE(same.usable()) << same.message;
      // The same total is fed; what the throttle does not lose no row notices.
      double behind = 0.0, less = 0.0;
      const Plumbing closed = edited(before, {.throttled = {{*leg, narrow}}});
      const Solution throttled = solve_plumbing(closed, liquid);
      ASSERT_TRUE(throttled.usable()) << throttled.message;
      for (const RowPlumbing& row : before.rows) {
        const auto last = row.last_parts.front();
        EXPECT_NEAR(same.parts[last].flow / open.parts[last].flow, 1.0, 1e-6) << row.row;
        behind = std::max(behind, throttled.parts[last].flow / open.parts[last].flow);
        less = std::min(less, throttled.parts[last].flow / open.parts[last].flow - 1.0);
      }
      EXPECT_GT(behind, 1.001) << "what the throttle keeps from the rows behind it goes to the others";
      EXPECT_LT(less, -0.001);
    }
  }
}

// A scenario's hose bore is the hose's: the tee at its port stays, as it does where a hose is exchanged on the machine.
// A bar that is built with other hoses gets other tees.
TEST(ScenarioTees, KeepTheirBoresWhenAHoseHasAnother) {
  const Toolbar bar = edit_bar();
  const Job job = test::plain_job();
  const ScenarioSolver solver(bar, job);
  const double bore = 0.8 * si(bar.hose_bore);
  Scenarios s{.count = 1};
  s.hose_bore = Eigen::ArrayXXd::Constant(1, 6, bore);
  const Scenario one = solver.scenario(s, 0);
  ASSERT_EQ(one.plumbing.tees.size(), solver.plumbing().tees.size());
  for (std::size_t k = 0; k < one.plumbing.tees.size(); ++k) {
    EXPECT_EQ(one.plumbing.tees[k].tee.branch_bore, solver.plumbing().tees[k].tee.branch_bore);
  }
  EXPECT_EQ(one.plumbing.cut_hoses, solver.plumbing().cut_hoses);
  const ScenarioResults many = solver.solve(s);
  ASSERT_EQ(many.status.front(), ScenarioStatus::solved);
  const Solution by_hand = solve_plumbing(one.plumbing, one.liquid);
  const Evenness e = evaluate(one.plumbing, one.job, by_hand, one.liquid);
  for (std::size_t r = 0; r < e.rows.size(); ++r) {
    EXPECT_NEAR(many.flow(0, static_cast<Eigen::Index>(r)) / e.rows[r].flow, 1.0, 1e-9);
  }
  Toolbar rebuilt = bar;
  rebuilt.hose_bore = from_si<Length>(bore);
  const Plumbing other = build_network(rebuilt, job);
  const auto row_tee = [](const Plumbing& p) {
    return std::count_if(p.tees.begin(), p.tees.end(),
                         [&](const TeeAt& t) { return t.branches.front() == p.rows.front().hoses.front(); });
  };
  EXPECT_EQ(row_tee(other), 1);
  for (std::size_t k = 0; k < other.tees.size(); ++k) {
    const bool row = si(other.tees[k].tee.branch_bore) == bore;
    EXPECT_EQ(row, si(solver.plumbing().tees[k].tee.branch_bore) == si(bar.hose_bore));
  }
}

}  // namespace plumbing_edit_test
}  // namespace libflow
