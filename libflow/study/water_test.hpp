// SPDX-License-Identifier: MIT
/// @file
/// From a test with water to the product: the square-root rule, and what the plumbing really does.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/toolbar.hpp>

namespace libflow {

/// Flow of water over flow of product at one pressure through a sharp orifice at high Reynolds number:
/// sqrt(product density / water density). A rate of product is set as the rate times this on charts made for water.
/// Sources: University of Nebraska-Lincoln CropWatch 2016; P. Sumner, University of Georgia; both with tables.
/// It knows nothing of viscosity.
[[nodiscard]] inline double square_root_factor(Density product, Density water) {
  return std::sqrt(si(product) / si(water));
}

/// A bar set with water by the square-root rule, then run with the product. SI.
struct WaterTest {
  double water_temperature = 293.15;  ///< [K]
  double rule_factor = 1;             ///< water's flow over the product's by the rule [-]
  double factor = 1;                  ///< the same by the plumbing, at one pressure [-]
  double water_rate = 0;              ///< to be caught with water so that, by the rule, the product's is right [m3/m2]
  double pressure = 0;                ///< that this takes with water [Pa gauge]
  double product_rate = 0;            ///< that the product then has at this pressure [m3/m2]
  double product_flow = 0;            ///< [m3/s]
  double error = 0;                   ///< product_rate over what was wanted, less one [-]
  double right_pressure = 0;          ///< that the product needs for what was wanted [Pa gauge]
  double water_cv = 0;                ///< of the rows, with water [-]
  double product_cv = 0;              ///< of the rows, with the product at that pressure [-]
  bool same_setting = false;          ///< the supply is no rate controller: both run at the layout's own setting
  bool fails = false;                 ///< |error| is more than the job's tolerance
};

namespace water_test_detail {

/// The plumbing with its tanks holding another liquid.
inline void set_tanks(Plumbing& plumbing, const LiquidState& liquid) {
  for (const PlumbedTank& t : plumbing.tanks) {
    plumbing.network.set_supply_pressure(t.place, t.tank.outlet_pressure(from_si<Length>(t.level), liquid));
  }
}

inline Solution solved(const Plumbing& plumbing, const LiquidState& liquid) {
  Solution s = solve_plumbing(plumbing, liquid);
  if (!s.usable()) throw IllPosedError(fmt::format("with {}: {}", liquid.name, s.message));
  return s;
}

}  // namespace water_test_detail

/// @param plumbing  of the layout, with its job's flow given where it is fed; several fed places change in step
/// @param product   the job's liquid as it is in the plumbing
/// @param water     as it is in the test
/// @throws IllPosedError where one of the two has no answer, or no flow of product has the pressure of the test
[[nodiscard]] inline WaterTest water_test(Plumbing plumbing, const Job& job, const LiquidState& product,
                                          const LiquidState& water) {
  using namespace water_test_detail;
  WaterTest w;
  w.water_temperature = water.temperature;
  w.rule_factor = square_root_factor(from_si<Density>(product.density), from_si<Density>(water.density));
  const auto rows = [&](const Solution& s, const LiquidState& liquid) { return evaluate(plumbing, job, s, liquid); };
  const Network::PlaceIndex at = plumbing.supply;
  w.same_setting = plumbing.network.place(at).kind != PlaceKind::fed;
  const Evenness as_set = rows(solved(plumbing, product), product);
  w.right_pressure = as_set.supply_pressure;
  if (w.same_setting) {
    set_tanks(plumbing, water);
    const Evenness wet = rows(solved(plumbing, water), water);
    w.water_rate = wet.mean_rate;
    w.pressure = wet.supply_pressure;
    w.product_rate = as_set.mean_rate;
    w.product_flow = as_set.total_flow;
    w.factor = as_set.mean_rate > 0.0 ? wet.mean_rate / as_set.mean_rate : 0.0;
    w.error = wet.mean_rate > 0.0 ? as_set.mean_rate * w.rule_factor / wet.mean_rate - 1.0 : 0.0;
    w.water_cv = wet.cv;
    w.product_cv = as_set.cv;
  } else {
    const Network given = plumbing.network;
    const auto run = [&](double factor, const LiquidState& liquid) {
      for (Network::PlaceIndex i = 0; i < given.place_count(); ++i) {
        if (given.place(i).kind == PlaceKind::fed) {
          plumbing.network.set_fed_flow(i, from_si<Flow>(factor * given.place(i).flow));
        }
      }
      return solved(plumbing, liquid);
    };
    const Evenness wet = rows(run(w.rule_factor, water), water);
    w.pressure = wet.supply_pressure;
    // The pressure at a fed place rises with the flows fed: one flow of product has the test's pressure.
    const auto excess = [&](double log_factor) {
      const Solution s = run(std::exp(log_factor), product);
      return s.places[at].total_pressure - w.pressure;
    };
    constexpr double lowest = -12.0, highest = 3.0;
    double high = 0.0, low = high;
    while (low > lowest && excess(low) > 0.0) low -= 1.0;
    while (high < highest && excess(high) < 0.0) high += 0.25;
    Evenness with_product;
    if (low <= lowest) {
      with_product.mean_rate = 0.0;  // the test's pressure does not even open the check valves with the product
    } else {
      std::uintmax_t steps = 100;
      const auto bracket = low == high ? std::pair(low, high)
                                       : boost::math::tools::toms748_solve(
                                             excess, low, high, boost::math::tools::eps_tolerance<double>(40), steps);
      with_product = rows(run(std::exp(0.5 * (bracket.first + bracket.second)), product), product);
    }
    w.water_rate = wet.mean_rate;
    w.product_rate = with_product.mean_rate;
    w.product_flow = with_product.total_flow;
    w.factor = with_product.mean_rate > 0.0 ? wet.mean_rate / with_product.mean_rate : 0.0;
    w.error = as_set.mean_rate > 0.0 ? with_product.mean_rate / as_set.mean_rate - 1.0 : 0.0;
    w.water_cv = wet.cv;
    w.product_cv = with_product.cv;
  }
  w.fails = std::abs(w.error) > job.tolerance;
  return w;
}

}  // namespace libflow
