// SPDX-License-Identifier: MIT
/// @file
/// Text with a unit, such as "14 ft", "3/8 in", "12 gal/ac" or "5 %", to a typed quantity.
///
/// A quantity is a number and a unit; the space between them is optional.
///   number  14   -0.5   .375   1e-3   3/8   1 1/2   1-1/2   1½       (point as decimal mark, no thousands separators)
///   unit    as listed in units/table.hpp, the usual spellings of each, and words: "gallons per acre", "feet"
///   length  also 14'   3/8"   6' 3"   6 ft 3 in
///   slope   "10 %" is rise over run: the angle atan(0.10)
///   density "1.28 SG" or "SG 1.28" is against water at 60 F, 999.016 kg/m3
/// "gal" is the US gallon. Case of letters is free except where it changes the size (MPa and mPa, mL and ML).
/// The computer's language settings play no part. Everything else throws InputError with the field's name.
#pragma once

#include <charconv>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/units/table.hpp>

namespace libflow {
namespace units_detail {

/// No quantity needs more; longer text is refused unread.
inline constexpr std::size_t longest_text = 120;

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
constexpr bool is_letter(char c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

constexpr bool same_letters(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (lower(a[i]) != lower(b[i])) return false;
  }
  return true;
}

constexpr std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

/// Calls `visit(piece)` for each piece of `text` between separators, until it returns true.
template <class Visit>
constexpr bool any_piece(std::string_view text, char separator, Visit visit) {
  for (;;) {
    const std::size_t end = text.find(separator);
    if (visit(text.substr(0, end))) return true;
    if (end == std::string_view::npos) return false;
    text.remove_prefix(end + 1);
  }
}

/// One way of writing for marks that have several: primes, superscripts, products, vulgar fractions, spaces, "per".
inline std::string plain_marks(std::string_view text) {
  struct Mark {
    std::string_view from, to;
    bool after_letter;  // elsewhere "5·3" or "10^3" would silently become another number
  };
  static constexpr Mark marks[] = {{"²", "2", true},         {"³", "3", true},
                                   {"·", ".", true},         {"⋅", ".", true},
                                   {"*", ".", true},         {"^", "", true},
                                   {"′", "'", false},        {"’", "'", false},
                                   {"″", "\"", false},       {"”", "\"", false},
                                   {"º", "°", false},        {"−", "-", false},
                                   {"\xC2\xA0", " ", false}, {"\xE2\x80\xAF", " ", false},
                                   {"\t", " ", false},       {" per ", "/", false},
                                   {"½", " 1/2 ", false},    {"¼", " 1/4 ", false},
                                   {"¾", " 3/4 ", false},    {"⅛", " 1/8 ", false},
                                   {"⅜", " 3/8 ", false},    {"⅝", " 5/8 ", false},
                                   {"⅞", " 7/8 ", false}};
  std::string out;
  while (!text.empty()) {
    std::string_view put = text.substr(0, 1);
    std::size_t taken = 1;
    for (const Mark& mark : marks) {
      if (!text.starts_with(mark.from) || (mark.after_letter && (out.empty() || !is_letter(out.back())))) continue;
      put = mark.to;
      taken = mark.from.size();
      break;
    }
    text.remove_prefix(taken);
    if (put == "/" || put.starts_with(' ')) {
      while (!out.empty() && out.back() == ' ') out.pop_back();
    }
    for (const char c : put) {
      const bool idle = c == ' ' && (out.empty() || out.back() == '/' || out.ends_with("°"));
      if (!idle) out += c;
    }
  }
  return std::string(trimmed(out));
}

/// A unit with its words replaced: "gallons/acre" to "gal/ac", "in." to "in".
inline std::string plain_unit(std::string_view text) {
  std::string out;
  any_piece(text, '/', [&](std::string_view piece) {
    piece = trimmed(piece);
    if (piece.size() > 1 && piece.ends_with('.')) piece.remove_suffix(1);
    for (const auto& [word, symbol] : words) {
      if (same_letters(piece, word)) {
        piece = symbol;
        break;
      }
    }
    if (!out.empty()) out += '/';
    out += piece;
    return false;
  });
  return out;
}

/// What a unit text is within one kind.
struct UnitMatch {
  const UnitRow* row = nullptr;    ///< the unit, if it is one
  const UnitRow* close = nullptr;  ///< the unit that it would be in another case, where case matters
};

inline UnitMatch match_unit(Kind kind, std::string_view unit) {
  UnitMatch found;
  for (const UnitRow& row : kind_row(kind).units) {
    const auto try_name = [&](std::string_view name) {
      if (name.empty() || !same_letters(name, unit)) return false;
      (name == unit || !row.exact_case ? found.row : found.close) = &row;
      return found.row != nullptr;
    };
    if (try_name(row.name) || any_piece(row.other, '|', try_name)) return found;
  }
  return found;
}

/// One reading of one text; knows what to say when it fails.
class Reader {
 public:
  Reader(Kind kind, std::string_view text, std::string_view where) : kind_(kind), text_(text), where_(where) {}

