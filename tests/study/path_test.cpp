// SPDX-License-Identifier: MIT
/// @file
/// The way to a row: along the largest flow, over the fewest parts where nothing flows, and its pressures add up.
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/path.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/support/test_parts.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace path_test {

using namespace units;
using test::expect_refused, test::QuadraticPart;

/// A ring from "feed" to "far", its two sides with other losses; behind "far" a row that is 0.5 m lower and one behind
/// a check valve. The near side of the ring has two parts, the far side three.
Answer ring(double near_k, double far_k, Pressure crack) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("pump", 1.0 * bar);
  for (const char* name : {"feed", "near", "far side 1", "far side 2", "far"}) n.add_place(name);
  const auto part = [&](const char* id, const char* from, const char* to, double k) {
    n.add_part(id, from, to, QuadraticPart{.k = k});
  };
  part("line", "pump", "feed", 1e9);
  part("near 1", "feed", "near", near_k);
  part("near 2", "far", "near", near_k);  // drawn against the flow
  part("far 1", "feed", "far side 1", far_k);
  part("far 2", "far side 1", "far side 2", far_k);
  part("far 3", "far side 2", "far", far_k);
  const auto low = n.add_air("row 1", -0.5 * m), high = n.add_air("row 2");
  part("hole 1", "far", "row 1", 1e12);
  n.add_part("valve 2", "far", "row 2", CheckValve{.crack = crack, .passage_bore = 3.0 * mm});
  p.rows.push_back({.row = 1,
                    .x = 0.0,
                    .width = 1.0,
                    .airs = {low},
                    .last_parts = {n.find_part("hole 1")},
                    .orifices = {},
                    .check_valves = {},
                    .hoses = {}});
  p.rows.push_back({.row = 2,
                    .x = 0.0,
                    .width = 1.0,
                    .airs = {high},
                    .last_parts = {n.find_part("valve 2")},
                    .orifices = {},
                    .check_valves = {n.find_part("valve 2")},
                    .hoses = {}});
  return main_job({.name = "ring", .job = test::plain_job(), .plumbing = std::move(p)});
}

std::vector<std::string> parts_of(const Answer& a, const RowPath& path) {
  std::vector<std::string> ids;
  for (const PathStep& s : path.steps) ids.push_back(a.plumbing.network.part(s.part).id);
  return ids;
}
/// Each step begins where the last one ended, and what is before it is what it loses, lifts and leaves.
void expect_adds_up(const Answer& a, const RowPath& path) {
  ASSERT_FALSE(path.steps.empty());
  EXPECT_EQ(path.supply, a.plumbing.supply);
  EXPECT_EQ(path.steps.front().from, path.supply);
  for (std::size_t i = 0; i < path.steps.size(); ++i) {
    const PathStep& s = path.steps[i];
    EXPECT_NEAR(s.before - s.after, s.loss + s.unused_fall + s.lift, 1e-4);
    if (i > 0) {
      EXPECT_EQ(s.from, path.steps[i - 1].to);
      EXPECT_DOUBLE_EQ(s.before, path.steps[i - 1].after);
    }
  }
}

TEST(Path, GoesRoundTheRingWhereMoreFlows) {
  for (const bool near : {true, false}) {
    const Answer a = ring(near ? 1e9 : 1e13, near ? 1e13 : 1e9, 5.0 * bar);
    const RowPath path = path_to_row(a, 1);
    EXPECT_EQ(parts_of(a, path), near ? (std::vector<std::string>{"line", "near 1", "near 2", "hole 1"})
                                      : (std::vector<std::string>{"line", "far 1", "far 2", "far 3", "hole 1"}));
    expect_adds_up(a, path);
    for (const PathStep& s : path.steps) EXPECT_GT(s.flow, 0.0) << "in the direction of the way";
    double loss = 0.0, lift = 0.0;
    for (const PathStep& s : path.steps) {
      loss += s.loss;
      lift += s.lift;
    }
    // What the supply gives and the fall of half a metre are lost on the way.
    EXPECT_NEAR(lift, -0.5 * a.liquid.density * standard_gravity, 1e-6);
    EXPECT_NEAR(loss + lift, 1e5, 1e-3);
  }
}

