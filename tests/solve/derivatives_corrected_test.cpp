// SPDX-License-Identifier: MIT
/// @file
/// Derivatives where pressures are held or answer to flows elsewhere: set points, tank levels, tees.
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/solve/derivatives.hpp>
#include <libflow/solve/tees.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/exact_derivatives.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace derivatives_corrected_test {

using namespace units;

/// supply - regulator - hose - bar of ports with tees, each with hose, check valve and orifice.
struct CorrectedBar {
  int rows = 3;
  Pressure supply = 60.0 * psi, set = 30.0 * psi;
  Pressure crack_of_row_2 = 1.0 * psi;
  bool fed_at_both_ends = false;
  Length port_bore = 16.0 * mm;

  [[nodiscard]] Network build() const {
    Network n;
    n.add_supply("supply", supply, 0.3 * m);
    n.add_place("held");
    n.add_part("regulator", "supply", "held", PressureRegulator::rated(set, 5.0 * gpm, 2.0 * psi));
    std::string before = "held";
    for (int r = 1; r <= rows; ++r) {
      const std::string row = fmt::format("row {}", r), port = fmt::format("port {}", r);
      n.add_place(port, 0.1 * m);
      n.add_part(port + " bar", before, port, Hose{.length = 0.5 * m, .bore = port_bore});
      n.add_place(row + " end");
      n.add_place(row + " behind");
      n.add_air(row, 0.02 * r * m);
      n.add_part(row + " hose", port, row + " end", Hose{.length = (0.5 + 0.3 * r) * m, .bore = 8.0 * mm});
      n.add_part(row + " valve", row + " end", row + " behind",
                 CheckValve{.crack = r == 2 ? crack_of_row_2 : 1.0 * psi, .passage_bore = 4.0 * mm});
      n.add_part(row + " orifice", row + " behind", row, Orifice{.bore = (2.4 + 0.1 * r) * mm});
      before = port;
    }
    if (fed_at_both_ends) n.add_part("far bar", "held", before, Hose{.length = 1.5 * m, .bore = port_bore});
    return n;
  }
  [[nodiscard]] std::vector<TeeAt> tees(const Network& n) const {
    std::vector<TeeAt> all;
    for (int r = 1; r <= rows; ++r) {
      const std::string port = fmt::format("port {}", r);
      TeeAt at{.place = n.find_place(port),
               .left = n.find_part(port + " bar"),
               .branches = {n.find_part(fmt::format("row {} hose", r))}};
      if (r < rows) at.right = n.find_part(fmt::format("port {} bar", r + 1));
      if (r == rows && fed_at_both_ends) at.right = n.find_part("far bar");
      all.push_back(with_bores_of_parts(n, at));
    }
    return all;
  }
};

Solution corrected_solution(const Network& n, const LiquidState& liquid, const std::vector<TeeAt>& tees = {}) {
  std::vector<Correction> corrections = tee_corrections(n, tees, liquid.density);
  for (Correction& c : regulations(n)) corrections.push_back(std::move(c));
  CorrectedSolution s = solve_corrected(n, liquid, corrections, {}, {.tolerance = 1e-12, .max_rounds = 1000});
  EXPECT_TRUE(s.usable()) << s.solution.message;
  return s.solution;
}

std::size_t corrected_input(const Network& n, const Derivatives& d, const std::string& name) {
  for (std::size_t k = 0; k < d.inputs().size(); ++k) {
    if (name_of(n, d.inputs()[k]) == name) return k;
  }
  ADD_FAILURE() << "no input " << name;
  return 0;
}

TEST(DerivativesCorrected, ThrottlingRegulatorsAreExact) {
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    const Network n = CorrectedBar{}.build();
    const Solution s = corrected_solution(n, liquid);
    test::expect_exact_derivatives(n, liquid, s);
    // It holds: what is behind it answers to its set pressure alone, not to the pressure before it.
    Derivatives d(n, liquid, s);
    const auto held = d.of_pressure(n.find_place("held"));
    EXPECT_NEAR(held[corrected_input(n, d, "regulator, set")], 1.0, 1e-12);
    EXPECT_NEAR(held[corrected_input(n, d, "supply, pressure")], 0.0, 1e-12);
  }
}

