// SPDX-License-Identifier: MIT
/// @file
/// Tees in networks: two lines that become one, a port between two feeds, a bar fed in its middle.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include <libflow/parts/fitting.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace tees_test {

using namespace units;

// Crane TP-410, example 7-35: 1135 L/min straight in and 380 L/min from the branch into a DN 100 tee (bore 102.3 mm):
// 0.3258 and -0.04026 heads of the combined flow. The print rounds the share of the flow: 5e-4 and 1.1e-3 (see
// tests/physics/tee_test.cpp). Fed flows, so the tee is all there is to find; the side line is joined the other way
// round to show that the direction of a part does not matter.
TEST(Tees, CranesCombiningTeeInANetwork) {
  const LiquidState water = test::water();
  Network n;
  n.add_fed("straight", from_si<Flow>(1135e-3 / 60.0));
  n.add_fed("side", from_si<Flow>(380e-3 / 60.0));
  n.add_place("tee");
  n.add_air("end");
  const Hose stub{.length = 10.0 * mm, .bore = 102.3 * mm};
  n.add_part("run in", "straight", "tee", stub);
  n.add_part("branch", "tee", "side", stub);
  n.add_part("run out", "tee", "end", stub);
  const TeeAt at = with_bores_of_parts(n, {.tee = {},
                                           .place = n.find_place("tee"),
                                           .left = n.find_part("run in"),
                                           .right = n.find_part("run out"),
                                           .branches = {n.find_part("branch")}});
  EXPECT_NEAR(si(at.tee.run_bore), 0.1023, 1e-15);
  EXPECT_NEAR(si(at.tee.branch_bore), 0.1023, 1e-15);
  const CorrectedSolution s = solve_corrected(n, water, tee_corrections(n, {at}, water.density));
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const auto pressure = [&](const char* id) { return s.solution.places[n.find_place(id)].total_pressure; };
  const auto friction = [&](const char* id) {
    const auto part = n.find_part(id);
    return n.part(part).part.law(water)(std::abs(s.solution.parts[part].flow)).dp;
  };
  const double head = physics::velocity_head<double>(1515e-3 / 60.0, 0.1023, water.density);
  EXPECT_NEAR((pressure("straight") - pressure("tee") - friction("run in")) / head, 0.3258, 5e-4);
  EXPECT_NEAR((pressure("side") - pressure("tee") - friction("branch")) / head, -0.04026, 1.1e-3);
  const TeeResult r = tee_result(n, at, s.solution, water.density);
  EXPECT_EQ(r.state, TeeState::combining);
  EXPECT_NEAR(r.flows.branch, -380e-3 / 60.0, 1e-12);
}

/// A bar of `rows` ports, fed at both ends at `left` and `right`, or in the middle of it by a tee where rows is even.
struct Bar {
  Network network;
  std::vector<TeeAt> tees;
  std::vector<Network::PartIndex> rows;
};
Bar bar_fed_at_both_ends(int rows, Pressure left, Pressure right, Length bar_bore, Length spacing = 40.0 * mm) {
  Bar b;
  Network& n = b.network;
  n.add_supply("left", left);
  n.add_supply("right", right);
  for (int i = 1; i <= rows; ++i) {
    n.add_place(fmt::format("port {}", i));
    n.add_air(fmt::format("row {}", i));
  }
  const Hose piece{.length = spacing, .bore = bar_bore};
  std::vector<Network::PartIndex> pieces{n.add_part("piece 0", "left", "port 1", piece)};
  for (int i = 1; i < rows; ++i) {
    pieces.push_back(
        n.add_part(fmt::format("piece {}", i), fmt::format("port {}", i), fmt::format("port {}", i + 1), piece));
  }
  pieces.push_back(n.add_part("last piece", fmt::format("port {}", rows), "right", piece));
  for (int i = 1; i <= rows; ++i) {
    b.rows.push_back(n.add_part(fmt::format("hose {}", i), fmt::format("port {}", i), fmt::format("row {}", i),
                                Hose{.length = 1.0 * m, .bore = 10.0 * mm}));
    b.tees.push_back({.tee = {.run_bore = bar_bore, .branch_bore = 10.0 * mm},
                      .place = n.find_place(fmt::format("port {}", i)),
                      .left = pieces[static_cast<std::size_t>(i) - 1],
                      .right = pieces[static_cast<std::size_t>(i)],
                      .branches = {b.rows.back()}});
  }
  return b;
}

