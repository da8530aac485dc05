// SPDX-License-Identifier: MIT
/// @file
/// Catch-test readings from a table of comma-separated values.
///
///     row, volume, repeat
///     1, 250 ml, 1
///     1, 245 ml, 2
///     2, 8.4 fl oz, 1
///
/// The unit may stand once in the heading: `volume [ml]`. The column `repeat` may be missing: readings of a row then
/// count in the order in which they stand. Empty lines and lines that begin with # are skipped. Rows may be missing.
#pragma once

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <boost/token_functions.hpp>
#include <boost/tokenizer.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/study/catch_readings.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

namespace catch_detail {

inline std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

/// The cells of one line; quoted cells may hold commas.
inline std::vector<std::string> cells_of(const std::string& line, const std::string& where) {
  using Separator = boost::escaped_list_separator<char>;
  std::vector<std::string> cells;
  try {
    const boost::tokenizer<Separator> tokens(line, Separator('\\', ',', '"'));
    for (const std::string& cell : tokens) cells.push_back(trimmed(cell));
  } catch (const boost::escaped_list_error&) {
    throw InputError(where, "a backslash that begins nothing: " + in_quotes(line), "plain text, commas, quotes");
  }
  return cells;
}

/// Where the columns are.
struct Columns {
  std::size_t row = 0, volume = 0;
  std::optional<std::size_t> repeat;
  std::string unit;  ///< of the volumes, from the heading; empty: with each value
  std::size_t count = 0;
};

inline Columns columns_of(const std::vector<std::string>& heading, const std::string& where) {
  constexpr const char* wanted = "row, volume (or volume [ml]) and, if there are repeats, repeat";
  Columns c;
  c.count = heading.size();
  std::optional<std::size_t> row, volume;
  for (std::size_t i = 0; i < heading.size(); ++i) {
    std::string name = heading[i];
    std::string unit;
    const std::size_t bracket = name.find('[');
    if (bracket != std::string::npos && name.back() == ']') {
      unit = trimmed(std::string_view(name).substr(bracket + 1, name.size() - bracket - 2));
      name = trimmed(std::string_view(name).substr(0, bracket));
    }
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char l) { return std::tolower(l); });
    std::optional<std::size_t>* place = name == "row"      ? &row
                                        : name == "volume" ? &volume
                                        : name == "repeat" ? &c.repeat
                                                           : nullptr;
    const std::vector<std::string> names{"row", "volume", "repeat"};
    if (place == nullptr) {
      throw InputError(where, "there is no column " + in_quotes(heading[i]), wanted, nearest_name(name, names));
    }
    if (*place) throw InputError(where, "the column " + in_quotes(name) + " stands twice", "each column once");
    if (!unit.empty() && place != &volume) {
      throw InputError(where, "the column " + in_quotes(name) + " has no unit", "a unit with the volume only");
    }
    if (place == &volume) c.unit = unit;
    *place = i;
  }
  if (!row || !volume) throw InputError(where, "the heading lacks a column", wanted);
  c.row = *row;
  c.volume = *volume;
  return c;
}

inline int whole_number(const std::string& text, const std::string& where, int least, int most) {
  int value = 0;
  const bool digits = !text.empty() && text.size() <= 6 &&
                      std::all_of(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  if (digits) value = std::stoi(text);
  if (!digits || value < least || value > most) {
    throw InputError(where, in_quotes(text) + " is no such number",
                     fmt::format("a whole number, {} to {}", least, most));
  }
  return value;
}

}  // namespace catch_detail

/// Most that a cup holds [m3]: a cubic metre keeps out slips of the unit.
inline constexpr Range catch_volume{0.0, 1.0};

/// Readings from text. @param file  its name, for messages
/// @throws InputError naming file, line, column, what is wrong and what is allowed
[[nodiscard]] inline std::vector<CatchReading> parse_catch(std::string_view text, std::string_view file) {
  using namespace catch_detail;
  check_text(text, file);
  std::vector<CatchReading> out;
  std::optional<Columns> columns;
  std::map<int, int> last_repeat;
  std::set<std::pair<int, int>> seen;
  std::size_t number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string line = trimmed(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const std::string where = fmt::format("{}:{}", file, number);
    const std::vector<std::string> cells = cells_of(line, where);
    if (!columns) {
      columns = columns_of(cells, where);
      continue;
    }
    if (cells.size() != columns->count) {
      throw InputError(where, fmt::format("{} cells under {} headings", cells.size(), columns->count),
                       "one cell for each heading");
    }
    CatchReading reading;
    reading.where = where;
    reading.row = whole_number(cells[columns->row], where + ", row", 1, layout_limits::rows);
    reading.repeat = columns->repeat ? whole_number(cells[*columns->repeat], where + ", repeat", 1, 1000)
                                     : ++last_repeat[reading.row];
    const std::string volume = cells[columns->volume] + (columns->unit.empty() ? "" : " " + columns->unit);
    reading.volume = si(parse_quantity<Volume>(volume, where + ", volume"));
    require_in(where + ", volume", reading.volume, catch_volume, "m3");
    if (!seen.insert({reading.row, reading.repeat}).second) {
      throw InputError(where, fmt::format("row {} has a repeat {} already", reading.row, reading.repeat),
                       "each repeat of a row once");
    }
    out.push_back(std::move(reading));
  }
  if (!columns)
    throw InputError(std::string(file), "is empty", "a heading 'row, volume, repeat' and a line for each cup");
  if (out.empty()) throw InputError(std::string(file), "has a heading and no reading", "a line for each cup");
  return out;
}

/// @throws InputError as parse_catch; missing, a folder, unreadable, too large
[[nodiscard]] inline std::vector<CatchReading> read_catch(const std::filesystem::path& path) {
  return parse_catch(read_text_file(path), path.string());
}

}  // namespace libflow
