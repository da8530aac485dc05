// SPDX-License-Identifier: MIT
/// @file
/// Formats and options that few people use, through the real program: every one gives what the text says, or says why
/// not.

#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace output_formats_test {

using nlohmann::json;
using test::holds;
using test::Outcome;

class OutputFormats : public test::App {
 protected:
  [[nodiscard]] json json_of(std::vector<std::string> arguments, int code) const {
    arguments.emplace_back("--json");
    const Outcome r = run(arguments);
    EXPECT_EQ(r.code, code) << r.err;
    return json::parse(r.out);
  }
  /// The lines of a table without quoted commas inside its numbers, cell by cell.
  static std::vector<std::vector<std::string>> cells(const std::string& csv) {
    std::vector<std::vector<std::string>> lines;
    std::istringstream in(csv);
    for (std::string line; std::getline(in, line);) {
      if (line.ends_with('\r')) line.pop_back();
      lines.emplace_back(1);
      bool quoted = false;
      for (const char c : line) {
        if (c == '"') {
          quoted = !quoted;
        } else if (c == ',' && !quoted) {
          lines.back().emplace_back();
        } else {
          lines.back().back() += c;
        }
      }
    }
    return lines;
  }
  /// The column that is headed so.
  static std::size_t column(const std::vector<std::string>& heading, const std::string& name) {
    const auto at = std::find(heading.begin(), heading.end(), name);
    EXPECT_NE(at, heading.end()) << name;
    return static_cast<std::size_t>(at - heading.begin());
  }
  /// In one line, as it is wherever the lines break.
  static std::string joined(const std::string& text) {
    std::istringstream in(text);
    std::string out;
    for (std::string word; in >> word;) out += (out.empty() ? "" : " ") + word;
    return out;
  }
};

