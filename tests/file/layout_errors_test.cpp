// SPDX-License-Identifier: MIT
/// @file
/// A wrong layout file gives one message with file, line, column, key, value, what is allowed, and the nearest name.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <tests/support/four_row_bar.hpp>

namespace layout_errors_test {

using namespace libflow;

struct Case {
  std::string from, to;  // the layout with this piece replaced
  std::string place;     // "bar.toml:<line>" and the key
  std::string what;      // part of what is wrong, with the value
  std::string allowed;   // part of what is allowed
  std::string nearest = {};
};

void PrintTo(const Case& c, std::ostream* os) { *os << c.from << " -> " << c.to; }

class WrongLayout : public testing::TestWithParam<Case> {};

TEST_P(WrongLayout, IsRefusedWithAMessageThatHelps) {
  const Case& c = GetParam();
  std::string text = test::four_row_bar;
  const std::size_t at = text.find(c.from);
  ASSERT_NE(at, std::string::npos) << c.from;
  text.replace(at, c.from.size(), c.to);
  try {
    (void)parse_layout(text, "bar.toml");
    FAIL() << "nothing thrown for " << c.to;
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind(c.place.substr(0, c.place.find(' ')), 0), 0U) << e.what();
    const std::string key = c.place.substr(c.place.find(' ') + 1);
    EXPECT_NE(e.where().find(key), std::string::npos) << e.what();
    EXPECT_NE(e.what_is_wrong().find(c.what), std::string::npos) << e.what();
    EXPECT_NE(e.allowed().find(c.allowed), std::string::npos) << e.what();
    EXPECT_FALSE(e.allowed().empty()) << e.what();
    EXPECT_EQ(e.nearest(), c.nearest) << e.what();
    EXPECT_EQ(std::string(e.what()).find('\n'), std::string::npos) << e.what();
    EXPECT_EQ(std::string(e.what()).rfind("bar.toml:"), 0U) << "its place once: " << e.what();
  }
}

INSTANTIATE_TEST_SUITE_P(
    Names, WrongLayout,
    testing::Values(
        Case{"length = ", "lenght = ", "bar.toml:14:1 [hose]", "'lenght'", "length, lengths, schedule", "length"},
        Case{"bore = \"0.04 in\"\n", "bore = \"0.04 in\"\n[[row]]\nnumber = 2\norifice = { none = true }\n",
             "bar.toml:23 none", "a row whose orifice is changed has one", "bore, or rated_flow and rated_pressure"},
        Case{"[hose]", "[hoes]", "bar.toml:12:2 bar.toml", "'hoes'", "job, product, toolbar", "hose"},
        Case{"name =", "nmae =", "bar.toml:1:1 bar.toml", "'nmae'", "name, units", "name"},
        Case{"bore = \"1 in\"", "boer = \"1 in\"", "bar.toml:11:1 [[manifold]] #1", "'boer'", "id, first_row", "bore"},
        Case{"\"10-34-0\"", "\"10-43-0\"", "bar.toml:3:11 [job] product", "10-43-0", "water", "10-34-0"},
        Case{"[toolbar]\n", "[toolbar]\nmetering = \"outlat\"\n", "bar.toml:8:12 [toolbar] metering", "'outlat'",
             "\"outlet\", \"manifold\"", "outlet"},
        Case{"name =", "units = \"metrik\"\nname =", "bar.toml:1:9 units", "'metrik'", "\"us\", \"metric\"", "metric"},
        Case{"\"10-34-0\"", "28", "bar.toml:3:11 [job] product", "28 is not text", "text in quotes"},
        Case{"product = \"10-34-0\"", "", "bar.toml:2:1 [job]", "'product' is missing", "the liquid"},
        Case{"[orifice]", "[product]\nanalysis = 8\n[orifice]", "bar.toml:20:12 [product] analysis", "8 is not text",
             "text in quotes"},
        Case{"[orifice]", "[product]\nanalysis = \"8 20 5\"\n[orifice]", "bar.toml:20:12 [product] analysis",
             "not a grade", "10-34-0"},
        Case{"9 ft", "9 fet", "bar.toml:14:10 [hose] length", "'fet'", "m, ft, in", "ft"}));

