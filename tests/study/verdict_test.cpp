// SPDX-License-Identifier: MIT
/// @file
/// The wanted rate is judged where a layout holds its pressure too: by the pressure at which another rate is wanted.
#include <gtest/gtest.h>

#include <filesystem>

#include <libflow/file/layout_file.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow {
namespace verdict_test {

using namespace units;

Layout even_bar() {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  layout.job.pump_limit = 300.0 * psi;  // no matter here
  return layout;
}

/// The bar held at the gauge pressure that gives `share` of the rate that it is asked for.
Answer held_for(double share, double tolerance = 0.05) {
  Layout layout = even_bar();
  layout.job.tolerance = tolerance;
  Layout asked = layout;
  asked.job.rate = share * layout.job.rate;
  layout.job.pressure = from_si<Pressure>(main_job(asked).evenness.supply_pressure);
  return main_job(layout);
}

TEST(HeldPressure, ThatGivesTheRateIsGood) {
  for (const double share : {0.96, 1.0, 1.04}) {
    const Answer a = held_for(share);
    EXPECT_NEAR(a.evenness.mean_rate / a.evenness.target_rate, share, 1e-6);
    EXPECT_EQ(short_of_rate(a), nullptr) << share;
    EXPECT_EQ(rate_word(a), "reached");
  }
}

TEST(HeldPressure, ThatGivesAnotherRateIsNoGoodBar) {
  for (const double share : {0.5, 0.93, 1.07, 1.5}) {
    const Answer a = held_for(share);
    EXPECT_TRUE(a.evenness.even);
    const Caution* stop = short_of_rate(a);
    ASSERT_NE(stop, nullptr) << share;
    EXPECT_EQ(stop->code, "other-rate-held");
    EXPECT_NEAR(stop->value / stop->limit, share, 1e-6);
    EXPECT_NE(stop->text.find(share < 1.0 ? " % less than the wanted rate" : " % more than the wanted rate"),
              std::string::npos)
        << stop->text;
    EXPECT_NE(verdict_state(a), VerdictState::good);
    EXPECT_EQ(rate_word(a), share < 1.0 ? "NOT REACHED" : "EXCEEDED");
    EXPECT_EQ(verdict_sentence(a).rfind("NOT THE WANTED RATE: ", 0), 0u) << verdict_sentence(a);
  }
}

// As for the cups of a whole bar: the rows' tolerance, but 5 % at least and 10 % at most.
TEST(HeldPressure, IsJudgedByTheRowsTolerance) {
  EXPECT_DOUBLE_EQ(level_limit(0.02), 0.05);
  EXPECT_DOUBLE_EQ(level_limit(0.08), 0.08);
  EXPECT_DOUBLE_EQ(level_limit(0.3), 0.10);
  EXPECT_EQ(short_of_rate(held_for(0.93, 0.08)), nullptr);
  EXPECT_NE(short_of_rate(held_for(0.91, 0.08)), nullptr);
  EXPECT_EQ(short_of_rate(held_for(0.96, 0.02)), nullptr);
}

// What comes out at a held pressure hangs on the viscosity, whose band is wide for this liquid.
TEST(HeldPressure, HangsOnTheViscosity) {
  const Answer a = held_for(1.0);
  EXPECT_EQ(verdict_state(a), VerdictState::unsure);
  EXPECT_TRUE(verdict_depends_on_viscosity(a));
  EXPECT_EQ(verdict_state(main_job(even_bar())), VerdictState::good) << "a control that reaches the rate does not";
}

// An end of the viscosity's band at which the layout has no answer is one at which it is not good.
TEST(VerdictOverTheBand, AnEndWithoutAnAnswerLeavesAGoodBarUnsure) {
  Answer a = main_job(even_bar());
  ASSERT_EQ(verdict_state(a), VerdictState::good);
  const ViscosityEnd none{.viscosity = 1.0, .upper = true, .stop = "no answer"};
  a.viscosity_band = {none};
  EXPECT_TRUE(changes_verdict(a, none));
  EXPECT_TRUE(verdict_depends_on_viscosity(a));
  EXPECT_EQ(verdict_state(a), VerdictState::unsure);
  EXPECT_EQ(verdict_word(a), "EVEN, not sure");
  // What is uneven stays so.
  a.evenness.even = false;
  EXPECT_EQ(verdict_state(a), VerdictState::bad);
  EXPECT_EQ(verdict_word(a), "NOT EVEN");
}

// Five open rows and one that is valved off, one of them 40 % above its fellows: their mean is 8 % too high, and all
// are outside 5 % of it; without the one all are even.
TEST(RowThatPullsTheMean, IsFoundBesideARowThatIsValvedOff) {
  Evenness e;
  e.tolerance = 0.05;
  const double rates[] = {1.0, 1.0, 1.4, 0.0, 1.0, 1.0};
  for (int row = 1; row <= 6; ++row) {
    RowResult r;
    r.row = row;
    r.shut = row == 4;
    r.rate = rates[row - 1];
    r.deviation = r.rate / 1.08 - 1.0;
    e.rows.push_back(r);
    if (!r.shut) e.outside.push_back(row);
  }
  EXPECT_EQ(row_that_pulls_the_mean(e), 3);
  // Were it open and dry, no single row would be to blame.
  e.rows[3].shut = false;
  EXPECT_EQ(row_that_pulls_the_mean(e), 0);
}

// Where no row is drawn no rate is wanted, and none is missed.
TEST(OtherRateHeld, IsNotToldWhereNothingIsWanted) {
  Plumbing p;
  p.supply = p.network.add_supply("pump", 1.0 * bar);
  p.network.add_air("end");
  p.network.add_part("line", "pump", "end", Hose{.length = 1.0 * m, .bore = 10.0 * mm});
  const Layout layout{.name = "a line", .job = even_bar().job, .plumbing = p};
  const Answer a = main_job(layout);
  ASSERT_TRUE(a.solution.usable());
  EXPECT_FALSE(other_rate_held(p, layout.job, a.evenness));
  EXPECT_EQ(short_of_rate(a), nullptr);
}

}  // namespace verdict_test
}  // namespace libflow
