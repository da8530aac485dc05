// SPDX-License-Identifier: MIT
/// @file
/// Local losses: the two-constant method, sudden changes of bore, velocity head and Reynolds number.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/minor_loss.hpp>
#include <libflow/physics/orifice.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace minor_loss_test {

constexpr double fitting_rho = 1000.0, fitting_mu = 1e-3, inch = 0.0254;

double fitting_flow_at(double re, double bore) {
  return re * std::numbers::pi * bore * fitting_mu / (4.0 * fitting_rho);
}

// Coefficient K on the velocity head that the two terms amount to at a Reynolds number.
double coefficient(double k1, double k, double bore, double re) {
  const double q = fitting_flow_at(re, bore);
  const auto loss = local_loss<double>(k1, hooper_k_inf(k, bore), bore, fitting_rho, fitting_mu);
  return (loss.linear * q + loss.quadratic * q * q) / velocity_head(q, bore, fitting_rho);
}

// W. B. Hooper, Chem. Eng., 24 August 1981, p. 97: K = K1/Re + K_inf (1 + 1/D), D in inches. Coefficients of the
// method's table as seen in an open package; K computed from the formula.
TEST(LocalLoss, HooperTable) {
  const double rows[][5] = {{800, 0.4, 0.5, 100, 9.2},    {800, 0.4, 0.5, 1000, 2.0},    {800, 0.4, 0.5, 10000, 1.28},
                            {800, 0.4, 2, 100, 8.6},      {800, 0.4, 2, 1000, 1.4},      {800, 0.4, 2, 10000, 0.68},
                            {200, 0.1, 0.5, 100, 2.3},    {200, 0.1, 0.5, 1000, 0.5},    {200, 0.1, 0.5, 10000, 0.32},
                            {200, 0.1, 2, 100, 2.15},     {200, 0.1, 2, 1000, 0.35},     {200, 0.1, 2, 10000, 0.17},
                            {800, 0.8, 0.5, 100, 10.4},   {800, 0.8, 0.5, 1000, 3.2},    {800, 0.8, 0.5, 10000, 2.48},
                            {800, 0.8, 2, 100, 9.2},      {800, 0.8, 2, 1000, 2.0},      {800, 0.8, 2, 10000, 1.28},
                            {1500, 4.0, 0.5, 100, 27.0},  {1500, 4.0, 0.5, 1000, 13.5},  {1500, 4.0, 0.5, 10000, 12.15},
                            {1500, 4.0, 2, 100, 21.0},    {1500, 4.0, 2, 1000, 7.5},     {1500, 4.0, 2, 10000, 6.15},
                            {2000, 10.0, 0.5, 100, 50.0}, {2000, 10.0, 0.5, 1000, 32.0}, {2000, 10.0, 0.5, 10000, 30.2},
                            {2000, 10.0, 2, 100, 35.0},   {2000, 10.0, 2, 1000, 17.0},   {2000, 10.0, 2, 10000, 15.2},
                            {1500, 1.5, 0.5, 100, 19.5},  {1500, 1.5, 0.5, 1000, 6.0},   {1500, 1.5, 0.5, 10000, 4.65},
                            {1500, 1.5, 2, 100, 17.25},   {1500, 1.5, 2, 1000, 3.75},    {1500, 1.5, 2, 10000, 2.4}};
  for (const auto& row : rows) {
    EXPECT_NEAR(coefficient(row[0], row[1], row[2] * inch, row[3]) / row[4], 1.0, 1e-14)
        << row[0] << " " << row[1] << " " << row[2] << " in, Re " << row[3];
  }
}

// The one value of the method that is printed: a standard globe valve, 2 in, Re 1e4: K = 6.15 (seen in an open
// package's documentation); two decimals.
TEST(LocalLoss, PrintedValue) { EXPECT_NEAR(coefficient(1500, 4.0, 2 * inch, 1e4), 6.15, 0.005); }

// P. Silverberg, R. Darby, Chem. Eng. 106 (7), July 1999, p. 101: K = K1/Re + Ki (1 + Kd/D^0.3). Coefficients of the
// method's table as seen in an open package; K computed from the formula there, all digits.
TEST(LocalLoss, DarbyTable) {
  const double rows[][6] = {
      {800, 0.14, 4.0, 0.5, 100, 8.829440871473153},    {800, 0.14, 4.0, 0.5, 1000, 1.629440871473153},
      {800, 0.14, 4.0, 0.5, 10000, 0.9094408714731531}, {800, 0.14, 4.0, 2, 100, 8.594861341959492},
      {800, 0.14, 4.0, 2, 10000, 0.6748613419594919},   {200, 0.091, 4.0, 0.5, 100, 2.53913656645755},
      {200, 0.091, 4.0, 2, 10000, 0.4066598722736697},  {500, 0.274, 4.0, 0.5, 100, 6.623334277026028},
      {500, 0.274, 4.0, 2, 10000, 1.214228626406434},   {2000, 2.85, 3.8, 0.5, 100, 36.18329399652544},
      {2000, 2.85, 3.8, 2, 10000, 11.84669345253803},   {1500, 0.46, 4.0, 0.5, 1000, 4.225305720554646},
      {1500, 0.46, 4.0, 2, 1000, 3.454544409295473},    {300, 0.017, 3.5, 0.5, 1000, 0.3902530925940225},
      {300, 0.017, 3.5, 2, 10000, 0.09532901758319601}};
  for (const auto& row : rows) {
    const double bore = row[3] * inch, q = fitting_flow_at(row[4], bore);
    const auto loss = local_loss<double>(row[0], darby_k_inf(row[1], row[2], bore), bore, fitting_rho, fitting_mu);
    EXPECT_NEAR((loss.linear * q + loss.quadratic * q * q) / velocity_head(q, bore, fitting_rho) / row[5], 1.0, 1e-13)
        << row[0] << " " << row[1] << " " << row[3] << " in, Re " << row[4];
  }
}

