// SPDX-License-Identifier: MIT
/// @file
/// [[place]], [[part]] and [[tee]] of a layout file: any plumbing, as a network with its rows.
#pragma once

#include <libflow/file/toml_table.hpp>
#include <libflow/parts.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow::file_detail {

Plumbing read_plumbing(const TomlTable& top, const Job& job);

}  // namespace libflow::file_detail
