// SPDX-License-Identifier: MIT
/// @file
/// Networks printed in textbooks and papers, with their printed answers. Most print a law that is not libflow's own
/// (constant f, h = r Q^2, Hazen-Williams): it joins as a part of the test's. Heads become pressures by rho g h with
/// the book's g. Tolerance: half the last printed digit; "re-solved" digits were computed independently in 30 digits.
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/parts/hose.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace textbook_test {

using namespace libflow::units;
using test::PowerPart;
using test::PowerPump;
using test::QuadraticPart;

constexpr double pi = std::numbers::pi;
constexpr double cubic_foot = 0.3048 * 0.3048 * 0.3048;

Pressure pressure(double value) { return from_si<Pressure>(value); }
Flow flow(double value) { return from_si<Flow>(value); }

/// Drop of a pipe of constant Darcy factor with local losses on its own velocity: (f L/D + K) rho V^2/2.
QuadraticPart constant_factor(double f, double length, double bore, double density, double k = 0.0) {
  const double area = pi * bore * bore / 4.0;
  return {.k = (f * length / bore + k) * density / (2.0 * area * area)};
}

Solution solved(const Network& n, const LiquidState& liquid = test::water()) {
  Solution s = solve(n, liquid);
  EXPECT_TRUE(s.usable()) << s.message;
  EXPECT_LE(s.mass_residual, 1e-12);
  EXPECT_LE(s.energy_residual, 1e-9);
  return s;
}

// B. R. Munson and others, Fundamentals of Fluid Mechanics, example 8.14: three reservoirs. Printed 12.5, 2.26 and
// 10.3 ft3/s; the book rounds its coefficients on the way (2.26 against 2.233), so 2.26 is held to 0.03.
TEST(Textbook, ThreeReservoirsMunson) {
  const double weight = 1000.0 * 32.2 * 0.3048;  // per metre of head
  const std::array<double, 3> z{100.0, 20.0, 0.0}, length{1000.0, 500.0, 400.0};
  Network n;
  n.add_place("junction");
  for (std::size_t i = 0; i < 3; ++i) {
    const std::string id(1, static_cast<char>('A' + i));
    n.add_supply(id, pressure(weight * z[i] * 0.3048));
    n.add_part("pipe " + id, id, "junction", constant_factor(0.02, length[i] * 0.3048, 0.3048, 1000.0));
  }
  const Solution s = solved(n);
  const std::array<double, 3> printed{12.5, -2.26, -10.3}, half{0.05, 0.03, 0.05};
  const std::array<double, 3> resolved{12.5063141699, -2.23281738726, -10.2734967826};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(s.parts[i].flow / cubic_foot, printed[i], half[i]);
    EXPECT_NEAR(s.parts[i].flow / cubic_foot, resolved[i], 1e-9);
  }
  EXPECT_NEAR(s.places[0].total_pressure / weight / 0.3048, 21.2549914894, 1e-9);  // re-solved
}

// F. M. White, Fluid Mechanics, examples 6.16 (series) and 6.17 (parallel); pipe data and answers from memory, they
// reproduce the re-solved digits. Full Colebrook-White: libflow's own hose.
struct White {
  std::array<double, 3> length{100.0, 150.0, 80.0}, bore{0.08, 0.06, 0.04}, roughness{0.24e-3, 0.12e-3, 0.20e-3};
  LiquidState water = test::liquid_of("water", 1000.0, 1.02e-3);
  double drop = 150000.0 + 1000.0 * 9.81 * 5.0;  // pressure drop and 5 m fall, g 9.81

  [[nodiscard]] Hose hose(std::size_t i) const {
    return {.length = from_si<Length>(length[i]),
            .bore = from_si<Length>(bore[i]),
            .roughness = from_si<Length>(roughness[i])};
  }
};

