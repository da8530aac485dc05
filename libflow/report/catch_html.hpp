// SPDX-License-Identifier: MIT
/// @file
/// A catch test on paper: the sheet to take along, and what the cups say, as parts of a layout's page and as pages of
/// their own.
#pragma once

#include <string>
#include <vector>

#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

/// The sheet to take along: what each cup should hold, with cells to fill in.
[[nodiscard]] PageSection catch_plan_section(const CatchPlan& plan, const TextOptions& options = {});

/// The sheet as a page of its own, the sheet first: what the person with the cups needs, on two sheets of paper.
[[nodiscard]] std::string catch_plan_page(const CatchPlan& plan, const TextOptions& options = {},
                                          const PageOrigin& origin = {});

/// What the cups say, for the top of a layout's page: the sentence that leads it, and a section for each catch, what is
/// wrong behind the last.
/// @param catches    one, or two at different settings
/// @param diagnosis  nullptr: none was made
/// @param layout     as it was meant
[[nodiscard]] PageFindings catch_findings_part(const std::vector<CatchVerdict>& catches, const Diagnosis* diagnosis,
                                               const Layout& layout, const TextOptions& options = {});

/// The same as a page of its own.
/// @param answer  the layout at its job, for what it predicts
[[nodiscard]] std::string catch_findings_page(const std::vector<CatchVerdict>& catches, const Diagnosis* diagnosis,
                                              const Answer& answer, const TextOptions& options = {},
                                              const PageOrigin& origin = {});

}  // namespace libflow
