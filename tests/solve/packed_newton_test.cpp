// SPDX-License-Identifier: MIT
/// @file
/// A pack's solver at its limits: cut short, beside a lane that is no number, started anew.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_newton.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace packed_newton_test {

using namespace units;

constexpr int lanes = Twin::width;

/// A tank, a loop of two hoses, two rows, one behind a valve that opens at 20 kPa.
Network rows() {
  Network n;
  n.add_supply("tank", 0.0 * kPa);
  n.add_place("one");
  n.add_place("two");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("left", "tank", "one", Hose{.length = 2.0 * m, .bore = 8.0 * mm});
  n.add_part("right", "tank", "two", Hose{.length = 3.0 * m, .bore = 6.0 * mm});
  n.add_part("across", "two", "one", Hose{.length = 1.0 * m, .bore = 6.0 * mm});
  n.add_part("orifice", "one", "row 1", Orifice{.bore = 2.0 * mm});
  n.add_part("valve", "two", "row 2", CheckValve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm});
  return n;
}

struct Packed {
  Network network = rows();
  LiquidState liquid = test::water();
  std::vector<Law> laws;
  PackedCore core;
  PackedNewton<Twin> newton;

  Packed() : laws(laws_of(network, liquid)), core(network, laws), newton(core, laws) {
    for (int lane = 0; lane < lanes; ++lane) newton.potential[*core.number(0)].set(lane, pressure(lane));
    newton.potential[*core.number(3)] = newton.potential[*core.number(4)] = Twin(0.0);
  }
  static std::vector<Law> laws_of(const Network& n, const LiquidState& liquid) {
    std::vector<Law> all;
    for (std::size_t i = 0; i < n.part_count(); ++i) all.push_back(n.part(i).part.law(liquid));
    return all;
  }
  /// Of the tank [Pa], counted from its own: what the rows are below it.
  static double pressure(int lane) { return 15e3 + 10e3 * lane; }
  [[nodiscard]] double flow(std::size_t part, int lane) const {
    const PackedSeat& seat = core.seats()[part];
    return (seat.forward ? 1.0 : -1.0) * newton.flow[seat.edge][lane];
  }
};

