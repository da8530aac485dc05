// SPDX-License-Identifier: MIT
/// @file
/// Spring check valve: no flow until the crack pressure, then a passage; never any flow back.
#pragma once

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstdint>
#include <numbers>
#include <optional>
#include <string_view>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>
#include <libflow/physics/discharge.hpp>

namespace libflow {

/// Rise above the crack pressure of a disc that a spring pushes onto its seat.
///
/// The lift grows in proportion to the pressure above the crack pressure (the spring), is complete at the fully-open
/// pressure, and comes to its stop smoothly over the last fifth of the rise. At part lift the valve passes that part of
/// the flow that its open passage would pass at the same pressure. So near the crack pressure
/// dp = crack + span q / (open passage's flow at crack): a rising line with a positive slope at zero flow; past the
/// fully-open pressure it is the open passage alone.
/// Source: hydrostatic balance of spring and disc; the flow's own push on the disc is left out. The smooth stop is
/// ours.
/// @tparam S  scalar: double, or a number with slopes
template <class S>
class BasicSpringSeat {
 public:
  /// @param passage    the open passage as a hole
  /// @param crack      [Pa], > 0
  /// @param full_open  [Pa], > crack
  BasicSpringSeat(const physics::Hole<S>& passage, const S& crack, const S& full_open)
      : passage_(passage),
        crack_(crack),
        span_(full_open - crack),
        at_crack_(flow_at(crack)),
        at_full_(flow_at(full_open)) {}

  /// Drop less the crack pressure, and its slope, at a flow; odd in the flow so that it is whole.
  [[nodiscard]] Drop<S> operator()(const S& q) const {
    using std::abs;
    const S flow = abs(q);
    const auto with_sign = [&](const S& dp) { return physics::select<S>(q < S(0.0), S(-dp), dp); };
    if (flow >= at_full_) {
      const Drop<S> d = physics::drop_hole<S>(flow, passage_);
      return {with_sign(S(d.dp - crack_)), d.slope};
    }
    // `x` is what the open passage would pass; the lift is flow/x. Both sides rise in x, so there is one root.
    const auto excess = [&](const S& x) {
      return S(physics::drop_hole<S>(x, passage_).dp - crack_ - span_ * rise_of(S(flow / x)));
    };
    const auto slope = [&](const S& x) {
      const S at = flow / x;
      return S(physics::drop_hole<S>(x, passage_).slope + span_ * at / x / lift_slope(rise_of(at)));
    };
    const S low = physics::larger<S>(flow, at_crack_);
    const S x = physics::value_of(flow) == 0.0 ? at_crack_ : root(excess, slope, low, at_full_);
    // Two ways to say the same pressure: by the lift, exact near the seat, and by the passage, exact near the stop,
    // where the lift's last digit is half of the rise's digits.
    const Drop<S> passed = physics::drop_hole<S>(x, passage_);
    const S at = flow / x;
    const S above = at <= steep * (1.0 - 2.0 * stop) ? S(span_ * rise_of(at)) : S(passed.dp - crack_);
    const S rise = above / span_;
    const S inverse = lift_slope(rise) * x / span_ + lift(rise) / passed.slope;
    return {with_sign(above), S(S(1.0) / inverse)};
  }

  /// Flow at which the valve is fully open [m3/s].
  [[nodiscard]] S full_flow() const { return at_full_; }

 private:
  static constexpr double stop = 0.1;                  // half of the part of the rise over which the disc comes to rest
  static constexpr double steep = 1.0 / (1.0 - stop);  // of the line before it, so that it ends at lift 1

  [[nodiscard]] static S lift(const S& rise) {
    if (rise <= 1.0 - 2.0 * stop) return S(S(steep) * rise);
    return S(S(1.0) - S(steep) * (S(1.0) - rise) * (S(1.0) - rise) / S(4.0 * stop));
  }
  [[nodiscard]] static S lift_slope(const S& rise) {
    return rise <= 1.0 - 2.0 * stop ? S(steep) : S(S(steep) * (S(1.0) - rise) / S(2.0 * stop));
  }
  [[nodiscard]] static S rise_of(const S& lift) {
    using std::sqrt;
    if (lift <= steep * (1.0 - 2.0 * stop)) return S(lift / S(steep));
    return S(S(1.0) - sqrt(physics::larger<S>(S(0.0), S(S(4.0 * stop) * (S(1.0) - lift) / S(steep)))));
  }

