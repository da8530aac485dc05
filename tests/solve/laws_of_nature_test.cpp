// SPDX-License-Identifier: MIT
/// @file
/// What every network does whatever its numbers: nothing that is only another way to describe the same plumbing
/// changes a flow, and pressure works in one direction. On random networks from fixed seeds.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/open_end.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace laws_of_nature_test {

using namespace libflow::units;
using test::Dice;
using test::Sketch;

constexpr int networks = 300;
constexpr double same = 1e-9;    ///< of the largest flow
constexpr double still = 1e-20;  ///< m3/s: what rounding may leave of a network in which nothing flows

LiquidState random_liquid(Dice& dice) {
  return test::liquid_of("any", dice.uniform(900.0, 1500.0), dice.log_uniform(5e-4, 0.5));
}

Solution solved(const Sketch& s, const LiquidState& liquid) {
  Solution solution = solve(s.build(), liquid);
  EXPECT_TRUE(solution.usable()) << solution.message;
  return solution;
}

/// Calls act(dice, sketch, liquid, its solution) on many random networks.
template <class Act>
void for_networks(std::uint64_t seed, const Act& act) {
  Dice dice(seed);
  for (int i = 0; i < networks; ++i) {
    const Sketch sketch = test::random_sketch(dice);
    const LiquidState liquid = random_liquid(dice);
    SCOPED_TRACE(fmt::format("network {} of seed {}", i, seed));
    act(dice, sketch, liquid, solved(sketch, liquid));
    if (testing::Test::HasFailure()) return;  // one is enough to look at
  }
}

/// Expects the flows of the first parts of two solutions to agree.
void expect_same_flows(const Solution& a, const Solution& b, std::size_t parts) {
  const double largest = std::max(test::largest_flow(a), test::largest_flow(b));
  for (std::size_t i = 0; i < parts; ++i) {
    EXPECT_NEAR(a.parts[i].flow, b.parts[i].flow, same * largest + still) << "part " << i;
  }
}

/// Net flow out of the places open to the air.
double outflow(const Sketch& s, const Solution& solution) {
  double sum = 0.0;
  for (std::size_t i = 0; i < s.parts.size(); ++i) {
    if (s.places[s.parts[i].b].kind == PlaceKind::air) sum += solution.parts[i].flow;
    if (s.places[s.parts[i].a].kind == PlaceKind::air) sum -= solution.parts[i].flow;
  }
  return sum;
}

TEST(LawsOfNature, AHoseCutInTwoIsTheSameHose) {
  for_networks(1, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    Sketch cut = sketch;
    const std::size_t parts = sketch.parts.size();
    for (std::size_t i = 0; i < parts; ++i) {
      const Hose* hose = sketch.parts[i].part.as<Hose>();
      if (hose == nullptr) continue;
      const double share = dice.uniform(0.05, 0.95);
      const auto piece = [&](double part_of_it) {
        return Hose{.length = part_of_it * hose->length, .bore = hose->bore, .roughness = hose->roughness};
      };
      // The height of the joint does not matter: total pressure falls with it and rises again.
      const auto joint = cut.add({.id = fmt::format("joint {}", i), .elevation = dice.uniform(-5.0, 5.0)});
      const std::size_t end = std::exchange(cut.parts[i].b, joint);
      cut.parts[i].part = piece(share);
      cut.join(joint, end, piece(1.0 - share));
    }
    expect_same_flows(before, solved(cut, liquid), parts);
  });
}

TEST(LawsOfNature, PassagesInSeriesChangePlaces) {
  for_networks(2, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution&) {
    Sketch one = sketch, other = sketch;
    for (std::size_t i = 0; i < sketch.parts.size(); ++i) {
      if (!dice.chance(0.3) || sketch.parts[i].part.contract() != Contract::passage) continue;
      const Part added = test::random_passage(dice);
      const double z = dice.uniform(-5.0, 5.0);
      const std::size_t end = sketch.parts[i].b;
      for (Sketch* s : {&one, &other}) {
        const auto joint = s->add({.id = fmt::format("joint {}", i), .elevation = z});
        s->parts[i].b = joint;
        s->join(joint, end, added);
      }
      std::swap(other.parts[i].part, other.parts.back().part);
    }
    expect_same_flows(solved(one, liquid), solved(other, liquid), one.parts.size());
  });
}

