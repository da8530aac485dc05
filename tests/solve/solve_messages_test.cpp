// SPDX-License-Identifier: MIT
/// @file
/// What corrections, tees and derivatives say when they refuse or settle: whole sentences, with the right place, part
/// and number in them.
#include <cmath>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve.hpp>
#include <libflow/solve/derivatives_held_total.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace solve_messages_test {

using namespace units;

/// The whole message of the InputError that `act` throws; empty where it throws none.
template <class Act>
std::string refusal(const Act& act) {
  try {
    act();
  } catch (const InputError& e) {
    return e.what();
  }
  return {};
}

/// feed - bar - port - bar - end, rows of two branches at the port.
Network bar() {
  Network n;
  n.add_supply("feed", 20.0 * kPa);
  n.add_place("port");
  n.add_air("row");
  n.add_air("end");
  n.add_part("bar 1", "feed", "port", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  n.add_part("bar 2", "end", "port", Hose{.length = 1.0 * m, .bore = 10.0 * mm});
  n.add_part("hose 1", "port", "row", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  n.add_part("hose 2", "port", "row", Hose{.length = 2.0 * m, .bore = 8.0 * mm});
  n.add_part("bypass", "feed", "end", Hose{.length = 2.0 * m, .bore = 4.0 * mm});
  return n;
}
TeeAt tee(const Network& n) { return {.place = n.find_place("port"), .left = 0, .right = 1, .branches = {2, 3}}; }

TEST(SolveMessages, LegsOfATee) {
  const Network n = bar();
  const auto refused = [&](auto change) {
    TeeAt at = tee(n);
    change(at);
    const std::string by_bores = refusal([&] { (void)with_bores_of_parts(n, at); });
    at.tee = {.run_bore = 12.0 * mm, .branch_bore = 10.0 * mm};
    EXPECT_EQ(refusal([&] { (void)tee_corrections(n, {at}, 1000.0); }), by_bores);
    return by_bores;
  };
  EXPECT_EQ(refused([](TeeAt&) {}), "");
  EXPECT_EQ(refused([](TeeAt& at) { at.place = 4; }), "tee, place: place 4 is not in the network; allowed: 0 to 3");
  EXPECT_EQ(refused([](TeeAt& at) { at.branches.clear(); }),
            "tee at 'port', branches: none given; allowed: one part or more");
  EXPECT_EQ(refused([](TeeAt& at) { at.left = at.right = std::nullopt; }),
            "tee at 'port', run: both ends are plugged; allowed: a part at one end at least");
  EXPECT_EQ(refused([](TeeAt& at) { at.left.reset(); }), "");
  EXPECT_EQ(refused([](TeeAt& at) { at.right.reset(); }), "");
  for (const auto& leg : {0, 1, 2}) {
    const auto set = [leg](TeeAt& at, Network::PartIndex part) {
      if (leg == 0) at.branches[1] = part;
      if (leg == 1) at.left = part;
      if (leg == 2) at.right = part;
    };
    EXPECT_EQ(refused([&](TeeAt& at) { set(at, 5); }), "tee at 'port': part 5 is not in the network; allowed: 0 to 4");
    EXPECT_EQ(refused([&](TeeAt& at) { set(at, 4); }),
              "tee at 'port': part 'bypass' does not join that place; allowed: parts that begin or end there");
    EXPECT_EQ(refused([&](TeeAt& at) { set(at, 2); }),
              "tee at 'port': part 'hose 1' is given twice; allowed: each part as one leg");
  }
}

// The run has the bore of its left part, or of its right one where the left is plugged; the branch that of one tube as
// wide as all branches together; what is given stays.
TEST(SolveMessages, BoresOfATeeAreThoseOfItsParts) {
  const Network n = bar();
  const TeeAt both = with_bores_of_parts(n, tee(n));
  EXPECT_NEAR(si(both.tee.run_bore), 12e-3, 1e-15);
  EXPECT_NEAR(si(both.tee.branch_bore), 10e-3, 1e-15);  // of 6 and 8 mm: 36 + 64 = 100
  TeeAt right = tee(n);
  right.left.reset();
  right.branches = {3};
  EXPECT_NEAR(si(with_bores_of_parts(n, right).tee.run_bore), 10e-3, 1e-15);
  EXPECT_NEAR(si(with_bores_of_parts(n, right).tee.branch_bore), 8e-3, 1e-15);
  TeeAt given = tee(n);
  given.tee = {.run_bore = 15.0 * mm, .branch_bore = 9.0 * mm};
  EXPECT_EQ(si(with_bores_of_parts(n, given).tee.run_bore), si(15.0 * mm));
  EXPECT_EQ(si(with_bores_of_parts(n, given).tee.branch_bore), si(9.0 * mm));
}

TEST(SolveMessages, Corrections) {
  const Network n = bar();
  const Correction nowhere{5, [](const Solution&, double) { return 0.0; }};
  EXPECT_EQ(refusal([&] { (void)solve_corrected(n, {}, {nowhere}); }),
            "correction: part 5 is not in the network; allowed: 0 to 4");
  EXPECT_EQ(refusal([&] { (void)regulation(n, n.find_part("bypass")); }),
            "part 'bypass': is no pressure regulator; allowed: a part of kind 'pressure regulator'");
  EXPECT_EQ(CorrectedOptions{}.tolerance, 1e-9);
  EXPECT_EQ(CorrectedOptions{}.max_rounds, 100);
}

// Constants settle in the second round: the first finds how far off nothing is, the second that they are right.
TEST(SolveMessages, HowCorrectionsSettled) {
  const Network n = bar();
  const auto constant = [](Network::PartIndex part, double pascal) {
    return Correction{part, [pascal](const Solution&, double) { return pascal; }};
  };
  const CorrectedSolution two = solve_corrected(n, {}, {constant(2, 500.0), constant(3, -100.0)});
  ASSERT_TRUE(two.usable());
  EXPECT_EQ(two.rounds, 2);
  EXPECT_EQ(two.change, 0.0);
  EXPECT_EQ(two.drops, (std::vector<double>{500.0, -100.0}));
  EXPECT_TRUE(two.solution.message.ends_with("largest drop; 2 corrections settled in 2 rounds"))
      << two.solution.message;
  const CorrectedSolution single = solve_corrected(n, {}, {constant(2, 500.0)});
  EXPECT_TRUE(single.solution.message.ends_with("largest drop; 1 corrections settled in 2 rounds"))
      << single.solution.message;
  const CorrectedSolution none = solve_corrected(n, {}, {});
  EXPECT_EQ(none.rounds, 1);
  EXPECT_TRUE(none.solution.message.ends_with("of the largest drop")) << none.solution.message;
  // One round is not enough: what is still asked for is told as a share of the largest drop, the 20 kPa of the feed.
  const CorrectedSolution one = solve_corrected(n, {}, {constant(2, 500.0)}, {}, {.max_rounds = 1});
  EXPECT_FALSE(one.usable());
  EXPECT_TRUE(one.solution.usable());
  EXPECT_EQ(one.rounds, 1);
  EXPECT_NEAR(one.change, 500.0 / 20e3, 1e-9);
  EXPECT_TRUE(one.solution.message.ends_with(
      "; corrections did not settle in 1 rounds: they still change by 2.5e-02 of the largest drop"))
      << one.solution.message;
  // Two corrections of one part add up.
  const CorrectedSolution sum = solve_corrected(n, {}, {constant(2, 300.0), constant(2, 200.0)});
  ASSERT_TRUE(sum.usable());
  EXPECT_NEAR(sum.solution.parts[2].flow, single.solution.parts[2].flow, 1e-15);
}

// A change that is just the tolerance has settled; a little more has not.
TEST(SolveMessages, WhenCorrectionsHaveSettled) {
  const Network n = bar();
  for (const double share : {0.99, 1.01}) {
    const Correction creep{2, [share](const Solution&, double present) { return present + share * 1e-3 * 20e3; }};
    const CorrectedSolution s = solve_corrected(n, {}, {creep}, {}, {.tolerance = 1e-3, .max_rounds = 1});
    EXPECT_EQ(s.settled, share < 1.0);
    EXPECT_NEAR(s.change, share * 1e-3, 1e-9);
  }
}

TEST(SolveMessages, Derivatives) {
  Network n;
  n.add_supply("supply", 10.0 * kPa);
  n.add_place("pocket");
  n.add_air("out");
  n.add_part("hose", "supply", "out", Hose{.length = 1.0 * m, .bore = 6.0 * mm});
  n.add_part("valve", "supply", "pocket", CheckValve{.crack = 5.0 * kPa, .passage_bore = 3.0 * mm});
  const LiquidState water = test::water();
  const Solution s = solve(n, water);
  Derivatives d(n, water, s);
  EXPECT_EQ(
      refusal([&] { (void)d.of_pressure(1); }),
      "place 'pocket': shut parts cut it off: its pressure is not unique and has no derivatives; allowed: a place "
      "that liquid reaches");
  EXPECT_EQ(refusal([&] { (void)d.of_pressure(3); }),
            "place: shut parts cut it off: its pressure is not unique and has no derivatives; allowed: a place that "
            "liquid reaches");
  std::vector<double> few(4);
  EXPECT_EQ(
      refusal([&] {
        d.of_flow(FlowSum{{0, 1.0}}, few);
      }),
      fmt::format("derivatives, gradient: it holds 4 numbers; allowed: {}, one for each input", d.inputs().size()));
  Solution off = s;
  off.parts[0].drop += 1.0;
  EXPECT_EQ(refusal([&] { d.at(water, off); }),
            "derivatives: the drop of 'hose' is not that of its law alone: the solution has corrections; allowed: a "
            "solution whose corrections are those of the tees given and of pressure regulators");
  for (const int what : {0, 1, 2}) {
    off = s;
    if (what == 0) off.status = Status::iteration_limit;
    if (what == 1) off.parts.pop_back();
    if (what == 2) off.places.pop_back();
    EXPECT_EQ(refusal([&] { d.at(water, off); }),
              "derivatives: the solution is not usable or of another network; allowed: a solution of this network that "
              "converged")
        << what;
  }
}

TEST(SolveMessages, HeldTotals) {
  const std::vector<double> three{1.0, 2.0, 3.0}, two{1.0, 2.0}, dead{1.0, 0.0, 3.0};
  EXPECT_EQ(
      refusal([&] { (void)with_total_held(three, two, 1); }),
      "held total: gradients by 3 and 2 inputs, setting 1; allowed: two gradients of one network and the index of "
      "one of its inputs");
  EXPECT_TRUE(test::holds(refusal([&] { (void)with_total_held(three, three, 3); }), "by 3 and 3 inputs, setting 3"));
  EXPECT_EQ(refusal([&] { (void)with_total_held(three, dead, 1); }),
            "held total, setting: moving it does not move the total: nothing holds it; allowed: a setting between its "
            "limits that the total answers to");
  // By hand: an answer of 1, 2, 3 per input, a total of 4, 5, 10; the last input holds the total, so a unit of the
  // total takes 0.1 of it, and moves the answer by 0.3.
  const std::vector<double> total{4.0, 5.0, 10.0};
  const HeldTotalGradient held = with_total_held(three, total, 2);
  EXPECT_NEAR(held.by_total, 0.3, 1e-15);
  ASSERT_EQ(held.by_input.size(), 3U);
  EXPECT_NEAR(held.by_input[0], 1.0 - 1.2, 1e-15);
  EXPECT_NEAR(held.by_input[1], 2.0 - 1.5, 1e-15);
  EXPECT_EQ(held.by_input[2], 0.0);
  EXPECT_EQ(HeldTotalGradient{}.by_total, 0.0);
  const HeldTotalGradient setting = setting_with_total_held(total, 2);
  EXPECT_NEAR(setting.by_total, 0.1, 1e-15);
  EXPECT_NEAR(setting.by_input[0], -0.4, 1e-15);
  EXPECT_NEAR(setting.by_input[1], -0.5, 1e-15);
  EXPECT_EQ(setting.by_input[2], 0.0);
}

}  // namespace solve_messages_test
}  // namespace libflow
