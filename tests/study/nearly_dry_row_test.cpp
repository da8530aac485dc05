// SPDX-License-Identifier: MIT
/// @file
/// A row that gives next to nothing: its orifice all but plugged, its hose pinched, or a check valve so strong that it
/// all but shuts it, whose effect lies in the last part of its range. A diagnosis finds each there.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/catch_cups.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace nearly_dry_row_test {

using Of = CatchCauseKind;

Layout equal_hoses() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }

/// Cups of the bar with this cause at each gauge reading [psi].
std::vector<CatchReadings> cups(const Layout& layout, const CatchCause& cause, const std::vector<double>& gauges) {
  std::vector<CatchReadings> settings;
  for (const double gauge : gauges) settings.push_back(test::at_gauge(gauge));
  return test::cups_with(layout, settings, {cause});
}
/// The cause among what is likely in the only place; nullptr: another was found, or more.
const LikelyCause* found(const Diagnosis& d, const CatchCause& truth) {
  if (d.causes.size() != 1) return nullptr;
  const std::vector<LikelyCause>& likely = d.causes.front().likely;
  const auto at = std::find_if(likely.begin(), likely.end(), [&](const auto& l) { return l.cause.same(truth); });
  return at == likely.end() ? nullptr : &*at;
}

TEST(NearlyDryRow, ItsValveIsFoundHoweverLittleItLetsThrough) {
  const Layout layout = equal_hoses();
  const std::vector<std::vector<double>> settings{{39.0}, {39.0, 30.0}};
  for (const std::vector<double>& gauges : settings) {
    for (const double more : {200e3, 240e3}) {
      SCOPED_TRACE(testing::Message() << more << " Pa, settings " << gauges.size());
      const CatchCause truth{Of::check_valve, 5, 0, 0, more};
      const Diagnosis d = CatchDiagnoser(layout, cups(layout, truth, gauges)).diagnose(cups(layout, truth, gauges));
      const LikelyCause* l = found(d, truth);
      ASSERT_NE(l, nullptr);
      EXPECT_LE(l->low, more);
      EXPECT_GE(l->high, more);
      EXPECT_NEAR(l->cause.size / more, 1.0, 0.005);
      EXPECT_FALSE(l->at_end);
    }
  }
}

// At 8 % of its flow, seen at one pressure, each of its parts may be it, and what is left to each is what exact solves
// say.
TEST(NearlyDryRow, EachOfItsPartsMayBeIt) {
  const Layout layout = equal_hoses();
  std::vector<CatchReadings> c = cups(layout, {Of::orifice, 5, 0, 0, 1.0}, {39.0});
  for (CatchReading& r : c.front().readings) r.volume *= r.row == 5 ? 0.08 : 1.0;
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  const CatchModel model(layout, c);
  for (const Of kind : {Of::orifice, Of::hose_bore, Of::check_valve}) {
    SCOPED_TRACE(name_of(kind));
    const LikelyCause* l = found(d, {kind, 5, 0, 0, 0.0});
    ASSERT_NE(l, nullptr);
    EXPECT_FALSE(l->at_end);
    const Eigen::VectorXd exact = model.exact({l->cause}).value() - model.base();
    EXPECT_NEAR(exact[4] - exact[3], std::log(0.08), 0.01);
  }
}

// At 15 % a hose ten times as long would do it nearly: that is the end of what is tried, and it says so.
TEST(NearlyDryRow, AHoseAtTheEndOfWhatIsTriedSaysSo) {
  const Layout layout = equal_hoses();
  std::vector<CatchReadings> c = cups(layout, {Of::orifice, 5, 0, 0, 1.0}, {39.0});
  for (CatchReading& r : c.front().readings) r.volume *= r.row == 5 ? 0.15 : 1.0;
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  const LikelyCause* hose = found(d, {Of::hose_length, 5, 0, 0, 0.0});
  ASSERT_NE(hose, nullptr);
  EXPECT_TRUE(hose->at_end);
  EXPECT_DOUBLE_EQ(hose->high, 10.0);
  const LikelyCause* orifice = found(d, {Of::orifice, 5, 0, 0, 0.0});
  ASSERT_NE(orifice, nullptr);
  EXPECT_FALSE(orifice->at_end);
}

// The effect of the whole range, held against exact solves between the sizes that it was solved for.
TEST(NearlyDryRow, TheValvesCurveFollowsExactSolvesUpToTheShutRow) {
  const Layout layout = equal_hoses();
  CatchModel model(layout, {{.time = from_si<Time>(30.0), .gauge = 39.0 * units::psi}});
  const CatchCause valve{Of::check_valve, 5, 0, 0, 0.0};
  const CatchEffect& e = model.effect(valve);
  const auto place = std::find(e.cells.begin(), e.cells.end(), 4) - e.cells.begin();
  ASSERT_LT(place, static_cast<std::ptrdiff_t>(e.cells.size()));
  const auto last = e.solved(place, static_cast<Eigen::Index>(e.sizes.size()) - 1);
  EXPECT_LT(last, std::log(0.002)) << "the end of the range shuts the row";
  Eigen::VectorXd v;
  for (std::size_t k = 1; k < e.sizes.size(); ++k) {
    CatchCause between = valve;
    between.size = 0.5 * (e.sizes[k - 1] + e.sizes[k]);
    e.at(between.size, v);
    const double exact = model.exact({between}).value()[4] - model.base()[4];
    if (exact < std::log(0.002)) continue;  // no cup shows the difference between nothing and next to nothing
    EXPECT_NEAR(v[place], exact, 0.1) << between.size;
  }
}

// The outlets hang 3 m below the gauge: at 5 psi no valve of the range that is tried shuts the row, and one at its end
// says so.
TEST(NearlyDryRow, AValveAtTheEndOfWhatIsTriedSaysSo) {
  Layout layout{.name = "high", .job = test::plain_job(), .plumbing = test::plain_bar(6)};
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.manifolds[0].height = 3.0 * units::m;
  bar.check_valve =
      CheckValveChoice{.crack = 1.0 * units::psi, .rated_flow = 0.5 * units::gpm, .rated_loss = 2.0 * units::psi};
  const double high = catch_detail::sizes_of(layout, {Of::check_valve, 5, 0, 0, 0.0}, si(5.0 * units::psi), {}).high;
  const CatchCause truth{Of::check_valve, 5, 0, 0, high};
  const std::vector<CatchReadings> c = cups(layout, truth, {5.0});
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  const LikelyCause* l = found(d, truth);
  ASSERT_NE(l, nullptr);
  EXPECT_TRUE(l->at_end);
  EXPECT_NEAR(l->cause.size / high, 1.0, 0.01);
}

// A valve whose row gives nothing at all: every stronger one would do the same.
TEST(NearlyDryRow, WhereItIsDryEveryStrongerValveIsAsLikely) {
  const Layout layout = equal_hoses();
  const CatchCause truth{Of::check_valve, 5, 0, 0, 250e3};
  const std::vector<CatchReadings> c = cups(layout, truth, {39.0});
  const Diagnosis d = CatchDiagnoser(layout, c).diagnose(c);
  const LikelyCause* l = found(d, truth);
  ASSERT_NE(l, nullptr);
  EXPECT_LE(l->low, 245e3);
  EXPECT_GE(l->high, 260e3);
}

}  // namespace nearly_dry_row_test
}  // namespace libflow
