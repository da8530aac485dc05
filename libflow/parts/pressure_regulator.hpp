// SPDX-License-Identifier: MIT
/// @file
/// Pressure regulator: holds the pressure behind it at its set pressure as long as the pressure before it allows.
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>

namespace libflow {

/// Law: its wide-open passage, a sharp hole of `passage_bore`, one way. What it throttles beyond that depends on the
/// pressure behind it, which no law of the flow alone can say: solve_corrected adds it (solve/corrected.hpp).
struct PressureRegulator {
  Pressure set{};         ///< gauge pressure to hold behind it, more than 0, at most 5 MPa
  Length passage_bore{};  ///< of the sharp hole that loses as much as the regulator wide open, 0.05 mm to 50 mm

  static constexpr std::string_view kind = "pressure regulator";
  static constexpr Contract contract = Contract::one_way;
  static constexpr Range set_range{1.0, 5e6};  ///< [Pa]

  /// A regulator that loses `loss` at `flow` of water at 20 C when wide open.
  static PressureRegulator rated(Pressure set, Flow flow, Pressure loss, std::string_view where = kind) {
    return {.set = set, .passage_bore = Orifice::rated(flow, loss, where).bore};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, set", where), si(set), set_range, "Pa");
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const {
    Law law = Orifice{.bore = passage_bore}.law(liquid);
    law.passes = Passes::forward;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }
};

static_assert(PartType<PressureRegulator>);

}  // namespace libflow
