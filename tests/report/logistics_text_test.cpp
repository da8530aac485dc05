// SPDX-License-Identifier: MIT
/// @file
/// Order list, nutrients, lines and drawdown as text: the verdict first, at most 100 columns, units of the layout.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/report/drawdown_text.hpp>
#include <libflow/report/lines_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/nutrients_text.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace logistics_text_test {

using test::says;

namespace logistics_text {
using namespace units;

/// Eight rows on cold 10-34-0 with check valves, two feed hoses, a tank and a pump.
Layout machine() {
  Toolbar bar = test::plain_bar(8);
  bar.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  bar.hose_rating = 700.0 * kPa;
  bar.check_valve = test::plain_valve();
  Drive drive;
  for (const char* id : {"left tank", "right tank"}) {
    DriveTank t{.id = id, .tank = {.shape = LyingTank::round(0.9 * m, 1.2 * m)}, .level = 0.5 * m};
    t.height = 0.6 * m;
    t.line_length = 2.0 * m;
    drive.tanks.push_back(t);
  }
  drive.tanks[1].tank.shape = LyingTank::round(0.9 * m, 1.6 * m);
  drive.suction = {.length = 2.0 * m};
  drive.pump = CentrifugalPump{.shutoff = 1500.0 * kPa, .free_flow = 100.0 * L_per_min};
  drive.delivery = {.length = 3.0 * m, .bore = 25.0 * mm};
  bar.drive = drive;
  Job job = test::plain_job();
  job.liquid = find_liquid("10-34-0");
  job.temperature = celsius(8);
  job.rate = 60.0 * L_per_ha;
  return {.name = "Eight rows", .units = UnitSystem::metric, .job = job, .plumbing = bar};
}

void expect_tidy(const std::string& text, const std::string& opening) {
  EXPECT_EQ(text.rfind(opening, 0), 0U) << text.substr(0, 200);
  EXPECT_NE(text.find("The product label, local code and a qualified person"), std::string::npos);
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    EXPECT_LE(report_detail::columns(line), 100U) << line;
    EXPECT_TRUE(line.empty() || line.back() != ' ') << "'" << line << "'";
    EXPECT_EQ(line.find("nan"), std::string::npos) << line;
    EXPECT_EQ(line.find("inf"), std::string::npos) << line;
  }
}
}  // namespace logistics_text

TEST(ListWords, RowsAndTimes) {
  using namespace report_detail;
  EXPECT_EQ(row_list_text({}), "");
  EXPECT_EQ(row_list_text({4}), "row 4");
  EXPECT_EQ(row_list_text({1, 2, 3, 4}), "rows 1 to 4");
  EXPECT_EQ(row_list_text({1, 3, 4, 7, 8, 9}), "rows 1, 3, 4, 7 to 9");
  EXPECT_EQ(duration_text(0.126), "0.13 s");
  EXPECT_EQ(duration_text(35.2), "35 s");
  EXPECT_EQ(duration_text(750.0), "12.5 min");
  EXPECT_EQ(duration_text(4.0 * 3600.0 + 39.0 * 60.0), "4 h 39 min");
  EXPECT_EQ(duration_text(2.0 * 3600.0 - 1.0), "2 h 0 min") << "never 1 h 60 min";
  EXPECT_EQ(duration_text(HUGE_VAL), "-");
  EXPECT_EQ(spacing_text(30.0 * units::inch, UnitSystem::us), "30 in");
  EXPECT_EQ(spacing_text(30.0 * units::inch, UnitSystem::metric), "76.2 cm");
}

