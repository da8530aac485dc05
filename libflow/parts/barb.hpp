// SPDX-License-Identifier: MIT
/// @file
/// Hose barb: a short narrow tube inside the end of a hose, or between two.
#pragma once

#include <numbers>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: a sudden contraction into the barb, wall friction along it, a sudden expansion behind it, each published
/// (physics/minor_loss.hpp, physics/friction.hpp); that they may simply be added is common practice, no source: in a
/// barb shorter than about ten bores the two ends disturb one another. The same bore before and behind it; where they
/// differ use a Reducer, a Hose of the barb's bore and a Reducer.
struct Barb {
  Length bore{};                               ///< of the barb, 0.1 mm to 0.5 m
  Length hose_bore{};                          ///< before and behind it, wider than the barb, at most 1 m
  Length length{};                             ///< of the barb, more than 0, at most 0.5 m
  Length roughness = from_si<Length>(1.5e-6);  ///< 0 to 0.05 bore; default: drawn tubing, L. F. Moody, Trans. ASME 66
                                               ///< (1944) 671 (0.0015 mm, from memory)

  static constexpr std::string_view kind = "barb";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &Barb::bore}, Input{"hose bore", "m", &Barb::hose_bore},
                                     Input{"length", "m", &Barb::length}, Input{"roughness", "m", &Barb::roughness}};
  static constexpr Range bore_range{1e-4, 0.5};    ///< [m]
  static constexpr Range length_range{1e-6, 0.5};  ///< [m]

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, hose bore", where), si(hose_bore), {si(bore), 1.0}, "m");
    require_in(fmt::format("{}, length", where), si(length), length_range, "m");
    require_in(fmt::format("{}, roughness", where), si(roughness), {0.0, physics::colebrook_roughness.high * si(bore)},
               "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 4>& in, const LiquidNumbers<S>& liquid) const {
    const auto& [d, hose_d, l, e] = in;
    const S ratio = d / hose_d, sudden(std::numbers::pi);
    const S k_inf = physics::contraction_k_inf<S>(ratio, sudden) + physics::expansion_k_inf<S>(ratio, sudden);
    const auto ends = physics::local_loss<S>(S(S(2.0) * physics::bore_change_k1<S>(ratio, sudden)), k_inf, d,
                                             liquid.density, liquid.viscosity);
    BasicLaw<S> law;
    law.linear = ends.linear;
    law.quadratic = ends.quadratic;
    law.friction.push_back(physics::wall_friction<S>(l, d, e, liquid.density, liquid.viscosity));
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }
};

static_assert(PartType<Barb>);

}  // namespace libflow
