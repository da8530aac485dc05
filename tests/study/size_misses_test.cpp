// SPDX-License-Identifier: MIT
/// @file
/// Where nothing fits the answer says what is nearest and why it does not: also where what is wanted is more than a
/// limit times any number (a gauge below nothing, a pump that gives too much at its slowest).
#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <string>
#include <variant>
#include <vector>

#include <libflow/report/size_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace size_misses_test {

using namespace units;

/// These orifices on the layout's own equal hoses, at its own job.
SizeChoices these_orifices(std::initializer_list<double> mms) {
  SizeChoices c;
  for (const double one : mms) c.orifices.emplace_back(OrificeByBore{.bore = one * mm});
  c.cuts = {Cut::equal};
  c.extra = 0.5 * m;
  c.cut_to = 0.0 * m;
  c.least_pressure = 0.01 * psi;
  c.most_pressure = 500.0 * psi;
  c.verify = 1;
  return c;
}
Toolbar& bar_of(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }
/// Gauge pressure of a choice from an ideal supply.
double gauge_of(const SizeAnswer& a, const SizeChoice& choice) {
  Toolbar t = toolbar_for(a.problem, choice);
  t.drive.reset();
  return main_job({.name = "ideal", .job = a.problem.layout.job, .plumbing = t}).evenness.supply_pressure;
}

// The manifold stands 3 m above the outlets: the column of liquid behind the gauge pulls more than the rows lose.
TEST(SizeMisses, AGaugeBelowNothingIsTold) {
  Layout layout{.name = "high", .job = test::plain_job(), .plumbing = test::plain_bar(6)};
  bar_of(layout).manifolds[0].height = 3.0 * m;
  SizeChoices c = these_orifices({3.0, 2.5});
  c.least_pressure = 1.0 * psi;
  const SizeAnswer a = size_toolbar(layout, c);
  EXPECT_TRUE(a.fits.empty());
  EXPECT_EQ(a.winner(), nullptr);
  EXPECT_EQ(a.recommended(), nullptr);
  ASSERT_TRUE(a.nearest_miss) << "both choices were tried whole";
  EXPECT_EQ(a.nearest_miss->outcome.binding.limit, SizeLimit::least_pressure);
  EXPECT_LT(a.nearest_miss->outcome.binding.value, 0.0);
  EXPECT_TRUE(test::says(size_text(a, {}), "It breaks")) << size_text(a, {});
}

TEST(SizeMisses, APumpThatGivesTooMuchAtItsSlowestIsTold) {
  Layout layout = test::driven_layout(test::plain_drive());
  bar_of(layout).drive->least = 0.9;
  layout.job.rate = 20.0 * L_per_ha;
  const SizeAnswer a = size_toolbar(layout, these_orifices({2.0, 3.0, 4.0}));
  EXPECT_TRUE(a.fits.empty());
  ASSERT_TRUE(a.nearest_miss);
  EXPECT_EQ(a.nearest_miss->choice.orifices[0], 0U) << "the narrowest holds back most";
  EXPECT_TRUE(test::says(size_text(a, {}), "It breaks")) << size_text(a, {});
}

// Two orifices through which the pump cannot press the rate: the nearest is the one that asks for less, and what it
// lacks is what the rows need over what the pump gives at that flow.
TEST(SizeMisses, APumpThatGivesTooLittleIsToldByHowMuch) {
  Layout layout = test::driven_layout(test::plain_drive());
  bar_of(layout).drive->most = 0.6;
  const SizeAnswer a = size_toolbar(layout, these_orifices({1.4, 1.45, 1.5}));
  EXPECT_TRUE(a.fits.empty());
  ASSERT_TRUE(a.nearest_miss);
  const double gives = a.problem.supply.at(0).high;
  std::vector<double> needs;
  for (std::size_t k = 0; k < 3; ++k) {
    SizeChoice choice = a.nearest_miss->choice;
    choice.orifices[0] = k;
    needs.push_back(gauge_of(a, choice));
  }
  ASSERT_GT(needs[2], gives);
  ASSERT_GT(needs[1], needs[2]);
  EXPECT_EQ(a.nearest_miss->choice.orifices[0], 2U);
  EXPECT_EQ(a.nearest_miss->outcome.binding.limit, SizeLimit::pump);
  EXPECT_NEAR(a.nearest_miss->outcome.binding.use, needs[2] / gives, 1e-6);
}

// The pump could press the rate through, but its suction hose takes more than the atmosphere gives: the liquid boils.
TEST(SizeMisses, ASuctionThatBoilsIsTold) {
  Layout layout = test::driven_layout(test::plain_drive());
  bar_of(layout).drive->suction = {.length = 60.0 * m, .bore = 11.0 * mm};
  const SizeAnswer a = size_toolbar(layout, these_orifices({2.5, 3.0}));
  EXPECT_TRUE(a.fits.empty());
  ASSERT_TRUE(a.nearest_miss) << "every choice oversteps without bound, and one is nearer than none";
  const SizeBinding& b = a.nearest_miss->outcome.binding;
  EXPECT_EQ(b.limit, SizeLimit::supply_line);
  EXPECT_EQ(b.name, "suction above boiling");
  EXPECT_LT(b.value, 0.0) << "less than no pressure, absolute";
  EXPECT_TRUE(std::isinf(b.use));
  EXPECT_TRUE(test::says(size_text(a, {}), "suction above boiling")) << size_text(a, {});
}

// A flow that the pump does not give at all, whatever it is pressed against.
TEST(SizeMisses, AFlowThatThePumpNeverGivesIsTold) {
  Layout layout = test::driven_layout(test::plain_drive());
  layout.job.rate = 1000.0 * L_per_ha;
  const SizeAnswer a = size_toolbar(layout, these_orifices({3.0}));
  EXPECT_TRUE(a.fits.empty());
  ASSERT_LE(a.problem.supply.at(0).high, 0.0) << "the example of a pump that has nothing left for the gauge";
  ASSERT_TRUE(a.nearest_miss);
  EXPECT_EQ(a.nearest_miss->outcome.binding.limit, SizeLimit::pump);
}

}  // namespace size_misses_test
}  // namespace libflow
