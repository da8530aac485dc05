// SPDX-License-Identifier: MIT
/// @file
/// [size] of a layout file: what sizing may choose from. Every reader of layouts checks it; this one keeps it.
#pragma once

#include <filesystem>
#include <string_view>

#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace file_detail {

class TomlTable;

SizeChoices read_size(const TomlTable& top, const Layout& layout);

}  // namespace file_detail

/// A layout and what sizing may choose from for it; without [size] every choice is at its default.
struct SizeFile {
  Layout layout{};        ///< as given
  SizeChoices choices{};  ///< what [size] says
};

/// @throws InputError  as parse_layout
[[nodiscard]] SizeFile parse_size(std::string_view toml_text, std::string_view file_name);

/// @throws InputError  as read_layout
[[nodiscard]] SizeFile read_size(const std::filesystem::path& path);

}  // namespace libflow