// Whatever the two feeds' pressures, the streams meet somewhere or pass through the whole bar; the rounds settle, every
// leg's drop is its friction and the tee's level, and the rows' flows move without a jump as one feed weakens. In the
// short bar the tees' losses outweigh the bar's friction ten to one.
TEST(Tees, ABarWithTwoFeedsSettlesWhereverItsStreamsMeet) {
  const LiquidState water = test::water();
  for (const Length& spacing : {40.0 * mm, 0.76 * m}) {
    std::vector<double> before;
    int most_rounds = 0, meetings = 0, through = 0;
    for (int step = 0; step <= 100; ++step) {
      const Bar b = bar_fed_at_both_ends(5, 20.0 * kPa, (20.0 - 0.02 * step) * kPa, 20.0 * mm, spacing);
      const CorrectedSolution s = solve_corrected(b.network, water, tee_corrections(b.network, b.tees, water.density));
      ASSERT_TRUE(s.usable()) << step << ": " << s.solution.message;
      most_rounds = std::max(most_rounds, s.rounds);
      std::vector<double> flows;
      for (const auto row : b.rows) flows.push_back(s.solution.parts[row].flow);
      int met = 0;
      for (const TeeAt& at : b.tees) {
        const TeeResult r = tee_result(b.network, at, s.solution, water.density);
        met += r.state == TeeState::meeting ? 1 : 0;
        const auto row = at.branches[0];
        const double friction = b.network.part(row).part.law(water)(s.solution.parts[row].flow).dp;
        // The rounds stop at 1e-9 of the largest drop.
        EXPECT_NEAR(s.solution.parts[row].drop - friction, -r.levels.branch, 1e-4);
      }
      EXPECT_LE(met, 1);
      meetings += met;
      through += met == 0 ? 1 : 0;
      if (!before.empty()) {
        for (std::size_t i = 0; i < flows.size(); ++i) EXPECT_NEAR(flows[i] / before[i], 1.0, 0.01) << step << " " << i;
      }
      before = flows;
    }
    EXPECT_GT(meetings, 20);
    EXPECT_LT(most_rounds, 60);
    if (spacing < 0.1 * m) {
      EXPECT_GT(through, 20);
    }
  }
}

// Equal feeds: the rows are a mirror image, and the middle one takes Idelchik's 1 + a^2/4 heads (a = 1/4 here).
TEST(Tees, EqualFeedsAreAMirrorImage) {
  const LiquidState water = test::water();
  const Bar b = bar_fed_at_both_ends(5, 20.0 * kPa, 20.0 * kPa, 20.0 * mm);
  const CorrectedSolution s = solve_corrected(b.network, water, tee_corrections(b.network, b.tees, water.density));
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const auto flow = [&](std::size_t i) { return s.solution.parts[b.rows[i]].flow; };
  EXPECT_NEAR(flow(0) / flow(4), 1.0, 1e-9);
  EXPECT_NEAR(flow(1) / flow(3), 1.0, 1e-9);
  const TeeResult middle = tee_result(b.network, b.tees[2], s.solution, water.density);
  EXPECT_EQ(middle.state, TeeState::meeting);
  const double head = physics::velocity_head<double>(flow(2), 0.01, water.density);
  EXPECT_NEAR(-middle.levels.branch / head, 1.0 + 0.0625 / 4.0, 1e-9);
}

