// SPDX-License-Identifier: MIT
/// @file
/// libflow new: writes a commented starter layout.

#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/starter_layout.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow::app {

namespace new_command {

constexpr const char* help = R"(Asks six questions, one after another; what is given as an option is not asked. On a
terminal each answer is checked at once and asked again where it cannot be used; an empty line takes
what stands in brackets, and ? at the product lists all that are known. Where standard input is no
terminal, the answers are read from it, a line each in this order: rows, spacing, product,
temperature, rate, speed (without those given as options); what does not come is taken as it stands in brackets.
It waits for each line until the input ends: a pipe that stays open and gives nothing keeps it waiting. In a
script that has no answers, end the input with </dev/null.

Examples:
  libflow new -o my_bar.toml
  libflow new --rows 12 --spacing "20 in" --product 28-0-0 \
    --temperature "45 F" --rate "12 gal/ac" --speed "6 mph" -o my_bar.toml
  printf '12\n20 in\n28-0-0\n45 F\n' | libflow new -o my_bar.toml

Exit code: 0 written, 2 bad input.)";

struct Given {
  StarterAnswers answers;
  OutputOptions output;
};

/// What stands for an answer that does not come.
std::string standing(const StarterAnswers& answers, const StarterQuestion& question) {
  const std::string& text = answers.*question.answer;
  return text.empty() ? std::string(starter_temperature) : text;
}

/// One line of standard input; false at its end.
bool next_line(std::string& line) {
  if (!std::getline(std::cin, line)) return false;
  if (line.ends_with('\r')) line.pop_back();
  return true;
}

/// Asks until the answer can be used; an empty line keeps what stands there.
void ask(const StarterQuestion& question, StarterAnswers& answers) {
  while (true) {
    fmt::print(stderr, "{} (e.g. {}) [{}]: ", question.question, question.example, standing(answers, question));
    std::string line;
    if (!next_line(line)) throw InputError("libflow new", "the answers end early", "an answer a line");
    if (line == "?") {
      fmt::print(stderr, "{}",
                 question.answer == &StarterAnswers::product
                     ? starter_products()
                     : fmt::format("  an answer such as {}\n", question.example));
      continue;
    }
    StarterAnswers tried = answers;
    if (!line.empty()) tried.*question.answer = line;
    try {
      check_starter_answer(tried, question);
      answers = tried;
      return;
    } catch (const InputError& error) {
      fmt::print(stderr, "  {}\n", error.what());
    }
  }
}

/// Takes the answers from standard input that is no terminal; says what was not there.
void read_answers(const std::vector<const StarterQuestion*>& asked, StarterAnswers& answers) {
  std::string missing;
  bool more = true;
  for (const StarterQuestion* question : asked) {
    std::string line;
    more = more && next_line(line);
    if (more && !line.empty()) {
      answers.*question->answer = line;
      check_starter_answer(answers, *question);
    } else {
      missing += fmt::format("{}{} {}", missing.empty() ? "" : ", ", question->name, standing(answers, *question));
    }
  }
  if (!missing.empty()) fmt::print(stderr, "No answer was given, so this was taken: {}.\n", missing);
}

int write_new(Given& given, const CLI::App& command) {
  StarterAnswers& answers = given.answers;
  std::vector<const StarterQuestion*> asked;
  for (const StarterQuestion& question : starter_questions) {
    if (command.count("--" + std::string(question.name)) == 0) {
      asked.push_back(&question);
    } else {
      check_starter_answer(answers, question);
    }
  }
  if (::isatty(STDIN_FILENO) == 1) {
    for (const StarterQuestion* question : asked) ask(*question, answers);
  } else if (!asked.empty()) {
    read_answers(asked, answers);
  }
  const std::string text = starter_layout(answers);
  // Nothing is written that another command would refuse.
  std::string doubt;
  try {
    const Answer answer = main_job(parse_layout(text, "answers"));
    if (verdict_state(answer) == VerdictState::bad) doubt = verdict_sentence(answer);
  } catch (const InputError& error) {
    throw InputError("answers", error.what_is_wrong() + ", as these answers make it",
                     error.allowed() + ": are spacing, rate and speed right?");
  }
  deliver(text, given.output);
  if (!doubt.empty()) fmt::print(stderr, "As answered: {} Are spacing, rate and speed right?\n", doubt);
  if (!given.output.path.empty()) {
    fmt::print(stderr, "Written. Now: libflow solve {}\n", given.output.path);
  }
  return exit_even;
}

}  // namespace new_command

void add_new_command(CLI::App& program, int& code) {
  using namespace new_command;
  CLI::App* command = program.add_subcommand("new", "writes a commented starter layout from six answers");
  const auto given = std::make_shared<Given>();
  StarterAnswers& answers = given->answers;
  command->add_option("--rows", answers.rows, "number of rows")->capture_default_str()->type_name("N");
  command->add_option("--spacing", answers.spacing, "from row to row")->capture_default_str()->type_name("LENGTH");
  command->add_option("--product", answers.product, "a liquid that is known")->capture_default_str()->type_name("NAME");
  command->add_option("--temperature", answers.temperature, "of the liquid on the coldest day; else 40 F is assumed")
      ->type_name("TEMPERATURE");
  command->add_option("--rate", answers.rate, "per area")->capture_default_str()->type_name("RATE");
  command->add_option("--speed", answers.speed, "over the ground")->capture_default_str()->type_name("SPEED");
  add_file_options(*command, given->output);
  command->footer(help);
  command->callback([given, command, &code] { code = write_new(*given, *command); });
}

}  // namespace libflow::app