  /// Root of f between low and high. The root itself is found on plain numbers; Newton steps from there carry its
  /// slopes exactly (the implicit function theorem) and its further digits.
  template <class F, class Slope>
  [[nodiscard]] static S root(const F& f, const Slope& slope, const S& low, const S& high) {
    const auto plain = [&](double x) { return physics::value_of(f(S(x))); };
    const double a = physics::value_of(low), b = physics::value_of(high);
    const double at_low = plain(a), at_high = plain(b);
    if (at_low >= 0.0) return low;
    if (at_high <= 0.0) return high;
    std::uintmax_t steps = 100;
    const auto found = boost::math::tools::toms748_solve(plain, a, b, at_low, at_high,
                                                         boost::math::tools::eps_tolerance<double>(52), steps);
    S x(0.5 * (found.first + found.second));
    constexpr int further = std::same_as<S, double> ? 0 : 2;
    for (int i = 0; i < further; ++i) x -= f(x) / slope(x);
    return x;
  }

  [[nodiscard]] S flow_at(const S& pressure) const {
    using std::sqrt;
    const auto miss = [&](const S& q) { return S(physics::drop_hole<S>(q, passage_).dp - pressure); };
    const auto slope = [&](const S& q) { return physics::drop_hole<S>(q, passage_).slope; };
    // More than the creeping or the jet's flow alone is never passed; the bridge in drop_hole can halve the inertia.
    const S jet = sqrt(S(pressure / (passage_.inertia * (S(1.0) - passage_.uncontracted))));
    return root(miss, slope, S(0.0), S(physics::smaller<S>(jet, S(pressure / passage_.creeping)) * S(1.0 + 1e-12)));
  }

  physics::Hole<S> passage_;
  S crack_, span_, at_crack_, at_full_;
};

/// On plain numbers.
using SpringSeat = BasicSpringSeat<double>;

/// Law without `full_open`: forward drop = crack pressure + drop across a sharp hole of `passage_bore`, flow zero while
/// the pressure across it is at most the crack pressure. The forward passage is described by the sharp hole that loses
/// the same at the rated water flow (`rated`): what a maker states as a loss above the crack pressure.
///
/// Law with `full_open`: the disc lifts against its spring (SpringSeat), and `passage_bore` is the sharp hole that
/// loses the *whole* drop once the valve is fully open: what a maker states as a pressure at which the valve is fully
/// open.
struct CheckValve {
  Pressure crack{};       ///< 0 to 2 MPa
  Length passage_bore{};  ///< of the equivalent sharp hole, 0.05 mm to 50 mm
  /// Pressure across the valve at which it is fully open, above `crack` (then at least 1 Pa), to 4 MPa; empty: at once.
  std::optional<Pressure> full_open = std::nullopt;
  /// Valves of one box crack within this much of `crack` on either side, 0 to crack. Not in the law: data for a
  /// tolerance study, and for the caution that a row sits within it.
  Pressure crack_spread = from_si<Pressure>(0.0);

  static constexpr std::string_view kind = "check valve";
  static constexpr Contract contract = Contract::one_way;
  static constexpr std::tuple inputs{Input{"crack", "Pa", &CheckValve::crack},
                                     Input{"passage bore", "m", &CheckValve::passage_bore},
                                     Input{"fully-open pressure", "Pa", &CheckValve::full_open}};
  static constexpr Range crack_range{0.0, 2e6};      ///< [Pa]
  static constexpr Range full_open_range{1.0, 4e6};  ///< [Pa]

  /// A valve that cracks at `crack` and loses `loss` more at `flow` of water at 20 C.
  static CheckValve rated(Pressure crack, Flow flow, Pressure loss, std::string_view where = kind) {
    return {.crack = crack, .passage_bore = Orifice::rated(flow, loss, where).bore};
  }

