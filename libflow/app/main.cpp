// SPDX-License-Identifier: MIT
/// @file
/// The command-line program: reads the command line, runs one command, turns errors into one message and a code.

#include <algorithm>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/core.h>

#include <libflow/app/commands.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quote.hpp>
#include <libflow/version.hpp>

namespace {

using namespace libflow;
using namespace libflow::app;

constexpr const char* about =
    "Predicts whether the plumbing of a liquid-fertilizer toolbar gives every row the same rate, and why not.";

constexpr const char* after_help = R"(Examples:
  libflow solve north_bar.toml                      is this bar even? the table of rows and the verdict
  libflow solve north_bar.toml --units metric       the same in metric units
  libflow solve north_bar.toml --json -o rows.json  for another program, into a file
  libflow compare long_hoses.toml short_hoses.toml  which of two layouts is evener, and by how much

Exit code: 0 even (compare: all solved), 1 not even, 2 bad input, 3 unsolved or ill-posed.)";

constexpr const char* solve_help = R"(Examples:
  libflow solve north_bar.toml
  libflow solve north_bar.toml --csv -o rows.csv --force

Exit code: 0 even, 1 not even, 2 bad input, 3 unsolved or ill-posed.)";

constexpr const char* compare_help =
    R"(All layouts are brought to the first one's rate and speed; each one's setting is found anew.

Examples:
  libflow compare long_hoses.toml short_hoses.toml
  libflow compare a.toml b.toml c.toml --json

Exit code: 0 all solved, 2 bad input, 3 unsolved or ill-posed.)";

/// The options that every command has.
void add_output_options(CLI::App& command, OutputOptions& output) {
  auto* json = command.add_flag_callback(
      "--json", [&output] { output.format = Format::json; }, "everything as JSON, SI units named in the keys");
  command
      .add_flag_callback(
          "--csv", [&output] { output.format = Format::csv; }, "one line a row, for a spreadsheet")
      ->excludes(json);
  command
      .add_option_function<std::string>(
          "--units", [&output](const std::string& name) { output.units = parse_unit_system(name, "--units"); },
          "units of what is shown; default: as the layout says")
      ->type_name("us|metric");
  auto* path = command.add_option("-o,--output", output.path, "write into this file, whole or not at all");
  path->type_name("OUT");
  command.add_flag("--force", output.force, "replace the file if it exists")->needs(path);
}

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
  app.get_formatter()->column_width(28);

  OutputOptions output;
  std::string file;
  std::vector<std::string> files;
  int code = exit_bad_input;

  CLI::App* solve = app.add_subcommand("solve", "is this layout even? rows, verdict, and what decides it");
  solve->add_option("FILE", file, "layout file")->required()->type_name("");
  add_output_options(*solve, output);
  solve->footer(solve_help);
  solve->callback([&] { code = solve_file(file, output); });

  CLI::App* compare = app.add_subcommand("compare", "layouts side by side at the same total rate");
  compare->add_option("FILE", files, "two layout files or more")->required()->expected(2, 100)->type_name("");
  add_output_options(*compare, output);
  compare->footer(compare_help);
  compare->callback([&] { code = compare_files(files, output); });

  try {
    app.parse(argc, argv);
    return code;
  } catch (const CLI::Success& done) {  // --help and --version
    return app.exit(done) == 0 ? exit_even : exit_bad_input;
  } catch (const CLI::ParseError& error) {
    return complain(fmt::format("{}.{} Run 'libflow --help' for how to use it.", error.what(), meant(app, argc, argv)),
                    exit_bad_input);
  }
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const InputError& error) {
    return complain(error.what(), exit_bad_input);
  } catch (const IllPosedError& error) {
    return complain(error.what(), exit_unsolved);
  } catch (const Error& error) {
    return complain(error.what(), exit_unsolved);
  } catch (const std::bad_alloc&) {
    return complain("out of memory", exit_unsolved);
  } catch (const std::exception& error) {
    return complain(fmt::format("unexpected error: {}", error.what()), exit_unsolved);
  }
}
