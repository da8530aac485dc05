// SPDX-License-Identifier: MIT
/// @file
/// Tank: level to volume and back, usable volume, pressure at the outlet.
#include <gtest/gtest.h>

#include <initializer_list>
#include <limits>
#include <string>
#include <vector>

#include <libflow/parts/tank.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace tank_test {

using namespace units;

/// A cone of 0.4 m under a round body, by rows; level^3 in the cone.
Tank cone_bottom() {
  TankTable t;
  for (const double level : {0.0, 0.1, 0.2, 0.3, 0.4, 0.8, 1.2, 1.5}) {
    const double r = 0.6, cone = 3.14159265 * r * r * 0.4 / 3.0, x = level / 0.4;
    t.rows.push_back({level * m, (level <= 0.4 ? cone * x * x * x : cone + 3.14159265 * r * r * (level - 0.4)) * m3});
  }
  return {.shape = t};
}
std::vector<Tank> tanks() {
  return {{.shape = UprightTank::round(1.2 * m, 1.5 * m)},
          {.shape = UprightTank::box(1.2 * m, 0.8 * m, 0.9 * m)},
          {.shape = LyingTank::round(1.2 * m, 2.0 * m)},
          {.shape = LyingTank{.height = 1.0 * m, .width = 1.5 * m, .length = 2.0 * m}},
          cone_bottom()};
}

TEST(Tank, VolumesOfTheShapes) {
  EXPECT_NEAR(si(Tank{.shape = UprightTank::round(1.2 * m, 2.0 * m)}.volume(0.7 * m)), 0.7916813487046278, 1e-14);
  EXPECT_NEAR(si(Tank{.shape = UprightTank::box(1.2 * m, 0.8 * m, 0.9 * m)}.capacity()), 0.864, 1e-15);
  // Computed with the Python package `fluids` 1.0.22, geometry.TANK(D=1.2, L=2.0, horizontal=True).V_from_h(h).
  const Tank lying{.shape = LyingTank::round(1.2 * m, 2.0 * m)};
  EXPECT_NEAR(si(lying.volume(0.3 * m)), 0.4422130914991525, 1e-14);
  EXPECT_NEAR(si(lying.level(0.0900311122536086 * m3)), 0.1, 1e-13);
  EXPECT_NEAR(si(lying.level(1.8197336190854987 * m3)), 0.9, 1e-13);
  // Computed with SciPy's quad.
  const Tank elliptical{.shape = LyingTank{.height = 1.0 * m, .width = 1.5 * m, .length = 2.0 * m}};
  EXPECT_NEAR(si(elliptical.volume(0.35 * m)), 0.7349414342658114, 1e-12);
  // A table is met at its rows.
  const Tank table = cone_bottom();
  for (const TankTable::Row& row : std::get<TankTable>(table.shape).rows) {
    EXPECT_NEAR(si(table.volume(row.level)), si(row.volume), 1e-15);
  }
}

TEST(Tank, LevelIsTheInverseOfVolume) {
  for (const Tank& tank : tanks()) {
    tank.check("tank");
    const double top = si(tank.height());
    double before = -1.0;
    for (int i = 0; i <= 50; ++i) {
      const double level = top * i / 50.0, volume = si(tank.volume(level * m));
      EXPECT_GT(volume, before);
      EXPECT_NEAR(si(tank.level(volume * m3)), level, 1e-9 * top);
      before = volume;
      if (i == 0 || i == 50) continue;
      const double h = 1e-6 * top;
      const double slope = (si(tank.volume((level + h) * m)) - si(tank.volume((level - h) * m))) / (2.0 * h);
      EXPECT_NEAR(si(tank.surface(level * m)), slope, 1e-4 * slope);
    }
    EXPECT_EQ(si(tank.level(tank.capacity())), top);
  }
}

TEST(Tank, UsableVolume) {
  Tank tank{.shape = UprightTank::box(2.0 * m, 1.0 * m, 1.0 * m), .outlet_level = 0.05 * m, .lowest_level = 0.1 * m};
  EXPECT_NEAR(si(tank.usable_volume(0.6 * m)), 1.0, 1e-15);
  EXPECT_EQ(si(tank.usable_volume(0.1 * m)), 0.0);
  EXPECT_EQ(si(tank.usable_volume(0.02 * m)), 0.0);
}

