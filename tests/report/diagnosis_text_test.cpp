// SPDX-License-Identifier: MIT
/// @file
/// A diagnosis in words.

#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/diagnosis.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/system.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace diagnosis_text_test {

using test::holds;

using namespace units;

/// The text of a diagnosis, on lines as wide as needed so that phrases stay whole.
std::string words_for(const Diagnosis& d, const Layout& layout) {
  std::string text = diagnosis_text(d, layout, 30.0, {.width = 1000});
  EXPECT_EQ(text.find("nan"), std::string::npos) << text;
  return text;
}

Diagnosis found_in(const Layout& layout, const std::vector<CatchCause>& causes, bool two) {
  std::vector<CatchReadings> settings{{.time = 30.0 * s, .gauge = 28.0 * psi}};
  if (two) settings.push_back({.time = 30.0 * s, .gauge = 12.0 * psi});
  const CatchModel model(layout, settings);
  const Eigen::VectorXd log_flow = *model.exact(causes);
  for (std::size_t k = 0; k < settings.size(); ++k) {
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      for (int n = 1; n <= 3; ++n) {
        settings[k].readings.push_back(
            {.row = model.rows()[i],
             .repeat = n,
             .volume = std::exp(log_flow[model.cell(k, i)]) * 30.0 * (1.0 + 0.01 * (n - 2))});
      }
    }
  }
  return diagnose(layout, settings);
}

TEST(DiagnosisText, SaysWhatLooksTheSameAndWhatToMeasure) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  const Diagnosis d = found_in(layout, {{CatchCauseKind::orifice, 5, 0, 0, 0.85}}, false);
  const std::string text = words_for(d, layout);
  EXPECT_TRUE(holds(text, "DIAGNOSIS: 1 cause explains the cups.")) << text;
  EXPECT_TRUE(holds(text, "Row 5 gets ")) << text;
  EXPECT_TRUE(holds(text, "less than the layout says")) << text;
  EXPECT_TRUE(holds(text, "partly plugged")) << text;
  EXPECT_TRUE(holds(text, "bore 0.039 in")) << text;  // 0.85 of 0.046 in
  EXPECT_TRUE(holds(text, "kinked")) << text;
  EXPECT_TRUE(holds(text, "check valve sticks")) << text;
  EXPECT_TRUE(holds(text, "To tell them apart")) << text;
  EXPECT_TRUE(holds(text, "Relieve the pressure")) << text;
  const Json json = diagnosis_to_json(d);
  ASSERT_EQ(json["causes"].size(), 1U);
  EXPECT_EQ(json["causes"][0]["likely"][0]["rows"][0], 5);
  EXPECT_TRUE(json["causes"][0]["next_measurement"].is_object());
}

TEST(DiagnosisText, EveryKindHasItsWords) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "short_hoses.toml");
  using Of = CatchCauseKind;
  const std::pair<CatchCause, const char*> kinds[] = {{{Of::orifice, 4, 0, 0, 1.1}, "worn"},
                                                      {{Of::other_orifice, 4, 0, 0, 0.001}, "another orifice"},
                                                      {{Of::hose_length, 4, 0, 0, 0.5}, "shorter"},
                                                      {{Of::hose_bore, 4, 0, 0, 0.5}, "kinked"},
                                                      {{Of::check_valve, 4, 0, 0, -1e4}, "weak"},
                                                      {{Of::hoses_swapped, 4, 8, 0, 1.0}, "each other's hose"},
                                                      {{Of::side_slope, 0, 0, 0, 0.05}, "leans: slope 5.0 %"},
                                                      {{Of::bar_bore, 0, 0, 0, 0.5}, "works like a bore of 0.500 in"},
                                                      {{Of::feed_place, 0, 0, 0, 1.0}, "fed at its left end"},
                                                      {{Of::feed_hose, 0, 0, 0, 0.5}, "feed hose"},
                                                      {{Of::density, 0, 0, 0, 1.1}, "heavier"},
                                                      {{Of::viscosity, 0, 0, 0, 0.5}, "thinner"},
                                                      {{Of::gauge, 0, 0, 0, 0.8}, "reads too high"}};
  for (const auto& [cause, words] : kinds) {
    Diagnosis d;
    FoundCause f;
    f.likely.push_back({.cause = cause, .low = cause.size, .high = cause.size, .probability = 0.97});
    d.causes.push_back(f);
    const std::string text = words_for(d, layout);
    EXPECT_TRUE(holds(text, words)) << text;
    EXPECT_TRUE(holds(text, "Probability 97 %")) << text;
  }
}

