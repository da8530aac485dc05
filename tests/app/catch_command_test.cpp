// SPDX-License-Identifier: MIT
/// @file
/// The subcommand catch through the real program: plan, verdict, diagnosis, the layout as built.

#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace catch_command_test {

using test::holds;
using test::Outcome;

class CatchCommand : public test::App {};

TEST_F(CatchCommand, WithoutReadingsItIsThePlan) {
  const Outcome r = run({"catch", example("equal_hoses.toml"), "--time", "45 s"});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "CATCH TEST: 45 s under each row")) << r.out;
}

// The day's readings were invented with a check valve of row 5 that opens at 7 psi and a bore of 0.052 in in row 12.
TEST_F(CatchCommand, OneCatchNamesWhatLooksTheSame) {
  const Outcome r = run({"catch", example("equal_hoses.toml"), example("catch_day.csv"), "--gauge", "39 psi"});
  EXPECT_EQ(r.code, 1) << r.err;
  EXPECT_TRUE(holds(r.out, "NOT EVEN")) << r.out;
  EXPECT_TRUE(holds(r.out, "DIAGNOSIS: 2 causes explain the cups.")) << r.out;
  EXPECT_TRUE(holds(r.out, "Row 5 gets")) << r.out;
  EXPECT_TRUE(holds(r.out, "Row 12 gets")) << r.out;
  EXPECT_TRUE(holds(r.out, "To tell them apart")) << r.out;
}

TEST_F(CatchCommand, TwoCatchesGiveTheLayoutAsBuilt) {
  const Outcome r =
      run({"catch", example("equal_hoses.toml"), example("catch_day.csv"), "--gauge", "39 psi", "--second",
           example("catch_day_low.csv"), "--second-gauge", "15 psi", "--calibrated", "built.toml", "--json"});
  EXPECT_EQ(r.code, 1) << r.err;
  const auto causes = nlohmann::json::parse(r.out)["diagnosis"]["causes"];
  ASSERT_EQ(causes.size(), 2U) << r.out;
  bool valve = false, orifice = false;
  for (const auto& c : causes) {
    const auto best = c["likely"][0];
    if (best["rows"][0] == 5) {
      valve = best["kind"] == "check-valve";
      EXPECT_NEAR(best["size"].get<double>() / 6894.757, 3.0, 0.5) << r.out;
    }
    if (best["rows"][0] == 12) orifice = best["kind"] == "orifice";
  }
  EXPECT_TRUE(valve) << r.out;
  EXPECT_TRUE(orifice) << r.out;
  const std::string built = test::content(folder_ / "work" / "built.toml");
  EXPECT_TRUE(holds(built, "# As built, from a catch test")) << built;
  const Outcome solved = run({"solve", "built.toml", "--json"});
  EXPECT_EQ(solved.code, 1) << solved.err;
  const auto rows = nlohmann::json::parse(solved.out)["evenness"]["rows"];
  EXPECT_LT(rows[4]["deviation"].get<double>(), -0.03);
  EXPECT_GT(rows[11]["deviation"].get<double>(), 0.03);
  // A file that exists is kept.
  const Outcome again =
      run({"catch", example("equal_hoses.toml"), example("catch_day.csv"), "--calibrated", "built.toml"});
  EXPECT_EQ(again.code, 2) << again.out;
  EXPECT_EQ(test::content(folder_ / "work" / "built.toml"), built);
}

TEST_F(CatchCommand, ThePageHoldsSheetOrFindings) {
  const std::string layout = example("equal_hoses.toml");
  const Outcome plan = run({"catch", layout, "--page", "sheet.html"});
  EXPECT_EQ(plan.code, 0) << plan.err;
  const std::string sheet = test::content(folder_ / "work" / "sheet.html");
  EXPECT_TRUE(holds(sheet, "<h1>Catch test: North bar, all hoses 22 ft</h1>"));
  EXPECT_LT(sheet.find("id=\"catch\""), sheet.find("id=\"product\""));
  const Outcome found = run({"catch", layout, example("catch_day.csv"), "--gauge", "39 psi", "--page", "found.html"});
  EXPECT_EQ(found.code, 1) << found.err;
  const std::string page = test::content(folder_ / "work" / "found.html");
  EXPECT_TRUE(holds(page, "<h1>The cups say: NOT EVEN: rows 5, 12 read outside")) << page;
  EXPECT_TRUE(holds(page, "row 5&#39;s check valve sticks") || holds(page, "row 5's check valve sticks")) << page;
  EXPECT_TRUE(holds(page, "To tell them apart")) << page;
}

