// SPDX-License-Identifier: MIT
/// @file
/// The program as a person at a terminal meets it: Ctrl-C keeps what is done, colours, bars of progress, widths.

#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace terminal_test {

using test::holds, test::says;

/// What a person does there.
struct Typed {
  std::string cue = {};   ///< what has to be shown first
  std::string keys = {};  ///< what is typed then, once
};

/// What the program finds there; the rest of the environment is that of the tests.
using Variables = std::vector<std::pair<const char*, const char*>>;  // nullptr: not set

class Terminal : public test::App {
 protected:
  struct Shown {
    int code = -1;  ///< -1: ended by a signal
    std::string text;
  };

  /// Runs the program in work/ on a terminal that tells no size.
  [[nodiscard]] Shown there(std::vector<std::string> arguments, const Typed& typed = {},
                            const Variables& variables = {}) const {
    arguments.insert(arguments.begin(), LIBFLOW_APP);
    std::vector<char*> words;
    for (std::string& a : arguments) words.push_back(a.data());
    words.push_back(nullptr);
    const std::string folder = (folder_ / "work").string();
    int terminal = -1;
    const pid_t child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
    if (child == 0) {
      ::unsetenv("COLUMNS");
      ::unsetenv("NO_COLOR");
      ::setenv("TERM", "xterm", 1);
      for (const auto& [name, value] : variables) {
        if (value == nullptr) {
          ::unsetenv(name);
        } else {
          ::setenv(name, value, 1);
        }
      }
      if (::chdir(folder.c_str()) == 0) ::execv(words[0], words.data());
      ::_exit(127);
    }
    Shown shown;
    char piece[4096];
    bool done = typed.keys.empty();
    pollfd ready{.fd = terminal, .events = POLLIN, .revents = 0};
    while (::poll(&ready, 1, 60000) == 1) {
      const ssize_t n = ::read(terminal, piece, sizeof piece);
      if (n <= 0) break;
      shown.text.append(piece, static_cast<std::size_t>(n));
      if (done || !holds(shown.text, typed.cue)) continue;
      done = ::write(terminal, typed.keys.data(), typed.keys.size()) > 0;
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(terminal);
    shown.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return shown;
  }
  [[nodiscard]] Shown interrupted(const std::vector<std::string>& arguments) const {
    return there(arguments, {.cue = "|----|", .keys = "\x03"});
  }
  [[nodiscard]] std::string written(const std::string& name) const { return test::content(folder_ / "work" / name); }
};

/// The example with so many orifices and working points that sizing it takes seconds: none is done before it is
/// stopped.
static std::string long_sizing(const std::string& example) {
  const auto list = [](int count, double first, double step, const char* unit) {
    std::string text = "[";
    for (int k = 0; k < count; ++k) text += fmt::format("{}\"{:.4f} {}\"", k == 0 ? "" : ", ", first + step * k, unit);
    return text + "]";
  };
  std::string text = test::content(example);
  const auto put = [&](const std::string& key, const std::string& value) {
    const std::size_t at = text.find("\n" + key + " = [");
    text.replace(at, text.find('\n', at + 1) - at, "\n" + key + " = " + value);
  };
  put("orifices", list(150, 0.028, 0.0002, "in"));
  put("speeds", list(20, 3.0, 0.25, "mph"));
  put("rates", list(20, 4.0, 0.1, "gal/ac"));
  return text;
}

static long count_of(const std::string& text, const std::string& part) {
  long n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
  return n;
}

// Typed when the bar shows that the work has begun. What is written then is whole, and says that it is a part.
TEST_F(Terminal, AnInterruptLeavesAFileThatSaysIt) {
  const std::string bar = example("equal_hoses.toml"), sizing = file("long.toml", long_sizing(example("sizing.toml")));
  std::string many;
  for (int k = 0; k < 200; ++k) many += (k == 0 ? "" : ", ") + std::to_string(3.0 + 0.02 * k) + " mph";
  for (std::vector<std::string> command :
       {std::vector<std::string>{"envelope", bar, "--grid", "400x400"},
        {"compare", bar, example("short_hoses.toml"), "--speeds", many, "--rates",
         "4 gal/ac, 4.5 gal/ac, 5 gal/ac, 5.5 gal/ac, 6 gal/ac, 6.5 gal/ac, 7 gal/ac"},
        {"size", sizing},
        {"equal", sizing}}) {
    SCOPED_TRACE(command[0]);
    const std::string out = command[0] + ".json";
    command.insert(command.end(), {"--json", "-o", out});
    const Shown r = interrupted(command);
    EXPECT_EQ(r.code, 4) << r.text;
    const auto json = nlohmann::json::parse(written(out), nullptr, false);
    ASSERT_FALSE(json.is_discarded()) << written(out);
    EXPECT_EQ(json.at("complete"), false);
  }
}

TEST_F(Terminal, AnInterruptIsSaidInTheText) {
  const std::string sizing = file("long.toml", long_sizing(example("sizing.toml")));
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"envelope", example("equal_hoses.toml"), "--grid", "400x400"},
        {"size", sizing},
        {"equal", sizing}}) {
    SCOPED_TRACE(command[0]);
    const Shown r = interrupted(command);
    EXPECT_EQ(r.code, 4) << r.text;
    EXPECT_TRUE(holds(r.text, "STOPPED")) << r.text;
    if (holds(r.text, "STOPPED before the first")) continue;  // then nothing else is said
    EXPECT_TRUE(says(r.text, "This is a computation, not a permission.")) << r.text;
  }
}

