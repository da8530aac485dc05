// SPDX-License-Identifier: MIT
/// @file
/// What a network says of itself before it is solved: each diagnosis names the places.
#include <algorithm>
#include <initializer_list>
#include <string>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/network/network.hpp>
#include <libflow/network/structure.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace structure_test {

using namespace libflow::units;

const Hose short_hose{.length = 2.0 * m, .bore = 6.0 * mm};
const CheckValve valve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm};

/// Expects a refusal whose message contains all of these, both from the check and from solve().
void expect_ill_posed(const Network& n, std::initializer_list<const char*> words,
                      std::initializer_list<const char*> absent = {}) {
  std::string said;
  try {
    static_cast<void>(check_structure(n));
    ADD_FAILURE() << "nothing thrown";
  } catch (const IllPosedError& e) {
    said = e.what();
  }
  for (const char* word : words) EXPECT_NE(said.find(word), std::string::npos) << word << " is not in: " << said;
  for (const char* word : absent) EXPECT_EQ(said.find(word), std::string::npos) << word << " is in: " << said;
  EXPECT_THROW(static_cast<void>(solve(n, test::water())), IllPosedError);
}

TEST(Structure, NothingJoined) {
  Network n;
  expect_ill_posed(n, {"no parts"});
  n.add_supply("tank", 1.0 * bar);
  n.add_air("row");
  expect_ill_posed(n, {"no parts"});
}

TEST(Structure, PlacesWithoutASupplyAreNamed) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_air("row 1");
  n.add_place("lone tee");
  n.add_air("row 2");
  n.add_part("hose 1", "tank", "row 1", short_hose);
  n.add_part("hose 2", "lone tee", "row 2", short_hose);
  expect_ill_posed(n, {"no supply", "'lone tee'", "'row 2'", "feed them"}, {"'tank'", "'row 1'"});
}

TEST(Structure, OnePlaceLeftOut) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("hose 1", "tank", "row 1", short_hose);
  expect_ill_posed(n, {"no supply", "'row 2'", "feed it"}, {"'row 1'"});
}

TEST(Structure, LongListsAreCutShort) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_air("row");
  n.add_part("hose", "tank", "row", short_hose);
  for (int i = 0; i < 10; ++i) n.add_place(fmt::format("t{}", i));
  for (int i = 0; i < 9; ++i)
    n.add_part(fmt::format("h{}", i), fmt::format("t{}", i), fmt::format("t{}", i + 1), short_hose);
  expect_ill_posed(n, {"'t0'", "'t5'", "and 4 more"}, {"'t6'"});
}

TEST(Structure, PushedInWithNoWayOut) {
  Network n;
  n.add_fed("metering pump", 1.0 * gpm);
  n.add_place("end");
  n.add_part("hose", "metering pump", "end", short_hose);
  expect_ill_posed(n, {"no way out", "'metering pump'", "'end'"});
}

TEST(Structure, EveryWayOutShutByOneWayParts) {
  Network n;
  n.add_fed("metering pump", 1.0 * gpm);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("hose", "metering pump", "tee", short_hose);
  n.add_part("valve 1", "row 1", "tee", valve);
  n.add_part("valve 2", "row 2", "tee", valve);
  expect_ill_posed(n, {"'metering pump'", "every way out is shut", "one-way"});
}

TEST(Structure, AFedPlaceThatPushesNothingNeedsNoWayOut) {
  Network n;
  n.add_fed("idle pump", 0.0 * gpm);
  n.add_air("row");
  n.add_part("valve", "row", "idle pump", valve);
  const Cautions cautions = check_structure(n);
  ASSERT_EQ(cautions.size(), 1u);
  EXPECT_EQ(cautions[0].subject, "row");
  const Solution s = solve(n, test::water());
  EXPECT_TRUE(s.usable());
  EXPECT_EQ(s.parts[0].flow, 0.0);
}

TEST(Structure, AWrongWayCheckValveIsACaution) {
  Network n;
  n.add_supply("tank", 3.0 * bar);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2");
  n.add_part("feed", "tank", "tee", short_hose);
  n.add_part("valve 1", "tee", "row 1", valve);
  n.add_part("valve 2", "row 2", "tee", valve);
  const Cautions cautions = check_structure(n);
  ASSERT_EQ(cautions.size(), 1u);
  EXPECT_EQ(cautions[0].code, "unfed-outlet");
  EXPECT_EQ(cautions[0].subject, "row 2");
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[2].flow, 0.0);
  EXPECT_EQ(s.parts[2].valve, ValveState::closed);
  EXPECT_GT(s.parts[1].flow, 0.0);
  EXPECT_TRUE(std::any_of(s.cautions.begin(), s.cautions.end(),
                          [](const Caution& c) { return c.code == "unfed-outlet" && c.subject == "row 2"; }));
}

TEST(Structure, GivenFlowsAloneHaveNoPressure) {
  Network n;
  n.add_fed("in", 1.0 * gpm);
  n.add_drawn("out", 1.0 * gpm);
  n.add_part("hose", "in", "out", short_hose);
  expect_ill_posed(n, {"'in'", "'out'", "nothing there has a pressure"});
}

TEST(Structure, DrawnFromNowhere) {
  Network n;
  n.add_drawn("out", 1.0 * gpm);
  n.add_place("end");
  n.add_part("hose", "end", "out", short_hose);
  expect_ill_posed(n, {"no supply", "'out'", "'end'"});
}

TEST(Structure, EveryWayToADrawnPlaceShut) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_drawn("tap", 1.0 * gpm);
  n.add_part("valve", "tap", "tank", valve);
  expect_ill_posed(n, {"'tap'", "drawn out", "every way to it is shut"});
}

TEST(Structure, ADrawnPlaceIsAWayOut) {
  Network n;
  n.add_fed("pump", 1.0 * L_per_min);
  n.add_drawn("tap", 3.0 * L_per_min);
  n.add_supply("tank", 1.0 * bar);
  n.add_part("hose", "pump", "tap", short_hose);
  n.add_part("valve", "tank", "tap", valve);
  EXPECT_TRUE(check_structure(n).empty());
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_NEAR(s.parts[0].flow, 1e-3 / 60.0, 1e-17);
  EXPECT_NEAR(s.parts[1].flow, 2e-3 / 60.0, 1e-17);
}

TEST(Structure, AmountsThatOneWayPartsCannotBalance) {
  // Ways in and out exist, but more is pushed in than drawn out and the tank's valve lets nothing back.
  for (const double drawn : {1.0, 2.9, 3.0, 3.1, 5.0}) {
    Network n;
    n.add_fed("pump", 3.0 * L_per_min);
    n.add_drawn("tap", drawn * L_per_min);
    n.add_supply("tank", 1.0 * bar);
    n.add_part("hose", "pump", "tap", short_hose);
    n.add_part("valve", "tank", "tap", valve);
    if (drawn < 3.0) {
      expect_ill_posed(n, {"given flow", "'pump'", "one-way"}, {"'tap'", "'tank'"});
    } else {
      EXPECT_TRUE(solve(n, test::water()).usable());
    }
  }
}

TEST(Structure, ADrawThatOneWayPartsCannotFeed) {
  Network n;
  n.add_fed("pump", 1.0 * L_per_min);
  n.add_drawn("tap", 2.0 * L_per_min);
  n.add_air("row");
  n.add_part("hose", "pump", "tap", short_hose);
  n.add_part("valve", "tap", "row", valve);
  expect_ill_posed(n, {"given flow", "'tap'"}, {"'pump'", "'row'"});
}

}  // namespace structure_test
}  // namespace libflow
