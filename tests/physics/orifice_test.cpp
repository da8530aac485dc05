// SPDX-License-Identifier: MIT
/// @file
/// A small round hole: exact creeping flow, published coefficients of sharp and thick holes, the square law.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/orifice.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace orifice_test {

using test::Many;

constexpr double bore = 1e-3, orifice_rho = 998.0, orifice_mu = 1e-3;

double flow_at(double re) { return re * std::numbers::pi * bore * orifice_mu / (4.0 * orifice_rho); }

Hole<double> sharp(double density = orifice_rho, double viscosity = orifice_mu) {
  return hole<double>(bore, 0.0, density, viscosity, sharp_discharge_coefficient, sharp_uncontracted);
}
// As the orifice part lowers itself: coefficient and bridge by the hole's length to bore.
Hole<double> with_length(double ratio) {
  return hole<double>(bore, ratio * bore, orifice_rho, orifice_mu,
                      hole_discharge_coefficient(ratio, sharp_discharge_coefficient),
                      sharp_uncontracted * contraction_left(ratio));
}
double coefficient(const Hole<double>& h, double re) {
  return discharge_coefficient(flow_at(re), h, bore, orifice_rho);
}

// R. A. Sampson, Phil. Trans. R. Soc. A 182 (1891) 449, exact: q = d^3 dp/(24 mu), so that C = sqrt(Re/(12 pi)) =
// 0.16286750396764 sqrt(Re) (computed).
TEST(CreepingFlow, SampsonIsTheSlopeAtZeroFlow) {
  const auto rest = drop_hole(0.0, sharp());
  EXPECT_EQ(rest.dp, 0.0);
  EXPECT_NEAR(rest.slope * std::pow(bore, 3) / (24.0 * orifice_mu), 1.0, 1e-15);
  EXPECT_NEAR(coefficient(sharp(), 1e-12) / std::sqrt(1e-12), 0.16286750396764, 1e-13);
  // H. E. Merritt, Hydraulic Control Systems, 1967, quotes 0.199 after Wuest 1954 (from memory): not this limit.
  EXPECT_GT(std::abs(coefficient(sharp(), 1e-12) / std::sqrt(1e-12) / 0.199 - 1.0), 0.1);
}

// Z. Dagan, S. Weinbaum, R. Pfeffer, J. Fluid Mech. 115 (1982) 505: dp = (mu q/d^3)(24 + 128 L/(pi d)), within 1 %
// (formula from memory): C = sqrt(Re/(12 pi + 64 L/d)), computed.
TEST(CreepingFlow, HoleWithLength) {
  const double rows[][3] = {
      {0, 0.01, 0.016286750396764},     {0, 0.1, 0.05150322693642528},   {0, 1, 0.16286750396764},
      {0.5, 0.01, 0.01197805707035538}, {0.5, 0.1, 0.03787794228580671}, {0.5, 1, 0.1197805707035538},
      {1, 0.01, 0.009916111921137013},  {1, 0.1, 0.03135749920394093},   {1, 1, 0.09916111921137013},
      {2, 0.01, 0.007768549005747696},  {2, 0.1, 0.02456630897279921},   {2, 1, 0.07768549005747696},
      {5, 0.01, 0.00528738663704462},   {5, 0.1, 0.01672018464299902},   {5, 1, 0.0528738663704462}};
  for (const auto& row : rows) {
    // The creeping part alone, dp = R q.
    const double q = flow_at(row[1]), area = std::numbers::pi * bore * bore / 4.0;
    const double dp = creeping_resistance(bore, row[0] * bore, orifice_mu) * q;
    EXPECT_NEAR(q / (area * std::sqrt(2.0 * dp / orifice_rho)) / row[2], 1.0, 2e-14) << row[0] << " " << row[1];
    // The whole law adds inertia, so C is lower: by 0.02 % at Re 0.01, 0.2 % at 0.1, 1.7 % at 1.
    const double gap = row[1] < 0.05 ? 2e-4 : row[1] < 0.5 ? 2e-3 : 1.7e-2;
    const double c = coefficient(with_length(row[0]), row[1]) / row[2];
    EXPECT_LT(c, 1.0) << row[0] << " " << row[1];
    EXPECT_GT(c, 1.0 - gap) << row[0] << " " << row[1];
  }
  // A long hole is a tube: Hagen-Poiseuille, 128 mu L/(pi d^4).
  const double tube = 128.0 * orifice_mu * 1e5 * bore / (std::numbers::pi * std::pow(bore, 4));
  EXPECT_NEAR(creeping_resistance(bore, 1e5 * bore, orifice_mu) / tube, 1.0, 1e-5);
}

