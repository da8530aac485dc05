// SPDX-License-Identifier: MIT
/// @file
/// What an answer is worth: even or not, sure or not, the rate reached or not. Texts, pages, JSON and Python all take
/// their word from here.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// What a verdict is worth.
enum class VerdictState {
  good,    ///< even, the wanted rate is given, and both hold over the whole band of the viscosity
  unsure,  ///< good at one viscosity of that band and not at another; or good, but a figure looks like a slip
           ///< (layout_doubt)
  bad      ///< not even, the rate is not reached, or there is no answer
};
/// Of one answer.
[[nodiscard]] VerdictState verdict_state(const Answer& answer);

/// The verdict in a table's words, the same in every text: "EVEN", "EVEN, not sure", "NOT EVEN", "NOT EVEN, not sure",
/// "NOT SOLVED". Whether the rate is reached is told beside it.
[[nodiscard]] std::string verdict_word(const Answer& answer);

/// A whole bar is off beyond the tolerance of its rows, but no earlier than at 5 %, which stop-watch, gauge and cups
/// together are good to, and no later than at 10 % (common practice, no source) [-].
/// @param tolerance  of the rows [-]
[[nodiscard]] constexpr double level_limit(double tolerance) { return std::clamp(tolerance, 0.05, 0.10); }

/// "other-rate-held": what a layout holds (a gauge pressure, a setting, its own supply) gives more or less than the
/// wanted rate, by more than level_limit(); empty: it does not.
[[nodiscard]] std::optional<Caution> other_rate_held(const Plumbing& plumbing, const Job& job, const Evenness& e);

/// The caution that the wanted rate is not given (a pump's limit, an assumed limit, the end of a control's range, or a
/// pressure or setting that is held and gives another rate, be it more), or nullptr.
[[nodiscard]] const Caution* short_of_rate(const Answer& answer);

/// The verdict at an end of the viscosity's band (even or not, the rate reached or not) is another one than the
/// answer's.
[[nodiscard]] bool changes_verdict(const Answer& answer, const ViscosityEnd& end);

/// True where the verdict is another one at an end of the viscosity's band.
[[nodiscard]] bool verdict_depends_on_viscosity(const Answer& answer);

/// The one row that pulls the mean so far that others are outside the tolerance, though without it each of them is
/// within the tolerance of their own mean; 0: there is none, or fewer than three rows.
/// @param rates  row number and rate, in any unit
[[nodiscard]] int row_that_pulls_the_mean(const std::vector<std::pair<int, double>>& rates, double tolerance);
/// Of the open rows of an answer.
[[nodiscard]] int row_that_pulls_the_mean(const Evenness& e);

}  // namespace libflow
