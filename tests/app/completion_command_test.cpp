// SPDX-License-Identifier: MIT
/// @file
/// The subcommand completion: its scripts are valid, and they offer what --help lists, no more and no less.

#include <cstdlib>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace completion_command_test {

using test::holds;
using test::Outcome;

using Words = std::set<std::string>;

class CompletionCommand : public test::App {
 protected:
  /// The first word of every line under the help's "Subcommands:".
  [[nodiscard]] Words commands() const {
    Words names;
    std::istringstream in(run({"--help"}).out);
    bool inside = false;
    for (std::string line; std::getline(in, line);) {
      std::istringstream words(line);
      std::string first;
      words >> first;
      if (line == "Subcommands:") {
        inside = true;
      } else if (line.empty()) {
        inside = false;
      } else if (inside && line.size() > 2 && line[2] != ' ') {
        names.insert(first);  // what goes on in the next line stands further in
      }
    }
    return names;
  }
  /// Every long option that a command's help begins a line with.
  [[nodiscard]] Words options(const std::string& command) const {
    Words names;
    std::istringstream in(run({command, "--help"}).out);
    for (std::string line; std::getline(in, line);) {
      if (!line.starts_with("  -")) continue;
      const std::string head = line.substr(2, line.find("  ", 2) - 2);
      for (std::size_t at = head.find("--"); at != std::string::npos; at = head.find("--", at + 2)) {
        names.insert(head.substr(at, head.find_first_of(" ,[", at) - at));
      }
    }
    return names;
  }
  /// What bash offers for a command line whose last word is being typed.
  [[nodiscard]] Words offered(const std::vector<std::string>& line) const {
    std::string script = "source completion.bash\nCOMP_WORDS=(";
    for (const std::string& word : line) script += " " + test::in_shell_quotes(word);
    script += ")\nCOMP_CWORD=" + std::to_string(line.size() - 1) + "\n_libflow\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n";
    const std::string path = file("ask.bash", script);
    const std::string command = "cd " + test::in_shell_quotes(folder_.string()) + " && bash ask.bash >offered 2>errors";
    EXPECT_EQ(std::system(command.c_str()), 0) << test::content(folder_ / "errors");
    std::istringstream in(test::content(folder_ / "offered"));
    Words words;
    for (std::string word; std::getline(in, word);) {
      if (!word.empty()) words.insert(word);
    }
    return words;
  }
  void write_script() const { (void)file("completion.bash", run({"completion", "bash"}).out); }
};

TEST_F(CompletionCommand, BashOffersEverySubcommand) {
  write_script();
  ASSERT_EQ(std::system(("bash -n " + test::in_shell_quotes((folder_ / "completion.bash").string())).c_str()), 0);
  Words all = commands();
  ASSERT_GT(all.size(), 15U);
  ASSERT_TRUE(all.contains("solve") && all.contains("completion"));
  all.insert({"--help", "--version"});
  EXPECT_EQ(offered({"libflow", ""}), all);
  EXPECT_EQ(offered({"libflow", "ex"}), (Words{"explain"}));
}

TEST_F(CompletionCommand, BashOffersEveryOptionOfACommand) {
  write_script();
  for (const std::string& command : commands()) {
    const Words all = options(command);
    ASSERT_TRUE(all.contains("--help")) << command;
    EXPECT_EQ(offered({"libflow", command, "-"}), all) << command;
  }
  EXPECT_EQ(offered({"libflow", "catch", "bar.toml", "--second-g"}), (Words{"--second-gauge"}));
  // Anything else is a file.
  (void)file("north_bar.toml", "");
  EXPECT_EQ(offered({"libflow", "solve", "nor"}), (Words{"north_bar.toml"}));
}

TEST_F(CompletionCommand, ZshTakesTheSameScript) {
  const Outcome zsh = run({"completion", "zsh"}), bash = run({"completion", "bash"});
  EXPECT_EQ(zsh.code, 0) << zsh.err;
  EXPECT_TRUE(zsh.out.starts_with("#compdef libflow\n")) << zsh.out;
  EXPECT_TRUE(holds(zsh.out, "bashcompinit\n" + bash.out)) << zsh.out;
}

/// The words of a line of fish, its quotes taken off ('\\'' and '\\\\' are its only escapes in single quotes).
std::vector<std::string> fish_words(const std::string& line) {
  std::vector<std::string> words;
  std::string word;
  bool quoted = false, any = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted && c == '\\' && i + 1 < line.size() && (line[i + 1] == '\'' || line[i + 1] == '\\')) {
      word += line[++i];
    } else if (c == '\'') {
      quoted = !quoted;
      any = true;
    } else if (c == ' ' && !quoted) {
      if (any || !word.empty()) words.push_back(word);
      word.clear();
      any = false;
    } else {
      word += c;
    }
  }
  EXPECT_FALSE(quoted) << "a quote is open: " << line;
  if (any || !word.empty()) words.push_back(word);
  return words;
}

TEST_F(CompletionCommand, FishOffersTheSameWithWhatEachIsFor) {
  const Outcome fish = run({"completion", "fish"});
  EXPECT_EQ(fish.code, 0) << fish.err;
  Words names;
  std::map<std::string, Words> of;
  std::istringstream in(fish.out);
  for (std::string line; std::getline(in, line);) {
    const std::vector<std::string> w = fish_words(line);
    ASSERT_GE(w.size(), 9U) << line;
    EXPECT_EQ(w[0] + w[1] + w[2] + w[3], "complete-clibflow-n") << line;
    EXPECT_EQ(w[w.size() - 2], "-d") << line;
    EXPECT_FALSE(w.back().empty()) << "says what it is for: " << line;
    if (w[4] == "__fish_use_subcommand") {
      EXPECT_EQ(w[5], "-a") << line;
      names.insert(w[6]);
      continue;
    }
    const std::string condition = "__fish_seen_subcommand_from ";
    ASSERT_TRUE(w[4].starts_with(condition)) << line;
    EXPECT_EQ(w[5], "-l") << line;
    of[w[4].substr(condition.size())].insert("--" + w[6]);
  }
  EXPECT_EQ(names, commands());
  for (const std::string& command : names) EXPECT_EQ(of[command], options(command)) << command;
  // An option with a value waits for it, a flag does not.
  EXPECT_TRUE(holds(fish.out, "'__fish_seen_subcommand_from catch' -l gauge -r -d '")) << fish.out;
  EXPECT_TRUE(holds(fish.out, "'__fish_seen_subcommand_from catch' -l water -d '")) << fish.out;
}

}  // namespace completion_command_test
}  // namespace libflow