TEST_F(CatchCommand, ForceReplacesEveryFileThatItWrites) {
  const std::string layout = example("equal_hoses.toml"), cups = example("catch_day.csv");
  const std::string page = file("work/page.html", "old"), built = file("work/built.toml", "old");
  EXPECT_EQ(run({"catch", layout, cups, "--page", "page.html"}).code, 2);
  EXPECT_EQ(run({"catch", layout, cups, "--calibrated", "built.toml"}).code, 2);
  EXPECT_EQ(test::content(page) + test::content(built), "oldold");
  const Outcome r = run({"catch", layout, cups, "--page", "page.html", "--calibrated", "built.toml", "--force"});
  EXPECT_EQ(r.code, 1) << r.err;
  EXPECT_TRUE(holds(test::content(page), "Catch test"));
  EXPECT_TRUE(holds(test::content(built), "As built"));
  EXPECT_EQ(run({"catch", layout, cups, "--force"}).code, 2);  // nothing to replace
}

TEST_F(CatchCommand, TheLastWordStandsOnceAtTheEnd) {
  const std::string layout = example("equal_hoses.toml"), cups = example("catch_day.csv");
  const std::string word = "This is a computation, not a permission.";
  const std::string out = run({"catch", layout, cups, "--gauge", "39 psi", "--second", example("catch_day_low.csv"),
                               "--second-gauge", "15 psi"})
                              .out;
  EXPECT_EQ(out.find(word), out.rfind(word)) << out;
  EXPECT_GT(out.find(word), out.find("DIAGNOSIS")) << out;
}

TEST_F(CatchCommand, TheReportSaysWhatTheCupsSay) {
  const std::string layout = example("equal_hoses.toml"), cups = example("catch_day.csv");
  const Outcome r = run({"report", layout, "--catch", cups, "--gauge", "39 psi", "-o", "page.html"});
  EXPECT_EQ(r.code, 1) << r.err;  // the cups' verdict; the layout's own is even
  const std::string page = test::content(folder_ / "work" / "page.html");
  EXPECT_TRUE(holds(page, "id=\"catch-test\"")) << page;
  EXPECT_TRUE(holds(page, "<h1>The cups say: NOT EVEN: rows 5, 12 read outside")) << page;
  EXPECT_TRUE(holds(page, "The layout predicts: EVEN")) << page;
  EXPECT_TRUE(holds(page, "Row 12 gets")) << page;
  EXPECT_TRUE(holds(page, "id=\"catch\"")) << page;  // the sheet for the next time
  const Outcome two = run({"report", layout, "--catch", cups, "--gauge", "39 psi", "--second",
                           example("catch_day_low.csv"), "--second-gauge", "15 psi"});
  EXPECT_TRUE(holds(two.out, "id=\"catch-test-2\"")) << two.out;
  EXPECT_EQ(run({"report", layout, "--gauge", "39 psi", "-o", "other.html"}).code, 2);
  EXPECT_TRUE(holds(run({"report", layout, layout, "--catch", cups}).err, "several layouts"));
}

TEST_F(CatchCommand, AWholeBarThatIsLowIsSaidBeforeItsRows) {
  std::string low = "row, volume [ml], repeat\n";
  for (int row = 1; row <= 16; ++row) {
    for (int k = 1; k <= 3; ++k)
      low += std::to_string(row) + ", " + std::to_string(90 + k) + ", " + std::to_string(k) + "\n";
  }
  const std::string cups = file("low.csv", low), layout = example("equal_hoses.toml");
  for (const std::vector<std::string>& second :
       {std::vector<std::string>{}, {"--second", example("catch_day_low.csv"), "--second-gauge", "15 psi"}}) {
    std::vector<std::string> command{"catch", layout, cups, "--gauge", "39 psi"};
    command.insert(command.end(), second.begin(), second.end());
    const Outcome r = run(command);
    EXPECT_EQ(r.out.rfind("THE WHOLE BAR IS LOW: every row collects some 61 % less", 0), 0U) << r.out;
    EXPECT_LT(r.out.find("The gauge, where the liquid"), r.out.find("EVEN:")) << r.out;
    EXPECT_TRUE(holds(r.out, "First find out why the whole bar is off")) << r.out;
  }
  const auto json = nlohmann::json::parse(run({"catch", layout, cups, "--gauge", "39 psi", "--json"}).out);
  EXPECT_TRUE(json["level"]["off"]);
  EXPECT_NEAR(json["level"]["change"].get<double>(), 92.0 / 238.7 - 1.0, 2e-3);  // 8.07 fl oz are 238.7 ml
}

