// SPDX-License-Identifier: MIT
/// @file
/// Text quantities: what is read, what is refused, and what the refusal says.
#include <libflow/units/text.hpp>

#include <chrono>
#include <cmath>
#include <limits>
#include <locale>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>

namespace text_test {

using namespace libflow;
namespace u = libflow::units;

template <class Q>
double read(std::string_view text) {
  return si(parse_quantity<Q>(text, "field"));
}

/// The error that reading `text` as a `Q` gives.
template <class Q>
InputError refusal(std::string_view text) {
  try {
    const Q q = parse_quantity<Q>(text, "hose 'row 3', length");
    ADD_FAILURE() << in_quotes(text) << " was read as " << si(q);
  } catch (const InputError& e) {
    return e;
  }
  return {"", ""};
}

bool contains(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

TEST(text, a_number_and_a_unit_are_exactly_the_constants) {
  EXPECT_EQ(read<Length>("14 ft"), si(14.0 * u::ft));
  EXPECT_EQ(read<Area>("80 ac"), si(80.0 * u::acre));
  EXPECT_EQ(read<Volume>("300 gal"), si(300.0 * u::gal));
  EXPECT_EQ(read<Time>("30 s"), 30.0);
  EXPECT_EQ(read<Speed>("5.5 mph"), si(5.5 * u::mph));
  EXPECT_EQ(read<Mass>("10 lb"), si(10.0 * u::lb));
  EXPECT_EQ(read<Pressure>("30 psi"), si(30.0 * u::psi));
  EXPECT_EQ(read<Flow>("0.2 gpm"), si(0.2 * u::gpm));
  EXPECT_EQ(read<AreaRate>("12 gal/ac"), si(12.0 * u::gal_per_acre));
  EXPECT_EQ(read<Density>("10.65 lb/gal"), si(10.65 * u::lb_per_gal));
  EXPECT_EQ(read<Viscosity>("40 cP"), si(40.0 * u::cP));
  EXPECT_EQ(read<Temperature>("50 °F"), si(u::fahrenheit(50.0)));
  EXPECT_EQ(read<Temperature>("10 C"), si(u::celsius(10.0)));
  EXPECT_EQ(read<Angle>("10 %"), std::atan(0.1));
  EXPECT_EQ(read<Angle>("3°"), si(3.0 * u::deg));
  EXPECT_EQ(read<MassPerArea>("40 lb/ac"), si(40.0 * u::lb_per_acre));
  EXPECT_EQ(parse_fraction("5 %", "tolerance"), 0.05);
}

TEST(text, conversions_as_published) {
  // A. Thompson and B. N. Taylor, NIST Special Publication 811, 2008, appendix B.8 (from memory).
  EXPECT_NEAR(read<Length>("1 mi"), 1.609344e+03, 1e-9);
  EXPECT_NEAR(read<Length>("1 yd"), 9.144e-01, 1e-12);
  EXPECT_NEAR(read<Volume>("1 qt"), 9.463529e-04, 0.5e-10);
  EXPECT_NEAR(read<Volume>("1 pt"), 4.731765e-04, 0.5e-10);
  EXPECT_NEAR(read<Volume>("1 ft3"), 2.831685e-02, 0.5e-08);
  EXPECT_NEAR(read<Volume>("1 in3"), 1.638706e-05, 0.5e-11);
  EXPECT_NEAR(read<Area>("1 ft2"), 9.290304e-02, 1e-12);
  EXPECT_NEAR(read<Area>("1 in2"), 6.4516e-04, 1e-12);
  EXPECT_NEAR(read<Mass>("1 oz"), 2.834952e-02, 0.5e-08);
  EXPECT_NEAR(read<Flow>("1 ft3/s"), 2.831685e-02, 0.5e-08);
  EXPECT_NEAR(read<Density>("1 lb/ft3"), 1.601846e+01, 0.5e-05);
  EXPECT_NEAR(read<Viscosity>("1 P"), 0.1, 1e-15);
}

TEST(text, ways_of_writing_a_number) {
  const double bore = si(0.375 * u::inch);
  for (const char* text : {"0.375 in", ".375in", "3/8 in", "3 / 8 in", "3/8\"", "⅜ in", "⅜\"", "375e-3 in", "+3/8 in",
                           "3/8 in.", "3/8''", "3/8″"}) {
    EXPECT_DOUBLE_EQ(read<Length>(text), bore) << text;
  }
  for (const char* text :
       {"1.5 in", "1 1/2 in", "1-1/2 in", "1½ in", "1 ½\"", "15e-1 in", "1.5 INCHES", "  1.5   in "}) {
    EXPECT_DOUBLE_EQ(read<Length>(text), si(1.5 * u::inch)) << text;
  }
  for (const char* text : {"14 ft", "14'", "14.0 feet", "14ft", "14 FT",
                           "14\xC2\xA0"
                           "ft",
                           "14.ft", "1.4e1 ft"}) {
    EXPECT_DOUBLE_EQ(read<Length>(text), si(14.0 * u::ft)) << text;
  }
  for (const char* text : {"6' 3\"", "6'3\"", "6 ft 3 in", "6' 3''", "6 feet 3 inches", "6′3″"}) {
    EXPECT_DOUBLE_EQ(read<Length>(text), si(75.0 * u::inch)) << text;
  }
  EXPECT_DOUBLE_EQ(read<Length>("-6' 3 1/2\""), si(-75.5 * u::inch));
  EXPECT_DOUBLE_EQ(read<Length>("-0' 6\""), si(-6.0 * u::inch));
  EXPECT_DOUBLE_EQ(read<Length>("−2 m"), -2.0);
  EXPECT_DOUBLE_EQ(read<Flow>("1/5 gal/min"), si(0.2 * u::gpm));
  EXPECT_EQ(read<Length>("0 m"), 0.0);
}

TEST(text, ways_of_writing_a_unit) {
  EXPECT_EQ(read<Pressure>("30 PSI"), si(30.0 * u::psi));
  EXPECT_EQ(read<Pressure>("30 Psi"), si(30.0 * u::psi));
  EXPECT_EQ(read<Pressure>("207 kpa"), 207e3);
  EXPECT_EQ(read<Pressure>("2 MPa"), 2e6);
  EXPECT_EQ(read<Flow>("5 gallons per minute"), si(5.0 * u::gpm));
  EXPECT_EQ(read<Flow>("1 m³/h"), 1.0 / 3600.0);
  EXPECT_EQ(read<Flow>("1 m^3 / h"), 1.0 / 3600.0);
  EXPECT_EQ(read<Flow>("12 ml/min"), si(12.0 * u::mL_per_min));
  EXPECT_EQ(read<Flow>("2 l/min"), si(2.0 * u::L_per_min));
  EXPECT_EQ(read<Flow>("128 fl oz/min"), si(1.0 * u::gpm));
  EXPECT_EQ(read<AreaRate>("12 gal/A"), si(12.0 * u::gal_per_acre));
  EXPECT_EQ(read<AreaRate>("12 GPA"), si(12.0 * u::gal_per_acre));
  EXPECT_EQ(read<AreaRate>("12 gallons per acre"), si(12.0 * u::gal_per_acre));
  EXPECT_EQ(read<AreaRate>("112 L/ha"), 112.0 * si(u::L_per_ha));
  EXPECT_EQ(read<Viscosity>("40 mPa·s"), 40.0 * 1e-3);
  EXPECT_EQ(read<Viscosity>("40 mPa*s"), 40.0 * 1e-3);
  EXPECT_EQ(read<Temperature>("50F"), si(u::fahrenheit(50.0)));
  EXPECT_EQ(read<Temperature>("50 º F"), si(u::fahrenheit(50.0)));
  EXPECT_EQ(read<Volume>("1 US gallon"), si(1.0 * u::gal));
  EXPECT_EQ(read<Density>("SG 1.28"), read<Density>("1.28 sg"));
  EXPECT_NEAR(read<Density>("1 SG") / si(u::lb_per_gal), 8.34, 0.005);  // common practice, no source
}

TEST(text, every_spelling_in_the_table_is_read) {
  for (const KindRow& kind : all_kinds()) {
    EXPECT_EQ(&kind, &kind_row(kind.kind));
    EXPECT_TRUE(kind.kind == Kind::fraction || kind.units[0].to_si(1.25) == 1.25) << kind.noun;
    EXPECT_NO_THROW((void)parse_si(kind.kind, kind.example, "example"));
    std::set<std::string> seen;
    for (const UnitRow& unit : kind.units) {
      std::vector<std::string> names{std::string(unit.name)};
      units_detail::any_piece(unit.other, '|', [&](std::string_view name) {
        if (!name.empty()) names.emplace_back(name);
        return false;
      });
      for (const std::string& name : names) {
        EXPECT_TRUE(seen.insert(name).second) << name << " is listed twice for " << kind.noun;
        EXPECT_EQ(parse_si(kind.kind, "37.5 " + name, "table"), unit.to_si(37.5)) << name;
      }
      EXPECT_NEAR(unit.from_si(unit.to_si(37.5)), 37.5, 1e-10) << unit.name;
    }
  }
}

TEST(text, every_word_leads_to_a_unit) {
  for (const auto& [word, symbol] : units_detail::words) {
    bool found = false;
    for (const KindRow& kind : all_kinds()) found = found || find_unit(kind.kind, symbol) != nullptr;
    EXPECT_TRUE(found) << word;
  }
}

TEST(text, wrong_dimension_says_what_it_is) {
  const InputError e = refusal<Length>("14 psi");
  EXPECT_EQ(e.where(), "hose 'row 3', length");
  EXPECT_EQ(e.what_is_wrong(), "'14 psi' is a pressure; a length is wanted");
  EXPECT_EQ(e.allowed(), "a number with one of m, ft, in, yd, mi, cm, mm, km, e.g. '14 ft'");
  EXPECT_TRUE(contains(refusal<Length>("12 gal/ac").what(), "is a rate per area; a length is wanted"));
  EXPECT_TRUE(contains(refusal<Pressure>("5 mPa·s").what(), "is a viscosity; a pressure is wanted"));
  EXPECT_TRUE(contains(refusal<Length>("14 ft2").what(), "is an area"));
  EXPECT_TRUE(contains(refusal<Temperature>("50 deg").what(), "is an angle or slope"));
  EXPECT_TRUE(contains(refusal<Flow>("5 mpa").what(), "is a pressure"));
  EXPECT_THROW((void)parse_fraction("5 psi", "tolerance"), InputError);
}

TEST(text, missing_and_unknown_units) {
  EXPECT_EQ(refusal<Length>("14").what_is_wrong(), "'14' has no unit");
  EXPECT_TRUE(contains(refusal<Pressure>("30 ").allowed(), "psi"));
  const InputError e = refusal<Length>("14 fet");
  EXPECT_EQ(e.what_is_wrong(), "unknown unit 'fet' in '14 fet'");
  EXPECT_EQ(e.nearest(), "ft");
  EXPECT_EQ(refusal<Pressure>("30 psj").nearest(), "psi");
  EXPECT_EQ(refusal<AreaRate>("12 gal/act").nearest(), "gal/ac");
  EXPECT_EQ(refusal<Length>("14 zz").nearest(), "");
  // Two letters swapped are one slip of the hand, however short the unit is.
  EXPECT_EQ(refusal<Pressure>("30 pis").nearest(), "psi");
  EXPECT_EQ(refusal<Length>("3 tf").nearest(), "ft");
  EXPECT_EQ(refusal<Length>("14 ft junk").what_is_wrong(), "unknown unit 'ft junk' in '14 ft junk'");
  EXPECT_THROW((void)parse_fraction("0.05", "tolerance"), InputError);
  EXPECT_THROW((void)parse_fraction("", "tolerance"), InputError);
}

TEST(text, a_letter_that_looks_like_a_digit) {
  for (const auto& [text, meant] : {std::pair{"24O psi", "240 psi"},
                                    {"24o psi", "240 psi"},
                                    {"l2 psi", "12 psi"},
                                    {"1I.5 psi", "11.5 psi"},
                                    {"-3O psi", "-30 psi"}}) {
    const InputError e = refusal<Pressure>(text);
    EXPECT_TRUE(contains(e.what_is_wrong(), "has a letter in its number")) << e.what();
    EXPECT_EQ(e.nearest(), meant);
  }
  EXPECT_EQ(refusal<Volume>("24O fl oz").nearest(), "240 fl oz");
  EXPECT_DOUBLE_EQ(read<Volume>("5 l"), 5e-3);  // a unit all the same
  EXPECT_TRUE(contains(refusal<Pressure>("24O zz").what_is_wrong(), "unknown unit"));
  EXPECT_TRUE(contains(refusal<Pressure>("O psi").what_is_wrong(), "does not start with a number"));
}

TEST(text, case_matters_where_it_changes_the_size) {
  for (const char* text : {"2 mPa", "2 mpa", "2 MPA"}) {
    const InputError e = refusal<Pressure>(text);
    EXPECT_TRUE(contains(e.what_is_wrong(), "upper and lower case matter")) << text;
    EXPECT_EQ(e.nearest(), "MPa");
  }
  EXPECT_TRUE(contains(refusal<Viscosity>("2 MPa·s").what(), "case matter"));
  EXPECT_TRUE(contains(refusal<Volume>("2 ML").what(), "case matter"));
  EXPECT_TRUE(contains(refusal<Flow>("2 ML/min").what(), "case matter"));
  EXPECT_TRUE(contains(refusal<Length>("2 Mm").what(), "case matter"));
}

TEST(text, units_that_mean_two_things_are_refused_with_the_reason) {
  EXPECT_TRUE(contains(refusal<Volume>("2 imp gal").what(), "4.54609 L"));
  EXPECT_TRUE(contains(refusal<Flow>("2 UK gallons per minute").what(), "4.54609 L"));
  EXPECT_TRUE(contains(refusal<Pressure>("30 psig").what(), "gauge or absolute"));
  EXPECT_TRUE(contains(refusal<Mass>("2 tons").what(), "2000 lb"));
  EXPECT_TRUE(contains(refusal<Flow>("3 oz/min").what(), "fl oz"));
  EXPECT_TRUE(contains(refusal<Viscosity>("40 cSt").what(), "kinematic"));
}

TEST(text, numbers_that_are_refused) {
  struct Case {
    const char* text;
    const char* said;
  };
  const Case cases[] = {
      {"", "empty text"},
      {"   \t ", "empty text"},
      {"ft", "does not start with a number"},
      {"-", "does not start with a number"},
      {"+", "does not start with a number"},
      {"- ft", "does not start with a number"},
      {"--5 ft", "does not start with a number"},
      {". ft", "does not start with a number"},
      {"e5 ft", "does not start with a number"},
      {"nan ft", "not a finite number"},
      {"-NaN ft", "not a finite number"},
      {"inf ft", "not a finite number"},
      {"-Infinity ft", "not a finite number"},
      {"1e400 ft", "too large or too small"},
      {"1e308 km", "too large or too small"},
      {"1e-400 ft", "too large or too small"},
      {"1e-323 mm", "too large or too small"},
      {"0x10 ft", "hexadecimal"},
      {"-0X1p3 ft", "hexadecimal"},
      {"1,200 ft", "comma"},
      {"1,5 ft", "comma"},
      {",5 ft", "comma"},
      {"1 200 ft", "digits in groups"},
      {"1_200 ft", "digits in groups"},
      {"1.2.3 ft", "more than a number"},
      {"3/0 in", "divides by zero"},
      {"1 3/0 in", "divides by zero"},
      {"3/-8 in", "more than a number"},
      {"3/8/2 in", "more than a number"},
      {"1.5/2 in", "more than a number"},
      {"1 9/8 in", "fraction of one or more"},
      {"5 -3 ft", "more than a number"},
      {"5e ft", "unknown unit"},
      {"5·3 ft", "unknown unit"},
      {"10^3 ft", "unknown unit"},
      {"6 ft 13 in", "feet and inches"},
      {"6.5' 3\"", "feet and inches"},
      {"6' 3", "feet and inches"},
      {"6' 3 ft", "feet and inches"},
  };
  for (const Case& c : cases) {
    const InputError e = refusal<Length>(c.text);
    EXPECT_TRUE(contains(e.what_is_wrong(), c.said)) << c.text << " -> " << e.what();
    EXPECT_FALSE(e.allowed().empty()) << c.text;
  }
  EXPECT_TRUE(contains(refusal<Length>("1,5 ft").allowed(), "a point as decimal mark"));
}

TEST(text, below_absolute_zero) {
  EXPECT_TRUE(contains(refusal<Temperature>("-500 °F").what(), "below absolute zero"));
  EXPECT_TRUE(contains(refusal<Temperature>("-1 K").what(), "below absolute zero"));
  EXPECT_EQ(read<Temperature>("-459.67 °F"), 0.0);
}

TEST(text, hostile_text_is_refused_quickly_and_quietly) {
  const std::string million(1u << 20, '9');
  const auto start = std::chrono::steady_clock::now();
  for (int i = 0; i < 100; ++i) (void)refusal<Length>(million);
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(1));
  const std::string said = refusal<Length>(million).what();
  EXPECT_LT(said.size(), 250u);
  EXPECT_TRUE(contains(said, "too long for a quantity (1048576 bytes)"));

  for (const std::string_view text : {std::string_view("\x01\n14 ft"), std::string_view("14 \x1B[31mft\x7F"),
                                      std::string_view("14 ft\0junk", 10), std::string_view("14 \xFF\xC3 ft"),
                                      std::string_view("14 \xE2\x80\xAE"
                                                       "tf")}) {
    for (const char c : std::string(refusal<Length>(text).what())) {
      EXPECT_TRUE(c >= 0x20 && c < 0x7F) << "unprintable " << static_cast<int>(c);
    }
  }
}

TEST(text, quotation_is_short_and_on_one_line) {
  EXPECT_EQ(in_quotes("14 ft"), "'14 ft'");
  EXPECT_EQ(in_quotes("50 °F"), "'50 °F'");
  EXPECT_EQ(in_quotes("a\nb\tc\r"), "'a\\nb\\tc\\r'");
  EXPECT_EQ(in_quotes("\xFFx"), "'\\xFFx'");
  EXPECT_EQ(in_quotes("\xE2\x80\xAE"), "'\\u202E'");
  EXPECT_EQ(in_quotes(std::string(41, 'x')), "'" + std::string(40, 'x') + "...'");
  EXPECT_EQ(in_quotes("abcdef", 3), "'abc...'");
  EXPECT_EQ(in_quotes("\xC0\x80"), "'\\xC0\\x80'");           // overlong
  EXPECT_EQ(in_quotes("\xED\xA0\x80"), "'\\xED\\xA0\\x80'");  // surrogate
}

// Well-formed sequences: The Unicode Standard, table 3-7 (as RFC 3629). What is none is shown byte by byte.
TEST(text, quotation_keeps_letters_and_shows_what_is_none) {
  for (const char* letter : {"ä", "€", "農", "\xF0\x9F\x9A\x9C", "\xF4\x8F\xBF\xBD", "\xEE\x80\x80", "\xED\x9F\xBF"}) {
    EXPECT_EQ(in_quotes(letter), "'" + std::string(letter) + "'");
  }
  EXPECT_EQ(in_quotes("\xE2\x82"), "'\\xE2\\x82'") << "cut short";
  EXPECT_EQ(in_quotes("\xE0\x80\xAF"), "'\\xE0\\x80\\xAF'") << "overlong";
  EXPECT_EQ(in_quotes("\xF0\x80\x80\xAF"), "'\\xF0\\x80\\x80\\xAF'") << "overlong";
  EXPECT_EQ(in_quotes("\xF4\x90\x80\x80"), "'\\xF4\\x90\\x80\\x80'") << "beyond U+10FFFF";
  EXPECT_EQ(in_quotes("\xF5\x80\x80\x80"), "'\\xF5\\x80\\x80\\x80'");
}

// Marks that are not seen or turn the writing round, and their neighbours, which are letters like others.
TEST(text, quotation_shows_marks_that_nobody_sees) {
  for (const auto& [mark, shown] : {std::pair("\xE2\x80\x8B", "\\u200B"), std::pair("\xE2\x80\x8F", "\\u200F"),
                                    std::pair("\xE2\x80\xA8", "\\u2028"), std::pair("\xE2\x81\xA6", "\\u2066"),
                                    std::pair("\xE2\x81\xA9", "\\u2069"), std::pair("\xEF\xBB\xBF", "\\uFEFF")}) {
    EXPECT_EQ(in_quotes(mark), "'" + std::string(shown) + "'");
  }
  for (const char* kept : {"\xE2\x80\x8A", "\xE2\x80\x90", "\xE2\x80\xA7", "\xE2\x80\xAF", "\xE2\x81\xAA"}) {
    EXPECT_EQ(in_quotes(kept), "'" + std::string(kept) + "'");
  }
  EXPECT_EQ(in_quotes("abc\x01", 4), "'abc...'") << "an escape is shown whole or not at all";
}

TEST(text, a_sum_of_numbers_is_refused) {
  for (const char* sum : {"1 + 2 psi", "3+4 psi", "5 - 1 psi"}) {
    try {
      (void)parse_quantity<Pressure>(sum, "here");
      ADD_FAILURE() << sum;
    } catch (const InputError& e) {
      EXPECT_NE(e.what_is_wrong().find("more than a number before its unit"), std::string::npos) << e.what();
    }
  }
}

// Inches follow feet and nothing else; a unit of which half the letters are wrong is near to none.
TEST(text, what_only_looks_like_feet_and_inches_is_refused) {
  EXPECT_THROW((void)parse_quantity<Length>("3 m 5 in", "here"), InputError);
  EXPECT_THROW((void)parse_quantity<Length>("3 yd 5", "here"), InputError);
  try {
    (void)parse_quantity<Length>("3 z", "here");
    ADD_FAILURE();
  } catch (const InputError& e) {
    EXPECT_EQ(e.nearest(), "") << e.what();
  }
}

// A mark that only stands behind a letter is no mark at a text's beginning or behind another sign; too short for a
// specific gravity, or a fraction alone, a text has no unit.
TEST(text, marks_and_fractions_alone_are_no_quantity) {
  for (const char* text : {"\u00B2", "^2 ft", "\u00B7 5 psi", "3 ft}\u00B2", "3 ~\u00B2", "3 |*ft"}) {
    EXPECT_FALSE(refusal<Length>(text).what_is_wrong().empty()) << text;
  }
  EXPECT_TRUE(contains(refusal<Length>("1/2").what_is_wrong(), "has no unit"));
  EXPECT_TRUE(contains(refusal<Length>("5 3/8").what_is_wrong(), "has no unit"));
  EXPECT_TRUE(contains(refusal<Density>("5").what_is_wrong(), "has no unit"));
  EXPECT_FALSE(refusal<Density>("SG").what_is_wrong().empty());
  EXPECT_EQ(read<Density>("SG 1.2"), read<Density>("1.2 SG"));
}

// A unit that is refused with its reason, whole or as one side of a quotient.
TEST(text, a_kinematic_viscosity_is_told_to_be_one) {
  for (const char* text : {"5 cSt", "5 mm2/s", "5 mm\u00B2/s"}) {
    EXPECT_TRUE(contains(refusal<Viscosity>(text).what_is_wrong(), "a kinematic viscosity needs the density")) << text;
  }
}

struct CommaForPoint : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST(text, language_settings_play_no_part) {
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaForPoint));
  EXPECT_EQ(read<Length>("1234.5 m"), 1234.5);
  EXPECT_THROW((void)read<Length>("1234,5 m"), InputError);
  std::locale::global(before);
}

}  // namespace text_test
