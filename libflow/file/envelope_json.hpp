// SPDX-License-Identifier: MIT
/// @file
/// An envelope as data: JSON (SI numbers with their unit in the key, null for no number) and CSV.
#pragma once

#include <string>
#include <string_view>

#include <libflow/file/results_json.hpp>
#include <libflow/study/envelope.hpp>

namespace libflow {

/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(PointState state) {
  switch (state) {
    case PointState::cannot_run:
      return "cannot run";
    case PointState::poor:
      return "poor";
    case PointState::even:
      return "even";
  }
  return "unknown";
}

/// As JSON, SI units in the names.
[[nodiscard]] Json envelope_to_json(const Envelope& e);

/// One line a point.
[[nodiscard]] std::string envelope_to_csv(const Envelope& e, UnitSystem u);

}  // namespace libflow
