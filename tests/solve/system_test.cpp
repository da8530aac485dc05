// SPDX-License-Identifier: MIT
/// @file
/// A System solves again and again: warm or cold, with other numbers, without doing the symbolic work twice.

#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve.hpp>
#include <tests/support/random_network.hpp>

namespace libflow {
namespace system_test {

using namespace units;

Network bar(int rows) {
  Network n;
  n.add_fed("supply", 0.1 * rows * gpm);
  Network::PlaceIndex before = 0;
  for (int row = 1; row <= rows; ++row) {
    const auto port = n.add_place(fmt::format("port {}", row));
    n.add_part(fmt::format("bar {}", row), before, port, Part(Hose{.length = 0.1 * m, .bore = 12.0 * mm}));
    const auto end = n.add_place(fmt::format("end {}", row));
    const auto air = n.add_air(fmt::format("row {}", row), 0.05 * row * m);
    n.add_part(fmt::format("hose {}", row), port, end, Part(Hose{.length = (2.0 + 0.2 * row) * m, .bore = 6.0 * mm}));
    const auto valve = n.add_place(fmt::format("valve {}", row));
    n.add_part(fmt::format("check {}", row), end, valve,
               Part(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}));
    n.add_part(fmt::format("orifice {}", row), valve, air, Part(Orifice{.bore = 1.1 * mm}));
    before = port;
  }
  return n;
}

LiquidState liquid(double viscosity) {
  LiquidState l;
  l.viscosity = viscosity;
  return l;
}

TEST(System, OtherNumbersAreTheSameShape) {
  const Network n = bar(16);
  System system(n, liquid(1e-3));
  const long made = MeshShape::made();
  for (const double mu : {1e-3, 5e-3, 5e-2, 0.3}) {
    system.set_numbers(liquid(mu));
    for (const Start start : {Start::cold, Start::warm}) {
      const Solution again = system.solve({}, start);
      ASSERT_TRUE(again.usable()) << again.message;
    }
  }
  EXPECT_EQ(MeshShape::made(), made);  // no symbolic work since the System was made
  const Solution last = system.solve();
  const Solution fresh = solve(n, liquid(0.3));
  for (std::size_t i = 0; i < last.parts.size(); ++i) EXPECT_EQ(last.parts[i].flow, fresh.parts[i].flow);
}

TEST(System, AWarmStartSavesStepsAndGivesTheSameAnswer) {
  Network n = bar(16);
  System system(n, liquid(1e-3));
  const Solution cold = system.solve();
  n.set_fed_flow(0, 1.62 * gpm);
  const Solution warm = system.solve({}, Start::warm);
  const Solution again = system.solve({}, Start::cold);
  ASSERT_TRUE(cold.usable() && warm.usable() && again.usable());
  EXPECT_LT(warm.iterations, again.iterations);
  for (std::size_t i = 0; i < warm.parts.size(); ++i) {
    EXPECT_NEAR(warm.parts[i].flow, again.parts[i].flow, 1e-12 * si(1.62 * gpm));
  }
  EXPECT_LE(system.solve({}, Start::warm).iterations, 1);  // nothing changed: the answer is its own start
}

TEST(System, AWarmStartFromAFarAnswerConverges) {
  for (std::uint64_t seed = 5000; seed < 5300; ++seed) {
    testing::RandomNetwork r = testing::RandomNetworkMaker(seed).make();
    const SolveOptions extreme{.mass_tolerance = 1e-10, .energy_tolerance = 1e-8};
    LiquidState other = r.liquid;
    other.viscosity *= seed % 2 == 0 ? 100.0 : 0.01;
    System system(r.network, other);
    (void)system.solve(extreme);
    system.set_numbers(r.liquid);
    const Solution warm = system.solve(extreme, Start::warm);
    ASSERT_TRUE(warm.usable()) << "seed " << seed << ": " << warm.message;
  }
}

TEST(System, ExtraDropsAddToTheLaws) {
  Network n;
  n.add_supply("supply", 50.0 * kPa);
  n.add_air("air");
  n.add_part("orifice", "supply", "air", Orifice{.bore = 2.0 * mm});
  System system(n, liquid(1e-3), {1e4});
  const double with_extra = system.solve().parts[0].flow;
  system.set_numbers(liquid(1e-3));
  const double without = system.solve().parts[0].flow;
  Network lower;
  lower.add_supply("supply", 40.0 * kPa);
  lower.add_air("air");
  lower.add_part("orifice", "supply", "air", Orifice{.bore = 2.0 * mm});
  EXPECT_NEAR(with_extra / solve(lower, liquid(1e-3)).parts[0].flow, 1.0, 1e-12);
  EXPECT_GT(without, with_extra);
}

// Rings that hang on one place, of two parts and more: no part is lost when runs are made, and none carries anything.
TEST(System, RingsKeepAllTheirParts) {
  for (int length = 2; length <= 5; ++length) {
    Network n;
    n.add_supply("supply", 100.0 * kPa);
    n.add_place("hub");
    n.add_air("air");
    n.add_part("in", "supply", "hub", Hose{.length = 1.0 * m, .bore = 8.0 * mm});
    n.add_part("out", "hub", "air", Orifice{.bore = 2.0 * mm});
    Network::PlaceIndex before = n.find_place("hub");
    for (int k = 1; k < length; ++k) {
      const auto next = n.add_place(fmt::format("ring {}", k));
      n.add_part(fmt::format("ring part {}", k), next, before, Part(Hose{.length = 0.3 * k * m, .bore = 5.0 * mm}));
      before = next;
    }
    n.add_part("last", n.find_place("hub"), before, Part(Hose{.length = 2.0 * m, .bore = 4.0 * mm}));
    const Solution s = solve(n, liquid(1e-3));
    ASSERT_TRUE(s.usable()) << s.message;
    const double hub = s.places[n.find_place("hub")].total_pressure;
    for (Network::PlaceIndex i = 3; i < n.place_count(); ++i) EXPECT_NEAR(s.places[i].total_pressure, hub, 1e-6);
    EXPECT_NEAR(s.parts[n.find_part("last")].flow, 0.0, 1e-15);
  }
}

}  // namespace system_test
}  // namespace libflow
