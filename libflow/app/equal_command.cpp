// SPDX-License-Identifier: MIT
/// @file
/// libflow equal: do my hoses have to be equal?

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_size.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/equal_hoses.hpp>

namespace libflow::app {

namespace equal_command {

constexpr const char* equal_help =
    R"(Asks for the layout's own orifice, and finds the largest orifice (the smallest drop across it) with which the shortest
hoses are even enough. Operating points and pressure window are those of [size] in the layout file, where it has one.

Examples:
  libflow equal north_bar.toml

Exit code: 0 no, they need not; 1 yes, they have to; 2 bad input, 3 unsolved or ill-posed, 4 stopped.)";

struct Given {
  std::string file;
  OutputOptions output;
};

int equal_file(const Given& given) {
  SizeFile file = read_size(given.file);
  if (given.output.units) file.choices.cut_to = cut_step(*given.output.units);
  const EqualHoses answer =
      naming(given.file, [&] { return equal_hoses(file.layout, file.choices, watch(given.output)); });
  if (given.output.format == Format::json) {
    deliver(to_text(equal_hoses_to_json(answer)), given.output);
  } else {
    deliver(equal_hoses_text(answer, text_options(given.output)), given.output);
  }
  if (!answer.complete) return exit_stopped;
  return !answer.have_to ? exit_even : exit_not_even;
}

}  // namespace equal_command

void add_equal_command(CLI::App& program, int& code) {
  using namespace equal_command;
  CLI::App* command = program.add_subcommand("equal", "do my hoses have to be equal?");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(equal_help);
  command->callback([given, &code] { code = equal_file(*given); });
}

}  // namespace libflow::app
