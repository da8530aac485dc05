// SPDX-License-Identifier: MIT
/// @file
/// Ranges as data, and the error for a number outside one.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/core/range.hpp>

namespace libflow {
namespace range_test {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

std::string refusal(double value, Range range, const char* unit = "m") {
  try {
    require_in("hose 'row 3', length", value, range, unit);
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "hose 'row 3', length");
    return e.what();
  }
  return "accepted";
}

TEST(Range, Contains) {
  constexpr Range r{1.0, 2.0};
  static_assert(r.contains(1.0) && r.contains(2.0) && !r.contains(0.999) && !r.contains(2.001));
  EXPECT_FALSE(r.contains(nan));
  EXPECT_FALSE(r.contains(inf));
  constexpr Range any;
  EXPECT_TRUE(any.contains(-1e300));
  EXPECT_TRUE(any.contains(inf));
  EXPECT_FALSE(any.contains(nan));
}

TEST(RequireIn, AcceptsTheEnds) {
  EXPECT_EQ(refusal(1.0, {1.0, 2.0}), "accepted");
  EXPECT_EQ(refusal(2.0, {1.0, 2.0}), "accepted");
  EXPECT_EQ(refusal(-1e300, {}), "accepted");
}

TEST(RequireIn, SaysWhatWhereAndWhatIsAllowed) {
  EXPECT_EQ(refusal(-2.0, {0.5, 1000.0}), "hose 'row 3', length: -2 m; allowed: 0.5 to 1000 m");
  EXPECT_EQ(refusal(0.0, {0.5, inf}), "hose 'row 3', length: 0 m; allowed: at least 0.5 m");
  EXPECT_EQ(refusal(3.0, {-inf, 2.0}), "hose 'row 3', length: 3 m; allowed: at most 2 m");
  EXPECT_EQ(refusal(7.0, {0.0, 1.0}, ""), "hose 'row 3', length: 7; allowed: 0 to 1");
}

TEST(RequireIn, RefusesWhatIsNotAFiniteNumber) {
  EXPECT_EQ(refusal(nan, {0.0, 1.0}), "hose 'row 3', length: not a number; allowed: 0 to 1 m");
  EXPECT_EQ(refusal(nan, {}), "hose 'row 3', length: not a number; allowed: a finite number");
  EXPECT_EQ(refusal(inf, {0.0, inf}), "hose 'row 3', length: inf m; allowed: at least 0 m");
  EXPECT_EQ(refusal(-inf, {}), "hose 'row 3', length: -inf m; allowed: a finite number");
}

}  // namespace range_test
}  // namespace libflow