TEST(PackedCore, NumbersUnknownPlacesFirstThenHeldOnes) {
  Network n = rows();
  n.add_place("on the way");
  n.add_air("row 3");
  n.add_part("hose", "one", "on the way", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  n.add_part("tip", "row 3", "on the way", Orifice{.bore = 1.0 * mm});  // drawn against the flow
  n.add_place("end");
  n.add_part("spur", "two", "end", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  const PackedCore core(n, Packed::laws_of(n, test::water()));
  EXPECT_EQ(core.unknowns(), 2U);
  EXPECT_EQ(core.places(), 6U);
  EXPECT_EQ(core.datum(), 0U);
  EXPECT_EQ(std::min(*core.number(1), *core.number(2)), 0U);
  EXPECT_EQ(std::max(*core.number(1), *core.number(2)), 1U);
  const std::size_t held[] = {0, 3, 4, 6};
  for (std::size_t k = 0; k < 4; ++k) EXPECT_EQ(core.number(held[k]), 2U + k);
  EXPECT_FALSE(core.number(5));
  EXPECT_FALSE(core.number(7));
  ASSERT_EQ(core.edges().size(), 6U);
  for (const std::size_t part : {0u, 1u, 2u, 3u, 4u, 5u, 6u}) {
    ASSERT_TRUE(core.seats()[part].in_core()) << part;
    const PackedCore::Edge& e = core.edges()[core.seats()[part].edge];
    EXPECT_EQ(e.one_way, part == 4) << part;
    EXPECT_EQ(e.slot, part == 2 ? 0 : -1) << part;
    const std::size_t place = part == 0 || part == 3 || part > 4 ? 1 : 2;  // that it joins to a held one
    EXPECT_EQ(e.ground, part == 2 ? -1 : static_cast<int>(*core.number(place))) << part;
  }
  EXPECT_EQ(core.seats()[5].edge, core.seats()[6].edge);
  EXPECT_NE(core.seats()[5].forward, core.seats()[6].forward);
  EXPECT_FALSE(core.seats()[7].in_core());
}

// Potentials count from the first held place, the tank: the tank's own is set here, as a pack may.
TEST(PackedNewtonLimits, ValvesOpenLaneByLane) {
  Packed p;
  ASSERT_EQ(p.core.datum(), 0U);
  ASSERT_TRUE(p.newton.solve().all());
  for (int lane = 0; lane < lanes; ++lane) {
    Network alone = rows();
    alone.set_supply_pressure(0, from_si<Pressure>(Packed::pressure(lane)));
    const Solution s = solve(alone, p.liquid);
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_EQ(s.parts[4].flow > 0.0, lane > 0);
    for (std::size_t i = 0; i < alone.part_count(); ++i) {
      EXPECT_NEAR(p.flow(i, lane), s.parts[i].flow, 1e-11 * s.parts[3].flow) << i << ", lane " << lane;
    }
    EXPECT_LE(p.newton.mass_residual[lane], 1e-14);
    EXPECT_LE(p.newton.energy_residual[lane], 1e-13);
  }
}

// With straight laws one step is exact for the valves as they stood. Where it shuts one, what that carried has still to
// go another way, though every law is kept to the last digit.
TEST(PackedNewtonLimits, AStepThatShutsAValveIsNotTheLast) {
  Network n;
  n.add_supply("tank", 0.0 * kPa);
  n.add_place("one");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("feed", "tank", "one", Hose{.length = 2.0 * m, .bore = 8.0 * mm});
  n.add_part("orifice", "one", "row 1", Orifice{.bore = 2.0 * mm});
  n.add_part("valve", "one", "row 2", CheckValve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm});
  const double resistance = 1e9, crack = 20e3;  // [Pa s/m3], [Pa]
  std::vector<Law> laws(3);
  for (Law& law : laws) law.linear = resistance;
  laws[2].threshold = crack;
  laws[2].passes = Passes::forward;
  const PackedCore core(n, laws);
  PackedNewton<Twin> newton(core, laws);
  const auto tank = [](int lane) { return 15e3 + 15e3 * lane; };  // [Pa]; above 40 kPa the valve is open
  for (int lane = 0; lane < lanes; ++lane) newton.potential[*core.number(0)].set(lane, tank(lane));
  newton.potential[*core.number(2)] = newton.potential[*core.number(3)] = Twin(0.0);
  ASSERT_TRUE(newton.solve().all());
  for (int lane = 0; lane < lanes; ++lane) {
    const bool open = tank(lane) > 2.0 * crack;
    const double one = open ? (tank(lane) + crack) / 3.0 : tank(lane) / 2.0;
    EXPECT_NEAR(newton.potential[*core.number(1)][lane], one, 1e-12 * one) << lane;
    const double valve = open ? (one - crack) / resistance : 0.0;
    const double expected[] = {(tank(lane) - one) / resistance, one / resistance, valve};
    for (std::size_t i = 0; i < 3; ++i) {
      const PackedSeat& seat = core.seats()[i];
      EXPECT_NEAR((seat.forward ? 1.0 : -1.0) * newton.flow[seat.edge][lane], expected[i], 1e-12 * expected[0]) << i;
    }
  }
}

TEST(PackedNewtonLimits, CutShortNothingIsSolved) {
  Packed p;
  ASSERT_TRUE(p.newton.solve().all());
  const int needed = p.newton.rounds;
  ASSERT_GT(needed, 3);
  for (const int most : {1, 2, 3}) {
    Packed again;
    EXPECT_FALSE(again.newton.solve({.max_iterations = most}).all()) << most;
    EXPECT_EQ(again.newton.rounds, most);
    EXPECT_EQ(again.newton.energy_residual[lanes - 1], std::numeric_limits<double>::infinity());
  }
  Packed just;
  EXPECT_TRUE(just.newton.solve({.max_iterations = needed}).all());
  EXPECT_EQ(just.newton.rounds, needed);
}

// Forty rounds are the most, whatever the options allow; and the other lanes are to the last digit as without the one
// that is no number.
TEST(PackedNewtonLimits, ALaneThatIsNoNumberIsGivenUpAndDisturbsNoOther) {
  Packed good, bad;
  ASSERT_TRUE(good.newton.solve().all());
  bad.newton.potential[*bad.core.number(0)].set(1, std::numeric_limits<double>::quiet_NaN());
  const TwinMask done = bad.newton.solve({.max_iterations = 1000});
  EXPECT_EQ(bad.newton.rounds, 40);
  for (int lane = 0; lane < lanes; ++lane) {
    EXPECT_EQ(done[lane], lane != 1);
    if (lane == 1) continue;
    for (std::size_t i = 0; i < bad.network.part_count(); ++i) {
      EXPECT_EQ(bad.flow(i, lane), good.flow(i, lane)) << i << ", lane " << lane;
    }
    EXPECT_EQ(bad.newton.energy_residual[lane], good.newton.energy_residual[lane]);
  }
}

TEST(PackedNewtonLimits, StartsFromALaneAndFromNothingAgain) {
  Packed p;
  EXPECT_EQ(p.newton.rounds, 0);
  ASSERT_TRUE(p.newton.solve().all());
  p.newton.start_from(1);
  p.newton.potential[*p.core.number(0)] = Twin(Packed::pressure(1));  // its answer is every lane's
  const double flow = p.flow(3, 1);
  ASSERT_TRUE(p.newton.solve().all());
  EXPECT_LE(p.newton.rounds, 2);
  for (int lane = 0; lane < lanes; ++lane) EXPECT_NEAR(p.flow(3, lane) / flow, 1.0, 1e-12) << lane;
  p.newton.start_cold();
  ASSERT_TRUE(p.newton.solve().all());
  EXPECT_GT(p.newton.rounds, 3);
  for (int lane = 0; lane < lanes; ++lane) EXPECT_NEAR(p.flow(3, lane) / flow, 1.0, 1e-12) << lane;
}

// A rounding above its crack pressure a valve passes a billionth of a billionth of what flows beside it: that is none.
TEST(PackedNewtonLimits, WhatOnlyRoundingOpensIsShut) {
  Network n;
  n.add_supply("tank", 0.0 * kPa);
  n.add_air("row");
  n.add_part("valve", "tank", "row", CheckValve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm});
  n.add_part("wide", "tank", "row", test::QuadraticPart{.k = 1.0, .linear = 1e6});
  const std::vector<Law> laws = Packed::laws_of(n, test::water());
  const PackedCore core(n, laws);
  PackedNewton<Twin> newton(core, laws);
  newton.potential[*core.number(0)] = Twin(std::nextafter(20e3, 1e9));
  newton.potential[*core.number(0)].set(1, 21e3);
  newton.potential[*core.number(1)] = Twin(0.0);
  ASSERT_TRUE(newton.solve().all());
  for (int lane = 0; lane < lanes; ++lane) {
    const double q = newton.flow[core.seats()[0].edge][lane];
    EXPECT_EQ(q > 0.0, lane == 1) << q;
    EXPECT_NEAR(newton.flow[core.seats()[1].edge][lane], lane == 1 ? 21e-3 : 20e-3, 1e-8);
  }
}

