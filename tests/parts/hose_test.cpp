// SPDX-License-Identifier: MIT
/// @file
/// Hose: its law, its bounds, its cautions.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include <libflow/parts/hose.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace hose_test {

using namespace units;

TEST(Hose, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(Hose{.length = 14.0 * ft, .bore = 0.375 * inch}, liquid);
    test::expect_lawful(Hose{.length = 1000.0 * m, .bore = 2.0 * mm, .roughness = 0.1 * mm}, liquid);
    test::expect_lawful(Hose{.length = 1.0 * cm, .bore = 0.5 * m, .roughness = 0.0 * m}, liquid);
    test::expect_lawful(Hose{.length = 0.001 * mm, .bore = 0.1 * mm}, liquid);
  }
}

// Y. A. Cengel, J. M. Cimbala, Fluid Mechanics, example 8-2: 3 mm bore, 9 m, 0.9 m/s, laminar: 43.7 kPa printed.
TEST(Hose, TextbookDrop) {
  const double q = 0.9 * std::numbers::pi * 0.003 * 0.003 / 4.0;
  const Law law = Hose{.length = 9.0 * m, .bore = 3.0 * mm}.law(test::liquid_of("water", 1000.0, 1.519e-3));
  EXPECT_NEAR(law(q).dp / 1e3, 43.7, 0.05);
  EXPECT_EQ(law.passes, Passes::both);
  EXPECT_EQ(law.threshold, 0.0);
}

TEST(Hose, SlopeAtZeroFlowIsHagenPoiseuille) {
  for (const auto& liquid : {test::water(), test::thick()}) {
    const Law law = Hose{.length = 4.0 * m, .bore = 6.0 * mm, .roughness = 0.05 * mm}.law(liquid);
    EXPECT_NEAR(law(0.0).slope / (128.0 * liquid.viscosity * 4.0 / (std::numbers::pi * 0.006 * 0.006 * 0.006 * 0.006)),
                1.0, 1e-14);
  }
}

TEST(Hose, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const auto make = [](double length, double bore, double roughness) {
    return Hose{
        .length = from_si<Length>(length), .bore = from_si<Length>(bore), .roughness = from_si<Length>(roughness)};
  };
  for (const double bad : {0.0, -1.0, nan, inf, -inf, 1e9}) {
    test::expect_refused([&] { make(bad, 0.01, 0.0).check("hose 'row 3'"); }, "hose 'row 3', length");
    test::expect_refused([&] { make(1.0, bad, 0.0).check("hose 'row 3'"); }, "hose 'row 3', bore");
  }
  for (const double bad : {-1e-9, 0.00051, nan, inf}) {
    test::expect_refused([&] { make(1.0, 0.01, bad).check("hose 'row 3'"); }, "hose 'row 3', roughness");
  }
  for (const double bad : {0.0, -1.0, nan, inf, 1e12}) {
    Hose hose = make(1.0, 0.01, 0.0);
    hose.rating = from_si<Pressure>(bad);
    test::expect_refused([&] { hose.check("hose 'row 3'"); }, "hose 'row 3', rating");
  }
  for (const double good : {1.0, 1e8}) {  // the range that files were written for
    Hose hose = make(1.0, 0.01, 0.0);
    hose.rating = from_si<Pressure>(good);
    EXPECT_NO_THROW(hose.check("hose 'row 3'")) << good;
    hose.rating = from_si<Pressure>(good > 1.0 ? 1.01 * good : 0.99 * good);
    EXPECT_THROW(hose.check("hose 'row 3'"), InputError) << good;
  }
  test::expect_refused([] { Part(Hose{}, "hose 'empty'"); }, "hose 'empty', length");
  EXPECT_NO_THROW(make(1.0, 0.01, 0.0005).check("hose"));
  EXPECT_NO_THROW(make(1000.0, 0.5, 0.0).check("hose"));
}

TEST(Hose, CautionAboveItsWorkingPressure) {
  const Part part = Hose{.length = 3.0 * m, .bore = 10.0 * mm, .rating = 150.0 * psi};
  EXPECT_TRUE(part.cautions(1e-4, si(150.0 * psi), test::water()).empty());
  const Cautions found = part.cautions(1e-4, si(151.0 * psi), test::water());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "above-working-pressure");
  EXPECT_EQ(found[0].value, si(151.0 * psi));
  EXPECT_EQ(found[0].limit, si(150.0 * psi));
  EXPECT_FALSE(found[0].source.empty());
  // Without a rating there is nothing to hold the pressure against.
  EXPECT_TRUE(Part(Hose{.length = 3.0 * m, .bore = 10.0 * mm}).cautions(1e-4, 1e8, test::water()).empty());
}

