// SPDX-License-Identifier: MIT
/// @file
/// Local losses: the two-constant method, sudden changes of bore, velocity head and Reynolds number.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include <Eigen/Core>

#include <libflow/physics/minor_loss.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace {

constexpr double rho = 1000.0, mu = 1e-3, inch = 0.0254;

double flow_at(double re, double bore) { return re * std::numbers::pi * bore * mu / (4.0 * rho); }

// Coefficient K on the velocity head that the two terms amount to at a Reynolds number.
double coefficient(double k1, double k, double bore, double re) {
  const double q = flow_at(re, bore);
  const auto loss = local_loss<double>(k1, hooper_k_inf(k, bore), bore, rho, mu);
  return (loss.linear * q + loss.quadratic * q * q) / velocity_head(q, bore, rho);
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

TEST(LocalLoss, SlopeAtZeroFlowIsTheLaminarPart) {
  const double bore = 0.01, area = std::numbers::pi * bore * bore / 4.0;
  const auto loss = local_loss<double>(800, 0.5, bore, rho, mu);
  EXPECT_GT(loss.linear, 0.0);
  // K1/Re rho V^2/2 = K1 mu V/(2 D).
  EXPECT_NEAR(loss.linear * area / (800 * mu / (2.0 * bore)), 1.0, 1e-14);
  EXPECT_EQ(local_loss<double>(0, 0.5, bore, rho, mu).linear, 0.0);
}

// Sudden expansion (1 - A1/A2)^2 on the smaller velocity (Borda-Carnot), contraction 0.5 (1 - A2/A1) on the smaller
// bore's (Crane Technical Paper 410; I. E. Idelchik), pipe exit 1, sharp entrance 0.5: handed in as k_inf they come
// back as that multiple of the velocity head.
TEST(LocalLoss, SuddenChangesOfBore) {
  const double rows[][3] = {{0.1, 0.81, 0.45}, {0.25, 0.5625, 0.375}, {0.5, 0.25, 0.25}, {0.75, 0.0625, 0.125}};
  const double bore = 0.012, q = 3e-4;
  for (const auto& row : rows) {
    const double expansion = (1.0 - row[0]) * (1.0 - row[0]), contraction = 0.5 * (1.0 - row[0]);
    EXPECT_NEAR(expansion, row[1], 1e-15);
    EXPECT_NEAR(contraction, row[2], 1e-15);
    for (const double k : {row[1], row[2], 1.0, 0.5}) {
      const auto loss = local_loss<double>(0.0, k, bore, rho, mu);
      EXPECT_NEAR(loss.quadratic * q * q / velocity_head(q, bore, rho), k, 1e-14);
    }
  }
}

// K. Subramanya, 1000 Solved Problems in Fluid Mechanics, example 11.1, p. 238 (seen in a public collection of
// textbook solutions): 450 L/min from 60 mm into 90 mm, 20 kPa before, 21.73 kPa after (specific weight 9.79 kN/m3,
// g 9.81 m/s2): static pressure is regained although the head falls.
TEST(LocalLoss, BordaCarnotWorked) {
  const double q = 0.45 / 60.0, density = 9790.0 / 9.81;
  const double k = std::pow(1.0 - std::pow(0.06 / 0.09, 2), 2);
  const auto loss = local_loss<double>(0.0, k, 0.06, density, mu);
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
  const auto loss = local_loss<Pack>(Pack(800.0), hooper_k_inf<Pack>(Pack(0.4), bore), bore, Pack(rho), Pack(mu));
  for (int i = 0; i < 4; ++i) {
    const auto one = local_loss<double>(800.0, hooper_k_inf(0.4, bore[i]), bore[i], rho, mu);
    EXPECT_DOUBLE_EQ(loss.linear[i], one.linear);
    EXPECT_DOUBLE_EQ(loss.quadratic[i], one.quadratic);
    const auto many =
        local_loss<Many>(Many(800), hooper_k_inf<Many>(Many(0.4), Many(bore[i])), Many(bore[i]), Many(rho), Many(mu));
    EXPECT_LT(abs(Many(one.linear / many.linear - 1)), 1e-15);
    EXPECT_LT(abs(Many(one.quadratic / many.quadratic - 1)), 1e-15);
  }
}

}  // namespace
}  // namespace libflow::physics
