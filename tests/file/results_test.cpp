// SPDX-License-Identifier: MIT
/// @file
/// Results for machines: JSON with SI numbers and no NaN, CSV that a spreadsheet reads back.

#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <tests/support/demo_answer.hpp>

namespace results_test {

using namespace libflow;
using libflow::test::demo_answer;
using libflow::test::demo_comparison;

TEST(ResultsJson, SaysWhatTheAnswerSays) {
  const Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  const Json j = Json::parse(to_text(results_to_json(a)));
  EXPECT_EQ(j.at("libflow"), version);
  EXPECT_EQ(j.at("name"), "Bar");
  EXPECT_EQ(j.at("solution").at("status"), "converged");
  EXPECT_DOUBLE_EQ(j.at("solution").at("mass_residual").get<double>(), 1e-15);
  EXPECT_EQ(j.at("job").at("pressure_Pa"), nullptr);
  const Json& e = j.at("evenness");
  EXPECT_EQ(e.at("even"), false);
  EXPECT_EQ(e.at("rows_outside"), Json::array({1}));
  EXPECT_DOUBLE_EQ(e.at("coefficient_of_variation").get<double>(), 0.08);
  EXPECT_DOUBLE_EQ(e.at("supply_pressure_Pa").get<double>(), a.evenness.supply_pressure);
  ASSERT_EQ(e.at("rows").size(), 4U);
  const Json& row = e.at("rows").at(0);
  EXPECT_EQ(row.at("row"), 1);
  EXPECT_EQ(row.at("outside_tolerance"), true);
  EXPECT_EQ(row.at("hose_regime"), "laminar");
  EXPECT_EQ(row.at("check_valve"), "open");
  EXPECT_DOUBLE_EQ(row.at("flow_m3_per_s").get<double>(), a.evenness.rows[0].flow);
  EXPECT_DOUBLE_EQ(row.at("hose_length_m").get<double>(), 3.048);
  EXPECT_DOUBLE_EQ(e.at("causes").at(0).at("share").get<double>(), 0.9);
  EXPECT_EQ(e.at("causes").at(1).at("name"), "manifold");
}

TEST(ResultsJson, HasNoNanAndNoInfinity) {
  Answer a = demo_answer("Bar", {0.0, 0.0, 0.0, 0.0}, 0.0);
  a.evenness.rows[2].hose_reynolds = std::numeric_limits<double>::quiet_NaN();
  a.solution.energy_residual = std::numeric_limits<double>::infinity();
  const std::string text = to_text(results_to_json(a));
  const Json j = Json::parse(text);  // throws on NaN or inf
  EXPECT_EQ(j.at("evenness").at("rows").at(2).at("hose_reynolds"), nullptr);
  EXPECT_EQ(j.at("solution").at("energy_residual"), nullptr);
  const Json& last = j.at("cautions").back();
  EXPECT_EQ(last.at("code"), "demo");
  EXPECT_EQ(last.at("value"), nullptr);
  EXPECT_EQ(last.at("limit"), nullptr);
}

TEST(ResultsJson, AnUnusableAnswerHasNoNumbersToMistake) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.solution.status = Status::iteration_limit;
  const Json j = results_to_json(a);
  EXPECT_EQ(j.at("solution").at("status"), "iteration limit");
  EXPECT_EQ(j.at("evenness"), nullptr);
  EXPECT_EQ(j.at("network"), nullptr);
  EXPECT_EQ(results_to_csv(a, UnitSystem::us).find("\r\n") + 2, results_to_csv(a, UnitSystem::us).size());
}

TEST(ResultsJson, TheNetworkIsWrittenWithItsIds) {
  Answer a = demo_answer("Bar", {0.0}, 0.0);
  a.plumbing.network.add_supply("pump", from_si<Pressure>(2e5));
  a.plumbing.network.add_air("row 1");
  a.plumbing.network.add_part("hose 1", "pump", "row 1",
                              Hose{.length = from_si<Length>(3.0), .bore = from_si<Length>(0.01)});
  a.solution.places = {{.total_pressure = 2e5}, {.total_pressure = 0.0}};
  a.solution.parts = {{.flow = 1e-5, .drop = 2e5}};
  const Json network = results_to_json(a).at("network");
  EXPECT_EQ(network.at("places").at(0).at("id"), "pump");
  EXPECT_EQ(network.at("parts").at(0).at("kind"), "hose");
  EXPECT_EQ(network.at("parts").at(0).at("to"), "row 1");
  EXPECT_DOUBLE_EQ(network.at("parts").at(0).at("flow_m3_per_s").get<double>(), 1e-5);
}

TEST(ResultsJson, ComparisonGivesTheDifferenceRowByRow) {
  const Json j = Json::parse(to_text(comparison_to_json(demo_comparison())));
  ASSERT_EQ(j.at("layouts").size(), 2U);
  const Json& d = j.at("differences_from_first").at(0);
  EXPECT_EQ(d.at("name"), "Short, \"cheap\" hoses");
  EXPECT_NEAR(d.at("rows").at(0).at("deviation").get<double>(), -0.13, 1e-15);
  EXPECT_NEAR(d.at("coefficient_of_variation").get<double>(), 0.072, 1e-15);
}

TEST(ResultsJson, WhatHasNoAnswerHasNoDifference) {
  for (const std::size_t which : {0U, 1U}) {
    Comparison c = demo_comparison();
    c.answers.push_back(c.answers[1]);
    c.answers[which].solution.status = Status::iteration_limit;
    const Json j = Json::parse(to_text(comparison_to_json(c)));
    ASSERT_EQ(j.at("differences_from_first").size(), 2U) << "one for each layout behind the first";
    EXPECT_TRUE(j.at("differences_from_first").at(0).is_null());
    EXPECT_EQ(j.at("differences_from_first").at(1).is_null(), which == 0);
    EXPECT_TRUE(j.at("layouts").at(which).at("evenness").is_null());
  }
}