TEST(Hose, CautionOutsideTheFrictionFormula) {
  const Part part = Hose{.length = 1.0 * m, .bore = 1.0 * cm};
  const double re_1e8 = 1e8 * std::numbers::pi * 0.01 * test::water().viscosity / (4.0 * test::water().density);
  EXPECT_TRUE(part.cautions(0.99 * re_1e8, 0.0, test::water()).empty());
  for (const double way : {1.0, -1.0}) {
    const Cautions found = part.cautions(way * 1.01 * re_1e8, 0.0, test::water());
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "outside-range");
    EXPECT_NEAR(found[0].value, 1.01e8, 1e3);
  }
}

// Values as L. F. Moody, Trans. ASME 66 (1944) 671 gives them in feet (from memory): 5e-6, 1.5e-4, 5e-4, 8.5e-4 ft; the
// metric ones are rounded to two digits.
TEST(Hose, RoughnessByMaterial) {
  EXPECT_NEAR(si(roughness_of(Wall::drawn_tubing)), 5e-6 * 0.3048, 5e-8);
  EXPECT_NEAR(si(roughness_of(Wall::new_steel)), 1.5e-4 * 0.3048, 5e-7);
  EXPECT_NEAR(si(roughness_of(Wall::galvanized_steel)), 5e-4 * 0.3048, 5e-6);
  EXPECT_NEAR(si(roughness_of(Wall::cast_iron)), 8.5e-4 * 0.3048, 5e-6);
  for (const WallRoughness& row : wall_roughness_table) {
    EXPECT_EQ(si(roughness_of(row.wall)), si(row.roughness)) << row.name;  // the table stands in the enum's order
    EXPECT_FALSE(row.name.empty());
    EXPECT_FALSE(row.source.empty());
  }
  EXPECT_EQ(si(Hose{}.roughness), si(roughness_of(Wall::drawn_tubing)));
}

TEST(Hose, WallThicknessIsForTheOutsideOnly) {
  Hose hose{.length = 3.0 * m, .bore = 10.0 * mm};
  EXPECT_FALSE(hose.outside_diameter().has_value());
  const double before = hose.law(test::water())(1e-4).dp;
  hose.wall_thickness = 2.5 * mm;
  EXPECT_NEAR(si(hose.outside_diameter().value()), 0.015, 1e-15);
  EXPECT_EQ(hose.law(test::water())(1e-4).dp, before);
  hose.wall_thickness = 0.0 * mm;
  test::expect_refused([&] { hose.check("h"); }, "h, wall thickness");
}

TEST(Hose, BeginningAndCoilAreLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    test::expect_lawful(Hose{.length = 30.0 * cm, .bore = 4.0 * mm, .entrance = true}, liquid);
    test::expect_lawful(Hose{.length = 1.0 * cm, .bore = 0.5 * m, .roughness = 0.0 * m, .entrance = true}, liquid);
    test::expect_lawful(Hose{.length = 0.001 * mm, .bore = 0.1 * mm, .entrance = true}, liquid);
    test::expect_lawful(Hose{.length = 20.0 * m, .bore = 10.0 * mm, .coil_diameter = 0.4 * m}, liquid);
    test::expect_lawful(
        Hose{.length = 1.0 * m, .bore = 3.0 * cm, .roughness = 1.5 * mm, .entrance = true, .coil_diameter = 20.0 * cm},
        liquid);
  }
}

// Off unless wanted, so that drawing a hose as two changes nothing; wanted, it is at most 1.25 velocity heads.
TEST(Hose, Beginning) {
  const Hose whole{.length = 0.4 * m, .bore = 4.0 * mm}, half{.length = 0.2 * m, .bore = 4.0 * mm};
  Hose begun = whole;
  begun.entrance = true;
  for (const double re : {10.0, 500.0, 1900.0}) {
    const double q = re * std::numbers::pi * 0.004 * test::water().viscosity / (4.0 * test::water().density);
    const double dp = whole.law(test::water())(q).dp;
    EXPECT_NEAR(2.0 * half.law(test::water())(q).dp / dp, 1.0, 1e-14);
    const double heads =
        (begun.law(test::water())(q).dp - dp) / physics::velocity_head(q, 0.004, test::water().density);
    EXPECT_NEAR(heads, physics::incremental_loss_laminar(re / 100.0).k, 1e-9);
    EXPECT_LE(heads, 1.25);
    EXPECT_GT(heads, 1.0);
  }
}

