// SPDX-License-Identifier: MIT
/// @file
/// How --help is laid out: nothing is wider than 80 columns, whatever the words of the commands are.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <CLI/CLI.hpp>

#include <libflow/report/words.hpp>

namespace libflow::app {

/// Names on the left, what they mean on the right; prose is filled, examples (indented lines) stay as they are.
class HelpFormatter : public CLI::Formatter {
 public:
  static constexpr std::size_t width = 80;  ///< columns of the help
  static constexpr std::size_t names = 28;  ///< columns of the names

  std::string make_description(const CLI::App* app) const override {
    return report_detail::wrapped(app->get_description(), width);
  }
  std::string make_option(const CLI::Option* option, bool positional) const override {
    return entry(make_option_name(option, positional) + make_option_opts(option), make_option_desc(option));
  }
  std::string make_subcommand(const CLI::App* command) const override {
    return entry(command->get_display_name(true), command->get_description());
  }
  std::string make_footer(const CLI::App* app) const override {
    const std::string footer = app->get_footer();
    std::string_view rest = footer;
    std::string out, prose;
    const auto end_prose = [&] {
      if (!prose.empty()) out += report_detail::wrapped(prose, width);
      prose.clear();
    };
    while (!rest.empty()) {
      const std::size_t end = rest.find('\n');
      const std::string_view line = rest.substr(0, end);
      rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
      if (line.empty() || line.front() == ' ') {
        end_prose();
        out += std::string(line) + "\n";
        continue;
      }
      // These words begin something new even without an empty line before them.
      if (line.starts_with("Exit code") || line.starts_with("Examples")) end_prose();
      prose += (prose.empty() ? "" : " ") + std::string(line);
    }
    end_prose();
    return out;
  }

 private:
  static std::string entry(const std::string& name, const std::string& meaning) {
    const std::string left = "  " + name;
    const std::string indent(names, ' ');
    if (meaning.empty()) return left + "\n";
    if (report_detail::columns(left) + 2 <= names) {
      return report_detail::wrapped(meaning, width, names, report_detail::padded(left, names, false));
    }
    return left + "\n" + report_detail::wrapped(meaning, width, names, indent);
  }
};

}  // namespace libflow::app
