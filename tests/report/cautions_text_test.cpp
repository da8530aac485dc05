// SPDX-License-Identifier: MIT
/// @file
/// Cautions as text: what stops the job first, short, their sources numbered and listed once at the end.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/core/caution.hpp>
#include <libflow/report/cautions_text.hpp>

namespace libflow {
namespace cautions_text_test {

using report_detail::caution_groups;
using report_detail::cautions_text;

const Cautions cautions{
    {.code = "densities-conflict",
     .subject = "10-34-0",
     .text = "Used: 11.65 lb/gal [FFC]. Others: 11.4 lb/gal [UNL16]. Weigh [a] sample",
     .source = "FFC, UNL16"},
    {.code = "near-crack",
     .subject = "row 1",
     .text = "another valve might stay shut",
     .source = "crack pressure given"},
    {.code = "check-valve-shut", .subject = "row 3", .text = "this row gets nothing"},
    {.code = "estimated-viscosity", .subject = "10-34-0", .text = "The viscosity is computed.", .source = "UNL16"},
    {.code = "check-valve-shut", .subject = "row 4", .text = "this row gets nothing"},
    {.code = "above-pump-limit", .subject = "supply", .text = "it will fall short", .source = "crack pressure given"}};

TEST(CautionsText, WhatStopsTheJobStandsFirst) {
  const std::vector<std::string> groups = caution_groups(cautions);
  ASSERT_EQ(groups.size(), 5U);
  EXPECT_EQ(groups[0], "rows 3 and 4: this row gets nothing.");
  EXPECT_TRUE(groups[1].starts_with("supply: it will fall short.")) << groups[1];
  EXPECT_TRUE(groups[2].starts_with("10-34-0: Used")) << groups[2];  // the others in their order
  EXPECT_TRUE(groups[3].starts_with("row 1: ")) << groups[3];
}

TEST(CautionsText, SourcesAreNumberedAndStandOnceAtTheEnd) {
  const std::string text = cautions_text(cautions, 100);
  EXPECT_TRUE(text.starts_with(" - rows 3 and 4: this row gets nothing.\n - supply: it will fall short. [1]\n"))
      << text;
  EXPECT_NE(text.find(" - 10-34-0: Used: 11.65 lb/gal [2]. Others: 11.4 lb/gal [3]. Weigh [a] sample.\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find(" - row 1: another valve might stay shut. [1]\n"), std::string::npos) << text;
  EXPECT_NE(text.find(" - 10-34-0: The viscosity is computed. [3]\n"), std::string::npos) << text;
  const std::size_t list = text.find(" Sources of the cautions\n [1] crack pressure given\n [2] Estimated Physical");
  ASSERT_NE(list, std::string::npos) << text;
  EXPECT_NE(text.find("\n [3] University of Nebraska-Lincoln", list), std::string::npos) << text;
  EXPECT_EQ(text.find("[4]"), std::string::npos) << text;
  EXPECT_EQ(text.find("Source:"), std::string::npos) << text;
}

TEST(CautionsText, NothingIsLostWithoutSources) {
  EXPECT_EQ(cautions_text({{.code = "x", .subject = "", .text = "Mind the step"}}, 80), " - Mind the step.\n");
  EXPECT_EQ(cautions_text({}, 80), "");
  // An open bracket that is closed nowhere is text.
  EXPECT_EQ(cautions_text({{.code = "x", .subject = "", .text = "a [b"}}, 80), " - a [b.\n");
}

TEST(CautionsText, LinesFitTheWidth) {
  const std::string text = cautions_text(cautions, 80);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    EXPECT_LE(end - at, 80U) << text.substr(at, end - at);
    at = end + 1;
  }
}

}  // namespace cautions_text_test
}  // namespace libflow
