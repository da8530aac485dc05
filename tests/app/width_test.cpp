// SPDX-License-Identifier: MIT
/// @file
/// No line is wider than it may be: help 80 columns, texts 100, and prose 80 where COLUMNS or the terminal says so.

#include <fcntl.h>
#include <pty.h>
#include <sys/ioctl.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace width_test {

using test::holds;
using test::Outcome;

class Width : public test::App {
 protected:
  /// The names of all commands, from the program's own help.
  [[nodiscard]] std::vector<std::string> commands() const {
    std::istringstream in(run({"--help"}).out);
    std::vector<std::string> names;
    bool inside = false;
    for (std::string line; std::getline(in, line);) {
      if (line.starts_with("Subcommands:")) {
        inside = true;
      } else if (line.empty()) {
        inside = false;
      } else if (inside && line.size() > 2 && line[2] != ' ') {
        names.push_back(line.substr(2, line.find(' ', 2) - 2));
      }
    }
    return names;
  }
  [[nodiscard]] static std::size_t columns(const std::string& line) {
    return static_cast<std::size_t>(std::count_if(
        line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  }
  /// Prose: a sentence, which has no run of blanks in it and is no bare heading of a table.
  [[nodiscard]] static bool is_prose(const std::string& line) {
    const std::size_t begin = line.find_first_not_of(" -");
    return begin != std::string::npos && line.find("  ", begin) == std::string::npos &&
           line.find('|') == std::string::npos && line.find("+--") == std::string::npos;
  }
  [[nodiscard]] std::vector<std::vector<std::string>> texts() const {
    const std::string bar = example("pump_and_tank_bar.toml"), shorts = example("short_hoses.toml");
    return {
        {"solve", shorts},
        {"solve", bar, "--units", "metric"},
        {"solve", example("tees.toml")},
        {"explain", shorts, "8"},
        {"explain", bar, "1"},
        {"compare", example("equal_hoses.toml"), shorts},
        {"compare", example("equal_hoses.toml"), shorts, "--speeds", "4 mph, 6 mph", "--rates", "4 gal/ac, 6 gal/ac"},
        {"point", bar},
        {"envelope", shorts},
        {"card", bar},
        {"whatif", bar},
        {"size", example("sizing.toml")},
        {"equal", shorts},
        {"drawdown", bar},
        {"order", bar},
        {"nutrients", example("equal_hoses.toml")},
        {"blend", "100 gal of 32-0-0", "19 gal of water"},
        {"tolerance", example("as_built.toml"), "--machines", "5000"},
        {"lines", example("tank_and_pump.toml")},
        {"catch", example("equal_hoses.toml")},
        {"catch", example("equal_hoses.toml"), example("catch_day.csv"), "--gauge", "39 psi"},
        {"new"}};
  }
};

TEST_F(Width, OfHelpIsEightyColumns) {
  std::vector<std::string> names = commands();
  EXPECT_GT(names.size(), 20U);
  names.emplace_back();  // the program's own
  for (const std::string& name : names) {
    const Outcome r = name.empty() ? run({"--help"}) : run({name, "--help"});
    EXPECT_EQ(r.code, 0) << name;
    std::istringstream in(r.out);
    int lines = 0;
    for (std::string line; std::getline(in, line); ++lines) {
      // Run by its full name, the program shows where it stands.
      if (line.starts_with("Usage:"))
        line.replace(0, line.find(LIBFLOW_APP) + std::string(LIBFLOW_APP).size(), "Usage: libflow");
      EXPECT_LE(columns(line), 80U) << name << ": " << line;
    }
    EXPECT_GT(lines, 5) << name;
  }
}

TEST_F(Width, OfTextsIsAHundredColumns) {
  for (const auto& arguments : texts()) {
    std::istringstream in(run(arguments).out);
    for (std::string line; std::getline(in, line);) EXPECT_LE(columns(line), 100U) << arguments[0] << ": " << line;
  }
}

TEST_F(Width, OfProseFollowsColumns) {
  for (const auto& arguments : texts()) {
    if (arguments[0] == "new") continue;  // a file, with comments as they are written
    std::istringstream in(run(arguments, {.environment = "COLUMNS=80"}).out);
    for (std::string line; std::getline(in, line);) {
      if (is_prose(line)) {
        EXPECT_LE(columns(line), 80U) << arguments[0] << ": " << line;
      }
      EXPECT_LE(columns(line), 100U) << arguments[0] << ": " << line;
    }
  }
}

TEST_F(Width, OfAFileIsTheSameEverywhere) {
  EXPECT_NE(run({"solve", example("short_hoses.toml")}).out,
            run({"solve", example("short_hoses.toml")}, {.environment = "COLUMNS=80"}).out);
  EXPECT_EQ(run({"solve", example("short_hoses.toml"), "-o", "a.txt"}, {.environment = "COLUMNS=80"}).code, 1);
  EXPECT_EQ(test::content(folder_ / "work" / "a.txt"), run({"solve", example("short_hoses.toml")}).out);
  // What is no number of columns is no wish.
  EXPECT_EQ(run({"solve", example("short_hoses.toml")}, {.environment = "COLUMNS=wide"}).out,
            run({"solve", example("short_hoses.toml")}).out);
}

TEST_F(Width, FollowsTheTerminal) {
  const auto widest = [&](unsigned short terminal_columns) {
    const winsize size{.ws_row = 40, .ws_col = terminal_columns, .ws_xpixel = 0, .ws_ypixel = 0};
    int terminal = -1;
    const pid_t child = ::forkpty(&terminal, nullptr, nullptr, &size);
    if (child == 0) {
      ::setenv("TERM", "dumb", 1);
      ::unsetenv("COLUMNS");
      ::execl(LIBFLOW_APP, LIBFLOW_APP, "solve", example("short_hoses.toml").c_str(), nullptr);
      ::_exit(127);
    }
    std::string text;
    char piece[4096];
    for (ssize_t n = 0; (n = ::read(terminal, piece, sizeof piece)) > 0;)
      text.append(piece, static_cast<std::size_t>(n));
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(terminal);
    EXPECT_EQ(WEXITSTATUS(status), 1) << text;
    std::size_t most = 0;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
      if (line.ends_with('\r')) line.pop_back();
      most = std::max(most, columns(line));
    }
    return most;
  };
  EXPECT_LE(widest(80), 80U);
  EXPECT_GT(widest(100), 90U);
  EXPECT_LE(widest(240), 100U);  // longer lines are hard to read
}

}  // namespace width_test
}  // namespace libflow
