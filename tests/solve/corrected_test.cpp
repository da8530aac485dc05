// SPDX-License-Identifier: MIT
/// @file
/// Corrections around the convex solve: a regulator that holds, or cannot; a loss that depends on the split.

#include <cmath>

#include <gtest/gtest.h>

#include <libflow/parts/fitting.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve.hpp>
#include <libflow/solve/corrected.hpp>

namespace libflow {
namespace corrected_test {

using namespace units;

/// supply - regulator - bar - `rows` orifices to the air.
Network regulated(Pressure supply, Pressure set, int rows) {
  Network n;
  n.add_supply("supply", supply);
  n.add_place("bar");
  n.add_part("regulator", "supply", "bar", PressureRegulator::rated(set, 5.0 * gpm, 2.0 * psi));
  for (int row = 1; row <= rows; ++row) {
    const std::string name = fmt::format("row {}", row);
    n.add_air(name);
    n.add_part("orifice " + name, "bar", name, Orifice{.bore = 1.2 * mm});
  }
  return n;
}

TEST(Corrected, RegulatorHoldsItsPressure) {
  for (const int rows : {1, 4, 16}) {
    const Network n = regulated(60.0 * psi, 30.0 * psi, rows);
    const CorrectedSolution s = solve_corrected(n, {}, {regulation(n, n.find_part("regulator"))});
    ASSERT_TRUE(s.usable()) << s.solution.message;
    EXPECT_NEAR(s.solution.places[n.find_place("bar")].total_pressure / si(30.0 * psi), 1.0, 1e-8);
    EXPECT_GT(s.drops[0], 0.0);
    // The rows get what they would get from a supply held at the set pressure.
    Network held;
    held.add_supply("bar", 30.0 * psi);
    held.add_air("row 1");
    held.add_part("orifice row 1", "bar", "row 1", Orifice{.bore = 1.2 * mm});
    EXPECT_NEAR(s.solution.parts[n.find_part("orifice row 1")].flow / solve(held, {}).parts[0].flow, 1.0, 1e-8);
  }
}

TEST(Corrected, RegulatorThatCannotHoldIsWideOpen) {
  const Network n = regulated(20.0 * psi, 30.0 * psi, 4);
  const CorrectedSolution s = solve_corrected(n, {}, {regulation(n, n.find_part("regulator"))});
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_EQ(s.drops[0], 0.0);
  const Solution plain = solve(n, {});
  EXPECT_EQ(s.solution.parts[n.find_part("regulator")].flow, plain.parts[n.find_part("regulator")].flow);
  EXPECT_LT(s.solution.places[n.find_place("bar")].total_pressure, si(20.0 * psi));
}

TEST(Corrected, TwoRegulatorsInSeriesAndInParallel) {
  Network n;
  n.add_supply("supply", 80.0 * psi);
  n.add_place("middle");
  n.add_place("left");
  n.add_place("right");
  n.add_part("first", "supply", "middle", PressureRegulator::rated(50.0 * psi, 5.0 * gpm, 2.0 * psi));
  n.add_part("left regulator", "middle", "left", PressureRegulator::rated(20.0 * psi, 5.0 * gpm, 2.0 * psi));
  n.add_part("right regulator", "middle", "right", PressureRegulator::rated(40.0 * psi, 5.0 * gpm, 2.0 * psi));
  for (const char* side : {"left", "right"}) {
    const std::string air = std::string(side) + " row";
    n.add_air(air);
    n.add_part(air + " orifice", side, air, Orifice{.bore = 2.0 * mm});
  }
  const CorrectedSolution s =
      solve_corrected(n, {},
                      {regulation(n, n.find_part("first")), regulation(n, n.find_part("left regulator")),
                       regulation(n, n.find_part("right regulator"))});
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_NEAR(s.solution.places[n.find_place("middle")].total_pressure / si(50.0 * psi), 1.0, 1e-7);
  EXPECT_NEAR(s.solution.places[n.find_place("left")].total_pressure / si(20.0 * psi), 1.0, 1e-7);
  EXPECT_NEAR(s.solution.places[n.find_place("right")].total_pressure / si(40.0 * psi), 1.0, 1e-7);
}

// A correction written as a multiple of the velocity head of the part's own flow must give what the part would give
// with that loss in its law: the outer rounds and the convex solve agree where both can say it.
TEST(Corrected, AgreesWithTheLawThatSaysTheSame) {
  const double k = 1.7, bore = 0.008;
  Network plain, with_fitting;
  for (Network* n : {&plain, &with_fitting}) {
    n->add_supply("supply", 20.0 * psi);
    n->add_place("tee");
    n->add_air("air");
    n->add_air("other");
    n->add_part("hose", "supply", "tee", Hose{.length = 3.0 * m, .bore = 8.0 * mm});
    n->add_part("side", "tee", "other", Orifice{.bore = 2.0 * mm});
  }
  plain.add_part("leg", "tee", "air", Orifice{.bore = 3.0 * mm});
  with_fitting.add_place("end");
  with_fitting.add_part("loss", "tee", "end", Fitting{.bore = bore * m, .k1 = 1.0, .k_inf = k});
  with_fitting.add_part("leg", "end", "air", Orifice{.bore = 3.0 * mm});
  const LiquidState water;
  const auto leg = plain.find_part("leg");
  const Correction loss{leg, [=](const Solution& s, double) {
                          const double q = s.parts[leg].flow;
                          const auto r = physics::local_loss<double>(1.0, k, bore, water.density, water.viscosity);
                          return q * (r.linear + r.quadratic * q);
                        }};
  const CorrectedSolution s = solve_corrected(plain, water, {loss});
  ASSERT_TRUE(s.usable()) << s.solution.message;
  const Solution direct = solve(with_fitting, water);
  EXPECT_NEAR(s.solution.parts[leg].flow / direct.parts[with_fitting.find_part("leg")].flow, 1.0, 1e-8);
}

TEST(Corrected, WhatNeverSettlesSaysSo) {
  const Network n = regulated(60.0 * psi, 30.0 * psi, 1);
  int calls = 0;
  const Correction restless{0, [&calls](const Solution&, double) { return ++calls % 2 == 0 ? 0.0 : 5e4; }};
  const CorrectedSolution s = solve_corrected(n, {}, {restless}, {}, {.max_rounds = 20});
  EXPECT_FALSE(s.usable());
  EXPECT_EQ(s.rounds, 20);
  EXPECT_NE(s.solution.message.find("did not settle"), std::string::npos);
}

// One extra drop d of which `wanted` says what it should be: no number at all, or none beyond a limit.
CorrectedSolution corrected_by(double (*wanted)(double)) {
  static const Network n = regulated(60.0 * psi, 30.0 * psi, 1);
  const Correction one{0, [wanted](const Solution&, double present) { return wanted(present); }};
  return solve_corrected(n, {}, {one});
}

TEST(Corrected, ACorrectionThatIsNoNumberIsNoAnswer) {
  for (const double none : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const CorrectedSolution s = none > 0.0
                                    ? corrected_by([](double) { return std::numeric_limits<double>::infinity(); })
                                    : corrected_by([](double) { return std::numeric_limits<double>::quiet_NaN(); });
    EXPECT_FALSE(s.usable());
    EXPECT_NE(s.solution.message.find("not a finite number"), std::string::npos) << s.solution.message;
  }
}

// A secant from 0 and 500 Pa leaps to 10.3 kPa, where the correction is no number; from the best round so far, halved
// steps of Newton's method find the 5 kPa at which it is what it should be.
TEST(Corrected, ALeapBeyondWhatCanBeIsTakenBack) {
  const CorrectedSolution s = corrected_by([](double d) {
    if (d > 8000.0) return std::numeric_limits<double>::quiet_NaN();
    return d + (d <= 600.0 ? 500.0 - 0.02 * d : 488.0 * (5000.0 - d) / 4400.0);
  });
  EXPECT_TRUE(s.usable()) << s.solution.message;
  EXPECT_NEAR(s.drops.at(0), 5000.0, 0.01);
}

TEST(Corrected, WithoutAWayOnItSaysThatItDidNotSettle) {
  const CorrectedSolution s = corrected_by(
      [](double d) { return d > 500.0 ? std::numeric_limits<double>::quiet_NaN() : d + 500.0 - 0.02 * d; });
  EXPECT_FALSE(s.usable());
  EXPECT_NE(s.solution.message.find("did not settle"), std::string::npos) << s.solution.message;
  EXPECT_TRUE(s.solution.usable()) << "the last answer without it is kept: " << s.solution.message;
}

TEST(Corrected, WrongPartsAreRefused) {
  const Network n = regulated(60.0 * psi, 30.0 * psi, 1);
  EXPECT_THROW((void)regulation(n, n.find_part("orifice row 1")), InputError);
  const Correction nowhere{99, [](const Solution&, double) { return 0.0; }};
  EXPECT_THROW((void)solve_corrected(n, {}, {nowhere}), InputError);
}

}  // namespace corrected_test
}  // namespace libflow
