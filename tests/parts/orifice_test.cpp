// SPDX-License-Identifier: MIT
/// @file
/// Orifice: its law, its rating, its bounds, its caution.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include <libflow/parts/orifice.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace orifice_test {

using namespace units;

const double not_a_number = std::numeric_limits<double>::quiet_NaN();
const double no_end = std::numeric_limits<double>::infinity();

// The water that ratings are made with.
LiquidState rating_water() { return test::liquid_of("water", water_density(293.15), water_viscosity(293.15)); }

TEST(Orifice, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double ratio : {0.0, 0.3, 0.7, 1.0, 2.0, 10.0}) {
      for (const double bore : {5e-5, 1e-3, 5e-2}) {
        test::expect_lawful(Orifice{.bore = bore * m, .thickness = ratio * bore * m}, liquid);
      }
    }
    test::expect_lawful(Orifice{.bore = 1.2 * mm, .discharge_coefficient = 1.0}, liquid);
  }
}

TEST(Orifice, RatedRecoversItsRating) {
  for (const double flow : {0.02, 0.1, 0.37, 1.0, 5.0}) {     // gal/min
    for (const double pressure : {1.0, 10.0, 40.0, 100.0}) {  // psi
      const Orifice o = Orifice::rated(flow * gpm, pressure * psi);
      EXPECT_NEAR(o.law(rating_water())(si(flow * gpm)).dp / si(pressure * psi), 1.0, 2e-12) << flow << " " << pressure;
      EXPECT_NO_THROW(o.check("orifice"));
    }
  }
  // A creeping one too: a trickle through a fine hole.
  const Orifice fine = Orifice::rated(from_si<Flow>(2e-9), 50.0 * Pa);
  EXPECT_NEAR(fine.law(rating_water())(2e-9).dp / 50.0, 1.0, 2e-12);
}

TEST(Orifice, RatedGrowsWithFlowAndShrinksWithPressure) {
  double before = 0.0;
  for (double flow = 0.02; flow < 5.0; flow *= 1.3) {
    const double bore = si(Orifice::rated(flow * gpm, 40.0 * psi).bore);
    EXPECT_GT(bore, before);
    EXPECT_LT(si(Orifice::rated(flow * gpm, 60.0 * psi).bore), bore);
    before = bore;
  }
}

TEST(Orifice, RatedRefusesWhatNoBorePasses) {
  for (const double bad : {0.0, -1e-6, not_a_number, no_end}) {
    test::expect_refused([&] { (void)Orifice::rated(from_si<Flow>(bad), 40.0 * psi, "row 3"); }, "row 3, rated flow");
    test::expect_refused([&] { (void)Orifice::rated(1.0 * gpm, from_si<Pressure>(bad), "row 3"); },
                         "row 3, rated pressure");
  }
  test::expect_refused([] { (void)Orifice::rated(1.0 * m3_per_s, 1.0 * Pa, "row 3"); }, "row 3, rated flow");
  test::expect_refused([] { (void)Orifice::rated(from_si<Flow>(1e-9), from_si<Pressure>(1e8), "row 3"); },
                       "row 3, rated flow");
}

// The exact creeping ends (R. A. Sampson 1891; Z. Dagan, S. Weinbaum, R. Pfeffer 1982, see physics/orifice.hpp) and
// the free jet: dp = rho v^2/(2 C^2), C 0.61 for the sharp plate (0.03 % of it is the coefficient formula's own gap).
TEST(Orifice, EndsOfItsLaw) {
  const auto liquid = test::water();
  const double d = 1.3e-3, area = std::numbers::pi * d * d / 4.0;
  const Law sharp = Orifice{.bore = d * m}.law(liquid);
  EXPECT_NEAR(sharp(0.0).slope * d * d * d / (24.0 * liquid.viscosity), 1.0, 1e-14);
  const Law thick = Orifice{.bore = d * m, .thickness = 3.0 * d * m}.law(liquid);
  EXPECT_NEAR(thick(0.0).slope * d * d * d / ((24.0 + 128.0 * 3.0 / std::numbers::pi) * liquid.viscosity), 1.0, 1e-14);
  const double q = 1e-2;  // far beyond a real one: Re 1e7
  const auto coefficient = [&](const Law& law) { return q / (area * std::sqrt(2.0 * law(q).dp / liquid.density)); };
  EXPECT_NEAR(coefficient(sharp), 0.61, 3e-4);
  EXPECT_NEAR(coefficient(thick), 0.827 - 0.0085 * 3.0, 0.01);  // Lichtarowicz, Duggins, Markland 1965
  EXPECT_NEAR(coefficient(Orifice{.bore = d * m, .discharge_coefficient = 0.7}.law(liquid)), 0.7, 1e-4);
}

