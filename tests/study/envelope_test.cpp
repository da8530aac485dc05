// SPDX-License-Identifier: MIT
/// @file
/// Envelopes agree with brute force point by point, and their usable speeds end where a limit begins.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/solve/control.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/operating_point.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/limits.hpp>

namespace libflow {
namespace envelope_test {

using namespace units;

Layout map_layout(DriveControl control) {
  Drive d = test::full_drive(control);
  d.pump = CentrifugalPump{.shutoff = 2.0 * units::bar, .free_flow = 40.0 * L_per_min};
  Layout layout = test::driven_layout(d);
  auto& toolbar = std::get<Toolbar>(layout.plumbing);
  toolbar.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 0.5 * m};
  toolbar.hose_bore = 5.0 * mm;
  toolbar.hose_rating = 1.3 * units::bar;
  return layout;
}
EnvelopeAxes coarse() {
  return {.speeds = spread(2.0 * kmh, 20.0 * kmh, 5), .rates = spread(30.0 * L_per_ha, 220.0 * L_per_ha, 5)};
}

/// A point by whole networks only: the general controller, the main job's verdict, the valves' states, the hoses'
/// pressures. Nothing of the envelope's own limits.
PointState brute_state(const Layout& layout, double& setting, double& cv) {
  const auto& toolbar = std::get<Toolbar>(layout.plumbing);
  const Drive& drive = *toolbar.drive;
  const bool falls = drive.control == DriveControl::bypass;
  const Range range = setting_range(drive);
  const auto real = [&](double s) { return falls ? range.high + range.low - s : s; };
  Answer a;
  const double wanted = 8 * si(30.0 * inch) * si(layout.job.speed) * si(layout.job.rate);
  const ControlledSolution found = reach_total({.setting = "setting",
                                                .unit = "",
                                                .limits = range,
                                                .solve_at =
                                                    [&](double s) {
                                                      a = at_setting(layout, real(s));
                                                      return a.solution;
                                                    },
                                                .total = [&](const Solution&) { return a.evenness.total_flow; },
                                                .wanted = wanted});
  setting = real(found.setting);
  cv = a.evenness.cv;
  if (std::abs(found.total - wanted) > 1e-6 * wanted) return PointState::cannot_run;
  for (const RowResult& r : a.evenness.rows) {
    if (r.valve == ValveState::closed) return PointState::cannot_run;
  }
  const DrivePlumbing& d = *a.plumbing.drive;
  const Drive moved = with_setting(drive, setting);
  const auto& pump = std::get<CentrifugalPump>(moved.pump);
  if (a.solution.parts[d.pump].flow > si(pump.free_flow) * pump.speed) return PointState::cannot_run;
  for (const RowPlumbing& row : a.plumbing.rows) {
    const auto hose = row.hoses.front();
    if (a.solution.places[a.plumbing.network.from(hose)].total_pressure > si(*toolbar.hose_rating)) {
      return PointState::cannot_run;
    }
  }
  if (a.solution.parts[*d.meter].flow > si(drive.meter->most)) return PointState::poor;
  return a.evenness.even ? PointState::even : PointState::poor;
}

TEST(Envelope, AgreesWithBruteForcePointByPoint) {
  for (const DriveControl control : {DriveControl::pump_speed, DriveControl::bypass, DriveControl::throttle}) {
    SCOPED_TRACE(name_of(control));
    const Layout layout = map_layout(control);
    const Envelope e = envelope(layout, coarse(), {.usable_speeds = false});
    ASSERT_TRUE(e.complete);
    ASSERT_EQ(e.points.size(), 25U);
    std::size_t seen[3] = {0, 0, 0};
    for (std::size_t r = 0; r < 5; ++r) {
      for (std::size_t v = 0; v < 5; ++v) {
        SCOPED_TRACE(fmt::format("rate {} speed {}", r, v));
        Layout at = layout;
        at.job.rate = e.axes.rates[r];
        at.job.speed = e.axes.speeds[v];
        double setting = 0.0, cv = 0.0;
        const PointState state = brute_state(at, setting, cv);
        const EnvelopePoint& p = e.at(0, 0, r, v);
        EXPECT_EQ(p.state, state) << p.binding;
        if (p.reached) {
          EXPECT_NEAR(p.setting, setting, 1e-5 * setting);
          EXPECT_NEAR(p.cv, cv, 1e-6);
        }
        ++seen[static_cast<int>(p.state)];
      }
    }
    // A grid that shows one state only would prove little.
    EXPECT_GT(seen[0], 0U);
    EXPECT_GT(seen[1] + seen[2], 0U);
  }
}

TEST(Envelope, AgreesWithOperatingPoints) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  const EnvelopeAxes axes{.speeds = spread(2.0 * mph, 10.0 * mph, 5),
                          .rates = spread(2.0 * gal_per_acre, 10.0 * gal_per_acre, 4)};
  const Envelope e = envelope(layout, axes, {.usable_speeds = false});
  for (const EnvelopePoint& p : e.points) {
    Layout at = layout;
    at.job.rate = from_si<AreaRate>(p.rate);
    at.job.speed = from_si<Speed>(p.speed);
    const OperatingPoint o = operating_point(at);
    EXPECT_EQ(p.reached, o.reached);
    EXPECT_EQ(p.state != PointState::cannot_run, o.runs());
    EXPECT_NEAR(p.setting, o.setting, 1e-9);
    if (!o.reached) continue;
    EXPECT_NEAR(p.gauge, o.answer.evenness.supply_pressure, 1e-6 * p.gauge);
    EXPECT_NEAR(p.reserve, o.duty->reserve, 1e-6 * (1.0 + o.duty->reserve));
    const auto limit =
        std::find_if(o.limits.begin(), o.limits.end(), [&](const Limit& l) { return l.name == p.binding; });
    ASSERT_NE(limit, o.limits.end()) << p.binding;
    EXPECT_NEAR(limit->margin, p.margin, 1e-6);
  }
}

