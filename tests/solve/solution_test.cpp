// SPDX-License-Identifier: MIT
/// @file
/// What a solution says of each part and place, each number by hand, and which cautions come with it.
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/solve/control.hpp>
#include <libflow/solve/corrected.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace solution_test {

using namespace libflow::units;

const LiquidState water = test::water();
const double weight = water.density * standard_gravity;
const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};

/// A wide tube that tells all it is asked with.
struct Witness {
  static constexpr std::string_view kind = "witness";
  static constexpr Contract contract = Contract::passage;

  void check(std::string_view /*where*/) const {}
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.linear = 2e7;
    return law;
  }
  [[nodiscard]] Cautions cautions(const Working& w, const LiquidState& /*liquid*/) const {
    const auto told = [](double x, bool known) { return fmt::format("{:.9g} {}", x, known ? "known" : "open"); };
    return {{"first", "", told(w.from, w.from_known), w.flow, w.drop}, {"second", "", told(w.to, w.to_known)}};
  }
};

TEST(Solution, NumbersOfAPartByHand) {
  Network n;
  n.add_fed("pump", 1.0 * L_per_min, 0.5 * m);
  n.add_place("top", 2.0 * m);
  n.add_air("row", 1.0 * m);
  n.add_part("up", "pump", "top", hose);
  n.add_part("down", "row", "top", Hose{.length = 2.0 * m, .bore = 8.0 * mm});  // drawn against the flow
  const Solution s = solve(n, water);
  ASSERT_TRUE(s.usable()) << s.message;
  const double q = 1e-3 / 60.0;
  struct Row {
    double bore, flow, from, to, rise;
  };
  const double pump = s.places[0].total_pressure, top = s.places[1].total_pressure, row = s.places[2].total_pressure;
  EXPECT_EQ(row, 0.0);
  const Row rows[] = {{6e-3, q, pump, top, 1.5}, {8e-3, -q, row, top, 1.0}};
  for (std::size_t i = 0; i < 2; ++i) {
    const auto [bore, flow, from, to, rise] = rows[i];
    const PartResult& r = s.parts[i];
    const double velocity = flow / (std::numbers::pi / 4.0 * bore * bore);
    EXPECT_NEAR(r.flow, flow, 1e-17) << i;
    EXPECT_NEAR(r.velocity, velocity, 1e-12 * std::abs(velocity)) << i;
    EXPECT_NEAR(std::abs(r.reynolds), water.density * std::abs(velocity) * bore / water.viscosity, 1e-9) << i;
    EXPECT_NEAR(r.drop, from - to - weight * rise, 1e-8) << i;
    EXPECT_NEAR(r.drop, n.part(i).part.law(water)(flow).dp, 1e-8) << i;
    EXPECT_NEAR(r.inlet_static, from - 0.5 * water.density * velocity * velocity, 1e-9) << i;
    EXPECT_NEAR(r.outlet_static, to - 0.5 * water.density * velocity * velocity, 1e-9) << i;
    EXPECT_EQ(r.valve, ValveState::none) << i;
  }
}

// Laminar below a Reynolds number of 2000, in transition to 4000, turbulent above.
TEST(Solution, RegimeOfATube) {
  struct Row {
    double reynolds;
    Regime regime;
  };
  for (const Row& row : {Row{0.0, Regime::still}, Row{1e-6, Regime::laminar}, Row{1990.0, Regime::laminar},
                         Row{2010.0, Regime::transition}, Row{3990.0, Regime::transition},
                         Row{4010.0, Regime::turbulent}, Row{1e5, Regime::turbulent}}) {
    Network n;
    n.add_fed("pump", from_si<Flow>(row.reynolds * std::numbers::pi * 6e-3 * water.viscosity / (4.0 * water.density)));
    n.add_air("row");
    n.add_part("hose", "pump", "row", hose);
    const Solution s = solve(n, water);
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_EQ(s.parts[0].regime, row.regime) << row.reynolds;
    EXPECT_NEAR(s.parts[0].reynolds, row.reynolds, 1e-9 * row.reynolds);
  }
}

