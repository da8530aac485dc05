// SPDX-License-Identifier: MIT
/// @file
/// A catch test on the page to print: the sheet to fill in, or the verdict with what is wrong.
#pragma once

#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

/// The sheet to take along.
[[nodiscard]] PageSection catch_plan_section(const CatchPlan& plan, const TextOptions& options = {});

/// What the cups say, and what is wrong.
/// @param diagnosis  nullptr: none was made
/// @param layout     as it was meant
/// @param time       of a cup [s]
[[nodiscard]] PageSection catch_section(const CatchVerdict& v, const Diagnosis* diagnosis, const Layout& layout,
                                        double time, const TextOptions& options = {});

}  // namespace libflow
