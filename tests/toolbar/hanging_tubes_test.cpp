// SPDX-License-Identifier: MIT
/// @file
/// Hanging tubes: which state is the answer, both states where nobody can tell, and the same from a plain toolbar.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/toolbar.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace hanging_tubes_test {

using namespace units;

/// A bar held at 20 kPa; from it an orifice and a half-inch tube that hangs 0.6 m down for each of these bores. By the
/// Froude number (P. D. Hills 1983; sources in physics/discharge.hpp): 1 mm passes 0.2 L/min, far too little to fill
/// its tube; 3.3 mm about 2 L/min, which may or may not; 6 mm 7 L/min, which sweeps the air out.
Network tubes_network(const std::vector<double>& orifice_mm, Length fall = 0.6 * m) {
  Network n;
  n.add_supply("bar", 20.0 * kPa, 0.6 * m);
  for (const double bore : orifice_mm) {
    const std::string name = fmt::format("{} mm", bore);
    n.add_place(name + " head", 0.6 * m);
    n.add_air(name + " foot", 0.6 * m - fall);
    n.add_part(name + " orifice", "bar", name + " head", Orifice{.bore = bore * mm});
    n.add_part(name + " tube", name + " head", name + " foot", RowOutlet{.bore = 12.7 * mm, .fall = fall});
  }
  return n;
}

TubesSolved tubes_solved(const Network& n, int* solves = nullptr) {
  return solve_hanging_tubes(n, test::water(), [&](const Network& one) {
    if (solves != nullptr) ++*solves;
    return solve(one, test::water());
  });
}

double tube_flow(const Network& n, const Solution& s, const std::string& name) {
  return s.parts[n.find_part(name + " tube")].flow;
}

TEST(HangingTubes, AFullTubePullsAndNothingIsSaid) {
  const Network n = tubes_network({6.0});
  int solves = 0;
  const TubesSolved s = tubes_solved(n, &solves);
  EXPECT_EQ(solves, 1);
  EXPECT_TRUE(s.tubes.empty());
  EXPECT_TRUE(s.solution.cautions.empty());
  // The pull of 0.6 m of water, 5.87 kPa, drives it beside the 20 kPa: more than the orifice alone would pass.
  const double alone = si(Orifice{.bore = 6.0 * mm}.flow_at(20.0 * kPa, test::water()));
  EXPECT_GT(tube_flow(n, s.solution, "6 mm"), 1.05 * alone);
}

TEST(HangingTubes, ATubeWithAirInItDoesNotPull) {
  const Network n = tubes_network({1.0});
  int solves = 0;
  const TubesSolved s = tubes_solved(n, &solves);
  EXPECT_EQ(solves, 2);
  ASSERT_EQ(s.tubes.size(), 1u);
  EXPECT_EQ(s.tubes[0].runs, physics::Runs::partly);
  const double alone = si(Orifice{.bore = 1.0 * mm}.flow_at(20.0 * kPa, test::water()));
  EXPECT_NEAR(tube_flow(n, s.solution, "1 mm") / alone, 1.0, 1e-4);  // less the tube's own small end loss
  EXPECT_GE(s.solution.places[n.find_place("1 mm head")].total_pressure, 0.0);
  ASSERT_EQ(s.solution.cautions.size(), 1u);
  EXPECT_EQ(s.solution.cautions[0].code, "runs-partly-full");
  EXPECT_EQ(s.solution.cautions[0].subject, "row outlet '1 mm tube'");
}

TEST(HangingTubes, WhereNobodyCanTellBothStatesAreReported) {
  const Network n = tubes_network({3.3});
  int solves = 0;
  const TubesSolved s = tubes_solved(n, &solves);
  EXPECT_EQ(solves, 2);
  ASSERT_EQ(s.tubes.size(), 1u);
  EXPECT_EQ(s.tubes[0].runs, physics::Runs::ambiguous);
  // Each state is what its own network gives.
  Network vented = n;
  vented.replace_part(s.tubes[0].part, Part(VentedTube{.bore = 12.7 * mm, .fall = 0.6 * m}));
  EXPECT_NEAR(s.tubes[0].flow_full / tube_flow(n, solve(n, test::water()), "3.3 mm"), 1.0, 1e-12);
  EXPECT_NEAR(s.tubes[0].flow_vented / tube_flow(n, solve(vented, test::water()), "3.3 mm"), 1.0, 1e-12);
  EXPECT_EQ(tube_flow(n, s.solution, "3.3 mm"), s.tubes[0].flow_full);
  // Square law of an orifice at 20 + 5.87 kPa against 20 kPa: 13.7 %, less what the tube itself loses.
  EXPECT_NEAR(s.tubes[0].flow_full / s.tubes[0].flow_vented, std::sqrt(25.87 / 20.0), 0.01);
  ASSERT_EQ(s.solution.cautions.size(), 1u);
  const Caution& c = s.solution.cautions[0];
  EXPECT_EQ(c.code, "full-or-partly-full");
  EXPECT_EQ(c.value, s.tubes[0].flow_vented);
  EXPECT_EQ(c.limit, s.tubes[0].flow_full);
  EXPECT_NE(c.text.find("by up to 12 %"), std::string::npos) << c.text;  // 1 - 1/1.137
  EXPECT_FALSE(c.source.empty());
}