TEST(OrderListText, CutsByLengthAndPartsByCount) {
  using namespace logistics_text;
  const OrderList list = order_list(machine(), {.coil = 30.0 * m});
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    expect_tidy(order_list_text(list, {.units = u}), "ORDER for 'Eight rows'");
  }
  const std::string text = order_list_text(list);
  EXPECT_TRUE(says(text, "Hose, 10.00 mm bore, working pressure 700.0 kPa")) << text;
  EXPECT_TRUE(says(text, "rows 1, 8")) << "rows with one length stand together\n" << text;
  EXPECT_TRUE(says(text, "crack pressure 27.6 kPa")) << text;
  EXPECT_TRUE(says(text, "common practice without a source")) << text;
  EXPECT_TRUE(says(text, "coil")) << text;
  EXPECT_TRUE(says(text, "every cut fits with 5 % more of its coil for its allowance")) << text;
  EXPECT_TRUE(says(text, "Cuts are rounded up to one centimetre; the layout's own lengths are")) << text;
  EXPECT_TRUE(says(text, "Slack of the run is no part of it")) << text;
  const std::string none = order_list_text(order_list(machine(), {.waste = 0.0, .coil = 30.0 * m}));
  EXPECT_TRUE(says(none, "the cuts fit, without any allowance")) << none;
  EXPECT_FALSE(says(order_list_text(order_list(machine())), "coil of")) << "no coils were asked for";
}

TEST(OrderListText, ValvesByKvOrCv) {
  using namespace logistics_text;
  // Kv 1 m3/h and Cv 1.156: the trade's factor (IEC 60534-2-1).
  const OrderSize size{std::string(order_valve_size), Kind::flow, 1.0 / 3600.0};
  EXPECT_EQ(order_size_text(size, UnitSystem::us), "flow at 1 psi 1.156 gpm");
  EXPECT_EQ(order_size_text(size, UnitSystem::metric), "flow at 1 bar 16.67 L/min");
}

TEST(NutrientsText, LimitsSourcesAndTheWaterTest) {
  using namespace logistics_text;
  const Agronomy a = agronomy(machine());
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    expect_tidy(nutrients_text(a, {.units = u}), fmt::format("{} N, ", format_number(a.mean.n, u)));
  }
  const std::string text = nutrients_text(a);
  for (const char* part : {"kg/ha", "N + K2O", "[KSU] Kansas State University", "THE RULE FAILS here", "label",
                           "Analysis 10-34-0", "corn, 76.2 cm rows"}) {
    EXPECT_TRUE(says(text, part)) << part << "\n" << text;
  }
  Layout uan = machine();
  uan.job.liquid = find_liquid("28-0-0");
  uan.job.rate = 100.0 * L_per_ha;
  const std::string with_urea = nutrients_text(agronomy(uan));
  EXPECT_TRUE(says(with_urea, "urea")) << with_urea;
  EXPECT_TRUE(says(with_urea, "costs a tenth of the stand")) << with_urea;
  EXPECT_TRUE(says(with_urea, "OVER")) << with_urea;
}

TEST(BlendText, PartsAndMix) {
  using namespace logistics_text;
  const std::vector<BlendPart> parts{{"uan32", {32, 0, 0, 0}, 1320.0 * kg_per_m3, 100.0 * L},
                                     {"water", {}, 1000.0 * kg_per_m3, 18.86 * L}};
  const std::string text = blend_text(parts, blend(parts), UnitSystem::metric);
  EXPECT_TRUE(says(text, "The mix is 28-0-0, 1269 kg/m3, 118.9 L.")) << text;
  EXPECT_TRUE(says(text, "jar")) << text;
}

TEST(LinesText, TimesAndTheTwoKindsOfChange) {
  using namespace logistics_text;
  Layout layout = machine();
  const Lines l = lines(layout);
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    expect_tidy(lines_text(l, {.units = u}), "LINES HOLD ");
  }
  const std::string text = lines_text(l);
  EXPECT_TRUE(says(text, "A change of the rate is felt at every row within")) << text;
  EXPECT_TRUE(says(text, "A change of the liquid itself")) << text;
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.row_changes = {{.row = 3, .crack = 1400.0 * kPa}};
  layout.job.rate = 30.0 * L_per_ha;
  const std::string shut = lines_text(lines(layout));
  EXPECT_TRUE(says(shut, "neither fill nor flush")) << shut;
  expect_tidy(shut, "LINES HOLD ");
}

