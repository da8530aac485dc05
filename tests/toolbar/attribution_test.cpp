// SPDX-License-Identifier: MIT
/// @file
/// Why rows differ: the causes' parts add up, and are the Shapley values that a count over all orders gives.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace attribution_test {

using namespace units;
using test::judge, test::plain_bar, test::plain_job, test::plain_valve, test::thick, test::water;

Evenness attributed(const Toolbar& toolbar, const Job& job, const LiquidState& liquid) {
  Evenness e = judge(toolbar, job, liquid).evenness;
  attribute(toolbar, job, liquid, e);
  return e;
}
const Cause* find(const Evenness& e, const std::string& name) {
  for (const Cause& c : e.causes) {
    if (c.name == name) return &c;
  }
  return nullptr;
}
double share(const Evenness& e, const std::string& name) {
  const Cause* c = find(e, name);
  return c == nullptr ? 0.0 : c->share;
}

/// The parts add up to every row's deviation, the shares to one, and the order is by size.
void expect_adds_up(const Evenness& e) {
  double shares = 0.0;
  for (const Cause& c : e.causes) shares += c.share;
  EXPECT_NEAR(shares, 1.0, 1e-9);
  for (std::size_t i = 0; i < e.rows.size(); ++i) {
    double sum = 0.0;
    for (const Cause& c : e.causes) sum += c.deviation[i];
    EXPECT_NEAR(sum, e.rows[i].deviation, 1e-10) << "row " << i + 1;
  }
  for (std::size_t k = 1; k < e.causes.size(); ++k) {
    EXPECT_GE(std::abs(e.causes[k - 1].share), std::abs(e.causes[k].share));
  }
  EXPECT_FALSE(e.reference.empty());
}

Toolbar with_everything() {
  Toolbar t = plain_bar(6);
  t.manifolds[0].feed = ManifoldFeed::left;
  t.manifolds[0].bore = 12.0 * mm;
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  t.hose_bore = 6.0 * mm;
  t.check_valve = plain_valve();
  t.side_slope = slope_percent(7.0);
  t.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.05 * mm}, .width = 0.7 * m},
                   {.row = 4, .crack = 4.5 * psi, .height = 0.2 * m}};
  return t;
}

TEST(Attribution, PartsAddUpWithEveryCause) {
  Job job = plain_job();
  job.turn_radius = 60.0 * m;
  for (const LiquidState& liquid : {water(), thick()}) {
    const Evenness e = attributed(with_everything(), job, liquid);
    EXPECT_EQ(e.causes.size(), 6U);
    for (const char* name :
         {"hose lengths", "manifold", "slope and height", "orifices", "check valves", "ground speed and row width"}) {
      EXPECT_NE(find(e, name), nullptr) << name;
    }
    expect_adds_up(e);
  }
}

TEST(Attribution, PartsAddUpAtAHeldPressureWithAShutRowAndAShutValve) {
  Toolbar t = with_everything();
  t.row_changes.push_back({.row = 6, .shut = true});
  t.row_changes.push_back({.row = 5, .crack = 30.0 * psi});
  Job job = plain_job();
  job.pressure = 15.0 * psi;
  const Evenness e = attributed(t, job, water());
  EXPECT_EQ(e.rows[4].deviation, -1.0);
  expect_adds_up(e);
  for (const Cause& c : e.causes) EXPECT_EQ(c.deviation[5], 0.0) << c.name;  // a row that is off has no deviation
  EXPECT_EQ(e.causes.front().name, "check valves");
}

TEST(Attribution, OnlyTheCausesThatTheBarHas) {
  EXPECT_EQ(attributed(plain_bar(4), plain_job(), water()).causes.size(), 1U);  // its manifold
  Toolbar t = plain_bar(4);
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = std::vector<Length>(4, 2.0 * m)};
  EXPECT_EQ(find(attributed(t, plain_job(), water()), "hose lengths"), nullptr);
  t.hose.lengths[1] = 3.0 * m;
  EXPECT_NE(find(attributed(t, plain_job(), water()), "hose lengths"), nullptr);
}