TEST(ResultsJson, NothingSolvedYetIsSaid) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.solution = {};
  EXPECT_EQ(results_to_json(a).at("solution").at("status"), "not solved");
}

TEST(AllCautions, EachIsKeptOnce) {
  Answer a = demo_answer("Bar", {0.0}, 0.0);
  const std::size_t n = all_cautions(a).size();
  a.solution.cautions = a.evenness.cautions;
  a.liquid.cautions.push_back({"liquid", "water", "something"});
  EXPECT_EQ(all_cautions(a).size(), n + 1);
}

// Two cautions about one thing may say different things: a person has to know both.
TEST(AllCautions, WhatDiffersInOneWordIsKept) {
  Answer a = demo_answer("Bar", {0.0}, 0.0);
  const std::size_t n = all_cautions(a).size();
  const Caution known = a.evenness.cautions.front();
  Caution other = known;
  other.text += " at the ports";
  a.solution.cautions = {known, other};
  ASSERT_EQ(all_cautions(a).size(), n + 1);
  other.subject = "hose 7";
  a.liquid.cautions = {other};
  EXPECT_EQ(all_cautions(a).size(), n + 2);
}

// Where an end of the viscosity's band has no answer its zeros are no numbers.
TEST(ResultsJson, AnEndOfTheBandWithoutAnAnswerIsNull) {
  Answer a = demo_answer("Bar", {0.0, 0.0}, 0.0);
  a.viscosity_band = {{.viscosity = 0.02, .solved = true, .even = true, .cv = 0.01, .pressure = 2e5},
                      {.viscosity = 0.2, .upper = true, .stop = "too thick"}};
  a.built = AsBuilt{.within = 0.9, .mean_cv = 0.02};
  const Json e = results_to_json(a).at("evenness");
  const Json &thin = e.at("over_viscosity_band").at(0), &thick = e.at("over_viscosity_band").at(1);
  EXPECT_EQ(thin.at("gauge_Pa"), 2e5);
  EXPECT_EQ(thin.at("coefficient_of_variation"), 0.01);
  EXPECT_EQ(thin.at("furthest_deviation"), 0.0);
  EXPECT_EQ(thick.at("solved"), false);
  EXPECT_EQ(thick.at("rate_stopped_by"), "too thick");
  for (const char* key : {"gauge_Pa", "coefficient_of_variation", "furthest_deviation"}) {
    EXPECT_TRUE(thick.at(key).is_null()) << key;
  }
  EXPECT_EQ(e.at("as_built").at("share_of_machines_even"), 0.9);
  EXPECT_EQ(e.at("as_built").at("mean_coefficient_of_variation"), 0.02);
  a.built.reset();
  EXPECT_TRUE(results_to_json(a).at("evenness").at("as_built").is_null());
}

/// A CSV text back to fields, by RFC 4180.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> lines(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      lines.back().back() += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      lines.back().emplace_back();
    } else if (!quoted && c == '\r') {
      continue;
    } else if (!quoted && c == '\n') {
      lines.emplace_back(1);
    } else {
      lines.back().back() += c;
    }
  }
  lines.pop_back();
  return lines;
}

TEST(ResultsCsv, OneLineARowWithUnitsInTheHeading) {
  const Answer a = demo_answer("Bar", {-0.12, 0.04, 0.05, 0.03}, 0.08);
  const auto us = read_csv(results_to_csv(a, UnitSystem::us));
  ASSERT_EQ(us.size(), 5U);
  for (const auto& line : us) EXPECT_EQ(line.size(), us[0].size());
  const auto column = [&](const std::string& name) {
    for (std::size_t i = 0; i < us[0].size(); ++i) {
      if (us[0][i] == name) return i;
    }
    ADD_FAILURE() << name;
    return std::size_t{0};
  };
  EXPECT_EQ(us[1][column("row")], "1");
  EXPECT_EQ(us[1][column("outside tolerance")], "yes");
  EXPECT_EQ(us[2][column("outside tolerance")], "no");
  EXPECT_NEAR(std::stod(us[1][column("rate (gal/ac)")]), 5 * 0.88, 1e-6);
  EXPECT_NEAR(std::stod(us[1][column("hose length (ft)")]), 10.0, 1e-6);
  EXPECT_NEAR(std::stod(us[1][column("orifice drop (psi)")]), 12.0, 1e-6);
  EXPECT_NEAR(std::stod(us[1][column("deviation (%)")]), -12.0, 1e-9);

  const auto metric = read_csv(results_to_csv(a, UnitSystem::metric));
  EXPECT_EQ(metric[0][column("rate (gal/ac)")], "rate (L/ha)");
  // 1 gal/ac is 9.353958 L/ha (exact definitions, 7 digits).
  EXPECT_NEAR(std::stod(metric[1][column("rate (gal/ac)")]), 5 * 0.88 * 9.353958, 1e-5);
}

TEST(ResultsCsv, QuotesWhatNeedsIt) {
  EXPECT_EQ(csv_field("plain"), "plain");
  EXPECT_EQ(csv_field("a,b"), "\"a,b\"");
  EXPECT_EQ(csv_field("say \"so\""), "\"say \"\"so\"\"\"");
  const auto lines = read_csv(comparison_to_csv(demo_comparison(), UnitSystem::us));
  ASSERT_EQ(lines.size(), 9U);
  EXPECT_EQ(lines[1][0], "Long hoses");
  EXPECT_EQ(lines[5][0], "Short, \"cheap\" hoses");
}

}  // namespace results_test
