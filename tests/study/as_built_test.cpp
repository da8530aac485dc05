// SPDX-License-Identifier: MIT
/// @file
/// The first-order answer as built, against machines drawn and solved one by one.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <optional>
#include <string>
#include <variant>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/tolerance.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace as_built_test {

Layout toleranced_bar(double wider) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "as_built.toml");
  for (Tolerance& t : layout.tolerances) {
    t.difference.deviation *= wider;
    t.difference.low *= wider;
    t.difference.high *= wider;
    for (double& v : t.difference.values) v *= wider;
  }
  return layout;
}

TEST(AsBuilt, AgreesWithMachinesSolvedOneByOne) {
  for (const double wider : {1.0, 2.0}) {
    SCOPED_TRACE(wider);
    const Layout layout = toleranced_bar(wider);
    const std::optional<AsBuilt> built = as_built(main_job(layout));
    ASSERT_TRUE(built);
    ToleranceOptions options;
    options.points = 2048;
    options.share_points = 0;
    const ToleranceResult drawn = tolerance_study(layout, layout.tolerances, options);
    // A straight line stands for the bar: within three points of a hundred here, and the CV within a twentieth.
    EXPECT_NEAR(built->within, drawn.within.value, 0.03);
    EXPECT_NEAR(built->mean_cv / drawn.mean_cv.value, 1.0, 0.05);
    EXPECT_LT(drawn.within.value, wider > 1.0 ? 0.9 : 1.0);
  }
}

TEST(AsBuilt, TheVerdictOnPaperIsNotTheLastWord) {
  const Answer with = main_job(toleranced_bar(2.0));
  const std::string text = main_job_text(with);
  EXPECT_LT(text.find("AS BUILT, with its tolerances: about "), text.find("'North bar, as built'")) << text;
  EXPECT_NE(as_built_sentence(with).find("'libflow tolerance'"), std::string::npos);
  Layout without = toleranced_bar(1.0);
  without.tolerances.clear();
  EXPECT_FALSE(as_built(main_job(without)));
  EXPECT_EQ(as_built_sentence(main_job(without)),
            "This is the layout as drawn; real parts vary: 'libflow tolerance' says how even it is as built.");
  // A bar that is uneven as drawn needs no such line.
  EXPECT_EQ(as_built_sentence(main_job(read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "short_hoses.toml"))), "");
}

// The same plumbing, said row by row or place by place, is one machine.
TEST(AsBuilt, PlaceByPlaceAsTheBarItself) {
  Layout layout{.name = "bar", .job = test::plain_job(), .plumbing = test::plain_bar(6)};
  layout.job.liquid = find_liquid("water");
  layout.tolerances = {{.of = ToleranceOf::orifice_bore,
                        .difference = {.kind = Distribution::Kind::normal, .deviation = 0.02},
                        .relative = true}};
  const std::optional<AsBuilt> bar = as_built(main_job(layout));
  layout.plumbing = build_network(std::get<Toolbar>(layout.plumbing), layout.job);
  const std::optional<AsBuilt> places = as_built(main_job(layout));
  ASSERT_TRUE(bar && places);
  EXPECT_NEAR(places->mean_cv / bar->mean_cv, 1.0, 1e-9);
  EXPECT_NEAR(places->within, bar->within, 1e-12);
  EXPECT_GT(bar->mean_cv, 0.02) << "flow goes about with the square of the bore";
  // What a free form does not have cannot be off by anything: there is no answer, rather than a wrong one.
  layout.tolerances.front() = {.of = ToleranceOf::side_slope,
                               .difference = {.kind = Distribution::Kind::normal, .deviation = 0.02}};
  EXPECT_FALSE(as_built(main_job(layout)));
}

}  // namespace as_built_test
}  // namespace libflow
