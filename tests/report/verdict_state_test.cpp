// SPDX-License-Identifier: MIT
/// @file
/// One verdict with the same words wherever it stands: good, not sure, bad; in text, tables, card and pages.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/page_style.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/setting_card.hpp>
#include <tests/support/demo_answer.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace verdict_state_test {

using test::holds;
using test::one_line;

using namespace units;
using test::demo_answer;

Layout state_example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

TEST(VerdictState, NotSureIsOneWordEverywhere) {
  // 119 cP is even; the thick end of the band, 226 cP, needs more than the supply can give.
  const Layout layout = state_example("equal_hoses.toml");
  const Answer a = main_job(layout);
  ASSERT_TRUE(a.evenness.even && verdict_depends_on_viscosity(a));
  EXPECT_EQ(verdict_state(a), VerdictState::unsure);
  EXPECT_EQ(verdict_word(a), "EVEN, not sure");
  EXPECT_TRUE(verdict_sentence(a).starts_with("EVEN, not sure: ")) << verdict_sentence(a);
  EXPECT_TRUE(holds(verdict_sentence(a), "NOT REACHED (pressure limit)")) << "there is no pump in it";

  const Comparison c = compare({layout, state_example("short_hoses.toml")});
  EXPECT_TRUE(std::regex_search(comparison_text(c), std::regex("Verdict +EVEN, not sure +NOT EVEN")))
      << comparison_text(c);
  const std::string both = comparison_page(c);
  EXPECT_TRUE(holds(both, "EVEN, not sure") && holds(both, "<div class=\"verdict unsure\">")) << both;
  EXPECT_TRUE(holds(both, "<p>NOT SURE: none of them is good for certain.</p>")) << "a word, not a colour alone";

  const std::string card = one_line(setting_card_text(setting_card(layout)));
  EXPECT_TRUE(holds(card, "5.00 gal/ac at 5.0 mph: EVEN, not sure: ")) << card;

  const std::string page = layout_page(a);
  EXPECT_TRUE(holds(page, "<div class=\"verdict unsure\"><span class=\"sign\" aria-hidden=\"true\">?</span>"));
}

TEST(VerdictState, EveryStateHasItsSignAndItsBorder) {
  Layout layout = state_example("equal_hoses.toml");
  layout.job.pump_limit = 200.0 * psi;
  EXPECT_EQ(verdict_word(main_job(layout)), "EVEN");
  const std::string good = layout_page(main_job(layout));
  EXPECT_TRUE(holds(good, "<div class=\"verdict\"><span class=\"sign\" aria-hidden=\"true\">✓</span>"));
  const Answer uneven = main_job(state_example("short_hoses.toml"));
  EXPECT_EQ(verdict_word(uneven), "NOT EVEN");
  EXPECT_TRUE(holds(layout_page(uneven), "<div class=\"verdict bad\"><span class=\"sign\" aria-hidden=\"true\">✗"));
  const std::string style(report_detail::page_style);
  EXPECT_TRUE(holds(style, ".verdict { border: 2px solid"));
  EXPECT_TRUE(holds(style, ".verdict.bad { border-style: double;"));
  EXPECT_TRUE(holds(style, ".verdict.unsure { border-style: dashed;"));
}

