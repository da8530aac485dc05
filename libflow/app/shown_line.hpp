// SPDX-License-Identifier: MIT
/// @file
/// The line of a file that an error points at, with a caret below the column.
#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/units/quote.hpp>

namespace libflow::app {

namespace shown_line_detail {

struct FilePlace {
  std::string file;
  std::size_t line = 0, column = 0;  // both from 1
};

/// The number that begins at `at`, which moves behind it; 0 where there is none.
inline std::size_t number_at(std::string_view text, std::size_t& at) {
  std::size_t value = 0, digits = 0;
  for (; at < text.size() && text[at] >= '0' && text[at] <= '9' && digits < 9; ++at, ++digits) {
    value = 10 * value + static_cast<std::size_t>(text[at] - '0');
  }
  return value;
}

/// The first "file:line:column" in `where` whose file is there. Names may hold colons, and a wider place may stand in
/// front: every beginning after ": " is tried.
inline std::optional<FilePlace> file_place_in(const std::string& where) {
  for (std::size_t colon = where.find(':'); colon != std::string::npos; colon = where.find(':', colon + 1)) {
    std::size_t at = colon + 1;
    FilePlace place;
    place.line = number_at(where, at);
    if (place.line == 0 || at >= where.size() || where[at] != ':') continue;
    place.column = number_at(where, ++at);
    if (place.column == 0) continue;
    for (std::size_t begin = 0; begin < colon;) {
      place.file = where.substr(begin, colon - begin);
      std::error_code error;
      if (std::filesystem::is_regular_file(place.file, error)) return place;
      const std::size_t next = where.find(": ", begin);
      if (next == std::string::npos) break;
      begin = next + 2;
    }
  }
  return std::nullopt;
}

/// A line as pieces of one character each; what a terminal must not get is escaped.
inline std::vector<std::string> safe_characters(std::string_view line) {
  std::vector<std::string> pieces;
  while (!line.empty()) {
    unsigned code = 0;
    const std::size_t n = std::max<std::size_t>(1, units_detail::utf8_length(line, code));
    const std::string quoted = in_quotes(line.substr(0, n));
    pieces.push_back(line[0] == '\t' ? " " : quoted.substr(1, quoted.size() - 2));
    line.remove_prefix(n);
  }
  return pieces;
}

}  // namespace shown_line_detail

/// The text below an error's message: the line that it points at, cut around the column where it is long, and a
/// caret. Empty where `where` names no readable file with line and column.
[[nodiscard]] inline std::string shown_line(const std::string& where) {
  using namespace shown_line_detail;
  constexpr std::size_t most = 80;  // characters shown
  const std::optional<FilePlace> place = file_place_in(where);
  if (!place) return {};
  std::string text;
  try {
    text = read_text_file(place->file);
  } catch (const InputError&) {
    return {};  // the message itself says enough
  }
  std::string_view rest = text;
  for (std::size_t line = 1; line < place->line; ++line) {
    const std::size_t end = rest.find('\n');
    if (end == std::string_view::npos) return {};
    rest.remove_prefix(end + 1);
  }
  std::string_view line = rest.substr(0, rest.find('\n'));
  if (line.ends_with('\r')) line.remove_suffix(1);
  const std::vector<std::string> pieces = safe_characters(line);
  const std::size_t at = std::min(place->column - 1, pieces.size());
  const std::size_t begin = pieces.size() <= most || at < most / 2 ? 0 : std::min(at - most / 2, pieces.size() - most);
  const std::size_t end = std::min(pieces.size(), begin + most);
  std::string shown = begin > 0 ? "..." : "";
  std::size_t caret = shown.size();
  for (std::size_t i = begin; i < end; ++i) {
    shown += pieces[i];
    if (i < at) caret += pieces[i].front() == '\\' ? pieces[i].size() : 1;
  }
  if (end < pieces.size()) shown += "...";
  return fmt::format("\n{:>6} | {}\n       | {:>{}}", place->line, shown, "^", caret + 1);
}

/// An error as it is printed: its message and the line that it points at.
[[nodiscard]] inline std::string with_line(const InputError& error) { return error.what() + shown_line(error.where()); }

}  // namespace libflow::app
