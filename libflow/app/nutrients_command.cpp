// SPDX-License-Identifier: MIT
/// @file
/// libflow nutrients: what a layout brings per area, salt with the seed, and whether water tells the truth.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/nutrients_json.hpp>
#include <libflow/report/nutrients_text.hpp>
#include <libflow/study/agronomy.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace nutrients_command {

constexpr const char* nutrients_help = R"(Examples:
  libflow nutrients north_bar.toml
  libflow nutrients north_bar.toml --crop soybean --soil sandy
  libflow nutrients north_bar.toml --water "55 F" --csv -o nutrients.csv

The product label and local guidance decide what may lie with the seed.
Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed.)";

struct Given {
  std::string file;
  AgronomyOptions options;
  OutputOptions output;
};

int nutrients_file(const Given& given) {
  Layout layout = read_layout(given.file);
  const Agronomy a = naming(given.file, [&] { return agronomy(std::move(layout), given.options); });
  switch (given.output.format) {
    case Format::json:
      deliver(to_text(nutrients_to_json(a)), given.output);
      break;
    case Format::csv:
      deliver(nutrients_to_csv(a, given.output.units.value_or(a.answer.layout.units)), given.output);
      break;
    case Format::text:
      deliver(nutrients_text(a, text_options(given.output)), given.output);
      break;
  }
  return exit_even;
}

}  // namespace nutrients_command

void add_nutrients_command(CLI::App& program, int& code) {
  using namespace nutrients_command;
  CLI::App* command = program.add_subcommand("nutrients", "nutrients per area, salt with the seed, test with water");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command
      ->add_option_function<std::string>(
          "--crop", [given](const std::string& text) { given->options.crop = parse_crop(text, "--crop"); },
          "whose seed: corn (default), soybean, dry-bean, sunflower, spring-wheat")
      ->type_name("CROP");
  command
      ->add_option_function<std::string>(
          "--soil", [given](const std::string& text) { given->options.soil = parse_soil(text, "--soil"); },
          "sandy, medium or fine; default: limits for each are listed")
      ->type_name("SOIL");
  command
      ->add_option_function<std::string>(
          "--water",
          [given](const std::string& text) {
            given->options.water_temperature = parse_quantity<Temperature>(text, "--water");
          },
          "temperature of the water in a test; default 20 C")
      ->type_name("TEMPERATURE");
  add_output_options(*command, given->output);
  command->footer(nutrients_help);
  command->callback([given, &code] { code = nutrients_file(*given); });
}

}  // namespace libflow::app