/// A table of 16 rows of 8.1 fl oz, one line replaced; left out where `line` is empty.
std::string cups_with(int row, const std::string& line, const std::string& unit = "fl oz") {
  std::string text = "row, volume [" + unit + "]\n";
  for (int k = 1; k <= 16; ++k) {
    if (k != row) text += std::to_string(k) + (k % 2 == 0 ? ", 8.0\n" : ", 8.1\n");
    if (k == row && !line.empty()) text += line + "\n";
  }
  return text;
}

/// Lines joined, so that a phrase is found wherever it is broken.
std::string joined(std::string text) {
  for (char& c : text) c = c == '\n' ? ' ' : c;
  return text;
}

TEST_F(CatchCommand, ABadReadingIsSaidFirstAndAccusesNoPart) {
  const std::string layout = example("equal_hoses.toml");
  const auto said = [&](const std::string& text) {
    const Outcome r = run({"catch", layout, file("cups.csv", text), "--gauge", "39 psi"});
    EXPECT_EQ(r.code, 1) << r.err;
    EXPECT_FALSE(holds(r.out, "100 %)")) << r.out;
    return r.out;
  };
  const std::string empty = said(cups_with(4, "4, 0"));
  EXPECT_EQ(empty.rfind("Row 4 gave nothing: plugged, shut or not caught; look there and catch again.\n", 0), 0U)
      << empty;
  EXPECT_TRUE(holds(joined(empty), "DIAGNOSIS: no cause besides what was set aside: row 4 (nothing caught).")) << empty;
  EXPECT_TRUE(holds(joined(empty), "mean rate 4.67 gal/ac")) << empty;
  const std::string slipped = said(cups_with(7, "7, 81"));
  EXPECT_EQ(
      slipped.rfind("Look at the reading of row 7 first: 81 fl oz looks like 8.1 fl oz with a slipped decimal", 0), 0U)
      << slipped;
  EXPECT_FALSE(holds(slipped, "  OUTSIDE")) << slipped;  // as the mark of a row
  EXPECT_TRUE(holds(joined(said(cups_with(8, ""))), "; row 8 has no cup.")) << "a missing row";
  EXPECT_TRUE(holds(said(cups_with(0, "", "ml")), "THE WHOLE BAR IS LOW")) << "another unit";
  EXPECT_TRUE(holds(joined(said(cups_with(0, "", "ml"))), "29.6 times too little, the ratio of fl oz to ml"));
}

TEST_F(CatchCommand, ARowThatIsCaughtTwiceIsSaidAloud) {
  const Outcome r = run(
      {"catch", example("equal_hoses.toml"), file("cups.csv", cups_with(3, "3, 8.1\n3, 8.0")), "--gauge", "39 psi"});
  EXPECT_EQ(r.code, 0) << r.out;
  EXPECT_TRUE(holds(joined(r.out), "Row 3 was caught twice, the other rows once")) << r.out;
}

TEST_F(CatchCommand, AllMistakesOfATableAreToldAtOnce) {
  const std::string layout = example("equal_hoses.toml");
  const Outcome r = run({"catch", layout, file("cups.csv", "row, volume [fl oz]\n1, ten\n2, 8.1\nthree, 8.1\n")});
  expect_refused(r, 2, "cups.csv: 2 mistakes:\n");
  EXPECT_TRUE(holds(r.err, "cups.csv:2:4, volume of row 1: 'ten' does not start with a number")) << r.err;
  EXPECT_TRUE(holds(r.err, "cups.csv:4:1, row: 'three'")) << r.err;
}

