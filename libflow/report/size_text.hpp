// SPDX-License-Identifier: MIT
/// @file
/// Sizing as text for people: what to buy, why, what else would do.
#pragma once

#include <cstddef>
#include <string>

#include <libflow/core/caution.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_problem.hpp>

namespace libflow {

namespace report_detail {

/// Of the list itself and of the liquids.
Cautions size_cautions(const SizeProblem& p);

/// "BUT ...", for right below what is to be cut: lengths without drop and slack. Empty where the problem has some.
std::string no_slack_note(const SizeProblem& p, std::size_t width);

}  // namespace report_detail

/// The sizing of one layout, at most TextOptions::width columns wide; opens with the verdict.
[[nodiscard]] std::string size_text(const SizeAnswer& a, const TextOptions& options = {});

}  // namespace libflow