TEST(Hose, CoilCostsMoreWhenLaminarAndTurbulent) {
  const Hose straight{.length = 15.0 * m, .bore = 10.0 * mm};
  Hose coiled = straight;
  coiled.coil_diameter = 0.2 * m;
  EXPECT_NEAR(coiled.curvature(), 0.05, 1e-15);
  EXPECT_EQ(straight.curvature(), 0.0);
  const double per_re = std::numbers::pi * 0.01 * test::water().viscosity / (4.0 * test::water().density);
  const auto ratio = [&](double re) {
    return coiled.law(test::water())(re * per_re).dp / straight.law(test::water())(re * per_re).dp;
  };
  EXPECT_NEAR(ratio(1000.0), 2.024, 0.03 * 2.024);  // C. M. White 1929, computed with fluids 1.0.22; 3 %
  EXPECT_GT(ratio(2e4), 1.1);
  EXPECT_LT(ratio(2e4), 1.35);
  // Allowed: 1/0.15 bores (6.67 cm) to 1000 m.
  for (const double bad : {0.06, 0.0666, 1001.0, 1e9}) {
    coiled.coil_diameter = bad * m;
    test::expect_refused([&] { coiled.check("h"); }, "h, coil diameter");
  }
  for (const double good : {0.0667, 999.0}) {
    coiled.coil_diameter = good * m;
    EXPECT_NO_THROW(coiled.check("h"));
  }
}

TEST(Hose, CautionsOfCoilAndBeginning) {
  const double per_re = std::numbers::pi * 0.01 * test::water().viscosity / (4.0 * test::water().density);
  const Part coiled = Hose{.length = 15.0 * m, .bore = 10.0 * mm, .coil_diameter = 10.0 * cm};
  // d/D 0.1: Dean number 3000 at Re 9487, past the laminar limit of 9018.
  EXPECT_TRUE(coiled.cautions(9400.0 * per_re, 0.0, test::water()).empty());
  EXPECT_TRUE(coiled.cautions(0.99e5 * per_re, 0.0, test::water()).empty());
  const Cautions fast = coiled.cautions(1.01e5 * per_re, 0.0, test::water());
  ASSERT_EQ(fast.size(), 1u);
  EXPECT_EQ(fast[0].code, "outside-range");
  EXPECT_EQ(fast[0].limit, 1e5);
  const Part tight = Hose{.length = 15.0 * m, .bore = 10.0 * mm, .coil_diameter = 7.0 * cm};
  const Cautions dean = tight.cautions(9000.0 * per_re, 0.0, test::water());
  ASSERT_EQ(dean.size(), 1u);
  EXPECT_EQ(dean[0].limit, 3000.0);
  EXPECT_NEAR(dean[0].value, 9000.0 / std::sqrt(7.0), 1e-6);
  const Part begun = Hose{.length = 1.0 * m, .bore = 10.0 * mm, .entrance = true};
  EXPECT_TRUE(begun.cautions(1990.0 * per_re, 0.0, test::water()).empty());
  ASSERT_EQ(begun.cautions(2010.0 * per_re, 0.0, test::water()).size(), 1u);
}

// A coil of curvature 1/40 is still laminar at a Reynolds number of 3000; its Dean number there, Re sqrt(d/D), is 474,
// well within the formula's 3000. Nothing is said.
TEST(Hose, ACoilWithinItsFormulasIsNotCautioned) {
  const Part part(Hose{.length = 5.0 * m, .bore = 10.0 * mm, .coil_diameter = 0.4 * m});
  const LiquidState water = test::water();
  for (const double re : {1.0, 100.0, 3000.0}) {
    const double flow = re * std::numbers::pi * 0.01 * water.viscosity / (4.0 * water.density);
    EXPECT_TRUE(part.cautions(flow, 0.0, water).empty()) << re;
  }
}

}  // namespace hose_test
}  // namespace libflow