// A bar so wide that it loses nothing leaves one cause, which then has all of the variation.
TEST(Attribution, OneCauseHasItAll) {
  Toolbar plain = plain_bar(4);
  plain.manifolds[0].bore = 0.4 * m;
  plain.check_valve = plain_valve();
  plain.hose_bore = 6.0 * mm;
  const auto expect_all = [&](const Toolbar& t, const Job& job, const std::string& name) {
    const Evenness e = attributed(t, job, thick());
    expect_adds_up(e);
    EXPECT_GT(e.cv, 1e-3) << name;
    EXPECT_EQ(e.causes.front().name, name);
    EXPECT_NEAR(share(e, name), 1.0, 1e-5) << name;
  };
  Toolbar t = plain;
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 2.0 * m, 3.0 * m, 4.0 * m}};
  expect_all(t, plain_job(), "hose lengths");
  t = plain;
  t.row_changes = {{.row = 3, .hose_bore = 5.0 * mm}};
  expect_all(t, plain_job(), "hose lengths");
  t = plain;
  t.side_slope = slope_percent(25.0);
  expect_all(t, plain_job(), "slope and height");
  t = plain;
  t.row_changes = {{.row = 1, .height = 1.0 * m}};
  expect_all(t, plain_job(), "slope and height");
  t = plain;
  t.row_changes = {{.row = 2, .orifice = OrificeByBore{.bore = 1.2 * mm}}};
  expect_all(t, plain_job(), "orifices");
  t = plain;
  t.row_changes = {{.row = 4, .crack = 6.0 * psi}};
  expect_all(t, plain_job(), "check valves");
  t = plain;
  t.row_changes = {{.row = 4, .width = 0.5 * m}};
  expect_all(t, plain_job(), "ground speed and row width");
  Job turning = plain_job();
  turning.turn_radius = 30.0 * m;
  expect_all(plain, turning, "ground speed and row width");
  // A narrow bar fed at its end.
  t = plain;
  t.manifolds[0].bore = 8.0 * mm;
  t.manifolds[0].feed = ManifoldFeed::left;
  expect_all(t, plain_job(), "manifold");
}

// The low side would get more; longer hoses there take it back: slope's part works against the variation.
TEST(Attribution, ACauseThatHelpsHasANegativeShare) {
  Toolbar t = plain_bar(4);
  t.manifolds[0].bore = 0.4 * m;
  t.hose_bore = 6.0 * mm;
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {2.6 * m, 2.4 * m, 2.2 * m, 2.0 * m}};
  const Evenness level = attributed(t, plain_job(), thick());
  t.side_slope = slope_percent(15.0);  // right end higher
  const Evenness e = attributed(t, plain_job(), thick());
  expect_adds_up(e);
  EXPECT_LT(e.cv, level.cv);
  EXPECT_LT(share(e, "slope and height"), -0.05);
  EXPECT_GT(share(e, "hose lengths"), 1.05);
  EXPECT_GT(find(e, "slope and height")->deviation[0], 0.0);
  EXPECT_LT(find(e, "hose lengths")->deviation[0], 0.0);
}

// On a fore-aft slope all outlets of a bar stand alike, so by itself it makes no row differ. At a held pressure it adds
// its column to every row: a check valve that needs more then matters less. Two causes, Shapley's value by hand: half
// of what the slope changes in the deviations that the valve makes.
TEST(Attribution, AForeAftSlopeActsThroughWhatElseDiffers) {
  Toolbar level = plain_bar(4);
  level.manifolds[0].bore = 0.4 * m;
  level.check_valve = plain_valve();
  level.row_changes = {{.row = 2, .crack = 8.0 * psi}};
  level.outlets_behind = 5.0 * m;
  Job job = plain_job();
  job.pressure = 12.0 * psi;
  Toolbar downhill = level;
  downhill.fore_aft_slope = slope_percent(30.0);  // front higher: the outlets behind hang lower
  const Evenness on_level = attributed(level, job, water()), e = attributed(downhill, job, water());
  EXPECT_EQ(find(on_level, "slope and height"), nullptr);
  expect_adds_up(e);
  const Cause* slope = find(e, "slope and height");
  ASSERT_NE(slope, nullptr);
  EXPECT_GT(e.rows[1].deviation, on_level.rows[1].deviation + 0.01);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(slope->deviation[i], 0.5 * (e.rows[i].deviation - on_level.rows[i].deviation), 1e-5) << i;
  }
  EXPECT_LT(slope->share, 0.0);
}

