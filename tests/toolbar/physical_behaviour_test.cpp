// SPDX-License-Identifier: MIT
/// @file
/// What anybody who has plumbed a toolbar knows must come out: thick cold liquid, worn orifices, valves that just
/// crack, hills, starved pumps, two placements, outlets in the soil. Pressure regain along a bar is in
/// junctions_test.cpp.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/toolbar.hpp>
#include <tests/support/liquids.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace physical_behaviour_test {

using namespace units;

const Caution* behaviour_caution(const Cautions& cautions, const std::string& code, const std::string& subject = {}) {
  const auto found = std::find_if(cautions.begin(), cautions.end(), [&](const Caution& c) {
    return c.code == code && (subject.empty() || c.subject == subject);
  });
  return found == cautions.end() ? nullptr : &*found;
}

// Hagen and Poiseuille: laminar flow goes against the length. Quarter-inch hoses of 4 to 24 ft meter the rows alone; in
// water the same hoses are turbulent and the rates spread less, about with length to the power -0.57 (Blasius).
TEST(PhysicalBehaviour, RatesOfColdPolyphosphateFollowTheHoseLength) {
  Toolbar t = test::plain_bar(6);
  const std::vector<double> feet{4.0, 8.0, 12.0, 16.0, 20.0, 24.0};
  t.hose = {.kind = HoseSchedule::Kind::listed};
  for (const double length : feet) t.hose.lengths.push_back(length * ft);
  t.hose_bore = 0.25 * inch;
  t.orifice.reset();
  t.outlet_bore = 0.25 * inch;
  Job job = test::plain_job();
  const LiquidState cold = find_liquid("10-34-0").at(fahrenheit(40));
  const test::Case thick = test::judge(t, job, cold), thin = test::judge(t, job, test::water());
  for (std::size_t i = 0; i < feet.size(); ++i) {
    const RowResult& row = thick.evenness.rows[i];
    EXPECT_EQ(row.regime, Regime::laminar) << row.row;
    // Beside friction there is only the end of the tube, a percent or two of the shortest row.
    EXPECT_NEAR(row.flow * feet[i] / (thick.evenness.rows[5].flow * 24.0), 1.0, 0.03) << row.row;
  }
  EXPECT_EQ(thin.evenness.rows[0].regime, Regime::turbulent);
  EXPECT_LT(thin.evenness.cv, 0.7 * thick.evenness.cv);
}

// A tee splits a laminar flow by the conductances of its legs, d^4/L (Hagen and Poiseuille): 8 mm x 2 m against
// 6 mm x 1 m is 4096/2 to 1296.
TEST(PhysicalBehaviour, ATeeSplitsByTheConductanceOfItsLegs) {
  const LiquidState thick = test::thick();
  Network n;
  n.add_fed("pump", 2.0 * L_per_min);
  n.add_place("tee");
  n.add_part("main", "pump", "tee", Hose{.length = 3.0 * m, .bore = 12.0 * mm});
  for (const auto& [name, bore, length] : {std::tuple{"wide", 8.0, 2.0}, std::tuple{"narrow", 6.0, 1.0}}) {
    n.add_air(name);
    n.add_part(std::string(name) + " leg", "tee", name, Hose{.length = length * m, .bore = bore * mm});
  }
  const Solution s = solve(n, thick);
  const double wide = s.parts[n.find_part("wide leg")].flow, narrow = s.parts[n.find_part("narrow leg")].flow;
  EXPECT_NEAR(wide / narrow, 4096.0 / 2.0 / 1296.0, 1e-9);
  EXPECT_NEAR(wide + narrow, si(2.0 * L_per_min), 1e-15);
}

// An orifice worn by a tenth passes a tenth more at the same pressure; where the total is given, the other rows pay.
TEST(PhysicalBehaviour, AWornOrificeTakesFromTheOthers) {
  Toolbar t = test::plain_bar(4);
  Job job = test::plain_job();
  const Orifice fresh{.bore = 1.0 * mm};
  job.pressure = 100.0 * kPa;
  const auto flows = [&] {
    std::vector<double> flow;
    for (const RowResult& r : test::judge(t, job, test::water()).evenness.rows) flow.push_back(r.flow);
    return flow;
  };
  const std::vector<double> before = flows();
  t.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = fresh.worn(0.1, 100.0 * kPa).bore}}};
  const std::vector<double> held = flows();
  EXPECT_NEAR(held[1] / before[1], 1.1, 2e-3);  // the hose takes its small share of the pressure
  EXPECT_NEAR(held[0] / before[0], 1.0, 1e-3);
  job.pressure.reset();
  job.rate = 100.0 * L_per_ha;
  const std::vector<double> metered = flows();
  // Four equal shares become 1, 1.1, 1, 1 of 4.1.
  EXPECT_NEAR(metered[0] / (metered[0] + metered[1] + metered[2] + metered[3]), 1.0 / 4.1, 2e-4);
  EXPECT_NEAR(metered[1] / metered[0], 1.1, 2e-3);
}