// Static head of the trade: 0.4335 psi a foot of water (derived for 60 F, four digits), with a specific gravity in
// front of it for heavier liquids: 0.554 for one of 1.279.
TEST(Tank, PressureAtTheOutlet) {
  Tank tank{.shape = UprightTank::round(4.0 * ft, 5.0 * ft), .outlet_level = 1.0 * ft, .lowest_level = 1.0 * ft};
  const LiquidState water = test::liquid_of("water", 999.016, 1e-3);
  const LiquidState heavy = test::liquid_of("heavy", 1.279 * 999.016, 1e-3);
  EXPECT_NEAR(si(tank.outlet_pressure(4.0 * ft, water)) / si(psi), 3.0 * 0.4335, 3.0 * 0.0005);
  EXPECT_NEAR(si(tank.outlet_pressure(2.0 * ft, heavy)) / si(psi), 0.554, 0.0005);
  EXPECT_EQ(si(tank.outlet_pressure(1.0 * ft, heavy)), 0.0);
  tank.top_pressure = -1.0 * psi;  // a stuck vent
  EXPECT_NEAR(si(tank.outlet_pressure(4.0 * ft, water)) / si(psi), 3.0 * 0.4335 - 1.0, 3.0 * 0.0005);
}

TEST(Tank, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto refused = [](const Tank& tank, const std::string& field) {
    test::expect_refused([&] { tank.check("tank 't1'"); }, "tank 't1', " + field);
  };
  for (const double bad : {0.0, -1.0, 1e4, nan, inf}) {
    refused({.shape = UprightTank{.plan = bad * m2, .height = 1.0 * m}}, "plan");
    refused({.shape = UprightTank{.plan = 1.0 * m2, .height = bad * m}}, "height");
    refused({.shape = LyingTank{.height = bad * m, .width = 1.0 * m, .length = 1.0 * m}}, "height");
    refused({.shape = LyingTank{.height = 1.0 * m, .width = bad * m, .length = 1.0 * m}}, "width");
    refused({.shape = LyingTank{.height = 1.0 * m, .width = 1.0 * m, .length = bad * m}}, "length");
  }
  const UprightTank good = UprightTank::round(1.0 * m, 1.0 * m);
  for (const double bad : {-1e6, 1e8, nan, inf}) {
    refused({.shape = good, .top_pressure = bad * Pa}, "top pressure");
    refused({.shape = good, .outlet_level = bad * m}, "outlet level");
    refused({.shape = good, .lowest_level = bad * m}, "lowest level");
  }
  refused({.shape = good, .outlet_level = 0.2 * m, .lowest_level = 0.1 * m}, "lowest level");
  refused({.shape = TankTable{}}, "table");
  for (const std::size_t row : {std::size_t{0}, std::size_t{3}}) {
    for (const double bad : {0.05, -1.0, nan}) {
      Tank table = cone_bottom();
      std::get<TankTable>(table.shape).rows[row].level = bad * m;
      refused(table, "table row " + std::to_string(row + 1));
      table = cone_bottom();
      std::get<TankTable>(table.shape).rows[row].volume = (bad == 0.05 && row == 3 ? 0.0 : bad) * m3;
      refused(table, "table row " + std::to_string(row + 1));
    }
  }
  refused({}, "plan");
  // Four rows are a table, three are none; levels a micrometre apart are two levels.
  const auto rows = [](std::initializer_list<double> levels) {
    TankTable t;
    for (const double level : levels) t.rows.push_back({level * m, (level + 0.01 * level * level) * m3});
    return Tank{.shape = t};
  };
  EXPECT_NO_THROW(rows({0.0, 0.3, 0.6, 0.9}).check("tank 't1'"));
  refused(rows({0.0, 0.3, 0.6}), "table");
  EXPECT_NO_THROW(rows({0.0, 0.3, 0.3 + 1.01e-6, 0.9}).check("tank 't1'"));
  refused(rows({0.0, 0.3, 0.3 + 0.99e-6, 0.9}), "table row 3");

  const Tank tank{.shape = good, .outlet_level = 0.1 * m, .lowest_level = 0.1 * m};
  for (const double bad : {-0.1, 1.1, nan}) {
    test::expect_refused([&] { static_cast<void>(tank.volume(bad * m, "tank 't1'")); }, "tank 't1', level");
    test::expect_refused([&] { static_cast<void>(tank.surface(bad * m, "tank 't1'")); }, "tank 't1', level");
    test::expect_refused([&] { static_cast<void>(tank.usable_volume(bad * m, "tank 't1'")); }, "tank 't1', level");
    test::expect_refused([&] { static_cast<void>(tank.level(bad * m3, "tank 't1'")); }, "tank 't1', volume");
  }
  test::expect_refused([&] { static_cast<void>(tank.outlet_pressure(0.05 * m, test::water(), "tank 't1'")); },
                       "tank 't1', level");
}

// The range that files were written for: up to 100,000 m3.
TEST(Tank, ATablesVolumesEndAtTheirRange) {
  TankTable table{.rows = {{0.0 * m, 0.0 * m3}, {1.0 * m, 1.0 * m3}, {2.0 * m, 2.0 * m3}, {3.0 * m, 1e5 * m3}}};
  EXPECT_NO_THROW((Tank{.shape = table}.check("tank 't1'")));
  table.rows.back().volume = 1.01e5 * m3;
  test::expect_refused([&] { (Tank{.shape = table}.check("tank 't1'")); }, "tank 't1', table row 4, volume");
}

}  // namespace tank_test
}  // namespace libflow
