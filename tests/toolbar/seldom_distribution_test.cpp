// SPDX-License-Identifier: MIT
/// @file
/// Differences that are no distribution are refused, whichever of their numbers is at fault.
#include <gtest/gtest.h>

#include <limits>
#include <vector>

#include <libflow/core/error.hpp>
#include <libflow/toolbar/tolerances.hpp>

namespace libflow {
namespace seldom_distribution_test {

using Kind = Distribution::Kind;
static constexpr double endless = std::numeric_limits<double>::infinity();
static constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

TEST(SeldomDistribution, ANormalOneNeedsAPositiveFiniteDeviation) {
  for (const double wrong : {0.0, -1.0, endless, unknown}) {
    EXPECT_THROW((Distribution{.kind = Kind::normal, .deviation = wrong}.check("x")), InputError) << wrong;
  }
  EXPECT_NO_THROW((Distribution{.kind = Kind::normal, .deviation = 1e-9}.check("x")));
}

// The layout's own value, 0, must lie between the ends: both below it or both above it is a slip.
TEST(SeldomDistribution, EndsHoldTheLayoutsValueAndAreFinite) {
  struct Ends {
    double low, high;
  };
  for (const Kind kind : {Kind::uniform, Kind::triangular}) {
    for (const Ends& wrong : {Ends{-2.0, -1.0}, Ends{1.0, 2.0}, Ends{0.0, 0.0}, Ends{1.0, -1.0}, Ends{-endless, 1.0},
                              Ends{-1.0, endless}, Ends{unknown, 1.0}, Ends{-1.0, unknown}}) {
      EXPECT_THROW((Distribution{.kind = kind, .low = wrong.low, .high = wrong.high}.check("x")), InputError)
          << wrong.low << " to " << wrong.high;
    }
    EXPECT_NO_THROW((Distribution{.kind = kind, .low = 0.0, .high = 1.0}.check("x")));
    EXPECT_NO_THROW((Distribution{.kind = kind, .low = -1.0, .high = 0.0}.check("x")));
  }
}

TEST(SeldomDistribution, ListedOnesRiseAreFiniteAndDiffer) {
  using List = std::vector<double>;
  for (const List& wrong :
       {List{}, List{1.0}, List{1.0, 1.0}, List{2.0, 1.0}, List{0.0, 2.0, 1.0}, List{-endless, 1.0}, List{0.0, endless},
        List{unknown, 1.0}, List{0.0, unknown},
        List{-1.0, unknown, 1.0}}) {  // a NaN compares as neither less nor more: sorting alone misses it

    EXPECT_THROW((Distribution{.kind = Kind::listed, .values = wrong}.check("x")), InputError) << wrong.size();
  }
  EXPECT_NO_THROW((Distribution{.kind = Kind::listed, .values = {0.0, 0.0, 1.0}}.check("x")));
}

// Mean and variance of {-1, 0, 4}: 1 and (4 + 1 + 9) / 3, by hand.
TEST(SeldomDistribution, ListedMomentsByHand) {
  const Distribution d{.kind = Kind::listed, .values = {-1.0, 0.0, 4.0}};
  EXPECT_NEAR(d.mean(), 1.0, 1e-15);
  EXPECT_NEAR(d.variance(), 14.0 / 3.0, 1e-14);
  EXPECT_EQ(d.quantile(0.01), -1.0);
  EXPECT_EQ(d.quantile(0.99), 4.0);
}

}  // namespace seldom_distribution_test
}  // namespace libflow
