// SPDX-License-Identifier: MIT
/// @file
/// Tanks in the pictures of a toolbar: as large and as far apart as they are.

#include <cmath>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/tanks_svg.hpp>
#include <libflow/report/toolbar_svg.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {
namespace tanks_svg_test {

using namespace units;

/// All numbers of every match of a pattern, one list a match.
std::vector<std::vector<double>> numbers(const std::string& text, const std::string& pattern) {
  const std::regex wanted(pattern);
  std::vector<std::vector<double>> found;
  for (std::sregex_iterator t(text.begin(), text.end(), wanted), end; t != end; ++t) {
    std::vector<double> one;
    for (std::size_t k = 1; k < t->size(); ++k) one.push_back(std::stod((*t)[k]));
    found.push_back(one);
  }
  return found;
}

constexpr const char* number = "(-?[0-9.]+)";

std::string with_numbers(std::string pattern) {
  for (std::size_t at = pattern.find('#'); at != std::string::npos; at = pattern.find('#')) {
    pattern.replace(at, 1, number);
  }
  return pattern;
}

double five_feet(const std::string& picture) {
  const auto scale =
      numbers(picture, with_numbers("<line x1=\"#\" y1=\"[0-9.]+\" x2=\"#\" y2=\"[0-9.]+\" class=\"axis\"/>"));
  return scale.at(0).at(1) - scale.at(0).at(0);
}

TEST(TanksSvg, TwoTanksAreAsLargeAndAsFarApartAsTheyAre) {
  const Answer a = main_job(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "two_tanks.toml"));
  const std::string picture = toolbar_svg(a, UnitSystem::us);
  const double foot = five_feet(picture) / 5.0;
  // Both lie 38 in wide, 5 and 7 ft long, 6 ft to each side of the middle.
  const auto from_above =
      numbers(picture, with_numbers("<rect x=\"#\" y=\"#\" width=\"#\" height=\"#\" class=\"tank\"/>"));
  ASSERT_EQ(from_above.size(), 2U);
  EXPECT_NEAR(from_above[0][2], 38.0 / 12.0 * foot, 0.15);
  EXPECT_NEAR(from_above[0][3], 5.0 * foot, 0.15);
  EXPECT_NEAR(from_above[1][3], 7.0 * foot, 0.15);
  EXPECT_NEAR(from_above[1][0] - from_above[0][0], 12.0 * foot, 0.15);
  // From behind both are round and stand on the slope of the machine, the left one lower.
  const auto behind = numbers(picture, with_numbers("<ellipse cx=\"#\" cy=\"#\" rx=\"#\" ry=\"#\" class=\"tank\"/>"));
  ASSERT_EQ(behind.size(), 2U);
  for (const auto& tank : behind) {
    EXPECT_NEAR(2.0 * tank[2], 38.0 / 12.0 * foot, 0.15);
    EXPECT_NEAR(tank[2], tank[3], 0.15);
  }
  const double slope = std::tan(si(std::get<Toolbar>(a.layout.plumbing).side_slope));
  EXPECT_NEAR(behind[0][1] - behind[1][1], 12.0 * foot * slope, 0.25);
  EXPECT_NE(picture.find("left tank"), std::string::npos);
  EXPECT_NE(picture.find("left tank: 249.4 gal of 294.6 gal, 6.0 ft to the left"), std::string::npos);
}

TEST(TanksSvg, LiquidStandsAtItsLevel) {
  Drive drive;
  drive.tanks.push_back({.tank = {.shape = UprightTank::round(1.0 * m, 2.0 * m)}, .level = 0.5 * m});
  drive.tanks.push_back({.tank = {.shape = LyingTank::round(1.0 * m, 2.0 * m)}, .level = 0.25 * m});
  drive.tanks.push_back({.tank = {.shape = LyingTank::round(1.0 * m, 2.0 * m)}, .level = 1.0 * m});
  const std::vector<DrawnTank> tanks = drawn_tanks(drive, UnitSystem::metric);
  ASSERT_EQ(tanks.size(), 3U);
  EXPECT_NEAR(tanks[0].width, 1.0, 1e-12);

  const auto upright = numbers(tank_from_behind(tanks[0], 0.0, 0.0, 100.0),
                               with_numbers("<rect x=\"#\" y=\"#\" width=\"#\" height=\"#\" class=\"liquid\"/>"));
  ASSERT_EQ(upright.size(), 1U);
  EXPECT_NEAR(upright[0][1], -50.0, 0.05);
  EXPECT_NEAR(upright[0][3], 50.0, 0.05);
  // A quarter of the height of a circle: half its chord is sqrt(r2 - (r/2)2).
  const auto chord =
      numbers(tank_from_behind(tanks[1], 0.0, 0.0, 100.0), with_numbers("M# # A# # 0 # 0 # # Z\" class=\"liquid\""));
  ASSERT_EQ(chord.size(), 1U);
  EXPECT_NEAR(chord[0][0], -50.0 * std::sqrt(0.75), 0.1);
  EXPECT_NEAR(chord[0][1], -25.0, 0.05);
  EXPECT_EQ(chord[0][4], 0.0) << "the lesser arc, below the chord";
  // Full to the brim: all of it, and no arc of no length.
  EXPECT_EQ(numbers(tank_from_behind(tanks[2], 0.0, 0.0, 100.0), "<ellipse cx=\"([0-9.-]+)\"").size(), 2U);
}

