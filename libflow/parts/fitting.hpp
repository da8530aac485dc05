// SPDX-License-Identifier: MIT
/// @file
/// Fitting: a local loss that rises at low Reynolds number (two-constant method).
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: K = k1/Re + k_inf on the velocity in `bore` (physics/minor_loss.hpp).
/// Source of the named fittings: W. B. Hooper, Chem. Eng., 24 August 1981, p. 97.
struct Fitting {
  Length bore{};     ///< 0.1 mm to 0.5 m
  double k1 = 0;     ///< laminar constant [-], more than 0, at most 1e5
  double k_inf = 0;  ///< loss coefficient at high Reynolds number [-], 0 to 1e5

  static constexpr std::string_view kind = "fitting";
  static constexpr Contract contract = Contract::passage;
  static constexpr Range bore_range{1e-4, 0.5};  ///< [m]
  static constexpr Range k1_range{1.0, 1e5};
  static constexpr Range k_inf_range{0.0, 1e5};

  /// Screwed fittings of one bore, with Hooper's size correction K (1 + 1/D_inch).
  static Fitting elbow_90(Length bore) { return hooper(bore, 800, 0.4); }
  static Fitting elbow_45(Length bore) { return hooper(bore, 500, 0.2); }
  static Fitting tee_run(Length bore) { return hooper(bore, 200, 0.1); }
  static Fitting tee_branch(Length bore) { return hooper(bore, 500, 0.7); }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, k1", where), k1, k1_range, "");
    require_in(fmt::format("{}, k_inf", where), k_inf, k_inf_range, "");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const {
    const auto loss = physics::local_loss<double>(k1, k_inf, si(bore), liquid.density, liquid.viscosity);
    Law law;
    law.linear = loss.linear;
    law.quadratic = loss.quadratic;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

 private:
  static Fitting hooper(Length bore, double k1, double k) {
    return {.bore = bore, .k1 = k1, .k_inf = physics::hooper_k_inf<double>(k, si(bore))};
  }
};

static_assert(PartType<Fitting>);

}  // namespace libflow
