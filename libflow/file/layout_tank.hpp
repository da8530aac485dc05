// SPDX-License-Identifier: MIT
/// @file
/// A supply place's tank: its shape and the level in it.
#pragma once

#include <libflow/file/toml_table.hpp>
#include <libflow/parts/tank.hpp>

namespace libflow::file_detail {

/// A tank and how full it is.
struct FilledTank {
  Tank tank;
  Length level{};  ///< above the inside bottom
};

/// The table `tank` of a supply place. The part checks what its keys allow one by one.
FilledTank read_tank(const TomlTable& t);

}  // namespace libflow::file_detail
