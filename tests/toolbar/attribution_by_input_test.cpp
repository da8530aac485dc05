// SPDX-License-Identifier: MIT
/// @file
/// Which hose, which orifice: the inputs' parts add up, go to the right input, and agree with the causes' parts.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/attribution.hpp>
#include <libflow/toolbar/attribution_by_input.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/junctions.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/table.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace attribution_by_input_test {

using namespace units;

Toolbar by_input_bar() {
  Toolbar t = test::plain_bar(6);
  t.manifolds[0].feed = ManifoldFeed::left;
  t.manifolds[0].bore = 12.0 * mm;
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  t.hose_bore = 6.0 * mm;
  t.check_valve = test::plain_valve();
  t.side_slope = slope_percent(7.0);
  t.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.05 * mm}, .width = 0.7 * m},
                   {.row = 4, .crack = 4.5 * psi, .height = 0.2 * m}};
  return t;
}

void by_input_expect_adds_up(const InputAttribution& a) {
  double shares = 0.0;
  for (const InputShare& s : a.inputs) shares += s.share;
  EXPECT_NEAR(shares, 1.0, 1e-5);
  EXPECT_LE(a.left_over, 1e-6);
  for (std::size_t r = 0; r < a.deviation.size(); ++r) {
    double sum = 0.0;
    for (const InputShare& s : a.inputs) sum += s.deviation[r];
    EXPECT_NEAR(sum, a.deviation[r], 1e-6) << "row " << r + 1;
  }
  for (std::size_t k = 1; k < a.inputs.size(); ++k) {
    EXPECT_GE(std::abs(a.inputs[k - 1].share), std::abs(a.inputs[k].share));
  }
}

/// The rows with all losses of tees.
Evenness by_input_evenness(const Toolbar& t, const LiquidState& liquid) {
  const Plumbing plumbing = build_network(t, test::plain_job());
  return evaluate(plumbing, test::plain_job(), solve_plumbing(plumbing, liquid), liquid);
}

const InputShare& by_input_find(const InputAttribution& a, const std::string& name) {
  const auto found = std::find_if(a.inputs.begin(), a.inputs.end(), [&](const auto& s) { return s.name == name; });
  if (found == a.inputs.end()) throw std::runtime_error("no input " + name);
  return *found;
}

TEST(AttributionByInput, AddsUpWithEveryCause) {
  Job job = test::plain_job();
  job.turn_radius = 60.0 * m;
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    const InputAttribution a = attribute_by_input(by_input_bar(), job, liquid);
    by_input_expect_adds_up(a);
    EXPECT_EQ(a.groups.size(), 6U);
    const Evenness e = test::judge(by_input_bar(), job, liquid).evenness;
    for (std::size_t r = 0; r < e.rows.size(); ++r) EXPECT_NEAR(a.deviation[r], e.rows[r].deviation, 1e-12);
  }
}

// A row whose valve is shut in the layout but open on the even bar: the way goes through the corner where it shuts.
TEST(AttributionByInput, AddsUpThroughAValveThatShutsOnTheWay) {
  Toolbar t = by_input_bar();
  t.row_changes.push_back({.row = 6, .shut = true});
  t.row_changes.push_back({.row = 5, .crack = 30.0 * psi});
  Job job = test::plain_job();
  job.pressure = 15.0 * psi;
  const InputAttribution a = attribute_by_input(t, job, test::water());
  by_input_expect_adds_up(a);
  EXPECT_EQ(a.deviation[4], -1.0);
  EXPECT_EQ(a.inputs.front().name, "row 5 check valve, crack");
  for (const InputShare& s : a.inputs) EXPECT_EQ(s.deviation[5], 0.0) << s.name;
}