TEST_F(CatchCommand, APageSaysItsFileAndDay) {
  const std::string layout = example("equal_hoses.toml");
  const auto page_of = [&](std::vector<std::string> arguments, const std::string& environment) {
    arguments.insert(arguments.end(), {"--force", "-o", "page.html"});
    const Outcome r = run(arguments, {.environment = environment});
    EXPECT_EQ(r.code, 0) << r.err;
    return test::content(folder_ / "work" / "page.html");
  };
  EXPECT_TRUE(holds(page_of({"report", layout, "--date", "2026-02-28"}, ""), ">equal_hoses.toml, 2026-02-28<"));
  // SOURCE_DATE_EPOCH (reproducible-builds.org): the same page to the last byte whenever it is made. 86400 s is a day.
  const std::string fixed = page_of({"report", layout, layout}, "SOURCE_DATE_EPOCH=86400");
  EXPECT_TRUE(holds(fixed, ">equal_hoses.toml, equal_hoses.toml, 1970-01-02<"));
  const Outcome sheet = run({"catch", layout, "--page", "sheet.html", "--date", "2024-02-29"});
  EXPECT_EQ(sheet.code, 0) << sheet.err;
  EXPECT_TRUE(holds(test::content(folder_ / "work" / "sheet.html"), ">equal_hoses.toml, 2024-02-29<"));
}

TEST_F(CatchCommand, RefusesADateThatThereIsNot) {
  const std::string layout = example("equal_hoses.toml");
  for (const char* date : {"2026-02-29", "26-11-2026", "2026-1-1", "today", "2026-11-2x"}) {
    expect_refused(run({"report", layout, "--date", date}), 2, "as 2026-11-26");
  }
  expect_refused(run({"report", layout}, {.environment = "SOURCE_DATE_EPOCH=soon"}), 2, "SOURCE_DATE_EPOCH");
  expect_refused(run({"catch", layout, "--date", "2026-11-26"}), 2, "--page");
}

/// Three cups of each of 16 rows, the middle one of `ounces`, those of some rows a share of it.
template <class Rows>
std::string cups_of(double ounces, const Rows& rows, double share) {
  std::string text = "row, volume [fl oz], repeat\n";
  for (int row = 1; row <= 16; ++row) {
    for (int k = 1; k <= 3; ++k) {
      const double volume = ounces * (1.0 + 0.005 * (k - 2)) * (rows(row) ? share : 1.0);
      text += std::to_string(row) + ", " + std::to_string(volume) + ", " + std::to_string(k) + "\n";
    }
  }
  return text;
}

// Row 7 gives much more than it should at a high pressure and much less at a low one: no part does that.
TEST_F(CatchCommand, WhatNothingExplainsIsLeftOutOfTheLayoutAsBuiltAndSaid) {
  const auto cups = [](double ounces, double of_row_7) {
    return cups_of(
        ounces, [](int row) { return row == 7; }, of_row_7);
  };
  const Outcome r =
      run({"catch", example("equal_hoses.toml"), file("high.csv", cups(8.07, 1.4)), "--gauge", "39 psi", "--second",
           file("low.csv", cups(3.12, 0.7)), "--second-gauge", "15 psi", "--calibrated", "built.toml"});
  EXPECT_EQ(r.code, 1) << r.out;
  EXPECT_TRUE(holds(joined(r.out), "Nothing that was tried explains row 7 well. The nearest:")) << r.out;
  EXPECT_EQ(r.err,
            "libflow: built.toml leaves out what nothing explains (row 7): it is the bar without that fault, and may "
            "look even.\n");
  const std::string built = test::content(folder_ / "work" / "built.toml");
  EXPECT_TRUE(holds(joined(built), "left out: it is not known of the bar itself")) << built;
  EXPECT_EQ(run({"solve", "built.toml", "-q"}).code, run({"solve", example("equal_hoses.toml"), "-q"}).code) << built;
}

// At the second pressure the bar's left half gives half of what the right one does, at the first as much: no part, and
// no slope, does that either.
TEST_F(CatchCommand, AWholeBarThatNothingExplainsIsSaidOnce) {
  const auto none = [](int) { return false; };
  const auto left = [](int row) { return row <= 8; };
  const Outcome r = run({"catch", example("equal_hoses.toml"), file("high.csv", cups_of(8.07, none, 1.0)), "--gauge",
                         "39 psi", "--second", file("low.csv", cups_of(1.4 * 3.12, left, 0.5)), "--second-gauge",
                         "15 psi", "--calibrated", "built.toml"});
  EXPECT_EQ(r.code, 1) << r.out;
  EXPECT_EQ(
      r.err,
      "libflow: built.toml leaves out what nothing explains (the whole bar): it is the bar without that fault, and may "
      "look even.\n");
}

