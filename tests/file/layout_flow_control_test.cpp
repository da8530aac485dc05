// SPDX-License-Identifier: MIT
/// @file
/// Regulators, pump curves with every column, vented tubes, soil outlets, sprung check valves: from a layout's text to
/// a solved answer with its cautions.

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {
namespace layout_flow_control_test {

constexpr const char* flow_control_job = R"(
[job]
product = "water"
temperature = "68 F"
rate = "10 gal/ac"
speed = "6 mph"
)";

/// Expects a refusal at this line that names this key and says what is allowed.
template <class Act>
void flow_control_refused(const Act& act, const std::string& line, const std::string& key) {
  try {
    act();
    ADD_FAILURE() << key << ": nothing thrown";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find(line), std::string::npos) << e.what();
    EXPECT_NE(std::string(e.what()).find(key), std::string::npos) << e.what();
    EXPECT_FALSE(e.allowed().empty()) << e.what();
  }
}

/// One row behind the bar, by a 0.06 in orifice; `places` and `parts` come before.
Layout flow_control_layout(const std::string& places, const std::string& parts) {
  return parse_layout("place = [\n" + places + R"(
  { id = "bar", kind = "junction", gauge = true },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
)" + parts + R"(
  { id = "orifice", kind = "orifice", from = "bar", to = "row 1", bore = "0.06 in" },
]
)" + flow_control_job,
                      "it.toml");
}

struct FlowControlled {
  Plumbing plumbing;
  Solution solution;

  [[nodiscard]] double pressure(const std::string& place) const {
    return solution.places[plumbing.network.find_place(place)].total_pressure;
  }
  [[nodiscard]] double flow(const std::string& part) const {
    return solution.parts[plumbing.network.find_part(part)].flow;
  }
  [[nodiscard]] const Caution* caution(const std::string& code) const {
    const auto found = std::find_if(solution.cautions.begin(), solution.cautions.end(),
                                    [&](const Caution& c) { return c.code == code; });
    return found == solution.cautions.end() ? nullptr : &*found;
  }
};

FlowControlled flow_control_solved(const Layout& layout) {
  FlowControlled c{std::get<Plumbing>(layout.plumbing), {}};
  c.solution = solve_plumbing(c.plumbing, layout.job.liquid.at(layout.job.temperature));
  EXPECT_TRUE(c.solution.usable()) << c.solution.message;
  return c;
}

FlowControlled regulated_row(const std::string& supply) {
  return flow_control_solved(flow_control_layout(
      "{ id = \"pump\", kind = \"supply\", pressure = \"" + supply + "\" },",
      "{ id = \"regulator\", kind = \"pressure_regulator\", from = \"pump\", to = \"bar\", set = \"30 psi\", "
      "rated_flow = \"5 gpm\", rated_loss = \"2 psi\" },"));
}

TEST(FlowControlFile, RegulatorHoldsItsPressure) {
  const FlowControlled high = regulated_row("60 psi"), higher = regulated_row("90 psi");
  EXPECT_NEAR(high.pressure("bar") / si(30.0 * units::psi), 1.0, 1e-8);
  EXPECT_NEAR(higher.flow("orifice") / high.flow("orifice"), 1.0, 1e-8);
  EXPECT_EQ(high.caution("regulator-cannot-hold"), nullptr);
  EXPECT_EQ(high.caution("regulator-not-throttled"), nullptr);
}

TEST(FlowControlFile, RegulatorThatCannotHoldSaysSoInNumbers) {
  const FlowControlled low = regulated_row("20 psi");
  EXPECT_LT(low.pressure("bar"), si(20.0 * units::psi));
  const Caution* c = low.caution("regulator-cannot-hold");
  ASSERT_NE(c, nullptr);
  EXPECT_EQ(c->subject, "pressure regulator 'regulator'");
  EXPECT_EQ(c->value, low.pressure("bar"));
  EXPECT_NEAR(c->limit, si(30.0 * units::psi), 1e-9);
  EXPECT_NE(c->text.find("20 psi (138 kPa) before it"), std::string::npos) << c->text;
}

TEST(FlowControlFile, RegulatorByItsPassage) {
  const Layout layout = flow_control_layout(
      "{ id = \"pump\", kind = \"supply\", pressure = \"40 psi\" },",
      "{ id = \"it\", kind = \"pressure_regulator\", from = \"pump\", to = \"bar\", set = \"2 bar\", passage_bore = "
      "\"6 mm\" },");
  const Network& n = std::get<Plumbing>(layout.plumbing).network;
  const auto* regulator = n.part(n.find_part("it")).part.as<PressureRegulator>();
  ASSERT_NE(regulator, nullptr);
  EXPECT_DOUBLE_EQ(si(regulator->set), 2e5);
  EXPECT_DOUBLE_EQ(si(regulator->passage_bore), 0.006);
}

