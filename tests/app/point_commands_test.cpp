// SPDX-License-Identifier: MIT
/// @file
/// point, envelope, card and compare over points, through the real program.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace point_commands_test {

class PointCommands : public test::App {
 protected:
  [[nodiscard]] std::string written(const std::string& name) const { return test::content(folder_ / "work" / name); }
};

TEST_F(PointCommands, PointSaysYesOrNo) {
  const auto good = run({"point", example("pump_and_tank_bar.toml")});
  EXPECT_EQ(good.code, 0) << good.err;
  EXPECT_EQ(good.out.rfind("REACHED", 0), 0U);
  const auto bad = run({"point", example("pump_and_tank_bar.toml"), "--rate", "20 gal/ac", "--json"});
  EXPECT_EQ(bad.code, 1) << bad.err;
  const auto j = nlohmann::json::parse(bad.out);
  EXPECT_FALSE(j["reached"].get<bool>());
  EXPECT_FALSE(j["what_stops_it"].get<std::string>().empty());
  EXPECT_LT(j["delivered_m3_per_s"].get<double>(), j["wanted_m3_per_s"].get<double>());
  const auto colder = run({"point", example("equal_hoses.toml"), "--temperature", "35 F", "--speed", "4 mph"});
  EXPECT_EQ(colder.code, 0) << colder.err;
  expect_refused(run({"point", example("equal_hoses.toml"), "--rate", "5"}), 2, "--rate");
  const auto stands = run({"point", example("tank_and_pump.toml")});
  EXPECT_EQ(stands.code, 1) << stands.err;  // it runs, but not at the rate that is wanted
  EXPECT_TRUE(stands.out.starts_with("AS IT STANDS")) << stands.out;
  EXPECT_TRUE(test::holds(stands.out, "relief valve shut")) << stands.out;
  const auto moved = run({"point", example("tank_and_pump.toml"), "--control", "section valve", "--json"});
  EXPECT_EQ(moved.err, "");
  const auto answer = nlohmann::json::parse(moved.out);
  EXPECT_EQ(answer["reached"], true);
  EXPECT_EQ(answer["control"]["name"], "opening of section valve");
  expect_refused(run({"point", example("tank_and_pump.toml"), "--control", "pumb"}), 2, "did you mean 'pump'?");
  expect_refused(run({"point", example("tank_and_pump.toml"), "--control", "hose 1"}), 2, "nothing can be set");
  expect_refused(run({"point", example("short_hoses.toml"), "--control", "pump"}), 2, "control");
  const auto map =
      run({"envelope", example("tank_and_pump.toml"), "--control", "section valve", "--grid", "3x2", "--csv"});
  EXPECT_EQ(map.code, 0) << map.err;
  expect_refused(run({"envelope", example("tank_and_pump.toml")}), 2, "--control");
}

TEST_F(PointCommands, EnvelopeWritesWhatTheNameSays) {
  const std::string file = example("pump_and_tank_bar.toml");
  const auto text = run({"envelope", file, "--grid", "6x5"});
  EXPECT_EQ(text.code, 0) << text.err;
  EXPECT_NE(text.out.find("usable from"), std::string::npos);
  EXPECT_EQ(run({"envelope", file, "--grid", "6x5", "-o", "map.svg"}).code, 0);
  EXPECT_EQ(written("map.svg").rfind("<svg ", 0), 0U);
  EXPECT_EQ(run({"envelope", file, "--grid", "6x5", "-o", "map.json"}).code, 0);
  EXPECT_EQ(nlohmann::json::parse(written("map.json"))["points"].size(), 30U);
  EXPECT_EQ(run({"envelope", file, "--speeds", "3 mph, 4 mph, 6 mph", "--rates", "4 gal/ac, 6 gal/ac", "--grid", "2x2",
                 "--temperatures", "40 F, 60 F", "-o", "map.csv"})
                .code,
            0);
  const std::string csv = written("map.csv");
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 1 + 2 * 2 * 3);
}

TEST_F(PointCommands, EnvelopeRefuses) {
  const std::string file = example("equal_hoses.toml");
  for (const char* grid : {"", "5", "5x", "1x5", "5x401", "99999x5", "-5x5", "axb"}) {
    SCOPED_TRACE(grid);
    expect_refused(run({"envelope", file, "--grid=" + std::string(grid)}), 2, "grid");
  }
  expect_refused(run({"envelope", file, "--speeds", "5 mph, 3 mph"}), 2, "--speeds");
  expect_refused(run({"envelope", file, "--speeds", "5 psi"}), 2, "--speeds");
  expect_refused(run({"envelope", file, "--speeds", ""}), 2, "--speeds");
  expect_refused(run({"envelope", file, "--svg", "--json"}), 2, "--svg");
  expect_refused(run({"envelope", file, "--rates", "1 gal/ac, 1000000 gal/ac"}), 2, "rate");
}

TEST_F(PointCommands, CardAndCompareOverPoints) {
  const auto card = run({"card", example("equal_hoses.toml"), "--time", "1 min", "--rates", "4 gal/ac, 5 gal/ac"});
  EXPECT_EQ(card.code, 0) << card.err;
  EXPECT_NE(card.out.find("60 s"), std::string::npos);
  const auto j = nlohmann::json::parse(run({"card", example("pump_and_tank_bar.toml"), "--json"}).out);
  EXPECT_EQ(j["rows"].size(), 16U);
  expect_refused(run({"card", example("equal_hoses.toml"), "--time", "0.1 s"}), 2, "catch time");

  const std::string a = example("equal_hoses.toml"), b = example("short_hoses.toml");
  const auto points = run({"compare", a, b, "--speeds", "4 mph, 6 mph", "--rates", "5 gal/ac"});
  EXPECT_EQ(points.code, 0) << points.err;
  EXPECT_NE(points.out.find("is the better one"), std::string::npos);
  const auto ranged = run({"compare", example("pump_and_tank_bar.toml"), a, "--range", "--json"});
  EXPECT_EQ(nlohmann::json::parse(ranged.out)["layouts"][0]["points"].size(), 15U);
  expect_refused(run({"compare", a, b, "--range"}), 2, "[range]");
  expect_refused(run({"compare", a, b, "--speeds", "4 mph", "--csv"}), 2, "--csv");
}

}  // namespace point_commands_test
}  // namespace libflow
