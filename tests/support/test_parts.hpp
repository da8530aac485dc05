// SPDX-License-Identifier: MIT
/// @file
/// Parts that only tests need, with the laws that textbooks print; each joins a Network as a newcomer's part would.
#pragma once

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow::test {

/// Drop k q|q|: a pipe with a constant friction factor, a bend, a valve. The small laminar term is what a lawful part
/// needs at zero flow; it is far below the last printed digit of any textbook network here.
struct QuadraticPart {
  double k = 0;          ///< [Pa per (m3/s)^2]
  double linear = 1e-7;  ///< [Pa per m3/s]

  static constexpr std::string_view kind = "quadratic loss";
  static constexpr Contract contract = Contract::passage;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, k", where), k, {0.0, 1e30}, "Pa s2/m6");
    require_in(fmt::format("{}, linear", where), linear, {1e-9, 1e30}, "Pa s/m3");
  }
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.linear = linear;
    law.quadratic = k;
    return law;
  }
};
static_assert(PartType<QuadraticPart>);

/// Drop r q^m, odd in the flow: the Hazen-Williams formula, or any exponent from laminar (1) to rough (2).
struct PowerPart {
  double r = 0;          ///< [Pa per (m3/s)^m]
  double m = 1.852;      ///< 1 to 2
  double linear = 1e-7;  ///< as in QuadraticPart [Pa per m3/s]

  static constexpr std::string_view kind = "power loss";
  static constexpr Contract contract = Contract::passage;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, r", where), r, {1e-9, 1e30}, "");
    require_in(fmt::format("{}, m", where), m, {1.0, 2.0}, "");
  }
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.linear = linear;
    law.functions.emplace_back([r = r, m = m](const double& q) {
      const double power = r * std::pow(std::abs(q), m - 1.0);
      return Drop<double>{power * q, m * power};
    });
    return law;
  }
};
static_assert(PartType<PowerPart>);

/// A pump that gives the liquid a fixed power: gain = power / q. Below `least_flow` the gain goes on along its tangent,
/// so that it stays finite at zero flow.
struct PowerPump {
  double power = 0;       ///< into the liquid [W]
  double least_flow = 0;  ///< [m3/s]

  static constexpr std::string_view kind = "power pump";
  static constexpr Contract contract = Contract::one_way;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, power", where), power, {1e-9, 1e9}, "W");
    require_in(fmt::format("{}, least flow", where), least_flow, {1e-12, 1.0}, "m3/s");
  }
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law;
    law.threshold = -2.0 * power / least_flow;
    law.passes = Passes::forward;
    law.functions.emplace_back([p = power, q0 = least_flow](const double& q) {
      const double at = std::max(q, q0);
      const double gain = p / at + p / (at * at) * (at - q);
      return Drop<double>{2.0 * p / q0 - gain, p / (at * at)};
    });
    return law;
  }
};
static_assert(PartType<PowerPump>);

}  // namespace libflow::test
