// SPDX-License-Identifier: MIT
/// @file
/// Two rows on one supply, and what scenarios of them give beside the same plumbing written by hand.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/study/scenarios.hpp>
#include <libflow/toolbar.hpp>
#include <tests/support/rows_by_hand.hpp>

namespace libflow::test {

using namespace units;

inline Eigen::ArrayXd numbers(std::vector<double> values) {
  return Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

/// Two rows on one supply, each a hose and what meters behind it.
struct TwoRows {
  Hose first{.length = 2.0 * m, .bore = 8.0 * mm}, second{.length = 4.0 * m, .bore = 8.0 * mm};
  Part metering_first = Part(Orifice{.bore = 1.6 * mm}, "hole"), metering_second = metering_first;
};
inline Plumbing plumbed(const TwoRows& r, Pressure pressure = 2.0 * bar) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("pump", pressure);
  for (int row = 1; row <= 2; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto end = n.add_place(name + " end"), air = n.add_air(name);
    const auto hose = n.add_part(name + " hose", p.supply, end, Part(row == 1 ? r.first : r.second, "hose"));
    const auto last = n.add_part(name + " metering", end, air, row == 1 ? r.metering_first : r.metering_second);
    p.rows.push_back(row_by_hand(row, row - 1.5, 0.76, air, last, {.hoses = {hose}}));
  }
  return p;
}
/// What a scenario's rows get when the plumbing is written with its numbers.
inline void expect_rows(const ScenarioResults& r, std::size_t scenario, const Plumbing& by_hand,
                        const LiquidState& liquid) {
  ASSERT_EQ(r.status[scenario], ScenarioStatus::solved);
  const Solution s = solve_plumbing(by_hand, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  for (std::size_t row = 0; row < by_hand.rows.size(); ++row) {
    const double flow = s.parts[by_hand.rows[row].last_parts.front()].flow;
    ASSERT_GT(flow, 0.0);
    EXPECT_NEAR(r.flow(static_cast<Eigen::Index>(scenario), static_cast<Eigen::Index>(row)) / flow, 1.0, 1e-9)
        << "scenario " << scenario << ", row " << row + 1;
  }
}

/// Two rows' holes on a bar. The first pump feeds the agitation, which draws a given flow, and through a check valve
/// the bar; the second one feeds the bar alone. So the first has to give at least what the agitation draws. SI.
inline Plumbing agitated(double first, double second, double drawn) {
  Plumbing p = plumbed({});
  Network n;
  p.supply = n.add_fed("pump", from_si<Flow>(first));
  n.add_fed("second pump", from_si<Flow>(second));
  n.add_drawn("agitation", from_si<Flow>(drawn));
  for (const char* name : {"main", "bar"}) n.add_place(name);
  n.add_part("line", "pump", "main", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  n.add_part("way back", "main", "agitation", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  n.add_part("valve", "main", "bar", CheckValve{.passage_bore = 6.0 * mm});
  n.add_part("second line", "second pump", "bar", Hose{.length = 1.0 * m, .bore = 12.0 * mm});
  for (RowPlumbing& row : p.rows) {
    const std::string name = fmt::format("row {}", row.row);
    row.airs = {n.add_air(name)};
    row.hoses.clear();
    row.last_parts = {n.add_part(name + " hole", n.find_place("bar"), row.airs[0],
                                 Part(Orifice{.bore = (1.8 + 0.2 * row.row) * mm}, "hole"))};
    row.orifices = row.last_parts;
  }
  p.network = std::move(n);
  return p;
}

}  // namespace libflow::test
