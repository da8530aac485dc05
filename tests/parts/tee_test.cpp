// SPDX-License-Identifier: MIT
/// @file
/// A tee in all its states: published coefficients on the right head, no jump where a leg turns, no power from nothing.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include <libflow/parts/tee.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace tee_part_test {

using namespace units;

constexpr double rho = 998.2;
double head(double flow, Length bore) { return physics::velocity_head<double>(flow, si(bore), rho); }
double lost(const Tee& tee, const TeeFlows& out) {
  // Power that all legs bring in together: flow in times total pressure.
  const TeeLevels l = tee.levels(out, rho);
  return -(out.left * l.left + out.right * l.right + out.branch * l.branch);
}
double spread(double a, double b, double c) { return std::max({a, b, c}) - std::min({a, b, c}); }

TEST(TeePart, KnowsItsStates) {
  EXPECT_EQ(Tee::state({-2.0, 1.0, 1.0}), TeeState::dividing);
  EXPECT_EQ(Tee::state({1.0, -2.0, 1.0}), TeeState::dividing);
  EXPECT_EQ(Tee::state({-1.0, 2.0, -1.0}), TeeState::combining);
  EXPECT_EQ(Tee::state({2.0, -1.0, -1.0}), TeeState::combining);
  EXPECT_EQ(Tee::state({-1.0, -1.0, 2.0}), TeeState::meeting);
  EXPECT_EQ(Tee::state({1.0, 1.0, -2.0}), TeeState::parting);
  EXPECT_EQ(Tee::state({0.0, 0.0, 0.0}), TeeState::still);
  EXPECT_EQ(Tee::state({-1.0, 1.0, 0.0}), TeeState::dividing);
  EXPECT_EQ(Tee::state({-1.0, 0.0, 1.0}), TeeState::dividing);
  EXPECT_EQ(Tee::state({0.0, 1.0, -1.0}), TeeState::combining);
}

// Crane TP-410, example 7-35 (1135 L/min straight in, 380 L/min from the branch; DN 100, bore 102.3 mm): coefficients
// -0.04026 and 0.3258 on the head of the combined flow. Gaps as in tests/physics/tee_test.cpp: the print rounds the
// share (1.1e-3 and 5e-4).
TEST(TeePart, CombiningIsCranes) {
  const Tee tee{.run_bore = 102.3 * mm, .branch_bore = 102.3 * mm};
  const double straight = 1135e-3 / 60.0, side = 380e-3 / 60.0;
  const TeeLevels l = tee.levels({.left = -straight, .right = straight + side, .branch = -side}, rho);
  EXPECT_EQ(l.right, 0.0);
  EXPECT_NEAR(l.branch / head(straight + side, tee.run_bore), -0.04026, 1.1e-3);
  EXPECT_NEAR(l.left / head(straight + side, tee.run_bore), 0.3258, 5e-4);
  const TeeLevels mirrored = tee.levels({.left = straight + side, .right = -straight, .branch = -side}, rho);
  EXPECT_EQ(mirrored.branch, l.branch);
  EXPECT_EQ(mirrored.right, l.left);
}

// Dividing at half: Crane's coefficients of equal bores, 1.155625 and 0 (tests/physics/tee_test.cpp).
TEST(TeePart, DividingIsCranes) {
  const Tee tee{.run_bore = 25.0 * mm, .branch_bore = 25.0 * mm};
  const TeeLevels l = tee.levels({.left = -1e-3, .right = 5e-4, .branch = 5e-4}, rho);
  EXPECT_EQ(l.left, 0.0);
  EXPECT_NEAR(l.right, 0.0, 1e-12);
  EXPECT_NEAR(-l.branch / head(1e-3, tee.run_bore), 1.155625, 1e-12);
}

