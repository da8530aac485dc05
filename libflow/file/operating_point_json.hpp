// SPDX-License-Identifier: MIT
/// @file
/// An operating point as JSON: SI numbers with their unit in the key or beside them, null for no finite number.
#pragma once

#include <string_view>

#include <libflow/file/results_json.hpp>
#include <libflow/study/operating_point.hpp>

namespace libflow {

/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(LimitKind kind) {
  switch (kind) {
    case LimitKind::stops:
      return "stops";
    case LimitKind::wanted:
      return "wanted";
    case LimitKind::advised:
      return "advised";
  }
  return "unknown";
}

/// As JSON, SI units in the names.
[[nodiscard]] Json limits_to_json(const Limits& limits);

/// As JSON, SI units in the names.
[[nodiscard]] Json operating_point_to_json(const OperatingPoint& p);

}  // namespace libflow
