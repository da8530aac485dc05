// SPDX-License-Identifier: MIT
/// @file
/// [[tolerance]] of a layout file: what may differ from the layout as built and at work.
///
///     [[tolerance]]
///     of = "orifice_bore"
///     normal = "0.01 mm"        # standard deviation of every orifice
///     [[tolerance]]
///     of = "orifice_bore"
///     uniform = "1 %"           # and a whole box that is up to 1 % too wide or too narrow
///     together = true
#pragma once

#include <vector>

#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/tolerances.hpp>

namespace libflow {

namespace file_detail {

std::vector<Tolerance> read_tolerances(const TomlTable& top, const Layout& layout);

}  // namespace file_detail
}  // namespace libflow
