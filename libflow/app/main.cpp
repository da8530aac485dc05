// SPDX-License-Identifier: MIT
/// @file
/// The command-line program: reads the command line, runs one command, turns errors into one message and a code.

#include <algorithm>
#include <cstdio>
#include <exception>
#include <memory>
#include <new>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/core.h>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/help.hpp>
#include <libflow/app/shown_line.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/version.hpp>

namespace {

using namespace libflow;
using namespace libflow::app;

constexpr const char* about =
    "Predicts whether the plumbing of a liquid-fertilizer toolbar gives every row the same rate, and why not.";

constexpr const char* after_help = R"(Examples:
  libflow new -o north_bar.toml                  a layout to begin with
  libflow solve north_bar.toml                   is this bar even?
  libflow solve north_bar.toml --units metric    the same in metric units
  libflow solve north_bar.toml --json -o x.json  for another program
  libflow compare north_bar.toml other_bar.toml  which is evener, and why

Exit code: 0 even and the wanted rate is given (a command that only computes: done); 1 not even,
or the rate is not reached; 2 bad input; 3 unsolved or ill-posed; 4 stopped.)";

/// What was meant by a word that no command or option has, as " Did you mean '--json'?"; empty where nothing is near.
std::string meant(const CLI::App& app, int argc, char** argv) {
  std::vector<std::string> names{"--help", "--version"};
  for (const CLI::App* command : app.get_subcommands({})) {
    names.push_back(command->get_name());
    for (const CLI::Option* option : command->get_options()) {
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
  }
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    const bool command = i == 1 && !word.starts_with('-');
    if ((!command && !word.starts_with("--")) || std::find(names.begin(), names.end(), word) != names.end()) continue;
    const std::string near = nearest_name(word, names);
    if (!near.empty()) return fmt::format(" Did you mean '{}'?", near);
    if (command) return fmt::format(" {} is no command.", in_quotes(word));
  }
  return {};
}

/// One message on standard error.
int complain(const std::string& message, int code) {
  fmt::print(stderr, "libflow: {}\n", message);
  return code;
}

int run(int argc, char** argv) {
  CLI::App app{about, "libflow"};
  app.set_version_flag("--version", fmt::format("libflow {}", version));
  app.footer(after_help);
  app.require_subcommand(1);
  app.formatter(std::make_shared<HelpFormatter>());

  int code = exit_bad_input;
  for (const AddCommand add : commands) add(app, code);

  try {
    app.parse(argc, argv);
    return code;
  } catch (const CLI::Success& done) {  // --help and --version: exit() prints what was asked for
    app.exit(done);
    return exit_even;
  } catch (const CLI::ParseError& error) {
    const std::string first = argc > 1 ? argv[1] : "";
    const auto commands_of = app.get_subcommands([&](const CLI::App* command) { return command->get_name() == first; });
    std::string said = error.what();
    if (!said.ends_with('.') && !said.ends_with('?')) said += '.';
    return complain(fmt::format("{}{} Run 'libflow {}--help' for how to use it.", said, meant(app, argc, argv),
                                commands_of.empty() ? "" : first + " "),
                    exit_bad_input);
  }
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const InputError& error) {
    return complain(with_line(error), exit_bad_input);
  } catch (const Error& error) {
    return complain(error.what(), exit_unsolved);
  } catch (const std::bad_alloc&) {
    return complain("out of memory", exit_unsolved);
  } catch (const std::exception& error) {
    return complain(fmt::format("unexpected error: {}", error.what()), exit_unsolved);
  }
}