TEST_F(OutputFormats, CompareGivesATableOfAllRowsOfAllLayouts) {
  const std::string a = example("equal_hoses.toml"), b = example("short_hoses.toml");
  const Outcome r = run({"compare", a, b, "--csv", "--units", "metric"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto lines = cells(r.out);
  ASSERT_EQ(lines.size(), 1U + 2U * 16U);
  const json j = json_of({"compare", a, b}, 0);
  const std::size_t rate = column(lines[0], "rate (L/ha)"), row = column(lines[0], "row");
  for (std::size_t k = 0; k < 32; ++k) {
    const json& of = j["layouts"][k / 16];
    EXPECT_EQ(lines[1 + k][0], of["name"]);
    EXPECT_EQ(lines[1 + k][row], std::to_string(k % 16 + 1));
    // 1 L/ha is 1e-7 m3 per m2.
    EXPECT_NEAR(std::stod(lines[1 + k][rate]) * 1e-7, of["evenness"]["rows"][k % 16]["rate_m3_per_m2"].get<double>(),
                1e-6 * 5e-6);
  }
}

TEST_F(OutputFormats, LinesGiveATableOfTimes) {
  const std::string layout = example("short_hoses.toml");
  const Outcome r = run({"lines", layout, "--csv"});
  EXPECT_EQ(r.code, 0) << r.err;
  const auto lines = cells(r.out);
  ASSERT_EQ(lines.size(), 17U);
  const json j = json_of({"lines", layout}, 0);
  const std::size_t held = column(lines[0], "held (gal)"), full = column(lines[0], "full after (s)");
  for (std::size_t k = 0; k < 16; ++k) {
    EXPECT_NEAR(std::stod(lines[1 + k][full]), j["rows"][k]["full_after_s"].get<double>(), 1e-4);
    EXPECT_NEAR(std::stod(lines[1 + k][held]) * 0.003785411784, j["rows"][k]["held_m3"].get<double>(), 1e-9);
  }
}

TEST_F(OutputFormats, NutrientsAsJsonWithWaterAsItIsOnTheFarm) {
  const std::string layout = example("equal_hoses.toml");
  const json j = json_of({"nutrients", layout, "--water", "50 F", "--soil", "sandy", "--crop", "soybean"}, 0);
  EXPECT_NEAR(j["water_test"]["water_temperature_K"].get<double>(), 283.15, 1e-9);
  EXPECT_EQ(j["with_the_seed"]["crop"], "soybean");
  // 5 gal/ac of 11.65 lb/gal at 60 F and a little more at 40 F, a tenth of it nitrogen: 5.85 lb/ac.
  EXPECT_NEAR(j["mean"]["N_kg_per_m2"].get<double>() / (5.85 * 0.45359237 / 4046.8564224), 1.0, 5e-3);
  for (const json& limit : j["with_the_seed"]["limits"]) EXPECT_TRUE(limit["applies"].get<bool>()) << limit;
  // Warmer water is thinner: more of it comes at one pressure.
  const json warm = json_of({"nutrients", layout, "--water", "80 F"}, 0);
  EXPECT_GT(warm["water_test"]["factor_by_the_plumbing"].get<double>(),
            j["water_test"]["factor_by_the_plumbing"].get<double>());
  expect_refused(run({"nutrients", layout, "--water", "50 psi"}), 2, "--water");
}

TEST_F(OutputFormats, ThePlanOfACatchAsJson) {
  const json j = json_of({"catch", example("equal_hoses.toml"), "--time", "45 s", "--repeats", "2", "--error", "1"}, 0);
  EXPECT_EQ(j["time_s"].get<double>(), 45.0);
  EXPECT_EQ(j["repeats"], 2);
  EXPECT_EQ(j["reading_error"].get<double>(), 0.01);
  ASSERT_EQ(j["rows"].size(), 16U);
  // 5 gal/ac at 5 mph on 30 in: 0.12626 gpm, in 45 s 12.12 fl oz of 29.5735 mL.
  double sum = 0.0;
  for (const json& row : j["rows"]) sum += row["product_m3"].get<double>() / 16.0;
  EXPECT_NEAR(sum / 29.5735e-6, 0.126263 * 128.0 * 0.75, 2e-3);
}

TEST_F(OutputFormats, PlumbingPlaceByPlaceIsJudgedButNotDiagnosed) {
  const std::string layout = example("tees.toml");
  std::string cups = "row, volume\n";
  for (int row = 1; row <= 4; ++row) cups += std::to_string(row) + ", 1 l\n";
  const std::string readings = file("cups.csv", cups);
  expect_refused(run({"catch", layout, readings, "--calibrated", "built.toml"}), 2,
                 "--calibrated: the layout is given place by place: it has no diagnosis; allowed: a layout with "
                 "[toolbar]");
  const Outcome r = run({"catch", layout, readings});
  EXPECT_TRUE(holds(r.out, "No diagnosis: the layout is given place by place.")) << r.out << r.err;
  EXPECT_TRUE(json::parse(run({"catch", layout, readings, "--json"}).out)["diagnosis"].is_null());
}

TEST_F(OutputFormats, WhatIsWrongWithTheLayoutOrTheCupsNamesTheFile) {
  const std::string layout = example("equal_hoses.toml");
  const std::string one = file("one.csv", "row, volume\n1, 8 fl oz\n");
  expect_refused(run({"catch", layout, one}), 2, "libflow: " + layout + ": catch test: ");
  // No row gets anything at 2 psi: the valves open at 4 psi.
  const std::string shut = changed("pump_limit = \"60 psi\"", "pressure = \"2 psi\"");
  const Outcome r = run({"catch", shut, example("catch_day.csv")});
  EXPECT_EQ(r.code, 2) << r.out;
  EXPECT_TRUE(r.err.starts_with("libflow: " + shut + ": ")) << r.err;
}

/// The example of tees with a hose that leads from nowhere to nowhere.
std::string with_a_stray_hose(std::string text) {
  const std::string place = "  { id = \"feed tee\"", part = "  { id = \"arm 2\"";
  text.insert(text.find(place),
              "  { id = \"stray a\", kind = \"junction\" }, { id = \"stray b\", kind = \"junction\" },\n");
  text.insert(text.find(part),
              "  { id = \"stray\", kind = \"hose\", from = \"stray a\", to = \"stray b\", length = \"1 ft\", bore = "
              "\"1 in\" },\n");
  return text;
}

TEST_F(OutputFormats, PlumbingWithoutAnAnswerIsNamedByEveryCommand) {
  const std::string stray = file("stray.toml", with_a_stray_hose(test::content(example("tees.toml"))));
  const std::string why = "libflow: " + stray + ": no supply is joined to ";
  const Outcome checked = run({"check", stray});
  EXPECT_EQ(checked.code, 2) << checked.out;
  EXPECT_TRUE(checked.err.starts_with(why)) << checked.err;
  EXPECT_TRUE(holds(checked.err, "'stray a'") && holds(checked.err, "'stray b'")) << checked.err;
  const std::string readings = file("cups.csv", "row, volume\n1, 1 l\n2, 1 l\n3, 1 l\n4, 1 l\n");
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"solve", stray}, {"catch", stray}, {"catch", stray, readings}}) {
    const Outcome r = run(command);
    EXPECT_EQ(r.code, 3) << r.out;
    EXPECT_TRUE(r.err.starts_with(why)) << r.err;
  }
}

