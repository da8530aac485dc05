// SPDX-License-Identifier: MIT
/// @file
/// What the kinds of [[part]] and the tank of a supply refuse, each at its line.

#include <ostream>
#include <set>
#include <string>
#include <string_view>
#include <variant>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_key.hpp>
#include <libflow/file/layout_keys.hpp>
#include <libflow/file/layout_parts.hpp>

namespace layout_part_errors_test {

using namespace libflow;

/// A supply, a part, and a row behind it.
std::string text_with(const std::string& part, const std::string& supply = "pressure = \"30 psi\"") {
  return R"(place = [
  { id = "supply", kind = "supply", )" +
         supply + R"( },
  { id = "middle", kind = "junction", elevation = "1 ft" },
  { id = "row 1", kind = "air", row = 1, width = "30 in" },
]
part = [
  { id = "it", from = "supply", to = "middle", )" +
         part + R"( },
  { id = "end", kind = "open_end", from = "middle", to = "row 1", bore = "1/4 in" },
]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "6 mph"
)";
}
const std::string plain_hose_part = R"(kind = "hose", length = "14 ft", bore = "3/8 in")";
Plumbing wrong_plumbing_of(const std::string& text) {
  return std::get<Plumbing>(parse_layout(text, "it.toml").plumbing);
}

struct BadPart {
  std::string part;
  std::string place;  // the message begins with "it.toml:" and this
  std::string message;
  std::string nearest = {};
};
void PrintTo(const BadPart& w, std::ostream* os) { *os << w.part; }

void expect_refused(const std::string& text, const BadPart& w) {
  try {
    (void)wrong_plumbing_of(text);
    FAIL() << "nothing thrown for " << w.part;
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind("it.toml:" + w.place, 0), 0U) << e.what();
    EXPECT_NE(std::string(e.what()).find(w.message), std::string::npos) << e.what();
    EXPECT_FALSE(e.allowed().empty()) << e.what();
    EXPECT_EQ(e.nearest(), w.nearest) << e.what();
    EXPECT_EQ(std::string(e.what()).find("it.toml", 8), std::string::npos) << "the place is named once: " << e.what();
  }
}

class WrongPart : public testing::TestWithParam<BadPart> {};
TEST_P(WrongPart, IsRefusedAtItsLine) { expect_refused(text_with(GetParam().part), GetParam()); }

