// SPDX-License-Identifier: MIT
/// @file
/// Readings of a catch test that a person should look at first, and probabilities in words.
#pragma once

#include <string>
#include <vector>

#include <libflow/study/catch_screen.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// "Row 4 gave nothing: plugged, shut or not caught; look there and catch again.", one sentence for each thing to look
/// at; rows that gave nothing together.
std::vector<std::string> doubt_sentences(const CatchVerdict& v, UnitSystem u);

/// What was set aside in a few words: "row 4 (nothing caught), row 7 (a slipped decimal point)"; empty for nothing.
std::string doubts_in_short(const std::vector<DoubtfulReading>& doubts);

/// How often each row was caught, where not all alike: "Row 3 was caught twice, the other rows once: ..."; else empty.
std::string cups_note(const CatchVerdict& v);

/// A small probability in words: "less than one in 10,000", "about one in 450", "12 %", "more than 99 %".
std::string chance_text(double p);

/// How sure something is, never all or nothing: "more than 99 %", "85 %", "less than 1 %".
std::string sure_text(double p);

/// Shares of explanations that exclude each other, in whole per cent, so rounded that they add up to no more than all
/// do (largest remainders), and to no more than 100.
std::vector<std::string> share_texts(const std::vector<double>& shares);

}  // namespace libflow::report_detail