  /// The quantity in SI.
  [[nodiscard]] double read() const {
    std::string plain = opened();
    if (kind_ == Kind::density && plain.size() > 2 && same_letters(std::string_view(plain).substr(0, 2), "SG")) {
      plain = std::string(trimmed(std::string_view(plain).substr(2))) + " SG";
    }
    std::string_view rest = plain;
    const Number number = read_number(rest);
    rest = trimmed(rest);
    if (rest.empty()) fail(in_quotes(text_) + " has no unit", allowed(), "");
    double inches = 0.0;
    if (kind_ == Kind::length) inches = read_inches(number, rest);
    const UnitRow& unit = find(plain_unit(rest));
    return checked(number.value, unit.to_si(number.value) + std::copysign(inches * in, number.value));
  }

 private:
  struct Number {
    double value;
    bool whole;  // digits only
  };

  [[noreturn]] void fail(std::string what, std::string allowed_text, std::string nearest = {}) const {
    throw InputError(std::string(where_), std::move(what), std::move(allowed_text), std::move(nearest));
  }

  [[nodiscard]] std::string allowed() const {
    return "a number with one of " + allowed_units(kind_) + ", e.g. '" + std::string(kind_row(kind_).example) + "'";
  }

  [[nodiscard]] std::string opened() const {
    if (text_.size() > longest_text) {
      fail(fmt::format("{} is too long for a quantity ({} bytes)", in_quotes(text_), text_.size()), allowed());
    }
    std::string plain = plain_marks(text_);
    if (plain.empty()) fail("empty text where " + std::string(kind_row(kind_).noun) + " is wanted", allowed());
    return plain;
  }

  /// Takes a decimal number from the front of `rest`, which starts with a digit or with a point and a digit.
  [[nodiscard]] double take_decimal(std::string_view& rest) const {
    if (rest.size() > 1 && rest[0] == '0' && lower(rest[1]) == 'x') {
      fail(in_quotes(text_) + " has a hexadecimal number", "a decimal number");
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error == std::errc::result_out_of_range) {
      fail(in_quotes(text_) + " has a number too large or too small to compute with", allowed());
    }
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return value;
  }

  [[nodiscard]] double take_digits(std::string_view& rest) const {
    std::size_t n = 0;
    while (n < rest.size() && is_digit(rest[n])) ++n;
    std::string_view digits = rest.substr(0, n);
    rest.remove_prefix(n);
    return take_decimal(digits);
  }

  /// Takes "/8" after the number above the line; false, taking nothing, where there is no such fraction.
  [[nodiscard]] bool take_below(std::string_view& rest, double& value) const {
    if (rest.size() < 2 || rest[0] != '/' || !is_digit(rest[1])) return false;
    rest.remove_prefix(1);
    const double below = take_digits(rest);
    if (!(below > 0.0)) fail(in_quotes(text_) + " divides by zero", "a fraction such as 3/8");
    value /= below;
    return true;
  }

