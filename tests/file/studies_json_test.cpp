// SPDX-License-Identifier: MIT
/// @file
/// Operating point, envelope, comparison over points and setting card as JSON and CSV: everything is there, no number
/// is lost, none is not a number.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include <libflow/file/compare_points_json.hpp>
#include <libflow/file/envelope_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/operating_point_json.hpp>
#include <libflow/file/setting_card_json.hpp>

namespace libflow {
namespace studies_json_test {

using namespace units;

Layout json_example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

TEST(StudiesJson, OperatingPoint) {
  const OperatingPoint p = operating_point(json_example("pump_and_tank_bar.toml"));
  const Json j = Json::parse(to_text(operating_point_to_json(p)));
  EXPECT_TRUE(j["reached"].get<bool>());
  EXPECT_TRUE(j["what_stops_it"].is_null());
  EXPECT_EQ(j["control"]["setting"].get<double>(), p.setting);
  EXPECT_EQ(j["pump"]["flow_m3_per_s"].get<double>(), p.duty->flow);
  ASSERT_EQ(j["limits"].size(), p.limits.size());
  for (std::size_t i = 0; i < p.limits.size(); ++i) {
    EXPECT_EQ(j["limits"][i]["name"].get<std::string>(), p.limits[i].name);
    EXPECT_EQ(j["limits"][i]["margin"].get<double>(), p.limits[i].margin);
    EXPECT_FALSE(j["limits"][i]["unit"].get<std::string>().empty());
  }
  EXPECT_EQ(j["answer"]["evenness"]["rows"].size(), 16U);
  const Json ideal = operating_point_to_json(operating_point(json_example("equal_hoses.toml")));
  EXPECT_TRUE(ideal["pump"].is_null());
  EXPECT_EQ(ideal["control"]["name"].get<std::string>(), "supply pressure");
  // Without a pump limit the range ends at what is assumed, 60 psi, and the cautions say so.
  const Json open = Json::parse(to_text(operating_point_to_json(operating_point(json_example("turn_on_a_hill.toml")))));
  EXPECT_NEAR(open["control"]["highest"].get<double>(), 60.0 * si(psi), 1e-3);
  EXPECT_NE(to_text(open).find("assumed-pressure-limit"), std::string::npos);
}

TEST(StudiesJson, Envelope) {
  const Envelope e =
      envelope(json_example("pump_and_tank_bar.toml"),
               {.speeds = spread(3.0 * mph, 9.0 * mph, 3), .rates = {4.0 * gal_per_acre, 9.0 * gal_per_acre}});
  const Json j = Json::parse(to_text(envelope_to_json(e)));
  EXPECT_TRUE(j["complete"].get<bool>());
  ASSERT_EQ(j["points"].size(), 6U);
  EXPECT_EQ(j["axes"]["speeds_m_per_s"].size(), 3U);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(j["points"][i]["state"].get<std::string>(), name_of(e.points[i].state));
    EXPECT_EQ(j["points"][i]["gauge_Pa"].get<double>(), e.points[i].gauge);
    EXPECT_FALSE(j["points"][i]["binding_limit"].get<std::string>().empty());
  }
  EXPECT_TRUE(j["points"][5]["pump_reserve"].is_null());  // not reached
  EXPECT_TRUE(j["pressure_limit_Pa"].is_null());          // the pump's own limits
  const Envelope hill =
      envelope(json_example("turn_on_a_hill.toml"), {.speeds = {5.0 * mph}, .rates = {9.0 * gal_per_acre}});
  EXPECT_NEAR(envelope_to_json(hill)["pressure_limit_Pa"].get<double>(), 60.0 * si(psi), 1e-3);
  EXPECT_TRUE(envelope_to_json(hill)["pressure_limit_assumed"].get<bool>());
  EXPECT_EQ(j["usable_speeds"].size(), 2U);

  const std::string csv = envelope_to_csv(e, UnitSystem::us);
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 7);
  EXPECT_EQ(csv.rfind("speed (mph),rate (gal/ac),", 0), 0U) << csv;
  EXPECT_EQ(csv.find("nan"), std::string::npos);
}

