// SPDX-License-Identifier: MIT
/// @file
/// libflow drawdown: one fill from full to empty.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/drawdown_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/report/drawdown_text.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace drawdown_command {

constexpr const char* drawdown_help = R"(Starts with full tanks and drives at the job's speed until they are empty.

Examples:
  libflow drawdown pump_and_tank_bar.toml
  libflow drawdown two_tanks.toml --as-filled      from the levels in the layout
  libflow drawdown pump_and_tank_bar.toml --fixed-control --csv -o fill.csv

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed, 4 stopped or given up before the end of the fill.)";

struct Given {
  std::string file;
  DrawdownOptions options;
  OutputOptions output;
};

int drawdown_file(const Given& given) {
  const Layout layout = read_layout(given.file);
  const Drawdown d = naming(given.file, [&] { return drawdown(layout, given.options, watch(given.output)); });
  switch (given.output.format) {
    case Format::json:
      deliver(to_text(drawdown_to_json(d)), given.output);
      break;
    case Format::csv:
      deliver(drawdown_to_csv(d, given.output.units.value_or(d.units)), given.output);
      break;
    case Format::text:
      deliver(drawdown_text(d, text_options(given.output)), given.output);
      break;
  }
  return d.complete ? exit_even : exit_stopped;
}

}  // namespace drawdown_command

void add_drawdown_command(CLI::App& program, int& code) {
  using namespace drawdown_command;
  CLI::App* command = program.add_subcommand("drawdown", "one fill from full to empty: time, area, levels, evenness");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file with a tank")->required()->type_name("");
  command->add_flag_callback(
      "--as-filled", [given] { given->options.from_full = false; },
      "start at the layout's levels, not with full tanks");
  command->add_flag_callback(
      "--fixed-control", [given] { given->options.hold_rate = false; },
      "find the control's setting once, then leave it alone; default: it holds the rate");
  command->add_option("--samples", given->options.samples, "equal shares of the fill to look at; default 20")
      ->type_name("N");
  command
      ->add_option_function<std::string>(
          "--longest",
          [given](const std::string& text) { given->options.longest = parse_quantity<Time>(text, "--longest"); },
          "give up after this time in the field; default 48 h")
      ->type_name("TIME");
  add_output_options(*command, given->output);
  command->footer(drawdown_help);
  command->callback([given, &code] { code = drawdown_file(*given); });
}

}  // namespace libflow::app