  /// Takes the number from the front of `rest`: sign, then a decimal number, a fraction, or a whole and a fraction.
  [[nodiscard]] Number read_number(std::string_view& rest) const {
    double sign = 1.0;
    if (rest[0] == '+' || rest[0] == '-') {
      if (rest[0] == '-') sign = -1.0;
      rest = trimmed(rest.substr(1));
    }
    const bool point_first = rest.size() > 1 && rest[0] == '.' && is_digit(rest[1]);
    if (rest.empty() || (!is_digit(rest[0]) && !point_first)) {
      refuse_letter_for_digit();
      fail_no_number(rest);
    }

    const std::string_view start = rest;
    double value = take_decimal(rest);
    const std::string_view token = start.substr(0, start.size() - rest.size());
    const bool whole = token.find_first_not_of("0123456789") == std::string_view::npos;
    bool fraction = false;
    if (whole) {
      fraction = take_below(rest, value);
      if (!fraction && rest.size() > 1 && (rest[0] == ' ' || rest[0] == '-') && is_digit(rest[1])) {
        std::string_view ahead = rest.substr(1);
        double part = take_digits(ahead);
        if (take_below(ahead, part)) {
          if (part >= 1.0) fail(in_quotes(text_) + " has a fraction of one or more", "a fraction such as 1 1/2");
          value += part;
          rest = ahead;
          fraction = true;
        }
      }
    }
    check_after_number(rest);
    return {sign * value, whole && !fraction};
  }

  [[noreturn]] void fail_no_number(std::string_view rest) const {
    if (rest.starts_with(',')) check_after_number(rest);
    const std::string_view word = rest.substr(0, 3);
    if (same_letters(word, "nan") || same_letters(word, "inf")) {
      fail(in_quotes(text_) + " is not a finite number", allowed());
    }
    fail(in_quotes(text_) + " does not start with a number", allowed());
  }

  /// Refuses what can follow a number only by mistake.
  void check_after_number(std::string_view rest) const {
    if (rest.starts_with(',')) {
      fail(in_quotes(text_) + " has a comma in its number",
           "a point as decimal mark and no thousands separators, e.g. 1200 or 1.2");
    }
    const std::string_view next = trimmed(rest);
    if (next.empty()) return;
    if (is_digit(next[0]) || next[0] == '_') {
      fail(in_quotes(text_) + " has digits in groups", "one number without thousands separators, e.g. 1200");
    }
    if (next[0] == '.' || next[0] == '/' || next[0] == '+' || next[0] == '-') {
      fail(in_quotes(text_) + " has more than a number before its unit",
           "a number such as 14, 0.375, 3/8, 1 1/2 or 1e-3");
    }
  }

  /// Inches of a length in feet and inches, leaving the feet's unit in `rest`; 0 where `rest` is one unit.
  [[nodiscard]] double read_inches(const Number& feet, std::string_view& rest) const {
    // A prime may touch its inches (6'3"); a word may not, or "ft2" would be feet and two inches.
    const std::size_t space = rest.find(' ');
    const std::size_t split = rest[0] == '\'' && !rest.starts_with("''") ? 1 : space;
    if (split == std::string_view::npos) return 0.0;
    const std::string unit = plain_unit(rest.substr(0, split));
    std::string_view after = trimmed(rest.substr(split));
    if (after.empty() || !is_digit(after[0]) || match_unit(Kind::length, unit).row != find_unit(Kind::length, "ft")) {
      return 0.0;
    }
    const double inches = read_number(after).value;
    const bool good = match_unit(Kind::length, plain_unit(after)).row == find_unit(Kind::length, "in");
    if (!good || !feet.whole || inches >= 12.0) {
      fail(in_quotes(text_) + " is not in feet and inches", "whole feet and less than 12 in, e.g. 6' 3\" or 6 ft 3 in");
    }
    rest = rest.substr(0, split);
    return inches;
  }

