// SPDX-License-Identifier: MIT
/// @file
/// Maps, cards and operating points that are rare: axes of one value, points that cannot run, a single row, a rate that
/// is exceeded, limits without an end.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/setting_card.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace rare_points_test {

using namespace units;
using test::holds;
using test::one_line;
using test::says;

static Layout example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

static std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(RareOperatingPoints, AReachedRateThatBreaksALimitCannotBeRun) {
  Layout layout = example("equal_hoses.toml");  // it needs 39 psi
  std::get<Toolbar>(layout.plumbing).hose_rating = 20.0 * psi;
  const OperatingPoint p = operating_point(layout);
  ASSERT_TRUE(p.reached);
  EXPECT_FALSE(p.runs());
  const std::string text = operating_sentence(p, UnitSystem::us);
  EXPECT_TRUE(text.starts_with("REACHED, BUT IT CANNOT BE RUN: ")) << text;
  EXPECT_TRUE(text.ends_with("; broken: hose rating.")) << text;
  OperatingPoint two = p;
  two.limits.push_back(
      {.name = "some other", .subject = "", .unit = "1", .margin = -0.1, .kind = LimitKind::stops, .source = ""});
  EXPECT_TRUE(operating_sentence(two, UnitSystem::us).ends_with("; broken: hose rating, some other."));
}

TEST(RareOperatingPoints, HowFarTheRateIsOffAndWhichWay) {
  Layout layout = example("equal_hoses.toml");
  layout.job.pressure = 60.0 * psi;
  OperatingPoint p = operating_point(layout);
  const std::string more = report_detail::percent(p.delivered / p.wanted - 1.0);
  EXPECT_GT(p.delivered, 1.1 * p.wanted);
  EXPECT_TRUE(holds(operating_sentence(p, UnitSystem::us), " instead of 5.00 gal/ac (" + more + " more than wanted); "))
      << operating_sentence(p, UnitSystem::us);
  // So near that both print alike: the share tells it.
  p = operating_point(example("equal_hoses.toml"));
  p.reached = false;
  p.delivered = (1.0 - 2e-4) * p.wanted;
  p.stop = "the control is at the end of its range (most pump speed)";
  EXPECT_TRUE(operating_sentence(p, UnitSystem::us)
                  .ends_with(" gives 0.02 % less than the wanted 5.00 gal/ac; the control is at the end of its range "
                             "(most pump speed)."))
      << operating_sentence(p, UnitSystem::us);
}

TEST(RareOperatingPoints, WithoutALimitNoneIsNearest) {
  OperatingPoint p = operating_point(example("equal_hoses.toml"));
  p.limits.clear();
  const std::string text = operating_sentence(p, UnitSystem::us);
  EXPECT_TRUE(text.starts_with("REACHED: ") && text.ends_with(" in all).")) << text;
}

TEST(RareOperatingPoints, WhatGoesBackIsListedAndNoPowerHasNoEfficiency) {
  OperatingPoint p = operating_point(test::driven_layout(test::full_drive(DriveControl::pump_speed)));
  ASSERT_TRUE(p.duty);
  ASSERT_GT(p.duty->bypass, 0.0);
  const std::string back = format(from_si<Flow>(p.duty->bypass), UnitSystem::us);
  EXPECT_TRUE(says(operating_point_text(p, {.units = UnitSystem::us}), "Back by the bypass " + back));
  p.duty->shaft_power = 0.0;
  p.duty->hydraulic_power = 0.0;
  const std::string still = operating_point_text(p, {.units = UnitSystem::us});
  EXPECT_TRUE(says(still, "Power at the shaft 0 W")) << still;
  EXPECT_FALSE(says(still, "Efficiency")) << still;
}

TEST(RareLimits, WithoutAnEndAndFromBelow) {
  EXPECT_EQ(report_detail::si_value_text(std::numeric_limits<double>::infinity(), "Pa", UnitSystem::us), "none");
  const Limit least{.name = "least pump speed",
                    .subject = "",
                    .value = 0.6,
                    .limit = 0.5,
                    .unit = "1",
                    .upper = false,
                    .margin = 0.1,
                    .kind = LimitKind::stops,
                    .source = "range of the control"};
  EXPECT_TRUE(
      says(report_detail::limits_table({least}, UnitSystem::us), "least pump speed 60.0 % at least 50.0 % 10 %"));
}

