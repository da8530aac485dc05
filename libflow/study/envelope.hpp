// SPDX-License-Identifier: MIT
/// @file
/// The envelope: over ground speed and rate (and temperature and side slope), where a toolbar is even, where it runs
/// but is not as wanted, where it cannot run, and which limit binds; and over which speeds each rate can be used.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/operating_state.hpp>

namespace libflow {

/// What is walked over. Speeds and rates are needed; without temperatures or slopes the layout's own is taken.
struct EnvelopeAxes {
  std::vector<Speed> speeds{};              ///< rising, 1 to 1000
  std::vector<AreaRate> rates{};            ///< rising, 1 to 1000
  std::vector<Temperature> temperatures{};  ///< at most 100
  std::vector<Angle> side_slopes{};         ///< at most 100; a toolbar's only, not a free form's
};

/// What is asked.
struct EnvelopeOptions {
  bool usable_speeds = true;      ///< find the usable speeds of every rate
  std::string control{};          ///< of a free form: the part that is moved (operating_control.hpp)
  double speed_tolerance = 1e-4;  ///< of their ends, over the speed, 1e-12 to 0.1
};

/// How a toolbar does at one point.
enum class PointState {
  cannot_run,  ///< the rate is not reached, or a limit that stops it is broken
  poor,        ///< it runs, but uneven, or outside the orifices' or the meter's window
  even         ///< it runs, even and as wanted
};

/// One point. SI.
struct EnvelopePoint {
  double speed = 0, rate = 0, temperature = 0, side_slope = 0;  ///< the point [m/s], [m3/m2], [K], [rad]
  PointState state = PointState::cannot_run;                    ///< how it does
  bool advised = true;   ///< every limit of good practice is kept too (pump reserve, velocities, relief valve shut)
  std::string binding;   ///< the limit that stops it, that makes it poor, or that comes next; by its name
  double margin = 0;     ///< of that limit [-]; negative: broken
  double cv = 0;         ///< of the rows' rates [-]
  double worst = 0;      ///< the furthest row's deviation, signed [-]
  int worst_row = 0;     ///< its number; 0: none
  double gauge = 0;      ///< pressure that the rows need [Pa]
  double setting = 0;    ///< of the control; where not reached, the end of its range
  bool reached = false;  ///< the control gives the rate
  double reserve = NAN;  ///< of the pump at this point [-]; NaN without a drive or where not reached
};

/// The speeds at which a rate is even and as wanted. Several ranges where something comes between.
struct UsableSpeeds {
  double rate = 0, temperature = 0, side_slope = 0;  ///< where [m3/m2], [K], [rad]
  /// One range of speeds.
  struct Span {
    double low = 0, high = 0;             ///< [m/s]
    std::string low_stop{}, high_stop{};  ///< the limit that ends it; empty: it goes on beyond the axis
  };
  std::vector<Span> spans{};  ///< slowest first
};

/// A toolbar over speeds and rates. SI.
struct Envelope {
  Layout layout;                      ///< as given
  EnvelopeAxes axes;                  ///< with every axis filled
  std::string control;                ///< what is moved to reach the rate, in words
  std::vector<EnvelopePoint> points;  ///< temperature by temperature, slope by slope, rate by rate, speed by speed
  std::vector<UsableSpeeds> usable;   ///< temperature by temperature, slope by slope, rate by rate
  bool complete = false;              ///< false: stopped; `points` and `usable` hold what is done

  /// @param t, s, r, v  temperature, slope, rate, speed. Must be done.
  [[nodiscard]] const EnvelopePoint& at(std::size_t t, std::size_t s, std::size_t r, std::size_t v) const {
    return points[((t * axes.side_slopes.size() + s) * axes.rates.size() + r) * axes.speeds.size() + v];
  }
};

/// `count` values from `low` to `high`, evenly apart; one: `low`.
template <class Q>
[[nodiscard]] std::vector<Q> spread(Q low, Q high, std::size_t count) {
  std::vector<Q> values;
  for (std::size_t i = 0; i < count; ++i) {
    const double share = count > 1 ? static_cast<double>(i) / static_cast<double>(count - 1) : 0.0;
    values.push_back(from_si<Q>(si(low) + share * (si(high) - si(low))));
  }
  return values;
}

/// The same with `own`, where it lies between the ends, in the place of the inner value nearest to it.
template <class Q>
[[nodiscard]] std::vector<Q> spread(Q low, Q high, std::size_t count, Q own) {
  std::vector<Q> values = spread(low, high, count);
  if (count < 3 || !(own > low) || !(own < high)) return values;
  const double at = (si(own) - si(low)) / (si(high) - si(low)) * static_cast<double>(count - 1);
  values[static_cast<std::size_t>(std::clamp(std::round(at), 1.0, static_cast<double>(count - 2)))] = own;
  return values;
}

/// Axes from the ends of the layout's own range; where it has none, from half to twice the job's speed and rate. The
/// job's own speed and rate are on them.
[[nodiscard]] EnvelopeAxes default_axes(const Layout& layout, std::size_t speeds = 25, std::size_t rates = 17);

namespace envelope_detail {

EnvelopePoint point_of(const OperatingState& s, const Job& job);

/// The spans of one rate from its points, their ends found by halving.
UsableSpeeds usable_speeds(OperatingSolver& solver, AreaRate rate, const EnvelopePoint* points,
                           const std::vector<Speed>& speeds, const Job& job, double tolerance);

}  // namespace envelope_detail

/// Walks over the axes; the control is found anew at every point. What lies between points is not seen, but the ends of
/// the usable speeds are found exactly. About 0.3 ms a point for a 16-row bar with a drive.
/// @throws InputError for axes out of range or a layout that has no operating point
[[nodiscard]] Envelope envelope(const Layout& layout, EnvelopeAxes axes, const EnvelopeOptions& options = {},
                                const Progress& progress = {});

}  // namespace libflow
