// SPDX-License-Identifier: MIT
/// @file
/// libflow whatif: what a fault does, and whether the operator would notice.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/what_if_json.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/what_if.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace whatif_command {

constexpr const char* whatif_help =
    R"(Each fault is tried twice: the controller holds the total, and the setting stays.

Examples:
  libflow whatif north_bar.toml
  libflow whatif north_bar.toml --row 1 --gauge-step "1 psi"

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed, 4 stopped.)";

struct Given {
  std::string file;
  WhatIfOptions options;
  OutputOptions output;
};

int what_if_file(const Given& given) {
  const Layout layout = read_layout(given.file);
  const WhatIf answer = naming(given.file, [&] { return what_if(layout, given.options, watch(given.output)); });
  if (given.output.format == Format::json) {
    deliver(to_text(what_if_to_json(answer)), given.output);
  } else {
    deliver(what_if_text(answer, text_options(given.output)), given.output);
  }
  return answer.complete ? exit_even : exit_stopped;
}

}  // namespace whatif_command

void add_whatif_command(CLI::App& program, int& code) {
  using namespace whatif_command;
  CLI::App* command =
      program.add_subcommand("whatif", "what a plugged row, a kinked hose ... would do, and who would notice");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command->add_option("--row", given->options.row, "the row at fault; default: one in the middle")->type_name("N");
  command
      ->add_option_function<std::string>(
          "--gauge-step",
          [given](const std::string& text) {
            given->options.gauge_step = parse_quantity<Pressure>(text, "--gauge-step");
          },
          "smallest change that is seen on the gauge; default 2 psi")
      ->type_name("PRESSURE");
  command
      ->add_option_function<std::string>(
          "--meter-step",
          [given](const std::string& text) { given->options.meter_step = parse_fraction(text, "--meter-step"); },
          "smallest change that is seen on the meter; default 2 %")
      ->type_name("PER CENT");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(whatif_help);
  command->callback([given, &code] { code = what_if_file(*given); });
}

}  // namespace libflow::app
