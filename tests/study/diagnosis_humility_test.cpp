// SPDX-License-Identifier: MIT
/// @file
/// A diagnosis claims no more than it knows: explanations that exclude each other share one probability, what is at the
/// end of what was tried says so, and what nothing explains is not given to the nearest part.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/catch_cups.hpp>

namespace libflow {
namespace diagnosis_humility_test {

using Of = CatchCauseKind;

Layout example(const std::string& name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

/// Cups of a bar with these causes at these gauge readings [psi], every one times `share`.
std::vector<CatchReadings> cups(const Layout& layout, const std::vector<CatchCause>& causes,
                                const std::vector<double>& gauges, double share = 1.0) {
  std::vector<CatchReadings> settings;
  for (const double gauge : gauges) settings.push_back(test::at_gauge(gauge));
  settings = test::cups_with(layout, settings, causes);
  for (CatchReadings& setting : settings) {
    for (CatchReading& r : setting.readings) r.volume *= share;
  }
  return settings;
}
bool names(const FoundCause& f, Of kind) {
  return std::any_of(f.likely.begin(), f.likely.end(), [&](const LikelyCause& l) { return l.cause.kind == kind; });
}
double together(const FoundCause& f) {
  double sum = f.unnamed;
  for (const LikelyCause& l : f.likely) sum += l.probability;
  return sum;
}

TEST(DiagnosisHumility, OneRowHasOneCause) {
  const Layout layout = example("equal_hoses.toml");
  for (const double change : {0.08, 0.2, 0.5, 1.4, 2.2, 3.5}) {
    std::vector<CatchReadings> c = cups(layout, {}, {39.0});
    for (CatchReading& r : c.front().readings) r.volume *= r.row == 4 ? change : 1.0;
    const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
    ASSERT_EQ(d.causes.size(), 1U) << change;
    EXPECT_EQ(d.causes.front().best().row, 4) << change;
    EXPECT_LE(together(d.causes.front()), 1.0 + 1e-9) << change;
  }
}

// No part of this bar's row gives 3.5 times the flow: without its orifice the hose lets half as much again through.
TEST(DiagnosisHumility, WhatNoPartCanDoIsGivenToNone) {
  const Layout layout = example("equal_hoses.toml");
  std::vector<CatchReadings> c = cups(layout, {}, {39.0});
  for (CatchReading& r : c.front().readings) r.volume *= r.row == 7 ? 3.5 : 1.0;
  const Diagnosis aside = diagnose(layout, c);
  EXPECT_TRUE(aside.causes.empty());
  ASSERT_EQ(aside.doubts.at(0).size(), 1U);
  EXPECT_EQ(aside.doubts.at(0).front().kind, ReadingDoubt::too_much);
  // Were it not set aside, no part would be given it.
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  ASSERT_EQ(d.causes.size(), 1U);
  const FoundCause& f = d.causes.front();
  EXPECT_TRUE(f.unexplained());
  EXPECT_GT(f.unnamed, 0.99);
  EXPECT_TRUE(f.likely.front().at_end) << "the last size that was tried";
  for (const LikelyCause& l : f.likely) EXPECT_LT(l.probability, 0.01) << name_of(l.cause.kind);
  EXPECT_TRUE(std::get<Toolbar>(d.calibrated.plumbing).row_changes.empty()) << "a guess is not built in";
  // What a part can do is still given to it.
  const Diagnosis sound = diagnose(layout, cups(layout, {{Of::orifice, 7, 0, 0, 0.8}}, {39.0, 15.0}));
  ASSERT_EQ(sound.causes.size(), 1U);
  EXPECT_LT(sound.causes.front().unnamed, 0.05);
}

// A watch stopped after half the time, seen at one pressure: gauge, measure, orifice set and a thick product all do it.
TEST(DiagnosisHumility, AWholeBarThatIsOffHasManyExplanations) {
  const Layout layout = example("equal_hoses.toml");
  const Diagnosis d = diagnose(layout, cups(layout, {}, {39.0}, 0.5));
  ASSERT_EQ(d.causes.size(), 1U);
  const FoundCause& f = d.causes.front();
  for (const Of kind : {Of::gauge, Of::measure, Of::orifice_set, Of::viscosity})
    EXPECT_TRUE(names(f, kind)) << name_of(kind);
  for (const LikelyCause& l : f.likely) {
    EXPECT_LT(l.probability, 0.5) << name_of(l.cause.kind);
    EXPECT_FALSE(l.at_end) << name_of(l.cause.kind);
    if (l.cause.kind == Of::measure) {
      EXPECT_NEAR(l.cause.size, 0.5, 0.02);
    }
  }
  EXPECT_LE(together(f), 1.0 + 1e-9);
  EXPECT_EQ(d.calibrated.job.pressure.has_value(), layout.job.pressure.has_value());
}

TEST(DiagnosisHumility, TwoPressuresLeaveTheMeasure) {
  const Layout layout = example("equal_hoses.toml");
  const Diagnosis d = diagnose(layout, cups(layout, {}, {39.0, 12.0}, 0.5));
  ASSERT_GE(d.causes.size(), 1U);
  EXPECT_EQ(d.causes.front().best().kind, Of::measure);
  EXPECT_NEAR(d.causes.front().best().size, 0.5, 0.02);
  // The same cups, of which the orifices are another set.
  const Diagnosis set = diagnose(layout, cups(layout, {{Of::orifice_set, 0, 0, 0, 0.7}}, {39.0, 12.0}));
  ASSERT_GE(set.causes.size(), 1U);
  EXPECT_TRUE(names(set.causes.front(), Of::orifice_set));
  // The layout as built has them.
  if (set.causes.front().best().kind == Of::orifice_set) {
    EXPECT_EQ(std::get<Toolbar>(set.calibrated.plumbing).row_changes.size(), 16U);
  }
}

// Cups of one file's bar against the other file: the schedule is named, not the orifices alone, and no row.
TEST(DiagnosisHumility, TheOtherFilesHosesAreNamed) {
  const Layout equal = example("equal_hoses.toml"), shortest = example("short_hoses.toml");
  for (const bool to_equal : {true, false}) {
    SCOPED_TRACE(to_equal);
    const Layout& bar = to_equal ? equal : shortest;
    const Layout& file = to_equal ? shortest : equal;
    // At two pressures: at one, where the rows are even by far smaller orifices, those are named beside it.
    const Diagnosis d = diagnose(file, cups(bar, {}, {30.0, 12.0}));
    ASSERT_EQ(d.causes.size(), 1U);
    EXPECT_EQ(d.causes.front().best().kind, Of::hose_schedule);
    EXPECT_FALSE(d.causes.front().likely.front().at_end);
    // All of one length: the whole way. The shortest: 4.25 ft of 20.5 ft where the file has 22 ft.
    EXPECT_NEAR(d.causes.front().best().size, to_equal ? 1.0 : 1.1, 0.12);
    EXPECT_LT(d.spread_left, 0.01);
    EXPECT_GT(d.spread_before, 0.1);
    // The layout as built has them: its middle row's hose.
    const std::vector<build_detail::Row> built = build_detail::make_rows(std::get<Toolbar>(d.calibrated.plumbing));
    const std::vector<build_detail::Row> true_rows = build_detail::make_rows(std::get<Toolbar>(bar.plumbing));
    EXPECT_NEAR(built[7].hose_length / built[0].hose_length, true_rows[7].hose_length / true_rows[0].hose_length, 0.1);
  }
  const Diagnosis once = diagnose(shortest, cups(equal, {}, {30.0}));
  ASSERT_EQ(once.causes.size(), 1U);
  EXPECT_TRUE(names(once.causes.front(), Of::hose_schedule));
}

// Without a gauge a slip of units is no pressure: the rows are compared as if it were put right.
TEST(DiagnosisHumility, ASlipOfTheWholeBarAccusesNoPart) {
  for (const char* name : {"equal_hoses.toml", "short_hoses.toml"}) {
    for (const double slip : {0.1, 10.0, 1.0 / 29.5735, 29.5735}) {
      SCOPED_TRACE(testing::Message() << name << " " << slip);
      const Layout layout = example(name);
      std::vector<CatchReadings> c = cups(layout, {}, {30.0}, slip);
      c.front().gauge.reset();
      const Diagnosis d = diagnose(layout, c);
      EXPECT_TRUE(d.causes.empty());
      EXPECT_LT(d.spread_before, 0.05);
      // A row's own fault is found all the same.
      std::vector<CatchReadings> with = cups(layout, {{Of::orifice, 5, 0, 0, 0.8}}, {30.0}, slip);
      with.front().gauge.reset();
      const Diagnosis found = diagnose(layout, with);
      ASSERT_EQ(found.causes.size(), 1U);
      EXPECT_EQ(found.causes.front().best().row, 5);
    }
  }
}

// A bar read in millilitres that were fluid ounces: 29.6 times too little. The gauge's and the liquid's ends are tried,
// and neither is named as sure.
TEST(DiagnosisHumility, TheEndOfARangeIsNeverSure) {
  for (const char* name : {"equal_hoses.toml", "short_hoses.toml"}) {
    const Layout layout = example(name);
    const Diagnosis d = diagnose(layout, cups(layout, {}, {39.0}, 1.0 / 29.5735));
    ASSERT_GE(d.causes.size(), 1U) << name;
    EXPECT_TRUE(names(d.causes.front(), Of::measure)) << name;
    for (const FoundCause& f : d.causes) {
      for (const LikelyCause& l : f.likely) {
        EXPECT_TRUE(!l.at_end || f.likely.size() > 1 || f.unexplained()) << name << name_of(l.cause.kind);
      }
    }
  }
}

// Every other row gives more at the low pressure and every other one less, by far: nothing does that, whichever row it
// is held against.
TEST(DiagnosisHumility, WhereMoreRowsAreOffThanAreTriedNoneIsBlamed) {
  const Layout layout = example("equal_hoses.toml");
  std::vector<CatchReadings> c = cups(layout, {}, {39.0, 15.0});
  for (CatchReadings& setting : c) setting.gauge.reset();
  for (CatchReading& r : c.back().readings) r.volume *= r.row % 2 == 1 ? 0.6 : 1.6;
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  ASSERT_EQ(d.causes.size(), 1U);
  EXPECT_TRUE(d.causes.front().unexplained());
  EXPECT_TRUE(std::get<Toolbar>(d.calibrated.plumbing).row_changes.empty());
}

// Without a gauge and at a fifth of the flow: no pressure at which this bar's valves open gives so little, so the
// layout's own is as good as any, and no part is blamed.
TEST(DiagnosisHumility, ALevelThatNoPressureGivesAccusesNoPart) {
  for (const double crack : {4.0, 25.0}) {
    Layout layout = example("equal_hoses.toml");
    std::get<Toolbar>(layout.plumbing).check_valve->crack = crack * units::psi;
    std::vector<CatchReadings> c = cups(layout, {}, {35.0 + crack}, 0.2);  // at about the job's own pressure
    c.front().gauge.reset();
    EXPECT_TRUE(diagnose(layout, c).causes.empty()) << crack;
  }
}

}  // namespace diagnosis_humility_test
}  // namespace libflow
