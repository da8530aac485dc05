// SPDX-License-Identifier: MIT
/// @file
/// Pictures and lists that are rare: a tank at the end of the bar, many rows, no hose, a mark where there is no room.
#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/network/network.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/path_svg.hpp>
#include <libflow/report/tanks_svg.hpp>
#include <libflow/report/tolerance_text.hpp>
#include <libflow/report/toolbar_svg.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/order_list.hpp>
#include <tests/support/driven_bars.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace rare_pictures_test {

using namespace units;
using test::holds;
using test::one_line;
using test::says;

static Layout example(const char* name) { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name); }

/// A free form of two plates behind each other ahead of two rows; row 2's way has `plate` for its first part.
static Layout two_plates(const std::string& plate) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_supply("feed", 2.0 * bar);
  n.add_place("behind");
  n.add_part(plate, "feed", "behind", Orifice{.bore = 3.0 * mm});
  for (int row = 1; row <= 2; ++row) {
    const std::string name = "row " + std::to_string(row);
    const auto air = n.add_air(name);
    const auto hole = n.add_part(name + " hole", "behind", name, Orifice{.bore = (1.0 + 0.1 * row) * mm});
    p.rows.push_back({.row = row,
                      .x = 0.0,
                      .width = 0.762,
                      .hose_length = 0.0,
                      .airs = {air},
                      .last_parts = {hole},
                      .orifices = {hole},
                      .check_valves = {},
                      .hoses = {}});
  }
  return {.name = "plates", .job = test::plain_job(), .plumbing = p};
}

TEST(RarePictures, APartThatIsCalledAsARowKeepsItsName) {
  const std::string picture = path_svg(main_job(two_plates("row 7")), UnitSystem::us);
  EXPECT_TRUE(holds(picture, ">row 7<")) << picture;
  EXPECT_TRUE(holds(picture, ">row's hole<")) << picture;
}

TEST(RarePictures, LinesAndBoxesWithoutAClassHaveNoSpaceForIt) {
  EXPECT_EQ(report_detail::svg_line(0, 1, 2, 3), "<line x1=\"0.0\" y1=\"1.0\" x2=\"2.0\" y2=\"3.0\"/>\n");
  EXPECT_EQ(report_detail::svg_box(0, 1, 2, 3), "<rect x=\"0.0\" y=\"1.0\" width=\"2.0\" height=\"3.0\"/>\n");
}

TEST(RarePictures, APumpWithoutHosesSaysSo) {
  Drive drive = test::plain_drive();
  drive.suction.length = 0.0 * m;
  drive.delivery.length = 0.0 * m;
  EXPECT_EQ(pump_words(drive, UnitSystem::metric), "pump (drawn aside): no hose before it, no hose behind");
}

/// The x of the pump's disc in the first picture.
static double pump_at(const std::string& svg) {
  std::smatch found;
  EXPECT_TRUE(std::regex_search(svg, found, std::regex("<circle cx=\"([0-9.]+)\"[^>]*class=\"pump\"")));
  return std::stod(found[1]);
}

TEST(RarePictures, ATankAtTheEndOfTheBarDoesNotPushThePumpThere) {
  Layout layout = test::driven_layout(test::plain_drive());
  Drive& drive = *std::get<Toolbar>(layout.plumbing).drive;
  drive.tanks.front().right = 3.0 * m;  // beyond the last row, at 2.67 m
  const double at_end = pump_at(toolbar_svg(main_job(layout), UnitSystem::us));
  EXPECT_LT(at_end, 0.5 * 350.0 + 60.0) << "beside the manifold, left of the tank";
  EXPECT_GT(at_end, 0.5 * 350.0);
}

TEST(RarePictures, OfManyRowsEverySecondBearsItsNumber) {
  Layout layout{.name = "many", .job = test::plain_job(), .plumbing = test::plain_bar(20)};
  const auto numbered = [&](int row) {
    return holds(toolbar_svg(main_job(layout), UnitSystem::us), ">" + std::to_string(row) + "</text>");
  };
  EXPECT_TRUE(numbered(19));
  EXPECT_FALSE(numbered(20));
  std::get<Toolbar>(layout.plumbing).rows = 18;
  EXPECT_TRUE(numbered(18)) << "there is room for all";
}

/// Where the job's ring and its word stand.
static std::pair<double, double> ring_and_word(const std::string& svg) {
  std::smatch ring, word;
  EXPECT_TRUE(std::regex_search(svg, ring, std::regex("<circle cx=\"([0-9.]+)\"[^>]*r=\"8\"")));
  EXPECT_TRUE(std::regex_search(svg, word, std::regex("<text x=\"([0-9.]+)\"[^>]*>job</text>")));
  return {std::stod(ring[1]), std::stod(word[1])};
}

