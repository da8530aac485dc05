// SPDX-License-Identifier: MIT
/// @file
/// The first guess is worth its trouble: from nothing, a bar needs few Newton steps, alone or in a pack, whatever
/// drives it; and a pack that starts from an answer next to nothing.
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_newton.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace cold_start_test {

using namespace units;

/// 16 rows of hose and orifice on a manifold, fed in the middle by a pressure or by a given flow.
Network rows(Pressure pressure, Flow given) {
  Network n;
  if (si(given) > 0.0) {
    n.add_fed("feed", given);
  } else {
    n.add_supply("feed", pressure);
  }
  for (int i = 0; i < 16; ++i) {
    const std::string port = fmt::format("port {}", i), end = fmt::format("end {}", i), air = fmt::format("air {}", i);
    n.add_place(port);
    n.add_place(end);
    n.add_air(air);
    n.add_part("hose " + air, port, end, Hose{.length = (1.0 + 0.2 * i) * m, .bore = 6.35 * mm});
    n.add_part("orifice " + air, end, air, Orifice{.bore = 1.0 * mm});
    if (i > 0) {
      n.add_part("bar " + air, fmt::format("port {}", i - 1), port, Hose{.length = 0.76 * m, .bore = 25.4 * mm});
    }
  }
  n.add_part("line", "feed", "port 8", Hose{.length = 3.0 * m, .bore = 25.4 * mm});
  return n;
}

struct Steps {
  int alone = 0, packed = 0, again = 0;
};
Steps steps_of(const Network& network, const LiquidState& liquid) {
  std::vector<Law> laws;
  for (std::size_t i = 0; i < network.part_count(); ++i) laws.push_back(network.part(i).part.law(liquid));
  const PackedCore core(network, laws);
  PackedNewton<Twin> newton(core, laws);
  const Place& zero = network.place(core.datum());
  for (std::size_t i = 0; i < network.place_count(); ++i) {
    const auto number = core.number(i);
    if (!number) continue;
    if (network.place(i).held()) {
      newton.potential[*number] = Twin(network.place(i).pressure - zero.pressure);
    } else {
      newton.inflow[*number] = Twin(network.place(i).inflow());
    }
  }
  newton.laws.sum();
  Steps steps{.alone = solve(network, liquid).iterations};
  EXPECT_TRUE(newton.solve().all());
  steps.packed = newton.rounds;
  newton.start_from(0);
  EXPECT_TRUE(newton.solve().all());
  steps.again = newton.rounds;
  return steps;
}

void expect_few(const Steps& steps, const std::string& what) {
  EXPECT_LE(steps.alone, 6) << what;
  EXPECT_LE(steps.packed, 8) << what;
  EXPECT_LE(steps.again, 2) << what;
}

// Newton's method doubles the digits: from a guess that is right to a factor of two or so, four to six steps reach the
// last of them (docs/speed.md: four or five); a pack has no line search and takes one or two more.
TEST(ColdStart, FewStepsWhateverDrives) {
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    for (const double kpa : {0.01, 1.0, 30.0, 100.0, 1000.0}) {
      expect_few(steps_of(rows(kpa * kPa, 0.0 * L_per_min), liquid), fmt::format("{}, {} kPa", liquid.name, kpa));
    }
    for (const double litres : {0.001, 0.1, 1.0, 10.0, 30.0}) {
      expect_few(steps_of(rows(0.0 * Pa, litres * L_per_min), liquid),
                 fmt::format("{}, {} L/min", liquid.name, litres));
    }
  }
}

// Outlets that are alike share what is pushed in: a first guess of each one's share is the answer, found in one step.
TEST(ColdStart, OutletsThatAreAlikeNeedOneStep) {
  for (const int count : {1, 2, 7}) {
    Network n;
    n.add_fed("feed", 2.0 * L_per_min);
    for (int i = 0; i < count; ++i) {
      const std::string row = fmt::format("row {}", i);
      n.add_air(row);
      n.add_part("orifice of " + row, "feed", row, Orifice{.bore = 1.5 * mm});
    }
    const Steps steps = steps_of(n, test::water());
    EXPECT_EQ(steps.alone, 1) << count;
    EXPECT_EQ(steps.packed, 1) << count;
  }
}

}  // namespace cold_start_test
}  // namespace libflow
