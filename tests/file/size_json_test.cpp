// SPDX-License-Identifier: MIT
/// @file
/// Sizing and the question for equal hoses as JSON: which choices are listed, and what stands there where there is
/// none.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/four_row_bar.hpp>

namespace libflow {
namespace size_json_test {

using namespace units;

/// `count` choices that fit, as they are ranked; all alike.
static SizeAnswer answer_with(std::size_t count) {
  SizeAnswer a;
  a.problem = size_problem(parse_layout(test::four_row_bar, "bar.toml"), {});
  SizeCandidate c;
  c.choice.orifices.assign(a.problem.groups.size(), 0);
  c.outcome.whole = true;
  a.fits.assign(count, c);
  return a;
}

static std::vector<std::size_t> ranks(const Json& answer) {
  std::vector<std::size_t> all;
  for (const Json& one : answer.at("ranked")) all.push_back(one.at("rank").get<std::size_t>());
  return all;
}

// The first ones, and of the others what nobody may miss: the recommended, the first that is sure, the trade-offs.
TEST(SizeJson, OfALongListTheFirstAndWhatMatters) {
  SizeAnswer a = answer_with(9);
  a.best = 4;
  a.sure = 6;
  a.fits[7].pareto = true;
  EXPECT_EQ(ranks(size_to_json(a, 2)), (std::vector<std::size_t>{1, 2, 5, 7, 8}));
  EXPECT_EQ(ranks(size_to_json(a)).size(), 9U);
  const Json j = size_to_json(a, 2);
  EXPECT_EQ(j.at("fit"), 9) << "how many there are is said in any case";
  EXPECT_EQ(j.at("recommended_rank"), 5);
  EXPECT_EQ(j.at("cheapest_sure_rank"), 7);
  EXPECT_EQ(j.at("recommended_is_sure"), true) << "no band is known";
  a.sure.reset();
  EXPECT_EQ(ranks(size_to_json(a, 2)), (std::vector<std::size_t>{1, 2, 5, 8}));
  EXPECT_TRUE(size_to_json(a).at("cheapest_sure_rank").is_null());
}

TEST(SizeJson, WhereNothingFitsNothingIsRecommended) {
  const Json j = Json::parse(to_text(size_to_json(answer_with(0))));
  EXPECT_EQ(j.at("fit"), 0);
  EXPECT_TRUE(j.at("ranked").empty());
  for (const char* key : {"recommended_rank", "recommended_is_sure", "cheapest_sure_rank", "nearest_miss",
                          "winner_over_the_whole_envelope"}) {
    EXPECT_TRUE(j.at(key).is_null()) << key;
  }
  EXPECT_TRUE(j.at("recommended_over_viscosity_band").empty());
}

// A row that gets nothing is off by 100 %: a share, no pressure.
TEST(SizeJson, ALimitHasItsOwnUnit) {
  SizeAnswer a = answer_with(1);
  SizeBinding& b = a.fits[0].outcome.binding;
  const auto binding = [&] { return size_to_json(a).at("ranked").at(0).at("binding"); };
  for (const SizeLimit limit : {SizeLimit::row_dry, SizeLimit::evenness}) {
    b = {.limit = limit, .row = 3, .value = -1.0, .allowed = 0.05, .use = 20.0};
    EXPECT_EQ(binding().at("limit"), name_of(limit));
    EXPECT_EQ(binding().at("row"), 3);
    EXPECT_EQ(binding().at("deviation"), -1.0);
    EXPECT_EQ(binding().at("allowed_deviation"), 0.05);
    EXPECT_FALSE(binding().contains("value_Pa"));
  }
  b = {.limit = SizeLimit::most_pressure, .value = 3e5, .allowed = 4e5, .use = 0.75};
  EXPECT_EQ(binding().at("value_Pa"), 3e5);
  EXPECT_EQ(binding().at("allowed_Pa"), 4e5);
  EXPECT_FALSE(binding().contains("deviation"));
  EXPECT_TRUE(binding().at("row").is_null()) << "of the whole bar";
  b = {.limit = SizeLimit::metering, .value = 0.2, .allowed = 0.25, .use = 1.25};
  EXPECT_EQ(binding().at("share"), 0.2);
  EXPECT_EQ(binding().at("least_share"), 0.25);
  b = {.limit = SizeLimit::supply_line, .value = 3.5, .allowed = 3.0, .name = "velocity of delivery", .unit = "m/s"};
  EXPECT_EQ(binding().at("limit"), "velocity of delivery");
  EXPECT_EQ(binding().at("value"), 3.5);
  EXPECT_EQ(binding().at("unit"), "m/s");
}

TEST(SizeJson, AnEndOfTheBandWithoutAnAnswerSaysWhy) {
  SizeAnswer a = answer_with(1);
  a.band.resize(2);
  a.band[0] = {.holds = true, .viscosity = 0.02, .points = 1};
  a.band[1].upper = true;
  a.band[1].refused = "too thick";
  const Json j = size_to_json(a);
  EXPECT_EQ(j.at("recommended_is_sure"), false);
  const Json& thin = j.at("recommended_over_viscosity_band").at(0);
  EXPECT_EQ(thin.at("end"), "lower");
  EXPECT_EQ(thin.at("viscosity_Pa_s"), 0.02);
  EXPECT_TRUE(thin.at("binding").is_object());
  const Json& thick = j.at("recommended_over_viscosity_band").at(1);
  EXPECT_EQ(thick.at("end"), "upper");
  EXPECT_EQ(thick.at("no_answer"), "too thick");
  EXPECT_TRUE(thick.at("viscosity_Pa_s").is_null());
  EXPECT_TRUE(thick.at("binding").is_null());
}

// A price that nobody gave and a valve that no row has are no zeros.
TEST(SizeJson, WhatTheBarDoesNotHaveIsNull) {
  SizeAnswer a = answer_with(1);
  const auto first = [&] { return size_to_json(a).at("ranked").at(0); };
  EXPECT_TRUE(first().at("price").is_null());
  EXPECT_TRUE(first().at("orifices_share_of_a_rows_loss").is_null());
  EXPECT_NEAR(first().at("crack_Pa").get<double>(), si(4.0 * psi), 1e-6);
  a.problem.choices.cracks.clear();
  a.problem.choices.hose_prices = {2.0};
  a.problem.choices.orifices.at(0) = OrificeByRating{.flow = 0.2 * gpm, .pressure = 20.0 * psi};
  a.fits[0].price = 42.0;
  a.fits[0].orifice_share = 0.4;
  EXPECT_TRUE(first().at("crack_Pa").is_null());
  EXPECT_EQ(first().at("price"), 42.0);
  EXPECT_EQ(first().at("orifices_share_of_a_rows_loss"), 0.4);
  const Json hole = first().at("orifices").at(0).at("orifice");
  EXPECT_EQ(hole.at("rated_flow_m3_per_s"), si(0.2 * gpm));
  EXPECT_EQ(hole.at("rated_pressure_Pa"), si(20.0 * psi));
  EXPECT_FALSE(hole.contains("bore_m"));
}

TEST(EqualHosesJson, WhatTheShortestHosesAskFor) {
  EqualHoses a;
  a.problem.layout.name = "Bar";
  const Json empty = equal_hoses_to_json(a);
  EXPECT_TRUE(empty.at("strictest_point").is_null());
  EXPECT_TRUE(empty.at("one_orifice_for_all_points").is_null());
  EXPECT_TRUE(empty.at("points").empty());
  using Need = EqualHosesPoint::Need;
  EqualHosesPoint point;
  point.needed = {.bore = 1e-3, .pressure = 2e5, .deviation_by_bore = 40.0, .exact_slope = true};
  for (const Need need : {Need::some_orifice, Need::any_orifice, Need::never}) {
    point.need = need;
    a.points.push_back(point);
  }
  a.strictest = 2;
  const Json j = Json::parse(to_text(equal_hoses_to_json(a)));
  EXPECT_EQ(j.at("strictest_point"), 2);
  const auto with = [&](std::size_t k) { return j.at("points").at(k).at("shortest_hoses_are_even_with"); };
  EXPECT_EQ(with(0), "this orifice or a smaller");
  EXPECT_EQ(with(1), "any orifice");
  EXPECT_EQ(with(2), "no orifice");
  const Json& needed = j.at("points").at(0).at("needed");
  EXPECT_EQ(needed.at("orifice_bore_m"), 1e-3);
  EXPECT_EQ(needed.at("deviation_per_bore_per_m"), 40.0);
  EXPECT_TRUE(j.at("points").at(1).at("needed").is_null());
  EXPECT_TRUE(j.at("points").at(2).at("needed").is_null());
  EXPECT_TRUE(j.at("points").at(0).at("most_gauge_allowed_Pa").is_null()) << "no limit";
  EXPECT_EQ(j.at("points").at(0).at("allowed"), true);
  EXPECT_EQ(j.at("points").at(2).at("allowed"), false) << "not even at any pressure";
  const Json& own = j.at("points").at(0).at("shortest_hoses_own_orifice");
  EXPECT_TRUE(own.at("orifice_bore_m").is_null()) << "none, or by its rating";
  EXPECT_TRUE(own.at("deviation_per_bore_per_m").is_null());
}

}  // namespace size_json_test
}  // namespace libflow
