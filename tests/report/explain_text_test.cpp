// SPDX-License-Identifier: MIT
/// @file
/// The account of one row's pressure: what falls through air is not a loss of the line.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include <libflow/report/explain_text.hpp>
#include <libflow/study/path.hpp>
#include <libflow/toolbar.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace explain_text_test {

using namespace units;

/// Two rows with a 1 mm orifice and a vented half-inch tube that hangs down.
Layout explained_layout(Length fall) {
  Layout layout;
  layout.job = test::plain_job();
  layout.job.pressure = 20.0 * kPa;
  Toolbar t = test::plain_bar(2);
  t.outlet_bore = 12.7 * mm;
  t.outlet_fall = fall;
  t.outlet_vented = si(fall) > 0.0;
  layout.plumbing = t;
  return layout;
}

TEST(ExplainText, HeightThatIsNotUsedHasItsOwnLine) {
  const Answer answer = main_job(explained_layout(0.6 * m));
  const RowPath path = path_to_row(answer, 1);
  ASSERT_FALSE(path.steps.empty());
  const PathStep& tube = path.steps.back();
  EXPECT_NEAR(tube.unused_fall / (answer.liquid.density * standard_gravity * 0.6), 1.0, 1e-3);
  EXPECT_LT(std::abs(tube.loss), 0.05 * tube.unused_fall);
  for (const PathStep& s : path.steps) {
    EXPECT_NEAR(s.before - s.after, s.loss + s.unused_fall + s.lift, 1e-6 * 20e3);
  }
  EXPECT_NE(explain_text(answer, 1).find("height not used (falls through air)"), std::string::npos);
}

TEST(ExplainText, WithoutATubeNothingIsSaidOfHeight) {
  EXPECT_EQ(explain_text(main_job(explained_layout(0.0 * m)), 1).find("height not used"), std::string::npos);
}

}  // namespace explain_text_test
}  // namespace libflow
