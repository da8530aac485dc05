// SPDX-License-Identifier: MIT
/// @file
/// [drive] and the tables that go with it: tanks, pump, lines, what returns to the tank, valves; and [range].
#pragma once

#include <array>
#include <string_view>

#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow::file_detail {

/// Tables that belong to a drive.
inline constexpr std::array<std::string_view, 15> drive_tables{
    "drive",         "tank",     "suction", "suction_strainer", "pump",          "relief",   "bypass",   "meter",
    "line_strainer", "throttle", "pulse",   "regulator",        "section_valve", "delivery", "agitation"};

bool has_drive(const TomlTable& top);

/// All tables of a drive.
Drive read_drive(const TomlTable& top, const Job& job);

WorkingRange read_range(const TomlTable& top);

}  // namespace libflow::file_detail
