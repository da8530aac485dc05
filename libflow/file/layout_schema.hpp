// SPDX-License-Identifier: MIT
/// @file
/// The layout file's vocabulary as a JSON Schema (draft 2020-12), from which TOML editors complete and check names.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <libflow/file/results_json.hpp>

namespace libflow {

/// The schema of a layout file. It knows names and kinds of values; units, ranges and what goes together are checked
/// by the reader (parse_layout). Where a table of the file holds another (a tank in a place), its name is its key.
[[nodiscard]] Json layout_schema();

}  // namespace libflow
