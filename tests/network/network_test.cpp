// SPDX-License-Identifier: MIT
/// @file
/// A network is put together part by part: ids, ranges, names in errors, copies.
#include <limits>
#include <string>
#include <utility>

#include <gtest/gtest.h>

#include <libflow/network/network.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace network_test {

using namespace libflow::units;
using test::expect_message;
using test::expect_refused;

const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};

Network tank_to_row() {
  Network n;
  n.add_supply("tank", 2.0 * bar, 1.0 * m);
  n.add_place("tee", 0.5 * m);
  n.add_air("row");
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("tip", "tee", "row", Orifice{.bore = 1.0 * mm});
  return n;
}

TEST(Network, KeepsWhatItIsTold) {
  const Network n = tank_to_row();
  ASSERT_EQ(n.place_count(), 3u);
  ASSERT_EQ(n.part_count(), 2u);
  EXPECT_EQ(n.place(0).id, "tank");
  EXPECT_EQ(n.place(0).kind, PlaceKind::supply);
  EXPECT_EQ(n.place(0).pressure, 2e5);
  EXPECT_EQ(n.place(0).elevation, 1.0);
  EXPECT_EQ(n.place(1).kind, PlaceKind::junction);
  EXPECT_EQ(n.place(2).kind, PlaceKind::air);
  EXPECT_EQ(n.place(2).pressure, 0.0);
  EXPECT_EQ(n.part(1).id, "tip");
  EXPECT_EQ(n.from(1), 1u);
  EXPECT_EQ(n.to(1), 2u);
  EXPECT_EQ(n.part(1).part.kind(), "orifice");
  ASSERT_NE(n.part(0).part.as<Hose>(), nullptr);
  EXPECT_EQ(n.part(0).part.as<Orifice>(), nullptr);
  EXPECT_EQ(n.find_place("tee"), 1u);
  EXPECT_EQ(n.find_part("feed"), 0u);
}

TEST(Network, AnswersWithIndicesInOrder) {
  Network n;
  EXPECT_EQ(n.add_supply("a", 1.0 * bar), 0u);
  EXPECT_EQ(n.add_air("b"), 1u);
  EXPECT_EQ(n.add_part("x", "a", "b", hose), 0u);
  EXPECT_EQ(n.add_part("y", 1, 0, hose), 1u);
  EXPECT_EQ(n.from(1), 1u);
}

TEST(Network, GivenFlowsHaveASign) {
  Network n;
  const auto in = n.add_fed("in", 2.0 * L_per_min), out = n.add_drawn("out", 1.0 * L_per_min);
  const auto air = n.add_air("air"), tank = n.add_supply("tank", 1.0 * bar), tee = n.add_place("tee");
  EXPECT_DOUBLE_EQ(n.place(in).inflow(), 2e-3 / 60.0);
  EXPECT_DOUBLE_EQ(n.place(out).inflow(), -1e-3 / 60.0);
  EXPECT_EQ(n.place(tee).inflow(), 0.0);
  EXPECT_EQ(n.place(air).inflow(), 0.0);
  EXPECT_TRUE(n.place(air).held());
  EXPECT_TRUE(n.place(tank).held());
  EXPECT_FALSE(n.place(in).held());
  EXPECT_FALSE(n.place(out).held());
  EXPECT_FALSE(n.place(tee).held());
}

TEST(Network, IdsAreUniqueAndNotEmpty) {
  Network n = tank_to_row();
  expect_refused([&] { n.add_place("tee"); }, "tee");
  expect_refused([&] { n.add_air("tank"); }, "tank");
  expect_refused([&] { n.add_part("feed", "tank", "row", hose); }, "feed");
  expect_refused([&] { n.add_place(""); }, "place");
  expect_refused([&] { n.add_part("", "tank", "row", hose); }, "part");
  // A place and a part may share a name: they are never asked for together.
  n.add_part("tee", "tank", "row", hose);
  EXPECT_EQ(n.place_count(), 3u);
  EXPECT_EQ(n.part_count(), 3u);
}

TEST(Network, UnknownNamesGetTheNearest) {
  Network n = tank_to_row();
  try {
    n.add_part("x", "tnk", "row", hose);
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.nearest(), "tank");
    EXPECT_NE(e.where().find("'x', from"), std::string::npos) << e.what();
    EXPECT_NE(std::string(e.what()).find("no place 'tnk'"), std::string::npos) << e.what();
  }
  try {
    n.add_part("x", "tank", "rwo", hose);
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find("'x', to"), std::string::npos) << e.what();
    EXPECT_EQ(e.nearest(), "row");
  }
  try {
    static_cast<void>(n.find_part("fed"));
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.nearest(), "feed");
  }
  EXPECT_THROW(static_cast<void>(n.find_place(std::string(100000, 'x'))), InputError);
  EXPECT_EQ(n.part_count(), 2u) << "a refused part leaves no trace";
}

TEST(Network, PartsJoinTwoPlacesThatExist) {
  Network n = tank_to_row();
  expect_refused([&] { n.add_part("loop", "tee", "tee", hose); }, "loop");
  expect_refused([&] { n.add_part("far", 0, 3, hose); }, "far");
  expect_refused([&] { n.add_part("far", static_cast<Network::PlaceIndex>(-1), 0, hose); }, "far");
  // Two parts side by side are a loop of two, and allowed.
  EXPECT_NO_THROW(n.add_part("second feed", "tank", "tee", hose));
}

