// SPDX-License-Identifier: MIT
/// @file
/// One rule for the highest pressure: what a layout states, and where it states none the same assumption in every study
/// (60 psi at the gauge: common practice, no source).
#include <gtest/gtest.h>

#include <filesystem>
#include <optional>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/what_if.hpp>
#include <tests/support/rows_by_hand.hpp>

namespace libflow {
namespace pressure_limit_test {

using namespace units;

/// The demo bar with a rate that needs so much pressure, and a stated limit or none.
Layout limited_bar(const char* rate, std::optional<Pressure> limit) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  layout.job.rate = parse_quantity<AreaRate>(rate, "rate");
  layout.job.pump_limit = limit;
  // A viscosity of its own has no band: what is told here is the pressure alone.
  const auto state = layout.job.liquid.at(layout.job.temperature);
  layout.job.liquid = layout.job.liquid.with_viscosity(from_si<Viscosity>(state.viscosity), layout.job.temperature);
  return layout;
}

const Caution* limit_caution(const Cautions& all, const std::string& code) {
  for (const Caution& c : all) {
    if (c.code == code) return &c;
  }
  return nullptr;
}

TEST(PressureLimit, IsStatedOrAssumedOrThePumpsOwn) {
  const auto stated = pressure_limit(limited_bar("5 gal/ac", 45.0 * psi));
  ASSERT_TRUE(stated);
  EXPECT_FALSE(stated->assumed);
  EXPECT_DOUBLE_EQ(stated->most, si(45.0 * psi));
  const auto assumed = pressure_limit(limited_bar("5 gal/ac", std::nullopt));
  ASSERT_TRUE(assumed);
  EXPECT_TRUE(assumed->assumed);
  EXPECT_NEAR(assumed->most / si(60.0 * psi), 1.0, 1e-12);
  // What sizing keeps is the same figure.
  EXPECT_DOUBLE_EQ(si(SizeChoices{}.most_pressure), assumed->most);
  // A pump has limits of its own.
  const Layout driven = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  EXPECT_FALSE(pressure_limit(driven));
  EXPECT_EQ(assumed_limit_sentence(driven), "");
  // Of a job alone nothing is known but what it states.
  Job job = driven.job;
  job.pump_limit.reset();
  EXPECT_FALSE(pressure_limit(job, nullptr, nullptr));
  job.pump_limit = 40.0 * psi;
  ASSERT_TRUE(pressure_limit(job, nullptr, nullptr));
  EXPECT_FALSE(pressure_limit(job, nullptr, nullptr)->assumed);
}

TEST(PressureLimit, AnAssumptionIsSaidWithTheKeyThatReplacesIt) {
  const Answer a = main_job(limited_bar("5 gal/ac", std::nullopt));
  const Caution* said = limit_caution(a.evenness.cautions, "assumed-pressure-limit");
  ASSERT_NE(said, nullptr);
  for (const char* part : {"60 psi (414 kPa)", "common practice, no source", "pump_limit = \"60 psi\"", "[job]"}) {
    EXPECT_NE(said->text.find(part), std::string::npos) << said->text;
  }
  EXPECT_EQ(short_of_rate(a), nullptr);
  // Nothing is assumed where it is stated.
  const Answer stated = main_job(limited_bar("5 gal/ac", 60.0 * psi));
  EXPECT_EQ(limit_caution(stated.evenness.cautions, "assumed-pressure-limit"), nullptr);
}

TEST(PressureLimit, BeyondItTheVerdictSaysSoWhetherStatedOrAssumed) {
  for (const std::optional<Pressure>& limit : {std::optional<Pressure>(60.0 * psi), std::optional<Pressure>()}) {
    const Layout layout = limited_bar("20 gal/ac", limit);
    const Answer a = main_job(layout);
    EXPECT_GT(a.evenness.supply_pressure, si(60.0 * psi));
    ASSERT_NE(short_of_rate(a), nullptr);
    EXPECT_EQ(verdict_state(a), VerdictState::bad);
    EXPECT_TRUE(verdict_sentence(a).starts_with("NOT REACHED: ")) << verdict_sentence(a);
    EXPECT_NE(verdict_sentence(a).find("(At that rate the rows would be "), std::string::npos) << verdict_sentence(a);
    EXPECT_EQ(verdict_sentence(a).find("write it into [job]: pump_limit") != std::string::npos, !limit);
    const OperatingPoint p = operating_point(layout);
    EXPECT_FALSE(p.reached);
    EXPECT_FALSE(p.runs());
    EXPECT_NEAR(p.setting / si(60.0 * psi), 1.0, 1e-9);
    EXPECT_EQ(p.stop.find("pump_limit") != std::string::npos, !limit) << p.stop;
    const Comparison c = compare({layout, layout});
    EXPECT_TRUE(verdict_sentence(c).starts_with("RATE NOT REACHED by ")) << verdict_sentence(c);
    EXPECT_EQ(equal_hoses(layout).points.front().limit, assumed_pressure_limit);
  }
}

TEST(PressureLimit, StatedOrAssumedEveryPointOfTheMapIsTheSame) {
  const auto map = [](std::optional<Pressure> limit) {
    const Layout layout = limited_bar("10 gal/ac", limit);
    return envelope(layout, default_axes(layout, 5, 5));
  };
  const Envelope stated = map(60.0 * psi), assumed = map(std::nullopt), wider = map(400.0 * psi);
  std::size_t stopped = 0, more = 0;
  for (std::size_t i = 0; i < stated.points.size(); ++i) {
    EXPECT_EQ(stated.points[i].state, assumed.points[i].state);
    EXPECT_EQ(stated.points[i].binding, assumed.points[i].binding);
    // What changes is the judgement: the pressure that the rows need is the same under any limit.
    EXPECT_NEAR(wider.points[i].gauge, assumed.points[i].gauge, 1e-6 * assumed.points[i].gauge);
    stopped += assumed.points[i].binding == "pressure limit" ? 1U : 0U;
    more += wider.points[i].state != assumed.points[i].state ? 1U : 0U;
  }
  EXPECT_GT(stopped, 0U);
  EXPECT_GT(more, 0U);
  EXPECT_NE(envelope_text(assumed).find("No limit of the pressure is given: 60 psi"), std::string::npos);
  EXPECT_EQ(envelope_text(stated).find("No limit of the pressure is given"), std::string::npos);
}

TEST(PressureLimit, CardPointAndFaultsKnowOfIt) {
  const Layout layout = limited_bar("5 gal/ac", std::nullopt);
  EXPECT_NE(limit_caution(setting_card(layout).cautions, "assumed-pressure-limit"), nullptr);
  const OperatingPoint p = operating_point(layout);
  EXPECT_TRUE(p.runs());
  const std::string text = operating_point_text(p);
  EXPECT_NE(text.find("pressure limit"), std::string::npos);
  EXPECT_NE(text.find("The pressure limit is assumed"), std::string::npos);
  EXPECT_EQ(text.find("pump limit"), std::string::npos);
  // A fault that needs more than the assumed limit is told as one beyond a stated limit is.
  const auto beyond = [](std::optional<Pressure> limit) {
    std::size_t faults = 0;
    for (const FaultAnswer& a : what_if(limited_bar("7 gal/ac", limit)).answers) {
      faults += limit_caution(a.total_held.cautions, limit ? "above-pump-limit" : "above-assumed-limit") != nullptr;
    }
    return faults;
  };
  EXPECT_GT(beyond(60.0 * psi), 0U);
  EXPECT_EQ(beyond(60.0 * psi), beyond(std::nullopt));
}

// A fed layout place by place has no pump to say what it can give, so the rule's assumption holds; with a pump of its
// own in the way, whichever kind, nothing is assumed of it.
TEST(PressureLimit, IsNotAssumedOfALayoutWithAPump) {
  const auto fed = [](std::optional<Part> pump) {
    Plumbing p;
    p.supply = p.network.add_fed("feed", 2.0 * L_per_min);
    const auto bar_place = p.network.add_place("bar"), air = p.network.add_air("row 1");
    p.network.add_part("line", p.supply, bar_place, pump ? *pump : Part(Hose{.length = 1.0 * m, .bore = 12.0 * mm}));
    const auto hole = p.network.add_part("hole", bar_place, air, Part(Orifice{.bore = 2.0 * mm}));
    p.rows.push_back(test::row_by_hand(1, 0.0, 0.76, air, hole, {.orifices = {hole}}));
    Layout layout;
    layout.plumbing = p;
    return pressure_limit(layout);
  };
  const auto none = fed(std::nullopt);
  ASSERT_TRUE(none);
  EXPECT_TRUE(none->assumed);
  EXPECT_NEAR(none->most / si(60.0 * psi), 1.0, 1e-12);
  const PumpSlip slip{.flow = from_si<Flow>(1e-7), .gain = 2.0 * bar};
  PumpCurve curve;
  for (int i = 0; i < 4; ++i) curve.points.push_back({.flow = i * 10.0 * L_per_min, .gain = (4.0 - i) * bar});
  EXPECT_FALSE(fed(Part(CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 30.0 * L_per_min})));
  EXPECT_FALSE(fed(Part(curve)));
  EXPECT_FALSE(fed(Part(PositivePump{.displacement = 4.0 * mL, .rpm = 600.0, .slip = slip})));
  EXPECT_FALSE(fed(Part(GroundDrivenPump{
      .displacement = 40.0 * mL, .distance = 1.0 * m, .ground_speed = from_si<Speed>(1.0), .slip = slip})));
}

}  // namespace pressure_limit_test
}  // namespace libflow
