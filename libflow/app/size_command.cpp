// SPDX-License-Identifier: MIT
/// @file
/// libflow size: what to buy so that every limit holds

#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/job_options.hpp>
#include <libflow/file/layout_size.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/size.hpp>

namespace libflow::app {

namespace size_command {

constexpr const char* size_help =
    R"(Chooses from the lists in [size] of the layout file, cheapest first, so that evenness, pressures and pump hold at every
operating point; what is recommended is verified over everything between the least and the most of them. Where the
product's viscosity is known as a band only, a choice that holds at both of its ends is preferred at up to 10 % more, and
the answer says whether it is sure. Without [size]: generic orifice bores, the layout's hose, four ways to cut it. Hoses
are rounded up to whole inches, or with metric units to whole centimetres.

Examples:
  libflow size sizing.toml
  libflow size sizing.toml --speeds "3 mph, 7 mph" --rates "4 gal/ac, 6 gal/ac"
  libflow size sizing.toml --json -o sizes.json

Exit code: 0 something fits, 1 nothing fits, 2 bad input, 3 unsolved or ill-posed, 4 stopped.)";

struct Given {
  std::string file;
  std::vector<Speed> speeds;
  std::vector<AreaRate> rates;
  std::vector<Temperature> temperatures;
  OutputOptions output;
};

int size_file(const Given& given) {
  SizeFile file = read_size(given.file);
  if (!given.speeds.empty()) file.choices.speeds = given.speeds;
  if (!given.rates.empty()) file.choices.rates = given.rates;
  if (!given.temperatures.empty()) file.choices.temperatures = given.temperatures;
  if (given.output.units) file.choices.cut_to = cut_step(*given.output.units);
  const SizeAnswer answer =
      naming(given.file, [&] { return size_toolbar(file.layout, file.choices, watch(given.output)); });
  if (given.output.format == Format::json) {
    deliver(to_text(size_to_json(answer)), given.output);
  } else {
    deliver(size_text(answer, text_options(given.output)), given.output);
  }
  if (!answer.complete) return exit_stopped;
  return !answer.fits.empty() ? exit_even : exit_not_even;
}

}  // namespace size_command

void add_size_command(CLI::App& program, int& code) {
  using namespace size_command;
  CLI::App* command = program.add_subcommand("size", "what to buy so that every limit holds");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_list(*command, "--speeds", given->speeds, "instead of the file's, e.g. \"3 mph, 7 mph\"");
  add_list(*command, "--rates", given->rates, "instead of the file's, e.g. \"4 gal/ac, 6 gal/ac\"");
  add_list(*command, "--temperatures", given->temperatures, "instead of the file's, e.g. \"40 F, 70 F\"");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(size_help);
  command->callback([given, &code] { code = size_file(*given); });
}

}  // namespace libflow::app
