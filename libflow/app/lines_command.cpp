// SPDX-License-Identifier: MIT
/// @file
/// libflow lines: what hoses and bars hold, and how long filling, flushing and changes take.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/lines_json.hpp>
#include <libflow/report/lines_text.hpp>
#include <libflow/study/lines.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace lines_command {

constexpr const char* lines_help = R"(Examples:
  libflow lines north_bar.toml
  libflow lines north_bar.toml --share "95 %"
  libflow lines tank_and_pump.toml --control out

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed.)";

struct Given {
  std::string file, control;
  LinesOptions options;
  OutputOptions output;
};

int lines_file(const Given& given) {
  LinesOptions options = given.options;
  if (!given.control.empty()) options.control = given.control;
  Layout layout = read_layout(given.file);
  const Lines l = naming(given.file, [&] { return lines(std::move(layout), options); });
  switch (given.output.format) {
    case Format::json:
      deliver(to_text(lines_to_json(l)), given.output);
      break;
    case Format::csv:
      deliver(lines_to_csv(l, given.output.units.value_or(l.answer.layout.units)), given.output);
      break;
    case Format::text:
      deliver(lines_text(l, text_options(given.output)), given.output);
      break;
  }
  return exit_even;
}

}  // namespace lines_command

void add_lines_command(CLI::App& program, int& code) {
  using namespace lines_command;
  CLI::App* command = program.add_subcommand("lines", "what the hoses hold; time to fill, to flush, to reach the rows");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command
      ->add_option_function<std::string>(
          "--share", [given](const std::string& text) { given->options.share = parse_fraction(text, "--share"); },
          "of new liquid at which a row counts as flushed; default 99 %")
      ->type_name("PER CENT");
  command->add_option("--control", given->control, "place of the control; default: where the gauge stands")
      ->type_name("PLACE");
  add_output_options(*command, given->output);
  command->footer(lines_help);
  command->callback([given, &code] { code = lines_file(*given); });
}

}  // namespace libflow::app