TEST(Textbook, PipesInParallelWhite) {
  const White white;
  Network n;
  n.add_supply("A", pressure(white.drop));
  n.add_supply("B", pressure(0.0));
  for (std::size_t i = 0; i < 3; ++i) n.add_part(fmt::format("pipe {}", i + 1), "A", "B", white.hose(i));
  const Solution s = solved(n, white.water);
  const std::array<double, 3> printed{62.5, 25.9, 11.4}, resolved{62.5329727596, 25.9045222055, 11.4052669667};
  double total = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double hourly = s.parts[i].flow * 3600.0;
    EXPECT_NEAR(hourly, printed[i], 0.05);
    EXPECT_NEAR(hourly, resolved[i], 1e-9);
    total += hourly;
  }
  EXPECT_NEAR(total, 99.8, 0.05);
  EXPECT_NEAR(total, 99.8427619318, 1e-9);
}

TEST(Textbook, PipesInSeriesWhite) {
  const White white;
  Network n;
  n.add_supply("A", pressure(white.drop));
  n.add_place("1-2");
  n.add_place("2-3");
  n.add_supply("B", pressure(0.0));
  for (std::size_t i = 0; i < 3; ++i) n.add_part(fmt::format("pipe {}", i + 1), i, i + 1, white.hose(i));
  const Solution s = solved(n, white.water);
  EXPECT_NEAR(s.parts[0].flow * 3600.0, 10.22, 0.005);
  EXPECT_NEAR(s.parts[0].flow * 3600.0, 10.2209488887, 1e-9);
  EXPECT_NEAR(s.parts[0].velocity, 0.565, 0.0005);
  const std::array<double, 3> f{0.028893199, 0.026099138, 0.031421729};  // re-solved
  for (std::size_t i = 0; i < 3; ++i) {
    const double v = s.parts[i].velocity;
    EXPECT_NEAR(s.parts[i].drop * white.bore[i] / white.length[i] / (500.0 * v * v), f[i], 5e-10);
  }
}

// Textbook companion 1962 (Scilab), example 9.12, p. 340: three reservoirs, h = r Q^2. Printed junction 131.6 m.
TEST(Textbook, ThreeReservoirsWithGivenResistances) {
  const double weight = 1000.0 * 9.81;
  const std::array<double, 3> z{135.0, 120.0, 112.0}, r{0.7594, 36.33, 8.168};
  const std::array<double, 3> resolved{2.11443811131, -0.565180065257, -1.54925804605};
  Network n;
  n.add_place("junction");
  for (std::size_t i = 0; i < 3; ++i) {
    n.add_supply(fmt::format("reservoir {}", i), pressure(weight * z[i]));
    n.add_part(fmt::format("pipe {}", i), i + 1, 0, QuadraticPart{.k = weight * r[i]});
  }
  const Solution s = solved(n);
  EXPECT_NEAR(s.places[0].total_pressure / weight, 131.6, 0.05);
  EXPECT_NEAR(s.places[0].total_pressure / weight, 131.604837629, 1e-9);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(s.parts[i].flow, resolved[i], 1e-8);
}

// J. F. Douglas and others, Fluid Mechanics, example 14.3, p. 473: two parallel pipes between reservoirs, Fanning's
// f = 0.008 (Darcy 4 f), entry 0.5 and exit 1. Printed 0.0034, 0.0190, together 0.0224 m3/s.
TEST(Textbook, ParallelPipesDouglas) {
  Network n;
  n.add_supply("upper", pressure(1000.0 * 9.81 * 10.0));
  n.add_supply("lower", pressure(0.0));
  n.add_part("50 mm", "upper", "lower", constant_factor(4.0 * 0.008, 100.0, 0.05, 1000.0, 1.5));
  n.add_part("100 mm", "upper", "lower", constant_factor(4.0 * 0.008, 100.0, 0.1, 1000.0, 1.5));
  const Solution s = solved(n);
  EXPECT_NEAR(s.parts[0].flow, 0.0034, 5e-5);
  EXPECT_NEAR(s.parts[1].flow, 0.0190, 5e-5);
  EXPECT_NEAR(s.parts[0].flow + s.parts[1].flow, 0.0224, 5e-5);
  EXPECT_NEAR(s.parts[0].flow, 0.00339827672943, 1e-11);
  EXPECT_NEAR(s.parts[1].flow, 0.0190071490061, 1e-11);
}

