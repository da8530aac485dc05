// SPDX-License-Identifier: MIT
/// @file
/// The kinds of [[part]] in a layout file: which keys each takes and how it is made from them.
#pragma once

#include <string_view>
#include <vector>

#include <libflow/file/toml_table.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow::file_detail {

Part read_orifice_part(const TomlTable& t, const Job& /*job*/);

Part read_relief_valve(const TomlTable& t, const Job& /*job*/);

Part read_valve(const TomlTable& t, const Job& /*job*/);

Part read_pulsed_valve(const TomlTable& t, const Job& /*job*/);

Part read_strainer(const TomlTable& t, const Job& /*job*/);

Part read_flow_meter(const TomlTable& t, const Job& /*job*/);

/// A kind of part.
struct PartKind {
  std::string_view name;
  std::vector<std::string_view> keys;  ///< beyond those that every part takes
  Part (*read)(const TomlTable& table, const Job& job);
};

/// Every kind; layout_keys::part_kinds lists the same names.
const std::vector<PartKind>& part_kind_table();

}  // namespace libflow::file_detail
