// SPDX-License-Identifier: MIT
/// @file
/// [job] and [product] of a layout file.
#pragma once

#include <string>

#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace file_detail {

/// Runs `make`, and puts `place` in front of what it complains about.
template <class Make>
auto placed(const std::string& place, Make make) {
  try {
    return make();
  } catch (const InputError& error) {
    throw error.inside(place);
  }
}

Job read_job(const TomlTable& top);

}  // namespace file_detail
}  // namespace libflow
