// SPDX-License-Identifier: MIT
/// @file
/// Several layout files at once, told apart by their names.
#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow::app {

/// The layouts of some files, in their order. Where two have one name, the file's stands behind it: 'North bar
/// (a.toml)'.
/// @throws InputError naming the file
[[nodiscard]] inline std::vector<Layout> read_layouts(const std::vector<std::string>& files) {
  std::vector<Layout> layouts;
  std::vector<std::string> names;
  for (const std::string& file : files) {
    layouts.push_back(read_layout(file));
    names.push_back(layouts.back().name);
  }
  for (std::size_t k = 0; k < files.size(); ++k) {
    if (std::count(names.begin(), names.end(), names[k]) > 1) {
      const auto base = [](const std::string& file) { return std::filesystem::path(file).filename().string(); };
      const bool same = std::count_if(files.begin(), files.end(),
                                      [&](const std::string& other) { return base(other) == base(files[k]); }) > 1;
      layouts[k].name = fmt::format("{} ({})", names[k], same ? files[k] : base(files[k]));
    }
  }
  return layouts;
}

}  // namespace libflow::app
