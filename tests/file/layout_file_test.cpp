// SPDX-License-Identifier: MIT
/// @file
/// A layout file becomes the Layout that it describes: units to SI, defaults, every key.

#include <cmath>
#include <filesystem>
#include <set>
#include <string>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_key.hpp>
#include <libflow/file/layout_keys.hpp>

namespace layout_file_test {

using namespace libflow;

// Exact definitions: 1 in = 0.0254 m, 1 ft = 0.3048 m, 1 mph = 0.44704 m/s, 1 gal = 231 in3, 1 ac = 43,560 ft2,
// 1 psi = 6894.757 Pa (to 7 digits).
constexpr const char* whole_bar = R"(
name = "Test bar"
units = "metric"

[job]
product = "28-0-0"
temperature = "50 F"
rate = "10 gal/ac"
speed = "5 mph"
tolerance = "4 %"
pressure = "30 psi"
turn = "right"
turn_radius = "100 ft"
pump_limit = "60 psi"

[toolbar]
rows = 4
spacing = "30 in"
side_slope = "10 %"
fore_aft_slope = "-5 %"
outlets_behind = "2 ft"
outlets_per_row = 2
metering = "manifold"
outlet_bore = "1/4 in"

[[manifold]]
id = "left"
first_row = 1
last_row = 2
position = "-3 ft"
bore = "3/4 in"
port_spacing = "2 in"
feed = "both_ends"
feed_length = "6 ft"
feed_bore = "1/2 in"
height = "1 ft"
junction_losses = true
[[manifold]]
first_row = 3

[hose]
bore = "3/8 in"
lengths = ["8 ft", "6 ft", "6 ft", "8' 6\""]
roughness = "0.01 mm"
rating = "150 psi"

[orifice]
rated_flow = "0.2 gpm"
rated_pressure = "20 psi"

[check_valve]
crack = "4 psi"
rated_flow = "0.5 gpm"
rated_loss = "2 psi"

[[row]]
number = 4
hose_length = "7 ft"
hose_bore = "1/4 in"
orifice = { bore = "0.05 in", thickness = "0.02 in", coefficient = 0.7 }
crack = "6 psi"
width = "20 in"
height = "-1 in"
[[row]]
number = 2
shut = true
)";

TEST(LayoutFile, ReadsEveryKeyOfABar) {
  const Layout layout = parse_layout(whole_bar, "bar.toml");
  EXPECT_EQ(layout.name, "Test bar");
  EXPECT_EQ(layout.units, UnitSystem::metric);

  const Job& job = layout.job;
  EXPECT_EQ(job.liquid.id(), find_liquid("28-0-0").id());
  EXPECT_NEAR(si(job.temperature), 283.15, 1e-9);
  EXPECT_NEAR(si(job.rate), 10.0 * 231 * std::pow(0.0254, 3) / (43560 * std::pow(0.3048, 2)), 1e-18);
  EXPECT_NEAR(si(job.speed), 5 * 0.44704, 1e-12);
  EXPECT_NEAR(job.tolerance, 0.04, 1e-15);
  EXPECT_NEAR(si(job.pressure.value()), 30 * 6894.757, 0.1);
  EXPECT_NEAR(si(job.turn_radius.value()), -30.48, 1e-12);  // right: left rows run faster
  EXPECT_NEAR(si(job.pump_limit.value()), 60 * 6894.757, 0.1);

  const Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  EXPECT_EQ(bar.rows, 4);
  EXPECT_NEAR(si(bar.spacing), 0.762, 1e-15);
  EXPECT_NEAR(si(bar.side_slope), std::atan(0.10), 1e-15);
  EXPECT_NEAR(si(bar.fore_aft_slope), std::atan(-0.05), 1e-15);
  EXPECT_NEAR(si(bar.outlets_behind), 0.6096, 1e-15);
  EXPECT_EQ(bar.outlets_per_row, 2);
  EXPECT_EQ(bar.metering, MeteringPlace::manifold);
  EXPECT_NEAR(si(bar.outlet_bore), 0.00635, 1e-15);

  ASSERT_EQ(bar.manifolds.size(), 2U);
  const Manifold& left = bar.manifolds[0];
  EXPECT_EQ(left.id, "left");
  EXPECT_EQ(left.first_row, 1);
  EXPECT_EQ(left.last_row, 2);
  EXPECT_NEAR(si(left.position.value()), -0.9144, 1e-15);
  EXPECT_NEAR(si(left.bore), 0.01905, 1e-15);
  EXPECT_NEAR(si(left.port_spacing), 0.0508, 1e-15);
  EXPECT_EQ(left.feed, ManifoldFeed::both_ends);
  EXPECT_NEAR(si(left.feed_length), 1.8288, 1e-15);
  EXPECT_NEAR(si(left.feed_bore), 0.0127, 1e-15);
  EXPECT_NEAR(si(left.height), 0.3048, 1e-15);
  EXPECT_EQ(bar.manifolds[1].first_row, 3);
  EXPECT_EQ(bar.manifolds[1].last_row, Manifold{}.last_row);
  EXPECT_FALSE(bar.manifolds[1].position.has_value());
  EXPECT_TRUE(left.junction_losses);
  EXPECT_FALSE(bar.manifolds[1].junction_losses);

  EXPECT_EQ(bar.hose.kind, HoseSchedule::Kind::listed);
  ASSERT_EQ(bar.hose.lengths.size(), 4U);
  EXPECT_NEAR(si(bar.hose.lengths[3]), 8.5 * 0.3048, 1e-12);
  EXPECT_NEAR(si(bar.hose_bore), 0.009525, 1e-15);
  EXPECT_NEAR(si(bar.hose_roughness), 1e-5, 1e-18);
  EXPECT_NEAR(si(bar.hose_rating.value()), 150 * 6894.757, 0.5);

  const auto& rated = std::get<OrificeByRating>(bar.orifice.value());
  EXPECT_NEAR(si(rated.flow), 0.2 * 231 * std::pow(0.0254, 3) / 60, 1e-18);
  EXPECT_NEAR(si(rated.pressure), 20 * 6894.757, 0.1);
  EXPECT_NEAR(si(bar.check_valve.value().crack), 4 * 6894.757, 0.1);
  EXPECT_NEAR(si(bar.check_valve.value().rated_loss), 2 * 6894.757, 0.1);

  ASSERT_EQ(bar.row_changes.size(), 2U);
  const RowChange& four = bar.row_changes[0];
  EXPECT_EQ(four.row, 4);
  EXPECT_NEAR(si(four.hose_length.value()), 2.1336, 1e-15);
  EXPECT_NEAR(si(four.hose_bore.value()), 0.00635, 1e-15);
  const auto& bored = std::get<OrificeByBore>(four.orifice.value());
  EXPECT_NEAR(si(bored.bore), 0.00127, 1e-15);
  EXPECT_NEAR(si(bored.thickness), 0.000508, 1e-15);
  EXPECT_NEAR(bored.discharge_coefficient.value(), 0.7, 1e-15);
  EXPECT_NEAR(si(four.crack.value()), 6 * 6894.757, 0.1);
  EXPECT_NEAR(si(four.width.value()), 0.508, 1e-15);
  EXPECT_NEAR(si(four.height.value()), -0.0254, 1e-15);
  EXPECT_FALSE(four.shut);
  EXPECT_TRUE(bar.row_changes[1].shut);
}

