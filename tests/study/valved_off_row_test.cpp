// SPDX-License-Identifier: MIT
/// @file
/// A row that is valved off, in every study: it gets nothing, covers nothing and counts in no statistic.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <utility>

#include <libflow/study/agronomy.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/lines.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace valved_off_row_test {

using namespace units;

constexpr std::size_t off = 2;  // of eight; in the order of the rows

Layout driven_with_one_off() {
  Layout layout = test::driven_layout(test::plain_drive());
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = static_cast<int>(off) + 1, .shut = true}};
  return layout;
}

// Short, wide hoses: flow goes with the square of the bore, and the mean of many rows hardly moves. The expected
// standard deviation of n normal values is c4(n) times theirs, sqrt(2/(n-1)) G(n/2)/G((n-1)/2) (ASTM E2587, from
// memory; the formula is that of the chi distribution's mean); of their differences from their mean nothing else.
// Counted among them, the row that gets nothing would make it ten times as much.
TEST(ValvedOffRow, IsNoPartOfTheEvennessAsBuilt) {
  constexpr double deviation = 0.02;  // of the bores
  Toolbar bar = test::plain_bar(16);
  bar.manifolds[0].bore = 50.0 * mm;
  bar.hose.length = 1.0 * m;
  bar.hose_bore = 15.0 * mm;
  bar.row_changes = {{.row = 5, .shut = true}};
  Layout layout{.name = "one off", .job = test::plain_job(), .plumbing = bar};
  layout.job.liquid = find_liquid("water");
  layout.job.rate = 300.0 * L_per_ha;
  layout.tolerances = {{.of = ToleranceOf::orifice_bore,
                        .difference = {.kind = Distribution::Kind::normal, .deviation = deviation},
                        .relative = true}};
  const std::optional<AsBuilt> built = as_built(main_job(layout));
  ASSERT_TRUE(built);
  const double n = 15.0,
               c4 = std::sqrt(2.0 / (n - 1.0)) * std::exp(std::lgamma(n / 2.0) - std::lgamma((n - 1.0) / 2.0));
  EXPECT_NEAR(built->mean_cv / (2.0 * deviation * c4), 1.0, 0.05);
  EXPECT_GT(built->within, 0.0) << "a row without flow is not a row that is off";
}

// What leaves the tanks is on the field, under seven rows.
TEST(ValvedOffRow, GetsNothingOfAFill) {
  const Layout layout = driven_with_one_off();
  const Drawdown d = drawdown(layout);
  ASSERT_TRUE(d.complete);
  ASSERT_EQ(d.delivered.size(), 8U);
  EXPECT_EQ(d.delivered[off], 0.0);
  double taken = 0.0, given = 0.0;
  for (const DrawdownTank& t : d.tanks) taken += t.start - t.end;
  for (const double v : d.delivered) given += v;
  EXPECT_NEAR((given + d.elsewhere) / taken, 1.0, 1e-6);
  // Held at its rate to the end: the rate over the area of the open rows.
  const double open_width = 7.0 * si(30.0 * inch), way = d.time * si(layout.job.speed);
  EXPECT_NEAR(given / (way * open_width) / si(layout.job.rate), 1.0, 2e-3);
  for (const DrawdownSample& s : d.samples) EXPECT_LT(s.cv, 0.05);
  for (const DrawdownSample& s : d.samples) EXPECT_NE(s.worst_row, static_cast<int>(off) + 1);
}

// Its hose is not there: nothing is held in it, and nothing waited for.
TEST(ValvedOffRow, HoldsNothing) {
  Layout layout = driven_with_one_off();
  const Lines one_off = lines(layout);
  std::get<Toolbar>(layout.plumbing).row_changes.clear();
  const Lines all = lines(layout);
  // 2 m of 10 mm hose.
  EXPECT_NEAR(all.held - one_off.held, std::numbers::pi / 4.0 * 1e-4 * 2.0, 1e-12);
  EXPECT_EQ(one_off.rows.size(), 7U);
}

// What the furrows bring is that of the seven others; the lowest is one of them. 10-34-0 is a tenth nitrogen by mass.
TEST(ValvedOffRow, BringsNoNutrients) {
  Layout layout = driven_with_one_off();
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.rate = 30.0 * L_per_ha;
  std::get<Toolbar>(layout.plumbing).drive.reset();
  const Agronomy a = agronomy(layout);
  ASSERT_EQ(a.rows.size(), 7U);
  double sum = 0.0;
  for (const RowNutrients& r : a.rows) {
    EXPECT_NE(r.row, static_cast<int>(off) + 1);
    sum += si(r.rates.n) / 7.0;
  }
  EXPECT_NE(a.lowest.row, static_cast<int>(off) + 1);
  EXPECT_GT(si(a.lowest.rates.n), 0.0);
  const double density = layout.job.liquid.at(layout.job.temperature).density;
  EXPECT_NEAR(sum / (0.10 * density * si(layout.job.rate)), 1.0, 1e-6);
  EXPECT_NEAR(si(a.spacing), si(30.0 * inch), 1e-12);
}

}  // namespace valved_off_row_test
}  // namespace libflow