// A valve that shuts on the way needs many pieces. Stopped before it has them, the answer says how far it is off.
TEST(AttributionByInput, SaysWhatIsLeftOverWhereItMaySolveNoMore) {
  Toolbar t = by_input_bar();
  t.row_changes.push_back({.row = 5, .crack = 30.0 * psi});
  Job job = test::plain_job();
  job.pressure = 15.0 * psi;
  const InputAttribution full = attribute_by_input(t, job, test::water());
  const InputAttribution stopped = attribute_by_input(t, job, test::water(), {.max_solves = 100});
  EXPECT_GT(full.solves, 400);
  EXPECT_GT(stopped.solves, 100);
  EXPECT_LT(stopped.solves, 400);
  EXPECT_GT(stopped.left_over, 10.0 * full.left_over);
  double missing = 0.0;
  for (std::size_t r = 0; r < stopped.deviation.size(); ++r) {
    double sum = 0.0;
    for (const InputShare& s : stopped.inputs) sum += s.deviation[r];
    missing = std::max(missing, std::abs(sum - stopped.deviation[r]));
    EXPECT_NEAR(stopped.deviation[r], full.deviation[r], 1e-12);
  }
  EXPECT_NEAR(stopped.left_over, missing, 1e-12);
}

// Two rows, one longer hose, in a bar that loses nothing: by symmetry of the flow's answer each hose has half.
TEST(AttributionByInput, GoesToTheInputThatDiffers) {
  Toolbar t = test::plain_bar(4);
  t.manifolds[0].bore = 0.4 * m;
  t.row_changes = {{.row = 3, .orifice = OrificeByBore{.bore = 1.1 * mm}}};
  const InputAttribution a = attribute_by_input(t, test::plain_job(), test::thick());
  by_input_expect_adds_up(a);
  EXPECT_EQ(a.inputs.front().name, "row 3 orifice, bore");
  EXPECT_NEAR(a.inputs.front().share, 1.0, 1e-5);
  EXPECT_EQ(a.inputs.front().unit, "m");
  EXPECT_EQ(a.inputs.front().reference, 1.0e-3);
  EXPECT_EQ(a.inputs.front().value, 1.1e-3);
  EXPECT_GT(a.inputs.front().deviation[2], 0.0);

  Toolbar hoses = test::plain_bar(2);
  hoses.manifolds[0].bore = 0.4 * m;
  hoses.hose_bore = 6.0 * mm;
  hoses.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 3.0 * m}};
  const InputAttribution h = attribute_by_input(hoses, test::plain_job(), test::thick());
  by_input_expect_adds_up(h);
  const InputShare &one = by_input_find(h, "row 1 hose, length"), &two = by_input_find(h, "row 2 hose, length");
  EXPECT_EQ(one.reference, 2.0);
  EXPECT_GT(one.share, 0.4);
  EXPECT_GT(two.share, 0.4);
}

// Orifices written in two ways: by their coefficient and by shape.
TEST(AttributionByInput, TellsBoreFromCoefficient) {
  Toolbar t = test::plain_bar(3);
  t.row_changes = {{.row = 1, .orifice = OrificeByBore{.bore = 1.0 * mm, .discharge_coefficient = 0.66}}};
  const InputAttribution a = attribute_by_input(t, test::plain_job(), test::water());
  by_input_expect_adds_up(a);
  EXPECT_EQ(a.inputs.front().name, "row 1 orifice, discharge coefficient");
  EXPECT_NEAR(a.inputs.front().reference, 0.61, 1e-12);
}

// Where effects are small they are nearly linear, and both ways of sharing agree.
TEST(AttributionByInput, GroupsAgreeWithTheCausesWhereEffectsAreNearlyLinear) {
  Toolbar t = by_input_bar();
  t.manifolds[0].bore = 25.4 * mm;
  t.hose_bore = 10.0 * mm;
  t.side_slope = slope_percent(2.0);
  t.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.01 * mm}}, {.row = 4, .crack = 4.2 * psi}};
  const LiquidState liquid = test::thick();
  Evenness e = test::judge(t, test::plain_job(), liquid).evenness;
  attribute(t, test::plain_job(), liquid, e);
  const InputAttribution a = attribute_by_input(t, test::plain_job(), liquid);
  by_input_expect_adds_up(a);
  double largest = 0.0;
  for (const RowResult& r : e.rows) largest = std::max(largest, std::abs(r.deviation));
  ASSERT_EQ(a.groups.size(), e.causes.size());
  for (const Cause& cause : e.causes) {
    const auto g = std::find_if(a.groups.begin(), a.groups.end(), [&](const Cause& c) { return c.name == cause.name; });
    ASSERT_NE(g, a.groups.end()) << cause.name;
    for (std::size_t r = 0; r < e.rows.size(); ++r) {
      EXPECT_NEAR(g->deviation[r], cause.deviation[r], 0.01 * largest) << cause.name << ", row " << r + 1;
    }
  }
}

