// SPDX-License-Identifier: MIT
/// @file
/// Where derivatives have a corner, where they are refused, and what they are 0 of: each limit just inside and just
/// outside, on answers moved by hand.
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/solve/derivatives.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/exact_derivatives.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace derivatives_corners_test {

using namespace units;
using Parts = std::vector<Network::PartIndex>;

const LiquidState water = test::water();
const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};

// A shut valve whose drop is its threshold to a thousand-millionth of the largest drop stands at a corner; further off
// it is shut (below) or should be open (above, which is no answer); where shut parts cut an end off it has none.
TEST(DerivativesCorners, AValveCountsAsAtItsCrackToAThousandMillionthOfTheLargestDrop) {
  Network n;
  n.add_supply("supply", 4.0 * psi);
  n.add_place("behind");
  n.add_air("out");
  n.add_air("below", -10.0 * m);
  n.add_part("valve", "supply", "behind", CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm});
  n.add_part("orifice", "behind", "out", Orifice{.bore = 1.2 * mm});
  n.add_part("fall", "supply", "below", hose);
  const Solution s = solve(n, water);
  ASSERT_EQ(s.parts[0].flow, 0.0);
  const double largest = s.parts[2].drop;  // some 125 kPa, where the valve holds back 28
  ASSERT_GT(largest, 4.0 * s.parts[0].drop);
  for (const double off : {0.99, 1.01, -0.99, -1.01}) {
    Solution moved = s;
    moved.parts[0].drop = si(4.0 * psi) + off * 1e-9 * largest;
    EXPECT_EQ(Derivatives(n, water, moved).at_crack(), std::abs(off) < 1.0 ? Parts{0} : Parts{}) << off;
  }
  for (const std::size_t place : {0u, 1u}) {
    Solution moved = s;
    moved.places[place].determined = false;
    EXPECT_EQ(Derivatives(n, water, moved).at_crack(), Parts{}) << place;
  }
}

// A millionth of the largest drop more or less than its law says is rounding, be it this part's or another's.
TEST(DerivativesCorners, ADropBesideItsLawIsRefusedFromAMillionthOfTheLargestOn) {
  Network n;
  n.add_supply("supply", 50.0 * kPa);
  n.add_place("middle");
  n.add_air("out");
  n.add_part("hose", "supply", "middle", hose);
  n.add_part("orifice", "middle", "out", Orifice{.bore = 1.2 * mm});
  const Solution s = solve(n, water);
  const double largest = std::max(s.parts[0].drop, s.parts[1].drop);
  for (const std::size_t part : {0u, 1u}) {
    for (const double off : {0.99, -0.99, 1.01, -1.01}) {
      Solution moved = s;
      moved.parts[part].drop += off * 1e-6 * largest;
      const auto derive = [&] { (void)Derivatives(n, water, moved); };
      if (std::abs(off) < 1.0) {
        EXPECT_NO_THROW(derive()) << part << " " << off;
      } else {
        test::expect_message(derive, fmt::format("the drop of '{}' is not that of its law", n.part(part).id));
      }
    }
  }
}

/// supply - regulator - held - orifice - air, the regulator set to what it lets through wide open.
struct JustHeld {
  Network network;
  Solution solution;
  double largest = 0;

  JustHeld() {
    network.add_supply("supply", 30.0 * psi);
    network.add_place("held");
    network.add_air("air");
    network.add_part("regulator", "supply", "held", PressureRegulator::rated(10.0 * psi, 1.0 * gpm, 10.0 * psi));
    network.add_part("orifice", "held", "air", Orifice{.bore = 2.0 * mm});
    solution = solve(network, water);
    for (const PartResult& p : solution.parts) largest = std::max(largest, p.drop);
    network.replace_part(0, network.part(0).part.with_input(PressureRegulator::set_input,
                                                            solution.places[1].total_pressure, "regulator"));
  }
};