// D. Wu, R. Burton, G. Schoenau, Int. J. Fluid Power 3 (2002) 13, equation 15: C = 0.61 [1 + 1.07 exp(-0.126 sqrt Re) -
// 2.07 exp(-0.246 sqrt Re)], read in an open reprint of the paper; values computed from it. Its exponents are the
// paper's own table 1, 0.077 and 0.15 over the 0.61 of the jet, to the three digits that are printed (checked below);
// the table's largest coefficient is 0.69 at sqrt Re 11.
TEST(SharpHole, CoefficientAgainstReynoldsNumber) {
  const double rows[][2] = {{25, 0.58854483068},    {50, 0.656034988035},   {100, 0.68726227051},
                            {200, 0.680919398931},  {500, 0.64384768733},   {1000, 0.621613478823},
                            {5000, 0.610088140127}, {10000, 0.610002200888}};
  for (const auto& row : rows) EXPECT_NEAR(coefficient(sharp(), row[0]) / row[1], 1.0, 0.015) << row[0];
  for (double re = 25.0; re <= 1e4; re *= 1.02) {
    const double root = std::sqrt(re);
    const double published = 0.61 * (1.0 + 1.07 * std::exp(-0.126 * root) - 2.07 * std::exp(-0.246 * root));
    EXPECT_NEAR(coefficient(sharp(), re) / published, 1.0, 0.015) << re;
  }
  EXPECT_NEAR(0.077 / 0.61, 0.126, 5e-4);
  EXPECT_NEAR(0.15 / 0.61, 0.246, 5e-4);
  EXPECT_NEAR(coefficient(sharp(), 121.0), 0.69, 0.005 + 0.015 * 0.69);
}

// Below Re 25 the exact limit rules. The correlation runs to 0.228 sqrt(Re), 40 % above Sampson's exact 0.163: ours
// is below the correlation there, more and more, and never above the exact creeping flow.
TEST(SharpHole, DepartsFromTheCorrelationTowardsTheExactLimit) {
  const double rows[][3] = {{1, 0.198096817082, 0.20}, {5, 0.373978656092, 0.11}, {9.33, 0.458571023561, 0.065}};
  double gap_before = 1.0;
  for (const auto& row : rows) {
    const double gap = 1.0 - coefficient(sharp(), row[0]) / row[1];
    EXPECT_GT(gap, 0.0) << row[0];
    EXPECT_LT(gap, row[2]) << row[0];
    EXPECT_LT(gap, gap_before) << row[0];
    gap_before = gap;
  }
  for (double re = 1e-6; re < 25.0; re *= 1.5) {
    EXPECT_LT(coefficient(sharp(), re), 0.16286750396764 * std::sqrt(re) * (1.0 + 1e-14)) << re;
  }
}

TEST(SharpHole, FreeJetAtHighReynoldsNumber) {
  EXPECT_NEAR(coefficient(sharp(), 1e7), sharp_discharge_coefficient, 1e-4);
  // ISO 5167-2, table A.1, pipe far larger than the hole (beta 0.10): 0.6006 at Re 5e3 and 0.5990 at 1e4 on the pipe
  // (from memory), so ten times that on the hole. Ours is a round 0.61: a gap of at most 2 %.
  EXPECT_NEAR(coefficient(sharp(), 5e4) / 0.6006, 1.0, 0.02);
  EXPECT_NEAR(coefficient(sharp(), 1e5) / 0.5990, 1.0, 0.02);
}

