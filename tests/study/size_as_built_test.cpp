// SPDX-License-Identifier: MIT
/// @file
/// Sizing a layout with tolerances: how many machines are even as built decides among choices that cost about the same.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include <libflow/file/layout_size.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow {
namespace size_as_built_test {

using namespace units;

Tolerance scattered(ToleranceOf of, double deviation, bool relative) {
  Tolerance t;
  t.of = of;
  t.relative = relative;
  t.difference.deviation = deviation;
  return t;
}

/// The example with parts that scatter; hoses of two per cent in bore.
SizeFile scattered_example() {
  SizeFile file = read_size(std::string(LIBFLOW_EXAMPLES) + "/sizing.toml");
  file.layout.tolerances = {scattered(ToleranceOf::orifice_bore, 1e-5, false),
                            scattered(ToleranceOf::hose_bore, 0.02, true)};
  return file;
}

TEST(SizeAsBuilt, TheEvenestAsBuiltOfAboutOnePriceIsRecommended) {
  const SizeFile file = scattered_example();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_GT(a.fits.size(), 3U);
  const SizeCandidate& best = *a.recommended();
  ASSERT_TRUE(best.built && a.winner()->built);
  EXPECT_GT(best.built->within, a.winner()->built->within) << "the example of a cheapest that is not the evenest";
  EXPECT_GT(best.orifice_share, a.winner()->orifice_share) << "more pressure across the orifices";
  const double most = (1.0 + SizeAnswer::may_cost_more) * a.winner()->price;
  EXPECT_LE(best.price, most * (1.0 + 1e-9));
  for (std::size_t k = 0; k < a.fits.size(); ++k) {
    const SizeCandidate& c = a.fits[k];
    if (c.price > most * (1.0 + 1e-9)) continue;
    ASSERT_TRUE(c.built) << k;
    EXPECT_LE(c.built->within, best.built->within + SizeAnswer::as_even) << k;
    if (k < a.best) {
      EXPECT_LT(c.built->within, best.built->within) << "a cheaper one is not as good: " << k;
    }
  }
  // Everything that a person reads in the list has its share.
  for (const std::size_t k : a.listed()) EXPECT_TRUE(a.fits[k].built) << k;
}

// Machines drawn and solved one by one, of the recommended and the cheapest, at the point where each is least even.
TEST(SizeAsBuilt, TheShareIsThatOfMachinesSolvedOneByOne) {
  const SizeFile file = scattered_example();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  for (const SizeCandidate* c : {a.winner(), a.recommended()}) {
    Layout layout = a.layout_with(*c);
    const WorkingPoint& at = a.problem.points[c->outcome.worst_point];
    layout.job.speed = at.speed;
    layout.job.rate = at.rate;
    layout.job.temperature = at.temperature;
    std::get<Toolbar>(layout.plumbing).side_slope = at.side_slope;
    ToleranceOptions options;
    options.points = 1024;
    options.share_points = 0;
    const ToleranceResult drawn = tolerance_study(layout, layout.tolerances, options);
    ASSERT_TRUE(c->built);
    EXPECT_NEAR(c->built->within, drawn.within.value, 0.03);
  }
}

TEST(SizeAsBuilt, TextAndJsonSaySo) {
  const SizeFile file = scattered_example();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  const std::string text = size_text(a, {.width = 400});
  EXPECT_NE(text.find("of such machines are even as built, not "), std::string::npos) << text;
  EXPECT_NE(text.find("BUT: with the layout's tolerances only "), std::string::npos) << "few are even here\n" << text;
  EXPECT_NE(text.find("Evener as built"), std::string::npos) << text;
  EXPECT_NE(text.find("built\n"), std::string::npos) << "a column of the list\n" << text;
  EXPECT_EQ(text.find("AS BUILT"), std::string::npos);
  const Json json = size_to_json(a);
  EXPECT_EQ(json["recommended_rank"], a.best + 1);
  for (const Json& c : json["ranked"]) {
    const SizeCandidate& fit = a.fits[c["rank"].get<std::size_t>() - 1];
    EXPECT_EQ(c["as_built"].is_null(), !fit.built);
    if (fit.built) {
      EXPECT_DOUBLE_EQ(c["as_built"]["share_of_machines_even"], fit.built->within);
    }
  }
}

// What sizing recommends is nothing that `solve` then calls an orifice that meters nothing.
TEST(SizeAsBuilt, NoChoiceFitsWhoseOrificesMeterNothing) {
  SizeFile file = scattered_example();
  file.layout.tolerances.clear();
  file.choices.hose_bores = {0.25 * inch};
  file.choices.hose_prices.clear();
  file.choices.orifices = {OrificeByBore{.bore = 0.046 * inch}, OrificeByBore{.bore = 0.12 * inch}};
  file.choices.cuts = {Cut::equal};
  file.choices.side_slopes = {0.0 * deg};
  file.choices.least_pressure = 5.0 * psi;
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_FALSE(a.fits.empty());
  for (const SizeCandidate& c : a.fits) {
    EXPECT_EQ(c.choice.orifices.front(), 0U) << "0.12 in takes less than 2 % of what such a hose takes";
    for (const WorkingPoint& at : a.problem.points) {
      Layout layout = a.layout_with(c);
      layout.job.speed = at.speed;
      layout.job.rate = at.rate;
      layout.job.temperature = at.temperature;
      EXPECT_EQ(layout_doubt(main_job(layout).evenness), nullptr);
    }
  }
  // Alone it is the nearest miss, and says what it breaks.
  file.choices.orifices = {OrificeByBore{.bore = 0.12 * inch}};
  const SizeAnswer none = size_toolbar(file.layout, file.choices);
  EXPECT_TRUE(none.fits.empty());
  ASSERT_TRUE(none.nearest_miss);
  EXPECT_EQ(none.nearest_miss->outcome.binding.limit, SizeLimit::metering);
  EXPECT_LT(none.nearest_miss->outcome.binding.value, least_metering_share);
  EXPECT_NE(size_text(none, {.width = 400}).find("below it the hose meters"), std::string::npos);
}

TEST(SizeAsBuilt, WithoutTolerancesTheCheapestStands) {
  SizeFile file = scattered_example();
  file.layout.tolerances.clear();
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  EXPECT_EQ(a.best, 0U);
  EXPECT_FALSE(a.recommended()->built);
  EXPECT_GT(a.recommended()->orifice_share, 0.0);
  EXPECT_LT(a.recommended()->orifice_share, 1.0);
  const std::string text = size_text(a, {.width = 400});
  EXPECT_NE(text.find("As drawn"), std::string::npos) << text;
  EXPECT_EQ(text.find("built\n"), std::string::npos) << text;
}

}  // namespace size_as_built_test
}  // namespace libflow
