// SPDX-License-Identifier: MIT
/// @file
/// The verdict in one sentence, for one layout and for several; its word comes from study/verdict.hpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/study/as_built.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/verdict.hpp>
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

/// A row's deviation in %, with its sign and as many decimals as the verdict shows of the furthest row's: in every
/// table and picture.
std::string deviation_text(double deviation, const Evenness& e);

/// "97 % of the variation", "all of the variation".
std::string share_text(double share, const char* of = "the variation");

}  // namespace report_detail

/// How even the layout is as built: by its tolerances to first order (study/as_built.hpp), or where to ask. A line of
/// its own below the verdict; empty for a layout without tolerances that is not even as drawn either.
[[nodiscard]] std::string as_built_sentence(const Answer& answer);
/// "about 78 % of such machines are even, CV 2.1 % on average (first order; ...)."
[[nodiscard]] std::string as_built_words(const AsBuilt& built);

/// "At 137 cP, the most likely viscosity; at the upper end of its band, 190 cP, NOT EVEN: row 8 is 6.1 % below the
/// mean." Empty where the verdict is the same over the whole band, or no band is known.
/// @param units  of the viscosities; empty: the layout's own
[[nodiscard]] std::string viscosity_sentence(const Answer& answer, std::optional<UnitSystem> units = std::nullopt);

/// Beside verdict_word() in a table: "reached", "NOT REACHED", or "EXCEEDED" where a held pressure or setting gives
/// more than the wanted rate.
[[nodiscard]] std::string rate_word(const Answer& answer);

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
