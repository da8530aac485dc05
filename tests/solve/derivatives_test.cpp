// SPDX-License-Identifier: MIT
/// @file
/// Derivatives of flows and pressures against 50-digit differences, beside shut valves and through the transition;
/// adjoint against forward; what happens exactly at a crack pressure.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/solve/corrected.hpp>
#include <libflow/solve/derivatives.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/exact_derivatives.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace derivatives_test {

using namespace units;

/// A bar: ports along a manifold, each with hose, check valve and orifice, outlets at different heights.
struct DerivativesBar {
  int rows = 5;
  Length hose_bore = 6.35 * mm;
  Pressure crack = 0.5 * psi;
  double row_3_crack = 1.0;  ///< times the others'
  Flow flow = 1.2 * gpm;
  bool held = false;
  Pressure pressure = 20.0 * psi;

  [[nodiscard]] Network build() const {
    Network n;
    if (held) {
      n.add_supply("supply", pressure, 0.5 * m);
    } else {
      n.add_fed("supply", flow, 0.5 * m);
    }
    std::string before = "supply";
    for (int r = 1; r <= rows; ++r) {
      const std::string row = fmt::format("row {}", r), port = fmt::format("port {}", r);
      n.add_place(port, 0.5 * m);
      n.add_part(port + " bar", before, port, Hose{.length = 0.4 * m, .bore = 12.0 * mm, .roughness = 0.05 * mm});
      const Length z = 0.05 * r * m;
      n.add_place(row + " end", z);
      n.add_place(row + " behind", z);
      n.add_air(row, z);
      n.add_part(row + " hose", port, row + " end", Hose{.length = (1.0 + 0.7 * r) * m, .bore = hose_bore});
      n.add_part(row + " valve", row + " end", row + " behind",
                 CheckValve{.crack = (r == 3 ? row_3_crack : 1.0) * crack, .passage_bore = 3.0 * mm});
      n.add_part(row + " orifice", row + " behind", row, Orifice{.bore = (1.4 + 0.02 * r) * mm, .thickness = 1.0 * mm});
      before = port;
    }
    return n;
  }
};

