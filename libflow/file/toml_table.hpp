// SPDX-License-Identifier: MIT
/// @file
/// A TOML table read with typed questions; every wrong answer becomes an InputError with file, line, column and key.
///
/// The only header that includes toml++ (about two seconds of compile time for each file that includes it): only the
/// sources of this room include it.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// toml++ 3.3 asserts what it goes on to check and report (a header "[[[", a value that begins with "]"): in debug
// builds a typing error would abort, and clang's release builds would take it for impossible. With empty assertions
// every build reports it.
#pragma push_macro("NDEBUG")
#undef NDEBUG
#define TOML_ASSERT(expr) static_cast<void>(0)
#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 1
#include <toml++/toml.h>
#pragma pop_macro("NDEBUG")

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/core/range.hpp>
#include <libflow/file/layout_keys.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/text.hpp>

namespace libflow::file_detail {

/// A length that is read in inches or millimetres where a message speaks of it.
enum class Reads { plain, bore };

/// The allowed range of a quantity in the units of the layout, for messages.
template <class Q>
[[nodiscard]] std::string range_text(Range range, UnitSystem units, Reads reads = Reads::plain) {
  const auto number = [&](double value) {
    if constexpr (std::is_same_v<Q, Length>) {
      if (reads == Reads::bore) return bore_value_in(from_si<Q>(value), units);
    }
    return value_in(from_si<Q>(value), units);
  };
  const std::string unit(reads == Reads::bore ? bore_unit_name(units) : unit_name<Q>(units));
  // Limits that only keep zero out are said so.
  const bool tiny = range.low > 0.0 && number(range.low) >= 0.0 && number(range.low) < 1e-3;
  const std::string low = tiny ? "more than 0" : fmt::format("{:.4g}", number(range.low));
  if (std::isinf(range.high)) return fmt::format("{}{} {}", tiny ? "" : "at least ", low, unit);
  return fmt::format("{}{}{:.6g} {}", low, tiny ? ", at most " : " to ", number(range.high), unit);
}

/// Words to choose from, each with what it stands for.
template <class T>
using Choices = std::vector<std::pair<std::string_view, T>>;

/// One table of the file.
class TomlTable {
 public:
  /// @param label  as a person writes it, e.g. "[hose]" or "[[row]] #2"; empty for the top
  /// @throws InputError  a key that is not among `keys`
  TomlTable(const toml::table& table, std::string_view file, std::string label, std::span<const LayoutKey> keys,
            UnitSystem units = UnitSystem::us)
      : table_(&table), file_(file), label_(std::move(label)), keys_(keys), units_(units) {
    for (const auto& [key, node] : table) require_known(key);
  }

  [[nodiscard]] UnitSystem units() const { return units_; }
  void set_units(UnitSystem units) { units_ = units; }
  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }

  /// "file:line:column: [hose] bore"; of the table itself where the key is absent.
  [[nodiscard]] std::string where(std::string_view key = {}) const {
    const toml::node* node = key.empty() ? nullptr : find(key);
    std::string place = at(node != nullptr ? *node : static_cast<const toml::node&>(*table_));
    const std::string name = path(key);
    return name.empty() ? place : place + ": " + name;
  }
  [[noreturn]] void fail(std::string_view key, std::string what, std::string allowed = {}) const {
    throw InputError(where(key), std::move(what), std::move(allowed));
  }
  /// @throws InputError  the key is absent
  void need(std::string_view key) const {
    if (!has(key)) fail_missing(key);
  }

  [[nodiscard]] std::string text(std::string_view key) const {
    const toml::node& node = needed(key);
    const auto value = node.value_exact<std::string>();
    if (!value) fail(key, shown(node) + " is not text", "text in quotes");
    if (value->empty() || value->size() > 200) fail(key, "text is empty or too long", "1 to 200 bytes");
    // Names are printed in tables and messages: nothing in them may break a line or hide.
    const std::string plain = in_quotes(*value, 200);
    if (plain.substr(1, plain.size() - 2) != *value) {
      fail(key, plain + " holds characters that cannot be shown", "plain text");
    }
    return *value;
  }
  [[nodiscard]] std::optional<std::string> optional_text(std::string_view key) const {
    return has(key) ? std::optional(text(key)) : std::nullopt;
  }

