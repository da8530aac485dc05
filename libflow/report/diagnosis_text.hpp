// SPDX-License-Identifier: MIT
/// @file
/// A diagnosis in words: what is wrong, how sure that is, what would look the same, and what to measure next.
#pragma once

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

std::string next_phrase(const FoundCause& f, UnitSystem u, double time);

}  // namespace report_detail

/// @param layout  as it was meant
/// @param time    of a cup [s], for what the next catch should hold
[[nodiscard]] std::string diagnosis_text(const Diagnosis& d, const Layout& layout, double time,
                                         const TextOptions& options = {});

}  // namespace libflow
