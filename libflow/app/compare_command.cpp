// SPDX-License-Identifier: MIT
/// @file
/// libflow compare: layouts side by side at the same total rate.

#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/job_options.hpp>
#include <libflow/app/layouts.hpp>
#include <libflow/file/compare_points_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/compare_points_text.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/compare_points.hpp>

namespace libflow::app {

namespace compare_command {

constexpr const char* compare_help =
    R"(All layouts are brought to the first one's rate and speed; each one's setting is
found anew. A layout that cannot reach that rate is said first.

Examples:
  libflow compare long_hoses.toml short_hoses.toml
  libflow compare a.toml b.toml c.toml --json
  libflow compare a.toml b.toml --speeds "3 mph, 7 mph" --rates "4 gal/ac"
  libflow compare a.toml b.toml --range     over the first file's [range]

Exit code: 0 all solved, even or not; 2 bad input; 3 unsolved or ill-posed.)";

int compare_files(const std::vector<std::string>& files, const OutputOptions& output) {
  const std::vector<Layout> layouts = read_layouts(files);
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
      deliver(comparison_text(comparison, text_options(output), files), output);
      break;
  }
  return exit_even;
}

struct Given {
  std::vector<std::string> files;
  std::vector<Speed> speeds;
  std::vector<AreaRate> rates;
  bool range = false;
  OutputOptions output;
};

int compare_over_points(const Given& given) {
  if (given.output.format == Format::csv) {
    throw InputError("--csv", "goes with one operating point only", "--json, or no --range, --speeds and --rates");
  }
  const std::vector<Layout> layouts = read_layouts(given.files);
  const WorkingRange& range = layouts.front().range;
  if (given.range && range.speeds.empty() && range.rates.empty()) {
    throw InputError(given.files.front(), "has no [range], which --range asks for", "a [range] with speeds and rates");
  }
  const PointComparison c = compare_points(layouts, given.speeds, given.rates, watch(given.output));
  if (given.output.format == Format::json) {
    deliver(to_text(compare_points_to_json(c)), given.output);
  } else {
    deliver(compare_points_text(c, text_options(given.output), given.files), given.output);
  }
  return c.complete ? exit_even : exit_stopped;
}

}  // namespace compare_command

void add_compare_command(CLI::App& program, int& code) {
  using namespace compare_command;
  CLI::App* command = program.add_subcommand("compare", "layouts side by side at the same total rate");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->files, "two layout files or more")->required()->expected(2, 100)->type_name("");
  add_list(*command, "--speeds", given->speeds, "over these speeds, e.g. \"3 mph, 5 mph\"");
  add_list(*command, "--rates", given->rates, "over these rates, e.g. \"4 gal/ac, 6 gal/ac\"");
  command->add_flag("--range", given->range, "over the speeds and rates of the first file's [range]");
  add_output_options(*command, given->output);
  command->footer(compare_help);
  command->callback([given, &code] {
    const bool points = given->range || !given->speeds.empty() || !given->rates.empty();
    code = points ? compare_over_points(*given) : compare_files(given->files, given->output);
  });
}

}  // namespace libflow::app