  template <class Q>
  [[nodiscard]] Q quantity(std::string_view key, Range range, Reads reads = Reads::plain) const {
    return read_quantity<Q>(needed(key), where(key), range, reads);
  }
  template <class Q>
  [[nodiscard]] std::optional<Q> optional_quantity(std::string_view key, Range range,
                                                   Reads reads = Reads::plain) const {
    return has(key) ? std::optional(quantity<Q>(key, range, reads)) : std::nullopt;
  }
  [[nodiscard]] Length bore(std::string_view key, Range range) const {
    return quantity<Length>(key, range, Reads::bore);
  }

  /// Per cent, as a plain number.
  [[nodiscard]] double fraction(std::string_view key, Range range) const {
    const double value = parse_fraction(quantity_text(needed(key), where(key), Kind::fraction), where(key));
    if (!range.contains(value)) {
      fail(key, shown(needed(key)) + " is out of range",
           fmt::format("{:g} to {:g} %", 100.0 * range.low, 100.0 * range.high));
    }
    return value;
  }
  [[nodiscard]] int count(std::string_view key, int low, int high) const {
    const toml::node& node = needed(key);
    const std::string allowed =
        low == high ? fmt::format("{}", low) : fmt::format("a whole number, {} to {}", low, high);
    const auto value = node.value_exact<std::int64_t>();
    if (!value) fail(key, shown(node) + " is not a whole number", allowed);
    if (*value < low || *value > high) fail(key, fmt::format("{} is out of range", *value), allowed);
    return static_cast<int>(*value);
  }
  /// A number without a unit.
  [[nodiscard]] double number(std::string_view key, Range range) const {
    const toml::node& node = needed(key);
    const std::string allowed = fmt::format("a number, {:g} to {:g}", range.low, range.high);
    if (!node.is_number()) fail(key, shown(node) + " is not a number", allowed);
    const double value = *node.value<double>();
    if (!range.contains(value)) fail(key, shown(node) + " is out of range", allowed);
    return value;
  }
  [[nodiscard]] bool flag(std::string_view key, bool otherwise) const {
    if (!has(key)) return otherwise;
    const auto value = needed(key).value_exact<bool>();
    if (!value) fail(key, shown(needed(key)) + " is neither true nor false", "true or false");
    return *value;
  }
  template <class T>
  [[nodiscard]] T choice(std::string_view key, const Choices<T>& choices) const {
    return read_choice(needed(key), where(key), choices);
  }
  /// A list of words to choose from.
  template <class T>
  [[nodiscard]] std::vector<T> chosen(std::string_view key, const Choices<T>& choices) const {
    std::vector<T> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      values.push_back(read_choice(item, fmt::format("{}: {} #{}", at(item), path(key), ++i), choices));
    }
    return values;
  }

  template <class Q>
  [[nodiscard]] std::vector<Q> quantities(std::string_view key, Range range) const {
    std::vector<Q> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      const std::string place = fmt::format("{}: {} #{}", at(item), path(key), ++i);
      values.push_back(read_quantity<Q>(item, place, range, Reads::plain));
    }
    return values;
  }
  /// A list of per cents, as plain numbers.
  [[nodiscard]] std::vector<double> fractions(std::string_view key, Range range) const {
    std::vector<double> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      const std::string place = fmt::format("{}: {} #{}", at(item), path(key), ++i);
      values.push_back(parse_fraction(quantity_text(item, place, Kind::fraction), place));
      if (!range.contains(values.back())) {
        throw InputError(place, shown(item) + " is out of range",
                         fmt::format("{:g} to {:g} %", 100.0 * range.low, 100.0 * range.high));
      }
    }
    return values;
  }
  /// A list of text, each in quotes.
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const {
    std::vector<std::string> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      const auto value = item.value_exact<std::string>();
      if (!value) {
        throw InputError(fmt::format("{}: {} #{}", at(item), path(key), i + 1), shown(item) + " is not text",
                         "text in quotes");
      }
      values.push_back(*value);
      ++i;
    }
    return values;
  }
  /// A list of numbers without a unit.
  [[nodiscard]] std::vector<double> numbers(std::string_view key, Range range) const {
    std::vector<double> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      const std::string place = fmt::format("{}: {} #{}", at(item), path(key), ++i);
      const std::string allowed = fmt::format("a number, {:g} to {:g}", range.low, range.high);
      if (!item.is_number()) throw InputError(place, shown(item) + " is not a number", allowed);
      values.push_back(*item.value<double>());
      if (!range.contains(values.back())) throw InputError(place, shown(item) + " is out of range", allowed);
    }
    return values;
  }
  /// A list of pairs such as [["50 F", "80 cP"], ["75 F", "50 cP"]].
  template <class A, class B>
  [[nodiscard]] std::vector<std::pair<A, B>> pairs(std::string_view key, Range first, Range second) const {
    std::vector<std::pair<A, B>> values;
    std::size_t i = 0;
    for (const toml::node& item : list(key)) {
      const std::string place = fmt::format("{}: {} #{}", at(item), path(key), ++i);
      const toml::array* pair = item.as_array();
      if (pair == nullptr || pair->size() != 2) {
        throw InputError(place, shown(item) + " is not a pair",
                         fmt::format("[\"{}\", \"{}\"]", kind_row(kind_of<A>).example, kind_row(kind_of<B>).example));
      }
      values.emplace_back(read_quantity<A>(*pair->get(0), place, first, Reads::plain),
                          read_quantity<B>(*pair->get(1), place, second, Reads::plain));
    }
    return values;
  }
  [[nodiscard]] bool is_list(std::string_view key) const { return has(key) && needed(key).is_array(); }

  /// A table inside this one.
  [[nodiscard]] TomlTable table(std::string_view key, std::span<const LayoutKey> keys) const {
    const toml::table* inner = needed(key).as_table();
    const std::string header = label_.empty() ? fmt::format("[{}]", key) : fmt::format("{} {}", label_, key);
    if (inner == nullptr) fail(key, shown(needed(key)) + " is not a table", "a table " + header);
    return {*inner, file_, header, keys, units_};
  }
  /// Every entry of [[key]]; none where it is absent.
  [[nodiscard]] std::vector<TomlTable> tables(std::string_view key, std::span<const LayoutKey> keys) const {
    std::vector<TomlTable> all;
    if (!has(key)) return all;
    const std::string allowed = fmt::format("entries [[{}]]", key);
    const toml::array* array = needed(key).as_array();
    if (array == nullptr) fail(key, shown(needed(key)) + " is not a list of tables", allowed);
    for (const toml::node& item : *array) {
      const toml::table* inner = item.as_table();
      if (inner == nullptr) throw InputError(at(item) + ": " + path(key), shown(item) + " is not a table", allowed);
      all.emplace_back(*inner, file_, fmt::format("[[{}]] #{}", key, all.size() + 1), keys, units_);
    }
    return all;
  }

 private:
  [[nodiscard]] const toml::node* find(std::string_view key) const { return table_->get(key); }
  [[nodiscard]] std::string path(std::string_view key) const {
    if (key.empty()) return label_;
    return label_.empty() ? std::string(key) : fmt::format("{} {}", label_, key);
  }
  [[nodiscard]] std::string at(const toml::source_region& source) const {
    if (!source.begin) return file_;
    return file_place(file_, source.begin.line, source.begin.column);
  }
  [[nodiscard]] std::string at(const toml::node& node) const { return at(node.source()); }

  void require_known(const toml::key& key) const {
    std::vector<std::string_view> names;
    std::string allowed;
    for (const LayoutKey& known : keys_) {
      if (known.name == key.str()) return;
      names.push_back(known.name);
      allowed += (allowed.empty() ? "" : ", ") + std::string(known.name);
    }
    const std::string table = label_.empty() ? "a layout" : label_;
    throw InputError(at(key.source()) + (label_.empty() ? "" : ": " + label_),
                     fmt::format("{} is no name that {} knows", in_quotes(key.str()), table), allowed,
                     nearest_name(key.str(), names));
  }
  [[noreturn]] void fail_missing(std::string_view key) const {
    for (const LayoutKey& known : keys_) {
      if (known.name == key) {
        throw InputError(where(), fmt::format("'{}' is missing", key),
                         fmt::format("{} ({}; {})", key, known.takes, known.meaning));
      }
    }
    throw InputError(where(), fmt::format("'{}' is missing", key));
  }
  [[nodiscard]] const toml::node& needed(std::string_view key) const {
    const toml::node* node = find(key);
    if (node == nullptr) fail_missing(key);
    return *node;
  }
  [[nodiscard]] const toml::array& list(std::string_view key) const {
    const toml::array* array = needed(key).as_array();
    if (array == nullptr) fail(key, shown(needed(key)) + " is not a list", "a list in [ ]");
    if (array->size() > 1000) fail(key, fmt::format("a list of {} items", array->size()), "at most 1000");
    return *array;
  }

  /// A value as a message shows it.
  [[nodiscard]] static std::string shown(const toml::node& node) {
    if (const auto text = node.value_exact<std::string>()) return in_quotes(*text);
    if (const auto whole = node.value_exact<std::int64_t>()) return fmt::format("{}", *whole);
    if (const auto number = node.value_exact<double>()) {
      const std::string text = fmt::format("{}", *number);
      // 4.0 must not look like the count 4.
      return text.find_first_not_of("0123456789-") == std::string::npos ? text + ".0" : text;
    }
    if (const auto flag = node.value_exact<bool>()) return *flag ? "true" : "false";
    if (node.is_array()) return "a list";
    if (node.is_table()) return "a table";
    return "a date or time";
  }

  template <class T>
  [[nodiscard]] static T read_choice(const toml::node& node, const std::string& place, const Choices<T>& choices) {
    std::string allowed;
    std::vector<std::string_view> names;
    for (const auto& [name, value] : choices) {
      allowed += (allowed.empty() ? "\"" : ", \"") + std::string(name) + "\"";
      names.push_back(name);
    }
    const auto written = node.value_exact<std::string>();
    if (!written) throw InputError(place, shown(node) + " is not text", allowed);
    for (const auto& [name, value] : choices) {
      if (name == *written) return value;
    }
    throw InputError(place, in_quotes(*written) + " is none of the choices", allowed, nearest_name(*written, names));
  }
  [[nodiscard]] static std::string quantity_text(const toml::node& node, const std::string& place, Kind kind) {
    const auto text = node.value_exact<std::string>();
    if (text) return *text;
    const std::string allowed = fmt::format("text with a unit, e.g. \"{}\"", kind_row(kind).example);
    throw InputError(place,
                     shown(node) + (node.is_number() ? " has no unit" : " is not " + std::string(kind_row(kind).noun)),
                     allowed);
  }
  template <class Q>
  [[nodiscard]] Q read_quantity(const toml::node& node, const std::string& place, Range range, Reads reads) const {
    const Q value = parse_quantity<Q>(quantity_text(node, place, kind_of<Q>), place);
    if (!range.contains(si(value))) {
      throw InputError(place, shown(node) + " is out of range", range_text<Q>(range, units_, reads));
    }
    return value;
  }

  const toml::table* table_;
  std::string file_, label_;
  std::span<const LayoutKey> keys_;
  UnitSystem units_;
};

/// The text of a file as a table. @throws InputError  naming line and column
[[nodiscard]] toml::table parse_toml(std::string_view text, std::string_view file);

}  // namespace libflow::file_detail
