// SPDX-License-Identifier: MIT
/// @file
/// The highest pressure at the gauge: what the layout states, and one assumption, the same for every study, where it
/// states none.
#pragma once

#include <optional>
#include <string>

#include <libflow/core/caution.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// Where nobody says what a supply can give, nothing is planned above this: 60 psi at the gauge, the upper end of the
/// window in which such bars are worked (common practice, no source).
inline constexpr double assumed_pressure_limit = 60.0 * 6894.757293168;  // [Pa]

/// The highest pressure that the supply can give at the gauge. SI.
struct PressureLimit {
  double most = 0;       ///< [Pa gauge]
  bool assumed = false;  ///< the layout states none: assumed_pressure_limit
};

/// Where an assumed limit comes from, as Limit::source.
inline constexpr const char* assumed_limit_source = "assumed, the layout gives none (common practice, no source)";

/// job.pump_limit; without it the assumption, where no pump is described that has limits of its own and the supply is
/// ideal. Empty: a drive, or the parts of a layout place by place, limit the pressure.
/// @param toolbar   the layout's; nullptr: place by place
/// @param plumbing  of a layout place by place; nullptr with a toolbar
[[nodiscard]] std::optional<PressureLimit> pressure_limit(const Job& job, const Toolbar* toolbar,
                                                          const Plumbing* plumbing);
/// The same for a layout.
[[nodiscard]] std::optional<PressureLimit> pressure_limit(const Layout& layout);

/// The limit's name: "pump limit" where a drive's pump is described, otherwise "pressure limit".
[[nodiscard]] std::string pressure_limit_name(bool drive);

/// What is assumed and which line of the layout replaces it; empty where nothing is assumed.
[[nodiscard]] std::string assumed_limit_sentence(const Layout& layout);

/// "assumed-pressure-limit" where the gauge's pressure keeps an assumed limit, "above-assumed-limit" where it does not;
/// none where the limit is stated.
/// @param gauge  total gauge pressure at the supply [Pa]
[[nodiscard]] std::optional<Caution> assumed_limit_caution(const Layout& layout, double gauge);

}  // namespace libflow