TEST(Orifice, AGivenCoefficientReplacesTheFormula) {
  const auto liquid = test::water();
  const Law low = Orifice{.bore = 1.0 * mm, .discharge_coefficient = 0.6}.law(liquid);
  const Law high = Orifice{.bore = 1.0 * mm, .discharge_coefficient = 0.8}.law(liquid);
  EXPECT_NEAR(low(1e-3).dp / high(1e-3).dp, (0.8 * 0.8) / (0.6 * 0.6), 1e-3);
  EXPECT_EQ(low(0.0).slope, high(0.0).slope);  // creeping flow knows no coefficient
}

// The flow at a pressure undoes the drop at a flow.
TEST(Orifice, FlowAtAPressure) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double pressure : {1e-3, 1.0, 1e3, 1e5, 1e7}) {
      for (const Orifice& o : {Orifice{.bore = 0.05 * mm}, Orifice{.bore = 1.2 * mm, .thickness = 6.0 * mm},
                               Orifice{.bore = 50.0 * mm, .discharge_coefficient = 1.0}}) {
        const double flow = si(o.flow_at(pressure * Pa, liquid));
        EXPECT_NEAR(o.law(liquid)(flow).dp / pressure, 1.0, 1e-12) << pressure;
      }
    }
  }
  EXPECT_EQ(si(Orifice{.bore = 1.0 * mm}.flow_at(0.0 * Pa, test::water())), 0.0);
  test::expect_refused([] { (void)Orifice{.bore = 1.0 * mm}.flow_at(-1.0 * Pa, test::water(), "row 3"); },
                       "row 3, pressure");
}

// New Jersey Administrative Code 7:9A-9.7, discharge of a hole of 1/4, 3/8 and 1/2 in under 3 to 5 ft of head, gal/min.
// Its rows follow a constant coefficient of 0.6004: half a digit, and 2 % of model gap to 0.61.
TEST(Orifice, PublishedDischargeTable) {
  const double rows[][3] = {{0.25, 3.0, 1.28},  {0.25, 5.0, 1.65}, {0.375, 3.0, 2.87}, {0.375, 4.0, 3.31},
                            {0.375, 5.0, 3.71}, {0.5, 3.0, 5.10},  {0.5, 5.0, 6.59}};
  for (const auto& row : rows) {
    const Pressure head = from_si<Pressure>(998.21 * standard_gravity * si(row[1] * ft));
    const double flow = si(Orifice{.bore = row[0] * inch}.flow_at(head, test::water())) / si(1.0 * gpm);
    EXPECT_NEAR(flow, row[2], 0.005 + 0.02 * row[2]) << row[0] << " in, " << row[1] << " ft";
  }
}