/// Relative luminance by WCAG 2.1.
double luminance(const std::string& hex) {
  double sum = 0.0;
  constexpr std::array<double, 3> weight{0.2126, 0.7152, 0.0722};
  for (std::size_t k = 0; k < 3; ++k) {
    const double c = std::stoi(hex.substr(1 + 2 * k, 2), nullptr, 16) / 255.0;
    sum += weight[k] * (c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}

// W3C, WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text. Three sets of colours: light, dark, print.
TEST(VerdictState, ItsColoursHaveTheContrastOfText) {
  const std::string style(report_detail::page_style);
  const std::regex set(
      "--ground: (#[0-9a-f]{6})[^}]*--bar: (#[0-9a-f]{6})[^}]*--out: (#[0-9a-f]{6})[^}]*"
      "--unsure: (#[0-9a-f]{6})");
  int sets = 0;
  for (std::sregex_iterator s(style.begin(), style.end(), set), end; s != end; ++s, ++sets) {
    for (std::size_t k = 2; k <= 4; ++k) {
      const double a = luminance((*s)[1]), b = luminance((*s)[k]);
      EXPECT_GE((std::fmax(a, b) + 0.05) / (std::fmin(a, b) + 0.05), 4.5) << (*s)[k];
    }
  }
  EXPECT_EQ(sets, 3);
}

TEST(VerdictState, APageOfSeveralSaysFirstWhichDoesNotReachTheRate) {
  Layout weak = state_example("equal_hoses.toml");
  weak.job.pump_limit = 20.0 * psi;  // it needs 39
  const std::string page = comparison_page(compare({weak, state_example("equal_hoses.toml")}));
  const std::size_t box = page.find("<h1>RATE NOT REACHED: A, "), verdict = page.find("No difference worth the name");
  ASSERT_NE(box, std::string::npos) << page.substr(page.find("<h1>"), 300);
  EXPECT_LT(box, verdict);
  EXPECT_FALSE(holds(page, "BUT"));
  EXPECT_TRUE(holds(page, "NOT REACHED</td>") && holds(page, "reached</td>"));
  // Two bars that cannot give the rate are no good news, however even.
  EXPECT_TRUE(holds(comparison_page(compare({weak, weak})), "<div class=\"verdict bad\">"));
}

TEST(VerdictWords, RowsThatAreAlikeAreNamedTogether) {
  Answer a = demo_answer("Bar", {-0.12, 0.04, 0.20, -0.12}, 0.08);
  EXPECT_EQ(report_detail::furthest_rows(a.evenness), (std::vector<int>{3}));
  a = demo_answer("Bar", {-0.12, 0.12, 0.12, -0.12}, 0.08);
  EXPECT_TRUE(verdict_sentence(a).starts_with("NOT EVEN: rows 1 and 4 get 12.0 % less than the mean, 4 of 4 rows"))
      << verdict_sentence(a);
  a = demo_answer("Bar", {0.02, 0.02, -0.01, 0.02}, 0.01);
  EXPECT_TRUE(holds(verdict_sentence(a), "the furthest, rows 1, 2, 4, are 2.0 % above it")) << verdict_sentence(a);
  a = demo_answer("Bar", {0.0, 0.0, 0.0, 0.0}, 0.0);
  EXPECT_EQ(verdict_sentence(a), "EVEN: every row is within ±5 % of the mean; all get the same.");
}

TEST(VerdictWords, AHundredPerCentIsAll) {
  Answer a = demo_answer("Bar", {0.01, -0.02, 0.005, 0.005}, 0.013);
  a.evenness.causes.front().share = 0.998;
  EXPECT_TRUE(verdict_sentence(a).ends_with("; all of that comes from: hose lengths.")) << verdict_sentence(a);
  a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  a.evenness.causes.front().share = 1.0;
  EXPECT_TRUE(verdict_sentence(a).ends_with("what decides it: hose lengths (all of the variation)."));
  a.evenness.causes.front().share = 0.99;
  EXPECT_TRUE(verdict_sentence(a).ends_with("what decides it: hose lengths (99 % of the variation)."));
}

TEST(VerdictWords, NoExponentIsShownToPeople) {
  using report_detail::residual;
  EXPECT_EQ(residual(1e-17), "rounding");
  EXPECT_EQ(residual(9e-13), "a trillionth");
  EXPECT_EQ(residual(6e-12), "a billionth");
  EXPECT_EQ(residual(2e-7), "a millionth");
  EXPECT_EQ(residual(2e-3), "0.2 %");
  EXPECT_EQ(report_detail::shown_number<Flow>(8.9e-6 * si(gpm), UnitSystem::us), "< 0.0001");
  EXPECT_EQ(report_detail::shown<Flow>(8.9e-6 * si(gpm), UnitSystem::us), "< 0.0001 gpm");
  EXPECT_EQ(report_detail::shown_number<Flow>(0.1262 * si(gpm), UnitSystem::us), "0.1262");
}

TEST(ExplainWords, ABoreThatNobodyGaveIsAnEquivalentOne) {
  Layout layout = state_example("equal_hoses.toml");
  const std::string text = one_line(explain_text(main_job(layout), 8));
  EXPECT_TRUE(holds(text, "row 8 check valve (equivalent bore 0.139 in, by its rating)")) << text;
  EXPECT_TRUE(holds(text, "row 8 orifice (bore 0.046 in)")) << text;
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByRating{.flow = 0.1 * gpm, .pressure = 20.0 * psi};
  EXPECT_TRUE(holds(one_line(explain_text(main_job(layout), 8)), "row 8 orifice (equivalent bore 0."));
}

}  // namespace verdict_state_test
}  // namespace libflow
