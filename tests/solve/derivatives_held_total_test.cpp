// SPDX-License-Identifier: MIT
/// @file
/// A supply whose pressure is moved until the total is right is a place that is fed with the total: one physics, two
/// ways to ask.
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts.hpp>
#include <libflow/solve/control.hpp>
#include <libflow/solve/derivatives.hpp>
#include <libflow/solve/derivatives_held_total.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace derivatives_held_total_test {

using namespace units;

constexpr int rows = 4;

/// A bar of unlike rows; `feed` makes its first place.
template <class Feed>
Network unlike_rows(const Feed& feed) {
  Network n;
  feed(n);
  std::string before = "feed";
  for (int r = 1; r <= rows; ++r) {
    const std::string row = fmt::format("row {}", r), port = fmt::format("port {}", r);
    n.add_place(port, 0.05 * r * m);
    n.add_part(port + " bar", before, port, Hose{.length = 0.5 * m, .bore = 12.0 * mm});
    n.add_place(row + " end");
    n.add_air(row);
    n.add_part(row + " hose", port, row + " end", Hose{.length = (0.5 + 0.4 * r) * m, .bore = 6.0 * mm});
    n.add_part(row + " orifice", row + " end", row, Orifice{.bore = (1.1 + 0.05 * r) * mm});
    before = port;
  }
  return n;
}

std::size_t index_of(const Network& n, const std::vector<NetworkInput>& inputs, const std::string& name) {
  for (std::size_t k = 0; k < inputs.size(); ++k) {
    if (name_of(n, inputs[k]) == name) return k;
  }
  ADD_FAILURE() << "no input " << name;
  return 0;
}

TEST(DerivativesHeldTotal, ASearchedPressureAnswersAsAGivenFlowDoes) {
  const double wanted = si(1.2 * gpm);
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    const Network fed = unlike_rows([&](Network& n) { n.add_fed("feed", 1.2 * gpm); });
    const auto held_at = [](double pressure) {
      return unlike_rows([&](Network& n) { n.add_supply("feed", from_si<Pressure>(pressure)); });
    };
    const Control control{
        .setting = "supply pressure",
        .unit = "Pa",
        .limits = {1e3, 2e6},
        .solve_at = [&](double pressure) { return solve(held_at(pressure), liquid); },
        .total = [](const Solution& s) { return s.parts[0].flow; },
        .wanted = wanted,
    };
    const ControlledSolution found = reach_total(control);
    ASSERT_TRUE(found.reached) << found.message;
    const Network held = held_at(found.setting);
    Derivatives searched(held, liquid, found.solution);
    const Solution given = solve(fed, liquid);
    Derivatives told(fed, liquid, given);
    EXPECT_NEAR(given.places[0].total_pressure, found.setting, 1e-8 * found.setting);

    const std::size_t pressure = index_of(held, searched.inputs(), "feed, pressure");
    const std::size_t flow = index_of(fed, told.inputs(), "feed, flow");
    const std::vector<double> of_total = searched.of_flow(0);
    const auto expect_alike = [&](const HeldTotalGradient& a, const std::vector<double>& b, const char* what) {
      EXPECT_NEAR(a.by_total, b[flow], 1e-7 * std::abs(b[flow])) << what;
      EXPECT_EQ(a.by_input[pressure], 0.0);
      for (std::size_t k = 0; k < b.size(); ++k) {
        if (k == flow) continue;
        const std::string name = name_of(fed, told.inputs()[k]);
        if (name == "feed, elevation") continue;  // the supply's is above the gauge, the fed place's is not
        const std::size_t there = index_of(held, searched.inputs(), name);
        // Both answers are exact to nine digits of what moves most.
        const double size = std::abs(value_of(fed, liquid, told.inputs()[k]));
        EXPECT_NEAR(a.by_input[there] * size, b[k] * size, 1e-7 * std::abs(b[flow]) * wanted) << what << ", " << name;
      }
    };
    for (int r = 1; r <= rows; ++r) {
      const auto orifice = held.find_part(fmt::format("row {} orifice", r));
      expect_alike(with_total_held(searched.of_flow(orifice), of_total, pressure), told.of_flow(orifice), "flow");
      const auto end = held.find_place(fmt::format("row {} end", r));
      expect_alike(with_total_held(searched.of_pressure(end), of_total, pressure), told.of_pressure(end), "pressure");
    }
    expect_alike(setting_with_total_held(of_total, pressure), told.of_pressure(0), "setting");
    // The held total itself moves with nothing but what is wanted of it.
    const HeldTotalGradient total = with_total_held(of_total, of_total, pressure);
    EXPECT_EQ(total.by_total, 1.0);
    for (const double slope : total.by_input) EXPECT_EQ(slope, 0.0);
  }
}

TEST(DerivativesHeldTotal, WhatHoldsNothingIsRefused) {
  const std::vector<double> three{1.0, 2.0, 3.0}, two{1.0, 2.0}, dead{1.0, 0.0, 3.0};
  test::expect_refused([&] { (void)with_total_held(three, two, 0); }, "held total");
  test::expect_refused([&] { (void)with_total_held(three, three, 3); }, "held total");
  test::expect_refused([&] { (void)with_total_held(three, dead, 1); }, "held total, setting");
  test::expect_refused([&] { (void)setting_with_total_held(three, 3); }, "held total");
}

}  // namespace derivatives_held_total_test
}  // namespace libflow