INSTANTIATE_TEST_SUITE_P(
    Values, WrongLayout,
    testing::Values(Case{"\"9 ft\"", "\"0 ft\"", "bar.toml:14:10 [hose] length", "'0 ft'", "more than 0"},
                    Case{"\"9 ft\"", "\"-9 ft\"", "bar.toml:14:10 [hose] length", "'-9 ft'", "more than 0"},
                    Case{"\"9 ft\"", "9", "bar.toml:14:10 [hose] length", "9 has no unit", "\"14 ft\""},
                    Case{"\"9 ft\"", "\"9\"", "bar.toml:14:10 [hose] length", "'9' has no unit", "ft"},
                    Case{"\"9 ft\"", "nan", "bar.toml:14:10 [hose] length", "nan", "with a unit"},
                    Case{"\"9 ft\"", "\"nan ft\"", "bar.toml:14:10 [hose] length", "'nan ft'", "ft"},
                    Case{"\"9 ft\"", "\"9 psi\"", "bar.toml:14:10 [hose] length", "a pressure", "ft"},
                    Case{"\"9 ft\"", "[\"9 ft\"]", "bar.toml:14:10 [hose] length", "a list", "with a unit"},
                    Case{"\"1/4 in\"", "\"0 in\"", "bar.toml:13:8 [hose] bore", "'0 in'", "0.004 to 19 in"},
                    Case{"\"1/4 in\"", "\"-1/4 in\"", "bar.toml:13:8 [hose] bore", "'-1/4 in'", "0.004 to 19 in"},
                    Case{"\"50 F\"", "\"500 F\"", "bar.toml:4:15 [job] temperature", "'500 F'", "-40 to 212"},
                    Case{"\"5 gal/ac\"", "\"5 gal\"", "bar.toml:5:8 [job] rate", "a volume", "gal/ac"},
                    Case{"\"5 gal/ac\"", "\"0 gal/ac\"", "bar.toml:5:8 [job] rate", "out of range", "gal/ac"},
                    Case{"\"5 mph\"", "\"-5 mph\"", "bar.toml:6:9 [job] speed", "'-5 mph'", "mph"},
                    Case{"\"5 mph\"", "true", "bar.toml:6:9 [job] speed", "true is not a speed", "5 mph"},
                    Case{"rows = 4", "rows = 1_000_000_000", "bar.toml:8:8 [toolbar] rows", "1000000000", "1 to 200"},
                    Case{"rows = 4", "rows = 0", "bar.toml:8:8 [toolbar] rows", "0", "1 to 200"},
                    Case{"rows = 4", "rows = 4.0", "bar.toml:8:8 [toolbar] rows", "4.0", "a whole number"},
                    Case{"rows = 4", "rows = \"4\"", "bar.toml:8:8 [toolbar] rows", "'4'", "a whole number"},
                    Case{"bore = \"0.04 in\"", "bore = \"0.04 in\"\ncoefficient = 1.5",
                         "bar.toml:21:15 [orifice] coefficient", "1.5", "0.3 to 1"},
                    Case{"bore = \"0.04 in\"", "bore = \"0.04 in\"\nnone = 1", "bar.toml:21:8 [orifice] none", "1",
                         "true or false"},
                    Case{"speed = \"5 mph\"", "speed = \"5 mph\"\ntolerance = \"500 %\"",
                         "bar.toml:7:13 [job] tolerance", "500 %", "100 %"},
                    Case{"\"Bar\"", "\"\"", "bar.toml:1:8 name", "empty", "1 to 200"},
                    Case{"\"Bar\"", "\"two\\nlines\"", "bar.toml:1:8 name", "cannot be shown", "plain text"},
                    Case{"\"Bar\"", "1979-05-27", "bar.toml:1:8 name", "a date", "text in quotes"}));