constexpr const char* short_bar = R"(
[job]
product = "water"
temperature = "20 C"
rate = "100 L/ha"
speed = "8 km/h"
[toolbar]
rows = 2
spacing = "75 cm"
[[manifold]]
[hose]
bore = "10 mm"
length = "3 m"
[orifice]
bore = "1 mm"
)";

TEST(LayoutFile, WhatIsNotWrittenHasTheDefaultsOfTheStructs) {
  const Layout layout = parse_layout(short_bar, "some/where/north.toml");
  EXPECT_EQ(layout.name, "north");  // the file's name
  EXPECT_EQ(layout.units, UnitSystem::us);
  EXPECT_DOUBLE_EQ(layout.job.tolerance, Job{}.tolerance);
  EXPECT_FALSE(layout.job.pressure || layout.job.turn_radius || layout.job.pump_limit);
  const Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  EXPECT_EQ(bar.hose.kind, HoseSchedule::Kind::same);
  EXPECT_DOUBLE_EQ(si(bar.hose.length), 3.0);
  EXPECT_EQ(bar.metering, MeteringPlace::outlet);
  EXPECT_EQ(bar.outlets_per_row, 1);
  EXPECT_FALSE(bar.check_valve);
  EXPECT_DOUBLE_EQ(si(bar.hose_roughness), si(Toolbar{}.hose_roughness));
  EXPECT_DOUBLE_EQ(si(bar.manifolds.at(0).bore), si(Manifold{}.bore));
  EXPECT_TRUE(bar.row_changes.empty());
}