// Just above the crack pressure one valve of a box is open and the next one may be shut: both are said.
TEST(PhysicalBehaviour, ACheckValveNearItsCrackPressure) {
  Toolbar t = test::plain_bar(3);
  t.check_valve = test::plain_valve();
  t.check_valve->crack_spread = 0.5 * psi;
  t.row_changes = {{.row = 2, .crack = 4.5 * psi}};
  Job job = test::plain_job();
  job.pressure = 4.3 * psi;
  const test::Case c = test::judge(t, job, test::water());
  EXPECT_EQ(c.evenness.rows[1].valve, ValveState::closed);
  EXPECT_EQ(c.evenness.rows[1].flow, 0.0);
  EXPECT_GT(c.evenness.rows[0].flow, 0.0);
  // What is left beyond the crack pressure drives the row: 0.3 psi at most.
  EXPECT_LT(c.evenness.rows[0].orifice_drop, si(0.3 * psi));
  EXPECT_NE(behaviour_caution(c.evenness.cautions, "check-valve-shut", "row 2"), nullptr);
  EXPECT_NE(behaviour_caution(c.evenness.cautions, "near-crack", "check valve 'row 1 check valve'"), nullptr);
  job.pressure = 20.0 * psi;
  const test::Case high = test::judge(t, job, test::water());
  EXPECT_EQ(behaviour_caution(high.evenness.cautions, "check-valve-shut"), nullptr);
  EXPECT_EQ(behaviour_caution(high.evenness.cautions, "near-crack"), nullptr);
}

// Across a slope the low rows get more and the high rows less; the further from the middle, the more so; and the same
// slope matters half as much at four times the pressure (square law). Numbers against a worked case: evaluate_test.cpp.
TEST(PhysicalBehaviour, AHillside) {
  Toolbar t = test::plain_bar(7);
  t.side_slope = slope_percent(10.0);
  Job job = test::plain_job();
  const auto spread = [&](Pressure p) {
    job.pressure = p;
    const Evenness e = test::judge(t, job, test::water()).evenness;
    for (std::size_t i = 1; i < e.rows.size(); ++i) EXPECT_LT(e.rows[i].flow, e.rows[i - 1].flow);
    return e.rows.front().flow / e.rows.back().flow - 1.0;
  };
  const double low = spread(1.0 * bar), high = spread(4.0 * bar);
  EXPECT_GT(low, 0.2 * high);
  EXPECT_NEAR(low / high, 4.0, 0.2);
}

/// A tank, a suction hose 3 m long that lifts 2 m, a centrifugal pump that requires 3 to 6 m, and a nozzle.
Network suction_line(Length bore) {
  PumpCurve pump;
  for (const auto& [flow, gain, head] : {std::tuple{0.0, 60.0, 3.0}, std::tuple{20.0, 55.0, 3.5},
                                         std::tuple{40.0, 45.0, 4.5}, std::tuple{60.0, 25.0, 6.0}}) {
    pump.points.push_back({.flow = flow * gpm, .gain = gain * psi, .suction_head = head * m});
  }
  Network n;
  n.add_supply("tank", 0.0 * Pa);
  n.add_place("inlet", 2.0 * m);
  n.add_place("outlet", 2.0 * m);
  n.add_air("nozzle", 2.0 * m);
  n.add_part("suction hose", "tank", "inlet", Hose{.length = 3.0 * m, .bore = bore});
  n.add_part("pump", "inlet", "outlet", pump);
  n.add_part("nozzle hole", "outlet", "nozzle", Orifice{.bore = 12.0 * mm});
  return n;
}

// Net positive suction head by hand: atmosphere less vapour pressure, over rho g, less the lift, less what the suction
// hose loses. A 2 in hose leaves enough, a 3/4 in hose starves the pump, and so does hot water in the wide one.
TEST(PhysicalBehaviour, ASuctionLineThatStarves) {
  const Liquid water = find_liquid("water");
  const auto starved = [](const Network& n, const LiquidState& liquid) {
    const Solution s = solve(n, liquid);
    EXPECT_TRUE(s.usable()) << s.message;
    const Caution* c = behaviour_caution(s.cautions, "suction-starved", "pump curve 'pump'");
    const double weight = liquid.density * standard_gravity;
    const double lost = n.part(0).part.law(liquid)(s.parts[0].flow).dp / weight;
    const double available = (101325.0 - liquid.vapour_pressure) / weight - 2.0 - lost;
    const auto duty = n.part(1).part.as<PumpCurve>()->duty(from_si<Flow>(s.parts[1].flow), liquid);
    EXPECT_EQ(c != nullptr, available < duty.head_required.value());
    if (c != nullptr) {
      EXPECT_NEAR(c->value, available, 1e-6);
      EXPECT_NEAR(c->limit, *duty.head_required, 1e-12);
    }
    return c != nullptr;
  };
  EXPECT_FALSE(starved(suction_line(2.0 * inch), water.at(celsius(20))));
  EXPECT_TRUE(starved(suction_line(0.75 * inch), water.at(celsius(20))));
  EXPECT_TRUE(starved(suction_line(2.0 * inch), water.at(celsius(80))));
}