INSTANTIATE_TEST_SUITE_P(
    Together, WrongLayout,
    testing::Values(
        Case{"length = \"9 ft\"", "", "bar.toml:12:1 [hose]", "no hose length", "one of length, lengths and schedule"},
        Case{"length = \"9 ft\"", "length = \"9 ft\"\nlengths = []", "bar.toml:15:11 [hose] lengths", "given twice",
             "one of"},
        Case{"length = \"9 ft\"", "length = \"9 ft\"\nschedule = \"shortest\"", "bar.toml:15:12 [hose] schedule",
             "given twice", "one of"},
        Case{"length = \"9 ft\"", "length = \"9 ft\"\nextra = \"1 ft\"", "bar.toml:15:9 [hose] extra", "schedule",
             "shortest"},
        Case{"length = \"9 ft\"", "lengths = [\"9 ft\", \"9 ft\", \"9 ft\"]", "bar.toml:14:11 [hose] lengths",
             "3 lengths for 4 rows", "4 lengths"},
        Case{"length = \"9 ft\"", "lengths = [\"9 ft\", \"9 ft\", \"0 ft\", \"9 ft\"]",
             "bar.toml:14:28 [hose] lengths #3", "'0 ft'", "more than 0"},
        Case{"length = \"9 ft\"", "length = \"9 ft\"\nlength = \"8 ft\"", "bar.toml:15:10 bar.toml", "length", "once"},
        Case{"bore = \"0.04 in\"", "bore = \"0.04 in\"\nrated_flow = \"1 gpm\"", "bar.toml:20:8 [orifice] bore",
             "not by both", "rated_pressure"},
        Case{"bore = \"0.04 in\"", "rated_flow = \"1 gpm\"", "bar.toml:19:1 [orifice]", "'rated_pressure'", "pressure"},
        Case{"bore = \"0.04 in\"", "rated_flow = \"900 gpm\"\nrated_pressure = \"1 psi\"",
             "bar.toml:20:14 [orifice] rated_flow", "no orifice", "bore"},
        Case{"[orifice]\nbore = \"0.04 in\"", "", "bar.toml:1:1 bar.toml", "'orifice' is missing", "orifice"},
        Case{"[hose]\nbore = \"1/4 in\"\nlength = \"9 ft\"", "", "bar.toml:1:1 bar.toml", "'hose' is missing", "hose"},
        Case{"[[manifold]]\nbore = \"1 in\"", "", "bar.toml:1:1 bar.toml", "no manifold", "[[manifold]]"},
        Case{"[[manifold]]", "[manifold]", "bar.toml:10:1 manifold", "a table is not a list", "[[manifold]]"},
        Case{"rate = \"5 gal/ac\"", "", "bar.toml:2:1 [job]", "'rate' is missing", "rate per area"},
        Case{"bore = \"1 in\"", "first_row = 3\nlast_row = 2", "bar.toml:12:12 [[manifold]] #1 last_row", "first_row 3",
             "more"},
        Case{"bore = \"1 in\"", "last_row = 5", "bar.toml:11:12 [[manifold]] #1 last_row", "5", "1 to 4"},
        Case{"speed = \"5 mph\"", "speed = \"5 mph\"\nturn = \"left\"", "bar.toml:2:1 [job]",
             "'turn_radius' is missing", "length"},
        Case{"bore = \"1 in\"", "junction_losses = \"yes\"", "bar.toml:11:19 [[manifold]] #1 junction_losses", "'yes'",
             "true or false"},
        Case{"[orifice]", "[[row]]\nnumber = 5\n[orifice]", "bar.toml:20:10 [[row]] #1 number", "5", "1 to 4"},
        Case{"[orifice]", "[[row]]\nnumber = 2\n[[row]]\nnumber = 2\n[orifice]", "bar.toml:22:10 [[row]] #2 number",
             "row 2 is changed twice", "one [[row]]"},
        Case{"[check_valve]\ncrack = \"4 psi\"\nrated_flow = \"0.5 gpm\"\nrated_loss = \"2 psi\"",
             "[[row]]\nnumber = 2\ncrack = \"2 psi\"", "bar.toml:17:9 [[row]] #1 crack", "no check valve",
             "[check_valve]"},
        Case{"[orifice]", "[[place]]\nid = \"a\"\nkind = \"air\"\n[orifice]", "bar.toml:7:1 toolbar", "[[place]]",
             "not both"},
        Case{"[orifice]",
             "[product]\nname = \"Mine\"\ndensity = \"11 lb/gal\"\nviscosity = [[\"50 F\", \"20 cP\"]]\n[orifice]",
             "bar.toml:3:11 [job] product", "10-34-0", "Mine", "Mine"},
        Case{"[orifice]", "[product]\nviscosity = [\"50 F\", \"20 cP\"]\n[orifice]",
             "bar.toml:20:14 [product] viscosity #1", "is not a pair", "cP"},
        Case{"[orifice]", "[product]\n[orifice]", "bar.toml:19:1 [product]", "no figure", "density"},
        Case{"[orifice]", "[product]\ndensity = []\n[orifice]", "bar.toml:20:11 [product] density", "the list is empty",
             "at least one [temperature, density]"},
        Case{"[orifice]", "[product]\nviscosity = []\n[orifice]", "bar.toml:20:13 [product] viscosity",
             "the list is empty", "at least one [temperature, viscosity]"},
        Case{"speed = \"5 mph\"", "speed = \"5 mph\"\nturn_radius = \"100 ft\"", "bar.toml:2:1 [job]",
             "'turn' is missing", "left"},
        Case{"bore = \"0.04 in\"", "rated_pressure = \"20 psi\"", "bar.toml:19:1 [orifice]", "'rated_flow' is missing",
             "rated_flow"},
        Case{"length = \"9 ft\"", "lengths = [\"9 ft\", \"9 ft\", \"9 ft\", \"9 ft\"]\nschedule = \"shortest\"",
             "bar.toml:14:11 [hose] lengths", "given twice: 'schedule' is there too", "one of"}));

