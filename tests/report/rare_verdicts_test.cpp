// SPDX-License-Identifier: MIT
/// @file
/// Verdicts that are rare: what the ends of the viscosity's band do, rows that are all shut, figures that look like a
/// slip, and the small words around them.
#include <gtest/gtest.h>

#include <limits>
#include <regex>
#include <string>
#include <vector>

#include <libflow/report/comparison_text.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/path_svg.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/verdict.hpp>
#include <tests/support/demo_answer.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace rare_verdicts_test {

using namespace units;
using test::demo_answer;
using test::holds;
using test::says;

/// The thick end of the band, 200 cP.
static ViscosityEnd thick(bool even, int row, double deviation, std::string stop = {}) {
  return {.viscosity = si(200.0 * cP),
          .upper = true,
          .solved = true,
          .even = even,
          .worst_row = row,
          .worst_deviation = deviation,
          .pressure = si(50.0 * psi),
          .stop = std::move(stop)};
}
static std::string over_band(Answer a, const ViscosityEnd& end) {
  a.viscosity_band = {end};
  const std::string text = viscosity_sentence(a, UnitSystem::us);
  const std::size_t behind = text.find("viscosity; ");
  return behind == std::string::npos ? text : text.substr(behind + 11);
}

/// Two rows alike, solved.
static Answer two_rows() { return main_job({.name = "Two", .job = test::plain_job(), .plumbing = test::plain_bar(2)}); }

TEST(VerdictOverTheBand, SaysWhatIsOtherAtItsEnd) {
  const Answer even = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  const std::string at = "at the upper end of its band, " + format(200.0 * cP, UnitSystem::us) + ", ";
  EXPECT_EQ(over_band(even, thick(false, 2, -0.07)), at + "NOT EVEN: row 2 is 7.0 % below the mean.");
  EXPECT_EQ(over_band(even, thick(false, 3, 0.07)), at + "NOT EVEN: row 3 is 7.0 % above the mean.");
  // Where nothing flows at all no row is the furthest.
  EXPECT_EQ(over_band(even, thick(false, 0, 0.0)), at + "NOT EVEN.");
  EXPECT_EQ(over_band(even, thick(false, 2, -0.07, "most pump speed")),
            at + "NOT EVEN: row 2 is 7.0 % below the mean, and the wanted rate is NOT REACHED (most pump speed).");
  EXPECT_EQ(over_band(even, thick(true, 2, -0.02, "most pump speed")),
            at + "the wanted rate is NOT REACHED (most pump speed).");
  EXPECT_EQ(over_band(even, thick(true, 2, -0.02)), "") << "the same verdict";
  const Answer uneven = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  EXPECT_TRUE(over_band(uneven, thick(true, 2, -0.02)).starts_with(at + "EVEN: row 2 is 2.0 % below the mean"));
}

TEST(VerdictOverTheBand, ARateThatIsReachedThereOnlyIsSaid) {
  Answer a = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  a.evenness.cautions.push_back({"rate-not-reached", "rate", "the control is at its end", 0.9, 1.0, ""});
  a.viscosity_band = {{.viscosity = si(50.0 * cP), .upper = false, .solved = true, .even = true}};
  EXPECT_TRUE(viscosity_sentence(a, UnitSystem::us)
                  .ends_with("; at the lower end of its band, " + format(50.0 * cP, UnitSystem::us) +
                             ", the wanted rate is reached."))
      << viscosity_sentence(a, UnitSystem::us);
  EXPECT_EQ(verdict_state(a), VerdictState::unsure);
}

TEST(VerdictOverTheBand, AnEndWithoutAnAnswerIsSaidByTheVerdictAlone) {
  Answer a = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  ViscosityEnd end = thick(false, 0, 0.0, "no convergence in 60 steps");
  end.solved = false;
  end.pressure = std::numeric_limits<double>::quiet_NaN();
  a.viscosity_band = {thick(true, 1, 0.01), end};
  const std::string text = main_job_text(a, {.units = UnitSystem::us});
  EXPECT_TRUE(says(text, "NO ANSWER: no convergence in 60 steps")) << text;
  EXPECT_FALSE(says(text, "Over the band")) << text;
  EXPECT_FALSE(says(text, "nan")) << text;
  // The gauge of the end that has an answer: 50 psi against 30 at the most likely viscosity.
  EXPECT_EQ(report_detail::gauge_over_band(a, UnitSystem::us), "the gauge at 30.00 psi to 50.00 psi for the same rate");
  Answer bar = two_rows();
  bar.viscosity_band = a.viscosity_band;
  EXPECT_FALSE(holds(layout_page(bar), "Over the band"));
}