// Douglas, example 14.4, p. 476: a pipe that branches to two reservoirs 16 m and 24 m below the first, Fanning's
// f = 0.01, friction only. Printed 0.0206, 0.0105, 0.0101 m3/s.
TEST(Textbook, BranchingPipeDouglas) {
  const double weight = 1000.0 * 9.81;
  Network n;
  n.add_supply("A", pressure(weight * 24.0));
  n.add_place("D");
  n.add_supply("B", pressure(weight * 8.0));
  n.add_supply("C", pressure(0.0));
  n.add_part("1", "A", "D", constant_factor(0.04, 120.0, 0.12, 1000.0));
  n.add_part("2", "D", "B", constant_factor(0.04, 60.0, 0.075, 1000.0));
  n.add_part("3", "D", "C", constant_factor(0.04, 40.0, 0.06, 1000.0));
  const Solution s = solved(n);
  const std::array<double, 3> printed{0.0206, 0.0105, 0.0101};
  const std::array<double, 3> resolved{0.0205884887669, 0.0105174682589, 0.010071020508};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(s.parts[i].flow, printed[i], 5e-5);
    EXPECT_NEAR(s.parts[i].flow, resolved[i], 1e-11);
  }
}

// E. Alperovits, U. Shamir, Water Resour. Res. 13 (1977) 885: two loops, Hazen-Williams; the least-cost bores and the
// heads (D. A. Savic, G. A. Walters 1997 and others) from memory. The heads are met to half their last digit with the
// constants 10.6668 and 4.871. The 1-inch pipe 8 carries almost nothing: a test of conditioning.
TEST(Textbook, TwoLoopsAlperovitsShamir) {
  const double weight = 1000.0 * 9.81;
  const std::array<double, 6> demand{100, 100, 120, 270, 330, 200}, elevation{150, 160, 155, 150, 165, 160};
  const std::array<std::array<std::size_t, 2>, 8> pipe{
      {{1, 2}, {2, 3}, {2, 4}, {4, 5}, {4, 6}, {6, 7}, {3, 5}, {5, 7}}};
  const std::array<double, 8> inches{18, 10, 16, 4, 16, 10, 10, 1};
  Network n;
  n.add_supply("1", pressure(weight * 210.0));
  for (std::size_t i = 0; i < 6; ++i) n.add_drawn(fmt::format("{}", i + 2), flow(demand[i] / 3600.0));
  for (std::size_t i = 0; i < 8; ++i) {
    const double r = 10.6668 * 1000.0 / (std::pow(130.0, 1.852) * std::pow(inches[i] * 0.0254, 4.871));
    n.add_part(fmt::format("pipe {}", i + 1), pipe[i][0] - 1, pipe[i][1] - 1, PowerPart{.r = weight * r});
  }
  const Solution s = solved(n);
  const std::array<double, 6> printed{203.25, 190.46, 198.45, 183.80, 195.44, 190.55};
  const std::array<double, 6> resolved{203.2467441366, 190.4625323578, 198.4492355172,
                                       183.8034444858, 195.4450109474, 190.5523297742};
  const std::array<double, 6> above_ground{53.2467441366, 30.4625323578, 43.4492355172,
                                           33.8034444858, 30.4450109474, 30.5523297742};
  for (std::size_t i = 0; i < 6; ++i) {
    const double head = s.places[i + 1].total_pressure / weight;
    // 195.445 lies between 195.44 and 195.45; the print has the lower, 1e-5 beyond half its last digit.
    EXPECT_NEAR(head, printed[i], 0.00502);
    EXPECT_NEAR(head, resolved[i], 1e-8);
    EXPECT_NEAR(head - elevation[i], above_ground[i], 1e-8);
  }
  const std::array<double, 8> flows{0.311111111111, 0.093577316434, 0.189756016899, 0.009045138851,
                                    0.147377544714, 0.055710878048, 0.065799538657, -0.000155322492};
  for (std::size_t i = 0; i < 8; ++i) EXPECT_NEAR(s.parts[i].flow, flows[i], 1e-11);
}

