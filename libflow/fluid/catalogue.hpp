// SPDX-License-Identifier: MIT
/// @file
/// The built-in liquids: water, and the fertilizer solutions that row plumbing carries.
#pragma once

#include <cctype>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/fluid/catalogue_data.hpp>
#include <libflow/fluid/liquid.hpp>

namespace libflow {

/// Every built-in liquid, water first.
[[nodiscard]] inline const std::vector<Liquid>& catalogue() {
  static const std::vector<Liquid> all = [] {
    std::vector<Liquid> liquids;
    for (LiquidRecord& record : fluid_detail::catalogue_records()) liquids.emplace_back(std::move(record));
    return liquids;
  }();
  return all;
}

namespace fluid_detail {

/// A name reduced to what matters: small letters, no separators, except one dash between two digits ("10 34 0" and
/// "10-34-0" are one name, "1034-0" is another). Typographic dashes count as dashes.
inline std::string plain_name(std::string_view written) {
  std::string plain;
  bool gap = false;
  for (std::size_t i = 0; i < written.size(); ++i) {
    const auto c = static_cast<unsigned char>(written[i]);
    const bool long_dash = c == 0xE2 && i + 2 < written.size() && static_cast<unsigned char>(written[i + 1]) == 0x80 &&
                           static_cast<unsigned char>(written[i + 2]) >= 0x90 &&
                           static_cast<unsigned char>(written[i + 2]) <= 0x95;  // U+2010 to U+2015
    if (long_dash) i += 2;
    if (long_dash || c == '-' || c == '_' || std::isspace(c) != 0) {
      gap = true;
      continue;
    }
    if (gap && !plain.empty() && std::isdigit(c) != 0 && std::isdigit(static_cast<unsigned char>(plain.back())) != 0) {
      plain += '-';
    }
    gap = false;
    plain += static_cast<char>(std::tolower(c));
  }
  return plain;
}

}  // namespace fluid_detail

/// The built-in liquid of this id or alias; letters' case, spaces, dashes and underscores do not matter.
/// @throws InputError listing the liquids (with those that need a viscosity of the user's own marked), with the nearest
/// name
[[nodiscard]] inline const Liquid& find_liquid(std::string_view name) {
  const std::string wanted = fluid_detail::plain_name(name);
  std::vector<std::string> names;
  std::string allowed;
  for (const Liquid& liquid : catalogue()) {
    if (fluid_detail::plain_name(liquid.id()) == wanted) return liquid;
    names.push_back(liquid.id());
    allowed += (allowed.empty() ? "" : ", ") + liquid.id();
    std::string note = liquid.aliases().empty() ? std::string() : liquid.aliases().front();
    if (!liquid.has_viscosity()) note += std::string(note.empty() ? "" : "; ") + "needs your viscosity";
    if (!note.empty()) allowed += " (" + note + ")";
    for (const std::string& alias : liquid.aliases()) {
      if (fluid_detail::plain_name(alias) == wanted) return liquid;
      names.push_back(alias);
    }
  }
  throw InputError("liquid", "'" + std::string(name) + "' is not a liquid that is known here",
                   allowed + ", or one of your own by measured points", nearest_name(name, names));
}

}  // namespace libflow
