// SPDX-License-Identifier: MIT
/// @file
/// [[tee]] of a layout file: its legs and bores, what it does to the rows, and what is refused.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <ostream>
#include <string>
#include <variant>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_schema.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {
namespace layout_tees_test {

constexpr const char* teed = R"(
place = [
  { id = "pump", kind = "fed" },
  { id = "port", kind = "junction" },
  { id = "elbow", kind = "junction" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
  { id = "row 2", kind = "air", row = 2, width = "30 in" },
  { id = "row 2b", kind = "air", row = 2 },
]
part = [
  { id = "line", kind = "hose", from = "pump", to = "port", length = "2 ft", bore = "3/4 in" },
  { id = "pipe", kind = "pipe", from = "port", to = "elbow", length = "4 in", bore = "3/4 in" },
  { id = "hose 1", kind = "hose", from = "elbow", to = "row 1", length = "3 ft", bore = "1/2 in" },
  { id = "hose 2", kind = "hose", from = "port", to = "row 2", length = "3 ft", bore = "3/8 in" },
  { id = "hose 2b", kind = "hose", from = "port", to = "row 2b", length = "3 ft", bore = "3/8 in" },
]
[[tee]]
at = "port"
run = ["line", "pipe"]
branch = ["hose 2", "hose 2b"]
[[tee]]
at = "elbow"
run = "pipe"
branch = "hose 1"
branch_bore = "0.6 in"
parting = 0.3
[job]
product = "water"
temperature = "60 F"
rate = "40 gal/ac"
speed = "6 mph"
)";

std::string teed_with(const std::string& from, const std::string& to) {
  std::string text = teed;
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}
Plumbing teed_plumbing(const std::string& text) { return std::get<Plumbing>(parse_layout(text, "teed.toml").plumbing); }

TEST(LayoutTees, LegsAndBoresAreThoseOfTheFile) {
  const Plumbing p = teed_plumbing(teed);
  const Network& n = p.network;
  ASSERT_EQ(p.tees.size(), 2U);
  const TeeAt &port = p.tees[0], &elbow = p.tees[1];
  EXPECT_EQ(n.place(port.place).id, "port");
  EXPECT_EQ(port.left, n.find_part("line"));
  EXPECT_EQ(port.right, n.find_part("pipe"));
  EXPECT_EQ(port.branches, (std::vector{n.find_part("hose 2"), n.find_part("hose 2b")}));
  EXPECT_NEAR(si(port.tee.run_bore), 0.75 * 0.0254, 1e-15);
  EXPECT_NEAR(si(port.tee.branch_bore), 0.375 * std::sqrt(2.0) * 0.0254, 1e-15) << "both hoses' area";
  EXPECT_EQ(port.tee.parting, 1.5);
  EXPECT_EQ(elbow.left, n.find_part("pipe"));
  EXPECT_FALSE(elbow.right);
  EXPECT_NEAR(si(elbow.tee.branch_bore), 0.6 * 0.0254, 1e-15);
  EXPECT_EQ(elbow.tee.parting, 0.3);
}

TEST(LayoutTees, BothBoresMayBeGiven) {
  const Plumbing p =
      teed_plumbing(teed_with("branch_bore = \"0.6 in\"", "branch_bore = \"0.6 in\"\nrun_bore = \"1 in\""));
  EXPECT_NEAR(si(p.tees[1].tee.run_bore), 0.0254, 1e-15) << "not the pipe's 3/4 in";
  EXPECT_NEAR(si(p.tees[1].tee.branch_bore), 0.6 * 0.0254, 1e-15);
}

// The legs' drops beyond their friction are the tee's levels at the flows of the answer.
TEST(LayoutTees, TheirLossesAreInTheAnswer) {
  const Answer a = main_job(parse_layout(teed, "teed.toml"));
  ASSERT_TRUE(a.solution.usable()) << a.solution.message;
  const Network& n = a.plumbing.network;
  const TeeResult r = tee_result(n, a.plumbing.tees[0], a.solution, a.liquid.density);
  EXPECT_EQ(r.state, TeeState::dividing);
  const auto branch = n.find_part("hose 2");
  const double friction = n.part(branch).part.law(a.liquid)(a.solution.parts[branch].flow).dp;
  EXPECT_GT(-r.levels.branch, 0.0);
  EXPECT_NEAR(a.solution.parts[branch].drop - friction, -r.levels.branch, 1e-6 * a.solution.parts[branch].drop);
  // Without the tees the rows differ from that.
  std::string plain = teed;
  const std::size_t first = plain.find("[[tee]]");
  plain.erase(first, plain.find("[job]") - first);
  const Answer without = main_job(parse_layout(plain, "plain.toml"));
  EXPECT_GT(std::abs(a.evenness.rows[0].flow / without.evenness.rows[0].flow - 1.0), 0.01);
}

struct WrongTee {
  std::string from, to, message, nearest = {};
};
void PrintTo(const WrongTee& w, std::ostream* os) { *os << w.to; }
class WrongTees : public testing::TestWithParam<WrongTee> {};

TEST_P(WrongTees, AreRefusedAtTheirLine) {
  const WrongTee& w = GetParam();
  try {
    (void)teed_plumbing(teed_with(w.from, w.to));
    FAIL() << "nothing thrown for " << w.to;
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind("teed.toml:", 0), 0U) << e.what();
    EXPECT_NE(std::string(e.what()).find(w.message), std::string::npos) << e.what();
    EXPECT_EQ(e.nearest(), w.nearest) << e.what();
  }
}