TEST(Network, ElevationsPressuresAndFlowsAreInRange) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
  Network n;
  for (const double z : {-1001.0, 1001.0, nan, infinite, -infinite}) {
    expect_refused([&] { n.add_place("p", from_si<Length>(z)); }, "'p', elevation");
    expect_refused([&] { n.add_air("p", from_si<Length>(z)); }, "'p', elevation");
    expect_refused([&] { n.add_supply("p", 1.0 * bar, from_si<Length>(z)); }, "'p', elevation");
    expect_refused([&] { n.add_fed("p", 1.0 * gpm, from_si<Length>(z)); }, "'p', elevation");
    expect_refused([&] { n.add_drawn("p", 1.0 * gpm, from_si<Length>(z)); }, "'p', elevation");
  }
  for (const double p : {-1.1e5, 1.1e8, nan, infinite}) {  // below a vacuum, beyond any hose
    expect_refused([&] { n.add_supply("p", from_si<Pressure>(p)); }, "'p', pressure");
  }
  for (const double q : {-1e-9, 10.1, nan, infinite}) {
    expect_refused([&] { n.add_fed("p", from_si<Flow>(q)); }, "'p', flow");
    expect_refused([&] { n.add_drawn("p", from_si<Flow>(q)); }, "'p', flow");
  }
  EXPECT_EQ(n.place_count(), 0u) << "a refused place leaves no trace";
  n.add_supply("at the lower end", from_si<Pressure>(-1.01325e5), from_si<Length>(-1000.0));
  n.add_supply("at the upper end", from_si<Pressure>(1e8), from_si<Length>(1000.0));
  n.add_fed("nothing pushed", from_si<Flow>(0.0));
  EXPECT_EQ(n.place_count(), 3u);
}

TEST(Network, APartIsCheckedUnderItsOwnName) {
  Network n = tank_to_row();
  expect_refused([&] { n.add_part("row 3", "tank", "row", Hose{.length = -2.0 * m, .bore = 6.0 * mm}); },
                 "hose 'row 3', length");
  expect_refused([&] { n.add_part("row 3", "tank", "row", Hose{.length = 2.0 * m}); }, "hose 'row 3', bore");
}

TEST(Network, FedFlowsChangeLater) {
  Network n = tank_to_row();
  const auto in = n.add_fed("in", 1.0 * L_per_min);
  n.set_fed_flow(in, 2.0 * L_per_min);
  EXPECT_DOUBLE_EQ(n.place(in).flow, 2e-3 / 60.0);
  expect_refused([&] { n.set_fed_flow(in, from_si<Flow>(-1.0)); }, "'in', flow");
  EXPECT_DOUBLE_EQ(n.place(in).flow, 2e-3 / 60.0) << "a refused flow leaves the old one";
  expect_message([&] { n.set_fed_flow(n.find_place("tank"), 1.0 * gpm); },
                 "place 'tank': is not fed by a flow; allowed: a place fed by a flow: 'in'");
}

TEST(Network, OnlyASupplyHasAPressureAndALevel) {
  Network n = tank_to_row();
  const auto in = n.add_fed("in", 1.0 * L_per_min);
  n.set_supply_pressure(n.find_place("tank"), 2.0 * bar);
  EXPECT_DOUBLE_EQ(n.place(n.find_place("tank")).pressure, 2e5);
  n.add_supply("second tank", 2.0 * bar);
  expect_message([&] { n.set_supply_pressure(in, 2.0 * bar); },
                 "place 'in': is not a supply; allowed: a supply: 'tank', 'second tank'");
  expect_message([&] { n.set_tank_level(in, TankLevel{}); }, "place 'in': is not a supply");
  EXPECT_FALSE(n.place(in).tank.has_value());
  Network lone;
  const auto place = lone.add_air("air");
  expect_message([&] { lone.set_fed_flow(place, 1.0 * gpm); }, "a place fed by a flow (this network has none)");
}

TEST(Network, CopiesAreIndependent) {
  Network first = tank_to_row();
  Network second = first;
  second.add_air("row 2");
  second.add_part("tip 2", "tee", "row 2", Orifice{.bore = 1.0 * mm});
  EXPECT_EQ(first.place_count(), 3u);
  EXPECT_EQ(first.part_count(), 2u);
  EXPECT_THROW(static_cast<void>(first.find_place("row 2")), InputError);
  first.add_place("row 2");  // the name is still free here

  Network third;
  third = second;
  const LiquidState liquid = test::water();
  Network original = tank_to_row();
  const Solution one = solve(original, liquid), two = solve(third, liquid);
  ASSERT_TRUE(one.usable());
  ASSERT_TRUE(two.usable());
  // Two equal tips behind one hose: each passes less than one alone, together they pass more.
  EXPECT_LT(two.parts[1].flow, one.parts[1].flow);
  EXPECT_GT(two.parts[0].flow, one.parts[0].flow);
  EXPECT_NEAR(two.parts[1].flow, two.parts[2].flow, 1e-12 * two.parts[1].flow);

  const Network moved = std::move(third);
  const Solution again = solve(moved, liquid);
  EXPECT_EQ(again.parts[2].flow, two.parts[2].flow);
}

}  // namespace network_test
}  // namespace libflow
