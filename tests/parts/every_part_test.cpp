// SPDX-License-Identifier: MIT
/// @file
/// Every part of the library keeps its contract. The list below must name every kind that a header in libflow/parts
/// declares: the test reads the headers, so a new part cannot be forgotten.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace every_part_test {

using namespace units;

const PumpSlip every_slip{.flow = 0.2 * gpm, .gain = 40.0 * psi};

/// At least one of each kind; more where a kind has laws of different shape.
std::vector<Part> every_part() {
  return {
      Barb{.bore = 5.0 * mm, .hose_bore = 6.35 * mm, .length = 20.0 * mm},
      CentrifugalPump{.shutoff = 60.0 * psi, .free_flow = 40.0 * gpm},
      CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm},
      CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm, .full_open = 8.0 * psi},
      Fitting::elbow_90(6.35 * mm),
      FlowMeter{
          .bore = 10.0 * mm, .rated_flow = 2.0 * gpm, .rated_loss = 3.0 * psi, .least = 0.2 * gpm, .most = 3.0 * gpm},
      GroundDrivenPump{.displacement = 0.5 * L, .distance = 2.0 * m, .ground_speed = 2.0 * m_per_s, .slip = every_slip},
      Hose{.length = 4.0 * m, .bore = 6.35 * mm},
      OpenEnd{.bore = 6.35 * mm},
      Orifice{.bore = 1.2 * mm},
      Orifice{.bore = 1.2 * mm, .thickness = 3.0 * mm},
      OrificePair{.first = Orifice{.bore = 1.8 * mm}, .second = Orifice{.bore = 1.5 * mm}, .gap = 20.0 * mm},
      PositivePump{.displacement = 0.05 * L, .rpm = 300.0, .slip = every_slip},
      PressureRegulator{.set = 30.0 * psi, .passage_bore = 6.0 * mm},
      PulsedValve{.passage_bore = 2.0 * mm, .outlet_bore = 1.2 * mm, .duty = 0.6},
      PumpCurve{.points = {{.flow = 0.0 * gpm, .gain = 60.0 * psi},
                           {.flow = 10.0 * gpm, .gain = 55.0 * psi},
                           {.flow = 20.0 * gpm, .gain = 42.0 * psi},
                           {.flow = 30.0 * gpm, .gain = 20.0 * psi}}},
      Reducer{.from_bore = 10.0 * mm, .to_bore = 6.0 * mm},
      Reducer{.from_bore = 6.0 * mm, .to_bore = 10.0 * mm, .cone = 20.0 * deg},
      ReliefValve{.set = 60.0 * psi, .passage_bore = 6.0 * mm},
      RowOutlet{.bore = 6.0 * mm, .count = 2},
      RowOutlet{.bore = 9.0 * mm, .fall = 0.5 * m},
      Strainer{.bore = 20.0 * mm,
               .rated_flow = 10.0 * gpm,
               .rated_loss = 1.0 * psi,
               .opening = 0.3 * mm,
               .open_area = from_si<Area>(2e-3)},
      SuspensionHose{.length = 3.0 * m, .bore = 13.0 * mm, .consistency = 2.0, .flow_index = 0.6},
      TablePart{.points = {{0.5 * gpm, 1.0 * psi}, {1.0 * gpm, 3.5 * psi}, {2.0 * gpm, 13.0 * psi}}},
      Valve{.kv = from_si<Flow>(1.0 / 3600.0), .bore = 20.0 * mm, .open = 0.5},
      Valve{.kv = from_si<Flow>(1.0 / 3600.0), .bore = 20.0 * mm, .open = 0.0},
      VentedTube{.bore = 9.0 * mm, .count = 2, .fall = 0.5 * m},
      VentedTube{.bore = 9.0 * mm},
  };
}

TEST(EveryPart, KeepsItsContract) {
  for (const Part& part : every_part()) {
    SCOPED_TRACE(std::string(part.kind()));
    for (const LiquidState& liquid : {test::water(), test::thick(), test::thin()})
      test::expect_lawful(part, liquid, {.per_decade = 60});
  }
}

