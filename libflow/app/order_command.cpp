// SPDX-License-Identifier: MIT
/// @file
/// libflow order: what to buy and what to cut.

#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/order_list_json.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace order_command {

constexpr const char* order_help =
    R"(Every cut is rounded up to a whole inch, or a whole centimetre with metric units. The allowance of --waste (trimmed ends,
kinks, a mistake) comes on top of each cut, in coils too; slack for the run is in the layout (extra in [hose]).

Examples:
  libflow order north_bar.toml
  libflow order north_bar.toml --coil "100 ft" --waste "8 %"
  libflow order north_bar.toml --csv -o order.csv

Exit code: 0 done, 2 bad input.)";

struct Given {
  std::string file;
  OrderOptions options;
  OutputOptions output;
};

int order_file(const Given& given) {
  const Layout layout = read_layout(given.file);
  OrderOptions options = given.options;
  options.tape = given.output.units;
  const OrderList list = naming(given.file, [&] { return order_list(layout, options); });
  switch (given.output.format) {
    case Format::json:
      deliver(to_text(order_list_to_json(list)), given.output);
      break;
    case Format::csv:
      deliver(order_list_to_csv(list, list.units), given.output);
      break;
    case Format::text:
      deliver(order_list_text(list, text_options(given.output)), given.output);
      break;
  }
  return exit_even;
}

}  // namespace order_command

void add_order_command(CLI::App& program, int& code) {
  using namespace order_command;
  CLI::App* command = program.add_subcommand("order", "hose to cut, row by row, and parts to buy");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command
      ->add_option_function<std::string>(
          "--waste", [given](const std::string& text) { given->options.waste = parse_fraction(text, "--waste"); },
          "hose beyond the cuts; default 5 %, common practice")
      ->type_name("PER CENT");
  command
      ->add_option_function<std::string>(
          "--coil", [given](const std::string& text) { given->options.coil = parse_quantity<Length>(text, "--coil"); },
          "hose comes in coils of this length: how many, and what is cut from each, its allowance counted")
      ->type_name("LENGTH");
  add_output_options(*command, given->output);
  command->footer(order_help);
  command->callback([given, &code] { code = order_file(*given); });
}

}  // namespace libflow::app
