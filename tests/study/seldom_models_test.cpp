// SPDX-License-Identifier: MIT
/// @file
/// Models and diagnoses of seldom bars and catches: without orifices or valves, with rows off, with water alone, with
/// fewer causes asked for than there are, with too few cups.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_data.hpp>
#include <libflow/study/catch_level.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace seldom_models_test {

using namespace units;
using Of = CatchCauseKind;
using test::plain_bar, test::plain_job, test::plain_valve;

static Layout example() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }
static Layout layout_of(const Toolbar& bar) {
  Layout layout{.name = "bar", .job = plain_job(), .plumbing = bar};
  layout.job.liquid = find_liquid("water");
  return layout;
}
static CatchReadings at(Pressure gauge, bool water = false) {
  return {.time = 30.0 * s, .water = water, .gauge = gauge};
}
static bool names(const std::vector<CatchCause>& causes, Of kind) {
  return std::any_of(causes.begin(), causes.end(), [&](const CatchCause& c) { return c.kind == kind; });
}
/// Cups of a bar with these causes, `repeats` a row, read exactly.
static CatchReadings cups(const Layout& layout, CatchReadings setting, const std::vector<CatchCause>& causes,
                          int repeats = 2) {
  const CatchModel model(layout, {setting});
  const Eigen::VectorXd logs = *model.exact(causes);
  for (std::size_t i = 0; i < model.rows().size(); ++i) {
    for (int k = 1; k <= repeats; ++k) {
      setting.readings.push_back(
          {.row = model.rows()[i], .repeat = k, .volume = 30.0 * std::exp(logs[model.cell(0, i)])});
    }
  }
  return setting;
}

TEST(SeldomModels, OnlyPartsThatAreThereAreSuspected) {
  Toolbar bar = plain_bar(4);
  const CatchModel with(layout_of(bar), {at(2.0 * units::bar)});
  EXPECT_TRUE(names(with.common_causes(), Of::orifice_set));
  EXPECT_TRUE(names(with.row_causes(2), Of::orifice));
  EXPECT_FALSE(names(with.row_causes(2), Of::other_orifice)) << "all are alike, and no other is in the workshop";
  EXPECT_FALSE(names(with.row_causes(2), Of::check_valve));
  bar.orifice.reset();
  bar.check_valve = plain_valve();
  const CatchModel without(layout_of(bar), {at(2.0 * units::bar)});
  EXPECT_FALSE(names(without.common_causes(), Of::orifice_set));
  EXPECT_FALSE(names(without.row_causes(2), Of::orifice));
  EXPECT_TRUE(names(without.row_causes(2), Of::check_valve));
  EXPECT_TRUE(names(without.row_causes(2), Of::hose_bore));
}

TEST(SeldomModels, OneOrificeThatIsThereOnARowThatIsOffIsNone) {
  Toolbar bar = plain_bar(4);
  bar.orifice.reset();
  bar.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.0 * mm}, .shut = true}};
  const CatchModel model(layout_of(bar), {at(2.0 * units::bar)});
  EXPECT_EQ(model.rows(), (std::vector<int>{1, 3, 4}));
  EXPECT_FALSE(names(model.common_causes(), Of::orifice_set));
}

TEST(SeldomModels, WithWaterAloneTheProductIsNotSuspected) {
  const CatchModel water(example(), {at(39.0 * psi, true)});
  EXPECT_FALSE(names(water.common_causes(), Of::density) || names(water.common_causes(), Of::viscosity));
  const CatchModel both(example(), {at(39.0 * psi, true), at(39.0 * psi)});
  EXPECT_TRUE(names(both.common_causes(), Of::density) && names(both.common_causes(), Of::viscosity));
}

TEST(SeldomModels, HosesOfOneLengthDifferByTheirBore) {
  Toolbar bar = plain_bar(4);
  bar.row_changes = {{.row = 3, .hose_bore = 8.0 * mm}};
  const CatchModel model(layout_of(bar), {at(2.0 * units::bar)});
  EXPECT_TRUE(model.hoses_differ(2, 3));
  EXPECT_FALSE(model.hoses_differ(1, 2));
}

TEST(SeldomModels, OneOpenRowIsNotCompared) {
  Toolbar bar = plain_bar(3);
  bar.row_changes = {{.row = 1, .shut = true}, {.row = 3, .shut = true}};
  EXPECT_THROW(CatchModel(layout_of(bar), {at(2.0 * units::bar)}), InputError);
}

// Row 3 of five is off: what row 4 lets through without its orifice is that of row 4. Its hose has 100 times the area.
TEST(SeldomModels, WhatARowLetsThroughIsItsOwn) {
  Toolbar bar = plain_bar(5);
  bar.row_changes = {{.row = 3, .shut = true}, {.row = 5, .hose_length = 50.0 * m, .hose_bore = 3.0 * mm}};
  Layout layout = layout_of(bar);
  layout.job.pressure = 2.0 * units::bar;
  const double wide = catch_detail::share_without_orifice(layout, 4);
  const double narrow = catch_detail::share_without_orifice(layout, 5);
  EXPECT_GT(wide, 10.0);
  EXPECT_LT(narrow, 6.0) << "its hose holds it";
  EXPECT_GE(narrow, 1.0);
  std::get<Toolbar>(layout.plumbing).orifice.reset();
  EXPECT_EQ(catch_detail::share_without_orifice(layout, 4), too_much_share) << "there is none to take out";
  // Below what opens the valves a share of nothing is no share.
  bar.check_valve = plain_valve();
  layout = layout_of(bar);
  layout.job.pressure = 1.0 * psi;
  EXPECT_EQ(catch_detail::share_without_orifice(layout, 4), too_much_share);
}

