// SPDX-License-Identifier: MIT
/// @file
/// A megabyte of anything at all as a layout or as cups: an error in words, in little time and memory.
#include <sys/wait.h>

#include <cstdlib>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>

namespace libflow {
namespace hostile_files_test {

#if defined(__SANITIZE_ADDRESS__)
#define LIBFLOW_SANITIZED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LIBFLOW_SANITIZED
#endif
#endif

constexpr std::size_t megabyte = 1u << 20;

std::string repeated(const std::string& piece) {
  std::string text;
  while (text.size() + piece.size() <= megabyte) text += piece;
  return text;
}
std::string numbered(const std::function<std::string(int)>& piece) {
  std::string text;
  for (int i = 1; text.size() + 100 <= megabyte; ++i) text += piece(i);
  return text;
}

const std::string bar_begin =
    "[job]\nproduct = \"10-34-0\"\ntemperature = \"40 F\"\nrate = \"5 gal/ac\"\nspeed = \"5 mph\"\n";

std::vector<std::pair<std::string, std::string>> hostile_layouts() {
  return {
      {"brackets", std::string(megabyte, '[')},
      {"nested lists", "a = " + std::string(megabyte, '[')},
      {"nested tables", "a = " + repeated("{b = ")},
      {"dots", repeated("a.") + "a = 1"},
      {"one long key", std::string(megabyte, 'a') + " = 1"},
      {"one long text", "name = \"" + std::string(megabyte, 'a') + "\""},
      {"one long number", "name = " + std::string(megabyte, '9')},
      {"one long quantity", "[job]\nrate = \"" + std::string(megabyte, '9') + " gal/ac\""},
      {"zeros", std::string(megabyte, '\0')},
      {"not UTF-8", std::string(megabyte, '\xff')},
      {"line ends", std::string(megabyte, '\n')},
      {"open quotes", repeated("\"")},
      {"unknown keys", numbered([](int i) { return "key_" + std::to_string(i) + " = 1\n"; })},
      {"unknown tables", numbered([](int i) { return "[table_" + std::to_string(i) + "]\n"; })},
      {"manifolds", bar_begin + repeated("[[manifold]]\nbore = \"1 in\"\n")},
      {"tolerances", bar_begin + repeated("[[tolerance]]\nof = \"orifice_bore\"\nnormal = \"1 %\"\n")},
      {"places without parts",
       bar_begin + numbered([](int i) { return "[[place]]\nid = \"p" + std::to_string(i) + "\"\n"; })},
      {"one place many times", bar_begin + repeated("[[place]]\nid = \"p\"\n")},
      {"a chain that goes nowhere", bar_begin + numbered([](int i) {
                                      const std::string n = std::to_string(i);
                                      return "[[part]]\nid = \"h" + n + "\"\nkind = \"hose\"\nfrom = \"p" + n +
                                             "\"\nto = \"p" + std::to_string(i + 1) +
                                             "\"\nlength = \"1 m\"\nbore = \"10 mm\"\n";
                                    })},
      {"rows without end", bar_begin + "[toolbar]\nrows = 2000000000\nspacing = \"30 in\"\n"},
  };
}

class HostileFiles : public test::App {
 protected:
  /// Runs the program with 60 s of processor and, where no sanitizer takes memory of its own, 1.5 GB.
  [[nodiscard]] test::Outcome run_limited(const std::vector<std::string>& arguments) const {
#if defined(LIBFLOW_SANITIZED)
    const std::string memory;
#else
    const std::string memory = "ulimit -v 1500000; ";
#endif
    std::string command = memory + "ulimit -t 60; " + test::in_shell_quotes(LIBFLOW_APP);
    for (const std::string& a : arguments) command += " " + test::in_shell_quotes(a);
    const std::string out = file("limited_out", ""), err = file("limited_err", "");
    command += " >" + test::in_shell_quotes(out) + " 2>" + test::in_shell_quotes(err) + " </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, test::content(out), test::content(err)};
  }
};

TEST_F(HostileFiles, AMegabyteOfAnythingAsALayout) {
  for (const auto& [name, text] : hostile_layouts()) {
    SCOPED_TRACE(name);
    for (const char* command : {"check", "solve"}) {
      const test::Outcome o = run_limited({command, file("hostile.toml", text)});
      EXPECT_EQ(o.code, 2) << o.err.substr(0, 400);
      EXPECT_NE(o.err.find("hostile.toml"), std::string::npos) << o.err.substr(0, 400);
      EXPECT_LT(o.err.size() + o.out.size(), 20000U) << "an error is for reading";
    }
  }
}

TEST_F(HostileFiles, AMegabyteOfAnythingAsCups) {
  const std::string layout = std::string(LIBFLOW_EXAMPLES) + "/equal_hoses.toml";
  const std::vector<std::pair<std::string, std::string>> cups{
      {"commas", std::string(megabyte, ',')},
      {"line ends", std::string(megabyte, '\n')},
      {"zeros", std::string(megabyte, '\0')},
      {"no such rows", "row, volume\n" + numbered([](int i) { return std::to_string(i + 16) + ", 250 ml\n"; })},
      {"the same cup", "row, volume, repeat\n" + repeated("1, 250 ml, 1\n")},
      {"open quotes", "row, volume\n" + repeated("\"")},
      {"columns", repeated("row, ")},
      {"one long number", "row, volume\n1, " + std::string(megabyte, '9')},
  };
  for (const auto& [name, text] : cups) {
    SCOPED_TRACE(name);
    const test::Outcome o = run_limited({"catch", layout, file("hostile.csv", text), "--time", "30 s"});
    EXPECT_EQ(o.code, 2) << o.err.substr(0, 400);
    EXPECT_NE(o.err.find("hostile.csv"), std::string::npos) << o.err.substr(0, 400);
    EXPECT_LT(o.err.size() + o.out.size(), 20000U) << "an error is for reading";
  }
}

}  // namespace hostile_files_test
}  // namespace libflow
