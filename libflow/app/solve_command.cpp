// SPDX-License-Identifier: MIT
/// @file
/// libflow solve: is this layout even?

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow::app {

namespace solve_command {

constexpr const char* solve_help = R"(Examples:
  libflow solve north_bar.toml
  libflow solve north_bar.toml --csv -o rows.csv --force

Exit code: 0 even and the wanted rate is given; 1 not even, or the rate is not reached; 2 bad
input; 3 unsolved or ill-posed.)";

int solve_file(const std::string& file, const OutputOptions& output) {
  Layout layout = read_layout(file);
  const Answer answer = naming(file, [&] { return main_job(std::move(layout)); });
  if (!answer.solution.usable()) throw IllPosedError(fmt::format("{}: {}", file, answer.solution.message));
  switch (output.format) {
    case Format::json:
      deliver(to_text(results_to_json(answer)), output);
      break;
    case Format::csv:
      deliver(results_to_csv(answer, output.units.value_or(answer.layout.units)), output);
      break;
    case Format::text:
      deliver(main_job_text(answer, text_options(output)), output);
      break;
  }
  return exit_of(answer);
}

struct Given {
  std::string file;
  OutputOptions output;
};

}  // namespace solve_command

void add_solve_command(CLI::App& program, int& code) {
  using namespace solve_command;
  CLI::App* command = program.add_subcommand("solve", "is this layout even? rows, verdict, and what decides it");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_output_options(*command, given->output);
  command->footer(solve_help);
  command->callback([given, &code] { code = solve_file(given->file, given->output); });
}

}  // namespace libflow::app