TEST(DrawdownText, OneFill) {
  using namespace logistics_text;
  const Layout layout = machine();
  const Drawdown d = drawdown(layout, {.from_full = false, .samples = 5, .tolerance = 1e-3});
  for (const UnitSystem u : {UnitSystem::us, UnitSystem::metric}) {
    expect_tidy(drawdown_text(d, {.units = u}), "ONE FILL: ");
  }
  const std::string text = drawdown_text(d);
  EXPECT_TRUE(says(text, "is empty first")) << text;
  EXPECT_TRUE(says(text, "'left tank' is down to its lowest level")) << text;
  EXPECT_TRUE(says(text, "so that the rate is held")) << text;
  EXPECT_TRUE(says(text, "weighs")) << text;
  const Drawdown stopped = drawdown(layout, {.hold_rate = false, .samples = 5, .tolerance = 1e-3},
                                    [](std::size_t done, std::size_t) { return done < 1; });
  expect_tidy(drawdown_text(stopped), "NOT COMPLETE: ");
  EXPECT_TRUE(says(drawdown_text(stopped), "stopped by you"));
  EXPECT_TRUE(says(drawdown_text(stopped), "No control is moved"));
}

TEST(DrawdownText, EveryEndIsSaid) {
  using namespace logistics_text;
  Drawdown d = drawdown(machine(), {.from_full = false, .samples = 3, .tolerance = 1e-3});
  const auto said = [&](DrawdownEnd end, std::size_t tanks) {
    Drawdown one = d;
    one.end = end;
    one.tanks.resize(tanks);
    one.first_empty.reset();
    return drawdown_text(one);
  };
  d.options.least_flow = 0.05;
  EXPECT_TRUE(says(said(DrawdownEnd::all_empty, 2), "; then every tank is empty."));
  EXPECT_TRUE(says(said(DrawdownEnd::flow_faded, 2), "; then the rows get less than 5 % of what is wanted."));
  EXPECT_TRUE(says(said(DrawdownEnd::time_limit, 2), "; then the time limit is reached, liquid is left."));
  EXPECT_TRUE(says(said(DrawdownEnd::too_many_events, 2), "; then given up: valves open and shut without end."));
  EXPECT_TRUE(says(said(DrawdownEnd::stopped, 2), "; then stopped by you."));
}

TEST(DrawdownText, WhatHappensOnTheWayIsToldInItsOrder) {
  using namespace logistics_text;
  Drawdown d = drawdown(machine(), {.from_full = false, .samples = 3, .tolerance = 1e-3});
  const double hectare = 1e4;
  d.events = {{DrawdownEventKind::overflow_begins, 30.0, 0.1 * hectare, "left tank"},
              {DrawdownEventKind::valve_shut, 750.0, 2.0 * hectare, "row 3 check valve"},
              {DrawdownEventKind::valve_open, 7200.0, 5.0 * hectare, "row 3 check valve"}};
  d.spilled = 12.5e-3;
  const std::string text = drawdown_text(d);
  const std::size_t brim = text.find(" - 30 s, 0.1 ha: 'left tank' is full to the brim and spills\n"),
                    shut = text.find(" - 12.5 min, 2.0 ha: 'row 3 check valve' shuts\n"),
                    open = text.find(" - 2 h 0 min, 5.0 ha: 'row 3 check valve' opens\n");
  ASSERT_NE(open, std::string::npos) << text;
  EXPECT_LT(brim, shut) << text;
  EXPECT_LT(shut, open) << text;
  EXPECT_TRUE(says(text, format(12.5 * L, UnitSystem::metric) + " of liquid spills over a brim.")) << text;
  // A valve that chatters fills no page.
  for (int k = 0; k < 40; ++k) d.events.push_back(d.events.back());
  EXPECT_TRUE(says(drawdown_text(d), "- and 19 more (all with --json)")) << drawdown_text(d);
}

TEST(OrderListText, CoilsThatCannotBeFewerSaySo) {
  using namespace logistics_text;
  // Eight hoses of 2 m need 8 coils of 3 m, though 16 m would fit into 6.
  Layout layout = machine();
  std::get<Toolbar>(layout.plumbing) = test::plain_bar(8);
  const std::string text = order_list_text(order_list(layout, {.coil = 3.0 * m}));
  EXPECT_TRUE(says(text, "8 coils of 3.00 m (no plan needs fewer than 6)")) << text;
  const std::string few = order_list_text(order_list(layout, {.coil = 4.5 * m}));
  EXPECT_TRUE(says(few, "4 coils of 4.50 m, the fewest possible")) << few;
}

