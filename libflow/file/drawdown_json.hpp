// SPDX-License-Identifier: MIT
/// @file
/// A fill as JSON, and its samples as comma-separated values.
#pragma once

#include <string>
#include <string_view>

#include <libflow/file/results_json.hpp>
#include <libflow/study/drawdown_result.hpp>

namespace libflow {

/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(DrawdownEventKind kind) {
  switch (kind) {
    case DrawdownEventKind::tank_empty:
      return "tank empty";
    case DrawdownEventKind::valve_shut:
      return "valve shut";
    case DrawdownEventKind::valve_open:
      return "valve open";
    case DrawdownEventKind::overflow_begins:
      return "overflow begins";
  }
  return "unknown";
}
/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(DrawdownEnd end) {
  switch (end) {
    case DrawdownEnd::all_empty:
      return "all empty";
    case DrawdownEnd::flow_faded:
      return "flow faded";
    case DrawdownEnd::time_limit:
      return "time limit";
    case DrawdownEnd::too_many_events:
      return "too many events";
    case DrawdownEnd::stopped:
      return "stopped";
  }
  return "unknown";
}

/// As JSON, SI units in the names.
[[nodiscard]] Json drawdown_to_json(const Drawdown& d);

/// One line a sample; times in minutes.
[[nodiscard]] std::string drawdown_to_csv(const Drawdown& d, UnitSystem u);

}  // namespace libflow