TEST(Path, ToARowThatGetsNothingGoesOverTheFewestParts) {
  // More flows round the far side, but the valve's own way is the shorter one.
  const Answer a = ring(1e13, 1e9, 5.0 * bar);
  const RowPath path = path_to_row(a, 2);
  EXPECT_EQ(parts_of(a, path), (std::vector<std::string>{"line", "near 1", "near 2", "valve 2"}));
  expect_adds_up(a, path);
  EXPECT_EQ(path.steps.back().flow, 0.0);
  EXPECT_GT(path.steps.back().loss, 0.0) << "what the shut valve holds back";
  // Once it opens the way is that of the flow.
  const Answer open = ring(1e13, 1e9, 0.1 * bar);
  EXPECT_EQ(parts_of(open, path_to_row(open, 2)),
            (std::vector<std::string>{"line", "far 1", "far 2", "far 3", "valve 2"}));
}

TEST(Path, RefusesRowsToWhichNoWayLeads) {
  Toolbar bar = test::plain_bar(6);
  bar.row_changes = {{.row = 3, .shut = true}};
  const Answer a = main_job({.name = "bar", .job = test::plain_job(), .plumbing = bar});
  for (const int row : {0, 7}) {
    try {
      (void)path_to_row(a, row);
      ADD_FAILURE() << row;
    } catch (const InputError& e) {
      EXPECT_EQ(e.where(), "row");
      EXPECT_EQ(e.what_is_wrong(), fmt::format("there is no row {}", row));
      EXPECT_EQ(e.allowed(), "1 to 6");
    }
  }
  expect_refused([&] { (void)path_to_row(a, 3); }, "row 3");
  EXPECT_EQ(path_to_row(a, 4).row, 4);
  // A row of no outlet, and no rows at all.
  Answer without = a;
  without.plumbing.rows[1].airs.clear();
  without.plumbing.rows[1].last_parts.clear();
  expect_refused([&] { (void)path_to_row(without, 2); }, "row 2");
  without.plumbing.rows.clear();
  test::expect_message([&] { (void)path_to_row(without, 1); }, "there is no row 1");
}

// A bypass that lets most of what a pump moves back to its inlet: more comes to the inlet from the bypass than from the
// tank, and the way to the row is the tank's all the same.
TEST(Path, LeavesAPumpsBypassAside) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("tank", 0.0 * bar);
  n.add_place("inlet");
  n.add_place("outlet");
  const auto air = n.add_air("row 1");
  n.add_part("suction", "tank", "inlet", QuadraticPart{.k = 1e9});
  n.add_part("pump", "inlet", "outlet", CentrifugalPump{.shutoff = 2.0 * bar, .free_flow = 60.0 * L_per_min});
  n.add_part("bypass", "outlet", "inlet", QuadraticPart{.k = 1e12});
  const auto hole = n.add_part("hole", n.find_place("outlet"), air, Part(Orifice{.bore = 2.0 * mm}));
  p.rows.push_back(test::row_by_hand(1, 0.0, 1.0, air, hole));
  const Answer a = main_job({.name = "bypass", .job = test::plain_job(), .plumbing = std::move(p)});
  const auto flow = [&](const char* id) { return a.solution.parts[a.plumbing.network.find_part(id)].flow; };
  ASSERT_GT(flow("bypass"), 2.0 * flow("suction"));
  const RowPath path = path_to_row(a, 1);
  EXPECT_EQ(parts_of(a, path), (std::vector<std::string>{"suction", "pump", "hole"}));
  expect_adds_up(a, path);
}

}  // namespace path_test
}  // namespace libflow
