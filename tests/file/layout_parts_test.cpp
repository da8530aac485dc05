// SPDX-License-Identifier: MIT
/// @file
/// Every kind of [[part]]: from its text to a part with SI values.

#include <cmath>
#include <numbers>
#include <string>
#include <string_view>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/parts/barb.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice_pair.hpp>
#include <libflow/parts/reducer.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/parts/suspension_hose.hpp>
#include <libflow/parts/table_part.hpp>
#include <libflow/parts/vented_tube.hpp>

namespace layout_parts_test {

using namespace libflow;

constexpr double psi = 6894.757293168361, gallon = 3.785411784e-3, gpm = gallon / 60.0, inch = 0.0254, foot = 0.3048;

/// A supply, the part, and a row behind it.
Plumbing plumbing_with(const std::string& fields) {
  const std::string text = R"(
place = [
  { id = "supply", kind = "supply", pressure = "30 psi" },
  { id = "middle", kind = "junction" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
  { id = "it", from = "supply", to = "middle", )" +
                           fields + R"( },
  { id = "end", kind = "open_end", from = "middle", to = "row 1", bore = "1/4 in" },
]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
  return std::get<Plumbing>(parse_layout(text, "it.toml").plumbing);
}

template <PartType T>
T read(const std::string& fields) {
  const Plumbing p = plumbing_with(fields);
  const T* part = p.network.part(p.network.find_part("it")).part.as<T>();
  if (part == nullptr) throw std::logic_error("another type of part: " + fields);
  return *part;
}

TEST(LayoutParts, HoseWithItsExtras) {
  const auto hose = read<Hose>(
      "kind = \"hose\", length = \"14 ft\", bore = \"3/8 in\", wall = \"rubber\", rating = \"150 psi\", "
      "wall_thickness = \"1/8 in\", coil_diameter = \"12 in\", entrance = true");
  EXPECT_NEAR(si(hose.length), 14 * foot, 1e-12);
  EXPECT_NEAR(si(hose.bore), 0.375 * inch, 1e-15);
  EXPECT_EQ(si(hose.roughness), si(roughness_of(Wall::rubber)));
  EXPECT_NEAR(si(hose.rating.value()), 150 * psi, 1e-6);
  EXPECT_NEAR(si(hose.wall_thickness.value()), 0.125 * inch, 1e-15);
  EXPECT_NEAR(si(hose.coil_diameter.value()), 12 * inch, 1e-15);
  EXPECT_TRUE(hose.entrance);

  const auto plain = read<Hose>("kind = \"pipe\", length = \"14 ft\", bore = \"3/8 in\", roughness = \"0.01 mm\"");
  EXPECT_NEAR(si(plain.roughness), 1e-5, 1e-18);
  EXPECT_FALSE(plain.entrance || plain.coil_diameter || plain.wall_thickness || plain.rating);
}

TEST(LayoutParts, EveryWallIsKnownByItsName) {
  for (const WallRoughness& wall : wall_roughness_table) {
    const auto hose =
        read<Hose>("kind = \"pipe\", length = \"3 ft\", bore = \"1 in\", wall = \"" + std::string(wall.name) + "\"");
    EXPECT_EQ(si(hose.roughness), si(wall.roughness)) << wall.name;
  }
}

TEST(LayoutParts, SuspensionHose) {
  const auto hose = read<SuspensionHose>(
      "kind = \"suspension_hose\", length = \"3 m\", bore = \"20 mm\", consistency = 0.8, flow_index = 0.6, "
      "plateau_shear_rate = 0.1, rating = \"10 bar\"");
  EXPECT_DOUBLE_EQ(si(hose.length), 3.0);
  EXPECT_DOUBLE_EQ(si(hose.bore), 0.02);
  EXPECT_EQ(hose.consistency, 0.8);
  EXPECT_EQ(hose.flow_index, 0.6);
  EXPECT_EQ(hose.plateau_shear_rate, 0.1);
  EXPECT_DOUBLE_EQ(si(hose.rating.value()), 1e6);
}

TEST(LayoutParts, OrificePair) {
  const auto pair = read<OrificePair>(
      "kind = \"orifice_pair\", bore = \"0.06 in\", thickness = \"0.02 in\", coefficient = 0.7, "
      "second_bore = \"0.05 in\", second_thickness = \"0.1 in\", second_coefficient = 0.8, gap = \"1 in\"");
  EXPECT_NEAR(si(pair.first.bore), 0.06 * inch, 1e-15);
  EXPECT_NEAR(si(pair.first.thickness), 0.02 * inch, 1e-15);
  EXPECT_EQ(pair.first.discharge_coefficient.value(), 0.7);
  EXPECT_NEAR(si(pair.second.bore), 0.05 * inch, 1e-15);
  EXPECT_NEAR(si(pair.second.thickness), 0.1 * inch, 1e-15);
  EXPECT_EQ(pair.second.discharge_coefficient.value(), 0.8);
  EXPECT_NEAR(si(pair.gap), inch, 1e-15);
}

TEST(LayoutParts, CheckValveThatOpensAtOnceOrAgainstItsSpring) {
  const auto plain = read<CheckValve>(
      "kind = \"check_valve\", crack = \"4 psi\", rated_flow = \"1 gpm\", rated_loss = \"2 psi\", "
      "crack_spread = \"0.5 psi\"");
  EXPECT_NEAR(si(plain.crack), 4 * psi, 1e-8);
  EXPECT_NEAR(si(plain.crack_spread), 0.5 * psi, 1e-8);
  EXPECT_FALSE(plain.full_open);

  const auto sprung =
      read<CheckValve>("kind = \"check_valve\", crack = \"4 psi\", full_open = \"7 psi\", rated_flow = \"1 gpm\"");
  EXPECT_NEAR(si(sprung.crack), 4 * psi, 1e-8);
  EXPECT_NEAR(si(sprung.full_open.value()), 7 * psi, 1e-8);
  // Fully open, its passage loses all of the 7 psi; that of the other one, 2 psi beyond the crack pressure.
  EXPECT_LT(si(sprung.passage_bore), si(plain.passage_bore));
  EXPECT_EQ(si(sprung.passage_bore), si(Orifice::rated(1.0 * units::gpm, 7.0 * units::psi).bore));
}

TEST(LayoutParts, ReliefValveByItsRatingOrItsPassage) {
  const auto rated = read<ReliefValve>(
      "kind = \"relief_valve\", set = \"60 psi\", rated_flow = \"20 gpm\", accumulation = \"10 psi\"");
  EXPECT_NEAR(si(rated.set), 60 * psi, 1e-7);
  EXPECT_EQ(si(rated.passage_bore), si(Orifice::rated(20.0 * units::gpm, 10.0 * units::psi).bore));
  const auto by_passage = read<ReliefValve>("kind = \"relief_valve\", set = \"4 bar\", passage_bore = \"12 mm\"");
  EXPECT_DOUBLE_EQ(si(by_passage.set), 4e5);
  EXPECT_DOUBLE_EQ(si(by_passage.passage_bore), 0.012);
}

TEST(LayoutParts, ValveByKvOrCv) {
  const auto by_kv = read<Valve>(
      "kind = \"valve\", kv = \"3.6 m3/h\", bore = \"25 mm\", open = \"40 %\", characteristic = \"linear\", "
      "rangeability = 30, recovery = 0.74, style = 0.99");
  EXPECT_NEAR(si(by_kv.kv), 1e-3, 1e-15);
  EXPECT_DOUBLE_EQ(si(by_kv.bore), 0.025);
  EXPECT_DOUBLE_EQ(by_kv.open, 0.4);
  EXPECT_EQ(by_kv.characteristic, ValveCharacteristic::linear);
  EXPECT_EQ(by_kv.rangeability, 30.0);
  EXPECT_EQ(by_kv.recovery, 0.74);
  EXPECT_EQ(by_kv.style, 0.99);

  // Kv = 0.865 Cv, in m3/h and US gal/min: IEC 60534-2-1, from memory.
  const auto by_cv = read<Valve>("kind = \"valve\", cv = \"8 gpm\", bore = \"1 in\"");
  EXPECT_NEAR(si(by_cv.kv) * 3600.0, 0.865 * 8.0, 0.0005 * 8.0);
  EXPECT_EQ(by_cv.open, 1.0);
  EXPECT_EQ(by_cv.characteristic, ValveCharacteristic::equal_percentage);
}

TEST(LayoutParts, PulsedValve) {
  const auto valve = read<PulsedValve>(
      "kind = \"pulsed_valve\", rated_flow = \"1 gpm\", rated_loss = \"3 psi\", outlet_bore = \"0.05 in\", "
      "duty = \"60 %\", frequency = 15, opening_lag = \"7 ms\", closing_lag = \"5 ms\"");
  EXPECT_EQ(si(valve.passage_bore), si(Orifice::rated(1.0 * units::gpm, 3.0 * units::psi).bore));
  EXPECT_NEAR(si(valve.outlet_bore.value()), 0.05 * inch, 1e-15);
  EXPECT_DOUBLE_EQ(valve.duty, 0.6);
  EXPECT_EQ(valve.frequency, 15.0);
  EXPECT_DOUBLE_EQ(si(valve.opening_lag), 7e-3);
  EXPECT_DOUBLE_EQ(si(valve.closing_lag), 5e-3);
  const auto open = read<PulsedValve>("kind = \"pulsed_valve\", passage_bore = \"4 mm\"");
  EXPECT_DOUBLE_EQ(si(open.passage_bore), 0.004);
  EXPECT_EQ(open.duty, 1.0);
  EXPECT_FALSE(open.outlet_bore);
}

TEST(LayoutParts, Reducer) {
  const auto cone = read<Reducer>("kind = \"reducer\", from_bore = \"1 in\", to_bore = \"1/2 in\", cone = \"30 deg\"");
  EXPECT_NEAR(si(cone.from_bore), inch, 1e-15);
  EXPECT_NEAR(si(cone.to_bore), 0.5 * inch, 1e-15);
  EXPECT_NEAR(si(cone.cone), std::numbers::pi / 6.0, 1e-14);
  EXPECT_EQ(si(read<Reducer>("kind = \"reducer\", from_bore = \"1 in\", to_bore = \"2 in\"").cone), std::numbers::pi);
  EXPECT_NEAR(
      si(read<Reducer>("kind = \"reducer\", from_bore = \"1 in\", to_bore = \"2 in\", cone = \"180 deg\"").cone),
      std::numbers::pi, 1e-14);
}

TEST(LayoutParts, Barb) {
  const auto barb = read<Barb>(
      "kind = \"barb\", bore = \"6 mm\", hose_bore = \"9.5 mm\", length = \"25 mm\", roughness = \"0.002 mm\"");
  EXPECT_DOUBLE_EQ(si(barb.bore), 0.006);
  EXPECT_DOUBLE_EQ(si(barb.hose_bore), 0.0095);
  EXPECT_DOUBLE_EQ(si(barb.length), 0.025);
  EXPECT_NEAR(si(barb.roughness), 2e-6, 1e-18);
}

TEST(LayoutParts, StrainerByMeshOrOpening) {
  const auto by_mesh = read<Strainer>(
      "kind = \"strainer\", bore = \"1 in\", rated_flow = \"20 gpm\", rated_loss = \"2 psi\", mesh = 50, "
      "open_area = \"20 in2\", blocked = \"30 %\", orifice_bore = \"0.04 in\"");
  EXPECT_NEAR(si(by_mesh.bore), inch, 1e-15);
  EXPECT_NEAR(si(by_mesh.rated_flow), 20 * gpm, 1e-15);
  EXPECT_NEAR(si(by_mesh.rated_loss), 2 * psi, 1e-8);
  EXPECT_NEAR(si(by_mesh.opening), 0.3e-3, 1e-15) << "ASTM E11, No. 50: 0.300 mm (from memory)";
  EXPECT_NEAR(si(by_mesh.open_area), 20 * inch * inch, 1e-14);
  EXPECT_DOUBLE_EQ(by_mesh.blocked, 0.3);
  EXPECT_NEAR(si(by_mesh.orifice_bore.value()), 0.04 * inch, 1e-15);
  const auto by_opening = read<Strainer>(
      "kind = \"strainer\", bore = \"1 in\", rated_flow = \"20 gpm\", rated_loss = \"2 psi\", opening = \"0.5 mm\", "
      "open_area = \"20 in2\"");
  EXPECT_DOUBLE_EQ(si(by_opening.opening), 5e-4);
  EXPECT_EQ(by_opening.blocked, 0.0);
}

TEST(LayoutParts, FlowMeter) {
  const auto meter = read<FlowMeter>(
      "kind = \"flow_meter\", bore = \"1 in\", rated_flow = \"30 gpm\", rated_loss = \"3 psi\", "
      "least_flow = \"2 gpm\", most_flow = \"40 gpm\"");
  EXPECT_NEAR(si(meter.bore), inch, 1e-15);
  EXPECT_NEAR(si(meter.rated_flow), 30 * gpm, 1e-15);
  EXPECT_NEAR(si(meter.rated_loss), 3 * psi, 1e-8);
  EXPECT_NEAR(si(meter.least), 2 * gpm, 1e-15);
  EXPECT_NEAR(si(meter.most), 40 * gpm, 1e-15);
}

TEST(LayoutParts, RowOutlet) {
  const auto outlet = read<RowOutlet>("kind = \"row_outlet\", bore = \"1/4 in\", tubes = 2, fall = \"18 in\"");
  EXPECT_NEAR(si(outlet.bore), 0.25 * inch, 1e-15);
  EXPECT_EQ(outlet.count, 2);
  EXPECT_NEAR(si(outlet.fall), 18 * inch, 1e-15);
  EXPECT_EQ(read<RowOutlet>("kind = \"row_outlet\", bore = \"1/4 in\"").count, 1);
}

TEST(LayoutParts, VentedTube) {
  const auto pair = read<VentedTube>("kind = \"vented_tube\", bore = \"1/4 in\", tubes = 2, fall = \"18 in\"");
  EXPECT_NEAR(si(pair.bore), 0.25 * inch, 1e-15);
  EXPECT_EQ(pair.count, 2);
  EXPECT_NEAR(si(pair.fall), 18 * inch, 1e-15);
  EXPECT_EQ(read<VentedTube>("kind = \"vented_tube\", bore = \"1/4 in\", fall = \"18 in\"").count, 1);
}

TEST(LayoutParts, TablePart) {
  const auto part = read<TablePart>(
      "kind = \"table_part\", points = [[\"1 gpm\", \"2 psi\"], [\"2 gpm\", \"7 psi\"]], density = \"1.2 kg/L\", "
      "viscosity = \"5 cP\", rigid = false");
  ASSERT_EQ(part.points.size(), 2U);
  EXPECT_NEAR(si(part.points[1].flow), 2 * gpm, 1e-16);
  EXPECT_NEAR(si(part.points[1].drop), 7 * psi, 1e-8);
  EXPECT_DOUBLE_EQ(si(part.density), 1200.0);
  EXPECT_DOUBLE_EQ(si(part.viscosity), 0.005);
  EXPECT_FALSE(part.rigid);
  EXPECT_TRUE(
      read<TablePart>("kind = \"table_part\", points = [[\"1 gpm\", \"2 psi\"], [\"2 gpm\", \"7 psi\"]]").rigid);
}

TEST(LayoutParts, CentrifugalPump) {
  const auto pump = read<CentrifugalPump>(
      "kind = \"centrifugal_pump\", shutoff = \"60 psi\", free_flow = \"100 gpm\", linear_share = \"10 %\", "
      "speed = \"90 %\"");
  EXPECT_NEAR(si(pump.shutoff), 60 * psi, 1e-7);
  EXPECT_NEAR(si(pump.free_flow), 100 * gpm, 1e-14);
  EXPECT_DOUBLE_EQ(pump.linear_share, 0.1);
  EXPECT_DOUBLE_EQ(pump.speed, 0.9);
}

TEST(LayoutParts, PumpCurve) {
  const auto pump = read<PumpCurve>(
      "kind = \"pump_curve\", speed = \"110 %\", density = \"1000 kg/m3\", points = "
      "[[\"0 gpm\", \"60 psi\"], [\"20 gpm\", \"55 psi\"], [\"40 gpm\", \"45 psi\"], [\"60 gpm\", \"25 psi\"]]");
  ASSERT_EQ(pump.points.size(), 4U);
  EXPECT_EQ(si(pump.points[0].flow), 0.0);
  EXPECT_NEAR(si(pump.points[0].gain), 60 * psi, 1e-7);
  EXPECT_NEAR(si(pump.points[3].flow), 60 * gpm, 1e-14);
  EXPECT_NEAR(si(pump.points[3].gain), 25 * psi, 1e-7);
  EXPECT_DOUBLE_EQ(pump.speed, 1.1);
  EXPECT_DOUBLE_EQ(si(pump.points_density), 1000.0);
}

TEST(LayoutParts, PositivePump) {
  const auto pump = read<PositivePump>(
      "kind = \"positive_pump\", displacement = \"0.1 gal\", rpm = 540, slip_flow = \"2 gpm\", slip_gain = \"100 "
      "psi\", "
      "slip_viscosity = \"20 cP\", max_pressure = \"300 psi\"");
  EXPECT_NEAR(si(pump.displacement), 0.1 * gallon, 1e-16);
  EXPECT_EQ(pump.rpm, 540.0);
  EXPECT_NEAR(si(pump.slip.flow), 2 * gpm, 1e-16);
  EXPECT_NEAR(si(pump.slip.gain), 100 * psi, 1e-7);
  EXPECT_DOUBLE_EQ(si(pump.slip.viscosity), 0.02);
  EXPECT_NEAR(si(pump.max_pressure.value()), 300 * psi, 1e-6);
}

TEST(LayoutParts, GroundDrivenPumpTurnsWithTheJobsSpeed) {
  const auto pump = read<GroundDrivenPump>(
      "kind = \"ground_driven_pump\", displacement = \"1 gal\", distance = \"100 ft\", slip_flow = \"0.01 gpm\", "
      "slip_gain = \"30 psi\"");
  EXPECT_NEAR(si(pump.displacement), gallon, 1e-15);
  EXPECT_NEAR(si(pump.distance), 100 * foot, 1e-12);
  EXPECT_NEAR(si(pump.ground_speed), 6 * 0.44704, 1e-12);
  // 1 gal in 100 ft at 6 mph, 528 ft/min: 5.28 gpm.
  EXPECT_NEAR(si(pump.swept()), 5.28 * gpm, 1e-14);
  EXPECT_FALSE(pump.max_pressure);
}

// Wear is flow: a worn hole passes so much more at the pressure of the test (Orifice::worn).
TEST(LayoutParts, AWornOrificePassesMore) {
  LiquidState water;
  water.density = water_density<double>(293.15);
  water.viscosity = water_viscosity<double>(293.15);
  const auto flow = [&](const std::string& fields, double pressure) {
    return si(read<Orifice>("kind = \"orifice\", " + fields).flow_at(from_si<Pressure>(pressure), water));
  };
  const double fresh = flow("bore = \"0.05 in\"", 40.0 * psi);
  EXPECT_NEAR(flow("bore = \"0.05 in\", wear = \"5 %\"", 40.0 * psi) / fresh, 1.05, 1e-9);
  EXPECT_NEAR(flow("bore = \"0.05 in\", wear = \"0 %\"", 40.0 * psi) / fresh, 1.0, 1e-15);
  EXPECT_NEAR(flow("bore = \"0.05 in\", wear = \"5 %\", wear_pressure = \"10 psi\"", 10.0 * psi) /
                  flow("bore = \"0.05 in\"", 10.0 * psi),
              1.05, 1e-9);
  EXPECT_NEAR(flow("rated_flow = \"0.2 gpm\", rated_pressure = \"20 psi\", wear = \"8 %\"", 20.0 * psi),
              1.08 * 0.2 * gpm, 1e-9 * gpm);
}

TEST(LayoutParts, WearOutOfRangeOrHalfGivenIsRefused) {
  const auto refused = [](const std::string& fields, const std::string& where) {
    try {
      (void)plumbing_with("kind = \"orifice\", " + fields);
      ADD_FAILURE() << "nothing thrown: " << fields;
    } catch (const InputError& e) {
      EXPECT_NE(std::string(e.what()).find(where), std::string::npos) << e.what();
    }
  };
  refused("bore = \"0.05 in\", wear = \"-1 %\"", "wear");
  refused("bore = \"0.05 in\", wear = \"101 %\"", "wear");
  refused("bore = \"0.05 in\", wear_pressure = \"40 psi\"", "'wear'");
  refused("rated_flow = \"1 gpm\", rated_pressure = \"20 psi\", wear = \"5 %\", wear_pressure = \"40 psi\"",
          "wear_pressure");
  refused("bore = \"50 mm\", wear = \"50 %\"", "wear");
}

// All rows of a bar, and one that has its own.
TEST(LayoutParts, WearOfABarsOrifices) {
  const std::string head =
      "[job]\nproduct = \"water\"\ntemperature = \"60 F\"\nrate = \"10 gal/ac\"\nspeed = \"5 mph\"\n[toolbar]\n"
      "rows = 2\nspacing = \"30 in\"\n[[manifold]]\n[hose]\nbore = \"3/8 in\"\nlength = \"8 ft\"\n[[row]]\n"
      "number = 2\norifice = { bore = \"1.4 mm\", wear = \"21 %\" }\n[orifice]\nbore = \"1.5 mm\"\n";
  const auto bar_of = [](const std::string& text) {
    return std::get<Toolbar>(parse_layout(text, "bar.toml").plumbing);
  };
  const Toolbar worn = bar_of(head + "wear = \"10 %\"\n");
  // A jet: bore x sqrt(1 + wear), within what the coefficient still changes with Reynolds number.
  EXPECT_NEAR(si(std::get<OrificeByBore>(*worn.orifice).bore) / (1.5e-3 * std::sqrt(1.1)), 1.0, 1e-3);
  EXPECT_NEAR(si(std::get<OrificeByBore>(*worn.row_changes.at(0).orifice).bore) / (1.4e-3 * 1.1), 1.0, 1e-3);
  EXPECT_DOUBLE_EQ(si(std::get<OrificeByBore>(*bar_of(head).orifice).bore), 1.5e-3);
}

}  // namespace layout_parts_test