// A feed in the middle parts both ways; with one side longer the other gets more. By hand: two legs from the same
// place whose drops, losses of the tee included, are equal.
TEST(Tees, AFeedInTheMiddlePartsBothWays) {
  const LiquidState water = test::water();
  Network n;
  n.add_supply("feed", 30.0 * kPa);
  n.add_place("tee");
  n.add_air("left end");
  n.add_air("right end");
  n.add_part("feed line", "feed", "tee", Hose{.length = 0.5 * m, .bore = 20.0 * mm});
  n.add_part("left", "left end", "tee", Hose{.length = 1.0 * m, .bore = 20.0 * mm});
  n.add_part("right", "tee", "right end", Hose{.length = 3.0 * m, .bore = 20.0 * mm});
  const TeeAt at{.tee = {.run_bore = 20.0 * mm, .branch_bore = 20.0 * mm},
                 .place = n.find_place("tee"),
                 .left = n.find_part("left"),
                 .right = n.find_part("right"),
                 .branches = {n.find_part("feed line")}};
  const CorrectedSolution s = solve_corrected(n, water, tee_corrections(n, {at}, water.density));
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const double left = -s.solution.parts[n.find_part("left")].flow, right = s.solution.parts[n.find_part("right")].flow;
  EXPECT_GT(left, right);
  EXPECT_GT(right, 0.1 * (left + right));  // the share is where Idelchik's form stands alone
  const auto friction = [&](const char* id, double q) { return n.part(n.find_part(id)).part.law(water)(q).dp; };
  const double total = left + right, head = physics::velocity_head<double>(total, 0.02, water.density);
  const auto loss = [&](double q) { return (1.0 + 1.5 * (q / total) * (q / total)) * head; };
  EXPECT_NEAR(friction("feed line", total) + loss(left) + friction("left", left), 30e3, 1e-3);
  EXPECT_NEAR(friction("feed line", total) + loss(right) + friction("right", right), 30e3, 1e-3);
}

TEST(Tees, NoTeesNoCorrections) {
  const Bar b = bar_fed_at_both_ends(3, 20.0 * kPa, 20.0 * kPa, 20.0 * mm);
  const CorrectedSolution s = solve_corrected(b.network, test::water(), tee_corrections(b.network, {}, 1000.0));
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_EQ(s.rounds, 1);
  EXPECT_EQ(s.solution.parts[b.rows[0]].flow, solve(b.network, test::water()).parts[b.rows[0]].flow);
}

TEST(Tees, WrongLegsAreRefused) {
  const Bar b = bar_fed_at_both_ends(3, 20.0 * kPa, 20.0 * kPa, 20.0 * mm);
  const auto refused = [&](auto change, const char* where) {
    TeeAt at = b.tees[1];
    change(at);
    test::expect_refused([&] { (void)tee_corrections(b.network, {at}, 1000.0); }, where);
    if (si(at.tee.branch_bore) < 0.02) test::expect_refused([&] { (void)with_bores_of_parts(b.network, at); }, where);
  };
  refused([](TeeAt& at) { at.place = 99; }, "tee, place");
  refused([](TeeAt& at) { at.branches.clear(); }, "tee at 'port 2', branches");
  refused([](TeeAt& at) { at.branches.push_back(*at.left); }, "tee at 'port 2'");
  refused([&](TeeAt& at) { at.branches[0] = b.rows[0]; }, "tee at 'port 2'");
  refused([](TeeAt& at) { at.branches[0] = 99; }, "tee at 'port 2'");
  refused([](TeeAt& at) { at.left.reset(), at.right.reset(); }, "tee at 'port 2', run");
  refused([](TeeAt& at) { at.tee.branch_bore = 21.0 * mm; }, "tee at 'port 2', branch bore");
}

TEST(Tees, ALegWithoutABoreAsksForTheTeesBores) {
  Network n;
  n.add_supply("feed", 20.0 * kPa);
  n.add_place("port");
  n.add_air("row");
  n.add_air("end");
  const auto left = n.add_part("bar", "feed", "port", test::QuadraticPart{.k = 1e12});
  const auto right = n.add_part("rest", "port", "end", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  const auto row = n.add_part("row hose", "port", "row", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  TeeAt at{.place = n.find_place("port"), .left = left, .right = right, .branches = {row}};
  test::expect_message([&] { (void)with_bores_of_parts(n, at); }, "part 'bar' has no bore");
  at.tee.run_bore = 12.0 * mm;
  EXPECT_NEAR(si(with_bores_of_parts(n, at).tee.branch_bore), 6e-3, 1e-15);
}

}  // namespace tees_test
}  // namespace libflow