// Y. A. Cengel, J. M. Cimbala, Fluid Mechanics, example 8-7 (8-8 in later printings): a pump of 8 kW and 70 % into two
// parallel pipes, 5 m up to 13 m. Inputs from a textbook companion; printed answers from memory: 0.0300, 0.00415,
// 0.0259 m3/s, pump head 19.1 m, head loss 11.1 m.
TEST(Textbook, PumpIntoTwoParallelPipesCengel) {
  const double weight = 998.0 * 9.81;
  Network n;
  n.add_supply("lower", pressure(weight * 5.0));
  n.add_place("pump outlet");
  n.add_supply("upper", pressure(weight * 13.0));
  n.add_part("pump", "lower", "pump outlet", PowerPump{.power = 0.7 * 8000.0, .least_flow = 1e-3});
  for (const double bore : {4.0, 8.0}) {
    n.add_part(fmt::format("{} cm", bore), "pump outlet", "upper",
               Hose{.length = 36.0 * m, .bore = bore * cm, .roughness = 0.045 * mm});
  }
  const Solution s = solved(n, test::liquid_of("water", 998.0, 1.002e-3));
  const double head = -s.parts[0].drop / weight, loss = s.parts[1].drop / weight;
  EXPECT_NEAR(s.parts[0].flow, 0.0300, 5e-5);
  EXPECT_NEAR(s.parts[1].flow, 0.00415, 5e-6);
  EXPECT_NEAR(s.parts[2].flow, 0.0259, 5e-5);
  EXPECT_NEAR(head, 19.1, 0.05);
  EXPECT_NEAR(loss, 11.1, 0.05);
  EXPECT_NEAR(s.parts[1].velocity, 3.30, 0.005);
  EXPECT_NEAR(s.parts[1].reynolds, 131600.0, 50.0);
  EXPECT_NEAR(s.parts[2].reynolds, 410000.0, 500.0);
  // Re-solved.
  EXPECT_NEAR(s.parts[0].flow, 0.0300122005311, 1e-9 * 0.03);
  EXPECT_NEAR(s.parts[1].flow, 0.00415138302643, 1e-9 * 0.004);
  EXPECT_NEAR(s.parts[2].flow, 0.0258608175046, 1e-9 * 0.026);
  EXPECT_NEAR(head, 19.0585843565, 1e-8);
  EXPECT_NEAR(loss, 11.0585843565, 1e-8);
  EXPECT_NEAR(s.parts[1].reynolds, 131615.110392, 1e-3);
}

// Cengel and Cimbala, example 8-8: the level of the upper reservoir for 6 L/s; K 0.5 entrance, two elbows 0.3, gate
// valve 0.2, exit 1.06. Printed z1 = 31.8 m (31.9 in some printings).
TEST(Textbook, ReservoirLevelCengel) {
  const LiquidState water = test::liquid_of("water", 999.7, 1.307e-3);
  const double weight = 999.7 * 9.81, area = pi * 0.05 * 0.05 / 4.0;
  Network n;
  n.add_fed("upper", flow(0.006));
  n.add_place("exit");
  n.add_supply("lower", pressure(weight * 4.0));
  n.add_part("pipe", "upper", "exit", Hose{.length = 89.0 * m, .bore = 5.0 * cm, .roughness = 0.26 * mm});
  n.add_part("fittings", "exit", "lower",
             QuadraticPart{.k = (0.5 + 2.0 * 0.3 + 0.2 + 1.06) * 999.7 / (2.0 * area * area)});
  const Solution s = solved(n, water);
  EXPECT_NEAR(s.places[0].total_pressure / weight, 31.8, 0.05);
  EXPECT_NEAR(s.places[0].total_pressure / weight, 31.824631040573, 1e-8);
  EXPECT_NEAR(s.parts[0].reynolds, 116865.27065387, 1e-5);
  EXPECT_NEAR(s.parts[0].drop * 0.05 / 89.0 / (999.7 / 2.0 * std::pow(s.parts[0].velocity, 2)), 0.0315, 5e-5);
}