TEST(RareLimits, TooLittleIsSaidOfALeast) {
  const Limit least{.name = "least pump speed",
                    .subject = "",
                    .value = 0.4,
                    .limit = 0.5,
                    .unit = "1",
                    .upper = false,
                    .margin = -0.1,
                    .kind = LimitKind::stops,
                    .source = "range of the control"};
  EXPECT_EQ(report_detail::near_text(least, UnitSystem::us),
            "least pump speed: 40.0 % now, 50.0 % is the least: 10.0 % points too little");
}

TEST(RareMaps, AnAxisOfTheJobsOwnValueAloneHoldsTheJob) {
  const Layout layout = example("equal_hoses.toml");  // 5 gal/ac at 5 mph
  const Envelope e = envelope(layout, {.speeds = {5.0 * mph}, .rates = {5.0 * gal_per_acre}});
  const std::string text = envelope_text(e);
  EXPECT_TRUE(says(text, "* the job's own, 5.00 gal/ac at 5.0 mph")) << text;
  const Envelope other = envelope(layout, {.speeds = {6.0 * mph}, .rates = {5.0 * gal_per_acre}});
  EXPECT_FALSE(says(envelope_text(other), "* the")) << envelope_text(other);
  // The rate is on its axis, the speed between two of its own.
  const Envelope near = envelope(layout, {.speeds = {4.0 * mph, 6.0 * mph}, .rates = {5.0 * gal_per_acre}});
  EXPECT_TRUE(says(envelope_text(near), "* the point nearest to the job's own")) << envelope_text(near);
}

TEST(RareMaps, TheJobStandsOnItsOwnSliceOnly) {
  // Level ground at 40 F is the job's; it is neither at 70 F nor on a slope of 8 %.
  Layout layout = example("equal_hoses.toml");
  EnvelopeAxes axes{.speeds = {4.0 * mph, 6.0 * mph}, .rates = {4.0 * gal_per_acre, 6.0 * gal_per_acre}};
  axes.temperatures = {layout.job.temperature, fahrenheit(70)};
  axes.side_slopes = {0.0 * rad, slope_percent(8.0)};
  const Envelope e = envelope(layout, axes);
  const std::string text = envelope_text(e);
  EXPECT_TRUE(says(text, "* the point nearest to the job's own, 5.00 gal/ac at 5.0 mph")) << text;
  const std::size_t maps = text.find("\n . even");
  EXPECT_EQ(times(text.substr(0, maps), "*"), 1U) << text;
  EXPECT_EQ(times(text, "side slope"), 4U) << text;
}

TEST(RareMaps, AJobBeyondTheAxesHasNoStar) {
  Envelope e = envelope(example("equal_hoses.toml"),
                        {.speeds = {4.0 * mph, 6.0 * mph}, .rates = {4.0 * gal_per_acre, 6.0 * gal_per_acre}});
  for (const AreaRate& rate : {2.0 * gal_per_acre, 9.0 * gal_per_acre}) {
    e.layout.job.rate = rate;
    EXPECT_FALSE(says(envelope_text(e), "* the")) << envelope_text(e);
    EXPECT_TRUE(holds(envelope_svg(e), "the job itself is outside this map"));
  }
  e.layout.job.rate = 5.0 * gal_per_acre;
  for (const Speed& speed : {2.0 * mph, 9.0 * mph}) {
    e.layout.job.speed = speed;
    EXPECT_FALSE(says(envelope_text(e), "* the")) << envelope_text(e);
    EXPECT_FALSE(holds(envelope_svg(e), ">job</text>"));
    EXPECT_TRUE(holds(envelope_svg(e), "the job itself is outside this map"));
  }
  e.layout.job.speed = 5.0 * mph;
  EXPECT_TRUE(holds(envelope_svg(e), ">job</text>"));
  e.layout.job.temperature = fahrenheit(71);
  EXPECT_FALSE(holds(envelope_svg(e), ">job</text>"));
  EXPECT_TRUE(holds(envelope_svg(e), "the job itself is outside this map"));
}

// A map of 200 by 100 points: cells too small for a letter bear none, and the text shows at most 25 by 20 of them.
TEST(RareMaps, ManyPointsAreShownInParts) {
  Envelope e = envelope(example("equal_hoses.toml"), {.speeds = {5.0 * mph}, .rates = {5.0 * gal_per_acre}});
  e.axes.speeds = spread(2.0 * mph, 10.0 * mph, 200);
  e.axes.rates = spread(2.0 * gal_per_acre, 10.0 * gal_per_acre, 100);
  e.usable.clear();
  EnvelopePoint p = e.points.front();
  p.state = PointState::poor;
  p.binding = "evenness";
  e.points.assign(20000, p);
  const std::string text = envelope_text(e);
  EXPECT_EQ(times(text, "~E"), 25U * 20U) << text;
  EXPECT_TRUE(says(text, "* the point nearest to the job's own")) << text;
  const std::string svg = envelope_svg(e);
  EXPECT_EQ(times(svg, ">E</text>"), 1U) << "in the legend only";
  // Every point even: no letter to explain.
  for (EnvelopePoint& q : e.points) q.state = PointState::even;
  EXPECT_FALSE(says(envelope_text(e), "The letter after"));
}

