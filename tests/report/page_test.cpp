// SPDX-License-Identifier: MIT
/// @file
/// The page of one layout: whole, self-contained, readable without colour and without a picture.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/path_svg.hpp>
#include <libflow/report/rows_svg.hpp>
#include <libflow/report/toolbar_svg.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace page_test {

using test::holds;

Answer answer_of(const std::string& example) {
  return main_job(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / example));
}
std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
  return n;
}
/// Opening and closing tags in balance, as an XML reader would ask; the few that HTML leaves open are named.
void expect_balanced(const std::string& html) {
  const std::regex tag("<(/?)([a-zA-Z0-9]+)([^<>]*)>");
  std::vector<std::string> open;
  for (std::sregex_iterator t(html.begin(), html.end(), tag), end; t != end; ++t) {
    const std::string name = (*t)[2], rest = (*t)[3];
    if (name == "meta" || (!rest.empty() && rest.back() == '/')) continue;
    if ((*t)[1].length() == 0) {
      open.push_back(name);
    } else {
      ASSERT_FALSE(open.empty()) << name;
      ASSERT_EQ(open.back(), name);
      open.pop_back();
    }
  }
  EXPECT_TRUE(open.empty());
}

TEST(Page, IsWholeAndSelfContained) {
  for (const char* example : {"short_hoses.toml", "equal_hoses.toml", "free_form.toml", "turn_on_a_hill.toml"}) {
    SCOPED_TRACE(example);
    const std::string page = layout_page(answer_of(example));
    EXPECT_EQ(page.rfind("<!DOCTYPE html>\n<html lang=\"en\">", 0), 0U);
    expect_balanced(page);
    for (const char* fetched : {"<script", "<link", "<img", "src=", "@import", "url(http"}) {
      EXPECT_FALSE(holds(page, fetched)) << fetched;
    }
    EXPECT_FALSE(holds(page, "nan")) << page;
    EXPECT_FALSE(holds(page, "inf\"")) << page;
    EXPECT_TRUE(holds(page, "qualified person"));
  }
}

TEST(Page, OpensWithTheVerdict) {
  const Answer a = answer_of("short_hoses.toml");
  const std::string page = layout_page(a);
  const std::size_t heading = page.find("<h1>");
  EXPECT_EQ(page.substr(heading + 4, 9), "NOT EVEN:");
  EXPECT_EQ(times(page, "<h1>"), 1U);
}

TEST(Page, EveryRowIsInTheTableAndInThePicture) {
  const Answer a = answer_of("short_hoses.toml");
  const std::string picture = rows_svg(a);
  EXPECT_EQ(times(picture, "<rect class=\"bar out\"") + times(picture, "class=\"bar out\""), a.evenness.outside.size());
  EXPECT_EQ(times(picture, "class=\"bar\""), a.evenness.rows.size() - a.evenness.outside.size());
  // Words say what the hatch says.
  EXPECT_EQ(times(picture, " LOW<") + times(picture, " HIGH<"), a.evenness.outside.size());
}

TEST(Page, DrawsTheBarToScale) {
  // Rows are 30 in apart: the marks of neighbours lie as far apart as 30 in of the drawing's own 5 ft scale.
  const Answer a = answer_of("short_hoses.toml");
  const std::string picture = toolbar_svg(a, UnitSystem::us);
  const std::regex outlet("<circle cx=\"([0-9.]+)\"");
  std::vector<double> x;
  for (std::sregex_iterator t(picture.begin(), picture.end(), outlet), end; t != end; ++t) {
    x.push_back(std::stod((*t)[1]));
  }
  ASSERT_EQ(x.size(), 16U);
  std::smatch scale;
  ASSERT_TRUE(std::regex_search(picture, scale,
                                std::regex("<line x1=\"([0-9.]+)\" y1=\"[0-9.]+\" x2=\"([0-9.]+)\" y2=\"[0-9.]+\" "
                                           "class=\"axis\"/>")));
  const double five_feet = std::stod(scale[2]) - std::stod(scale[1]);
  for (std::size_t i = 1; i < x.size(); ++i) EXPECT_NEAR(x[i] - x[i - 1], 0.5 * five_feet, 0.15);
}

TEST(Page, SaysFromWhichFileAndOfWhichDayItIs) {
  const Answer a = answer_of("short_hoses.toml");
  const std::string page = layout_page(a, {}, {}, {}, {.file = "a & b.toml", .date = "2026-11-26"});
  EXPECT_TRUE(holds(page, "<p class=\"facts\">a &amp; b.toml, 2026-11-26</p>"));
  EXPECT_TRUE(holds(layout_page(a, {}, {}, {}, {.date = "2026-11-26"}), "<p class=\"facts\">2026-11-26</p>"));
  EXPECT_EQ(times(layout_page(a), "class=\"facts\""), 1U);
  const std::string both = comparison_page(compare({a.layout, a.layout}), {}, {.file = "a.toml, b.toml"});
  EXPECT_TRUE(holds(both, "<p class=\"facts\">a.toml, b.toml</p>"));
}

