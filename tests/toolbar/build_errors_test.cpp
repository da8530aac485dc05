// SPDX-License-Identifier: MIT
/// @file
/// Toolbars and jobs that cannot be: the message names the field and says what is allowed.
#include <gtest/gtest.h>

#include <functional>
#include <limits>
#include <string>
#include <vector>

#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace build_errors_test {

using namespace units;
using test::expect_refused, test::plain_bar, test::plain_job, test::plain_valve;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

using Spoil = std::function<void(Toolbar&)>;

/// Expects that a good bar of four rows is refused once spoilt.
void refused(const Spoil& spoil, const std::string& field) {
  Toolbar t = plain_bar(4);
  EXPECT_NO_THROW((void)build_network(t, plain_job()));
  spoil(t);
  expect_refused([&] { (void)build_network(t, plain_job()); }, field);
}
/// The same for a field that takes a number, for each of some values.
template <class Quantity>
void refused(const std::vector<double>& values, const std::function<Quantity&(Toolbar&)>& of,
             const std::string& field) {
  for (const double v : values) {
    SCOPED_TRACE(v);
    refused([&](Toolbar& t) { of(t) = from_si<Quantity>(v); }, field);
  }
}
const std::vector<double> no_size = {0.0, -0.5, nan, infinite, 1e6};
const std::vector<double> no_number = {nan, infinite, -infinite};

TEST(BuildErrors, RowCount) {
  for (const int rows : {0, -1, 201, 1'000'000'000, std::numeric_limits<int>::min()}) {
    refused([&](Toolbar& t) { t.rows = rows; }, "toolbar, rows");
  }
}

TEST(BuildErrors, Bar) {
  refused<Length>(
      no_size, [](Toolbar& t) -> Length& { return t.spacing; }, "toolbar, spacing");
  refused<Angle>(
      {nan, 1.0, -1.0}, [](Toolbar& t) -> Angle& { return t.side_slope; }, "toolbar, side slope");
  refused<Angle>(
      {nan, 1.0, -1.0}, [](Toolbar& t) -> Angle& { return t.fore_aft_slope; }, "toolbar, fore-aft slope");
  refused<Length>(
      {nan, 51.0}, [](Toolbar& t) -> Length& { return t.outlets_behind; }, "toolbar, outlets behind");
  refused<Length>(
      {-1e-3, nan, 1.0}, [](Toolbar& t) -> Length& { return t.outlet_bore; }, "toolbar, outlet bore");
  for (const int outlets : {0, 3, -2}) {
    refused([&](Toolbar& t) { t.outlets_per_row = outlets; }, "toolbar, outlets per row");
  }
}

TEST(BuildErrors, Hose) {
  refused<Length>(
      no_size, [](Toolbar& t) -> Length& { return t.hose_bore; }, "hose, bore");
  refused<Length>(
      no_size, [](Toolbar& t) -> Length& { return t.hose.length; }, "row 1, hose length");
  refused<Length>(
      {-1e-6, nan, 0.01}, [](Toolbar& t) -> Length& { return t.hose_roughness; }, "roughness");
  for (const double v : {0.0, -1.0, nan}) {
    refused([&](Toolbar& t) { t.hose_rating = from_si<Pressure>(v); }, "rating");
  }
  const auto shortest = [](Toolbar& t) -> Length& {
    t.hose.kind = HoseSchedule::Kind::shortest;
    return t.hose.extra;
  };
  refused<Length>({-0.1, nan, 2000.0}, shortest, "hose, extra");
  // No length at all: the port is over its row and nothing is added.
  refused(
      [](Toolbar& t) {
        t.rows = 1;
        t.hose.kind = HoseSchedule::Kind::shortest;
      },
      "row 1, hose length");
}

TEST(BuildErrors, ListedHoses) {
  const auto listed = [](std::vector<Length> lengths) {
    return [lengths](Toolbar& t) { t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = lengths}; };
  };
  refused(listed({}), "hose, lengths");
  refused(listed({1.0 * m, 1.0 * m, 1.0 * m}), "hose, lengths");
  refused(listed({1.0 * m, 1.0 * m, 1.0 * m, 1.0 * m, 1.0 * m}), "hose, lengths");
  refused(listed({1.0 * m, 1.0 * m, 0.0 * m, 1.0 * m}), "row 3, hose length");
  refused(listed({1.0 * m, 1.0 * m, 1.0 * m, nan * m}), "row 4, hose length");
}