TEST_F(OutputFormats, CheckSaysWhereHosesCannotReach) {
  // 22 ft reach every row of the example. 10 ft, 3.05 m, do not: row k from the middle is (k - 0.5) 0.712 m off its
  // port, 3.2 m and more from the fifth to the eighth on both sides.
  const Outcome r = run({"check", changed("length = \"22 ft\"", "length = \"10 ft\"")});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "changed.toml': good: 16 rows")) << r.out;
  EXPECT_TRUE(holds(r.out, "BUT in 8 of its rows: the hose is shorter than its run along the bar")) << r.out;
  EXPECT_FALSE(holds(run({"check", example("equal_hoses.toml")}).out, "BUT"));
}

/// Options of a terminal, which only a terminal shows.
class OnATerminal : public OutputFormats {
 protected:
  /// Runs the program on a pseudo terminal; what it writes to both of its outputs.
  [[nodiscard]] Outcome run_there(const std::vector<std::string>& arguments) const {
    std::string inner = test::in_shell_quotes(LIBFLOW_APP);
    for (const std::string& a : arguments) inner += " " + test::in_shell_quotes(a);
    const std::string command = "cd " + test::in_shell_quotes((folder_ / "work").string()) +
                                " && env -u COLUMNS TERM=xterm script -qec " + test::in_shell_quotes(inner) +
                                " /dev/null >../out 2>../err </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, test::content(folder_ / "out"),
            test::content(folder_ / "err")};
  }
};

TEST_F(OnATerminal, APageAsksForAFile) {
  const Outcome r = run_there({"report", example("equal_hoses.toml")});
  EXPECT_EQ(r.code, 2) << r.out;
  EXPECT_TRUE(holds(joined(r.out),
                    "libflow: -o: a page is for a browser, and this is a terminal; allowed: a file: -o "
                    "page.html, or a pipe"))
      << r.out;
  EXPECT_FALSE(holds(r.out, "<!DOCTYPE")) << "no page on the screen";
}

TEST_F(OnATerminal, ALongCommandShowsHowFarItIs) {
  const std::vector<std::string> command{"envelope", example("equal_hoses.toml")};
  const Outcome r = run_there(command);
  EXPECT_TRUE(holds(r.out, "0%   10   20   30   40   50   60   70   80   90   100%")) << r.out;
  EXPECT_TRUE(holds(r.out, "***************************************************")) << "to its end\n" << r.out;
  std::vector<std::string> quiet = command;
  quiet.emplace_back("-q");
  EXPECT_FALSE(holds(run_there(quiet).out, "100%\r\n|----|")) << "asked to be quiet";
  EXPECT_FALSE(holds(run(command).err, "|----|")) << "no bar in a file";
}

TEST_F(OnATerminal, TheVerdictIsColouredUnlessTheUserWantsNone) {
  EXPECT_TRUE(holds(run_there({"solve", example("short_hoses.toml")}).out, "\x1b[1;31mNOT EVEN"));
  EXPECT_FALSE(holds(run({"solve", example("short_hoses.toml")}).out, "\x1b"));
}

// Ctrl-C as a person types it, when the bar shows that the work has begun: what is done is kept and said.
TEST_F(OnATerminal, AnInterruptKeepsWhatIsDone) {
  int terminal = -1;
  const std::string layout = example("as_built.toml");
  const pid_t child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
  if (child == 0) {
    ::execl(LIBFLOW_APP, LIBFLOW_APP, "tolerance", layout.c_str(), "--machines", "1000000", nullptr);
    ::_exit(127);
  }
  std::string shown;
  char piece[4096];
  bool typed = false;
  pollfd ready{.fd = terminal, .events = POLLIN, .revents = 0};
  while (::poll(&ready, 1, 60000) == 1) {
    const ssize_t n = ::read(terminal, piece, sizeof piece);
    if (n <= 0) break;
    shown.append(piece, static_cast<std::size_t>(n));
    if (typed || !holds(shown, "|----|")) continue;
    typed = ::write(terminal, "\x03", 1) == 1;
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ::close(terminal);
  ASSERT_TRUE(WIFEXITED(status)) << "killed instead of stopped\n" << shown;
  EXPECT_EQ(WEXITSTATUS(status), 4) << shown;
  EXPECT_TRUE(holds(joined(shown), "STOPPED before the end") || holds(joined(shown), "NOTHING DONE: stopped before"))
      << shown;
}

}  // namespace output_formats_test
}  // namespace libflow
