// SPDX-License-Identifier: MIT
/// @file
/// [toolbar] and the tables that go with it: manifold, hose, orifice, check_valve, row.
#pragma once

#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow::file_detail {

/// An orifice by its bore, or by the water that it passes. Keys of its table: bore, thickness, coefficient, or
/// rated_flow with rated_pressure; and wear (wear_pressure): what is read is the hole as worn.
OrificeChoice read_orifice(const TomlTable& table);

CheckValveChoice read_check_valve(const TomlTable& table);

/// What the rows have, from all tables of a bar.
Toolbar read_toolbar(const TomlTable& top);

}  // namespace libflow::file_detail
