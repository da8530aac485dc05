// SPDX-License-Identifier: MIT
/// @file
/// The verdict at the ends of the viscosity's band, against the same bar with that viscosity measured, and its words.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_point.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace viscosity_band_test {

using namespace units;

/// 16 hoses of 22 ft, the first shorter by a share. In laminar flow a longer hose counts for more in thicker liquid.
Layout band_bar(double shorter) {
  Layout layout = read_layout(std::string(LIBFLOW_EXAMPLES) + "/equal_hoses.toml");
  layout.job.pump_limit = 400.0 * psi;  // no matter here
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 1, .hose_length = (1.0 - shorter) * 22.0 * ft}};
  return layout;
}

double band_furthest(const Evenness& e) {
  double most = 0.0;
  for (const RowResult& r : e.rows) most = std::fmax(most, std::abs(r.deviation));
  return most;
}

/// The furthest row of row 1 in a bar of 16 by the slope of its own hose, orifice and check valve at the mean flow:
/// a row whose hose is shorter by a share s gets s h / (h + 2 o) more (Hagen-Poiseuille: h rises with the flow; square
/// law: o with its square), less a sixteenth that the mean moves.
double band_by_hand(double shorter, const RowResult& r) {
  const double hose = r.line_drop / (1.0 - shorter);
  return 15.0 / 16.0 * shorter * hose / (r.line_drop + 2.0 * r.orifice_drop);
}

TEST(ViscosityBand, EvenAtTheLikelyViscosityAndNotAtTheUpperEnd) {
  const Answer a = main_job(band_bar(0.10));
  ASSERT_TRUE(a.evenness.even);
  ASSERT_EQ(a.viscosity_band.size(), 2U);
  const ViscosityEnd &low = a.viscosity_band[0], &high = a.viscosity_band[1];
  EXPECT_FALSE(low.upper);
  EXPECT_TRUE(high.upper);
  EXPECT_DOUBLE_EQ(low.viscosity, *a.liquid.viscosity_low);
  EXPECT_DOUBLE_EQ(high.viscosity, *a.liquid.viscosity_high);
  EXPECT_TRUE(low.even);
  EXPECT_FALSE(high.even);
  EXPECT_EQ(high.worst_row, 1);
  EXPECT_TRUE(high.stop.empty());
  EXPECT_TRUE(verdict_depends_on_viscosity(a));
  // The same bar with that viscosity measured.
  for (const ViscosityEnd& end : a.viscosity_band) {
    Layout there = band_bar(0.10);
    there.job.liquid = there.job.liquid.with_viscosity(from_si<Viscosity>(end.viscosity), there.job.temperature);
    const Evenness e = main_job(there).evenness;
    EXPECT_EQ(end.even, e.even);
    EXPECT_NEAR(std::abs(end.worst_deviation), band_furthest(e), 1e-12);
    EXPECT_NEAR(end.cv, e.cv, 1e-12);
    // And by hand, to the second order of a tenth.
    EXPECT_NEAR(end.worst_deviation, band_by_hand(0.10, e.rows.front()), 0.06 * end.worst_deviation);
  }
  const std::string verdict = verdict_sentence(a);
  EXPECT_EQ(verdict.rfind("EVEN, not sure: ", 0), 0U) << verdict;
  EXPECT_NE(verdict.find("This is for 119 cP, the most likely viscosity; at the upper end of its band, 226 cP, NOT "
                         "EVEN: row 1 is "),
            std::string::npos)
      << verdict;
  EXPECT_NE(verdict.find(" above the mean."), std::string::npos) << verdict;
  EXPECT_NE(viscosity_sentence(a, UnitSystem::metric).find("226 mPa·s"), std::string::npos);
  const Json json = results_to_json(a)["evenness"]["over_viscosity_band"];
  ASSERT_EQ(json.size(), 2U);
  EXPECT_TRUE(json[0]["even"].get<bool>());
  EXPECT_FALSE(json[1]["even"].get<bool>());
  EXPECT_DOUBLE_EQ(json[1]["viscosity_Pa_s"].get<double>(), high.viscosity);
  EXPECT_DOUBLE_EQ(json[1]["furthest_deviation"].get<double>(), high.worst_deviation);
}

