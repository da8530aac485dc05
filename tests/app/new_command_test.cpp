// SPDX-License-Identifier: MIT
/// @file
/// `libflow new`: its questions on a terminal and on a pipe, each answer checked as it comes.

#include <poll.h>
#include <pty.h>

#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace new_command_test {

using test::holds;
using test::Outcome;

class NewCommand : public test::App {
 protected:
  /// The program on a terminal, given one answer after each question. @return what the terminal showed
  std::string asked(const std::vector<std::string>& answers, int& code) const {
    int terminal = -1;
    const std::string folder = (folder_ / "work").string();
    const pid_t child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
    if (child == 0) {
      if (::chdir(folder.c_str()) == 0) ::execl(LIBFLOW_APP, LIBFLOW_APP, "new", "-o", "bar.toml", nullptr);
      ::_exit(127);
    }
    std::string shown;
    std::size_t next = 0, looked = 0;
    char piece[4096];
    pollfd ready{.fd = terminal, .events = POLLIN, .revents = 0};
    while (::poll(&ready, 1, 20000) == 1) {
      const ssize_t n = ::read(terminal, piece, sizeof piece);
      if (n <= 0) break;
      shown.append(piece, static_cast<std::size_t>(n));
      // A question ends in "]: ".
      const std::size_t question = shown.find("]: ", looked);
      if (question == std::string::npos || next >= answers.size()) continue;
      looked = question + 3;
      const std::string line = answers[next++] + "\n";
      if (::write(terminal, line.data(), line.size()) < 0) break;
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(terminal);
    code = WEXITSTATUS(status);
    return shown;
  }
  [[nodiscard]] std::string written() const { return test::content(folder_ / "work" / "bar.toml"); }
};

TEST_F(NewCommand, AsksAgainWhereAnAnswerCannotBeUsed) {
  int code = -1;
  const std::string shown =
      asked({"sixteen", "12", "20", "20 in", "?", "7-21-7", "28-0-0", "45 F", "12 psi", "12 gal/ac", ""}, code);
  EXPECT_EQ(code, 0) << shown;
  EXPECT_TRUE(holds(shown, "How many rows? (e.g. 16) [16]: ")) << shown;
  EXPECT_TRUE(holds(shown, "'sixteen' is not a whole number; allowed: a whole number, 1 to 200")) << shown;
  EXPECT_TRUE(holds(shown, "'20' has no unit")) << shown;
  EXPECT_TRUE(holds(shown, "28-0-0       Urea-ammonium nitrate solution 28 % N")) << shown;  // the list of '?'
  EXPECT_TRUE(holds(shown, "7-21-7") && holds(shown, "(needs your viscosity)")) << shown;
  EXPECT_TRUE(holds(shown, "the viscosity of '7-21-7' is not known, and it is never guessed")) << shown;
  EXPECT_TRUE(holds(shown, "coldest day you work? (e.g. 40 F or 5 C")) << shown;
  EXPECT_TRUE(holds(shown, "'12 psi' is a pressure")) << shown;
  const std::string text = written();
  for (const char* line : {"rows = 12\n", "spacing = \"20 in\"\n", "product = \"28-0-0\"\n", "temperature = \"45 F\"",
                           "rate = \"12 gal/ac\"\n", "speed = \"5 mph\"\n"}) {
    EXPECT_TRUE(holds(text, line)) << line << "\n" << text;
  }
  EXPECT_FALSE(holds(text, "ASSUMED")) << text;
}

TEST_F(NewCommand, AQuestionMarkIsAnsweredWithAnExampleAndAskedAgain) {
  int code = -1;
  const std::string shown = asked({"?", "12", "?", "20 in", "28-0-0", "?", "45 F", "12 gal/ac", ""}, code);
  EXPECT_EQ(code, 0) << shown;
  EXPECT_TRUE(holds(shown, "  an answer such as 16\r\nHow many rows? (e.g. 16) [16]: ")) << shown;
  EXPECT_TRUE(holds(shown, "  an answer such as 30 in or 76 cm\r\nFrom row to row?")) << shown;
  EXPECT_TRUE(holds(written(), "rows = 12\n")) << written();
  EXPECT_TRUE(holds(written(), "spacing = \"20 in\"\n")) << written();
}

TEST_F(NewCommand, ReadsItsAnswersFromAPipe) {
  const Outcome r =
      run({"new", "-o", "bar.toml"}, {.input = file("answers", "12\r\n20 in\n28-0-0\n45 F\n12 gal/ac\n6 mph\n")});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(written(), "rows = 12\n") && holds(written(), "speed = \"6 mph\"\n")) << written();
  EXPECT_EQ(r.err, "Written. Now: libflow solve bar.toml\n");
}

TEST_F(NewCommand, SaysWhatWasTakenWhereThePipeEnds) {
  const Outcome r = run({"new", "--rows", "8"}, {.input = file("answers", "20 in\n\n")});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_TRUE(holds(r.out, "spacing = \"20 in\"\n")) << r.out;
  EXPECT_TRUE(holds(r.out, "temperature = \"40 F\"           # ASSUMED: ")) << r.out;
  EXPECT_EQ(r.err,
            "No answer was given, so this was taken: product 10-34-0, temperature 40 F, rate 5 gal/ac, speed 5 mph.\n");
}

// What another command would refuse is not written; what cannot be reached is said at once.
TEST_F(NewCommand, DoubtsAnswersThatNoBarHas) {
  const Outcome refused =
      run({"new", "-o", "bar.toml"}, {.input = file("answers", "12\n30 ft\n10-34-0\n40 F\n100 gal/ac\n50 mph\n")});
  expect_refused(refused, 2, "are spacing, rate and speed right?");
  EXPECT_FALSE(std::filesystem::exists(folder_ / "work" / "bar.toml"));
  const Outcome slip =
      run({"new", "-o", "bar.toml"}, {.input = file("answers", "12\n30 ft\n10-34-0\n40 F\n5 gal/ac\n5 mph\n")});
  EXPECT_EQ(slip.code, 0) << slip.err;
  EXPECT_TRUE(holds(slip.err, "As answered: NOT REACHED: ")) << slip.err;
  EXPECT_TRUE(holds(slip.err, "Are spacing, rate and speed right?\nWritten. Now: libflow solve bar.toml\n"))
      << slip.err;
}

TEST_F(NewCommand, RefusesAPipedAnswerByItsName) {
  expect_refused(run({"new"}, {.input = file("answers", "12\n20 psi\n")}), 2, "spacing: '20 psi' is a pressure");
  expect_refused(run({"new"}, {.input = file("answers", "12\n20 in\ntapwater\n")}), 2,
                 "product: 'tapwater' is not a liquid");
  expect_refused(run({"new", "--temperature", "-80 F"}), 2, "temperature: ");
}

TEST_F(NewCommand, WhatItWritesSolvesForEveryProductThatHasAViscosity) {
  for (const char* product : {"water", "28-0-0", "32-0-0", "10-34-0"}) {
    const Outcome r = run({"new", "--product", product, "-o", "bar.toml", "--force"});
    EXPECT_EQ(r.code, 0) << product << r.err;
    const int code = run({"solve", "bar.toml"}).code;
    EXPECT_TRUE(code == 0 || code == 1) << product;
  }
}

}  // namespace new_command_test
}  // namespace libflow
