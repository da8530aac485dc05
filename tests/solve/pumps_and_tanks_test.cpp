// SPDX-License-Identifier: MIT
/// @file
/// Pumps and tanks in the solve: curves in parallel and in series, positive pumps with their relief, a starving
/// suction line, tanks tied together, pulsed valves, random networks with all of them.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/network/tank_supply.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/sketch.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace pumps_and_tanks_test {

using namespace units;

double flow(const Network& n, const Solution& s, const char* part) { return s.parts[n.find_part(part)].flow; }
double pressure(const Network& n, const Solution& s, const char* place) {
  return s.places[n.find_place(place)].total_pressure;
}
bool has(const Solution& s, const std::string& code, const std::string& subject) {
  for (const Caution& c : s.cautions) {
    if (c.code == code && c.subject == subject) return true;
  }
  return false;
}

/// Head h0 - a q^2 [m, L/s] by 60 points, in a liquid of 1000 kg/m3.
PumpCurve parabola(double h0, double a) {
  PumpCurve p{.points_density = 1000.0 * kg_per_m3};
  const double end = std::sqrt(h0 / a);
  for (int i = 0; i < 60; ++i) {
    const double q = end * i / 59.0;
    p.points.push_back(
        {.flow = q * L_per_min * 60.0, .gain = std::max(h0 - a * q * q, 0.0) * 1000.0 * standard_gravity * Pa});
  }
  return p;
}

// Closed form: pumps h0 - a q^2 against a static head hs and a loss b q^2 give q = sqrt((h0 - hs)/(a + b)), n in
// parallel sqrt((h0 - hs)/(a/n^2 + b)), n in series sqrt((n h0 - hs)/(n a + b)). Curve by points: within 0.1 %.
TEST(PumpsAndTanks, CurvesInParallelAndInSeries) {
  const PumpCurve pump = parabola(40.0, 0.5);
  const LiquidState liquid = test::liquid_of("any", 1000.0, 1e-3);
  const test::QuadraticPart loss{.k = 1.0 * 1000.0 * standard_gravity * 1e6};
  const auto outflow = [&](int parallel, int series) {
    Network n;
    n.add_supply("tank", 0.0 * Pa);
    n.add_air("out", 10.0 * m);
    n.add_place("after 0");
    for (int i = 0; i < parallel; ++i) n.add_part(fmt::format("pump {}", i), "tank", "after 0", pump);
    for (int i = 1; i < series; ++i) {
      n.add_place(fmt::format("after {}", i));
      n.add_part(fmt::format("next {}", i), fmt::format("after {}", i - 1), fmt::format("after {}", i), pump);
    }
    n.add_part("loss", fmt::format("after {}", series - 1), "out", loss);
    const Solution s = solve(n, liquid);
    EXPECT_TRUE(s.usable()) << s.message;
    return 1e3 * flow(n, s, "loss");
  };
  EXPECT_NEAR(outflow(1, 1), 4.47213595499958, 1e-3 * 4.5);
  EXPECT_NEAR(outflow(2, 1), 5.163977794943222, 1e-3 * 5.2);
  EXPECT_NEAR(outflow(1, 2), 5.916079783099616, 1e-3 * 5.9);
}

/// Tank, positive pump, relief back to the tank, one outlet.
struct PositiveRig {
  Network n;
  explicit PositiveRig(double outlet_bore, const PumpSlip& slip = {.flow = 2.0 * L_per_min, .gain = 300.0 * kPa}) {
    n.add_supply("tank", 5.0 * kPa);
    n.add_air("row");
    n.add_place("manifold");
    n.add_part("pump", "tank", "manifold",
               PositivePump{.displacement = 60.0 * mL, .rpm = 540.0, .slip = slip, .max_pressure = 550.0 * kPa});
    n.add_part("relief", "manifold", "tank", ReliefValve::rated(400.0 * kPa, 30.0 * L_per_min, 50.0 * kPa));
    n.add_part("outlet", "manifold", "row", Orifice{.bore = outlet_bore * m});
  }
};

TEST(PumpsAndTanks, PositivePumpDeliversWhateverThePressure) {
  const LiquidState water = test::water();
  const double swept = 60e-6 * 9.0, leak = 2e-3 / 60.0 / 3e5;
  for (const double bore : {20e-3, 9e-3, 7e-3}) {
    const PositiveRig rig(bore);
    const Solution s = solve(rig.n, water);
    ASSERT_TRUE(s.usable()) << s.message;
    const double gain = pressure(rig.n, s, "manifold") - 5e3;
    EXPECT_NEAR(flow(rig.n, s, "pump"), swept - leak * gain, 1e-12);
    EXPECT_EQ(flow(rig.n, s, "relief"), 0.0);
    EXPECT_FALSE(has(s, "relief-open", "relief valve 'relief'"));
  }
}