TEST(ViscosityBand, NotEvenAtTheLikelyViscosityAndEvenAtTheLowerEnd) {
  const Answer a = main_job(band_bar(0.14));
  ASSERT_FALSE(a.evenness.even);
  const std::string verdict = verdict_sentence(a);
  EXPECT_NE(verdict.find("at the lower end of its band, 64.6 cP, EVEN: row 1 is "), std::string::npos) << verdict;
  EXPECT_EQ(verdict.find("upper end"), std::string::npos) << verdict;
}

TEST(ViscosityBand, TheSameVerdictOverTheBandIsNotedWithoutAlarm) {
  const Answer a = main_job(band_bar(0.0));
  EXPECT_FALSE(verdict_depends_on_viscosity(a));
  EXPECT_TRUE(viscosity_sentence(a).empty());
  EXPECT_NE(main_job_text(a).find("Over the band of its viscosity, 64.6 cP to 226 cP, the furthest row is"),
            std::string::npos);
  EXPECT_NE(main_job_text(a).find("the verdict stays the same"), std::string::npos);
}

TEST(ViscosityBand, ASupplyThatCannotPushTheThickEndIsTold) {
  Layout layout = band_bar(0.0);
  layout.job.pump_limit = 45.0 * psi;  // 39 psi are needed at 119 cP
  const Answer a = main_job(layout);
  ASSERT_EQ(a.viscosity_band.size(), 2U);
  EXPECT_TRUE(a.viscosity_band[0].stop.empty());
  EXPECT_FALSE(a.viscosity_band[1].stop.empty());
  const std::string verdict = verdict_sentence(a);
  EXPECT_NE(verdict.find("226 cP, the wanted rate is NOT REACHED (pressure limit)."), std::string::npos) << verdict;
}

TEST(ViscosityBand, AControlIsBroughtToTheRateAtTheEndsToo) {
  const Layout layout = read_layout(std::string(LIBFLOW_EXAMPLES) + "/pump_and_tank_bar.toml");
  const Answer a = main_job(layout);
  const OperatingPoint p = operating_point(layout);
  ASSERT_EQ(a.viscosity_band.size(), 2U);
  ASSERT_EQ(p.answer.viscosity_band.size(), 2U);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_TRUE(a.viscosity_band[k].stop.empty());
    EXPECT_EQ(a.viscosity_band[k].even, p.answer.viscosity_band[k].even);
    EXPECT_NEAR(a.viscosity_band[k].cv, p.answer.viscosity_band[k].cv, 1e-9);
    Layout there = layout;
    there.job.liquid =
        there.job.liquid.with_viscosity(from_si<Viscosity>(a.viscosity_band[k].viscosity), there.job.temperature);
    EXPECT_NEAR(main_job(there).evenness.cv, a.viscosity_band[k].cv, 1e-9);
  }
}

TEST(ViscosityBand, AMeasuredViscosityHasNone) {
  Layout layout = band_bar(0.1);
  layout.job.liquid = layout.job.liquid.with_viscosity(from_si<Viscosity>(0.119), layout.job.temperature);
  const Answer a = main_job(layout);
  EXPECT_TRUE(a.viscosity_band.empty());
  EXPECT_EQ(main_job_text(a).find("Over the band"), std::string::npos);
}

/// Two hoses of 5 m, the wanted total fed in.
static Layout free_form_band() {
  Layout layout = band_bar(0.0);
  layout.job.pump_limit.reset();
  Plumbing p;
  p.supply = p.network.add_fed("pump", 1.0 * L_per_min);
  for (int row = 1; row <= 2; ++row) {
    const auto air = p.network.add_air(fmt::format("row {}", row));
    const auto hose =
        p.network.add_part(fmt::format("hose {}", row), p.supply, air, Part(Hose{.length = 5.0 * m, .bore = 8.0 * mm}));
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = 5.0,
                      .airs = {air},
                      .last_parts = {hose},
                      .orifices = {},
                      .check_valves = {},
                      .hoses = {hose}});
  }
  feed_wanted_flow(p, p.supply, layout.job);
  layout.plumbing = std::move(p);
  return layout;
}

