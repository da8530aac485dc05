// SPDX-License-Identifier: MIT
/// @file
/// libflow check: validates layout files without solving them.

#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/shown_line.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/network/structure.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/units/quote.hpp>

namespace libflow::app {

namespace check_command {

constexpr const char* help =
    R"(Reads each file, checks every name, unit and range and whether liquid can get to the rows; solves nothing.

Examples:
  libflow check north_bar.toml
  libflow check *.toml

Exit code: 0 all can be solved, 2 at least one cannot; one message for each.)";

struct Given {
  std::vector<std::string> files;
  bool quiet = false;
};

/// What the layout plumbs, in a few words. @throws InputError, IllPosedError
std::string checked(const std::string& file) {
  const Layout layout = read_layout(file);
  return naming(file, [&] {
    check(layout.job);
    const Toolbar* bar = std::get_if<Toolbar>(&layout.plumbing);
    const Plumbing plumbing = bar != nullptr ? build_network(*bar, layout.job) : std::get<Plumbing>(layout.plumbing);
    static_cast<void>(check_structure(plumbing.network));
    std::string what = fmt::format(
        "{} rows ({} places joined by {} parts); it can be solved, and 'libflow solve' says whether it is "
        "even",
        plumbing.rows.size(), plumbing.network.place_count(), plumbing.network.part_count());
    if (bar != nullptr) {
      const Cautions short_ones = short_hose_cautions(*bar);
      if (!short_ones.empty())
        what += fmt::format(". BUT in {} of its rows: {}", short_ones.size(), short_ones.front().text);
    }
    return what;
  });
}

int check_files(const Given& given) {
  int code = exit_even;
  for (const std::string& file : given.files) {
    try {
      const std::string what = checked(file);
      if (!given.quiet) fmt::print("{}: good: {}\n", in_quotes(file, 200), what);
    } catch (const InputError& error) {
      fmt::print(stderr, "libflow: {}\n", with_line(error));
      code = exit_bad_input;
    } catch (const Error& error) {
      fmt::print(stderr, "libflow: {}\n", error.what());
      code = exit_bad_input;
    }
  }
  return code;
}

}  // namespace check_command

void add_check_command(CLI::App& program, int& code) {
  using namespace check_command;
  CLI::App* command = program.add_subcommand("check", "validates layout files without solving them");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->files, "layout files")->required()->type_name("");
  command->add_flag("-q,--quiet", given->quiet, "only what is wrong");
  command->footer(help);
  command->callback([given, &code] { code = check_files(*given); });
}

}  // namespace libflow::app
