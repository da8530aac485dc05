// SPDX-License-Identifier: MIT
/// @file
/// A row that is valved off, or has no cup, in every text, table and picture: it is named and nothing is said of it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/rows_svg.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/text.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {
namespace shut_rows_test {

using namespace units;

/// The demo bar with row 3 valved off.
Layout shut_bar() {
  Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  std::get<Toolbar>(layout.plumbing).row_changes = {{.row = 3, .shut = true}};
  return layout;
}

/// The words of every line of a text that begins with `first`.
std::vector<std::string> lines_from(const std::string& text, const std::string& first) {
  std::istringstream in(text);
  std::vector<std::string> found;
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    std::string flat;
    for (std::string word; words >> word;) flat += (flat.empty() ? "" : " ") + word;
    if (flat.starts_with(first)) found.push_back(flat);
  }
  return found;
}
/// The cells of every row of a page's tables that is headed so.
std::vector<std::vector<std::string>> cells_of(const std::string& html, const std::string& head) {
  std::vector<std::vector<std::string>> found;
  const std::regex rows("<tr><th scope=\"row\">" + head + "</th>(.*)</tr>"), cell("<td[^>]*>([^<]*)</td>");
  for (std::sregex_iterator row(html.begin(), html.end(), rows), end; row != end; ++row) {
    const std::string inside = (*row)[1];
    found.emplace_back();
    for (std::sregex_iterator c(inside.begin(), inside.end(), cell); c != end; ++c) found.back().push_back((*c)[1]);
  }
  return found;
}
bool all_empty(const std::vector<std::string>& cells, std::size_t from, std::size_t to) {
  return std::all_of(cells.begin() + static_cast<std::ptrdiff_t>(from), cells.begin() + static_cast<std::ptrdiff_t>(to),
                     [](const std::string& c) { return c.empty(); });
}

TEST(ShutRows, TheVerdictsTableNamesTheRowAndNoNumber) {
  const Answer a = main_job(shut_bar());
  const auto row = lines_from(main_job_text(a), "3 ");
  ASSERT_EQ(row.size(), 1U);
  EXPECT_EQ(row[0], "3 shut");
}

TEST(ShutRows, ThePagesTablesLeaveItsCellsEmpty) {
  const Answer a = main_job(shut_bar());
  const auto rows = cells_of(layout_page(a, {}, {}), "3");
  ASSERT_GE(rows.size(), 2U) << "what each row gets, and what it loses on its way";
  EXPECT_EQ(rows[0].back(), "shut");
  EXPECT_TRUE(all_empty(rows[0], 0, rows[0].size() - 1));
  EXPECT_TRUE(all_empty(rows[1], 0, rows[1].size()));
}

TEST(ShutRows, ThePictureHasAWordInsteadOfABar) {
  const Answer a = main_job(shut_bar());
  const std::string picture = rows_svg(a);
  const std::regex bars("<rect[^>]*class=\"bar( out)?\""), shut("<text[^>]*>shut</text>"),
      dry("<text[^>]*>no flow</text>");
  const auto count = [&](const std::regex& what, const std::string& in) {
    return std::distance(std::sregex_iterator(in.begin(), in.end(), what), std::sregex_iterator());
  };
  EXPECT_EQ(count(bars, picture), 15);
  EXPECT_EQ(count(shut, picture), 1);
  // At a third of the valves' crack pressure nothing flows anywhere.
  Layout dry_bar = shut_bar();
  dry_bar.job.pressure = 1.0 * psi;
  const std::string none = rows_svg(main_job(dry_bar));
  EXPECT_EQ(count(bars, none), 0);
  EXPECT_EQ(count(dry, none), 15);
  EXPECT_EQ(count(shut, none), 1);
}

TEST(ShutRows, NoCupIsHeldUnderIt) {
  const CatchPlan plan = plan_catch(shut_bar());
  const auto line = lines_from(catch_plan_text(plan), "3 ");
  ASSERT_EQ(line.size(), 1U);
  EXPECT_EQ(line[0], "3 shut");
  const auto sheet = cells_of(catch_plan_section(plan).html, "3");
  ASSERT_EQ(sheet.size(), 1U);
  EXPECT_EQ(sheet[0].front(), "shut");
  EXPECT_TRUE(all_empty(sheet[0], 1, sheet[0].size()));
  const std::string html = catch_plan_section(plan).html;
  const std::string begin = "<th scope=\"row\">3</th>";
  const std::string row = html.substr(html.find(begin), html.find("</tr>", html.find(begin)) - html.find(begin));
  EXPECT_EQ(row.find("class=\"fill\""), std::string::npos) << "nothing to fill in\n" << row;
  // The card's two blocks: row 3 stands left of row 11.
  const SettingCard card = setting_card(shut_bar());
  const auto beside = lines_from(setting_card_text(card), "3 shut 11 ");
  EXPECT_EQ(beside.size(), 1U) << setting_card_text(card);
}

TEST(ShutRows, ItHasNoDifferenceFromARowThatRuns) {
  const Layout open = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  const auto row = lines_from(comparison_text(compare({open, shut_bar()})), "3 ");
  ASSERT_EQ(row.size(), 1U);
  EXPECT_NE(row[0].find("shut"), std::string::npos) << row[0];
  EXPECT_TRUE(row[0].ends_with(" -")) << row[0];
  const auto three = lines_from(comparison_text(compare({open, shut_bar(), open})), "3 ");
  ASSERT_EQ(three.size(), 1U);
  EXPECT_NE(three[0].find("shut"), std::string::npos) << three[0];
}

TEST(ShutRows, ARowWithoutACupIsNamedOnThePage) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  CatchReadings r{.time = 30.0 * s, .gauge = 39.0 * psi};
  for (int row = 1; row <= 16; ++row) {
    if (row != 8) r.readings.push_back({.row = row, .repeat = 1, .volume = 8.05 * si(floz)});
  }
  const CatchVerdict v = judge_catch(layout, r);
  const auto rows = cells_of(catch_findings_part({v}, nullptr, layout).sections.at(0).html, "8");
  ASSERT_EQ(rows.size(), 1U);
  const std::string expected = report_detail::cup_number(v.rows.at(7).expected, UnitSystem::us);
  EXPECT_EQ(rows[0], (std::vector<std::string>{"0", "", expected, "", "", "no cup"}));
}

}  // namespace shut_rows_test
}  // namespace libflow