/// A tank, a tee and two rows, the second one higher.
static Network two_rows() {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2", 1.0 * m);
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("hose 1", "tee", "row 1", hose);
  n.add_part("hose 2", "tee", "row 2", hose);
  return n;
}

TEST(Solution, TheMessageHasItsNumbers) {
  const Network n = two_rows();
  for (const int most : {1, 200}) {
    const Solution s = solve(n, water, {.max_iterations = most});
    EXPECT_EQ(s.usable(), most == 200);
    EXPECT_EQ(s.message,
              fmt::format("{} after {} Newton steps: mass balances to {:.1e} of the largest flow, every law "
                          "holds to {:.1e} of the largest drop",
                          most == 200 ? "solved" : "not solved", s.iterations, s.mass_residual, s.energy_residual));
    EXPECT_EQ(s.factorisations, s.iterations);  // nothing opens or shuts: one linear system a step
  }
}

// A step's linear system is factored once for each state of the valves that it tries.
TEST(Solution, FactorisationsCountTheStatesOfValvesTried) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("hose 1", "tee", "row 1", hose);
  n.add_part("valve", "tee", "row 2", CheckValve{.crack = 90.0 * kPa, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, water);
  ASSERT_TRUE(s.usable()) << s.message;
  ASSERT_EQ(s.parts[2].valve, ValveState::closed);
  EXPECT_EQ(s.parts[2].flow, 0.0);
  EXPECT_GT(s.factorisations, s.iterations);
}

