// SPDX-License-Identifier: MIT
/// @file
/// Centrifugal pump by the points of its curve: gain, efficiency, suction head and power against flow, at any speed.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/words.hpp>
#include <libflow/physics/monotone_curve.hpp>
#include <libflow/physics/pump.hpp>

namespace libflow {

/// One row of a pump's data sheet. What is left out must be left out of every row.
struct PumpPoint {
  Flow flow{};                           ///< first row 0, then rising, to 1 m3/s
  Pressure gain{};                       ///< total, never rising from row to row, 0 to 5 MPa
  std::optional<double> efficiency{};    ///< pump alone, 0 to 1; more than 0 but in the first row
  std::optional<Length> suction_head{};  ///< net positive suction head required, 0 to 100 m
  std::optional<double> shaft_power{};   ///< [W], 0 to 1e6
};

/// Law: through the points by monotone cubic pieces (Boost.Math's pchip), brought to the speed by the speed laws and to
/// the liquid by its density (the head stays the same). No flow back (a foot or check valve; common practice).
///
/// - Beyond the last point the curve goes on along its tangent, with the caution "outside-pump-curve"; where that goes
///   below zero the pump is a resistance.
/// - A curve that rises before it falls has two flows at one gain, so a network with it may have several answers: it is
///   refused. Level stretches are taken to fall by `least_fall` of the shutoff gain over the whole curve, so that the
///   slope is never zero; a curve without level stretches is met at every point.
/// - The points are for water. ANSI/HI 9.6.7 corrects them for thick liquids; this part does not, and says so with the
///   caution "pump-curve-for-water".
struct PumpCurve {
  std::vector<PumpPoint> points{};                    ///< 4 or more
  double speed = 1.0;                                 ///< against the points' speed, 0.05 to 3
  Density points_density = from_si<Density>(998.2);   ///< of the liquid in which the gains hold: water at 20 C
  Pressure atmosphere = from_si<Pressure>(101325.0);  ///< absolute, for the suction head

  static constexpr std::string_view kind = "pump curve";
  static constexpr Contract contract = Contract::source;
  static constexpr std::tuple inputs{Input{"speed", "", &PumpCurve::speed},
                                     Input{"points density", "kg/m3", &PumpCurve::points_density}};
  static constexpr double least_fall = 1e-4;              ///< of the shutoff gain over the whole curve; see above [-]
  static constexpr std::size_t fewest_points = 4;         ///< so that the curve has a shape
  static constexpr Range flow_range{0.0, 1.0};            ///< [m3/s]
  static constexpr Range gain_range{0.0, 5e6};            ///< [Pa]
  static constexpr Range shutoff_range{1.0, 5e6};         ///< [Pa]
  static constexpr Range speed_range{0.05, 3.0};          ///< over the speed of the points [-]
  static constexpr Range suction_head_range{0.0, 100.0};  ///< [m]
  static constexpr Range power_range{0.0, 1e6};           ///< [W]
  static constexpr Range atmosphere_range{4e4, 1.1e5};    ///< [Pa]
  /// Above this kinematic viscosity [m2/s] a curve for water overstates the pump (common practice, from memory).
  static constexpr double thick_limit = 1e-5;

  /// At a flow through the pump, in a liquid.
  struct Duty {
    double gain = 0;                        ///< [Pa]
    std::optional<double> efficiency{};     ///< [-], given or from the shaft power
    std::optional<double> shaft_power{};    ///< [W], given or from the efficiency
    std::optional<double> head_required{};  ///< net positive suction head [m]
    bool inside = true;                     ///< within the points; outside only the gain is given
  };

