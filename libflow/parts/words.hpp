// SPDX-License-Identifier: MIT
/// @file
/// Numbers in the text of a caution, in both systems of units: whoever reads it chose neither.
#pragma once

#include <string>

#include <fmt/core.h>

#include <libflow/units/quantity.hpp>

namespace libflow::parts_detail {

/// "207 kPa (30 psi)"
[[nodiscard]] inline std::string pressure_words(double pascal) {
  return fmt::format("{:.3g} kPa ({:.3g} psi)", pascal / 1e3, pascal / si(units::psi));
}
/// "0.5 m (1.64 ft)"
[[nodiscard]] inline std::string length_words(double metre) {
  return fmt::format("{:.3g} m ({:.3g} ft)", metre, metre / si(units::ft));
}
/// "35 mL (1.18 fl oz)"
[[nodiscard]] inline std::string volume_words(double cubic_metre) {
  return fmt::format("{:.2g} mL ({:.2g} fl oz)", cubic_metre / si(units::mL), cubic_metre / si(units::floz));
}

}  // namespace libflow::parts_detail