// What stops the thick end is named as it is in that kind of layout: a pump's limit, or a supply's.
TEST(ViscosityBand, TheLimitThatStopsTheThickEndIsNamed) {
  Drive strong = test::plain_drive();
  strong.pump = CentrifugalPump{.shutoff = 40.0 * bar, .free_flow = 120.0 * L_per_min};
  strong.suction.bore = strong.delivery.bore = 50.0 * mm;
  Layout driven = test::driven_layout(strong);
  driven.job.liquid = find_liquid("10-34-0");
  driven.job.temperature = celsius(10.0);
  for (Layout layout : {driven, free_form_band()}) {
    SCOPED_TRACE(layout.name);
    const bool drive = std::holds_alternative<Toolbar>(layout.plumbing);
    const Answer open = main_job(layout);
    ASSERT_EQ(open.viscosity_band.size(), 2U);
    const double likely = open.evenness.supply_pressure, thick = open.viscosity_band[1].pressure;
    ASSERT_GT(thick, 1.01 * likely);
    layout.job.pump_limit = from_si<Pressure>(0.5 * (likely + thick));
    const Answer a = main_job(layout);
    EXPECT_TRUE(a.viscosity_band[0].stop.empty()) << a.viscosity_band[0].stop;
    EXPECT_EQ(a.viscosity_band[1].stop, drive ? "pump limit" : "pressure limit");
    EXPECT_TRUE(a.viscosity_band[1].solved);
    EXPECT_NEAR(a.viscosity_band[1].pressure / thick, 1.0, 1e-9);
  }
}

static Liquid banded(double low, double value, double high) {
  LiquidRecord record;
  record.id = record.name = "own";
  PropertyPoint density, viscosity;
  density.temperature = viscosity.temperature = 293.15;
  density.value = 1300.0;
  viscosity.value = value;
  viscosity.low = low;
  viscosity.high = high;
  record.density = {density};
  record.viscosity = {viscosity};
  return Liquid(record);
}

TEST(ViscosityBand, AnEndThatIsTheLikelyViscosityIsNoOther) {
  Layout layout = band_bar(0.0);
  layout.job.temperature = celsius(20.0);
  layout.job.liquid = banded(0.1, 0.1, 0.2);
  const std::vector<ViscosityEnd> upper = over_viscosity_band(layout);
  ASSERT_EQ(upper.size(), 1U);
  EXPECT_TRUE(upper[0].upper);
  EXPECT_NEAR(upper[0].viscosity, 0.2, 1e-12);
  layout.job.liquid = banded(0.05, 0.1, 0.1);
  const std::vector<ViscosityEnd> lower = over_viscosity_band(layout);
  ASSERT_EQ(lower.size(), 1U);
  EXPECT_FALSE(lower[0].upper);
}

// An end of the band beyond the thickest liquid that is computed (100 Pa s) has no answer; the likely one keeps its
// own.
TEST(ViscosityBand, AnEndThatCannotBeComputedSaysWhyAndTheAnswerStays) {
  Layout layout = band_bar(0.0);
  layout.job.liquid = banded(50.0, 60.0, 99.0);  // at 20 C; at 10 C a third more
  layout.job.temperature = celsius(10.0);
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  ASSERT_LT(liquid.viscosity, 100.0);
  ASSERT_GT(*liquid.viscosity_high, 100.0);
  Answer a;
  ASSERT_NO_THROW(a = main_job(layout));
  EXPECT_TRUE(a.solution.usable());
  ASSERT_EQ(a.viscosity_band.size(), 2U);
  EXPECT_TRUE(a.viscosity_band[0].solved);
  EXPECT_FALSE(a.viscosity_band[1].solved);
  EXPECT_FALSE(a.viscosity_band[1].even);
  EXPECT_NE(a.viscosity_band[1].stop.find("viscosity"), std::string::npos) << a.viscosity_band[1].stop;
}

}  // namespace viscosity_band_test
}  // namespace libflow