// Every port at its row, all hoses alike: that is both of the usual schedules.
TEST(SeldomModels, WhereThereIsNoOtherScheduleNoneIsSuspected) {
  Toolbar bar = plain_bar(4);
  EXPECT_TRUE(names(CatchModel(layout_of(bar), {at(2.0 * units::bar)}).common_causes(), Of::hose_schedule));
  bar.manifolds[0].port_spacing = bar.spacing;
  EXPECT_FALSE(names(CatchModel(layout_of(bar), {at(2.0 * units::bar)}).common_causes(), Of::hose_schedule));
}

TEST(SeldomModels, OneRowIsNoCatch) {
  const CatchModel model(layout_of(plain_bar(4)), {at(2.0 * units::bar)});
  CatchReadings r = at(2.0 * units::bar);
  r.readings = {{.row = 2, .volume = 1e-4}, {.row = 2, .repeat = 2, .volume = 1e-4}};
  EXPECT_THROW((void)catch_data(model, {r}), InputError);
  r.readings.push_back({.row = 3, .volume = 1e-4});
  EXPECT_NO_THROW((void)catch_data(model, {r}));
}

// Two rows have an eighth less bore, and one cause is asked for: one is named, the rest is left and said.
TEST(SeldomDiagnoses, NoMoreCausesThanAskedFor) {
  const Layout layout = example();
  const std::vector<CatchCause> two{{Of::orifice, 4, 0, 0, 0.85}, {Of::orifice, 11, 0, 0, 0.80}};
  const std::vector<CatchReadings> caught{cups(layout, at(39.0 * psi), two)};
  const Diagnosis all = diagnose(layout, caught);
  ASSERT_EQ(all.causes.size(), 2U);
  EXPECT_EQ(all.causes[0].best().row, 11) << "the larger one first";
  EXPECT_EQ(all.causes[1].best().row, 4);
  const Diagnosis one = diagnose(layout, caught, {.most_causes = 1});
  ASSERT_EQ(one.causes.size(), 1U);
  EXPECT_EQ(one.causes[0].best().row, 11);
  EXPECT_GT(one.spread_left, 2.0 * all.spread_left);
}

// Without a gauge the level says nothing: cups read as ml where they were fl oz are put right, an empty one is set
// aside.
TEST(SeldomDiagnoses, ASlipOfUnitsIsPutRightBesideAnEmptyCup) {
  const Layout layout = example();
  CatchReadings r{.time = 30.0 * s};
  r = cups(layout, r, {{Of::orifice, 4, 0, 0, 0.85}});
  const double slip = si(units::floz) / si(units::mL);
  for (CatchReading& c : r.readings) c.volume *= c.row == 9 ? 0.0 : 1.0 / slip;
  const Diagnosis d = diagnose(layout, {r});
  ASSERT_TRUE(d.judged);
  ASSERT_EQ(d.doubts.at(0).size(), 1U);
  EXPECT_EQ(d.doubts[0][0].row, 9);
  ASSERT_EQ(d.causes.size(), 1U);
  EXPECT_EQ(d.causes[0].best().row, 4);
}

// Nine of sixteen cups are empty, in both catches: which of them to believe nobody can say.
TEST(SeldomDiagnoses, TwoCatchesOfEmptyCupsAreNotJudged) {
  const Layout layout = example();
  CatchReadings r = cups(layout, at(39.0 * psi), {});
  for (CatchReading& c : r.readings) c.volume *= c.row <= 9 ? 0.0 : 1.0;
  const Diagnosis d = diagnose(layout, {r, r});
  EXPECT_FALSE(d.judged);
  EXPECT_TRUE(d.causes.empty());
  ASSERT_EQ(d.doubts.size(), 2U);
  for (const auto& of : d.doubts) EXPECT_EQ(of.size(), 9U);
}

TEST(SeldomLevels, NothingAtAllIsTheRatioOfNoUnits) {
  EXPECT_FALSE(slip_of(-1.0));
  EXPECT_FALSE(slip_of(-1.5));
  EXPECT_TRUE(slip_of(-0.9));
}

TEST(SeldomLevels, TheBandFitsBetweenItsEndsAlone) {
  CatchLevel level;
  level.thickest = -0.2;
  level.thinnest = 0.1;
  for (const double change : {-0.2, -0.1, 0.1}) {
    level.change = change;
    EXPECT_TRUE(level.viscosity_fits()) << change;
  }
  for (const double change : {-0.21, 0.11}) {
    level.change = change;
    EXPECT_FALSE(level.viscosity_fits()) << change;
  }
  level.thinnest = level.thickest = NAN;
  EXPECT_FALSE(level.viscosity_fits()) << "no band is known";
}

}  // namespace seldom_models_test
}  // namespace libflow