TEST(DiagnosisText, ASoundBarIsSaidToBeSound) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  const std::string text = words_for(found_in(layout, {}, true), layout);
  EXPECT_TRUE(holds(text, "DIAGNOSIS: no cause.")) << text;
}

/// Both hoses and orifices of the 16-row examples, whose ports are 5 cm apart.
Layout of_hoses(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

std::string phrase(const Layout& layout, const CatchCause& cause, double low = 0.0, double high = 0.0) {
  return report_detail::cause_phrase(layout, {.cause = cause, .low = low, .high = high, .probability = 0.9},
                                     UnitSystem::us);
}

TEST(DiagnosisText, WhereAManifoldIsFed) {
  Layout layout = of_hoses("short_hoses.toml");
  const auto fed = [&](ManifoldFeed at) {
    return phrase(layout, {CatchCauseKind::feed_place, 0, 0, 0, static_cast<double>(at)});
  };
  EXPECT_EQ(fed(ManifoldFeed::right), "manifold 1 is fed at its right end instead of in its middle");
  EXPECT_EQ(fed(ManifoldFeed::both_ends), "manifold 1 is fed at both ends instead of in its middle");
  std::get<Toolbar>(layout.plumbing).manifolds.front().feed = ManifoldFeed::right;
  EXPECT_EQ(fed(ManifoldFeed::left), "manifold 1 is fed at its left end instead of at its right end");
}

TEST(DiagnosisText, AFittedSizeHasItsInterval) {
  const Layout layout = of_hoses("short_hoses.toml");
  const double now = layout.job.liquid.at(layout.job.temperature).density;
  const auto weighs = [&](double factor) { return format(from_si<Density>(factor * now), UnitSystem::us); };
  EXPECT_EQ(phrase(layout, {CatchCauseKind::density, 0, 0, 0, 0.9}, 0.85, 0.95),
            "the product is lighter than the layout says: " + weighs(0.9) + " (" + weighs(0.85) + " to " +
                weighs(0.95) + ") instead of " + weighs(1.0));
}

// Rows 30 in apart on ports 5 cm apart: a hose is 0.712 m longer than that of the row nearer to the middle, where it is
// half of that and 3 ft: 1.270 m or 4.2 ft in rows 8 and 9, 6.254 m or 20.5 ft in rows 1 and 16.
TEST(DiagnosisText, HosesOfAnotherScheduleAreSaidRowByRow) {
  Layout layout = of_hoses("short_hoses.toml");
  const auto cut = [&](double size, double low = 0.0, double high = 0.0) {
    return phrase(layout, {CatchCauseKind::hose_schedule, 0, 0, 0, size}, low, high);
  };
  const std::string begin = "the hoses are not those of this file (is it the right file?): ";
  EXPECT_EQ(cut(1.05), begin + "all of about 20.5 ft instead of 4.2 ft to 20.5 ft");
  // Half of the way: 3.762 m. Two fifths 3.264 m, three fifths 4.261 m.
  EXPECT_EQ(cut(0.5), begin + "from 12.3 ft, where a row is near its port, to 20.5 ft instead of 4.2 ft to 20.5 ft");
  EXPECT_EQ(cut(0.5, 0.4, 0.6),
            begin +
                "from 12.3 ft (10.7 ft to 14.0 ft), where a row is near its port, to 20.5 ft instead of 4.2 ft to "
                "20.5 ft");
  // Rows that are shut have no hose to judge: the shortest is then that of row 7, 1.982 m, and half of the way 4.118 m.
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 8, .shut = true}, {.row = 9, .shut = true}};
  EXPECT_EQ(cut(0.5), begin + "from 13.5 ft, where a row is near its port, to 20.5 ft instead of 6.5 ft to 20.5 ft");
  // Equal hoses of 22 ft, 6.706 m: the other schedule takes up to 4.984 m off. The larger its size, the shorter.
  layout = of_hoses("equal_hoses.toml");
  EXPECT_EQ(cut(0.8, 0.7, 0.9),
            begin +
                "from 8.9 ft (7.3 ft to 10.6 ft), where a row is near its port, to 22.0 ft instead of all of "
                "22.0 ft");
}

