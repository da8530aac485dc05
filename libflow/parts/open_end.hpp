// SPDX-License-Identifier: MIT
/// @file
/// Open end: a tube that runs full and lets its liquid go, losing the velocity head.
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: rho V^2/2 on the mean velocity (loss coefficient 1: the jet's energy is lost), plus the creeping end loss
/// 3/2 mu q / a^3, a the radius: one of the two ends in the exact result for a hole with length (Sampson 1891;
/// Dagan, Weinbaum and Pfeffer 1982, see physics/orifice.hpp). It joins a tube to a place that is open to the air.
struct OpenEnd {
  Length bore{};  ///< 0.1 mm to 0.5 m

  static constexpr std::string_view kind = "open end";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &OpenEnd::bore}};
  static constexpr Range bore_range{1e-4, 0.5};  ///< [m]

  void check(std::string_view where) const { require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m"); }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 1>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law;
    law.linear = physics::creeping_resistance<S>(in[0], S(0.0), liquid.viscosity) / S(2.0);
    law.quadratic = physics::velocity_head<S>(S(1.0), in[0], liquid.density);
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }
};

static_assert(PartType<OpenEnd>);

}  // namespace libflow
