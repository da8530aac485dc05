// SPDX-License-Identifier: MIT
/// @file
/// Vented tube: a hanging tube at a row's end that takes in air at its head, so that it never pulls.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <tuple>

#include <fmt/core.h>

#include <libflow/parts/row_outlet.hpp>

namespace libflow {

/// A tube that hangs from its head to its open foot, `fall` lower, with a vent at the head: a drilled tee, an air gap,
/// a funnel; or a tube that runs partly full, in which air stands. Join it from the head to a place open to the air at
/// the foot.
///
/// Law: the pressure at the head is never below the air's, and either it is the air's or the tube is full (a
/// complementarity). Full, the tube's friction uses up its fall; until it does, air takes what is left of the fall:
///   drop = rho g fall + open end + max(0, friction - rho g fall)
/// from head to foot, elevation counted. So the fall gives no pull, the tube cannot siphon, no liquid comes back, and
/// the drop is continuous and rises with the flow. The corner of the maximum is rounded over physics::vent_rounding of
/// the fall's pressure, which adds a quarter of that at most.
/// Source: hydrostatics, Darcy-Weisbach; the open end as OpenEnd.
struct VentedTube {
  Length bore{};                       ///< of each tube, 0.1 mm to 0.5 m
  int count = 1;                       ///< tubes that share the row's flow equally, 1 or 2
  Length fall = from_si<Length>(0.0);  ///< from head to foot, 0 to 5 m

  static constexpr std::string_view kind = "vented tube";
  static constexpr Contract contract = Contract::one_way;
  static constexpr std::tuple inputs{Input{"bore", "m", &VentedTube::bore}, Input{"fall", "m", &VentedTube::fall}};

  /// The same tube without its vent.
  [[nodiscard]] RowOutlet unvented() const { return {.bore = bore, .count = count, .fall = fall}; }
  /// A row outlet as if air stood in its tube.
  static VentedTube of(const RowOutlet& outlet) {
    return {.bore = outlet.bore, .count = outlet.count, .fall = outlet.fall};
  }

  void check(std::string_view where) const { unvented().check(where); }

  /// Pressure of the liquid that would fill the fall [Pa].
  [[nodiscard]] double pull(const LiquidState& liquid) const { return liquid.density * standard_gravity * si(fall); }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = unvented().ends_on<S>(in[0], liquid);
    law.threshold = liquid.density * S(standard_gravity) * in[1];
    law.passes = Passes::forward;
    if (si(fall) > 0.0) {
      law.functions.emplace_back([wall = unvented().wall_on<S>(in, liquid), pull = law.threshold](const S& q) {
        using std::abs;
        const Drop<S> friction = physics::drop_wall_friction<S>(S(abs(q)), wall);
        const auto beyond = physics::rounded_positive<S>(S(friction.dp - pull), S(S(physics::vent_rounding) * pull));
        return Drop<S>{physics::select<S>(q < S(0.0), S(-beyond.value), beyond.value),
                       S(beyond.slope * friction.slope)};
      });
    }
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return unvented().inside_bore(); }

  /// What of the drop at a flow [m3/s] is height and no loss in the line [Pa]: the part of the fall's pressure that
  /// friction does not use up, which liquid falls through air. All of it at a trickle, none once the tube is full.
  [[nodiscard]] double unused_fall(double flow, const LiquidState& liquid) const {
    if (!(si(fall) > 0.0)) return 0.0;
    const auto wall =
        unvented().wall_on<double>({si(bore), si(fall)}, LiquidNumbers<double>{liquid.density, liquid.viscosity});
    return std::max(0.0, pull(liquid) - physics::drop_wall_friction<double>(std::max(0.0, flow), wall).dp);
  }

  /// "vent-takes-air": nothing flows and the line before the tube sucks: the vent lets air into it.
  [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& liquid) const {
    const double head = working.drop - pull(liquid);
    if (working.flow > 0.0 || !working.from_known || !(head < -1.0)) return {};
    return {{"vent-takes-air",
             {},
             fmt::format("nothing flows: the line before this vented tube is {} below the air's pressure and takes in "
                         "air there",
                         parts_detail::pressure_words(-head)),
             head,
             0.0,
             "hydrostatics"}};
  }
};

static_assert(PartType<VentedTube>);

}  // namespace libflow
