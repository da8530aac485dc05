// SPDX-License-Identifier: MIT
/// @file
/// The certificate catches a wrong answer, and says what is known of places that closed one-way parts cut off.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>
#include <libflow/solve/certificate.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace certificate_test {

using namespace libflow::units;

constexpr double infinite = std::numeric_limits<double>::infinity();
const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};
const CheckValve valve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm};

/// An answer that a test can spoil before it is certified.
struct Answer {
  Network network;
  LiquidState liquid = test::water();
  std::vector<Law> laws;
  std::vector<double> flow, potential;
  std::vector<PlaceResult> places;
  Place datum{};  ///< pressures from zero, heights from zero
  double weight = 0;

  explicit Answer(Network n) : network(std::move(n)), weight(liquid.density * standard_gravity) {
    const Solution s = solve(network, liquid);
    EXPECT_TRUE(s.usable()) << s.message;
    for (std::size_t i = 0; i < network.part_count(); ++i) {
      laws.push_back(network.part(i).part.law(liquid));
      flow.push_back(s.parts[i].flow);
    }
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      potential.push_back(s.places[i].total_pressure + weight * network.place(i).elevation);
    }
  }
  Certificate certify() { return libflow::certify(network, laws, flow, potential, datum, weight, places); }
};

/// Tank, a loop of two hoses, a row behind a check valve that opens and a row behind one that does not, a tap.
Network network() {
  Network n;
  n.add_supply("tank", 1.5 * bar, 1.0 * m);
  n.add_place("tee");
  n.add_air("row 1");
  n.add_air("row 2", 30.0 * m);
  n.add_drawn("tap", 0.5 * L_per_min);
  n.add_part("left", "tank", "tee", hose);
  n.add_part("right", "tee", "tank", Hose{.length = 3.0 * m, .bore = 5.0 * mm});
  n.add_part("valve 1", "tee", "row 1", valve);
  n.add_part("valve 2", "tee", "row 2", valve);
  n.add_part("spur", "tee", "tap", hose);
  return n;
}

TEST(Certificate, ARightAnswerPasses) {
  Answer a(network());
  ASSERT_GT(a.flow[2], 0.0);
  ASSERT_EQ(a.flow[3], 0.0);
  const Certificate c = a.certify();
  EXPECT_LE(c.mass_residual, 1e-14);
  EXPECT_LE(c.energy_residual, 1e-12);
  for (std::size_t i = 0; i < a.places.size(); ++i) {
    EXPECT_TRUE(a.places[i].determined);
    EXPECT_EQ(a.places[i].lower, a.places[i].total_pressure);
    EXPECT_EQ(a.places[i].upper, a.places[i].total_pressure);
  }
}

TEST(Certificate, AFlowThatDoesNotBalance) {
  Answer a(network());
  const double largest = *std::max_element(a.flow.begin(), a.flow.end());
  a.flow[4] *= 1.0 + 1e-6;
  const Certificate c = a.certify();
  EXPECT_NEAR(c.mass_residual, 1e-6 * a.flow[4] / largest, 1e-9);
  EXPECT_GT(c.energy_residual, 1e-9);
}

TEST(Certificate, AFlowThatCircles) {
  // Mass still balances; only the laws can tell.
  Answer a(network());
  const double circling = 1e-6 * a.flow[0];
  a.flow[0] += circling;
  a.flow[1] += circling;
  const Certificate c = a.certify();
  EXPECT_LE(c.mass_residual, 1e-14);
  EXPECT_GT(c.energy_residual, 1e-8);
}

TEST(Certificate, APressureThatIsWrong) {
  for (const std::size_t place : {0u, 1u, 2u, 4u}) {
    Answer a(network());
    a.potential[place] += 1.0;
    const Certificate c = a.certify();
    EXPECT_LE(c.mass_residual, 1e-14);
    EXPECT_NEAR(c.energy_residual, 1.0 / 1.5e5, 0.5 / 1.5e5) << place;
  }
}

TEST(Certificate, AShutValveIsNoMeasureOfADrop) {
  // Heads of a millipascal beside a valve that holds back 20 kPa: a flow that is a thousandth off is a thousandth off.
  Network n;
  n.add_supply("high", 1e-3 * Pa);
  n.add_supply("low", 0.0 * Pa);
  n.add_part("hose", "high", "low", hose);
  n.add_part("valve", "high", "low", valve);
  Answer a(std::move(n));
  EXPECT_LE(a.certify().energy_residual, 1e-12);
  a.flow[0] *= 1.001;
  EXPECT_NEAR(a.certify().energy_residual, 1e-3, 2e-5);
}