TEST(LawsOfNature, ATwoWayPartHasNoDirection) {
  for_networks(3, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    Sketch turned = sketch;
    std::vector<double> sign(sketch.parts.size(), 1.0);
    for (std::size_t i = 0; i < sign.size(); ++i) {
      if (sketch.parts[i].part.contract() != Contract::passage || dice.chance(0.5)) continue;
      std::swap(turned.parts[i].a, turned.parts[i].b);
      sign[i] = -1.0;
    }
    Solution after = solved(turned, liquid);
    for (std::size_t i = 0; i < sign.size(); ++i) after.parts[i].flow *= sign[i];
    expect_same_flows(before, after, sign.size());
  });
}

TEST(LawsOfNature, NamesAndOrderMeanNothing) {
  for_networks(4, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    std::vector<std::size_t> places(sketch.places.size()), parts(sketch.parts.size());
    std::iota(places.begin(), places.end(), 0u);
    std::iota(parts.begin(), parts.end(), 0u);
    dice.shuffle(places);
    dice.shuffle(parts);
    Sketch other;
    std::vector<std::size_t> now_at(places.size());
    for (std::size_t k = 0; k < places.size(); ++k) {
      now_at[places[k]] = k;
      other.add(sketch.places[places[k]]);
      other.places.back().id = fmt::format("p{}", 1000 - k);
    }
    for (const std::size_t i : parts) {
      const auto& part = sketch.parts[i];
      other.join(now_at[part.a], now_at[part.b], part.part);
    }
    const Solution shuffled = solved(other, liquid);
    Solution after = shuffled;
    for (std::size_t k = 0; k < parts.size(); ++k) after.parts[parts[k]] = shuffled.parts[k];
    expect_same_flows(before, after, parts.size());
    double range = 1.0;
    for (const auto& p : before.places) range = std::max(range, std::abs(p.total_pressure));
    for (std::size_t k = 0; k < places.size(); ++k) {
      const PlaceResult& was = before.places[places[k]];
      EXPECT_EQ(was.determined, shuffled.places[k].determined);
      if (!was.determined) continue;
      EXPECT_NEAR(was.total_pressure, shuffled.places[k].total_pressure, 1e-8 * range);
    }
  });
}

/// A bar fed in its middle: ports left to right, a hose, a check valve and an open end a row.
struct Bar {
  std::vector<double> hoses;  ///< lengths [m]
  double slope = 0.0;

  [[nodiscard]] Sketch sketch() const {
    Sketch s;
    const auto rows = static_cast<double>(hoses.size());
    const auto height = [&](std::size_t row) { return slope * 0.76 * (static_cast<double>(row) - 0.5 * (rows - 1.0)); };
    const auto tank = s.add({.id = "tank", .kind = PlaceKind::supply, .pressure = 1.5e5});
    const Hose bar{.length = 0.76 * m, .bore = 19.0 * mm};
    for (std::size_t i = 0; i < hoses.size(); ++i) {
      const auto port = s.add({.id = fmt::format("port {}", i), .elevation = height(i)});
      const auto end = s.add({.id = fmt::format("end {}", i), .elevation = height(i)});
      const auto tip = s.add({.id = fmt::format("tip {}", i), .elevation = height(i)});
      const auto air = s.add({.id = fmt::format("row {}", i), .elevation = height(i), .kind = PlaceKind::air});
      s.join(tip, air, OpenEnd{.bore = 3.0 * mm});
      s.join(port, end, Hose{.length = hoses[i] * m, .bore = 6.0 * mm});
      s.join(end, tip, CheckValve{.crack = 30.0 * kPa, .passage_bore = 4.0 * mm});
      if (i > 0) s.join(port - 4, port, bar);
    }
    const std::size_t middle = hoses.size() / 2;
    s.join(tank, 1 + 4 * (middle - 1), Hose{.length = 3.0 * m, .bore = 19.0 * mm});
    s.join(tank, 1 + 4 * middle, Hose{.length = 3.0 * m, .bore = 19.0 * mm});
    return s;
  }
  [[nodiscard]] std::vector<double> row_flows(const LiquidState& liquid) const {
    const Sketch s = sketch();
    const Solution solution = solved(s, liquid);
    std::vector<double> flows;
    for (std::size_t i = 0; i < s.parts.size(); ++i) {
      if (s.places[s.parts[i].b].kind == PlaceKind::air) flows.push_back(solution.parts[i].flow);
    }
    return flows;
  }
};

