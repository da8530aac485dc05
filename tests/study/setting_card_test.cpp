// SPDX-License-Identifier: MIT
/// @file
/// The setting card and the comparison over operating points.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/verdict.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace setting_card_test {

using namespace units;

Layout card_example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

// gal/min = gal/ac x mph x in / 5940 (University of Florida EDIS WG013); 128 fl oz in a US gallon: 5 gal/ac at 5 mph on
// 30 in is 5 x 5 x 30 / 5940 x 128 / 2 = 8.081 fl oz in half a minute.
TEST(SettingCard, CupsAreFlowTimesTime) {
  const SettingCard card = setting_card(card_example("equal_hoses.toml"));
  ASSERT_EQ(card.rows.size(), 16U);
  const double cup = 5.0 * 5.0 * 30.0 / 5940.0 * 128.0 / 2.0 * si(floz);
  double sum = 0.0;
  for (const CardCatch& r : card.rows) {
    EXPECT_NEAR(r.volume, cup, 1e-3 * cup);  // an even bar
    EXPECT_NEAR(r.low, 0.95 * cup, 1e-9 * cup);
    EXPECT_NEAR(r.high, 1.05 * cup, 1e-9 * cup);
    sum += r.volume;
  }
  EXPECT_NEAR(sum, 16.0 * cup, 1e-9 * cup);  // the total is the wanted one
}

TEST(SettingCard, PressuresAreTheOperatingPoints) {
  const Layout layout = card_example("pump_and_tank_bar.toml");
  const SettingCard card = setting_card(layout, {.catch_time = 60.0 * s});
  ASSERT_EQ(card.points.size(), 15U);  // the file's range
  ASSERT_EQ(card.mean_catch.size(), 15U);
  for (std::size_t i = 0; i < card.points.size(); i += 4) {
    Layout at = layout;
    at.job.speed = from_si<Speed>(card.points[i].speed);
    at.job.rate = from_si<AreaRate>(card.points[i].rate);
    const OperatingPoint p = operating_point(at);
    EXPECT_NEAR(card.points[i].gauge, p.answer.evenness.supply_pressure, 1e-6 * card.points[i].gauge);
    EXPECT_NEAR(card.points[i].setting, p.setting, 1e-9);
    EXPECT_NEAR(card.mean_catch[i], p.delivered / 16.0 * 60.0, 1e-9 * card.mean_catch[i]);
  }
}

TEST(SettingCard, UnevenRowsAreOutsideTheirBand) {
  const SettingCard card = setting_card(card_example("short_hoses.toml"));
  int outside = 0;
  for (const CardCatch& r : card.rows) outside += r.volume < r.low || r.volume > r.high ? 1 : 0;
  const Answer a = main_job(card_example("short_hoses.toml"));
  EXPECT_EQ(outside, static_cast<int>(a.evenness.outside.size()));
  EXPECT_GT(outside, 0);
}

TEST(SettingCard, UnreachableHasNoCups) {
  Layout layout = card_example("pump_and_tank_bar.toml");
  layout.job.rate = 30.0 * gal_per_acre;
  const SettingCard card = setting_card(layout);
  EXPECT_TRUE(card.rows.empty());
  EXPECT_FALSE(card.job.reached);
  EXPECT_EQ(std::count_if(card.cautions.begin(), card.cautions.end(),
                          [](const Caution& c) { return c.code == "rate-not-reached"; }),
            1);
}

// What `solve` warns of at the job's own point stands on the card too, and its verdict is that of the main job.
TEST(SettingCard, HasTheMainJobsVerdictAndCautions) {
  Layout layout = card_example("equal_hoses.toml");
  std::get<Toolbar>(layout.plumbing).hose_bore = 3.0 * inch;
  const SettingCard card = setting_card(layout);
  const Answer a = main_job(layout);
  EXPECT_EQ(verdict_word(card.main), verdict_word(a));
  EXPECT_DOUBLE_EQ(card.main.evenness.supply_pressure, a.evenness.supply_pressure);
  std::size_t wide = 0;
  for (const Caution& c : a.evenness.cautions) {
    const auto same = [&](const Caution& b) { return b.code == c.code && b.subject == c.subject; };
    EXPECT_EQ(std::count_if(card.cautions.begin(), card.cautions.end(), same), 1) << c.code;
    wide += c.text.find("wider than the manifold") != std::string::npos ? 1U : 0U;
  }
  EXPECT_GT(wide, 0U);
  EXPECT_EQ(verdict_word(setting_card(card_example("equal_hoses.toml")).main), "EVEN, not sure");
}

