// SPDX-License-Identifier: MIT
/// @file
/// Tanks, pumps, gauges and metering parts of a free-form layout: where they go in the network, and that it solves.

#include <string>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_key.hpp>
#include <libflow/file/layout_keys.hpp>
#include <libflow/file/layout_tank.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/study/main_job.hpp>

namespace layout_tank_test {

using namespace libflow;

constexpr double tank_gallon = 3.785411784e-3, tank_inch = 0.0254, tank_foot = 0.3048;

/// A supply, a hose, a part that meters, and a row.
std::string tank_text_with(const std::string& supply, const std::string& metering, const std::string& middle = "") {
  return R"(place = [
  { id = "supply", kind = "supply", )" +
         supply + R"( },
  { id = "middle", kind = "junction")" +
         middle + R"( },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
  { id = "hose", kind = "hose", from = "supply", to = "middle", length = "10 ft", bore = "3/8 in" },
  { id = "it", from = "middle", to = "row 1", )" +
         metering + R"( },
]
[job]
product = "10-34-0"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
}
const std::string pressure = "pressure = \"30 psi\"";
const std::string orifice = "kind = \"orifice\", bore = \"0.05 in\"";
Layout layout_of(const std::string& text) { return parse_layout(text, "it.toml"); }
Plumbing tank_plumbing_of(const std::string& text) { return std::get<Plumbing>(layout_of(text).plumbing); }

TEST(LayoutTank, ItsOutletIsASupplyHeldByTheLevel) {
  const Layout layout = layout_of(tank_text_with(
      R"(elevation = "2 ft", tank = { shape = "upright_round", diameter = "5 ft", height = "5 ft", level = "4 ft", )"
      R"(outlet_level = "3 in", lowest_level = "6 in", top_pressure = "10 kPa" })",
      orifice));
  const Plumbing& p = std::get<Plumbing>(layout.plumbing);
  const auto& place = p.network.place(p.supply);
  EXPECT_EQ(place.id, "supply");
  EXPECT_EQ(place.kind, PlaceKind::supply);
  EXPECT_NEAR(place.elevation, 2 * tank_foot + 3 * tank_inch, 1e-12);
  const double density = layout.job.liquid.at(layout.job.temperature).density;
  EXPECT_NEAR(place.pressure, 10e3 + density * 9.80665 * (4 * tank_foot - 3 * tank_inch), 1e-6);
}

TEST(LayoutTank, EveryShapeHoldsItsLevel) {
  for (const std::string shape :
       {R"(shape = "upright_round", diameter = "5 ft", height = "5 ft")",
        R"(shape = "upright_box", length = "5 ft", width = "3 ft", height = "4 ft")",
        R"(shape = "lying_round", diameter = "5 ft", length = "8 ft")",
        R"(shape = "lying_oval", height = "4 ft", width = "5 ft", length = "8 ft")",
        R"(shape = "dipstick", dipstick = [["0 m","0 L"],["1 ft","90 gal"],["2 ft","200 gal"], ["4 ft","500 gal"]])"}) {
    const Layout layout = layout_of(tank_text_with("tank = { " + shape + ", level = \"4 ft\" }", orifice));
    const Plumbing& p = std::get<Plumbing>(layout.plumbing);
    const double density = layout.job.liquid.at(layout.job.temperature).density;
    EXPECT_NEAR(p.network.place(p.supply).pressure, density * 9.80665 * 4 * tank_foot, 1e-6) << shape;
  }
}

TEST(LayoutTank, SizesMakeTheTank) {
  const std::string keys = "tank = { shape = \"lying_oval\", height = \"4 ft\", width = \"5 ft\", length = \"8 ft\", ";
  const toml::table table = toml::parse(keys + "level = \"1 ft\" }");
  const auto read = [](const toml::table& top) {
    const LayoutKey tank[] = {{"tank", "table", "under test"}};
    return file_detail::read_tank(file_detail::TomlTable(top, "t", "", tank).table("tank", layout_keys::tank));
  };
  const auto lying = std::get<LyingTank>(read(table).tank.shape);
  EXPECT_NEAR(si(lying.height), 4 * tank_foot, 1e-12);
  EXPECT_NEAR(si(lying.width), 5 * tank_foot, 1e-12);
  EXPECT_NEAR(si(lying.length), 8 * tank_foot, 1e-12);
  EXPECT_NEAR(si(read(table).level), tank_foot, 1e-12);
  const toml::table stick = toml::parse(
      "tank = { shape = \"dipstick\", level = \"1 in\", dipstick = [[\"0 in\", \"0 gal\"], [\"9 in\", \"80 gal\"]] }");
  const auto rows = std::get<TankTable>(read(stick).tank.shape).rows;
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_NEAR(si(rows[1].level), 9 * tank_inch, 1e-12);
  EXPECT_NEAR(si(rows[1].volume), 80 * tank_gallon, 1e-12);
}

