// SPDX-License-Identifier: MIT
/// @file
/// The verdict in one sentence, for one layout and for several.
#pragma once

#include <optional>
#include <string>
#include <vector>

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

/// All rows that are as far from the mean as the furthest one, on the same side, to a millionth of the mean.
std::vector<int> furthest_rows(const Evenness& e);

/// "8", "1, 16", "1 and 3 more": for a table.
std::string furthest_rows_text(const Evenness& e);

/// "97 % of the variation", "all of the variation".
std::string share_text(double share, const char* of = "the variation");

}  // namespace report_detail

/// What a verdict is worth.
enum class VerdictState {
  good,    ///< even, the wanted rate is given, and both hold over the whole band of the viscosity
  unsure,  ///< good at one viscosity of that band and not at another; or even, but by orifices that meter nothing
  bad      ///< not even, the rate is not reached, or there is no answer
};
/// Of one answer.
[[nodiscard]] VerdictState verdict_state(const Answer& answer);

/// The verdict in a table's words, the same in every text: "EVEN", "EVEN, not sure", "NOT EVEN", "NOT EVEN, not sure",
/// "NOT SOLVED". Whether the rate is reached is told beside it.
[[nodiscard]] std::string verdict_word(const Answer& answer);

/// How even the layout is as built: by its tolerances to first order (study/as_built.hpp), or where to ask. A line of
/// its own below the verdict; empty for a layout without tolerances that is not even as drawn either.
[[nodiscard]] std::string as_built_sentence(const Answer& answer);

/// The caution that the wanted rate is not reached (a pump's limit, an assumed limit, the end of a control's range), or
/// nullptr.
[[nodiscard]] const Caution* short_of_rate(const Answer& answer);

/// True where the verdict (even or not, the rate reached or not) is another one at an end of the viscosity's band.
[[nodiscard]] bool verdict_depends_on_viscosity(const Answer& answer);

/// "At 137 cP, the most likely viscosity; at the upper end of its band, 190 cP, NOT EVEN: row 8 is 6.1 % below the
/// mean." Empty where the verdict is the same over the whole band, or no band is known.
/// @param units  of the viscosities; empty: the layout's own
[[nodiscard]] std::string viscosity_sentence(const Answer& answer, std::optional<UnitSystem> units = std::nullopt);

/// "NOT EVEN: row 8 gets 12.1 % more than the mean, 10 of 16 rows are outside ±5 %; what decides it: hose lengths
/// (97 % of the variation)." Where the wanted rate is not reached, that comes first and the rows after it in brackets:
/// "NOT REACHED: the rate needs 74.0 psi at the gauge, 60.0 psi is the limit. (At that rate the rows would be EVEN:
/// ...)". Then what speaks against the orifices, "BUT: ...", and viscosity_sentence(). Ends without a line end.
/// @param units  of pressures and viscosities; empty: the layout's own
[[nodiscard]] std::string verdict_sentence(const Answer& answer, std::optional<UnitSystem> units = std::nullopt);

/// "'B' is evener than 'A': CV 1.2 % against 6.3 %; what makes the difference: hose lengths."
/// @param with_stops  which layouts do not reach the rate is said first; false: elsewhere (rate_not_reached_sentences)
[[nodiscard]] std::string verdict_sentence(const Comparison& c, bool with_stops = true);

}  // namespace libflow
