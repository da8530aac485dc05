// SPDX-License-Identifier: MIT
/// @file
/// libflow compare: layouts side by side at the same total rate.

#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/study/compare.hpp>

namespace libflow::app {

namespace compare_command {

constexpr const char* compare_help =
    R"(All layouts are brought to the first one's rate and speed; each one's setting is found anew.

Examples:
  libflow compare long_hoses.toml short_hoses.toml
  libflow compare a.toml b.toml c.toml --json

Exit code: 0 all solved, 2 bad input, 3 unsolved or ill-posed.)";

int compare_files(const std::vector<std::string>& files, const OutputOptions& output) {
  std::vector<Layout> layouts;
  for (const std::string& file : files) layouts.push_back(read_layout(file));
  const Comparison comparison = compare(layouts);
  for (std::size_t k = 0; k < comparison.answers.size(); ++k) {
    const Solution& s = comparison.answers[k].solution;
    if (!s.usable()) throw IllPosedError(fmt::format("{}: {}", files[k], s.message));
  }
  switch (output.format) {
    case Format::json:
      deliver(to_text(comparison_to_json(comparison)), output);
      break;
    case Format::csv:
      deliver(comparison_to_csv(comparison, output.units.value_or(layouts.front().units)), output);
      break;
    case Format::text:
      deliver(comparison_text(comparison, {.units = output.units, .colour = wants_colour(output)}), output);
      break;
  }
  return exit_even;
}

struct Given {
  std::vector<std::string> files;
  OutputOptions output;
};

}  // namespace compare_command

void add_compare_command(CLI::App& program, int& code) {
  using namespace compare_command;
  CLI::App* command = program.add_subcommand("compare", "layouts side by side at the same total rate");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->files, "two layout files or more")->required()->expected(2, 100)->type_name("");
  add_output_options(*command, given->output);
  command->footer(compare_help);
  command->callback([given, &code] { code = compare_files(given->files, given->output); });
}

}  // namespace libflow::app