INSTANTIATE_TEST_SUITE_P(
    All, WrongPart,
    testing::Values(
        BadPart{plain_hose_part + R"(, roughness = "0.01 mm", wall = "rubber")",
                "7:", "wall: does not go with 'roughness'"},
        BadPart{plain_hose_part + R"(, wall = "ruber")",
                "7:", "'ruber' is none of the choices; allowed: \"drawn tubing\", \"rubber\"", "rubber"},
        BadPart{plain_hose_part + R"(, coil_diameter = "1 in")",
                "7:", "coil_diameter: '1 in' is out of range; allowed: 2.5 to"},
        BadPart{plain_hose_part + R"(, entrance = "yes")", "7:", "entrance: 'yes' is neither true nor false"},
        BadPart{plain_hose_part + R"(, tubes = 2)",
                "7:", "tubes: does not go with kind = \"hose\"; allowed: id, kind, from, to, row"},
        BadPart{R"(kind = "suspension_hose", length = "3 m", bore = "2 cm", consistency = 1, flow_index = 1.2)",
                "7:", "flow_index: 1.2 is out of range; allowed: a number, 0.2 to 1"},
        BadPart{R"(kind = "suspension_hose", length = "3 m", bore = "2 cm", flow_index = 1.0)",
                "7:", "'consistency' is missing"},
        BadPart{R"(kind = "orifice_pair", bore = "1 mm", gap = "1 cm")", "7:", "'second_bore' is missing"},
        BadPart{R"(kind = "orifice_pair", bore = "1 mm", second_bore = "1 mm", gap = "0 in")",
                "7:", "gap: '0 in' is out of range"},
        BadPart{
            R"(kind = "check_valve", crack = "4 psi", full_open = "7 psi", rated_flow = "1 gpm", rated_loss="1 psi")",
            "7:", "rated_loss: does not go with 'full_open'"},
        BadPart{R"(kind = "check_valve", crack = "4 psi", full_open = "4 psi", rated_flow = "1 gpm")",
                "7:", "check valve 'it', fully-open pressure"},
        BadPart{
            R"(kind = "check_valve", crack="4 psi", crack_spread="5 psi", rated_flow = "1 gpm", rated_loss="1 psi")",
            "7:", "crack_spread: '5 psi' is out of range; allowed: 0 to 4 psi"},
        BadPart{R"(kind = "relief_valve", set = "60 psi")",
                "7:", "'passage_bore' is missing; allowed: passage_bore, or rated_flow with accumulation"},
        BadPart{R"(kind = "relief_valve", set = "60 psi", rated_flow = "9 gpm")", "7:", "'accumulation' is missing"},
        BadPart{R"(kind = "relief_valve", set = "60 psi", rated_flow = "9 gpm", passage_bore = "1 cm")",
                "7:", "rated_flow: does not go with 'passage_bore'"},
        BadPart{R"(kind = "relief_valve", set = "0 psi", passage_bore = "1 cm")", "7:", "set: '0 psi' is out of range"},
        BadPart{R"(kind = "valve", bore = "1 in")", "7:", "'kv' is missing; allowed: kv, or cv"},
        BadPart{R"(kind = "valve", bore = "1 in", kv = "9 m3/h", cv = "9 gpm")", "7:", "cv: does not go with 'kv'"},
        BadPart{R"(kind = "valve", bore = "1 in", cv = 9)", "7:", "cv: 9 has no unit"},
        BadPart{R"(kind = "valve", bore = "1/4 in", cv = "900 gpm")", "7:", "valve 'it', kv"},
        BadPart{R"(kind = "valve", bore = "1 in", cv = "9 gpm", open = "110 %")",
                "7:", "open: '110 %' is out of range; allowed: 0 to 100 %"},
        BadPart{R"(kind = "valve", bore = "1 in", cv = "9 gpm", characteristic = "liner")",
                "7:", "'liner' is none of the choices", "linear"},
        BadPart{R"(kind = "pulsed_valve", rated_loss = "1 psi")", "7:", "'rated_flow' is missing"},
        BadPart{R"(kind = "pulsed_valve", passage_bore = "1 mm", duty = "0 %")", "7:", "duty: '0 %' is out of range"},
        BadPart{R"(kind = "pulsed_valve", passage_bore = "1 mm", opening_lag = "2 s")",
                "7:", "pulsed valve 'it', opening lag: 2 s; allowed: 0 to 1 s"},
        BadPart{R"(kind = "reducer", from_bore = "1 in", to_bore = "1/2 in", cone = "2 deg")",
                "7:", "cone: 2 deg is out of range; allowed: 5 to 180 deg"},
        BadPart{R"(kind = "reducer", from_bore = "1 in", to_bore = "1 in")", "7:", "equal bores need no reducer"},
        BadPart{R"(kind = "barb", bore = "10 mm", hose_bore = "9 mm", length = "1 cm")",
                "7:", "hose_bore: '9 mm' is out of range"},
        BadPart{R"(kind = "strainer", bore = "1 in", rated_flow = "9 gpm", rated_loss = "1 psi", mesh = 55)",
                "7:", "mesh: strainer, mesh: 55 is not in the table", "50"},
        BadPart{
            R"(kind = "strainer", bore="1 in", rated_flow="9 gpm", rated_loss="1 psi", mesh = 50, opening = "1 mm")",
            "7:", "mesh: does not go with 'opening'"},
        BadPart{
            R"(kind = "strainer", bore="1 in", rated_flow="9 gpm", rated_loss="1 psi", mesh=50, open_area="-1 in2")",
            "7:", "strainer 'it', open area"},
        BadPart{R"(kind="flow_meter", bore="1 in", rated_flow="9 gpm", rated_loss="1 psi", most_flow="1 gpm", )"
                R"(least_flow = "2 gpm")",
                "7:", "least_flow: '2 gpm' is out of range; allowed: 0 to 1 gpm"},
        BadPart{R"(kind = "row_outlet", bore = "1/4 in", tubes = 3)",
                "7:", "tubes: 3 is out of range; allowed: a whole number, 1 to 2"},
        BadPart{R"(kind = "table_part", points = [["1 gpm", "2 psi"]])", "7:", "part by table 'it', points: 1 given"},
        BadPart{R"(kind = "table_part", points = [["1 gpm", "2 psi"], ["2 gpm", "1 psi"]])",
                "7:", "a drop must rise with the flow"},
        BadPart{R"(kind = "table_part", points = ["1 gpm", "2 psi"])", "7:", "points #1: '1 gpm' is not a pair"},
        BadPart{R"(kind = "centrifugal_pump", shutoff = "60 psi", free_flow = "9 gpm", speed = "1 %")",
                "7:", "speed: '1 %' is out of range; allowed: 5 to 300 %"},
        BadPart{R"(kind = "pump_curve", points = [["0 gpm", "9 psi"], ["1 gpm", "8 psi"], ["2 gpm", "6 psi"]])",
                "7:", "pump curve 'it', points: 3 points"},
        BadPart{R"(kind = "positive_pump", displacement = "1 L", rpm = 0, slip_flow = "1 L/min", slip_gain = "5 bar")",
                "7:", "rpm: 0 is out of range"},
        BadPart{R"(kind = "ground_driven_pump", displacement = "1 L", distance = "9 m", slip_gain = "5 bar")",
                "7:", "'slip_flow' is missing"}));