TEST(WrongLayout, WaterBelowItsRangeIsRefusedAtItsLine) {
  std::string text = test::four_row_bar;
  text.replace(text.find("10-34-0"), 7, "water");
  text.replace(text.find("50 F"), 4, "-30 F");
  try {
    (void)parse_layout(text, "bar.toml");
    FAIL();
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind("bar.toml:4:15: [job] temperature", 0), 0U) << e.what();
  }
}

TEST(WrongLayout, NothingPlumbedIsRefused) {
  try {
    (void)parse_layout("name = \"x\"\n[job]\nproduct = \"water\"\n", "bar.toml");
    FAIL();
  } catch (const InputError& e) {
    EXPECT_NE(std::string(e.what()).find("[toolbar], or [[place]] and [[part]]"), std::string::npos) << e.what();
  }
}

TEST(WrongLayout, BrokenTomlIsRefusedNeverAborted) {
  // The first ones run into assertions of toml++ 3.3 where these are compiled in.
  for (const char* text : {"[[[toolbar]]]\n",
                           "a = ]\n",
                           "a = }\n",
                           "a = ,\n",
                           "a = [ } ]\n",
                           "[.a]\n",
                           "[=]\n",
                           "[\n",
                           "[[\n",
                           "[a\n",
                           "a\n",
                           "a =\n",
                           "= 1\n",
                           "a = tr\n",
                           "a = \"open\n",
                           "a = {b\n",
                           "a..b = 1\n",
                           "a = 1979-13-45\n",
                           "a = 0x\n",
                           "a = 1e999999\n",
                           "a = 99999999999999999999\n",
                           "a = \"\\u12\"\n",
                           "a = \"\\q\"\n",
                           "a = 1 b = 2\n",
                           "[a]\n[a]\n",
                           "a = 1\na = 2\n",
                           "a = 1\n[a]\n"}) {
    try {
      (void)parse_layout(text, "bar.toml");
      ADD_FAILURE() << "nothing thrown for " << text;
    } catch (const InputError& e) {
      EXPECT_EQ(e.where().rfind("bar.toml:", 0), 0U) << text << e.what();
      EXPECT_FALSE(e.allowed().empty()) << text << e.what();
      EXPECT_EQ(std::string(e.what()).find('\n'), std::string::npos) << e.what();
    }
  }
}

TEST(WrongLayout, QuantitiesWithoutQuotesGetAHint) {
  std::string text = test::four_row_bar;
  text.replace(text.find("\"9 ft\""), 6, "9 ft");
  try {
    (void)parse_layout(text, "bar.toml");
    FAIL();
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "bar.toml:14:12");
    EXPECT_NE(e.allowed().find("\"14 ft\""), std::string::npos) << e.what();
  }
}

}  // namespace layout_errors_test
