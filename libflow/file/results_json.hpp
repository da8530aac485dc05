// SPDX-License-Identifier: MIT
/// @file
/// Results as JSON: SI numbers with their unit in the key, null where there is no finite number.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include <libflow/study/as_built.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/version.hpp>

namespace libflow {

/// Keeps the order of its keys, so that the same answer is the same text.
using Json = nlohmann::ordered_json;

/// Words for results, in JSON and CSV.
[[nodiscard]] constexpr std::string_view name_of(Status status) {
  switch (status) {
    case Status::not_solved:
      return "not solved";
    case Status::converged:
      return "converged";
    case Status::iteration_limit:
      return "iteration limit";
  }
  return "unknown";
}
/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(Regime regime) {
  switch (regime) {
    case Regime::still:
      return "still";
    case Regime::laminar:
      return "laminar";
    case Regime::transition:
      return "transition";
    case Regime::turbulent:
      return "turbulent";
  }
  return "unknown";
}
/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(ValveState state) {
  switch (state) {
    case ValveState::none:
      return "none";
    case ValveState::open:
      return "open";
    case ValveState::closed:
      return "closed";
  }
  return "unknown";
}

/// Every caution of an answer, each once: of the liquid and the parts, then of the rows.
[[nodiscard]] Cautions all_cautions(const Answer& answer);

namespace file_detail {

/// JSON has no NaN and no infinity.
Json number(double value);
template <class Q>
Json number(const std::optional<Q>& value) {
  return value ? number(si(*value)) : Json(nullptr);
}

Json job_json(const Answer& a);

/// null where there is none.
Json as_built_json(const std::optional<AsBuilt>& built);

}  // namespace file_detail

/// One caution; value and limit are SI.
[[nodiscard]] Json caution_to_json(const Caution& c);

/// Everything that is known of one answer. Where the solution is not usable, "evenness" and "network" are null.
[[nodiscard]] Json results_to_json(const Answer& answer);

/// Each layout as results_to_json has it, and row by row how far each is from the first.
[[nodiscard]] Json comparison_to_json(const Comparison& comparison);

/// Two-space indented text. Bytes that are no UTF-8, which only names made in code can hold, are replaced.
[[nodiscard]] std::string to_text(const Json& json);

}  // namespace libflow