TEST(Envelope, UsableSpeedsEndWhereALimitBegins) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  const EnvelopeAxes axes{.speeds = spread(2.0 * mph, 10.0 * mph, 9),
                          .rates = {5.0 * gal_per_acre, 8.0 * gal_per_acre}};
  const Envelope e = envelope(layout, axes, {.speed_tolerance = 1e-6});
  ASSERT_EQ(e.usable.size(), 2U);
  const auto state = [&](double rate, double speed) {
    return envelope(layout, {.speeds = {from_si<Speed>(speed)}, .rates = {from_si<AreaRate>(rate)}})
        .points.front()
        .state;
  };
  for (const UsableSpeeds& u : e.usable) {
    ASSERT_EQ(u.spans.size(), 1U);
    const auto& span = u.spans.front();
    EXPECT_EQ(span.low_stop, "least orifice drop");
    EXPECT_EQ(span.high_stop, "most orifice drop");
    EXPECT_EQ(state(u.rate, span.low * (1.0 + 1e-5)), PointState::even);
    EXPECT_EQ(state(u.rate, span.high * (1.0 - 1e-5)), PointState::even);
    EXPECT_NE(state(u.rate, span.low * (1.0 - 1e-5)), PointState::even);
    EXPECT_NE(state(u.rate, span.high * (1.0 + 1e-5)), PointState::even);
  }
  // Going straight ahead only the product of rate and speed matters to the rows, and both limits are the rows'.
  const auto &a = e.usable[0], &b = e.usable[1];
  EXPECT_NEAR(a.rate * a.spans[0].low, b.rate * b.spans[0].low, 3e-6 * a.rate * a.spans[0].low);
  EXPECT_NEAR(a.rate * a.spans[0].high, b.rate * b.spans[0].high, 3e-6 * a.rate * a.spans[0].high);
}

