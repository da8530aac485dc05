// SPDX-License-Identifier: MIT
/// @file
/// Anything else: a part known by a table of flow and drop.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <memory>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/monotone_curve.hpp>

namespace libflow {

/// One measured point of a part.
struct TablePoint {
  Flow flow{};      ///< through it
  Pressure drop{};  ///< lost at that flow
};

/// Law: through the points and through zero by a monotone piecewise cubic (F. N. Fritsch, J. Butland, SIAM J. Sci.
/// Stat. Comput. 5 (1984) 300, as in Boost.Math's pchip), the same in both directions. Beyond the last point the drop
/// goes on as a power of the flow that joins with the same slope: the exponent of the last two points, at most 2 (the
/// square law).
///
/// For another liquid than the measured one a rigid part follows exactly from the law of similarity: drop over
/// density times kinematic viscosity squared depends on flow over kinematic viscosity alone (any fluid mechanics
/// textbook). For a part that is not rigid (a spring, a membrane) the table is used as it is.
struct TablePart {
  std::vector<TablePoint> points{};                     ///< 2 to 1000, flow and drop both rising, from above 0
  Density density = from_si<Density>(998.2);            ///< of the measured liquid; default: water, 20 C
  Viscosity viscosity = from_si<Viscosity>(1.0016e-3);  ///< of the measured liquid
  bool rigid = true;                                    ///< nothing in it moves with the flow

