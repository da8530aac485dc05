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
#include <string_view>

#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// @param toml_text  the text of a layout file
/// @param file_name  its name, for messages
/// @throws InputError  naming file, line, column, key, value, what is allowed and the nearest valid name
[[nodiscard]] Layout parse_layout(std::string_view toml_text, std::string_view file_name);

/// @throws InputError  as parse_layout; missing, a folder, unreadable, larger than largest_text_file
[[nodiscard]] Layout read_layout(const std::filesystem::path& path);

}  // namespace libflow