TEST(HangingTubes, EachTubeGetsItsOwnState) {
  const Network n = tubes_network({1.0, 3.3, 6.0});
  int solves = 0;
  const TubesSolved s = tubes_solved(n, &solves);
  EXPECT_EQ(solves, 3);
  ASSERT_TRUE(s.solution.usable());
  ASSERT_EQ(s.tubes.size(), 2u);
  EXPECT_EQ(s.tubes[0].runs, physics::Runs::partly);
  EXPECT_EQ(s.tubes[1].runs, physics::Runs::ambiguous);
  // The bar is held at its pressure, so each tube is as it would be alone.
  for (const double bore : {1.0, 3.3, 6.0}) {
    const Network alone = tubes_network({bore});
    const std::string name = fmt::format("{} mm", bore);
    EXPECT_NEAR(tube_flow(n, s.solution, name) / tube_flow(alone, tubes_solved(alone).solution, name), 1.0, 1e-9);
  }
  EXPECT_EQ(s.solution.cautions.size(), 2u);
}

TEST(HangingTubes, WithoutAFallThereIsNoQuestion) {
  int solves = 0;
  EXPECT_TRUE(tubes_solved(tubes_network({1.0, 3.3}, 0.0 * m), &solves).tubes.empty());
  EXPECT_EQ(solves, 1);
}

// What is said of other parts stays: the tubes' own doubts only are replaced.
TEST(HangingTubes, CautionsOfOtherPartsStay) {
  Network n = tubes_network({1.0});
  n.add_air("bare end", 0.6 * m);
  const Hose worn{.length = 2.0 * m, .bore = 10.0 * mm, .rating = 5.0 * kPa};  // the bar stands at 20 kPa
  n.add_part("worn hose", "bar", "bare end", worn);
  const Cautions alone = solve(n, test::water()).cautions;
  const TubesSolved s = tubes_solved(n);
  const auto of = [](const Cautions& all, const std::string& name) {
    return std::count_if(all.begin(), all.end(),
                         [&](const Caution& c) { return c.subject.find(name) != std::string::npos; });
  };
  EXPECT_GT(of(alone, "worn hose"), 0);
  EXPECT_EQ(of(s.solution.cautions, "worn hose"), of(alone, "worn hose"));
  EXPECT_EQ(of(s.solution.cautions, "1 mm tube"), 1);
}

// Two tubes, one hanging from the other. All full, the lower one passes 1.07 times what surely fills it (a Froude
// number of 1), the upper one, twice as wide, is partly full. With air in that one 0.3 m of pull are missing, the lower
// one gets less and is no longer sure: what it then says of itself stays, though it was not in question before.
TEST(HangingTubes, ATubeThatIsUnsureOnlyWithAirInAnotherSaysSoItself) {
  const double surely = std::numbers::pi / 4.0 * 0.0127 * 0.0127 * std::sqrt(standard_gravity * 0.0127);
  const double column = test::water().density * standard_gravity * 0.3;
  Network n;
  n.add_supply("bar", 5.0 * kPa, 0.6 * m);
  n.add_place("head", 0.6 * m);
  n.add_place("middle", 0.3 * m);
  n.add_air("foot", 0.0 * m);
  n.add_part("orifice", "bar", "head",
             Orifice::rated(from_si<Flow>(1.07 * surely), from_si<Pressure>(5e3 + 2.0 * column)));
  n.add_part("upper tube", "head", "middle", RowOutlet{.bore = 25.0 * mm, .fall = 0.3 * m});
  n.add_part("lower tube", "middle", "foot", RowOutlet{.bore = 12.7 * mm, .fall = 0.3 * m});
  EXPECT_GT(solve(n, test::water()).parts[n.find_part("lower tube")].flow, surely);
  const TubesSolved s = tubes_solved(n);
  ASSERT_EQ(s.tubes.size(), 1U);
  EXPECT_EQ(n.part(s.tubes[0].part).id, "upper tube");
  EXPECT_EQ(s.tubes[0].runs, physics::Runs::partly);
  EXPECT_LT(s.solution.parts[n.find_part("lower tube")].flow, surely);
  const auto of_lower = std::find_if(s.solution.cautions.begin(), s.solution.cautions.end(),
                                     [](const Caution& c) { return c.subject == "row outlet 'lower tube'"; });
  ASSERT_NE(of_lower, s.solution.cautions.end());
  EXPECT_EQ(of_lower->code, "may-not-run-full");
}