INSTANTIATE_TEST_SUITE_P(
    All, WrongTees,
    testing::Values(
        WrongTee{"at = \"port\"", "at = \"prot\"", "teed.toml:18:6: [[tee]] #1 at: there is no place 'prot'", "port"},
        WrongTee{"at = \"port\"", "at = \"pump\"", "'pump' is no junction"},
        WrongTee{"at = \"port\"", "at = \"row 1\"", "'row 1' is no junction"},
        WrongTee{"at = \"port\"", "", "'at' is missing"},
        WrongTee{"at = \"elbow\"", "at = \"port\"", "teed.toml:22:6: [[tee]] #2 at: 'port' has a tee already"},
        WrongTee{"\"hose 2b\"]", "\"hose 2bb\"]", "teed.toml:20:21: [[tee]] #1 branch #2: there is no part 'hose 2bb'",
                 "hose 2b"},
        WrongTee{"branch = \"hose 1\"", "branch = \"hose2\"", "[[tee]] #2 branch: there is no part 'hose2'", "hose 2"},
        WrongTee{"branch = [\"hose 2\", \"hose 2b\"]", "branch = [\"hose 2\", \"hose 1\"]",
                 "'hose 1' does not end at 'port'; allowed: 'line', 'pipe', 'hose 2', 'hose 2b'"},
        WrongTee{"branch = [\"hose 2\", \"hose 2b\"]", "branch = [\"hose 2\", \"pipe\"]",
                 "'pipe' is a leg of this tee already"},
        WrongTee{"run = [\"line\", \"pipe\"]", "run = [\"line\", \"line\"]", "'line' is a leg of this tee already"},
        WrongTee{"run = [\"line\", \"pipe\"]", "run = [\"line\", \"pipe\", \"hose 2\"]", "run: 3 parts; allowed: one"},
        WrongTee{"run = [\"line\", \"pipe\"]", "run = []", "run: 0 parts"},
        WrongTee{"run = [\"line\", \"pipe\"]", "run = 3", "3 is not text"},
        WrongTee{"branch = [\"hose 2\", \"hose 2b\"]", "branch = []", "branch: no part"},
        WrongTee{"branch = [\"hose 2\", \"hose 2b\"]", "branch = [\"hose 2\", 7]", "branch #2: 7 is not text"},
        WrongTee{"branch = [\"hose 2\", \"hose 2b\"]", "branch = \"hose 2\"",
                 "'hose 2b' ends there too and is no leg of the tee"},
        WrongTee{"branch_bore = \"0.6 in\"", "branch_bore = \"0.8 in\"", "teed.toml:25:15: [[tee]] #2 branch_bore"},
        WrongTee{"branch_bore = \"0.6 in\"", "branch_bore = \"0.07 in\"", "branch bore"},
        WrongTee{"branch_bore = \"0.6 in\"", "branch_bore = 0.6", "has no unit"},
        WrongTee{"branch_bore = \"0.6 in\"", "run_bore = \"40 in\"", "'40 in' is out of range"},
        WrongTee{"branch_bore = \"0.6 in\"", "run_bore = \"0.4 in\"", "teed.toml:25:12: [[tee]] #2 run_bore"},
        WrongTee{"branch_bore = \"0.6 in\"", "runbore = \"0.6 in\"", "'runbore' is no name that [[tee]] #2 knows",
                 "run_bore"},
        WrongTee{"parting = 0.3", "parting = 4", "4 is out of range; allowed: a number, 0 to 3"},
        WrongTee{"kind = \"pipe\", from = \"port\", to = \"elbow\", length = \"4 in\", bore = \"3/4 in\"",
                 "kind = \"pipe\", from = \"port\", to = \"elbow\", length = \"4 in\", bore = \"1/4 in\"",
                 "tee at 'elbow'"}));

TEST(LayoutTees, APlainBarHasItsOwnWord) {
  std::string bar = read_text_file(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  const auto line = 1 + std::count(bar.begin(), bar.end(), '\n');
  bar += "[[tee]]\nat = \"manifold 1 port 1\"\n";
  try {
    (void)parse_layout(bar, "bar.toml");
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind(fmt::format("bar.toml:{}", line), 0), 0U) << e.what();
    EXPECT_NE(e.allowed().find("junction_losses = true"), std::string::npos) << e.what();
  }
}

TEST(LayoutTees, TheSchemaTakesOnePartOrAList) {
  const nlohmann::json schema = layout_schema();
  const auto& run = schema["$defs"]["tee"]["properties"]["run"];
  ASSERT_EQ(run["anyOf"].size(), 2U);
  EXPECT_EQ(run["anyOf"][0]["type"], "string");
  EXPECT_EQ(run["anyOf"][1]["items"]["type"], "string");
  EXPECT_EQ(schema["properties"]["tee"]["items"]["$ref"], "#/$defs/tee");
}

}  // namespace layout_tees_test
}  // namespace libflow