// A tank that is known by its dipstick alone is drawn upright, as wide as a round one of its height and volume is:
// 500 L in 1 m are 0.798 m.
TEST(TanksSvg, ATankByItsDipstickIsDrawnRound) {
  Drive drive;
  TankTable stick;
  stick.rows = {{0.0 * m, 0.0 * L}, {0.3 * m, 120.0 * L}, {0.6 * m, 300.0 * L}, {1.0 * m, 500.0 * L}};
  drive.tanks.push_back({.id = "old tank", .tank = {.shape = stick}, .level = 0.6 * m});
  const std::vector<DrawnTank> tanks = drawn_tanks(drive, UnitSystem::metric);
  ASSERT_EQ(tanks.size(), 1U);
  EXPECT_FALSE(tanks[0].lying);
  EXPECT_NEAR(tanks[0].width, 2.0 * std::sqrt(0.5 / 3.14159265358979), 1e-12);
  EXPECT_EQ(tanks[0].words, "old tank: 300.0 L of 500.0 L");
  const auto above = numbers(tank_from_above(tanks[0], 7.0, 9.0, 100.0),
                             with_numbers("<circle cx=\"#\" cy=\"#\" r=\"#\" class=\"tank\"/>"));
  ASSERT_EQ(above.size(), 1U);
  EXPECT_EQ(above[0][0], 7.0);
  EXPECT_EQ(above[0][1], 9.0);
  EXPECT_NEAR(above[0][2], 39.9, 0.05);
}

// The suction hose of an upright tank begins at the point of its rim that is nearest to the pump.
TEST(TanksSvg, TheLineOfARoundTankBeginsAtItsRim) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  DriveTank& tank = std::get<Toolbar>(layout.plumbing).drive->tanks.at(0);
  tank.tank.shape = UprightTank::round(1.0 * m, 2.0 * m);
  tank.ahead = 3.0 * m;
  tank.right = 1.5 * m;
  const std::string picture = toolbar_svg(main_job(layout), UnitSystem::metric);
  const auto rims = numbers(picture, with_numbers("<circle cx=\"#\" cy=\"#\" r=\"#\" class=\"tank\"/>"));
  ASSERT_EQ(rims.size(), 1U);
  const auto pumps = numbers(picture, with_numbers("<circle cx=\"#\" cy=\"#\" r=\"8.0\" class=\"pump\"/>"));
  ASSERT_EQ(pumps.size(), 2U);
  int from_rim = 0;
  for (const auto& line :
       numbers(picture, with_numbers("<line x1=\"#\" y1=\"#\" x2=\"#\" y2=\"#\" class=\"feed\"/>"))) {
    const double off = std::hypot(line[0] - rims[0][0], line[1] - rims[0][1]) - rims[0][2];
    if (std::abs(off) > 0.2) continue;
    ++from_rim;
    // It points away from the middle of the tank: rim, middle and pump are on one line.
    const double to_pump = std::hypot(line[2] - rims[0][0], line[3] - rims[0][1]);
    EXPECT_NEAR(std::hypot(line[2] - line[0], line[3] - line[1]) + rims[0][2], to_pump, 0.3);
  }
  EXPECT_EQ(from_rim, 1) << picture;
}

TEST(TanksSvg, OneFarAheadIsDrawnNearerAndSaysSo) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  auto& tank = std::get<Toolbar>(layout.plumbing).drive->tanks.at(0);
  tank.ahead = 10.0 * ft;
  const std::string near = toolbar_svg(main_job(layout), UnitSystem::us);
  EXPECT_NE(near.find(", 10.0 ft ahead"), std::string::npos);
  EXPECT_EQ(near.find("drawn nearer"), std::string::npos);
  tank.ahead = 100.0 * ft;
  const std::string far = toolbar_svg(main_job(layout), UnitSystem::us);
  EXPECT_NE(far.find(", 100.0 ft ahead (drawn nearer)"), std::string::npos);
}

TEST(TanksSvg, ThePumpStandsBetweenTanksAndBar) {
  const Answer a = main_job(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "two_tanks.toml"));
  const std::string picture = toolbar_svg(a, UnitSystem::us);
  // In both pictures: a pump, a line from each of the two tanks to it and one from it to the manifold.
  const auto pumps = numbers(picture, with_numbers("<circle cx=\"#\" cy=\"#\" r=\"8.0\" class=\"pump\"/>"));
  ASSERT_EQ(pumps.size(), 2U);
  const auto lines = numbers(picture, with_numbers("<line x1=\"#\" y1=\"#\" x2=\"#\" y2=\"#\" class=\"feed\"/>"));
  const std::size_t manifolds = std::get<Toolbar>(a.layout.plumbing).manifolds.size();
  ASSERT_EQ(lines.size(), 2 * (2 + manifolds));
  for (std::size_t half = 0; half < 2; ++half) {
    for (std::size_t k = 0; k < 2 + manifolds; ++k) {
      const auto& line = lines[half * (2 + manifolds) + k];
      EXPECT_NEAR(line[k < 2 ? 2 : 0], pumps[half][0], 0.11);
      EXPECT_NEAR(line[k < 2 ? 3 : 1], pumps[half][1], 0.11);
    }
  }
  EXPECT_NE(picture.find("pump (drawn aside): "), std::string::npos);
  EXPECT_NE(picture.find(" of hose before it, "), std::string::npos);
  const std::string ideal =
      toolbar_svg(main_job(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml")), UnitSystem::us);
  EXPECT_EQ(ideal.find("class=\"pump\""), std::string::npos);
  EXPECT_EQ(ideal.find("drawn aside"), std::string::npos);
}

}  // namespace tanks_svg_test
}  // namespace libflow
