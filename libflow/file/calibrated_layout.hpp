// SPDX-License-Identifier: MIT
/// @file
/// The layout file of a bar as it was built: the file as it is, with what a diagnosis found put into it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// @param toml_text   of the layout's file
/// @param file_name   its name, for messages
/// @param layout      that the file holds
/// @param calibrated  the same with other parts of rows, slope, manifolds or figures of the product (with_cause)
/// @param why         comment lines for the top of the new file, one sentence each; no line ends
/// @return a layout file with everything that the old one held, but for its comments; what changed is written in the
///         layout's units to eight digits, which keeps every flow within a millionth
/// @throws InputError  as parse_layout; a layout without [toolbar]; a text or a calibrated layout with other manifolds
[[nodiscard]] std::string calibrated_layout_text(std::string_view toml_text, std::string_view file_name,
                                                 const Layout& layout, const Layout& calibrated,
                                                 const std::vector<std::string>& why = {});

}  // namespace libflow