TEST(Attribution, AnEvenBarHasNothingToShareOut) {
  const Evenness one = attributed(plain_bar(1), plain_job(), water());
  for (const Cause& c : one.causes) {
    EXPECT_EQ(c.share, 0.0);
    EXPECT_EQ(c.deviation, std::vector<double>{0.0});
  }
  for (const Cause& c : attributed(plain_bar(2), plain_job(), water()).causes) {
    for (const double d : c.deviation) EXPECT_NEAR(d, 0.0, 1e-12);
  }
  // Nothing flows: no deviation, and nothing to explain.
  Toolbar t = plain_bar(4);
  t.check_valve = plain_valve();
  Job job = plain_job();
  job.pressure = 1.0 * psi;
  for (const Cause& c : attributed(t, job, water()).causes) {
    EXPECT_EQ(c.share, 0.0);
    for (const double d : c.deviation) EXPECT_EQ(d, 0.0);
  }
}

// The definition, counted out: the average over all orders in which the causes can be brought in of what each adds at
// its turn (L. S. Shapley, A Value for n-Person Games, 1953). Three causes, six orders.
TEST(Attribution, IsTheAverageOverAllOrders) {
  Toolbar t = plain_bar(5);
  t.manifolds[0].feed = ManifoldFeed::right;
  t.manifolds[0].bore = 9.0 * mm;
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {6.0 * m, 1.0 * m, 3.0 * m, 2.0 * m, 5.0 * m}};
  t.hose_bore = 6.0 * mm;
  t.side_slope = slope_percent(-45.0);
  const Job job = plain_job();
  const std::array<std::string, 3> names = {"hose lengths", "manifold", "slope and height"};

  std::array<std::vector<double>, 3> mean;
  for (auto& v : mean) v.assign(5, 0.0);
  std::array<std::size_t, 3> order = {0, 1, 2};
  do {
    std::array<bool, 3> on = {false, false, false};
    const auto deviation = [&](std::size_t row) {
      const Causes causes{.hoses = on[0], .manifold = on[1], .slope = on[2]};
      return judge(t, job, thick(), causes).evenness.rows[row].deviation;
    };
    for (std::size_t row = 0; row < 5; ++row) {
      on = {false, false, false};
      double before = deviation(row);
      EXPECT_NEAR(before, 0.0, 1e-12);
      for (const std::size_t k : order) {
        on[k] = true;
        const double now = deviation(row);
        mean[k][row] += (now - before) / 6.0;
        before = now;
      }
    }
  } while (std::next_permutation(order.begin(), order.end()));

  const Evenness e = attributed(t, job, thick());
  expect_adds_up(e);
  ASSERT_EQ(e.causes.size(), 3U);
  double variance = 0.0;
  for (const RowResult& r : e.rows) variance += r.deviation * r.deviation;
  for (std::size_t k = 0; k < 3; ++k) {
    const Cause* c = find(e, names[k]);
    ASSERT_NE(c, nullptr) << names[k];
    double covariance = 0.0;
    for (std::size_t row = 0; row < 5; ++row) {
      EXPECT_NEAR(c->deviation[row], mean[k][row], 1e-11) << names[k] << " row " << row + 1;
      covariance += mean[k][row] * e.rows[row].deviation;
    }
    EXPECT_NEAR(c->share, covariance / variance, 1e-9) << names[k];
    EXPECT_GT(std::abs(c->share), 1e-3) << names[k];  // all three act, so that the orders matter
  }
}

}  // namespace attribution_test
}  // namespace libflow