TEST(DiagnosisText, NextMeasurementsAreToldAsTheyAreDone) {
  using Ask = NextMeasurement::Kind;
  FoundCause f;
  for (const CatchCauseKind kind : {CatchCauseKind::orifice, CatchCauseKind::hose_bore, CatchCauseKind::check_valve}) {
    f.likely.push_back({.cause = {kind, 16, 0, 0, 0.9}, .probability = 0.3});
  }
  const double cup = si(floz) / 30.0;  // a fluid ounce in 30 s
  const auto told = [&](Ask kind, int row, int other) {
    const bool gauge = kind == Ask::gauge_at_row || kind == Ask::gauge_at_bar_end;
    const double unit = gauge ? si(psi) : cup;
    f.next = NextMeasurement{.kind = kind,
                             .row = row,
                             .other = other,
                             .pressure = 30.0 * si(psi),
                             .predicted = {8.0 * unit, 7.5 * unit, 6.25 * unit}};
    return report_detail::next_phrase(f, UnitSystem::us, 30.0);
  };
  const std::string cups =
      " Row 16 should then collect in 30 s 8.00 fl oz if it is the orifice, 7.50 fl oz if it is the hose's bore and "
      "6.25 fl oz if it is the check valve.";
  // The rows in their order, whichever is compared.
  EXPECT_EQ(told(Ask::swap_orifices, 16, 15),
            "let rows 15 and 16 change orifices and catch them again at 30.00 psi." + cups);
  EXPECT_EQ(told(Ask::swap_valves, 16, 15),
            "let rows 15 and 16 change check valves and catch them again at 30.00 psi." + cups);
  EXPECT_TRUE(
      told(Ask::swap_hoses, 3, 4).starts_with("let rows 3 and 4 change hoses and catch them again at 30.00 psi."));
  EXPECT_EQ(told(Ask::gauge_at_row, 16, 0),
            "put a second gauge between row 16's hose and its check valve, the first one at 30.00 psi. It should then "
            "show 8.00 psi if it is the orifice, 7.50 psi if it is the hose's bore and 6.25 psi if it is the check "
            "valve.");
  EXPECT_TRUE(told(Ask::gauge_at_bar_end, 16, 0)
                  .starts_with("put a second gauge at the manifold's port of row 16, the first one at 30.00 psi. It "
                               "should then show 8.00 psi if"));
  const Json json = [&] {
    Diagnosis d;
    d.causes.push_back(f);
    return diagnosis_to_json(d)["causes"][0]["next_measurement"];
  }();
  EXPECT_EQ(json["kind"], "gauge-at-bar-end");
  EXPECT_EQ(json["predicted_Pa"][1].get<double>(), 7.5 * si(psi));
  EXPECT_FALSE(json.contains("predicted_m3_per_s"));
}

