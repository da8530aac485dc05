// SPDX-License-Identifier: MIT
#include <libflow/study/envelope.hpp>

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

EnvelopeAxes default_axes(const Layout& layout, std::size_t speeds, std::size_t rates) {
  EnvelopeAxes axes;
  const auto ends = [](const auto& given, auto job, std::size_t count) {
    return given.size() >= 2 ? spread(given.front(), given.back(), count, job)
                             : spread(0.5 * job, 2.0 * job, count, job);
  };
  axes.speeds = ends(layout.range.speeds, layout.job.speed, speeds);
  axes.rates = ends(layout.range.rates, layout.job.rate, rates);
  return axes;
}

namespace envelope_detail {

static PointState state_of(const OperatingState& s) {
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
static const Limit* explaining(const OperatingState& s, PointState state) {
  for (const Limit& l : s.limits) {  // least margin first
    if (state == PointState::cannot_run && !(l.kind == LimitKind::stops && l.broken())) continue;
    if (state == PointState::poor && l.kind != LimitKind::wanted) continue;
    if (state == PointState::even && l.kind == LimitKind::advised) continue;
    return &l;
  }
  return nullptr;
}

EnvelopePoint point_of(const OperatingState& s, const Job& job) {
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

static void check(const EnvelopeAxes& axes, const EnvelopeOptions& options) {
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

UsableSpeeds usable_speeds(OperatingSolver& solver, AreaRate rate, const EnvelopePoint* points,
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

Envelope envelope(const Layout& layout, EnvelopeAxes axes, const EnvelopeOptions& options, const Progress& progress) {
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
      OperatingSolver solver(at, options.control);
      if (solver.control()) e.control = solver.control()->name;
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