  void check(std::string_view where) const {
    if (points.size() < fewest_points) {
      throw InputError(fmt::format("{}, points", where), fmt::format("{} points", points.size()),
                       fmt::format("{} points or more, the first at no flow", fewest_points));
    }
    require_in(fmt::format("{}, speed", where), speed, speed_range, "");
    require_in(fmt::format("{}, points density", where), si(points_density), liquid_density, "kg/m3");
    require_in(fmt::format("{}, atmosphere", where), si(atmosphere), atmosphere_range, "Pa");
    for (std::size_t i = 0; i < points.size(); ++i) check_point(fmt::format("{}, point {}", where, i + 1), i);
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    const S heavy = liquid.density / in[1];
    BasicLaw<S> law;
    law.threshold = -physics::gain_at_speed<S>(S(si(points.front().gain)), in[0]) * heavy;
    law.passes = Passes::forward;
    law.functions.emplace_back([fall = fall(), last = si(points.back().flow), n = in[0], heavy](const S& q) {
      const S at = q / n;
      // Before zero (never reached by flow) and after the last point: along the tangent. Between, the tangent at the
      // flow itself, which adds nothing to the value and carries the slopes.
      const double inside = std::clamp(physics::value_of(at), 0.0, last);
      const S slope(fall.prime(inside));
      return Drop<S>{S(n * n * heavy * (S(fall(inside)) + slope * (at - S(inside)))), S(n * heavy * slope)};
    });
    return law;
  }

  /// What the pump does at a flow.
  [[nodiscard]] Duty duty(Flow flow, const LiquidState& liquid) const {
    const double q = si(flow);
    Duty d;
    d.gain = -law(liquid)(q).dp;
    const double at = q / speed;
    d.inside = at >= 0.0 && at <= si(points.back().flow);
    if (!d.inside) return d;
    const auto read = [&](auto field) -> std::optional<double> {
      std::vector<double> x, y;
      for (const PumpPoint& p : points) {
        const std::optional<double> value = field(p);
        if (!value) return std::nullopt;
        x.push_back(si(p.flow));
        y.push_back(*value);
      }
      return Curve(std::move(x), std::move(y))(at);
    };
    d.efficiency = read([](const PumpPoint& p) { return p.efficiency; });
    d.head_required = read([](const PumpPoint& p) -> std::optional<double> {
      if (!p.suction_head) return std::nullopt;
      return si(*p.suction_head);
    });
    if (d.head_required) d.head_required = physics::gain_at_speed(*d.head_required, speed);
    d.shaft_power = read([](const PumpPoint& p) { return p.shaft_power; });
    if (d.shaft_power) {
      d.shaft_power = physics::power_at_speed(*d.shaft_power, speed) * liquid.density / si(points_density);
      if (!d.efficiency && *d.shaft_power > 0.0) {
        d.efficiency = physics::pump_efficiency(q, d.gain, *d.shaft_power);
      }
    } else if (d.efficiency && *d.efficiency > 0.0) {
      d.shaft_power = physics::shaft_power(q, d.gain, *d.efficiency);
    }
    return d;
  }

