// SPDX-License-Identifier: MIT
/// @file
/// A catch test's plan and verdict as JSON, SI with units in the keys.
#pragma once

#include <vector>

#include <libflow/file/results_json.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/catch_verdict.hpp>

namespace libflow {

/// Word of a mark, for programs.
[[nodiscard]] constexpr const char* mark_name(CatchMark mark) {
  switch (mark) {
    case CatchMark::inside:
      return "inside";
    case CatchMark::outside:
      return "outside";
    case CatchMark::unproved:
      return "unproved";
    case CatchMark::missing:
      return "missing";
    case CatchMark::set_aside:
      return "set-aside";
  }
  return "unknown";
}

/// As JSON, SI units in the names.
[[nodiscard]] Json catch_plan_to_json(const CatchPlan& plan);

/// Readings to look at first.
[[nodiscard]] Json doubts_to_json(const std::vector<DoubtfulReading>& doubts);

/// As JSON, SI units in the names.
[[nodiscard]] Json catch_verdict_to_json(const CatchVerdict& v);

}  // namespace libflow
