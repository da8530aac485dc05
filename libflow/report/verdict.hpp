// SPDX-License-Identifier: MIT
/// @file
/// The verdict in one sentence, for one layout and for several.
#pragma once

#include <optional>
#include <string>

#include <libflow/core/caution.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

/// Below this CV rows differ by less than anybody can measure, and no cause is named.
inline constexpr double least_cv_explained = 1e-3;

/// The row furthest from the mean, or nullptr where none counts.
const RowResult* worst_row(const Evenness& e);

}  // namespace report_detail

/// The caution that the wanted rate is not reached (a pump's limit, the end of a control's range), or nullptr.
[[nodiscard]] const Caution* short_of_rate(const Answer& answer);

/// True where the verdict (even or not, the rate reached or not) is another one at an end of the viscosity's band.
[[nodiscard]] bool verdict_depends_on_viscosity(const Answer& answer);

/// "At 137 cP, the most likely viscosity; at the upper end of its band, 190 cP, NOT EVEN: row 8 is 6.1 % below the
/// mean." Empty where the verdict is the same over the whole band, or no band is known.
/// @param units  of the viscosities; empty: the layout's own
[[nodiscard]] std::string viscosity_sentence(const Answer& answer, std::optional<UnitSystem> units = std::nullopt);

/// "NOT EVEN: row 8 gets 12.1 % more than the mean, 10 of 16 rows are outside ±5 %; what decides it: hose lengths
/// (97 % of the variation)." What keeps the bar from the wanted rate follows: "BUT: ...", and viscosity_sentence().
/// Ends without a line end.
[[nodiscard]] std::string verdict_sentence(const Answer& answer);

/// "'B' is evener than 'A': CV 1.2 % against 6.3 %; what makes the difference: hose lengths."
/// @param with_stops  false: which layouts do not reach the rate is said elsewhere (rate_not_reached_sentences)
[[nodiscard]] std::string verdict_sentence(const Comparison& c, bool with_stops = true);

}  // namespace libflow