// Idelchik, diagram 7-29. Equal streams meet and leave by a branch of half the bore: 1.015625 heads of the branch; a
// branch of the run's bore parts in halves: 1.375 heads of the branch, both ways alike.
TEST(TeePart, MeetingAndPartingAreIdelchiks) {
  const Tee narrow{.run_bore = 25.0 * mm, .branch_bore = 12.5 * mm};
  const TeeLevels in = narrow.levels({.left = -2e-4, .right = -2e-4, .branch = 4e-4}, rho);
  EXPECT_EQ(in.left, 0.0);
  EXPECT_EQ(in.right, 0.0);
  EXPECT_NEAR(-in.branch / head(4e-4, narrow.branch_bore), 1.015625, 1e-12);
  const Tee equal{.run_bore = 25.0 * mm, .branch_bore = 25.0 * mm};
  const TeeLevels out = equal.levels({.left = 2e-4, .right = 2e-4, .branch = -4e-4}, rho);
  EXPECT_NEAR(out.branch / head(4e-4, equal.branch_bore), 1.375, 1e-12);
  EXPECT_NEAR(out.left, out.right, 1e-12);
}

// All directions of flow, round the circle of (left, right) with the branch making up the balance: levels may not
// jump. The step is small enough that a continuous level moves by less than a hundredth of the largest head.
TEST(TeePart, NoJumpRoundTheCircle) {
  for (const double bores : {0.15, 0.4, 0.6, 0.65, 0.7, 0.85, 1.0}) {
    for (const double k : {physics::tee_parting_welded, physics::tee_parting_threaded}) {
      const Tee tee{.run_bore = 25.0 * mm, .branch_bore = bores * 25.0 * mm, .parting = k};
      constexpr int steps = 200000;
      TeeLevels before{};
      double worst = 0.0;
      for (int i = 0; i <= steps; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / steps;
        const double left = 1e-3 * std::cos(angle), right = 1e-3 * std::sin(angle);
        const TeeLevels l = tee.levels({.left = left, .right = right, .branch = -left - right}, rho);
        if (i > 0) {
          const double dl = l.left - before.left, dr = l.right - before.right, db = l.branch - before.branch;
          worst = std::max(worst, spread(dl, dr, db));
          worst = std::max({worst, std::abs(dl), std::abs(dr), std::abs(db)});
        }
        before = l;
      }
      EXPECT_LT(worst, 1e-3 * head(2e-3, tee.branch_bore)) << bores << " " << k;
    }
  }
}

// What enters brings at least what leaves takes, whatever the state.
TEST(TeePart, NoPowerFromNothing) {
  for (const double bores : {0.15, 0.4, 0.65, 0.85, 1.0}) {
    const Tee tee{.run_bore = 25.0 * mm, .branch_bore = bores * 25.0 * mm};
    for (int i = 0; i < 720; ++i) {
      const double angle = 2.0 * std::numbers::pi * i / 720;
      const double left = 1e-3 * std::cos(angle), right = 1e-3 * std::sin(angle);
      const TeeFlows out{.left = left, .right = right, .branch = -left - right};
      EXPECT_GE(lost(tee, out), -1e-9) << bores << " " << i;
    }
  }
}

TEST(TeePart, LevelsGrowWithTheSquareOfTheFlow) {
  const Tee tee{.run_bore = 25.0 * mm, .branch_bore = 13.0 * mm};
  for (const TeeFlows f :
       {TeeFlows{-3.0, 2.0, 1.0}, TeeFlows{-2.0, 3.0, -1.0}, TeeFlows{-2.0, -1.0, 3.0}, TeeFlows{2.0, 1.0, -3.0}}) {
    const TeeLevels one = tee.levels({1e-4 * f.left, 1e-4 * f.right, 1e-4 * f.branch}, rho);
    const TeeLevels two = tee.levels({2e-4 * f.left, 2e-4 * f.right, 2e-4 * f.branch}, rho);
    EXPECT_NEAR(two.left, 4.0 * one.left, 1e-9);
    EXPECT_NEAR(two.right, 4.0 * one.right, 1e-9);
    EXPECT_NEAR(two.branch, 4.0 * one.branch, 1e-9);
  }
}

TEST(TeePart, CautionsWhereItIsNotTurbulentAndCounts) {
  const Tee tee{.run_bore = 25.0 * mm, .branch_bore = 13.0 * mm};
  const TeeFlows slow{.left = -1e-4, .right = 0.5e-4, .branch = 0.5e-4};  // Re 5093 in water at 20 C
  const Cautions found = tee.cautions(slow, test::water(), 100.0);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, "outside-range");
  EXPECT_EQ(found[0].limit, Tee::turbulent_from);
  EXPECT_NEAR(found[0].value, 4.0 * 1e-4 * test::water().density / (std::numbers::pi * 0.025 * test::water().viscosity),
              1e-6);
  EXPECT_TRUE(tee.cautions(slow, test::water(), 1e5).empty());  // the orifice behind it decides
  EXPECT_TRUE(tee.cautions({.left = -1e-3, .right = 5e-4, .branch = 5e-4}, test::water(), 1.0).empty());
  EXPECT_TRUE(tee.cautions({}, test::water(), 1.0).empty());
}