/// Every derivative of every flow and of every pressure, adjoint and forward.
void derivatives_expect_exact(const Network& network, const LiquidState& liquid) {
  const Solution s = solve(network, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  test::expect_exact_derivatives(network, liquid, s);
}

std::size_t derivatives_count(const Solution& s, Regime regime) {
  return static_cast<std::size_t>(
      std::count_if(s.parts.begin(), s.parts.end(), [&](const PartResult& p) { return p.regime == regime; }));
}

TEST(Derivatives, AreExactInThickAndThinLiquids) {
  derivatives_expect_exact(DerivativesBar{}.build(), test::thick());
  derivatives_expect_exact(DerivativesBar{}.build(), test::water());
  DerivativesBar held;
  held.held = true;
  derivatives_expect_exact(held.build(), test::water());
}

// Flows from laminar to turbulent in small steps: bars, hoses and transitions at every stage of the band.
TEST(Derivatives, AreExactThroughTheTransition) {
  std::size_t between = 0;
  for (const double gallons : {0.5, 0.8, 1.1, 1.5}) {
    DerivativesBar bar;
    bar.rows = 3;
    bar.flow = gallons * gpm;
    const Network n = bar.build();
    between += derivatives_count(solve(n, test::water()), Regime::transition);
    derivatives_expect_exact(n, test::water());
  }
  EXPECT_GT(between, 5U);
}

TEST(Derivatives, AreExactBesideShutValves) {
  DerivativesBar bar;
  bar.row_3_crack = 200.0;
  const Network n = bar.build();
  const Solution s = solve(n, test::water());
  const auto valve = n.find_part("row 3 valve"), hose = n.find_part("row 3 hose");
  ASSERT_EQ(s.parts[valve].valve, ValveState::closed);
  derivatives_expect_exact(n, test::water());
  Derivatives d(n, test::water(), s);
  for (const double x : d.of_flow(valve)) EXPECT_EQ(x, 0.0);
  for (std::size_t k = 0; k < d.inputs().size(); ++k) {
    if (d.inputs()[k].kind == NetworkInput::Kind::part && d.inputs()[k].index == hose) {
      for (const double x : d.by(k).flow) EXPECT_EQ(x, 0.0);
    }
  }
}

TEST(Derivatives, AreExactWithLoopsPumpsDrawnFlowsAndAnOpenValve) {
  Network n;
  n.add_supply("tank", 0.2 * psi, 1.0 * m);
  n.add_place("a", 0.2 * m);
  n.add_place("b");
  n.add_drawn("c", 0.3 * gpm, 0.1 * m);
  n.add_air("out", 0.4 * m);
  n.add_part("pump", "tank", "a", CentrifugalPump{.shutoff = 30.0 * psi, .free_flow = 12.0 * gpm, .speed = 0.9});
  n.add_part("ab", "a", "b", Hose{.length = 3.0 * m, .bore = 10.0 * mm});
  n.add_part("ac", "a", "c", Hose{.length = 5.0 * m, .bore = 8.0 * mm, .coil_diameter = 0.4 * m});
  n.add_part("bc", "c", "b", Fitting::elbow_90(8.0 * mm));
  n.add_part("valve", "b", "out", Valve{.kv = 4.0 * gpm, .bore = 19.0 * mm, .open = 0.5});
  n.add_part("orifice", "c", "out", Orifice{.bore = 2.0 * mm, .discharge_coefficient = 0.65});
  derivatives_expect_exact(n, test::water());
  derivatives_expect_exact(n, test::thick());
}

// Valve and orifice from a held supply, the pressure exactly the crack pressure: shut one side, open the other, where
// the flow answers as the creeping resistance of both holes says.
TEST(Derivatives, ExactlyAtTheCrackAreOneSidedAndFlagged) {
  Network n;
  n.add_supply("supply", 4.0 * psi);
  n.add_place("behind");
  n.add_air("out");
  const CheckValve valve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm};
  const Orifice orifice{.bore = 1.2 * mm};
  const auto v = n.add_part("valve", "supply", "behind", valve);
  n.add_part("orifice", "behind", "out", orifice);
  const LiquidState liquid = test::water();
  const Solution s = solve(n, liquid);
  ASSERT_EQ(s.parts[v].flow, 0.0);
  const auto pressure = [](const Derivatives& d) {
    for (std::size_t k = 0; k < d.inputs().size(); ++k) {
      if (d.inputs()[k].kind == NetworkInput::Kind::supply_pressure) return k;
    }
    return d.inputs().size();
  };
  Derivatives shut(n, liquid, s), open(n, liquid, s, AtCrack::open);
  EXPECT_EQ(shut.at_crack(), std::vector<Network::PartIndex>{v});
  EXPECT_EQ(open.at_crack(), std::vector<Network::PartIndex>{v});
  EXPECT_EQ(shut.of_flow(v)[pressure(shut)], 0.0);
  const double resistance = valve.law(liquid)(0.0).slope + orifice.law(liquid)(0.0).slope;
  EXPECT_NEAR(open.of_flow(v)[pressure(open)] * resistance, 1.0, 1e-12);
  // A hair above and below it is on neither corner.
  for (const double hair : {-1e-3, 1e-3}) {
    n.set_supply_pressure(0, (4.0 + hair) * psi);
    const Solution beside = solve(n, liquid);
    EXPECT_TRUE(Derivatives(n, liquid, beside).at_crack().empty()) << hair;
  }
}

TEST(Derivatives, WhatHasNoneIsRefused) {
  DerivativesBar bar;
  const Network n = bar.build();
  EXPECT_THROW(Derivatives(n, test::water(), Solution{}), InputError);
  // Solutions of another network: with more parts, or with as many parts and more places.
  DerivativesBar longer;
  longer.rows = 6;
  EXPECT_THROW(Derivatives(n, test::water(), solve(longer.build(), test::water())), InputError);
  Network one, other;
  for (Network* net : {&one, &other}) {
    net->add_supply("supply", 1.0 * psi);
    net->add_air("out");
  }
  other.add_air("out too");
  for (Network* net : {&one, &other}) {
    for (const std::string id : {"first", "second"}) {
      net->add_part(id, "supply", net == &other && id == "second" ? "out too" : "out",
                    Hose{.length = 1.0 * m, .bore = 6.0 * mm});
    }
  }
  EXPECT_THROW(Derivatives(one, test::water(), solve(other, test::water())), InputError);
  // A pocket between two shut valves has no pressure of its own.
  Network pocket;
  pocket.add_supply("supply", 1.0 * psi);
  pocket.add_place("pocket");
  pocket.add_air("out");
  pocket.add_part("first", "supply", "pocket", CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm});
  pocket.add_part("second", "pocket", "out", CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm});
  const Solution s = solve(pocket, test::water());
  Derivatives d(pocket, test::water(), s);
  EXPECT_THROW((void)d.of_pressure(1), InputError);
  EXPECT_THROW((void)d.of_pressure(99), InputError);
  EXPECT_EQ(d.of_pressure(0)[2 + 2 * 2], 1.0);  // two valves of two inputs, density, viscosity, then the supply
  // Extra drops that no law says.
  const CorrectedSolution corrected =
      solve_corrected(n, test::water(), {{.part = 1, .drop = [](const Solution&, double) { return 500.0; }}});
  EXPECT_THROW(Derivatives(n, test::water(), corrected.solution), InputError);
}