// What it throttles, in thousand-millionths of the largest drop: nothing (a corner), something (it holds), or less than
// nothing, which no regulator does.
TEST(DerivativesCorners, ARegulatorThatJustHolds) {
  const JustHeld just;
  struct Row {
    double off;
    bool corner, refused;
  };
  for (const Row& r : {Row{0.0, true, false}, Row{0.99, true, false}, Row{1.01, false, false}, Row{1e6, false, false},
                       Row{-990.0, true, false}, Row{-1010.0, false, true}}) {
    Solution moved = just.solution;
    moved.parts[0].drop += r.off * 1e-9 * just.largest;
    if (r.refused) {
      test::expect_message([&] { (void)Derivatives(just.network, water, moved); }, "the drop of 'regulator'");
      continue;
    }
    Derivatives d(just.network, water, moved);
    EXPECT_EQ(d.at_crack(), r.corner ? Parts{0} : Parts{}) << r.off;
    // It holds: what is behind it answers to its set pressure alone.
    const std::vector<double> held = d.of_pressure(1);
    for (std::size_t k = 0; k < held.size(); ++k) {
      const std::string name = name_of(just.network, d.inputs()[k]);
      if (name == "regulator, set") {
        EXPECT_NEAR(held[k], 1.0, 1e-12) << r.off;
      }
      if (name == "supply, pressure") {
        EXPECT_NEAR(held[k], 0.0, 1e-12) << r.off;
      }
    }
  }
}

// It holds where the pressure behind it is its set one to a millionth of the largest drop; else its drop is no law's.
TEST(DerivativesCorners, ARegulatorHoldsToAMillionthOfTheLargestDrop) {
  JustHeld just;
  just.solution.parts[0].drop += 0.1 * just.largest;  // it throttles
  for (const double off : {0.99, -0.99, 1.01, -1.01}) {
    Solution moved = just.solution;
    moved.places[1].total_pressure += off * 1e-6 * std::max(just.largest, moved.parts[0].drop);
    const auto derive = [&] { (void)Derivatives(just.network, water, moved); };
    if (std::abs(off) < 1.0) {
      EXPECT_NO_THROW(derive()) << off;
    } else {
      test::expect_message(derive, "the drop of 'regulator'");
    }
  }
}

// Two regulators side by side that hold the same place: how they share its flow nothing decides.
TEST(DerivativesCorners, TwoRegulatorsOfOnePlaceDecideNothing) {
  Network n;
  n.add_supply("supply", 60.0 * psi);
  n.add_place("bar");
  n.add_air("row");
  n.add_part("one", "supply", "bar", PressureRegulator::rated(30.0 * psi, 5.0 * gpm, 2.0 * psi));
  n.add_part("two", "supply", "bar", PressureRegulator::rated(30.0 * psi, 5.0 * gpm, 2.0 * psi));
  n.add_part("orifice", "bar", "row", Orifice{.bore = 2.0 * mm});
  const CorrectedSolution s = solve_corrected(n, water, regulations(n), {}, {.tolerance = 1e-12, .max_rounds = 1000});
  ASSERT_TRUE(s.usable()) << s.solution.message;
  EXPECT_NEAR(s.solution.places[1].total_pressure / si(30.0 * psi), 1.0, 1e-9);
  test::expect_message([&] { (void)Derivatives(n, water, s.solution); },
                       "derivatives: the losses of tees or the regulators do not decide one answer here; allowed: "
                       "plumbing in which each regulator's flow can pass");
}

/// A square law alone: no slope where it carries nothing. No lawful part.
struct Square {
  static constexpr std::string_view kind = "square";
  static constexpr Contract contract = Contract::passage;
  void check(std::string_view /*where*/) const {}
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.quadratic = 1e12;
    return law;
  }
};
/// A newcomer's tap that is shut, without a list of inputs.
struct ShutTap {
  static constexpr std::string_view kind = "shut tap";
  static constexpr Contract contract = Contract::passage;
  void check(std::string_view /*where*/) const {}
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.linear = 1e9;
    law.passes = Passes::neither;
    return law;
  }
  [[nodiscard]] static Passes passes() { return Passes::neither; }
};

TEST(DerivativesCorners, APartWithoutASlopeIsRefusedByName) {
  Network n;
  n.add_supply("supply", 0.0 * kPa);
  n.add_air("out");
  n.add_part("odd one", "supply", "out", Square{});
  Solution s;  // nothing moves
  s.status = Status::converged;
  s.parts.resize(1);
  s.places.resize(2);
  test::expect_message([&] { (void)Derivatives(n, water, s); },
                       "derivatives: 'odd one' has no slope at its flow; allowed: a lawful part");
}

