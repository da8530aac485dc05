// SPDX-License-Identifier: MIT
/// @file
/// What every subcommand of the program shares: options, output, progress, exit codes.
///
/// A subcommand is one file, `<name>_command.cpp`, with one function that adds it to the program;
/// `commands.hpp` lists them.
#pragma once

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <sys/ioctl.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <boost/timer/progress_display.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/progress.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow::app {

/// What the program leaves for scripts.
enum Exit : int {
  exit_even = 0,       ///< every row is within the tolerance and the wanted rate is given; other commands: done
  exit_not_even = 1,   ///< a row is outside, or the wanted rate is not reached; other commands: the answer is no
  exit_bad_input = 2,  ///< the command line, a file or a value in it
  exit_unsolved = 3,   ///< plumbing without an answer, or no convergence
  exit_stopped = 4     ///< stopped by the user; what is shown is a part of the work and says so
};

/// The code of one layout's answer. An even bar that gives too little is no good bar.
inline Exit exit_of(const Answer& answer) {
  return answer.evenness.even && short_of_rate(answer) == nullptr ? exit_even : exit_not_even;
}

enum class Format { text, json, csv };

struct OutputOptions {
  Format format = Format::text;
  std::optional<UnitSystem> units;
  std::string path;    ///< empty: standard output
  bool force = false;  ///< replace a file that exists
  bool quiet = false;  ///< no progress on standard error
};

/// Which formats a command can write.
enum class Formats { text_json, text_json_csv };

/// Where the output goes.
inline void add_file_options(CLI::App& command, OutputOptions& output) {
  auto* path = command.add_option("-o,--output", output.path, "write into this file, whole or not at all");
  path->type_name("OUT");
  command.add_flag("--force", output.force, "replace the file if it exists")->needs(path);
}

/// In which units results are shown.
inline void add_units_option(CLI::App& command, OutputOptions& output) {
  command
      .add_option_function<std::string>(
          "--units", [&output](const std::string& name) { output.units = parse_unit_system(name, "--units"); },
          "units of what is shown; default: as the layout says")
      ->type_name("us|metric");
}

/// The options of a command that computes.
inline void add_output_options(CLI::App& command, OutputOptions& output, Formats formats = Formats::text_json_csv) {
  auto* json = command.add_flag_callback(
      "--json", [&output] { output.format = Format::json; }, "everything as JSON, SI units named in the keys");
  if (formats == Formats::text_json_csv) {
    command
        .add_flag_callback(
            "--csv", [&output] { output.format = Format::csv; }, "one line a row, for a spreadsheet")
        ->excludes(json);
  }
  add_units_option(command, output);
  add_file_options(command, output);
  command.add_flag("-q,--quiet", output.quiet, "no progress while it works");
}

/// Colour only on a terminal that shows it, and never where the user's NO_COLOR asks for none.
inline bool wants_colour(const OutputOptions& output) {
  const char* const no_colour = std::getenv("NO_COLOR");
  const char* const terminal = std::getenv("TERM");
  const bool dumb = terminal != nullptr && std::strcmp(terminal, "dumb") == 0;
  return output.path.empty() && (no_colour == nullptr || *no_colour == '\0') && !dumb && ::isatty(STDOUT_FILENO) == 1;
}

/// Columns of what is written to standard output: the terminal's, else those that COLUMNS names, 80 to 100 (tables need
/// the one, and longer lines are hard to read). 100 without either, and in files, so that a file is the same anywhere.
inline std::size_t output_width(const OutputOptions& output) {
  constexpr std::size_t least = 80, most = 100;
  if (!output.path.empty()) return most;
  winsize size{};
  const bool terminal = ::isatty(STDOUT_FILENO) == 1 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0;
  std::size_t wanted = terminal ? size.ws_col : 0;
  const char* const columns = std::getenv("COLUMNS");
  if (wanted == 0 && columns != nullptr) {
    const std::string_view text = columns;
    (void)std::from_chars(text.data(), text.data() + text.size(), wanted);
  }
  return wanted == 0 ? most : std::clamp(wanted, least, most);
}

/// How text for people is written here and now.
inline TextOptions text_options(const OutputOptions& output) {
  return {.units = output.units, .colour = wants_colour(output), .width = output_width(output)};
}

/// Writes the whole text to the file or to standard output.
inline void deliver(const std::string& text, const OutputOptions& output) {
  if (!output.path.empty()) {
    write_text_file(output.path, text, output.force ? Existing::replace : Existing::refuse);
    return;
  }
  if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0) {
    throw InputError("standard output", fmt::format("cannot be written: {}", std::strerror(errno)));
  }
}

/// Runs `work` so that its errors name the file they come from.
template <class Work>
auto naming(const std::string& file, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const InputError& error) {
    throw error.inside(file);
  } catch (const IllPosedError& error) {
    throw IllPosedError(file + ": " + error.what());
  }
}

namespace command_detail {
inline volatile std::sig_atomic_t interrupted = 0;
}

/// True after Ctrl-C.
inline bool was_interrupted() { return command_detail::interrupted != 0; }

/// What a long command hands to its study: a bar on standard error where that is a terminal, and a stop at Ctrl-C, so
/// that what is done is kept. A second Ctrl-C ends the program at once.
inline Progress watch(const OutputOptions& output) {
  std::signal(SIGINT, [](int) {
    command_detail::interrupted = 1;
    std::signal(SIGINT, SIG_DFL);
  });
  const bool shown = !output.quiet && ::isatty(STDERR_FILENO) == 1;
  auto bar = std::make_shared<std::unique_ptr<boost::timer::progress_display>>();
  return [shown, bar](std::size_t done, std::size_t total) {
    if (shown && total > 0) {
      if (!*bar) *bar = std::make_unique<boost::timer::progress_display>(total, std::cerr);
      if (done > (*bar)->count()) **bar += done - (*bar)->count();
    }
    return command_detail::interrupted == 0;
  };
}

}  // namespace libflow::app
