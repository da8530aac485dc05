// SPDX-License-Identifier: MIT
/// @file
/// Places and parts of a layout file: the network, its rows, what belongs to each, and what is refused.

#include <algorithm>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>

namespace layout_network_test {

using namespace libflow;

constexpr const char* free_form_job = R"(
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";

// Two rows; the second one splits after its orifice into two outlets.
constexpr const char* free_form_places = R"(
place = [
  { id = "pump", kind = "fed" },
  { id = "tee", kind = "junction", elevation = "2 ft" },
  { id = "v", kind = "junction" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
  { id = "m", kind = "junction" },
  { id = "split", kind = "junction" },
  { id = "row 2 left", kind = "air", row = 2, width = "20 in" },
  { id = "row 2 right", kind = "air", row = 2 },
]
)";
constexpr const char* free_form_parts = R"(
part = [
  { id = "main", kind = "pipe", from = "pump", to = "tee", length = "10 ft", bore = "1 in" },
  { id = "hose 1", kind = "hose", from = "tee", to = "v", length = "8 ft", bore = "1/4 in" },
  { id = "valve 1", kind = "check_valve", from="v", to="w", crack="4 psi", rated_flow="1 gpm", rated_loss="2 psi"},
  { id = "orifice 1", kind = "orifice", from = "w", to = "row 1", bore = "0.05 in" },
  { id = "hose 2", kind = "hose", from = "tee", to = "m", length = "6 ft", bore = "1/4 in", row = 2 },
  { id = "orifice 2", kind = "orifice", from="m", to="split", row=2, rated_flow = "0.2 gpm", rated_pressure = "20 psi"},
  { id = "left", kind = "hose", from = "split", to = "e", length = "1 ft", bore = "1/4 in" },
  { id = "left end", kind = "open_end", from = "e", to = "row 2 left", bore = "1/4 in" },
  { id = "right", kind = "hose", from = "split", to = "f", length = "3 ft", bore = "1/4 in" },
  { id = "right end", kind = "open_end", from = "f", to = "row 2 right", bore = "1/4 in" },
]
)";

std::string text_of() {
  std::string text = std::string(free_form_places) + free_form_parts + free_form_job;
  const std::string more =
      "  { id = \"w\", kind = \"junction\" }, { id = \"e\", kind = \"junction\" }, "
      "{ id = \"f\", kind = \"junction\" },\n";
  return text.insert(text.find("  { id = \"tee\""), more);
}
Plumbing plumbing_of(const std::string& text) { return std::get<Plumbing>(parse_layout(text, "free.toml").plumbing); }
std::string replaced(const std::string& from, const std::string& to) {
  std::string text = text_of();
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}
std::vector<std::string> ids(const Plumbing& p, const std::vector<Network::PartIndex>& parts_of) {
  std::vector<std::string> names;
  for (const auto i : parts_of) names.push_back(p.network.part(i).id);
  return names;
}
using Names = std::vector<std::string>;

TEST(LayoutNetwork, RowsGetTheirPartsByWalkingBackAndByTheirTags) {
  const Plumbing p = plumbing_of(text_of());
  EXPECT_EQ(p.network.part_count(), 10U);
  EXPECT_EQ(p.network.place(p.supply).id, "pump");
  ASSERT_EQ(p.rows.size(), 2U);
  const RowPlumbing &one = p.rows[0], &two = p.rows[1];
  EXPECT_EQ(ids(p, one.last_parts), Names{"orifice 1"});
  EXPECT_EQ(ids(p, one.orifices), Names{"orifice 1"});
  EXPECT_EQ(ids(p, one.check_valves), Names{"valve 1"});
  EXPECT_EQ(ids(p, one.hoses), Names{"hose 1"});
  EXPECT_NEAR(one.hose_length, 8 * 0.3048, 1e-12);
  EXPECT_EQ(two.airs.size(), 2U);
  EXPECT_EQ(ids(p, two.last_parts), (Names{"left end", "right end"}));
  EXPECT_EQ(ids(p, two.orifices), Names{"orifice 2"});
  EXPECT_EQ(ids(p, two.hoses), (Names{"left", "right", "hose 2"}));
  EXPECT_NEAR(two.hose_length, (6 + (1 + 3) / 2.0) * 0.3048, 1e-12);
  EXPECT_NEAR(p.hose_total, (8 + 6 + 1 + 3) * 0.3048, 1e-12) << "a pipe is not cut from the roll";
}

TEST(LayoutNetwork, RowsLieSideBySideAroundTheMiddle) {
  const Plumbing p = plumbing_of(text_of());
  EXPECT_NEAR(p.rows[0].width, 30 * 0.0254, 1e-15);
  EXPECT_NEAR(p.rows[0].x, -10 * 0.0254, 1e-15);
  EXPECT_NEAR(p.rows[1].x, 15 * 0.0254, 1e-15);
  EXPECT_DOUBLE_EQ(p.network.place(p.network.find_place("tee")).elevation, 0.6096);
}