TEST(NutrientsText, OneLimitNoneAndTheirGrammar) {
  using namespace logistics_text;
  Agronomy a = agronomy(machine(), {.soil = Soil::sandy});
  ASSERT_GE(a.limits.size(), 2U);
  const auto verdict = [&](std::size_t limits, bool over) {
    Agronomy one = a;
    one.limits.resize(limits);
    for (SeedLimitCheck& c : one.limits) c.over = over;
    return nutrients_text(one);
  };
  EXPECT_TRUE(says(verdict(1, false), "corn seed: within the one published limit for sandy soil."));
  EXPECT_TRUE(says(verdict(1, true), "corn seed: OVER 1 of 1 published limit for sandy soil."));
  EXPECT_TRUE(says(verdict(2, false), "corn seed: within both published limits for sandy soil."));
  EXPECT_TRUE(says(verdict(0, false), "corn seed: no published limit is known here."));
  EXPECT_FALSE(says(verdict(0, false), "CEC")) << "no table, no explanation of it";
}

// A held pressure takes no rate: water and product come as they come, and the rule is judged by their quotient.
TEST(NutrientsText, AtAHeldPressureWaterIsComparedWithTheProduct) {
  using namespace logistics_text;
  Plumbing p;
  p.supply = p.network.add_supply("pump", 150.0 * kPa);
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto end = p.network.add_place(name + " end");
    const auto air = p.network.add_air(name);
    const auto hose = p.network.add_part(name + " hose", p.supply, end, Hose{.length = 5.0 * m, .bore = 6.0 * mm});
    const auto hole = p.network.add_part(name + " hole", end, air, Orifice{.bore = 1.2 * mm});
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = 5.0,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {hose}});
  }
  Layout layout = machine();
  layout.plumbing = p;
  const Agronomy a = agronomy(layout);
  ASSERT_TRUE(a.water.same_setting);
  const std::string text = nutrients_text(a);
  EXPECT_TRUE(says(text, fmt::format("At this setting water comes at {}, the product at {}: a factor of {:.3f}. The "
                                     "square-root rule says {:.3f}, for one pressure; it would put the product {} off.",
                                     format(from_si<AreaRate>(a.water.water_rate), UnitSystem::metric),
                                     format(from_si<AreaRate>(a.water.product_rate), UnitSystem::metric),
                                     a.water.water_rate / a.water.product_rate, a.water.rule_factor,
                                     report_detail::percent(std::abs(a.water.error)))))
      << text;
}

TEST(NutrientsText, AProductThatDoesNotComeAtAllIsSaid) {
  using namespace logistics_text;
  Agronomy a = agronomy(machine());
  ASSERT_FALSE(a.water.same_setting);
  a.water.product_rate = 0.0;
  const std::string text = nutrients_text(a);
  EXPECT_TRUE(says(text, "At that pressure the product does not come at all: it needs " +
                             format(from_si<Pressure>(a.water.right_pressure), UnitSystem::metric) + "."))
      << text;
  EXPECT_FALSE(says(text, "than wanted"));
}

// Why the rule fails: at a held pressure it is the viscosity, which the rule does not know; from a tank the pressure
// itself goes with the liquid's weight (study/water_rule_test.cpp has the law).
TEST(NutrientsText, WhyTheRuleFailsFromATank) {
  using namespace logistics_text;
  Agronomy a = agronomy(machine());
  ASSERT_TRUE(a.water.fails);
  a.water.same_setting = true;
  a.answer.plumbing.tanks.clear();
  EXPECT_TRUE(says(nutrients_text(a), "It knows density only")) << "a held pressure";
  a.answer.plumbing.tanks.push_back({a.answer.plumbing.supply, {}, 0.8});
  const std::string text = nutrients_text(a);
  EXPECT_TRUE(says(text, "a tank's own goes with the liquid's weight")) << text;
  EXPECT_FALSE(says(text, "It knows density only")) << text;
}

}  // namespace logistics_text_test
}  // namespace libflow