// The two values of the three-constant method that are printed (documentation of an open package): angle valve 45
// degrees, 2 in, Re 1e4: 1.1572523963562356; K1 950, Ki 0.25, Kd 4, 12 in, Re 1e4: 0.819510280626355.
TEST(LocalLoss, DarbyPrintedValues) {
  EXPECT_NEAR(950 / 1e4 + darby_k_inf(0.25, 4.0, 2 * inch), 1.1572523963562356, 5e-14);
  EXPECT_NEAR(950 / 1e4 + darby_k_inf(0.25, 4.0, 12 * inch), 0.819510280626355, 5e-14);
}

TEST(LocalLoss, SlopeAtZeroFlowIsTheLaminarPart) {
  const double bore = 0.01, area = std::numbers::pi * bore * bore / 4.0;
  const auto loss = local_loss<double>(800, 0.5, bore, fitting_rho, fitting_mu);
  EXPECT_GT(loss.linear, 0.0);
  // K1/Re rho V^2/2 = K1 mu V/(2 D).
  EXPECT_NEAR(loss.linear * area / (800 * fitting_mu / (2.0 * bore)), 1.0, 1e-14);
  EXPECT_EQ(local_loss<double>(0, 0.5, bore, fitting_rho, fitting_mu).linear, 0.0);
}

constexpr double sudden = std::numbers::pi;

// Sudden expansion (1 - A1/A2)^2 on the smaller velocity (Borda-Carnot), contraction 0.5 (1 - A2/A1) on the smaller
// bore's (Crane Technical Paper 410; I. E. Idelchik); into and out of a wide space 0.5 (sharp entrance) and 1 (exit).
TEST(BoreChange, Sudden) {
  const double rows[][3] = {{0.1, 0.81, 0.45},     {0.25, 0.5625, 0.375}, {0.5, 0.25, 0.25},
                            {0.75, 0.0625, 0.125}, {0.0, 1.0, 0.5},       {1.0, 0.0, 0.0}};
  for (const auto& row : rows) {
    const double ratio = std::sqrt(row[0]);
    EXPECT_NEAR(expansion_k_inf(ratio, sudden), row[1], 1e-15);
    EXPECT_NEAR(contraction_k_inf(ratio, sudden), row[2], 1e-15);
  }
}

// Crane Technical Paper 410, cones (computed by an open package, 1.0.22): bores, full angle, contraction, expansion.
TEST(BoreChange, Cones) {
  const double rows[][5] = {{0.02, 0.01, 30, 0.15529142706151244, 0.3785228534624366},
                            {0.02, 0.01, 60, 0.2651650429449553, 0.5625},
                            {0.02, 0.01, 180, 0.375, 0.5625},
                            {0.03, 0.02, 20, 0.07717696785196902, 0.13934730306605517}};
  for (const auto& row : rows) {
    const double angle = row[2] * std::numbers::pi / 180.0;
    EXPECT_NEAR(contraction_k_inf(row[1] / row[0], angle), row[3], 1e-14) << row[2];
    EXPECT_NEAR(expansion_k_inf(row[1] / row[0], angle), row[4], 1e-14) << row[2];
  }
  // Where the two formulas of a cone meet, at 45 degrees, they differ by 1 %.
  const double less = std::numbers::pi / 4.0, more = std::nextafter(less, 1.0);
  EXPECT_NEAR(contraction_k_inf(0.5, less) / contraction_k_inf(0.5, more), 1.0, 0.011);
  EXPECT_NEAR(expansion_k_inf(0.5, less) / expansion_k_inf(0.5, more), 1.0, 0.006);
}

// Against another published contraction, H. Rouse's for sharp edges (as in the same package; bores 20 to 10 mm and 30
// to 20 mm): 0.4956 and 0.3839, where 0.5 (1 - b^2) is known to be low: model gap 28 %.
TEST(BoreChange, AnotherContraction) {
  EXPECT_NEAR(contraction_k_inf(0.5, sudden) / 0.4956, 1.0, 0.28);
  EXPECT_NEAR(contraction_k_inf(2.0 / 3.0, sudden) / 0.3839, 1.0, 0.28);
}