TEST(Envelope, TemperatureAndSlopeAreTheChangedLayouts) {
  const Layout layout = map_layout(DriveControl::pump_speed);
  EnvelopeAxes axes = coarse();
  axes.temperatures = {celsius(5.0), celsius(25.0)};
  axes.side_slopes = {slope_percent(0.0), slope_percent(8.0)};
  const Envelope e = envelope(layout, axes, {.usable_speeds = false});
  ASSERT_EQ(e.points.size(), 100U);
  for (std::size_t t = 0; t < 2; ++t) {
    for (std::size_t s = 0; s < 2; ++s) {
      Layout changed = layout;
      changed.job.temperature = axes.temperatures[t];
      std::get<Toolbar>(changed.plumbing).side_slope = axes.side_slopes[s];
      const Envelope alone = envelope(changed, coarse(), {.usable_speeds = false});
      for (std::size_t r = 0; r < 5; ++r) {
        for (std::size_t v = 0; v < 5; ++v) {
          const EnvelopePoint &p = e.at(t, s, r, v), &q = alone.at(0, 0, r, v);
          EXPECT_EQ(p.state, q.state);
          EXPECT_EQ(p.binding, q.binding);
          EXPECT_NEAR(p.cv, q.cv, 1e-9);
          EXPECT_EQ(p.temperature, si(axes.temperatures[t]));
          EXPECT_EQ(p.side_slope, si(axes.side_slopes[s]));
        }
      }
    }
  }
}

TEST(Envelope, StopsWithoutLosingWhatIsDone) {
  const Layout layout = map_layout(DriveControl::pump_speed);
  std::size_t calls = 0;
  const Envelope e = envelope(layout, coarse(), {}, [&](std::size_t done, std::size_t total) {
    EXPECT_EQ(total, 25U);
    EXPECT_EQ(done, ++calls);
    return done < 7;
  });
  EXPECT_FALSE(e.complete);
  EXPECT_EQ(e.points.size(), 7U);
  EXPECT_EQ(e.usable.size(), 1U);  // of the first rate, whose five speeds are done
}

TEST(Envelope, AxesComeFromTheRangeOrTheJob) {
  Layout layout = map_layout(DriveControl::pump_speed);
  EnvelopeAxes axes = default_axes(layout, 3, 2);
  ASSERT_EQ(axes.speeds.size(), 3U);
  EXPECT_DOUBLE_EQ(si(axes.speeds[0]), 0.5 * si(layout.job.speed));
  EXPECT_DOUBLE_EQ(si(axes.rates[1]), 2.0 * si(layout.job.rate));
  layout.range.speeds = {3.0 * kmh, 5.0 * kmh, 9.0 * kmh};
  axes = default_axes(layout, 4, 2);
  EXPECT_DOUBLE_EQ(si(axes.speeds[1]), si(5.0 * kmh));
  EXPECT_DOUBLE_EQ(si(axes.speeds[3]), si(9.0 * kmh));
  // The job's own point is a point of the map, exactly; the ends stay.
  layout.range = {};
  axes = default_axes(layout, 25, 17);
  EXPECT_EQ(std::count(axes.speeds.begin(), axes.speeds.end(), layout.job.speed), 1);
  EXPECT_EQ(std::count(axes.rates.begin(), axes.rates.end(), layout.job.rate), 1);
  EXPECT_TRUE(std::is_sorted(axes.rates.begin(), axes.rates.end()));
  EXPECT_DOUBLE_EQ(si(axes.rates[16]), 2.0 * si(layout.job.rate));
  EXPECT_EQ(spread(1.0 * kmh, 9.0 * kmh, 5, 9.5 * kmh), spread(1.0 * kmh, 9.0 * kmh, 5));
  EXPECT_DOUBLE_EQ(si(spread(1.0 * kmh, 9.0 * kmh, 5, 1.1 * kmh)[1]), si(1.1 * kmh));
}

