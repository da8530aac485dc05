// SPDX-License-Identifier: MIT
/// @file
/// The real program, run as a user runs it, for the tests of its subcommands.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace libflow::test {

namespace fs = std::filesystem;

inline std::string content(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}
inline std::string in_shell_quotes(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

/// How the program ended and what it wrote.
struct Outcome {
  int code;
  std::string out, err;
};

/// What the program finds around it.
struct Surroundings {
  std::string environment = {};     ///< "NAME=value ..."
  std::string input = "/dev/null";  ///< the file that is its standard input
};

/// Fixture: a folder of its own, and the program run in it.
class App : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("libflow_app_" + std::to_string(::getpid()) + "_" +
                                           testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_ / "work");
  }
  void TearDown() override { fs::remove_all(folder_); }

  /// Runs the program in the empty folder work/, without the width of the terminal that the tests run in.
  [[nodiscard]] Outcome run(const std::vector<std::string>& arguments, const Surroundings& around = {}) const {
    std::string command = "cd " + in_shell_quotes((folder_ / "work").string()) + " && env -u COLUMNS " +
                          around.environment + " " + in_shell_quotes(LIBFLOW_APP);
    for (const std::string& a : arguments) command += " " + in_shell_quotes(a);
    command += " >../out 2>../err <" + in_shell_quotes(around.input);
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, content(folder_ / "out"), content(folder_ / "err")};
  }
  [[nodiscard]] std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
    return (folder_ / name).string();
  }
  [[nodiscard]] static std::string example(const std::string& name) {
    return (fs::path(LIBFLOW_EXAMPLES) / name).string();
  }
  /// The first demo layout with a piece of its text replaced.
  [[nodiscard]] std::string changed(const std::string& from, const std::string& to) const {
    std::string text = content(example("equal_hoses.toml"));
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return file("changed.toml", text.replace(at, from.size(), to));
  }
  /// Nothing on standard output, one message on standard error, nothing written.
  void expect_refused(const Outcome& r, int code, const std::string& message) const {
    EXPECT_EQ(r.code, code) << r.err;
    EXPECT_EQ(r.out, "");
    EXPECT_EQ(r.err.rfind("libflow: ", 0), 0U) << r.err;
    EXPECT_NE(r.err.find(message), std::string::npos) << r.err;
    EXPECT_TRUE(fs::is_empty(folder_ / "work"));
  }
  fs::path folder_;
};

}  // namespace libflow::test