TEST(DerivativesCorrected, RegulatorsAreExactBesideAShutRowWideOpenAndInSeries) {
  CorrectedBar shut;
  shut.crack_of_row_2 = 80.0 * psi;
  Network n = shut.build();
  test::expect_exact_derivatives(n, test::water(), corrected_solution(n, test::water()));
  CorrectedBar low;
  low.supply = 20.0 * psi;
  n = low.build();
  const Solution open = corrected_solution(n, test::water());
  test::expect_exact_derivatives(n, test::water(), open);
  Derivatives d(n, test::water(), open);
  EXPECT_EQ(d.by(corrected_input(n, d, "regulator, set")).flow[0], 0.0);
  Network series;
  series.add_supply("supply", 90.0 * psi);
  series.add_place("first");
  series.add_place("second", 0.4 * m);
  series.add_air("row", 0.1 * m);
  series.add_air("side");
  series.add_part("one", "supply", "first", PressureRegulator::rated(60.0 * psi, 5.0 * gpm, 2.0 * psi));
  series.add_part("two", "first", "second", PressureRegulator::rated(30.0 * psi, 5.0 * gpm, 2.0 * psi));
  series.add_part("orifice", "second", "row", Orifice{.bore = 1.5 * mm});
  series.add_part("other", "first", "side", Orifice{.bore = 1.2 * mm});
  test::expect_exact_derivatives(series, test::water(), corrected_solution(series, test::water()));
}

// Wide open, and what is left behind it is just its set pressure: less supply leaves it so, more makes it hold.
TEST(DerivativesCorrected, ARegulatorAboutToThrottleIsFlagged) {
  CorrectedBar bar;
  bar.supply = 20.0 * psi;
  Network n = bar.build();
  const Solution s = corrected_solution(n, test::water());
  const auto regulator = n.find_part("regulator");
  const auto held = n.find_place("held");
  n.replace_part(regulator, n.part(regulator).part.with_input(PressureRegulator::set_input,
                                                              s.places[held].total_pressure, "regulator"));
  Derivatives shut(n, test::water(), s), open(n, test::water(), s, AtCrack::open);
  EXPECT_EQ(shut.at_crack(), std::vector<Network::PartIndex>{regulator});
  EXPECT_EQ(open.at_crack(), std::vector<Network::PartIndex>{regulator});
  const auto set = corrected_input(n, shut, "regulator, set");
  EXPECT_NEAR(shut.of_pressure(held)[set], 1.0, 1e-12);
  EXPECT_EQ(open.of_pressure(held)[set], 0.0);
}

TEST(DerivativesCorrected, TankLevelsAndReliefSetPointsAreExact) {
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    Network n;
    const Tank tank{.shape = UprightTank::round(1.2 * m, 1.5 * m), .outlet_level = 0.1 * m, .lowest_level = 0.1 * m};
    add_tank(n, "left", tank, 1.1 * m, liquid, 0.5 * m);
    add_tank(n, "right", tank, 0.7 * m, liquid, 0.6 * m);
    n.add_place("suction");
    n.add_place("bar", 0.2 * m);
    n.add_air("row");
    n.add_part("left hose", "left", "suction", Hose{.length = 3.0 * m, .bore = 25.0 * mm});
    n.add_part("right hose", "right", "suction", Hose{.length = 4.0 * m, .bore = 25.0 * mm});
    n.add_part("pump", "suction", "bar", CentrifugalPump{.shutoff = 40.0 * psi, .free_flow = 20.0 * gpm});
    n.add_part("row orifice", "bar", "row", Orifice{.bore = 4.0 * mm});
    n.add_part("relief", "bar", "suction", ReliefValve::rated(15.0 * psi, 5.0 * gpm, 3.0 * psi));
    const Solution s = corrected_solution(n, liquid);
    ASSERT_GT(s.parts[n.find_part("relief")].flow, 0.0);
    test::expect_exact_derivatives(n, liquid, s);
    Derivatives d(n, liquid, s);
    EXPECT_GT(d.of_flow(n.find_part("row orifice"))[corrected_input(n, d, "left, level")], 0.0);
    EXPECT_EQ(unit_of(n, d.inputs()[corrected_input(n, d, "left, level")]), "m");
    EXPECT_EQ(value_of(n, liquid, d.inputs()[corrected_input(n, d, "left, level")]), 1.1);
  }
  // A pressure given by hand is no level's.
  Network n;
  const auto place = add_tank(n, "tank", {.shape = UprightTank::round(1.2 * m, 1.5 * m)}, 0.5 * m, test::water());
  ASSERT_EQ(inputs_of(n).size(), 5U);
  n.set_supply_pressure(place, 1.0 * psi);
  EXPECT_EQ(inputs_of(n).size(), 4U);
}