// Place by place there is no diagnosis, on a page neither; the verdict on the cups stands.
TEST_F(CatchCommand, PlumbingPlaceByPlaceIsJudgedAndNotDiagnosed) {
  const std::string layout = example("tank_and_pump.toml");
  std::string text = "row, volume [fl oz]\n";
  for (int row = 1; row <= 4; ++row) text += std::to_string(row) + (row == 2 ? ", 16.5\n" : ", 18.2\n");
  const std::string cups = file("cups.csv", text);
  const Outcome said = run({"catch", layout, cups, "--page", "found.html"});
  EXPECT_EQ(said.code, 1) << said.err;
  EXPECT_TRUE(holds(said.out, "No diagnosis: the layout is given place by place.")) << said.out;
  const Outcome reported = run({"report", layout, "--catch", cups});
  EXPECT_EQ(reported.code, 1) << reported.err;
  for (const std::string& page : {test::content(folder_ / "work" / "found.html"), reported.out}) {
    EXPECT_TRUE(holds(page, "The cups say: NOT EVEN: row 2 reads outside")) << page;
    EXPECT_FALSE(holds(page, "DIAGNOSIS")) << page;
    EXPECT_TRUE(page.ends_with("</html>\n"));
  }
  const Outcome built = run({"catch", layout, cups, "--calibrated", "built.toml"});
  EXPECT_EQ(built.code, 2) << built.out;
  EXPECT_TRUE(holds(built.err, "place by place")) << built.err;
}

TEST_F(CatchCommand, ForceGoesWithAnyFileThatItWrites) {
  const std::string layout = example("equal_hoses.toml");
  for (const std::vector<std::string>& where :
       {std::vector<std::string>{"-o", "out.txt"}, {"--page", "out.txt"}, {"-o", "other.txt", "--page", "out.txt"}}) {
    const std::string old = file("work/out.txt", "old");
    std::vector<std::string> command{"catch", layout, "--force"};
    command.insert(command.end(), where.begin(), where.end());
    const Outcome r = run(command);
    EXPECT_EQ(r.code, 0) << r.err;
    EXPECT_NE(test::content(old), "old");
    EXPECT_GT(test::content(old).size(), 1000U);
  }
}

// What is wrong with the second file is said of it, with its line; what is wrong with the layout, of the layout.
TEST_F(CatchCommand, MistakesAreSaidOfTheirOwnFile) {
  const std::string layout = example("equal_hoses.toml"), first = example("catch_day.csv");
  const std::string beyond = file("second.csv", "row, volume\n1, 90 ml\n17, 90 ml\n");  // the bar has 16 rows
  const Outcome second =
      run({"catch", layout, first, "--gauge", "39 psi", "--second", beyond, "--second-gauge", "15 psi"});
  expect_refused(second, 2, "libflow: " + beyond + ":3:1");
  EXPECT_TRUE(second.err.ends_with("\n     3 | 17, 90 ml\n       | ^\n")) << second.err;
  EXPECT_FALSE(holds(second.err, "equal_hoses.toml")) << second.err;
  // No row gets anything at 2 psi: the valves open at 4 psi.
  const std::string shut = changed("pump_limit = \"60 psi\"", "pressure = \"2 psi\"");
  const Outcome r = run({"catch", shut, first, "--second", example("catch_day_low.csv"), "--second-gauge", "15 psi"});
  expect_refused(r, 2, "libflow: " + shut + ": ");
  expect_refused(run({"catch", layout, "--second", first, "--second-gauge", "15 psi"}), 2,
                 "--second: there are no readings; allowed: libflow catch FILE READINGS");
}

TEST_F(CatchCommand, RefusesReadingsThatCannotBe) {
  const std::string layout = example("equal_hoses.toml");
  expect_refused(run({"catch", layout, file("cups.csv", "row,volume\n1,240 ml\n2,240 psi\n")}), 2, ":3");
  expect_refused(run({"catch", layout, file("cups.csv", "row,volume\n1,240 ml\n17,240 ml\n")}), 2, "17");
  expect_refused(run({"catch", layout, "--calibrated", "x.toml"}), 2, "no readings");
  expect_refused(run({"catch", layout, example("catch_day.csv"), "--gauge", "39"}), 2, "--gauge");
  expect_refused(run({"catch", layout, example("catch_day.csv"), "--orifices", "0.04 gpm"}), 2, "--orifices");
}

}  // namespace catch_command_test
}  // namespace libflow
