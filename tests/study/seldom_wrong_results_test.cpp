// SPDX-License-Identifier: MIT
/// @file
/// Input that no layout holds by intent, and that must not pass for a number.
#include <gtest/gtest.h>

#include <limits>

#include <libflow/core/error.hpp>
#include <libflow/toolbar/tolerances.hpp>

namespace libflow {
namespace seldom_wrong_results_test {

// A value that is not a number compares as neither less nor more: sorting alone does not find it between two others.
TEST(SeldomWrongResults, AMeasuredDifferenceThatIsNotANumberIsRefusedWhereverItStands) {
  const double unknown = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((Distribution{.kind = Distribution::Kind::listed, .values = {-1.0, unknown, 1.0}}.check("x")),
               InputError);
}

}  // namespace seldom_wrong_results_test
}  // namespace libflow