// A. Lichtarowicz, R. K. Duggins, E. Markland, J. Mech. Eng. Sci. 7 (1965) 210, L/d 2 to 10: 1/C = 1/C_u +
// (20/Re_h)(1 + 2.25 L/d) - 0.005 (L/d)/(1 + 7.5 [log10(0.00015 Re_h)]^2), C_u = 0.827 - 0.0085 L/d, Re_h on the jet
// velocity sqrt(2 dp/rho), so Re = C Re_h (equation seen in two public programs, two of its values printed there).
// Its viscous part is an empirical fit: 20 + 45 L/d where the exact creeping flow has 12 pi + 64 L/d, so below Re_h
// 100 our coefficient is lower on purpose. The widest gap of each Re_h is the model gap.
TEST(HoleWithLength, CoefficientAgainstReynoldsNumber) {
  struct Row {
    double ratio, re_h, c;
  };
  const Row rows[] = {{2, 10, 0.08173671924852832},   {2, 50, 0.2911817571003982},    {2, 100, 0.4284155081876959},
                      {2, 500, 0.6879402004898989},   {2, 1000, 0.7446425649260326},  {2, 5000, 0.8015287191310923},
                      {2, 20000, 0.8088165976866},    {4, 10, 0.04703512856791251},   {4, 50, 0.1900974291121063},
                      {4, 100, 0.3067236903449226},   {4, 500, 0.6027263676687882},   {4, 1000, 0.6859883901837387},
                      {4, 5000, 0.7793441931766774},  {4, 20000, 0.7913604270225794}, {10, 10, 0.02068385514520882},
                      {10, 50, 0.09305550234526329},  {10, 100, 0.1654045719057951},  {10, 500, 0.4380310901471853},
                      {10, 1000, 0.5526387524563128}, {10, 5000, 0.7158457215559267}, {10, 20000, 0.7392400560577238}};
  const std::map<double, double> model_gap{{10, 0.16},    {50, 0.12},   {100, 0.08},   {500, 0.04},
                                           {1000, 0.045}, {5000, 0.01}, {20000, 0.005}};
  for (const Row& row : rows) {
    const double gap = coefficient(with_length(row.ratio), row.c * row.re_h) / row.c - 1.0;
    EXPECT_LT(std::abs(gap), model_gap.at(row.re_h)) << row.ratio << " " << row.re_h;
    if (row.re_h <= 50) {
      EXPECT_LT(gap, 0.0) << row.ratio << " " << row.re_h;
    }
  }
}

// W. F. McGreehan, M. J. Schotsch, J. Turbomachinery 110 (1988) 213: no printed values at hand (formula from two
// secondary copies), so it is held to its neighbours: the sharp plate at no length, and C_u of Lichtarowicz, Duggins
// and Markland 1965 from two bores to ten, within 0.01.
TEST(HoleWithLength, CoefficientAtHighReynoldsNumber) {
  EXPECT_EQ(contraction_left(0.0), 1.0);
  EXPECT_NEAR(contraction_left(1.0), 0.2007, 5e-5);  // exp(-1.606)
  EXPECT_LT(contraction_left(2.0), 0.002);
  for (const double c : {0.59, 0.6, 0.61, 0.62}) EXPECT_NEAR(hole_discharge_coefficient(0.0, c), c, 3e-4);
  for (double ratio = 2.0; ratio <= 10.0; ratio += 0.25) {
    EXPECT_NEAR(hole_discharge_coefficient(ratio, 0.61), 0.827 - 0.0085 * ratio, 0.01) << ratio;
  }
  // Rises steeply where the jet fills the hole again, then falls slowly with friction.
  for (double ratio = 0.0; ratio < 1.4; ratio += 0.1) {
    EXPECT_GT(hole_discharge_coefficient(ratio + 0.1, 0.61), hole_discharge_coefficient(ratio, 0.61)) << ratio;
  }
  for (double ratio = 2.0; ratio < 10.0; ratio += 0.1) {
    EXPECT_LT(hole_discharge_coefficient(ratio + 0.1, 0.61), hole_discharge_coefficient(ratio, 0.61)) << ratio;
  }
  for (const double ratio : {0.0, 0.5, 2.0, 4.0, 10.0}) {
    EXPECT_NEAR(coefficient(with_length(ratio), 1e8), hole_discharge_coefficient(ratio, 0.61), 1e-5) << ratio;
  }
}

