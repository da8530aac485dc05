// SPDX-License-Identifier: MIT
/// @file
/// All derivatives of a solved network against fifty-digit differences.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/solve/derivatives.hpp>
#include <tests/support/many_digits_network.hpp>

namespace libflow::test {

/// Every derivative of every flow and of every pressure, adjoint and forward, to 1e-8.
/// @param s     by the parts' laws, these tees and the regulators
inline void expect_exact_derivatives(const Network& network, const LiquidState& liquid, const Solution& s,
                                     const std::vector<TeeAt>& tees = {}) {
  Derivatives d(network, liquid, s, AtCrack::shut, tees);
  EXPECT_TRUE(d.at_crack().empty());
  EXPECT_TRUE(d.unlisted().empty());
  const ManyNetwork truth(network, liquid, s, tees);
  std::vector<std::vector<double>> of_flow, of_pressure(network.place_count());
  for (std::size_t e = 0; e < network.part_count(); ++e) of_flow.push_back(d.of_flow(e));
  for (std::size_t i = 0; i < network.place_count(); ++i) {
    if (s.places[i].determined) of_pressure[i] = d.of_pressure(i);
  }
  double most_flow = 0.0, most_pressure = 0.0;
  for (const PartResult& p : s.parts) most_flow = std::max(most_flow, std::abs(p.flow));
  for (const PartResult& p : s.parts) most_pressure = std::max(most_pressure, std::abs(p.drop));
  for (std::size_t k = 0; k < d.inputs().size(); ++k) {
    const NetworkInput& input = d.inputs()[k];
    const ManyAnswer by = truth.slopes(input);
    const Derivatives::Change forward = d.by(k);
    const double size = std::abs(value_of(network, liquid, input, tees));
    // To 1e-8 of itself, or of what matters: a change by its own size that moves a flow by 1e-12 of the largest.
    const auto near = [&](double found, const Many& exact, double scale) {
      const double want = static_cast<double>(exact);
      return std::abs(found - want) <= 1e-8 * std::abs(want) + 1e-12 * scale / (size > 0.0 ? size : 1.0);
    };
    for (std::size_t e = 0; e < network.part_count(); ++e) {
      EXPECT_TRUE(near(of_flow[e][k], by.flow[e], most_flow))
          << network.part(e).id << " by " << name_of(network, input) << ": " << of_flow[e][k] << " for " << by.flow[e];
      EXPECT_TRUE(near(forward.flow[e], by.flow[e], most_flow)) << network.part(e).id << ", forward";
    }
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      if (!s.places[i].determined) continue;
      EXPECT_TRUE(near(of_pressure[i][k], by.pressure[i], most_pressure))
          << network.place(i).id << " by " << name_of(network, input) << ": " << of_pressure[i][k] << " for "
          << by.pressure[i];
      EXPECT_TRUE(near(forward.pressure[i], by.pressure[i], most_pressure)) << network.place(i).id << ", forward";
    }
  }
}

}  // namespace libflow::test
