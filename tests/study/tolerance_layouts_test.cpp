// SPDX-License-Identifier: MIT
/// @file
/// Tolerances of other layouts than a bar that gives its rate: place by place, at a held pressure, with a shut row; and
/// what does not belong to a layout is refused by name.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include <libflow/study/main_job.hpp>
#include <libflow/study/tolerance.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace tolerance_layouts_test {

using namespace units;
using test::expect_message;

/// Orifices meter: wide bar, short wide hoses, water.
Layout metered_bar(int rows) {
  Toolbar t = test::plain_bar(rows);
  t.manifolds[0].bore = 50.0 * mm;
  t.hose.length = 1.0 * m;
  t.hose_bore = 15.0 * mm;
  Layout layout{.name = "metered", .job = test::plain_job(), .plumbing = t};
  layout.job.rate = 300.0 * L_per_ha;
  return layout;
}
Toolbar& metered(Layout& layout) { return std::get<Toolbar>(layout.plumbing); }
Tolerance normal_share(ToleranceOf of, double share) {
  Tolerance t{.of = of, .difference = {.kind = Distribution::Kind::normal, .deviation = share}};
  t.relative = true;
  return t;
}

TEST(ToleranceLayouts, PlaceByPlaceAsTheBarItself) {
  Layout layout = metered_bar(4);
  const std::vector<Tolerance> all = {normal_share(ToleranceOf::orifice_bore, 0.01),
                                      normal_share(ToleranceOf::hose_length, 0.05),
                                      normal_share(ToleranceOf::rate, 0.02)};
  const ToleranceOptions few{.points = 128, .replicates = 2, .share_points = 0};
  const ToleranceResult bar = tolerance_study(layout, all, few);
  layout.plumbing = build_network(metered(layout), layout.job);
  const ToleranceResult free_form = tolerance_study(layout, all, few);
  EXPECT_NEAR(free_form.rms_cv.value / bar.rms_cv.value, 1.0, 1e-9);
  EXPECT_NEAR(*free_form.first_order_rms_cv / *bar.first_order_rms_cv, 1.0, 1e-9);
  for (std::size_t k = 0; k < bar.rows.size(); ++k) {
    EXPECT_NEAR(free_form.rows[k].spread.value / bar.rows[k].spread.value, 1.0, 1e-9);
  }
}

// Behind an easy check valve that cracks at c a metering orifice passes as sqrt(p - c). Two rows that crack at 4 and 12
// psi share a total by x = sqrt(p - c1) and y = sqrt(p - c2): the first deviates by (x - y) / (x + y), which moves with
// the pressure by -(x - y) / (x y (x + y)) x (1/2)... worked out below from its parts.
TEST(ToleranceLayouts, AHeldPressureMovesRowsThatCrackApart) {
  Layout layout = metered_bar(2);
  metered(layout).check_valve = CheckValveChoice{.crack = 4.0 * psi, .rated_flow = 20.0 * gpm, .rated_loss = 1.0 * psi};
  metered(layout).row_changes = {{.row = 2, .crack = 12.0 * psi}};
  layout.job.pressure = 30.0 * psi;
  const double share = 0.01;
  const ToleranceResult r = tolerance_study(layout, {normal_share(ToleranceOf::pressure, share)},
                                            {.points = 1024, .replicates = 4, .share_points = 0});
  const double x = std::sqrt(26.0), y = std::sqrt(18.0), dx = 0.5 / x, dy = 0.5 / y;  // of psi
  const double slope = ((dx - dy) * (x + y) - (x - y) * (dx + dy)) / ((x + y) * (x + y));
  const double spread = std::abs(slope) * share * 30.0;
  ASSERT_EQ(r.rows.size(), 2U);
  for (const RowScatter& row : r.rows) {
    ASSERT_TRUE(row.first_order);
    EXPECT_NEAR(*row.first_order / spread, 1.0, 0.05) << row.row;
    EXPECT_NEAR(row.spread.value / *row.first_order, 1.0, 0.03) << row.row;
    EXPECT_FALSE(row.parts_company);
  }
}