TEST(LawsOfNature, AToolbarAndItsSlopeInAMirror) {
  Dice dice(5);
  for (int k = 0; k < 100; ++k) {
    Bar bar;
    bar.slope = dice.uniform(-0.3, 0.3);
    for (std::size_t rows = 2 * (1 + dice.below(12)); rows > 0; --rows) {
      bar.hoses.push_back(dice.uniform(0.5, 8.0));
    }
    const LiquidState liquid = random_liquid(dice);
    Bar mirrored = bar;
    mirrored.slope = -bar.slope;
    std::reverse(mirrored.hoses.begin(), mirrored.hoses.end());
    const std::vector<double> flows = bar.row_flows(liquid);
    std::vector<double> seen = mirrored.row_flows(liquid);
    std::reverse(seen.begin(), seen.end());
    const double largest = *std::max_element(flows.begin(), flows.end());
    ASSERT_GT(largest, 0.0);
    for (std::size_t i = 0; i < flows.size(); ++i) EXPECT_NEAR(flows[i], seen[i], same * largest) << "row " << i;
  }
}

TEST(LawsOfNature, ADeadEndCarriesNothing) {
  for_networks(6, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    Sketch longer = sketch;
    // A tree of dead ends, with a loop at its far end that the reduction cannot take out.
    std::vector<std::size_t> ends{dice.below(sketch.places.size())};
    for (int k = 0; k < 6; ++k) {
      const std::size_t at = ends[dice.below(ends.size())];
      ends.push_back(longer.add({.id = fmt::format("dead {}", k), .elevation = dice.uniform(-5.0, 5.0)}));
      longer.join(at, ends.back(), test::random_passage(dice));
    }
    longer.join(ends[ends.size() - 2], ends.back(), test::random_hose(dice));
    const Solution after = solved(longer, liquid);
    expect_same_flows(before, after, sketch.parts.size());
    const double largest = test::largest_flow(before);
    for (std::size_t i = sketch.parts.size(); i < longer.parts.size(); ++i) {
      EXPECT_NEAR(after.parts[i].flow, 0.0, same * largest + still);
    }
  });
}

TEST(LawsOfNature, OneFactorOnDensityViscosityAndPressuresChangesNoFlow) {
  for_networks(7, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    const double factor = dice.log_uniform(0.3, 3.0);
    Sketch scaled = sketch;
    for (Place& p : scaled.places) p.pressure *= factor;
    for (auto& p : scaled.parts) {
      if (const CheckValve* valve = p.part.as<CheckValve>()) {
        CheckValve stiffer = *valve;
        stiffer.crack = factor * valve->crack;
        p.part = stiffer;
      }
    }
    const Solution after =
        solved(scaled, test::liquid_of("scaled", factor * liquid.density, factor * liquid.viscosity));
    expect_same_flows(before, after, sketch.parts.size());
  });
}

TEST(LawsOfNature, RaisingASupplyNeverLowersTheTotalOutflow) {
  for_networks(8, [](Dice& dice, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    for (std::size_t i = 0; i < sketch.places.size(); ++i) {
      if (sketch.places[i].kind != PlaceKind::supply) continue;
      Sketch raised = sketch;
      raised.places[i].pressure *= 1.0 + dice.log_uniform(1e-4, 1.0);
      const Solution after = solved(raised, liquid);
      const double largest = std::max(test::largest_flow(before), test::largest_flow(after));
      EXPECT_GE(outflow(raised, after), outflow(sketch, before) - same * largest - still);
    }
  });
}

TEST(LawsOfNature, ClosingADeliveringOutletNeverLowersATotalPressure) {
  int closed = 0;
  for_networks(9, [&](Dice&, const Sketch& sketch, const LiquidState& liquid, const Solution& before) {
    double range = 1.0;
    for (const auto& p : before.places) range = std::max(range, std::abs(p.total_pressure));
    for (std::size_t k = 0; k < sketch.parts.size(); ++k) {
      // The fed place's own outlet stays: it keeps the network well-posed.
      const Place& outlet = sketch.places[sketch.parts[k].b];
      if (outlet.kind != PlaceKind::air || outlet.id == "own air" || before.parts[k].flow <= 0.0) continue;
      Sketch shut = sketch;
      shut.places[sketch.parts[k].b].kind = PlaceKind::junction;
      const Solution after = solved(shut, liquid);
      ++closed;
      for (std::size_t i = 0; i < sketch.places.size(); ++i) {
        if (i == sketch.parts[k].b) continue;
        // Where closed one-way parts leave a range, the range cannot lie lower as a whole.
        EXPECT_GE(after.places[i].upper, before.places[i].lower - 1e-8 * range) << sketch.places[i].id;
        if (before.places[i].determined && after.places[i].determined) {
          EXPECT_GE(after.places[i].total_pressure, before.places[i].total_pressure - 1e-8 * range)
              << sketch.places[i].id << " when " << outlet.id << " is closed";
        }
      }
    }
  });
  EXPECT_GT(closed, networks) << "too few outlets delivered for this to mean anything";
}

}  // namespace laws_of_nature_test
}  // namespace libflow