  /// The unit of this kind, or an error that says what the text is instead.
  [[nodiscard]] const UnitRow& find(const std::string& unit) const {
    const UnitMatch match = match_unit(kind_, unit);
    if (match.row != nullptr) return *match.row;
    if (match.close != nullptr) {
      fail("upper and lower case matter in the unit " + in_quotes(unit) + " (m is milli, M is mega)", allowed(),
           std::string(match.close->name));
    }
    any_piece(unit, '/', [&](std::string_view piece) {
      for (const auto& [word, why] : refused) {
        if (same_letters(piece, word) || same_letters(unit, word)) {
          fail("the unit " + in_quotes(unit) + " is not read: " + std::string(why), allowed());
        }
      }
      return false;
    });
    for (const KindRow& other : all_kinds()) {
      const UnitMatch elsewhere = match_unit(other.kind, unit);
      if (elsewhere.row == nullptr && elsewhere.close == nullptr) continue;
      fail(
          in_quotes(text_) + " is " + std::string(other.noun) + "; " + std::string(kind_row(kind_).noun) + " is wanted",
          allowed());
    }
    refuse_letter_for_digit();
    fail("unknown unit " + in_quotes(unit) + " in " + in_quotes(text_), allowed(), nearest(unit));
  }

  /// "24O psi" and "l2 ft" hold a letter that looks like a digit; says so where the digit makes a quantity of it.
  void refuse_letter_for_digit() const {
    const std::string_view text = trimmed(text_);
    std::string fixed;
    std::size_t i = 0, digits = 0;
    for (; i < text.size() && std::string_view("0123456789.,+-OoIl").find(text[i]) != std::string_view::npos; ++i) {
      digits += is_digit(text[i]) ? 1U : 0U;
      fixed += text[i] == 'O' || text[i] == 'o' ? '0' : text[i] == 'I' || text[i] == 'l' ? '1' : text[i];
    }
    if (digits == 0 || fixed == text.substr(0, i)) return;
    fixed += text.substr(i);
    try {
      (void)Reader(kind_, fixed, where_).read();
    } catch (const InputError&) {
      return;  // something else is wrong too
    }
    fail(in_quotes(text_) + " has a letter in its number", allowed(), fixed);
  }

  [[nodiscard]] std::string nearest(const std::string& unit) const {
    std::vector<std::string_view> names;
    for (const UnitRow& row : kind_row(kind_).units) {
      names.push_back(row.name);
      any_piece(row.other, '|', [&](std::string_view name) {
        if (!name.empty()) names.push_back(name);
        return false;
      });
    }
    return nearest_name(unit, names);
  }

  [[nodiscard]] double checked(double number, double value) const {
    const bool vanished = value == 0.0 && number != 0.0 && kind_ != Kind::temperature;
    if (!std::isfinite(value) || vanished) {
      fail(in_quotes(text_) + " has a number too large or too small to compute with", allowed());
    }
    if (kind_ == Kind::temperature && value < 0.0) {
      fail(in_quotes(text_) + " is below absolute zero", "at least -459.67 °F, -273.15 °C or 0 K");
    }
    return value;
  }

  Kind kind_;
  std::string_view text_;
  std::string_view where_;
};

}  // namespace units_detail

/// The SI number of a text quantity of `kind`; for callers that choose the kind at run time.
/// @param where  the field's name, for the message of an InputError
[[nodiscard]] inline double parse_si(Kind kind, std::string_view text, std::string_view where) {
  return units_detail::Reader(kind, text, where).read();
}

/// A text quantity as a typed quantity: `parse_quantity<Length>("14 ft", "hose 'row 3', length")`.
/// @param text   a number and a unit, at most 120 bytes
/// @param where  the field's name, for the message
/// @throws InputError  empty, no number, no unit, unknown unit, a unit of another kind, a number that is not a finite
///                     decimal number or fraction, a temperature below absolute zero. Negative values are read; the
///                     field's own check says whether they make sense.
template <class Q>
[[nodiscard]] Q parse_quantity(std::string_view text, std::string_view where) {
  return from_si<Q>(parse_si(kind_of<Q>, text, where));
}

/// A fraction written in per cent as a plain number: "5 %" is 0.05. The sign must be there.
/// @throws InputError  as parse_quantity
[[nodiscard]] inline double parse_fraction(std::string_view text, std::string_view where) {
  return units_detail::Reader(Kind::fraction, text, where).read();
}

}  // namespace libflow