TEST(BuildErrors, Manifold) {
  const auto bar = [](Toolbar& t) -> Manifold& { return t.manifolds[0]; };
  refused([](Toolbar& t) { t.manifolds.clear(); }, "toolbar");
  for (const int row : {-1, 5}) {
    refused([&](Toolbar& t) { bar(t).first_row = row; }, "manifold 1, first row");
    refused([&](Toolbar& t) { bar(t).last_row = row; }, "manifold 1, last row");
  }
  refused(
      [&](Toolbar& t) {
        bar(t).first_row = 3;
        bar(t).last_row = 2;
      },
      "manifold 1, last row");
  refused<Length>(
      no_size, [&](Toolbar& t) -> Length& { return bar(t).port_spacing; }, "manifold 1, port spacing");
  refused<Length>(
      no_size, [&](Toolbar& t) -> Length& { return bar(t).bore; }, "manifold 1, bore");
  refused<Length>(
      {nan, 60.0}, [&](Toolbar& t) -> Length& { return bar(t).height; }, "manifold 1, height");
  refused<Length>(
      {-1.0, nan, 1e6}, [&](Toolbar& t) -> Length& { return bar(t).feed_length; }, "manifold 1, feed length");
  for (const double v : no_number) refused([&](Toolbar& t) { bar(t).position = v * m; }, "manifold 1, position");
  const auto feed_bore = [&](Toolbar& t) -> Length& {
    bar(t).feed_length = 1.0 * m;
    return bar(t).feed_bore;
  };
  refused<Length>(no_size, feed_bore, "bore");
  refused(
      [&](Toolbar& t) {
        bar(t).id = "west";
        bar(t).port_spacing = 0.0 * m;
      },
      "west, port spacing");
}

TEST(BuildErrors, EachRowFedOnce) {
  const auto two = [](Toolbar& t, int last, int first) {
    t.manifolds = {Manifold{.id = "west", .last_row = last, .feed_length = 1.0 * m},
                   Manifold{.first_row = first, .feed_length = 1.0 * m}};
  };
  Toolbar good = plain_bar(4);
  two(good, 2, 3);
  EXPECT_NO_THROW((void)build_network(good, plain_job()));
  refused([&](Toolbar& t) { two(t, 3, 3); }, "manifold 2");
  refused([&](Toolbar& t) { two(t, 1, 3); }, "toolbar");
  const auto message = [&](int last, int first) {
    Toolbar t = plain_bar(4);
    two(t, last, first);
    try {
      (void)build_network(t, plain_job());
    } catch (const InputError& e) {
      return std::string(e.what());
    }
    return std::string();
  };
  EXPECT_NE(message(3, 3).find("row 3 is fed by 'west' already"), std::string::npos) << message(3, 3);
  EXPECT_NE(message(1, 3).find("no manifold feeds row 2"), std::string::npos) << message(1, 3);
}

TEST(BuildErrors, SplitBetweenFeedPointsMustBeKnown) {
  refused([](Toolbar& t) { t.manifolds[0].feed = ManifoldFeed::both_ends; }, "manifold 1, feed length");
  refused(
      [](Toolbar& t) {
        t.manifolds = {Manifold{.last_row = 2, .feed_length = 1.0 * m}, Manifold{.id = "east", .first_row = 3}};
      },
      "east, feed length");
}

TEST(BuildErrors, SameNameForTwoManifolds) {
  refused(
      [](Toolbar& t) {
        t.manifolds = {Manifold{.id = "west", .last_row = 2, .feed_length = 1.0 * m},
                       Manifold{.id = "west", .first_row = 3, .feed_length = 1.0 * m}};
      },
      "west");
}