// Cengel and Cimbala, example 8-9, flushing a toilet while somebody showers. Printed: shower alone 0.53 L/s (from
// memory); with both 0.00090, 0.00042, 0.00048 m3/s.
TEST(Textbook, ShowerAndTankCengel) {
  const LiquidState water = test::liquid_of("water", 998.0, 1.002e-3);
  const double weight = 998.0 * 9.81, area = pi * 0.015 * 0.015 / 4.0;
  const auto copper = [](double length) {
    return Hose{.length = from_si<Length>(length), .bore = 1.5 * cm, .roughness = from_si<Length>(1.5e-6)};
  };
  for (const bool flushing : {false, true}) {
    Network n;
    n.add_supply("main", 200.0 * kPa);
    n.add_place("tee");
    n.add_place("shower head");
    n.add_supply("shower", pressure(weight * 2.0));
    n.add_part("common", "main", "tee", copper(5.0));
    n.add_part("shower branch", "tee", "shower head", copper(6.0));
    n.add_part("shower losses", "shower head", "shower", QuadraticPart{.k = 24.7 * 998.0 / (2.0 * area * area)});
    if (flushing) {
      n.add_place("float valve");
      n.add_supply("tank", pressure(weight * 1.0));
      n.add_part("tank branch", "tee", "float valve", copper(1.0));
      n.add_part("tank losses", "float valve", "tank", QuadraticPart{.k = 26.9 * 998.0 / (2.0 * area * area)});
    }
    const Solution s = solved(n, water);
    if (!flushing) {
      EXPECT_NEAR(s.parts[0].flow * 1e3, 0.53, 0.005);
    } else {
      EXPECT_NEAR(s.parts[0].flow, 0.00090, 5e-6);
      EXPECT_NEAR(s.parts[1].flow, 0.00042, 5e-6);
      EXPECT_NEAR(s.parts[3].flow, 0.00048, 5e-6);
    }
  }
}

// Lecture notes "CE 3620 Water Resources Engineering, Lec 9 Pipe Networks (Hardy Cross)", 2013: two reservoirs, three
// loops, h = K Q^2 in feet and ft3/s with the printed K. The difference of the levels, 10 ft, follows from the
// printed correction of the third loop. Printed after 16 corrections: Q12 2.13, Q42 0.32, Q14 2.16; losses 13.10,
// 1.28, 11.81 ft. 0.3248 would round to 0.32; its loss is the sharper check.
TEST(Textbook, ThreeLoopsWithDemands) {
  const double weight = 1000.0 * 9.81;
  Network n;
  n.add_supply("A", pressure(weight * 110.0 * 0.3048));
  n.add_supply("B", pressure(weight * 100.0 * 0.3048));
  const std::array<double, 4> demand{2.0, 4.0, 1.0, 3.0};
  for (std::size_t i = 0; i < 4; ++i) n.add_drawn(fmt::format("{}", i + 1), flow(demand[i] * cubic_foot));
  const auto pipe = [&](const char* id, const char* from, const char* to, double k) {
    n.add_part(id, from, to, QuadraticPart{.k = k * weight * 0.3048 / (cubic_foot * cubic_foot)});
  };
  pipe("A-1", "A", "1", 0.38);
  pipe("1-2", "1", "2", 2.89);
  pipe("1-4", "1", "4", 2.53);
  pipe("4-2", "4", "2", 12.13);
  pipe("3-2", "3", "2", 2.17);
  pipe("3-4", "3", "4", 2.89);
  pipe("B-3", "B", "3", 0.94);
  const Solution s = solved(n);
  EXPECT_NEAR(s.parts[1].flow / cubic_foot, 2.13, 0.005);
  EXPECT_NEAR(s.parts[2].flow / cubic_foot, 2.16, 0.005);
  EXPECT_NEAR(s.parts[3].flow / cubic_foot, 0.32, 0.005);
  // Losses: half the last printed digit is 0.005 ft, but their flows were corrected to about 0.001 ft3/s only.
  EXPECT_NEAR(s.parts[1].drop / weight / 0.3048, 13.10, 0.02);
  EXPECT_NEAR(s.parts[2].drop / weight / 0.3048, 11.81, 0.02);
  EXPECT_NEAR(s.parts[3].drop / weight / 0.3048, 1.28, 0.005);
}

