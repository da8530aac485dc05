// SPDX-License-Identifier: MIT
/// @file
/// libflow report: one page to print.

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <libflow/app/catch_options.hpp>
#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/report/page.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow::app {

namespace report_command {

constexpr const char* help =
    R"(The page holds everything: it needs no network and no script, and prints on letter and A4.
One layout: verdict, rows, drawing, what decides it, where it works, faults, order list, setting card, catch test.
With --catch, what the cups of a catch test say and which row is at fault (options as in 'libflow catch').
Two or more: the difference first.

Examples:
  libflow report north_bar.toml -o north_bar.html
  libflow report north_bar.toml --catch cups.csv --gauge "28 psi" -o north_bar.html --force
  libflow report long_hoses.toml short_hoses.toml -o difference.html --units metric --force

Exit code: 0 even (several: one of them is), 1 not even, 2 bad input, 3 unsolved or ill-posed, 4 stopped.)";

struct Given {
  std::vector<std::string> files;
  CatchOptions cups;
  OutputOptions output;
};

int report_one(const Given& given) {
  const std::string& file = given.files.front();
  const OutputOptions& output = given.output;
  const Layout layout = read_layout(file);
  std::vector<PageSection> findings;
  if (!given.cups.readings.empty()) {
    const CatchSetup setup = catch_setup(given.cups);
    findings = findings_sections(catch_findings(file, layout, given.cups, setup), layout, setup, text_options(output));
  }
  const Answer answer = naming(file, [&] { return main_job(layout); });
  if (!answer.solution.usable()) throw IllPosedError(fmt::format("{}: {}", file, answer.solution.message));
  deliver(dealer_page(layout, answer, text_options(output), watch(output), findings), output);
  if (was_interrupted()) return exit_stopped;
  return answer.evenness.even ? exit_even : exit_not_even;
}

int report_several(const std::vector<std::string>& files, const OutputOptions& output) {
  std::vector<Layout> layouts;
  for (const std::string& file : files) layouts.push_back(read_layout(file));
  const Comparison comparison = compare(layouts);
  bool any_even = false;
  for (std::size_t k = 0; k < files.size(); ++k) {
    const Answer& a = comparison.answers[k];
    if (!a.solution.usable()) throw IllPosedError(fmt::format("{}: {}", files[k], a.solution.message));
    any_even = any_even || a.evenness.even;
  }
  deliver(comparison_page(comparison, text_options(output)), output);
  return any_even ? exit_even : exit_not_even;
}

}  // namespace report_command

void add_report_command(CLI::App& program, int& code) {
  using namespace report_command;
  CLI::App* command = program.add_subcommand("report", "one page to print: verdict, rows, drawing, what decides it");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->files, "layout file, or several to compare")
      ->required()
      ->expected(1, 100)
      ->type_name("");
  auto* cups = command->add_option("--catch", given->cups.readings, "cups of a catch test, judged on the page");
  cups->type_name("READINGS");
  add_catch_options(*command, given->cups, cups);
  add_units_option(*command, given->output);
  add_file_options(*command, given->output);
  command->add_flag("-q,--quiet", given->output.quiet, "no progress while it works");
  command->footer(help);
  command->callback([given, &code] {
    if (given->files.size() > 1 && !given->cups.readings.empty()) {
      throw InputError("--catch", "cups stand under one bar, and there are several layouts", "one layout file");
    }
    code = given->files.size() == 1 ? report_one(*given) : report_several(given->files, given->output);
  });
}

}  // namespace libflow::app
