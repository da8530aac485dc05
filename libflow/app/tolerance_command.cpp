// SPDX-License-Identifier: MIT
/// @file
/// libflow tolerance: how even is the machine as built, and which tolerance matters?

#include <algorithm>
#include <bit>
#include <cstddef>
#include <memory>
#include <string>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/tolerance_json.hpp>
#include <libflow/report/tolerance_text.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow::app {

namespace tolerance_command {

constexpr const char* tolerance_help = R"(Draws machines within the [[tolerance]] entries of the layout and solves each.

Examples:
  libflow tolerance as_built.toml
  libflow tolerance as_built.toml --machines 1000000 --json -o as_built.json
  libflow tolerance as_built.toml --no-shares     only how even

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed, 4 stopped: what is shown is a part of the work.)";

struct Given {
  std::string file;
  std::size_t machines = 32768;
  bool shares = true;
  ToleranceOptions options;
  OutputOptions output;
};

int study_file(Given given) {
  const Layout layout = read_layout(given.file);
  if (layout.tolerances.empty()) {
    throw InputError(given.file, "has no [[tolerance]]: nothing says by how much its parts vary",
                     "lines such as these at its end (the figures are only an example):\n"
                     "  [[tolerance]]\n"
                     "  of = \"orifice_bore\"\n"
                     "  normal = \"0.0004 in\"      # standard deviation\n"
                     "  [[tolerance]]\n"
                     "  of = \"hose_length\"\n"
                     "  uniform = \"1 in\"          # up to so much longer or shorter");
  }
  ToleranceOptions& o = given.options;
  require_in("--machines", static_cast<double>(given.machines), {128.0, 1e9}, "");
  // Whole powers of two in eight replicates, at least as many machines as asked for.
  o.points = std::bit_ceil((given.machines + o.replicates - 1) / o.replicates);
  o.share_points = given.shares ? std::max<std::size_t>(256, o.points / 16) : 0;
  const ToleranceResult result =
      naming(given.file, [&] { return tolerance_study(layout, layout.tolerances, o, watch(given.output)); });
  if (given.output.format == Format::json) {
    deliver(to_text(tolerance_to_json(result)), given.output);
  } else {
    deliver(tolerance_text(result, text_options(given.output)), given.output);
  }
  return result.complete ? exit_even : exit_stopped;
}

}  // namespace tolerance_command

void add_tolerance_command(CLI::App& program, int& code) {
  using namespace tolerance_command;
  CLI::App* command = program.add_subcommand("tolerance", "as built: how even, how sure, and which tolerance matters");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file with [[tolerance]] entries")->required()->type_name("");
  command->add_option("--machines", given->machines, "machines to draw, at least; default 32768")->type_name("N");
  command->add_option("--seed", given->options.seed, "of the drawing; the same seed draws the same machines; default 1")
      ->type_name("N");
  command->add_option("--threads", given->options.threads, "default: one a core; results do not depend on it")
      ->type_name("N");
  command->add_flag_callback(
      "--no-shares", [given] { given->shares = false; }, "leave out which tolerance matters (faster)");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(tolerance_help);
  command->callback([given, &code] { code = study_file(*given); });
}

}  // namespace libflow::app
