// SPDX-License-Identifier: MIT
/// @file
/// Strainer: its rating point, what blocking does, mesh openings, advice, its bounds.
#include <gtest/gtest.h>

#include <limits>
#include <utility>

#include <libflow/fluid/water.hpp>
#include <libflow/parts/strainer.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace strainer_test {

using namespace units;

constexpr Area cm2 = from_si<Area>(1e-4);
const Strainer fifty{
    .bore = 25.0 * mm, .rated_flow = 20.0 * gpm, .rated_loss = 2.0 * psi, .opening = 0.3 * mm, .open_area = 60.0 * cm2};

LiquidState strainer_rating_water() {
  return test::liquid_of("water", water_density<double>(293.15), water_viscosity<double>(293.15));
}

TEST(Strainer, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double blocked : {0.0, 0.5, 0.99}) {
      Strainer part = fifty;
      part.blocked = blocked;
      test::expect_lawful(part, liquid);
    }
  }
}

TEST(Strainer, MeetsItsRatingPoint) {
  EXPECT_NEAR(fifty.law(strainer_rating_water())(si(20.0 * gpm)).dp / si(2.0 * psi), 1.0, 1e-9);
  // Near the square law in water: half the flow, about a quarter of the loss (the holes' laminar part adds a little).
  EXPECT_NEAR(fifty.law(strainer_rating_water())(si(10.0 * gpm)).dp / si(2.0 * psi), 0.25, 0.02);
}

// Half of many equal holes carry twice the flow each: a screen blocked by half loses at q what it lost clean at 2 q.
TEST(Strainer, BlockingIsTheScreens) {
  for (const auto& liquid : {test::water(), test::thick()}) {
    Strainer half = fifty, clean = fifty;
    half.blocked = 0.5;
    const double q = si(12.0 * gpm);
    const auto screen = [&](const Strainer& s, double flow) {
      return physics::drop_hole(flow, s.law(liquid).holes.back()).dp;
    };
    EXPECT_NEAR(screen(half, q) / screen(clean, 2.0 * q), 1.0, 1e-13);
    EXPECT_NEAR(half.law(liquid)(q).dp - clean.law(liquid)(q).dp, screen(half, q) - screen(clean, q), 1e-6);
    EXPECT_GT(screen(half, q), 2.0 * screen(clean, q));
  }
}

// A screen of one opening is that sharp orifice.
TEST(Strainer, OneOpeningIsAnOrifice) {
  const Strainer one{.bore = 0.5 * mm,
                     .rated_flow = 1.0 * mL_per_min,
                     .rated_loss = 1.0 * psi,
                     .opening = 1.0 * mm,
                     .open_area = from_si<Area>(0.25001e-6 * 3.14159265358979324)};
  const Law screen = Orifice{.bore = 1.0 * mm}.law(test::water());
  const double q = 1e-6;
  EXPECT_NEAR(physics::drop_hole(q, one.law(test::water()).holes.back()).dp / screen(q).dp, 1.0, 1e-4);
  EXPECT_NO_THROW(one.check("strainer"));
}

// ASTM E11 (from memory): openings of 16, 20, 50, 80 and 100 mesh 1.18 (1.19 in older tables), 0.85 (0.84), 0.30, 0.18,
// 0.15 mm.
TEST(Strainer, MeshOpenings) {
  const double rows[][2] = {{16, 1.19}, {20, 0.84}, {50, 0.30}, {80, 0.18}, {100, 0.15}};
  for (const auto& row : rows) {
    EXPECT_NEAR(si(Strainer::mesh_opening(static_cast<int>(row[0]))) * 1e3, row[1], 0.0101);
  }
  // The whole series of the standard (from memory), openings in mm, as it prints them now.
  const double series[][2] = {{16, 1.18}, {20, 0.85}, {30, 0.6},   {40, 0.425}, {50, 0.3},
                              {60, 0.25}, {80, 0.18}, {100, 0.15}, {200, 0.075}};
  for (const auto& row : series) {
    EXPECT_NEAR(si(Strainer::mesh_opening(static_cast<int>(row[0]))) * 1e3, row[1], 1e-12) << row[0];
  }
  try {
    static_cast<void>(Strainer::mesh_opening(45, "strainer 's1'"));
    FAIL() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "strainer 's1', mesh");
    EXPECT_EQ(e.nearest(), "40");
  }
}

