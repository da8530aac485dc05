// SPDX-License-Identifier: MIT
/// @file
/// The subcommands drawdown, order, nutrients, blend and lines through the real program.

#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace logistics_commands_test {

using test::holds;
using test::Outcome;

class LogisticsCommands : public test::App {
 protected:
  void expect_good(const Outcome& r, const std::string& opening) const {
    EXPECT_EQ(r.code, 0) << r.err;
    EXPECT_EQ(r.err, "");
    EXPECT_EQ(r.out.rfind(opening, 0), 0U) << r.out;
  }
};

TEST_F(LogisticsCommands, TextOfEveryCommandFitsOneHundredColumns) {
  const std::vector<std::vector<std::string>> all{{"drawdown", example("tank_and_pump.toml")},
                                                  {"order", example("short_hoses.toml"), "--coil", "100 ft"},
                                                  {"nutrients", example("short_hoses.toml")},
                                                  {"lines", example("turn_on_a_hill.toml")},
                                                  {"blend", "100 gal of 32-0-0", "19 gal of water"}};
  for (const auto& arguments : all) {
    const Outcome r = run(arguments);
    EXPECT_EQ(r.code, 0) << arguments[0] << ": " << r.err;
    std::istringstream in(r.out);
    for (std::string line; std::getline(in, line);) {
      std::size_t columns = 0;
      for (const char c : line) columns += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
      EXPECT_LE(columns, 100U) << arguments[0] << ": " << line;
    }
  }
}

TEST_F(LogisticsCommands, DrawdownOfATankAndAPump) {
  expect_good(run({"drawdown", example("tank_and_pump.toml")}), "ONE FILL: ");
  const Outcome r = run({"drawdown", example("tank_and_pump.toml"), "--as-filled", "--samples", "4", "--json"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto j = nlohmann::json::parse(r.out);
  EXPECT_EQ(j["end"], "all empty");
  EXPECT_NEAR(j["samples"][0]["level_m"][0].get<double>(), 0.6096, 1e-9) << "2 ft, as in the layout";
  EXPECT_EQ(j["samples"].size(), 5U);
  const Outcome brief = run({"drawdown", example("tank_and_pump.toml"), "--longest", "10 min"});
  EXPECT_EQ(brief.code, 4) << "given up before the end";
  EXPECT_EQ(brief.out.rfind("NOT COMPLETE: ", 0), 0U) << brief.out;
  expect_refused(run({"drawdown", example("equal_hoses.toml")}), 2, "the layout has no tank");
  expect_refused(run({"drawdown", example("tank_and_pump.toml"), "--longest", "10"}), 2, "--longest");
}

TEST_F(LogisticsCommands, DrawdownOfTwoTanksNamesTheFirstEmptyOne) {
  const Outcome r =
      run({"drawdown", example("two_tanks.toml"), "--as-filled", "--fixed-control", "--samples", "4", "--csv"});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "left tank level (ft),left tank volume (gal),right tank level (ft)")) << r.out;
  const Outcome text = run({"drawdown", example("two_tanks.toml"), "--as-filled", "--fixed-control"});
  EXPECT_TRUE(holds(text.out, "is empty first")) << text.out;
  EXPECT_TRUE(holds(text.out, "air at the pump")) << text.out;
}

