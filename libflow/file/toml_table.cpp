// SPDX-License-Identifier: MIT
#include <libflow/file/toml_table.hpp>

#include <string>

namespace libflow::file_detail {

toml::table parse_toml(std::string_view text, std::string_view file) {
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

}  // namespace libflow::file_detail