TEST(PumpsAndTanks, PositivePumpWithItsReliefOpen) {
  const LiquidState water = test::water();
  for (const double bore : {5e-3, 2e-3, 0.1e-3}) {
    const PositiveRig rig(bore);
    const Solution s = solve(rig.n, water);
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_GT(flow(rig.n, s, "relief"), 0.0);
    EXPECT_NEAR(flow(rig.n, s, "pump"), flow(rig.n, s, "relief") + flow(rig.n, s, "outlet"), 1e-15);
    EXPECT_GT(pressure(rig.n, s, "manifold"), 405e3);
    EXPECT_LT(pressure(rig.n, s, "manifold"), 405e3 + 60e3);
    EXPECT_TRUE(has(s, "relief-open", "relief valve 'relief'"));
    EXPECT_FALSE(has(s, "pump-over-pressure", "positive pump 'pump'"));
  }
}

TEST(PumpsAndTanks, PositivePumpWithoutReliefSaysSo) {
  Network n;
  n.add_supply("tank", 5.0 * kPa);
  n.add_air("row");
  n.add_place("manifold");
  n.add_part("pump", "tank", "manifold",
             PositivePump{.displacement = 60.0 * mL,
                          .rpm = 540.0,
                          .slip = {.flow = 2.0 * L_per_min, .gain = 300.0 * kPa},
                          .max_pressure = 550.0 * kPa});
  n.add_part("outlet", "manifold", "row", Orifice{.bore = 1.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_TRUE(has(s, "pump-over-pressure", "positive pump 'pump'"));
  EXPECT_TRUE(has(s, "pump-slips", "positive pump 'pump'"));
}

TEST(PumpsAndTanks, TheSteepestPositivePumpsConverge) {
  for (const double viscosity : {5e-4, 1e-3, 0.15, 2.0}) {
    for (const double slip : {1e-9, 1e-6, 1e-4}) {
      for (const double bore : {0.1e-3, 1e-3, 4e-3, 20e-3}) {
        const PositiveRig rig(bore, {.flow = from_si<Flow>(slip), .gain = 300.0 * kPa});
        const Solution s = solve(rig.n, test::liquid_of("any", 1200.0, viscosity));
        EXPECT_TRUE(s.usable()) << s.message << " at " << viscosity << " Pa s, slip " << slip << ", bore " << bore;
        EXPECT_LE(s.iterations, 30);
      }
    }
  }
}

TEST(PumpsAndTanks, GroundDrivenKeepsItsRateWithSpeed) {
  const auto rate = [](double speed) {
    Network n;
    n.add_supply("tank", 0.0 * Pa);
    n.add_air("row");
    n.add_part("pump", "tank", "row",
               GroundDrivenPump{.displacement = 0.2 * L,
                                .distance = 10.0 * m,
                                .ground_speed = speed * m_per_s,
                                .slip = {.flow = 0.01 * L_per_min, .gain = 200.0 * kPa}});
    const Solution s = solve(n, test::water());
    EXPECT_TRUE(s.usable()) << s.message;
    return flow(n, s, "pump") / speed;
  };
  EXPECT_NEAR(rate(1.0), 20e-6, 1e-17);
  EXPECT_NEAR(rate(4.0), 20e-6, 1e-17);
}

TEST(PumpsAndTanks, AStarvingSuctionLineIsReported) {
  const auto solved = [](Length suction_bore) {
    PumpCurve pump;
    for (const auto& [flow, gain, head] :
         {std::array{0.0, 45.0, 4.0}, {30.0, 43.0, 5.0}, {60.0, 37.0, 8.0}, {90.0, 24.0, 14.0}}) {
      pump.points.push_back({.flow = flow * gpm, .gain = gain * psi, .suction_head = head * ft});
    }
    Network n;
    add_tank(n, "tank", {.shape = UprightTank::round(1.2 * m, 1.5 * m)}, 0.5 * m, test::water(), 0.5 * m);
    n.add_place("inlet");
    n.add_place("manifold");
    n.add_air("rows");
    n.add_part("suction", "tank", "inlet", Hose{.length = 4.0 * m, .bore = suction_bore});
    n.add_part("pump", "inlet", "manifold", pump);
    n.add_part("rows' orifice", "manifold", "rows", Orifice{.bore = 22.0 * mm});
    const Solution s = solve(n, test::water());
    EXPECT_TRUE(s.usable()) << s.message;
    return s;
  };
  EXPECT_FALSE(has(solved(50.0 * mm), "suction-starved", "pump curve 'pump'"));
  EXPECT_TRUE(has(solved(25.0 * mm), "suction-starved", "pump curve 'pump'"));
}

TEST(PumpsAndTanks, TiedTanksFlowFromTheHigherLevel) {
  const LiquidState water = test::water();
  const Tank tank{.shape = LyingTank::round(1.0 * m, 1.5 * m)};
  const auto tied = [&](double left, double right) {
    Network n;
    add_tank(n, "left", tank, left * m, water);
    add_tank(n, "right", tank, right * m, water);
    n.add_place("tee");
    n.add_air("out", -1.0 * m);
    n.add_part("left line", "left", "tee", Hose{.length = 2.0 * m, .bore = 25.0 * mm});
    n.add_part("right line", "right", "tee", Hose{.length = 2.0 * m, .bore = 25.0 * mm});
    n.add_part("outlet", "tee", "out", Orifice{.bore = 4.0 * mm});
    const Solution s = solve(n, water);
    EXPECT_TRUE(s.usable()) << s.message;
    return std::pair{flow(n, s, "left line"), flow(n, s, "right line")};
  };
  const auto level = tied(0.6, 0.6);
  EXPECT_GT(level.first, 0.0);
  EXPECT_NEAR(level.first, level.second, 1e-12);
  const auto tilted = tied(0.8, 0.6);  // the outlet takes less than the tie line
  EXPECT_GT(tilted.first, 0.0);
  EXPECT_LT(tilted.second, 0.0);
  const auto mirrored = tied(0.6, 0.8);
  EXPECT_NEAR(mirrored.second, tilted.first, 1e-12);
}

TEST(PumpsAndTanks, PulsedRowsFollowTheirDuty) {
  Network n;
  n.add_supply("pump", 200.0 * kPa);
  for (const double duty : {0.25, 0.5, 1.0}) {
    const std::string row = fmt::format("row {}", duty);
    n.add_air(row);
    n.add_part("valve " + row, "pump", row,
               PulsedValve{.passage_bore = 2.0 * mm, .outlet_bore = 1.0 * mm, .duty = duty});
  }
  const Solution s = solve(n, test::thick());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_NEAR(flow(n, s, "valve row 0.25") / flow(n, s, "valve row 1"), 0.25, 1e-9);
  EXPECT_NEAR(flow(n, s, "valve row 0.5") / flow(n, s, "valve row 1"), 0.5, 1e-9);
}

TEST(PumpsAndTanks, RandomNetworksWithPumpsConverge) {
  test::Dice dice(77);
  int worst = 0;
  for (int k = 0; k < 500; ++k) {
    test::Sketch sketch = test::random_sketch(dice);
    const auto tank = sketch.add({.id = "tank", .kind = PlaceKind::supply, .pressure = dice.uniform(-1e4, 2e4)});
    const auto junction = [&] { return dice.below(3); };
    const double q = dice.log_uniform(1e-5, 5e-3), p = dice.log_uniform(5e4, 6e5);
    PumpCurve curve{.speed = dice.uniform(0.3, 1.5)};
    double gain = p;
    for (int i = 0; i < 6; ++i) {
      curve.points.push_back({.flow = from_si<Flow>(q * i / 5.0), .gain = gain * Pa});
      if (dice.chance(0.7)) gain -= dice.uniform(0.0, 0.3) * gain;
    }
    sketch.join(tank, junction(), curve);
    sketch.join(tank, junction(),
                PositivePump{.displacement = dice.log_uniform(1e-6, 1e-4) * m3,
                             .rpm = dice.uniform(20.0, 600.0),
                             .slip = {.flow = from_si<Flow>(dice.log_uniform(1e-8, 1e-5)), .gain = p * Pa}});
    const auto relieved = junction();
    sketch.join(relieved, tank, ReliefValve{.set = p * Pa, .passage_bore = dice.log_uniform(1e-3, 2e-2) * m});
    sketch.join(relieved, tank,
                PulsedValve{.passage_bore = dice.log_uniform(5e-4, 5e-3) * m, .duty = dice.uniform(0.05, 1.0)});
    const Network network = sketch.build();
    const LiquidState liquid = test::liquid_of("any", dice.uniform(900.0, 1500.0), dice.log_uniform(5e-4, 2.0));
    const Solution s = solve(network, liquid);
    ASSERT_TRUE(s.usable()) << "network " << k << ": " << s.message;
    worst = std::max(worst, s.iterations);
  }
  RecordProperty("most steps", worst);
  EXPECT_LE(worst, 60);
}

}  // namespace pumps_and_tanks_test
}  // namespace libflow