TEST_F(LogisticsCommands, OrderListsEveryRow) {
  expect_good(run({"order", example("short_hoses.toml")}), "ORDER for 'North bar, shortest hoses'");
  const Outcome csv = run({"order", example("short_hoses.toml"), "--csv", "--units", "metric"});
  EXPECT_EQ(csv.code, 0) << csv.err;
  // 7.5 spacings of 0.762 m less 7.5 port spacings of 0.05 m, and 3 ft: 6.2544 m, cut at the next centimetre.
  EXPECT_TRUE(holds(csv.out, ",hose,1,16,6.26,6.26 m,6.35,,row 16 hose")) << csv.out;
  // Or at the next inch, in words in every text: 246.24 in.
  EXPECT_TRUE(
      holds(run({"order", example("short_hoses.toml"), "--csv"}).out, ",hose,1,16,20.58333,20 ft 7 in,0.25,,row 16"));
  const Outcome coils = run({"order", example("short_hoses.toml"), "--coil", "100 ft"});
  EXPECT_TRUE(holds(coils.out, "20 ft 7 in  rows 1, 16")) << coils.out;
  EXPECT_TRUE(holds(coils.out, "every cut fits with 5 % more of its coil")) << coils.out;
  EXPECT_TRUE(holds(coils.out, "Cuts are rounded up to one inch")) << coils.out;
  EXPECT_TRUE(holds(run({"equal", example("short_hoses.toml")}).out, "\n20 ft 7 in) are even enough"));
  EXPECT_TRUE(holds(run({"equal", example("short_hoses.toml"), "--units", "metric"}).out, "\n6.26 m) are even enough"));
  EXPECT_TRUE(holds(csv.out, ",orifice,16,")) << csv.out;
  const Outcome json = run({"order", example("short_hoses.toml"), "--waste", "10 %", "--coil", "50 ft", "--json"});
  const auto parsed = nlohmann::json::parse(json.out);
  EXPECT_EQ(parsed["waste_allowance"].get<double>(), 0.1);
  for (const auto& cut : parsed["hoses"][0]["cuts"]) {
    if (cut["row"] != 16) continue;
    EXPECT_NEAR(cut["length_m"].get<double>(), 7.5 * (0.762 - 0.05) + 0.9144, 1e-12);
    EXPECT_NEAR(cut["cut_m"].get<double>(), 247.0 * 0.0254, 1e-12);
  }
  expect_refused(run({"order", example("short_hoses.toml"), "--coil", "10 ft"}), 2, "coil");
  expect_refused(run({"order", example("short_hoses.toml"), "--waste", "5"}), 2, "--waste");
}

TEST_F(LogisticsCommands, NutrientsAndTheirLimits) {
  const Outcome r = run({"nutrients", example("equal_hoses.toml"), "--crop", "soybean"});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "with soybean seed: OVER 2 of")) << r.out;
  const Outcome csv = run({"nutrients", example("equal_hoses.toml"), "--csv"});
  EXPECT_TRUE(holds(csv.out, "N + K2O (lb/ac)")) << csv.out;
  expect_refused(run({"nutrients", example("equal_hoses.toml"), "--crop", "corm"}), 2, "did you mean 'corn'?");
  expect_refused(run({"nutrients", example("equal_hoses.toml"), "--soil", "mud"}), 2, "--soil");
  expect_refused(run({"nutrients", changed("\"10-34-0\"", "\"water\"")}), 2, "analysis");
}

TEST_F(LogisticsCommands, BlendByVolumeAndMass) {
  const Outcome r = run({"blend", "100 lb of 10-34-0", "10 gal of 28-0-0", "--json"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto j = nlohmann::json::parse(r.out);
  EXPECT_NEAR(j["parts"][0]["mass_kg"].get<double>(), 45.359237, 1e-9);
  EXPECT_NEAR(j["parts"][1]["volume_m3"].get<double>(), 0.03785411784, 1e-12);
  expect_refused(run({"blend", "100 gal 32-0-0"}), 2, "no product is named");
  expect_refused(run({"blend", "100 psi of 32-0-0"}), 2, "100 psi");
  expect_refused(run({"blend", "1 gal of 33-0-0"}), 2, "33-0-0");
}

TEST_F(LogisticsCommands, LinesHoldAndFlush) {
  expect_good(run({"lines", example("short_hoses.toml")}), "LINES HOLD 0.6 gal; full after 42 s");
  const Outcome r = run({"lines", example("tank_and_pump.toml"), "--control", "out", "--share", "95 %", "--json"});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_EQ(nlohmann::json::parse(r.out)["control"], "out");
  expect_refused(run({"lines", example("tank_and_pump.toml"), "--control", "outt"}), 2, "did you mean 'out'?");
}

}  // namespace logistics_commands_test
}  // namespace libflow
