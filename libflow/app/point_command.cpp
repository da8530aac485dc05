// SPDX-License-Identifier: MIT
/// @file
/// libflow point: the control's setting that gives the rate, and the room to every limit.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/job_options.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/operating_point_json.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/study/operating_point.hpp>

namespace libflow::app {

namespace point_command {

constexpr const char* point_help =
    R"(The control is what [drive] names; without a [drive] it is the supply's pressure, up to job's pump_limit
(without one, 60 psi is assumed and said).
In a layout place by place --control names the part that is moved; without it such a layout is shown as it stands.

Examples:
  libflow point pump_and_tank_bar.toml
  libflow point pump_and_tank_bar.toml --rate "8 gal/ac" --speed "6 mph" --json
  libflow point tank_and_pump.toml --control pump

Exit code: 0 the rate is reached, every limit that would stop it is kept and the rows are even;
1 not; 2 bad input; 3 unsolved or ill-posed.)";

struct Given {
  std::string file;
  JobOptions job;
  std::string control;
  OutputOptions output;
};

int point_file(const Given& given) {
  const Layout layout = changed_job(read_layout(given.file), given.job);
  const OperatingPoint point = naming(given.file, [&] { return operating_point(layout, given.control); });
  if (given.output.format == Format::json) {
    deliver(to_text(operating_point_to_json(point)), given.output);
  } else {
    deliver(operating_point_text(point, text_options(given.output)), given.output);
  }
  return point.runs() ? exit_of(point.answer) : exit_not_even;
}

}  // namespace point_command

void add_point_command(CLI::App& program, int& code) {
  using namespace point_command;
  CLI::App* command = program.add_subcommand(
      "point", "the setting of pump or pressure that gives the rate, and the room to every limit");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_job_options(*command, given->job);
  command
      ->add_option("--control", given->control,
                   "of a layout place by place: the pump, valve, regulator or supply that is moved to reach the rate")
      ->type_name("PART");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(point_help);
  command->callback([given, &code] { code = point_file(*given); });
}

}  // namespace libflow::app