TEST(Certificate, AValveThatPassesBackward) {
  for (const double back : {1e-30, 1e-9}) {
    Answer a(network());
    a.flow[3] = -back;
    EXPECT_EQ(a.certify().energy_residual, infinite) << "however little";
  }
}

TEST(Certificate, AValveThatStaysShutAgainstItsCrackPressure) {
  // Valve 1 said to be shut although the tee stands far above its crack pressure.
  Answer a(network());
  a.flow[2] = 0.0;
  const Certificate c = a.certify();
  EXPECT_GT(c.mass_residual, 0.1);
  EXPECT_GT(c.energy_residual, 0.1);
}

TEST(Certificate, AValveThatOpensTooSoon) {
  // Valve 2 passes a little although the pressure does not open it.
  Answer a(network());
  a.flow[3] = 1e-15;
  const Certificate c = a.certify();
  EXPECT_GT(c.energy_residual, 0.1);
}

TEST(Certificate, APartThatPassesNeitherWay) {
  Answer a(network());
  a.laws[4].passes = Passes::neither;
  EXPECT_EQ(a.certify().energy_residual, infinite);
}

/// The valve drawn from its outlet to its inlet.
struct ValveFromItsOutlet {
  static constexpr std::string_view kind = "valve from its outlet";
  static constexpr Contract contract = Contract::one_way;

  void check(std::string_view where) const { valve.check(where); }
  [[nodiscard]] Law law(const LiquidState& liquid) const { return valve.law(liquid).reversed(); }
  [[nodiscard]] static Passes passes() { return Passes::backward; }
};

TEST(Certificate, AValveDrawnFromItsOutletIsTheSameValve) {
  const auto with_valves = [](bool from_outlet) {
    Network n;
    n.add_supply("tank", 1.5 * bar, 1.0 * m);
    n.add_place("tee");
    n.add_air("row 1");
    n.add_air("row 2", 30.0 * m);
    n.add_part("hose", "tank", "tee", hose);
    for (const std::string row : {"row 1", "row 2"}) {
      if (from_outlet) {
        n.add_part("valve of " + row, row, "tee", ValveFromItsOutlet{});
      } else {
        n.add_part("valve of " + row, "tee", row, valve);
      }
    }
    return n;
  };
  Answer forward(with_valves(false)), back(with_valves(true));
  ASSERT_GT(forward.flow[1], 0.0);
  EXPECT_NEAR(back.flow[1] / forward.flow[1], -1.0, 1e-12);
  EXPECT_EQ(back.flow[2], 0.0);
  EXPECT_LE(back.certify().energy_residual, 1e-12);
  const double opened = back.flow[1];
  back.flow[1] = 0.0;
  EXPECT_GT(back.certify().energy_residual, 0.1) << "shut although the pressure opens it";
  back.flow[1] = opened;
  back.flow[2] = 1e-30;
  EXPECT_EQ(back.certify().energy_residual, infinite) << "it passes the wrong way, however little";
}

TEST(Certificate, AGivenFlowThatIsNotTaken) {
  Answer a(network());
  Network other;
  other.add_supply("tank", 1.5 * bar, 1.0 * m);
  other.add_place("tee");
  other.add_air("row 1");
  other.add_air("row 2", 30.0 * m);
  other.add_drawn("tap", 0.6 * L_per_min);
  for (std::size_t i = 0; i < a.network.part_count(); ++i) {
    const PlacedPart& p = a.network.part(i);
    other.add_part(p.id, p.from, p.to, p.part);
  }
  a.network = other;
  const Certificate c = a.certify();
  EXPECT_GT(c.mass_residual, 0.01);
  EXPECT_LE(c.energy_residual, 1e-12);
}

TEST(Certificate, NotANumberIsNoAnswer) {
  for (const std::size_t part : {0u, 2u, 4u}) {
    Answer a(network());
    a.flow[part] = std::numeric_limits<double>::quiet_NaN();
    const Certificate c = a.certify();
    EXPECT_FALSE(c.mass_residual <= 1e-12 && c.energy_residual <= 1e-9) << part;
  }
  Answer a(network());
  a.potential[1] = std::numeric_limits<double>::quiet_NaN();
  const Certificate c = a.certify();
  EXPECT_FALSE(c.mass_residual <= 1e-12 && c.energy_residual <= 1e-9);
}

// --- places that closed one-way parts cut off ------------------------------------------------------------------------

