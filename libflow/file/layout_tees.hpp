// SPDX-License-Identifier: MIT
/// @file
/// [[tee]] of a layout file: which places of a free-form plumbing are tees.
#pragma once

#include <vector>

#include <libflow/file/toml_table.hpp>
#include <libflow/network/tee_at.hpp>

namespace libflow::file_detail {

/// @throws InputError  with line and column: a place that is no junction, has a tee already or other parts than the
/// legs;
///                     a part that is not there, does not end at the place or is a leg twice; bores out of range
std::vector<TeeAt> read_tees(const TomlTable& top, const Network& network);

}  // namespace libflow::file_detail