// n open rows whose bores scatter by s: 2 s sqrt(1 - 1/n); a shut row is none of them.
TEST(ToleranceLayouts, AShutRowHasNoShare) {
  const double s = 0.005;
  Layout layout = metered_bar(4);
  metered(layout).row_changes = {{.row = 1, .shut = true}};
  const ToleranceResult r = tolerance_study(layout, {normal_share(ToleranceOf::orifice_bore, s)},
                                            {.points = 1024, .replicates = 4, .share_points = 0});
  std::size_t open = 0;
  for (const RowScatter& row : r.rows) {
    if (row.row == 1) continue;
    ++open;
    EXPECT_NEAR(row.spread.value / (2.0 * s * std::sqrt(2.0 / 3.0)), 1.0, 0.04) << row.row;
  }
  EXPECT_EQ(open, 3U);
  EXPECT_NEAR(r.rms_cv.value / (2.0 * s), 1.0, 0.04);
}

// Without orifices the hoses meter. Laminar, a row gets what the fourth power of its bore lets through (Hagen and
// Poiseuille), so bores that scatter by s make rows that scatter by 4 s sqrt(1 - 1/n); the hose's own end goes along.
TEST(ToleranceLayouts, HosesMeterByTheFourthPower) {
  const double s = 0.002;
  Layout layout = metered_bar(4);
  metered(layout).orifice.reset();
  metered(layout).hose.length = 3.0 * m;
  metered(layout).hose_bore = 4.0 * mm;
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.temperature = fahrenheit(45.0);
  layout.job.rate = 50.0 * L_per_ha;
  const ToleranceResult r = tolerance_study(layout, {normal_share(ToleranceOf::hose_bore, s)},
                                            {.points = 1024, .replicates = 4, .share_points = 0});
  for (const RowScatter& row : r.rows) {
    ASSERT_TRUE(row.first_order);
    EXPECT_NEAR(*row.first_order / (4.0 * s * std::sqrt(0.75)), 1.0, 0.01) << row.row;
    EXPECT_NEAR(row.spread.value / *row.first_order, 1.0, 0.03) << row.row;
  }
}

TEST(ToleranceLayouts, RefusesByNameWhatALayoutDoesNotHave) {
  const auto refused = [](const Layout& layout, const Tolerance& t, const std::string& words) {
    expect_message([&] { (void)tolerance_study(layout, {t}); }, words);
  };
  Layout layout = metered_bar(2);
  refused(layout, normal_share(ToleranceOf::crack, 0.1), "this layout has no check valves");
  Tolerance whole = normal_share(ToleranceOf::viscosity, 0.1);
  whole.batch = {1, 2};
  refused(layout, whole, "of the whole machine");
  Layout held = layout;
  held.job.pressure = 2.0 * bar;
  refused(held, normal_share(ToleranceOf::speed, 0.1), "no supply that gives what the job asks for");
  refused(held, normal_share(ToleranceOf::pressure, 0.9), "so wide that draws reach what is not allowed");
  refused(layout, normal_share(ToleranceOf::pressure, 0.1), "no supply held at a pressure");
  // Outlets that sit on the bar itself: no hose of their own.
  Plumbing direct;
  direct.supply = direct.network.add_supply("bar", 1.0 * bar);
  for (int row = 1; row <= 2; ++row) {
    const auto air = direct.network.add_air(row == 1 ? "row 1" : "row 2");
    const auto hole =
        direct.network.add_part(row == 1 ? "hole 1" : "hole 2", direct.supply, air, Part(Orifice{.bore = 2.0 * mm}));
    direct.rows.push_back(test::row_by_hand(row, 0.0, 1.0, air, hole, {.orifices = {hole}}));
  }
  Layout free_form = layout;
  free_form.plumbing = direct;
  refused(free_form, normal_share(ToleranceOf::hose_bore, 0.01), "no hoses of rows");
  Tolerance tilt{.of = ToleranceOf::side_slope,
                 .difference = {.kind = Distribution::Kind::uniform, .low = -0.01, .high = 0.01}};
  refused(free_form, tilt, "no toolbar");
}

TEST(ToleranceLayouts, AJobIsAnsweredWithoutThemWhereTheyDoNotFit) {
  Layout layout = metered_bar(2);
  layout.tolerances = {normal_share(ToleranceOf::orifice_bore, 0.01)};
  const Answer fits = main_job(layout);
  ASSERT_TRUE(fits.built);
  layout.tolerances.push_back(normal_share(ToleranceOf::crack, 0.1));  // there are no valves
  const Answer does_not = main_job(layout);
  EXPECT_FALSE(does_not.built);
  EXPECT_EQ(does_not.evenness.total_flow, fits.evenness.total_flow) << "the answer itself is the same";
}

}  // namespace tolerance_layouts_test
}  // namespace libflow
