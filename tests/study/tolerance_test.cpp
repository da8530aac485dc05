// SPDX-License-Identifier: MIT
/// @file
/// Tolerance study: closed forms of a bar that its orifices meter, against the first-order answer, sampling errors,
/// batches, stops, and what is refused.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <boost/math/distributions/normal.hpp>
#include <gtest/gtest.h>

#include <libflow/study/tolerance.hpp>
#include <tests/support/errors.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace tolerance_test {

using namespace units;

/// Orifices meter: a wide bar and short wide hoses in water, so that flow goes with the square of the bore.
Layout tolerance_test_layout(int rows) {
  Layout layout;
  layout.name = "four";
  Toolbar t = test::plain_bar(rows);
  t.manifolds[0].bore = 50.0 * mm;
  t.hose.length = 1.0 * m;
  t.hose_bore = 15.0 * mm;
  layout.plumbing = t;
  layout.job = test::plain_job();
  layout.job.rate = 300.0 * L_per_ha;
  layout.job.tolerance = 0.05;
  return layout;
}

Tolerance tolerance_test_normal(ToleranceOf of, double share) {
  Tolerance t{.of = of, .difference = {.kind = Distribution::Kind::normal, .deviation = share}};
  t.relative = true;
  return t;
}

TEST(Distribution, HasTheMomentsOfItsQuantiles) {
  const std::vector<Distribution> all{{.kind = Distribution::Kind::normal, .deviation = 0.3},
                                      {.kind = Distribution::Kind::uniform, .low = -1.0, .high = 2.0},
                                      {.kind = Distribution::Kind::triangular, .low = -0.5, .high = 1.5},
                                      {.kind = Distribution::Kind::listed, .values = {-1.0, 0.0, 0.5, 2.0}}};
  constexpr int n = 200000;
  for (const Distribution& d : all) {
    d.check("test");
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; ++i) {
      const double x = d.quantile((i + 0.5) / n);
      sum += x / n;
      squares += x * x / n;
    }
    EXPECT_NEAR(sum, d.mean(), 1e-5);
    EXPECT_NEAR(squares - sum * sum, d.variance(), 1e-4);
  }
  // J. L. Devore's table of the standard normal (from memory): 1.96 leaves 2.5 % above it.
  EXPECT_NEAR(all[0].quantile(0.975), 0.3 * 1.959964, 1e-6);
  EXPECT_THROW((Distribution{.kind = Distribution::Kind::normal}.check("x")), InputError);
  EXPECT_THROW((Distribution{.kind = Distribution::Kind::uniform, .low = 0.1, .high = 0.2}.check("x")), InputError);
  EXPECT_THROW((Distribution{.kind = Distribution::Kind::listed, .values = {1.0}}.check("x")), InputError);
}

TEST(NormalQuantile, IsBoosts) {
  const NormalQuantile fast;
  const boost::math::normal unit;
  for (int i = 1; i < 200000; ++i) {
    const double u = i / 200000.0;
    ASSERT_NEAR(fast(u), boost::math::quantile(unit, u), 1e-9) << u;
  }
  EXPECT_EQ(fast(1e-9), boost::math::quantile(unit, 1e-9));
}