  /// A valve that cracks at `crack` and is fully open at `full_open`, then passing `flow` of water at 20 C.
  static CheckValve sprung(Pressure crack, Pressure full_open, Flow flow, std::string_view where = kind) {
    return {.crack = crack, .passage_bore = Orifice::rated(flow, full_open, where).bore, .full_open = full_open};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, crack", where), si(crack), crack_range, "Pa");
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
    require_in(fmt::format("{}, crack spread", where), si(crack_spread), {0.0, si(crack)}, "Pa");
    if (full_open) {
      require_in(fmt::format("{}, crack", where), si(crack), {1.0, crack_range.high}, "Pa");
      // A spring that gives way within 1 % of its crack pressure cannot be told from one that opens at once.
      require_in(fmt::format("{}, fully-open pressure", where), si(*full_open),
                 {1.01 * si(crack), full_open_range.high}, "Pa");
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 3>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = Orifice::sharp_law<S>(in[1], liquid);
    if (full_open) {
      law.functions.emplace_back(BasicSpringSeat<S>(law.holes.front(), in[0], in[2]));
      law.holes.clear();
    }
    law.threshold = in[0];
    law.passes = Passes::forward;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }

  /// The earliest and the latest valve of a box.
  [[nodiscard]] CheckValve earliest() const { return of_the_box(crack - crack_spread); }
  /// The same valve at the upper end of its spread.
  [[nodiscard]] CheckValve latest() const { return of_the_box(crack + crack_spread); }
  /// The same valve with another crack pressure; a spring set harder moves its fully-open pressure by as much.
  [[nodiscard]] CheckValve cracking_at(Pressure pressure) const {
    CheckValve other = *this;
    if (other.full_open) *other.full_open += pressure - crack;
    other.crack = pressure;
    return other;
  }

  /// "near-crack": what there is to open the valve is within the spread, so another valve of the box would stay shut.
  /// Shut, a valve at a row's end has the pressure before it across it (behind it the air; a lift or fall behind it is
  /// not counted), and at least what is across it while it is open. "part-open": the disc floats between seat and stop.
  [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& liquid) const {
    if (!(working.flow > 0.0)) return {};
    Cautions found;
    const double across = law(liquid)(working.flow).dp;
    const double opens = std::max(across, working.from);
    if (opens < si(crack) + si(crack_spread)) {
      found.push_back({"near-crack",
                       {},
                       "the pressure before this check valve is within the spread of crack pressures: another valve of "
                       "the same kind might stay shut here",
                       opens,
                       si(crack) + si(crack_spread),
                       "crack pressure and spread given"});
    }
    if (full_open && across < si(*full_open)) {
      found.push_back({"part-open",
                       {},
                       "the check valve is not fully open: its spring, not its passage, sets the flow",
                       across,
                       si(*full_open),
                       "fully-open pressure given"});
    }
    return found;
  }

 private:
  [[nodiscard]] CheckValve of_the_box(Pressure pressure) const {
    CheckValve other = cracking_at(pressure);
    other.crack_spread = from_si<Pressure>(0.0);
    return other;
  }
};

static_assert(PartType<CheckValve>);

/// What comes out of one row after the flow has stopped.
struct Dribble {
  bool holds = true;         ///< the standing column alone does not open the valve
  Pressure standing{};       ///< static head on the valve when the line has come to rest
  Length drains{};           ///< height of the column that runs out, then the valve closes
  Volume column{};           ///< its volume
  Volume relaxed{};          ///< what the stretched line gives back until its pressure is down to the crack pressure
  Volume below{};            ///< behind the valve, nothing holds it: drips unless the tube is too narrow to let air in
  bool below_hangs = false;  ///< true: the tube below is that narrow (physics::bond_no_climb) and `below` stays
  /// All that comes out.
  [[nodiscard]] Volume total() const { return column + relaxed + (below_hangs ? from_si<Volume>(0.0) : below); }
};

/// The line around a row's check valve when the flow stops.
struct StoppedRow {
  Length column{};       ///< liquid standing above the valve once the flow has stopped
  Area column_area{};    ///< inside area of what holds that column (a row's hose, or its share of a bar)
  Volume trapped{};      ///< liquid cut off under pressure between the shut section valve and this valve
  double storage = 0.0;  ///< of that line [1/Pa], physics::tube_storage
  Pressure before{};     ///< gauge pressure in it when the flow stopped
  Length tail_bore{};    ///< tube behind the valve
  Length tail{};         ///< its length
  double surface_tension = physics::water_surface_tension;  ///< [N/m]
};

/// Dribble after a stop, by hydrostatics: the line relaxes to the crack pressure first (or to the head that stands, if
/// that is more), then a column higher than the crack pressure runs down to it.
/// @throws InputError  a negative or not finite length, volume, storage or pressure; a surface tension not above 0
[[nodiscard]] inline Dribble dribble(const CheckValve& valve, const StoppedRow& row, const LiquidState& liquid) {
  const Range some{0.0, 1e9};
  require_in("dribble, column", si(row.column), some, "m");
  require_in("dribble, column area", si(row.column_area), some, "m2");
  require_in("dribble, trapped volume", si(row.trapped), some, "m3");
  require_in("dribble, storage", row.storage, some, "1/Pa");
  require_in("dribble, pressure before", si(row.before), some, "Pa");
  require_in("dribble, tail", si(row.tail), some, "m");
  require_in("dribble, tail bore", si(row.tail_bore), some, "m");
  require_in("dribble, surface tension", row.surface_tension, {1e-3, 1.0}, "N/m");
  valve.check("dribble, check valve");
  Dribble d;
  const double standing = liquid.density * standard_gravity * si(row.column);
  d.standing = from_si<Pressure>(standing);
  d.holds = standing <= si(valve.crack);
  d.drains = from_si<Length>(physics::drained_height<double>(si(row.column), si(valve.crack), liquid.density));
  d.column = d.drains * row.column_area;
  d.relaxed = from_si<Volume>(physics::relaxed_volume<double>(si(row.trapped), row.storage, si(row.before),
                                                              std::max(si(valve.crack), standing)));
  const double bore = si(row.tail_bore);
  d.below = from_si<Volume>(std::numbers::pi / 4.0 * bore * bore * si(row.tail));
  d.below_hangs = physics::bond_number<double>(bore, liquid.density, row.surface_tension) < physics::bond_no_climb;
  return d;
}

}  // namespace libflow