// Re = 4 rho Q / (pi d mu) of the combined stream: in the run where it divides or combines, in the branch where two
// streams meet or part.
TEST(TeePart, TheCautionsReynoldsNumberIsThatOfTheCombinedStream) {
  const Tee t{.run_bore = 25.0 * mm, .branch_bore = 12.0 * mm};
  const LiquidState water = test::water();
  const auto re = [&](double flow, double bore) {
    return 4.0 * water.density * flow / (std::numbers::pi * bore * water.viscosity);
  };
  const double q = 2e-5;
  const std::pair<TeeFlows, double> cases[] = {{{.left = -q, .right = 0.6 * q, .branch = 0.4 * q}, re(q, 25e-3)},
                                               {{.left = q, .right = -0.6 * q, .branch = -0.4 * q}, re(q, 25e-3)},
                                               {{.left = -0.6 * q, .right = -0.4 * q, .branch = q}, re(q, 12e-3)},
                                               {{.left = 0.6 * q, .right = 0.4 * q, .branch = -q}, re(q, 12e-3)}};
  for (const auto& [flows, wanted] : cases) {
    const Cautions found = t.cautions(flows, water, 1e-6);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_NEAR(found[0].value / wanted, 1.0, 1e-12);
  }
}

TEST(TeePart, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, 5e-4, 0.51, nan}) {
    test::expect_refused([&] { Tee{.run_bore = bad * m, .branch_bore = 10.0 * mm}.check("tee 't'"); },
                         "tee 't', run bore");
  }
  for (const double bad : {0.0, 2.4, 25.1, nan}) {
    test::expect_refused([&] { Tee{.run_bore = 25.0 * mm, .branch_bore = bad * mm}.check("tee 't'"); },
                         "tee 't', branch bore");
  }
  for (const double bad : {-0.1, 3.1, nan}) {
    test::expect_refused([&] { Tee{.run_bore = 25.0 * mm, .branch_bore = 12.0 * mm, .parting = bad}.check("tee 't'"); },
                         "tee 't', parting");
    test::expect_refused([&] { Tee{.run_bore = 25.0 * mm, .branch_bore = 12.0 * mm, .factor = bad}.check("tee 't'"); },
                         "tee 't', factor");
  }
}

// Flows that nobody gave are none, and without flow every leg has the place's pressure.
TEST(TeePart, WithoutFlowItLosesNothing) {
  const TeeFlows none;
  for (const double flow : {none.left, none.right, none.branch}) EXPECT_EQ(flow, 0.0);
  const TeeLevels l = Tee{.run_bore = 25.0 * mm, .branch_bore = 13.0 * mm}.levels(none, rho);
  for (const double level : {l.left, l.right, l.branch}) EXPECT_EQ(level, 0.0);
}

// What goes in by the branch and comes out nowhere, or goes in by all: no way of flowing, so no loss.
TEST(TeePart, FlowsThatDoNotBalanceAreNoState) {
  EXPECT_EQ(Tee::state({.left = 0.0, .right = 0.0, .branch = -1.0}), TeeState::still);
  EXPECT_EQ(Tee::state({.left = -1.0, .right = 0.0, .branch = -1.0}), TeeState::still);
  EXPECT_EQ(Tee::state({.left = 0.0, .right = -1.0, .branch = -1.0}), TeeState::still);
  EXPECT_EQ(Tee::state({.left = 1.0, .right = 0.0, .branch = 0.0}), TeeState::still);
  EXPECT_EQ(Tee::state({.left = 0.0, .right = 1.0, .branch = -1.0}), TeeState::combining);
  EXPECT_EQ(Tee::state({.left = 1.0, .right = 0.0, .branch = -1.0}), TeeState::combining);
}

}  // namespace tee_part_test
}  // namespace libflow
