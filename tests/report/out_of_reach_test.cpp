// SPDX-License-Identifier: MIT
/// @file
/// What is out of reach or elsewhere: a layout of several that can run no point, a rate that is exceeded, the caution
/// of a second product, the job beside the slices of a map.
#include <gtest/gtest.h>

#include <cstddef>
#include <filesystem>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/report/compare_points_text.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/envelope.hpp>
#include <tests/support/demo_answer.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace out_of_reach_test {

using namespace units;
using test::holds;
using test::says;

static Layout example() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }

static std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

// The second needs 39 psi and has 5: it has no gauge pressure, no CV and no furthest row at any point.
TEST(OutOfReach, ALayoutThatCanRunNoPointIsComparedWithDashes) {
  Layout weak = example();
  weak.job.pump_limit = 5.0 * psi;
  const PointComparison c = compare_points({example(), weak}, {4.0 * mph, 5.0 * mph});
  ASSERT_TRUE(c.complete);
  ASSERT_EQ(c.layouts[1].cannot, 2U);
  std::string text;
  ASSERT_NO_THROW(text = compare_points_text(c));
  EXPECT_TRUE(says(text, "even at 2 of 2 points against 0 for")) << text;
  EXPECT_TRUE(says(text, "Worst CV - - Furthest row - -")) << text;
  EXPECT_TRUE(says(text, "No point can be run by every layout, so there is no worst CV")) << text;
  EXPECT_FALSE(says(text, "nan")) << text;
}

// Of one answer "EXCEEDED" is the word (rate_word): more than the wanted rate is not "not reached".
TEST(OutOfReach, ARateThatIsExceededIsNotCalledNotReached) {
  Comparison c = test::demo_comparison();
  c.answers[1].evenness.cautions.push_back(
      {"other-rate-held", "rate", "what the layout holds gives 40 % more than the wanted rate", 1.4, 1.0, ""});
  ASSERT_EQ(rate_word(c.answers[1]), "EXCEEDED");
  EXPECT_FALSE(holds(verdict_sentence(c), "NOT REACHED")) << verdict_sentence(c);
}

// Two products with the same figures: what is said of the first is to be said of the second, too.
TEST(OutOfReach, TheCautionOfASecondProductIsItsOwn) {
  Layout a = example(), b = example();
  LiquidRecord record = find_liquid("10-34-0").record();
  record.name = "second product";
  b.job.liquid = Liquid(record);
  const PointComparison c = compare_points({a, b}, {5.0 * mph});
  ASSERT_FALSE(b.job.liquid.at(b.job.temperature).cautions.empty());
  EXPECT_TRUE(holds(compare_points_text(c), "second product")) << compare_points_text(c);
}

TEST(JobOnTheMap, AnAxisOfTheJobsOwnValueAloneHoldsTheJob) {
  const Envelope e = envelope(example(), {.speeds = {5.0 * mph}, .rates = {5.0 * gal_per_acre}});
  const std::string svg = envelope_svg(e);
  EXPECT_TRUE(holds(svg, "the job's own rate and speed"));
  EXPECT_FALSE(holds(svg, "the job itself is outside this map"));
  EXPECT_EQ(times(svg, ">job</text>"), 1U);
}

// As in the text (slice_of_job): the job is on level ground, and on the map of level ground alone.
TEST(JobOnTheMap, IsOnTheMapOfItsOwnSlopeOnly) {
  EnvelopeAxes axes{.speeds = {4.0 * mph, 6.0 * mph}, .rates = {4.0 * gal_per_acre, 6.0 * gal_per_acre}};
  axes.side_slopes = {0.0 * rad, slope_percent(8.0)};
  EXPECT_EQ(times(envelope_svg(envelope(example(), axes)), ">job</text>"), 1U);
  axes.side_slopes = {slope_percent(8.0)};
  const std::string elsewhere = envelope_svg(envelope(example(), axes));
  EXPECT_EQ(times(elsewhere, ">job</text>"), 0U);
  EXPECT_TRUE(holds(elsewhere, "the job itself is outside this map"));
}

}  // namespace out_of_reach_test
}  // namespace libflow