/// A pump that draws from a tank at `level` under it through 20 ft of hose.
Layout pump_with_columns(const std::string& columns, const std::string& elevation = "0 ft") {
  return flow_control_layout(
      "{ id = \"tank\", kind = \"supply\", pressure = \"0 psi\", elevation = \"" + elevation +
          "\" }, { id = \"inlet\", kind = \"junction\" },",
      "{ id = \"suction\", kind = \"hose\", from = \"tank\", to = \"inlet\", length = \"20 ft\", bore = \"1/2 in\" },\n"
      "{ id = \"pump\", kind = \"pump_curve\", from = \"inlet\", to = \"bar\", points = [[\"0 gpm\", \"60 psi\"], "
      "[\"1 gpm\", \"55 psi\"], [\"2 gpm\", \"45 psi\"], [\"3 gpm\", \"25 psi\"]], " +
          columns + " },");
}

TEST(FlowControlFile, PumpCurveWithEveryColumn) {
  const Layout layout = pump_with_columns(
      "efficiencies = [\"0 %\", \"40 %\", \"55 %\", \"50 %\"], suction_heads = [\"2 m\", \"2 m\", \"2.5 m\", \"4 m\"], "
      "shaft_powers = [30, 40, 50.5, 55], atmosphere = \"95 kPa\"");
  const Network& n = std::get<Plumbing>(layout.plumbing).network;
  const auto* pump = n.part(n.find_part("pump")).part.as<PumpCurve>();
  ASSERT_NE(pump, nullptr);
  EXPECT_DOUBLE_EQ(pump->points[1].efficiency.value(), 0.4);
  EXPECT_DOUBLE_EQ(si(pump->points[3].suction_head.value()), 4.0);
  EXPECT_DOUBLE_EQ(pump->points[2].shaft_power.value(), 50.5);
  EXPECT_DOUBLE_EQ(si(pump->atmosphere), 95e3);
  EXPECT_EQ(flow_control_solved(layout).caution("suction-starved"), nullptr);
}

// The tank 27 ft below the pump leaves 10.1 - 8.2 m less friction; the pump requires 2 m and more.
TEST(FlowControlFile, APumpThatStarvesSaysSo) {
  const FlowControlled c =
      flow_control_solved(pump_with_columns("suction_heads = [\"2 m\", \"2.4 m\", \"3 m\", \"4 m\"]", "-27 ft"));
  const Caution* starved = c.caution("suction-starved");
  ASSERT_NE(starved, nullptr);
  EXPECT_LT(starved->value, starved->limit);
  EXPECT_NE(starved->text.find("it would cavitate"), std::string::npos);
}

TEST(FlowControlFile, WrongPumpColumnsAreRefusedAtTheirLine) {
  flow_control_refused([] { (void)pump_with_columns("efficiencies = [\"0 %\", \"40 %\"]"); },
                       "it.toml:8:", "efficiencies");
  flow_control_refused([] { (void)pump_with_columns("efficiencies = [\"0 %\", \"40 %\", \"140 %\", \"50 %\"]"); },
                       "it.toml:8:", "efficiencies #3");
  flow_control_refused([] { (void)pump_with_columns("shaft_powers = [30, \"40\", 50, 55]"); },
                       "it.toml:8:", "shaft_powers #2");
  flow_control_refused([] { (void)pump_with_columns("shaft_powers = [30, 40, 50, -1]"); },
                       "it.toml:8:", "shaft_powers #4");
  flow_control_refused([] { (void)pump_with_columns("suction_heads = [\"2 m\", \"2 m\", \"2.5 m\", \"400 m\"]"); },
                       "it.toml:8:", "suction_heads #4");
}

/// A tank whose level is below the top of a line that then falls further than that.
FlowControlled over_the_top(const std::string& kind) {
  const Layout layout = parse_layout(R"(
place = [
  { id = "tank", kind = "supply", pressure = "0 psi", elevation = "2 ft" },
  { id = "head", kind = "junction", elevation = "3 ft" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
  { id = "hose", kind = "hose", from = "tank", to = "head", length = "6 ft", bore = "3/16 in" },
  { id = "tube", kind = ")" + kind + R"(", from = "head", to = "row 1", bore = "3/16 in", fall = "3 ft", tubes = 1 },
]
)" + flow_control_job,
                                     "it.toml");
  return flow_control_solved(layout);
}

TEST(FlowControlFile, AVentedTubeDoesNotSiphon) {
  EXPECT_GT(over_the_top("row_outlet").flow("tube"), 0.0);  // narrow: its liquid hangs together (Bretherton 1961)
  const FlowControlled vented = over_the_top("vented_tube");
  EXPECT_EQ(vented.flow("tube"), 0.0);
  EXPECT_NE(vented.caution("vent-takes-air"), nullptr);
}