/// The short bar with one piece of its text replaced.
std::string with(const std::string& from, const std::string& to) {
  std::string text = short_bar;
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

TEST(LayoutFile, ShortestScheduleAndBarWithoutOrifices) {
  const Layout layout = parse_layout(with("length = \"3 m\"", "schedule = \"shortest\"\nextra = \"50 cm\""), "t");
  const Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  EXPECT_EQ(bar.hose.kind, HoseSchedule::Kind::shortest);
  EXPECT_DOUBLE_EQ(si(bar.hose.extra), 0.5);
  const Layout open = parse_layout(with("bore = \"1 mm\"", "none = true"), "t");
  EXPECT_FALSE(std::get<Toolbar>(open.plumbing).orifice.has_value());
}

TEST(LayoutFile, AWindowOfTheOrificesMayBeOpenAtOneEnd) {
  const auto bar = [](const std::string& line) {
    return std::get<Toolbar>(parse_layout(with("spacing = \"75 cm\"", "spacing = \"75 cm\"\n" + line), "t").plumbing);
  };
  const Toolbar least = bar("orifice_least = \"1 bar\""), most = bar("orifice_most = \"4 bar\"");
  EXPECT_NEAR(si(least.orifice_least.value()), 1e5, 1e-6);
  EXPECT_FALSE(least.orifice_most);
  EXPECT_FALSE(most.orifice_least);
  EXPECT_NEAR(si(most.orifice_most.value()), 4e5, 1e-6);
}

TEST(LayoutFile, OwnFiguresReplaceThoseOfANamedLiquid) {
  const std::string text = with("product = \"water\"", "product = \"10-34-0\"") +
                           "[product]\ndensity = \"11.5 lb/gal\"\n"
                           "viscosity = [[\"10 C\", \"90 cP\"], [\"30 C\", \"40 cP\"]]\n";
  const Layout layout = parse_layout(text, "t");
  EXPECT_EQ(layout.job.liquid.id(), find_liquid("10-34-0").id());
  EXPECT_NEAR(si(layout.job.liquid.viscosity_at(units::celsius(10))), 0.090, 1e-12);
  EXPECT_NEAR(si(layout.job.liquid.viscosity_at(units::celsius(30))), 0.040, 1e-12);
  // 11.5 lb/gal at the trade's 60 F: 11.5 x 119.8264 kg/m3 (exact pounds and gallons).
  EXPECT_NEAR(si(layout.job.liquid.density_at(units::fahrenheit(60))), 11.5 * 119.8264, 0.01);
}

TEST(LayoutFile, ANewLiquidByItsPoints) {
  const std::string text = with("product = \"water\"\n", "") +
                           "[product]\nname = \"Shop blend\"\ndensity = [[\"20 C\", \"1.2 kg/L\"]]\n"
                           "viscosity = [[\"20 C\", \"12 mPa.s\"]]\n";
  const Layout layout = parse_layout(text, "t");
  EXPECT_EQ(layout.job.liquid.name(), "Shop blend");
  EXPECT_NEAR(si(layout.job.liquid.density_at(units::celsius(20))), 1200.0, 1e-9);
  EXPECT_NEAR(si(layout.job.liquid.viscosity_at(units::celsius(20))), 0.012, 1e-12);
}

TEST(LayoutFile, WindowsLineEndsAndByteOrderMarkAreRead) {
  std::string text = "\xEF\xBB\xBF";
  for (const char c : std::string(short_bar)) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  EXPECT_EQ(std::get<Toolbar>(parse_layout(text, "t").plumbing).rows, 2);
}

TEST(LayoutFile, TheExamplesAreRead) {
  int read = 0;
  for (const auto& entry : std::filesystem::directory_iterator(LIBFLOW_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    EXPECT_NO_THROW({
      const Layout layout = read_layout(entry.path());
      EXPECT_FALSE(layout.name.empty());
    }) << entry.path();
    ++read;
  }
  EXPECT_GE(read, 5);
}

TEST(LayoutFile, TheTwoDemoBarsDifferInHoseLengthOnly) {
  const std::filesystem::path folder(LIBFLOW_EXAMPLES);
  const Layout a = read_layout(folder / "equal_hoses.toml"), b = read_layout(folder / "short_hoses.toml");
  const Toolbar &ta = std::get<Toolbar>(a.plumbing), &tb = std::get<Toolbar>(b.plumbing);
  EXPECT_EQ(ta.rows, 16);
  EXPECT_EQ(tb.rows, 16);
  EXPECT_EQ(ta.hose.kind, HoseSchedule::Kind::same);
  EXPECT_EQ(tb.hose.kind, HoseSchedule::Kind::shortest);
  EXPECT_EQ(si(ta.hose_bore), si(tb.hose_bore));
  EXPECT_EQ(si(ta.spacing), si(tb.spacing));
  EXPECT_EQ(si(a.job.rate), si(b.job.rate));
  EXPECT_EQ(a.job.temperature, b.job.temperature);
  EXPECT_EQ(a.job.liquid.id(), b.job.liquid.id());
}

TEST(LayoutKeys, EveryTableIsNamedOnceAndEveryKeySaysWhatItMeans) {
  std::set<std::string_view> tables;
  for (const LayoutTable& table : layout_vocabulary()) {
    EXPECT_TRUE(tables.insert(table.name).second) << table.name;
    std::set<std::string_view> keys;
    for (const LayoutKey& key : table.keys) {
      EXPECT_TRUE(keys.insert(key.name).second) << table.name << " " << key.name;
      EXPECT_FALSE(key.takes.empty() || key.meaning.empty()) << table.name << " " << key.name;
    }
  }
  for (const LayoutKey& key : layout_keys::top) {
    if (key.takes.starts_with("table")) {
      EXPECT_TRUE(tables.contains(key.name)) << key.name;
    }
  }
}

}  // namespace layout_file_test
