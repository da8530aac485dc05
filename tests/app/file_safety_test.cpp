// SPDX-License-Identifier: MIT
/// @file
/// What is written is written whole or not at all, and nothing is replaced unasked, wherever the file lies.
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace file_safety_test {

using test::holds;
using test::Outcome;
namespace fs = std::filesystem;

class FileSafety : public test::App {
 protected:
  [[nodiscard]] std::vector<std::string> left_in(const fs::path& folder) const {
    std::vector<std::string> names;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) names.push_back(entry.path().filename());
    return names;
  }
};

/// Every way in which the program writes a file.
std::vector<std::vector<std::string>> ways_to_write(const std::string& layout, const std::string& out) {
  return {{"report", layout, "-o", out},
          {"solve", layout, "-o", out},
          {"solve", layout, "--json", "-o", out},
          {"order", layout, "-o", out},
          {"new", "-o", out},
          {"envelope", layout, "-o", out},
          {"catch", layout, "--page", out, "-q"},
          {"card", layout, "-o", out},
          {"tolerance", layout, "--machines", "128", "--no-shares", "-o", out}};
}

TEST_F(FileSafety, NothingIsReplacedUnasked) {
  for (const auto& arguments : ways_to_write(example("as_built.toml"), "kept.txt")) {
    SCOPED_TRACE(arguments[0]);
    (void)file("work/kept.txt", "mine");
    const Outcome o = run(arguments);
    EXPECT_EQ(o.code, 2) << o.err;
    EXPECT_TRUE(holds(o.err, "kept.txt")) << o.err;
    EXPECT_TRUE(holds(o.err, "--force")) << o.err;
    EXPECT_EQ(test::content(folder_ / "work/kept.txt"), "mine");
    EXPECT_EQ(left_in(folder_ / "work").size(), 1U) << "no half-written file beside it";
  }
}

TEST_F(FileSafety, ADiskThatTakesNoMoreLeavesNothing) {
  // The shell lets no file grow beyond 512 bytes; with its signal off, writing more fails as on a full disk.
  for (const auto& arguments : ways_to_write(example("as_built.toml"), "page.html")) {
    SCOPED_TRACE(arguments[0]);
    std::string command = "cd " + test::in_shell_quotes((folder_ / "work").string()) +
                          " && trap '' XFSZ && { ulimit -f 1; " + test::in_shell_quotes(LIBFLOW_APP);
    for (const std::string& a : arguments) command += " " + test::in_shell_quotes(a);
    command += " 2>&1 </dev/null; echo \"code $?\"; } | cat >" + test::in_shell_quotes((folder_ / "said").string());
    (void)std::system(command.c_str());
    const std::string said = test::content(folder_ / "said");
    EXPECT_TRUE(holds(said, "code 2")) << said;
    EXPECT_TRUE(holds(said, "libflow: page.html: ")) << said;
    EXPECT_TRUE(left_in(folder_ / "work").empty()) << left_in(folder_ / "work")[0];
  }
}

// Standard output that takes nothing, short (noticed when the last of it is written) or long (at once).
TEST_F(FileSafety, AFullStandardOutputIsSaid) {
  for (const char* more : {"", " --json"}) {
    const std::string command = test::in_shell_quotes(LIBFLOW_APP) + " solve " +
                                test::in_shell_quotes(example("equal_hoses.toml")) + more + " >/dev/full 2>" +
                                test::in_shell_quotes((folder_ / "said").string());
    const int status = std::system(command.c_str());
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 2) << "not even, or not: nobody has read it";
    EXPECT_TRUE(holds(test::content(folder_ / "said"), "libflow: standard output: cannot be written: No space left"));
  }
}

TEST_F(FileSafety, AFolderThatIsMissingOrTakesNoFilesIsNamed) {
  for (const char* out : {"missing/page.html", "/proc/page.html"}) {
    SCOPED_TRACE(out);
    const Outcome o = run({"report", example("equal_hoses.toml"), "-o", out});
    EXPECT_EQ(o.code, 2);
    EXPECT_TRUE(holds(o.err, out)) << o.err;
    EXPECT_TRUE(fs::is_empty(folder_ / "work"));
  }
}

TEST_F(FileSafety, PathsMayHoldSpacesQuotesAndAnyScript) {
  for (const char* name :
       {"my bar.toml", "l'été.toml", "Düngerstange.toml", "肥料.toml", "удобрение 1.toml", "-x.toml"}) {
    SCOPED_TRACE(name);
    const fs::path folder = folder_ / "work" / (std::string("in ") + name);
    fs::create_directory(folder);
    fs::copy_file(example("equal_hoses.toml"), folder / name);
    const std::string page = (folder / (std::string(name) + ".html")).string();
    const Outcome o = run({"report", (folder / name).string(), "-o", page});
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(test::content(page), "</html>"));
  }
}

}  // namespace file_safety_test
}  // namespace libflow
