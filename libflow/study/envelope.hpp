// SPDX-License-Identifier: MIT
/// @file
/// The envelope: over ground speed and rate (and temperature and side slope), where a toolbar is even, where it runs
/// but is not as wanted, where it cannot run, and which limit binds; and over which speeds each rate can be used.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/core/range.hpp>
#include <libflow/study/operating_state.hpp>

namespace libflow {

/// What is walked over. Speeds and rates are needed; without temperatures or slopes the layout's own is taken.
struct EnvelopeAxes {
  std::vector<Speed> speeds{};              ///< rising, 1 to 1000
  std::vector<AreaRate> rates{};            ///< rising, 1 to 1000
  std::vector<Temperature> temperatures{};  ///< at most 100
  std::vector<Angle> side_slopes{};         ///< at most 100; a toolbar's only, not a free form's
};

struct EnvelopeOptions {
  bool usable_speeds = true;      ///< find the usable speeds of every rate
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
  double speed = 0, rate = 0, temperature = 0, side_slope = 0;
  PointState state = PointState::cannot_run;
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
  double rate = 0, temperature = 0, side_slope = 0;
  struct Span {
    double low = 0, high = 0;             ///< [m/s]
    std::string low_stop{}, high_stop{};  ///< the limit that ends it; empty: it goes on beyond the axis
  };
  std::vector<Span> spans{};
};

struct Envelope {
  Layout layout;
  EnvelopeAxes axes;  ///< with every axis filled
  std::string control;
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

/// Axes from the ends of the layout's own range; where it has none, from half to twice the job's speed and rate.
[[nodiscard]] inline EnvelopeAxes default_axes(const Layout& layout, std::size_t speeds = 25, std::size_t rates = 17) {
  EnvelopeAxes axes;
  const auto ends = [](const auto& given, auto job, std::size_t count) {
    return given.size() >= 2 ? spread(given.front(), given.back(), count) : spread(0.5 * job, 2.0 * job, count);
  };
  axes.speeds = ends(layout.range.speeds, layout.job.speed, speeds);
  axes.rates = ends(layout.range.rates, layout.job.rate, rates);
  return axes;
}

namespace envelope_detail {

inline PointState state_of(const OperatingState& s) {
  if (!s.reached) return PointState::cannot_run;
  PointState state = PointState::even;
  for (const Limit& l : s.limits) {
    if (!l.broken()) continue;
    if (l.kind == LimitKind::stops) return PointState::cannot_run;
    if (l.kind == LimitKind::wanted) state = PointState::poor;
  }
  return state;
}

/// The limit that explains the state: the worst of those that make it what it is, else the nearest.
inline const Limit* explaining(const OperatingState& s, PointState state) {
  for (const Limit& l : s.limits) {  // least margin first
    if (state == PointState::cannot_run && l.kind != LimitKind::stops) continue;
    if (state == PointState::poor && !(l.kind == LimitKind::wanted && l.broken())) continue;
    if (state == PointState::even && l.kind == LimitKind::advised) continue;
    return &l;
  }
  return nullptr;
}

inline EnvelopePoint point_of(const OperatingState& s, const Job& job) {
  EnvelopePoint p;
  p.state = state_of(s);
  const Limit* limit = explaining(s, p.state);
  p.binding = limit != nullptr ? limit->name : s.stop;
  p.margin = limit != nullptr ? limit->margin : -1.0;
  p.advised = std::none_of(s.limits.begin(), s.limits.end(),
                           [](const Limit& l) { return l.kind == LimitKind::advised && l.broken(); });
  p.temperature = si(job.temperature);
  p.cv = s.evenness.cv;
  for (const RowResult& r : s.evenness.rows) {
    if (r.shut || (p.worst_row != 0 && std::abs(r.deviation) <= std::abs(p.worst))) continue;
    p.worst = r.deviation;
    p.worst_row = r.row;
  }
  p.gauge = s.gauge;
  p.setting = s.setting;
  p.reached = s.reached;
  if (s.duty) p.reserve = s.duty->reserve;
  return p;
}

inline void check(const EnvelopeAxes& axes, const EnvelopeOptions& options) {
  require_in("envelope, speed tolerance", options.speed_tolerance, {1e-12, 0.1}, "");
  const auto axis = [](const char* name, const auto& values, std::size_t least, std::size_t most) {
    if (values.size() < least || values.size() > most) {
      throw InputError(fmt::format("envelope, {}", name), fmt::format("{} values", values.size()),
                       fmt::format("{} to {} values", least, most));
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (!std::isfinite(si(values[i])) || (i > 0 && !(si(values[i]) > si(values[i - 1])))) {
        throw InputError(fmt::format("envelope, {}", name),
                         fmt::format("value {}, {:.6g}, is not above the one before it", i + 1, si(values[i])),
                         "values that rise");
      }
    }
  };
  axis("speeds", axes.speeds, 1, 1000);
  axis("rates", axes.rates, 1, 1000);
  axis("temperatures", axes.temperatures, 1, 100);
  axis("side slopes", axes.side_slopes, 1, 100);
}

/// The spans of one rate from its points, their ends found by halving.
inline UsableSpeeds usable_speeds(OperatingSolver& solver, AreaRate rate, const EnvelopePoint* points,
                                  const std::vector<Speed>& speeds, const Job& job, double tolerance) {
  UsableSpeeds usable{.rate = si(rate), .temperature = points->temperature, .side_slope = points->side_slope};
  // The end between a usable speed and one that is not, and what stops it there.
  const auto edge = [&](double good, double bad, std::string stop) {
    while (std::abs(good - bad) > tolerance * good) {
      const double middle = 0.5 * (good + bad);
      const EnvelopePoint p = point_of(solver.at(rate, from_si<Speed>(middle)), job);
      if (p.state == PointState::even) {
        good = middle;
      } else {
        bad = middle;
        stop = p.binding;
      }
    }
    return std::pair{good, std::move(stop)};
  };
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (points[i].state != PointState::even) continue;
    UsableSpeeds::Span span;
    std::tie(span.low, span.low_stop) = i == 0 ? std::pair{si(speeds[0]), std::string()}
                                               : edge(si(speeds[i]), si(speeds[i - 1]), points[i - 1].binding);
    while (i + 1 < speeds.size() && points[i + 1].state == PointState::even) ++i;
    std::tie(span.high, span.high_stop) = i + 1 == speeds.size()
                                              ? std::pair{si(speeds[i]), std::string()}
                                              : edge(si(speeds[i]), si(speeds[i + 1]), points[i + 1].binding);
    usable.spans.push_back(std::move(span));
  }
  return usable;
}

}  // namespace envelope_detail

/// Walks over the axes; the control is found anew at every point. What lies between points is not seen, but the ends of
/// the usable speeds are found exactly. About 0.3 ms a point for a 16-row bar with a drive.
/// @throws InputError for axes out of range or a layout that has no operating point
[[nodiscard]] inline Envelope envelope(const Layout& layout, EnvelopeAxes axes, const EnvelopeOptions& options = {},
                                       const Progress& progress = {}) {
  using namespace envelope_detail;
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  if (toolbar == nullptr && !axes.side_slopes.empty()) {
    throw InputError("envelope, side slopes", "a free-form layout has its heights place by place",
                     "a [toolbar], or no side slopes");
  }
  if (axes.temperatures.empty()) axes.temperatures = {layout.job.temperature};
  if (axes.side_slopes.empty()) {
    axes.side_slopes = {toolbar != nullptr ? toolbar->side_slope : from_si<Angle>(0.0)};
  }
  envelope_detail::check(axes, options);
  Envelope e;
  e.layout = layout;
  e.axes = axes;
  e.control = toolbar != nullptr && toolbar->drive ? std::string(name_of(toolbar->drive->control)) : "supply pressure";
  const std::size_t total = axes.temperatures.size() * axes.side_slopes.size() * axes.rates.size() * axes.speeds.size();
  for (const Temperature& temperature : axes.temperatures) {
    for (const Angle& slope : axes.side_slopes) {
      Layout at = layout;
      at.job.temperature = temperature;
      if (auto* bar = std::get_if<Toolbar>(&at.plumbing)) bar->side_slope = slope;
      OperatingSolver solver(at);
      for (const AreaRate& rate : axes.rates) {
        for (const Speed& speed : axes.speeds) {
          EnvelopePoint p = point_of(solver.at(rate, speed), at.job);
          p.speed = si(speed);
          p.rate = si(rate);
          p.side_slope = si(slope);
          e.points.push_back(std::move(p));
          if (!go_on(progress, e.points.size(), total)) return e;
        }
        if (options.usable_speeds) {
          e.usable.push_back(usable_speeds(solver, rate, &e.points[e.points.size() - axes.speeds.size()], axes.speeds,
                                           at.job, options.speed_tolerance));
        }
      }
    }
  }
  e.complete = true;
  return e;
}

}  // namespace libflow
