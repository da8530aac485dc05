// SPDX-License-Identifier: MIT
/// @file
/// The envelope's picture is well-formed, complete and readable without colour; the texts of the studies around the
/// operating point say what they must and keep their width.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/report/compare_points_text.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/words.hpp>

namespace libflow {
namespace envelope_report_test {

using namespace units;

Layout report_example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

/// Every point of the map binds something, all states are there.
const Envelope& report_envelope() {
  static const Envelope e = envelope(
      report_example("pump_and_tank_bar.toml"),
      {.speeds = spread(2.0 * mph, 10.0 * mph, 9), .rates = spread(2.0 * gal_per_acre, 10.0 * gal_per_acre, 7)});
  return e;
}

using SvgTree = boost::property_tree::ptree;
SvgTree svg_tree(const std::string& svg) {
  std::istringstream in(svg);
  SvgTree tree;
  boost::property_tree::read_xml(in, tree);
  return tree;
}
/// Counts fills of rectangles, texts of one letter.
void walk_svg(const SvgTree& tree, std::map<std::string, int>& fills, std::map<std::string, int>& letters) {
  for (const auto& [name, child] : tree) {
    if (name == "rect") ++fills[child.get<std::string>("<xmlattr>.fill", "")];
    if (name == "text" && child.data().size() == 1) ++letters[child.data()];
    walk_svg(child, fills, letters);
  }
}

TEST(EnvelopeSvg, IsWellFormedAndDrawsEveryPoint) {
  const Envelope& e = report_envelope();
  std::map<std::string, int> fills, letters;
  walk_svg(svg_tree(envelope_svg(e)), fills, letters);
  std::map<PointState, int> states;
  for (const EnvelopePoint& p : e.points) ++states[p.state];
  for (const PointState state : {PointState::even, PointState::poor, PointState::cannot_run}) {
    ASSERT_GT(states[state], 0);
    EXPECT_EQ(fills[std::string(report_detail::state_fill(state))], states[state] + 1);  // and the legend
  }
  // Where it is not even a pattern lies over the colour.
  EXPECT_EQ(fills["url(#hatch)"], states[PointState::poor] + 1);
  EXPECT_EQ(fills["url(#cross)"], states[PointState::cannot_run] + 1);
  int hidden = 0;  // the cell where the job's word stands bears no letter
  for (const auto& b : report_detail::binding_letters(e.points)) {
    const int left_out = static_cast<int>(b.points) + 1 - letters[std::string(1, b.letter)];
    EXPECT_GE(left_out, 0) << b.name;
    hidden += left_out;
  }
  EXPECT_EQ(hidden, 1);
}

TEST(EnvelopeSvg, StatesDifferInLightness) {
  // Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.1.
  const auto luminance = [](std::string_view colour) {
    const auto channel = [&](std::size_t at) {
      const double v = std::stoi(std::string(colour.substr(at, 2)), nullptr, 16) / 255.0;
      return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
  };
  const auto contrast = [&](PointState light, PointState dark) {
    return (luminance(report_detail::state_fill(light)) + 0.05) / (luminance(report_detail::state_fill(dark)) + 0.05);
  };
  EXPECT_GT(contrast(PointState::even, PointState::poor), 2.0);
  EXPECT_GT(contrast(PointState::poor, PointState::cannot_run), 2.0);
}

TEST(EnvelopeSvg, NamesAreEscapedAndUnitsAreOnTheAxes) {
  Envelope e = report_envelope();
  e.layout.name = "<b>&\"x\"";
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    const std::string svg = envelope_svg(e, u);
    EXPECT_NO_THROW((void)svg_tree(svg));
    EXPECT_EQ(svg.find("<b>"), std::string::npos);
    EXPECT_NE(svg.find(u == UnitSystem::us ? "ground speed [mph]" : "ground speed [km/h]"), std::string::npos);
    EXPECT_NE(svg.find(u == UnitSystem::us ? "rate [gal/ac]" : "rate [L/ha]"), std::string::npos);
    EXPECT_EQ(svg.find("nan"), std::string::npos);
  }
}

TEST(EnvelopeSvg, MarksTheJobOrSaysThatItIsElsewhere) {
  Envelope e = report_envelope();
  const std::string svg = envelope_svg(e);
  EXPECT_NE(svg.find(">job</text>"), std::string::npos);
  EXPECT_NE(svg.find("the job's own rate and speed"), std::string::npos);
  EXPECT_NE(svg.find("Where it works: "), std::string::npos);
  EXPECT_EQ(envelope_svg(e, std::nullopt, EnvelopeHeading::none).find("Where it works: "), std::string::npos);
  e.layout.job.speed = 3.0 * e.axes.speeds.back();
  const std::string away = envelope_svg(e);
  EXPECT_EQ(away.find(">job</text>"), std::string::npos);
  EXPECT_NE(away.find("the job itself is outside this map"), std::string::npos);
}

TEST(EnvelopeSvg, AStoppedMapSaysSo) {
  Envelope e = report_envelope();
  e.points.resize(20);
  e.complete = false;
  const std::string svg = envelope_svg(e);
  EXPECT_NO_THROW((void)svg_tree(svg));
  EXPECT_NE(svg.find("stopped"), std::string::npos);
  EXPECT_NE(envelope_text(e).find("STOPPED"), std::string::npos);
}

TEST(EnvelopeText, LettersAreUniqueAndOwnWhereFree) {
  std::vector<EnvelopePoint> points(6);
  const char* names[] = {"most pump speed", "most pump speed", "most orifice drop",
                         "pump flow",       "pump limit",      "evenness"};
  for (std::size_t i = 0; i < 6; ++i) points[i].binding = names[i];
  const auto letters = report_detail::binding_letters(points);
  ASSERT_EQ(letters.size(), 5U);
  EXPECT_EQ(letters[0].name, "most pump speed");
  EXPECT_EQ(letters[0].letter, 'M');
  std::string used;
  for (const auto& b : letters) {
    EXPECT_EQ(used.find(b.letter), std::string::npos);
    used += b.letter;
  }
  EXPECT_EQ(report_detail::letter_of(letters, "evenness"), 'E');
}

TEST(EnvelopeText, ALimitThatBindsNowhereHasNoLetter) {
  std::vector<EnvelopePoint> points(1);
  points[0].binding = "evenness";
  EXPECT_EQ(report_detail::letter_of(report_detail::binding_letters(points), "pump"), '?');
}

// Two temperatures and two slopes are four maps: slopes beside each other, temperatures below each other.
TEST(EnvelopeSvg, EveryTemperatureAndSlopeHasItsMap) {
  Layout layout = report_example("turn_on_a_hill.toml");
  const Envelope e = envelope(layout, {.speeds = {4.0 * mph, 6.0 * mph},
                                       .rates = {5.0 * gal_per_acre, 7.0 * gal_per_acre, 9.0 * gal_per_acre},
                                       .temperatures = {fahrenheit(40), fahrenheit(60)},
                                       .side_slopes = {0.0 * rad, slope_percent(8.0)}});
  ASSERT_EQ(e.points.size(), 24U);
  const std::string svg = envelope_svg(e, UnitSystem::us);
  struct MapAt {
    std::string title;
    double x, y;
    int cells;
  };
  std::map<std::string, bool> states;
  for (const PointState state : {PointState::even, PointState::poor, PointState::cannot_run}) {
    states[std::string(report_detail::state_fill(state))] = true;
  }
  std::vector<MapAt> maps;
  const SvgTree whole = svg_tree(svg);
  for (const auto& [name, group] : whole.get_child("svg")) {
    if (name != "g") continue;
    MapAt map{};
    const std::string at = group.get<std::string>("<xmlattr>.transform");
    char comma = 0;
    std::istringstream place(at.substr(at.find('(') + 1));
    place >> map.x >> comma >> map.y;
    for (const auto& [kind, inside] : group) {
      if (kind == "text" && map.title.empty()) map.title = inside.data();
      if (kind == "rect") map.cells += states.contains(inside.get<std::string>("<xmlattr>.fill", "")) ? 1 : 0;
    }
    maps.push_back(map);
  }
  ASSERT_EQ(maps.size(), 4U) << svg;
  for (std::size_t t = 0; t < 2; ++t) {
    for (std::size_t k = 0; k < 2; ++k) {
      const MapAt& map = maps[2 * t + k];
      EXPECT_EQ(map.title, format(e.axes.temperatures[t], UnitSystem::us) + ", side slope " +
                               format(e.axes.side_slopes[k], UnitSystem::us));
      EXPECT_EQ(map.cells, 6);
      EXPECT_EQ(map.x, maps[k].x);
      EXPECT_EQ(map.y, maps[2 * t].y);
    }
  }
  EXPECT_GT(maps[1].x, maps[0].x);
  EXPECT_GT(maps[2].y, maps[0].y);
  EXPECT_NE(svg.find("at several temperatures; control: "), std::string::npos);
  // Without a limit of its own the map ends at 60 psi, and the picture that stands alone says so.
  EXPECT_NE(svg.find("No pressure limit is given: 60.00 psi at the gauge is assumed (common practice, no source)"),
            std::string::npos);
  EXPECT_EQ(envelope_svg(e, UnitSystem::us, EnvelopeHeading::none).find("is assumed"), std::string::npos);
}

void expect_a_page(const std::string& text, std::size_t lines, std::size_t width = 100) {
  std::istringstream in(text);
  std::size_t count = 0;
  for (std::string line; std::getline(in, line); ++count) EXPECT_LE(report_detail::columns(line), width) << line;
  EXPECT_LE(count, lines);
  EXPECT_EQ(text.find("nan"), std::string::npos);
  EXPECT_EQ(text.find("inf"), std::string::npos);
  EXPECT_NE(text.find("not a permission"), std::string::npos);
}

TEST(EnvelopeText, ShowsUsableSpeeds) {
  const std::string text = envelope_text(report_envelope());
  expect_a_page(text, 60);
  EXPECT_NE(text.find("least orifice drop"), std::string::npos);
  EXPECT_NE(text.find("usable from"), std::string::npos);
}

TEST(OperatingPointText, SaysReachedOrWhatStopsIt) {
  Layout layout = report_example("pump_and_tank_bar.toml");
  std::string text = operating_point_text(operating_point(layout));
  expect_a_page(text, 100);
  EXPECT_EQ(text.rfind("REACHED: pump speed", 0), 0U) << text;
  EXPECT_NE(text.find("nearest"), std::string::npos);
  EXPECT_NE(text.find("Suction head required"), std::string::npos);
  layout.job.rate = 20.0 * gal_per_acre;
  text = operating_point_text(operating_point(layout), {.units = UnitSystem::metric});
  EXPECT_EQ(text.rfind("NOT REACHED: pump speed 100.0 %", 0), 0U) << text;
  EXPECT_NE(text.find("less than wanted"), std::string::npos);
  EXPECT_NE(text.find("BROKEN"), std::string::npos);
  EXPECT_NE(text.find("L/ha"), std::string::npos);
}

TEST(SettingCardText, IsOnePage) {
  for (const char* name : {"pump_and_tank_bar.toml", "equal_hoses.toml", "turn_on_a_hill.toml"}) {
    SCOPED_TRACE(name);
    const Layout layout = report_example(name);
    const std::string text = setting_card_text(setting_card(layout));
    expect_a_page(text, 66);
    EXPECT_NE(text.find("Goggles"), std::string::npos);
    EXPECT_NE(text.find(layout.units == UnitSystem::us ? "fl oz" : "mL"), std::string::npos);
  }
}

TEST(ComparePointsText, NamesTheBetterOne) {
  const std::vector<Layout> layouts{report_example("equal_hoses.toml"), report_example("short_hoses.toml")};
  const PointComparison c = compare_points(layouts, {3.0 * mph, 5.0 * mph}, {5.0 * gal_per_acre});
  const std::string text = compare_points_text(c);
  expect_a_page(text, 60);
  EXPECT_EQ(text.rfind("'North bar, all hoses 22 ft' is the better one", 0), 0U) << text;
  EXPECT_NE(text.find("hose lengths"), std::string::npos);
  EXPECT_NE(text.find("Hose of 0.250 in"), std::string::npos);
  const std::string same = compare_points_text(compare_points({layouts[0], layouts[0]}));
  EXPECT_EQ(same.rfind("No difference worth the name", 0), 0U) << same;
}

TEST(OperatingPointText, APumpOfKnownEfficiencyShowsItsPower) {
  Layout layout = report_example("pump_and_tank_bar.toml");
  Drive& drive = *std::get<Toolbar>(layout.plumbing).drive;
  drive.pump = CentrifugalPump{.shutoff = 60.0 * psi, .free_flow = 40.0 * gpm, .efficiency = 0.5};
  const OperatingPoint p = operating_point(layout);
  ASSERT_TRUE(p.duty && p.duty->shaft_power);
  // Half of what the shaft takes reaches the liquid: flow times the pressure that the pump adds.
  EXPECT_NEAR(*p.duty->shaft_power / (2.0 * p.duty->flow * p.duty->gain), 1.0, 1e-9);
  const std::string text = operating_point_text(p);
  EXPECT_NE(text.find(fmt::format(" Power at the shaft         {:.0f} W\n", 2.0 * p.duty->flow * p.duty->gain)),
            std::string::npos)
      << text;
  EXPECT_NE(text.find(" Efficiency                 50 %\n"), std::string::npos) << text;
}

TEST(SettingCardText, ARateOutOfReachHasNoCups) {
  Layout layout = report_example("pump_and_tank_bar.toml");
  layout.job.rate = 20.0 * gal_per_acre;
  const SettingCard card = setting_card(layout);
  ASSERT_TRUE(card.rows.empty());
  const std::string text = setting_card_text(card);
  EXPECT_NE(text.find("No catch test: 20.00 gal/ac at 5.0 mph cannot be reached (most pump speed)."), std::string::npos)
      << text;
  EXPECT_EQ(text.find("good from"), std::string::npos) << "nothing is said of cups that nobody holds\n" << text;
}

TEST(ComparePointsText, WhatIsAssumedOfSeveralIsSaidOnce) {
  const Layout layout = report_example("turn_on_a_hill.toml");
  const std::string text = compare_points_text(compare_points({layout, layout}, {4.0 * mph}));
  const std::string assumed = "assumed";
  const std::size_t first = text.find(assumed);
  ASSERT_NE(first, std::string::npos) << text;
  EXPECT_EQ(text.find(assumed, first + 1), std::string::npos) << text;
}

// The job's own point is ringed where it lies on the map: on an axis of one value only if it is the job's.
TEST(EnvelopeSvg, TheJobIsRingedOnlyWhereItIs) {
  const auto ringed = [](const Layout& layout, Speed speed, const EnvelopeOptions& options) {
    const Envelope e =
        envelope(layout, {.speeds = {speed}, .rates = spread(4.0 * gal_per_acre, 16.0 * gal_per_acre, 4)}, options);
    return envelope_svg(e).find("r=\"8\"") != std::string::npos;
  };
  const Layout bar = report_example("equal_hoses.toml");
  EXPECT_TRUE(ringed(bar, bar.job.speed, {}));
  EXPECT_FALSE(ringed(bar, 1.01 * bar.job.speed, {}));
  // Place by place there is no slope to agree with.
  const Layout free = report_example("tank_and_pump.toml");
  EXPECT_TRUE(ringed(free, free.job.speed, {.control = "pump"}));
  EXPECT_FALSE(ringed(free, 0.99 * free.job.speed, {.control = "pump"}));
}

// A viscosity that is known to the last digit has a band without width, of which nothing is said.
TEST(EnvelopeText, ABandWithoutWidthIsNoAssumption) {
  Layout layout = report_example("pump_and_tank_bar.toml");
  LiquidRecord record = Liquid::from_points("known", {{from_si<Density>(1200.0), from_si<Temperature>(293.15)}},
                                            {{from_si<Viscosity>(0.0078125), from_si<Temperature>(293.15)}})
                            .record();
  layout.job.temperature = from_si<Temperature>(293.15);
  for (const double high : {0.0078125, 2.0 * 0.0078125}) {
    record.viscosity.front().low = 0.0078125;
    record.viscosity.front().high = high;
    layout.job.liquid = Liquid(record);
    std::string all;
    for (const std::string& line : report_detail::envelope_assumptions(layout, UnitSystem::us)) all += line;
    EXPECT_EQ(all.find("viscosity") != std::string::npos, high > 0.0078125) << all;
  }
}

}  // namespace envelope_report_test
}  // namespace libflow
