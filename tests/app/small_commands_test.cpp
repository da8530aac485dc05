// SPDX-License-Identifier: MIT
/// @file
/// The subcommands new, check, explain and schema through the real program.

#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace small_commands_test {

using test::holds;
using test::Outcome;

class SmallCommands : public test::App {};

TEST_F(SmallCommands, NewWritesALayoutThatSolves) {
  const Outcome made = run({"new", "--rows", "12", "--spacing", "20 in", "--product", "28-0-0", "--rate", "12 gal/ac",
                            "--speed", "6 mph", "-o", "bar.toml"});
  EXPECT_EQ(made.code, 0) << made.err;
  const std::string text = test::content(folder_ / "work" / "bar.toml");
  EXPECT_TRUE(holds(text, "rows = 12")) << text;
  EXPECT_TRUE(holds(text, "rate = \"12 gal/ac\"")) << text;
  const Outcome good = run({"check", "bar.toml"});
  EXPECT_EQ(good.code, 0) << good.err;
  EXPECT_TRUE(holds(good.out, "'bar.toml': good: 12 rows")) << good.out;
  const Outcome solved = run({"solve", "bar.toml", "--json"});
  EXPECT_TRUE(solved.code == 0 || solved.code == 1) << solved.err;
  // The orifice is chosen for about 20 psi (138 kPa) across it; the discharge coefficient, the bore's rounding to
  // 0.001 in and the rows' spread move it a little.
  const auto rows = nlohmann::json::parse(solved.out)["evenness"]["rows"];
  ASSERT_EQ(rows.size(), 12U);
  double sum = 0.0;
  for (const auto& row : rows) sum += row["orifice_drop_Pa"].get<double>();
  EXPECT_NEAR(sum / 12.0, 138e3, 20e3);
}

TEST_F(SmallCommands, NewKeepsAFileThatIsThere) {
  EXPECT_EQ(run({"new", "-o", "bar.toml"}).code, 0);
  const std::string before = test::content(folder_ / "work" / "bar.toml");
  EXPECT_EQ(run({"new", "--rows", "4", "-o", "bar.toml"}).code, 2);
  EXPECT_EQ(test::content(folder_ / "work" / "bar.toml"), before);
  EXPECT_EQ(run({"new", "--rows", "4", "-o", "bar.toml", "--force"}).code, 0);
  EXPECT_NE(test::content(folder_ / "work" / "bar.toml"), before);
}

TEST_F(SmallCommands, NewRefusesAnswersThatMakeNoLayout) {
  expect_refused(run({"new", "--rate", "12 psi"}), 2, "rate");
  expect_refused(run({"new", "--product", "28-0-1"}), 2, "did you mean '28-0-0'");
  expect_refused(run({"new", "--rows", "0"}), 2, "rows");
  expect_refused(run({"new", "--product", "a\"\n[evil]"}), 2, "plain text");
}

TEST_F(SmallCommands, CheckReadsAllFilesAndSaysWhatIsWrongWithEach) {
  const std::string bad = changed("bore = \"1/4 in\"", "bore = \"1/4 psi\"");
  const Outcome r = run({"check", example("equal_hoses.toml"), bad, "missing.toml", example("free_form.toml")});
  EXPECT_EQ(r.code, 2);
  EXPECT_TRUE(holds(r.out, "equal_hoses.toml': good: 16 rows")) << r.out;
  EXPECT_TRUE(holds(r.out, "free_form.toml': good: 6 rows")) << r.out;
  EXPECT_TRUE(holds(r.err, "changed.toml:")) << r.err;
  EXPECT_TRUE(holds(r.err, "missing.toml")) << r.err;
  EXPECT_EQ(run({"check", "-q", example("equal_hoses.toml")}).out, "");
}

TEST_F(SmallCommands, ExplainAccountsForAllOfThePressure) {
  const Outcome r = run({"explain", example("short_hoses.toml"), "8", "--json"});
  EXPECT_EQ(r.code, 1) << r.err;  // row 8 is outside the tolerance
  const auto path = nlohmann::json::parse(r.out);
  EXPECT_EQ(path["row"], 8);
  double spent = 0.0;
  for (const auto& step : path["steps"]) spent += step["loss_Pa"].get<double>() + step["lift_Pa"].get<double>();
  const double supply = path["steps"].front()["before_Pa"].get<double>();
  EXPECT_NEAR(spent, supply, 1e-9 * supply);
  EXPECT_EQ(path["steps"].back()["after_Pa"].get<double>(), 0.0);
  for (std::size_t k = 1; k < path["steps"].size(); ++k) {
    EXPECT_EQ(path["steps"][k]["from"], path["steps"][k - 1]["to"]);
  }
  // The inputs' parts add up to what row 8 is off, and its own hose has most of it.
  const auto& inputs = path["inputs"];
  double sum = 0.0;
  for (const auto& in : inputs["parts"]) sum += in["deviation"].get<double>();
  EXPECT_NEAR(sum, inputs["deviation"].get<double>(), 1e-6);
  EXPECT_NEAR(sum, 0.255, 5e-4);
  EXPECT_EQ(inputs["parts"][0]["name"], "row 8 hose, length");
  EXPECT_EQ(inputs["parts"][0]["unit"], "m");
}

TEST_F(SmallCommands, ExplainSaysWhyInWords) {
  const Outcome r = run({"explain", example("short_hoses.toml"), "8"});
  EXPECT_EQ(r.code, 1) << r.err;
  EXPECT_EQ(r.out.rfind("Row 8 gets 6.28 gal/ac", 0), 0U) << r.out;
  EXPECT_TRUE(holds(r.out, "HIGH")) << r.out;
  EXPECT_TRUE(holds(r.out, "hose lengths")) << r.out;
  EXPECT_EQ(run({"explain", example("equal_hoses.toml"), "8"}).code, 0);
  EXPECT_TRUE(holds(r.out, "Which single inputs make row 8 differ")) << r.out;
  EXPECT_TRUE(holds(r.out, "row 8 hose, length")) << r.out;
  // What has no even bar to measure from says so.
  const Outcome free = run({"explain", example("free_form.toml"), "1"});
  EXPECT_FALSE(holds(free.out, "Why it is off")) << free.out;
  const auto parts = nlohmann::json::parse(run({"explain", example("free_form.toml"), "1", "--json"}).out);
  EXPECT_TRUE(holds(parts["inputs"]["refused"].get<std::string>(), "place by place"));
  // From a tank, through pump, valve, hose and orifices.
  const Outcome pumped = run({"explain", example("tank_and_pump.toml"), "1"});
  EXPECT_TRUE(holds(pumped.out, "'pump' (centrifugal pump")) << pumped.out << pumped.err;
}

TEST_F(SmallCommands, ExplainRefusesARowThatIsNotThere) {
  expect_refused(run({"explain", example("short_hoses.toml"), "17"}), 2, "1 to 16");
}

TEST_F(SmallCommands, SchemaNamesEveryTable) {
  const Outcome r = run({"schema"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto schema = nlohmann::json::parse(r.out);
  for (const char* name :
       {"job", "toolbar", "manifold", "hose", "orifice", "check_valve", "row", "place", "part", "tee"}) {
    EXPECT_TRUE(schema["$defs"].contains(name)) << name;
  }
  EXPECT_EQ(schema["$defs"]["toolbar"]["properties"]["rows"]["type"], "integer");
  EXPECT_FALSE(schema["additionalProperties"].get<bool>());
}

}  // namespace small_commands_test
}  // namespace libflow