TEST(FlowControlFile, AnOutletInTheSoil) {
  const auto flow = [](const std::string& end) {
    const Layout layout = parse_layout(R"(
place = [
  { id = "pump", kind = "supply", pressure = "10 kPa" },
  { id = "tube", kind = "junction" },
)" + end + R"(
]
part = [
  { id = "orifice", kind = "orifice", from = "pump", to = "tube", bore = "0.06 in" },
  { id = "outlet", kind = "row_outlet", from = "tube", to = "row 1", bore = "1/4 in" },
]
)" + flow_control_job,
                                       "it.toml");
    const FlowControlled c = flow_control_solved(layout);
    EXPECT_EQ(c.plumbing.supply, c.plumbing.network.find_place("pump"));  // the soil is no gauge
    return evaluate(c.plumbing, layout.job, c.solution, layout.job.liquid.at(layout.job.temperature)).rows.at(0).flow;
  };
  const double air = flow("{ id = \"row 1\", kind = \"air\", row = 1, width = \"30 in\" }");
  const double pressed = flow("{ id = \"row 1\", kind = \"soil\", row = 1, width = \"30 in\", pressure = \"5 kPa\" }");
  const double deep = flow("{ id = \"row 1\", kind = \"soil\", row = 1, width = \"30 in\", depth = \"20 cm\" }");
  EXPECT_NEAR(pressed / air, std::sqrt(0.5), 0.01);  // square law of the orifice
  // 20 cm of water is 1.958 kPa of the 10 kPa.
  EXPECT_NEAR(deep / air, std::sqrt(1.0 - 0.1958), 0.01);
  flow_control_refused([&] { (void)flow("{ id = \"row 1\", kind = \"soil\", row = 1, width = \"30 in\" }"); },
                       "it.toml:5:", "pressure");
}

Toolbar sprung_bar(const std::string& check_valve, const std::string& toolbar = {}, const std::string& hose = {}) {
  return std::get<Toolbar>(parse_layout(R"(
[toolbar]
rows = 2
spacing = "30 in"
)" + toolbar + R"(
[[manifold]]
[hose]
bore = "1/4 in"
length = "6 ft"
)" + hose + R"(
[orifice]
bore = "0.06 in"
[check_valve]
)" + check_valve + flow_control_job,
                                        "bar.toml")
                               .plumbing);
}

TEST(FlowControlFile, SprungCheckValvesOfAPlainBar) {
  const Toolbar t =
      sprung_bar("crack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nfull_open = \"7 psi\"\ncrack_spread = \"0.5 psi\"\n");
  ASSERT_TRUE(t.check_valve && t.check_valve->full_open);
  EXPECT_NEAR(si(*t.check_valve->full_open), si(7.0 * units::psi), 1e-9);
  EXPECT_NEAR(si(t.check_valve->crack_spread), si(0.5 * units::psi), 1e-9);
  flow_control_refused([] { (void)sprung_bar("crack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nfull_open = \"3 psi\"\n"); },
                       "bar.toml:16:", "full_open");
  flow_control_refused(
      [] {
        (void)sprung_bar(
            "crack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nrated_loss = \"2 psi\"\nfull_open = \"7 psi\"\n");
      },
      "bar.toml:16:", "rated_loss");
  flow_control_refused(
      [] {
        (void)sprung_bar(
            "crack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nrated_loss = \"2 psi\"\ncrack_spread = \"5 psi\"\n");
      },
      "bar.toml:17:", "crack_spread");
}

TEST(FlowControlFile, HangingOutletsAndHoseWallsOfAPlainBar) {
  const std::string valve = "crack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nrated_loss = \"2 psi\"\n";
  const Toolbar t = sprung_bar(valve, "outlet_bore = \"1/2 in\"\noutlet_fall = \"18 in\"\noutlet_vented = true\n",
                               "wall_thickness = \"1/16 in\"\nmodulus = \"30 MPa\"\n");
  EXPECT_NEAR(si(t.outlet_fall), 18.0 * 0.0254, 1e-12);
  EXPECT_TRUE(t.outlet_vented);
  EXPECT_NEAR(si(t.hose_wall.value()), 0.0254 / 16.0, 1e-12);
  EXPECT_DOUBLE_EQ(si(t.hose_modulus.value()), 30e6);
  flow_control_refused([&] { (void)sprung_bar(valve, "outlet_fall = \"18 in\"\n"); }, "bar.toml:2:", "outlet_bore");
  flow_control_refused([&] { (void)sprung_bar(valve, "outlet_vented = true\n"); }, "bar.toml:5:", "outlet_vented");
  flow_control_refused([&] { (void)sprung_bar(valve, {}, "modulus = \"30 MPa\"\n"); }, "bar.toml:", "wall_thickness");
}

}  // namespace layout_flow_control_test
}  // namespace libflow