TEST(DiagnosisText, WhereNoMeasurementHelpsThatIsSaid) {
  const Layout layout = of_hoses("equal_hoses.toml");
  Diagnosis d;
  FoundCause row;
  row.effect = -0.12;
  row.likely.push_back({.cause = {CatchCauseKind::orifice, 5, 0, 0, 0.9}, .probability = 0.6});
  row.likely.push_back({.cause = {CatchCauseKind::check_valve, 5, 0, 0, 1e4}, .probability = 0.35});
  row.unnamed = 0.05;
  d.causes.push_back(row);
  const std::string one = words_for(d, layout);
  EXPECT_TRUE(holds(one, "1. Row 5 gets " + report_detail::percent(0.12) +
                             " less than the layout says: it is one of these (probability 95 % together)"))
      << one;
  EXPECT_TRUE(holds(one, " - something that was not tried (5 %)")) << one;
  EXPECT_TRUE(holds(one, "No single further catch or gauge would tell them apart well: look at the parts.")) << one;
  d.causes.front() = {};
  d.causes.front().likely.push_back({.cause = {CatchCauseKind::gauge, 0, 0, 0, 0.8}, .probability = 0.5});
  d.causes.front().likely.push_back({.cause = {CatchCauseKind::measure, 0, 0, 0, 0.8}, .probability = 0.5});
  const std::string bar = words_for(d, layout);
  EXPECT_TRUE(holds(bar, "every cup holds " + report_detail::percent(0.8) + " of what it should (50 %)")) << bar;
  EXPECT_TRUE(holds(bar,
                    "Check each of them at the bar. A catch of all rows at another pressure tells most of them "
                    "apart"))
      << bar;
}

TEST(DiagnosisText, WhatWasSetAsideIsToldByCatch) {
  const Layout layout = of_hoses("equal_hoses.toml");
  Diagnosis d;
  d.doubts = {{{.kind = ReadingDoubt::nothing, .row = 4}}, {{.kind = ReadingDoubt::slipped_point, .row = 7}}};
  const std::string none = words_for(d, layout);
  EXPECT_TRUE(holds(none,
                    "DIAGNOSIS: no cause besides what was set aside: in the first catch row 4 (nothing caught), "
                    "in the second catch row 7 (a slipped decimal point)."))
      << none;
  FoundCause f;
  f.likely.push_back({.cause = {CatchCauseKind::orifice, 5, 0, 0, 0.9}, .probability = 0.97});
  d.causes.push_back(f);
  d.left_p = 0.001;
  d.spread_before = 0.08;
  d.spread_left = 0.03;
  const std::string some = words_for(d, layout);
  EXPECT_TRUE(holds(some,
                    "DIAGNOSIS: 1 cause explains the other cups, without in the first catch row 4 (nothing "
                    "caught), in the second catch row 7 (a slipped decimal point), but not all that they say."))
      << some;
  EXPECT_TRUE(holds(some, "the rows were " + report_detail::percent(0.08) + " from the layout")) << some;
  EXPECT_TRUE(holds(some, "That is still more than reading error: something is not explained.")) << some;
}

// In the layout as built: what was set aside stands once, with the reason why nothing is put in or behind what is.
TEST(DiagnosisText, TheLayoutAsBuiltSaysWhatWasSetAsideOnce) {
  const Layout layout = of_hoses("equal_hoses.toml");
  Diagnosis d;
  d.doubts = {{{.kind = ReadingDoubt::nothing, .row = 4}}};
  const auto reasons = [&] { return report_detail::calibrated_reasons(d, layout, UnitSystem::us); };
  const std::vector<std::string> none = reasons();
  ASSERT_EQ(none.size(), 2U);
  EXPECT_TRUE(holds(none[1], "- nothing: no cause besides what was set aside: row 4 (nothing caught).")) << none[1];
  FoundCause f;
  f.likely.push_back({.cause = {CatchCauseKind::orifice, 5, 0, 0, 0.9}, .probability = 0.97});
  d.causes.push_back(f);
  const std::vector<std::string> one = reasons();
  ASSERT_EQ(one.size(), 3U);
  EXPECT_TRUE(one[1].starts_with("- row 5")) << one[1];
  EXPECT_EQ(one[2], "Set aside and not put in: row 4 (nothing caught)");
}

}  // namespace diagnosis_text_test
}  // namespace libflow
