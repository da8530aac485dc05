// SPDX-License-Identifier: MIT
/// @file
/// libflow explain: where the pressure to one row goes, and why the row is off.

#include <charconv>
#include <memory>
#include <string>
#include <system_error>
#include <utility>
#include <variant>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/path_json.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/path.hpp>
#include <libflow/units/quote.hpp>

namespace libflow::app {

namespace explain_command {

constexpr const char* help = R"(Examples:
  libflow explain north_bar.toml 8
  libflow explain north_bar.toml 8 --json

Exit code: 0 the row is within the tolerance and the wanted rate is given; 1 not; 2 bad input;
3 unsolved or ill-posed.)";

struct Given {
  std::string file;
  std::string row;
  OutputOptions output;
};

/// "8" as a row of the layout.
int row_number(const std::string& text, const Layout& layout) {
  const auto* bar = std::get_if<Toolbar>(&layout.plumbing);
  const int last = bar != nullptr ? bar->rows : static_cast<int>(std::get<Plumbing>(layout.plumbing).rows.size());
  int row = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), row);
  const bool read = error == std::errc() && end == text.data() + text.size();
  if (!read || (bar != nullptr && (row < 1 || row > last))) {
    throw InputError("ROW", in_quotes(text) + " is no row of this layout",
                     bar != nullptr ? fmt::format("1 to {}, counted from the left", last)
                                    : fmt::format("the number of one of its {} rows", last));
  }
  return row;
}

int explain(const Given& given) {
  Layout layout = read_layout(given.file);
  const int row = row_number(given.row, layout);
  const Answer answer = naming(given.file, [&] { return main_job(std::move(layout)); });
  if (!answer.solution.usable()) throw IllPosedError(fmt::format("{}: {}", given.file, answer.solution.message));
  if (given.output.format == Format::json) {
    deliver(to_text(path_to_json(answer, path_to_row(answer, row))), given.output);
  } else {
    deliver(explain_text(answer, row, text_options(given.output)), given.output);
  }
  for (const int outside : answer.evenness.outside) {
    if (outside == row) return exit_not_even;
  }
  return answer.evenness.mean_rate > 0.0 && short_of_rate(answer) == nullptr ? exit_even : exit_not_even;
}

}  // namespace explain_command

void add_explain_command(CLI::App& program, int& code) {
  using namespace explain_command;
  CLI::App* command =
      program.add_subcommand("explain", "step by step: where the pressure to a row goes, why it is off");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command->add_option("ROW", given->row, "row, counted from the left")->required()->type_name("");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(help);
  command->callback([given, &code] { code = explain(*given); });
}

}  // namespace libflow::app
