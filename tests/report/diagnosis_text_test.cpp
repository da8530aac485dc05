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

namespace libflow {
namespace diagnosis_text_test {

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

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

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

}  // namespace diagnosis_text_test
}  // namespace libflow