TEST(Page, TheGaugeIsOneWordAndSaysWhereItStands) {
  for (const char* example : {"equal_hoses.toml", "pump_and_tank_bar.toml", "turn_on_a_hill.toml", "free_form.toml"}) {
    SCOPED_TRACE(example);
    const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / example);
    const std::string page = dealer_page(layout, main_job(layout));
    EXPECT_FALSE(holds(page, "supply pressure") || holds(page, "pressure at the supply"));
    EXPECT_TRUE(holds(page, ">gauge (" + report_detail::gauge_place(layout) + ")<"));
  }
}

TEST(Page, NoTableOfRowsIsWiderThanAPhone) {
  // Every row stands in two tables side by side; neither has more than six columns.
  const std::string page = layout_page(answer_of("short_hoses.toml"));
  const std::size_t begin = page.find("<h2 id=\"rows\">"), end = page.find("</section>", begin);
  std::string rows = page.substr(begin, end - begin);
  ASSERT_EQ(times(rows, "<caption>"), 2U);
  for (std::size_t head = rows.find("<thead>"); head != std::string::npos; head = rows.find("<thead>", head + 1)) {
    EXPECT_LE(times(rows.substr(head, rows.find("</thead>", head) - head), "<th"), 7U);  // <thead and six <th
  }
}

TEST(Page, ItsMapHasOneHeadingAndNamesTheJob) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  const std::string page = dealer_page(layout, main_job(layout));
  EXPECT_EQ(times(page, "Where it works"), 1U);
  EXPECT_EQ(times(page, ">job</text>"), 1U);
  // No nothing with a sign; a small deviation has one.
  std::smatch zero;
  EXPECT_FALSE(std::regex_search(page, zero, std::regex(">[+-]0(\\.0*)?[ <]"))) << zero.str();
}

TEST(Page, EveryPartOfThePressurePictureHasItsOwnName) {
  for (const char* example : {"equal_hoses.toml", "pump_and_tank_bar.toml", "turn_on_a_hill.toml", "tees.toml"}) {
    SCOPED_TRACE(example);
    const std::string picture = path_svg(answer_of(example), UnitSystem::us);
    const std::regex label("rotate\\(-35[^>]*>([^<]*)<");
    std::vector<std::string> labels;
    for (std::sregex_iterator t(picture.begin(), picture.end(), label), end; t != end; ++t) labels.push_back((*t)[1]);
    ASSERT_GE(labels.size(), 3U);
    std::sort(labels.begin(), labels.end());
    EXPECT_EQ(std::adjacent_find(labels.begin(), labels.end()), labels.end()) << *labels.begin();
  }
  // Both ways are seen where they lose the same: other marks, dashes, and one stands aside.
  const std::string same = path_svg(answer_of("equal_hoses.toml"), UnitSystem::us);
  EXPECT_TRUE(holds(same, ">manifold 1<") && holds(same, ">row's hose<")) << same;
  const std::regex way("<polyline points=\"([0-9.]+),");
  std::vector<double> starts;
  for (std::sregex_iterator t(same.begin(), same.end(), way), end; t != end; ++t) starts.push_back(std::stod((*t)[1]));
  ASSERT_EQ(starts.size(), 2U);
  EXPECT_NEAR(starts[1] - starts[0], 5.0, 0.11);
}

TEST(Page, AnEvenBarThatGetsTooLittleIsNoGoodBar) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  EXPECT_EQ(short_of_rate(main_job(layout)), nullptr);
  layout.job.pump_limit = 20.0 * units::psi;  // it needs 39
  const Answer a = main_job(layout);
  ASSERT_NE(short_of_rate(a), nullptr);
  const std::string page = layout_page(a);
  EXPECT_TRUE(holds(page, "<div class=\"verdict bad\">"));
  EXPECT_TRUE(holds(page, "NOT REACHED: the rate needs "));
  EXPECT_TRUE(holds(page, " at the gauge, 20.00 psi is the limit. (At that rate the rows would be EVEN"));
  EXPECT_TRUE(holds(verdict_sentence(compare({layout, layout})),
                    "RATE NOT REACHED by 'North bar, all hoses 22 ft': the rate needs"));
}

TEST(Page, NamesFromAFileCannotBreakIt) {
  Answer a = answer_of("equal_hoses.toml");
  a.layout.name = "</title><script>alert(1)</script> & \"more\"";
  const std::string page = layout_page(a);
  EXPECT_FALSE(holds(page, "<script"));
  expect_balanced(page);
}

