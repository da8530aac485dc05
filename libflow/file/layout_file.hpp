// SPDX-License-Identifier: MIT
/// @file
/// A layout file in TOML to a Layout. The vocabulary stands in file/layout_keys.hpp.
///
///     name = "North bar"
///     [job]                      # what it has to do
///     product = "10-34-0"
///     temperature = "45 F"
///     rate = "5 gal/ac"
///     speed = "5 mph"
///     [toolbar]                  # a plain bar; or [[place]] and [[part]] for anything else
///     rows = 16
///     spacing = "30 in"
///     [[manifold]]
///     [hose]
///     bore = "1/4 in"
///     length = "22 ft"
///     [orifice]
///     bore = "0.04 in"
///
/// Every quantity is text with its unit; counts are plain whole numbers. A number without a unit is refused: nothing
/// in a file says whether 14 was meant in feet or metres.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>

#include <libflow/file/layout_drive.hpp>
#include <libflow/file/layout_network.hpp>
#include <libflow/file/layout_tolerances.hpp>
#include <libflow/file/layout_toolbar.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

namespace file_detail {

inline toml::table parse_toml(std::string_view text, std::string_view file) {
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error& error) {
    // It may show a line end or a control character of the file.
    const std::string shown = in_quotes(error.description(), 300);
    const std::string what = shown.substr(1, shown.size() - 2);
    const bool twice = what.find("redefine") != std::string::npos;
    throw InputError(file_place(file, error.source().begin.line, error.source().begin.column), what,
                     twice ? "each name once in a table"
                           : "lines 'name = value', with text and quantities in quotes, e.g. length = \"14 ft\"");
  }
}

inline Layout read_tables(const TomlTable& without_units, std::string_view file) {
  TomlTable top = without_units;
  Layout layout;
  if (top.has("units")) {
    layout.units = top.choice<UnitSystem>("units", {{"us", UnitSystem::us}, {"metric", UnitSystem::metric}});
  }
  top.set_units(layout.units);
  layout.name = top.has("name") ? top.text("name") : std::filesystem::path(file).stem().string();

  const bool free_form = top.has("place") || top.has("part");
  if (!free_form && !top.has("toolbar")) {
    top.fail({}, "nothing is plumbed", "a [toolbar], or [[place]] and [[part]]");
  }
  if (free_form) {
    for (const std::string_view key : {"toolbar", "manifold", "hose", "orifice", "check_valve", "row"}) {
      if (!top.has(key)) continue;
      top.fail(key, "does not go with [[place]] and [[part]]", "a [toolbar] or a free form, not both");
    }
    for (const std::string_view key : drive_tables) {
      if (top.has(key)) top.fail(key, "does not go with [[place]] and [[part]]", "tanks and pumps as places and parts");
    }
  }
  layout.job = read_job(top);
  if (free_form) {
    layout.plumbing = read_plumbing(top, layout.job);
  } else {
    Toolbar bar = read_toolbar(top);
    if (has_drive(top)) bar.drive = read_drive(top, layout.job);
    if (bar.drive && layout.job.pressure) {
      top.table("job", layout_keys::job)
          .fail("pressure", "the drive makes the pressure", "a setting in [drive], or no pressure");
    }
    layout.plumbing = std::move(bar);
  }
  layout.range = read_range(top);
  layout.tolerances = read_tolerances(top, layout);
  return layout;
}

}  // namespace file_detail

/// @param toml_text  the text of a layout file
/// @param file_name  its name, for messages
/// @throws InputError  naming file, line, column, key, value, what is allowed and the nearest valid name
[[nodiscard]] inline Layout parse_layout(std::string_view toml_text, std::string_view file_name) {
  check_text(toml_text, file_name);
  const toml::table table = file_detail::parse_toml(toml_text, file_name);
  return file_detail::read_tables({table, file_name, "", layout_keys::top}, file_name);
}

/// @throws InputError  as parse_layout; missing, a folder, unreadable, larger than largest_text_file
[[nodiscard]] inline Layout read_layout(const std::filesystem::path& path) {
  return parse_layout(read_text_file(path), path.string());
}

}  // namespace libflow