// No liquid, no question: behind a shut valve nothing flows, and a tube whose foot stands under more pressure than its
// head takes liquid in.
TEST(HangingTubes, ATubeThatDeliversNothingIsInNoState) {
  Network shut;
  shut.add_supply("bar", 20.0 * kPa, 0.6 * m);
  shut.add_place("head", 0.6 * m);
  shut.add_air("foot", 0.0 * m);
  shut.add_part("valve", "bar", "head", CheckValve{.crack = 50.0 * kPa, .passage_bore = 4.0 * mm});
  shut.add_part("tube", "head", "foot", RowOutlet{.bore = 12.7 * mm, .fall = 0.6 * m});
  Network back;
  back.add_air("head", 0.6 * m);
  back.add_supply("slot", 20.0 * kPa, 0.0 * m);
  back.add_part("tube", "head", "slot", RowOutlet{.bore = 12.7 * mm, .fall = 0.6 * m});
  for (const Network& n : {shut, back}) {
    int solves = 0;
    const TubesSolved s = tubes_solved(n, &solves);
    ASSERT_TRUE(s.solution.usable()) << s.solution.message;
    EXPECT_LE(s.solution.parts[n.find_part("tube")].flow, 0.0);
    EXPECT_EQ(solves, 1);
    EXPECT_TRUE(s.tubes.empty());
    for (const Caution& c : s.solution.cautions) EXPECT_NE(c.code, "may-not-run-full");
  }
}

// A given total through two tubes: with air in both, the long one no longer pulls and the short one gets more, which
// may be too much for it to run partly full. It is partly full in one state only, so nobody can tell.
TEST(HangingTubes, ATubeThatIsPartlyFullInOneStateOnlyIsAmbiguous) {
  const LiquidState water = test::water();
  const auto partly_at = [&](double flow) {
    return physics::runs_full(flow, 0.0127, water.density, water.viscosity, physics::water_surface_tension) ==
           physics::Runs::partly;
  };
  double limit = 1e-6, ambiguous = 4e-5;  // the flow at which the short tube may begin to run full, by halving
  ASSERT_TRUE(partly_at(limit) && !partly_at(ambiguous));
  for (int k = 0; k < 60; ++k) (partly_at(0.5 * (limit + ambiguous)) ? limit : ambiguous) = 0.5 * (limit + ambiguous);

  // Both orifices alike. With the tubes full the long one has 2 m more of column across them; with air in both, none.
  // Of the total the short one then has half.
  const auto network = [](double total) {
    Network n;
    n.add_fed("bar", from_si<Flow>(total), 2.1 * m);
    for (const double fall : {0.1, 2.1}) {
      const std::string name = fmt::format("{} m", fall);
      n.add_place(name + " head", 2.1 * m);
      n.add_air(name + " foot", (2.1 - fall) * m);
      n.add_part(name + " orifice", "bar", name + " head", Orifice{.bore = 2.0 * mm});
      n.add_part(name + " tube", name + " head", name + " foot", RowOutlet{.bore = 12.7 * mm, .fall = fall * m});
    }
    return n;
  };
  const Network n = network(2.0 * 1.1 * limit);
  const TubesSolved s = tubes_solved(n);
  ASSERT_EQ(s.tubes.size(), 2U);
  EXPECT_LT(s.tubes[0].flow_full, limit);
  EXPECT_NEAR(s.tubes[0].flow_vented / (1.1 * limit), 1.0, 1e-3);
  EXPECT_EQ(s.tubes[0].runs, physics::Runs::ambiguous);
  ASSERT_EQ(s.solution.cautions.size(), 2U);
  EXPECT_EQ(s.solution.cautions[0].code, "full-or-partly-full");
  EXPECT_EQ(s.solution.cautions[0].subject, "row outlet '0.1 m tube'");
}

