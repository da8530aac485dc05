// SPDX-License-Identifier: MIT
/// @file
/// Tanks: partly filled lying cylinders against an independent package, against integration, at their ends.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/tank_shape.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace tank_shape_test {

// Computed with the Python package `fluids` 1.0.22, geometry.TANK(D=1.2, L=2.0, horizontal=True).V_from_h(h): a lying
// round cylinder with flat ends.
TEST(TankShape, LyingRoundAgainstAnIndependentPackage) {
  const double cases[][2] = {{0.1, 0.0900311122536086},
                             {0.3, 0.4422130914991525},
                             {0.6, 1.1309733552923256},
                             {0.9, 1.8197336190854987},
                             {1.2, 2.261946710584651}};
  for (const auto& [level, volume] : cases) {
    EXPECT_NEAR(lying_filling(1.2, 1.2, 2.0, level).volume, volume, 1e-13) << level;
  }
}

// Computed with SciPy's quad over the chord of the ellipse: 1.0 m high, 1.5 m wide, 2.0 m long.
TEST(TankShape, LyingEllipticalAgainstIntegration) {
  const double cases[][2] = {
      {0.1, 0.12262583159496328}, {0.35, 0.7349414342658114}, {0.5, 1.1780972450961724}, {0.8, 2.020723076691136}};
  for (const auto& [level, volume] : cases) {
    EXPECT_NEAR(lying_filling(1.0, 1.5, 2.0, level).volume, volume, 1e-12) << level;
  }
}

TEST(TankShape, LyingEnds) {
  const double h = 0.9, w = 1.4, l = 2.2, full = std::numbers::pi / 4.0 * h * w * l;
  EXPECT_EQ(lying_filling(h, w, l, 0.0).volume, 0.0);
  EXPECT_EQ(lying_filling(h, w, l, 0.0).surface, 0.0);
  EXPECT_NEAR(lying_filling(h, w, l, h / 2.0).volume, full / 2.0, 1e-14);
  EXPECT_NEAR(lying_filling(h, w, l, h / 2.0).surface, w * l, 1e-14);
  EXPECT_NEAR(lying_filling(h, w, l, h).volume, full, 1e-14);
  EXPECT_EQ(lying_filling(h, w, l, h).surface, 0.0);
  // Upside down: what is missing at one level is what is there at the other.
  for (const double y : {0.05, 0.3, 0.41}) {
    EXPECT_NEAR(lying_filling(h, w, l, y).volume + lying_filling(h, w, l, h - y).volume, full, 1e-14);
  }
}

// Standard tables of partly filled lying tanks: at a quarter of the depth 19.55 % of the volume, at a tenth 5.20 %
// (Perry's Chemical Engineers' Handbook, section 10, from memory).
TEST(TankShape, TableOfPartlyFilledTanks) {
  const auto share = [](double depth) { return lying_filling(1.0, 1.0, 4.0 / std::numbers::pi, depth).volume; };
  EXPECT_NEAR(share(0.25), 0.1955, 5e-5);
  EXPECT_NEAR(share(0.10), 0.0520, 5e-5);
}

TEST(TankShape, SurfaceIsTheSlopeOfTheVolume) {
  using test::Many;
  for (const double level : {0.001, 0.2, 0.55, 0.79}) {
    const auto volume = [](const Many& y) { return lying_filling<Many>(Many("0.8"), Many("1.1"), Many(2), y).volume; };
    const double slope = static_cast<double>(test::difference_slope(volume, Many(level)));
    EXPECT_NEAR(lying_filling(0.8, 1.1, 2.0, level).surface / slope, 1.0, 1e-13) << level;
  }
  EXPECT_EQ(upright_filling(1.5, 0.7).surface, 1.5);
  EXPECT_DOUBLE_EQ(upright_filling(1.5, 0.7).volume, 1.05);
}

TEST(TankShape, Packs) {
  using Pack = Eigen::Array<double, 4, 1>;
  Pack level;
  level << 0.0, 0.2, 0.5, 0.8;
  const auto pack = lying_filling<Pack>(Pack(0.8), Pack(1.1), Pack(2.0), level);
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(pack.volume[i], lying_filling(0.8, 1.1, 2.0, level[i]).volume, 1e-15);
    EXPECT_NEAR(pack.surface[i], lying_filling(0.8, 1.1, 2.0, level[i]).surface, 1e-15);
  }
}

}  // namespace tank_shape_test
}  // namespace libflow::physics