// Flow that a hole passes at a drop, by bisection on the rising law.
double flow_for(double dp, const Hole<double>& h) {
  double low = 0.0, high = 1.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (drop_hole(middle, h).dp < dp ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

// Q2 = Q1 sqrt(P2/P1): four times the pressure doubles the flow (any nozzle text; computed). At high Reynolds number
// ours keeps it to what is left of the viscous part.
TEST(SharpHole, SquareLaw) {
  const auto h = sharp(orifice_rho, 1e-7);  // Re about 1e7
  EXPECT_NEAR(flow_for(4e5, h) / flow_for(1e5, h), 2.0, 1e-3);
  EXPECT_NEAR(flow_for(2e5, h) / flow_for(1e5, h), 1.4142135623730950488, 1e-3);
  EXPECT_NEAR(flow_for(0.25e5, h) / flow_for(1e5, h), 0.5, 1e-3);
}

// Conversion factor sqrt(SG) between the rate of a solution and of water at one pressure: University of Nebraska-
// Lincoln Extension, CropWatch, "Setting the sprayer flow rate for non-water solutions", 2016, table 1; P. E. Sumner,
// University of Georgia Extension, "Spraying solutions other than water", table 1 (16.0 lb/gal only there). Two
// decimals printed; the solutions are given water's viscosity, as the rule assumes.
TEST(SharpHole, DensityRule) {
  const double rows[][3] = {{6.6, 0.79, 0.89},   {7.0, 0.84, 0.92},  {8.0, 0.96, 0.98},   {8.34, 1.00, 1.00},
                            {9.0, 1.08, 1.04},   {10.0, 1.20, 1.10}, {10.65, 1.28, 1.13}, {11.0, 1.32, 1.15},
                            {11.06, 1.32, 1.15}, {11.4, 1.37, 1.17}, {11.5, 1.38, 1.17},  {11.6, 1.39, 1.18},
                            {12.0, 1.44, 1.20},  {14.0, 1.68, 1.30}, {16.0, 1.92, 1.39}};
  const double dp = 30.0 * 6894.757293168;
  for (const auto& row : rows) {
    const double factor = flow_for(dp, sharp(1000.0)) / flow_for(dp, sharp(1000.0 * row[1]));
    EXPECT_NEAR(factor, row[2], 0.005) << row[0] << " lb/gal";
  }
}

TEST(DropHole, OddRisingAndItsSlope) {
  for (const auto& h : {sharp(), sharp(1400.0, 0.15), with_length(0.7), with_length(10.0)}) {
    const Hole<Many> many{Many(h.creeping), Many(h.inertia), Many(h.uncontracted), Many(h.re_per_flow)};
    double before = 0.0;
    for (double q = 1e-14; q < 1e-2; q *= 1.3) {
      const auto d = drop_hole(q, h), back = drop_hole(-q, h);
      EXPECT_GT(d.dp, before) << q;
      EXPECT_EQ(back.dp, -d.dp);
      EXPECT_EQ(back.slope, d.slope);
      const Many slope = test::difference_slope([&](const Many& x) { return drop_hole<Many>(x, many).dp; }, Many(q));
      EXPECT_LT(abs(Many(d.slope / slope - 1)), 2e-15) << q;
      EXPECT_LT(abs(Many(drop_hole<Many>(Many(q), many).slope / slope - 1)), 1e-28) << q;
      before = d.dp;
    }
  }
}

TEST(DropHole, PackLanesEqualScalars) {
  using Pack = Eigen::Array<double, 4, 1>;
  Pack q, bores;
  q << 0.0, 1e-9, -3e-6, 1e-3;
  bores << 0.2e-3, 1e-3, 2e-3, 5e-3;
  const auto packed = hole<Pack>(bores, Pack(0.0), Pack(orifice_rho), Pack(orifice_mu), Pack(0.61), Pack(0.54));
  const auto d = drop_hole<Pack>(q, packed);
  for (int i = 0; i < 4; ++i) {
    const auto one = drop_hole(q[i], hole<double>(bores[i], 0.0, orifice_rho, orifice_mu, 0.61, 0.54));
    EXPECT_DOUBLE_EQ(d.dp[i], one.dp);
    EXPECT_DOUBLE_EQ(d.slope[i], one.slope);
  }
}

}  // namespace orifice_test
}  // namespace libflow::physics
