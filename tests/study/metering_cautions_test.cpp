// SPDX-License-Identifier: MIT
/// @file
/// Orifices that meter nothing are told, and the slip of the decimal point is found again.
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/metering_cautions.hpp>

namespace libflow {
namespace metering_cautions_test {

using namespace units;

Layout metered_bar(Length bore) {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "as_built.toml");
  layout.job.pump_limit = 200.0 * psi;  // so that the thick end of the band is no matter here
  layout.tolerances.clear();
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = bore};
  return layout;
}

TEST(MeteringCautions, ADecimalPointTooFarIsFoundAgain) {
  const Answer right = main_job(metered_bar(0.046 * inch));
  EXPECT_EQ(metering_doubt(right.evenness), nullptr);
  EXPECT_EQ(verdict_state(right), VerdictState::good);

  // Wider than its hose of a quarter inch.
  const Answer slip = main_job(metered_bar(0.46 * inch));
  const Caution* doubt = metering_doubt(slip.evenness);
  ASSERT_NE(doubt, nullptr);
  EXPECT_EQ(doubt->code, "orifice-not-smaller-than-hose");
  EXPECT_EQ(doubt->subject, "row 1");
  EXPECT_NE(doubt->text.find("0.460 in (11.68 mm)"), std::string::npos) << doubt->text;
  EXPECT_NE(doubt->text.find("0.250 in (6.35 mm)"), std::string::npos) << doubt->text;
  // The share that is foretold for the nearest bore is that of the bar with that bore.
  const double share = right.evenness.rows.front().orifice_share;
  EXPECT_NE(doubt->text.find(fmt::format("Nearest: 0.046 in (1.17 mm), which would take {:.0f} %", 100.0 * share)),
            std::string::npos)
      << doubt->text;
  // Nothing looks good any more, though every row is within the tolerance.
  EXPECT_TRUE(slip.evenness.even);
  EXPECT_EQ(verdict_state(slip), VerdictState::unsure);
  EXPECT_TRUE(verdict_sentence(slip).starts_with("EVEN, not sure: ")) << verdict_sentence(slip);
  EXPECT_NE(verdict_sentence(slip).find("is the orifice of rows 1 to 16 right? It is not smaller than its hose"),
            std::string::npos)
      << verdict_sentence(slip);
  EXPECT_NE(main_job_text(slip).find("rows 1 to 16: the orifice, 0.460 in"), std::string::npos) << main_job_text(slip);
}

TEST(MeteringCautions, BelowTheThresholdOnlyAndRowByRow) {
  // The share falls with the fourth power of the bore, about: some bore is on either side of the threshold.
  int told = 0, silent = 0;
  for (const double thousandths : {60.0, 80.0, 90.0, 100.0, 120.0, 180.0}) {
    const Answer a = main_job(metered_bar(thousandths * 0.001 * inch));
    const bool little = a.evenness.rows.front().orifice_share < least_metering_share;
    const Caution* doubt = metering_doubt(a.evenness);
    EXPECT_EQ(doubt != nullptr, little) << thousandths;
    (little ? told : silent) += 1;
    if (doubt == nullptr) continue;
    EXPECT_EQ(doubt->code, "orifice-meters-nothing");
    EXPECT_NE(doubt->text.find("common practice, no source"), std::string::npos);
    // A tenth of these bores would need more pressure than there is: none is named.
    EXPECT_EQ(doubt->text.find("Nearest"), std::string::npos) << doubt->text;
  }
  EXPECT_GT(told, 0);
  EXPECT_GT(silent, 0);

  Layout one = metered_bar(0.046 * inch);
  std::get<Toolbar>(one.plumbing).row_changes = {{.row = 5, .orifice = OrificeByBore{.bore = 0.2 * inch}}};
  const Answer a = main_job(one);
  int rows = 0;
  for (const Caution& c : a.evenness.cautions) rows += c.code == "orifice-meters-nothing" ? 1 : 0;
  EXPECT_EQ(rows, 1);
  EXPECT_EQ(metering_doubt(a.evenness)->subject, "row 5");
  EXPECT_NE(verdict_sentence(a).find("is the orifice of row 5 right?"), std::string::npos) << verdict_sentence(a);
}

TEST(MeteringCautions, ABarWithoutOrificesIsMeteredByItsHoses) {
  Layout layout = metered_bar(0.046 * inch);
  std::get<Toolbar>(layout.plumbing).orifice.reset();
  EXPECT_EQ(metering_doubt(main_job(layout).evenness), nullptr);
}

TEST(MeteringCautions, ABoreTenTimesTooSmallIsAskedAboutAndNothingIsThrown) {
  // About 1e9 Pa: no stop can be foretold from that, and the bore is what is said.
  const Answer slip = main_job(metered_bar(0.0046 * inch));
  const Caution* doubt = metering_doubt(slip.evenness);
  ASSERT_NE(doubt, nullptr);
  EXPECT_EQ(doubt->code, "orifice-takes-too-much");
  EXPECT_GT(doubt->value, most_metering_pressure * si(200.0 * psi));
  const double share = main_job(metered_bar(0.046 * inch)).evenness.rows.front().orifice_share;
  EXPECT_NE(doubt->text.find(fmt::format("Nearest: 0.046 in (1.17 mm), which would take {:.0f} %", 100.0 * share)),
            std::string::npos)
      << doubt->text;
  EXPECT_EQ(verdict_state(slip), VerdictState::bad);
  EXPECT_TRUE(verdict_sentence(slip).starts_with("NOT REACHED: the rate needs ")) << verdict_sentence(slip);
  EXPECT_NE(verdict_sentence(slip).find("BUT: is the orifice of rows 1 to 16 right? It takes far more"),
            std::string::npos)
      << verdict_sentence(slip);
}

TEST(MeteringCautions, AHoseTooWideIsAskedAbout) {
  const auto asked = [](Length hose, Length manifold, Length feed) {
    Layout layout = metered_bar(0.046 * inch);
    auto& bar = std::get<Toolbar>(layout.plumbing);
    bar.hose_bore = hose;
    bar.manifolds.resize(1);
    bar.manifolds.front().bore = manifold;
    bar.manifolds.front().feed_length = 3.0 * ft;
    bar.manifolds.front().feed_bore = feed;
    std::string text;
    int rows = 0;
    for (const Caution& c : main_job(layout).evenness.cautions) {
      if (c.code == "hose-too-wide") text = c.text, ++rows;
    }
    EXPECT_EQ(rows, text.empty() ? 0 : 16);
    return text;
  };
  EXPECT_EQ(asked(0.375 * inch, 1.0 * inch, 1.0 * inch), "");
  EXPECT_EQ(asked(1.0 * inch, 1.0 * inch, 1.0 * inch), "");
  EXPECT_NE(asked(0.75 * inch, 0.5 * inch, 1.0 * inch).find("wider than the manifold that feeds it, 0.500 in"),
            std::string::npos);
  EXPECT_NE(asked(0.75 * inch, 1.0 * inch, 0.5 * inch).find("wider than the feed hose of its manifold, 0.500 in"),
            std::string::npos);
  EXPECT_NE(asked(3.0 * inch, 3.0 * inch, 3.0 * inch).find("above 1 in, and the liquid creeps in it"),
            std::string::npos);
}

}  // namespace metering_cautions_test
}  // namespace libflow