TEST(RareMaps, AFreeFormHasNoSlopeOfItsOwn) {
  const Layout layout = example("free_form.toml");
  const Envelope e = envelope(layout, {.speeds = {layout.job.speed}, .rates = {layout.job.rate}});
  EXPECT_TRUE(says(envelope_text(e), "* the job's own")) << envelope_text(e);
}

TEST(RareMaps, ALetterIsOfTheAlphabetWhateverAPartIsCalled) {
  std::vector<EnvelopePoint> points;
  for (const auto& [name, count] :
       {std::pair("a", 4), std::pair("b", 3), std::pair("a {b} 1", 2), std::pair("{~}", 1)}) {
    EnvelopePoint p;
    p.binding = name;
    for (int k = 0; k < count; ++k) points.push_back(p);
  }
  const auto letters = report_detail::binding_letters(points);
  EXPECT_EQ(report_detail::letter_of(letters, "a"), 'A');
  EXPECT_EQ(report_detail::letter_of(letters, "b"), 'B');
  EXPECT_EQ(report_detail::letter_of(letters, "a {b} 1"), 'C') << "its own are taken: the next that is free";
  EXPECT_EQ(report_detail::letter_of(letters, "{~}"), 'D');
}

TEST(RareCards, ASingleRowAPointThatCannotRunAndTwoOutlets) {
  Layout layout{.name = "one row", .job = test::plain_job(), .plumbing = test::plain_bar(1)};
  std::get<Toolbar>(layout.plumbing).outlets_per_row = 2;
  layout.job.rate = 150.0 * L_per_ha;  // 75 L/ha through each of two holes of 1 mm
  layout.job.pump_limit = 5.0 * bar;
  SettingCard card = setting_card(layout, {.speeds = {4.0 * kmh, 8.0 * kmh, 24.0 * kmh}});
  ASSERT_EQ(card.points.size(), 3U);
  ASSERT_EQ(card.points.back().state, PointState::cannot_run);
  card.cautions.clear();
  const std::string text = setting_card_text(card, {.units = UnitSystem::metric});
  EXPECT_TRUE(says(text, "x cannot run; P pressure limit")) << text;
  EXPECT_TRUE(says(text, "in every cup (all outlets of a row in one cup), standing still")) << text;
  std::istringstream in(text);
  bool found = false;
  for (std::string line; std::getline(in, line);) found = found || one_line(line) == "24.0 | - - xP";
  EXPECT_TRUE(found) << text;
  EXPECT_EQ(times(text, "good from  "), 1U) << "one block of the table\n" << text;
  EXPECT_EQ(times(text, "______"), 1U) << text;
}

TEST(RareCards, OneRowOutsideByTheLayoutIsNoFault) {
  SettingCard card = setting_card(example("equal_hoses.toml"));
  card.rows[4].volume = 1.2 * card.rows[4].high;
  EXPECT_TRUE(says(setting_card_text(card),
                   "row 5 is expected outside 'good from ... to': that is the layout (such as its hose lengths), not a "
                   "fault. A cup of it that is far from the expected one"))
      << setting_card_text(card);
}

TEST(RareCards, ASettingThatIsAPressureIsShownAsOne) {
  Layout layout = test::driven_layout(test::full_drive(DriveControl::regulator));
  layout.job.rate = 150.0 * L_per_ha;
  SettingCard card = setting_card(layout, {.speeds = {8.0 * kmh}});
  ASSERT_EQ(card.points.size(), 1U);
  const std::string held = report_detail::si_value_text(card.points.front().setting, "Pa", UnitSystem::us);
  EXPECT_TRUE(holds(setting_card_text(card, {.units = UnitSystem::us}), held)) << setting_card_text(card);
  card.points.front().state = PointState::cannot_run;
  EXPECT_FALSE(holds(setting_card_text(card, {.units = UnitSystem::us}), held)) << "no setting of what cannot run";
  EXPECT_TRUE(holds(one_line(setting_card_text(card, {.units = UnitSystem::us})), " | - - - x"));
}

}  // namespace rare_points_test
}  // namespace libflow