TEST(Certificate, BoundsBetweenTwoShutValves) {
  Network n;
  n.add_supply("tank", 30.0 * kPa, 2.0 * m);
  n.add_place("a", 0.5 * m);
  n.add_place("b", 1.0 * m);
  n.add_air("row", 4.0 * m);
  n.add_part("valve 1", "tank", "a", CheckValve{.crack = 10.0 * kPa, .passage_bore = 3.0 * mm});
  n.add_part("hose", "a", "b", hose);
  n.add_part("valve 2", "b", "row", CheckValve{.crack = 25.0 * kPa, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  for (const auto& p : s.parts) EXPECT_EQ(p.flow, 0.0);
  const double weight = test::water().density * standard_gravity;
  // p + rho g z: at least the tank's less 10 kPa, at most the air's and 25 kPa.
  const double low = 3e4 + weight * 2.0 - 1e4, high = weight * 4.0 + 2.5e4;
  for (const auto& [place, z] : {std::pair{1u, 0.5}, {2u, 1.0}}) {
    EXPECT_FALSE(s.places[place].determined);
    EXPECT_NEAR(s.places[place].lower, low - weight * z, 1e-6);
    EXPECT_NEAR(s.places[place].upper, high - weight * z, 1e-6);
    EXPECT_GE(s.places[place].total_pressure, s.places[place].lower - 1e-6);
    EXPECT_LE(s.places[place].total_pressure, s.places[place].upper + 1e-6);
  }
  EXPECT_TRUE(s.places[0].determined);
  EXPECT_TRUE(s.places[3].determined);
}

TEST(Certificate, BoundsPassOnThroughShutValves) {
  // Three valves in a row between the tank and a place, each of 20 kPa; a fourth lets the place drain at 5 kPa.
  Network n;
  n.add_supply("tank", 50.0 * kPa);
  n.add_place("a");
  n.add_place("b");
  n.add_place("c");
  n.add_air("row");
  n.add_part("valve 1", "tank", "a", valve);
  n.add_part("valve 2", "a", "b", valve);
  n.add_part("valve 3", "b", "c", valve);
  n.add_part("valve 4", "c", "row", CheckValve{.crack = 5.0 * kPa, .passage_bore = 3.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  const double lower[] = {3e4, 1e4, -1e4}, upper[] = {4.5e4, 2.5e4, 5e3};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_FALSE(s.places[1 + i].determined);
    EXPECT_NEAR(s.places[1 + i].lower, lower[i], 1e-6);
    EXPECT_NEAR(s.places[1 + i].upper, upper[i], 1e-6);
  }
}

TEST(Certificate, APlaceThatDrainsButIsNeverFedHasNoLowerBound) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row");
  n.add_place("pocket");
  n.add_place("far end");
  n.add_part("feed", "tank", "tee", hose);
  n.add_part("tip", "tee", "row", OpenEnd{.bore = 2.0 * mm});
  n.add_part("valve", "pocket", "tee", valve);
  n.add_part("spur", "pocket", "far end", hose);
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  for (const std::size_t i : {3u, 4u}) {
    EXPECT_FALSE(s.places[i].determined);
    EXPECT_EQ(s.places[i].lower, -infinite);
    EXPECT_NEAR(s.places[i].upper, s.places[1].total_pressure + 2e4, 1e-6);
    EXPECT_TRUE(std::isfinite(s.places[i].total_pressure));
  }
}

TEST(Certificate, AValveWithoutASpringIntoADeadEndHoldsWhatItCaught) {
  // Nothing flows, so the valve is shut and the dead end may stand at any pressure above the tee's; rounding must not
  // pass for a flow that would settle it. Two valves side by side, so that no reduction takes them out.
  for (const double kilopascal : {20.0, 70.0, 130.0, 190.0, 250.0, 310.0}) {
    Network n;
    n.add_supply("tank", kilopascal * kPa, 0.3 * m);
    n.add_place("tee", 0.7 * m);
    n.add_air("row");
    n.add_place("pocket", 0.1 * m);
    n.add_part("feed", "tank", "tee", hose);
    n.add_part("tip", "tee", "row", OpenEnd{.bore = 2.0 * mm});
    n.add_part("valve 1", "tee", "pocket", CheckValve{.passage_bore = 5.0 * mm});
    n.add_part("valve 2", "tee", "pocket", CheckValve{.crack = 4.0 * kPa, .passage_bore = 1.0 * mm});
    const Solution s = solve(n, test::water());
    ASSERT_TRUE(s.usable()) << s.message;
    EXPECT_EQ(s.parts[2].flow, 0.0);
    EXPECT_EQ(s.parts[2].valve, ValveState::closed);
    EXPECT_FALSE(s.places[3].determined);
    const double rise = 0.6 * test::water().density * standard_gravity;
    EXPECT_NEAR(s.places[3].lower, s.places[1].total_pressure + rise, 1e-6);
    EXPECT_EQ(s.places[3].upper, infinite);
  }
}

}  // namespace certificate_test
}  // namespace libflow
