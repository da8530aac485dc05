// SPDX-License-Identifier: MIT
/// @file
/// Diagnosis of bars with feed hoses and of catches with water, and the limits that its advice keeps.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/catch_cups.hpp>
#include <tests/support/catch_machines.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace catch_settings_test {

using namespace units;
using test::catch_setting, test::expect_message;

Layout caught_bar(const std::string& name = "equal_hoses.toml") {
  return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / name);
}
/// Two manifolds, each with a feed hose that takes part of the pressure.
Layout fed_by_hoses() {
  Layout layout = caught_bar();
  std::get<Toolbar>(layout.plumbing).manifolds = {
      Manifold{.id = "left", .first_row = 1, .last_row = 8, .feed_length = 2.0 * m, .feed_bore = 12.0 * mm},
      Manifold{.id = "right", .first_row = 9, .last_row = 16, .feed_length = 2.0 * m, .feed_bore = 12.0 * mm}};
  return layout;
}
/// Three cups a row of the bar with these causes, 0.3 % apart.
std::vector<CatchReadings> fine_cups(const Layout& layout, std::vector<CatchReadings> settings,
                                     const std::vector<CatchCause>& causes) {
  return test::cups_with(layout, std::move(settings), causes, 0.003);
}
const LikelyCause* among(const Diagnosis& d, const CatchCause& cause) {
  if (d.causes.size() != 1) return nullptr;
  const auto& likely = d.causes.front().likely;
  const auto found = std::find_if(likely.begin(), likely.end(), [&](const auto& l) { return l.cause.same(cause); });
  return found == likely.end() ? nullptr : &*found;
}

TEST(CatchSettings, ANarrowFeedHoseIsFoundBack) {
  const Layout layout = fed_by_hoses();
  const CatchCause narrow{CatchCauseKind::feed_hose, 0, 0, 1, 0.7};
  // By hand: the right manifold's feed hose alone, and the rows behind it get less.
  Layout drawn = layout;
  Toolbar& bar = std::get<Toolbar>(drawn.plumbing);
  bar.manifolds[1].feed_bore = 0.7 * bar.manifolds[1].feed_bore;
  const Layout with = with_cause(layout, narrow);
  EXPECT_EQ(si(std::get<Toolbar>(with.plumbing).manifolds[1].feed_bore), si(bar.manifolds[1].feed_bore));
  EXPECT_EQ(si(std::get<Toolbar>(with.plumbing).manifolds[0].feed_bore), 0.012);
  const Diagnosis d = diagnose(layout, fine_cups(layout, {catch_setting(28.0), catch_setting(12.0)}, {narrow}),
                               {.part_scatter = 0.001});
  const LikelyCause* found = among(d, narrow);
  ASSERT_NE(found, nullptr) << d.causes.size();
  EXPECT_NEAR(found->cause.size, 0.7, 0.01);
}

// Cups of water know nothing of the product: what is wrong with it shows in the product's cups alone.
TEST(CatchSettings, WaterDoesNotShowTheProduct) {
  const Layout layout = caught_bar("short_hoses.toml");
  const std::vector<CatchReadings> settings = {catch_setting(28.0), catch_setting(28.0, true)};
  const CatchModel model(layout, settings);
  const CatchCause thick{CatchCauseKind::viscosity, 0, 0, 0, 2.0}, heavy{CatchCauseKind::density, 0, 0, 0, 1.05};
  for (const CatchCause& cause : {thick, heavy}) {
    const Eigen::VectorXd with = *model.exact({cause});
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      EXPECT_NE(with[model.cell(0, i)], model.base()[model.cell(0, i)]);
      EXPECT_EQ(with[model.cell(1, i)], model.base()[model.cell(1, i)]);
    }
  }
  // The water's cups are those of the layout with water in it, at that pressure.
  Layout water = layout;
  water.job.liquid = find_liquid("water");
  water.job.temperature = DiagnosisSetup{}.water_temperature;
  water.job.pressure = 28.0 * psi;
  const Evenness e = main_job(water).evenness;
  for (std::size_t i = 0; i < e.rows.size(); ++i) {
    EXPECT_NEAR(std::exp(model.base()[model.cell(1, i)]) / e.rows[i].flow, 1.0, 1e-9);
  }
  const Diagnosis d = diagnose(layout, fine_cups(layout, settings, {thick}), {.part_scatter = 0.001});
  const LikelyCause* found = among(d, thick);
  ASSERT_NE(found, nullptr) << d.causes.size();
  EXPECT_NEAR(found->cause.size, 2.0, 0.02);
}

TEST(CatchSettings, NoAdviceGoesAboveThePumpsLimit) {
  Layout layout = caught_bar();
  layout.job.pump_limit = 30.0 * psi;
  for (const double size : {0.8, 0.9}) {
    const Diagnosis d =
        diagnose(layout, fine_cups(layout, {catch_setting(28.0)}, {{CatchCauseKind::orifice, 5, 0, 0, size}}));
    for (const FoundCause& f : d.causes) {
      if (!f.next) continue;
      EXPECT_LE(f.next->pressure, si(30.0 * psi) * (1.0 + 1e-9));
    }
    ASSERT_EQ(d.causes.size(), 1U);
    EXPECT_TRUE(d.causes.front().next) << "in one catch no class of a row's fault can be told from another";
  }
}

// With tees at its ports a bar that is fed at both ends takes no hose under a tenth of its bore: what a narrow hose
// would do is known down to there only.
TEST(CatchSettings, APartThatCannotBeIsNoCause) {
  Layout layout = caught_bar();
  Manifold& bar = std::get<Toolbar>(layout.plumbing).manifolds[0];
  bar.feed = ManifoldFeed::both_ends;
  bar.feed_length = 1.0 * m;
  bar.junction_losses = true;
  const double least = 0.1 * si(bar.bore) / si(std::get<Toolbar>(layout.plumbing).hose_bore);
  CatchModel model(layout, {catch_setting(28.0)});
  EXPECT_FALSE(model.exact({{CatchCauseKind::hose_bore, 5, 0, 0, 0.95 * least}}));
  EXPECT_TRUE(model.exact({{CatchCauseKind::hose_bore, 5, 0, 0, 1.05 * least}}));
  const CatchEffect& narrow = model.effect({.kind = CatchCauseKind::hose_bore, .row = 5});
  ASSERT_FALSE(narrow.sizes.empty());
  EXPECT_GE(*std::min_element(narrow.sizes.begin(), narrow.sizes.end()), least);
}

TEST(CatchSettings, SaysWhatCannotBeCaught) {
  const Layout layout = caught_bar();
  const auto one = fine_cups(layout, {catch_setting(28.0)}, {});
  const CatchModel model(layout, one);
  expect_message([&] { (void)catch_data(model, {}); }, "0 catches for 1 settings");
  Layout shut = layout;
  shut.job.pressure = 2.0 * psi;  // its valves crack at 4
  expect_message([&] { (void)plan_catch(shut); }, "nothing flows out of any row");
  const Layout free_form = caught_bar("free_form.toml");
  CatchReadings cups = catch_setting(28.0);
  for (const RowResult& r : main_job(free_form).evenness.rows) {
    for (int k = 1; k <= 2; ++k) cups.readings.push_back({.row = r.row, .repeat = k, .volume = r.flow * 30.0});
  }
  expect_message([&] { (void)judge_catch(free_form, cups); }, "no gauge reading, or a plain bar");
}

}  // namespace catch_settings_test
}  // namespace libflow