// Shut both ways, a tap takes part in nothing: the rest answers as without it, and nothing of it is unknown.
TEST(DerivativesCorners, BesideATapThatIsShut) {
  Network n;
  n.add_supply("supply", 50.0 * kPa);
  n.add_place("tee");
  n.add_air("row");
  n.add_place("pocket");
  n.add_air("end");
  n.add_part("feed", "supply", "tee", hose);
  n.add_part("orifice", "tee", "row", Orifice{.bore = 1.2 * mm});
  n.add_part("tap", "tee", "pocket", Valve{.kv = 4.0 * gpm, .bore = 19.0 * mm, .open = 0.0});
  n.add_part("rest", "pocket", "end", hose);
  const Solution s = solve(n, water);
  ASSERT_TRUE(s.usable()) << s.message;
  test::expect_exact_derivatives(n, water, s);
  n.add_part("newcomer", "tee", "pocket", ShutTap{});
  const Solution both = solve(n, water);
  ASSERT_TRUE(both.usable()) << both.message;
  Derivatives d(n, water, both);
  EXPECT_TRUE(d.unlisted().empty());
  for (const Network::PartIndex shut : {2u, 4u}) {
    for (const double x : d.of_flow(shut)) EXPECT_EQ(x, 0.0);
    for (std::size_t k = 0; k < d.inputs().size(); ++k) EXPECT_EQ(d.by(k).flow[shut], 0.0);
  }
}

// A pocket's pressure is not unique, so it moves with nothing; the pressures of the others do.
TEST(DerivativesCorners, ThePressureOfAPocketMovesWithNothing) {
  Network n;
  n.add_supply("supply", 50.0 * kPa, 1.0 * m);
  n.add_place("pocket", 0.5 * m);
  n.add_air("out", 0.25 * m);
  n.add_part("hose", "supply", "out", hose);
  n.add_part("valve", "supply", "pocket", CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, water);
  ASSERT_FALSE(s.places[1].determined);
  Derivatives d(n, water, s);
  for (std::size_t k = 0; k < d.inputs().size(); ++k) {
    const Derivatives::Change change = d.by(k);
    EXPECT_EQ(change.pressure[1], 0.0) << name_of(n, d.inputs()[k]);
    EXPECT_NEAR(change.pressure[0], name_of(n, d.inputs()[k]) == "supply, pressure" ? 1.0 : 0.0, 1e-12);
  }
}

