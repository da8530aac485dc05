// SPDX-License-Identifier: MIT
/// @file
/// Row outlet: the open tube or tubes at the end of a row that put the liquid on or into the soil.
#pragma once

#include <array>
#include <cmath>
#include <string_view>
#include <tuple>

#include <fmt/core.h>

#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>
#include <libflow/parts/words.hpp>
#include <libflow/physics/discharge.hpp>

namespace libflow {

/// Law: `count` equal tubes side by side, each losing on its share of the flow the velocity head of its open end (see
/// OpenEnd) and the wall friction of its `fall` (drawn tubing).
///
/// **Into air**: join it from the tube's head to a place open to the air at the tube's foot, `fall` lower. That counts
/// the whole fall as pull, which is right while the tube runs full. The flow and the liquid decide whether it does
/// (physics::runs_full); where it may not, the caution "may-not-run-full" gives the pull that may be missing, and
/// solve_hanging_tubes (toolbar/hanging_tubes.hpp) finds both states. A tube with a vent at its head is a VentedTube.
///
/// **Into soil**: the outlet is submerged in liquid or wet soil that pushes back. Join it to a place held at that
/// pressure (a supply at `soil_back_pressure`): liquid then leaves against it. A moving machine outruns what it wets,
/// so the pressure is that of the liquid standing over the outlet in its slot; liquid at rest in saturated soil pushes
/// back with the same depth. Back pressure of a paste pressed into a closed slot has no published law: measure it.
struct RowOutlet {
  Length bore{};  ///< of each tube, 0.1 mm to 0.5 m
  int count = 1;  ///< tubes that share the row's flow equally, 1 or 2 (both sides of the row, or one in the furrow)
  Length fall = from_si<Length>(0.0);  ///< of the hanging tube of this bore, from its head to its foot, 0 to 5 m
  double surface_tension = physics::water_surface_tension;  ///< [N/m], 0.01 to 0.1

  static constexpr std::string_view kind = "row outlet";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &RowOutlet::bore}, Input{"fall", "m", &RowOutlet::fall}};
  static constexpr Range fall_range{0.0, 5.0};              ///< [m]
  static constexpr Range surface_tension_range{0.01, 0.1};  ///< [N/m]

  void check(std::string_view where) const {
    OpenEnd{.bore = bore}.check(where);
    require_in(fmt::format("{}, count", where), count, {1.0, 2.0}, "");
    require_in(fmt::format("{}, fall", where), si(fall), fall_range, "m");
    require_in(fmt::format("{}, surface tension", where), surface_tension, surface_tension_range, "N/m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = ends_on<S>(in[0], liquid);
    if (si(fall) > 0.0) law.friction.push_back(wall_on<S>(in, liquid));
    return law;
  }
  /// The open ends alone, against the flow of all of them.
  template <class S>
  [[nodiscard]] BasicLaw<S> ends_on(const S& tube_bore, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = OpenEnd{.bore = bore}.law_on<S>({tube_bore}, liquid);
    law.linear = law.linear / S(count);
    law.quadratic = law.quadratic / S(count * count);
    return law;
  }
  /// Friction of the hanging tubes, full, against the flow of all of them.
  template <class S>
  [[nodiscard]] physics::WallFriction<S> wall_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    auto friction = physics::wall_friction<S>(in[1], in[0], S(si(roughness_of(Wall::drawn_tubing))), liquid.density,
                                              liquid.viscosity);
    friction.re_per_flow = friction.re_per_flow / S(count);
    return friction;
  }

  /// Bore of one tube that has the area of all of them, so that velocities come out right.
  [[nodiscard]] Length inside_bore() const { return std::sqrt(static_cast<double>(count)) * bore; }

  [[nodiscard]] Cautions cautions(double flow, double /*inlet_pressure*/, const LiquidState& liquid) const {
    return hanging_tube_cautions(flow / count, si(bore), si(fall), liquid, surface_tension);
  }

  /// What a person should know of a tube that hangs down and is open at its foot; nothing without flow or fall.
  /// @param flow  in the tube [m3/s]
  /// @param bore, fall  [m]
  /// @param surface_tension  [N/m]
  [[nodiscard]] static Cautions hanging_tube_cautions(double flow, double bore, double fall, const LiquidState& liquid,
                                                      double surface_tension = physics::water_surface_tension);
};

/// Pressure of liquid that stands over an outlet in its slot: rho g depth. Depth 0 to 2 m.
[[nodiscard]] inline Pressure soil_back_pressure(Length depth, const LiquidState& liquid) {
  require_in("soil back pressure, depth", si(depth), {0.0, 2.0}, "m");
  return from_si<Pressure>(liquid.density * standard_gravity * si(depth));
}

inline Cautions RowOutlet::hanging_tube_cautions(double flow, double bore, double fall, const LiquidState& liquid,
                                                 double surface_tension) {
  if (!(flow > 0.0) || !(fall > 0.0)) return {};
  const physics::Runs runs = physics::runs_full(flow, bore, liquid.density, liquid.viscosity, surface_tension);
  if (runs == physics::Runs::full) return {};
  return {{"may-not-run-full",
           {},
           fmt::format("the hanging tube {}: air may climb in at its foot, and then up to {} of pull that is counted "
                       "on is missing",
                       runs == physics::Runs::partly ? "runs partly full" : "may run full or partly full",
                       parts_detail::pressure_words(liquid.density * standard_gravity * fall)),
           physics::froude_number<double>(flow, bore),
           physics::froude_between.high,
           "P. D. Hills, Chem. Eng., 5 September 1983; F. P. Bretherton, J. Fluid Mech. 10 (1961) 166"}};
}

static_assert(PartType<RowOutlet>);

}  // namespace libflow
