// SPDX-License-Identifier: MIT
/// @file
/// The catch test on paper: the sheet to take along, and the verdict on what came back.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>

namespace libflow {

namespace report_detail {

/// A cup's volume as it is read: fluid ounces or millilitres.
std::string cup_unit(UnitSystem u);
std::string cup_number(double volume, UnitSystem u);

std::string_view name_of(CatchMark mark);

}  // namespace report_detail

/// The sheet: what each cup should hold, with lines to fill in by hand.
[[nodiscard]] std::string catch_plan_text(const CatchPlan& plan, const TextOptions& options = {});

/// "NOT EVEN: rows 3, 7 read outside ±5 %, both proved ..."
[[nodiscard]] std::string catch_sentence(const CatchVerdict& v);

/// The verdict, row by row.
[[nodiscard]] std::string catch_verdict_text(const CatchVerdict& v, const TextOptions& options = {});

}  // namespace libflow