TEST(DerivativesCorners, InputsInTheirOrderWithTheirNumbers) {
  Network n;
  const Tank tank{.shape = UprightTank::round(1.2 * m, 1.5 * m), .outlet_level = 0.1 * m, .lowest_level = 0.1 * m};
  add_tank(n, "tank", tank, 1.1 * m, water, 0.5 * m);
  n.add_place("tee", 0.25 * m);
  n.add_drawn("tap", 0.3 * L_per_min, 0.125 * m);
  n.add_fed("pump", 0.6 * L_per_min, -0.5 * m);
  n.add_air("row", 2.0 * m);
  n.add_part("hose", "tank", "tee", Hose{.length = 2.0 * m, .bore = 6.0 * mm, .roughness = 0.01 * mm});
  n.add_part("spur", "tee", "tap", Orifice{.bore = 2.0 * mm});
  const std::vector<TeeAt> tees{{.tee = {.run_bore = 6.0 * mm, .branch_bore = 5.0 * mm, .factor = 1.5}, .place = 1}};
  const std::vector<NetworkInput> inputs = inputs_of(n, tees);
  // Parts first, part by part; then the liquid; then place by place; then the tees.
  using Kind = NetworkInput::Kind;
  std::size_t at = 0;
  for (std::size_t e = 0; e < n.part_count(); ++e) {
    for (std::size_t k = 0; k < n.part(e).part.input_count(); ++k) {
      if (!n.part(e).part.input(k).value) continue;
      EXPECT_EQ(inputs.at(at), (NetworkInput{Kind::part, e, k})) << at;
      ++at;
    }
  }
  EXPECT_EQ(at, inputs.size() - 11U - input_count<Tee>);
  struct Said {
    NetworkInput input;
    std::string name, unit;
    double value;
  };
  const Said said[] = {{{Kind::density}, "liquid, density", "kg/m3", 998.21},
                       {{Kind::viscosity}, "liquid, viscosity", "Pa s", 1.0016e-3},
                       {{Kind::supply_pressure, 0}, "tank, pressure", "Pa", 998.21 * standard_gravity * 1.0},
                       {{Kind::tank_level, 0}, "tank, level", "m", 1.1},
                       {{Kind::elevation, 0}, "tank, elevation", "m", 0.6},
                       {{Kind::elevation, 1}, "tee, elevation", "m", 0.25},
                       {{Kind::given_flow, 2}, "tap, flow", "m3/s", 0.3e-3 / 60.0},
                       {{Kind::elevation, 2}, "tap, elevation", "m", 0.125},
                       {{Kind::given_flow, 3}, "pump, flow", "m3/s", 0.6e-3 / 60.0},
                       {{Kind::elevation, 3}, "pump, elevation", "m", -0.5},
                       {{Kind::elevation, 4}, "row, elevation", "m", 2.0}};
  for (const Said& x : said) {
    EXPECT_EQ(inputs.at(at), x.input) << x.name;
    EXPECT_EQ(name_of(n, inputs.at(at)), x.name);
    EXPECT_EQ(unit_of(n, inputs.at(at)), x.unit) << x.name;
    EXPECT_NEAR(value_of(n, water, inputs.at(at), tees), x.value, 1e-12 * std::abs(x.value)) << x.name;
    ++at;
  }
  const std::string of_tee[] = {"tee tee, run bore", "tee tee, branch bore", "tee tee, parting", "tee tee, factor"};
  const double sizes[] = {6e-3, 5e-3, tees[0].tee.parting, 1.5};
  for (std::size_t k = 0; k < input_count<Tee>; ++k) {
    EXPECT_EQ(inputs.at(at), (NetworkInput{Kind::tee, 1, k}));
    EXPECT_EQ(name_of(n, inputs.at(at)), of_tee[k]);
    EXPECT_EQ(unit_of(n, inputs.at(at)), k < 2 ? "m" : "");
    EXPECT_EQ(value_of(n, water, inputs.at(at), tees), sizes[k]);
    ++at;
  }
  EXPECT_EQ(at, inputs.size());
}

TEST(DerivativesCorners, AnInputIsItsKindItsPlaceAndItsField) {
  const NetworkInput one{NetworkInput::Kind::part, 1, 2};
  EXPECT_EQ(one, (NetworkInput{NetworkInput::Kind::part, 1, 2}));
  EXPECT_NE(one, (NetworkInput{NetworkInput::Kind::tee, 1, 2}));
  EXPECT_NE(one, (NetworkInput{NetworkInput::Kind::part, 2, 2}));
  EXPECT_NE(one, (NetworkInput{NetworkInput::Kind::part, 1, 1}));
}

// Of what is not there the value is 0: a level of a supply without a tank, a diameter of a straight hose, an input of a
// tee that is not given.
TEST(DerivativesCorners, ValuesOfWhatIsNotThereAreZero) {
  Network n;
  n.add_supply("supply", 1.0 * kPa);
  n.add_place("tee");
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::tank_level, 0}), 0.0);
  n.add_part("hose", "supply", "tee", hose);  // straight: its coil's diameter is not given
  ASSERT_EQ(name_of(n, {NetworkInput::Kind::part, 0, 3}), "hose, coil diameter");
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::part, 0, 3}), 0.0);
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::part, 0, 0}), 2.0);
  const std::vector<TeeAt> tees{{.tee = {.run_bore = 6.0 * mm}, .place = 1}};
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::tee, 1, 0}), 0.0);
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::tee, 0, 0}, tees), 0.0);
  EXPECT_EQ(value_of(n, water, {NetworkInput::Kind::tee, 1, 0}, tees), 6e-3);
}

}  // namespace derivatives_corners_test
}  // namespace libflow
