// SPDX-License-Identifier: MIT
/// @file
/// The catch test on paper: the sheet to take along, and the verdict on what came back.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>

namespace libflow {

namespace report_detail {

/// Unit of a cup's volume as it is read: fluid ounces or millilitres.
std::string cup_unit(UnitSystem u);
std::string cup_number(double volume, UnitSystem u);

/// "first catch", "second catch"; of one catch alone "catch".
std::string which_catch(std::size_t k, std::size_t of);

/// How the cups were caught: "catch_day.csv: the product, gauge at 39.00 psi, 30 s each".
std::string catch_setting_text(const CatchVerdict& v, UnitSystem u);

/// How long a strip is and what its cup means.
std::string strip_text(const CatchPlan& plan, UnitSystem u);

std::string_view name_of(CatchMark mark);

}  // namespace report_detail

/// The sheet: what each cup should hold, with lines to fill in by hand.
[[nodiscard]] std::string catch_plan_text(const CatchPlan& plan, const TextOptions& options = {});

/// What to look at first, then "NOT EVEN: rows 3, 7 read outside ±5 %; proved for 3 ...".
/// @param units  of cups that are named; empty: the layout's
[[nodiscard]] std::string catch_sentence(const CatchVerdict& v, std::optional<UnitSystem> units = std::nullopt);

/// What all catches say, each named where there are several, and how the whole bar stands against the layout.
[[nodiscard]] std::string catch_sentence(const std::vector<CatchVerdict>& catches,
                                         std::optional<UnitSystem> units = std::nullopt);

/// The verdict, row by row.
[[nodiscard]] std::string catch_verdict_text(const CatchVerdict& v, const TextOptions& options = {});

/// The verdicts of several catches of one bar, each under its title; what is wrong with the whole bar stands first.
[[nodiscard]] std::string catch_verdicts_text(const std::vector<CatchVerdict>& catches,
                                              const TextOptions& options = {});

}  // namespace libflow
