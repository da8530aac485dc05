// SPDX-License-Identifier: MIT
/// @file
/// Numbers in the text of a caution, in both systems of units, US first: whoever reads it chose neither.
#pragma once

#include <cmath>
#include <string>

#include <fmt/core.h>

#include <libflow/units/quantity.hpp>

namespace libflow::parts_detail {

/// As many significant digits, never with an exponent: larger numbers are whole.
[[nodiscard]] inline std::string plain_number(double value, int digits) {
  return std::abs(value) >= std::pow(10.0, digits) ? fmt::format("{:.0f}", value)
                                                   : fmt::format("{:.{}g}", value, digits);
}
/// "30 psi (207 kPa)"
[[nodiscard]] inline std::string pressure_words(double pascal) {
  return fmt::format("{} psi ({} kPa)", plain_number(pascal / si(units::psi), 3), plain_number(pascal / 1e3, 3));
}
/// "1.64 ft (0.5 m)"
[[nodiscard]] inline std::string length_words(double metre) {
  return fmt::format("{} ft ({} m)", plain_number(metre / si(units::ft), 3), plain_number(metre, 3));
}
/// "1.2 fl oz (35 mL)"
[[nodiscard]] inline std::string volume_words(double cubic_metre) {
  return fmt::format("{} fl oz ({} mL)", plain_number(cubic_metre / si(units::floz), 2),
                     plain_number(cubic_metre / si(units::mL), 2));
}

}  // namespace libflow::parts_detail