TEST(LayoutGauge, MayStandAtAJunction) {
  EXPECT_EQ(tank_plumbing_of(tank_text_with(pressure, orifice)).network.find_place("supply"),
            tank_plumbing_of(tank_text_with(pressure, orifice)).supply);
  const Plumbing p = tank_plumbing_of(tank_text_with(pressure, orifice, ", gauge = true"));
  EXPECT_EQ(p.supply, p.network.find_place("middle"));
}

TEST(LayoutRows, WhatMetersARowIsFoundOnItsPath) {
  const auto row_of = [](const std::string& part) {
    return tank_plumbing_of(tank_text_with(pressure, part)).rows.at(0);
  };
  EXPECT_EQ(row_of(orifice).orifices.size(), 1U);
  EXPECT_EQ(row_of(R"(kind = "orifice_pair", bore="1 mm", second_bore="1 mm", gap="1 cm")").orifices.size(), 1U);
  EXPECT_EQ(row_of(R"(kind = "pulsed_valve", passage_bore="3 mm", outlet_bore="1 mm")").orifices.size(), 1U);
  EXPECT_EQ(row_of(R"(kind = "pulsed_valve", passage_bore="3 mm")").orifices.size(), 0U);
  EXPECT_EQ(row_of(R"(kind = "row_outlet", bore="6 mm")").orifices.size(), 0U);
  EXPECT_EQ(row_of(R"(kind = "row_outlet", bore="6 mm")").last_parts.size(), 1U);
}

TEST(LayoutRows, ASuspensionHoseIsCutFromTheRoll) {
  std::string text = tank_text_with(pressure, orifice);
  const std::string plain = "kind = \"hose\"";
  text.replace(text.find(plain), plain.size(), "kind = \"suspension_hose\", consistency = 0.5, flow_index = 0.7");
  const Plumbing p = tank_plumbing_of(text);
  EXPECT_NEAR(p.hose_total, 10 * tank_foot, 1e-12);
  EXPECT_NEAR(p.rows.at(0).hose_length, 10 * tank_foot, 1e-12);
  EXPECT_EQ(p.rows.at(0).hoses.size(), 1U);
}

TEST(LayoutRows, AShutValveGivesItsRowNothing) {
  const Answer shut =
      main_job(layout_of(tank_text_with(pressure, R"(kind="valve", bore="1 cm", cv="2 gpm", open="0 %")")));
  ASSERT_TRUE(shut.solution.usable());
  EXPECT_EQ(shut.solution.parts.at(shut.plumbing.network.find_part("it")).flow, 0.0);
}

TEST(LayoutTank, TheExampleWithTankAndPumpIsSolved) {
  const Answer answer = main_job(read_layout(std::string(LIBFLOW_EXAMPLES) + "/tank_and_pump.toml"));
  ASSERT_TRUE(answer.solution.usable());
  const auto flow = [&](const std::string& id) {
    return answer.solution.parts.at(answer.plumbing.network.find_part(id)).flow;
  };
  // All that the pump draws from the tank reaches the rows; the relief valve stays shut above the pump's shutoff.
  EXPECT_EQ(flow("relief"), 0.0);
  EXPECT_GT(flow("pump"), 0.0);
  EXPECT_NEAR(flow("pair 1") + flow("pair 2") + flow("pair 3") + flow("pair 4"), flow("pump"), 1e-12);
  // Mirrored rows get the same, those with longer hoses less.
  EXPECT_NEAR(flow("pair 1"), flow("pair 4"), 1e-12);
  EXPECT_LT(flow("pair 1"), flow("pair 2"));
  // Nearly at no flow the pump gives its shutoff; with the liquid standing 2 ft above, it is less hose and valve.
  EXPECT_NEAR(answer.evenness.supply_pressure, 45 * 6894.757 + answer.liquid.density * 9.80665 * 2 * tank_foot, 2000.0);
  ASSERT_EQ(answer.evenness.rows.size(), 4U);
  EXPECT_GT(answer.evenness.rows[0].orifice_drop, 0.5 * answer.evenness.supply_pressure);
}

}  // namespace layout_tank_test