TEST(RareVerdicts, WithoutARowThatCountsNothingFlows) {
  Answer a = two_rows();
  for (RowResult& r : a.evenness.rows) r.shut = true;
  EXPECT_EQ(verdict_sentence(a), "NOT EVEN: nothing flows out of any row.");
  EXPECT_EQ(report_detail::furthest_rows_text(a.evenness), "-");
  Comparison c;
  c.answers = {a, a};
  EXPECT_FALSE(holds(comparison_text(c), "nan"));
  EXPECT_TRUE(says(comparison_text(c), "Furthest row - -")) << comparison_text(c);
  const std::string page = comparison_page(c);
  EXPECT_TRUE(holds(page, "furthest row</th><td>-</td><td>-</td>")) << page;
}

TEST(RareVerdicts, WhereNothingFlowsNothingIsUniform) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.evenness.mean_rate = 0.0;
  a.evenness.even = false;
  a.evenness.rows.front().rate = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(as_built_sentence(a), "") << "no word of how even it is as built";
  const std::string text = main_job_text(a);
  EXPECT_TRUE(says(text, "Coefficient of variation - (n-1)")) << text;
  EXPECT_TRUE(says(text, "Christiansen uniformity - ")) << text;
  EXPECT_FALSE(holds(text, "nan")) << text;
}

TEST(RareVerdicts, SeveralRowsAsFarOffAreCountedInATable) {
  EXPECT_EQ(report_detail::furthest_rows_text(demo_answer("Bar", {0.02, 0.02, -0.01, 0.02}, 0.01).evenness),
            "1 and 2 more");
  EXPECT_EQ(report_detail::furthest_rows_text(demo_answer("Bar", {0.02, -0.02, -0.01, 0.02}, 0.01).evenness), "1, 4");
}

TEST(RareVerdicts, TheLargestOfSeveralCausesIsNotMostOfIt) {
  Answer a = demo_answer("Bar", {0.01, -0.02, 0.005, 0.005}, 0.013);
  a.evenness.causes.front().share = 0.45;
  EXPECT_TRUE(
      verdict_sentence(a).ends_with("; the largest part of that comes from: hose lengths (45 % of the variation)."))
      << verdict_sentence(a);
}

TEST(RareVerdicts, ASlipIsAskedAboutByItsRows) {
  Answer a = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  a.evenness.cautions = {
      {"hose-too-wide", "row 2", "the hose has a bore of 3 in: is it right?", 0.0762, 0.0254, ""},
      {"hose-too-wide", "row 3", "the hose has a bore of 3 in: is it right?", 0.0762, 0.0254, ""},
      {"hose-too-wide", "feed hose", "the hose has a bore of 3 in: is it right?", 0.0762, 0.0254, ""}};
  EXPECT_TRUE(verdict_sentence(a).ends_with(
      " BUT: is the hose bore of rows 2 and 3 right? It is too wide for a row's hose (see the cautions)."))
      << verdict_sentence(a);
  EXPECT_EQ(verdict_word(a), "EVEN, not sure");
  // Of several layouts, whose it is.
  Comparison c;
  c.answers = {demo_answer("Long", {0.01, -0.01, 0.0, 0.0}, 0.008), a};
  EXPECT_TRUE(verdict_sentence(c).ends_with(
      " 'Bar': is the hose bore of rows 2 and 3 right? It is too wide for a row's hose (see the cautions)."))
      << verdict_sentence(c);
}

TEST(RareVerdicts, AnOrificeOfNextToNoPressureSaysLessThanATenthOfAPerCent) {
  Answer a = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  const auto meters = [&](double share) {
    a.evenness.cautions = {{"orifice-meters-nothing", "row 1", "it meters nothing", share, 0.1, ""}};
    return verdict_sentence(a);
  };
  EXPECT_TRUE(
      meters(2e-4).ends_with("It takes less than 0.1 % of the pressure, so it meters nothing (see the cautions)."))
      << meters(2e-4);
  EXPECT_TRUE(meters(0.012).ends_with("It takes 1.2 % of the pressure, so it meters nothing (see the cautions)."));
}

TEST(RareVerdicts, NeverOrAlwaysEvenAsBuiltIsNoRoundNumber) {
  EXPECT_TRUE(as_built_words({.within = 0.004, .mean_cv = 0.1}).starts_with("less than 1 % of such machines are even"));
  EXPECT_TRUE(as_built_words({.within = 0.996, .mean_cv = 0.01}).starts_with("more than 99 % of such machines"));
}

TEST(RareVerdicts, WithoutADecidingCauseNoneIsNamed) {
  Comparison c = test::demo_comparison();
  c.deciding_cause.clear();
  EXPECT_EQ(verdict_sentence(c),
            "'Long hoses' is evener than 'Short, \"cheap\" hoses': CV 0.80 % against 8.0 %. Within ±5 %: 'Long hoses' "
            "only.");
}

TEST(RareVerdicts, TheSentenceOfSeveralSaysFirstWhichDoesNotReachTheRate) {
  Comparison c = test::demo_comparison();
  c.answers[1].evenness.cautions.push_back(rate_not_reached("most pump speed", 0.9, 1.0));
  const std::string stop = c.answers[1].evenness.cautions.back().text;
  EXPECT_TRUE(verdict_sentence(c).starts_with("RATE NOT REACHED by 'Short, \"cheap\" hoses': " + stop + ". "))
      << verdict_sentence(c);
  EXPECT_TRUE(verdict_sentence(c, false).starts_with("'Long hoses' is evener"));
}