TEST(Solution, CautionsOfPartsAreAskedWithWhatIsKnown) {
  Network n;
  n.add_supply("tank", 20.0 * kPa, 1.0 * m);
  n.add_air("row");
  n.add_place("pocket", 0.5 * m);
  n.add_part("tube", "row", "tank", Witness{});
  n.add_part("valve", "tank", "pocket", CheckValve{.passage_bore = 3.0 * mm});
  n.add_place("end", 0.25 * m);
  n.add_part("spur", "pocket", "end", Witness{});
  LiquidState liquid = water;
  liquid.cautions.push_back({"of the liquid", "water", "wet"});
  const Solution s = solve(n, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  std::vector<Caution> told;
  for (const Caution& c : s.cautions) {
    if (c.subject.starts_with("witness")) told.push_back(c);
  }
  ASSERT_EQ(told.size(), 4U);
  EXPECT_EQ(s.cautions.at(0).code, "of the liquid");
  EXPECT_EQ(told[0].subject, "witness 'tube'");
  EXPECT_EQ(told[2].subject, "witness 'spur'");
  EXPECT_EQ(told[0].text, "0 known");
  EXPECT_EQ(told[1].text, "20000 known");
  EXPECT_TRUE(told[2].text.ends_with(" open")) << told[2].text;
  EXPECT_TRUE(told[3].text.ends_with(" open")) << told[3].text;
  const double driving = 20e3 + weight * 1.0;
  EXPECT_NEAR(told[0].value, -driving / 2e7, 1e-12 * driving / 2e7);
  EXPECT_NEAR(told[0].limit, -driving, 1e-9 * driving);
  EXPECT_EQ(told[2].value, 0.0);
}

std::vector<std::string> subjects(const Solution& s, std::string_view code) {
  std::vector<std::string> found;
  for (const Caution& c : s.cautions) {
    if (c.code == code) found.push_back(c.subject);
  }
  return found;
}

// From a tank of 10 kPa (a head of about 1 m) to an outlet at its foot; another outlet 2 m up would draw air down,
// whichever way its hose is drawn, and one behind a shut valve neither gives nor takes.
TEST(Solution, OutletsThatWouldDrawAir) {
  for (const bool turned : {false, true}) {
    Network n;
    n.add_supply("tank", 10.0 * kPa);
    n.add_place("tee");
    n.add_air("low");
    n.add_air("high", 2.0 * m);
    n.add_air("shut");
    n.add_part("feed", "tank", "tee", hose);
    n.add_part("low hose", turned ? "low" : "tee", turned ? "tee" : "low", hose);
    n.add_part("high hose", turned ? "high" : "tee", turned ? "tee" : "high", hose);
    n.add_part("valve", "tee", "shut", CheckValve{.crack = 90.0 * kPa, .passage_bore = 3.0 * mm});
    const Solution s = solve(n, water);
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_EQ(subjects(s, "air-drawn-in"), std::vector<std::string>{"high"}) << turned;
  }
}

// Two hoses share an outlet: what one brings and the other takes is summed up.
TEST(Solution, AnOutletOfTwoHosesDrawsAirWhereTheyTakeMoreThanTheyBring) {
  for (const double sucked : {4.0, 16.0}) {
    Network n;
    n.add_supply("tank", 10.0 * kPa);
    n.add_supply("sump", -sucked * kPa);
    n.add_air("row");
    n.add_part("in", "tank", "row", hose);
    n.add_part("out", "row", "sump", hose);
    const Solution s = solve(n, water);
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_EQ(subjects(s, "air-drawn-in").size(), sucked > 10.0 ? 1U : 0U);
  }
}

// Liquid at rest hangs from a tank into a dead end above it: 10 m leave 3.4 kPa of the atmosphere, 10.2 m 1.5 kPa, and
// water at 20 C boils at 2.339 kPa. Behind a shut valve the pressure may be anything.
TEST(Solution, WhereTheColumnWouldBreak) {
  LiquidState liquid = water;
  liquid.vapour_pressure = 2339.0;
  Network n;
  n.add_supply("tank", 0.0 * Pa);
  n.add_air("row");
  n.add_place("high", 10.0 * m);
  n.add_place("too high", 10.2 * m);
  n.add_place("pocket", 20.0 * m);
  n.add_part("level", "tank", "row", hose);
  n.add_part("riser", "tank", "high", hose);
  n.add_part("top", "high", "too high", hose);
  n.add_part("valve", "tank", "pocket", CheckValve{.passage_bore = 3.0 * mm});
  const Solution s = solve(n, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  ASSERT_FALSE(s.places[4].determined);
  ASSERT_EQ(subjects(s, "below-vapour-pressure"), std::vector<std::string>{"too high"});
  for (const Caution& c : s.cautions) {
    if (c.code != "below-vapour-pressure") continue;
    EXPECT_NEAR(c.value, 101325.0 - weight * 10.2, 1e-6);
    EXPECT_EQ(c.limit, 2339.0);
    EXPECT_EQ(c.source, "standard atmosphere 101.325 kPa");
  }
}

TEST(Solution, AWarmStartWithoutAnAnswerIsACold) {
  const Network n = two_rows();
  System one(n, water), other(n, water);
  EXPECT_EQ(one.core_places(), 1U);
  EXPECT_EQ(one.core_edges(), 3U);
  EXPECT_EQ(one.liquid().density, water.density);
  const Solution warm = one.solve({}, Start::warm), cold = other.solve({}, Start::cold);
  ASSERT_TRUE(warm.usable()) << warm.message;
  EXPECT_EQ(warm.iterations, cold.iterations);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(warm.parts[i].flow, cold.parts[i].flow);
  // After a solve that was cut short there is no answer to start from either.
  System third(n, water);
  ASSERT_FALSE(third.solve({.max_iterations = 1}).usable());
  EXPECT_EQ(third.solve({}, Start::warm).iterations, cold.iterations);
  EXPECT_TRUE(third.solve_core());  // the numbers alone: no part here is in series with another
  ASSERT_EQ(third.core_flow().size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(third.core_flow()[i] / cold.parts[i].flow, 1.0, 1e-12);
  EXPECT_FALSE(third.solve_core({.max_iterations = 1}));
  third.set_numbers(test::thick());
  EXPECT_EQ(third.liquid().density, test::thick().density);
}

// An answer counts where Newton's method has settled; small residuals alone do not make one.
TEST(Solution, CutShortItIsNotUsableHoweverSmallItsResiduals) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2", 1.0 * m);
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("hose 1", "tee", "row 1", hose);
  n.add_part("hose 2", "tee", "row 2", Hose{.length = 5.0 * m, .bore = 4.0 * mm});
  SolveOptions loose{.mass_tolerance = 1e-3, .energy_tolerance = 1e-3};
  const int needed = solve(n, water, loose).iterations;
  int within = 0;
  for (loose.max_iterations = 1; loose.max_iterations <= needed; ++loose.max_iterations) {
    const Solution s = solve(n, water, loose);
    EXPECT_EQ(s.usable(), loose.max_iterations == needed);
    EXPECT_EQ(s.iterations, loose.max_iterations);
    within += !s.usable() && s.mass_residual <= 1e-3 && s.energy_residual <= 1e-3 ? 1 : 0;
  }
  EXPECT_GT(within, 0) << "cut short, though its residuals are small";
}

TEST(Solution, BeginsWithNothing) {
  const Solution s;
  EXPECT_EQ(s.status, Status::not_solved);
  EXPECT_EQ(s.iterations, 0);
  EXPECT_EQ(s.factorisations, 0);
  EXPECT_EQ(s.mass_residual, std::numeric_limits<double>::infinity());
  EXPECT_EQ(s.energy_residual, std::numeric_limits<double>::infinity());
  const PartResult part;
  for (const double x : {part.flow, part.drop, part.reynolds, part.velocity, part.inlet_static, part.outlet_static}) {
    EXPECT_EQ(x, 0.0);
  }
  EXPECT_EQ(part.regime, Regime::still);
  EXPECT_EQ(part.valve, ValveState::none);
  const PlaceResult place;
  for (const double x : {place.total_pressure, place.lower, place.upper}) EXPECT_EQ(x, 0.0);
  EXPECT_TRUE(place.determined);
  const CorrectedSolution corrected;
  EXPECT_FALSE(corrected.settled);
  EXPECT_EQ(corrected.rounds, 0);
  EXPECT_EQ(corrected.change, 0.0);
  const ControlledSolution controlled;
  EXPECT_FALSE(controlled.reached);
  EXPECT_EQ(controlled.solves, 0);
  EXPECT_EQ(controlled.setting, 0.0);
  EXPECT_EQ(controlled.total, 0.0);
  EXPECT_EQ(Control{}.wanted, 0.0);
  EXPECT_EQ(CoreShape{}.unknowns, 0U);
  const Certificate proof;
  EXPECT_EQ(proof.mass_residual, 0.0);
  EXPECT_EQ(proof.energy_residual, 0.0);
}

// A part without a bore has no velocity, and inside it the pressures are those of its places.
TEST(Solution, APartWithoutABoreHasNoVelocity) {
  Network n;
  n.add_supply("tank", 20.0 * kPa);
  n.add_air("row");
  n.add_part("tube", "tank", "row", Witness{});
  const PartResult r = solve(n, water).parts.at(0);
  EXPECT_NEAR(r.flow, 1e-3, 1e-15);
  EXPECT_EQ(r.velocity, 0.0);
  EXPECT_EQ(r.reynolds, 0.0);
  EXPECT_EQ(r.regime, Regime::still);
  EXPECT_EQ(r.inlet_static, 20e3);
  EXPECT_EQ(r.outlet_static, 0.0);
}

TEST(SolveOptions, Defaults) {
  EXPECT_EQ(SolveOptions{}.mass_tolerance, 1e-12);
  EXPECT_EQ(SolveOptions{}.energy_tolerance, 1e-9);
  EXPECT_EQ(SolveOptions{}.max_iterations, 200);
}

}  // namespace solution_test
}  // namespace libflow
