// SPDX-License-Identifier: MIT
/// @file
/// The plan of a catch test and what it finds, for programs: every number with its unit in the key, every word one that
/// a program may rely on.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <filesystem>
#include <iterator>
#include <set>
#include <string>
#include <utility>

#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_plan.hpp>

namespace libflow {
namespace catch_json_test {

using namespace units;

Layout catch_bar() {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  return layout;
}

TEST(CatchJson, ThePlanHoldsEveryCup) {
  CatchSetup setup;
  setup.time = 45.0 * s;
  setup.repeats = 2;
  setup.together = false;
  const CatchPlan plan = plan_catch(catch_bar(), setup);
  const Json j = Json::parse(to_text(catch_plan_to_json(plan)));
  EXPECT_EQ(j["layout"], "North bar, all hoses 22 ft");
  EXPECT_EQ(j["time_s"].get<double>(), 45.0);
  EXPECT_EQ(j["repeats"], 2);
  EXPECT_EQ(j["reading_error"].get<double>(), 0.02);
  // Cups one after another: the watch's 0.2 s of 45 s count too.
  EXPECT_NEAR(j["cup_error"].get<double>(), std::hypot(0.02, 0.2 / 45.0), 1e-15);
  EXPECT_NEAR(j["strip_m2"].get<double>(), si(acre) / 128.0, 1e-12);
  EXPECT_EQ(j["supply_pressure_Pa"].get<double>(), plan.product.evenness.supply_pressure);
  EXPECT_EQ(j["water_supply_pressure_Pa"].get<double>(), plan.water.evenness.supply_pressure);
  EXPECT_TRUE(j["water_at_same_pressure"].get<bool>());
  EXPECT_EQ(j["provable_row_difference"].get<double>(), plan.provable_row);
  EXPECT_EQ(j["provable_coefficient_of_variation"].get<double>(), plan.provable_cv);
  EXPECT_EQ(j["confidence"].get<double>(), plan.setup.power.confidence);
  EXPECT_EQ(j["power"].get<double>(), plan.setup.power.power);
  EXPECT_EQ(j["cautions"].size(), plan.cautions.size());
  ASSERT_EQ(j["rows"].size(), 16U);
  for (std::size_t i = 0; i < plan.rows.size(); ++i) {
    const Json& row = j["rows"][i];
    EXPECT_EQ(row["row"], static_cast<int>(i) + 1);
    EXPECT_EQ(row["shut"].get<bool>(), i == 2);
    EXPECT_EQ(row["product_m3"].get<double>(), plan.rows[i].product);
    EXPECT_EQ(row["water_m3"].get<double>(), plan.rows[i].water);
    EXPECT_EQ(row["strip_volume_m3"].get<double>(), plan.rows[i].strip_volume);
    if (i == 2) continue;
    // A cup is what its row's rate brings onto the ground that it covers in that time, and so on the strip.
    const RowResult& given = plan.product.evenness.rows[i];
    EXPECT_NEAR(row["product_m3"].get<double>() / (given.flow * 45.0), 1.0, 1e-12);
    EXPECT_NEAR(row["strip_length_m"].get<double>() * given.width, j["strip_m2"].get<double>(), 1e-9);
    EXPECT_NEAR(row["strip_time_s"].get<double>() * given.speed, row["strip_length_m"].get<double>(), 1e-9);
  }
}

// As study/catch_causes.hpp says of each kind: what the size is, and in which unit.
TEST(CatchJson, WhatASizeMeansGoesByItsKind) {
  using Of = CatchCauseKind;
  const std::pair<Of, const char*> all[] = {{Of::orifice, "factor"},
                                            {Of::other_orifice, "bore_m"},
                                            {Of::hose_length, "factor"},
                                            {Of::hose_bore, "factor"},
                                            {Of::check_valve, "added_crack_Pa"},
                                            {Of::hoses_swapped, "none"},
                                            {Of::side_slope, "added_slope_rad"},
                                            {Of::bar_bore, "factor"},
                                            {Of::feed_place, "none"},
                                            {Of::feed_hose, "factor"},
                                            {Of::density, "factor"},
                                            {Of::viscosity, "factor"},
                                            {Of::gauge, "factor"},
                                            {Of::measure, "factor"},
                                            {Of::orifice_set, "factor"},
                                            {Of::hose_schedule, "share_of_the_way"}};
  std::set<std::string> names;
  for (const auto& [kind, means] : all) {
    Diagnosis d;
    d.causes.emplace_back();
    d.causes[0].likely.push_back(
        {.cause = {kind, 2, kind == Of::hoses_swapped ? 5 : 0, 0, 0.9}, .low = 0.8, .high = 1.1});
    const Json one = diagnosis_to_json(d)["causes"][0]["likely"][0];
    EXPECT_EQ(one["size_means"], means) << one;
    EXPECT_EQ(one["size"].get<double>(), 0.9);
    EXPECT_EQ(one["size_low"].get<double>(), 0.8);
    EXPECT_EQ(one["size_high"].get<double>(), 1.1);
    EXPECT_EQ(one["rows"], kind == Of::hoses_swapped ? Json::array({2, 5}) : Json::array({2}));
    names.insert(one["kind"].get<std::string>());
  }
  EXPECT_EQ(names.size(), std::size(all)) << "each kind has a word of its own";
}

// A size and its interval hold beside what else is found.
TEST(CatchJson, ACauseSaysBesideWhichOthersItWasFitted) {
  Diagnosis d;
  d.causes.emplace_back();
  d.causes[0].likely.push_back(
      {.cause = {CatchCauseKind::orifice, 5, 0, 0, 1.2},
       .others = {{CatchCauseKind::gauge, 0, 0, 0, 0.6}, {CatchCauseKind::check_valve, 9, 0, 0, 2e4}}});
  const Json beside = diagnosis_to_json(d)["causes"][0]["likely"][0]["beside"];
  ASSERT_EQ(beside.size(), 2U);
  EXPECT_EQ(beside[0]["kind"], std::string(name_of(CatchCauseKind::gauge)));
  EXPECT_EQ(beside[0]["size"].get<double>(), 0.6);
  EXPECT_EQ(beside[0]["size_means"], "factor");
  EXPECT_EQ(beside[0]["rows"], Json::array());
  EXPECT_EQ(beside[1]["rows"], Json::array({9}));
  EXPECT_EQ(beside[1]["size_means"], "added_crack_Pa");
}

TEST(CatchJson, EveryMarkHasItsWord) {
  CatchVerdict v;
  const std::pair<CatchMark, const char*> marks[] = {{CatchMark::inside, "inside"},
                                                     {CatchMark::outside, "outside"},
                                                     {CatchMark::unproved, "unproved"},
                                                     {CatchMark::missing, "missing"},
                                                     {CatchMark::set_aside, "set-aside"}};
  for (const auto& [mark, word] : marks) v.rows.push_back({.row = static_cast<int>(v.rows.size()) + 1, .mark = mark});
  const Json rows = catch_verdict_to_json(v)["rows"];
  ASSERT_EQ(rows.size(), std::size(marks));
  for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ(rows[i]["mark"], marks[i].second);
}

}  // namespace catch_json_test
}  // namespace libflow
