// SPDX-License-Identifier: MIT
/// @file
/// Metering orifice: a small round hole, sharp or thick, known by its bore or by the water it passes.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>
#include <string_view>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: exact creeping resistance at low Reynolds number, free jet at high, a bridge between (physics/orifice.hpp,
/// with sources). The pressure downstream is the liquid's or the air's; the velocity of the jet is lost.
struct Orifice {
  Length bore{};                            ///< 0.05 mm to 50 mm
  Length thickness = from_si<Length>(0.0);  ///< length of the hole, 0 (sharp plate) to 10 bores; longer: use a hose
  /// At high Reynolds number, 0.3 to 1; empty: 0.61 for a sharp plate, rising with the length of the hole
  /// (physics::hole_discharge_coefficient).
  std::optional<double> discharge_coefficient = std::nullopt;
  /// Holes of one box are this much wider or narrower than `bore`, 0 to half of it. Not in the law: data for a
  /// tolerance study and for flow_band.
  Length bore_tolerance = from_si<Length>(0.0);

  static constexpr std::string_view kind = "orifice";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &Orifice::bore}, Input{"thickness", "m", &Orifice::thickness},
                                     Input{"discharge coefficient", "", &Orifice::discharge_coefficient}};
  static constexpr Range bore_range{5e-5, 0.05};       ///< [m]
  static constexpr Range coefficient_range{0.3, 1.0};  ///< of the discharge coefficient [-]

  /// The sharp orifice that passes `flow` of water at 20 C at `pressure` across it.
  /// @throws InputError when no bore in bore_range does
  static Orifice rated(Flow flow, Pressure pressure, std::string_view where = kind);

  /// The hole after wear: it passes `wear` more of its flow (0.1: 10 %) of water at 20 C at the same pressure across
  /// it. Wear is known by a catch test, not by a gauge, and it rounds the edge as well as widening the hole: the new
  /// bore is the one that passes the flow. At high Reynolds number it is bore x sqrt(1 + wear).
  /// @param wear      0 to 1; a tip 10 % over its rating is commonly taken as worn out (common practice, no source)
  /// @param pressure  across the hole in that test
  /// @throws InputError  wear or pressure out of range, or the worn bore beyond bore_range
  [[nodiscard]] Orifice worn(double wear, Pressure pressure, std::string_view where = kind) const;

  /// Flow of a liquid at a pressure across the hole, 0 to 100 MPa.
  [[nodiscard]] Flow flow_at(Pressure pressure, const LiquidState& liquid, std::string_view where = kind) const;

  /// Flows of the narrowest, the nominal and the widest hole of a box at one pressure.
  struct FlowBand {
    Flow low, nominal, high;  ///< through the narrowest, the nominal and the widest hole
  };
  /// Those flows at a pressure across the hole, 0 to 100 MPa.
  [[nodiscard]] FlowBand flow_band(Pressure pressure, const LiquidState& liquid, std::string_view where = kind) const {
    return {with_bore(bore - bore_tolerance).flow_at(pressure, liquid, where), flow_at(pressure, liquid, where),
            with_bore(bore + bore_tolerance).flow_at(pressure, liquid, where)};
  }

  /// The same plate with another hole.
  [[nodiscard]] Orifice with_bore(Length other) const {
    Orifice o = *this;
    o.bore = other;
    return o;
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, thickness", where), si(thickness), {0.0, physics::hole_length_ratio.high * si(bore)},
               "m");
    if (discharge_coefficient) {
      require_in(fmt::format("{}, discharge coefficient", where), *discharge_coefficient, coefficient_range, "");
    }
    require_in(fmt::format("{}, bore tolerance", where), si(bore_tolerance), {0.0, 0.5 * si(bore)}, "m");
  }

  /// The hole's numbers in a liquid.
  [[nodiscard]] physics::Hole<double> hole(double density, double viscosity) const {
    return hole_of<double>(si(bore), si(thickness), discharge_coefficient, {density, viscosity});
  }
  /// The numbers of a hole of this bore and thickness; without a coefficient, by its shape.
  template <class S>
  [[nodiscard]] static physics::Hole<S> hole_of(const S& bore, const S& thickness, const std::optional<S>& coefficient,
                                                const LiquidNumbers<S>& liquid) {
    const S ratio = thickness / bore;
    const S c = coefficient ? *coefficient
                            : physics::hole_discharge_coefficient<S>(ratio, S(physics::sharp_discharge_coefficient));
    return physics::hole<S>(bore, thickness, liquid.density, liquid.viscosity, c,
                            S(S(physics::sharp_uncontracted) * physics::contraction_left<S>(ratio)));
  }
  /// The law of a sharp hole.
  template <class S>
  [[nodiscard]] static BasicLaw<S> sharp_law(const S& bore, const LiquidNumbers<S>& liquid) {
    BasicLaw<S> law;
    law.holes.push_back(hole_of<S>(bore, S(0.0), std::nullopt, liquid));
    return law;
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 3>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law;
    law.holes.push_back(
        hole_of<S>(in[0], in[1], discharge_coefficient ? std::optional<S>(in[2]) : std::nullopt, liquid));
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double /*flow*/, double /*inlet_pressure*/, const LiquidState& /*liquid*/) const {
    const double ratio = si(thickness) / si(bore);
    if (!physics::reattaching_length_ratio.contains(ratio)) return {};
    return {{"outside-range",
             {},
             "orifice between sharp and thick: the jet may fill the hole again or not, so its coefficient is uncertain",
             ratio,
             physics::reattaching_length_ratio.high,
             "libflow/physics/orifice.hpp"}};
  }
};