// One positive pump feeds an orifice in the furrow and a larger one beside the row, on every row: the pump's flow is
// all there is, the placements share it by the areas of their orifices, the rows evenly.
TEST(PhysicalBehaviour, TwoPlacementsFromOnePump) {
  const LiquidState water = test::water();
  Network n;
  n.add_supply("tank", 0.0 * Pa);
  n.add_place("bar");
  const PositivePump pump{
      .displacement = 20.0 * mL, .rpm = 540.0, .slip = {.flow = 0.2 * L_per_min, .gain = 300.0 * kPa}};
  n.add_part("pump", "tank", "bar", pump);
  n.add_part("relief", "bar", "tank", ReliefValve{.set = 10.0 * bar, .passage_bore = 8.0 * mm});
  for (int row = 1; row <= 4; ++row) {
    for (const auto& [place, bore] : {std::pair{"furrow", 1.2}, std::pair{"beside", 1.8}}) {
      const std::string name = fmt::format("row {} {}", row, place);
      n.add_place(name + " tube");
      n.add_air(name);
      n.add_part(name + " orifice", "bar", name + " tube", Orifice{.bore = bore * mm});
      n.add_part(name + " outlet", name + " tube", name, RowOutlet{.bore = 6.0 * mm});
    }
  }
  const Solution s = solve(n, water);
  ASSERT_TRUE(s.usable()) << s.message;
  double sum = 0.0;
  for (int row = 1; row <= 4; ++row) {
    const double furrow = s.parts[n.find_part(fmt::format("row {} furrow outlet", row))].flow;
    const double beside = s.parts[n.find_part(fmt::format("row {} beside outlet", row))].flow;
    EXPECT_NEAR(beside / furrow, 1.8 * 1.8 / (1.2 * 1.2), 0.02 * 2.25);
    sum += furrow + beside;
  }
  const double delivered = s.parts[0].flow;
  EXPECT_NEAR(sum / delivered, 1.0, 1e-12);
  EXPECT_LT(delivered, si(pump.swept()));
  EXPECT_GT(delivered, 0.97 * si(pump.swept()));
  EXPECT_EQ(s.parts[1].valve, ValveState::closed);
}

// An outlet under 0.3 m of liquid in its slot pushes back with that head; the row beside it in the air gets more, by
// the square root of the pressures.
TEST(PhysicalBehaviour, AnOutletInTheSoilPushesBack) {
  const LiquidState water = test::water();
  Network n;
  n.add_supply("bar", 30.0 * kPa);
  n.add_air("air");
  n.add_supply("soil", soil_back_pressure(0.3 * m, water));
  for (const char* where : {"air", "soil"}) {
    const std::string name = where;
    n.add_place(name + " tube");
    n.add_part(name + " orifice", "bar", name + " tube", Orifice{.bore = 1.5 * mm});
    n.add_part(name + " outlet", name + " tube", name, RowOutlet{.bore = 8.0 * mm});
  }
  const Solution s = solve(n, water);
  const double ratio = s.parts[n.find_part("soil outlet")].flow / s.parts[n.find_part("air outlet")].flow;
  EXPECT_NEAR(ratio, std::sqrt(1.0 - 998.21 * 9.80665 * 0.3 / 30e3), 2e-3);
}

// Everything that a layout makes people careful about is data with who, what, how much and whence.
TEST(PhysicalBehaviour, WarningsAreData) {
  Toolbar t = test::plain_bar(3);
  t.check_valve = test::plain_valve();
  t.check_valve->crack_spread = 0.5 * psi;
  t.row_changes = {{.row = 2, .crack = 40.0 * psi}};
  t.hose_rating = 3.0 * psi;
  Job job = test::plain_job();
  job.pressure = 4.3 * psi;
  job.pump_limit = 2.0 * psi;
  const Cautions cautions = test::judge(t, job, find_liquid("10-34-0").at(fahrenheit(40))).evenness.cautions;
  for (const char* code : {"check-valve-shut", "near-crack", "above-working-pressure", "above-pump-limit"}) {
    EXPECT_NE(behaviour_caution(cautions, code), nullptr) << code;
  }
  for (const Caution& c : cautions) {
    EXPECT_FALSE(c.code.empty() || c.subject.empty() || c.text.empty()) << c.code << ": " << c.text;
    if (c.code == "near-crack" || c.code == "above-working-pressure" || c.code == "above-pump-limit") {
      EXPECT_TRUE(std::isfinite(c.value) && std::isfinite(c.limit)) << c.code;
      EXPECT_FALSE(c.source.empty()) << c.code;
    }
  }
}

}  // namespace physical_behaviour_test
}  // namespace libflow
