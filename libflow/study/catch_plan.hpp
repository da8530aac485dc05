// SPDX-License-Identifier: MIT
/// @file
/// Before a catch test: what each cup should hold, with the product and with water, and what the test can prove.
#pragma once

#include <cmath>
#include <vector>

#include <libflow/core/range.hpp>
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
  Area strip = from_si<Area>(units::acre.value() / 128.0);       ///< the part of a field that one row stands for
  Temperature water_temperature = from_si<Temperature>(288.15);  ///< of a catch with water
  CatchPower power{};                                            ///< what the cups are to prove

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
  int row = 0;                    ///< 1-based
  bool shut = false;              ///< valved off: no cup
  double product = 0, water = 0;  ///< in the cup after the time [m3]
  double strip_length = 0;        ///< that the row drives over its share of the strip [m]
  double strip_time = 0;          ///< at its ground speed [s]
  double strip_volume = 0;        ///< of product on the strip [m3]; over the strip, the row's rate
};

/// The plan of a catch test.
struct CatchPlan {
  CatchSetup setup;                    ///< as asked
  Answer product;                      ///< the layout at its job
  Answer water;                        ///< the same with water
  bool water_at_same_pressure = true;  ///< false: free form fed by a flow, so water runs at the same total instead
  std::vector<CatchPlanRow> rows;      ///< from left to right
  double provable_row = 0;             ///< least difference of one row from the others that the cups prove [-]
  double provable_cv = 0;              ///< least coefficient of variation that they tell from reading error [-]
  Cautions cautions;                   ///< what a person should know
};

namespace catch_detail {

/// The layout with water, its supply at the pressure that the product needed.
Layout with_water(const Answer& product, const CatchSetup& setup, bool& same_pressure);

}  // namespace catch_detail

/// @throws InputError, IllPosedError as main_job; InputError for a setup out of range or a bar on which nothing flows
[[nodiscard]] CatchPlan plan_catch(const Layout& layout, const CatchSetup& setup = {});

}  // namespace libflow