// Creeping flow: the end of a tube in a wide space is half of Sampson's exact hole (1891); a slender cone loses by
// Hagen-Poiseuille, here integrated by the midpoint rule; nothing where nothing changes.
TEST(BoreChange, CreepingLimits) {
  const double bore = 0.01;
  const auto end = local_loss<double>(bore_change_k1(0.0, sudden), 0.0, bore, fitting_rho, fitting_mu);
  EXPECT_NEAR(end.linear / (creeping_resistance(bore, 0.0, fitting_mu) / 2.0), 1.0, 1e-14);
  EXPECT_EQ(bore_change_k1(1.0, sudden), 0.0);

  const double angle = cone_angle_range.low, wide = 0.02, length = (wide - bore) / 2.0 / std::tan(angle / 2.0);
  double wall = 0.0;
  constexpr int steps = 2000;
  for (int i = 0; i < steps; ++i) {
    const double d = bore + (wide - bore) * (i + 0.5) / steps;
    wall += 128.0 * fitting_mu * (length / steps) / (std::numbers::pi * std::pow(d, 4));
  }
  const double k1 = bore_change_k1(0.5, angle) - bore_change_k1(0.5, sudden);
  EXPECT_NEAR(local_loss<double>(k1, 0.0, bore, fitting_rho, fitting_mu).linear / wall, 1.0, 1e-6);
  EXPECT_GT(k1, 10.0 * bore_change_k1(0.5, sudden));
}

// K. Subramanya, 1000 Solved Problems in Fluid Mechanics, example 11.1, p. 238 (seen in a public collection of
// textbook solutions): 450 L/min from 60 mm into 90 mm, 20 kPa before, 21.73 kPa after (specific weight 9.79 kN/m3,
// g 9.81 m/s2): static pressure is regained although the head falls.
TEST(BoreChange, BordaCarnotWorked) {
  const double q = 0.45 / 60.0, density = 9790.0 / 9.81;
  const double k = expansion_k_inf(0.06 / 0.09, sudden);
  const auto loss = local_loss<double>(0.0, k, 0.06, density, fitting_mu);
  const double after =
      20e3 + velocity_head(q, 0.06, density) - velocity_head(q, 0.09, density) - loss.quadratic * q * q;
  EXPECT_NEAR(after / 1e3, 21.73, 0.005);
  EXPECT_NEAR(loss.quadratic * q * q / 9790.0, 0.1107, 5e-5);  // head lost in m, computed from the formula
}

TEST(VelocityHead, Definition) {
  // One litre per second through 10 cm2: 1 m/s, half a kilopascal in water of 1000 kg/m3.
  const double bore = std::sqrt(4.0 * 1e-3 / std::numbers::pi);
  EXPECT_NEAR(velocity_head(1e-3, bore, 1000.0), 500.0, 1e-10);
  EXPECT_NEAR(velocity_head(2e-3, bore, 1000.0), 2000.0, 1e-10);
  EXPECT_EQ(velocity_head(0.0, bore, 1000.0), 0.0);
}

// Y. A. Cengel, J. M. Cimbala, Fluid Mechanics, example 8-3: Re 134,126 (their flow, bore and viscosity; computed) and
// example 8-2: Re 1777 from V 0.9 m/s.
TEST(ReynoldsNumber, TextbookCases) {
  EXPECT_NEAR(reynolds_number(0.006, 0.05, 999.0, 1.138e-3), 134126.49966859, 1e-7);
  const double q = 0.9 * std::numbers::pi * 0.003 * 0.003 / 4.0;
  EXPECT_NEAR(reynolds_number(q, 0.003, 1000.0, 1.519e-3), 1777.4851876234, 1e-9);
  EXPECT_EQ(reynolds_number(-q, 0.003, 1000.0, 1.519e-3), reynolds_number(q, 0.003, 1000.0, 1.519e-3));
}

TEST(LocalLoss, PacksAndManyDigits) {
  using Pack = Eigen::Array<double, 4, 1>;
  using test::Many;
  Pack bore;
  bore << 0.001, 0.006, 0.0127, 0.2;
  const auto loss =
      local_loss<Pack>(Pack(800.0), hooper_k_inf<Pack>(Pack(0.4), bore), bore, Pack(fitting_rho), Pack(fitting_mu));
  for (int i = 0; i < 4; ++i) {
    const auto one = local_loss<double>(800.0, hooper_k_inf(0.4, bore[i]), bore[i], fitting_rho, fitting_mu);
    EXPECT_DOUBLE_EQ(loss.linear[i], one.linear);
    EXPECT_DOUBLE_EQ(loss.quadratic[i], one.quadratic);
    const auto many = local_loss<Many>(Many(800), hooper_k_inf<Many>(Many(0.4), Many(bore[i])), Many(bore[i]),
                                       Many(fitting_rho), Many(fitting_mu));
    EXPECT_LT(abs(Many(one.linear / many.linear - 1)), 1e-15);
    EXPECT_LT(abs(Many(one.quadratic / many.quadratic - 1)), 1e-15);
  }
}

}  // namespace minor_loss_test
}  // namespace libflow::physics