// A given flow that is taken out as well: the mass residual is held against the largest flow of all, given ones
// included.
TEST(PackedNewtonLimits, GivenFlowsBalance) {
  Packed p;
  p.newton.inflow[*p.core.number(1)] = Twin(1e-4);
  p.newton.inflow[*p.core.number(2)] = Twin(-2e-4);
  ASSERT_TRUE(p.newton.solve().all());
  for (int lane = 0; lane < lanes; ++lane) {
    EXPECT_NEAR(p.flow(0, lane) + p.flow(2, lane) + 1e-4, p.flow(3, lane), 1e-18);
    EXPECT_NEAR(p.flow(1, lane) - 2e-4, p.flow(2, lane) + p.flow(4, lane), 1e-18);
  }
}

// A megapascal above the datum, a microthird of a pascal between the places: the way around a loop divides as by hand.
// With Q through each row and losses of 1, 3 and 2 Pa per m3/s from the tank to one, to two and across, a third of Q
// goes across.
TEST(PackedNewtonLimits, ALoopHighAboveTheDatumKeepsItsDigits) {
  Network n;
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_supply("tank", 1000.0 * kPa);
  n.add_place("one");
  n.add_place("two");
  n.add_part("left", "tank", "one", test::QuadraticPart{.k = 0.0, .linear = 1.0});
  n.add_part("right", "tank", "two", test::QuadraticPart{.k = 0.0, .linear = 3.0});
  n.add_part("across", "one", "two", test::QuadraticPart{.k = 0.0, .linear = 2.0});
  n.add_part("orifice 1", "one", "row 1", test::QuadraticPart{.k = 1e18});
  n.add_part("orifice 2", "two", "row 2", test::QuadraticPart{.k = 1e18});
  const std::vector<Law> laws = Packed::laws_of(n, test::water());
  const PackedCore core(n, laws);
  ASSERT_EQ(core.datum(), 0U);
  PackedNewton<Twin> newton(core, laws);
  for (const std::size_t row : {0U, 1U}) newton.potential[*core.number(row)] = Twin(0.0);
  newton.potential[*core.number(2)] = Twin(1e6);
  newton.potential[*core.number(2)].set(1, 4e6);
  ASSERT_TRUE(newton.solve().all());
  for (int lane = 0; lane < lanes; ++lane) {
    const double through = lane == 1 ? 2e-6 : 1e-6;
    const auto flow = [&](std::size_t part) {
      return (core.seats()[part].forward ? 1.0 : -1.0) * newton.flow[core.seats()[part].edge][lane] / through;
    };
    EXPECT_NEAR(flow(0), 4.0 / 3.0, 1e-9) << lane;
    EXPECT_NEAR(flow(1), 2.0 / 3.0, 1e-9) << lane;
    EXPECT_NEAR(flow(2), 1.0 / 3.0, 1e-9) << lane;
    EXPECT_NEAR(flow(3), 1.0, 1e-9) << lane;
    EXPECT_NEAR(flow(4), 1.0, 1e-9) << lane;
  }
}

}  // namespace packed_newton_test
}  // namespace libflow