// Own scatter s of every bore: deviation 2 (e_r - mean e), so its spread is 2 s sqrt(1 - 1/n), the root mean square of
// the CV is 2 s, and n - 1 times CV^2 / (4 s^2) is chi-squared with n - 1 degrees of freedom (W. S. Gosset 1908; any
// statistics text): for n = 4 its 5 %, 50 % and 95 % points are 0.3518, 2.3660 and 7.8147.
TEST(Tolerance, MeetsTheClosedFormOfMeteringOrifices) {
  const double s = 0.005;
  const Layout layout = tolerance_test_layout(4);
  const ToleranceResult r =
      tolerance_study(layout, {tolerance_test_normal(ToleranceOf::orifice_bore, s)}, {.points = 2048});
  ASSERT_TRUE(r.complete);
  EXPECT_EQ(r.machines, 8U * 2048U);
  EXPECT_EQ(r.unsolved, 0U);
  // How exactly these orifices follow the square of their bore.
  EXPECT_NEAR(*r.rows[0].first_order, 2.0 * s * std::sqrt(0.75), 0.03 * 2.0 * s);
  const double gain = *r.rows[0].first_order / (s * std::sqrt(0.75));
  for (const RowScatter& row : r.rows) {
    EXPECT_NEAR(row.spread.value, gain * s * std::sqrt(0.75), 0.01 * gain * s) << row.row;
    EXPECT_NEAR(*row.first_order, gain * s * std::sqrt(0.75), 0.01 * gain * s);
    EXPECT_FALSE(row.parts_company);
  }
  EXPECT_NEAR(r.rms_cv.value, gain * s, 0.01 * gain * s);
  EXPECT_NEAR(*r.first_order_rms_cv, gain * s, 0.005 * gain * s);
  const double points[] = {0.3518, 2.3660, 7.8147};
  ASSERT_EQ(r.quantiles.size(), 3U);
  for (std::size_t k = 0; k < 3; ++k) {
    const double exact = gain * s * std::sqrt(points[k] / 3.0);
    EXPECT_NEAR(r.quantiles[k].cv.value, exact, 5.0 * r.quantiles[k].cv.error + 0.005 * exact);
    EXPECT_LT(r.quantiles[k].cv.error, 0.02 * exact);
  }
  EXPECT_NEAR(r.shares[0].cv.total.value, 1.0, 5.0 * r.shares[0].cv.total.error);
  EXPECT_LT(r.shares[0].cv.total.error, 0.01);
  EXPECT_EQ(r.shares[0].first_order, 1.0);
}

// One row out of two on either side: the probability to be within the tolerance is that of |d| <= 2 t, d the
// difference of the two bores' effects, normal with spread 2 s sqrt(2).
TEST(Tolerance, ProbabilityOfTwoRows) {
  const double s = 0.02;
  Layout layout = tolerance_test_layout(2);
  const ToleranceResult r = tolerance_study(layout, {tolerance_test_normal(ToleranceOf::orifice_bore, s)},
                                            {.points = 4096, .share_points = 0});
  const double gain = *r.rows[0].first_order / (s * std::sqrt(0.5));
  const double z = layout.job.tolerance / (gain * s * std::sqrt(0.5));
  const double exact = 2.0 * boost::math::cdf(boost::math::normal(), z) - 1.0;
  EXPECT_NEAR(r.within.value, exact, 5.0 * r.within.error + 0.002);
  EXPECT_LT(r.within.error, 0.005);
  EXPECT_EQ(r.share_replicates, 0U);
}

// A batch that is wide or narrow as a whole leaves the rows even; two batches side by side do not.
TEST(Tolerance, OneBatchIsOneDraw) {
  const Layout layout = tolerance_test_layout(4);
  Tolerance together = tolerance_test_normal(ToleranceOf::orifice_bore, 0.02);
  together.batch = {1, 1, 1, 1};
  const ToleranceResult one = tolerance_study(layout, {together}, {.points = 256, .share_points = 0});
  EXPECT_LT(one.rms_cv.value, 1e-3);
  Tolerance halves = together;
  halves.batch = {7, 7, 3, 3};
  const ToleranceResult two = tolerance_study(layout, {halves}, {.points = 1024, .share_points = 0});
  // Two values twice: the deviation of each is half the difference, spread 2 s / sqrt(2).
  for (const RowScatter& row : two.rows) EXPECT_NEAR(row.spread.value, 0.04 / std::sqrt(2.0), 0.03 * 0.04);
  EXPECT_EQ(together.shown_name(), "orifice bore, by batch");
}