inline Orifice Orifice::rated(Flow flow, Pressure pressure, std::string_view where) {
  require_in(fmt::format("{}, rated flow", where), si(flow), {1e-9, 1.0}, "m3/s");
  require_in(fmt::format("{}, rated pressure", where), si(pressure), {1.0, 1e8}, "Pa");
  const double density = water_density<double>(293.15);
  const double viscosity = water_viscosity<double>(293.15);
  // The drop falls steadily as the bore grows, so log(drop/rated) has one zero.
  const auto miss = [&](double log_bore) {
    const Orifice o{.bore = from_si<Length>(std::exp(log_bore))};
    return std::log(physics::drop_hole<double>(si(flow), o.hole(density, viscosity)).dp / si(pressure));
  };
  const double low = std::log(bore_range.low), high = std::log(bore_range.high);
  if (miss(low) < 0.0 || miss(high) > 0.0) {
    throw InputError(fmt::format("{}, rated flow", where),
                     fmt::format("{:.6g} m3/s of water at {:.6g} Pa is no orifice", si(flow), si(pressure)),
                     fmt::format("a flow that a bore of {:g} to {:g} m passes", bore_range.low, bore_range.high));
  }
  std::uintmax_t steps = 100;
  const auto bracket =
      boost::math::tools::toms748_solve(miss, low, high, boost::math::tools::eps_tolerance<double>(50), steps);
  return {.bore = from_si<Length>(std::exp(0.5 * (bracket.first + bracket.second)))};
}

inline Flow Orifice::flow_at(Pressure pressure, const LiquidState& liquid, std::string_view where) const {
  check(where);
  require_in(fmt::format("{}, pressure", where), si(pressure), {0.0, 1e8}, "Pa");
  if (si(pressure) == 0.0) return from_si<Flow>(0.0);
  const physics::Hole<double> h = hole(liquid.density, liquid.viscosity);
  const auto miss = [&](double q) { return physics::drop_hole<double>(q, h).dp - si(pressure); };
  // The drop is at least the creeping one and at least the inertia that is left at low Reynolds number.
  const double high =
      1.000001 * std::fmin(si(pressure) / h.creeping, std::sqrt(si(pressure) / (h.inertia * (1.0 - h.uncontracted))));
  std::uintmax_t steps = 100;
  const auto bracket =
      boost::math::tools::toms748_solve(miss, 0.0, high, boost::math::tools::eps_tolerance<double>(50), steps);
  return from_si<Flow>(0.5 * (bracket.first + bracket.second));
}

inline Orifice Orifice::worn(double wear, Pressure pressure, std::string_view where) const {
  require_in(fmt::format("{}, wear", where), wear, {0.0, 1.0}, "");
  require_in(fmt::format("{}, pressure", where), si(pressure), {1.0, 1e8}, "Pa");
  LiquidState water;
  water.density = water_density<double>(293.15);
  water.viscosity = water_viscosity<double>(293.15);
  const double goal = (1.0 + wear) * si(flow_at(pressure, water, where));
  // A hole of twice the bore passes more than twice the flow, so the worn bore is between them.
  const auto miss = [&](double factor) {
    const physics::Hole<double> h = with_bore(factor * bore).hole(water.density, water.viscosity);
    return std::log(physics::drop_hole<double>(goal, h).dp / si(pressure));
  };
  const double fresh = miss(1.0);
  Orifice o = *this;
  if (fresh > 0.0) {
    std::uintmax_t steps = 100;
    const auto bracket = boost::math::tools::toms748_solve(miss, 1.0, 2.0, fresh, miss(2.0),
                                                           boost::math::tools::eps_tolerance<double>(50), steps);
    o.bore = 0.5 * (bracket.first + bracket.second) * bore;
  }
  o.check(where);
  return o;
}

static_assert(PartType<Orifice>);

}  // namespace libflow
