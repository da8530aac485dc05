// SPDX-License-Identifier: MIT
#include <libflow/study/water_test.hpp>

#include <cmath>
#include <utility>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/toolbar.hpp>

namespace libflow {

double square_root_factor(Density product, Density water) { return std::sqrt(si(product) / si(water)); }

namespace water_test_detail {

/// The plumbing with its tanks holding another liquid.
static void set_tanks(Plumbing& plumbing, const LiquidState& liquid) {
  for (const PlumbedTank& t : plumbing.tanks) {
    plumbing.network.set_supply_pressure(t.place, t.tank.outlet_pressure(from_si<Length>(t.level), liquid));
  }
}

static Solution solved(const Plumbing& plumbing, const LiquidState& liquid) {
  Solution s = solve_plumbing(plumbing, liquid);
  if (!s.usable()) throw IllPosedError(fmt::format("with {}: {}", liquid.name, s.message));
  return s;
}

}  // namespace water_test_detail

WaterTest water_test(Plumbing plumbing, const Job& job, const LiquidState& product, const LiquidState& water) {
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
    if (high >= highest && excess(high) < 0.0) {
      throw IllPosedError(fmt::format("no flow of {} has the pressure of the test with water", product.name));
    }
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