// Two tolerances of two sizes: the rows' variance is shared as the squares of their effects, and for a small scatter
// the Sobol' indices of the worst row tell the same order.
TEST(Tolerance, SharesTheVariance) {
  Layout layout = tolerance_test_layout(4);
  const ToleranceResult r = tolerance_study(
      layout,
      {tolerance_test_normal(ToleranceOf::orifice_bore, 0.01), tolerance_test_normal(ToleranceOf::hose_length, 0.01)},
      {.points = 256});
  ASSERT_EQ(r.shares.size(), 2U);
  EXPECT_NEAR(*r.shares[0].first_order + *r.shares[1].first_order, 1.0, 1e-12);
  EXPECT_GT(*r.shares[0].first_order, 0.99);
  EXPECT_NEAR(r.shares[0].cv.first_order.value, 1.0, 5.0 * r.shares[0].cv.first_order.error + 0.01);
  EXPECT_LT(r.shares[1].worst.total.value, 0.01);
  EXPECT_LT(r.shares[0].cv.total.error, 0.05);
}

// Crack pressures that scatter about the pressure at the valves: some rows shut, and a straight line does not say so.
TEST(Tolerance, PartsCompanyWhereValvesShut) {
  Layout layout = tolerance_test_layout(4);
  std::get<Toolbar>(layout.plumbing).check_valve = test::plain_valve();
  layout.job.pressure = 4.3 * psi;
  const Tolerance wide{
      .of = ToleranceOf::crack,
      .difference = {.kind = Distribution::Kind::uniform, .low = -si(0.6 * psi), .high = si(0.6 * psi)}};
  const ToleranceResult r = tolerance_study(layout, {wide}, {.points = 512, .share_points = 64});
  ASSERT_TRUE(r.no_first_order.empty()) << r.no_first_order;
  EXPECT_TRUE(std::any_of(r.rows.begin(), r.rows.end(), [](const RowScatter& row) { return row.parts_company; }));
  Tolerance narrow = wide;
  narrow.difference.low /= 100.0;
  narrow.difference.high /= 100.0;
  const ToleranceResult same = tolerance_study(layout, {narrow}, {.points = 512, .share_points = 0});
  for (const RowScatter& row : same.rows) EXPECT_FALSE(row.parts_company) << row.row;
}

TEST(Tolerance, OfTheWholeMachine) {
  Layout layout = tolerance_test_layout(4);
  Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  bar.hose_bore = 6.0 * mm;
  bar.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {1.0 * m, 2.0 * m, 3.0 * m, 4.0 * m}};
  bar.manifolds[0].feed = ManifoldFeed::left;
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.temperature = fahrenheit(60.0);
  std::vector<Tolerance> all;
  for (const auto& [of, spread] : {std::pair{ToleranceOf::temperature, 2.0}, std::pair{ToleranceOf::side_slope, 0.01},
                                   std::pair{ToleranceOf::fore_aft_slope, 0.01}, std::pair{ToleranceOf::speed, 0.05}}) {
    all.push_back({.of = of, .difference = {.kind = Distribution::Kind::uniform, .low = -spread, .high = spread}});
  }
  all.push_back(tolerance_test_normal(ToleranceOf::viscosity, 0.02));
  all.push_back(tolerance_test_normal(ToleranceOf::density, 0.002));
  all.push_back(tolerance_test_normal(ToleranceOf::rate, 0.01));
  all.push_back(tolerance_test_normal(ToleranceOf::hose_bore, 0.002));
  const ToleranceResult r = tolerance_study(layout, all, {.points = 1024, .share_points = 64});
  ASSERT_TRUE(r.no_first_order.empty()) << r.no_first_order;
  for (const RowScatter& row : r.rows) {
    EXPECT_NEAR(row.spread.value, *row.first_order, 0.05 * *row.first_order) << row.row;
  }
  EXPECT_NEAR(r.rms_cv.value, *r.first_order_rms_cv, 0.01 * r.rms_cv.value);
}

