// SPDX-License-Identifier: MIT
/// @file
/// The Newton's options, its hard places (a valve exactly at its crack pressure), and its calm over a sweep of supply
/// pressures on a 16-row bar.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace newton_test {

using namespace libflow::units;
using test::expect_refused;

/// 16 rows, fed in the middle: hoses of several lengths, a check valve of 20 kPa and an orifice a row, on a side slope.
Network bar(Pressure supply, double slope = 0.05, Pressure crack = 20.0 * kPa) {
  Network n;
  n.add_supply("tank", supply);
  const auto height = [&](int row) { return from_si<Length>(slope * 0.762 * (row - 7.5)); };
  for (int i = 0; i < 16; ++i) {
    const std::string port = fmt::format("port {}", i), end = fmt::format("end {}", i), tip = fmt::format("tip {}", i);
    const std::string row = fmt::format("row {}", i);
    n.add_place(port, height(i));
    n.add_place(end, height(i));
    n.add_place(tip, height(i));
    n.add_air(row, height(i));
    n.add_part(fmt::format("hose {}", i), port, end,
               Hose{.length = from_si<Length>(1.0 + 0.3 * std::abs(i - 7.5)), .bore = 6.35 * mm});
    n.add_part(fmt::format("valve {}", i), end, tip, CheckValve{.crack = crack, .passage_bore = 4.0 * mm});
    n.add_part(fmt::format("orifice {}", i), tip, row, Orifice{.bore = 1.0 * mm});
    if (i > 0) {
      n.add_part(fmt::format("bar {}", i), fmt::format("port {}", i - 1), port,
                 Hose{.length = 0.762 * m, .bore = 25.4 * mm});
    }
  }
  n.add_part("feed", "tank", "port 8", Hose{.length = 3.0 * m, .bore = 25.4 * mm});
  return n;
}

TEST(SolveOptions, OutOfRangeIsRefused) {
  const Network n = bar(1.0 * units::bar);
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -1e-12, 1e-16, 1e-2, nan, std::numeric_limits<double>::infinity()}) {
    expect_refused([&] { static_cast<void>(solve(n, test::water(), {.mass_tolerance = bad})); }, "mass_tolerance");
    expect_refused([&] { static_cast<void>(solve(n, test::water(), {.energy_tolerance = bad})); }, "energy_tolerance");
  }
  for (const int bad : {0, -1, 100001}) {
    expect_refused([&] { static_cast<void>(solve(n, test::water(), {.max_iterations = bad})); }, "max_iterations");
  }
  EXPECT_NO_THROW(SolveOptions{}.check());
}

TEST(SolveOptions, TooFewStepsIsSaidPlainly) {
  const Solution s = solve(bar(1.0 * units::bar), test::water(), {.max_iterations = 1});
  EXPECT_EQ(s.status, Status::iteration_limit);
  EXPECT_FALSE(s.usable());
  EXPECT_EQ(s.iterations, 1);
  EXPECT_NE(s.message.find("not solved"), std::string::npos) << s.message;
  EXPECT_TRUE(std::isfinite(s.energy_residual));
}

TEST(Solution, StartsNotSolved) {
  const Solution s;
  EXPECT_EQ(s.status, Status::not_solved);
  EXPECT_FALSE(s.usable());
}

TEST(Newton, BeginsWithNothing) {
  CoreShape shape;  // one edge between two held places
  shape.a = {0};
  shape.b = {1};
  shape.one_way = {false};
  shape.eliminate();
  std::vector<Law> laws(1);
  laws[0].linear = 1e6;
  EXPECT_EQ(LinearOneWay(shape).flow, (std::vector<double>{0.0}));
  EXPECT_EQ(LinearOneWay(shape).factorisations(), 0);
  Newton newton(shape, laws);
  EXPECT_EQ(newton.flow, (std::vector<double>{0.0}));
  EXPECT_EQ(newton.iterations, 0);
  EXPECT_EQ(newton.factorisations(), 0);
  Potentials potential(2);
  potential.set(0, 2e3);
  ASSERT_TRUE(newton.solve({}, potential, {0.0}, {}, false));
  EXPECT_NEAR(newton.flow[0], 2e-3, 1e-17);
  EXPECT_EQ(newton.iterations, 1);  // a straight line is its own tangent
  EXPECT_EQ(newton.factorisations(), 1);
}