// Beyond the ends of the table the nearest is its end, and no number of it is a mesh of nothing.
TEST(Strainer, BeyondTheTablesEndsTheNearestMeshIsItsEnd) {
  for (const auto& [mesh, nearest] : {std::pair(0, "16"), {1, "16"}, {7, "16"}, {1000, "200"}}) {
    try {
      static_cast<void>(Strainer::mesh_opening(mesh));
      ADD_FAILURE() << mesh << " is no mesh of the table";
    } catch (const InputError& e) {
      EXPECT_EQ(e.nearest(), nearest) << mesh;
    }
  }
}

TEST(Strainer, AdvisesOnTheMesh) {
  Strainer part = fifty;
  const double q = si(5.0 * gpm);
  EXPECT_TRUE(part.cautions(q, 0.0, test::water()).empty());  // nothing to protect is named
  part.orifice_bore = 0.4 * mm;
  EXPECT_TRUE(part.cautions(q, 0.0, test::water()).empty());
  part.orifice_bore = 0.25 * mm;
  const Cautions found = part.cautions(q, 0.0, test::water());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "strainer-too-coarse");
  EXPECT_DOUBLE_EQ(found[0].value, 3e-4);
  EXPECT_DOUBLE_EQ(found[0].limit, 2.5e-4);
}

// One square inch of screen for each US gallon a minute: 60 cm2 are 9.3 in2.
TEST(Strainer, AdvisesOnTheArea) {
  Strainer part = fifty;
  EXPECT_TRUE(part.cautions(si(9.2 * gpm), 0.0, test::water()).empty());
  for (const double way : {1.0, -1.0}) {
    const Cautions found = part.cautions(way * si(9.4 * gpm), 0.0, test::water());
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "strainer-too-small");
    EXPECT_NEAR(found[0].limit, 9.4 * 6.4516e-4, 1e-12);
  }
  part.blocked = 0.5;
  EXPECT_EQ(part.cautions(si(9.2 * gpm), 0.0, test::water()).size(), 1u);
}

TEST(Strainer, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change, const char* field) {
    Strainer part = fifty;
    change(part);
    test::expect_refused([&] { Part(part, "strainer 's1'"); }, field);
  };
  for (const double bad : {0.0, -1.0, 2.0, nan}) {
    refused([&](Strainer& s) { s.rated_flow = bad * m3_per_s; }, "strainer 's1', rated flow");
  }
  for (const double bad : {0.0, -1.0, 2e6, nan}) {
    refused([&](Strainer& s) { s.rated_loss = bad * Pa; }, "strainer 's1', rated loss");
  }
  for (const double bad : {0.0, 11.0, nan}) {
    refused([&](Strainer& s) { s.opening = bad * mm; }, "strainer 's1', opening");
  }
  for (const double bad : {0.0, 11.0, nan, 7e-8}) {  // one opening of 0.3 mm has 7.07e-8 m2
    refused([&](Strainer& s) { s.open_area = bad * m2; }, "strainer 's1', open area");
  }
  for (const double bad : {0.0, 501.0, nan}) refused([&](Strainer& s) { s.bore = bad * mm; }, "strainer 's1', bore");
  for (const double bad : {-0.1, 1.0, nan}) refused([&](Strainer& s) { s.blocked = bad; }, "strainer 's1', blocked");
  refused([&](Strainer& s) { s.orifice_bore = 0.0 * mm; }, "strainer 's1', orifice bore");
  // A screen so small that it alone loses more than the rated loss.
  refused([&](Strainer& s) { s.open_area = 2.0 * cm2; }, "strainer 's1', rated loss");
  EXPECT_NO_THROW(fifty.check("strainer"));
}

}  // namespace strainer_test
}  // namespace libflow
