// SPDX-License-Identifier: MIT
/// @file
/// Section, ball or throttling valve: open, shut, or partly open, known by its flow coefficient.
#pragma once

#include <cmath>
#include <numbers>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/valve_flow.hpp>

namespace libflow {

/// How a valve's flow coefficient follows its travel (physics/valve_flow.hpp).
enum class ValveCharacteristic { equal_percentage, linear };

/// Law: the standard's sizing equation for liquids with its correction for viscosity as a sum of the laminar and the
/// turbulent limit (physics/valve_flow.hpp, IEC 60534-2-1). Open 0 is shut: nothing passes either way. FL and Fd are
/// kept at their fully open values whatever the opening. Choked flow is a caution: the law goes on as if there was
/// none.
struct Valve {
  Flow kv{};      ///< water at 1 bar across it, fully open: 1e-9 m3/s to what 0.05 velocity heads in `bore` let pass
  Length bore{};  ///< of the valve and of the line beside it, 0.1 mm to 0.5 m
  double open = 1.0;  ///< share of its travel, 0 (shut) to 1
  /// How its coefficient grows with the opening.
  ValveCharacteristic characteristic = ValveCharacteristic::equal_percentage;
  double rangeability =
      50.0;               ///< rated over least controllable coefficient, 2 to 1000 (50: common practice, no source)
  double recovery = 0.9;  ///< pressure recovery FL, 0.3 to 1; default: globe, parabolic plug (the standard)
  double style = 0.46;    ///< style modifier Fd, 0.05 to 1; default: the same valve

  static constexpr std::string_view kind = "valve";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{
      Input{"kv", "m3/s", &Valve::kv},         Input{"bore", "m", &Valve::bore},
      Input{"open", "", &Valve::open},         Input{"rangeability", "", &Valve::rangeability},
      Input{"recovery", "", &Valve::recovery}, Input{"style", "", &Valve::style}};
  static constexpr Range bore_range{1e-4, 0.5};            ///< [m]
  static constexpr Range open_range{0.0, 1.0};             ///< share of the travel [-]
  static constexpr Range rangeability_range{2.0, 1000.0};  ///< largest over smallest coefficient [-]
  static constexpr double least_heads = 0.05;              ///< velocity heads that any valve loses at least

  /// Kv from Cv, the flow of water at 1 psi across the valve: kv_from_cv(8.0 * gpm) for a Cv of 8.
  [[nodiscard]] static Flow kv_from_cv(Flow at_one_psi) {
    return at_one_psi * std::sqrt(physics::kv_pressure / si(units::psi));
  }
  /// A full-bore ball valve, FL 0.74 and Fd 0.99 (IEC 60534-2-1, table of typical values, from memory).
  [[nodiscard]] static Valve ball(Flow kv, Length bore, double open = 1.0) {
    return {.kv = kv, .bore = bore, .open = open, .recovery = 0.74, .style = 0.99};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    const double area = std::numbers::pi * si(bore) * si(bore) / 4.0;
    const double most = area * std::sqrt(2.0 * physics::kv_pressure / (least_heads * physics::kv_density));
    require_in(fmt::format("{}, kv", where), si(kv), {1e-9, most}, "m3/s");
    require_in(fmt::format("{}, open", where), open, open_range, "");
    require_in(fmt::format("{}, rangeability", where), rangeability, rangeability_range, "");
    require_in(fmt::format("{}, recovery", where), recovery, physics::valve_recovery_range, "");
    require_in(fmt::format("{}, style", where), style, physics::valve_style_range, "");
  }

  /// Flow coefficient at the present opening, also just before it shuts.
  [[nodiscard]] Flow present_kv() const { return kv * share_at<double>(open, rangeability); }

  /// Which way liquid can pass, whatever the liquid.
  [[nodiscard]] Passes passes() const { return open == 0.0 ? Passes::neither : Passes::both; }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 6>& in, const LiquidNumbers<S>& liquid) const {
    const auto& [rated_kv, d, travel, range, fl, fd] = in;
    const auto loss = physics::valve_loss<S>(S(rated_kv * share_at<S>(travel, range)), rated_kv, d, liquid.density,
                                             liquid.viscosity, fl, fd);
    BasicLaw<S> law;
    law.linear = loss.linear;
    law.quadratic = loss.quadratic;
    law.passes = passes();
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    const double drop = std::abs(law(liquid)(flow).dp);
    const double limit = physics::choked_drop<double>(inlet_pressure + 101325.0, liquid.vapour_pressure,
                                                      physics::water_critical_pressure, recovery);
    if (!(flow != 0.0 && drop > limit)) return {};
    return {{"choked-flow",
             {},
             "the valve would choke: the liquid boils in it, it passes less than computed here, and cavitation may "
             "wear it out",
             drop,
             limit,
             "IEC 60534-2-1; standard atmosphere 101.325 kPa"}};
  }

 private:
  /// Share of the rated coefficient at a share of the travel.
  template <class S>
  [[nodiscard]] S share_at(const S& travel, const S& range) const {
    return characteristic == ValveCharacteristic::linear ? physics::inherent_linear<S>(travel, range)
                                                         : physics::inherent_equal_percentage<S>(travel, range);
  }
};

static_assert(PartType<Valve>);

}  // namespace libflow