TEST(MainJobWords, ATurnAHeldSettingAndSeveralManifoldsAreSaid) {
  // Two bars of four rows, each fed by 2 m of hose, behind a regulator that holds 15 psi, in a right turn on 20 m.
  Layout layout = test::driven_layout(test::full_drive(DriveControl::regulator));
  Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  bar.manifolds = {{.first_row = 1, .last_row = 4, .feed_length = 2.0 * m},
                   {.first_row = 5, .last_row = 8, .feed_length = 2.0 * m}};
  bar.drive->setting = si(15.0 * psi);
  layout.job.turn_radius = -20.0 * m;
  const std::string text = main_job_text(main_job(layout), {.units = UnitSystem::metric});
  EXPECT_TRUE(says(text, ", turning right on 20.00 m, regulator at " + format(15.0 * psi, UnitSystem::metric) + "."))
      << text;
  EXPECT_TRUE(says(text, "The gauge stands where the manifolds' feed hoses part.")) << text;
  for (Manifold& one : bar.manifolds) one.feed_length = 0.0 * m;
  EXPECT_EQ(report_detail::gauge_place(layout), "where the liquid enters the manifolds");
}

TEST(MainJobWords, ACauseWithoutAFigureForARowLeavesItsCellEmpty) {
  Answer a = demo_answer("Bar", {0.01, -0.01, 0.0, -0.03}, 0.018);
  a.evenness.causes.front().deviation.resize(2);
  a.evenness.reference.clear();
  const std::string text = main_job_text(a);
  EXPECT_TRUE(says(text, " hose lengths 90 % manifold 10 % +0.1")) << text;
  EXPECT_FALSE(says(text, "Measured from")) << text;
  Answer bar = two_rows();
  bar.evenness.causes = {{.name = "hose lengths", .deviation = {}, .share = 0.9}};
  const std::string page = layout_page(bar);
  EXPECT_TRUE(std::regex_search(page, std::regex("hose lengths</[a-z]+>[^9]*90 %</td><td[^>]*></td>"))) << page;
}

TEST(MainJobWords, AGoodVerdictIsGreenAndAPlainOneHasNoColour) {
  const Answer good = demo_answer("Bar", {0.01, -0.01, 0.0, 0.0}, 0.008);
  EXPECT_TRUE(main_job_text(good, {.colour = true}).starts_with("\x1b[1;32mEVEN: "));
  using report_detail::coloured;
  EXPECT_EQ(coloured("text", report_detail::Colour::none, {.colour = true}), "text");
  EXPECT_EQ(coloured("text", report_detail::Colour::good, {}), "text");
}

TEST(MainJobWords, SmallNumbersHaveNoExponentEitherWay) {
  using report_detail::without_exponent;
  EXPECT_EQ(without_exponent("-8.9e-06 gpm"), "0 gpm") << "less than a ten-thousandth below nothing is nothing";
  EXPECT_EQ(report_detail::residual(5e-5), "0.01 %") << "within it";
  EXPECT_EQ(report_detail::shown_number<Pressure>(std::numeric_limits<double>::infinity(), UnitSystem::us), "-");
}

TEST(PageWords, GoodFindingsHaveTheGoodBox) {
  const Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  const PageFindings found{.sentence = "The cups say: EVEN.", .good = true, .sections = {}};
  const std::string box = report_detail::findings_box(found, a);
  EXPECT_TRUE(box.starts_with("<div class=\"verdict\"><span class=\"sign\" aria-hidden=\"true\">✓</span>")) << box;
  EXPECT_TRUE(holds(box, "<p>The layout predicts: NOT EVEN: row 1 gets")) << box;
}

TEST(PageWords, WithoutAnAnswerThePageHasNoNumberOfARow) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.solution.status = Status::iteration_limit;
  a.evenness = {};
  const std::string page = layout_page(a);
  EXPECT_TRUE(holds(page, "NOT SOLVED"));
  for (const char* section : {"Every row", "Where the pressure goes", "What decides it", "Cautions", "Solved in"}) {
    EXPECT_FALSE(holds(page, section)) << section;
  }
  EXPECT_TRUE(holds(page, "The product"));
}

TEST(PageWords, ARowAloneHasOneWayInThePicture) {
  Layout layout;
  layout.job = test::plain_job();
  layout.plumbing = test::plain_bar(1);
  const Answer one = main_job(layout);
  ASSERT_TRUE(one.solution.usable());
  const std::string picture = path_svg(one, UnitSystem::us);
  EXPECT_TRUE(holds(picture, "row 1")) << picture;
  Answer none = one;
  none.evenness.highest_row = none.evenness.lowest_row = 0;
  EXPECT_EQ(path_svg(none, UnitSystem::us), "");
}

}  // namespace rare_verdicts_test
}  // namespace libflow
