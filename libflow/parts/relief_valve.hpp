// SPDX-License-Identifier: MIT
/// @file
/// Relief valve: opens when the pressure across it reaches its set pressure and lets liquid pass one way.
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>

namespace libflow {

/// Law: as a check valve's, with the set pressure in the place of the crack pressure: no flow until the pressure across
/// it reaches `set`, then the set pressure plus the drop across a sharp hole of `passage_bore` (its accumulation).
struct ReliefValve {
  Pressure set{};         ///< more than 0, at most 20 MPa
  Length passage_bore{};  ///< of the equivalent sharp hole, 0.05 mm to 50 mm

  static constexpr std::string_view kind = "relief valve";
  static constexpr Contract contract = Contract::one_way;
  static constexpr std::tuple inputs{Input{"set", "Pa", &ReliefValve::set},
                                     Input{"passage bore", "m", &ReliefValve::passage_bore}};
  static constexpr Range set_range{1.0, 2e7};  ///< [Pa]

  /// A valve that opens at `set` and needs `accumulation` more to pass `flow` of water at 20 C.
  static ReliefValve rated(Pressure set, Flow flow, Pressure accumulation, std::string_view where = kind) {
    return {.set = set, .passage_bore = Orifice::rated(flow, accumulation, where).bore};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, set", where), si(set), set_range, "Pa");
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = Orifice::sharp_law<S>(in[1], liquid);
    law.threshold = in[0];
    law.passes = Passes::forward;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& /*liquid*/) const {
    if (flow <= 0.0) return {};
    return {{"relief-open",
             {},
             "the relief valve is open: part of the pump's flow does not reach the rows",
             inlet_pressure,
             si(set),
             "set pressure given"}};
  }
};

static_assert(PartType<ReliefValve>);

}  // namespace libflow
