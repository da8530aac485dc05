// SPDX-License-Identifier: MIT
/// @file
/// Before a catch test: what each cup should hold, with the product and with water, and what the test can prove.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/study/catch_statistics.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

/// How the cups are held and read.
struct CatchSetup {
  Time time = from_si<Time>(30.0);         ///< each cup under its row, 1 s to 1 h
  int repeats = 3;                         ///< 1 to 100
  double reading_error = 0.02;             ///< standard deviation of one reading [-] (common practice)
  Time timing_error = from_si<Time>(0.2);  ///< of the stop-watch, standard deviation (common practice)
  bool together = true;                    ///< all cups at once: the stop-watch's error is common to all
  Area strip = from_si<Area>(units::acre.value() / 128.0);  ///< the part of a field that one row stands for
  Temperature water_temperature = from_si<Temperature>(288.15);
  CatchPower power{};

  /// @throws InputError
  void check() const {
    require_in("catch test, time", si(time), {1.0, 3600.0}, "s");
    require_in("catch test, repeats", repeats, {1, 100}, "");
    require_in("catch test, reading error", reading_error, {1e-6, 0.5}, "");
    require_in("catch test, timing error", si(timing_error), {0.0, 60.0}, "s");
    require_in("catch test, strip", si(strip), {0.1, 1e5}, "m2");
    power.check();
  }
  /// Standard deviation of one cup against the others, as a share of it.
  [[nodiscard]] double cup_error() const {
    const double timing = together ? 0.0 : si(timing_error) / si(time);
    return std::hypot(reading_error, timing);
  }
};

/// One row's cup. SI.
struct CatchPlanRow {
  int row = 0;
  bool shut = false;
  double product = 0, water = 0;  ///< in the cup after the time [m3]
  double strip_length = 0;        ///< that the row drives over its share of the strip [m]
  double strip_time = 0;          ///< at its ground speed [s]
  double strip_volume = 0;        ///< of product on the strip [m3]; over the strip, the row's rate
};

/// The plan of a catch test.
struct CatchPlan {
  CatchSetup setup;
  Answer product;                      ///< the layout at its job
  Answer water;                        ///< the same with water
  bool water_at_same_pressure = true;  ///< false: free form fed by a flow, so water runs at the same total instead
  std::vector<CatchPlanRow> rows;
  double provable_row = 0;  ///< least difference of one row from the others that the cups prove [-]
  double provable_cv = 0;   ///< least coefficient of variation that they tell from reading error [-]
  Cautions cautions;
};

namespace catch_detail {

/// The layout with water, its supply at the pressure that the product needed.
inline Layout with_water(const Answer& product, const CatchSetup& setup, bool& same_pressure) {
  Layout layout = product.layout;
  layout.job.liquid = find_liquid("water");
  layout.job.temperature = setup.water_temperature;
  if (auto* bar = std::get_if<Toolbar>(&layout.plumbing)) {
    bar->drive.reset();
    layout.job.pressure = from_si<Pressure>(product.evenness.supply_pressure);
  } else {
    const auto& plumbing = std::get<Plumbing>(layout.plumbing);
    same_pressure = plumbing.network.place(plumbing.supply).kind != PlaceKind::fed;
  }
  return layout;
}

}  // namespace catch_detail

/// @throws InputError, IllPosedError as main_job; InputError for a setup out of range or a bar on which nothing flows
[[nodiscard]] inline CatchPlan plan_catch(const Layout& layout, const CatchSetup& setup = {}) {
  setup.check();
  CatchPlan plan;
  plan.setup = setup;
  plan.product = main_job(layout);
  if (!plan.product.solution.usable()) throw IllPosedError(plan.product.solution.message);
  if (!(plan.product.evenness.mean_rate > 0.0)) {
    throw InputError("catch test", "nothing flows out of any row at this setting", "a setting at which rows deliver");
  }
  plan.water = main_job(catch_detail::with_water(plan.product, setup, plan.water_at_same_pressure));
  if (!plan.water.solution.usable()) throw IllPosedError(plan.water.solution.message);
  int open = 0;
  const double time = si(setup.time);
  for (std::size_t i = 0; i < plan.product.evenness.rows.size(); ++i) {
    const RowResult& p = plan.product.evenness.rows[i];
    CatchPlanRow row{.row = p.row, .shut = p.shut};
    if (!p.shut) {
      ++open;
      row.product = p.flow * time;
      row.water = plan.water.evenness.rows[i].flow * time;
      row.strip_length = si(setup.strip) / p.width;
      row.strip_time = row.strip_length / p.speed;
      row.strip_volume = p.flow * row.strip_time;
    }
    plan.rows.push_back(row);
  }
  if (open >= 2) {
    plan.provable_row = provable_row_difference(setup.cup_error(), open, setup.repeats, setup.power);
    plan.provable_cv = provable_cv(setup.cup_error(), open, setup.repeats, setup.power);
  }
  if (plan.provable_row > plan.product.evenness.tolerance) {
    plan.cautions.push_back({"cups-prove-too-little", "catch test",
                             "a row that is off by just the tolerance would not be proved: more repeats, a longer time "
                             "or a better measure are wanted",
                             plan.provable_row, plan.product.evenness.tolerance,
                             "NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.2.2"});
  }
  plan.cautions.push_back(
      {"handle-with-care", "catch test",
       "stay clear of moving parts and of liquid under pressure; wear what the product's label asks "
       "for; begin with water",
       std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN(),
       "common practice; label and safety data sheet decide"});
  if (plan.product.liquid.viscosity > 3e-3) {
    plan.cautions.push_back({"catch-the-product-too", "catch test",
                             "the product is much thicker than water: rows that are even with water need not be even "
                             "with it, so catch the product too",
                             plan.product.liquid.viscosity, 3e-3, "common practice, no source"});
  }
  return plan;
}

}  // namespace libflow