  /// At the shaft [W]: Duty::shaft_power.
  [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const {
    return duty(from_si<Flow>(std::max(0.0, flow)), liquid).shaft_power;
  }

  /// Net positive suction head available [m] with this total pressure [gauge] at the pump's inlet.
  [[nodiscard]] double head_available(Pressure inlet, const LiquidState& liquid) const {
    return physics::suction_head_available(si(inlet) + si(atmosphere), liquid.vapour_pressure,
                                           liquid.density * standard_gravity);
  }

  /// "suction-starved" where the suction head available is less than required; empty where none is given.
  [[nodiscard]] Cautions suction_cautions(Flow flow, Pressure inlet, const LiquidState& liquid) const {
    const Duty d = duty(flow, liquid);
    const double available = head_available(inlet, liquid);
    if (!d.head_required || available >= *d.head_required) return {};
    return {{"suction-starved",
             {},
             fmt::format("the net positive suction head available, {}, is below what the pump requires, {}: it would "
                         "cavitate; raise the tank, widen or shorten the suction line, or slow the pump",
                         parts_detail::length_words(available), parts_detail::length_words(*d.head_required)),
             available,
             *d.head_required,
             "the pump's points by the speed law; vapour pressure of water"}};
  }

  /// The first place is the pump's inlet: its pressure, at its elevation, is the suction's.
  [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& liquid) const {
    Cautions found;
    const double flow = working.flow;
    const double last = si(points.back().flow) * speed;
    if (flow > last) {
      found.push_back({"outside-pump-curve",
                       {},
                       "more flow than the last point of the pump's curve: the gain is extended along its tangent",
                       flow,
                       last,
                       "the pump's points by the speed law"});
    }
    if (liquid.viscosity / liquid.density > thick_limit) {
      found.push_back({"pump-curve-for-water",
                       {},
                       "the liquid is much thicker than water, for which pump curves are drawn: the pump gives less; "
                       "see ANSI/HI 9.6.7",
                       liquid.viscosity / liquid.density,
                       thick_limit,
                       "common practice, from memory"});
    }
    if (flow > 0.0) {
      const Pressure inlet = from_si<Pressure>(working.from);
      for (Caution& c : suction_cautions(from_si<Flow>(flow), inlet, liquid)) found.push_back(std::move(c));
    }
    return found;
  }

 private:
  using Curve = physics::MonotoneCurve;

  /// Fall of the gain from shutoff against flow, at the points' speed and density, strictly rising. The fall and not
  /// the gain is interpolated: near shutoff it keeps its digits.
  [[nodiscard]] Curve fall() const {
    const double least = least_fall * si(points.front().gain) / si(points.back().flow);
    std::vector<double> x{0.0}, y{0.0};
    for (std::size_t i = 1; i < points.size(); ++i) {
      const double by_points = si(points.front().gain) - si(points[i].gain);
      const double q = si(points[i].flow);
      y.push_back(std::max(by_points, y.back() + least * (q - x.back())));
      x.push_back(q);
    }
    return {std::move(x), std::move(y)};
  }

  void check_point(const std::string& where, std::size_t i) const {
    const PumpPoint& p = points[i];
    require_in(where + ", flow", si(p.flow), flow_range, "m3/s");
    require_in(where + ", gain", si(p.gain), i == 0 ? shutoff_range : gain_range, "Pa");
    if (i == 0 && si(p.flow) != 0.0) {
      throw InputError(where + ", flow", fmt::format("{:.6g} m3/s in the first point", si(p.flow)),
                       "0: the curve starts with the gain at no flow (shutoff)");
    }
    if (i > 0 && !(si(p.flow) - si(points[i - 1].flow) >= 1e-9)) {
      throw InputError(where + ", flow",
                       fmt::format("{:.6g} m3/s after {:.6g} m3/s", si(p.flow), si(points[i - 1].flow)),
                       "flows that rise from point to point by 1e-9 m3/s or more");
    }
    if (i > 0 && si(p.gain) > si(points[i - 1].gain)) {
      throw InputError(
          where + ", gain",
          fmt::format("{:.6g} Pa after {:.6g} Pa: the curve rises before it falls, so one gain has two flows "
                      "and the pump may hunt between them",
                      si(p.gain), si(points[i - 1].gain)),
          "gains that never rise from point to point; choose a pump with a falling curve, or give the "
          "falling part with the highest gain held down to no flow");
    }
    const PumpPoint& first = points.front();
    if (p.efficiency.has_value() != first.efficiency.has_value() ||
        p.suction_head.has_value() != first.suction_head.has_value() ||
        p.shaft_power.has_value() != first.shaft_power.has_value()) {
      throw InputError(where, "has other columns than point 1",
                       "efficiency, suction head and shaft power each in every point or in none");
    }
    if (p.efficiency) require_in(where + ", efficiency", *p.efficiency, {i == 0 ? 0.0 : 1e-3, 1.0}, "");
    if (p.suction_head) require_in(where + ", suction head", si(*p.suction_head), suction_head_range, "m");
    if (p.shaft_power) require_in(where + ", shaft power", *p.shaft_power, power_range, "W");
  }
};

static_assert(PartType<PumpCurve>);

}  // namespace libflow
