// SPDX-License-Identifier: MIT
/// @file
/// One word of the layout file: its name, what it takes and what it means.
#pragma once

#include <span>
#include <string_view>

namespace libflow {

/// One key of one table.
struct LayoutKey {
  std::string_view name;     ///< as the file writes it; of a table its heading
  std::string_view takes;    ///< "length", "count", "text" ... or the words to choose from
  std::string_view meaning;  ///< one line, with the default where there is one
};

/// One table of the file; `name` is empty for the keys at the top.
struct LayoutTable {
  std::string_view name;            ///< as the file writes it; of a table its heading
  std::string_view meaning;         ///< in a sentence, for the schema
  std::span<const LayoutKey> keys;  ///< that it may hold
};

}  // namespace libflow
