// SPDX-License-Identifier: MIT
/// @file
/// From which file and of which day a page is: for the commands that write pages.
#pragma once

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/chrono.h>

#include <libflow/core/error.hpp>
#include <libflow/report/page.hpp>

namespace libflow::app {

/// @param date  as it is given; empty: today
inline CLI::Option* add_date_option(CLI::App& command, std::string& date) {
  return command.add_option("--date", date, "of the page, as 2026-11-26; default: today")->type_name("DATE");
}

namespace page_detail {

/// "2026-11-26" (ISO 8601) and a day that there is.
inline void check_date(const std::string& date) {
  const auto refuse = [&] {
    throw InputError("--date", "'" + date + "' is no date", "year, month and day as 2026-11-26");
  };
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') refuse();
  const auto number = [&](std::size_t at, std::size_t digits) {
    int value = 0;
    const char* const begin = date.data() + at;
    const auto [end, error] = std::from_chars(begin, begin + digits, value);
    if (error != std::errc() || end != begin + digits || value < 0) refuse();
    return value;
  };
  const std::chrono::year_month_day day{std::chrono::year{number(0, 4)},
                                        std::chrono::month{static_cast<unsigned>(number(5, 2))},
                                        std::chrono::day{static_cast<unsigned>(number(8, 2))}};
  if (!day.ok()) refuse();
}

/// Today where the program runs. SOURCE_DATE_EPOCH (reproducible-builds.org), seconds since 1970, takes its place, so
/// that a page can be made again to the last byte.
inline std::string today() {
  if (const char* const fixed = std::getenv("SOURCE_DATE_EPOCH"); fixed != nullptr && *fixed != '\0') {
    const std::string_view text = fixed;
    long long seconds = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    constexpr long long last = 253402300799;  // of the year 9999
    if (error != std::errc() || end != text.data() + text.size() || seconds < 0 || seconds > last) {
      throw InputError("SOURCE_DATE_EPOCH", "'" + std::string(text) + "' is no time", "whole seconds since 1970");
    }
    return fmt::format("{:%Y-%m-%d}", fmt::gmtime(static_cast<std::time_t>(seconds)));
  }
  return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
}

}  // namespace page_detail

/// Where a page is from. @throws InputError for a date that there is not
inline PageOrigin page_origin(const std::vector<std::string>& files, const std::string& date) {
  PageOrigin origin;
  for (const std::string& file : files) {
    origin.file += (origin.file.empty() ? "" : ", ") + std::filesystem::path(file).filename().string();
  }
  if (!date.empty()) page_detail::check_date(date);
  origin.date = date.empty() ? page_detail::today() : date;
  return origin;
}

}  // namespace libflow::app
