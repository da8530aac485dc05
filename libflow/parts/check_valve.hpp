// SPDX-License-Identifier: MIT
/// @file
/// Spring check valve: no flow until the crack pressure, then a passage; never any flow back.
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>

namespace libflow {

/// Law: forward drop = crack pressure + drop across a sharp hole of `passage_bore`; flow zero while the pressure
/// across it is at most the crack pressure. The forward passage is described by the sharp hole that loses the same
/// at the rated water flow (`rated`).
struct CheckValve {
  Pressure crack{};       ///< 0 to 2 MPa
  Length passage_bore{};  ///< of the equivalent sharp hole, 0.05 mm to 50 mm

  static constexpr std::string_view kind = "check valve";
  static constexpr Contract contract = Contract::one_way;
  static constexpr Range crack_range{0.0, 2e6};  ///< [Pa]

  /// A valve that cracks at `crack` and loses `loss` more at `flow` of water at 20 C.
  static CheckValve rated(Pressure crack, Flow flow, Pressure loss, std::string_view where = kind) {
    return {.crack = crack, .passage_bore = Orifice::rated(flow, loss, where).bore};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, crack", where), si(crack), crack_range, "Pa");
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const {
    Law law = Orifice{.bore = passage_bore}.law(liquid);
    law.threshold = si(crack);
    law.passes = Passes::forward;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }
};

static_assert(PartType<CheckValve>);

}  // namespace libflow
