// SPDX-License-Identifier: MIT
/// @file
/// A diagnosis in words: what is wrong, how sure that is, what would look the same, and what to measure next.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/report/words.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

namespace report_detail {

/// What a cause is, as the end of "Row 5 gets less: ...".
std::string cause_phrase(const Layout& layout, const LikelyCause& l, UnitSystem u);

/// Where the whole bar is off: what the causes below take as right. Empty where it is not.
std::string takes_as_right(const std::vector<CatchVerdict>& catches);

/// One cause in words.
struct CauseWords {
  std::string lead;                ///< what it is, or that it is one of the items
  std::vector<std::string> items;  ///< explanations that exclude each other, each with its share; may be empty
  std::string tail;                ///< what to measure or to look at; may be empty
};
/// @param k  which of the causes
CauseWords cause_words(const Diagnosis& d, std::size_t k, const Layout& layout, UnitSystem u, double time);

/// Why no cause is named: the cups agree with the layout, or cannot be judged.
std::string no_cause_phrase(const Diagnosis& d);

/// What the layout as built changes and why, a line each, for the head of its file.
std::vector<std::string> calibrated_reasons(const Diagnosis& d, const Layout& layout, UnitSystem u);

std::string next_phrase(const FoundCause& f, UnitSystem u, double time);

}  // namespace report_detail

/// @param layout  as it was meant
/// @param time    of a cup [s], for what the next catch should hold
[[nodiscard]] std::string diagnosis_text(const Diagnosis& d, const Layout& layout, double time,
                                         const TextOptions& options = {});

}  // namespace libflow
