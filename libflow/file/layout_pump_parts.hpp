// SPDX-License-Identifier: MIT
/// @file
/// The kinds of [[part]] that are pumps.
#pragma once

#include <libflow/file/toml_table.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow::file_detail {

Part read_centrifugal_pump(const TomlTable& t, const Job& /*job*/);

Part read_pump_curve(const TomlTable& t, const Job& /*job*/);
Part read_positive_pump(const TomlTable& t, const Job& /*job*/);
Part read_ground_driven_pump(const TomlTable& t, const Job& job);

}  // namespace libflow::file_detail
