// SPDX-License-Identifier: MIT
/// @file
/// A tolerance study as text: verdict first, errors beside figures, what is missing said, at most 100 columns.
#include <limits>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <libflow/report/tolerance_text.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace tolerance_text_test {

using test::says;

ToleranceResult tolerance_text_result() {
  ToleranceResult r;
  r.layout = "North bar";
  r.tolerance = 0.05;
  r.nominal_cv = 0.001;
  r.nominal_worst = 0.002;
  r.within = {0.914, 0.002};
  r.rms_cv = {0.0213, 0.0002};
  r.first_order_rms_cv = 0.0209;
  r.quantiles = {{0.05, {0.012, 0.0001}, {0.02, 0.001}}, {0.95, {0.03, 0.0003}, {0.06, 0.002}}};
  for (int k = 1; k <= 3; ++k) {
    RowScatter row;
    row.row = k;
    row.nominal = 0.001 * k;
    row.mean = {0.001 * k, 1e-5};
    row.spread = {0.02, 0.0004};
    row.first_order = 0.019;
    row.parts_company = k == 3;
    r.rows.push_back(row);
  }
  ToleranceShare share;
  share.name = "orifice bore";
  share.cv = {{0.62, 0.013}, {0.7, 0.02}};
  share.worst = {{-0.004, 0.01}, {0.7, 0.02}};
  share.first_order = 0.66;
  r.shares = {share};
  r.machines = r.judged = 4096;
  r.replicates = r.share_replicates = 8;
  r.complete = true;
  r.seed = 1;
  return r;
}

TEST(ToleranceText, OpensWithTheProbabilityAndKeepsWithinItsWidth) {
  const std::string text = tolerance_text(tolerance_text_result());
  EXPECT_EQ(text.rfind("91.4 % of the machines", 0), 0U) << text;
  EXPECT_TRUE(says(text, "(sampling error 0.2 %)")) << text;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) EXPECT_LE(report_detail::columns(line), 100U) << line;
  for (const char* part : {"1.20 ±0.01", "2.13 ±0.02", "by the straight line from derivatives 2.09 %", "62 ±2", "0 ±1",
                           "66", "3 +0.30 +0.30 ±0.01 2.00 ±0.04 1.90 NOT STRAIGHT", "for you to measure"}) {
    EXPECT_TRUE(says(text, part)) << part << "\n" << text;
  }
  EXPECT_FALSE(says(text, "nan"));
  EXPECT_FALSE(says(text, "-0 "));
}

TEST(ToleranceText, ExplainsATableBeforeItAndWritesNoMinusBeforeNothing) {
  ToleranceResult r = tolerance_text_result();
  r.rows[0].nominal = -2e-6;
  r.rows[0].mean = {-3e-6, 2e-6};
  r.rows[1].mean = {-0.00163, 0.00006};
  const std::string text = tolerance_text(r);
  EXPECT_EQ(text.find("-0.00"), std::string::npos) << text;
  EXPECT_TRUE(says(text, "1 0.00 0.00 ±0.01 2.00 ±0.04")) << text;
  EXPECT_TRUE(says(text, "2 +0.20 -0.16 ±0.01 2.00 ±0.04")) << text;
  EXPECT_LT(text.find("Alone:"), text.find("orifice bore"));
  EXPECT_LT(text.find("Scatter:"), text.find("NOT STRAIGHT\n"));
  EXPECT_LT(text.find("± is the standard error"), text.find("Coefficient of variation "));
}

TEST(ToleranceText, ShowsNoShareBeyondTheWhole) {
  ToleranceResult r = tolerance_text_result();
  r.shares.front().cv = {{1.012, 0.03}, {1.2, 0.05}};
  r.shares.front().worst = {{-0.014, 0.011}, {0.5, 0.02}};
  const std::string text = tolerance_text(r);
  EXPECT_TRUE(says(text, "orifice bore 100 ±3 100 ±5 0 ±2 50 ±2 66")) << text;
  EXPECT_TRUE(says(text, "their sum may miss 100")) << text;
}

TEST(ToleranceText, SaysWhatIsMissing) {
  ToleranceResult r = tolerance_text_result();
  r.complete = false;
  r.within.error = std::numeric_limits<double>::infinity();
  r.share_replicates = 0;
  r.unsolved = 7;
  r.at_crack = 2;
  r.no_first_order = "it has corrections";
  r.first_order_rms_cv.reset();
  for (RowScatter& row : r.rows) row.first_order.reset();
  const std::string text = tolerance_text(r);
  EXPECT_TRUE(says(text, "STOPPED before the end")) << text;
  EXPECT_TRUE(says(text, "7 drawn machines have no answer")) << text;
  EXPECT_TRUE(says(text, "No straight line: it has corrections")) << text;
  EXPECT_TRUE(says(text, "2 check valves stand exactly at their crack pressure")) << text;
  EXPECT_FALSE(says(text, "CV with")) << text;
  EXPECT_FALSE(says(text, "inf")) << text;
  r.judged = 0;
  EXPECT_EQ(tolerance_text(r).rfind("NO MACHINE drawn has an answer", 0), 0U) << "they were drawn, and none flows";
  r.machines = r.unsolved = 0;
  EXPECT_EQ(tolerance_text(r).rfind("NOTHING DONE", 0), 0U);
}

}  // namespace tolerance_text_test
}  // namespace libflow