TEST(BuildErrors, RowChanges) {
  const auto change = [](RowChange c) { return [c](Toolbar& t) { t.row_changes.push_back(c); }; };
  for (const int row : {0, -3, 5}) refused(change({.row = row}), "row");
  refused(
      [&](Toolbar& t) {
        change({.row = 2, .width = 0.5 * m})(t);
        change({.row = 2, .height = 0.1 * m})(t);
      },
      "row 2");
  refused(change({.row = 2, .crack = 5.0 * psi}), "row 2, crack");
  for (const double v : no_size) {
    SCOPED_TRACE(v);
    refused(change({.row = 2, .hose_length = v * m}), "row 2, hose length");
    refused(change({.row = 2, .hose_bore = v * m}), "row 2, hose bore");
    refused(change({.row = 2, .orifice = OrificeByBore{.bore = v * m}}), "row 2 orifice, bore");
    refused(change({.row = 2, .width = v * m}), "row 2, width");
  }
  for (const double v : no_number) refused(change({.row = 2, .height = v * m}), "row 2, height");
  refused(
      [](Toolbar& t) {
        for (int row = 1; row <= 4; ++row) t.row_changes.push_back({.row = row, .shut = true});
      },
      "toolbar");
}

TEST(BuildErrors, Metering) {
  const auto bored = [](OrificeByBore o) { return [o](Toolbar& t) { t.orifice = o; }; };
  const auto rated = [](OrificeByRating o) { return [o](Toolbar& t) { t.orifice = o; }; };
  const auto valve = [](CheckValveChoice v) { return [v](Toolbar& t) { t.check_valve = v; }; };
  for (const double v : {0.0, -1e-3, nan, 1.0}) {
    SCOPED_TRACE(v);
    refused(bored({.bore = v * m}), "row 1 orifice, bore");
  }
  for (const double v : {-1e-3, nan, 0.1}) {
    refused(bored({.bore = 1.0 * mm, .thickness = v * m}), "row 1 orifice, thickness");
  }
  for (const double v : {0.0, -0.6, 1.5, nan}) {
    refused(bored({.bore = 1.0 * mm, .discharge_coefficient = v}), "row 1 orifice, discharge coefficient");
    refused(rated({.flow = v * m3_per_s * 10.0, .pressure = 1.0 * bar}), "row 1 orifice, rated flow");
    refused(valve({.crack = 1.0 * psi, .rated_flow = v * m3_per_s * 10.0, .rated_loss = 1.0 * psi}),
            "row 1 check valve, rated flow");
  }
  for (const double v : {0.0, -1.0, nan}) {
    refused(rated({.flow = 0.2 * gpm, .pressure = v * bar}), "row 1 orifice, rated pressure");
    refused(valve({.crack = 1.0 * psi, .rated_flow = 0.2 * gpm, .rated_loss = v * psi}),
            "row 1 check valve, rated pressure");
  }
  for (const double v : {-1.0, nan, 1e9}) {
    refused(valve({.crack = v * psi, .rated_flow = 0.2 * gpm, .rated_loss = 1.0 * psi}), "row 1 check valve, crack");
  }
}

TEST(BuildErrors, Job) {
  const auto refused_job = [](const std::function<void(Job&)>& spoil, const std::string& field) {
    Job job = plain_job();
    spoil(job);
    expect_refused([&] { (void)build_network(plain_bar(4), job); }, field);
  };
  for (const double v : {0.0, -1.0, nan, infinite}) {
    SCOPED_TRACE(v);
    refused_job([&](Job& j) { j.rate = from_si<AreaRate>(v); }, "job, rate");
    refused_job([&](Job& j) { j.speed = v * m_per_s; }, "job, speed");
    refused_job([&](Job& j) { j.tolerance = v; }, "job, tolerance");
    refused_job([&](Job& j) { j.pump_limit = v * Pa; }, "job, pump limit");
    if (v != 0.0) refused_job([&](Job& j) { j.pressure = v * Pa; }, "job, pressure");
  }
  // The outer rows are 1.143 m from the centre: a tighter turn drags the inner one backwards.
  for (const double v : {0.0, 1.0, -1.0, 1.143, -1.143, nan, infinite}) {
    SCOPED_TRACE(v);
    refused_job([&](Job& j) { j.turn_radius = v * m; }, "job, turn radius");
  }
  // 1 m / 0.3048 and 1.143 m / 0.3048, in both systems: whoever reads it chose neither.
  Job tight = plain_job();
  tight.turn_radius = 1.0 * m;
  test::expect_message([&] { (void)build_network(plain_bar(4), tight); },
                       "3.28 ft (1 m); allowed: more than half the bar, 3.75 ft (1.14 m)");
  tight.turn_radius = -1.2 * m;
  EXPECT_NO_THROW((void)build_network(plain_bar(4), tight));
}

}  // namespace build_errors_test
}  // namespace libflow