// J. E. Christiansen, Irrigation by Sprinkling, Calif. Agric. Exp. Stn. Bull. 670, 1942: the loss of a lateral with N
// equal outlets, the first a full spacing from its inlet, over that of the same pipe without outlets is
// F = sum of k^m / N^(m+1), k = 1 .. N. Laminar hose is m = 1.
struct Lateral {
  double exponent;
  std::size_t outlets;
  double factor;
};

template <PartType T>
double multiple_outlet_factor(std::size_t outlets, const T& segment, double each, const LiquidState& liquid) {
  Network n;
  n.add_supply("inlet", pressure(1e6));
  for (std::size_t k = 1; k <= outlets; ++k) {
    n.add_drawn(fmt::format("outlet {}", k), flow(each));
    n.add_part(fmt::format("segment {}", k), k - 1, k, segment);
  }
  const Solution s = solved(n, liquid);
  const auto count = static_cast<double>(outlets);
  const double lost = s.places[0].total_pressure - s.places[outlets].total_pressure;
  return lost / (count * segment.law(liquid)(count * each).dp);
}

TEST(Textbook, MultipleOutletFactorChristiansen) {
  const std::vector<Lateral> rows{{1.75, 2, 0.648650889375},
                                  {1.75, 5, 0.469351976106},
                                  {1.75, 10, 0.415077135096},
                                  {1.75, 50, 0.373694486409},
                                  {1.8, 4, 0.491364310941},
                                  {1.8, 12, 0.399844053602},
                                  {1.852, 1, 1.0},
                                  {1.852, 2, 0.638504043483},
                                  {1.852, 3, 0.534220124209},
                                  {1.852, 10, 0.402167086804},
                                  {1.852, 20, 0.376015944399},
                                  {1.852, 100, 0.355646558956},
                                  {1.9, 3, 0.528949709259},
                                  {1.9, 30, 0.361670002779},
                                  {2.0, 2, 0.625},
                                  {2.0, 5, 0.44},
                                  {2.0, 10, 0.385},
                                  {2.0, 25, 0.3536},
                                  {2.0, 100, 0.33835}};
  for (const Lateral& row : rows) {
    const PowerPart segment{.r = 1e9, .m = row.exponent};
    EXPECT_NEAR(multiple_outlet_factor(row.outlets, segment, 1e-4, test::water()), row.factor, 1e-10)
        << "m " << row.exponent << ", N " << row.outlets;
  }
}

TEST(Textbook, MultipleOutletFactorOfALaminarHose) {
  const std::vector<Lateral> rows{{1.0, 1, 1.0},   {1.0, 2, 0.75},  {1.0, 4, 0.625},
                                  {1.0, 10, 0.55}, {1.0, 25, 0.52}, {1.0, 100, 0.505}};
  const Hose segment{.length = 0.76 * m, .bore = 12.0 * mm};
  for (const Lateral& row : rows) {
    const double each = 2e-4 / static_cast<double>(row.outlets);  // Reynolds number about 200 at the inlet
    EXPECT_NEAR(multiple_outlet_factor(row.outlets, segment, each, test::thick()), row.factor, 1e-10)
        << "N " << row.outlets;
  }
}

}  // namespace textbook_test
}  // namespace libflow
