// SPDX-License-Identifier: MIT
/// @file
/// libflow card: one page for the operator.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/job_options.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/setting_card_json.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow::app {

namespace card_command {

constexpr const char* card_help =
    R"(Speeds and rates are the file's [range] where they are not given here.

Examples:
  libflow card north_bar.toml
  libflow card north_bar.toml --rates "4 gal/ac, 5 gal/ac" --time "1 min"
  libflow card north_bar.toml --speeds "3 mph, 4 mph, 5 mph" -o card.txt

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed.)";

struct Given {
  std::string file;
  JobOptions job;
  SettingCardOptions card;
  OutputOptions output;
};

int card_file(const Given& given) {
  const Layout layout = changed_job(read_layout(given.file), given.job);
  const SettingCard card = naming(given.file, [&] { return setting_card(layout, given.card); });
  if (given.output.format == Format::json) {
    deliver(to_text(setting_card_to_json(card)), given.output);
  } else {
    deliver(setting_card_text(card, text_options(given.output)), given.output);
  }
  return exit_even;
}

}  // namespace card_command

void add_card_command(CLI::App& program, int& code) {
  using namespace card_command;
  CLI::App* command = program.add_subcommand("card", "one page for the operator: pressures, speeds, cups");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_list(*command, "--speeds", given->card.speeds, "at most 20, e.g. \"3 mph, 4 mph, 5 mph\"");
  add_list(*command, "--rates", given->card.rates, "at most 6, e.g. \"4 gal/ac, 5 gal/ac\"");
  command
      ->add_option_function<std::string>(
          "--time", [given](const std::string& text) { given->card.catch_time = parse_quantity<Time>(text, "--time"); },
          "that the cups are held under; default 30 s")
      ->type_name("TIME");
  add_job_options(*command, given->job);
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(card_help);
  command->callback([given, &code] { code = card_file(*given); });
}

}  // namespace libflow::app
