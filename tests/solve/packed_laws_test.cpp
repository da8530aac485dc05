// SPDX-License-Identifier: MIT
/// @file
/// Laws of a pack: every term of every part, lane by lane and whichever way it is drawn, as the laws themselves.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_laws.hpp>

namespace libflow {
namespace packed_laws_test {

constexpr int lanes = Twin::width;

/// Two terms of every kind, in sizes that follow from a number.
Law law_of(double size) {
  Law law;
  law.linear = 1e6 * size;
  law.quadratic = 3e10 * size;
  law.threshold = 700.0 * size;
  for (const double k : {1.0, 2.0}) {
    law.friction.push_back(physics::wall_friction<double>(2.0 * k, 0.006 * size, 1e-5 * k, 1000.0, 1e-3));
    law.holes.push_back(physics::hole<double>(0.002 * k * size, 0.0, 1000.0, 1e-3, 0.61, physics::sharp_uncontracted));
    law.functions.emplace_back([=](const double& q) {
      return Drop<double>{k * 1e7 * q * (1.0 + 100.0 * q), k * 1e7 * (1.0 + 200.0 * q)};  // not odd
    });
  }
  return law;
}

/// The drop and slope of edges 0 (parts 0 and 2, the second drawn against it) and 1 (part 3); part 1 is in none.
void expect_sums(const PackedLaws<Twin>& packed, const std::vector<std::vector<Law>>& by_lane) {
  for (const double q : {-3e-5, 0.0, 1e-6, 2e-4}) {
    const Drop<Twin> first = packed(0, Twin(q)), second = packed(1, Twin(q));
    for (int lane = 0; lane < lanes; ++lane) {
      const std::vector<Law>& laws = by_lane[static_cast<std::size_t>(lane)];
      const Drop<double> a = laws[0](q), b = laws[2].reversed()(q), c = laws[3](q);
      EXPECT_NEAR(first.dp[lane], a.dp + b.dp, 1e-12 * (std::abs(a.dp) + std::abs(b.dp))) << lane << " " << q;
      EXPECT_NEAR(first.slope[lane], a.slope + b.slope, 1e-12 * (a.slope + b.slope)) << lane << " " << q;
      EXPECT_NEAR(second.dp[lane], c.dp, 1e-12 * std::abs(c.dp)) << lane << " " << q;
      EXPECT_NEAR(second.slope[lane], c.slope, 1e-12 * c.slope) << lane << " " << q;
      EXPECT_NEAR(packed.threshold(0)[lane], laws[0].threshold - laws[2].threshold, 1e-10);
      EXPECT_NEAR(packed.threshold(1)[lane], laws[3].threshold, 1e-10);
    }
  }
}

TEST(PackedLaws, SumTheTermsOfTheirParts) {
  const std::vector<Law> laws{law_of(1.0), law_of(5.0), law_of(1.3), law_of(0.7)};
  const std::vector<PackedSeat> seats{{0, true}, {}, {0, false}, {1, true}};
  PackedLaws<Twin> packed(laws, seats, 2);
  std::vector<std::vector<Law>> by_lane(static_cast<std::size_t>(lanes), laws);
  expect_sums(packed, by_lane);  // the first numbers fill all lanes
  EXPECT_TRUE(packed.in_core(0));
  EXPECT_FALSE(packed.in_core(1));
  EXPECT_FALSE(packed.seat(2).forward);
  EXPECT_EQ(packed.seat(3).edge, 1U);
  for (int lane = 0; lane < lanes; ++lane) {
    for (std::size_t i = 0; i < 4; ++i) {
      Law& law = by_lane[static_cast<std::size_t>(lane)][i];
      law = law_of(1.0 + 0.1 * lane + 0.2 * static_cast<double>(i));
      packed.set(i, lane, law);
    }
  }
  packed.sum();
  expect_sums(packed, by_lane);
}

// Single numbers, changed in place: the k-th friction and hole of a part, and its constants.
TEST(PackedLaws, NumbersOfOnePartChangeInPlace) {
  std::vector<Law> laws{law_of(1.0), law_of(5.0), law_of(1.3), law_of(0.7)};
  PackedLaws<Twin> packed(laws, {{0, true}, {}, {0, false}, {1, true}}, 2);
  packed.friction(2, 1).scale = Twin(3.0 * laws[2].friction[1].scale);
  laws[2].friction[1].scale *= 3.0;
  packed.hole(3).inertia = Twin(2.0 * laws[3].holes[0].inertia);
  laws[3].holes[0].inertia *= 2.0;
  packed.constants(0).threshold = Twin(-50.0);
  laws[0].threshold = -50.0;
  packed.constants(3).linear = Twin(9e6);
  laws[3].linear = 9e6;
  packed.sum();
  expect_sums(packed, std::vector<std::vector<Law>>(static_cast<std::size_t>(lanes), laws));
}

}  // namespace packed_laws_test
}  // namespace libflow
