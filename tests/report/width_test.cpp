// SPDX-License-Identifier: MIT
/// @file
/// Every text of every example fits 100 columns and 80, in both systems of units, and holds no number that is none.
#include <gtest/gtest.h>

#include <filesystem>
#include <sstream>
#include <string>
#include <variant>

#include <libflow/file/layout_file.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/report/lines_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/lines.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {
namespace width_test {

/// @param make  the text by its options
template <class Make>
void expect_it_fits(const std::string& what, const Make& make) {
  for (const UnitSystem units : {UnitSystem::us, UnitSystem::metric}) {
    const std::string text = make(TextOptions{.units = units, .width = 100});
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
      EXPECT_LE(report_detail::columns(line), 100U) << what << ": " << line;
      EXPECT_EQ(line.find("-0.00 "), std::string::npos) << what << ": " << line;
      EXPECT_EQ(line.find("nan"), std::string::npos) << what << ": " << line;
    }
  }
}

TEST(Width, EveryTextOfEveryExampleFits) {
  std::size_t seen = 0;
  for (const auto& entry : std::filesystem::directory_iterator(LIBFLOW_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    const std::string name = entry.path().filename().string();
    const Layout layout = read_layout(entry.path().string());
    ++seen;
    const Answer answer = main_job(layout);
    expect_it_fits(name + " solve", [&](const TextOptions& o) { return main_job_text(answer, o); });
    for (const int row : {1, static_cast<int>(answer.plumbing.rows.size())}) {
      if (answer.plumbing.rows[static_cast<std::size_t>(row - 1)].shut) continue;
      expect_it_fits(name + " explain", [&](const TextOptions& o) { return explain_text(answer, row, o); });
    }
    const OperatingPoint point = operating_point(layout);
    expect_it_fits(name + " point", [&](const TextOptions& o) { return operating_point_text(point, o); });
    const WhatIf faults = what_if(layout);
    expect_it_fits(name + " whatif", [&](const TextOptions& o) { return what_if_text(faults, o); });
    const OrderList order = order_list(layout);
    expect_it_fits(name + " order", [&](const TextOptions& o) { return order_list_text(order, o); });
    if (!std::holds_alternative<Toolbar>(layout.plumbing)) continue;
    const SettingCard card = setting_card(layout);
    expect_it_fits(name + " card", [&](const TextOptions& o) { return setting_card_text(card, o); });
  }
  EXPECT_GE(seen, 8U);
}

}  // namespace width_test
}  // namespace libflow