TEST(Page, HoldsTheSectionsOfStudiesInTheirOrder) {
  const std::string page = layout_page(answer_of("equal_hoses.toml"),
                                       {{"one", "First & foremost", "<p>a</p>\n"}, {"two", "Then", "<p>b</p>\n"}});
  const std::size_t one = page.find("<h2 id=\"one\">First &amp; foremost</h2>"), two = page.find("<h2 id=\"two\">");
  ASSERT_NE(one, std::string::npos);
  ASSERT_NE(two, std::string::npos);
  EXPECT_LT(one, two);
}

TEST(Page, DealersPageHasEverySection) {
  for (const char* example : {"short_hoses.toml", "pump_and_tank_bar.toml", "free_form.toml"}) {
    SCOPED_TRACE(example);
    const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / example);
    const std::string page = dealer_page(layout, main_job(layout));
    expect_balanced(page);
    for (const char* id : {"rows", "pressure", "range", "faults", "order", "card", "catch", "product"}) {
      EXPECT_EQ(times(page, "<h2 id=\"" + std::string(id) + "\">"), 1U) << id;
    }
    EXPECT_FALSE(holds(page, "nan"));
  }
}

TEST(Page, AStoppedPageSaysSo) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  const std::string page =
      dealer_page(layout, main_job(layout), {}, [](std::size_t done, std::size_t) { return done < 2; });
  EXPECT_TRUE(holds(page, "stopped by the user"));
  EXPECT_TRUE(holds(page, "<h2 id=\"faults\">"));
  EXPECT_FALSE(holds(page, "<h2 id=\"catch\">"));
}

TEST(Page, ComparisonPutsTheDifferenceFirst) {
  const std::string page =
      comparison_page(compare({answer_of("equal_hoses.toml").layout, answer_of("short_hoses.toml").layout}));
  expect_balanced(page);
  EXPECT_TRUE(holds(page, "is evener than"));
  EXPECT_LT(page.find("<h2 id=\"difference\">"), page.find("<h2 id=\"rows\">"));
  EXPECT_EQ(times(page, "A &#39;") + times(page, "A 'North bar, all hoses 22 ft'"), 2U);
}

TEST(Page, AComparisonWithoutAnAnswerShowsNoneOfItsNumbers) {
  Comparison c = compare({answer_of("equal_hoses.toml").layout, answer_of("short_hoses.toml").layout});
  c.answers[1].solution.status = Status::iteration_limit;
  c.answers[1].solution.message = "no convergence in 60 steps";
  c.answers[1].evenness = {};
  const std::string page = comparison_page(c);
  expect_balanced(page);
  EXPECT_TRUE(
      holds(page, "NOT SOLVED: 'North bar, shortest hoses' has no answer (no convergence in 60 steps).") ||
      holds(page, "NOT SOLVED: &#39;North bar, shortest hoses&#39; has no answer (no convergence in 60 steps)."))
      << page.substr(0, 9000);
  for (const char* number : {"<table>", "<h2", "0.00 psi"}) EXPECT_FALSE(holds(page, number)) << number;
  EXPECT_FALSE(holds(page, "nan"));
}

TEST(Page, UnitsAreTheReaders) {
  const Answer a = answer_of("equal_hoses.toml");
  EXPECT_TRUE(holds(layout_page(a, {}, {.units = UnitSystem::metric}), "L/ha"));
  EXPECT_FALSE(holds(layout_page(a, {}, {.units = UnitSystem::metric}), "gal/ac"));
}

// The valves open at 4 psi: at 2 psi nothing flows, and there is nothing to be uniform.
TEST(Page, WhereNothingFlowsThereIsNoUniformity) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  layout.job.pressure = 2.0 * units::psi;
  const std::string html = layout_page(main_job(layout));
  for (const char* of : {"coefficient of variation \\(n-1\\)", "Christiansen uniformity", "low-quarter uniformity"}) {
    EXPECT_TRUE(std::regex_search(html, std::regex(std::string(of) + "</t[hd]><td[^>]*>-</td>"))) << of << html;
  }
  EXPECT_FALSE(holds(html, "nan"));
  expect_balanced(html);
}

TEST(Page, TheGaugeStandsWhereTheFeedHosesPart) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  auto& bars = std::get<Toolbar>(layout.plumbing).manifolds;
  const auto place = [&] {
    const std::string html = layout_page(main_job(layout));
    const std::size_t begin = html.find("gauge (") + 7;
    return html.substr(begin, html.find(')', begin) - begin);
  };
  EXPECT_EQ(place(), "where the liquid enters the manifold");
  bars[0].feed_length = from_si<Length>(2.0);
  EXPECT_EQ(place(), "where the manifold's feed hose begins");
  bars.push_back(bars[0]);
  bars[0].last_row = 8;
  bars[1].first_row = 9;
  EXPECT_EQ(place(), "where the manifolds' feed hoses part");
}

}  // namespace page_test
}  // namespace libflow