TEST(LayoutNetwork, AFedPlaceWithoutFlowGetsWhatTheRateAsks) {
  // gal/min = gal/ac x mph x inches / 5940: 10 x 6 x 50 / 5940 (University of Florida EDIS WG013).
  const double gallons = 231 * 0.0254 * 0.0254 * 0.0254 / 60;
  const Plumbing p = plumbing_of(text_of());
  EXPECT_NEAR(p.network.place(p.supply).flow, 10.0 * 6 * 50 / 5940 * gallons, 1e-12);

  const Plumbing both = plumbing_of(replaced("{ id = \"pump\", kind = \"fed\" },",
                                             "{ id = \"pump\", kind = \"fed\" },\n"
                                             "  { id = \"m0\", kind = \"fed\", flow = \"0.1 gpm\", gauge = true },\n"
                                             "  { id = \"sip\", kind = \"drawn\", flow = \"0.03 gpm\" },"));
  EXPECT_NEAR(both.network.place(both.network.find_place("pump")).flow, (10.0 * 6 * 50 / 5940 - 0.1 + 0.03) * gallons,
              1e-12);
  EXPECT_EQ(both.network.place(both.supply).id, "m0");
}

TEST(LayoutNetwork, PartsHaveTheirNumbers) {
  const Plumbing p = plumbing_of(text_of());
  const auto part = [&](const char* id) -> const Part& { return p.network.part(p.network.find_part(id)).part; };
  ASSERT_NE(part("hose 1").as<Hose>(), nullptr);
  EXPECT_NEAR(si(part("hose 1").as<Hose>()->length), 8 * 0.3048, 1e-12);
  ASSERT_NE(part("orifice 1").as<Orifice>(), nullptr);
  EXPECT_NEAR(si(part("orifice 1").as<Orifice>()->bore), 0.05 * 0.0254, 1e-15);
  ASSERT_NE(part("valve 1").as<CheckValve>(), nullptr);
  EXPECT_NEAR(si(part("valve 1").as<CheckValve>()->crack), 4 * 6894.757, 0.1);
  ASSERT_NE(part("left end").as<OpenEnd>(), nullptr);
}

TEST(LayoutNetwork, EveryKindOfFittingIsMade) {
  for (const std::string kind : {"elbow", "elbow_45", "tee_run", "tee_branch"}) {
    const Plumbing p = plumbing_of(replaced("kind = \"open_end\"", "kind = \"" + kind + "\""));
    EXPECT_NE(p.network.part(p.network.find_part("left end")).part.as<Fitting>(), nullptr) << kind;
  }
  const Plumbing p = plumbing_of(replaced("kind = \"open_end\", from = \"e\", to = \"row 2 left\", bore = \"1/4 in\"",
                                          "kind = \"fitting\", from = \"e\", to = \"row 2 left\", bore = \"1/4 in\", "
                                          "k1 = 300, k_inf = 0.5"));
  const auto* fitting = p.network.part(p.network.find_part("left end")).part.as<Fitting>();
  ASSERT_NE(fitting, nullptr);
  EXPECT_DOUBLE_EQ(fitting->k1, 300.0);
  EXPECT_DOUBLE_EQ(fitting->k_inf, 0.5);
}

struct Wrong {
  std::string from, to, message;
  std::string nearest = {};
};
void PrintTo(const Wrong& w, std::ostream* os) { *os << w.to; }
class WrongNetwork : public testing::TestWithParam<Wrong> {};

TEST_P(WrongNetwork, IsRefusedAtItsLine) {
  const Wrong& w = GetParam();
  try {
    (void)plumbing_of(replaced(w.from, w.to));
    FAIL() << "nothing thrown for " << w.to;
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind("free.toml:", 0), 0U) << e.what();
    EXPECT_NE(std::string(e.what()).find(w.message), std::string::npos) << e.what();
    EXPECT_EQ(e.nearest(), w.nearest) << e.what();
    EXPECT_EQ(std::string(e.what()).rfind("free.toml:"), 0U) << "its place once: " << e.what();
  }
}

