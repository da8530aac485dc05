// SPDX-License-Identifier: MIT
/// @file
/// Diagnosis of a catch test: every cause found back, no sound bar accused, what looks alike named together.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/catch_cups.hpp>
#include <tests/support/catch_machines.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace diagnosis_test {

using test::catch_setting;
using test::CatchScore;
using test::cups_with;
using test::run_catch_trials;
using test::share;

Layout diagnosed(const std::string& name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

const std::vector<CatchReadings>& two_settings() {
  static const std::vector<CatchReadings> two{catch_setting(28.0), catch_setting(12.0)};
  return two;
}

struct KnownCause {
  const char* layout;
  CatchCause cause;
};

TEST(Diagnosis, FindsEveryCauseBackAndItsSize) {
  using Of = CatchCauseKind;
  const KnownCause known[] = {
      {"equal_hoses.toml", {Of::orifice, 5, 0, 0, 0.85}},     {"equal_hoses.toml", {Of::orifice, 16, 0, 0, 1.20}},
      {"equal_hoses.toml", {Of::check_valve, 3, 0, 0, 25e3}}, {"equal_hoses.toml", {Of::hose_bore, 9, 0, 0, 0.85}},
      {"short_hoses.toml", {Of::hose_length, 2, 0, 0, 1.6}},  {"short_hoses.toml", {Of::hoses_swapped, 2, 8, 0, 1.0}},
      {"short_hoses.toml", {Of::side_slope, 0, 0, 0, 0.08}},  {"short_hoses.toml", {Of::bar_bore, 0, 0, 0, 0.4}},
      {"equal_hoses.toml", {Of::gauge, 0, 0, 0, 0.75}},       {"equal_hoses.toml", {Of::viscosity, 0, 0, 0, 2.0}}};
  for (const KnownCause& k : known) {
    const Layout layout = diagnosed(k.layout);
    const Diagnosis d = diagnose(layout, cups_with(layout, two_settings(), {k.cause}, 0.003), {.part_scatter = 0.001});
    const std::string name = std::string(name_of(k.cause.kind)) + " in " + k.layout;
    ASSERT_EQ(d.causes.size(), 1U) << name;
    const FoundCause& f = d.causes.front();
    bool found = false;
    for (const LikelyCause& l : f.likely) {
      if (!l.cause.same(k.cause)) continue;
      found = true;
      EXPECT_NEAR(l.cause.size, k.cause.size, 0.01 * std::abs(k.cause.size)) << name;
      EXPECT_LE(l.low, k.cause.size * (1 + 1e-9)) << name;
      EXPECT_GE(l.high, k.cause.size * (1 - 1e-9)) << name;
    }
    EXPECT_TRUE(found) << name << ": taken for " << name_of(f.best().kind);
    EXPECT_LT(d.spread_left, 0.01 * d.spread_before + 1e-3) << name;
    EXPECT_GT(d.left_p, 0.5) << name;
  }
}

TEST(Diagnosis, FindsTwoCausesTogether) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const CatchCause plugged{CatchCauseKind::orifice, 5, 0, 0, 0.85}, stuck{CatchCauseKind::check_valve, 12, 0, 0, 30e3};
  const Diagnosis d = diagnose(layout, cups_with(layout, two_settings(), {plugged, stuck}));
  ASSERT_EQ(d.causes.size(), 2U);
  for (const CatchCause& c : {plugged, stuck}) {
    bool found = false;
    for (const FoundCause& f : d.causes) {
      for (const LikelyCause& l : f.likely)
        found = found || (l.cause.same(c) && std::abs(l.cause.size / c.size - 1) < 0.03);
    }
    EXPECT_TRUE(found) << name_of(c.kind);
  }
}