// And not at those values alone: each numeric input that a part lists is carried to the ends of its range, by tenths,
// halves, doubles and tens until the part's own check refuses.
TEST(EveryPart, KeepsItsContractOverItsRange) {
  std::map<std::string, int> tried;
  for (const Part& part : every_part()) {
    for (std::size_t k = 0; k < part.input_count(); ++k) {
      const PartInput input = part.input(k);
      if (!input.value || *input.value == 0.0) continue;
      for (const double step : {0.1, 0.5, 2.0, 10.0}) {
        double value = *input.value;
        for (int times = 0; times < 20; ++times) {
          value *= step;
          std::optional<Part> other;
          try {
            other = part.with_input(k, value, part.kind());
          } catch (const InputError&) {
            break;
          }
          SCOPED_TRACE(fmt::format("{}, {} {:g} {}", part.kind(), input.name, value, input.unit));
          test::expect_lawful(*other, times % 2 == 0 ? test::thick() : test::water(), {.per_decade = 15});
          ++tried[std::string(part.kind())];
        }
      }
    }
  }
  for (const auto& [kind, count] : tried) EXPECT_GT(count, 2) << kind;
  EXPECT_GT(tried.size(), 15U);
}

// Each of the four promises is kept by somebody: pumps are sources, a regulator needs its outer rounds.
TEST(EveryPart, DeclaresOneOfFourContracts) {
  std::map<Contract, std::set<std::string>> kinds;
  for (const Part& part : every_part()) kinds[part.contract()].insert(std::string(part.kind()));
  EXPECT_EQ(kinds[Contract::source],
            (std::set<std::string>{"centrifugal pump", "ground-driven pump", "positive pump", "pump curve"}));
  EXPECT_EQ(kinds[Contract::one_way], (std::set<std::string>{"check valve", "relief valve", "vented tube"}));
  EXPECT_EQ(kinds[Contract::outer_corrected], std::set<std::string>{"pressure regulator"});
  EXPECT_EQ(Tee::contract, Contract::outer_corrected);
  EXPECT_TRUE(kinds[Contract::passage].contains("hose"));
}

TEST(EveryPart, IsInTheList) {
  std::set<std::string> listed;
  for (const Part& part : every_part()) listed.insert(std::string(part.kind()));
  const std::filesystem::path headers = std::filesystem::path(LIBFLOW_TESTS) / ".." / "libflow" / "parts";
  const std::regex declares("std::string_view kind = \"([^\"]+)\"");
  std::size_t found = 0;
  for (const auto& entry : std::filesystem::directory_iterator(headers)) {
    // No two-ended parts: a supply (network/tank_supply.hpp), and corrections at a place (tests/parts/tee_test.cpp).
    if (entry.path().filename() == "tank.hpp" || entry.path().filename() == "tee.hpp") continue;
    std::stringstream text;
    text << std::ifstream(entry.path()).rdbuf();
    const std::string code = text.str();
    for (std::sregex_iterator it(code.begin(), code.end(), declares), end; it != end; ++it) {
      ++found;
      EXPECT_TRUE(listed.contains((*it)[1])) << (*it)[1] << " of " << entry.path().filename() << " is not tested here";
    }
  }
  EXPECT_EQ(found, listed.size());
}

// The table of parts in DEVELOPERS.md names every kind in its first column, with no cell left empty.
TEST(EveryPart, StandsInTheTableOfTheDocs) {
  std::ifstream docs(std::filesystem::path(LIBFLOW_TESTS) / ".." / "DEVELOPERS.md");
  std::set<std::string> named;
  std::string line;
  bool inside = false;
  while (std::getline(docs, line)) {
    if (line.rfind("| part | contract |", 0) == 0) inside = true;
    if (line.empty()) inside = false;
    if (!inside) continue;
    std::vector<std::string> cells;
    std::stringstream row(line.substr(1));
    for (std::string cell; std::getline(row, cell, '|');) cells.push_back(cell);
    ASSERT_EQ(cells.size(), 6U) << line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const bool continued = i == 1 && cells[0].rfind(" - ", 0) == 0;  // the same part as the row above
      EXPECT_TRUE(continued || cells[i].find_first_not_of(' ') != std::string::npos) << line;
    }
    std::stringstream names(cells[0]);
    for (std::string name; std::getline(names, name, ',');) {
      const auto first = name.find_first_not_of(' '), last = name.find_last_not_of(' ');
      named.insert(name.substr(first, last - first + 1));
    }
  }
  for (const Part& part : every_part()) EXPECT_TRUE(named.contains(std::string(part.kind()))) << part.kind();
  for (const std::string_view other : {Tee::kind, Tank::kind}) EXPECT_TRUE(named.contains(std::string(other))) << other;
}

}  // namespace every_part_test
}  // namespace libflow