TEST(WrongPart, AnUnknownKindIsAnsweredWithAllKindsAndTheNearest) {
  const std::string text = text_with("kind = \"relief_vavle\"");
  try {
    (void)wrong_plumbing_of(text);
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "it.toml:7:55: [[part]] #1 kind");
    EXPECT_EQ(e.nearest(), "relief_valve");
    // What may be written is what the vocabulary says.
    std::string listed = "\"" + std::string(layout_keys::part_kinds) + "\"";
    for (std::size_t at = listed.find(" | "); at != std::string::npos; at = listed.find(" | ", at)) {
      listed.replace(at, 3, "\", \"");
    }
    EXPECT_EQ(e.allowed(), listed);
  }
}

TEST(LayoutParts, EveryKeyOfThePartTableBelongsToAKindAndEveryKindsKeyIsInIt) {
  std::set<std::string_view> taken{"id", "kind", "from", "to", "row"}, known;
  for (const auto& kind : file_detail::part_kind_table()) taken.insert(kind.keys.begin(), kind.keys.end());
  for (const LayoutKey& key : layout_keys::part) known.insert(key.name);
  EXPECT_EQ(taken, known);
}

class WrongTank : public testing::TestWithParam<BadPart> {};
TEST_P(WrongTank, IsRefusedAtItsLine) { expect_refused(text_with(plain_hose_part, GetParam().part), GetParam()); }

INSTANTIATE_TEST_SUITE_P(
    All, WrongTank,
    testing::Values(
        BadPart{"gauge = true", "2:", "'pressure' is missing; allowed: pressure, or tank"},
        BadPart{R"(pressure = "1 psi", tank = { })", "2:", "tank: does not go with 'pressure'"},
        BadPart{R"(tank = "full")", "2:", "tank: 'full' is not a table"},
        BadPart{R"(tank = { shape = "round" })", "2:", "tank shape: 'round' is none of the choices"},
        BadPart{R"(tank = { shape = "lying_round", diameter = "4 ft", level = "2 ft" })", "2:", "'length' is missing"},
        BadPart{R"(tank = { shape = "lying_round", diameter = "4 ft", length = "6 ft" })", "2:", "'level' is missing"},
        BadPart{R"(tank = { shape = "lying_round", diameter = "4 ft", length = "6 ft", level = "5 ft" })",
                "2:", "tank 'supply', level: 1.524 m; allowed: 0 to 1.2192 m"},
        BadPart{
            R"(tank = { shape = "upright_round", diameter = "4 ft", height = "6 ft", width = "1 ft", level="1 ft" })",
            "2:", "tank width: does not go with shape = \"upright_round\""},
        BadPart{R"(tank = { shape = "upright_round", diameter = "4 ft", height = "6 ft", leven = "1 ft" })",
                "2:", "'leven' is no name that [[place]] #1 tank knows", "level"},
        BadPart{R"(tank = { shape = "dipstick", dipstick = [["0 in", "0 gal"], ["9 in", "9 gal"]], level = "1 in" })",
                "2:", "tank 'supply', table: 2 rows"}));

}  // namespace layout_part_errors_test
