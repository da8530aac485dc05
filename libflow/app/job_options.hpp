// SPDX-License-Identifier: MIT
/// @file
/// Options of several subcommands that change a layout's job or walk over speeds and rates.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

/// A quantity given as an option. A unit after a space is another word to the shell, so quotes are asked for.
template <class Q>
[[nodiscard]] Q parse_option(std::string_view text, const std::string& where) {
  try {
    return parse_quantity<Q>(text, where);
  } catch (const InputError& error) {
    const bool lost_its_unit = !text.empty() && text.find_first_not_of("0123456789.,+-/ ") == std::string_view::npos;
    if (!lost_its_unit) throw;
    throw InputError(where, error.what_is_wrong(), error.allowed() + "; in quotes where it has a space",
                     error.nearest());
  }
}

/// Another rate, speed or temperature than the file's.
struct JobOptions {
  std::optional<AreaRate> rate;
  std::optional<Speed> speed;
  std::optional<Temperature> temperature;
};

inline void add_job_options(CLI::App& command, JobOptions& job) {
  command
      .add_option_function<std::string>(
          "--rate", [&job](const std::string& text) { job.rate = parse_option<AreaRate>(text, "--rate"); },
          "instead of the file's, e.g. \"8 gal/ac\"")
      ->type_name("RATE");
  command
      .add_option_function<std::string>(
          "--speed", [&job](const std::string& text) { job.speed = parse_option<Speed>(text, "--speed"); },
          "instead of the file's, e.g. \"6 mph\"")
      ->type_name("SPEED");
  command
      .add_option_function<std::string>(
          "--temperature",
          [&job](const std::string& text) { job.temperature = parse_option<Temperature>(text, "--temperature"); },
          "of the liquid, instead of the file's, e.g. \"50 F\"")
      ->type_name("TEMPERATURE");
}

[[nodiscard]] inline Layout changed_job(Layout layout, const JobOptions& job) {
  if (job.rate) layout.job.rate = *job.rate;
  if (job.speed) layout.job.speed = *job.speed;
  if (job.temperature) layout.job.temperature = *job.temperature;
  return layout;
}

/// "3 mph, 4 mph, 5 mph" as quantities that rise.
template <class Q>
[[nodiscard]] std::vector<Q> parse_list(std::string_view text, const std::string& where) {
  std::vector<Q> values;
  while (true) {
    const std::size_t end = text.find(',');
    const std::string_view one = text.substr(0, end);
    try {
      values.push_back(parse_quantity<Q>(one, where));
    } catch (const InputError& error) {
      throw InputError(where, error.what_is_wrong(), error.allowed() + "; commas between several", error.nearest());
    }
    if (values.size() > 1 && !(si(values.back()) > si(values[values.size() - 2]))) {
      throw InputError(where, fmt::format("value {} is not above the one before it", values.size()),
                       "values that rise, e.g. \"3 mph, 5 mph\"");
    }
    if (end == std::string_view::npos) return values;
    text.remove_prefix(end + 1);
  }
}

/// An option that takes a list of quantities with commas between them.
template <class Q>
CLI::Option* add_list(CLI::App& command, const std::string& name, std::vector<Q>& values, const std::string& help) {
  return command
      .add_option_function<std::string>(
          name, [&values, name](const std::string& text) { values = parse_list<Q>(text, name); }, help)
      ->type_name("LIST");
}

}  // namespace libflow::app
