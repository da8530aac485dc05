// SPDX-License-Identifier: MIT
/// @file
/// libflow report: one page to print.

#include <unistd.h>

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/app/catch_options.hpp>
#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/layouts.hpp>
#include <libflow/app/page_options.hpp>
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
  libflow report north_bar.toml --catch cups.csv --gauge "28 psi" -o page.html
  libflow report long_hoses.toml short_hoses.toml -o difference.html --force

Exit code: 0 even and the wanted rate is given (with cups: they say even; several layouts: one of
them is); 1 not; 2 bad input; 3 unsolved or ill-posed; 4 stopped.)";

struct Given {
  std::vector<std::string> files;
  std::string date;
  CatchOptions cups;
  OutputOptions output;
};

int report_one(const Given& given) {
  const std::string& file = given.files.front();
  const OutputOptions& output = given.output;
  const PageOrigin origin = page_origin(given.files, given.date);
  const Layout layout = read_layout(file);
  PageFindings findings;
  std::optional<bool> cups_good;  // empty: no cups
  if (!given.cups.readings.empty()) {
    const CatchSetup setup = catch_setup(given.cups);
    const CatchFindings found = catch_findings(file, layout, given.cups, setup);
    cups_good = found.good();
    findings = page_findings(found, layout, text_options(output));
  }
  const Answer answer = naming(file, [&] { return main_job(layout); });
  if (!answer.solution.usable()) throw IllPosedError(fmt::format("{}: {}", file, answer.solution.message));
  deliver(dealer_page(layout, answer, text_options(output), watch(output), findings, origin), output);
  if (was_interrupted()) return exit_stopped;
  // What was caught counts more than what was computed.
  if (cups_good) return *cups_good ? exit_even : exit_not_even;
  return exit_of(answer);
}

int report_several(const Given& given) {
  const std::vector<std::string>& files = given.files;
  const OutputOptions& output = given.output;
  const PageOrigin origin = page_origin(files, given.date);
  const std::vector<Layout> layouts = read_layouts(files);
  const Comparison comparison = compare(layouts);
  bool any_even = false;
  for (std::size_t k = 0; k < files.size(); ++k) {
    const Answer& a = comparison.answers[k];
    if (!a.solution.usable()) throw IllPosedError(fmt::format("{}: {}", files[k], a.solution.message));
    any_even = any_even || exit_of(a) == exit_even;
  }
  deliver(comparison_page(comparison, text_options(output), origin), output);
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
  add_date_option(*command, given->date);
  add_units_option(*command, given->output);
  add_file_options(*command, given->output);
  command->add_flag("-q,--quiet", given->output.quiet, "no progress while it works");
  command->footer(help);
  command->callback([given, &code] {
    if (given->output.path.empty() && ::isatty(STDOUT_FILENO) == 1) {
      throw InputError("-o", "a page is for a browser, and this is a terminal", "a file: -o page.html, or a pipe");
    }
    if (given->files.size() > 1 && !given->cups.readings.empty()) {
      throw InputError("--catch", "cups stand under one bar, and there are several layouts", "one layout file");
    }
    code = given->files.size() == 1 ? report_one(*given) : report_several(*given);
  });
}

}  // namespace libflow::app