INSTANTIATE_TEST_SUITE_P(
    All, WrongNetwork,
    testing::Values(
        Wrong{"from = \"pump\"", "from = \"pmup\"", "[[part]] #1 from: there is no place 'pmup'", "pump"},
        Wrong{"from = \"pump\"", "from = 3", "[[part]] #1 from: 3 is not text; allowed: text in quotes"},
        Wrong{"from = \"pump\", ", "", "[[part]] #1: 'from' is missing"},
        Wrong{"to = \"v\"", "to = \"tee\"", "begins and ends at the same place 'tee'"},
        Wrong{"id = \"hose 2\"", "id = \"hose 1\"", "[[part]] #5 id: part 'hose 1': this id is used twice"},
        Wrong{"id = \"split\"", "id = \"m\"", "place 'm': this id is used twice"},
        Wrong{"kind = \"orifice\"", "kind = \"orifise\"", "'orifise' is none of the choices", "orifice"},
        Wrong{"kind = \"fed\"", "kind = \"pumped\"", "\"supply\", \"fed\", \"drawn\""},
        Wrong{"kind = \"fed\"", "kind = \"supply\"", "'pressure' is missing"},
        Wrong{"kind = \"fed\"", "kind = \"junction\"", "nothing feeds the plumbing"},
        Wrong{"kind = \"fed\"", "kind = \"fed\", pressure = \"9 psi\"", "does not go with kind = \"fed\""},
        Wrong{"kind = \"fed\"", "kind = \"fed\", flow = \"-1 gpm\"", "'-1 gpm' is out of range"},
        Wrong{"length = \"8 ft\"", "length = \"8 ft\", crack = \"1 psi\"", "does not go with kind = \"hose\""},
        Wrong{"length = \"8 ft\", ", "", "'length' is missing"},
        Wrong{"bore = \"0.05 in\"", "bore = \"9 in\"", "[[part]] #4 bore: '9 in' is out of range"},
        Wrong{"from = \"w\", to = \"row 1\"", "from = \"row 1\", to = \"w\"", "open to the air"},
        Wrong{"row = 1, width = \"30 in\"", "row = 3, width = \"30 in\"", "row 2 follows row 0; allowed: row 1 next"},
        Wrong{"row = 1, width = \"30 in\"", "row = 1", "'width' is missing"},
        Wrong{"row = 1, width = \"30 in\"", "width = \"30 in\"", "goes with a row only"},
        Wrong{"row = 2 }", "row = 2, width = \"21 in\" }", "row 2 has another width already"},
        Wrong{"row = 1, width = \"30 in\"", "row = 1, width = \"30 in\", x = \"-1 ft\"", "'x' is missing"},
        Wrong{"row = 2, width = \"20 in\" },\n  { id = \"row 2 right\", kind = \"air\", row = 2 }",
              "row = 2, width = \"20 in\", x = \"1 ft\" },\n  { id = \"row 2 right\", kind = \"air\", row = 2, x = \"2 "
              "ft\" }",
              "row 2 is somewhere else already; allowed: one x for each row"},
        Wrong{"kind = \"fed\" },", "kind = \"fed\" }, { id = \"p2\", kind = \"fed\" },", "2 fed places have no flow"},
        Wrong{"kind = \"fed\" },", "kind = \"fed\" }, { id = \"p2\", kind = \"fed\", flow = \"9 gpm\" },",
              "more than the job's"},
        Wrong{"kind = \"hose\", from = \"tee\", to = \"m\"", "kind = \"hose\", from = \"tee\", to = \"row 1\"",
              "2 parts lead to 'row 1'"},
        Wrong{"speed = \"6 mph\"", "speed = \"6 mph\"\nturn = \"left\"\nturn_radius = \"12 in\"", "run backwards"},
        Wrong{"row = 2, width", "row = 201, width", "1 to 200"}));

// A jet back into the tank, a leak: open to the air, and no row.
TEST(LayoutNetwork, AnOutletThatWatersNoRowCountsForNone) {
  const std::string leak = "place = [\n  { id = \"leak\", kind = \"air\" },\n";
  std::string text = replaced("place = [\n", leak);
  const std::string part = "part = [\n";
  text.replace(text.find(part), part.size(),
               part + "  { id = \"hole\", kind = \"orifice\", from = \"tee\", to = \"leak\", bore = \"0.01 in\" },\n");
  const Plumbing p = plumbing_of(text);
  EXPECT_EQ(p.rows.size(), 2U);
  for (const RowPlumbing& row : p.rows) {
    EXPECT_EQ(std::count(row.airs.begin(), row.airs.end(), p.network.find_place("leak")), 0);
  }
  // Where all are like that there is no bar.
  const std::string none = std::string("place = [{ id = \"p\", kind = \"fed\" }, { id = \"a\", kind = \"air\" }]\n") +
                           "part = [{ id = \"o\", kind = \"orifice\", from = \"p\", to = \"a\", bore = \"1 mm\" }]\n" +
                           free_form_job;
  try {
    (void)plumbing_of(none);
    ADD_FAILURE() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.what_is_wrong(), "no place waters a row") << e.what();
    EXPECT_NE(e.allowed().find("kind = \"air\" with row and width"), std::string::npos) << e.what();
  }
}

TEST(LayoutNetwork, PlacesWithoutPartsAreRefused) {
  EXPECT_THROW((void)parse_layout(std::string(free_form_places) + free_form_job, "t"), InputError);
  EXPECT_THROW((void)parse_layout(std::string(free_form_parts) + free_form_job, "t"), InputError);
}

}  // namespace layout_network_test