// Forty rates leave no room above the ring: its word stands right of it, at the map's right end left of it.
TEST(RarePictures, TheJobsWordStaysOnTheMap) {
  Envelope e = envelope(example("equal_hoses.toml"), {.speeds = {4.0 * mph, 5.0 * mph}, .rates = {5.0 * gal_per_acre}});
  e.axes.speeds = spread(2.0 * mph, 5.0 * mph, 30);
  e.axes.rates = spread(2.0 * gal_per_acre, 8.0 * gal_per_acre, 40);
  e.points.assign(1200, e.points.front());
  e.layout.job.speed = 3.0 * mph;
  const auto [left_ring, right_word] = ring_and_word(envelope_svg(e, UnitSystem::us));
  EXPECT_GT(right_word, left_ring);
  e.layout.job.speed = 5.0 * mph;
  const auto [right_ring, left_word] = ring_and_word(envelope_svg(e, UnitSystem::us));
  EXPECT_LT(left_word, right_ring);
}

TEST(RareLists, APlumbingWithoutHoseHasNoCuts) {
  const std::string text = order_list_text(order_list(two_plates("plate")));
  EXPECT_TRUE(says(text, "0.0 ft of hose in 0 cuts")) << text;
  EXPECT_FALSE(says(text, "Cuts are rounded up")) << text;
}

// Metered at the ports, a row's two outlets have a hose each: two cuts, and the row is named once.
TEST(RareLists, TwoHosesOfARowNameItOnce) {
  Toolbar t = test::plain_bar(2);
  t.outlets_per_row = 2;
  t.metering = MeteringPlace::manifold;
  const Layout layout{.name = "two", .units = UnitSystem::metric, .job = test::plain_job(), .plumbing = t};
  EXPECT_TRUE(says(order_list_text(order_list(layout)), " cuts length for 4 2.00 m rows 1, 2 "))
      << order_list_text(order_list(layout));
}

TEST(RareLists, ALongNameGoesOnWhereItHasNoMoreSizes) {
  OrderList list = order_list({.name = "two", .job = test::plain_job(), .plumbing = test::plain_bar(2)});
  list.items = {{.what = "a thing with so long a name that no table of eighty columns holds it in one line",
                 .count = 3,
                 .ids = {"thing"}}};
  const std::string text = order_list_text(list, {.width = 80});
  EXPECT_TRUE(says(text, "3 a thing with so long a name that no")) << text;
  EXPECT_TRUE(says(text, "in one line")) << text;
}

TEST(RareLists, OneValveAtItsCrackPressureIsOne) {
  ToleranceResult r;
  r.layout = "North bar";
  r.tolerance = 0.05;
  r.rows.resize(1);
  r.rows.front().row = 1;
  r.quantiles = {{0.05, {0.012, 0.0001}, {0.02, 0.001}}, {0.95, {0.03, 0.0003}, {0.06, 0.002}}};
  r.machines = r.judged = 4096;
  r.replicates = r.share_replicates = 8;
  r.complete = true;
  r.at_crack = 1;
  EXPECT_TRUE(says(tolerance_text(r), "1 check valve stands exactly at its crack pressure in the layout"))
      << tolerance_text(r);
  r.at_crack = 2;
  EXPECT_TRUE(says(tolerance_text(r), "2 check valves stand exactly at their crack pressure in the layout"));
}

TEST(RareCautions, GroupsEndInOnePointAndOddNamesStayAsTheyAre) {
  const auto group = [](std::vector<std::string> subjects, const std::string& text) {
    Cautions all;
    for (std::string& one : subjects) all.push_back({.code = "demo", .subject = std::move(one), .text = text});
    return report_detail::caution_groups(all).at(0);
  };
  EXPECT_EQ(group({"row 3", "row 1"}, "it is short."), "rows 1 and 3: it is short.");
  EXPECT_EQ(group({"row 3", "row 1"}, "is it right?"), "rows 1 and 3: is it right?");
  EXPECT_EQ(group({"hose"}, "is it right?"), "hose: is it right?");
  EXPECT_EQ(group({"row 3", "hose 2"}, "it is short"), "row 3, hose 2: it is short.");
  EXPECT_EQ(group({"row 3", "row 4", "row x"}, "it is short"), "row 3, row 4, row x: it is short.");
  EXPECT_EQ(group({"row 3", "row 4", "row 99999999999"}, "it is short"), "row 3, row 4, row 99999999999: it is short.");
}

}  // namespace rare_pictures_test
}  // namespace libflow