TEST(Newton, ACheckValveExactlyAtItsCrackPressure) {
  // Alone, in a series run, and before a tee; the supply exactly at the crack pressure and one rounding either side.
  const double crack = 30e3;
  const auto next = [](double x, double way) { return std::nextafter(x, way); };
  for (const double p : {crack, next(crack, 0.0), next(crack, 1e9)}) {
    for (const int shape : {0, 1, 2}) {
      Network n;
      n.add_supply("tank", from_si<Pressure>(p));
      n.add_air("row");
      const CheckValve valve{.crack = from_si<Pressure>(crack), .passage_bore = 4.0 * mm};
      if (shape == 0) {
        n.add_part("valve", "tank", "row", valve);
      } else {
        n.add_place("tee");
        n.add_part("valve", "tank", "tee", valve);
        n.add_part("hose", "tee", "row", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
        if (shape == 2) {
          n.add_air("row 2");
          n.add_part("hose 2", "tee", "row 2", Hose{.length = 3.0 * m, .bore = 6.0 * mm});
        }
      }
      const Solution s = solve(n, test::water());
      ASSERT_TRUE(s.usable()) << s.message << ", shape " << shape << ", supply " << p;
      if (p <= crack) {
        EXPECT_EQ(s.parts[0].flow, 0.0) << "shape " << shape << ", supply " << p;
        EXPECT_EQ(s.parts[0].valve, ValveState::closed);
        for (const auto& part : s.parts) EXPECT_NEAR(part.flow, 0.0, 1e-20) << "shape " << shape << ", supply " << p;
      } else {
        EXPECT_GE(s.parts[0].flow, 0.0);
        EXPECT_LE(s.parts[0].flow, 1e-12) << "4e-12 Pa drive next to nothing";
      }
    }
  }
}

// A rounding above its crack pressure a valve would pass less than a billionth of a billionth of what flows beside it:
// that is none, wherever it stands among the parts.
TEST(Newton, WhatOnlyRoundingOpensIsShut) {
  for (const bool valve_first : {true, false}) {
    Network n;
    n.add_supply("tank", from_si<Pressure>(std::nextafter(30e3, 1e9)));
    n.add_air("row");
    const auto add_valve = [&] {
      n.add_part("valve", "tank", "row", CheckValve{.crack = 30.0 * kPa, .passage_bore = 3.0 * mm});
    };
    if (valve_first) add_valve();
    n.add_part("wide", "tank", "row", test::QuadraticPart{.k = 1.0, .linear = 1e6});
    if (!valve_first) add_valve();
    const Solution s = solve(n, test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_NEAR(s.parts[n.find_part("wide")].flow, 30e-3, 1e-8);
    EXPECT_EQ(s.parts[n.find_part("valve")].flow, 0.0);
    EXPECT_EQ(s.parts[n.find_part("valve")].valve, ValveState::closed);
  }
}

TEST(Newton, EveryRowExactlyAtItsCrackPressure) {
  for (const double p : {20e3, std::nextafter(20e3, 0.0), std::nextafter(20e3, 1e9)}) {
    const Solution s = solve(bar(from_si<Pressure>(p), 0.0), test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    for (const auto& part : s.parts) EXPECT_NEAR(part.flow, 0.0, 1e-12);
  }
}

TEST(Newton, SomeRowsOpenSomeShut) {
  // On a side slope the lower rows open first: as the supply rises, each row opens once and stays open.
  std::size_t before = 0;
  bool partly = false;
  for (double p = 15e3; p < 30e3; p += 250.0) {
    const Network n = bar(from_si<Pressure>(p), 0.05);
    const Solution s = solve(n, test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    std::size_t open = 0;
    bool still_open = true;
    for (int i = 0; i < 16; ++i) {
      const bool is_open = s.parts[n.find_part(fmt::format("valve {}", i))].valve == ValveState::open;
      EXPECT_TRUE(!is_open || still_open) << "row " << i << " is open above a shut row at " << p << " Pa";
      still_open = is_open;
      open += is_open ? 1 : 0;
    }
    EXPECT_GE(open, before);
    partly = partly || (open > 0 && open < 16);
    before = open;
  }
  EXPECT_TRUE(partly);
  EXPECT_EQ(before, 16u);
}

TEST(Newton, ASweepOfSupplyPressures) {
  // 6,001 supply pressures from 5 to 305 kPa, each from a cold start, water and a thick liquid.
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    int most = 0;
    double worst_mass = 0.0, worst_energy = 0.0, before = 0.0;
    std::vector<int> steps;
    for (int k = 0; k <= 6000; ++k) {
      SCOPED_TRACE(fmt::format("{} Pa", 5000 + 50 * k));
      const Solution s = solve(bar(from_si<Pressure>(5e3 + 50.0 * k)), liquid);
      ASSERT_TRUE(s.usable()) << s.message;
      most = std::max(most, s.iterations);
      steps.push_back(s.iterations);
      worst_mass = std::max(worst_mass, s.mass_residual);
      worst_energy = std::max(worst_energy, s.energy_residual);
      const double total = s.parts.back().flow;  // the feed
      ASSERT_GE(total, before - 1e-12 * std::abs(total) - 1e-20) << "more pressure, less flow";
      before = total;
    }
    std::nth_element(steps.begin(), steps.begin() + 3000, steps.end());
    RecordProperty("most_steps_" + liquid.name, most);
    RecordProperty("median_steps_" + liquid.name, steps[3000]);
    EXPECT_LE(worst_mass, 1e-12);
    EXPECT_LE(worst_energy, 1e-9);
    EXPECT_LE(most, 30) << "a Newton that wanders";
  }
}

TEST(Newton, GivenFlowsInAndOutTogether) {
  // What is pushed in and drawn out elsewhere passes the tank by; the tank makes up the difference.
  for (const double drawn : {0.0, 1.0, 2.0, 5.0}) {
    Network n;
    n.add_supply("tank", 1.0 * units::bar);
    n.add_fed("pump", 2.0 * L_per_min);
    n.add_place("tee");
    n.add_drawn("tap", drawn * L_per_min);
    const Hose hose{.length = 2.0 * m, .bore = 8.0 * mm};
    n.add_part("a", "tank", "tee", hose);
    n.add_part("b", "pump", "tee", hose);
    n.add_part("c", "tee", "tap", hose);
    const Solution s = solve(n, test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_NEAR(s.parts[0].flow, (drawn - 2.0) * 1e-3 / 60.0, 1e-17);
    EXPECT_NEAR(s.parts[2].flow, drawn * 1e-3 / 60.0, 1e-17);
    EXPECT_GT(s.places[1].total_pressure, s.places[2].total_pressure);
  }
}

TEST(Newton, NothingDrivesAnything) {
  // Every end at one level: no flow anywhere, loops and check valves included.
  Network n = bar(from_si<Pressure>(0.0), 0.0);
  n.add_part("loop", "port 2", "port 13", Hose{.length = 5.0 * m, .bore = 12.0 * mm});
  n.add_part("loop valve", "port 5", "port 6", CheckValve{.passage_bore = 4.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  for (const auto& part : s.parts) EXPECT_NEAR(part.flow, 0.0, 1e-20);
}

TEST(Newton, StaysFiniteAtTheIterationLimit) {
  for (int limit = 1; limit <= 6; ++limit) {
    const Solution s = solve(bar(2.0 * units::bar), test::water(), {.max_iterations = limit});
    EXPECT_LE(s.iterations, limit);
    for (const auto& part : s.parts) EXPECT_TRUE(std::isfinite(part.flow));
    for (const auto& place : s.places) EXPECT_TRUE(std::isfinite(place.total_pressure));
  }
}

TEST(System, FedFlowsChangeBetweenSolves) {
  Network n;
  const auto pump = n.add_fed("pump", 1.0 * L_per_min);
  n.add_air("row");
  n.add_part("tip", "pump", "row", OpenEnd{.bore = 2.0 * mm});
  System system(n, test::water());
  const Solution one = system.solve();
  n.set_fed_flow(pump, 2.0 * L_per_min);
  const Solution two = system.solve();
  EXPECT_NEAR(two.parts[0].flow, 2.0 * one.parts[0].flow, 1e-15 * two.parts[0].flow);
  EXPECT_GT(two.places[0].total_pressure, one.places[0].total_pressure);
}

// A pump pushes in what a tap takes, behind a valve that only lets in: more of it than the tap takes has no way, which
// only the solve can tell where the flow changes after the network was checked. Then again it fits.
TEST(System, AGivenFlowThatLosesItsWayBetweenSolvesIsRefused) {
  Network n;
  n.add_supply("tank", 1.0 * units::bar);
  const auto pump = n.add_fed("pump", 1.0 * L_per_min);
  n.add_drawn("tap", 1.0 * L_per_min);
  n.add_part("valve", "tank", "pump", CheckValve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm});
  n.add_part("hose", "pump", "tap", Hose{.length = 2.0 * m, .bore = 8.0 * mm});
  System system(n, test::water());
  ASSERT_TRUE(system.solve().usable());
  n.set_fed_flow(pump, 2.0 * L_per_min);
  try {
    (void)system.solve();
    ADD_FAILURE() << "nothing thrown";
  } catch (const IllPosedError& e) {
    EXPECT_NE(std::string(e.what()).find("no opening of the one-way parts lets it through"), std::string::npos);
  }
  n.set_fed_flow(pump, 0.5 * L_per_min);
  const Solution less = system.solve();
  ASSERT_TRUE(less.usable()) << less.message;
  EXPECT_NEAR(less.parts[0].flow, 0.5e-3 / 60.0, 1e-17);
}

}  // namespace newton_test
}  // namespace libflow