// A part that lists no inputs takes part with its conductance; that its answer to the liquid is not known is said.
TEST(Derivatives, PartsWithoutInputsAreNamed) {
  Network n;
  n.add_supply("supply", 10.0 * psi);
  n.add_place("a");
  n.add_air("out");
  const auto stranger = n.add_part("stranger", "supply", "a", test::QuadraticPart{.k = 1e13, .linear = 1e9});
  n.add_part("hose", "a", "out", Hose{.length = 4.0 * m, .bore = 6.35 * mm});
  const LiquidState liquid = test::thick();
  const Solution s = solve(n, liquid);
  Derivatives d(n, liquid, s);
  EXPECT_EQ(d.unlisted(), std::vector<Network::PartIndex>{stranger});
  const double slope =
      n.part(0).part.law(liquid)(s.parts[0].flow).slope + n.part(1).part.law(liquid)(s.parts[1].flow).slope;
  const auto gradient = d.of_flow(stranger);
  for (std::size_t k = 0; k < gradient.size(); ++k) {
    if (d.inputs()[k].kind == NetworkInput::Kind::supply_pressure) {
      EXPECT_NEAR(gradient[k] * slope, 1.0, 1e-11);
    }
  }
}

TEST(Derivatives, EveryInputHasItsNameUnitAndPresentValue) {
  Network n;
  n.add_supply("supply", 10.0 * psi, 1.0 * m);
  n.add_place("a");
  n.add_fed("tap", 0.2 * L_per_min);
  n.add_air("out");
  n.add_part("hose", "supply", "a", Hose{.length = 4.0 * m, .bore = 6.35 * mm});
  n.add_part("spur", "tap", "a", Hose{.length = 1.0 * m, .bore = 6.35 * mm});
  n.add_part("orifice", "a", "out", Orifice{.bore = 1.4 * mm, .thickness = 1.0 * mm});
  const LiquidState liquid = test::thick();
  const Derivatives d(n, liquid, solve(n, liquid));
  struct Said {
    std::string unit;
    double value;
  };
  std::map<std::string, Said> said;
  for (const NetworkInput& input : d.inputs()) {
    said[name_of(n, input)] = {std::string(unit_of(n, input)), value_of(n, liquid, input)};
  }
  const std::map<std::string, Said> wanted{{"hose, length", {"m", 4.0}},
                                           {"orifice, bore", {"m", 1.4e-3}},
                                           {"liquid, density", {"kg/m3", liquid.density}},
                                           {"liquid, viscosity", {"Pa s", liquid.viscosity}},
                                           {"supply, pressure", {"Pa", 10.0 * 6894.757293168}},
                                           {"supply, elevation", {"m", 1.0}},
                                           {"tap, flow", {"m3/s", 0.2e-3 / 60.0}}};
  for (const auto& [name, w] : wanted) {
    ASSERT_TRUE(said.contains(name)) << name;
    EXPECT_EQ(said[name].unit, w.unit) << name;
    EXPECT_NEAR(said[name].value / w.value, 1.0, 1e-12) << name;
  }
}

TEST(Derivatives, OneObjectServesManySolutions) {
  DerivativesBar bar;
  const Network n = bar.build();
  const Solution thin = solve(n, test::water()), thick = solve(n, test::thick());
  Derivatives d(n, test::water(), thin);
  const auto first = d.of_flow(2);
  d.at(test::thick(), thick);
  EXPECT_NE(d.of_flow(2), first);
  d.at(test::water(), thin);
  EXPECT_EQ(d.of_flow(2), first);
}

}  // namespace derivatives_test
}  // namespace libflow