/// Two rows level with the bar, a 1 mm orifice and a half-inch tube that hangs 0.6 m down.
Toolbar tubes_bar() {
  Toolbar t = test::plain_bar(2);
  t.outlet_bore = 12.7 * mm;
  t.outlet_fall = 0.6 * m;
  return t;
}

TEST(HangingTubes, OfAPlainToolbar) {
  Job job = test::plain_job();
  job.pressure = 20.0 * kPa;
  const auto flow = [&](const Toolbar& t) {
    const Plumbing p = build_network(t, job);
    const Solution s = solve_plumbing(p, test::water());
    EXPECT_TRUE(s.usable()) << s.message;
    return evaluate(p, job, s, test::water()).rows.at(0).flow;
  };
  Toolbar none = tubes_bar(), vented = tubes_bar(), wide = tubes_bar();
  none.outlet_fall = 0.0 * m;
  vented.outlet_vented = true;
  wide.orifice = OrificeByBore{.bore = 6.0 * mm};
  // A trickle stands in air: as good as no tube at all, with a vent or without.
  EXPECT_NEAR(flow(tubes_bar()) / flow(none), 1.0, 1e-4);
  EXPECT_NEAR(flow(vented) / flow(tubes_bar()), 1.0, 1e-9);
  const Plumbing p = build_network(vented, job);
  EXPECT_NE(p.network.part(p.rows[0].last_parts[0]).part.as<VentedTube>(), nullptr);
  EXPECT_DOUBLE_EQ(p.network.place(p.rows[0].airs[0]).elevation, -0.6);
  // A jet fills it: the pull counts, unless there is a vent.
  Toolbar wide_vented = wide, wide_none = wide;
  wide_vented.outlet_vented = true;
  wide_none.outlet_fall = 0.0 * m;
  EXPECT_GT(flow(wide) / flow(wide_none), 1.03);
  EXPECT_NEAR(flow(wide_vented) / flow(wide_none), 1.0, 0.01);
}

TEST(HangingTubes, AToolbarRefusesATubeWithoutABore) {
  Toolbar t = tubes_bar();
  t.outlet_bore = 0.0 * m;
  test::expect_refused([&] { (void)build_network(t, test::plain_job()); }, "toolbar, outlet fall");
  t = tubes_bar();
  t.outlet_fall = 6.0 * m;
  test::expect_refused([&] { (void)build_network(t, test::plain_job()); }, "toolbar, outlet fall");
  t = tubes_bar();
  t.outlet_fall = 0.0 * m;
  t.outlet_vented = true;
  test::expect_refused([&] { (void)build_network(t, test::plain_job()); }, "toolbar, outlet vented");
}

// A trickle falls through air: what the 0.6 m would have pulled, 5.87 kPa less the trickle's friction, is height that
// is not used and no loss of the line.
TEST(HangingTubes, HeightThatIsNotUsedIsNoLossOfTheLine) {
  Job job = test::plain_job();
  job.pressure = 20.0 * kPa;
  const double pull = test::water().density * standard_gravity * 0.6;
  for (const bool vent : {false, true}) {
    SCOPED_TRACE(vent);
    Toolbar t = tubes_bar();
    t.outlet_vented = vent;
    const Plumbing p = build_network(t, job);
    const Solution s = solve_plumbing(p, test::water());
    const RowResult r = evaluate(p, job, s, test::water()).rows.at(0);
    EXPECT_NEAR(r.unused_fall / pull, 1.0, 1e-3);
    EXPECT_LT(std::abs(r.line_drop), 0.05 * pull);
    EXPECT_NEAR(r.orifice_drop + r.check_valve_drop + r.line_drop + r.unused_fall + r.lift, 20e3, 1e-6 * 20e3);
  }
  Toolbar full = tubes_bar();
  full.orifice = OrificeByBore{.bore = 6.0 * mm};
  const Plumbing p = build_network(full, job);
  const Solution s = solve_plumbing(p, test::water());
  EXPECT_EQ(evaluate(p, job, s, test::water()).rows.at(0).unused_fall, 0.0);
}

}  // namespace hanging_tubes_test
}  // namespace libflow
