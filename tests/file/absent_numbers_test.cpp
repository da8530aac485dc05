// SPDX-License-Identifier: MIT
/// @file
/// What a result does not have is null in JSON and an empty field in CSV, and what it seldom has is there.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <variant>

#include <nlohmann/json.hpp>

#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/drawdown_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/what_if_json.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace absent_numbers_test {

using namespace units;

// Every row of a table has as many fields as its heading; the row that is off says so and has no rate.
TEST(AbsentNumbers, ARowThatIsOffInATable) {
  Layout layout = test::driven_layout(test::plain_drive());
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  std::istringstream csv(results_to_csv(main_job(layout), UnitSystem::metric));
  std::string heading, line;
  std::getline(csv, heading);
  const auto commas = [](const std::string& text) { return std::count(text.begin(), text.end(), ','); };
  int rows = 0;
  while (std::getline(csv, line)) {
    ++rows;
    EXPECT_EQ(commas(line), commas(heading)) << line;
    EXPECT_EQ(line.find(rows == 3 ? ",3,yes," : ",no,") != std::string::npos, true) << line;
    EXPECT_EQ(line.find("nan"), std::string::npos) << line;
  }
  EXPECT_EQ(rows, 8);
}

TEST(AbsentNumbers, FaultsWithoutARunningRowAndAControlThatMoves) {
  WhatIf w;
  w.has_setting = true;
  w.base_setting = 0.75;
  w.answers.emplace_back();
  w.answers[0].setting_kept.worst_row = 4;
  w.answers[0].setting_kept.cautions = {{"dry", "row 3", "gets nothing"}};
  const auto json = what_if_to_json(w);
  EXPECT_EQ(json.at("without_fault").at("control_setting_SI"), 0.75);
  const auto& fault = json.at("faults").at(0);
  EXPECT_TRUE(fault.at("total_held").at("worst_running_row").is_null());
  EXPECT_EQ(fault.at("setting_kept").at("worst_running_row"), 4);
  EXPECT_EQ(fault.at("setting_kept").at("cautions").at(0).at("subject"), "row 3");
  EXPECT_TRUE(fault.at("total_held").at("cautions").empty());
  w.has_setting = false;
  EXPECT_TRUE(what_if_to_json(w).at("without_fault").at("control_setting_SI").is_null());
}

TEST(AbsentNumbers, AFillWithATankThatIsNotEmptyAndNoRowThatRuns) {
  Drawdown d;
  d.tanks = {{.id = "left", .capacity = 1.0, .start = 1.0, .end = 0.5}, {.id = "right", .empty_time = 60.0}};
  d.samples.emplace_back();
  d.samples[0].volume = d.samples[0].level = {0.5, 0.0};
  const auto json = drawdown_to_json(d);
  EXPECT_TRUE(json.at("tanks").at(0).at("empty_after_s").is_null());
  EXPECT_EQ(json.at("tanks").at(1).at("empty_after_s"), 60.0);
  EXPECT_TRUE(json.at("samples").at(0).at("worst_row").is_null());
  EXPECT_TRUE(json.at("samples").at(0).at("pump_inlet_Pa").is_null()) << "NaN: no drive";
  std::istringstream csv(drawdown_to_csv(d, UnitSystem::metric));
  std::string heading, line;
  std::getline(csv, heading);
  std::getline(csv, line);
  EXPECT_NE(line.find(",,"), std::string::npos) << "no row, no pump: " << line;
  EXPECT_EQ(line.find("nan"), std::string::npos) << line;
}

TEST(AbsentNumbers, ASlipOfUnitsAndASecondGauge) {
  CatchVerdict v;
  EXPECT_TRUE(catch_verdict_to_json(v).at("level").at("unit_slip_factor").is_null());
  v.level.slip = LevelSlip{29.57, "fl oz to ml"};
  EXPECT_EQ(catch_verdict_to_json(v).at("level").at("unit_slip_factor"), 29.57);
  Diagnosis d;
  d.causes.emplace_back();
  d.causes[0].likely.emplace_back();
  d.causes[0].next = NextMeasurement{.kind = NextMeasurement::Kind::gauge_at_row, .row = 5, .predicted = {2e5, 1e5}};
  const auto next = diagnosis_to_json(d).at("causes").at(0).at("next_measurement");
  EXPECT_EQ(next.at("row"), 5);
  EXPECT_EQ(next.at("predicted_Pa").at(0), 2e5) << "a gauge shows a pressure, no flow";
}

}  // namespace absent_numbers_test
}  // namespace libflow