// All four ways a tee flows, with and without a regulator that throttles, and beside a shut row.
TEST(DerivativesCorrected, TeesAreExact) {
  for (const double supply : {20.0, 60.0}) {
    CorrectedBar bar;
    bar.supply = supply * psi;
    const Network n = bar.build();
    const auto tees = bar.tees(n);
    const Solution s = corrected_solution(n, test::water(), tees);
    EXPECT_EQ(tee_result(n, tees[0], s, test::water().density).state, TeeState::dividing);
    test::expect_exact_derivatives(n, test::water(), s, tees);
  }
  CorrectedBar shut;
  shut.crack_of_row_2 = 80.0 * psi;
  Network n = shut.build();
  test::expect_exact_derivatives(n, test::water(), corrected_solution(n, test::water(), shut.tees(n)), shut.tees(n));
  CorrectedBar both;
  both.fed_at_both_ends = true;
  n = both.build();
  const auto tees = both.tees(n);
  const Solution s = corrected_solution(n, test::water(), tees);
  std::size_t meeting = 0;
  for (const TeeAt& at : tees) meeting += tee_result(n, at, s, 1000.0).state == TeeState::meeting ? 1U : 0U;
  EXPECT_EQ(meeting, 1U);
  test::expect_exact_derivatives(n, test::water(), s, tees);
}

TEST(DerivativesCorrected, CombiningAndPartingTeesAreExact) {
  for (const bool parts : {false, true}) {
    Network n;
    n.add_supply("one", (parts ? 0.5 : 20.0) * psi);
    n.add_supply("two", (parts ? 20.0 : 19.8) * psi, 0.1 * m);
    n.add_place("tee", 0.2 * m);
    n.add_place("nozzle");
    n.add_air("out");
    n.add_part("run in", "one", "tee", Hose{.length = 2.0 * m, .bore = 20.0 * mm});
    n.add_part("branch", "tee", "two", Hose{.length = 1.5 * m, .bore = 16.0 * mm});
    n.add_part("run out", "tee", "nozzle", Hose{.length = 1.0 * m, .bore = 20.0 * mm});
    n.add_part("orifice", "nozzle", "out", Orifice{.bore = 10.0 * mm});
    const std::vector<TeeAt> tees{with_bores_of_parts(n, {.place = n.find_place("tee"),
                                                          .left = n.find_part("run in"),
                                                          .right = n.find_part("run out"),
                                                          .branches = {n.find_part("branch")}})};
    const Solution s = corrected_solution(n, test::water(), tees);
    EXPECT_EQ(tee_result(n, tees[0], s, 1000.0).state, parts ? TeeState::parting : TeeState::combining);
    test::expect_exact_derivatives(n, test::water(), s, tees);
  }
}

// What a tee takes is proportional to its factor, and at none of it the answer is that without the tee.
TEST(DerivativesCorrected, ATeesOwnInputsAreListed) {
  CorrectedBar bar;
  const Network n = bar.build();
  auto tees = bar.tees(n);
  const Solution s = corrected_solution(n, test::water(), tees);
  Derivatives d(n, test::water(), s, AtCrack::shut, tees);
  const auto factor = corrected_input(n, d, "port 2 tee, factor");
  EXPECT_EQ(unit_of(n, d.inputs()[factor]), "");
  EXPECT_EQ(unit_of(n, d.inputs()[corrected_input(n, d, "port 2 tee, run bore")]), "m");
  EXPECT_EQ(value_of(n, test::water(), d.inputs()[corrected_input(n, d, "port 2 tee, branch bore")], tees), 0.008);
  EXPECT_EQ(value_of(n, test::water(), d.inputs()[factor], tees), 1.0);
  const auto row = d.of_flow(n.find_part("row 2 orifice"));
  EXPECT_LT(row[factor], 0.0);
  for (TeeAt& at : tees) at.tee.factor = 0.0;
  const Solution without = corrected_solution(n, test::water()), none = corrected_solution(n, test::water(), tees);
  for (std::size_t e = 0; e < n.part_count(); ++e) {
    EXPECT_NEAR(none.parts[e].flow, without.parts[e].flow, 1e-12 * without.parts[0].flow);
  }
  test::expect_exact_derivatives(n, test::water(), none, tees);
}

TEST(DerivativesCorrected, OtherCorrectionsAreRefused) {
  CorrectedBar bar;
  const Network n = bar.build();
  const auto tees = bar.tees(n);
  const Solution with = corrected_solution(n, test::water(), tees), without = corrected_solution(n, test::water());
  test::expect_message([&] { Derivatives(n, test::water(), with); }, "has corrections");
  test::expect_message([&] { Derivatives(n, test::water(), without, AtCrack::shut, tees); }, "has corrections");
  Derivatives d(n, test::water(), without);
  std::vector<double> few(3);
  test::expect_refused([&] { d.of_flow(FlowSum{{0, 1.0}}, few); }, "derivatives, gradient");
}

}  // namespace derivatives_corrected_test
}  // namespace libflow