  static constexpr std::string_view kind = "part by table";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"density", "kg/m3", &TablePart::density},
                                     Input{"viscosity", "Pa s", &TablePart::viscosity}};
  static constexpr Range flow_range{1e-12, 10.0};   ///< [m3/s]
  static constexpr Range drop_range{1e-6, 1e8};     ///< [Pa]
  static constexpr std::size_t most_points = 1000;  ///< of one table

  void check(std::string_view where) const {
    if (points.size() < 2 || points.size() > most_points) {
      throw InputError(fmt::format("{}, points", where), fmt::format("{} given", points.size()),
                       fmt::format("2 to {} points of flow and drop, without zero flow", most_points));
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double q = si(points[i].flow), dp = si(points[i].drop);
      require_in(fmt::format("{}, point {}, flow", where, i + 1), q, flow_range, "m3/s");
      require_in(fmt::format("{}, point {}, drop", where, i + 1), dp, drop_range, "Pa");
      if (i > 0 && !(q > si(points[i - 1].flow))) {
        throw InputError(fmt::format("{}, point {}, flow", where, i + 1), fmt::format("{:.6g} m3/s", q),
                         fmt::format("more than the point before, {:.6g} m3/s", si(points[i - 1].flow)));
      }
      if (i > 0 && !(dp > si(points[i - 1].drop))) {
        throw InputError(fmt::format("{}, point {}, drop", where, i + 1), fmt::format("{:.6g} Pa", dp),
                         fmt::format("more than the point before, {:.6g} Pa: a drop must rise with the flow",
                                     si(points[i - 1].drop)));
      }
    }
    require_in(fmt::format("{}, density", where), si(density), liquid_density, "kg/m3");
    require_in(fmt::format("{}, viscosity", where), si(viscosity), liquid_viscosity, "Pa s");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    const S nu = liquid.viscosity / liquid.density, measured = in[1] / in[0];
    const S flows = rigid ? S(measured / nu) : S(1.0);
    const S drops = rigid ? S(liquid.density * nu * nu / (in[0] * measured * measured)) : S(1.0);
    BasicLaw<S> law;
    law.functions.emplace_back([curve = std::make_shared<const Curve>(points), flows, drops](const S& q) -> Drop<S> {
      using std::abs;
      const S at = abs(q) * flows;
      const Drop<double> d = (*curve)(physics::value_of(at));
      // Along the tangent at the flow itself: adds nothing to the value and carries the slopes.
      const S dp = (S(d.dp) + S(d.slope) * (at - S(physics::value_of(at)))) * drops;
      return {physics::select<S>(q < S(0.0), S(-dp), dp), S(S(d.slope) * drops * flows)};
    });
    return law;
  }

  [[nodiscard]] Cautions cautions(double flow, double /*inlet_pressure*/, const LiquidState& liquid) const {
    const double q = std::abs(flow) * flow_scale(liquid);
    const double first = si(points.front().flow), last = si(points.back().flow);
    Cautions found;
    if (q > last) {
      found.push_back({"outside-range",
                       {},
                       "the flow is beyond the last point of the part's table: its drop is carried on as a power of "
                       "the flow",
                       std::abs(flow),
                       last / flow_scale(liquid),
                       "table given"});
    }
    if (q > 0.0 && q < first) {
      found.push_back({"outside-range",
                       {},
                       "the flow is below the first point of the part's table: its drop is drawn from there to zero",
                       std::abs(flow),
                       first / flow_scale(liquid),
                       "table given"});
    }
    if (!rigid && (differs(liquid.density, si(density)) || differs(liquid.viscosity, si(viscosity)))) {
      found.push_back({"another-liquid",
                       {},
                       "the part's table was measured with a liquid of another density or viscosity and is used as it "
                       "is",
                       liquid.viscosity,
                       si(viscosity),
                       "table given"});
    }
    return found;
  }

 private:
  /// The table's flow at which the part is in the same state as at a flow of this liquid, per flow [-].
  [[nodiscard]] double flow_scale(const LiquidState& liquid) const {
    return rigid ? (si(viscosity) / si(density)) / (liquid.viscosity / liquid.density) : 1.0;
  }
  /// By more than 10 % (common practice, no source).
  static bool differs(double a, double b) { return std::abs(a - b) > 0.1 * b; }

  /// Drop and slope at flows of the measured liquid, 0 and more.
  class Curve {
   public:
    explicit Curve(const std::vector<TablePoint>& points)
        : last_flow_(si(points.back().flow)),
          last_drop_(si(points.back().drop)),
          exponent_(end_exponent(points)),
          inside_(flows(points), drops(points), nan, exponent_ * last_drop_ / last_flow_) {}

    [[nodiscard]] Drop<double> operator()(double q) const {
      if (q < last_flow_) return {inside_(q), inside_.prime(q)};
      const double dp = last_drop_ * std::pow(q / last_flow_, exponent_);
      return {dp, exponent_ * dp / q};
    }

   private:
    static constexpr double nan = std::numeric_limits<double>::quiet_NaN();

    // Beyond the last point it goes on as the last two points do, at most as a square. The cubic stays monotone while
    // its end slope is below three times the last chord's; this one is below twice (Bernoulli's inequality).
    static double end_exponent(const std::vector<TablePoint>& points) {
      const TablePoint &a = points[points.size() - 2], &b = points.back();
      return std::min(2.0, std::log(si(b.drop) / si(a.drop)) / std::log(si(b.flow) / si(a.flow)));
    }
    // Mirrored at zero, so that the curve starts with the slope that an odd law has there.
    template <class Get>
    static std::vector<double> mirrored(const std::vector<TablePoint>& points, Get get) {
      std::vector<double> v;
      v.reserve(2 * points.size() + 1);
      for (auto p = points.rbegin(); p != points.rend(); ++p) v.push_back(-get(*p));
      v.push_back(0.0);
      for (const TablePoint& p : points) v.push_back(get(p));
      return v;
    }
    static std::vector<double> flows(const std::vector<TablePoint>& points) {
      return mirrored(points, [](const TablePoint& p) { return si(p.flow); });
    }
    static std::vector<double> drops(const std::vector<TablePoint>& points) {
      return mirrored(points, [](const TablePoint& p) { return si(p.drop); });
    }

    double last_flow_, last_drop_, exponent_;
    physics::MonotoneCurve inside_;
  };
};

static_assert(PartType<TablePart>);

}  // namespace libflow
