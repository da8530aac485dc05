// SPDX-License-Identifier: MIT
/// @file
/// The inputs that make a row differ, and the layouts for which they cannot be told apart.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include <libflow/study/row_inputs.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace row_inputs_test {

using namespace units;

Layout valved_bar() {
  Toolbar bar = test::plain_bar(6);
  bar.check_valve = test::plain_valve();  // cracks at 4 psi
  return {.name = "bar", .job = test::plain_job(), .plumbing = bar};
}
Toolbar& bar_of_row_inputs(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }

TEST(RowInputs, AnOrificeAloneTakesTheWholeDeviation) {
  Layout layout = valved_bar();
  bar_of_row_inputs(layout).manifolds[0].bore = 100.0 * mm;  // no loss worth a share along the bar
  bar_of_row_inputs(layout).row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.1 * mm}}};
  const Answer a = main_job(layout);
  const RowInputs in = inputs_of_row(a, 2);
  ASSERT_TRUE(in.refused.empty()) << in.refused;
  ASSERT_FALSE(in.inputs.empty());
  EXPECT_NEAR(in.deviation, a.evenness.rows[1].deviation, 1e-9);
  EXPECT_EQ(in.inputs[0].name, "row 2 orifice, bore");
  EXPECT_NEAR(in.inputs[0].value, 1.1e-3, 1e-12);
  EXPECT_NEAR(in.inputs[0].deviation, in.deviation, 1e-4);
  double sum = 0.0;
  for (const RowInput& i : in.inputs) sum += i.deviation;
  EXPECT_NEAR(sum, in.deviation, in.left_over + 1e-12);
}

TEST(RowInputs, ADriveDoesNotTellRowsApart) {
  Layout layout = test::driven_layout(test::plain_drive());
  bar_of_row_inputs(layout).row_changes = {{.row = 2, .hose_length = 6.0 * m}};
  const RowInputs driven = inputs_of_row(main_job(layout), 2);
  bar_of_row_inputs(layout).drive.reset();
  const RowInputs ideal = inputs_of_row(main_job(layout), 2);
  ASSERT_TRUE(driven.refused.empty()) << driven.refused;
  EXPECT_NEAR(driven.deviation, ideal.deviation, 1e-9);
  ASSERT_EQ(driven.inputs.size(), ideal.inputs.size());
  for (std::size_t i = 0; i < ideal.inputs.size(); ++i) {
    EXPECT_NEAR(driven.inputs[i].deviation, ideal.inputs[i].deviation, 1e-7) << ideal.inputs[i].name;
  }
}

TEST(RowInputs, SaysWhyItCannot) {
  Layout layout = valved_bar();
  test::expect_refused([&] { (void)inputs_of_row(main_job(layout), 7); }, "row");
  // Below the crack pressure of all its valves.
  layout.job.pressure = 3.0 * psi;
  const RowInputs dry = inputs_of_row(main_job(layout), 2);
  EXPECT_EQ(dry.refused, "nothing flows");
  EXPECT_TRUE(dry.inputs.empty());
  // One row has an orifice, the others none: no number leads from the one to the other.
  Toolbar bare = test::plain_bar(6);
  bare.orifice.reset();
  bare.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.0 * mm}}};
  const RowInputs differs = inputs_of_row(main_job({.name = "bare", .job = test::plain_job(), .plumbing = bare}), 2);
  EXPECT_NE(differs.refused.find("rows differ in which parts they have"), std::string::npos) << differs.refused;
  Layout free = valved_bar();
  free.plumbing = build_network(bar_of_row_inputs(free), free.job);
  EXPECT_NE(inputs_of_row(main_job(free), 2).refused.find("place by place"), std::string::npos);
}

TEST(RowInputs, ARowThatIsValvedOffHasNoDeviationAndNothingThatMakesIt) {
  Layout layout = valved_bar();
  bar_of_row_inputs(layout).hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  bar_of_row_inputs(layout).row_changes = {{.row = 2, .shut = true}};
  const Answer a = main_job(layout);
  const RowInputs shut = inputs_of_row(a, 2), open = inputs_of_row(a, 3);
  EXPECT_TRUE(shut.refused.empty()) << shut.refused;
  EXPECT_EQ(shut.deviation, 0.0);
  EXPECT_TRUE(shut.inputs.empty());
  EXPECT_FALSE(open.inputs.empty());
  for (const RowInput& i : open.inputs) EXPECT_EQ(i.name.find("row 2 "), std::string::npos) << i.name;
}

// Valves that crack below the supply's pressure, but on the even bar, whose valves are all alike, none opens: the way
// from the one to the other begins where nothing flows.
TEST(RowInputs, AWayThatBeginsWithoutFlowIsSaid) {
  Layout layout = valved_bar();
  layout.job.pressure = 3.0 * psi;
  bar_of_row_inputs(layout).row_changes = {{.row = 2, .crack = 1.0 * psi}};
  const Answer a = main_job(layout);
  ASSERT_GT(a.evenness.mean_rate, 0.0);
  const RowInputs in = inputs_of_row(a, 2);
  EXPECT_NE(in.refused.find("nothing flows on the way"), std::string::npos) << in.refused;
  EXPECT_TRUE(in.inputs.empty());
}

}  // namespace row_inputs_test
}  // namespace libflow
