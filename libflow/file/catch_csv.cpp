// SPDX-License-Identifier: MIT
#include <libflow/file/catch_csv.hpp>

#include <algorithm>
#include <cctype>
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

static std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

/// The cells of one line; quoted cells may hold commas.
static std::vector<std::string> cells_of(const std::string& line, const std::string& where) {
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

/// The column of the text [characters, from 1] at which each cell begins; separators as in cells_of.
static std::vector<std::size_t> columns_of_cells(std::string_view line) {
  std::vector<std::size_t> columns;
  std::size_t column = 0;
  bool quoted = false, begun = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++column;
    if (c == ',' && !quoted) {
      if (!begun) columns.push_back(column);
      begun = false;
      continue;
    }
    if (!begun && c != ' ' && c != '\t' && c != '\r') {
      columns.push_back(column);
      begun = true;
    }
    if (c == '"') quoted = !quoted;
    if (c == '\\' && i + 1 < line.size()) ++i, ++column;
  }
  if (!begun) columns.push_back(column + 1);
  return columns;
}

/// Where the columns are.
struct Columns {
  std::size_t row = 0, volume = 0;
  std::optional<std::size_t> repeat;
  std::string unit;  ///< of the volumes, from the heading; empty: with each value
  std::size_t count = 0;
};

template <class Place>
static Columns columns_of(const std::vector<std::string>& heading, const Place& place_of) {
  constexpr const char* wanted = "row, volume (or volume [ml]) and, if there are repeats, repeat";
  for (const char* const separator : {";", "\t"}) {
    if (heading.size() == 1 && heading.front().find(separator) != std::string::npos) {
      throw InputError(place_of(0), fmt::format("the cells are separated by {}", *separator == ';' ? "';'" : "tabs"),
                       "commas between the cells, and a point in numbers");
    }
  }
  Columns c;
  c.count = heading.size();
  std::optional<std::size_t> row, volume;
  for (std::size_t i = 0; i < heading.size(); ++i) {
    const std::string where = place_of(i);
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
  if (!row || !volume) throw InputError(place_of(0), "the heading lacks a column", wanted);
  c.row = *row;
  c.volume = *volume;
  return c;
}

static int whole_number(const std::string& text, const std::string& where, int least, int most) {
  int value = 0;
  if (text.empty()) {
    throw InputError(where, "the cell is empty", fmt::format("a whole number, {} to {}", least, most));
  }
  const bool digits =
      text.size() <= 6 && std::all_of(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  if (digits) value = std::stoi(text);
  if (!digits || value < least || value > most) {
    throw InputError(where, in_quotes(text) + " is no such number",
                     fmt::format("a whole number, {} to {}", least, most));
  }
  return value;
}

}  // namespace catch_detail

std::vector<CatchReading> parse_catch(std::string_view text, std::string_view file) {
  using namespace catch_detail;
  check_text(text, file, TextKind::cups);
  std::vector<CatchReading> out;
  std::optional<Columns> columns;
  std::map<int, int> last_repeat;
  std::set<std::pair<int, int>> seen;
  std::size_t number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view whole = text.substr(0, end);
    const std::string line = trimmed(whole);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::size_t> begins = columns_of_cells(whole);
    const auto place_of = [&](std::size_t cell) { return file_place(file, number, begins.at(cell)); };
    const std::string where = place_of(0);
    const std::vector<std::string> cells = cells_of(line, where);
    if (!columns) {
      columns = columns_of(cells, place_of);
      continue;
    }
    if (cells.size() != columns->count) {
      throw InputError(where, fmt::format("{} cells under {} headings", cells.size(), columns->count),
                       "one cell for each heading");
    }
    CatchReading reading;
    reading.where = place_of(columns->row);
    reading.row = whole_number(cells[columns->row], reading.where + ", row", 1, layout_limits::rows);
    reading.repeat = columns->repeat
                         ? whole_number(cells[*columns->repeat], place_of(*columns->repeat) + ", repeat", 1, 1000)
                         : ++last_repeat[reading.row];
    const std::string volume = cells[columns->volume] + (columns->unit.empty() ? "" : " " + columns->unit);
    const std::string volume_place = fmt::format("{}, volume of row {}", place_of(columns->volume), reading.row);
    if (cells[columns->volume].empty()) {
      throw InputError(volume_place, "the cell is empty",
                       fmt::format("what was caught, e.g. {}; or no line for a cup that was not caught",
                                   columns->unit.empty() ? "8.1 fl oz or 240 ml" : "8.1, in " + columns->unit));
    }
    reading.volume = si(parse_quantity<Volume>(volume, volume_place));
    if (!catch_volume.contains(reading.volume)) {
      throw InputError(volume_place, in_quotes(volume) + " is no volume of a cup", "0 to 1000 L (264 gal)");
    }
    if (!seen.insert({reading.row, reading.repeat}).second) {
      throw InputError(reading.where, fmt::format("row {} has a repeat {} already", reading.row, reading.repeat),
                       "each repeat of a row once");
    }
    out.push_back(std::move(reading));
  }
  if (!columns)
    throw InputError(std::string(file), "is empty", "a heading 'row, volume, repeat' and a line for each cup");
  if (out.empty()) throw InputError(std::string(file), "has a heading and no reading", "a line for each cup");
  return out;
}

std::vector<CatchReading> read_catch(const std::filesystem::path& path) {
  return parse_catch(read_text_file(path, TextKind::cups), path.string());
}

}  // namespace libflow