TEST(EnvelopeErrors, NameTheAxis) {
  const Layout layout = map_layout(DriveControl::pump_speed);
  const auto refused = [&](EnvelopeAxes axes, const std::string& field, EnvelopeOptions options = {}) {
    test::expect_refused([&] { (void)envelope(layout, std::move(axes), options); }, field);
  };
  EnvelopeAxes axes = coarse();
  axes.speeds.clear();
  refused(axes, "envelope, speeds");
  axes = coarse();
  std::swap(axes.rates[0], axes.rates[1]);
  refused(axes, "envelope, rates");
  axes = coarse();
  axes.speeds[2] = from_si<Speed>(std::numeric_limits<double>::quiet_NaN());
  refused(axes, "envelope, speeds");
  axes = coarse();
  axes.speeds[4] = 40.0 * m_per_s;
  refused(axes, "job, speed");
  refused(coarse(), "speed tolerance", {.speed_tolerance = 0.0});
  axes = coarse();
  axes.side_slopes = {slope_percent(5.0)};
  const Layout free_form = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "free_form.toml");
  test::expect_refused([&] { (void)envelope(free_form, axes); }, "side slopes");
  const EnvelopeAxes near_job{.speeds = {9.0 * kmh, 11.0 * kmh}, .rates = {90.0 * L_per_ha, 110.0 * L_per_ha}};
  EXPECT_TRUE(envelope(free_form, near_job).complete);
}

TEST(EnvelopeErrors, AnAxisHasAtMostAThousandValues) {
  const Layout layout = map_layout(DriveControl::pump_speed);
  EnvelopeAxes axes = coarse();
  axes.speeds = spread(2.0 * kmh, 20.0 * kmh, 1001);
  test::expect_refused([&] { (void)envelope(layout, axes); }, "envelope, speeds");
  test::expect_message([&] { (void)envelope(layout, axes); }, "1 to 1000 values");
  axes = coarse();
  axes.temperatures = spread(celsius(1.0), celsius(30.0), 101);
  test::expect_message([&] { (void)envelope(layout, axes); }, "1 to 100 values");
}

TEST(Envelope, AnAxisOfOneValueIsItsLowEndAndWhatLiesOutsideIsNotOnIt) {
  EXPECT_EQ(spread(2.0 * kmh, 20.0 * kmh, 1), std::vector<Speed>{2.0 * kmh});
  EXPECT_TRUE(spread(2.0 * kmh, 20.0 * kmh, 0).empty());
  const std::vector<Speed> plain = spread(2.0 * kmh, 20.0 * kmh, 5);
  EXPECT_EQ(spread(2.0 * kmh, 20.0 * kmh, 5, 1.0 * kmh), plain);
  EXPECT_EQ(spread(2.0 * kmh, 20.0 * kmh, 5, 2.0 * kmh), plain);
}

// What is only advised may have less room than what makes the point poor: it is not what is named.
TEST(Envelope, APoorPointNamesWhatMakesItPoor) {
  OperatingState s;
  s.reached = true;
  s.limits = {test::limit_named("pump reserve", -0.9, LimitKind::advised),
              test::limit_named("evenness", -0.2, LimitKind::wanted),
              test::limit_named("hose rating", 0.1, LimitKind::stops)};
  EnvelopePoint p = envelope_detail::point_of(s, Job{});
  EXPECT_EQ(p.state, PointState::poor);
  EXPECT_EQ(p.binding, "evenness");
  EXPECT_EQ(p.margin, -0.2);
  EXPECT_FALSE(p.advised);
  // And an even one what comes next.
  s.limits[1].margin = 0.05;
  p = envelope_detail::point_of(s, Job{});
  EXPECT_EQ(p.state, PointState::even);
  EXPECT_EQ(p.binding, "evenness");
  EXPECT_EQ(p.margin, 0.05);
}

}  // namespace envelope_test
}  // namespace libflow
