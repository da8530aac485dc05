// SPDX-License-Identifier: MIT
/// @file
/// Hose: its law, its bounds, its cautions.
#include <gtest/gtest.h>

#include <limits>
#include <numbers>

#include <libflow/parts/hose.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace {

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

}  // namespace
}  // namespace libflow
