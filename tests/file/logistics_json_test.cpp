// SPDX-License-Identifier: MIT
/// @file
/// Order list, nutrients, lines and drawdown for programs and spreadsheets; the analysis of a product of one's own.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <libflow/file/drawdown_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/lines_json.hpp>
#include <libflow/file/nutrients_json.hpp>
#include <libflow/file/order_list_json.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace logistics_json_test {

namespace logistics_json {
using namespace units;

/// Four rows, one behind a check valve that stays shut, on one tank and a pump.
Layout machine() {
  Toolbar bar = test::plain_bar(4);
  bar.check_valve = test::plain_valve();
  bar.row_changes = {{.row = 3, .crack = 1900.0 * kPa}};
  Drive drive;
  drive.tanks = {{.tank = {.shape = UprightTank::round(0.5 * m, 0.8 * m)}, .level = 0.5 * m}};
  drive.suction = {.length = 2.0 * m};
  drive.pump = CentrifugalPump{.shutoff = 1800.0 * kPa, .free_flow = 100.0 * L_per_min};
  drive.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  bar.drive = drive;
  Job job = test::plain_job();
  job.liquid = find_liquid("28-0-0");
  return {.name = "four, rows", .job = job, .plumbing = bar};
}
std::size_t lines_of(const std::string& csv) {
  return static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n'));
}
std::size_t fields_of(const std::string& line) {
  bool quoted = false;
  std::size_t fields = 1;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (c == ',' && !quoted) ++fields;
  }
  return fields;
}
void expect_rectangular(const std::string& csv) {
  std::size_t at = 0, width = 0;
  while (at < csv.size()) {
    const std::size_t end = csv.find("\r\n", at);
    ASSERT_NE(end, std::string::npos);
    const std::size_t fields = fields_of(csv.substr(at, end - at));
    if (width == 0) width = fields;
    EXPECT_EQ(fields, width) << csv.substr(at, end - at);
    at = end + 2;
  }
}

constexpr const char* own_product = R"([job]
product = "my mix"
temperature = "60 F"
rate = "5 gal/ac"
speed = "5 mph"
[product]
name = "my mix"
density = "10.9 lb/gal"
viscosity = [["60 F", "9 cP"]]
analysis = "ANALYSIS"
[toolbar]
rows = 2
spacing = "30 in"
[[manifold]]
[hose]
bore = "1/4 in"
length = "10 ft"
[orifice]
bore = "0.04 in"
)";
std::string with_analysis(const std::string& text) {
  std::string layout = own_product;
  return layout.replace(layout.find("ANALYSIS"), 8, text);
}
}  // namespace logistics_json

TEST(OrderListJson, EveryCutAndItem) {
  using namespace logistics_json;
  const OrderList list = order_list(machine(), {.coil = 10.0 * m});
  const Json j = Json::parse(to_text(order_list_to_json(list)));
  ASSERT_EQ(j["hoses"].size(), list.hoses.size());
  double total = 0.0, cuts = 0.0;
  for (const auto& hose : j["hoses"]) {
    for (const auto& cut : hose["cuts"]) {
      total += cut["length_m"].get<double>();
      cuts += cut["cut_m"].get<double>();
    }
    EXPECT_GE(hose["coils"]["count"].get<std::size_t>(), hose["coils"]["at_least"].get<std::size_t>());
  }
  EXPECT_NEAR(total, j["hose_total_m"].get<double>(), 1e-12);
  EXPECT_NEAR(cuts, j["cut_total_m"].get<double>(), 1e-12);
  EXPECT_EQ(j["cut_step_m"].get<double>(), list.units == UnitSystem::us ? 0.0254 : 0.01);
  bool crack = false;
  for (const auto& item : j["items"]) crack = crack || item["sizes"].contains("crack_pressure_Pa");
  EXPECT_TRUE(crack);
  EXPECT_TRUE(order_list_to_json(order_list(machine()))["hoses"][0]["coils"].is_null());
  const std::string csv = order_list_to_csv(list, UnitSystem::us);
  expect_rectangular(csv);
  EXPECT_EQ(lines_of(csv), 1U + 6U + list.items.size()) << "a heading, six cuts, the items";
  EXPECT_NE(csv.find("\"four, rows\",hose,1,1,"), std::string::npos) << csv;
}

TEST(NutrientsJson, RowsLimitsAndTheWaterTest) {
  using namespace logistics_json;
  const Agronomy a = agronomy(machine());
  const Json j = Json::parse(to_text(nutrients_to_json(a)));
  EXPECT_EQ(j["rows"].size(), 4U);
  EXPECT_EQ(j["analysis"]["N"].get<double>(), 0.28);
  EXPECT_NEAR(j["wanted"]["N_kg_per_m2"].get<double>(), si(a.wanted.n), 1e-15);
  EXPECT_EQ(j["with_the_seed"]["limits"].size(), a.limits.size());
  EXPECT_EQ(j["water_test"]["rule_fails"].get<bool>(), a.water.fails);
  EXPECT_FALSE(j["cautions"].empty());
  const std::string csv = nutrients_to_csv(a, UnitSystem::metric);
  expect_rectangular(csv);
  EXPECT_EQ(lines_of(csv), 5U);
  EXPECT_EQ(csv.rfind("layout,row,N (kg/ha),", 0), 0U) << csv;
}

