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
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
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
    if (!begun && c != ' ' && c != '\t') {
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

static bool is_volume_unit(const std::string& unit) {
  try {
    static_cast<void>(parse_quantity<Volume>("1 " + unit, ""));
    return true;
  } catch (const InputError&) {
    return false;
  }
}

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
    if (place == &volume) {
      c.unit = unit;
      if (!unit.empty() && !is_volume_unit(unit)) {
        throw InputError(where, in_quotes(unit) + " is no unit of a volume",
                         "fl oz, ml, l, gal ..., as in volume [ml]; or no brackets, and a unit with each volume");
      }
    }
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

/// `text` with the first `from` in it replaced.
static std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// Has a cell its own unit?
static bool has_unit(const std::string& cell) {
  try {
    static_cast<void>(parse_quantity<Volume>(cell, ""));
    return true;
  } catch (const InputError&) {
    return false;
  }
}

/// What a cup holds [m3]. Messages quote the cell as it was written and give a cup for an example.
/// @param unit  from the heading; empty: with each value
static double cup_volume(const std::string& cell, const std::string& unit, const std::string& where) {
  if (cell.empty()) {
    throw InputError(where, "the cell is empty",
                     fmt::format("what was caught, e.g. {}; or no line for a cup that was not caught",
                                 unit.empty() ? "8.1 fl oz or 240 ml" : "8.1, in " + unit));
  }
  if (!unit.empty() && has_unit(cell)) {
    throw InputError(where, fmt::format("{} has a unit, and so has the heading, {}", in_quotes(cell), in_quotes(unit)),
                     "a number alone, or no unit in the heading");
  }
  const std::string whole = cell + (unit.empty() ? "" : " " + unit);
  double volume = 0.0;
  try {
    volume = si(parse_quantity<Volume>(whole, where));
  } catch (const InputError& error) {
    const std::string what = replaced(error.what_is_wrong(), in_quotes(whole), in_quotes(cell));
    if (!unit.empty()) {
      throw InputError(where, what, fmt::format("a number alone, in {}, e.g. 8.1", unit),
                       replaced(error.nearest(), " " + unit, ""));
    }
    throw InputError(where, what, replaced(error.allowed(), "'300 gal'", "'8.1 fl oz' or '240 ml'"), error.nearest());
  }
  if (!catch_volume.contains(volume)) {
    throw InputError(where, in_quotes(cell) + " is no volume of a cup",
                     "0 to 1000 L (264 gal)" + (unit.empty() ? "" : ", in " + unit));
  }
  return volume;
}

/// What is wrong in a table, so that all of it can be put right in one go.
class Mistakes {
 public:
  static constexpr std::size_t most = 10;

  /// Does `work`; true if it could. What is wrong is kept.
  template <class Work>
  bool none_in(const Work& work) {
    try {
      work();
      return true;
    } catch (const InputError& error) {
      found_.push_back(error);
      return false;
    }
  }
  [[nodiscard]] bool enough() const { return found_.size() >= most; }
  /// @param file  of all of them
  void refuse(std::string_view file) const {
    if (found_.empty()) return;
    if (found_.size() == 1) throw InputError(found_.front());
    std::string what =
        enough() ? fmt::format("the first {} mistakes:", most) : fmt::format("{} mistakes:", found_.size());
    for (const InputError& error : found_) what += fmt::format("\n  {}", error.what());
    throw InputError(std::string(file), std::move(what));
  }

 private:
  std::vector<InputError> found_;
};

/// Where the readings of one table go, and what goes wrong with them.
struct CupTable {
  Columns columns;
  std::map<int, int> last_repeat;
  std::set<std::pair<int, int>> seen;
  std::vector<CatchReading> readings;

  template <class Place>
  void take(const std::vector<std::string>& cells, const Place& place_of, Mistakes& mistakes) {
    CatchReading reading;
    reading.where = place_of(columns.row);
    bool good = mistakes.none_in(
        [&] { reading.row = whole_number(cells[columns.row], reading.where + ", row", 1, layout_limits::rows); });
    if (columns.repeat) {
      good = mistakes.none_in([&] {
        reading.repeat = whole_number(cells[*columns.repeat], place_of(*columns.repeat) + ", repeat", 1, 1000);
      }) && good;
    } else if (good) {
      reading.repeat = ++last_repeat[reading.row];
    }
    const std::string& cell = cells[columns.volume];
    reading.written = cell + (columns.unit.empty() ? "" : " " + columns.unit);
    const std::string where = good ? fmt::format("{}, volume of row {}", place_of(columns.volume), reading.row)
                                   : place_of(columns.volume) + ", volume";
    good = mistakes.none_in([&] { reading.volume = cup_volume(cell, columns.unit, where); }) && good;
    if (!good) return;
    if (mistakes.none_in([&] {
          if (seen.insert({reading.row, reading.repeat}).second) return;
          throw InputError(reading.where, fmt::format("row {} has a repeat {} already", reading.row, reading.repeat),
                           "each repeat of a row once");
        })) {
      readings.push_back(std::move(reading));
    }
  }
};

}  // namespace catch_detail

std::vector<CatchReading> parse_catch(std::string_view text, std::string_view file) {
  using namespace catch_detail;
  // The mark of UTF-8 that spreadsheets write at a file's beginning.
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  check_text(text, file, TextKind::cups);
  std::optional<CupTable> table;
  Mistakes mistakes;
  std::size_t number = 0;
  while (!text.empty() && !mistakes.enough()) {
    const std::size_t end = text.find('\n');
    std::string_view whole = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (whole.ends_with('\r')) whole.remove_suffix(1);
    const std::string line = trimmed(whole);
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::size_t> begins = columns_of_cells(whole);
    const auto place_of = [&](std::size_t cell) { return file_place(file, number, begins.at(cell)); };
    const std::string where = place_of(0);
    if (!table) {  // without the heading nothing else can be judged
      table.emplace().columns = columns_of(cells_of(line, where), place_of);
      continue;
    }
    std::vector<std::string> cells;
    const bool split = mistakes.none_in([&] {
      cells = cells_of(line, where);
      if (cells.size() == table->columns.count) return;
      throw InputError(where, fmt::format("{} cells under {} headings", cells.size(), table->columns.count),
                       "one cell for each heading");
    });
    if (split) table->take(cells, place_of, mistakes);
  }
  mistakes.refuse(file);
  if (!table)
    throw InputError(std::string(file), "is empty", "a heading 'row, volume, repeat' and a line for each cup");
  if (table->readings.empty())
    throw InputError(std::string(file), "has a heading and no reading", "a line for each cup");
  return std::move(table->readings);
}

std::vector<CatchReading> read_catch(const std::filesystem::path& path) {
  return parse_catch(read_text_file(path, TextKind::cups), path.string());
}

}  // namespace libflow