// Tees come with the bar: what they do belongs to the manifold, and can be told port by port.
TEST(AttributionByInput, AddsUpWithJunctionLosses) {
  Toolbar t = by_input_bar();
  t.manifolds[0].junction_losses = true;
  t.row_changes.push_back({.row = 5, .hose_bore = 5.0 * mm});
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    const InputAttribution a = attribute_by_input(t, test::plain_job(), liquid);
    by_input_expect_adds_up(a);
    const Evenness e = by_input_evenness(t, liquid);
    for (std::size_t r = 0; r < e.rows.size(); ++r) EXPECT_NEAR(a.deviation[r], e.rows[r].deviation, 1e-8);
    int tees = 0;
    for (const InputShare& s : a.inputs) {
      if (!s.name.ends_with("tee, factor")) continue;
      ++tees;
      EXPECT_EQ(s.group, "manifold");
      EXPECT_EQ(s.reference, 0.0);
      EXPECT_EQ(s.value, 1.0);
    }
    EXPECT_EQ(tees, 6);
    // The branch of row 5's tee is that of its hose, and so is the cause.
    EXPECT_EQ(by_input_find(a, "manifold 1 port 5 tee, branch bore").group, "hose lengths");
  }
}

TEST(AttributionByInput, GroupsAgreeWithTheCausesWithJunctionLosses) {
  Toolbar t = by_input_bar();
  t.manifolds[0].bore = 7.0 * mm;
  t.manifolds[0].junction_losses = true;
  t.hose = {.length = 1.0 * m};
  t.side_slope = slope_percent(0.0);
  t.row_changes.clear();
  const LiquidState liquid = test::water();
  Evenness e = by_input_evenness(t, liquid);
  attribute(t, test::plain_job(), liquid, e);
  const InputAttribution a = attribute_by_input(t, test::plain_job(), liquid);
  by_input_expect_adds_up(a);
  ASSERT_EQ(a.groups.size(), 1U);
  ASSERT_EQ(e.causes.size(), 1U);
  EXPECT_EQ(a.groups.front().name, e.causes.front().name);
  double largest = 0.0;
  for (const RowResult& r : e.rows) largest = std::max(largest, std::abs(r.deviation));
  EXPECT_GT(largest, 1e-4);
  for (std::size_t r = 0; r < e.rows.size(); ++r) {
    EXPECT_NEAR(a.groups.front().deviation[r], e.causes.front().deviation[r], 1e-3 * largest) << "row " << r + 1;
  }
}

TEST(AttributionByInput, SaysWhatItCannotDo) {
  Toolbar bare = test::plain_bar(4);
  bare.orifice.reset();
  bare.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.0 * mm}}};
  EXPECT_THROW((void)attribute_by_input(bare, test::plain_job(), test::water()), InputError);
  bare.outlet_bore = 8.0 * mm;  // row 2 then has a part more than the others, and not another one
  test::expect_message([&] { (void)attribute_by_input(bare, test::plain_job(), test::water()); },
                       "rows differ in which parts they have");
  EXPECT_THROW((void)attribute_by_input(test::plain_bar(2), test::plain_job(), test::water(), {.tolerance = 1.0}),
               InputError);
  // What drives the total does not tell rows apart: to be asked without it, at the same total.
  const Layout driven = test::driven_layout(test::plain_drive());
  test::expect_message([&] { (void)attribute_by_input(std::get<Toolbar>(driven.plumbing), driven.job, test::water()); },
                       "the layout has a drive");
  // An even bar has nothing to share out.
  Toolbar even = test::plain_bar(2);
  for (const InputShare& s : attribute_by_input(even, test::plain_job(), test::water()).inputs) {
    EXPECT_EQ(s.share, 0.0);
  }
}

}  // namespace attribution_by_input_test
}  // namespace libflow