// NO_COLOR that is set and not empty asks for none (no-color.org); a dumb terminal shows none; without TERM nothing
// says that the terminal is dumb.
TEST_F(Terminal, ColourFollowsWhatTheUserSays) {
  const auto coloured = [&](const Variables& variables) {
    const Shown r = there({"solve", example("short_hoses.toml")}, {}, variables);
    EXPECT_TRUE(holds(r.text, "NOT EVEN")) << r.text;
    return holds(r.text, "\x1b[");
  };
  EXPECT_TRUE(coloured({}));
  EXPECT_TRUE(coloured({{"TERM", nullptr}}));
  EXPECT_TRUE(coloured({{"NO_COLOR", ""}}));
  EXPECT_FALSE(coloured({{"NO_COLOR", "1"}}));
  EXPECT_FALSE(coloured({{"NO_COLOR", "0"}})) << "whatever its value";
  EXPECT_FALSE(coloured({{"TERM", "dumb"}}));
}

// A terminal that does not know how wide it is leaves it to COLUMNS.
TEST_F(Terminal, WithoutAWidthColumnsCounts) {
  const auto widest = [&](const Variables& variables) {
    std::istringstream in(there({"solve", example("short_hoses.toml")}, {}, variables).text);
    std::size_t most = 0;
    for (std::string line; std::getline(in, line);) {
      most = std::max(most, static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
                        return c != '\r' && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
                      })));
    }
    return most;
  };
  EXPECT_LE(widest({{"TERM", "dumb"}, {"COLUMNS", "80"}}), 80U);
  EXPECT_GT(widest({{"TERM", "dumb"}}), 90U);
}

// One bar, which goes to its end, 51 marks, whether the study tells that it begins (`equal`) or only what is done
// (`report`, five sections).
TEST_F(Terminal, TheBarGoesToItsEndOnce) {
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"equal", example("short_hoses.toml"), "-o", "out.txt"},
        {"report", example("equal_hoses.toml"), "-o", "out.html"}}) {
    SCOPED_TRACE(command[0]);
    const Shown shown = there(command);
    EXPECT_TRUE(shown.code == 0 || shown.code == 1) << shown.text;
    EXPECT_EQ(count_of(shown.text, "100%"), 1) << shown.text;
    EXPECT_EQ(count_of(shown.text, "*"), 51) << shown.text;
    const std::string first = written(command.back());
    std::vector<std::string> quiet = command;
    quiet.insert(quiet.end(), {"-q", "--force"});
    EXPECT_EQ(there(quiet).text, "") << "asked to be quiet";
    EXPECT_EQ(written(command.back()), first);
  }
}

// Ctrl-D where an answer is asked for.
TEST_F(Terminal, AnswersThatEndEarlyWriteNothing) {
  const Shown r = there({"new", "-o", "bar.toml"}, {.cue = "]: ", .keys = "\x04"});
  EXPECT_EQ(r.code, 2) << r.text;
  EXPECT_TRUE(holds(r.text, "libflow: libflow new: the answers end early; allowed: an answer a line")) << r.text;
  EXPECT_TRUE(test::fs::is_empty(folder_ / "work"));
}

}  // namespace terminal_test
}  // namespace libflow