TEST(NutrientsJson, ABlend) {
  using namespace logistics_json;
  const std::vector<BlendPart> parts{{"a", {32, 0, 0, 0}, 1320.0 * kg_per_m3, 1.0 * L},
                                     {"b", {}, 1000.0 * kg_per_m3, 0.5 * L}};
  const Json j = blend_to_json(parts, blend(parts));
  EXPECT_EQ(j["parts"].size(), 2U);
  EXPECT_NEAR(j["mix"]["mass_kg"].get<double>(), 1.82, 1e-12);
  EXPECT_NEAR(j["mix"]["analysis"]["N"].get<double>(), 0.32 * 1.32 / 1.82, 1e-12);
}

TEST(LinesJson, WhatIsNotReachedIsNull) {
  using namespace logistics_json;
  const Lines l = lines(machine());
  ASSERT_TRUE(std::isinf(l.rows[2].fill));
  const Json j = Json::parse(to_text(lines_to_json(l)));
  EXPECT_TRUE(j["rows"][2]["full_after_s"].is_null());
  EXPECT_TRUE(j["rows"][0]["full_after_s"].is_number());
  EXPECT_NEAR(j["held_m3"].get<double>(), l.held, 1e-15);
  const std::string csv = lines_to_csv(l, UnitSystem::us);
  expect_rectangular(csv);
  EXPECT_EQ(lines_of(csv), 5U);
}

TEST(DrawdownJson, EveryEndAndEventHasItsWord) {
  Drawdown d;
  const std::pair<DrawdownEnd, const char*> ends[] = {{DrawdownEnd::all_empty, "all empty"},
                                                      {DrawdownEnd::flow_faded, "flow faded"},
                                                      {DrawdownEnd::time_limit, "time limit"},
                                                      {DrawdownEnd::too_many_events, "too many events"},
                                                      {DrawdownEnd::stopped, "stopped"}};
  for (const auto& [end, word] : ends) {
    d.end = end;
    EXPECT_EQ(drawdown_to_json(d)["end"], word);
  }
  const std::pair<DrawdownEventKind, const char*> events[] = {{DrawdownEventKind::tank_empty, "tank empty"},
                                                              {DrawdownEventKind::valve_shut, "valve shut"},
                                                              {DrawdownEventKind::valve_open, "valve open"},
                                                              {DrawdownEventKind::overflow_begins, "overflow begins"}};
  for (const auto& [kind, word] : events) {
    d.events = {{.kind = kind, .time = 60.0, .area = 100.0, .subject = "it"}};
    const Json e = drawdown_to_json(d)["events"][0];
    EXPECT_EQ(e["what"], word);
    EXPECT_EQ(e["subject"], "it");
    EXPECT_EQ(e["time_s"].get<double>(), 60.0);
    EXPECT_EQ(e["area_m2"].get<double>(), 100.0);
  }
}

// A pipe of a free form is ordered by its length.
TEST(OrderListCsv, APipeHasItsLengthInItsColumn) {
  const OrderList list = order_list(read_layout(std::string(LIBFLOW_EXAMPLES) + "/tees.toml"));
  const std::string csv = order_list_to_csv(list, UnitSystem::us);
  logistics_json::expect_rectangular(csv);
  // "arm 1" to "arm 4", 4 in of half-inch pipe each: a third of a foot.
  EXPECT_NE(csv.find("Four rows on tees,pipe or tube,4,,0.33333"), std::string::npos) << csv;
}

TEST(DrawdownJson, SamplesTanksAndEvents) {
  using namespace logistics_json;
  const Drawdown d = drawdown(machine(), {.samples = 5, .tolerance = 1e-4});
  const Json j = Json::parse(to_text(drawdown_to_json(d)));
  EXPECT_EQ(j["samples"].size(), d.samples.size());
  EXPECT_EQ(j["end"], "all empty");
  EXPECT_EQ(j["first_empty"], "tank");
  EXPECT_EQ(j["tanks"][0]["id"], "tank");
  EXPECT_EQ(j["events"].back()["what"], "tank empty");
  EXPECT_NEAR(j["time_s"].get<double>(), d.time, 1e-9);
  EXPECT_TRUE(j["samples"][0]["pump_inlet_Pa"].is_number());
  EXPECT_TRUE(
      drawdown_to_json(drawdown(machine(), {.hold_rate = false, .samples = 3}))["samples"][0]["control_setting_SI"]
          .is_null());
  const std::string csv = drawdown_to_csv(d, UnitSystem::us);
  expect_rectangular(csv);
  EXPECT_EQ(lines_of(csv), 1U + d.samples.size());
}

TEST(LayoutAnalysis, OfAProductOfOnesOwn) {
  using namespace logistics_json;
  const Layout layout = parse_layout(with_analysis("8-20-5-2S"), "own.toml");
  ASSERT_TRUE(layout.job.liquid.analysis());
  EXPECT_EQ(layout.job.liquid.analysis()->k2o, 5.0);
  EXPECT_EQ(layout.job.liquid.analysis()->s, 2.0);
  try {
    (void)parse_layout(with_analysis("8 20 5"), "own.toml");
    ADD_FAILURE() << "8 20 5 is no grade";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find("own.toml:10:12: [product] analysis"), std::string::npos) << e.what();
    EXPECT_NE(e.allowed().find("10-34-0"), std::string::npos) << e.what();
  }
  // It may also replace that of a known product, alone in its table.
  std::string known = with_analysis("9-30-0");
  known.replace(known.find("my mix"), 6, "10-34-0");
  known.erase(known.find("name ="), known.find("analysis") - known.find("name ="));
  const Layout other = parse_layout(known, "known.toml");
  EXPECT_EQ(other.job.liquid.analysis()->p2o5, 30.0);
  EXPECT_EQ(other.job.liquid.id(), "app_10_34_0");
}

}  // namespace logistics_json_test
}  // namespace libflow