TEST(StudiesJson, ComparisonAndCard) {
  const PointComparison c =
      compare_points({json_example("equal_hoses.toml"), json_example("short_hoses.toml")}, {4.0 * mph, 5.0 * mph});
  const Json j = Json::parse(to_text(compare_points_to_json(c)));
  EXPECT_EQ(j["best"].get<std::string>(), c.layouts[0].layout.name);
  EXPECT_EQ(j["layouts"][1]["points"].size(), 2U);
  EXPECT_EQ(j["layouts"][0]["hose_by_bore"][0]["cuts"].get<int>(), 16);
  EXPECT_TRUE(j["layouts"][0]["least_pump_reserve"].is_null());

  const SettingCard card = setting_card(json_example("pump_and_tank_bar.toml"));
  const Json k = Json::parse(to_text(setting_card_to_json(card)));
  EXPECT_EQ(k["points"].size(), 15U);
  EXPECT_EQ(k["rows"].size(), 16U);
  EXPECT_EQ(k["rows"][3]["catch_m3"].get<double>(), card.rows[3].volume);
  EXPECT_EQ(k["catch_time_s"].get<double>(), 30.0);
  EXPECT_FALSE(k["cautions"].empty());
}

// A stopped comparison has neither a best nor a worst: those of what is done might be others.
TEST(StudiesJson, AStoppedComparisonNamesNobody) {
  const PointComparison c = compare_points({json_example("equal_hoses.toml"), json_example("short_hoses.toml")},
                                           {4.0 * mph, 5.0 * mph}, {}, [](std::size_t, std::size_t) { return false; });
  ASSERT_FALSE(c.complete);
  const Json j = compare_points_to_json(c);
  EXPECT_EQ(j["complete"], false);
  EXPECT_TRUE(j["best"].is_null());
  EXPECT_TRUE(j["worst"].is_null());
  EXPECT_TRUE(j["deciding_cause"].is_null());
}

// A limit that the layout states is no assumption.
TEST(StudiesJson, TheEnvelopeOfAStatedLimit) {
  Layout hill = json_example("turn_on_a_hill.toml");
  hill.job.pump_limit = 40.0 * psi;
  const Json j = envelope_to_json(envelope(hill, {.speeds = {5.0 * mph}, .rates = {9.0 * gal_per_acre}}));
  EXPECT_NEAR(j["pressure_limit_Pa"].get<double>(), 40.0 * si(psi), 1e-6);
  EXPECT_EQ(j["pressure_limit_assumed"], false);
}

// At ten times its rate the pump is far from enough: no cup is to be caught, and the card says why.
TEST(StudiesJson, ACardWhoseRateIsNotReached) {
  Layout layout = json_example("pump_and_tank_bar.toml");
  layout.job.rate = 10.0 * layout.job.rate;
  const SettingCard card = setting_card(layout, {.speeds = {5.0 * mph}, .rates = {layout.job.rate}});
  const Json j = setting_card_to_json(card);
  EXPECT_EQ(j["rate_reached"], false);
  EXPECT_EQ(j["job_point"]["reached"], false);
  EXPECT_EQ(j["job_point"]["state"], "cannot run");
  EXPECT_TRUE(j["rows"].empty());
  const Json point = operating_point_to_json(operating_point(layout));
  EXPECT_EQ(point["reached"], false);
  EXPECT_FALSE(point["what_stops_it"].get<std::string>().empty());
}

// Power taken up over power given: 60 W of 100 W; of none, and where nobody knows, there is no efficiency.
TEST(StudiesJson, ThePowerOfAPump) {
  OperatingPoint p;
  const auto pump = [&] { return operating_point_to_json(p)["pump"]; };
  p.duty = PumpDuty{.hydraulic_power = 60.0};
  EXPECT_TRUE(pump()["suction_head_required_m"].is_null());
  EXPECT_TRUE(pump()["shaft_power_W"].is_null());
  EXPECT_TRUE(pump()["efficiency"].is_null());
  p.duty->suction_required = 1.5;
  p.duty->shaft_power = 100.0;
  EXPECT_EQ(pump()["suction_head_required_m"], 1.5);
  EXPECT_EQ(pump()["shaft_power_W"], 100.0);
  EXPECT_NEAR(pump()["efficiency"].get<double>(), 0.6, 1e-15);
  p.duty->shaft_power = p.duty->hydraulic_power = 0.0;
  EXPECT_EQ(pump()["shaft_power_W"], 0.0);
  EXPECT_TRUE(pump()["efficiency"].is_null());
}

}  // namespace studies_json_test
}  // namespace libflow
