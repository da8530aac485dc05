// SPDX-License-Identifier: MIT
/// @file
/// What the program does for each subcommand: read, compute, write; the exit code says how it went.
#pragma once

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <unistd.h>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/text.hpp>
#include <libflow/study.hpp>

namespace libflow::app {

/// What the program leaves for scripts.
enum Exit : int {
  exit_even = 0,       ///< solve: every row within the tolerance; compare: all layouts solved
  exit_not_even = 1,   ///< solve: at least one row outside the tolerance
  exit_bad_input = 2,  ///< the command line, a file or a value in it
  exit_unsolved = 3    ///< plumbing without an answer, or no convergence
};

enum class Format { text, json, csv };

struct OutputOptions {
  Format format = Format::text;
  std::optional<UnitSystem> units;
  std::string path;    ///< empty: standard output
  bool force = false;  ///< replace a file that exists
};

/// Colour only on a terminal that shows it, and never where the user's NO_COLOR asks for none.
inline bool wants_colour(const OutputOptions& output) {
  const char* const no_colour = std::getenv("NO_COLOR");
  const char* const terminal = std::getenv("TERM");
  const bool dumb = terminal != nullptr && std::strcmp(terminal, "dumb") == 0;
  return output.path.empty() && (no_colour == nullptr || *no_colour == '\0') && !dumb && ::isatty(STDOUT_FILENO) == 1;
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

/// The answer for one file; an error in the layout names the file also where it shows only while building.
inline Answer answer_for(const std::string& file) {
  Layout layout = read_layout(file);
  try {
    return main_job(std::move(layout));
  } catch (const InputError& error) {
    throw error.inside(file);
  } catch (const IllPosedError& error) {
    throw IllPosedError(file + ": " + error.what());
  }
}

inline int solve_file(const std::string& file, const OutputOptions& output) {
  const Answer answer = answer_for(file);
  std::string text;
  switch (output.format) {
    case Format::json:
      text = to_text(results_to_json(answer));
      break;
    case Format::csv:
      text = results_to_csv(answer, output.units.value_or(answer.layout.units));
      break;
    case Format::text:
      text = main_job_text(answer, {.units = output.units, .colour = wants_colour(output)});
      break;
  }
  if (!answer.solution.usable()) throw IllPosedError(fmt::format("{}: {}", file, answer.solution.message));
  deliver(text, output);
  return answer.evenness.even ? exit_even : exit_not_even;
}

inline int compare_files(const std::vector<std::string>& files, const OutputOptions& output) {
  std::vector<Layout> layouts;
  for (const std::string& file : files) layouts.push_back(read_layout(file));
  const Comparison comparison = compare(layouts);
  for (std::size_t k = 0; k < comparison.answers.size(); ++k) {
    const Solution& s = comparison.answers[k].solution;
    if (!s.usable()) throw IllPosedError(fmt::format("{}: {}", files[k], s.message));
  }
  std::string text;
  switch (output.format) {
    case Format::json:
      text = to_text(comparison_to_json(comparison));
      break;
    case Format::csv:
      text = comparison_to_csv(comparison, output.units.value_or(layouts.front().units));
      break;
    case Format::text:
      text = comparison_text(comparison, {.units = output.units, .colour = wants_colour(output)});
      break;
  }
  deliver(text, output);
  return exit_even;
}

}  // namespace libflow::app