// In one catch a plugged orifice, a pinched hose and a sticking valve look alike: all are named, none is guessed, and
// the next measurement is one in which their predictions differ.
TEST(Diagnosis, NamesAllThatLooksTheSameInOneCatch) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const Diagnosis d =
      diagnose(layout, cups_with(layout, {catch_setting(28.0)}, {{CatchCauseKind::orifice, 5, 0, 0, 0.85}}, 0.02));
  ASSERT_EQ(d.causes.size(), 1U);
  const FoundCause& f = d.causes.front();
  EXPECT_FALSE(f.certain());
  double sum = 0.0;
  std::vector<CatchCauseKind> kinds;
  for (const LikelyCause& l : f.likely) {
    EXPECT_EQ(l.cause.row, 5);
    kinds.push_back(l.cause.kind);
    sum += l.probability;
    EXPECT_LT(l.probability, 0.5);
  }
  EXPECT_NEAR(sum, 1.0, 0.05);
  for (const CatchCauseKind kind : {CatchCauseKind::orifice, CatchCauseKind::hose_bore, CatchCauseKind::check_valve}) {
    EXPECT_NE(std::find(kinds.begin(), kinds.end(), kind), kinds.end()) << name_of(kind);
  }
  ASSERT_TRUE(f.next.has_value());
  EXPECT_EQ(f.next->predicted.size(), f.likely.size());
  EXPECT_GT(f.next->resolved, 0.5);
  // A second catch at 12 psi leaves the orifice.
  const Diagnosis both =
      diagnose(layout, cups_with(layout, two_settings(), {{CatchCauseKind::orifice, 5, 0, 0, 0.85}}, 0.02));
  ASSERT_EQ(both.causes.size(), 1U);
  EXPECT_EQ(both.causes.front().best().kind, CatchCauseKind::orifice);
  EXPECT_GT(both.causes.front().likely.front().probability, f.likely.front().probability);
}

TEST(Diagnosis, AnotherOrificeFromTheWorkshopIsRecognised) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const double fitted = 0.052 * 0.0254;
  const DiagnosisSetup setup{.orifice_bores = {0.042 * units::inch, 0.052 * units::inch}};
  const Diagnosis d =
      diagnose(layout, cups_with(layout, two_settings(), {{CatchCauseKind::other_orifice, 7, 0, 0, fitted}}), setup);
  ASSERT_EQ(d.causes.size(), 1U);
  EXPECT_EQ(d.causes.front().best().kind, CatchCauseKind::other_orifice);
  EXPECT_NEAR(d.causes.front().best().size, fitted, 1e-12);
}

TEST(Diagnosis, CalibratedLayoutGivesWhatWasCaught) {
  const Layout layout = diagnosed("short_hoses.toml");
  const auto cups = cups_with(layout, two_settings(), {{CatchCauseKind::check_valve, 4, 0, 0, 30e3}});
  const Diagnosis d = diagnose(layout, cups);
  ASSERT_EQ(d.causes.size(), 1U);
  for (const CatchReadings& c : cups) {
    for (const RowCatch& r : judge_catch(d.calibrated, c).rows) EXPECT_NEAR(r.against_layout, 0.0, 0.003) << r.row;
  }
}

// Where no gauge was read the total may be anything: nothing is said of it.
TEST(Diagnosis, WithoutAGaugeTheLevelAccusesNobody) {
  const Layout layout = diagnosed("equal_hoses.toml");
  auto cups = cups_with(layout, {catch_setting(0.0)}, {});
  for (CatchReading& r : cups.front().readings) r.volume *= 1.3;
  EXPECT_TRUE(diagnose(layout, cups).causes.empty());
}

TEST(Diagnosis, OneSpilledCupOfThreeAccusesNobody) {
  const Layout layout = diagnosed("equal_hoses.toml");
  auto cups = cups_with(layout, {catch_setting(28.0)}, {}, 0.02);
  for (CatchReading& r : cups.front().readings) {
    if (r.row == 6 && r.repeat == 2) r.volume *= 0.6;
  }
  EXPECT_TRUE(diagnose(layout, cups).causes.empty());
}