TEST(Tolerance, IsTheSameWhateverTheThreadsAndStopsWithWhatIsDone) {
  const Layout layout = tolerance_test_layout(4);
  const std::vector<Tolerance> bores{tolerance_test_normal(ToleranceOf::orifice_bore, 0.01)};
  const ToleranceResult one = tolerance_study(layout, bores, {.points = 512, .share_points = 64, .threads = 1});
  const ToleranceResult many = tolerance_study(layout, bores, {.points = 512, .share_points = 64, .threads = 3});
  EXPECT_EQ(one.rms_cv.value, many.rms_cv.value);
  EXPECT_EQ(one.quantiles[0].worst.error, many.quantiles[0].worst.error);
  EXPECT_EQ(one.shares[0].cv.first_order.value, many.shares[0].cv.first_order.value);
  const ToleranceResult other = tolerance_study(layout, bores, {.points = 512, .share_points = 0, .seed = 2});
  EXPECT_NE(one.rms_cv.value, other.rms_cv.value);

  std::size_t told = 0;
  const ToleranceResult stopped =
      tolerance_study(layout, bores, {.points = 512, .threads = 1}, [&](std::size_t done, std::size_t) {
        told = done;
        return done < 1300;
      });
  EXPECT_FALSE(stopped.complete);
  EXPECT_GE(told, 1300U);
  EXPECT_EQ(stopped.replicates, 2U);
  EXPECT_NEAR(stopped.rms_cv.value, one.rms_cv.value, 0.1 * one.rms_cv.value);
  EXPECT_EQ(stopped.share_replicates, 0U);
  // Stopped in the first replicate: figures of a part, without errors.
  const ToleranceResult early = tolerance_study(layout, bores, {.points = 4096, .threads = 1},
                                                [](std::size_t done, std::size_t) { return done < 1000; });
  EXPECT_EQ(early.replicates, 0U);
  EXPECT_GE(early.machines, 1000U);
  EXPECT_LT(early.machines, 4096U);
  EXPECT_NEAR(early.rms_cv.value, one.rms_cv.value, 0.1 * one.rms_cv.value);
  EXPECT_TRUE(std::isinf(early.rms_cv.error));
}

TEST(Tolerance, WithoutDerivativesStandsAlone) {
  Layout layout = tolerance_test_layout(4);
  std::get<Toolbar>(layout.plumbing).manifolds[0].junction_losses = true;
  const ToleranceResult r = tolerance_study(layout, {tolerance_test_normal(ToleranceOf::orifice_bore, 0.01)},
                                            {.points = 16, .replicates = 2, .share_points = 0});
  EXPECT_FALSE(r.no_first_order.empty());
  EXPECT_FALSE(r.first_order_rms_cv.has_value());
  EXPECT_GT(r.rms_cv.value, 0.005);
}

TEST(Tolerance, RefusesWhatCannotBe) {
  const Layout layout = tolerance_test_layout(4);
  const auto refused = [&](const Tolerance& t) {
    EXPECT_THROW((void)tolerance_study(layout, {t}), InputError) << name_of(t.of).name;
  };
  EXPECT_THROW((void)tolerance_study(layout, {}), InputError);
  refused(tolerance_test_normal(ToleranceOf::crack, 0.1));         // no check valves
  refused(tolerance_test_normal(ToleranceOf::pressure, 0.1));      // the supply gives the rate
  refused(tolerance_test_normal(ToleranceOf::temperature, 0.1));   // a share of a temperature
  refused(tolerance_test_normal(ToleranceOf::orifice_bore, 0.5));  // bores below nothing
  Tolerance batch = tolerance_test_normal(ToleranceOf::orifice_bore, 0.01);
  batch.batch = {1, 2};
  refused(batch);
  EXPECT_THROW((void)tolerance_study(layout, {tolerance_test_normal(ToleranceOf::orifice_bore, 0.01)}, {.points = 100}),
               InputError);
}

}  // namespace tolerance_test
}  // namespace libflow
