// SPDX-License-Identifier: MIT
/// @file
/// The subcommand tolerance through the real program.
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace tolerance_command_test {

class ToleranceCommand : public test::App {};

TEST_F(ToleranceCommand, SaysHowManyMachinesAreEvenAndWhatMatters) {
  const test::Outcome r = run({"tolerance", example("as_built.toml"), "--machines", "4096"});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(test::holds(r.out, "of the machines that these tolerances allow")) << r.out;
  EXPECT_TRUE(test::holds(r.out, "hose bore, by batch")) << r.out;
  EXPECT_TRUE(test::holds(r.out, "4096 machines drawn in 8 replicates, seed 1")) << r.out;
  EXPECT_EQ(r.err, "");
}

TEST_F(ToleranceCommand, JsonIsTheSameForTheSameSeed) {
  const std::vector<std::string> words{"tolerance", example("as_built.toml"), "--machines", "2048", "--json"};
  auto with = words;
  with.insert(with.end(), {"--threads", "1"});
  const test::Outcome first = run(words), again = run(with);
  ASSERT_EQ(first.code, 0) << first.err;
  EXPECT_EQ(first.out, again.out);
  const auto json = nlohmann::json::parse(first.out);
  EXPECT_EQ(json["complete"], true);
  EXPECT_EQ(json["rows"].size(), 16U);
  EXPECT_EQ(json["tolerances"].size(), 7U);
  EXPECT_GT(json["probability_within_tolerance"]["value"].get<double>(), 0.9);
  // The two batches of hose decide.
  EXPECT_GT(json["tolerances"][2]["sobol_indices"]["coefficient_of_variation"]["total"]["value"].get<double>(), 0.5);
}

TEST_F(ToleranceCommand, ALayoutWithoutTolerancesIsRefused) {
  const test::Outcome r = run({"tolerance", example("equal_hoses.toml")});
  EXPECT_EQ(r.code, 2);
  EXPECT_TRUE(test::holds(r.err, "has no [[tolerance]]")) << r.err;
  EXPECT_EQ(run({"tolerance", example("as_built.toml"), "--machines", "3"}).code, 2);
  EXPECT_EQ(run({"tolerance", example("as_built.toml"), "--csv"}).code, 2);
}

}  // namespace tolerance_command_test
}  // namespace libflow