TEST(SettingCard, RefusesMoreThanAPage) {
  const Layout layout = card_example("equal_hoses.toml");
  test::expect_refused([&] { (void)setting_card(layout, {.speeds = spread(1.0 * mph, 9.0 * mph, 21)}); }, "speeds");
  test::expect_refused(
      [&] { (void)setting_card(layout, {.rates = spread(1.0 * gal_per_acre, 9.0 * gal_per_acre, 7)}); }, "rates");
  test::expect_refused([&] { (void)setting_card(layout, {.catch_time = 0.0 * s}); }, "catch time");
}

TEST(ComparePoints, SameAsEnvelopesAndNamesTheCause) {
  const std::vector<Layout> layouts{card_example("equal_hoses.toml"), card_example("short_hoses.toml")};
  const std::vector<Speed> speeds{3.0 * mph, 5.0 * mph, 7.0 * mph};
  const std::vector<AreaRate> rates{4.0 * gal_per_acre, 6.0 * gal_per_acre};
  const PointComparison c = compare_points(layouts, speeds, rates);
  ASSERT_TRUE(c.complete);
  EXPECT_EQ(c.best, 0U);
  EXPECT_EQ(c.worst, 1U);
  EXPECT_EQ(c.deciding_cause, "hose lengths");
  double worst_cv = 0.0;
  for (std::size_t k = 0; k < 2; ++k) {
    const Envelope e = envelope(layouts[k], {.speeds = speeds, .rates = rates}, {.usable_speeds = false});
    ASSERT_EQ(c.layouts[k].points.size(), 6U);
    for (std::size_t i = 0; i < 6; ++i) {
      EXPECT_EQ(c.layouts[k].points[i].state, e.points[i].state);
      EXPECT_DOUBLE_EQ(c.layouts[k].points[i].cv, e.points[i].cv);
    }
    EXPECT_EQ(c.layouts[k].even + c.layouts[k].poor + c.layouts[k].cannot, 6U);
  }
  std::size_t shared = 0;
  for (std::size_t i = 0; i < 6; ++i) {
    bool all = true;
    for (const auto& l : c.layouts) all = all && l.points[i].state != PointState::cannot_run;
    shared += all ? 1 : 0;
    if (all) worst_cv = std::max(worst_cv, c.layouts[1].points[i].cv);
  }
  EXPECT_EQ(c.shared, shared);
  EXPECT_DOUBLE_EQ(c.layouts[1].cv, worst_cv);
  // The one-point comparison at one of the points says the same.
  std::vector<Layout> one = layouts;
  one[0].job.speed = speeds[1];
  one[0].job.rate = rates[1];
  const Comparison single = compare(one);
  EXPECT_NEAR(single.answers[1].evenness.cv, c.layouts[1].points[4].cv, 1e-9);
  EXPECT_NEAR(single.answers[1].evenness.supply_pressure, c.layouts[1].points[4].gauge, 1e-3);
  // 16 hoses of 22 ft.
  ASSERT_EQ(c.layouts[0].order.hoses.size(), 1U);
  EXPECT_NEAR(si(c.layouts[0].order.hoses[0].total), si(16 * 22.0 * ft), 1e-9);
  EXPECT_EQ(c.layouts[0].pieces, c.layouts[1].pieces);
}

TEST(ComparePoints, ADrivesHosesAndReserveCount) {
  const std::vector<Layout> layouts{card_example("pump_and_tank_bar.toml"), card_example("equal_hoses.toml")};
  const PointComparison c = compare_points(layouts);
  ASSERT_TRUE(c.complete);
  EXPECT_EQ(c.speeds.size(), 5U);
  EXPECT_EQ(c.rates.size(), 3U);
  EXPECT_EQ(c.layouts[0].control, "pump speed");
  EXPECT_EQ(c.layouts[1].control, "supply pressure");
  EXPECT_TRUE(std::isfinite(c.layouts[0].least_reserve));
  EXPECT_TRUE(std::isnan(c.layouts[1].least_reserve));
  EXPECT_NEAR(si(c.layouts[0].order.hose_total), si((16 * 22.0 + 8.0 + 10.0) * ft), 1e-9);
  EXPECT_GT(c.layouts[0].pieces, c.layouts[1].pieces);
  ASSERT_EQ(c.cautions.size(), 1U);  // 40 F against 50 F
  EXPECT_EQ(c.cautions[0].code, "different-product");
}

TEST(ComparePoints, RefusesAndStops) {
  const Layout a = card_example("equal_hoses.toml");
  test::expect_refused([&] { (void)compare_points({a}); }, "compare");
  test::expect_refused([&] { (void)compare_points({a, card_example("turn_on_a_hill.toml")}); }, "Hill bar");
  const PointComparison c = compare_points({a, a}, {}, {}, [](std::size_t done, std::size_t) { return done < 2; });
  EXPECT_FALSE(c.complete);
  EXPECT_EQ(c.layouts.size(), 1U);
}

}  // namespace setting_card_test
}  // namespace libflow
