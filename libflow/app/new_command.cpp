// SPDX-License-Identifier: MIT
/// @file
/// libflow new: writes a commented starter layout.

#include <iostream>
#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/starter_layout.hpp>

namespace libflow::app {

namespace new_command {

constexpr const char* help = R"(Asks five questions on a terminal; what is given as an option is not asked.

Examples:
  libflow new -o my_bar.toml
  libflow new --rows 12 --spacing "20 in" --product 28-0-0 --rate "12 gal/ac" --speed "6 mph" -o my_bar.toml

Exit code: 0 written, 2 bad input.)";

struct Given {
  StarterAnswers answers;
  OutputOptions output;
};

/// Asks on the terminal; an empty line keeps what stands there.
void ask(const char* question, std::string& answer) {
  fmt::print(stderr, "{} [{}]: ", question, answer);
  std::string line;
  if (!std::getline(std::cin, line)) throw InputError("libflow new", "the answers end early", "an answer a line");
  if (!line.empty()) answer = line;
}

int write_new(Given& given, const CLI::App& command) {
  StarterAnswers& a = given.answers;
  if (::isatty(STDIN_FILENO) == 1) {
    if (command.count("--rows") == 0) ask("How many rows?", a.rows);
    if (command.count("--spacing") == 0) ask("From row to row?", a.spacing);
    if (command.count("--product") == 0) ask("Which product?", a.product);
    if (command.count("--rate") == 0) ask("Which rate?", a.rate);
    if (command.count("--speed") == 0) ask("Which speed?", a.speed);
  }
  deliver(starter_layout(a), given.output);
  if (!given.output.path.empty()) {
    fmt::print(stderr, "Written. Now: libflow solve {}\n", given.output.path);
  }
  return exit_even;
}

}  // namespace new_command

void add_new_command(CLI::App& program, int& code) {
  using namespace new_command;
  CLI::App* command = program.add_subcommand("new", "writes a commented starter layout from five answers");
  const auto given = std::make_shared<Given>();
  command->add_option("--rows", given->answers.rows, "number of rows")->capture_default_str()->type_name("N");
  command->add_option("--spacing", given->answers.spacing, "from row to row")
      ->capture_default_str()
      ->type_name("LENGTH");
  command->add_option("--product", given->answers.product, "a liquid that is known")
      ->capture_default_str()
      ->type_name("NAME");
  command->add_option("--rate", given->answers.rate, "per area")->capture_default_str()->type_name("RATE");
  command->add_option("--speed", given->answers.speed, "over the ground")->capture_default_str()->type_name("SPEED");
  add_file_options(*command, given->output);
  command->footer(help);
  command->callback([given, command, &code] { code = write_new(*given, *command); });
}

}  // namespace libflow::app