TEST(Orifice, WornPassesMoreByWhatIsSaid) {
  const auto water = rating_water();
  for (const double bore : {0.1, 0.5, 1.2, 4.0}) {
    for (const double wear : {0.0, 0.01, 0.1, 0.5, 1.0}) {
      const Orifice fresh{.bore = bore * mm, .thickness = 0.1 * bore * mm};
      const Orifice worn = fresh.worn(wear, 40.0 * psi);
      const double ratio = si(worn.flow_at(40.0 * psi, water)) / si(fresh.flow_at(40.0 * psi, water));
      EXPECT_NEAR(ratio, 1.0 + wear, 1e-11) << bore << " " << wear;
      EXPECT_EQ(worn.thickness, fresh.thickness);
    }
  }
  // The square law: bore x sqrt(1 + wear), within what the coefficient of a jet still changes with Reynolds number.
  const Orifice fresh{.bore = 2.0 * mm};
  EXPECT_NEAR(si(fresh.worn(0.1, 40.0 * psi).bore) / si(fresh.bore), std::sqrt(1.1), 1e-3);
  test::expect_refused([&] { (void)fresh.worn(-0.1, 40.0 * psi, "row 3"); }, "row 3, wear");
  test::expect_refused([&] { (void)fresh.worn(0.1, 0.0 * psi, "row 3"); }, "row 3, pressure");
  test::expect_refused([] { (void)Orifice{.bore = 49.0 * mm}.worn(0.2, 40.0 * psi, "row 3"); }, "row 3, bore");
}

// By the square law a bore off by x is a flow off by 2x (and x^2).
TEST(Orifice, FlowBandOfATolerance) {
  const Orifice o{.bore = 1.0 * mm, .bore_tolerance = 0.02 * mm};
  const auto band = o.flow_band(40.0 * psi, test::water());
  EXPECT_NEAR(si(band.low) / si(band.nominal), 0.98 * 0.98, 1e-3);
  EXPECT_NEAR(si(band.high) / si(band.nominal), 1.02 * 1.02, 1e-3);
  EXPECT_EQ(o.law(test::water())(1e-5).dp, Orifice{.bore = 1.0 * mm}.law(test::water())(1e-5).dp);
  for (const double bad : {0.6, -0.1, not_a_number}) {
    test::expect_refused([&] { Orifice{.bore = 1.0 * mm, .bore_tolerance = bad * mm}.check("orifice 'r1'"); },
                         "orifice 'r1', bore tolerance");
  }
}

TEST(Orifice, RefusesBadInput) {
  const auto check = [](double bore, double thickness, std::optional<double> coefficient = {}) {
    Orifice{.bore = bore * m, .thickness = thickness * m, .discharge_coefficient = coefficient}.check("orifice 'r1'");
  };
  for (const double bad : {0.0, -1e-3, not_a_number, no_end, 0.051, 1e-6}) {
    test::expect_refused([&] { check(bad, 0.0); }, "orifice 'r1', bore");
  }
  for (const double bad : {-1e-6, 0.0101, not_a_number, no_end}) {
    test::expect_refused([&] { check(0.001, bad); }, "orifice 'r1', thickness");
  }
  for (const double bad : {0.0, -0.6, 0.29, 1.01, not_a_number, no_end}) {
    test::expect_refused([&] { check(0.001, 0.0, bad); }, "orifice 'r1', discharge coefficient");
  }
  test::expect_refused([] { Part(Orifice{}, "orifice 'empty'"); }, "orifice 'empty', bore");
  EXPECT_NO_THROW(check(0.001, 0.01, 1.0));
  EXPECT_NO_THROW(check(5e-5, 0.0, 0.3));
}

TEST(Orifice, CautionBetweenSharpAndThick) {
  const auto cautions = [](double ratio) {
    return Part(Orifice{.bore = 2.0 * mm, .thickness = ratio * 2.0 * mm}).cautions(1e-5, 1e5, test::water());
  };
  for (const double ratio : {0.0, 0.25, 1.1, 2.0, 10.0}) EXPECT_TRUE(cautions(ratio).empty()) << ratio;
  const Cautions found = cautions(0.6);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].code, "outside-range");
  EXPECT_NEAR(found[0].value, 0.6, 1e-12);
  EXPECT_FALSE(found[0].text.empty());
  EXPECT_FALSE(found[0].source.empty());
}

}  // namespace orifice_test
}  // namespace libflow
