// SPDX-License-Identifier: MIT
/// @file
/// The words of a sizing answer one by one: every limit that can bind, every place of a feed, orifices by their rating,
/// and what is said of answers that are rare.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include <fmt/core.h>

#include <libflow/file/layout_size.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_choices.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_words_test {

using test::says;

using namespace units;
using report_detail::shown;

/// Four rows, two hose bores to choose from: everything fits at once.
SizeAnswer small_answer() {
  Toolbar t = test::plain_bar(4);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  Layout layout{.name = "small", .job = test::plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("28-0-0");
  SizeChoices c;
  c.verify = 1;
  c.orifices = {OrificeByBore{.bore = 1.5 * mm}, OrificeByBore{.bore = 1.6 * mm}};
  c.hose_bores = {6.0 * mm, 8.0 * mm};
  c.cuts = {Cut::shortest, Cut::equal};
  c.least_pressure = 1.0 * psi;
  SizeAnswer a = size_toolbar(layout, c);
  EXPECT_GE(a.fits.size(), 2U);
  return a;
}

TEST(SizeWords, EveryLimitThatBindsSaysItsNumbers) {
  using report_detail::binding_text;
  const WorkingPoint at{
      .speed = 5.0 * mph, .rate = 5.0 * gal_per_acre, .temperature = fahrenheit(40), .side_slope = 0.0 * rad};
  const std::string where = ", at 5.0 mph, 5.00 gal/ac, 40.0 °F, level";
  const auto pressure = [](SizeLimit limit, int row, double value, double allowed) {
    return SizeBinding{.limit = limit, .row = row, .value = value * si(psi), .allowed = allowed * si(psi)};
  };
  const auto us = [&](const SizeBinding& b) { return binding_text(at, b, UnitSystem::us); };
  EXPECT_EQ(us({.limit = SizeLimit::evenness, .row = 4, .value = -0.062, .allowed = 0.05}),
            "evenness, row 4 is 6.2 % below the mean and 5.0 % is allowed" + where);
  EXPECT_EQ(us({.limit = SizeLimit::row_dry, .row = 4}), "row 4 gets nothing" + where);
  EXPECT_EQ(us(pressure(SizeLimit::hose_rating, 0, 110.0, 100.0)),
            "hose rating, 110.00 psi at the gauge against 100.00 psi" + where);
  EXPECT_EQ(us(pressure(SizeLimit::orifice_least, 3, 4.0, 5.0)),
            "drop across the orifice of row 3, 4.00 psi and 5.00 psi is the least" + where);
  EXPECT_EQ(us(pressure(SizeLimit::orifice_most, 3, 50.0, 45.0)),
            "drop across the orifice of row 3, 50.00 psi and 45.00 psi is the most" + where);
  EXPECT_EQ(us(pressure(SizeLimit::pump, 0, 50.0, 45.0)),
            "pump, 50.00 psi is needed at the gauge and its limit there is 45.00 psi" + where);
  EXPECT_EQ(us({.limit = SizeLimit::pump, .value = 1e5, .allowed = -HUGE_VAL}),
            "pump, it cannot give that flow at all" + where);
  EXPECT_EQ(us({.limit = SizeLimit::metering, .row = 2, .value = 0.02, .allowed = 0.1}),
            "metering, the orifice of row 2 takes 2.0 % of the pressure and 10.0 % is the least: below it the hose "
            "meters" +
                where);
  SizeBinding line{.limit = SizeLimit::supply_line, .value = 10.0 * si(psi), .allowed = 8.0 * si(psi)};
  line.name = "loss of the strainer";
  line.unit = "Pa";
  EXPECT_EQ(us(line), "loss of the strainer, 10.00 psi against 8.00 psi" + where);
  EXPECT_TRUE(
      binding_text(at, line, UnitSystem::metric).starts_with("loss of the strainer, 68.9 kPa against 55.2 kPa"));
}

TEST(SizeWords, AFeedStandsInTheMiddleAndAtAnEnd) {
  using report_detail::feed_place_text;
  EXPECT_EQ(feed_place_text(ManifoldFeed::middle, "the"), "in the middle");
  EXPECT_EQ(feed_place_text(ManifoldFeed::left, "its"), "at its left end");
  EXPECT_EQ(feed_place_text(ManifoldFeed::both_ends, "its"), "at both ends");
  SizeAnswer a = small_answer();
  ASSERT_NE(a.recommended(), nullptr);
  a.problem.choices.feeds = {ManifoldFeed::right, ManifoldFeed::both_ends};
  for (SizeCandidate& c : a.fits) c.choice.feed = 0;
  a.fits.back().choice.feed = 1;
  const std::string text = size_text(a, {.units = UnitSystem::metric});
  EXPECT_TRUE(says(text, "25.40 mm bore, fed at the right end")) << text;
  EXPECT_TRUE(says(text, "both ends")) << "a column of the list\n" << text;
  EXPECT_FALSE(says(text, "fed in the right end")) << text;
}

// An orifice may be known by one point of its rating alone: 0.2 gpm at 20 psi.
TEST(SizeWords, AnOrificeByItsRatingIsShownByIt) {
  SizeAnswer a = small_answer();
  ASSERT_NE(a.recommended(), nullptr);
  const OrificeByRating rated{.flow = 0.2 * gpm, .pressure = 20.0 * psi};
  for (OrificeChoice& o : a.problem.choices.orifices) o = rated;
  const std::string by_it = format(rated.flow, UnitSystem::us) + " at " + format(rated.pressure, UnitSystem::us);
  EXPECT_EQ(report_detail::orifice_text(rated, UnitSystem::us), by_it);
  EXPECT_TRUE(says(size_text(a, {.units = UnitSystem::us}), by_it + ", 4 in all, one for every outlet"));
  const std::string keys = size_toml(a.problem, *a.recommended(), UnitSystem::us);
  EXPECT_TRUE(keys.starts_with("[orifice]\nrated_flow = \"0.2 gpm\"\nrated_pressure = \"20 psi\"\n")) << keys;
  const Json json = size_to_json(a, 1)["ranked"][0]["orifices"][0]["orifice"];
  EXPECT_NEAR(json["rated_flow_m3_per_s"].get<double>(), si(0.2 * gpm), 1e-18);
  EXPECT_NEAR(json["rated_pressure_Pa"].get<double>(), si(20.0 * psi), 1e-9);
  EXPECT_FALSE(json.contains("bore_m"));
}

TEST(SizeWords, JsonNamesTheUnitOfWhatBinds) {
  SizeAnswer a = small_answer();
  ASSERT_FALSE(a.fits.empty());
  SizeBinding& b = a.fits.front().outcome.binding;
  b = {.limit = SizeLimit::metering, .row = 2, .value = 0.02, .allowed = 0.1, .use = 5.0};
  Json json = size_to_json(a, 1)["ranked"][0]["binding"];
  EXPECT_EQ(json["share"].get<double>(), 0.02);
  EXPECT_EQ(json["least_share"].get<double>(), 0.1);
  EXPECT_EQ(json["row"], 2);
  b = {.limit = SizeLimit::supply_line, .value = 2.5, .allowed = 2.0, .use = 1.25};
  b.name = "velocity in the suction line";
  b.unit = "m/s";
  json = size_to_json(a, 1)["ranked"][0]["binding"];
  EXPECT_EQ(json["limit"], "velocity in the suction line");
  EXPECT_EQ(json["value"].get<double>(), 2.5);
  EXPECT_EQ(json["allowed"].get<double>(), 2.0);
  EXPECT_EQ(json["unit"], "m/s");
  EXPECT_TRUE(json["row"].is_null());
  b = {.limit = SizeLimit::pump, .value = 3e5, .allowed = 2e5, .use = 1.5};
  json = size_to_json(a, 1)["ranked"][0]["binding"];
  EXPECT_EQ(json["value_Pa"].get<double>(), 3e5);
  EXPECT_EQ(json["allowed_Pa"].get<double>(), 2e5);
}

TEST(SizeWords, WhatIsRareIsSaidToo) {
  SizeAnswer a = small_answer();
  ASSERT_FALSE(a.fits.empty());
  a.band.clear();
  a.verified.points = 81;
  a.verified.holds = true;
  a.verified.added = 3;
  a.refused = 5;
  a.refusal = "hose, bore: 1 mm is out of range";
  a.problem.layout.tolerances.emplace_back();
  for (SizeCandidate& c : a.fits) c.built.reset();
  const std::string text = size_text(a);
  EXPECT_TRUE(says(text, "3 of these joined the search: a choice that held at the points of the lists did not there."))
      << text;
  EXPECT_TRUE(says(text, "5 combinations cannot be built, the first because: hose, bore: 1 mm is out of range."))
      << text;
  EXPECT_TRUE(says(text, "'libflow tolerance' of the layout with this choice says how even it is as built.")) << text;
  a.fits.resize(1);
  a.best = 0;
  EXPECT_TRUE(says(size_text(a), fmt::format("FITS: 1 of {} combinations keeps every limit", a.tried))) << size_text(a);
}

TEST(SizeWords, TheEvenestAsBuiltIsNamedWithWhatSpeaksAgainstIt) {
  SizeAnswer a = small_answer();
  ASSERT_GE(a.fits.size(), 2U);
  a.best = 0;
  a.sure = 0;
  for (SizeCandidate& c : a.fits) c.built.reset();
  a.fits[0].built = AsBuilt{.within = 0.60, .mean_cv = 0.03};
  a.fits[1].built = AsBuilt{.within = 0.90, .mean_cv = 0.02};
  a.fits[1].price = 1.05 * a.fits[0].price;
  const std::string both =
      ": " + report_detail::percent(0.90) + " of such machines are even, not " + report_detail::percent(0.60);
  // Cheap enough, but recommended it is not: then it does not hold over the whole band.
  a.band = {{.upper = false, .holds = true}, {.upper = true, .holds = true}};
  EXPECT_TRUE(says(size_text(a), both + "; but it does not hold over the whole band of the viscosity."))
      << size_text(a);
  a.fits[1].price = 1.5 * a.fits[0].price;
  EXPECT_TRUE(says(size_text(a), both + ".")) << size_text(a);
}

TEST(SizeWords, WhereNothingIsSureThatIsSaid) {
  const SizeFile file = read_size(std::string(LIBFLOW_EXAMPLES) + "/sizing.toml");
  SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_FALSE(a.is_sure());
  a.sure.reset();
  EXPECT_TRUE(says(size_text(a), fmt::format("None of the {} that fit holds over the whole band. Measure your "
                                             "product's viscosity and give it in [product].",
                                             a.fits.size())))
      << size_text(a);
  a.fits.resize(1);
  a.best = 0;
  EXPECT_TRUE(says(size_text(a), "Nothing else fits that would hold over the whole band.")) << size_text(a);
  a.complete = false;  // then nobody knows
  EXPECT_FALSE(says(size_text(a), "Nothing else fits")) << size_text(a);
}

TEST(SizeWords, RowsWithAHoseOfTheirOwnLoseIt) {
  SizeAnswer a = small_answer();
  ASSERT_NE(a.recommended(), nullptr);
  EXPECT_FALSE(says(size_toml(a.problem, *a.recommended(), UnitSystem::us), "hose_length"));
  std::get<Toolbar>(a.problem.layout.plumbing).row_changes = {{.row = 2, .hose_length = 4.0 * m}};
  EXPECT_TRUE(says(size_toml(a.problem, *a.recommended(), UnitSystem::us),
                   "# and no hose_length in a [[row]]: the lengths above count"));
}

}  // namespace size_words_test
}  // namespace libflow