TEST(Diagnosis, MissingRowsAndShutRowsAreNoFaults) {
  Layout layout = diagnosed("equal_hoses.toml");
  std::get<Toolbar>(layout.plumbing).row_changes.push_back({.row = 2, .shut = true});
  auto cups = cups_with(layout, {catch_setting(28.0)}, {{CatchCauseKind::orifice, 5, 0, 0, 0.8}});
  std::erase_if(cups.front().readings, [](const CatchReading& r) { return r.row == 9 || r.row == 10; });
  const Diagnosis d = diagnose(layout, cups);
  ASSERT_EQ(d.causes.size(), 1U);
  EXPECT_EQ(d.causes.front().best().row, 5);
}

// Largest of n squared Student t's: Bonferroni's bound is met from below by the rows, and from above by rows and the
// directions of the causes common to all (NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.7.3).
TEST(Diagnosis, ThresholdIsThatOfTheLargestOfManyStudents) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const auto cups = cups_with(layout, {catch_setting(0.0)}, {}, 0.02);
  CatchModel model(layout, cups, {.part_scatter = 0.0});
  const CatchData data = catch_data(model, cups);
  EXPECT_EQ(data.error_dof, 16 * 2 + 8);
  CatchFit fit(model, data);
  const boost::math::students_t t(data.error_dof);
  const double rows = quantile(t, 1.0 - 0.01 / (2 * 16)), all = quantile(t, 1.0 - 0.01 / (2 * 30));
  const double threshold = fit.threshold(0.01, 20000);
  EXPECT_GT(threshold, 0.93 * rows * rows);
  EXPECT_LT(threshold, 1.03 * all * all);
}

// The goals, on a small number of machines; benchmarks/catch_benchmark.cpp does it with 12,000.
TEST(DiagnosisProof, FindsTheRowAndLeavesSoundBarsAlone) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const CatchScore sound = run_catch_trials(layout, {catch_setting(28.0)}, {.machines = 300, .seed = 3, .change = 0.0});
  EXPECT_EQ(sound.sound, 300U);
  EXPECT_LT(share(sound.accused, sound.sound), 0.02);
  const CatchScore faulty = run_catch_trials(layout, {catch_setting(28.0)}, {.machines = 200, .seed = 4});
  EXPECT_EQ(faulty.row_faults, 200U);
  EXPECT_GE(share(faulty.right_row, faulty.row_faults), 0.95);
  EXPECT_EQ(faulty.distinct, 0U);  // in one catch no class of a row's fault can be told from another
  EXPECT_GE(share(faulty.alike_named, faulty.alike), 0.95);
  EXPECT_GE(share(faulty.alike_sets, faulty.alike), 0.95);
}

TEST(DiagnosisProof, TellsClassesApartAtTwoSettings) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const CatchScore s = run_catch_trials(layout, two_settings(), {.machines = 200, .seed = 5, .change = 0.25});
  EXPECT_GE(share(s.right_row, s.row_faults), 0.95);
  EXPECT_GT(s.distinct, 50U);
  EXPECT_GE(share(s.distinct_right, s.distinct), 0.95);
  EXPECT_GE(share(s.named, s.detected), 0.95);
}

TEST(Diagnosis, RefusesWhatCannotBe) {
  const Layout layout = diagnosed("equal_hoses.toml");
  const auto refused = [&](const Layout& l, const std::vector<CatchReadings>& c, const DiagnosisSetup& s,
                           const std::string& word) {
    test::expect_message([&] { static_cast<void>(diagnose(l, c, s)); }, word);
  };
  refused(layout, {}, {}, "no readings");
  refused(layout, {catch_setting(28.0)}, {}, "every cup is empty");
  refused(diagnosed("free_form.toml"), {catch_setting(0.0)}, {}, "[toolbar]");
  auto cups = cups_with(layout, {catch_setting(28.0)}, {});
  refused(layout, cups, {.most_causes = 0}, "most causes");
  refused(layout, cups, {.part_scatter = 0.5}, "part scatter");
  cups.front().readings.front().row = 17;
  refused(layout, cups, {}, "row 17");
  refused(layout, {catch_setting(2.0)}, {}, "gives nothing");
}

}  // namespace diagnosis_test
}  // namespace libflow
