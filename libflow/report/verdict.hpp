// SPDX-License-Identifier: MIT
/// @file
/// The verdict in one sentence, for one layout and for several.
#pragma once

#include <string>

#include <libflow/core/caution.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace report_detail {

/// Below this CV rows differ by less than anybody can measure, and no cause is named.
inline constexpr double least_cv_explained = 1e-3;

/// The row furthest from the mean, or nullptr where none counts.
const RowResult* worst_row(const Evenness& e);

}  // namespace report_detail

/// The caution that the wanted rate is not reached (a pump's limit, the end of a control's range), or nullptr.
[[nodiscard]] const Caution* short_of_rate(const Answer& answer);

/// "NOT EVEN: row 8 gets 12.1 % more than the mean, 10 of 16 rows are outside ±5 %; what decides it: hose lengths
/// (97 % of the variation)." What keeps the bar from the wanted rate follows: "BUT: ...". Ends without a line end.
[[nodiscard]] std::string verdict_sentence(const Answer& answer);

/// "'B' is evener than 'A': CV 1.2 % against 6.3 %; what makes the difference: hose lengths."
[[nodiscard]] std::string verdict_sentence(const Comparison& c);

}  // namespace libflow
