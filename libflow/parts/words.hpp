// SPDX-License-Identifier: MIT
/// @file
/// Numbers in the text of a caution, in both systems of units, US first: whoever reads it chose neither.
#pragma once

#include <string>

#include <fmt/core.h>

#include <libflow/units/quantity.hpp>

namespace libflow::parts_detail {

/// "30 psi (207 kPa)"
[[nodiscard]] inline std::string pressure_words(double pascal) {
  return fmt::format("{:.3g} psi ({:.3g} kPa)", pascal / si(units::psi), pascal / 1e3);
}
/// "1.64 ft (0.5 m)"
[[nodiscard]] inline std::string length_words(double metre) {
  return fmt::format("{:.3g} ft ({:.3g} m)", metre / si(units::ft), metre);
}
/// "1.2 fl oz (35 mL)"
[[nodiscard]] inline std::string volume_words(double cubic_metre) {
  return fmt::format("{:.2g} fl oz ({:.2g} mL)", cubic_metre / si(units::floz), cubic_metre / si(units::mL));
}

}  // namespace libflow::parts_detail
